//! Which of what a household told a trainer has looked at, and at which wording of it.

use std::collections::HashSet;

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, EncounterId, FlagId, MembershipId, PracticeLogId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// A sitting.
    Log(PracticeLogId),
    /// Something that happened.
    Encounter(EncounterId),
}

impl Of {
    /// The id of what it is.
    pub fn id(self) -> Uuid {
        match self {
            Self::Log(id) => id.0,
            Self::Encounter(id) => id.0,
        }
    }

    /// The same as (sitting, encounter): one of the two.
    fn ids(self) -> (Option<Uuid>, Option<Uuid>) {
        match self {
            Self::Log(id) => (Some(id.0), None),
            Self::Encounter(id) => (None, Some(id.0)),
        }
    }
}

/// That somebody looked.
#[derive(Debug, Clone, Deserialize)]
pub struct Look {
    /// Who.
    pub by: String,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// The wording that was looked at: how often it had been changed.
    pub revision: i32,
}

/// The look at a sitting or an encounter, if anybody looked.
pub fn at(dog: DogId, of: Of) -> Reading<Option<Look>> {
    reading!(
        Look,
        "select m.name as by, k.looked_at as at, k.revision
         from look k join membership m on m.practice_id = k.practice_id and m.id = k.looked_by
         where k.practice_id = $1 and k.dog_id = $2 and k.subject_id = $3",
        dog.0,
        of.id()
    )
    .first()
}

/// Notes that somebody looked at a wording; who looked at it first stays.
pub async fn add(
    tx: &mut Tx,
    dog: DogId,
    of: Of,
    revision: i32,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    let (log, encounter) = of.ids();
    sqlx::query!(
        "insert into look (practice_id, subject_id, dog_id, log_id, encounter_id, revision, looked_by, looked_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8)
         on conflict (practice_id, subject_id) do update set revision = $6, looked_by = $7, looked_at = $8
           where look.revision < $6",
        practice.0,
        of.id(),
        dog.0,
        log,
        encounter,
        revision,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Notes a look at what these flags are about, as it was worded until an instant: whoever answers a finding has looked at what it was
/// found in, and at no wording that came after the page.
pub async fn add_of_flags(
    tx: &mut Tx,
    flags: &[FlagId],
    until: OffsetDateTime,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    let flags: Vec<Uuid> = flags.iter().map(|flag| flag.0).collect();
    sqlx::query!(
        "insert into look (practice_id, subject_id, dog_id, log_id, encounter_id, revision, looked_by, looked_at)
         select distinct $1::uuid, f.subject_id, f.dog_id, l.id, e.id, coalesce(l.revision, e.revision), $3::uuid, $4::timestamptz
         from welfare_flag f
         left join practice_log l on l.practice_id = $1 and l.id = f.subject_id and f.subject_kind = 'practice_log'
         left join encounter e on e.practice_id = $1 and e.id = f.subject_id and f.subject_kind = 'encounter'
         join membership m on m.practice_id = $1 and m.id = coalesce(l.by_membership_id, e.by_membership_id) and m.role = 'owner'
         where f.practice_id = $1 and f.id = any($2)
           and not exists (select from log_revision r where r.practice_id = $1 and r.practice_log_id = l.id and r.at > $5)
           and not exists (select from encounter_revision r where r.practice_id = $1 and r.encounter_id = e.id and r.at > $5)
         on conflict (practice_id, subject_id) do update set revision = excluded.revision, looked_by = $3, looked_at = $4
           where look.revision < excluded.revision",
        practice.0,
        &flags,
        by.0,
        now,
        until
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Takes a look back.
pub async fn remove(tx: &mut Tx, dog: DogId, of: Of) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from look where practice_id = $1 and dog_id = $2 and subject_id = $3",
        practice.0,
        dog.0,
        of.id()
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Notes a look at everything that the household of a dog told until an instant; what was changed after it was seen by nobody.
pub async fn add_all(
    tx: &mut Tx,
    dog: DogId,
    until: OffsetDateTime,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into look (practice_id, subject_id, dog_id, log_id, encounter_id, revision, looked_by, looked_at)
         select $1, t.id, $2, t.log_id, t.encounter_id, t.revision, $4, $5
         from (
           select l.id, l.id as log_id, null::uuid as encounter_id, l.revision, l.by_membership_id from practice_log l
           where l.practice_id = $1 and l.dog_id = $2 and l.received_at <= $3 and l.deleted_at is null
           union all
           select e.id, null, e.id, e.revision, e.by_membership_id from encounter e
           where e.practice_id = $1 and e.dog_id = $2 and e.received_at <= $3 and e.deleted_at is null
         ) t
         join membership m on m.practice_id = $1 and m.id = t.by_membership_id and m.role = 'owner'
         left join look k on k.practice_id = $1 and k.subject_id = t.id
         where (k.revision is null or k.revision < t.revision)
           and not exists (select from log_revision r where r.practice_id = $1 and r.practice_log_id = t.log_id and r.at > $3)
           and not exists (select from encounter_revision r where r.practice_id = $1 and r.encounter_id = t.encounter_id and r.at > $3)
         on conflict (practice_id, subject_id) do update set revision = excluded.revision, looked_by = $4, looked_at = $5",
        practice.0,
        dog.0,
        until,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

#[derive(Deserialize)]
struct Waits {
    #[serde(rename = "id!")]
    id: Uuid,
}

/// The sittings and encounters of a dog, told by its household, whose present wording nobody has looked at.
pub fn waiting(dog: DogId) -> Reading<HashSet<Uuid>> {
    reading!(
        Waits,
        r#"select t.id as "id!"
         from (
           select l.id, l.revision, l.by_membership_id from practice_log l
           where l.practice_id = $1 and l.dog_id = $2 and l.deleted_at is null
           union all
           select e.id, e.revision, e.by_membership_id from encounter e
           where e.practice_id = $1 and e.dog_id = $2 and e.deleted_at is null
         ) t
         join membership m on m.practice_id = $1 and m.id = t.by_membership_id and m.role = 'owner'
         left join look k on k.practice_id = $1 and k.subject_id = t.id
         where k.revision is null or k.revision < t.revision"#,
        dog.0
    )
    .then(|rows| Ok(rows.into_iter().map(|row| row.id).collect()))
}
