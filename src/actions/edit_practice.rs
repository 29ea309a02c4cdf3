//! Changes what the practice says of itself, and who is on duty.

use crate::actions::edit_dog::trainer_stands;
use crate::actions::{Done, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::MembershipId;
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::practice;

/// What it shall be.
#[derive(Debug, Clone)]
pub struct PracticeInput {
    /// What it is called.
    pub name: String,
    /// Its IANA time zone.
    pub zone: String,
    /// What owners may expect of replies.
    pub replies: String,
    /// Who answers stops that a dog's own trainer has not answered in time; none: the leads do.
    pub duty: Option<MembershipId>,
}

/// Changes name, zone, what owners may expect of replies, and who is on duty.
pub async fn edit_practice(mut tx: Tx, actor: &Actor, wanted: &PracticeInput, moment: &Moment) -> Done<()> {
    authorise(actor, Action::RunPractice, None)?;
    if let Some(trainer) = wanted.duty {
        trainer_stands(&mut tx, trainer).await?;
    }
    practice::edit(&mut tx, (&wanted.name, &wanted.zone, &wanted.replies), wanted.duty).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_practice", "practice", actor.practice.0, moment))
        .await?;
    tx.commit().await?;
    Ok(())
}
