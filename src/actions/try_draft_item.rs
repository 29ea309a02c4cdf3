//! How a draft would stand with one of its lines changed: what the rules would find, what it would ask. Nothing is kept.

use crate::actions::plan_draft::{authorised, checked};
use crate::actions::{Done, Refusal};
use crate::domain::access::Actor;
use crate::ids::{DogId, LineId};
use crate::store::Tx;
use crate::store::plan_draft_item::{self, LineSettings};

/// Changes the line inside a transaction that the caller reads from and never commits, so that what is shown comes out of the
/// same queries and rules as what is kept.
pub async fn try_draft_item(
    tx: &mut Tx,
    actor: &Actor,
    dog: DogId,
    line: LineId,
    chosen: &LineSettings,
) -> Done<()> {
    authorised(tx, actor, dog).await?;
    checked(tx, dog, chosen).await?;
    match plan_draft_item::edit(tx, dog, line, chosen).await? {
        true => Ok(()),
        false => Err(Refusal::NotFound),
    }
}
