//! Heat: the weather against this dog and this work.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::{HouseNumbers, LogContext};
use crate::domain::heat::{Band, Burden, Circumstances, Effort, Limits, assess};
use crate::domain::lists::in_a_sentence;
use crate::domain::vocabulary::Severity;

const HEAVY: Parameter = Parameter {
    key: "heat_heavy_kg",
    name: "Weight above which heat is harder",
    value: 50.0,
    low: 25.0,
    high: 50.0,
    unit: "kg",
};
const OLD: Parameter = Parameter {
    key: "heat_old_years",
    name: "Age from which heat is harder",
    value: 8.0,
    low: 6.0,
    high: 10.0,
    unit: "years",
};
const OVER_IDEAL: Parameter = Parameter {
    key: "heat_over_ideal",
    name: "Body condition from which heat is harder",
    value: 6.0,
    low: 6.0,
    high: 7.0,
    unit: "on 1–9",
};
const EVERY_DOG: Parameter = Parameter {
    key: "heat_every_dog",
    name: "Bands begun earlier for every dog",
    value: 0.0,
    low: 0.0,
    high: 2.0,
    unit: "bands",
};

/// The weather was hard on this dog at this work.
pub static HEAT_AT_WORK: Rule = Rule {
    id: "heat_at_work",
    version: 1,
    group: Group::Heat,
    looks_at: LooksAt::Log,
    title: "Warm for this dog and this work",
    owner_title: "It was warm for this",
    raises: "The heat index in a person’s bands (caution from 27 °C, extreme caution from 32, danger from 39, extreme danger \
             from 52), begun one band earlier, three at most, for each of: a short nose, great weight, age, body condition \
             over ideal, heart or breathing affected, a thick coat, a muzzle, arousing or running work, full sun, hot \
             ground. Arousing or running work in the first band: notice. Any work in the second: caution; in the third: \
             caution, and stop if it is arousing or running; in the fourth: stop. Where nothing was measured, one tap for \
             how it felt. Where nothing was stated: nothing.",
    why: "Dogs lose heat mostly by panting, and most heat illness comes from exertion, not from parked cars. Half of the \
          dogs fell ill on days of 16.9 °C or less, so a day without this finding is no promise.",
    trainer_do: "Ask how the breathing was afterwards and pass on the signs to watch. Move this exercise to a cooler hour or \
                 indoors, in the shade and shorter, and let the dog rest and drink between goes. A dog with a short nose, or \
                 with heart or breathing affected, wants its vet’s word on work in warm weather.",
    owner_do: "Rest in the shade with water now, muzzle and coat off if your dog lets you, and watch for an hour or two. Any of \
                panting that will not slow, noisy breathing, unusual tiredness, vomiting, stumbling, collapse or a fit: \
                cool your dog with water and moving air, and ring your vet while you do. Next time, choose an early or late hour, shade, and less of it.",
    owner_why: "Dogs cannot sweat as we do; they pant. Work warms them from inside, on mild days too, and some dogs get \
                into trouble long before we feel the heat.",
    source: "Exertion set off about three in four of 1,259 events: Hall, Carter & O'Neill 2020, Animals 10(8):1324; who is at risk: the \
             same, Sci Rep 10:9128; median day 16.9 °C: Hall et al. 2022, Vet Sci 9(5):231; signs: Hall et al. 2021, Sci \
             Rep 11:6828. Heat index: National Weather Service (Rothfusz 1990), made for people, not dogs; the edges at \
             39 and 52 °C second-hand. The earlier bands and what follows from each are a house rule: no published \
             temperature divides go from no-go for every dog.",
    certainty: Certainty::CommonPractice,
    parameters: &[HEAVY, OLD, OVER_IDEAL, EVERY_DOG],
};

/// The limits as the practice has them.
pub fn heat_limits(numbers: &HouseNumbers) -> Limits {
    Limits {
        heavy_kg: numbers.of(&HEAVY),
        old_years: numbers.of(&OLD),
        over_ideal: numbers.of(&OVER_IDEAL),
        every_dog: numbers.count(&EVERY_DOG),
    }
}

/// How bad work in a band is. How hard it was counts only where it was stated.
fn severity(band: Band, effort: Option<Effort>) -> Option<Severity> {
    let vigorous = effort == Some(Effort::Vigorous);
    match band {
        Band::Below => None,
        Band::Caution => vigorous.then_some(Severity::Notice),
        Band::ExtremeCaution => Some(Severity::Caution),
        Band::Danger if vigorous => Some(Severity::Stop),
        Band::Danger => Some(Severity::Caution),
        Band::ExtremeDanger => Some(Severity::Stop),
    }
}

pub(super) fn heat_at_work(context: &LogContext<'_>) -> Option<Finding> {
    let circumstances = Circumstances::of(context.dog, context.sitting);
    let found = assess(context.sitting.weather.air(), &circumstances, &heat_limits(context.numbers))?;
    let severity = severity(found.band, circumstances.effort)?;
    let name = &context.dog.name;
    let said = |burdens: &[Burden], say: fn(Burden) -> &'static str| {
        in_a_sentence(&burdens.iter().map(|burden| say(*burden)).collect::<Vec<_>>())
    };
    let because = said(&found.burdens, Burden::for_owner);
    let because = if because.is_empty() { because } else { format!(". Harder for {name}: {because}") };
    let work = if circumstances.effort == Some(Effort::Vigorous) { "ran or got excited" } else { "worked" };
    let (harder, unsaid) = (said(&found.burdens, Burden::label), said(&found.not_stated, Burden::decided_by));
    Some(
        Finding::new(
            &HEAT_AT_WORK,
            severity,
            found.band_sentence(name),
            format!("{name} {work} in the warmth: {}{because}.", found.figures()),
        )
        .fact("Band for this dog", found.band.label())
        .fact("Band for a person", found.people.label())
        .fact("Weather", found.figures())
        .fact_if("Harder by", Some(harder).filter(|text| !text.is_empty()))
        .fact_if("Not stated", Some(unsaid).filter(|text| !text.is_empty())),
    )
}
