//! The form of each section: filled from what is stated, and read back.

use time::Date;

use crate::actions::edit_dog;
use crate::domain::vocabulary::{BirthPrecision, VetStatus, Word};
use crate::ids::MembershipId;
use crate::store::dog_profile::{Care, Food, Goal, Health, Identity, Profile, Safety, Vet};
use crate::web::Form;
use crate::web::choices::{number, yes_no};
use crate::web::dogs::past_day;
use crate::web::dogs::section::Section;

/// The heaviest that a weight may be, kg: above the heaviest dogs on record.
pub const HEAVIEST: f64 = 149.0;

/// The form of a section, filled from what is stated.
pub fn filled(section: Section, profile: &Profile) -> Form {
    let form = Form::blank();
    match section {
        Section::Who => fill_identity(form, &profile.identity),
        Section::Health => fill_health(form, &profile.health),
        Section::Food => {
            form.with("main", &profile.food.main).with("kcal_per_g", number(profile.food.kcal_per_g))
        }
        Section::Vet => form.with("status", profile.vet.status.stored()).with("on", number(profile.vet.on)),
        Section::Safety => form
            .with("history", &profile.safety.history)
            .with("muzzle", &profile.safety.muzzle)
            .with("must_not_meet", &profile.safety.must_not_meet),
        Section::Goal => {
            form.with("goal", &profile.goal.goal).with("tried_before", &profile.goal.tried_before)
        }
        Section::Days => profile.days.iter().fold(form, |form, day| form.with("days", day.stored())),
        Section::Care => {
            form.with("phase", profile.care.phase.stored()).with("trainer", profile.care.trainer.to_string())
        }
    }
}

/// What the form of a section says; what is wrong with it is in the form.
pub fn read(section: Section, form: &mut Form, today: Date) -> Option<edit_dog::Section> {
    Some(match section {
        Section::Who => edit_dog::Section::Identity(identity(form, today)),
        Section::Health => edit_dog::Section::Health(health(form)),
        Section::Food => edit_dog::Section::Food(Food {
            main: form.text("main", 200),
            kcal_per_g: form.decimal("kcal_per_g", "Energy of it", 0.1, 9.9),
        }),
        Section::Vet => edit_dog::Section::Vet(Vet {
            status: form.word("status").unwrap_or(VetStatus::None),
            on: past_day(form, "on", today),
        }),
        Section::Safety => edit_dog::Section::Safety(Safety {
            history: form.text("history", 4000),
            bite_on_record: form.tick("bite_on_record"),
            muzzle: form.text("muzzle", 500),
            must_not_meet: form.text("must_not_meet", 500),
        }),
        Section::Goal => edit_dog::Section::Goal(Goal {
            goal: form.text("goal", 1000),
            tried_before: form.text("tried_before", 2000),
        }),
        Section::Days => edit_dog::Section::Days(form.ticked("days")),
        Section::Care => edit_dog::Section::Care(care(form)?),
    })
}

/// Who the dog is.
pub fn identity(form: &mut Form, today: Date) -> Identity {
    Identity {
        name: form.required("name", 60, "Enter the dog's name."),
        breed: form.text("breed", 120),
        born: past_day(form, "born", today),
        birth_precision: form.word("birth_precision").unwrap_or(BirthPrecision::Exact),
        sex: form.word("sex"),
        neutered: form.yes_no("neutered"),
        home_since: past_day(form, "home_since", today),
    }
}

/// The trainer in a field; refused when nobody is chosen.
pub fn trainer(form: &mut Form) -> Option<MembershipId> {
    let trainer = form.id("trainer");
    if trainer.is_none() {
        form.refuse("trainer", "Choose who looks after the plan.");
    }
    trainer
}

fn care(form: &mut Form) -> Option<Care> {
    let phase = form.word("phase");
    if phase.is_none() {
        form.refuse("phase", "Choose where the dog stands.");
    }
    let trainer = trainer(form);
    Some(Care { phase: phase?, trainer: trainer? })
}

fn health(form: &mut Form) -> Health {
    Health {
        expected_adult_kg: form.decimal("expected_adult_kg", "Expected adult weight", 0.5, HEAVIEST),
        body_condition: form.whole("body_condition", "Body condition", 1, 9),
        activity: form.word("activity"),
        coat: form.word("coat"),
        short_nosed: form.yes_no("short_nosed"),
        heart_or_breathing: form.text("heart_or_breathing", 1000),
        orthopaedic: form.text("orthopaedic", 1000),
        other: form.text("other", 1000),
        medicines: form.text("medicines", 1000),
        allergies: form.text("allergies", 1000),
    }
}

fn stored<W: Word>(said: Option<W>) -> &'static str {
    said.map_or("", Word::stored)
}

fn fill_identity(form: Form, identity: &Identity) -> Form {
    form.with("name", &identity.name)
        .with("breed", &identity.breed)
        .with("born", number(identity.born))
        .with("birth_precision", identity.birth_precision.stored())
        .with("sex", stored(identity.sex))
        .with("neutered", yes_no(identity.neutered))
        .with("home_since", number(identity.home_since))
}

fn fill_health(form: Form, health: &Health) -> Form {
    form.with("expected_adult_kg", number(health.expected_adult_kg))
        .with("body_condition", number(health.body_condition))
        .with("activity", stored(health.activity))
        .with("coat", stored(health.coat))
        .with("short_nosed", yes_no(health.short_nosed))
        .with("heart_or_breathing", &health.heart_or_breathing)
        .with("orthopaedic", &health.orthopaedic)
        .with("other", &health.other)
        .with("medicines", &health.medicines)
        .with("allergies", &health.allergies)
}
