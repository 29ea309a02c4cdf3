//! The limit of the chart, from the exact chance of a false signal.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::class::Parameters;
use crate::domain::vocabulary::SkillClass;

/// Step of the grid on which a limit is sought.
const GRID: f64 = 0.05;
/// Points of that grid: limits to 10.
const POINTS: u32 = 200;
/// Attempts to which the chance of a false signal is kept.
const KEPT: usize = 500;
/// Slack for sums of logarithms that are equal on paper.
const SLACK: f64 = 1e-9;
/// Chances too small to carry along.
const NEGLIGIBLE: f64 = 1e-16;

/// The exact distribution of the score over attempts that miss with a fixed chance, without those that have
/// signalled. Scores are lattice sums, so equal ones are merged after rounding to 1e-9.
struct Recursion {
    chart: Parameters,
    limit: f64,
    miss: f64,
    mass: BTreeMap<i64, f64>,
}

impl Recursion {
    fn new(chart: Parameters, limit: f64, miss: f64) -> Self {
        Self { chart, limit, miss, mass: BTreeMap::from([(0, 1.0)]) }
    }

    /// One attempt further: the chance that this very attempt signals for the first time.
    fn advance(&mut self) -> f64 {
        let mut next = BTreeMap::new();
        let mut signalled = 0.0;
        for (key, mass) in std::mem::take(&mut self.mass) {
            for (met, chance) in [(true, 1.0 - self.miss), (false, self.miss)] {
                let mass = mass * chance;
                let score = self.chart.step(key as f64 * SLACK, met);
                if score >= self.limit - SLACK {
                    signalled += mass;
                } else if mass > NEGLIGIBLE {
                    *next.entry((score / SLACK).round() as i64).or_insert(0.0) += mass;
                }
            }
        }
        self.mass = next;
        signalled
    }
}

/// The chance of a signal within `attempts`, for a dog that misses with chance `miss`.
fn chance_of_signal(chart: Parameters, limit: f64, miss: f64, attempts: u32) -> f64 {
    let mut recursion = Recursion::new(chart, limit, miss);
    (0..attempts).map(|_| recursion.advance()).sum()
}

/// The smallest limit on the grid whose chance of a false "move on" within the horizon is small enough.
fn smallest_limit(chart: Parameters) -> f64 {
    let too_low = |point: u32| {
        let limit = f64::from(point) * GRID;
        chance_of_signal(chart, limit, chart.not_ready_misses, chart.horizon) > chart.false_move_on
    };
    // The chance falls as the limit rises, so halving finds the first point that is high enough.
    let (mut low, mut high) = (1, POINTS);
    while low < high {
        let middle = low.midpoint(high);
        if too_low(middle) { low = middle + 1 } else { high = middle }
    }
    f64::from(low) * GRID
}

/// A class's limit and its chance of a false signal after 0, 1, 2 … attempts.
struct Computed {
    limit: f64,
    chances: Vec<f64>,
}

fn computed(class: SkillClass) -> &'static Computed {
    static ORDINARY: OnceLock<Computed> = OnceLock::new();
    static SAFETY: OnceLock<Computed> = OnceLock::new();
    let cell = match class {
        SkillClass::Ordinary => &ORDINARY,
        SkillClass::Safety => &SAFETY,
    };
    cell.get_or_init(|| {
        let chart = class.parameters();
        let limit = smallest_limit(chart);
        let mut recursion = Recursion::new(chart, limit, chart.not_ready_misses);
        let mut chances = vec![0.0];
        let mut sum = 0.0;
        for _ in 0..KEPT {
            sum += recursion.advance();
            chances.push(sum);
        }
        Computed { limit, chances }
    })
}

/// The limit at which a class counts as likely ready. Computed once.
pub fn limit(class: SkillClass) -> f64 {
    computed(class).limit
}

/// The exact chance that a dog which is not ready would have signalled within so many attempts. Beyond 500
/// attempts the chance at 500 stands, and is a lower bound.
pub fn chance_of_false_move_on(class: SkillClass, attempts: u32) -> f64 {
    let chances = &computed(class).chances;
    chances[usize::try_from(attempts).unwrap_or(KEPT).min(KEPT)]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chart(ready: f64, not_ready: f64) -> Parameters {
        Parameters { ready_misses: ready, not_ready_misses: not_ready, ..SkillClass::Ordinary.parameters() }
    }

    fn close(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() < within, "{found} is not {expected}");
    }

    /// Mean attempts to the signal, summed until almost nothing survives.
    fn run_length(chart: Parameters, limit: f64, miss: f64) -> f64 {
        let mut recursion = Recursion::new(chart, limit, miss);
        let (mut alive, mut sum) = (1.0, 0.0);
        while alive > 1e-10 {
            sum += alive;
            alive -= recursion.advance();
        }
        sum
    }

    /// False and true discovery within N, by exact forward recursion (method: Brook & Evans 1972,
    /// Biometrika 59:539–549; figures computed independently).
    #[test]
    fn chances_of_a_signal_agree_with_the_exact_recursion() {
        let ours = chart(0.20, 0.40);
        close(chance_of_signal(ours, 3.25, 0.40, 30), 0.047394, 1e-5);
        close(chance_of_signal(ours, 3.25, 0.20, 30), 0.650013, 1e-5);
        close(chance_of_signal(ours, 1.25, 0.40, 30), 0.7064, 1e-4);
        close(chance_of_signal(ours, 1.25, 0.40, 50), 0.8835, 1e-4);
        close(chance_of_signal(ours, 1.25, 0.20, 30), 0.9923, 1e-4);
        close(chance_of_signal(ours, 2.00, 0.40, 30), 0.325680, 1e-5);
        close(chance_of_signal(ours, 2.00, 0.20, 30), 0.926002, 1e-5);
        close(chance_of_signal(ours, 2.50, 0.40, 30), 0.1485, 1e-4);
        close(chance_of_signal(ours, 2.50, 0.20, 30), 0.8273, 1e-4);
        close(chance_of_signal(ours, 4.70, 0.40, 100), 0.0482, 1e-4);
        close(chance_of_signal(ours, 4.70, 0.20, 100), 0.9709, 1e-4);
        let biau = chart(0.10, 0.20);
        close(chance_of_signal(biau, 1.25, 0.20, 79), 0.8339, 1e-4);
        close(chance_of_signal(biau, 1.25, 0.20, 100), 0.902572, 1e-5);
        close(chance_of_signal(biau, 1.25, 0.10, 100), 0.999602, 1e-5);
    }

    #[test]
    fn run_lengths_agree_with_the_exact_recursion() {
        let ours = chart(0.20, 0.40);
        close(run_length(ours, 2.00, 0.40), 67.063, 1e-3);
        close(run_length(ours, 2.00, 0.20), 15.529, 1e-3);
        close(run_length(ours, 1.25, 0.40), 25.633, 1e-3);
        close(run_length(ours, 1.25, 0.20), 9.318, 1e-3);
    }

    #[test]
    fn limits_are_ten_straight_and_twenty_three_straight() {
        close(limit(SkillClass::Ordinary), 2.80, 1e-12);
        close(limit(SkillClass::Safety), 3.95, 1e-12);
        for (class, straight) in [(SkillClass::Ordinary, 10.0), (SkillClass::Safety, 23.0)] {
            let needed = (limit(class) / class.parameters().weight_met()).ceil();
            close(needed, straight, 1e-12);
        }
    }

    #[test]
    fn a_limit_keeps_its_promise_and_the_one_below_breaks_it() {
        for class in [SkillClass::Ordinary, SkillClass::Safety] {
            let chart = class.parameters();
            let at = |limit| chance_of_signal(chart, limit, chart.not_ready_misses, chart.horizon);
            assert!(at(limit(class)) <= chart.false_move_on);
            assert!(at(limit(class) - GRID) > chart.false_move_on);
            close(at(limit(class)), chance_of_false_move_on(class, chart.horizon), 1e-12);
        }
    }

    #[test]
    fn the_chance_falls_as_the_limit_rises() {
        let ours = SkillClass::Ordinary.parameters();
        let chances: Vec<f64> =
            (1..80).map(|point| chance_of_signal(ours, f64::from(point) * GRID, 0.40, 50)).collect();
        assert!(chances.windows(2).all(|pair| pair[0] >= pair[1] - 1e-12));
    }
}
