//! Signs one's own devices out.

use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::{MembershipId, PracticeId, SignInId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Db, Tx, sign_in};

/// Signs one device out.
pub async fn end_sign_in(mut tx: Tx, actor: &Actor, device: SignInId, moment: &Moment) -> Done<()> {
    if !sign_in::end(&mut tx, actor.membership, device, moment.at).await? {
        return Err(Refusal::NotFound);
    }
    note(&mut tx, actor, "end_sign_in", moment).await?;
    tx.commit().await?;
    Ok(())
}

/// Signs every device out but the one in use.
pub async fn end_other_sign_ins(mut tx: Tx, actor: &Actor, keep: SignInId, moment: &Moment) -> Done<()> {
    sign_in::end_all(&mut tx, actor.membership, Some(keep), moment.at).await?;
    note(&mut tx, actor, "end_other_sign_ins", moment).await?;
    tx.commit().await?;
    Ok(())
}

async fn note(tx: &mut Tx, actor: &Actor, action: &'static str, moment: &Moment) -> Done<()> {
    Ok(audit::note(tx, &AuditEvent::by(actor, action, "membership", actor.membership.0, moment)).await?)
}

/// Ends the sign-in that a browser had before it was given a new one; nothing happens where it has ended already.
pub async fn end_replaced(
    db: &Db,
    practice: PracticeId,
    member: MembershipId,
    device: SignInId,
    moment: &Moment,
) -> Done<()> {
    let Some(mut tx) = db.for_member(practice, member).await? else { return Ok(()) };
    if sign_in::end(&mut tx, member, device, moment.at).await? {
        let event = AuditEvent::by_member(member, "end_sign_in", "membership", member.0, moment);
        audit::note(&mut tx, &event).await?;
        tx.commit().await?;
    }
    Ok(())
}
