//! Views of the caseload that a trainer keeps under a name: what was asked for, as the address has it.

use time::OffsetDateTime;

use crate::ids::{CaseloadViewId, MembershipId};
use crate::store::{Result, Tx};

/// One view.
#[derive(Debug, Clone)]
pub struct CaseloadView {
    /// Its id.
    pub id: CaseloadViewId,
    /// What it is called.
    pub name: String,
    /// The query of its address.
    pub query: String,
}

/// The most views that one person keeps.
pub const MOST: i64 = 20;

/// A person's views, by name.
pub async fn of_member(tx: &mut Tx, member: MembershipId) -> Result<Vec<CaseloadView>> {
    let practice = tx.practice();
    sqlx::query_as!(
        CaseloadView,
        "select id, name, query from caseload_view where practice_id = $1 and membership_id = $2 order by lower(name), id limit $3",
        practice.0,
        member.0,
        MOST
    )
    .fetch_all(tx.conn())
    .await
}

/// Keeps a view in the place of one of the same name.
pub async fn put(tx: &mut Tx, view: &CaseloadView, member: MembershipId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from caseload_view where practice_id = $1 and membership_id = $2 and name = $3",
        practice.0,
        member.0,
        view.name
    )
    .execute(tx.conn())
    .await?;
    sqlx::query!(
        "insert into caseload_view (practice_id, id, membership_id, name, query, kept_at) values ($1, $2, $3, $4, $5, $6)
         on conflict do nothing",
        practice.0,
        view.id.0,
        member.0,
        view.name,
        view.query,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Takes a view away; false where this person has none such.
pub async fn remove(tx: &mut Tx, id: CaseloadViewId, member: MembershipId) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "delete from caseload_view where practice_id = $1 and id = $2 and membership_id = $3",
        practice.0,
        id.0,
        member.0
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() > 0)
}
