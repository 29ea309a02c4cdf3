//! Packages of lessons that were bought for a dog. One that was added in error is taken back, never deleted.

use serde::Deserialize;
use time::{Date, OffsetDateTime};

use crate::clock::Moment;
use crate::ids::{DogId, LessonPackageId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::{Result, Tx};

/// A package.
#[derive(Debug, Clone, Deserialize)]
pub struct LessonPackage {
    /// Its id.
    pub id: LessonPackageId,
    /// How many lessons.
    pub bought: i16,
    /// The day from which lessons draw on it.
    #[serde(with = "day")]
    pub from: Date,
    /// A note; may be empty.
    pub note: String,
    /// Who added it.
    pub by: String,
    /// Who took it back.
    #[serde(rename = "taken_back_by?")]
    pub taken_back_by: Option<String>,
    /// When it was taken back.
    #[serde(with = "time::serde::rfc3339::option")]
    pub taken_back_at: Option<OffsetDateTime>,
    /// Why.
    pub taken_back_why: String,
}

/// A package to be added.
#[derive(Debug, Clone)]
pub struct NewPackage<'a> {
    /// Its id, made with the form.
    pub id: LessonPackageId,
    /// The dog.
    pub dog: DogId,
    /// How many lessons, 1–50.
    pub bought: i16,
    /// The day from which lessons draw on it.
    pub from: Date,
    /// A note; may be empty.
    pub note: &'a str,
}

/// Adds a package; false where its id is taken.
pub async fn add(tx: &mut Tx, new: &NewPackage<'_>, by: MembershipId, moment: &Moment) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into lesson_package (practice_id, id, dog_id, bought, from_on, note, added_by, added_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8) on conflict do nothing",
        practice.0,
        new.id.0,
        new.dog.0,
        new.bought,
        new.from,
        new.note,
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Whether the package with this id says this.
pub async fn is_same(tx: &mut Tx, new: &NewPackage<'_>) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from lesson_package where practice_id = $1 and id = $2 and dog_id = $3 and bought = $4
             and from_on = $5 and note = $6) as "same!""#,
        practice.0,
        new.id.0,
        new.dog.0,
        new.bought,
        new.from,
        new.note
    )
    .fetch_one(tx.conn())
    .await
}

/// The packages of a dog, those that were taken back among them, the oldest first.
pub fn of_dog(dog: DogId) -> Reading<Vec<LessonPackage>> {
    reading!(
        LessonPackage,
        r#"select p.id, p.bought, p.from_on as "from", p.note, a.name as by, t.name as "taken_back_by?", p.taken_back_at,
             p.taken_back_why
           from lesson_package p
           join membership a on a.practice_id = p.practice_id and a.id = p.added_by
           left join membership t on t.practice_id = p.practice_id and t.id = p.taken_back_by
           where p.practice_id = $1 and p.dog_id = $2
           order by p.from_on, p.added_at, p.id"#,
        dog.0
    )
}

/// Takes a package back; false where there is none, or it was taken back before.
pub async fn take_back(
    tx: &mut Tx,
    (dog, id): (DogId, LessonPackageId),
    why: &str,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update lesson_package set taken_back_by = $4, taken_back_at = $5, taken_back_why = $6
         where practice_id = $1 and dog_id = $2 and id = $3 and taken_back_at is null",
        practice.0,
        dog.0,
        id.0,
        by.0,
        now,
        why
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
