//! A dog's history as the profile's sections hold it.

use super::Player;
use crate::actions::edit_dog::Section;
use crate::actions::keep_place::keep_place;
use crate::actions::keep_reinforcer::keep_reinforcer;
use crate::actions::keep_trigger::keep_trigger;
use crate::demo::calendar::Calendar;
use crate::demo::content::{Dog, IncidentKind, Muzzle, Vet};
use crate::domain::vocabulary::VetStatus;
use crate::store::dog_profile::{self, Food, Goal, Health, Identity, Safety};
use crate::store::{place, reinforcer, trigger};

impl Player {
    /// The history that is taken on the day a dog joins.
    pub(super) async fn take_history(&self) -> anyhow::Result<()> {
        let (dog, calendar) = (self.dog, &self.stage().calendar);
        let at = calendar.at(dog.joined, 10, 45)?;
        let sections = [
            Section::Health(health(dog)),
            Section::Food(Food {
                main: dog.profile.food.to_owned(),
                kcal_per_g: Some(decimals(dog.profile.food_kcal_g)),
            }),
            Section::Safety(safety(calendar, dog)),
            Section::Goal(goal(dog)),
        ];
        for section in &sections {
            self.edit(section, at).await?;
        }
        let moment = self.scene.moment(calendar.at(dog.joined, 11, 0)?);
        for met in dog.triggers {
            let near = if met.metres == 0 {
                String::new()
            } else {
                format!(" Comfortable from about {} m on.", met.metres)
            };
            let kept = trigger::Trigger {
                id: moment.id(),
                dog: self.id,
                what: met.what.to_owned(),
                note: format!("{}{near}", met.looks_like),
            };
            keep_trigger(self.stage().tx(&self.trainer).await?, &self.trainer, &kept, &moment).await?;
        }
        for paid in dog.reinforcers {
            let kept = reinforcer::Reinforcer {
                id: moment.id(),
                dog: self.id,
                what: paid.name.to_owned(),
                rank: paid.value.into(),
                is_toy: paid.food.is_none(),
                kcal_per_g: paid.food.map(|(kcal, _)| decimals(kcal)),
                grams_per_piece: paid.food.map(|(_, grams)| decimals(grams)),
                from_meals: paid.food.map(|_| paid.from_meals),
            };
            keep_reinforcer(self.stage().tx(&self.trainer).await?, &self.trainer, &kept, &moment).await?;
        }
        for known in dog.places {
            let kept = place::Place {
                id: moment.id(),
                dog: self.id,
                name: known.name.to_owned(),
                distraction: known.distraction.into(),
                secure: Some(known.secure),
                near_road: Some(known.near_road),
                road_metres: None,
            };
            keep_place(self.stage().tx(&self.trainer).await?, &self.trainer, &kept, &moment).await?;
        }
        Ok(())
    }
}

/// A figure as it was written, not as a short float keeps it.
fn decimals(figure: f32) -> f64 {
    (f64::from(figure) * 1000.0).round() / 1000.0
}

/// Who a dog is.
pub(super) fn identity(calendar: &Calendar, dog: &Dog) -> Identity {
    let profile = &dog.profile;
    Identity {
        name: dog.name.to_owned(),
        breed: profile.breed.to_owned(),
        born: Some(calendar.date(profile.age_days)),
        birth_precision: profile.birth_known,
        sex: Some(profile.sex),
        neutered: Some(profile.neutered),
        home_since: None,
    }
}

fn health(dog: &Dog) -> Health {
    let profile = &dog.profile;
    Health {
        expected_adult_kg: Some(decimals(profile.adult_kg)),
        body_condition: Some(profile.condition.into()),
        activity: Some(profile.activity),
        coat: Some(profile.coat),
        short_nosed: Some(profile.short_nosed),
        heart_or_breathing: profile.heart_breathing.to_owned(),
        orthopaedic: profile.orthopaedic.to_owned(),
        other: profile.other.to_owned(),
        medicines: profile.medicines.join("; "),
        allergies: profile.allergies.join("; "),
    }
}

fn safety(calendar: &Calendar, dog: &Dog) -> Safety {
    let profile = &dog.profile;
    let told = profile.incidents.iter().map(|incident| {
        let day = calendar.date(incident.days_ago);
        let kind = kind(incident.kind);
        let skin = if incident.kind != IncidentKind::Bite {
            ""
        } else if incident.skin_broken {
            ", skin broken"
        } else {
            ", skin not broken"
        };
        let (month, year) = (day.month(), day.year());
        format!("{} {month} {year}: {kind}, {}{skin}. {}", day.day(), incident.towards, incident.facts)
    });
    Safety {
        history: told.collect::<Vec<_>>().join("\n"),
        bite_on_record: profile.incidents.iter().any(|incident| incident.kind == IncidentKind::Bite),
        muzzle: profile.muzzle.map_or_else(String::new, muzzle),
        must_not_meet: profile.must_not_meet.join("; "),
    }
}

fn kind(kind: IncidentKind) -> &'static str {
    match kind {
        IncidentKind::Bite => "bite",
        IncidentKind::Snap => "snap",
        IncidentKind::Growl => "growl",
        IncidentKind::Guarding => "guarding",
        IncidentKind::Redirected => "redirected",
        IncidentKind::Bolted => "ran off",
        IncidentKind::Slipped => "slipped out",
    }
}

fn muzzle(muzzle: Muzzle) -> String {
    let allows = if muzzle.can_pant_and_eat { "can pant and take food in it" } else { "cannot pant in it" };
    format!(
        "{}; {allows}; comfortable for {} minutes. Worn {}.",
        muzzle.kind, muzzle.comfortable_minutes, muzzle.required
    )
}

/// What the owner wants.
pub(super) fn goal(dog: &Dog) -> Goal {
    Goal { goal: dog.goal.words.to_owned(), tried_before: dog.tried_before.join("\n") }
}

/// How far a vet has been part of this.
pub(super) fn vet(calendar: &Calendar, dog: &Dog) -> dog_profile::Vet {
    let (status, on) = match dog.profile.vet {
        Vet::None => (VetStatus::None, None),
        Vet::Asked(day) => (VetStatus::Asked, Some(day)),
        Vet::Seen(day) => (VetStatus::Seen, Some(day)),
        Vet::Cleared(day) => (VetStatus::Cleared, Some(day)),
    };
    dog_profile::Vet { status, on: on.map(|day| calendar.date(day)) }
}
