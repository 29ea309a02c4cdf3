//! An encounter as it is kept: changing and removing it, and what it said before.

use serde_json::Value;
use sqlx::types::Json;
use time::{Date, OffsetDateTime};

use super::{Encounter, Row};
use crate::domain::vocabulary::Word;
use crate::ids::{DogId, EncounterId, MembershipId};
use crate::store::reading::{Reading, reading};
use crate::store::revision::{self, Revision, Said};
use crate::store::{Error, Result, Tx};

/// An encounter with what is known of its telling.
#[derive(Debug, Clone)]
pub struct Kept {
    /// What is said of it.
    pub encounter: Encounter,
    /// Who told it.
    pub by: MembershipId,
    /// When.
    pub received_at: OffsetDateTime,
    /// How often it was changed since, its removal included.
    pub revision: i32,
    /// When it was removed, where it was.
    pub removed_at: Option<OffsetDateTime>,
}

/// One encounter of a dog, also after it was removed.
pub async fn find(tx: &mut Tx, dog: DogId, id: EncounterId) -> Result<Option<Kept>> {
    let practice = tx.practice();
    let kept = sqlx::query!(
        r#"select to_jsonb(e) - 'fingerprint' as "said!: Json<Value>", by_membership_id, received_at, revision, deleted_at
           from encounter e where practice_id = $1 and dog_id = $2 and id = $3"#,
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    let kept = kept.map(|r| {
        Ok(Kept {
            encounter: read(r.said.0)?,
            by: r.by_membership_id.into(),
            received_at: r.received_at,
            revision: r.revision,
            removed_at: r.deleted_at,
        })
    });
    kept.transpose()
}

fn read(said: Value) -> Result<Encounter> {
    let row: Row = serde_json::from_value(said).map_err(|error| Error::Decode(error.into()))?;
    row.try_into()
}

/// The encounters of a dog that were told after `told` on a day between those of `around`, at most `most`.
pub async fn looking_back_on(
    tx: &mut Tx,
    dog: DogId,
    told: OffsetDateTime,
    around: [(Date, Date); 2],
    most: i64,
) -> Result<Vec<EncounterId>> {
    let practice = tx.practice();
    let ids = sqlx::query_scalar!(
        "select id from encounter
         where practice_id = $1 and dog_id = $2 and received_at > $3 and deleted_at is null
           and (local_date between $4 and $5 or local_date between $6 and $7)
         order by happened_at, id limit $8",
        practice.0,
        dog.0,
        told,
        around[0].0,
        around[0].1,
        around[1].0,
        around[1].1,
        most
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(ids.into_iter().map(Into::into).collect())
}

/// Keeps what the encounter says now, and what is stated anew in its place. Who told it and when stay.
pub async fn revise(tx: &mut Tx, new: &Encounter, said: &Said<'_>) -> Result<()> {
    keep(tx, new.dog, new.id, said, false).await?;
    let practice = tx.practice();
    let f = &new.facts;
    sqlx::query!(
        "update encounter set revision = revision + 1, kind = $3, trigger_id = $4, what = $5, distance_m = $6, reaction = $7,
           recovery = $8, towards = $9, skin_broken = $10, playful = $11, line = $12, place_name = $13, note = $14,
           happened_at = $15, local_date = $16, froze = $17, warned = $18
         where practice_id = $1 and id = $2",
        practice.0,
        new.id.0,
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
        f.local_date,
        new.froze,
        f.warned
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Removes an encounter: its row stays, and is left out of everything from then on.
pub async fn remove(tx: &mut Tx, dog: DogId, id: EncounterId, said: &Said<'_>) -> Result<()> {
    keep(tx, dog, id, said, true).await?;
    let practice = tx.practice();
    sqlx::query!(
        "update encounter set revision = revision + 1, deleted_at = $3 where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        said.at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

async fn keep(tx: &mut Tx, dog: DogId, id: EncounterId, said: &Said<'_>, removes: bool) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into encounter_revision (practice_id, encounter_id, number, dog_id, removes, before, by_membership_id, at, reason)
         select e.practice_id, e.id, e.revision + 1, e.dog_id, $4, to_jsonb(e) - 'fingerprint', $5, $6, $7
         from encounter e where e.practice_id = $1 and e.dog_id = $2 and e.id = $3",
        practice.0,
        dog.0,
        id.0,
        removes,
        said.by.0,
        said.at,
        said.reason
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Everything that was done to an encounter, the newest first.
pub fn revisions(dog: DogId, id: EncounterId) -> Reading<Vec<Revision<Encounter>>> {
    reading!(
        revision::Row,
        r#"select r.removes, r.before as "before: Json<Value>", m.name as by, r.at, r.reason
           from encounter_revision r join membership m on m.practice_id = r.practice_id and m.id = r.by_membership_id
           where r.practice_id = $1 and r.dog_id = $2 and r.encounter_id = $3 order by r.number desc"#,
        dog.0,
        id.0
    )
    .then(|rows| rows.into_iter().map(|row| row.with(read)).collect())
}
