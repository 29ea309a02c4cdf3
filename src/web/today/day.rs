//! The facts that decide what is enough today: the week so far, what was exciting, and what rests.

use time::Date;

use crate::domain::life::{Rest, rest_on};
use crate::domain::today::{Day, Exciting, Exercise};
use crate::domain::vocabulary::{EncounterKind, Energy, FlagState, Line, Phase};
use crate::domain::week::{Habit, Placed, owners_days};
use crate::domain::welfare::{NOT_COPING, Pause, pause};
use crate::ids::LineId;
use crate::store::dog::Dog;
use crate::store::flag::Flag;
use crate::store::life_event::{self, LifeEvent};
use crate::store::plan::PlanItem;
use crate::store::practice_log::Wanted;
use crate::store::{Result, Tx, dog_facts, dog_summary, encounter, house, practice_log};
use crate::web::week::laid_out;

/// How strong a reaction has to be for the day to count as exciting: 0–4. Common practice.
const STRONG_REACTION: i16 = 3;
/// How many of the last sittings are looked at for an exciting one.
const LAST_SITTINGS: i64 = 20;

/// The week as it stands.
pub struct Week {
    /// The exercises, in the plan's order.
    pub exercises: Vec<Exercise>,
    /// The day.
    pub day: Day,
    /// What was done, of every line.
    pub done: Sittings,
    /// What each exercise is tied to today, in the plan's order; `None` where the week, laid out, does not have it today.
    pub habits: Vec<Option<Habit>>,
}

/// Sittings of each line.
pub struct Sittings {
    this_week: Vec<(LineId, i64)>,
    today: Vec<(LineId, i64)>,
}

impl Sittings {
    /// Sittings since Monday, and today's among them.
    pub fn of(&self, line: LineId) -> (i64, i64) {
        let counted = |counts: &[(LineId, i64)]| {
            counts.iter().find(|(counted, _)| *counted == line).map_or(0, |(_, sittings)| *sittings)
        };
        (counted(&self.this_week), counted(&self.today))
    }
}

/// The week of a dog, for these exercises of its plan; `resting` are the flags that rest some of them (`flag::Wanted::Resting`).
pub async fn week(tx: &mut Tx, dog: &Dog, items: &[PlanItem], resting: &[Flag], today: Date) -> Result<Week> {
    let into_week = usize::from(today.weekday().number_days_from_monday());
    let monday = today - time::Duration::days(into_week as i64);
    let done = Sittings {
        this_week: practice_log::counts_since(tx, dog.id, monday).await?,
        today: practice_log::counts_since(tx, dog.id, today).await?,
    };
    let said = resting.iter().find(|flag| flag.rule.id == NOT_COPING.id);
    let not_coping = said.is_some_and(|flag| flag.state == FlagState::Open);
    let is_paused = |item: &PlanItem| said.is_some() || resting.iter().any(|flag| rests(flag, item));
    let (known, numbers) = (dog_facts::find(tx, dog.id).await?, house::find(tx).await?.numbers);
    let placed = laid_out(items, &known, &numbers, today, is_paused).placed;
    let habits: Vec<Option<Habit>> = (0..items.len()).map(|index| habit(&placed, index, into_week)).collect();
    let exercises = items.iter().zip(&habits).map(|(item, habit)| {
        let (this_week, today) = done.of(item.line_id);
        Exercise {
            arousing: item.energy == Energy::Arousing || item.impact,
            paused: is_paused(item),
            times_a_week: item.times_a_week,
            this_week,
            today,
            laid_out: habit.is_some(),
        }
    });
    let exercises = exercises.collect();
    let days = owners_days(&known.practice_days);
    let kept = dog_summary::days(tx, dog.id, monday).await?;
    let sittings = |from: Date| {
        let counted = kept.iter().filter(|(on, ..)| (from..=today).contains(on));
        counted.map(|(_, sittings, _)| i64::from(*sittings)).sum()
    };
    let day = Day {
        days_left: days[into_week..].iter().filter(|has| **has).count() as i64,
        has_today: days[into_week],
        done_this_week: sittings(monday),
        done_today: sittings(today),
        exciting: exciting(tx, dog, today).await?,
        not_coping,
        resting: matches!(dog.phase, Phase::Paused | Phase::Graduated),
    };
    Ok(Week { exercises, day, done, habits })
}

/// What the week, laid out, ties an exercise to on a day of the week; Monday is 0.
fn habit(placed: &[Placed], index: usize, day: usize) -> Option<Habit> {
    placed.iter().find(|sitting| (sitting.asked, sitting.day) == (index, day)).map(|sitting| sitting.habit)
}

/// Whether an item rests for now: by an open flag, while the household is not coping, while the dog has a break.
pub(in crate::web) fn is_at_rest(open: &[Flag], dog: &Dog, item: &PlanItem) -> bool {
    matches!(dog.phase, Phase::Paused | Phase::Graduated)
        || open.iter().any(|flag| flag.rule.id == NOT_COPING.id || rests(flag, item))
}

/// Whether an open flag rests this item.
fn rests(flag: &Flag, item: &PlanItem) -> bool {
    match pause(flag.rule, flag.severity) {
        Pause::Nothing => false,
        Pause::AllExercises => true,
        Pause::ThatExercise => flag.line == Some(item.line_id),
        Pause::LongLineExercises => flag.line == Some(item.line_id) || item.line == Line::LongLine,
        Pause::LooseExercises => flag.line == Some(item.line_id) || matches!(item.line, Line::TrailingLine),
    }
}

/// Whether today or yesterday had an arousing sitting, a strong reaction or a bolt in it.
async fn exciting(tx: &mut Tx, dog: &Dog, today: Date) -> Result<Option<Exciting>> {
    let yesterday = today.previous_day().unwrap_or(today);
    let sittings = practice_log::of_dog(tx, dog.id, Wanted::Newest, LAST_SITTINGS).await?;
    let arousing = sittings.iter().map(|log| &log.sitting).filter(|sitting| sitting.is_arousing());
    let met = encounter::of_dog(tx, dog.id, Some(yesterday), LAST_SITTINGS).await?;
    let strong = met.iter().map(|encounter| &encounter.facts).filter(|facts| {
        facts.kind == EncounterKind::Bolted || facts.reaction.is_some_and(|n| n >= STRONG_REACTION)
    });
    let last = arousing.map(|s| s.local_date).chain(strong.map(|facts| facts.local_date)).max();
    Ok(match last {
        Some(day) if day >= today => Some(Exciting::Today),
        Some(day) if day == yesterday => Some(Exciting::Yesterday),
        _ => None,
    })
}

/// Whether the household said that the dog is ill, in season or away today: then nothing is asked of anybody.
pub(in crate::web) async fn is_away(tx: &mut Tx, dog: &Dog, today: Date) -> Result<bool> {
    let events = life_event::of_dog(tx, dog.id, Some(today)).await?;
    let rests: Vec<Rest> = events.iter().filter_map(LifeEvent::rest).collect();
    Ok(rest_on(&rests, today).is_some())
}
