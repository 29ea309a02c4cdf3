//! Changes that come slowly: signs of pain over weeks, and weight. Nothing here diagnoses.

use time::Date;

use super::LogContext;
use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::impact::is_stiff;
use crate::domain::dates::{counted, days_between};
use crate::domain::dog::{DogFacts, Weighing};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Severity;

const WEEKS: Parameter = Parameter {
    key: "slow_pain_days",
    name: "Days over which signs are put together",
    value: 21.0,
    low: 21.0,
    high: 56.0,
    unit: "days",
};
const SIGN_DAYS: Parameter = Parameter {
    key: "slow_pain_times",
    name: "Days with a sign among them",
    value: 2.0,
    low: 2.0,
    high: 3.0,
    unit: "days",
};
const SHARE: Parameter = Parameter {
    key: "weight_percent",
    name: "Change of weight that goes to a vet",
    value: 10.0,
    low: 5.0,
    high: 10.0,
    unit: "% of the earlier weight",
};
const LOOK_BACK: Parameter = Parameter {
    key: "weight_days",
    name: "Days over which weights are compared",
    value: 180.0,
    low: 90.0,
    high: 365.0,
    unit: "days",
};

/// Signs of pain on several days within weeks.
pub static SLOW_PAIN: Rule = Rule {
    id: "slow_pain",
    version: 1,
    group: Group::Health,
    looks_at: LooksAt::Trend,
    title: "Signs of pain over weeks",
    owner_title: "Seen more than once: please see your vet",
    raises: "Lame or stiff, flinching when touched, or reluctant to sit, lie down, jump or use stairs, ticked this \
                time and on at least one other day within 21 days, of the last 30 sittings: caution.",
    why: "Slow pain hides behind slower responses and good days between. It is easily taken for stubbornness.",
    trainer_do: "Ask for a vet's look before the plan goes on, with dates and what was seen. Until then nothing that asks \
                 for sits, downs, jumps or running.",
    owner_do: "Make an appointment with your vet and take these dates along. Until then no running, jumping or \
                repeated sits and downs; short, slow walks on a lead, if your dog wants them. If it gets worse, ring \
                at once.",
    owner_why: "Dogs hide pain well, and it comes and goes. Seeing it on more than one day is worth a look.",
    source: "Mills et al. 2020, Animals 10(2):318: pain in about a third of referred behaviour cases, counted cautiously; \
             signs: WSAVA and AAHA 2022 pain guidelines. The days: common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[WEEKS, SIGN_DAYS],
};

/// An adult's weight changed, unplanned.
pub static WEIGHT_CHANGE: Rule = Rule {
    id: "weight_change",
    version: 1,
    group: Group::Health,
    looks_at: LooksAt::Trend,
    title: "Weight change of a tenth",
    owner_title: "Please tell your vet about the weight",
    raises: "The newest weight of a grown dog differs by 10 % or more from one of the last 180 days: notice; \
                caution where the weighing before it says the same. Said with the sittings of the weighing's day and \
                the first one after it. Silent while the dog grows or its age is not stated.",
    why: "A change that nobody planned can be the first sign of illness, and weight gained is hard on joints and heart.",
    trainer_do: "Ask whether it was planned. If not, ask for a vet's check, and look at treats and activity together.",
    owner_do: "If you did not plan this change, ring your vet and say both weights and both dates. Weigh again in a week, at \
               the same time of day.",
    owner_why: "It may be the scales, the season or the treats. When nobody planned it, a vet should know.",
    source: "Common practice; the threshold is from memory. Planned loss is usually 1–2 % a week, under a vet: \
                Purina Institute, maintenance energy.",
    certainty: Certainty::FromMemory,
    parameters: &[SHARE, LOOK_BACK],
};

pub(super) fn slow_pain(context: &LogContext<'_>) -> Option<Finding> {
    let LogContext { sitting, recent, numbers, .. } = *context;
    if !is_stiff(sitting) {
        return None;
    }
    let day = sitting.local_date;
    let within = |past: &&Sitting| {
        let ago = days_between(past.local_date, day);
        ago >= 0 && (ago as f64) <= numbers.of(&WEEKS)
    };
    let mut days: Vec<Date> = std::iter::once(sitting)
        .chain(recent.iter().filter(within).filter(|past| is_stiff(past)))
        .map(|past| past.local_date)
        .collect();
    days.sort_unstable();
    days.dedup();
    let first = days.first().filter(|_| days.len() >= numbers.count(&SIGN_DAYS))?;
    let (name, times, span) = (&context.dog.name, days.len(), days_between(*first, day));
    let span = counted(span, "day", "days");
    let seen = format!("{name} was stiff, sore or reluctant on {times} days within {span}.");
    Some(Finding::new(&SLOW_PAIN, Severity::Caution, seen.clone(), seen).fact("Days with a sign", times))
}

/// The change from an earlier weight to a later one, as a share of the earlier.
fn change(earlier: Weighing, later: Weighing) -> f64 {
    (later.kg - earlier.kg) / earlier.kg
}

/// The newest weighing that no earlier sitting has seen.
fn unseen(context: &LogContext<'_>) -> Option<Weighing> {
    let day = context.sitting.local_date;
    let newest = *context.dog.weighings.iter().find(|weighing| weighing.on <= day)?;
    let is_new = context.recent.first().is_none_or(|last| last.local_date <= newest.on);
    is_new.then_some(newest)
}

fn earlier(dog: &DogFacts, than: Weighing, days: f64) -> impl Iterator<Item = Weighing> + '_ {
    dog.weighings.iter().copied().filter(move |weighing| {
        let ago = days_between(weighing.on, than.on);
        ago > 0 && (ago as f64) <= days && weighing.kg > 0.0
    })
}

pub(super) fn weight_change(context: &LogContext<'_>) -> Option<Finding> {
    let LogContext { sitting, dog, numbers, .. } = *context;
    if dog.growing(sitting.local_date) != Some(false) {
        return None;
    }
    let newest = unseen(context)?;
    let is_far = |share: f64| share.abs() >= numbers.share(&SHARE);
    let days = numbers.of(&LOOK_BACK);
    let from = earlier(dog, newest, days)
        .filter(|other| is_far(change(*other, newest)))
        .max_by(|a, b| change(*a, newest).abs().total_cmp(&change(*b, newest).abs()))?;
    let second = earlier(dog, newest, days).find(|other| other.on > from.on);
    let same_way = |other: Weighing| change(from, other).signum() == change(from, newest).signum();
    let confirmed = second.is_some_and(|other| is_far(change(from, other)) && same_way(other));
    let severity = if confirmed { Severity::Caution } else { Severity::Notice };
    let (name, share) = (&dog.name, (100.0 * change(from, newest)).round());
    let way = if share < 0.0 { "less" } else { "more" };
    let seen = format!(
        "{name} weighs {} kg, {} % {way} than on {} ({} kg).",
        newest.kg,
        share.abs(),
        from.on,
        from.kg
    );
    Some(
        Finding::new(&WEIGHT_CHANGE, severity, seen.clone(), seen)
            .fact("Now, kg", newest.kg)
            .fact("Before, kg", from.kg)
            .fact("Before, on", from.on),
    )
}
