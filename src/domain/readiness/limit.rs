//! The limit of the chart, from the exact chance of a false signal.

use std::sync::OnceLock;

use super::class::Parameters;
use crate::domain::vocabulary::SkillClass;

/// Step of the grid on which a limit is sought.
const GRID: f64 = 0.05;
/// Points of that grid: limits to 10.
const POINTS: u32 = 200;
/// Attempts to which chances are kept.
const KEPT: usize = 500;

/// The first point of the grid that is high enough, by halving: `is_too_low` holds up to some point and not beyond.
pub(super) fn first_on_grid(is_too_low: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (1, POINTS);
    while low < high {
        let middle = low.midpoint(high);
        if is_too_low(f64::from(middle) * GRID) { low = middle + 1 } else { high = middle }
    }
    f64::from(low) * GRID
}

/// The smallest limit on a grid of 0.05 whose exact chance of a false "move on" within the horizon is at most the
/// parameters' (h). The chance falls as the limit rises.
pub fn smallest_limit(parameters: &Parameters) -> f64 {
    let attempts = parameters.horizon.attempts();
    first_on_grid(|limit| {
        let chart = parameters.chart(limit);
        chart.chance_of_signal(parameters.not_ready_misses, attempts) > parameters.false_move_on
    })
}

/// A class's limit, and the chances of a signal after 0, 1, 2 … attempts.
struct Computed {
    limit: f64,
    /// Of a dog that is not ready.
    not_ready: Vec<f64>,
    /// Of a dog that is ready.
    ready: Vec<f64>,
}

fn computed(class: SkillClass) -> &'static Computed {
    static ORDINARY: OnceLock<Computed> = OnceLock::new();
    static SAFETY: OnceLock<Computed> = OnceLock::new();
    let cell = match class {
        SkillClass::Ordinary => &ORDINARY,
        SkillClass::Safety => &SAFETY,
    };
    cell.get_or_init(|| {
        let parameters = class.parameters();
        let limit = smallest_limit(&parameters);
        let chances = |miss| parameters.chart(limit).chances_of_signal(miss, KEPT);
        let (not_ready, ready) = (chances(parameters.not_ready_misses), chances(parameters.ready_misses));
        Computed { limit, not_ready, ready }
    })
}

fn within(chances: &[f64], attempts: u32) -> f64 {
    chances[usize::try_from(attempts).unwrap_or(KEPT).min(KEPT)]
}

/// The limit at which a class counts as likely ready (h). Computed once.
pub fn limit(class: SkillClass) -> f64 {
    computed(class).limit
}

/// The exact chance that a dog which is not ready would have signalled within so many attempts. Beyond 500
/// attempts the chance at 500 stands, and is a lower bound.
pub fn chance_of_false_move_on(class: SkillClass, attempts: u32) -> f64 {
    within(&computed(class).not_ready, attempts)
}

/// The exact chance that a dog which is ready would have signalled within so many attempts (the power). Beyond 500
/// attempts the chance at 500 stands, and is a lower bound.
pub fn chance_of_true_move_on(class: SkillClass, attempts: u32) -> f64 {
    within(&computed(class).ready, attempts)
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

    fn chance_of_signal(chart: Parameters, limit: f64, miss: f64, attempts: u32) -> f64 {
        chart.chart(limit).chance_of_signal(miss, attempts)
    }

    fn run_length(chart: Parameters, limit: f64, miss: f64) -> f64 {
        chart.chart(limit).run_length(miss)
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
        close(run_length(ours, 2.50, 0.40), 136.550, 1e-3);
        close(run_length(ours, 2.50, 0.20), 21.224, 1e-3);
        close(run_length(ours, 3.50, 0.40), 422.711, 1e-3);
        close(run_length(ours, 3.50, 0.20), 31.704, 1e-3);
        close(run_length(ours, 1.25, 0.40), 25.633, 1e-3);
        close(run_length(ours, 1.25, 0.20), 9.318, 1e-3);
        let biau = chart(0.10, 0.20);
        close(run_length(biau, 1.25, 0.20), 48.204, 1e-3);
        close(run_length(biau, 1.25, 0.10), 20.333, 1e-3);
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
            let at = |limit| chance_of_signal(chart, limit, chart.not_ready_misses, chart.horizon.attempts());
            assert!(at(limit(class)) <= chart.false_move_on);
            assert!(at(limit(class) - GRID) > chart.false_move_on);
            close(at(limit(class)), chance_of_false_move_on(class, chart.horizon.attempts()), 1e-12);
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
