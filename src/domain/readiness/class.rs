//! How sure to be, for each class of skill.

use super::horizon::Horizon;
use super::recursion::Chart;
use crate::domain::vocabulary::SkillClass;

/// What the chart of one class tells apart, and how often it may be wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameters {
    /// Share of misses of a dog that is ready (p0).
    pub ready_misses: f64,
    /// Share of misses of a dog that is not ready (p1).
    pub not_ready_misses: f64,
    /// Attempts within which the error is bounded (N).
    pub horizon: Horizon,
    /// Greatest chance of a false "move on" within the horizon (alpha).
    pub false_move_on: f64,
    /// Attempts that must lie, on average and at the fewest, between false alarms of the watch for decline.
    pub between_false_alarms: u32,
    /// Different local days that are needed.
    pub days: i32,
    /// Whether a trainer must have seen a sitting.
    pub trainer_seen: bool,
}

impl SkillClass {
    /// The chart's parameters. The shares of misses are common practice (80 % right before raising criteria, as
    /// in Meyer & Ladewig 2008, Appl Anim Behav Sci 111:311–320); the error rates are our own choice.
    pub fn parameters(self) -> Parameters {
        match self {
            Self::Ordinary => Parameters {
                ready_misses: 0.20,
                not_ready_misses: 0.40,
                horizon: Horizon::of::<50>(),
                false_move_on: 0.20,
                between_false_alarms: 200,
                days: 2,
                trainer_seen: false,
            },
            Self::Safety => Parameters {
                ready_misses: 0.05,
                not_ready_misses: 0.20,
                horizon: Horizon::of::<50>(),
                false_move_on: 0.05,
                between_false_alarms: 200,
                days: 2,
                trainer_seen: true,
            },
        }
    }
}

impl Parameters {
    /// The chart of these weights with a limit.
    pub(super) fn chart(&self, limit: f64) -> Chart {
        Chart::new(self.weight_met(), self.weight_missed(), limit)
    }

    /// What one attempt that met the criterion adds to the score.
    pub fn weight_met(&self) -> f64 {
        ((1.0 - self.ready_misses) / (1.0 - self.not_ready_misses)).ln()
    }

    /// What one miss adds to the score: a negative number.
    pub fn weight_missed(&self) -> f64 {
        (self.ready_misses / self.not_ready_misses).ln()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::LN_2;

    fn chart(ready: f64, not_ready: f64) -> Parameters {
        Parameters { ready_misses: ready, not_ready_misses: not_ready, ..SkillClass::Ordinary.parameters() }
    }

    /// Weights of published pairs: Papanna et al. 2011 (.18/.30), Dessolle et al. 2010 (.60/.80),
    /// Verhaeghe et al. 2021 (.40/.55), and our own (.20/.40).
    #[test]
    fn weights_of_published_pairs() {
        for (ready, not_ready, met, missed) in [
            (0.10, 0.20, 0.117783, -LN_2),
            (0.20, 0.40, 0.287682, -LN_2),
            (0.20, 0.30, 0.133531, -0.405465),
            (0.18, 0.30, 0.158224, -0.510826),
            (0.60, 0.80, LN_2, -0.287682),
            (0.40, 0.55, 0.287682, -0.318454),
        ] {
            let chart = chart(ready, not_ready);
            assert!((chart.weight_met() - met).abs() < 1e-6, "{ready} {not_ready}");
            assert!((chart.weight_missed() - missed).abs() < 1e-6, "{ready} {not_ready}");
        }
    }

    /// Wald's sequential plan from the same weights (Wald 1945, Ann Math Stat 16:117–186): with P = ln(p1/p0) and
    /// Q = ln((1 − p0)/(1 − p1)), the lines are −h0 + s n and h1 + s n. Rows: the example of the NIST handbook 6.2.6 (from
    /// memory), Kestin 1995 twice (rates read there), an example in Wald's style (from memory); figures computed from the formula.
    #[test]
    fn weights_give_walds_sequential_plan() {
        for (ready, not_ready, alpha, beta, expected) in [
            (0.01, 0.10, 0.05, 0.10, [0.93886, 1.20538, 0.03975]),
            (0.10, 0.20, 0.10, 0.10, [2.70951, 2.70951, 0.14524]),
            (0.05, 0.10, 0.10, 0.10, [2.94055, 2.94055, 0.07236]),
            (0.10, 0.30, 0.02, 0.03, [2.58263, 2.87539, 0.18617]),
        ] {
            let (alpha, beta): (f64, f64) = (alpha, beta);
            let chart = chart(ready, not_ready);
            let (p, q) = (-chart.weight_missed(), chart.weight_met());
            let (h0, h1) = (((1.0 - alpha) / beta).ln() / (p + q), ((1.0 - beta) / alpha).ln() / (p + q));
            for (found, expected) in [h0, h1, q / (p + q)].into_iter().zip(expected) {
                assert!((found - expected).abs() < 1e-5, "{ready} {not_ready}: {found} is not {expected}");
            }
        }
    }
}
