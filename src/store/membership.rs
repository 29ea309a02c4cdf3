//! People's places in a practice.

use serde::Deserialize;
use time::OffsetDateTime;

use crate::domain::vocabulary::{Role, Word};
use crate::ids::{AccountId, HouseholdId, MembershipId, PracticeId};
use crate::store::reading::{Reading, reading};
use crate::store::word::word;
use crate::store::{Door, Result, Tx};

/// One person's place in the practice.
#[derive(Debug, Clone)]
pub struct Membership {
    /// Its id.
    pub id: MembershipId,
    /// The account that holds it, once somebody has taken it up.
    pub account: Option<AccountId>,
    /// What the person may do.
    pub role: Role,
    /// The person's name.
    pub name: String,
    /// A telephone number, or empty.
    pub phone: String,
    /// An address to write to, or empty.
    pub email: String,
    /// When the person took it up.
    pub joined_at: Option<OffsetDateTime>,
    /// When it ended.
    pub removed_at: Option<OffsetDateTime>,
}

#[derive(Deserialize)]
struct Row {
    id: uuid::Uuid,
    account_id: Option<uuid::Uuid>,
    role: String,
    name: String,
    phone: String,
    email: String,
    #[serde(with = "time::serde::rfc3339::option")]
    joined_at: Option<OffsetDateTime>,
    #[serde(with = "time::serde::rfc3339::option")]
    removed_at: Option<OffsetDateTime>,
}

impl TryFrom<Row> for Membership {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            id: row.id.into(),
            account: row.account_id.map(Into::into),
            role: word(&row.role)?,
            name: row.name,
            phone: row.phone,
            email: row.email,
            joined_at: row.joined_at,
            removed_at: row.removed_at,
        })
    }
}

/// What a new membership needs.
#[derive(Debug, Clone)]
pub struct NewMembership {
    /// Its id.
    pub id: MembershipId,
    /// The account, if the person is here already.
    pub account: Option<AccountId>,
    /// What the person may do.
    pub role: Role,
    /// The person's name.
    pub name: String,
    /// An address to write to, or empty.
    pub email: String,
    /// A telephone number, or empty.
    pub phone: String,
}

/// Adds a membership.
pub async fn add(tx: &mut Tx, new: &NewMembership, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into membership (practice_id, id, account_id, role, name, email, phone, created_at, joined_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8::timestamptz, case when $3::uuid is null then null else $8::timestamptz end)",
        practice.0,
        new.id.0,
        new.account.map(|a| a.0),
        new.role.stored(),
        new.name,
        new.email,
        new.phone,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// A membership of this practice, standing or ended.
pub fn find(id: MembershipId) -> Reading<Option<Membership>> {
    reading!(
        Row,
        "select id, account_id, role, name, phone, email, joined_at, removed_at
         from membership where practice_id = $1 and id = $2",
        id.0
    )
    .each::<Membership>()
    .first()
}

/// The standing trainers and leads, by name.
pub async fn team(tx: &mut Tx) -> Result<Vec<Membership>> {
    let practice = tx.practice();
    let rows = sqlx::query_as!(
        Row,
        "select id, account_id, role, name, phone, email, joined_at, removed_at
         from membership where practice_id = $1 and role in ('lead', 'trainer') and removed_at is null
         order by name, id",
        practice.0
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(Membership::try_from).collect()
}

/// The standing owners of a household, by name.
pub fn of_household(household: HouseholdId) -> Reading<Vec<Membership>> {
    reading!(
        Row,
        "select m.id, m.account_id, m.role, m.name, m.phone, m.email, m.joined_at, m.removed_at
         from household_member h
         join membership m on m.practice_id = h.practice_id and m.id = h.membership_id
         where h.practice_id = $1 and h.household_id = $2 and m.removed_at is null
         order by m.name, m.id",
        household.0
    )
    .each()
}

/// An owner of the practice who does not belong to a household yet.
#[derive(Debug)]
pub struct OtherOwner {
    /// Their membership.
    pub id: MembershipId,
    /// Their name.
    pub name: String,
    /// The households that they belong to, joined by commas.
    pub households: String,
}

/// Standing owners who do not belong to this household, by name; `search` narrows by name. The first 101.
pub async fn owners_elsewhere(tx: &mut Tx, household: HouseholdId, search: &str) -> Result<Vec<OtherOwner>> {
    let practice = tx.practice();
    sqlx::query_as!(
        OtherOwner,
        r#"select m.id, m.name,
             coalesce((select string_agg(h.name, ', ' order by h.name) from household_member hm
               join household h on h.practice_id = hm.practice_id and h.id = hm.household_id
               where hm.practice_id = m.practice_id and hm.membership_id = m.id), '') as "households!"
           from membership m
           where m.practice_id = $1 and m.role = 'owner' and m.removed_at is null
             and position(lower($3::text) in lower(m.name)) > 0
             and not exists (select 1 from household_member hm
               where hm.practice_id = m.practice_id and hm.membership_id = m.id and hm.household_id = $2)
           order by m.name, m.id
           limit 101"#,
        practice.0,
        household.0,
        search
    )
    .fetch_all(tx.conn())
    .await
}

/// Whether somebody is a standing owner here, and goes on to until this transaction ends; others who ask wait.
pub async fn hold_owner(tx: &mut Tx, id: MembershipId) -> Result<bool> {
    let practice = tx.practice();
    let found = sqlx::query!(
        "select id from membership
         where practice_id = $1 and id = $2 and role = 'owner' and removed_at is null for no key update",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(found.is_some())
}

/// Lets an account take a standing membership up; false if it has ended.
pub async fn take_up(tx: &mut Tx, id: MembershipId, account: AccountId, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update membership set account_id = $3, joined_at = coalesce(joined_at, $4)
         where practice_id = $1 and id = $2 and removed_at is null",
        practice.0,
        id.0,
        account.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Changes what somebody is called and where they are reached.
pub async fn edit(tx: &mut Tx, id: MembershipId, name: &str, email: &str, phone: &str) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update membership set name = $3, email = $4, phone = $5 where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        name,
        email,
        phone
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes what somebody is called and nothing else; false if the membership has ended.
pub async fn rename(tx: &mut Tx, id: MembershipId, name: &str, phone: Option<&str>) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update membership set name = $3, phone = coalesce($4, phone) where practice_id = $1 and id = $2 and removed_at is null",
        practice.0,
        id.0,
        name,
        phone
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Whether an account stands in other practices as well. The transaction must have been shown the account.
pub async fn stands_elsewhere(tx: &mut Tx, account: AccountId) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from membership
             where account_id = $2 and practice_id <> $1 and removed_at is null) as "elsewhere!""#,
        practice.0,
        account.0
    )
    .fetch_one(tx.conn())
    .await
}

/// How many dogs a trainer looks after.
pub async fn dogs_in_care(tx: &mut Tx, trainer: MembershipId) -> Result<i64> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select count(*) as "dogs!" from dog where practice_id = $1 and trainer_id = $2"#,
        practice.0,
        trainer.0
    )
    .fetch_one(tx.conn())
    .await
}

/// Hands a trainer's dogs to another trainer.
pub async fn hand_dogs_over(tx: &mut Tx, from: MembershipId, to: MembershipId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set trainer_id = $3 where practice_id = $1 and trainer_id = $2",
        practice.0,
        from.0,
        to.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Ends a membership and lets its account go, so that the same person can be invited again; false if it had ended
/// already.
pub async fn remove(tx: &mut Tx, id: MembershipId, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update membership set removed_at = $3, account_id = null where practice_id = $1 and id = $2 and removed_at is null",
        practice.0,
        id.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

#[derive(Deserialize)]
struct Belongs {
    household_id: HouseholdId,
}

/// The households in which this member is an owner.
pub fn households(id: MembershipId) -> Reading<Vec<HouseholdId>> {
    reading!(
        Belongs,
        "select household_id from household_member where practice_id = $1 and membership_id = $2 order by household_id",
        id.0
    )
    .then(|rows| Ok(rows.into_iter().map(|row| row.household_id).collect()))
}

/// Where an account may sign in to: its standing memberships, one a practice. The door must have been shown
/// the account.
pub async fn of_account(
    door: &mut Door,
    account: AccountId,
) -> Result<Vec<(PracticeId, MembershipId, Role)>> {
    let rows = sqlx::query!(
        "select practice_id, id, role from membership where account_id = $1 and removed_at is null
         order by joined_at, practice_id",
        account.0
    )
    .fetch_all(door.conn())
    .await?;
    rows.into_iter().map(|r| Ok((r.practice_id.into(), r.id.into(), word(&r.role)?))).collect()
}

/// How many standing leads the practice has, in a transaction that holds them and `other` until it ends. Others may
/// go on naming them, but not rely on their standing: [`hold_trainer`] waits.
pub async fn lock_leads(tx: &mut Tx, other: MembershipId) -> Result<usize> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select role = 'lead' as "lead!" from membership
           where practice_id = $1 and removed_at is null and (role = 'lead' or id = $2)
           order by id for no key update"#,
        practice.0,
        other.0
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(rows.iter().filter(|row| row.lead).count())
}

/// Whether somebody trains here, and goes on to until this transaction ends.
pub async fn hold_trainer(tx: &mut Tx, id: MembershipId) -> Result<bool> {
    let practice = tx.practice();
    let found = sqlx::query!(
        "select id from membership
         where practice_id = $1 and id = $2 and role in ('lead', 'trainer') and removed_at is null for share",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(found.is_some())
}
