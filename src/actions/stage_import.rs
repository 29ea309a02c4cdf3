//! Keeps a checked file for a day, so that what the preview shows is what is imported.

use time::Duration;

use crate::actions::{Done, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::ImportBatchId;
use crate::store::import_batch;
use crate::store::{Tx, practice};

/// How long a file waits to be imported.
pub const WAITS: Duration = Duration::days(1);

/// Keeps the file, and deletes those that waited too long. The same text that waits already is the same file.
pub async fn stage_import(mut tx: Tx, actor: &Actor, sheet: &str, moment: &Moment) -> Done<ImportBatchId> {
    authorise(actor, Action::ImportRecords, None)?;
    practice::lock(&mut tx).await?;
    import_batch::forget_before(&mut tx, moment.at - WAITS).await?;
    let id = match import_batch::waiting_with(&mut tx, sheet).await? {
        Some(first) => first,
        None => {
            let id = moment.id();
            import_batch::add(&mut tx, id, sheet, actor.membership, moment.at).await?;
            id
        }
    };
    tx.commit().await?;
    Ok(id)
}
