//! The other bites, growls and snaps around a day, from sittings and encounters alike.

use time::{Date, Duration, OffsetDateTime};

use crate::actions::Done;
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::EncounterKind;
use crate::domain::welfare::INCIDENT_WINDOW_DAYS;
use crate::ids::DogId;
use crate::store::{Tx, encounter, practice_log};

/// The days around one within which incidents stand beside each other.
pub(super) fn around(day: Date) -> (Date, Date) {
    let window = Duration::days(INCIDENT_WINDOW_DAYS);
    (day.saturating_sub(window), day.saturating_add(window))
}

fn bites(days: Vec<Date>) -> impl Iterator<Item = EncounterFacts> {
    days.into_iter().map(|day| EncounterFacts::on(day, EncounterKind::Bite))
}

/// Those that an encounter stands among, of what was told before it. A bite ticked in a sitting of its day is the same one, told twice.
pub(super) async fn beside_encounter(
    tx: &mut Tx,
    dog: DogId,
    told: OffsetDateTime,
    day: Date,
) -> Done<Vec<EncounterFacts>> {
    let mut others = encounter::incidents(tx, dog, around(day), told).await?;
    let mut bitten = practice_log::bites(tx, dog, around(day), told).await?;
    bitten.retain(|other| *other != day);
    others.extend(bites(bitten));
    Ok(others)
}

/// Those that a sitting stands among, of what was told before it. A bite recorded by itself on its day is the same one, told twice.
pub(super) async fn beside_sitting(
    tx: &mut Tx,
    dog: DogId,
    told: OffsetDateTime,
    day: Date,
) -> Done<Vec<EncounterFacts>> {
    let mut others = encounter::incidents(tx, dog, around(day), told).await?;
    others.retain(|other| other.kind != EncounterKind::Bite || other.local_date != day);
    others.extend(bites(practice_log::bites(tx, dog, around(day), told).await?));
    Ok(others)
}
