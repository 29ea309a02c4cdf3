//! The figures behind a verdict, for those who ask "Why?".

use super::decline::{Decline, decline_figures};
use super::limit::{chance_of_false_move_on, chance_of_true_move_on, limit};
use super::stream::Readiness;
use super::wilson::{Interval, wilson};
use crate::domain::dates::counted;
use crate::domain::figure::Figure;
use crate::domain::vocabulary::SkillClass;

/// Where the charts come from.
pub const SOURCE: &str = "Learning-curve CUSUM: Biau, Williams, Schlup, Nizard & Porcher 2008, Br J Surg 95:925–929; Biau & \
    Porcher 2010, Stat Med 29:1900–1909. Watch for decline: Page 1954, Biometrika 41:100–115. Chances and run lengths: \
    exact recursion after Brook & Evans 1972, Biometrika 59:539–549. Interval: Wilson 1927; Newcombe 1998, Stat Med 17:857–872.";

/// How sure we are of them.
pub const CERTAINTY: &str = "The methods are published. What counts as ready and not ready is common practice, near Meyer & \
    Ladewig 2008 (up a step at 80 % right); how often the advice may be wrong is our own choice. The \
    chances hold where each attempt is judged; judged at the end of sittings, misses last, both are smaller.";

/// The figures behind a verdict.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// The class by whose chart they were found.
    pub class: SkillClass,
    /// The score at the end of the last counted sitting.
    pub score: f64,
    /// The limit at which the counts speak (h).
    pub limit: f64,
    /// Attempts within which the error rate is promised (N).
    pub horizon: u32,
    /// Attempts counted.
    pub attempts: i32,
    /// Of these, how many met the criterion.
    pub met: i32,
    /// The 95 % Wilson interval of the share met.
    pub interval: Option<Interval>,
    /// Attempts at which the chances below hold: the horizon, or the actual count once that is past it.
    pub within: u32,
    /// The exact chance that a dog which is not ready would have reached the limit within so many attempts.
    pub chance_of_false_move_on: f64,
    /// The exact chance that a dog which is ready would have reached the limit within so many attempts (the power).
    pub chance_of_true_move_on: f64,
    /// Attempts that would have to be met in a row, at the fewest.
    pub fewest_more_good: u32,
    /// Sittings that are shown but not counted.
    pub shown_only: i32,
    /// The watch for decline, where there is one.
    pub decline: Option<Decline>,
}

impl Readiness {
    /// The figures behind the verdict.
    pub fn figures(&self, class: SkillClass) -> Figures {
        let horizon = class.parameters().horizon.attempts();
        let within = u32::try_from(self.attempts).unwrap_or(0).max(horizon);
        Figures {
            class,
            score: self.score,
            limit: limit(class),
            horizon,
            attempts: self.attempts,
            met: self.met,
            interval: wilson(self.met, self.attempts),
            within,
            chance_of_false_move_on: chance_of_false_move_on(class, within),
            chance_of_true_move_on: chance_of_true_move_on(class, within),
            fewest_more_good: self.fewest_more_good(class),
            shown_only: self.shown_only,
            decline: self.decline,
        }
    }
}

impl Figures {
    /// Every figure in words, for trainers; [`SOURCE`] and [`CERTAINTY`] stand beneath.
    pub fn in_words(&self) -> Vec<Figure> {
        let parameters = self.class.parameters();
        let mut found = vec![
            Figure { what: "Counted", value: self.counts() },
            Figure {
                what: "Score",
                value: format!("{:.2}; the counts speak at {:.2} (h)", self.score, self.limit),
            },
            Figure {
                what: "Ready and not ready",
                value: format!(
                    "at most {:.0} % misses, and {:.0} % or more",
                    parameters.ready_misses * 100.0,
                    parameters.not_ready_misses * 100.0
                ),
            },
            Figure {
                what: "Chance of being wrong",
                value: format!(
                    "a dog that is not ready gets this far within {} attempts {:.0} times in 100",
                    self.within,
                    self.chance_of_false_move_on * 100.0
                ),
            },
            Figure {
                what: "Chance of being found ready",
                value: format!(
                    "a dog that is ready gets this far within {} attempts {:.0} times in 100",
                    self.within,
                    self.chance_of_true_move_on * 100.0
                ),
            },
            Figure { what: "At the fewest", value: self.fewest() },
        ];
        if self.within > self.horizon {
            let value = format!(
                "the limit was set for {} attempts (N); past them the chances are those of the actual count",
                self.horizon
            );
            found.push(Figure { what: "Past the planned attempts", value });
        }
        if self.shown_only > 0 {
            let sittings = counted(self.shown_only.into(), "sitting", "sittings");
            let value = format!("{sittings} in an easier place, or in one that was not stated");
            found.push(Figure { what: "Shown, not counted", value });
        }
        found.extend(self.decline.map(|watch| self.watch(watch)));
        found
    }

    fn counts(&self) -> String {
        self.interval.map_or_else(
            || "nothing yet".to_owned(),
            |interval| {
                format!(
                    "{} of {} met; the true share is likely between {:.0} % and {:.0} % (95 % Wilson interval)",
                    self.met,
                    self.attempts,
                    interval.low * 100.0,
                    interval.high * 100.0
                )
            },
        )
    }

    fn fewest(&self) -> String {
        match self.fewest_more_good {
            0 => "no more are needed".to_owned(),
            n => format!("{n} more met in a row would reach the limit"),
        }
    }

    fn watch(&self, watch: Decline) -> Figure {
        let figures = decline_figures(self.class);
        let value = format!(
            "{:.2}; it speaks at {:.2}. A dog that stays ready is called back wrongly about once in {:.0} attempts; one that \
             is not ready is noticed after about {:.0}",
            watch.score, figures.limit, figures.between_false_alarms, figures.until_noticed
        );
        Figure { what: "Watch for decline", value }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(state: Readiness) -> String {
        let figures = state.figures(SkillClass::Ordinary).in_words();
        figures.iter().map(|figure| format!("{}: {}\n", figure.what, figure.value)).collect()
    }

    #[test]
    fn past_the_horizon_the_chances_are_those_of_the_actual_count() {
        let early = Readiness { attempts: 12, met: 10, ..Readiness::default() };
        let late = Readiness { attempts: 90, met: 70, ..Readiness::default() };
        assert!(!said(early).contains("Past the planned attempts"));
        assert!(said(late).contains("set for 50 attempts (N)"), "{}", said(late));
        let (early, late) = (early.figures(SkillClass::Ordinary), late.figures(SkillClass::Ordinary));
        assert_eq!((early.within, late.within), (50, 90));
        assert!(early.chance_of_false_move_on <= 0.20 && late.chance_of_false_move_on > 0.20);
        assert!(
            early.chance_of_true_move_on > 0.80 && late.chance_of_true_move_on > early.chance_of_true_move_on
        );
    }

    #[test]
    fn the_words_say_all_of_it() {
        let said =
            said(Readiness { score: 1.4, attempts: 15, met: 12, shown_only: 1, ..Readiness::default() });
        for words in [
            "12 of 15 met; the true share is likely between 55 % and 93 %",
            "1.40; the counts speak at 2.80",
            "at most 20 % misses, and 40 % or more",
            "5 more met in a row",
            "1 sitting in an easier place",
        ] {
            assert!(said.contains(words), "{words} is not in {said}");
        }
        assert!(!said.contains("Watch for decline"));
    }

    #[test]
    fn the_watch_is_shown_once_there_is_one() {
        let said = said(Readiness::after_moving_on());
        assert!(said.contains("Watch for decline: 0.00; it speaks at"), "{said}");
    }
}
