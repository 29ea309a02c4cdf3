//! An encounter as a form states it. Only the kind is needed; the rest may be left open.

use time::OffsetDateTime;

use crate::domain::encounter::EncounterFacts;
use crate::domain::owner_words::OwnerWord;
use crate::domain::vocabulary::{EncounterKind, Towards, Word};
use crate::ids::{EncounterId, TriggerId};
use crate::store::dog::Dog;
use crate::store::encounter::{Encounter, looked};
use crate::store::trigger::Trigger;
use crate::web::choices::{number, yes_no};
use crate::web::practice_logs::ask::Answers;
use crate::web::{Form, when, zones};

/// How strong a reaction was, 0–4. Common practice.
const REACTIONS: [(&str, &str); 5] = [
    ("0", "Noticed, stayed easy"),
    ("1", "Stared or stiffened, could look away"),
    ("2", "Barked or pulled, came back to me"),
    ("3", "Barked and lunged, hard to reach"),
    ("4", "Out of reach: could not eat or hear me"),
];

/// The answer "not sure" to a question that is asked for.
const NOT_SURE: &str = "not_sure";

/// What the Enter key sends in place of an answer.
const UNSAID: &str = "unsaid";

/// How strong, as people choose it.
pub fn reactions() -> Answers {
    REACTIONS.map(|(value, words)| (value, words.to_owned())).into()
}

/// A reaction in words.
pub fn reaction_words(reaction: i16) -> &'static str {
    usize::try_from(reaction).ok().and_then(|n| REACTIONS.get(n)).map_or("", |(_, words)| *words)
}

/// A kind in words.
pub fn kind_words(kind: EncounterKind, trainer: bool) -> &'static str {
    if trainer { kind.label() } else { kind.for_owner() }
}

/// What can be said to have happened here; "I am not coping" has a page of its own.
pub fn kinds(trainer: bool) -> Answers {
    let all = EncounterKind::ALL.iter().filter(|kind| **kind != EncounterKind::NotCoping);
    all.map(|kind| (kind.stored(), kind_words(*kind, trainer).to_owned())).collect()
}

/// Whom it was directed at.
pub fn towards(trainer: bool) -> Answers {
    let words = |word: Towards| if trainer { word.label() } else { word.for_owner() };
    let known = Towards::ALL.iter().map(|word| (word.stored(), words(*word).to_owned()));
    known.chain([(NOT_SURE, "Not sure".to_owned())]).collect()
}

/// Whether teeth broke the skin.
pub fn skin_broken() -> Answers {
    [("yes", "Yes"), ("no", "No"), (NOT_SURE, "Not sure")]
        .map(|(value, words)| (value, words.to_owned()))
        .into()
}

/// What is asked for after teeth: whom, and of a bite whether skin was broken. "Not sure" is an answer, and kept as not
/// stated; saying nothing is none. It is read whatever happened, for a browser may show the questions always.
fn teeth(form: &mut Form, facts: &mut EncounterFacts) {
    if facts.kind == EncounterKind::Bite && form.value("skin_broken").is_empty() {
        form.refuse("skin_broken", "Say whether skin was broken, or that you are not sure.");
    }
    if facts.is_aimed() && form.value("towards").is_empty() {
        form.refuse("towards", "Say whom it was aimed at, or that you are not sure.");
    }
    if !form.is("skin_broken", NOT_SURE) {
        facts.broken_skin = form.yes_no("skin_broken");
    }
    if !form.is("towards", NOT_SURE) {
        facts.towards = form.word("towards");
    }
}

/// Answers "not sure" to what must be answered of teeth and was not, where nobody is there to be asked: a bite that a phone kept
/// must not wait for it.
pub fn leave_open(form: &mut Form) {
    for field in ["skin_broken", "towards"] {
        if form.value(field).is_empty() {
            form.forget(field);
            *form = std::mem::take(form).with(field, NOT_SURE);
        }
    }
}

/// The form filled in from an encounter, so that sending it unchanged states the same.
pub fn filled(kept: &Encounter, zone: &str) -> Form {
    let f = &kept.facts;
    let not_sure = |is_asked: bool| if is_asked { NOT_SURE } else { "" };
    let skin = f.broken_skin.map(|_| yes_no(f.broken_skin));
    let (on, at) = when::filled((kept.happened_at, f.local_date), zone);
    Form::blank()
        .with("kind", f.kind.stored())
        .with("skin_broken", skin.unwrap_or(not_sure(f.kind == EncounterKind::Bite)))
        .with("towards", f.towards.map_or(not_sure(f.is_aimed()), Word::stored))
        .with("reaction", number(f.reaction))
        .with("trigger", number(kept.trigger))
        .with("what", &kept.what)
        .with("distance_m", number(f.distance_m))
        .with("place_name", &kept.place_name)
        .with("playful", yes_no(kept.playful))
        .with("froze", yes_no(kept.froze))
        .with("warned", yes_no(f.warned))
        .with("line", f.line.map_or("", Word::stored))
        .with("recovery", f.recovery.map_or("", Word::stored))
        .with("on", on)
        .with("at", at)
        .with("note", &kept.note)
}

/// Reads the form: the encounter, and when it was stated to have happened. `None` while the kind is not said; what
/// cannot be right stays in the form. `kept` is the one that is changed, where one is.
pub fn read(
    form: &mut Form,
    id: EncounterId,
    dog: &Dog,
    triggers: &[Trigger],
    now: OffsetDateTime,
    kept: Option<&Encounter>,
) -> Option<(Encounter, Option<OffsetDateTime>)> {
    let kind: Option<EncounterKind> = form.word("kind");
    let kind = kind.filter(|kind| *kind != EncounterKind::NotCoping);
    if kind.is_none() {
        form.refuse("kind", "Say what happened.");
    }
    let mut facts =
        EncounterFacts::on(zones::local_date(now, &dog.zone), kind.unwrap_or(EncounterKind::Other));
    teeth(form, &mut facts);
    if form.is("reaction", UNSAID) {
        form.refuse("reaction", "Choose how strong it was: one of these buttons sends it.");
    }
    let stated = match kept {
        Some(kept) => Some(when::read_again(form, &dog.zone, now, (kept.happened_at, kept.facts.local_date))),
        None => when::read(form, &dog.zone, now),
    };
    let happened_at = stated.map_or(now, |(at, _)| at);
    facts.local_date = stated.map_or(facts.local_date, |(_, on)| on);
    facts.happened_at = Some(happened_at);
    let trigger: Option<TriggerId> = form.id("trigger");
    if trigger.is_some_and(|id| !triggers.iter().any(|known| known.id == id)) {
        form.refuse("trigger", "Choose what it was about.");
    }
    let playful = form.yes_no("playful");
    facts.reaction = form.whole("reaction", "How strong was it", 0, 4);
    facts.warned = form.yes_no("warned");
    facts.recovery = form.word("recovery");
    facts.distance_m = form.whole("distance_m", "How far away", 0, 1000);
    facts.line = form.word("line");
    let froze = form.yes_no("froze");
    facts.looked = looked(playful, froze);
    for wrong in facts.check() {
        form.refuse(wrong.field, wrong.says);
    }
    if !facts.is_aimed() {
        (facts.towards, facts.broken_skin) = (None, None);
    }
    let encounter = Encounter {
        id,
        dog: dog.id,
        trigger,
        what: form.text("what", 200),
        playful,
        froze,
        place_name: form.text("place_name", 120),
        note: form.text("note", 2000),
        happened_at,
        facts,
    };
    kind.map(|_| (encounter, stated.map(|(at, _)| at)))
}
