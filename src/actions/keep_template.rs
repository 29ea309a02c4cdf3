//! Keeping a dog's draft to start other plans from, and removing what was kept.

use crate::actions::plan_draft::authorised;
use crate::actions::{Done, Refusal, authorise, field_refused};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, PlanTemplateId};
use crate::store::audit::{self, AuditEvent};
use crate::store::plan_template::{self, NewTemplate};
use crate::store::{Tx, plan_draft};

/// Keeps the draft under a name. Sent again, it changes nothing; the same id with another name is refused.
pub async fn keep_template(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    new: &NewTemplate,
    moment: &Moment,
) -> Done<()> {
    authorised(&mut tx, actor, dog).await?;
    if plan_draft::order(&mut tx, dog).await?.is_empty() {
        return Err(Refusal::Field {
            field: "name",
            message: "The draft is empty: there is nothing to keep yet.",
        });
    }
    if let Some(first) = plan_template::find(&mut tx, new.id).await? {
        return if first.name == new.name { Ok(()) } else { Err(Refusal::Clash) };
    }
    let kept = plan_template::keep(&mut tx, new, dog, actor.membership, moment.at).await;
    let taken = "Another kept plan has this name. Choose another name.";
    if !kept.map_err(field_refused("plan_template_name_once", "name", taken))? {
        return Err(Refusal::Clash);
    }
    let event =
        AuditEvent { detail: &new.name, ..AuditEvent::by(actor, "keep_template", "dog", dog.0, moment) };
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(())
}

/// Removes a kept plan; plans that were started from it stay as they are.
pub async fn remove_template(mut tx: Tx, actor: &Actor, id: PlanTemplateId, moment: &Moment) -> Done<()> {
    authorise(actor, Action::KeepLibrary, None)?;
    if !plan_template::remove(&mut tx, id).await? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_template", "plan_template", id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
