//! The other bites, growls and snaps around a day, from sittings and encounters alike.

use time::{Date, Duration};

use crate::actions::Done;
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::EncounterKind;
use crate::domain::welfare::INCIDENT_WINDOW_DAYS;
use crate::ids::{DogId, EncounterId, PracticeLogId};
use crate::store::{Tx, encounter, practice_log};

fn around(day: Date) -> (Date, Date) {
    let window = Duration::days(INCIDENT_WINDOW_DAYS);
    (day.saturating_sub(window), day.saturating_add(window))
}

fn bites(days: Vec<Date>) -> impl Iterator<Item = EncounterFacts> {
    days.into_iter().map(|day| EncounterFacts::on(day, EncounterKind::Bite))
}

/// Those that an encounter stands among. A bite ticked in a sitting of its day is the same one, told twice.
pub(super) async fn beside_encounter(
    tx: &mut Tx,
    dog: DogId,
    id: EncounterId,
    day: Date,
) -> Done<Vec<EncounterFacts>> {
    let mut others = encounter::incidents(tx, dog, around(day), Some(id)).await?;
    let mut bitten = practice_log::bites(tx, dog, around(day), None).await?;
    bitten.retain(|other| *other != day);
    others.extend(bites(bitten));
    Ok(others)
}

/// Those that a sitting stands among. A bite recorded by itself on its day is the same one, told twice.
pub(super) async fn beside_sitting(
    tx: &mut Tx,
    dog: DogId,
    id: PracticeLogId,
    day: Date,
) -> Done<Vec<EncounterFacts>> {
    let mut others = encounter::incidents(tx, dog, around(day), None).await?;
    others.retain(|other| other.kind != EncounterKind::Bite || other.local_date != day);
    others.extend(bites(practice_log::bites(tx, dog, around(day), Some(id)).await?));
    Ok(others)
}
