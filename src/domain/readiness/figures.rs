//! The figures behind a verdict, for those who ask "Why?".

use super::limit::{chance_of_false_move_on, limit};
use super::stream::Readiness;
use super::wilson::{Interval, wilson};
use crate::domain::vocabulary::SkillClass;

/// The figures behind a verdict.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// The score at the end of the last counted sitting.
    pub score: f64,
    /// The limit at which the counts speak.
    pub limit: f64,
    /// Attempts counted.
    pub attempts: i32,
    /// Of these, how many met the criterion.
    pub met: i32,
    /// The 95 % Wilson interval of the share met.
    pub interval: Option<Interval>,
    /// Attempts at which the chance below holds: the horizon, or the actual count once that is past it.
    pub within: u32,
    /// The exact chance that a dog which is not ready would have reached the limit within so many attempts.
    pub chance_of_false_move_on: f64,
}

impl Readiness {
    /// The figures behind the verdict.
    pub fn figures(&self, class: SkillClass) -> Figures {
        let within = u32::try_from(self.attempts).unwrap_or(0).max(class.parameters().horizon);
        Figures {
            score: self.score,
            limit: limit(class),
            attempts: self.attempts,
            met: self.met,
            interval: wilson(self.met, self.attempts),
            within,
            chance_of_false_move_on: chance_of_false_move_on(class, within),
        }
    }
}

impl Figures {
    /// One paragraph for trainers, with its source.
    pub fn sentence(&self, class: SkillClass) -> String {
        let chart = class.parameters();
        let share = self.interval.map_or_else(
            || "Nothing is counted yet.".to_owned(),
            |found| {
                format!(
                    "{} of {} met; the true share is likely between {:.0} % and {:.0} % (95 % Wilson interval).",
                    self.met,
                    self.attempts,
                    found.low * 100.0,
                    found.high * 100.0
                )
            },
        );
        format!(
            "{share} Score {:.2} of {:.2}. Ready means at most {:.0} % misses, not ready {:.0} %; a dog that is \
             not ready would get this far within {} attempts with a chance of {:.0} %. Learning-curve CUSUM \
             (Biau & Porcher 2010).",
            self.score,
            self.limit,
            chart.ready_misses * 100.0,
            chart.not_ready_misses * 100.0,
            self.within,
            self.chance_of_false_move_on * 100.0
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn past_the_horizon_the_chance_is_that_of_the_actual_count() {
        let early = Readiness { attempts: 12, met: 10, ..Readiness::default() };
        let late = Readiness { attempts: 90, met: 70, ..Readiness::default() };
        let (early, late) = (early.figures(SkillClass::Ordinary), late.figures(SkillClass::Ordinary));
        assert_eq!((early.within, late.within), (50, 90));
        assert!(early.chance_of_false_move_on <= 0.20);
        assert!(late.chance_of_false_move_on > 0.20);
    }

    #[test]
    fn the_sentence_says_all_of_it() {
        let figures = Readiness { score: 1.4, attempts: 15, met: 12, ..Readiness::default() };
        let said = figures.figures(SkillClass::Ordinary).sentence(SkillClass::Ordinary);
        assert!(said.starts_with("12 of 15 met; the true share is likely between 55 % and 93 %"), "{said}");
        assert!(said.contains("Score 1.40 of 2.80"), "{said}");
    }
}
