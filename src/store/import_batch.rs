//! Files that wait to be imported, and what became of them.

use time::OffsetDateTime;

use crate::ids::{ImportBatchId, MembershipId};
use crate::store::{Result, Tx};

/// A file as it was checked.
#[derive(Debug)]
pub struct ImportBatch {
    /// Its id.
    pub id: ImportBatchId,
    /// Its text; empty once it was imported.
    pub sheet: String,
    /// When it was checked.
    pub made_at: OffsetDateTime,
    /// When it was imported.
    pub applied_at: Option<OffsetDateTime>,
    /// How many households were added.
    pub households: i32,
    /// How many dogs were added.
    pub dogs: i32,
    /// How many weights were added.
    pub weights: i32,
}

/// Keeps a checked file.
pub async fn add(
    tx: &mut Tx,
    id: ImportBatchId,
    sheet: &str,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into import_batch (practice_id, id, sheet, made_by, made_at) values ($1, $2, $3, $4, $5)",
        practice.0,
        id.0,
        sheet,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// The file that waits and has exactly this text.
pub async fn waiting_with(tx: &mut Tx, sheet: &str) -> Result<Option<ImportBatchId>> {
    let practice = tx.practice();
    let found = sqlx::query_scalar!(
        "select id from import_batch where practice_id = $1 and applied_at is null and sheet = $2 limit 1",
        practice.0,
        sheet
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(found.map(ImportBatchId))
}

/// Deletes what waited since before `before`.
pub async fn forget_before(tx: &mut Tx, before: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from import_batch where practice_id = $1 and applied_at is null and made_at < $2",
        practice.0,
        before
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// A file that was imported, or that waits since `after` or later.
pub async fn find(tx: &mut Tx, id: ImportBatchId, after: OffsetDateTime) -> Result<Option<ImportBatch>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        "select sheet, made_at, applied_at, households, dogs, weights from import_batch
         where practice_id = $1 and id = $2 and (applied_at is not null or made_at >= $3)",
        practice.0,
        id.0,
        after
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(row.map(|row| ImportBatch {
        id,
        sheet: row.sheet,
        made_at: row.made_at,
        applied_at: row.applied_at,
        households: row.households,
        dogs: row.dogs,
        weights: row.weights,
    }))
}

/// Notes that a file was imported, with how much was added, and lets its text go.
pub async fn settle(tx: &mut Tx, batch: &ImportBatch, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update import_batch set applied_at = $3, households = $4, dogs = $5, weights = $6, sheet = ''
         where practice_id = $1 and id = $2",
        practice.0,
        batch.id.0,
        now,
        batch.households,
        batch.dogs,
        batch.weights
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
