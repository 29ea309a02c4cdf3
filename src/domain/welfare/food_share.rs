//! Food: extras from training within a tenth of the day, over seven days of logs.

use super::LogContext;
use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use crate::domain::dog::DogFacts;
use crate::domain::food::earned::{Earned, Source};
use crate::domain::food::energy::{EnergyFacts, Stage};
use crate::domain::food::picture::Picture;
use crate::domain::food::share::{CEILING, percent};
use crate::domain::vocabulary::Severity;
use time::Date;

/// The ceiling on extras.
pub const TREATS: Parameter = Parameter {
    key: "treats",
    name: "Largest share of a day's energy from treats",
    value: 100.0 * CEILING,
    low: 5.0,
    high: 100.0 * CEILING,
    unit: "%",
};
const RISE: Parameter = Parameter {
    key: "weight_rise",
    name: "Rise between two weighings that counts, in a grown dog",
    value: 3.0,
    low: 2.0,
    high: 5.0,
    unit: "%",
};
const ROUND: Parameter = Parameter {
    key: "condition_over",
    name: "Body condition from which extras weigh more",
    value: 6.0,
    low: 5.0,
    high: 6.0,
    unit: "of 9",
};

/// Slack for percentages that are equal on paper.
const SLACK: f64 = 1e-9;

/// More extras than the day has room for.
pub static OVER_DAILY_SHARE: Rule = Rule {
    id: "over_daily_share",
    version: 1,
    group: Group::Food,
    looks_at: LooksAt::Trend,
    title: "Treats over the daily share",
    owner_title: "Smaller pieces, same number of rewards",
    raises: "Extras earned in training over seven days, counted as pieces × grams × energy, above the share of the daily need: \
             notice. Caution at a body condition of 6 or more, or where a grown dog's last weighing is more than 3 % above \
             the one before. Food out of the main meals is no extra. Silent without a weight, and where pieces, grams or \
             energy are not stated.",
    why: "Treats are rarely a complete food: beyond a tenth they thin out the diet, and what is added on top \
                goes on the ribs. The need is a population figure, and dogs of one weight differ up to threefold. A \
                small rise may be a meal or the scales: weigh twice.",
    trainer_do: "Make pieces smaller before making rewards fewer: the dog counts pieces. Or pay from the main meals, or with a \
                 lighter food; the food page says what fits. Where weight or condition rises, ask the owner to have a vet look \
                 before meals are cut.",
    owner_do: "Cut the pieces smaller, and keep the number: a pea-sized piece counts as much as a big one. You can also use part of \
               the daily meals. If weight goes up all the same, ask your vet before you cut meals.",
    owner_why: "Treats are best kept to a tenth of the day's food, so that there is room for the food that has everything in it.",
    source: "Ceiling of 10 %: WSAVA Global Nutrition Guidelines 2011 and AAHA 2010 and 2021 (second-hand). Daily need: FEDIAF 2018 and \
             2021, NRC 2006. Ideal weight from body condition: from memory. What counts as a rise: common practice.",
    certainty: Certainty::FromMemory,
    parameters: &[TREATS, RISE, ROUND],
};

/// By how many per cent the last weighing is above the one before.
fn rise_percent(dog: &DogFacts, on: Date) -> Option<f64> {
    let mut weighings = dog.weighings.iter().filter(|weighing| weighing.on <= on);
    let (last, before) = (weighings.next()?, weighings.next()?);
    (before.kg > 0.0).then(|| (last.kg / before.kg - 1.0) * 100.0)
}

/// "cheddar, 60 pieces of 0.5 g a day".
fn in_words(source: &Source) -> String {
    let a_day = source.pieces as f64 / 7.0;
    format!("{}, about {:.0} pieces of {} g a day", source.what, a_day.ceil(), source.grams_per_piece)
}

fn not_counted(earned: &Earned) -> Option<String> {
    let left = earned.not_counted_in_words();
    (!left.is_empty()).then(|| left.join("; "))
}

pub(super) fn over_daily_share(context: &LogContext<'_>) -> Option<Finding> {
    let (dog, on) = (context.dog, context.sitting.local_date);
    let ceiling = context.numbers.of(&TREATS) / 100.0;
    let facts = EnergyFacts::of(dog, on);
    let picture = Picture::of(&facts, context.paid.over_seven_days);
    let (need, share) = (picture.need.as_ref()?, picture.share.filter(|share| share.is_over(ceiling))?);
    let grows = matches!(facts.stage, Some(Stage::YoungPup | Stage::OlderPup));
    let most = context.numbers.of(&RISE) + SLACK;
    let rise = rise_percent(dog, on).filter(|rise| !grows && *rise > most);
    let round = dog.body_condition.filter(|points| f64::from(*points) >= context.numbers.of(&ROUND));
    let severity = if rise.is_some() || round.is_some() { Severity::Caution } else { Severity::Notice };
    let said = percent(share.point(), ceiling);
    let biggest = picture.earned.biggest()?;
    Some(
        Finding::new(
            &OVER_DAILY_SHARE,
            severity,
            format!(
                "Extras over the last seven days came to about {said} of the daily need, and the most is {:.0} %. Biggest: {}.",
                ceiling * 100.0,
                in_words(biggest)
            ),
            format!(
                "Treats in the last seven days came to about {said} of what {} needs. Most of it was {}.",
                dog.name, biggest.what
            ),
        )
        .fact("Daily need, kcal", format!("{:.0} ({:.0}–{:.0})", need.energy.point(), need.energy.low(), need.energy.high()))
        .fact("Extras, kcal a day", format!("{:.0}", picture.earned.kcal_a_day()))
        .fact("Share of the need", format!("{said} ({}–{})", percent(share.low(), ceiling), percent(share.high(), ceiling)))
        .fact_if("Body condition", round)
        .fact_if("Rise between weighings, %", rise.map(|rise| format!("{rise:.1}")))
        .fact_if("Not counted", not_counted(&picture.earned)),
    )
}
