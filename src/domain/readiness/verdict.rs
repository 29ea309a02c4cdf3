//! What the counts say, in words.

use super::limit::limit;
use super::stream::Readiness;
use crate::domain::vocabulary::{Choice, SkillClass};

/// What the counts say. "Likely ready", never "ready"; counts alone never advise off lead, muzzle off, or nearer
/// a child.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Too little to say.
    Gathering {
        /// Attempts that would have to be met in a row, at the fewest.
        fewest_more_good: u32,
    },
    /// The limit is reached, on enough days.
    LikelyReady,
    /// The limit is reached, but no trainer has seen it.
    NeedsTrainerSeen,
    /// The limit is reached, all on one day.
    NeedsAnotherDay,
    /// Twice the horizon without reaching the limit.
    Stuck,
    /// After moving on, more misses than a dog makes that is ready: back to the last step at which the counts were there.
    Relapse,
}

/// What changes the words of a verdict though not the verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Standing {
    /// More attempts were counted than the horizon for which the error rate is promised.
    pub past_horizon: bool,
    /// The exercise has no harder step.
    pub last_step: bool,
}

impl Readiness {
    /// How the stream stands beside its verdict.
    pub fn standing(&self, class: SkillClass, last_step: bool) -> Standing {
        let horizon = i64::from(class.parameters().horizon.attempts());
        Standing { past_horizon: i64::from(self.attempts) > horizon, last_step }
    }

    /// What the counts say so far.
    pub fn verdict(&self, class: SkillClass) -> Verdict {
        let chart = class.parameters();
        if self.decline.is_some_and(|watch| watch.relapsed_on.is_some()) {
            return Verdict::Relapse;
        }
        if self.signalled_on.is_some() {
            return if self.days < chart.days {
                Verdict::NeedsAnotherDay
            } else if chart.trainer_seen && self.trainer_seen == 0 {
                Verdict::NeedsTrainerSeen
            } else {
                Verdict::LikelyReady
            };
        }
        if i64::from(self.attempts) >= 2 * i64::from(chart.horizon.attempts()) {
            return Verdict::Stuck;
        }
        Verdict::Gathering { fewest_more_good: self.fewest_more_good(class) }
    }

    /// What the counts say to trainers, in a sentence or two.
    pub fn for_trainer(&self, class: SkillClass, last_step: bool) -> String {
        self.verdict(class).for_trainer(self.standing(class, last_step))
    }

    /// Attempts that would have to be met in a row, at the fewest, to reach the limit; none when it is reached.
    pub fn fewest_more_good(&self, class: SkillClass) -> u32 {
        let missing = (limit(class) - self.score) / class.parameters().weight_met();
        missing.ceil() as u32
    }
}

impl Verdict {
    /// The advice that goes with it. A trainer decides.
    pub fn advice(self) -> Choice {
        match self {
            Self::LikelyReady => Choice::MoveOn,
            Self::Gathering { .. } | Self::NeedsTrainerSeen | Self::NeedsAnotherDay => Choice::Repeat,
            Self::Stuck | Self::Relapse => Choice::MakeEasier,
        }
    }

    /// Whether the counts now wait for a trainer.
    pub fn waits_for_trainer(self) -> bool {
        matches!(self, Self::LikelyReady | Self::NeedsTrainerSeen | Self::Stuck | Self::Relapse)
    }

    /// The word beside it, for trainers. Past the horizon a false signal is likelier than was promised, so the word is softer.
    pub fn word(self, standing: Standing) -> &'static str {
        match self {
            Self::LikelyReady if standing.past_horizon => "Perhaps ready",
            Self::LikelyReady => "Likely ready",
            Self::NeedsTrainerSeen => "Have a look",
            Self::Stuck => "Stuck",
            Self::Relapse => "Slipping",
            Self::NeedsAnotherDay | Self::Gathering { .. } => "Gathering",
        }
    }

    /// What it says to trainers, in a sentence or two.
    pub fn for_trainer(self, standing: Standing) -> String {
        match self {
            Self::Gathering { fewest_more_good } => format!(
                "Too early to say: at the fewest, {fewest_more_good} more met in a row would be enough."
            ),
            Self::LikelyReady => {
                let word = self.word(standing);
                let what = match standing.last_step {
                    false => format!("{word} for a harder step, by the counts."),
                    true => format!(
                        "{word}, by the counts, and this is the last step: new places come next, or keeping it up."
                    ),
                };
                let late = match standing.past_horizon {
                    true => " It took more attempts than the figures were set for, so chance had longer to help.",
                    false => "",
                };
                format!("{what}{late} What you have seen decides.")
            }
            Self::NeedsTrainerSeen => {
                "The counts are there. A safety skill also needs one sitting that a trainer has seen."
                    .to_owned()
            }
            Self::NeedsAnotherDay => {
                "The counts are there, but all from one day. Look again after another day.".to_owned()
            }
            Self::Stuck => {
                "Stuck: many attempts and still no clear answer. Make it easier, or look at it in a lesson."
                    .to_owned()
            }
            Self::Relapse => {
                "Slipping since you moved on: more misses than a dog makes that is ready. Think of pain, tiredness or a \
                 harder place first, then go back to the last step at which the counts were there."
                    .to_owned()
            }
        }
    }

    /// One sentence for owners.
    pub fn for_owner(self) -> String {
        match self {
            Self::Gathering { .. } => "Stay with this step for now. Every sitting helps.",
            Self::LikelyReady => "This is going well. Your trainer will look at what comes next.",
            Self::NeedsTrainerSeen => {
                "This is going well. Your trainer would like to see it once before the next step."
            }
            Self::NeedsAnotherDay => "Lovely work today. Do the same once more on another day.",
            Self::Stuck => {
                "You have put a lot into this step. Your trainer will look at how to make it easier."
            }
            Self::Relapse => {
                "The last few were harder than before. Your trainer will look at going back to what worked. If your dog \
                 seems stiff or sore, tell your vet."
            }
        }
        .to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::super::{CountedSitting, PlaceMatch};
    use super::*;
    use time::Duration;
    use time::macros::date;

    fn verdict(class: SkillClass, sittings: &[(i64, i16, i16, bool)]) -> Verdict {
        let sittings: Vec<_> = sittings
            .iter()
            .map(|&(day, met, attempts, trainer_seen)| CountedSitting {
                local_date: date!(2025 - 03 - 01) + Duration::days(day),
                attempts,
                met,
                trainer_seen,
                place: PlaceMatch::AsHard,
            })
            .collect();
        Readiness::default().replay(&sittings, class).verdict(class)
    }

    #[test]
    fn an_empty_stream_needs_ten_straight_or_twenty_three() {
        assert_eq!(verdict(SkillClass::Ordinary, &[]), Verdict::Gathering { fewest_more_good: 10 });
        assert_eq!(verdict(SkillClass::Safety, &[]), Verdict::Gathering { fewest_more_good: 23 });
    }

    #[test]
    fn ten_straight_on_one_day_wait_for_another() {
        assert_eq!(verdict(SkillClass::Ordinary, &[(0, 10, 10, false)]), Verdict::NeedsAnotherDay);
        let two_days = [(0, 5, 5, false), (1, 5, 5, false)];
        assert_eq!(verdict(SkillClass::Ordinary, &two_days), Verdict::LikelyReady);
    }

    #[test]
    fn a_safety_skill_waits_for_a_trainers_eye() {
        assert_eq!(
            verdict(SkillClass::Safety, &[(0, 12, 12, false), (1, 12, 12, false)]),
            Verdict::NeedsTrainerSeen
        );
        assert_eq!(
            verdict(SkillClass::Safety, &[(0, 12, 12, false), (1, 12, 12, true)]),
            Verdict::LikelyReady
        );
    }

    #[test]
    fn a_hundred_attempts_without_an_answer_are_stuck() {
        let sittings: Vec<_> = (0..10).map(|day| (day, 6, 10, false)).collect();
        assert!(matches!(verdict(SkillClass::Ordinary, &sittings[..9]), Verdict::Gathering { .. }));
        assert_eq!(verdict(SkillClass::Ordinary, &sittings), Verdict::Stuck);
    }

    #[test]
    fn a_relapse_comes_before_everything_else() {
        let bad = |day| CountedSitting {
            local_date: date!(2025 - 03 - 01) + Duration::days(day),
            attempts: 10,
            met: 5,
            trainer_seen: true,
            place: PlaceMatch::AsHard,
        };
        let sittings: Vec<_> = (0..10).map(bad).collect();
        let class = SkillClass::Ordinary;
        let verdict = Readiness::after_moving_on().replay(&sittings, class).verdict(class);
        assert_eq!(verdict, Verdict::Relapse, "and not stuck");
        assert_eq!((verdict.advice(), verdict.waits_for_trainer()), (Choice::MakeEasier, true));
    }

    #[test]
    fn past_the_horizon_and_at_the_top_the_words_change() {
        let says =
            |past_horizon, last_step| Verdict::LikelyReady.for_trainer(Standing { past_horizon, last_step });
        assert!(says(false, false).starts_with("Likely ready for a harder step"));
        assert!(
            says(true, false).starts_with("Perhaps ready for a harder step")
                && says(true, false).contains("chance")
        );
        assert!(says(false, true).contains("this is the last step") && !says(false, true).contains("harder"));
        let met =
            |attempts| Readiness { attempts, ..Readiness::default() }.standing(SkillClass::Ordinary, false);
        assert!(!met(50).past_horizon && met(51).past_horizon);
    }

    #[test]
    fn owners_read_no_statistics() {
        for verdict in [
            Verdict::Gathering { fewest_more_good: 3 },
            Verdict::LikelyReady,
            Verdict::NeedsTrainerSeen,
            Verdict::NeedsAnotherDay,
            Verdict::Stuck,
            Verdict::Relapse,
        ] {
            let said = verdict.for_owner().to_lowercase();
            for word in ["limit", "count", "stuck", "chance", "fail", "miss", "ready"] {
                assert!(!said.contains(word), "{said}");
            }
        }
    }
}
