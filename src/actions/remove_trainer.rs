//! Takes a trainer out of the team.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Role;
use crate::ids::MembershipId;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, appointment, dog, hand_over, link_token, membership, practice, sign_in};

/// Takes the trainer out; their links and sign-ins end with it, and their dogs and the lessons that they were to give go to the lead who does this. What they
/// wrote stays. Nobody takes themselves out, so a practice always keeps a lead.
pub async fn remove_trainer(mut tx: Tx, actor: &Actor, trainer: MembershipId, moment: &Moment) -> Done<()> {
    authorise(actor, Action::KeepTeam, None)?;
    let leads = membership::lock_leads(&mut tx, trainer).await?;
    let found = membership::find(trainer)
        .read(&mut tx)
        .await?
        .filter(|m| m.role != Role::Owner && m.removed_at.is_none());
    let person = found.ok_or(Refusal::NotFound)?;
    if person.id == actor.membership || (person.role == Role::Lead && leads <= 1) {
        return Err(Refusal::Forbidden);
    }
    // links first: whoever is using one at this moment is waited for, and then signed out below
    link_token::revoke_all(&mut tx, trainer, moment.at).await?;
    sign_in::end_all(&mut tx, trainer, None, moment.at).await?;
    practice::end_duty(&mut tx, trainer).await?;
    let dogs: Vec<_> =
        dog::of_trainer(&mut tx, trainer).await?.into_iter().map(|dog| (dog, moment.id())).collect();
    let note = format!("{} left the team.", person.name);
    hand_over::add(&mut tx, &dogs, (actor.membership, actor.membership), &note, moment.at).await?;
    membership::hand_dogs_over(&mut tx, trainer, actor.membership).await?;
    appointment::hand_over(&mut tx, trainer, actor.membership, moment.at).await?;
    membership::remove(&mut tx, trainer, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_trainer", "membership", trainer.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
