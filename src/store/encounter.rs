//! Encounters: what happened in life, outside a sitting.

use serde::Deserialize;
use time::{Date, OffsetDateTime};

use crate::domain::encounter::EncounterFacts;
use crate::domain::sync::Lived;
use crate::domain::vocabulary::{EncounterKind, Looked, Word};
use crate::ids::{DogId, EncounterId, MembershipId, TriggerId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

mod revision;

pub use revision::{Kept, find, looking_back_on, remove, revise, revisions};

/// An encounter to be kept, or as it is kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Encounter {
    /// Its id, made where it was typed.
    pub id: EncounterId,
    /// The dog.
    pub dog: DogId,
    /// Which of the dog's triggers it met.
    pub trigger: Option<TriggerId>,
    /// What it met, in words.
    pub what: String,
    /// Whether it was loose and playful, not angry.
    pub playful: Option<bool>,
    /// Whether it went stiff or froze.
    pub froze: Option<bool>,
    /// Where, in words.
    pub place_name: String,
    /// A note.
    pub note: String,
    /// When.
    pub happened_at: OffsetDateTime,
    /// The facts, as the rules see them; its date is the local one.
    pub facts: EncounterFacts,
}

/// Keeps an encounter; false if its id is known already. `received_at` lies after everything that was told of the dog
/// before ([`told_after_all`](crate::store::revision::told_after_all)).
pub async fn add(
    tx: &mut Tx,
    new: &Encounter,
    by: MembershipId,
    fingerprint: &[u8; 32],
    zone: &str,
    received_at: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let f = &new.facts;
    let done = sqlx::query!(
        "insert into encounter (practice_id, id, fingerprint, dog_id, by_membership_id, kind, trigger_id, what, distance_m,
           reaction, recovery, towards, skin_broken, playful, line, place_name, note, happened_at, zone, local_date, received_at,
           froze, warned)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21, $22, $23)
         on conflict (practice_id, id) do nothing",
        practice.0,
        new.id.0,
        &fingerprint[..],
        new.dog.0,
        by.0,
        f.kind.stored(),
        new.trigger.map(|t| t.0),
        new.what,
        f.distance_m.map(f64::from),
        f.reaction,
        f.recovery.map(Word::stored),
        f.towards.map(Word::stored),
        f.broken_skin,
        new.playful,
        f.line.map(Word::stored),
        new.place_name,
        new.note,
        new.happened_at,
        zone,
        f.local_date,
        received_at,
        new.froze,
        f.warned
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Notes what a phone said that kept an encounter first.
pub async fn note_phone(tx: &mut Tx, id: EncounterId, lived: &Lived) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update encounter set phone_at = $3, phone_zone = $4, phone_offset_minutes = $5, clock_corrected = $6
         where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        lived.phone.at,
        lived.phone.zone,
        lived.phone.offset_minutes,
        lived.corrected
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// The fingerprint of a known encounter, whichever dog it is of.
pub async fn fingerprint(tx: &mut Tx, id: EncounterId) -> Result<Option<Vec<u8>>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select fingerprint from encounter where practice_id = $1 and id = $2",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await
}

/// How a dog looked, of what was asked: stiff weighs more than playful.
pub fn looked(playful: Option<bool>, froze: Option<bool>) -> Option<Looked> {
    match (froze, playful) {
        (Some(true), _) => Some(Looked::Frozen),
        (_, Some(true)) => Some(Looked::Loose),
        _ => None,
    }
}

/// A row of the table; what a revision holds is read as one, too.
#[derive(Deserialize)]
struct Row {
    id: uuid::Uuid,
    dog_id: uuid::Uuid,
    kind: String,
    trigger_id: Option<uuid::Uuid>,
    what: String,
    distance_m: Option<f64>,
    reaction: Option<i16>,
    recovery: Option<String>,
    towards: Option<String>,
    skin_broken: Option<bool>,
    playful: Option<bool>,
    froze: Option<bool>,
    warned: Option<bool>,
    line: Option<String>,
    place_name: String,
    note: String,
    #[serde(with = "time::serde::rfc3339")]
    happened_at: OffsetDateTime,
    #[serde(with = "day")]
    local_date: Date,
}

impl TryFrom<Row> for Encounter {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        let facts = EncounterFacts {
            towards: word_or_none(row.towards.as_deref())?,
            broken_skin: row.skin_broken,
            happened_at: Some(row.happened_at),
            looked: looked(row.playful, row.froze),
            warned: row.warned,
            // kept as a number with a fraction; the rules read whole metres
            #[expect(
                clippy::cast_possible_truncation,
                reason = "the column's CHECK keeps it within 0..=2000"
            )]
            distance_m: row.distance_m.map(|m| m.round() as i16),
            reaction: row.reaction,
            recovery: word_or_none(row.recovery.as_deref())?,
            line: word_or_none(row.line.as_deref())?,
            ..EncounterFacts::on(row.local_date, word::<EncounterKind>(&row.kind)?)
        };
        Ok(Self {
            id: row.id.into(),
            dog: row.dog_id.into(),
            trigger: row.trigger_id.map(Into::into),
            what: row.what,
            playful: row.playful,
            froze: row.froze,
            place_name: row.place_name,
            note: row.note,
            happened_at: row.happened_at,
            facts,
        })
    }
}

/// A dog's encounters since a day (all, when `None`), newest first, at most `most` of them.
pub fn of_dog(dog: DogId, since: Option<Date>, most: i64) -> Reading<Vec<Encounter>> {
    reading!(
        Row,
        "select id, dog_id, kind, trigger_id, what, distance_m, reaction, recovery, towards, skin_broken, playful, froze, warned,
           line, place_name, note, happened_at, local_date
         from encounter
         where practice_id = $1 and dog_id = $2 and ($3::date is null or local_date >= $3) and deleted_at is null
         order by happened_at desc, id desc limit $4",
        dog.0,
        since,
        most
    )
    .each()
}

/// A dog's encounters of some kinds from one day to another, both included, that were told before an instant.
pub async fn of_kinds(
    tx: &mut Tx,
    dog: DogId,
    kinds: &[EncounterKind],
    (from, to): (Date, Date),
    told: OffsetDateTime,
) -> Result<Vec<EncounterFacts>> {
    let practice = tx.practice();
    let kinds: Vec<String> = kinds.iter().map(|kind| kind.stored().to_owned()).collect();
    let rows = sqlx::query_as!(
        Row,
        "select id, dog_id, kind, trigger_id, what, distance_m, reaction, recovery, towards, skin_broken, playful, froze, warned,
           line, place_name, note, happened_at, local_date
         from encounter
         where practice_id = $1 and dog_id = $2 and local_date between $3 and $4 and kind = any($6)
           and received_at < $5 and deleted_at is null",
        practice.0,
        dog.0,
        from,
        to,
        told,
        &kinds
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(|row| Encounter::try_from(row).map(|met| met.facts)).collect()
}
