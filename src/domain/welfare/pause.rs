//! What rests while a stop waits for its answer. Standing arrangements never rest.

use super::catalogue::{Group, Rule};
use super::children::CHILD_HELD_LINE;
use super::equipment::LONG_LINE_WITHOUT_HARNESS;
use super::safety::BOLTED;
use crate::domain::vocabulary::Severity;

/// Which exercises rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pause {
    /// None.
    Nothing,
    /// The one that was practised.
    ThatExercise,
    /// The one that was practised, and those on a trailing line.
    LooseExercises,
    /// The one that was practised, and those on a held long line.
    LongLineExercises,
    /// All of them.
    AllExercises,
}

/// Which exercises rest while this finding is open. Only a stop pauses anything. Illness, and teeth or growls that
/// need a person's answer, rest them all; running off rests what is done on a trailing line; a long
/// line on a collar rests what is done on the long line; the rest, a child on the line among it, is about one exercise.
/// Common practice.
pub fn pause(rule: &Rule, severity: Severity) -> Pause {
    match (severity, rule.group) {
        (Severity::Notice | Severity::Caution, _) => Pause::Nothing,
        (Severity::Stop, _) if rule.id == BOLTED.id => Pause::LooseExercises,
        (Severity::Stop, _) if rule.id == LONG_LINE_WITHOUT_HARNESS.id => Pause::LongLineExercises,
        (Severity::Stop, _) if rule.id == CHILD_HELD_LINE.id => Pause::ThatExercise,
        (Severity::Stop, Group::Health | Group::Safety | Group::Distress) => Pause::AllExercises,
        (Severity::Stop, _) => Pause::ThatExercise,
    }
}

#[cfg(test)]
mod tests {
    use super::super::rule;
    use super::*;

    fn rests(id: &str, severity: Severity) -> Pause {
        pause(rule(id).expect("a rule of the catalogue"), severity)
    }

    #[test]
    fn only_a_stop_pauses() {
        assert_eq!(rests("bite", Severity::Caution), Pause::Nothing);
        assert_eq!(rests("bite", Severity::Stop), Pause::AllExercises);
    }

    #[test]
    fn a_stop_pauses_no_more_than_it_is_about() {
        assert_eq!(rests("long_line_without_harness", Severity::Stop), Pause::LongLineExercises);
        assert_eq!(rests("bolted", Severity::Stop), Pause::LooseExercises);
        assert_eq!(rests("child_held_line", Severity::Stop), Pause::ThatExercise);
        assert_eq!(rests("road_near", Severity::Stop), Pause::ThatExercise);
        assert_eq!(rests("guarding", Severity::Stop), Pause::AllExercises);
        assert_eq!(rests("vet_now", Severity::Stop), Pause::AllExercises);
        assert_eq!(rests("heat_illness", Severity::Stop), Pause::AllExercises);
    }
}
