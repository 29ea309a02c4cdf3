//! Makes a link for a person: an owner's signs a phone in, a trainer's takes up an invitation or sets a new password.

use time::{Duration, OffsetDateTime};

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Role;
use crate::ids::MembershipId;
use crate::store::audit::{self, AuditEvent};
use crate::store::link_token::{self, LinkKind};
use crate::store::membership::{self, Membership};
use crate::store::token::Token;
use crate::store::{Secret, Tx, passkey, sign_in};

/// How long an owner's link may wait to be opened.
pub const DEVICE_LINK_WAITS: Duration = Duration::days(14);
/// How long a trainer's invitation may wait: it leads to a whole practice.
pub const INVITATION_WAITS: Duration = Duration::days(7);

/// A link that was made. Its token is known only now.
#[derive(Debug)]
pub struct MadeLink {
    /// The secret.
    pub token: Token,
    /// What the link does.
    pub kind: LinkKind,
    /// Whom it is for.
    pub member: Membership,
    /// When it stops working.
    pub expires_at: OffsetDateTime,
}

/// Makes a link; older ones for the same person stop working. `lost` is for a lost phone: it signs the person's devices
/// out and removes their passkeys, but for those of an account that stands in another practice as well.
pub async fn make_link(
    mut tx: Tx,
    actor: &Actor,
    member: MembershipId,
    lost: bool,
    moment: &Moment,
) -> Done<MadeLink> {
    let person = may_make(&mut tx, actor, member).await?;
    if lost {
        sign_in::end_all(&mut tx, member, None, moment.at).await?;
        if let Some(account) = person.account {
            tx.show(Secret::Account(account)).await?;
            if !membership::stands_elsewhere(&mut tx, account).await? {
                passkey::remove_all(&mut tx, account).await?;
            }
        }
    }
    let made = add(&mut tx, actor, person, moment).await?;
    tx.commit().await?;
    Ok(made)
}

/// The person, if this actor may make links for them.
///
/// Leads may for the team, trainers for owners. Owners may for others of their households who have not come yet: a
/// link for somebody who has would let one owner act as another.
pub async fn may_make(tx: &mut Tx, actor: &Actor, member: MembershipId) -> Done<Membership> {
    let found = membership::find(member).read(tx).await?.filter(|m| m.removed_at.is_none());
    let person = found.ok_or(Refusal::NotFound)?;
    if person.role != Role::Owner {
        authorise(actor, Action::KeepTeam, None)?;
        return Ok(person);
    }
    let households = membership::households(member).read(tx).await?;
    if households.is_empty() {
        return Err(Refusal::NotFound);
    }
    for household in households {
        authorise(actor, Action::InviteOwner, Some(household))?;
    }
    if actor.role == Role::Owner && person.joined_at.is_some() {
        return Err(Refusal::Forbidden);
    }
    Ok(person)
}

/// Makes the link inside a transaction that does more.
pub(in crate::actions) async fn add(
    tx: &mut Tx,
    actor: &Actor,
    member: Membership,
    moment: &Moment,
) -> Done<MadeLink> {
    let (kind, waits) = match member.role {
        Role::Owner => (LinkKind::Device, DEVICE_LINK_WAITS),
        Role::Lead | Role::Trainer => (LinkKind::Invitation, INVITATION_WAITS),
    };
    let (token, expires_at) = (Token::fresh(), moment.at + waits);
    link_token::add(tx, token.hash(), kind, member.id, actor.membership, moment.at, expires_at).await?;
    audit::note(tx, &AuditEvent::by(actor, "make_link", "membership", member.id.0, moment)).await?;
    Ok(MadeLink { token, kind, member, expires_at })
}
