//! The stream of sittings at one line and step, folded into one small state.

use time::Date;

use super::decline::Decline;
use super::limit::limit;
use super::place::PlaceMatch;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Outcome, SkillClass};

/// What readiness reads of one sitting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CountedSitting {
    /// The day, where the dog was.
    pub local_date: Date,
    /// Attempts.
    pub attempts: i16,
    /// Attempts that met the criterion.
    pub met: i16,
    /// A trainer saw it.
    pub trainer_seen: bool,
    /// How the place compares with the planned one.
    pub place: PlaceMatch,
}

impl CountedSitting {
    /// What readiness reads of a sitting; `None` unless it yields a count and both numbers are stated. Fear
    /// work is never counted: a miss there is harm.
    pub fn from_sitting(sitting: &Sitting) -> Option<Self> {
        if sitting.outcome.is_some_and(|outcome| outcome != Outcome::Count) {
            return None;
        }
        let (attempts, met) = sitting.counted()?;
        Some(Self {
            local_date: sitting.local_date,
            attempts,
            met,
            trainer_seen: sitting.trainer_seen,
            place: PlaceMatch::compare(sitting.planned.distraction, sitting.place_distraction, sitting.busy),
        })
    }
}

/// Where one line and step stands. Default is an empty stream.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Readiness {
    /// The chart's score at the end of the last counted sitting, 0 to the limit.
    pub score: f64,
    /// Attempts counted.
    pub attempts: i32,
    /// Attempts counted that met the criterion.
    pub met: i32,
    /// Sittings counted.
    pub sittings: i32,
    /// Different local days of counted sittings.
    pub days: i32,
    /// First counted day.
    pub first_day: Option<Date>,
    /// Last counted day.
    pub last_day: Option<Date>,
    /// Counted sittings that a trainer saw.
    pub trainer_seen: i32,
    /// Sittings that are shown but not counted: an easier place, or none stated.
    pub shown_only: i32,
    /// The day on which the score reached the limit, for as long as it stands there.
    pub signalled_on: Option<Date>,
    /// The watch for decline, where a trainer's "move on" led to this step.
    pub decline: Option<Decline>,
}

impl Readiness {
    /// An empty stream at a step to which a trainer's "move on" led: watched for decline.
    pub fn after_moving_on() -> Self {
        Self { decline: Some(Decline::default()), ..Self::default() }
    }

    /// This stream with one more sitting at its end.
    ///
    /// Typed counts have no order, so the met come first and the misses last: zero is a barrier, and misses first
    /// would flatter. The score is judged at the end of the sitting, and what exceeds the limit is not banked:
    /// otherwise a long good run would hide a later decline.
    #[must_use]
    pub fn advance(&self, sitting: &CountedSitting, class: SkillClass) -> Self {
        if sitting.place != PlaceMatch::AsHard {
            return Self { shown_only: self.shown_only + 1, ..*self };
        }
        let chart = class.parameters();
        let limit = limit(class);
        let missed = sitting.attempts - sitting.met;
        let score = self.score
            + f64::from(sitting.met) * chart.weight_met()
            + f64::from(missed) * chart.weight_missed();
        let score = score.clamp(0.0, limit);
        let day = sitting.local_date;
        Self {
            score,
            attempts: self.attempts + i32::from(sitting.attempts),
            met: self.met + i32::from(sitting.met),
            sittings: self.sittings + 1,
            days: self.days + i32::from(self.last_day != Some(day)),
            first_day: self.first_day.or(Some(day)),
            last_day: Some(day),
            trainer_seen: self.trainer_seen + i32::from(sitting.trainer_seen),
            shown_only: self.shown_only,
            signalled_on: if score < limit { None } else { self.signalled_on.or(Some(day)) },
            decline: self.decline.map(|watch| watch.advance(sitting, class)),
        }
    }

    /// This stream with these sittings at its end, oldest first.
    #[must_use]
    pub fn replay<'a>(
        self,
        sittings: impl IntoIterator<Item = &'a CountedSitting>,
        class: SkillClass,
    ) -> Self {
        sittings.into_iter().fold(self, |state, sitting| state.advance(sitting, class))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use time::macros::date;

    fn sitting(day: i64, met: i16, attempts: i16) -> CountedSitting {
        CountedSitting {
            local_date: date!(2025 - 03 - 01) + time::Duration::days(day),
            attempts,
            met,
            trainer_seen: false,
            place: PlaceMatch::AsHard,
        }
    }

    fn ordinary(sittings: &[CountedSitting]) -> Readiness {
        Readiness::default().replay(sittings, SkillClass::Ordinary)
    }

    /// The path of sixteen attempts, one a sitting, computed from the published recursion (Biau & Porcher 2010).
    #[test]
    fn the_score_follows_the_worked_path() {
        let expected = [
            0.2877, 0.5754, 0.0, 0.2877, 0.5754, 0.8630, 1.1507, 1.4384, 0.7453, 1.0329, 1.3206, 1.6083,
            1.8960, 2.1837, 2.4714, 2.7590,
        ];
        let mut state = Readiness::default();
        for (attempt, expected) in "SSFSSSSSFSSSSSSS".chars().zip(expected) {
            state = state.advance(&sitting(0, i16::from(attempt == 'S'), 1), SkillClass::Ordinary);
            assert!((state.score - expected).abs() < 5e-5, "{} is not {expected}", state.score);
        }
    }

    #[test]
    fn only_a_step_that_was_moved_on_to_is_watched() {
        let bad = [sitting(0, 3, 10), sitting(1, 3, 10)];
        let watched = Readiness::after_moving_on().replay(&bad, SkillClass::Ordinary);
        assert!(watched.decline.is_some_and(|watch| watch.relapsed_on == Some(date!(2025 - 03 - 01))));
        assert_eq!(ordinary(&bad).decline, None);
        let easier = CountedSitting { place: PlaceMatch::Easier, ..sitting(0, 0, 20) };
        let shown = Readiness::after_moving_on().advance(&easier, SkillClass::Ordinary);
        assert_eq!(shown.decline, Some(Decline::default()), "an easier place is shown, not counted");
    }

    #[test]
    fn ten_straight_signal_and_nine_do_not() {
        assert_eq!(ordinary(&[sitting(0, 9, 9)]).signalled_on, None);
        assert_eq!(ordinary(&[sitting(0, 10, 10)]).signalled_on, Some(date!(2025 - 03 - 01)));
    }

    #[test]
    fn a_good_run_is_not_banked_against_a_later_decline() {
        let after = ordinary(&[sitting(0, 60, 60), sitting(1, 4, 10)]);
        assert!(after.score < 1.0);
        assert_eq!(after.signalled_on, None);
    }

    #[test]
    fn eight_of_ten_keeps_a_signal_and_seven_of_ten_does_not() {
        let first = sitting(0, 10, 10);
        assert!(ordinary(&[first, sitting(1, 8, 10)]).signalled_on.is_some());
        assert!(ordinary(&[first, sitting(1, 7, 10)]).signalled_on.is_none());
    }

    #[test]
    fn misses_come_last_so_that_a_bad_sitting_leaves_nothing() {
        let after = ordinary(&[sitting(0, 5, 10)]);
        assert!(after.score.abs() < 1e-12);
        assert_eq!((after.attempts, after.met, after.sittings), (10, 5, 1));
    }

    #[test]
    fn an_easier_place_is_shown_and_not_counted() {
        let easier = CountedSitting { place: PlaceMatch::Easier, trainer_seen: true, ..sitting(0, 20, 20) };
        let after = ordinary(&[easier]);
        assert_eq!(after, Readiness { shown_only: 1, ..Readiness::default() });
    }

    #[test]
    fn two_sittings_on_one_day_are_one_day() {
        let after = ordinary(&[sitting(0, 5, 5), sitting(0, 5, 5), sitting(2, 5, 5)]);
        assert_eq!((after.sittings, after.days), (3, 2));
        assert_eq!(
            (after.first_day, after.last_day),
            (Some(date!(2025 - 03 - 01)), Some(date!(2025 - 03 - 03)))
        );
    }

    #[test]
    fn fear_work_and_half_counted_sittings_yield_nothing() {
        let mut facts = Sitting::on(date!(2025 - 03 - 01));
        facts.met = Some(4);
        assert_eq!(CountedSitting::from_sitting(&facts), None);
        facts.attempts = Some(5);
        assert!(CountedSitting::from_sitting(&facts).is_some());
        facts.outcome = Some(Outcome::Distance);
        assert_eq!(CountedSitting::from_sitting(&facts), None);
    }

    fn sittings() -> impl Strategy<Value = Vec<CountedSitting>> {
        let one = (0_i64..3, 1_i16..=30, 0.0_f64..=1.0, any::<bool>());
        prop::collection::vec(one, 0..12).prop_map(|steps| {
            let mut day = 0;
            let build = |(gap, attempts, share, seen): (i64, i16, f64, bool)| {
                day += gap;
                let met = (f64::from(attempts) * share) as i16;
                CountedSitting { trainer_seen: seen, ..sitting(day, met, attempts) }
            };
            steps.into_iter().map(build).collect()
        })
    }

    proptest! {
        #[test]
        fn the_score_stays_between_zero_and_the_limit(sittings in sittings()) {
            for class in [SkillClass::Ordinary, SkillClass::Safety] {
                let state = Readiness::default().replay(&sittings, class);
                prop_assert!((0.0..=limit(class)).contains(&state.score));
                prop_assert_eq!(state.signalled_on.is_some(), state.score >= limit(class));
            }
        }

        #[test]
        fn one_more_met_never_lowers_the_score(sittings in sittings(), which in any::<prop::sample::Index>()) {
            prop_assume!(!sittings.is_empty());
            let mut better = sittings.clone();
            let chosen = which.index(better.len());
            better[chosen].met = (better[chosen].met + 1).min(better[chosen].attempts);
            prop_assert!(ordinary(&better).score >= ordinary(&sittings).score - 1e-12);
        }

        #[test]
        fn step_by_step_equals_replay(sittings in sittings(), cut in any::<prop::sample::Index>()) {
            let cut = cut.index(sittings.len() + 1);
            let stepped = sittings[cut..].iter().fold(ordinary(&sittings[..cut]), |state, sitting| {
                state.advance(sitting, SkillClass::Ordinary)
            });
            prop_assert_eq!(stepped, ordinary(&sittings));
        }
    }
}
