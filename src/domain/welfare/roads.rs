//! Roads, fences and permission: where a dog may be on a long line or loose.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::in_plan::in_exercises;
use super::{HouseNumbers, LogContext, PlanContext};
use crate::domain::dog::DogFacts;
use crate::domain::place::PlaceFacts;
use crate::domain::vocabulary::{Line, Severity};

const RUN_OUT: Parameter = Parameter {
    key: "run_out_metres",
    name: "Metres a dog covers before it is held",
    value: 20.0,
    low: 20.0,
    high: 60.0,
    unit: "metres",
};
const UNSAID_LINE: Parameter = Parameter {
    key: "unsaid_line_metres",
    name: "Length of a long line that is not said",
    value: 10.0,
    low: 10.0,
    high: 20.0,
    unit: "metres",
};

/// A road within reach of a long line or a loose dog.
pub static ROAD_NEAR: Rule = Rule {
    id: "road_near",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::PlanAndLog,
    title: "Road within reach",
    owner_title: "Stay further from the road",
    raises: "Off lead, on a trailing or long line, or on a retractable lead, where it is stated not to be fenced: a road \
             nearer than the line plus 20 metres is a stop; for a dog that has bolted, any road said to be near. Caution \
             where a road is near and nobody said how far. Where the fence is not stated: notice.",
    why: "A dog that slips, drops or outruns its line needs only a second to reach a road.",
    trainer_do: "Choose another place or a short lead for this exercise. Write into the place how far the road is and \
                 whether it is fenced.",
    owner_do: "Do this somewhere fenced, or far from any road, or keep to a short lead on a harness. Your trainer will \
               choose a place with you.",
    owner_why: "Lines slip out of hands. A fence or a good distance is what keeps a dog safe when that happens.",
    source: "Common practice. Most pet dogs sprint at 6.7–8.9 m/s, second-hand and weak: 20 metres are gone in three \
             seconds.",
    certainty: Certainty::CommonPractice,
    parameters: &[RUN_OUT, UNSAID_LINE],
};

/// Off lead where nobody allowed it.
pub static OFF_LEAD_NOT_ALLOWED: Rule = Rule {
    id: "off_lead_not_allowed",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::PlanAndLog,
    title: "Off lead without permission",
    owner_title: "On the line here, please",
    raises: "No line in a place that is stated not to be fenced, and for which no trainer's permission holds: caution. Stop \
             for a dog that has bolted. Silent where it is fenced or not stated.",
    why: "Counts on a line say nothing about a dog without one. Whether a dog may run loose is decided place by place.",
    trainer_do: "Talk about why the line was off. Allow it for this place if you have seen enough, or plan a line.",
    owner_do: "Keep your dog on a line clipped to a harness here until your trainer has said that this place is fine \
               without.",
    owner_why: "Coming back on a line and coming back without one are two different things. Your trainer decides with you, \
                place by place.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// Metres from the handler that a dog may get to on this line; `None` where the line holds it close.
fn reach(line: Option<Line>, metres: Option<i16>, numbers: &HouseNumbers) -> Option<f64> {
    let line = match line? {
        Line::None => 0.0,
        Line::ShortLead => return None,
        Line::TrailingLine | Line::LongLine | Line::Retractable => {
            metres.map_or(numbers.of(&UNSAID_LINE), f64::from)
        }
    };
    Some(line + numbers.of(&RUN_OUT))
}

fn road_severity(place: PlaceFacts, reach: f64, dog: &DogFacts) -> Option<Severity> {
    if place.secure == Some(true) {
        return None;
    }
    let within = place.road_metres.is_some_and(|metres| f64::from(metres) < reach);
    let is_near = place.near_road == Some(true);
    let unsaid = is_near && place.road_metres.is_none();
    let any = within || unsaid || (dog.has_bolted && is_near);
    match place.secure {
        _ if !any => None,
        None => Some(Severity::Notice),
        Some(_) if within || dog.has_bolted => Some(Severity::Stop),
        Some(_) => Some(Severity::Caution),
    }
}

fn road(
    line: Option<Line>,
    metres: Option<i16>,
    place: PlaceFacts,
    dog: &DogFacts,
    numbers: &HouseNumbers,
    who: &str,
) -> Option<Finding> {
    let reach = reach(line, metres, numbers)?;
    let severity = road_severity(place, reach, dog)?;
    let far = match place.road_metres {
        Some(metres) => format!("{metres} metres from a road"),
        None => "near a road, and nobody said how far".to_owned(),
    };
    let fence = match place.secure {
        Some(_) => "without a fence",
        None => "and whether it is fenced is not stated",
    };
    let bolted = if dog.has_bolted { " A bolt is on record." } else { "" };
    Some(
        Finding::new(
            &ROAD_NEAR,
            severity,
            format!("{who} {far}, {fence}.{bolted}"),
            format!("{who} close to a road."),
        )
        .fact_if("Line", line)
        .fact_if("Road, metres", place.road_metres)
        .fact("Reach, metres", reach),
    )
}

pub(super) fn road_near(context: &LogContext<'_>) -> Option<Finding> {
    let LogContext { sitting, dog, numbers, .. } = *context;
    let line = sitting.equipment_in_use().0;
    road(line, sitting.planned.line_metres, sitting.place, dog, numbers, &format!("{} worked", dog.name))
}

pub(super) fn road_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        let who = format!("“{}” is planned", item.title);
        road(item.line, item.line_metres, item.place_facts, context.dog, context.numbers, &who)
    })
}

fn loose(line: Option<Line>, place: PlaceFacts, dog: &DogFacts, who: &str) -> Option<Finding> {
    let is_loose = line == Some(Line::None) && place.secure == Some(false);
    if !is_loose || place.off_lead_allowed != Some(false) {
        return None;
    }
    let severity = if dog.has_bolted { Severity::Stop } else { Severity::Caution };
    Some(Finding::new(
        &OFF_LEAD_NOT_ALLOWED,
        severity,
        format!("{who} off lead in a place without a fence, and no permission holds there."),
        format!("{who} without a line in a place that is not fenced."),
    ))
}

pub(super) fn off_lead_not_allowed(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    loose(sitting.equipment_in_use().0, sitting.place, context.dog, &format!("{} worked", context.dog.name))
}

pub(super) fn off_lead_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        loose(item.line, item.place_facts, context.dog, &format!("“{}” is planned", item.title))
    })
}
