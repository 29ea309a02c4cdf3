//! Changes what the practice says of itself.

use crate::actions::{Done, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::practice::{self, Practice};

/// Changes name, zone and what owners may expect of replies.
pub async fn edit_practice(mut tx: Tx, actor: &Actor, wanted: &Practice, moment: &Moment) -> Done<()> {
    authorise(actor, Action::RunPractice, None)?;
    practice::edit(&mut tx, &wanted.name, &wanted.zone, &wanted.replies).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_practice", "practice", actor.practice.0, moment))
        .await?;
    tx.commit().await?;
    Ok(())
}
