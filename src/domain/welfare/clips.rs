//! What is worn and held: clips outside the practice's policy, retractable leads, chasing on a collar, lines too long to
//! hold, and equipment that failed.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::in_plan::in_exercises;
use super::{EncounterContext, LogContext, PlanContext};
use crate::domain::vocabulary::{Clip, EncounterKind, Line, Severity, Word};

const HELD_METRES: Parameter = Parameter {
    key: "held_metres",
    name: "Longest line that is held by hand",
    value: 10.0,
    low: 5.0,
    high: 15.0,
    unit: "metres",
};

/// A clip that the practice does not use.
pub static CLIP_NOT_USED: Rule = Rule {
    id: "clip_not_used",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::PlanAndLog,
    title: "Equipment outside the practice's policy",
    owner_title: "We work on other equipment",
    raises: "A line clipped to something on the practice's list of what it does not use: caution. A held long line has a \
             rule of its own.",
    why: "Equipment that works by discomfort can cost trust, and what it holds down often comes back when it is \
                off.",
    trainer_do: "Ask how it came about, without blame. Fit a harness with the owner, and say what to do on the days until \
                 then.",
    owner_do: "Clip the lead to a well-fitting harness or a flat collar instead. If your dog is hard to hold on that, tell \
               your trainer, and walk where it is quiet until you have spoken.",
    owner_why: "We teach with rewards, and the dog should be comfortable in what it wears. There is another way to do \
                this, and your trainer will show you.",
    source: "AVSAB 2021, position statement on humane dog training; Vieira de Castro et al. 2020, PLoS ONE 15(12):e0225023: \
             more stress signs in dogs of schools that used aversive means. Which equipment: the practice's own policy.",
    certainty: Certainty::Verified,
    parameters: &[],
};

/// A retractable lead.
pub static RETRACTABLE_LEAD: Rule = Rule {
    id: "retractable_lead",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::PlanAndLog,
    title: "Retractable lead",
    owner_title: "Leave the retractable lead at home",
    raises: "A retractable lead: notice. Caution in arousing or running work.",
    why: "A thin cord under tension burns and wraps, the handle is easily dropped and then chases the dog, and the line is \
          never slack.",
    trainer_do: "Suggest a held line of fixed length on a harness, or a short lead.",
    owner_do: "Use a lead of fixed length, on a harness. Hold it in your hand, never round wrist or fingers.",
    owner_why: "The cord can cut, and a dropped handle frightens a dog into running. On a lead of fixed length your dog \
                can also learn what a slack lead feels like.",
    source: "Common practice. Hands hurt by leads of any kind: a hand clinic's series of 443 patients, three quarters with a \
             limb caught in the lead.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// Chasing or running on a line that clips to something other than a harness.
pub static CHASE_WITHOUT_HARNESS: Rule = Rule {
    id: "chase_without_harness",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::PlanAndLog,
    title: "Running work without a harness",
    owner_title: "For running games, clip to the harness",
    raises: "Arousing or running work on a short lead, trailing line or retractable lead that is stated to clip to something \
             other than a harness: caution. Silent for a trailing line where it is stated to be fenced all round. A held \
             long line has a rule of its own.",
    why: "A dog that runs is stopped by its neck when the line catches or comes tight.",
    trainer_do: "Move the clip to the back ring of a harness in the plan, and show the owner.",
    owner_do: "For anything fast, clip the line to the ring on the back of the harness.",
    owner_why: "When a running dog is stopped, the jerk goes where the line clips. A harness spares the neck.",
    source: "Carter, Roshier & McNally 2020, Vet Rec 187(7):e52: none of the collars tried was judged gentle to the neck. \
             Harness for running work: common practice.",
    certainty: Certainty::Verified,
    parameters: &[],
};

/// A held line longer than hands can hold.
pub static LINE_TOO_LONG: Rule = Rule {
    id: "line_too_long",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::Plan,
    title: "Line longer than hands can hold",
    owner_title: "A shorter line is easier to hold",
    raises: "A held long line of more than 10 metres in the plan: notice.",
    why: "Every metre of slack is speed before the line comes tight, and a long loop finds legs and fingers.",
    trainer_do: "Plan five to ten metres in the hand. Let a longer one trail in a fenced field, or stand on it.",
    owner_do: "Hold no more than about ten metres, in loose loops, with gloves on and nothing round your wrist.",
    owner_why: "With more line your dog is faster when it comes to the end, and that is hard on both of you.",
    source: "Common practice. That the pull grows with speed is plain mechanics.",
    certainty: Certainty::CommonPractice,
    parameters: &[HELD_METRES],
};

/// A harness slipped, or a clip or line failed.
pub static EQUIPMENT_FAILED: Rule = Rule {
    id: "equipment_failed",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::Encounter,
    title: "Equipment slipped or failed",
    owner_title: "Check what your dog wears",
    raises: "A harness that slipped, or a clip or line that failed, was told: caution.",
    why: "What slipped once slips again, and the next time may be by a road.",
    trainer_do: "Ask what gave way and look at the fit in person. Add a second point of attachment until it is right. Rest \
                 line work near roads.",
    owner_do: "Do not use what slipped or broke. Until your trainer has looked: another harness or well-fitting collar on a \
               short lead, with a second clip to something sound, away from roads. If nothing is sound, stay in the house or a \
               fenced garden.",
    owner_why: "Dogs grow, lose coat and learn to back out of a harness. Two fingers under every strap is a good start.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

fn is_harness(clip: Clip) -> bool {
    matches!(clip, Clip::HarnessBack | Clip::HarnessFront)
}

/// The loop of a held line around a hand.
pub static HAND_IN_LOOP: Rule = Rule {
    id: "hand_in_loop",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::Log,
    title: "Hand through the loop",
    owner_title: "Keep your hand out of the loop",
    raises: "It is stated that the loop of a held line was around a hand or wrist: caution on a long line and in arousing or \
             running work, else notice.",
    why: "A dog that runs out pulls at whatever is in the loop, and nobody can let go in time.",
    trainer_do: "Show how to hold it: folded in the hand, both hands on it, nothing wrapped. Gloves for a long line.",
    owner_do: "Hold the line folded in your hand, with nothing wrapped around fingers or wrist, so that you can let go.",
    owner_why: "A line around a hand has broken many fingers and pulled people over. An open hand is quicker.",
    source: "Most people hurt by dog leads in one hand-surgery practice 2016–2021 had a limb caught in one; most of those treated \
             in US emergency departments 2001–2018 were pulled: Am J Emerg Med 2020 38(9):1782–1786. How to hold a line: common \
             practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A line that is worn, what it clips to, and how it is told.
fn clip_not_used_on(line: Option<Line>, clip: Option<Clip>, not_used: &[Clip], who: &str) -> Option<Finding> {
    let clip = clip.filter(|clip| not_used.contains(clip))?;
    // on a held long line, anything but a harness has a rule of its own
    let has_own_rule = line == Some(Line::LongLine) && !is_harness(clip);
    if has_own_rule || matches!(line, None | Some(Line::None)) {
        return None;
    }
    let label = clip.label().to_lowercase();
    Some(
        Finding::new(
            &CLIP_NOT_USED,
            Severity::Caution,
            format!("{who} on a {label}, which this practice does not use."),
            format!("{who} on a {label}. We work without it."),
        )
        .fact("Clipped to", clip),
    )
}

pub(super) fn clip_not_used(context: &LogContext<'_>) -> Option<Finding> {
    let (line, clip) = context.sitting.equipment_in_use();
    clip_not_used_on(line, clip, context.not_used, &format!("{} worked", context.dog.name))
}

pub(super) fn clip_not_used_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        clip_not_used_on(item.line, item.clip, context.not_used, &format!("“{}” is planned", item.title))
    })
}

fn retractable_on(line: Option<Line>, is_arousing: bool, who: &str) -> Option<Finding> {
    let line = line.filter(|line| *line == Line::Retractable)?;
    let severity = if is_arousing { Severity::Caution } else { Severity::Notice };
    let seen = format!("{who} on a retractable lead.");
    Some(Finding::new(&RETRACTABLE_LEAD, severity, seen.clone(), seen).fact("Line", line))
}

pub(super) fn retractable_lead(context: &LogContext<'_>) -> Option<Finding> {
    let who = format!("{} worked", context.dog.name);
    retractable_on(context.sitting.equipment_in_use().0, context.sitting.is_arousing(), &who)
}

pub(super) fn retractable_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        retractable_on(item.line, item.is_arousing(), &format!("“{}” is planned", item.title))
    })
}

fn chase_on(
    line: Option<Line>,
    clip: Option<Clip>,
    is_arousing: bool,
    is_fenced: Option<bool>,
    who: &str,
) -> Option<Finding> {
    let clip = clip.filter(|clip| !is_harness(*clip) && is_arousing)?;
    let line = line.filter(|line| match line {
        Line::ShortLead | Line::Retractable => true,
        Line::TrailingLine => is_fenced != Some(true),
        Line::None | Line::LongLine => false,
    })?;
    let (line_words, clip_words) = (line.label().to_lowercase(), clip.label().to_lowercase());
    Some(
        Finding::new(
            &CHASE_WITHOUT_HARNESS,
            Severity::Caution,
            format!("{who} at speed on a {line_words} clipped to the {clip_words}."),
            format!("{who} at speed, with the line on the {clip_words}."),
        )
        .fact("Line", line)
        .fact("Clipped to", clip),
    )
}

pub(super) fn chase_without_harness(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let (line, clip) = sitting.equipment_in_use();
    let who = format!("{} worked", context.dog.name);
    chase_on(line, clip, sitting.is_arousing(), sitting.place.secure, &who)
}

pub(super) fn chase_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        let who = format!("“{}” is planned", item.title);
        chase_on(item.line, item.clip, item.is_arousing(), item.place_facts.secure, &who)
    })
}

pub(super) fn line_too_long(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        let metres = item.line_metres.filter(|_| item.line == Some(Line::LongLine))?;
        (f64::from(metres) > context.numbers.of(&HELD_METRES)).then(|| {
            let title = &item.title;
            Finding::new(
                &LINE_TOO_LONG,
                Severity::Notice,
                format!("“{title}” asks for {metres} metres of line in the hand."),
                format!("“{title}” uses {metres} metres of line."),
            )
        })
    })
}

pub(super) fn hand_in_loop(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let line = sitting.equipment_in_use().0;
    // a line that trails, or none, has no hand in it; where the line is not stated, the loop says that there was one
    let is_held = !matches!(line, Some(Line::None | Line::TrailingLine));
    (sitting.loop_round_hand == Some(true) && is_held).then(|| {
        let hard = line == Some(Line::LongLine) || sitting.is_arousing();
        Finding::new(
            &HAND_IN_LOOP,
            if hard { Severity::Caution } else { Severity::Notice },
            "The loop of the line was around a hand or wrist.",
            "The loop of the line was around a hand or wrist.",
        )
        .fact_if("Line", line)
    })
}

pub(super) fn equipment_failed(context: &EncounterContext<'_>) -> Option<Finding> {
    (context.encounter.kind == EncounterKind::EquipmentFailed).then(|| {
        let name = &context.dog.name;
        let seen = format!("{name}'s equipment slipped or failed.");
        Finding::new(&EQUIPMENT_FAILED, Severity::Caution, seen.clone(), seen)
    })
}
