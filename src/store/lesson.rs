//! What came of lessons.

use serde::Deserialize;
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::clock::Moment;
use crate::ids::{AppointmentId, DogId, LessonId, MembershipId, PracticeLogId};
use crate::store::reading::{Reading, day, reading};
use crate::store::{Result, Tx};

/// A lesson that was held.
#[derive(Debug, Clone)]
pub struct Lesson {
    /// Its id.
    pub id: LessonId,
    /// The day.
    pub held_on: Date,
    /// When its note was kept.
    pub kept_at: OffsetDateTime,
    /// What the household was told.
    pub summary: String,
    /// What only trainers read.
    pub private_note: String,
    /// The sitting that was counted there.
    pub log: Option<PracticeLogId>,
    /// Who kept it.
    pub by: String,
}

/// A lesson to be kept.
#[derive(Debug, Clone)]
pub struct NewLesson<'a> {
    /// Its id, made with the form.
    pub id: LessonId,
    /// The dog.
    pub dog: DogId,
    /// The day.
    pub held_on: Date,
    /// What the household is told.
    pub summary: &'a str,
    /// What only trainers read.
    pub private_note: &'a str,
    /// The sitting that was counted there.
    pub log: Option<PracticeLogId>,
    /// The booked lesson that it was.
    pub appointment: Option<AppointmentId>,
}

/// Keeps a lesson; false where its id is taken.
pub async fn add(tx: &mut Tx, new: &NewLesson<'_>, by: MembershipId, moment: &Moment) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into lesson (practice_id, id, dog_id, held_on, summary, private_note, log_id, kept_by, kept_at,
           appointment_id)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) on conflict (practice_id, id) do nothing",
        practice.0,
        new.id.0,
        new.dog.0,
        new.held_on,
        new.summary,
        new.private_note,
        new.log.map(|log| log.0),
        by.0,
        moment.at,
        new.appointment.map(|appointment| appointment.0)
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Whether the lesson with this id says this.
pub async fn is_same(tx: &mut Tx, new: &NewLesson<'_>) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from lesson where practice_id = $1 and id = $2 and dog_id = $3 and held_on = $4
             and summary = $5 and private_note = $6 and log_id is not distinct from $7
             and appointment_id is not distinct from $8) as "same!""#,
        practice.0,
        new.id.0,
        new.dog.0,
        new.held_on,
        new.summary,
        new.private_note,
        new.log.map(|log| log.0),
        new.appointment.map(|appointment| appointment.0)
    )
    .fetch_one(tx.conn())
    .await
}

#[derive(Deserialize)]
struct Row {
    id: Uuid,
    #[serde(with = "day")]
    held_on: Date,
    #[serde(with = "time::serde::rfc3339")]
    kept_at: OffsetDateTime,
    summary: String,
    private_note: String,
    log_id: Option<Uuid>,
    by: String,
}

impl From<Row> for Lesson {
    fn from(row: Row) -> Self {
        Self {
            id: row.id.into(),
            held_on: row.held_on,
            kept_at: row.kept_at,
            summary: row.summary,
            private_note: row.private_note,
            log: row.log_id.map(Into::into),
            by: row.by,
        }
    }
}

/// A dog's lessons, the latest first, at most `most`.
pub fn of_dog(dog: DogId, most: i64) -> Reading<Vec<Lesson>> {
    reading!(
        Row,
        "select l.id, l.held_on, l.kept_at, l.summary, l.private_note, l.log_id, m.name as by
         from lesson l
         join membership m on m.practice_id = l.practice_id and m.id = l.kept_by
         where l.practice_id = $1 and l.dog_id = $2
         order by l.held_on desc, l.kept_at desc, l.id desc limit $3",
        dog.0,
        most
    )
    .then(|rows| Ok(rows.into_iter().map(Lesson::from).collect()))
}

#[derive(Deserialize)]
struct Held {
    #[serde(with = "day")]
    held_on: Date,
}

/// The days on which a dog had lessons, the first first: what packages are counted against.
pub fn days(dog: DogId) -> Reading<Vec<Date>> {
    reading!(
        Held,
        "select held_on from lesson where practice_id = $1 and dog_id = $2 order by held_on",
        dog.0
    )
    .then(|rows| Ok(rows.into_iter().map(|row| row.held_on).collect()))
}
