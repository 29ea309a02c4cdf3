//! How much exciting or running work a dog of its age does: in a sitting, in a day, in a week.

use time::{Date, Duration};

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::health::OLD;
use super::in_plan::in_exercises;
use super::{HouseNumbers, LogContext, PlanContext};
use crate::domain::dog::DogFacts;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Severity;

macro_rules! minutes {
    ($($name:ident $key:literal $words:literal $value:literal ($low:literal - $high:literal))*) => {$(
        const $name: Parameter =
            Parameter { key: $key, name: $words, value: $value, low: $low, high: $high, unit: "minutes" };
    )*};
}
minutes! {
    UNDER_16_WEEKS "minutes_16_weeks" "In one sitting, under 16 weeks" 3.0 (2.0 - 4.0)
    UNDER_6_MONTHS "minutes_6_months" "In one sitting, under 6 months" 5.0 (3.0 - 6.0)
    UNDER_12_MONTHS "minutes_12_months" "In one sitting, under 12 months" 10.0 (5.0 - 10.0)
    ADULT "minutes_adult" "In one sitting, adult" 15.0 (10.0 - 20.0)
    OLD_DOG "minutes_old" "In one sitting, old" 10.0 (5.0 - 12.0)
}
const DAY_TIMES: Parameter = Parameter {
    key: "day_times",
    name: "Arousing or running minutes in a day, times those of one sitting",
    value: 3.0,
    low: 2.0,
    high: 3.0,
    unit: "×",
};
const REST_DAYS: Parameter = Parameter {
    key: "rest_days",
    name: "Days among which one is free of arousing work",
    value: 7.0,
    low: 3.0,
    high: 7.0,
    unit: "days",
};

const SOURCE: &str = "Common practice. Dogs trained once or twice a week, in single sittings, needed fewer of them: Demant et al. \
    2011, Appl Anim Behav Sci 133:228–234 (spacing of lessons; tests neither age nor excitement).";

/// A sitting of exciting or running work that is long for the dog's age.
pub static LONG_FOR_AGE: Rule = Rule {
    id: "long_for_age",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::PlanAndLog,
    title: "Long for this age",
    owner_title: "Shorter, for this age",
    raises: "Arousing or running work longer than the dog's age carries in one sitting: notice; caution from half as much \
             again. Where the age is not stated, an adult's minutes hold. Calm work, such as a mat, sniffing, house \
             training or handling, is exempt.",
    why: "Young bodies and old ones tire before they show it, and a tired dog learns little and gets over-excited.",
    trainer_do: "Plan fewer tries, in two short goes with a rest, and put calm work in place of the rest of the time.",
    owner_do: "Stop earlier next time, while it is still fun, and do something calm instead: sniffing, a chew, a sleep.",
    owner_why: "Puppies and older dogs tire sooner than they let on. Short goes with sleep between them teach more.",
    source: SOURCE,
    certainty: Certainty::CommonPractice,
    parameters: &[UNDER_16_WEEKS, UNDER_6_MONTHS, UNDER_12_MONTHS, ADULT, OLD_DOG, OLD],
};

/// More exciting or running minutes in one day than the age carries.
pub static AROUSING_DAY: Rule = Rule {
    id: "arousing_day",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::Trend,
    title: "Too much arousing work in a day",
    owner_title: "That was a lot for one day",
    raises: "Arousing or running sittings of one day that add up to more than three times what the age carries in one: \
             caution.",
    why: "Arousal adds up over a day, and so does the load on joints.",
    trainer_do: "Spread the work over the week, at most one exciting sitting a day, and plan rest beside it.",
    owner_do: "No more exciting games today: sniffing, chewing and sleep. Tomorrow do something calm.",
    owner_why: "Excitement adds up over a day, even when every single game was short.",
    source: SOURCE,
    certainty: Certainty::CommonPractice,
    parameters: &[DAY_TIMES, UNDER_16_WEEKS, UNDER_6_MONTHS, UNDER_12_MONTHS, ADULT, OLD_DOG, OLD],
};

/// Two exciting sittings on one day.
pub static TWO_AROUSING: Rule = Rule {
    id: "two_arousing",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::Trend,
    title: "Two arousing sittings in a day",
    owner_title: "One exciting game a day is plenty",
    raises: "A second arousing or running sitting on one day: notice.",
    why: "The second one begins where the first one ended, and ends higher.",
    trainer_do: "Plan them on different days, with calm work between.",
    owner_do: "Do the second one tomorrow or later in the week. A sniffing walk or a chew is a good swap for today.",
    owner_why: "Dogs need hours to come right down after something exciting. The next game starts better from calm.",
    source: SOURCE,
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A week without a day free of exciting work.
pub static NO_REST_DAY: Rule = Rule {
    id: "no_rest_day",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::Trend,
    title: "No day free of arousing work",
    owner_title: "A day off from exciting games",
    raises: "An arousing or running sitting on every one of the last 7 days: caution.",
    why: "Without a day off neither arousal nor muscles get back to where they began.",
    trainer_do: "Name a rest day with the owner, and give it something calm to do.",
    owner_do: "Keep tomorrow free of exciting games: sniffing, chewing, resting, gentle handling.",
    owner_why: "Rest is part of learning. A day off makes the next one better.",
    source: "Common practice. What a dog does between lessons matters for what it keeps: Kis et al. 2017, Sci Rep 7:41873.",
    certainty: Certainty::CommonPractice,
    parameters: &[REST_DAYS],
};

/// Whether a dog counts as old on a day; `None` when its age is not stated.
pub(super) fn is_old(dog: &DogFacts, on: Date, numbers: &HouseNumbers) -> Option<bool> {
    dog.age_months(on).map(|months| f64::from(months) >= numbers.of(&OLD) * 12.0)
}

/// Minutes of arousing or running work that a dog of this age carries in one sitting. Where the age is not stated it is an
/// adult's: more than that is too much for any dog.
pub fn sitting_minutes(dog: &DogFacts, on: Date, numbers: &HouseNumbers) -> f64 {
    let limit = match (dog.age_weeks(on), dog.age_months(on)) {
        (Some(..16), _) => &UNDER_16_WEEKS,
        (_, Some(..6)) => &UNDER_6_MONTHS,
        (_, Some(..12)) => &UNDER_12_MONTHS,
        _ if is_old(dog, on, numbers) == Some(true) => &OLD_DOG,
        _ => &ADULT,
    };
    numbers.of(limit)
}

/// Minutes that the week lays out for one sitting at most: as [`sitting_minutes`], and as few as for an old dog where the age
/// is not stated, since a plan looks ahead.
pub fn minutes_to_lay_out(dog: &DogFacts, on: Date, numbers: &HouseNumbers) -> i16 {
    let minutes = match dog.age_days(on) {
        Some(_) => sitting_minutes(dog, on, numbers),
        None => numbers.of(&OLD_DOG).min(numbers.of(&ADULT)),
    };
    minutes as i16
}

fn long(minutes: Option<i16>, limit: f64, who: &str, owner_who: &str) -> Option<Finding> {
    let minutes = minutes.filter(|minutes| f64::from(*minutes) > limit)?;
    let severity = if f64::from(minutes) >= 1.5 * limit { Severity::Caution } else { Severity::Notice };
    Some(
        Finding::new(
            &LONG_FOR_AGE,
            severity,
            format!("{who} {minutes} minutes; {limit} are enough in one go at this age."),
            format!("{owner_who} {minutes} minutes; {limit} are enough in one go at this age."),
        )
        .fact("Minutes", minutes)
        .fact("Enough for the age, minutes", limit),
    )
}

pub(super) fn long_for_age(context: &LogContext<'_>) -> Option<Finding> {
    let LogContext { sitting, dog, numbers, .. } = *context;
    let limit = sitting_minutes(dog, sitting.local_date, numbers);
    let minutes = sitting.minutes.filter(|_| sitting.is_arousing());
    long(minutes, limit, "Arousing or running work took", "The exciting part took")
}

pub(super) fn long_for_age_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    let limit = sitting_minutes(context.dog, context.today, context.numbers);
    in_exercises(context.plan, |item| {
        let who = format!("“{}” is arousing or running work, and is planned for", item.title);
        let owner_who = format!("“{}” is exciting and is planned for", item.title);
        long(item.minutes.filter(|_| item.is_arousing()), limit, &who, &owner_who)
    })
}

fn arousing_on<'a>(context: &LogContext<'a>, day: Date) -> impl Iterator<Item = &'a Sitting> {
    let all = std::iter::once(context.sitting).chain(context.recent);
    all.filter(move |past| past.local_date == day && past.is_arousing())
}

pub(super) fn arousing_day(context: &LogContext<'_>) -> Option<Finding> {
    let LogContext { sitting, dog, numbers, .. } = *context;
    let day = sitting.local_date;
    if !sitting.is_arousing() {
        return None;
    }
    let minutes: i32 = arousing_on(context, day).filter_map(|past| past.minutes).map(i32::from).sum();
    let enough = sitting_minutes(dog, day, numbers) * numbers.of(&DAY_TIMES);
    (f64::from(minutes) > enough).then(|| {
        Finding::new(
            &AROUSING_DAY,
            Severity::Caution,
            format!(
                "{minutes} minutes of arousing or running work on one day; {enough} are enough at this age."
            ),
            format!("{minutes} minutes of exciting games today; {enough} are enough at this age."),
        )
        .fact("Minutes on the day", minutes)
        .fact("Enough for the age, minutes", enough)
    })
}

pub(super) fn two_arousing(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let times = arousing_on(context, sitting.local_date).count();
    (sitting.is_arousing() && times > 1).then(|| {
        Finding::new(
            &TWO_AROUSING,
            Severity::Notice,
            format!("{times} arousing or running sittings on one day."),
            format!("{} had {times} exciting games on one day.", context.dog.name),
        )
        .fact("On the day", times)
    })
}

pub(super) fn no_rest_day(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let days = context.numbers.count(&REST_DAYS);
    let back = |ago: usize| sitting.local_date.checked_sub(Duration::days(i64::try_from(ago).ok()?));
    let worked = |ago: usize| back(ago).is_some_and(|day| arousing_on(context, day).next().is_some());
    (sitting.is_arousing() && (0..days).all(worked)).then(|| {
        Finding::new(
            &NO_REST_DAY,
            Severity::Caution,
            format!("Arousing or running work on each of the last {days} days."),
            format!("{} has had exciting games on each of the last {days} days.", context.dog.name),
        )
        .fact("Days in a row", days)
    })
}
