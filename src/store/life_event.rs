//! What goes on in a dog's life beside its practice: medicine, seasons, moves, holidays. A row that was removed stays, and is read no more.

use serde::Deserialize;
use sha2::{Digest, Sha256};
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::clock::Moment;
use crate::domain::life::Rest;
use crate::domain::vocabulary::{LifeKind, Word};
use crate::ids::{DogId, LifeEventId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// The most that are read of one dog.
pub const MOST: i64 = 200;

/// Something to be kept, as it shall read from now on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// What it is.
    pub kind: LifeKind,
    /// Its first day.
    pub from: Date,
    /// Its last day; `None` where it goes on, or was on one day.
    pub to: Option<Date>,
    /// A note, which the household reads as well.
    pub note: String,
}

impl Told {
    /// A mark of what it says, for a form to carry.
    pub fn stamp(&self) -> String {
        let hash = Sha256::digest(format!("life event 1|{self:?}").as_bytes());
        hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
    }
}

/// Something that went on, or goes on.
#[derive(Debug, Clone)]
pub struct LifeEvent {
    /// Its id.
    pub id: LifeEventId,
    /// What was told.
    pub told: Told,
    /// Who told it.
    pub by: String,
    /// When.
    pub at: OffsetDateTime,
}

impl LifeEvent {
    /// The rest that it brings.
    pub fn rest(&self) -> Option<Rest> {
        Rest::of(self.told.kind, self.told.from, self.told.to)
    }
}

#[derive(Deserialize)]
struct Row {
    id: Uuid,
    kind: String,
    #[serde(with = "day")]
    from_on: Date,
    #[serde(with = "day::option")]
    to_on: Option<Date>,
    note: String,
    by: String,
    #[serde(with = "time::serde::rfc3339")]
    told_at: OffsetDateTime,
}

impl TryFrom<Row> for LifeEvent {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        let told = Told { kind: word(&row.kind)?, from: row.from_on, to: row.to_on, note: row.note };
        Ok(Self { id: row.id.into(), told, by: row.by, at: row.told_at })
    }
}

/// What went on; `$tail` says which.
macro_rules! events {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Row,
            "select e.id, e.kind, e.from_on, e.to_on, e.note, m.name as by, e.told_at
             from life_event e
             join membership m on m.practice_id = e.practice_id and m.id = e.told_by
             where e.practice_id = $1 and e.dog_id = $2 and e.removed_at is null "
                + $tail
            $(, $bind)*
        )
        .each::<LifeEvent>()
    };
}

/// What went on with a dog, the newest first; `since` leaves out what was over before that day. What has no last day counts as going on
/// where it lasts: a medicine, a season, an illness, a time away.
pub fn of_dog(dog: DogId, since: Option<Date>) -> Reading<Vec<LifeEvent>> {
    events!(
        "and ($3::date is null or coalesce(e.to_on, e.from_on) >= $3
           or e.to_on is null and e.kind in ('medicine', 'season', 'illness', 'holiday'))
         order by e.from_on desc, e.id desc limit $4",
        dog.0,
        since,
        MOST
    )
}

/// One of them.
pub fn find(dog: DogId, id: LifeEventId) -> Reading<Option<LifeEvent>> {
    events!("and e.id = $3", dog.0, id.0).first()
}

/// Adds one; false where its id is taken.
pub async fn add(
    tx: &mut Tx,
    dog: DogId,
    id: LifeEventId,
    told: &Told,
    by: MembershipId,
    moment: &Moment,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into life_event (practice_id, id, dog_id, kind, from_on, to_on, note, told_by, told_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9) on conflict do nothing",
        practice.0,
        id.0,
        dog.0,
        told.kind.stored(),
        told.from,
        told.to,
        told.note,
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Changes one; false where there is none.
pub async fn edit(tx: &mut Tx, dog: DogId, id: LifeEventId, told: &Told) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update life_event set kind = $4, from_on = $5, to_on = $6, note = $7
         where practice_id = $1 and dog_id = $2 and id = $3 and removed_at is null",
        practice.0,
        dog.0,
        id.0,
        told.kind.stored(),
        told.from,
        told.to,
        told.note
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Takes one out; false where there is none.
pub async fn remove(
    tx: &mut Tx,
    dog: DogId,
    id: LifeEventId,
    by: MembershipId,
    moment: &Moment,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update life_event set removed_by = $4, removed_at = $5
         where practice_id = $1 and dog_id = $2 and id = $3 and removed_at is null",
        practice.0,
        dog.0,
        id.0,
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
