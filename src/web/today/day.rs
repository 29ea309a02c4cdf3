//! The facts that decide what is enough today: the week so far, what was exciting, and what rests.

use std::collections::HashMap;

use time::Date;

use crate::domain::dog::DogFacts;
use crate::domain::life::{Rest, rest_on};
use crate::domain::today::{Day, Exciting, Exercise};
use crate::domain::vocabulary::{EncounterKind, Energy, FlagState, Line, Phase};
use crate::domain::week::{Habit, Placed, owners_days};
use crate::domain::welfare::{NOT_COPING, Pause, pause};
use crate::ids::{DogId, LineId};
use crate::store::dog::Dog;
use crate::store::dog_facts;
use crate::store::dog_summary::{self, DayKept};
use crate::store::encounter::{self, Encounter};
use crate::store::flag::Flag;
use crate::store::house::{self, House};
use crate::store::life_event::{self, LifeEvent};
use crate::store::plan::PlanItem;
use crate::store::practice_log::{self, PracticeLog};
use crate::store::reading::{Reading, Together};
use crate::web::week::laid_out;

/// How strong a reaction has to be for the day to count as exciting: 0–4. Common practice.
const STRONG_REACTION: i16 = 3;
/// The most sittings of a week that are counted.
const SITTINGS: i64 = 300;
/// The most encounters that are looked at for an exciting one.
const ENCOUNTERS: i64 = 20;

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

/// Sittings of each line, this week's and today's.
pub struct Sittings(HashMap<LineId, (i64, i64)>);

impl Sittings {
    /// Those among the logs since a Monday.
    fn among(logs: &[PracticeLog], monday: Date, today: Date) -> Self {
        let mut counted: HashMap<LineId, (i64, i64)> = HashMap::new();
        for log in logs.iter().filter(|log| log.sitting.local_date >= monday) {
            let (this_week, now) = counted.entry(log.line_id).or_default();
            *this_week += 1;
            *now += i64::from(log.sitting.local_date >= today);
        }
        Self(counted)
    }

    /// Sittings since Monday, and today's among them.
    pub fn of(&self, line: LineId) -> (i64, i64) {
        self.0.get(&line).copied().unwrap_or_default()
    }
}

/// What the day rests on, read together.
pub struct Grounds {
    /// The sittings of this week and of yesterday, newest first.
    logs: Vec<PracticeLog>,
    /// The encounters of yesterday and today.
    met: Vec<Encounter>,
    facts: DogFacts,
    house: House,
    /// The week's days with something in them.
    days: Vec<DayKept>,
}

impl Grounds {
    /// Those of a dog.
    pub fn of(dog: DogId, today: Date) -> Reading<Self> {
        let yesterday = today.previous_day().unwrap_or(today);
        let monday = monday_of(today);
        (
            practice_log::since(dog, monday.min(yesterday), SITTINGS),
            encounter::of_dog(dog, Some(yesterday), ENCOUNTERS),
            dog_facts::find(dog),
            house::find(),
            dog_summary::days(dog, monday),
        )
            .together()
            .then(|(logs, met, facts, house, days)| Ok(Self { logs, met, facts, house, days }))
    }
}

/// The Monday of a day's week.
pub fn monday_of(day: Date) -> Date {
    day - time::Duration::days(i64::from(day.weekday().number_days_from_monday()))
}

/// The week of a dog, for these exercises of its plan; `resting` are the flags that rest some of them (`flag::Wanted::Resting`).
pub fn week(grounds: &Grounds, dog: &Dog, items: &[PlanItem], resting: &[Flag], today: Date) -> Week {
    let (monday, into_week) = (monday_of(today), usize::from(today.weekday().number_days_from_monday()));
    let done = Sittings::among(&grounds.logs, monday, today);
    let said = resting.iter().find(|flag| flag.rule.id == NOT_COPING.id);
    let not_coping = said.is_some_and(|flag| flag.state == FlagState::Open);
    let is_paused = |item: &PlanItem| said.is_some() || resting.iter().any(|flag| rests(flag, item));
    let placed = laid_out(items, &grounds.facts, &grounds.house.numbers, today, is_paused).placed;
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
    let days = owners_days(&grounds.facts.practice_days);
    let sittings = |from: Date| {
        let counted = grounds.days.iter().filter(|day| (from..=today).contains(&day.on));
        counted.map(|day| i64::from(day.sittings)).sum()
    };
    let day = Day {
        days_left: days[into_week..].iter().filter(|has| **has).count() as i64,
        has_today: days[into_week],
        done_this_week: sittings(monday),
        done_today: sittings(today),
        exciting: exciting(grounds, today),
        not_coping,
        resting: matches!(dog.phase, Phase::Paused | Phase::Graduated),
    };
    Week { exercises, day, done, habits }
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
fn exciting(grounds: &Grounds, today: Date) -> Option<Exciting> {
    let yesterday = today.previous_day().unwrap_or(today);
    let arousing = grounds.logs.iter().map(|log| &log.sitting).filter(|sitting| sitting.is_arousing());
    let strong = grounds.met.iter().map(|encounter| &encounter.facts).filter(|facts| {
        facts.kind == EncounterKind::Bolted || facts.reaction.is_some_and(|n| n >= STRONG_REACTION)
    });
    let last = arousing.map(|s| s.local_date).chain(strong.map(|facts| facts.local_date)).max();
    match last {
        Some(day) if day >= today => Some(Exciting::Today),
        Some(day) if day == yesterday => Some(Exciting::Yesterday),
        _ => None,
    }
}

/// Whether the household said that the dog is ill, in season or away today: then nothing is asked of anybody.
pub(in crate::web) fn is_away(dog: DogId, today: Date) -> Reading<bool> {
    life_event::of_dog(dog, Some(today)).then(move |events| {
        let rests: Vec<Rest> = events.iter().filter_map(LifeEvent::rest).collect();
        Ok(rest_on(&rests, today).is_some())
    })
}
