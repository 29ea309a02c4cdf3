//! The practice: the business, the tenant.

use time::OffsetDateTime;

use crate::domain::vocabulary::{Clip, Word};
use crate::ids::PracticeId;
use crate::store::{Door, Result, Tx};

/// A practice.
#[derive(Debug, Clone)]
pub struct Practice {
    /// Its id.
    pub id: PracticeId,
    /// What it is called.
    pub name: String,
    /// Its IANA time zone.
    pub zone: String,
    /// What owners may expect: "Usually replies within two working days".
    pub replies: String,
}

/// Makes a practice and goes on inside it. The door must have been shown a good set-up token.
pub async fn found(door: Door, id: PracticeId, name: &str, zone: &str, now: OffsetDateTime) -> Result<Tx> {
    let mut tx = door.enter(id).await?;
    sqlx::query!(
        "insert into practice (id, name, zone, created_at) values ($1, $2, $3, $4)",
        id.0,
        name,
        zone,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(tx)
}

/// The practice that this transaction is inside.
pub async fn here(tx: &mut Tx) -> Result<Practice> {
    let id = tx.practice();
    sqlx::query_as!(Practice, "select id, name, zone, replies from practice where id = $1", id.0)
        .fetch_one(tx.conn())
        .await
}

/// Changes what the practice says of itself.
pub async fn edit(tx: &mut Tx, name: &str, zone: &str, replies: &str) -> Result<()> {
    let id = tx.practice();
    sqlx::query!(
        "update practice set name = $2, zone = $3, replies = $4 where id = $1",
        id.0,
        name,
        zone,
        replies
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Locks the practice's row until the transaction ends, so that two who change how it works wait for each other.
pub async fn lock(tx: &mut Tx) -> Result<()> {
    let id = tx.practice();
    sqlx::query!("select id from practice where id = $1 for no key update", id.0)
        .fetch_one(tx.conn())
        .await
        .map(drop)
}

/// Changes which clips the practice does not use.
pub async fn set_clips_not_used(tx: &mut Tx, clips: &[Clip]) -> Result<()> {
    let id = tx.practice();
    let clips: Vec<String> = clips.iter().map(|clip| clip.stored().to_owned()).collect();
    sqlx::query!("update practice set clips_not_used = $2 where id = $1", id.0, &clips)
        .execute(tx.conn())
        .await
        .map(drop)
}
