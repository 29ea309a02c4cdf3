//! Messages about a dog, between its household and its trainers.

use time::OffsetDateTime;

use crate::ids::{DogId, MembershipId, MessageId};
use crate::store::{Result, Tx};

/// A message.
#[derive(Debug, Clone)]
pub struct Message {
    /// Its id.
    pub id: MessageId,
    /// Who wrote it.
    pub by: MembershipId,
    /// Their name.
    pub name: String,
    /// Whether a trainer wrote it.
    pub from_trainer: bool,
    /// What it says.
    pub body: String,
    /// When it was sent.
    pub sent_at: OffsetDateTime,
}

/// Sends a message; gives when it stands as sent, or `None` if its id is known already. The dog's summary must be
/// locked: every message stands after those before it, so that what was read up to one leaves none out.
pub async fn add(
    tx: &mut Tx,
    id: MessageId,
    dog: DogId,
    by: MembershipId,
    from_trainer: bool,
    body: &str,
    now: OffsetDateTime,
) -> Result<Option<OffsetDateTime>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "insert into message (practice_id, id, dog_id, by_membership_id, from_trainer, body, sent_at)
         values ($1, $2, $3, $4, $5, $6, greatest($7, (select max(sent_at) + interval '1 microsecond' from message
           where practice_id = $1 and dog_id = $3)))
         on conflict (practice_id, id) do nothing
         returning sent_at",
        practice.0,
        id.0,
        dog.0,
        by.0,
        from_trainer,
        body,
        now
    )
    .fetch_optional(tx.conn())
    .await
}

/// Whether the message with this id, whichever dog it is about, says this about this dog and is by this member.
pub async fn is_same(tx: &mut Tx, id: MessageId, dog: DogId, by: MembershipId, body: &str) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from message
             where practice_id = $1 and id = $2 and dog_id = $3 and by_membership_id = $4 and body = $5) as "same!""#,
        practice.0,
        id.0,
        dog.0,
        by.0,
        body
    )
    .fetch_one(tx.conn())
    .await
}

/// When a message about a dog was sent.
pub async fn sent_at(tx: &mut Tx, dog: DogId, id: MessageId) -> Result<Option<OffsetDateTime>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select sent_at from message where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await
}

/// The last messages about a dog, oldest first, at most `most`.
pub async fn of_dog(tx: &mut Tx, dog: DogId, most: i64) -> Result<Vec<Message>> {
    let practice = tx.practice();
    let mut messages = sqlx::query_as!(
        Message,
        "select g.id, g.by_membership_id as by, m.name, g.from_trainer, g.body, g.sent_at
         from message g
         join membership m on m.practice_id = g.practice_id and m.id = g.by_membership_id
         where g.practice_id = $1 and g.dog_id = $2
         order by g.sent_at desc, g.id desc limit $3",
        practice.0,
        dog.0,
        most
    )
    .fetch_all(tx.conn())
    .await?;
    messages.reverse();
    Ok(messages)
}

/// Notes that a member has read everything about a dog up to an instant.
pub async fn mark_read(tx: &mut Tx, dog: DogId, member: MembershipId, to: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into message_read (practice_id, dog_id, membership_id, read_to) values ($1, $2, $3, $4)
         on conflict (practice_id, dog_id, membership_id) do update set read_to = greatest(message_read.read_to, excluded.read_to)",
        practice.0,
        dog.0,
        member.0,
        to
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// How many messages of trainers an owner has not read, over their own dogs.
pub async fn unread_by_owner(tx: &mut Tx, owner: MembershipId) -> Result<i64> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select count(*) as "unread!" from household_member h
           join dog d on d.practice_id = h.practice_id and d.household_id = h.household_id
           join message g on g.practice_id = d.practice_id and g.dog_id = d.id and g.from_trainer
           left join message_read r on r.practice_id = g.practice_id and r.dog_id = g.dog_id and r.membership_id = $2
           where h.practice_id = $1 and h.membership_id = $2 and (r.read_to is null or g.sent_at > r.read_to)"#,
        practice.0,
        owner.0
    )
    .fetch_one(tx.conn())
    .await
}

/// Up to when a member has read the messages about a dog.
pub async fn read_to(tx: &mut Tx, dog: DogId, member: MembershipId) -> Result<Option<OffsetDateTime>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select read_to from message_read where practice_id = $1 and dog_id = $2 and membership_id = $3",
        practice.0,
        dog.0,
        member.0
    )
    .fetch_optional(tx.conn())
    .await
}
