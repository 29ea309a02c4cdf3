//! What the rules say of a plan before it is published, and how much it asks.

use crate::domain::dates::counted;
use crate::domain::vocabulary::{Severity, Word};
use crate::domain::welfare::Finding;
use crate::store::plan::PlanItem;

/// A finding as its card reads it.
pub struct Check {
    /// Severity: the kind of mark.
    pub severity: &'static str,
    /// The rule's heading.
    pub title: &'static str,
    /// What was seen.
    pub seen: String,
    /// What to do, first things first.
    pub act: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// Where that comes from.
    pub source: &'static str,
    /// The rule, as the guide names it.
    pub rule: &'static str,
    /// The line that it concerns, if it is one.
    pub line: Option<String>,
}

/// What the rules found in these items, the worst first.
pub fn of(findings: Vec<Finding>, items: &[PlanItem]) -> Vec<Check> {
    findings.into_iter().map(|finding| check(finding, items)).collect()
}

fn check(finding: Finding, items: &[PlanItem]) -> Check {
    Check {
        severity: finding.severity.stored(),
        title: finding.rule.title,
        seen: finding.seen,
        act: finding.rule.trainer_do,
        why: finding.rule.why,
        source: finding.rule.source,
        rule: finding.rule.id,
        line: finding.item.and_then(|index| items.get(index)).map(|item| item.line_id.to_string()),
    }
}

/// Whether one of them is a stop.
pub fn any_stop(checks: &[Check]) -> bool {
    checks.iter().any(|check| check.severity == Severity::Stop.stored())
}

/// How much a plan asks of a household in a week.
pub struct Load {
    /// Instructions.
    pub instructions: usize,
    /// Sittings a week.
    pub sittings: i32,
    /// Minutes a week, of the sittings whose minutes are stated.
    pub minutes: i32,
    /// Sittings a week whose minutes are not stated.
    pub unstated: i32,
}

impl Load {
    /// The load of a plan.
    pub fn of(items: &[PlanItem]) -> Self {
        let mut load = Self { instructions: items.len(), sittings: 0, minutes: 0, unstated: 0 };
        for item in items {
            let times = i32::from(item.times_a_week.unwrap_or(0));
            load.sittings += times;
            match item.minutes {
                Some(minutes) => {
                    load.minutes += times * (i32::from(minutes) + i32::from(item.cool_down_minutes))
                }
                None => load.unstated += times,
            }
        }
        load
    }

    /// The minutes in words, cool-down counted in; says what is left out.
    pub fn minutes_words(&self) -> String {
        match (self.sittings, self.unstated) {
            (0, _) => "No sittings".to_owned(),
            (all, open) if all == open => "Not stated".to_owned(),
            (_, 0) => counted(self.minutes.into(), "minute", "minutes"),
            (_, open) => format!(
                "{}, and {} of unstated length",
                counted(self.minutes.into(), "minute", "minutes"),
                counted(open.into(), "sitting", "sittings")
            ),
        }
    }
}
