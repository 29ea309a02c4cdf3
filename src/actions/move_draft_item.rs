//! Moving a line of the draft past its neighbour of the same kind.

use crate::actions::plan_draft::{finished, opened};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::plan_order::{Way, moved};
use crate::ids::{DogId, LineId};
use crate::store::{Tx, plan_draft};

/// Moves a line up or down. The first of its kind stays first, and the last stays last.
pub async fn move_draft_item(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    line: LineId,
    way: Way,
    moment: &Moment,
) -> Done<()> {
    opened(&mut tx, actor, dog, moment).await?;
    let order = plan_draft::order(&mut tx, dog).await?;
    if !order.iter().any(|(id, _)| *id == line) {
        return Err(Refusal::NotFound);
    }
    if let Some(order) = moved(&order, line, way) {
        plan_draft::set_order(&mut tx, dog, &order).await?;
    }
    finished(tx, actor, dog, "move_draft_item", "", moment).await
}
