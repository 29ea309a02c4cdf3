//! Taking a line out of the draft. What was published and logged stays.

use crate::actions::plan_draft::{finished, opened};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::plan_order::arranged;
use crate::ids::{DogId, LineId};
use crate::store::{Tx, plan_draft, plan_draft_item};

/// Takes a line out and closes the gap.
pub async fn remove_draft_item(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    line: LineId,
    moment: &Moment,
) -> Done<()> {
    opened(&mut tx, actor, dog, moment).await?;
    if !plan_draft_item::remove(&mut tx, dog, line).await? {
        return Err(Refusal::NotFound);
    }
    let order = arranged(&plan_draft::order(&mut tx, dog).await?);
    plan_draft::set_order(&mut tx, dog, &order).await?;
    finished(tx, actor, dog, "remove_draft_item", "", moment).await
}
