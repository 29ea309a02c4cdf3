//! Lessons that are booked: when, where, with whom, and whether they were held or called off.

use serde::Deserialize;
use time::{Date, Duration, OffsetDateTime};
use uuid::Uuid;

use crate::clock::Moment;
use crate::domain::vocabulary::{AppointmentState, CalledOffBy, Word};
use crate::ids::{AppointmentId, DogId, LessonId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// When and where a lesson is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Booking {
    /// The trainer who gives it.
    pub trainer: MembershipId,
    /// When it begins.
    pub starts_at: OffsetDateTime,
    /// The zone on whose clocks that was said.
    pub zone: String,
    /// The day there.
    pub on: Date,
    /// How long it takes, 15–240.
    pub minutes: i16,
    /// Where; may be empty.
    pub place: String,
}

impl Booking {
    /// When it ends.
    pub fn ends_at(&self) -> OffsetDateTime {
        self.starts_at + Duration::minutes(self.minutes.into())
    }
}

/// A booked lesson.
#[derive(Debug, Clone)]
pub struct Appointment {
    /// Its id.
    pub id: AppointmentId,
    /// The dog.
    pub dog: DogId,
    /// The dog's name.
    pub dog_name: String,
    /// Its household's name.
    pub household_name: String,
    /// The trainer's name.
    pub trainer_name: String,
    /// When and where.
    pub booking: Booking,
    /// Where it stands.
    pub state: AppointmentState,
    /// Who called it off, where that was said.
    pub called_off_by: Option<CalledOffBy>,
    /// Why it was called off; may be empty.
    pub called_off_why: String,
    /// How often it was changed.
    pub revision: i32,
    /// When it was last changed.
    pub changed_at: OffsetDateTime,
    /// The note that was kept of it.
    pub lesson: Option<LessonId>,
}

#[derive(Deserialize)]
struct Row {
    id: Uuid,
    dog_id: Uuid,
    dog_name: String,
    household_name: String,
    trainer_id: Uuid,
    trainer_name: String,
    #[serde(with = "time::serde::rfc3339")]
    starts_at: OffsetDateTime,
    zone: String,
    #[serde(with = "day")]
    local_date: Date,
    minutes: i16,
    place_name: String,
    state: String,
    called_off_by: Option<String>,
    called_off_why: String,
    revision: i32,
    #[serde(with = "time::serde::rfc3339")]
    changed_at: OffsetDateTime,
    #[serde(rename = "lesson?")]
    lesson: Option<Uuid>,
}

impl TryFrom<Row> for Appointment {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            id: row.id.into(),
            dog: row.dog_id.into(),
            dog_name: row.dog_name,
            household_name: row.household_name,
            trainer_name: row.trainer_name,
            booking: Booking {
                trainer: row.trainer_id.into(),
                starts_at: row.starts_at,
                zone: row.zone,
                on: row.local_date,
                minutes: row.minutes,
                place: row.place_name,
            },
            state: word(&row.state)?,
            called_off_by: word_or_none(row.called_off_by.as_deref())?,
            called_off_why: row.called_off_why,
            revision: row.revision,
            changed_at: row.changed_at,
            lesson: row.lesson.map(Into::into),
        })
    }
}

/// Appointments with the names beside them; `$tail` says which.
macro_rules! appointments {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Row,
            r#"select a.id, a.dog_id, d.name as dog_name, h.name as household_name, a.trainer_id, t.name as trainer_name, a.starts_at,
                 a.zone, a.local_date, a.minutes, a.place_name, a.state, a.called_off_by, a.called_off_why, a.revision, a.changed_at,
                 l.id as "lesson?"
               from appointment a
               join dog d on d.practice_id = a.practice_id and d.id = a.dog_id
               join household h on h.practice_id = d.practice_id and h.id = d.household_id
               join membership t on t.practice_id = a.practice_id and t.id = a.trainer_id
               left join lesson l on l.practice_id = a.practice_id and l.appointment_id = a.id
               where a.practice_id = $1 "#
                + $tail
            $(, $bind)*
        )
        .each::<Appointment>()
    };
}

/// Books a lesson; false where its id is taken.
pub async fn add(
    tx: &mut Tx,
    (id, dog): (AppointmentId, DogId),
    booking: &Booking,
    by: MembershipId,
    moment: &Moment,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into appointment (practice_id, id, dog_id, trainer_id, starts_at, zone, local_date, minutes, place_name,
           booked_by, booked_at, changed_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $11) on conflict do nothing",
        practice.0,
        id.0,
        dog.0,
        booking.trainer.0,
        booking.starts_at,
        booking.zone,
        booking.on,
        booking.minutes,
        booking.place,
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// One of a dog.
pub fn find(dog: DogId, id: AppointmentId) -> Reading<Option<Appointment>> {
    appointments!("and a.dog_id = $2 and a.id = $3", dog.0, id.0).first()
}

/// Those of a dog that begin after `since`, the first first, at most `most`; and those whose note is not written yet.
pub fn of_dog(dog: DogId, since: OffsetDateTime, most: i64) -> Reading<Vec<Appointment>> {
    appointments!(
        "and a.dog_id = $2 and (a.starts_at > $3 or a.state = 'planned') order by a.starts_at, a.id limit $4",
        dog.0,
        since,
        most
    )
}

/// The next one of a dog that is not over.
pub fn next_of_dog(dog: DogId, now: OffsetDateTime) -> Reading<Option<Appointment>> {
    appointments!(
        "and a.dog_id = $2 and a.state = 'planned' and a.starts_at > $3::timestamptz - a.minutes * interval '1 minute'
         order by a.starts_at, a.id limit 1",
        dog.0,
        now
    )
    .first()
}

/// Those to come that are not over, of one trainer or of everybody, the first first; `after` is the last one of the page before.
pub fn coming(
    trainer: Option<MembershipId>,
    now: OffsetDateTime,
    after: Option<(OffsetDateTime, AppointmentId)>,
    most: i64,
) -> Reading<Vec<Appointment>> {
    appointments!(
        "and a.state = 'planned' and ($2::uuid is null or a.trainer_id = $2)
         and a.starts_at > $3::timestamptz - interval '240 minutes' and a.starts_at > $3::timestamptz - a.minutes * interval '1 minute'
         and ($4::timestamptz is null or (a.starts_at, a.id) > ($4, $5))
         order by a.starts_at, a.id limit $6",
        trainer.map(|trainer| trainer.0),
        now,
        after.map(|(at, _)| at),
        after.map(|(_, id)| id.0),
        most
    )
}

/// Those that are over and have no note yet, of one trainer or of everybody, the last first.
pub fn unnoted(trainer: Option<MembershipId>, now: OffsetDateTime, most: i64) -> Reading<Vec<Appointment>> {
    appointments!(
        "and a.state = 'planned' and ($2::uuid is null or a.trainer_id = $2)
         and a.starts_at <= $3::timestamptz - a.minutes * interval '1 minute'
         order by a.starts_at desc, a.id limit $4",
        trainer.map(|trainer| trainer.0),
        now,
        most
    )
}

/// Those of the same trainer that overlap a booking, but for `this`, at most three.
pub fn overlapping(booking: &Booking, this: Option<AppointmentId>) -> Reading<Vec<Appointment>> {
    let (trainer, starts_at, ends_at) = (booking.trainer.0, booking.starts_at, booking.ends_at());
    appointments!(
        "and a.state = 'planned' and a.trainer_id = $2 and a.starts_at < $4 and a.starts_at > $3::timestamptz - interval '240 minutes'
         and a.starts_at + a.minutes * interval '1 minute' > $3 and ($5::uuid is null or a.id <> $5)
         order by a.starts_at, a.id limit 3",
        trainer,
        starts_at,
        ends_at,
        this.map(|id| id.0)
    )
}

/// Moves a planned one; false where it is none, or stands at another revision.
pub async fn change(
    tx: &mut Tx,
    (id, revision): (AppointmentId, i32),
    booking: &Booking,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update appointment set trainer_id = $4, starts_at = $5, zone = $6, local_date = $7, minutes = $8, place_name = $9,
           revision = revision + 1, changed_at = $10
         where practice_id = $1 and id = $2 and revision = $3 and state = 'planned'",
        practice.0,
        id.0,
        revision,
        booking.trainer.0,
        booking.starts_at,
        booking.zone,
        booking.on,
        booking.minutes,
        booking.place,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Calls a planned one off; false where it is none.
pub async fn call_off(
    tx: &mut Tx,
    id: AppointmentId,
    (by, why): (Option<CalledOffBy>, &str),
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update appointment set state = 'called_off', called_off_by = $3, called_off_why = $4, revision = revision + 1, changed_at = $5
         where practice_id = $1 and id = $2 and state = 'planned'",
        practice.0,
        id.0,
        by.map(Word::stored),
        why,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Notes that a planned one was held; false where it is none.
pub async fn hold(tx: &mut Tx, dog: DogId, id: AppointmentId, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update appointment set state = 'held', revision = revision + 1, changed_at = $4
         where practice_id = $1 and dog_id = $2 and id = $3 and state = 'planned'",
        practice.0,
        dog.0,
        id.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Hands the planned ones of a trainer to another.
pub async fn hand_over(tx: &mut Tx, from: MembershipId, to: MembershipId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update appointment set trainer_id = $3, revision = revision + 1, changed_at = $4
         where practice_id = $1 and trainer_id = $2 and state = 'planned'",
        practice.0,
        from.0,
        to.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
