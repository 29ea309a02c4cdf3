//! The form of a library entry: filled from what is kept, and read back.

use crate::domain::vocabulary::{Energy, ItemKind, Line, Outcome, SkillClass, Word};
use crate::ids::ExerciseId;
use crate::store::exercise::Exercise;
use crate::web::Form;
use crate::web::choices::number;

/// What a source is called where nothing is published.
const COMMON_PRACTICE: &str = "common practice";

/// The form of a new entry.
pub fn fresh() -> Form {
    Form::blank()
        .with("kind", ItemKind::Exercise.stored())
        .with("line", Line::None.stored())
        .with("energy", Energy::Calm.stored())
        .with("class", SkillClass::Ordinary.stored())
        .with("outcome", Outcome::Count.stored())
        .with("cool_down_minutes", "0")
        .with("usual_attempts", "10")
        .with("usual_times_a_week", "4")
        .with("source", COMMON_PRACTICE)
}

/// The form of an entry that is kept.
pub fn filled(entry: &Exercise) -> Form {
    Form::blank()
        .with("kind", entry.kind.stored())
        .with("name", &entry.name)
        .with("purpose", &entry.purpose)
        .with("owner_why", &entry.owner_why)
        .with("criterion", &entry.criterion)
        .with("set_up", &entry.set_up)
        .with("delivery", &entry.delivery)
        .with("equipment_note", &entry.equipment_note)
        .with("line", entry.line.stored())
        .with("clip", entry.clip.map_or("", Word::stored))
        .with("energy", entry.energy.stored())
        .with("impact", if entry.impact { "yes" } else { "" })
        .with("class", entry.class.stored())
        .with("outcome", entry.outcome.stored())
        .with("cool_down_minutes", number(Some(entry.cool_down_minutes)))
        .with("cool_down_way", &entry.cool_down_way)
        .with("usual_attempts", number(Some(entry.usual_attempts)))
        .with("usual_times_a_week", number(Some(entry.usual_times_a_week)))
        .with("caution", &entry.caution)
        .with("source", &entry.source)
}

/// A word that must be chosen; the usual one where nothing was, after saying so.
fn chosen<W: Word>(form: &mut Form, field: &str, usual: W, missing: &str) -> W {
    let word = form.word(field);
    if word.is_none() {
        form.refuse(field, missing);
    }
    word.unwrap_or(usual)
}

/// A whole number that must be there.
fn counted(form: &mut Form, field: &str, label: &str, low: i16, high: i16) -> i16 {
    let number = form.whole(field, label, low, high);
    if number.is_none() {
        form.refuse(field, format!("{label}: enter a whole number from {low} to {high}."));
    }
    number.unwrap_or(low)
}

/// The entry that the form says; what is wrong with it is in the form.
pub fn read(form: &mut Form, id: ExerciseId) -> Exercise {
    let line = chosen(form, "line", Line::None, "Choose what joins dog and handler.");
    let clip = form.word("clip").filter(|_| line != Line::None);
    let entry = Exercise {
        id,
        kind: chosen(form, "kind", ItemKind::Exercise, "Choose what this is."),
        name: form.required("name", 120, "Enter a name."),
        purpose: form.text("purpose", 1000),
        owner_why: form.text("owner_why", 1000),
        criterion: form.required("criterion", 1000, "Enter what earns the marker."),
        set_up: form.text("set_up", 2000),
        delivery: form.text("delivery", 2000),
        equipment_note: form.text("equipment_note", 1000),
        line,
        clip,
        energy: chosen(form, "energy", Energy::Calm, "Choose how much it winds a dog up."),
        impact: form.tick("impact"),
        class: chosen(form, "class", SkillClass::Ordinary, "Choose how sure to be before moving on."),
        outcome: chosen(form, "outcome", Outcome::Count, "Choose what a sitting yields."),
        cool_down_minutes: counted(form, "cool_down_minutes", "Cool-down", 0, 60),
        cool_down_way: form.text("cool_down_way", 200),
        usual_attempts: counted(form, "usual_attempts", "Tries a sitting", 1, 50),
        usual_times_a_week: counted(form, "usual_times_a_week", "Times a week", 1, 21),
        caution: form.text("caution", 1000),
        source: form.required("source", 500, "Enter where this comes from, or \"common practice\"."),
        archived_at: None,
    };
    // a skill is learnt without the dog: nothing is clipped
    if entry.line == Line::LongLine && entry.clip.is_none() && entry.kind != ItemKind::OwnerSkill {
        form.refuse("clip", "A long line needs to say where it is clipped.");
    }
    entry
}
