//! Equipment: a held long line belongs on a harness.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Rule};
use super::{LogContext, PlanContext};
use crate::domain::vocabulary::{Clip, Line, Severity, Word};

const SOURCE: &str = "Carter, Roshier & McNally 2020, Vet Rec 187(7):e52: all seven collars and one slip lead under a \
    modelled lead pull pressed on the neck with 83–832 kPa, none of it judged low enough. Eye pressure rises with a \
    collar and not with a harness: Pauli et al. 2006, JAAHA 42:207–211. Long line on a back-clip harness: common \
    practice.";

/// A held long line was clipped to something other than a harness.
pub static LONG_LINE_WITHOUT_HARNESS: Rule = Rule {
    id: "long_line_without_harness",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::Log,
    title: "Long line without a harness",
    owner_title: "Clip the long line to the harness",
    raises: "A held long line and no harness stated: caution. On a collar, head collar, slip lead, choke or prong: \
             stop. A trailing line is no fault. What was assumed as planned counts as the plan says.",
    why: "A dog that reaches the end of a long line at speed is stopped by its neck when the line is on a collar.",
    trainer_do: "Ask first whether the dog hit the end, and about cough, breathing, neck and eyes; any of them: a vet today. \
                 Rest this exercise. Fit a harness with the owner, line on the back ring, and see one sitting on it \
                 before the line work goes on. Write the clip into the plan.",
    owner_do: "If your dog hit the end hard on a collar, look now. Hard or noisy breathing, collapse, wobbling, a swollen neck: \
               ring your vet now. Coughing, gagging, a changed voice, a sore or stiff neck, a red or half-shut eye: ring your \
               vet today, even if it has passed. Then leave the long line at home until a well-fitting harness is on, and \
               clip it to the ring on the back. Meanwhile use a short lead, in quiet places.",
    owner_why: "When a running dog comes to the end of a long line, the whole jerk goes where the line clips. A harness \
                spreads it over the chest and spares the neck.",
    source: SOURCE,
    certainty: Certainty::Verified,
    parameters: &[],
};

/// A plan asks for a held long line on something other than a harness.
pub static PLANNED_LONG_LINE_ON_COLLAR: Rule = Rule {
    id: "planned_long_line_on_collar",
    version: 1,
    group: Group::Equipment,
    looks_at: LooksAt::Plan,
    title: "Long line planned without a harness",
    owner_title: "Before you use the long line",
    raises: "A held long line with no clip said: caution. On a collar, head collar, slip lead, choke or prong: stop.",
    why: "A dog that reaches the end of a long line at speed is stopped by its neck when the line is on a collar.",
    trainer_do: "Choose the back ring of a harness for the long line, or plan a short lead until a harness fits.",
    owner_do: "Wait with the long line until a well-fitting harness is on. Meanwhile use a short lead, in quiet places.",
    owner_why: "A harness spreads the jerk of the line over the chest and spares the neck.",
    source: SOURCE,
    certainty: Certainty::Verified,
    parameters: &[],
};

/// How bad a clip is for a held long line: `None` for a harness.
fn severity(clip: Option<Clip>) -> Option<Severity> {
    match clip {
        Some(Clip::HarnessBack | Clip::HarnessFront) => None,
        Some(Clip::Collar | Clip::HeadCollar | Clip::SlipOrChoke | Clip::Prong) => Some(Severity::Stop),
        None => Some(Severity::Caution),
    }
}

pub(super) fn long_line_without_harness(context: &LogContext<'_>) -> Option<Finding> {
    let (line, clip) = context.sitting.equipment_in_use();
    let severity = severity(clip).filter(|_| line == Some(Line::LongLine))?;
    let name = &context.dog.name;
    let (seen, owner_seen) = match clip {
        Some(clip) => {
            let clip = clip.label().to_lowercase();
            (
                format!("{name} worked on a held long line clipped to the {clip}."),
                format!("The long line was clipped to {name}'s {}, not to a harness.", owner_clip(&clip)),
            )
        }
        None => (
            format!("{name} worked on a held long line; where it clipped was not stated."),
            format!("{name} was on the long line, and we do not know where it clipped."),
        ),
    };
    let how = context.sitting.equipment.filter(|_| clip.is_some());
    Some(
        Finding::new(&LONG_LINE_WITHOUT_HARNESS, severity, seen, owner_seen)
            .fact("Line", Line::LongLine)
            .fact("Clipped to", clip.map_or("Not stated", |clip| clip.label()))
            .fact_if("Known because", how),
    )
}

/// The clip as owners say it.
fn owner_clip(label: &str) -> String {
    label.strip_suffix(" or choke chain").unwrap_or(label).to_owned()
}

pub(super) fn planned_long_line_on_collar(context: &PlanContext<'_>) -> Vec<Finding> {
    let long = context.plan.items.iter().enumerate().filter(|(_, item)| item.line == Some(Line::LongLine));
    long.filter_map(|(index, item)| {
        let title = &item.title;
        let seen = match item.clip {
            Some(clip) => {
                let clip = clip.label().to_lowercase();
                format!("“{title}” asks for a held long line clipped to the {clip}.")
            }
            None => format!("“{title}” asks for a held long line and does not say where it clips."),
        };
        let owner_seen = format!("“{title}” uses the long line without a harness.");
        let finding = Finding::new(&PLANNED_LONG_LINE_ON_COLLAR, severity(item.clip)?, seen, owner_seen);
        Some(Finding { item: Some(index), ..finding })
    })
    .collect()
}
