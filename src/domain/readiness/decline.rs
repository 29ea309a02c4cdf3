//! Watching for decline after moving on: was the step too soon, does the skill slip?
//!
//! The ordinary CUSUM (Page 1954, Biometrika 41:100–115) on log-likelihood weights: it rises on misses, and its limit is the
//! smallest on the grid that keeps false alarms far enough apart. Learning-curve charts are followed by it once they have
//! signalled (Biau & Porcher 2010).
//!
//! What it watches: the sittings at the step to which a trainer's "move on" led, from that decision on. At the step before,
//! the learning-curve chart itself takes a decline back, because it banks nothing beyond its limit. A harder step costs some
//! misses at first; that is why the limit is set by how rarely it may call back a dog that copes. A relapse advises going back
//! to the last step at which the counts were there.
//!
//! Typed counts have no order. Here the misses come first and the met last, which gives the lowest score that the sitting
//! allows, so that no order that we made up calls a dog back; judged at the end of sittings, false alarms are rarer than
//! the figures say, and decline is noticed a little later.

use std::sync::OnceLock;

use time::Date;

use super::class::Parameters;
use super::limit::first_on_grid;
use super::recursion::Chart;
use super::stream::CountedSitting;
use crate::domain::vocabulary::SkillClass;

/// Where the watch for decline stands. Default is its beginning.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Decline {
    /// The chart's score at the end of the last counted sitting, 0 to its limit.
    pub score: f64,
    /// The day on which the score reached the limit, for as long as it stands there.
    pub relapsed_on: Option<Date>,
}

/// The figures of the watch for decline of one class.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeclineFigures {
    /// The limit at which it says "relapse".
    pub limit: f64,
    /// Mean attempts between false alarms, for a dog that stays ready (in-control run length).
    pub between_false_alarms: f64,
    /// Mean attempts until it says so, for a dog that is not ready (out-of-control run length).
    pub until_noticed: f64,
}

impl Decline {
    /// The watch with one more counted sitting at its end. Scores beyond the limit are not banked, so that good sittings
    /// take a relapse back.
    #[must_use]
    pub(super) fn advance(&self, sitting: &CountedSitting, class: SkillClass) -> Self {
        let parameters = class.parameters();
        let limit = decline_figures(class).limit;
        let missed = sitting.attempts - sitting.met;
        let score = self.score
            - f64::from(missed) * parameters.weight_missed()
            - f64::from(sitting.met) * parameters.weight_met();
        let score = score.clamp(0.0, limit);
        let relapsed_on = if score < limit { None } else { self.relapsed_on.or(Some(sitting.local_date)) };
        Self { score, relapsed_on }
    }
}

impl Parameters {
    /// The rising chart: the weights of the learning-curve chart with the other sign.
    fn decline_chart(&self, limit: f64) -> Chart {
        Chart::new(-self.weight_met(), -self.weight_missed(), limit)
    }

    /// The smallest limit on the grid whose false alarms lie far enough apart, and what it does.
    fn decline_figures(&self) -> DeclineFigures {
        let wanted = f64::from(self.between_false_alarms);
        let limit = first_on_grid(|limit| self.decline_chart(limit).run_length(self.ready_misses) < wanted);
        let chart = self.decline_chart(limit);
        DeclineFigures {
            limit,
            between_false_alarms: chart.run_length(self.ready_misses),
            until_noticed: chart.run_length(self.not_ready_misses),
        }
    }
}

/// The figures of the watch of a class. Computed once.
pub fn decline_figures(class: SkillClass) -> DeclineFigures {
    static ORDINARY: OnceLock<DeclineFigures> = OnceLock::new();
    static SAFETY: OnceLock<DeclineFigures> = OnceLock::new();
    let cell = match class {
        SkillClass::Ordinary => &ORDINARY,
        SkillClass::Safety => &SAFETY,
    };
    *cell.get_or_init(|| class.parameters().decline_figures())
}

#[cfg(test)]
mod tests {
    use super::super::PlaceMatch;
    use super::*;
    use proptest::prelude::*;
    use time::macros::date;

    const DAY: Date = date!(2025 - 03 - 01);

    fn sitting(met: i16, attempts: i16) -> CountedSitting {
        CountedSitting { local_date: DAY, attempts, met, trainer_seen: false, place: PlaceMatch::AsHard }
    }

    fn after(sittings: &[(i16, i16)]) -> Decline {
        let fold = |watch: Decline, &(met, attempts): &(i16, i16)| {
            watch.advance(&sitting(met, attempts), SkillClass::Ordinary)
        };
        sittings.iter().fold(Decline::default(), fold)
    }

    /// The weights of the chart that [`super::super::recursion`] checks: p0 .2, p1 .4, h 2.5 has run lengths of 162.459 and
    /// 19.118.
    #[test]
    fn it_is_the_chart_that_was_checked() {
        let chart = SkillClass::Ordinary.parameters().decline_chart(2.5);
        assert!((chart.run_length(0.2) - 162.459).abs() < 0.01);
        assert!((chart.run_length(0.4) - 19.118).abs() < 0.01);
    }

    #[test]
    fn the_limit_keeps_its_promise_and_the_one_below_breaks_it() {
        for class in [SkillClass::Ordinary, SkillClass::Safety] {
            let parameters = class.parameters();
            let figures = decline_figures(class);
            let below = parameters.decline_chart(figures.limit - 0.05).run_length(parameters.ready_misses);
            assert!(figures.between_false_alarms >= 200.0, "{figures:?}");
            assert!(below < 200.0, "{below}");
            assert!(figures.until_noticed < 25.0, "{figures:?}");
        }
    }

    #[test]
    fn a_dog_that_copes_is_left_alone_and_one_that_slips_is_noticed() {
        assert_eq!(after(&[(8, 10); 20]).relapsed_on, None);
        assert_eq!(after(&[(6, 10), (6, 10)]).relapsed_on, None);
        assert_eq!(after(&[(6, 10), (6, 10), (6, 10)]).relapsed_on, Some(DAY));
    }

    #[test]
    fn one_sitting_alone_calls_back_only_when_it_went_badly() {
        assert_eq!(after(&[(5, 10)]).relapsed_on, None);
        assert_eq!(after(&[(4, 10)]).relapsed_on, Some(DAY));
    }

    #[test]
    fn good_sittings_take_a_relapse_back() {
        assert_eq!(after(&[(4, 10), (4, 10), (10, 10)]).relapsed_on, None);
    }

    proptest! {
        #[test]
        fn one_more_met_never_raises_the_score(
            sittings in prop::collection::vec((1_i16..=30, 0.0_f64..=1.0), 1..12),
            which in any::<prop::sample::Index>(),
        ) {
            let mut sittings: Vec<(i16, i16)> =
                sittings.into_iter().map(|(n, share)| ((f64::from(n) * share) as i16, n)).collect();
            let before = after(&sittings);
            prop_assert!((0.0..=decline_figures(SkillClass::Ordinary).limit).contains(&before.score));
            let chosen = which.index(sittings.len());
            sittings[chosen].0 = (sittings[chosen].0 + 1).min(sittings[chosen].1);
            prop_assert!(after(&sittings).score <= before.score + 1e-12);
        }
    }
}
