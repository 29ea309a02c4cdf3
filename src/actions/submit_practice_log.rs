//! Logging a sitting: keep what was stated, fold it into readiness, let the rules look at it, keep the summary.
//!
//! Sending the same log again changes nothing; the same id with other content is refused, and the first stays.

use sha2::{Digest, Sha256};
use time::{Date, OffsetDateTime};

use crate::actions::fold_readiness::fold;
use crate::actions::incidents::beside_sitting;
use crate::actions::{Done, Refusal, authorised_dog, raise_flags};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::readiness::CountedSitting;
use crate::domain::sitting::{Planned, Sitting, Try};
use crate::domain::sync::Lived;
use crate::domain::vocabulary::{Basis, Capture, Role, Word};
use crate::domain::weather::Weather;
use crate::domain::welfare::{Finding, LogContext, PaidFood, evaluate_log};
use crate::ids::{DogId, LineId, PlanItemId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::flag::Subject;
use crate::store::plan::PlanItem;
use crate::store::practice_log::{NewPracticeLog, PracticeLog, Wanted};
use crate::store::revision::told_after_all;
use crate::store::{
    Tx, dog, dog_facts, dog_summary, food_paid, house, off_lead_permission, plan, practice_log,
};

/// How many earlier sittings the rules look back over.
pub(super) const LOOK_BACK: i64 = 30;

/// What somebody states of a sitting.
#[derive(Debug, Clone)]
pub struct LogInput {
    /// The log's id, made where it was typed.
    pub id: PracticeLogId,
    /// The dog.
    pub dog: DogId,
    /// The instruction, of whatever version of the plan.
    pub item: PlanItemId,
    /// How it was captured.
    pub capture: Capture,
    /// When it began and the day it was there; now, where it was not stated.
    pub started: Option<(OffsetDateTime, Date)>,
    /// Who held the line, where somebody else did.
    pub handler: String,
    /// Distance, duration or recovery, in the outcome's unit.
    pub outcome_value: Option<f64>,
    /// Where it was, where that was not the planned place.
    pub elsewhere: Option<String>,
    /// A note.
    pub note: String,
    /// The facts; what belongs to the plan is filled in from it.
    pub sitting: Sitting,
    /// Whether a trainer only passes on what the household told: then nobody saw it.
    pub passed_on: bool,
    /// Each try in its order, where they were counted live.
    pub tries: Vec<Try>,
    /// When a phone kept it that sent it later: when it began, unless that was stated.
    pub lived: Option<Lived>,
}

/// A log that was kept, now or before.
#[derive(Debug, Clone, Copy)]
pub struct Logged {
    /// The log.
    pub id: PracticeLogId,
    /// Whether it was here already.
    pub repeat: bool,
}

/// Keeps a sitting. `today` is the day it is where the dog lives.
pub async fn submit_practice_log(
    mut tx: Tx,
    actor: &Actor,
    input: LogInput,
    today: Date,
    moment: &Moment,
) -> Done<Logged> {
    let logged = log(&mut tx, actor, input, today, moment).await?;
    tx.commit().await?;
    Ok(logged)
}

/// The same inside a transaction that goes on.
pub(super) async fn log(
    tx: &mut Tx,
    actor: &Actor,
    input: LogInput,
    today: Date,
    moment: &Moment,
) -> Done<Logged> {
    let dog = authorised_dog(tx, actor, Action::LogPractice, input.dog).await?;
    let item = plan::item(dog.id, input.item).read(tx).await?.ok_or(Refusal::NotFound)?;
    dog::lock_summary(tx, dog.id).await?;
    let fingerprint = fingerprint(&input);
    let is_elsewhere = input.elsewhere.is_some();
    let tries = input.tries.clone();
    let mut new = complete(input, &dog, &item, actor, fingerprint, today, moment);
    new.received_at = told_after_all(tx, dog.id, moment.at).await?;
    new.sitting.place.off_lead_allowed = off_lead_allowed(tx, &item, &new, is_elsewhere).await?;
    if !practice_log::add(tx, &new).await? {
        let first = practice_log::fingerprint(tx, new.id).await?;
        return if first.as_deref() == Some(&fingerprint[..]) {
            Ok(Logged { id: new.id, repeat: true })
        } else {
            Err(Refusal::Clash)
        };
    }
    practice_log::add_tries(tx, new.id, &tries).await?;
    dog_summary::log_added(tx, dog.id, item.kind, new.started_at, new.sitting.local_date).await?;
    look_for_trouble(tx, &dog, &new, moment).await?;
    if let (Some(step), Some(counted)) = (new.sitting.step, CountedSitting::from_sitting(&new.sitting)) {
        fold(tx, &new, step, &counted).await?;
        dog_summary::decisions_changed(tx, dog.id).await?;
    }
    Ok(Logged { id: new.id, repeat: false })
}

/// The log as it is kept: what was stated, and the plan as it was.
pub(super) fn complete(
    input: LogInput,
    dog: &Dog,
    item: &PlanItem,
    actor: &Actor,
    fingerprint: [u8; 32],
    today: Date,
    moment: &Moment,
) -> NewPracticeLog {
    let lived = input.lived.as_ref().map(|lived| (lived.at, lived.on));
    let (started_at, local_date) = input.started.or(lived).unwrap_or((moment.at, today));
    let stated = Sitting {
        local_date,
        started_at: Some(started_at),
        trainer_seen: actor.role != Role::Owner && !input.passed_on,
        ..input.sitting
    };
    let sitting = laid_over_plan(stated, item, input.elsewhere.is_some());
    NewPracticeLog {
        id: input.id,
        fingerprint,
        dog: dog.id,
        item: item.id,
        line_id: item.line_id,
        by: actor.membership,
        capture: input.capture,
        handler: input.handler,
        started_at,
        zone: dog.zone.clone(),
        received_at: moment.at,
        place_name: input.elsewhere.unwrap_or_else(|| item.place_name.clone()),
        outcome_value: input.outcome_value,
        note: input.note,
        sitting,
        lived: input.lived,
    }
}

/// What was stated of a sitting, with what the plan asked for beside it, and in place of what was said to be as planned.
fn laid_over_plan(stated: Sitting, item: &PlanItem, elsewhere: bool) -> Sitting {
    let mut sitting = Sitting {
        plan_line: Some(item.line_id),
        step: item.step,
        exercise: Some(item.name.clone()),
        energy: Some(item.energy),
        impact: Some(item.impact),
        class: Some(item.class),
        outcome: Some(item.outcome),
        planned: Planned {
            line: Some(item.line),
            clip: item.clip,
            attempts: item.attempts,
            minutes: item.minutes,
            cool_down_minutes: Some(item.cool_down_minutes),
            times_a_week: item.times_a_week,
            distraction: item.place_distraction,
            line_metres: item.line_metres,
            reinforcer_rank: item.reinforcer_rank,
            step_position: item.step_position,
        },
        ..stated
    };
    if sitting.equipment == Some(Basis::AsPlanned) {
        sitting.line = Some(item.line);
        sitting.clip = item.clip;
    }
    if !elsewhere {
        sitting.place = item.place_facts;
        sitting.place_distraction = sitting.place_distraction.or(item.place_distraction);
    }
    sitting
}

/// Whether the dog might be off lead where and when a sitting was, as the trainer had allowed it then; nothing is known of a place
/// that is not the planned one.
pub(super) async fn off_lead_allowed(
    tx: &mut Tx,
    item: &PlanItem,
    new: &NewPracticeLog,
    is_elsewhere: bool,
) -> Done<Option<bool>> {
    match item.place.filter(|_| !is_elsewhere) {
        Some(place) => Ok(Some(off_lead_permission::held_at(tx, new.dog, place, new.started_at).await?)),
        None => Ok(None),
    }
}

/// A text that says something.
fn stated(text: &str) -> Option<&str> {
    (!text.is_empty()).then_some(text)
}

/// Lets the rules look at the sitting, raises what they find, and notes trouble in the summary.
async fn look_for_trouble(tx: &mut Tx, dog: &Dog, new: &NewPracticeLog, moment: &Moment) -> Done<()> {
    let (findings, about) = look(tx, dog, &Looked::from(new)).await?;
    raise_flags::raise_flags(tx, &findings, &about, moment).await
}

/// A sitting that is kept, for the rules to look at.
pub(super) struct Looked<'a> {
    id: PracticeLogId,
    item: PlanItemId,
    line: LineId,
    started_at: OffsetDateTime,
    told: OffsetDateTime,
    sitting: &'a Sitting,
}

impl<'a> From<&'a NewPracticeLog> for Looked<'a> {
    fn from(log: &'a NewPracticeLog) -> Self {
        let (id, item, line, told) = (log.id, log.item, log.line_id, log.received_at);
        Self { id, item, line, started_at: log.started_at, told, sitting: &log.sitting }
    }
}

impl<'a> From<&'a PracticeLog> for Looked<'a> {
    fn from(log: &'a PracticeLog) -> Self {
        let (id, item, line, told) = (log.id, log.item, log.line_id, log.received_at);
        Self { id, item, line, started_at: log.started_at, told, sitting: &log.sitting }
    }
}

/// What the rules find in a sitting that is kept, beside what was told before it: the same whether it has just come or is
/// looked at again, unless something of all that has changed.
pub(super) async fn look(
    tx: &mut Tx,
    dog: &Dog,
    log: &Looked<'_>,
) -> Done<(Vec<Finding>, raise_flags::About)> {
    let &Looked { id, item, line, started_at, told, sitting } = log;
    let earlier =
        practice_log::of_dog(tx, dog.id, Wanted::LookedBackOn(started_at, id, told), LOOK_BACK).await?;
    let recent: Vec<Sitting> = earlier.into_iter().map(|log| log.sitting).collect();
    let house = house::find().read(tx).await?;
    let encounters = beside_sitting(tx, dog.id, told, sitting.local_date, &house.numbers).await?;
    let facts = dog_facts::told_by(dog.id, Some(told)).read(tx).await?;
    let item = plan::item(dog.id, item).read(tx).await?.ok_or(Refusal::NotFound)?;
    let paid = food_paid::over_seven_days(dog.id, sitting.local_date, Some(told)).read(tx).await?;
    let context = LogContext {
        sitting,
        dog: &facts,
        recent: &recent,
        encounters: &encounters,
        paid: PaidFood { with: stated(&item.reinforcer_name), over_seven_days: &paid },
        numbers: &house.numbers,
        not_used: &house.not_used,
    };
    let about = raise_flags::About {
        dog: dog.id,
        subject: Subject::PracticeLog(id.0),
        line: Some(line),
        on: sitting.local_date,
        happened_at: started_at,
    };
    Ok((evaluate_log(&context), about))
}

/// A hash of what the sender stated and of nothing else, with the version of this format in front.
fn fingerprint(input: &LogInput) -> [u8; 32] {
    let s = &input.sitting;
    let words = [
        input.capture.stored(),
        s.line.map_or("", Word::stored),
        s.clip.map_or("", Word::stored),
        s.equipment.map_or("", Word::stored),
        s.busy.map_or("", Word::stored),
        s.took_food.map_or("", Word::stored),
        s.looked.map_or("", Word::stored),
        s.recovery.map_or("", Word::stored),
        s.finish.map_or("", Word::stored),
    ];
    let numbers = [
        s.place_distraction,
        s.minutes,
        s.attempts,
        s.met,
        s.rewarded,
        s.arousal_before,
        s.arousal_end,
        s.cool_down_minutes,
    ];
    let signs: Vec<&str> = s.health_signs.iter().map(|sign| sign.stored()).collect();
    let started = input.started.map(|(at, on)| (at.unix_timestamp(), on));
    let mut stated = format!(
        "practice_log 1|{}|{}|{started:?}|{words:?}|{numbers:?}|{:?}|{signs:?}|{}|{}|{:?}|{:?}",
        input.dog, input.item, input.outcome_value, s.bolted, s.bite, input.handler, input.note
    );
    if let Some(place) = &input.elsewhere {
        stated.push_str(&format!("|{place:?}"));
    }
    if s.weather.is_stated() {
        let Weather { air_c, humidity, felt, in_sun, hot_ground } = s.weather;
        let felt = felt.map(Word::stored);
        stated.push_str(&format!("|weather {air_c:?} {humidity:?} {felt:?} {in_sun:?} {hot_ground:?}"));
    }
    let later = [
        ("child", s.child_held_line),
        ("loop", s.loop_round_hand),
        ("muzzle", s.muzzle_worn),
        ("break", s.had_break),
    ];
    if !input.tries.is_empty() {
        let tries = input.tries.iter().map(|one| (one.met, one.after_ms));
        stated.push_str(&format!("|tries {:?}", tries.collect::<Vec<_>>()));
    }
    for (word, said) in later.into_iter().filter_map(|(word, said)| Some(word).zip(said)) {
        stated.push_str(&format!("|{word} {said}"));
    }
    Sha256::digest(stated.as_bytes()).into()
}
