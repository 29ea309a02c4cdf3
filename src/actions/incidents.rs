//! The other bites, growls and snaps around a day, from sittings and encounters alike.

use time::{Date, Duration, OffsetDateTime};

use crate::actions::Done;
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::EncounterKind;
use crate::domain::welfare::{HouseNumbers, INCIDENT_DAYS, REACTION_HOURS};
use crate::ids::DogId;
use crate::store::{Tx, encounter, practice_log};

/// What stands among the incidents of a dog.
const INCIDENTS: [EncounterKind; 2] = [EncounterKind::Bite, EncounterKind::GrowlOrSnap];

/// The days around one within which incidents stand beside each other.
pub(super) fn around_incident(day: Date, numbers: &HouseNumbers) -> (Date, Date) {
    around(day, window(numbers))
}

fn around(day: Date, window: Duration) -> (Date, Date) {
    (day.saturating_sub(window), day.saturating_add(window))
}

fn window(numbers: &HouseNumbers) -> Duration {
    Duration::days(numbers.of(&INCIDENT_DAYS).ceil() as i64)
}

fn bites(days: Vec<Date>) -> impl Iterator<Item = EncounterFacts> {
    days.into_iter().map(|day| EncounterFacts::on(day, EncounterKind::Bite))
}

/// Those that an encounter stands among, and the reactions of the days around, of what was told before it. A bite ticked in a
/// sitting of the day of a bite is the same one, told twice.
pub(super) async fn beside_encounter(
    tx: &mut Tx,
    dog: DogId,
    told: OffsetDateTime,
    (kind, day): (EncounterKind, Date),
    numbers: &HouseNumbers,
) -> Done<Vec<EncounterFacts>> {
    let around_it = around_incident(day, numbers);
    let mut others = encounter::of_kinds(tx, dog, &INCIDENTS, around_it, told).await?;
    let days = around(day, Duration::days((numbers.of(&REACTION_HOURS) / 24.0).ceil() as i64));
    others.extend(encounter::of_kinds(tx, dog, &[EncounterKind::Reaction], days, told).await?);
    let mut bitten = practice_log::bites(tx, dog, around_it, told).await?;
    if kind == EncounterKind::Bite {
        bitten.retain(|other| *other != day);
    }
    others.extend(bites(bitten));
    Ok(others)
}

/// Those that a sitting stands among, of what was told before it. A bite recorded by itself on its day is the same one, told twice.
pub(super) async fn beside_sitting(
    tx: &mut Tx,
    dog: DogId,
    told: OffsetDateTime,
    day: Date,
    numbers: &HouseNumbers,
) -> Done<Vec<EncounterFacts>> {
    let around_it = around_incident(day, numbers);
    let mut others = encounter::of_kinds(tx, dog, &INCIDENTS, around_it, told).await?;
    others.retain(|other| other.kind != EncounterKind::Bite || other.local_date != day);
    others.extend(bites(practice_log::bites(tx, dog, around_it, told).await?));
    Ok(others)
}
