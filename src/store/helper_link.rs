//! Links for people without an account who walk or mind a dog.

use time::{Date, OffsetDateTime};

use crate::ids::{DogId, HelperLinkId, MembershipId};
use crate::store::membership::{self, Membership};
use crate::store::practice::{self, Practice};
use crate::store::token::TokenHash;
use crate::store::{Db, Result, Secret, Tx};

/// A link for somebody who helps with a dog.
#[derive(Debug, Clone)]
pub struct HelperLink {
    /// Its id, which is no secret.
    pub id: HelperLinkId,
    /// The dog.
    pub dog: DogId,
    /// Whom it is for.
    pub name: String,
    /// What the household wants them to know.
    pub note: String,
    /// Who made it.
    pub made_by: MembershipId,
    /// When it stops working.
    pub expires_at: OffsetDateTime,
}

/// A link that was shown and works.
pub struct Opened {
    /// The transaction, inside its practice.
    pub tx: Tx,
    /// The link.
    pub link: HelperLink,
    /// Who made it, and still belongs to the practice.
    pub maker: Membership,
    /// The practice.
    pub practice: Practice,
}

/// Opens the practice of a helper's link that has not run out, was not ended, and whose maker still belongs here. Everything else is
/// the same nothing.
pub async fn open(db: &Db, hash: TokenHash, now: OffsetDateTime) -> Result<Option<Opened>> {
    let mut door = db.door(Secret::Token(hash)).await?;
    let row = sqlx::query!(
        r#"select practice_id, helper_link_id as "link!" from link_token
           where token_hash = $1 and kind = 'helper' and expires_at > $2 and revoked_at is null"#,
        hash.bytes(),
        now
    )
    .fetch_optional(door.conn())
    .await?;
    let Some(row) = row else { return Ok(None) };
    let mut tx = door.enter(row.practice_id.into()).await?;
    let practice = practice::here(&mut tx).await?;
    let link = sqlx::query_as!(
        HelperLink,
        r#"select h.id, h.dog_id as dog, h.name, h.note, h.made_by, h.expires_at from helper_link h
           join dog d on d.practice_id = h.practice_id and d.id = h.dog_id and d.archived_at is null
           where h.practice_id = $1 and h.id = $2 and h.ended_at is null and h.expires_at > $3"#,
        practice.id.0,
        row.link,
        now
    )
    .fetch_optional(tx.conn())
    .await?;
    let Some(link) = link else { return Ok(None) };
    let maker = membership::find(link.made_by).read(&mut tx).await?.filter(|m| m.removed_at.is_none());
    Ok(maker.map(|maker| Opened { tx, link, maker, practice }))
}

/// Keeps a link with the hash of its secret. Asked for again with the same content, it gets a new secret in place of the first, which
/// nobody may have seen; false if its id is known with other content.
pub async fn add(tx: &mut Tx, link: &HelperLink, hash: TokenHash, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let added = sqlx::query!(
        "insert into helper_link (practice_id, id, dog_id, name, note, made_by, made_at, expires_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8) on conflict (practice_id, id) do nothing",
        practice.0,
        link.id.0,
        link.dog.0,
        link.name,
        link.note,
        link.made_by.0,
        now,
        link.expires_at
    )
    .execute(tx.conn())
    .await?;
    if added.rows_affected() == 0 && !is_same_again(tx, link, now).await? {
        return Ok(false);
    }
    sqlx::query!(
        // spent for whatever opens a link once: it signs nobody in
        "insert into link_token
           (token_hash, practice_id, kind, membership_id, created_by, created_at, expires_at, used_at, helper_link_id)
         values ($1, $2, 'helper', $3, $3, $4, $5, $4, $6)",
        hash.bytes(),
        practice.0,
        link.made_by.0,
        now,
        link.expires_at,
        link.id.0
    )
    .execute(tx.conn())
    .await?;
    Ok(true)
}

/// Whether a link with this id says the same and works; its secrets stop working then.
async fn is_same_again(tx: &mut Tx, link: &HelperLink, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let same = sqlx::query_scalar!(
        r#"select exists (select from helper_link where practice_id = $1 and id = $2 and dog_id = $3 and name = $4 and note = $5
             and made_by = $6 and ended_at is null and expires_at > $7) as "same!""#,
        practice.0,
        link.id.0,
        link.dog.0,
        link.name,
        link.note,
        link.made_by.0,
        now
    )
    .fetch_one(tx.conn())
    .await?;
    if same {
        sqlx::query!(
            "update link_token set revoked_at = $3
             where practice_id = $1 and helper_link_id = $2 and revoked_at is null",
            practice.0,
            link.id.0,
            now
        )
        .execute(tx.conn())
        .await?;
    }
    Ok(same)
}

/// The links of a dog that work, the newest first.
pub async fn of_dog(tx: &mut Tx, dog: DogId, now: OffsetDateTime) -> Result<Vec<HelperLink>> {
    let practice = tx.practice();
    sqlx::query_as!(
        HelperLink,
        r#"select h.id, h.dog_id as dog, h.name, h.note, h.made_by, h.expires_at from helper_link h
           join membership m on m.practice_id = h.practice_id and m.id = h.made_by and m.removed_at is null
           join dog d on d.practice_id = h.practice_id and d.id = h.dog_id and d.archived_at is null
           join household_member o on o.practice_id = h.practice_id and o.household_id = d.household_id and o.membership_id = h.made_by
           where h.practice_id = $1 and h.dog_id = $2 and h.ended_at is null and h.expires_at > $3
           order by h.made_at desc, h.id"#,
        practice.0,
        dog.0,
        now
    )
    .fetch_all(tx.conn())
    .await
}

/// Ends a link of a dog; false if there is none that is not ended.
pub async fn end(tx: &mut Tx, dog: DogId, id: HelperLinkId, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let ended = sqlx::query!(
        "update helper_link set ended_at = $4 where practice_id = $1 and dog_id = $2 and id = $3 and ended_at is null",
        practice.0,
        dog.0,
        id.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(ended.rows_affected() == 1)
}

/// How many sittings helpers logged for a dog on a day.
pub async fn logged_on(tx: &mut Tx, dog: DogId, day: Date) -> Result<i64> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select count(*) as "count!" from practice_log
           where practice_id = $1 and dog_id = $2 and local_date = $3 and capture = 'helper'"#,
        practice.0,
        dog.0,
        day
    )
    .fetch_one(tx.conn())
    .await
}
