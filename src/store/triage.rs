//! What trainers made of an intake. Only added to: the latest counts.

use time::OffsetDateTime;

use crate::domain::intake::triage::{Publishing, Triage, publishing};
use crate::domain::vocabulary::Word;
use crate::ids::{DogId, MembershipId, TriageId};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// One answer.
#[derive(Debug, Clone)]
pub struct Answered {
    /// What it is.
    pub answer: Triage,
    /// Why, for trainers alone.
    pub reason: String,
    /// Who gave it.
    pub by: String,
    /// When.
    pub at: OffsetDateTime,
}

/// Adds an answer; false where its id is taken.
pub async fn add(
    tx: &mut Tx,
    dog: DogId,
    id: TriageId,
    (answer, reason): (Triage, &str),
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into intake_triage (practice_id, id, dog_id, answer, reason, decided_by, decided_at)
         values ($1, $2, $3, $4, $5, $6, $7) on conflict do nothing",
        practice.0,
        id.0,
        dog.0,
        answer.stored(),
        reason,
        by.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Whether the answer with this id says this about this dog.
pub async fn is_same(
    tx: &mut Tx,
    dog: DogId,
    id: TriageId,
    (answer, reason): (Triage, &str),
) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from intake_triage
             where practice_id = $1 and id = $2 and dog_id = $3 and answer = $4 and reason = $5) as "same!""#,
        practice.0,
        id.0,
        dog.0,
        answer.stored(),
        reason
    )
    .fetch_one(tx.conn())
    .await
}

/// Every answer about a dog, the latest first.
pub async fn of_dog(tx: &mut Tx, dog: DogId) -> Result<Vec<Answered>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select t.answer, t.reason, t.decided_at, m.name from intake_triage t
         join membership m on m.practice_id = t.practice_id and m.id = t.decided_by
         where t.practice_id = $1 and t.dog_id = $2 order by t.decided_at desc, t.id desc",
        practice.0,
        dog.0
    )
    .fetch_all(tx.conn())
    .await?;
    let answered = rows.into_iter().map(|row| {
        Ok(Answered { answer: word(&row.answer)?, reason: row.reason, by: row.name, at: row.decided_at })
    });
    answered.collect()
}

/// What stands in the way of publishing a plan for a dog.
pub async fn publishing_of(tx: &mut Tx, dog: DogId) -> Result<Publishing> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select d.vet_status, i.sent_at as "sent_at?", t.answer as "answer?", t.decided_at as "decided_at?"
           from dog d
           left join intake i on i.practice_id = d.practice_id and i.dog_id = d.id
           left join lateral (select answer, decided_at from intake_triage
             where practice_id = $1 and dog_id = $2 order by decided_at desc, id desc limit 1) t on true
           where d.practice_id = $1 and d.id = $2"#,
        practice.0,
        dog.0
    )
    .fetch_one(tx.conn())
    .await?;
    let latest = match row.answer.zip(row.decided_at) {
        Some((answer, at)) => Some((word(&answer)?, at)),
        None => None,
    };
    Ok(publishing(row.sent_at, latest, word(&row.vet_status)?))
}
