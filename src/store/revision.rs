//! Revisions: what a log or an encounter said before it was changed or removed, by whom, when and why. Only ever added.

use serde::Deserialize;
use serde_json::Value;
use sqlx::types::Json;
use time::OffsetDateTime;

use crate::ids::{DogId, MembershipId};
use crate::store::{Result, Tx};

/// Who changes something, when and why.
#[derive(Debug, Clone, Copy)]
pub struct Said<'a> {
    /// Who.
    pub by: MembershipId,
    /// When: after everything that was told of the dog before ([`told_after_all`]).
    pub at: OffsetDateTime,
    /// Why, in their words; may be empty.
    pub reason: &'a str,
}

/// One change of something, with what it said before.
#[derive(Debug, Clone)]
pub struct Revision<T> {
    /// What it said before.
    pub before: T,
    /// Whether it was removed, not changed.
    pub removes: bool,
    /// Who did it.
    pub by: String,
    /// When.
    pub at: OffsetDateTime,
    /// Why; may be empty.
    pub reason: String,
}

/// A kept revision, before what it said is read.
#[derive(Deserialize)]
pub(in crate::store) struct Row {
    pub removes: bool,
    #[serde(rename = "before: Json<Value>")]
    pub before: Json<Value>,
    pub by: String,
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    pub reason: String,
}

impl Row {
    /// With what it said before, as `read` makes it out.
    pub fn with<T>(self, read: impl FnOnce(Value) -> Result<T>) -> Result<Revision<T>> {
        let Self { removes, before, by, at, reason } = self;
        Ok(Revision { before: read(before.0)?, removes, by, at, reason })
    }
}

/// The instant at which something is told of a dog: now, or just after all that was told of it before where that lies
/// ahead. The dog's summary must be locked. So what is told rises also where two arrive at once and the one that was begun
/// first comes second, or where a clock was set back, and building anew tells it in the order in which it was kept.
pub async fn told_after_all(tx: &mut Tx, dog: DogId, now: OffsetDateTime) -> Result<OffsetDateTime> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select greatest($3, max(at) + interval '1 microsecond') as "at!" from (
             select max(received_at) as at from practice_log where practice_id = $1 and dog_id = $2
             union all select max(received_at) from encounter where practice_id = $1 and dog_id = $2
             union all select max(decided_at) from decision where practice_id = $1 and dog_id = $2
             union all select max(at) from log_revision where practice_id = $1 and dog_id = $2
             union all select max(at) from encounter_revision where practice_id = $1 and dog_id = $2) told"#,
        practice.0,
        dog.0,
        now
    )
    .fetch_one(tx.conn())
    .await
}
