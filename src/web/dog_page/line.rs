//! How one exercise of the current plan stands, as a trainer reads it.

use crate::domain::dates::counted;
use crate::domain::figure::Figure;
use crate::domain::readiness::{CERTAINTY, SOURCE, Verdict, wilson};
use crate::domain::vocabulary::Outcome;
use crate::ids::PlanItemId;
use crate::store::plan::PlanItem;
use crate::store::readiness::Kept;

/// One exercise.
pub struct LineView {
    /// The item of the current plan.
    pub item: PlanItemId,
    /// The exercise's name.
    pub name: String,
    /// "Step 3 of 6: …".
    pub step: String,
    /// "11 of 14, likely 52–92 %, on 3 days", or that nothing is counted.
    pub counts: String,
    /// The verdict in a sentence.
    pub verdict: String,
    /// The kind of mark beside it.
    pub kind: &'static str,
    /// The word beside the mark.
    pub word: &'static str,
    /// The figures behind it.
    pub why: Vec<Figure>,
    /// Where the figures come from.
    pub source: &'static str,
    /// How sure we are of them.
    pub certainty: &'static str,
    /// Whether it waits for a decision.
    pub waiting: bool,
    /// Whether it is counted at all.
    pub counted: bool,
}

impl LineView {
    /// An item and what its stream says. While a stop is open on the dog, nothing advises a harder step.
    pub fn of(item: &PlanItem, kept: &[Kept], stop_open: bool) -> Self {
        let found = kept.iter().find(|k| k.line == item.line_id && Some(k.step) == item.step);
        let state = found.map(|k| k.state).unwrap_or_default();
        let verdict = state.verdict(item.class);
        let counts = match wilson(state.met, state.attempts) {
            Some(interval) => format!(
                "{} of {} met, likely {:.0}–{:.0} %, on {}",
                state.met,
                state.attempts,
                interval.low * 100.0,
                interval.high * 100.0,
                counted(state.days.into(), "day", "days"),
            ),
            None => "Nothing counted at this step yet".to_owned(),
        };
        let held = stop_open && matches!(verdict, Verdict::LikelyReady | Verdict::NeedsTrainerSeen);
        let (kind, word) = match verdict {
            _ if held => ("stop", "On hold"),
            Verdict::LikelyReady => ("advice", "Likely ready"),
            Verdict::NeedsTrainerSeen => ("advice", "Have a look"),
            Verdict::Stuck => ("caution", "Stuck"),
            Verdict::Relapse => ("caution", "Slipping"),
            Verdict::NeedsAnotherDay | Verdict::Gathering { .. } => ("notice", "Gathering"),
        };
        let step = match item.step_position {
            Some(n) => format!("Step {n} of {}: {}", item.steps_total, item.step_name),
            None => item.step_name.clone(),
        };
        Self {
            item: item.id,
            name: item.name.clone(),
            step,
            counts,
            verdict: match held {
                true => "The counts are there, but a stop is open. Answer it before anything gets harder."
                    .to_owned(),
                false => verdict.for_trainer(),
            },
            kind,
            word,
            why: state.figures(item.class).in_words(),
            source: SOURCE,
            certainty: CERTAINTY,
            waiting: found.is_some_and(|k| k.waiting) && !held,
            counted: item.outcome == Outcome::Count && item.step.is_some(),
        }
    }
}
