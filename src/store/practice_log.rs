//! Practice logs: one row a sitting. Ids come from phones; a fingerprint tells a repeat from a clash.

use serde::{Deserialize, Serialize};
use time::{Date, OffsetDateTime};

use crate::domain::place::PlaceFacts;
use crate::domain::sitting::{Planned, Sitting, Try};
use crate::domain::sync::Lived;
use crate::domain::vocabulary::{Capture, HealthSign, Word};
use crate::domain::weather::Weather;
use crate::ids::{DogId, LineId, MembershipId, PlanItemId, PracticeLogId, StepId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

mod charted;
mod looking_back;
mod revision;

pub use charted::charted;
pub use looking_back::looking_back_on;
pub use revision::{Told, remove, revise, revisions, told};

/// A practice log as it is kept, with the names that pages show.
#[derive(Debug, Clone)]
pub struct PracticeLog {
    /// Its id.
    pub id: PracticeLogId,
    /// The dog.
    pub dog: DogId,
    /// The instruction that was practised, of whatever version.
    pub item: PlanItemId,
    /// The instruction across versions.
    pub line_id: LineId,
    /// The step as it was.
    pub step: Option<StepId>,
    /// The step's name as it was.
    pub step_name: String,
    /// Who logged it.
    pub by: String,
    /// The same, by their place in the practice.
    pub by_member: MembershipId,
    /// Who held the line, where somebody else did.
    pub handler: String,
    /// How it was captured.
    pub capture: Capture,
    /// When it began.
    pub started_at: OffsetDateTime,
    /// When the service received it.
    pub received_at: OffsetDateTime,
    /// Where, in words.
    pub place_name: String,
    /// Distance, duration or recovery, in the outcome's unit.
    pub outcome_value: Option<f64>,
    /// The owner's or trainer's note.
    pub note: String,
    /// The facts, as the rules see them.
    pub sitting: Sitting,
    /// How often it was changed since it was logged, its removal included.
    pub revision: i32,
    /// When it was removed, where it was.
    pub removed_at: Option<OffsetDateTime>,
}

/// A practice log to be kept.
#[derive(Debug, Clone)]
pub struct NewPracticeLog {
    /// Its id, made where it was typed.
    pub id: PracticeLogId,
    /// What the sender stated, hashed.
    pub fingerprint: [u8; 32],
    /// The dog.
    pub dog: DogId,
    /// The instruction.
    pub item: PlanItemId,
    /// The instruction across versions.
    pub line_id: LineId,
    /// Who logs it.
    pub by: MembershipId,
    /// How it was captured.
    pub capture: Capture,
    /// Who held the line, where somebody else did.
    pub handler: String,
    /// When it began.
    pub started_at: OffsetDateTime,
    /// The zone it was lived in.
    pub zone: String,
    /// When the service received it: after everything that was told of the dog before ([`told_after_all`](crate::store::revision::told_after_all)).
    pub received_at: OffsetDateTime,
    /// Where, in words.
    pub place_name: String,
    /// Distance, duration or recovery, in the outcome's unit.
    pub outcome_value: Option<f64>,
    /// A note.
    pub note: String,
    /// The facts; its date is the local one.
    pub sitting: Sitting,
    /// What a phone said that kept it first.
    pub lived: Option<Lived>,
}

/// Keeps a log; false if its id is known already.
pub async fn add(tx: &mut Tx, new: &NewPracticeLog) -> Result<bool> {
    let practice = tx.practice();
    let s = &new.sitting;
    let signs: Vec<String> = s.health_signs.iter().map(|sign| sign.stored().to_owned()).collect();
    let done = sqlx::query!(
        "insert into practice_log (practice_id, id, fingerprint, dog_id, plan_item_id, line_id, step_id, by_membership_id,
           trainer_seen, capture, handler, started_at, zone, local_date, received_at, place_name, place_distraction, busy,
           line, clip, equipment_basis, minutes, attempts, met, rewarded, outcome_value, arousal_before, arousal_end,
           took_food, looked, recovery, finish, cool_down_minutes, health_signs, bolted, bite, note, air_c, humidity, felt,
           in_sun, hot_ground, child_held_line, loop_round_hand, muzzle_worn, had_break, phone_at, phone_zone,
           phone_offset_minutes, clock_corrected)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21, $22, $23, $24,
           $25, $26, $27, $28, $29, $30, $31, $32, $33, $34, $35, $36, $37, $38, $39, $40, $41, $42, $43, $44, $45, $46, $47, $48,
           $49, $50)
         on conflict (practice_id, id) do nothing",
        practice.0,
        new.id.0,
        &new.fingerprint[..],
        new.dog.0,
        new.item.0,
        new.line_id.0,
        s.step.map(|step| step.0),
        new.by.0,
        s.trainer_seen,
        new.capture.stored(),
        new.handler,
        new.started_at,
        new.zone,
        s.local_date,
        new.received_at,
        new.place_name,
        s.place_distraction,
        s.busy.map(Word::stored),
        s.line.map(Word::stored),
        s.clip.map(Word::stored),
        s.equipment.map(Word::stored),
        s.minutes,
        s.attempts,
        s.met,
        s.rewarded,
        new.outcome_value,
        s.arousal_before,
        s.arousal_end,
        s.took_food.map(Word::stored),
        s.looked.map(Word::stored),
        s.recovery.map(Word::stored),
        s.finish.map(Word::stored),
        s.cool_down_minutes,
        &signs,
        s.bolted,
        s.bite,
        new.note,
        s.weather.air_c,
        s.weather.humidity,
        s.weather.felt.map(Word::stored),
        s.weather.in_sun,
        s.weather.hot_ground,
        s.child_held_line,
        s.loop_round_hand,
        s.muzzle_worn,
        s.had_break,
        new.lived.as_ref().map(|lived| lived.phone.at),
        new.lived.as_ref().map(|lived| lived.phone.zone.as_str()),
        new.lived.as_ref().map(|lived| lived.phone.offset_minutes),
        new.lived.as_ref().is_some_and(|lived| lived.corrected)
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Keeps each try of a sitting that was counted live, in its order.
pub async fn add_tries(tx: &mut Tx, log: PracticeLogId, tries: &[Try]) -> Result<()> {
    if tries.is_empty() {
        return Ok(());
    }
    let practice = tx.practice();
    let met: Vec<bool> = tries.iter().map(|one| one.met).collect();
    let after: Vec<i32> = tries.iter().map(|one| one.after_ms).collect();
    sqlx::query!(
        "insert into attempt (practice_id, practice_log_id, position, met, after_ms)
         select $1, $2, n.position, n.met, n.after_ms
         from unnest($3::boolean[], $4::integer[]) with ordinality as n (met, after_ms, position)",
        practice.0,
        log.0,
        &met,
        &after
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// The fingerprint of a known log, whichever dog it is of.
pub async fn fingerprint(tx: &mut Tx, id: PracticeLogId) -> Result<Option<Vec<u8>>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select fingerprint from practice_log where practice_id = $1 and id = $2",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await
}

/// A row of the table, with the names beside it. Earlier versions of it are read from what a revision holds.
#[derive(Clone, Serialize, Deserialize)]
struct Row {
    id: uuid::Uuid,
    dog_id: uuid::Uuid,
    plan_item_id: uuid::Uuid,
    line_id: uuid::Uuid,
    step_id: Option<uuid::Uuid>,
    step_name: String,
    by: String,
    by_membership_id: uuid::Uuid,
    trainer_seen: bool,
    capture: String,
    handler: String,
    #[serde(with = "time::serde::rfc3339")]
    started_at: OffsetDateTime,
    #[serde(with = "time::serde::rfc3339")]
    received_at: OffsetDateTime,
    #[serde(with = "day")]
    local_date: Date,
    place_name: String,
    place_distraction: Option<i16>,
    busy: Option<String>,
    line: Option<String>,
    clip: Option<String>,
    equipment_basis: Option<String>,
    minutes: Option<i16>,
    attempts: Option<i16>,
    met: Option<i16>,
    rewarded: Option<i16>,
    outcome_value: Option<f64>,
    arousal_before: Option<i16>,
    arousal_end: Option<i16>,
    took_food: Option<String>,
    looked: Option<String>,
    recovery: Option<String>,
    finish: Option<String>,
    cool_down_minutes: Option<i16>,
    health_signs: Vec<String>,
    bolted: bool,
    bite: bool,
    note: String,
    air_c: Option<f64>,
    humidity: Option<i16>,
    felt: Option<String>,
    in_sun: Option<bool>,
    hot_ground: Option<bool>,
    child_held_line: Option<bool>,
    loop_round_hand: Option<bool>,
    muzzle_worn: Option<bool>,
    had_break: Option<bool>,
    revision: i32,
    #[serde(with = "time::serde::rfc3339::option")]
    deleted_at: Option<OffsetDateTime>,
    exercise: String,
    energy: String,
    impact: bool,
    class: String,
    outcome: String,
    planned_line: String,
    planned_clip: Option<String>,
    planned_attempts: Option<i16>,
    planned_minutes: Option<i16>,
    planned_cool_down: i16,
    planned_times: Option<i16>,
    planned_distraction: Option<i16>,
    planned_line_metres: Option<i16>,
    planned_reinforcer_rank: Option<i16>,
    planned_step_position: Option<i16>,
    place_secure: Option<bool>,
    place_near_road: Option<bool>,
    place_road_metres: Option<i16>,
    off_lead_allowed: Option<bool>,
}

impl Row {
    fn sitting(&self) -> Result<Sitting> {
        let planned = Planned {
            line: Some(word(&self.planned_line)?),
            clip: word_or_none(self.planned_clip.as_deref())?,
            attempts: self.planned_attempts,
            minutes: self.planned_minutes,
            cool_down_minutes: Some(self.planned_cool_down),
            times_a_week: self.planned_times,
            distraction: self.planned_distraction,
            line_metres: self.planned_line_metres,
            reinforcer_rank: self.planned_reinforcer_rank,
            step_position: self.planned_step_position,
        };
        Ok(Sitting {
            started_at: Some(self.started_at),
            plan_line: Some(self.line_id.into()),
            step: self.step_id.map(Into::into),
            exercise: Some(self.exercise.clone()),
            energy: Some(word(&self.energy)?),
            impact: Some(self.impact),
            class: Some(word(&self.class)?),
            outcome: Some(word(&self.outcome)?),
            planned,
            line: word_or_none(self.line.as_deref())?,
            clip: word_or_none(self.clip.as_deref())?,
            equipment: word_or_none(self.equipment_basis.as_deref())?,
            place_distraction: self.place_distraction,
            place: PlaceFacts {
                secure: self.place_secure,
                near_road: self.place_near_road,
                road_metres: self.place_road_metres,
                off_lead_allowed: self.off_lead_allowed,
            },
            busy: word_or_none(self.busy.as_deref())?,
            weather: Weather {
                air_c: self.air_c,
                humidity: self.humidity,
                felt: word_or_none(self.felt.as_deref())?,
                in_sun: self.in_sun,
                hot_ground: self.hot_ground,
            },
            child_held_line: self.child_held_line,
            loop_round_hand: self.loop_round_hand,
            muzzle_worn: self.muzzle_worn,
            had_break: self.had_break,
            minutes: self.minutes,
            attempts: self.attempts,
            met: self.met,
            rewarded: self.rewarded,
            arousal_before: self.arousal_before,
            arousal_end: self.arousal_end,
            took_food: word_or_none(self.took_food.as_deref())?,
            looked: word_or_none(self.looked.as_deref())?,
            recovery: word_or_none(self.recovery.as_deref())?,
            finish: word_or_none(self.finish.as_deref())?,
            cool_down_minutes: self.cool_down_minutes,
            health_signs: self.health_signs.iter().map(|t| word::<HealthSign>(t)).collect::<Result<_>>()?,
            bolted: self.bolted,
            bite: self.bite,
            trainer_seen: self.trainer_seen,
            ..Sitting::on(self.local_date)
        })
    }
}

impl TryFrom<Row> for PracticeLog {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        let sitting = row.sitting()?;
        Ok(Self {
            id: row.id.into(),
            dog: row.dog_id.into(),
            item: row.plan_item_id.into(),
            line_id: row.line_id.into(),
            step: row.step_id.map(Into::into),
            step_name: row.step_name,
            by: row.by,
            by_member: row.by_membership_id.into(),
            handler: row.handler,
            capture: word(&row.capture)?,
            started_at: row.started_at,
            received_at: row.received_at,
            place_name: row.place_name,
            outcome_value: row.outcome_value,
            note: row.note,
            sitting,
            revision: row.revision,
            removed_at: row.deleted_at,
        })
    }
}

/// Which logs of a dog are wanted.
#[derive(Debug, Clone, Copy)]
pub enum Wanted {
    /// The newest ones.
    Newest,
    /// Those older than this one.
    Before(OffsetDateTime, PracticeLogId),
    /// Those older than this one that were told before it as well: what the rules saw when it was told.
    LookedBackOn(OffsetDateTime, PracticeLogId, OffsetDateTime),
    /// This one, also after it was removed.
    One(PracticeLogId),
    /// Those of one line and step, at items of the plan with this number and later ones.
    Stream(LineId, StepId, i32),
    /// The same with those that were removed.
    WholeStream(LineId, StepId, i32),
}

/// Logs with what was planned and the names beside them; `$tail` says which, of the dog that is `$2`. Read at once, or as a reading.
macro_rules! logs {
    ((sqlx::query_as!, $practice:expr) $tail:literal $(, $bind:expr)*) => {
        logs!(@ sqlx::query_as, ($practice,) $tail $(, $bind)*)
    };
    ((reading!) $tail:literal $(, $bind:expr)*) => {
        logs!(@ reading, () $tail $(, $bind)*)
    };
    (@ $($read:ident)::+, ($($practice:tt)*) $tail:literal $(, $bind:expr)*) => {
        $($read)::+!(
            Row,
            "select l.id, l.dog_id, l.plan_item_id, l.line_id, l.step_id, i.step_name, m.name as by, l.by_membership_id,
               l.trainer_seen, l.capture, l.revision, l.deleted_at, l.handler, l.started_at, l.received_at, l.local_date, l.place_name, l.place_distraction, l.busy, l.line, l.clip,
               l.equipment_basis, l.minutes, l.attempts, l.met, l.rewarded, l.outcome_value, l.arousal_before, l.arousal_end,
               l.took_food, l.looked, l.recovery, l.finish, l.cool_down_minutes, l.health_signs, l.bolted, l.bite, l.note,
               i.name as exercise, i.energy, i.impact, i.class, i.outcome, i.line as planned_line, i.clip as planned_clip,
               i.attempts as planned_attempts, i.minutes as planned_minutes, i.cool_down_minutes as planned_cool_down,
               i.times_a_week as planned_times, i.place_distraction as planned_distraction, i.line_metres as planned_line_metres,
               i.reinforcer_rank as planned_reinforcer_rank, i.step_position as planned_step_position,
               l.air_c, l.humidity, l.felt, l.in_sun, l.hot_ground, l.child_held_line,
               l.loop_round_hand, l.muzzle_worn, l.had_break,
               case when l.place_name = i.place_name then i.place_secure end as place_secure,
               case when l.place_name = i.place_name then i.place_near_road end as place_near_road,
               case when l.place_name = i.place_name then i.place_road_metres end as place_road_metres,
               case when l.place_name = i.place_name and i.place_id is not null then exists (
                 select 1 from off_lead_permission o
                 where o.practice_id = l.practice_id and o.dog_id = l.dog_id and o.place_id = i.place_id
                   and o.granted_at <= l.started_at and (o.lapsed_at is null or o.lapsed_at > l.started_at)) end
                 as off_lead_allowed
             from practice_log l
             join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
             join membership m on m.practice_id = l.practice_id and m.id = l.by_membership_id
             where l.practice_id = $1 and l.dog_id = $2 "
                + $tail,
            $($practice)*
            $($bind),*
        )
    };
}

/// A dog's logs, newest first, at most `most` of them.
pub async fn of_dog(tx: &mut Tx, dog: DogId, wanted: Wanted, most: i64) -> Result<Vec<PracticeLog>> {
    rows(tx, dog, wanted, most).await?.into_iter().map(PracticeLog::try_from).collect()
}

async fn rows(tx: &mut Tx, dog: DogId, wanted: Wanted, most: i64) -> Result<Vec<Row>> {
    let practice = tx.practice();
    let (mut before, mut told, mut one, mut stream) = (None, None, None, None);
    match wanted {
        Wanted::Newest => {}
        Wanted::Before(at, id) => before = Some((at, id)),
        Wanted::LookedBackOn(at, id, by) => (before, told) = (Some((at, id)), Some(by)),
        Wanted::One(id) => one = Some(id),
        Wanted::Stream(line, step, since) | Wanted::WholeStream(line, step, since) => {
            stream = Some((line, step, since));
        }
    }
    let with_removed = matches!(wanted, Wanted::One(_) | Wanted::WholeStream(..));
    logs!(
        (sqlx::query_as!, practice.0)
        "and ($3::timestamptz is null or (l.started_at, l.id) < ($3, $4::uuid))
         and ($5::uuid is null or l.id = $5)
         and ($6::uuid is null or (l.line_id = $6 and l.step_id = $7::uuid and exists (select 1 from plan_version v
               where v.practice_id = i.practice_id and v.id = i.plan_version_id and v.number >= $8::int)))
         and ($9::timestamptz is null or l.received_at < $9) and (l.deleted_at is null or $10)
         order by l.started_at desc, l.id desc
         limit $11",
        dog.0,
        before.map(|b| b.0),
        before.map(|b| b.1.0),
        one.map(|id: PracticeLogId| id.0),
        stream.map(|s| s.0.0),
        stream.map(|s| s.1.0),
        stream.map(|s| s.2),
        told,
        with_removed,
        most
    )
    .fetch_all(tx.conn())
    .await
}

/// One log of a dog as a row, also after it was removed.
fn one(dog: DogId, id: PracticeLogId) -> Reading<Option<Row>> {
    logs!((reading!) "and l.id = $3", dog.0, id.0).first()
}

/// The last logs of one line and step at items of the plan with this number and later ones, newest first, at most `most`: as
/// [`Wanted::Stream`], to be asked for beside others.
pub fn stream(
    dog: DogId,
    (line, step): (LineId, StepId),
    since: i32,
    most: i64,
) -> Reading<Vec<PracticeLog>> {
    logs!(
        (reading!)
        "and l.line_id = $3 and l.step_id = $4 and l.deleted_at is null and exists (select 1 from plan_version v
           where v.practice_id = i.practice_id and v.id = i.plan_version_id and v.number >= $5)
         order by l.started_at desc, l.id desc
         limit $6",
        dog.0,
        line.0,
        step.0,
        since,
        most
    )
    .each()
}

/// A dog's logs since a day, newest first, at most `most` of them.
pub fn since(dog: DogId, from: Date, most: i64) -> Reading<Vec<PracticeLog>> {
    logs!(
        (reading!)
        "and l.started_at > $3::date - interval '2 days' and l.local_date >= $3 and l.deleted_at is null
         order by l.started_at desc, l.id desc limit $4",
        dog.0,
        from,
        most
    )
    .each()
}

/// The days of a dog's sittings with a bite from one day to another, both included, that were told before an instant.
pub async fn bites(
    tx: &mut Tx,
    dog: DogId,
    (from, to): (Date, Date),
    told: OffsetDateTime,
) -> Result<Vec<Date>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select local_date from practice_log
         where practice_id = $1 and dog_id = $2 and local_date between $3 and $4 and bite and received_at < $5
           and deleted_at is null",
        practice.0,
        dog.0,
        from,
        to,
        told
    )
    .fetch_all(tx.conn())
    .await
}

/// One log of a dog, also after it was removed.
pub async fn find(tx: &mut Tx, dog: DogId, id: PracticeLogId) -> Result<Option<PracticeLog>> {
    Ok(of_dog(tx, dog, Wanted::One(id), 1).await?.pop())
}
