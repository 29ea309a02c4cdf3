//! What households agreed to. Only added to: the latest counts.

use time::OffsetDateTime;

use crate::ids::{ConsentId, DogId, MembershipId};
use crate::store::{Result, Tx};

/// Something signed.
#[derive(Debug, Clone)]
pub struct Consent {
    /// The version of its text.
    pub text_version: i16,
    /// The name that was written under it.
    pub signed_name: String,
    /// Who was signed in.
    pub by: String,
    /// When.
    pub signed_at: OffsetDateTime,
    /// Each thing, in order.
    pub ticks: Vec<Tick>,
}

/// One thing that was agreed to, or not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tick {
    /// Which of the text's clauses.
    pub clause: String,
    /// What stood beside the tick.
    pub words: String,
    /// Whether it was ticked.
    pub agreed: bool,
}

/// Something to be signed.
#[derive(Debug)]
pub struct ToSign<'a> {
    /// Its id, made with the page.
    pub id: ConsentId,
    /// The version of its text.
    pub text_version: i16,
    /// The name under it.
    pub signed_name: &'a str,
    /// Each thing, in order.
    pub ticks: &'a [Tick],
}

/// Keeps what was signed; false where its id is taken.
pub async fn add(
    tx: &mut Tx,
    dog: DogId,
    signed: &ToSign<'_>,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into consent (practice_id, id, dog_id, text_version, signed_name, signed_by, signed_at)
         values ($1, $2, $3, $4, $5, $6, $7) on conflict do nothing",
        practice.0,
        signed.id.0,
        dog.0,
        signed.text_version,
        signed.signed_name,
        by.0,
        now
    )
    .execute(tx.conn())
    .await?;
    if done.rows_affected() == 0 {
        return Ok(false);
    }
    let clauses: Vec<String> = signed.ticks.iter().map(|tick| tick.clause.clone()).collect();
    let words: Vec<String> = signed.ticks.iter().map(|tick| tick.words.clone()).collect();
    let agreed: Vec<bool> = signed.ticks.iter().map(|tick| tick.agreed).collect();
    sqlx::query!(
        "insert into consent_tick (practice_id, consent_id, position, clause, words, agreed)
         select $1, $2, n.position, n.clause, n.words, n.agreed
         from unnest($3::text[], $4::text[], $5::boolean[]) with ordinality as n (clause, words, agreed, position)",
        practice.0,
        signed.id.0,
        &clauses,
        &words,
        &agreed
    )
    .execute(tx.conn())
    .await?;
    Ok(true)
}

/// Whether what was signed under this id is this.
pub async fn is_same(tx: &mut Tx, dog: DogId, signed: &ToSign<'_>) -> Result<bool> {
    let practice = tx.practice();
    let agreed: Vec<bool> = signed.ticks.iter().map(|tick| tick.agreed).collect();
    sqlx::query_scalar!(
        r#"select exists (select 1 from consent c
             where c.practice_id = $1 and c.id = $2 and c.dog_id = $3 and c.signed_name = $4
               and $5 = (select array_agg(t.agreed order by t.position) from consent_tick t
                         where t.practice_id = c.practice_id and t.consent_id = c.id)) as "same!""#,
        practice.0,
        signed.id.0,
        dog.0,
        signed.signed_name,
        &agreed
    )
    .fetch_one(tx.conn())
    .await
}

/// What was signed last for a dog.
pub async fn latest(tx: &mut Tx, dog: DogId) -> Result<Option<Consent>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        "select c.id, c.text_version, c.signed_name, c.signed_at, m.name from consent c
         join membership m on m.practice_id = c.practice_id and m.id = c.signed_by
         where c.practice_id = $1 and c.dog_id = $2 order by c.signed_at desc, c.id desc limit 1",
        practice.0,
        dog.0
    )
    .fetch_optional(tx.conn())
    .await?;
    let Some(row) = row else { return Ok(None) };
    let ticks = sqlx::query_as!(
        Tick,
        "select clause, words, agreed from consent_tick where practice_id = $1 and consent_id = $2 order by position",
        practice.0,
        row.id
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(Some(Consent {
        text_version: row.text_version,
        signed_name: row.signed_name,
        by: row.name,
        signed_at: row.signed_at,
        ticks,
    }))
}
