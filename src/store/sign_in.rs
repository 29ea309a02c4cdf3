//! Being signed in: one row a phone or computer. Only the token's hash is kept.

use std::collections::HashMap;

use time::OffsetDateTime;

use crate::domain::access::Actor;
use crate::domain::vocabulary::{Way, Word};
use crate::ids::{AccountId, MembershipId, PracticeId, SignInId};
use crate::store::membership::{self, Membership};
use crate::store::practice::{self, Practice};
use crate::store::reading::Together;
use crate::store::token::TokenHash;
use crate::store::word::word;
use crate::store::{Db, Result, Secret, Tx, account};

/// Somebody signed in, inside their practice.
#[derive(Debug)]
pub struct SignedIn {
    /// The transaction, inside the practice.
    pub tx: Tx,
    /// This sign-in.
    pub sign_in: SignInId,
    /// The account behind it.
    pub account: AccountId,
    /// Their place in the practice.
    pub member: Membership,
    /// The practice.
    pub practice: Practice,
    /// The same as access decisions want it.
    pub actor: Actor,
    /// How they signed in.
    pub way: Way,
    /// When they signed in.
    pub since: OffsetDateTime,
    /// When this sign-in was last used to change something.
    pub last_seen_at: OffsetDateTime,
}

/// Opens the practice of whoever holds this token, in the order token, sign-in, practice, membership.
/// `None` when the token is unknown, ended, expired, the account may not sign in, or the membership has ended.
pub async fn open(db: &Db, hash: TokenHash, now: OffsetDateTime) -> Result<Option<SignedIn>> {
    let mut door = db.door(Secret::Token(hash)).await?;
    let row = sqlx::query!(
        "select id, account_id, practice_id, membership_id, way, created_at, last_seen_at from sign_in
         where token_hash = $1 and ended_at is null and expires_at > $2",
        hash.bytes(),
        now
    )
    .fetch_optional(door.conn())
    .await?;
    let Some(row) = row else { return Ok(None) };
    if account::is_disabled(&mut door, row.account_id.into()).await? {
        return Ok(None);
    }
    let mut tx = door.enter(row.practice_id.into()).await?;
    let me = row.membership_id.into();
    let (member, households) =
        (membership::find(me), membership::households(me)).together().read(&mut tx).await?;
    let Some(member) = member else { return Ok(None) };
    if member.removed_at.is_some() || member.account != Some(row.account_id.into()) {
        return Ok(None);
    }
    let practice = practice::here(&mut tx).await?;
    let actor = Actor { practice: practice.id, membership: member.id, role: member.role, households };
    Ok(Some(SignedIn {
        tx,
        sign_in: row.id.into(),
        account: row.account_id.into(),
        member,
        practice,
        actor,
        way: word(&row.way)?,
        since: row.created_at,
        last_seen_at: row.last_seen_at,
    }))
}

/// A sign-in to be made.
#[derive(Debug)]
pub struct NewSignIn {
    /// Its id.
    pub id: SignInId,
    /// The hash of the token that the cookie carries.
    pub hash: TokenHash,
    /// The account.
    pub account: AccountId,
    /// The practice signed in to.
    pub practice: PracticeId,
    /// The membership in it.
    pub membership: MembershipId,
    /// How it came about.
    pub way: Way,
    /// What the device calls itself, shortened.
    pub device: String,
    /// When it ends by itself.
    pub expires_at: OffsetDateTime,
}

/// Signs somebody in, inside their practice.
pub async fn add(tx: &mut Tx, new: &NewSignIn, now: OffsetDateTime) -> Result<()> {
    sqlx::query!(
        "insert into sign_in (token_hash, id, account_id, practice_id, membership_id, way, device, created_at, last_seen_at, expires_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $8, $9)",
        new.hash.bytes(),
        new.id.0,
        new.account.0,
        new.practice.0,
        new.membership.0,
        new.way.stored(),
        new.device,
        now,
        new.expires_at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// A device on the devices page.
#[derive(Debug)]
pub struct Device {
    /// The sign-in.
    pub id: SignInId,
    /// What the device calls itself.
    pub device: String,
    /// When it was signed in.
    pub created_at: OffsetDateTime,
    /// When it last changed something.
    pub last_seen_at: OffsetDateTime,
}

/// The devices on which this member is signed in, newest first.
pub async fn devices(tx: &mut Tx, member: MembershipId, now: OffsetDateTime) -> Result<Vec<Device>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Device,
        "select id, device, created_at, last_seen_at from sign_in
         where practice_id = $1 and membership_id = $2 and ended_at is null and expires_at > $3
         order by created_at desc, id desc limit 100",
        practice.0,
        member.0,
        now
    )
    .fetch_all(tx.conn())
    .await
}

/// Notes that a sign-in was used.
pub async fn touch(tx: &mut Tx, id: SignInId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update sign_in set last_seen_at = $3 where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Ends one of a member's sign-ins; false if it is not theirs or had ended.
pub async fn end(tx: &mut Tx, member: MembershipId, id: SignInId, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update sign_in set ended_at = $4 where practice_id = $1 and membership_id = $2 and id = $3 and ended_at is null",
        practice.0,
        member.0,
        id.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Ends every sign-in of a member but `keep`; gives how many.
pub async fn end_all(
    tx: &mut Tx,
    member: MembershipId,
    keep: Option<SignInId>,
    now: OffsetDateTime,
) -> Result<u64> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update sign_in set ended_at = $4
         where practice_id = $1 and membership_id = $2 and ended_at is null and ($3::uuid is null or id <> $3)",
        practice.0,
        member.0,
        keep.map(|k| k.0),
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected())
}

/// Ends every sign-in of an account, in every practice, but `keep`. The transaction must have been shown the account.
pub async fn end_all_of_account(
    tx: &mut Tx,
    account: AccountId,
    keep: Option<SignInId>,
    now: OffsetDateTime,
) -> Result<()> {
    sqlx::query!(
        "update sign_in set ended_at = $3
         where account_id = $1 and ended_at is null and ($2::uuid is null or id <> $2)",
        account.0,
        keep.map(|k| k.0),
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// On how many devices a member is signed in.
pub async fn count(tx: &mut Tx, member: MembershipId, now: OffsetDateTime) -> Result<i64> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select count(*) as "devices!" from sign_in
           where practice_id = $1 and membership_id = $2 and ended_at is null and expires_at > $3"#,
        practice.0,
        member.0,
        now
    )
    .fetch_one(tx.conn())
    .await
}

/// On how many devices each member of the practice is signed in; whoever is signed in on none is left out.
pub async fn counts(tx: &mut Tx, now: OffsetDateTime) -> Result<HashMap<MembershipId, i64>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select membership_id, count(*) as "devices!" from sign_in
           where practice_id = $1 and ended_at is null and expires_at > $2 group by membership_id"#,
        practice.0,
        now
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(rows.into_iter().map(|row| (row.membership_id.into(), row.devices)).collect())
}
