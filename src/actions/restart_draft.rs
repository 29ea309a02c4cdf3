//! Going back to the published plan: what was changed in the draft since is dropped.

use crate::actions::plan_draft::{finished, opened};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::DogId;
use crate::store::{Tx, plan, plan_draft};

/// Starts the draft again from the current version, each item on its own line.
pub async fn restart_draft(mut tx: Tx, actor: &Actor, dog: DogId, moment: &Moment) -> Done<()> {
    opened(&mut tx, actor, dog, moment).await?;
    let version = plan::current(dog).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    plan_draft::restart_from(&mut tx, dog, version.id).await?;
    finished(tx, actor, dog, "restart_draft", "", moment).await
}
