//! Phrases that a trainer keeps for answers.

use time::OffsetDateTime;

use crate::ids::{MembershipId, PhraseId};
use crate::store::{Result, Tx};

/// One phrase.
#[derive(Debug, Clone)]
pub struct Phrase {
    /// Its id.
    pub id: PhraseId,
    /// The words.
    pub body: String,
}

/// The most phrases that one person keeps.
pub const MOST: i64 = 50;

/// A person's phrases, by their words.
pub async fn of_member(tx: &mut Tx, member: MembershipId) -> Result<Vec<Phrase>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Phrase,
        "select id, body from phrase where practice_id = $1 and membership_id = $2 order by lower(body), id limit $3",
        practice.0,
        member.0,
        MOST
    )
    .fetch_all(tx.conn())
    .await
}

/// Keeps a phrase; the same words are kept once. False where there are as many as one keeps.
pub async fn add(
    tx: &mut Tx,
    id: PhraseId,
    member: MembershipId,
    body: &str,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let has = sqlx::query_scalar!(
        r#"select count(*) as "has!" from phrase where practice_id = $1 and membership_id = $2 and body <> $3"#,
        practice.0,
        member.0,
        body
    )
    .fetch_one(tx.conn())
    .await?;
    if has >= MOST {
        return Ok(false);
    }
    sqlx::query!(
        "insert into phrase (practice_id, id, membership_id, body, made_at) values ($1, $2, $3, $4, $5)
         on conflict do nothing",
        practice.0,
        id.0,
        member.0,
        body,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(true)
}

/// Takes a phrase away; false where this person has none such.
pub async fn remove(tx: &mut Tx, id: PhraseId, member: MembershipId) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "delete from phrase where practice_id = $1 and id = $2 and membership_id = $3",
        practice.0,
        id.0,
        member.0
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() > 0)
}
