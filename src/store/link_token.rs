//! Links that carry a secret: an owner's phone is signed in by one, a trainer takes up an invitation by one.

use std::collections::HashSet;

use time::OffsetDateTime;

use crate::ids::MembershipId;
use crate::store::membership::{self, Membership};
use crate::store::practice::{self, Practice};
use crate::store::token::TokenHash;
use crate::store::{Db, Result, Secret, Tx};

/// What a link does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LinkKind {
    /// A trainer sets an address and a password.
    Invitation,
    /// Signs an owner's phone in.
    Device,
}

impl LinkKind {
    fn stored(self) -> &'static str {
        match self {
            Self::Invitation => "invitation",
            Self::Device => "device",
        }
    }
}

/// A link that may still be used, and whom it is for.
#[derive(Debug)]
pub struct OpenLink {
    /// The transaction, inside the link's practice.
    pub tx: Tx,
    /// What it does.
    pub kind: LinkKind,
    /// Whom it is for.
    pub member: Membership,
    /// The practice.
    pub practice: Practice,
}

/// What a shown link turned out to be.
#[derive(Debug)]
pub enum ShownLink {
    /// It may still be used.
    Open(Box<OpenLink>),
    /// It was used, revoked, replaced, has run out, or the person has left.
    Over,
    /// There never was such a link.
    Unknown,
}

/// Opens the practice of a link that is unused, unrevoked and unexpired, for a standing membership.
pub async fn open(db: &Db, hash: TokenHash, now: OffsetDateTime) -> Result<ShownLink> {
    let mut door = db.door(Secret::Token(hash)).await?;
    let row = sqlx::query!(
        r#"select practice_id, kind, membership_id,
             (used_at is null and revoked_at is null and expires_at > $2) as "good!"
           from link_token where token_hash = $1 and kind in ('invitation', 'device')"#,
        hash.bytes(),
        now
    )
    .fetch_optional(door.conn())
    .await?;
    let Some(row) = row else { return Ok(ShownLink::Unknown) };
    if !row.good {
        return Ok(ShownLink::Over);
    }
    let kind = if row.kind == "invitation" { LinkKind::Invitation } else { LinkKind::Device };
    let mut tx = door.enter(row.practice_id.into()).await?;
    let member = membership::find(row.membership_id.into()).read(&mut tx).await?;
    let Some(member) = member.filter(|m| m.removed_at.is_none()) else { return Ok(ShownLink::Over) };
    let practice = practice::here(&mut tx).await?;
    Ok(ShownLink::Open(Box::new(OpenLink { tx, kind, member, practice })))
}

/// Makes a link for a member; older unused links of the same kind stop working.
pub async fn add(
    tx: &mut Tx,
    hash: TokenHash,
    kind: LinkKind,
    member: MembershipId,
    by: MembershipId,
    now: OffsetDateTime,
    expires_at: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    revoke(tx, kind, member, now).await?;
    sqlx::query!(
        "insert into link_token (token_hash, practice_id, kind, membership_id, created_by, created_at, expires_at)
         values ($1, $2, $3, $4, $5, $6, $7)",
        hash.bytes(),
        practice.0,
        kind.stored(),
        member.0,
        by.0,
        now,
        expires_at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Who of the practice has a link that waits to be opened.
pub async fn waiting(tx: &mut Tx, now: OffsetDateTime) -> Result<HashSet<MembershipId>> {
    let practice = tx.practice();
    let waiting = sqlx::query_scalar!(
        "select membership_id from link_token
         where practice_id = $1 and kind in ('invitation', 'device') and used_at is null and revoked_at is null and expires_at > $2",
        practice.0,
        now
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(waiting.into_iter().map(Into::into).collect())
}

/// Stops every unused link of a member, of whatever kind.
pub async fn revoke_all(tx: &mut Tx, member: MembershipId, now: OffsetDateTime) -> Result<()> {
    revoke(tx, LinkKind::Device, member, now).await?;
    revoke(tx, LinkKind::Invitation, member, now).await
}

/// Stops a member's unused links of this kind.
pub async fn revoke(tx: &mut Tx, kind: LinkKind, member: MembershipId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update link_token set revoked_at = $4
         where practice_id = $1 and kind = $2 and membership_id = $3 and used_at is null and revoked_at is null",
        practice.0,
        kind.stored(),
        member.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Uses a link up; false if somebody else just did.
pub async fn use_up(tx: &mut Tx, hash: TokenHash, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update link_token set used_at = $3
         where practice_id = $1 and token_hash = $2 and used_at is null and revoked_at is null and expires_at > $3",
        practice.0,
        hash.bytes(),
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
