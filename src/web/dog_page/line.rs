//! How one exercise of the current plan stands, as a trainer reads it.

use crate::domain::dates::counted;
use crate::domain::figure::Figure;
use crate::domain::outcomes::OutcomeAdvice;
use crate::domain::readiness::{CERTAINTY, SOURCE, Verdict, wilson};
use crate::domain::vocabulary::{Choice, Outcome, Word};
use crate::domain::welfare::{Pause, pause};
use crate::ids::PlanItemId;
use crate::store::plan::PlanItem;
use crate::store::readiness::Kept;
use crate::web::flags::Open;

/// One exercise.
pub struct LineView {
    /// The item of the current plan.
    pub item: PlanItemId,
    /// The exercise's name.
    pub name: String,
    /// "Step 3 of 6: …".
    pub step: String,
    /// Whether it can be decided on: it has a step.
    pub has_step: bool,
    /// What its sittings say; `None` where nothing was measured yet, or nothing is ever.
    pub said: Option<Said>,
    /// Whether it waits for a decision.
    pub waiting: bool,
    /// What the sittings advise, where one press can change the draft to it.
    pub advised: Option<Choice>,
}

/// What the sittings of one exercise say.
pub struct Said {
    /// The kind of mark beside it.
    pub kind: &'static str,
    /// The word beside the mark.
    pub word: &'static str,
    /// "11 of 14, likely 52–92 %, on 3 days"; empty where nothing is counted.
    pub counts: String,
    /// The verdict in a sentence.
    pub verdict: String,
    /// The figures behind it.
    pub why: Vec<Figure>,
    /// Where they come from and how sure we are, a paragraph each.
    pub sources: Vec<&'static str>,
}

const HELD: &str = "The counts are there, but a stop is open. Answer it before anything gets harder.";
const HELD_ALL: &str = "A stop is open. Answer it before this goes on.";
const HELD_MEASURES: &str = "It looks easy, but a stop is open. Answer it before anything gets harder.";

/// The stops that are open on a dog.
#[derive(Debug, Clone, Copy)]
pub struct Stops {
    /// Whether there is one.
    stop_open: bool,
    /// Whether every exercise rests until it is answered.
    all_rest: bool,
}

impl Stops {
    /// What these open stops hold.
    pub fn of(stops: &[Open]) -> Self {
        let rests = |open: &Open| {
            let flag = &open.found.first;
            pause(flag.rule, flag.severity) == Pause::AllExercises
        };
        Self { stop_open: !stops.is_empty(), all_rest: stops.iter().any(rests) }
    }
}

impl Said {
    /// The same while every exercise rests: the figures stand, the advice waits.
    fn held(self) -> Self {
        Self { kind: "stop", word: "On hold", verdict: HELD_ALL.to_owned(), ..self }
    }
}

impl LineView {
    /// A mark of what the sittings advise: another one where that has changed.
    pub fn stamp(&self) -> String {
        let counts = self.said.as_ref().map_or("", |said| said.counts.as_str());
        format!("{}|{counts}", self.advised.map_or("", Word::stored))
    }

    /// An item, what its stream says, and what its measures say. While a stop is open on the dog, nothing advises a harder
    /// step; while everything rests, nothing advises anything.
    pub fn of(item: &PlanItem, kept: &[Kept], measures: Option<OutcomeAdvice>, stops: Stops) -> Self {
        let Stops { stop_open, all_rest } = stops;
        let found = kept.iter().find(|k| k.line == item.line_id && Some(k.step) == item.step);
        let is_counted = item.outcome == Outcome::Count && item.step.is_some();
        let verdict = found.map(|kept| kept.state).unwrap_or_default().verdict(item.class);
        let held = stop_open && matches!(verdict, Verdict::LikelyReady | Verdict::NeedsTrainerSeen);
        let advised = match (is_counted, verdict) {
            (true, Verdict::LikelyReady) if !item.is_last_step() => Some(Choice::MoveOn),
            (true, Verdict::Relapse) => Some(Choice::MakeEasier),
            (true, _) => None,
            (false, _) => {
                measures.as_ref().map(|advice| advice.choice).filter(|choice| *choice != Choice::Repeat)
            }
        };
        let harder = stop_open && advised == Some(Choice::MoveOn);
        let advised = advised.filter(|_| item.step.is_some() && !all_rest && !harder);
        let said = match is_counted {
            true => Some(counted_says(item, found, held)),
            false => measures.map(|advice| measures_say(advice, stop_open)),
        };
        Self {
            advised,
            item: item.id,
            name: item.name.clone(),
            step: match item.step_position {
                Some(n) => format!("Step {n} of {}: {}", item.steps_total, item.step_name),
                None => item.step_name.clone(),
            },
            has_step: item.step.is_some(),
            said: said.map(|said| if all_rest { said.held() } else { said }),
            waiting: found.is_some_and(|k| k.waiting) && !held,
        }
    }
}

fn counted_says(item: &PlanItem, found: Option<&Kept>, held: bool) -> Said {
    let state = found.map(|kept| kept.state).unwrap_or_default();
    let verdict = state.verdict(item.class);
    let standing = state.standing(item.class, item.is_last_step());
    let kind = match verdict {
        _ if held => "stop",
        Verdict::LikelyReady | Verdict::NeedsTrainerSeen => "advice",
        Verdict::Stuck | Verdict::Relapse => "caution",
        Verdict::NeedsAnotherDay | Verdict::Gathering { .. } => "notice",
    };
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
    Said {
        kind,
        word: if held { "On hold" } else { verdict.word(standing) },
        counts,
        verdict: if held { HELD.to_owned() } else { verdict.for_trainer(standing) },
        why: state.figures(item.class).in_words(),
        sources: vec![CERTAINTY, SOURCE],
    }
}

fn measures_say(advice: OutcomeAdvice, stop_open: bool) -> Said {
    let (kind, word, verdict) = match advice.choice {
        Choice::MoveOn if stop_open => ("stop", "On hold", HELD_MEASURES.to_owned()),
        Choice::MoveOn => ("advice", advice.word, advice.for_trainer),
        Choice::MakeEasier => ("caution", advice.word, advice.for_trainer),
        Choice::Repeat => ("notice", advice.word, advice.for_trainer),
    };
    Said { kind, word, counts: String::new(), verdict, why: advice.figures, sources: vec![advice.source] }
}
