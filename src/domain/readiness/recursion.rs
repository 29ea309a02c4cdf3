//! The exact run of a chart over attempts that miss with a fixed chance: how likely it signals, and how soon.
//!
//! The method is that of Brook & Evans 1972, Biometrika 59:539–549, with the chart's own reachable scores for states, so that
//! nothing is cut into intervals: on a chart of two weights a grid of intervals jumps about the true value.

/// Scores are whole numbers of this, so that scores which are equal on paper are equal here.
const UNIT: f64 = 1e-9;
/// Units by which a score may fall short of the limit and still be at it: what rounding the weights can add up to.
const SLACK: i64 = 500;
/// Share of what is still running that is too small to carry along.
const NEGLIGIBLE: f64 = 1e-16;
/// A ratio that changes by less from attempt to attempt has settled.
const SETTLED: f64 = 1e-13;
/// Attempts after which a run is over for certain, as far as anyone would wait.
const LONGEST_RUN: u32 = 100_000;

/// A chart: what each attempt adds to its score, and the limit at which it signals. Zero is a barrier.
#[derive(Debug, Clone, Copy)]
pub(super) struct Chart {
    met: i64,
    missed: i64,
    limit: i64,
}

impl Chart {
    /// A chart of these weights; one of them is negative.
    pub(super) fn new(met: f64, missed: f64, limit: f64) -> Self {
        let units = |x: f64| (x / UNIT).round() as i64;
        Self { met: units(met), missed: units(missed), limit: units(limit) - SLACK }
    }

    /// The chance of a signal within so many attempts, each of which misses with chance `miss`.
    pub(super) fn chance_of_signal(self, miss: f64, attempts: u32) -> f64 {
        let mut run = Run::new(self, miss);
        (0..attempts).map(|_| run.attempt()).sum()
    }

    /// The chances of a signal within 0, 1, 2 … `attempts`.
    pub(super) fn chances_of_signal(self, miss: f64, attempts: usize) -> Vec<f64> {
        let mut run = Run::new(self, miss);
        let mut sum = 0.0;
        let later = (0..attempts).map(|_| {
            sum += run.attempt();
            sum
        });
        std::iter::once(0.0).chain(later).collect()
    }

    /// Mean attempts to the signal (ARL). What still runs dies away by a ratio that soon settles; the rest of the sum is
    /// then a geometric series.
    pub(super) fn run_length(self, miss: f64) -> f64 {
        let mut run = Run::new(self, miss);
        let (mut sum, mut before, mut ratio) = (0.0, 1.0, 0.0);
        let mut settled = 0;
        for _ in 0..LONGEST_RUN {
            sum += before;
            run.attempt();
            let after = run.alive();
            let now = after / before;
            // a ratio of one is that of the first attempts, after which no run can have ended yet
            settled = if now < 1.0 - SETTLED && (now - ratio).abs() < SETTLED { settled + 1 } else { 0 };
            (before, ratio) = (after, now);
            if before < SETTLED {
                return sum;
            }
            if settled == 5 {
                return sum + before / (1.0 - ratio);
            }
        }
        sum
    }
}

/// A run under way: the chances of all scores that have not signalled, by rising score.
struct Run {
    chart: Chart,
    miss: f64,
    scores: Vec<(i64, f64)>,
    next: Vec<(i64, f64)>,
}

impl Run {
    fn new(chart: Chart, miss: f64) -> Self {
        Self { chart, miss, scores: vec![(0, 1.0)], next: Vec::new() }
    }

    /// The chance that nothing has signalled yet.
    fn alive(&self) -> f64 {
        self.scores.iter().map(|(_, chance)| chance).sum()
    }

    /// One attempt further: the chance that this very attempt signals for the first time. Both kinds of attempt keep the
    /// order of the scores, so that merging two ordered lists gives the next one.
    fn attempt(&mut self) -> f64 {
        let least = NEGLIGIBLE * self.alive();
        let after = |add: i64, share: f64| {
            self.scores.iter().map(move |(score, chance)| ((score + add).max(0), chance * share))
        };
        let mut met = after(self.chart.met, 1.0 - self.miss).peekable();
        let mut missed = after(self.chart.missed, self.miss).peekable();
        let mut signalled = 0.0;
        self.next.clear();
        loop {
            let first_met = match (met.peek(), missed.peek()) {
                (Some(a), Some(b)) => a.0 <= b.0,
                (Some(_), None) => true,
                (None, _) => false,
            };
            let Some((score, chance)) = (if first_met { met.next() } else { missed.next() }) else { break };
            if score >= self.chart.limit {
                signalled += chance;
                continue;
            }
            match self.next.last_mut() {
                Some(last) if last.0 == score => last.1 += chance,
                _ if chance > least => self.next.push((score, chance)),
                _ => {}
            }
        }
        std::mem::swap(&mut self.scores, &mut self.next);
        signalled
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() < within, "{found} is not {expected}");
    }

    /// Charts whose weights are whole numbers, where Brook & Evans' matrix is exact (computed independently by solving it).
    #[test]
    fn run_lengths_of_whole_weights_are_exact() {
        for (met, missed, limit, miss, expected) in [
            (1.0, -2.0, 5.0, 0.4, 24.835391),
            (1.0, -2.0, 5.0, 0.2, 9.165039),
            (1.0, -2.0, 5.0, 0.1, 6.537283),
            (1.0, -1.0, 5.0, 0.5, 30.0),
            (1.0, -3.0, 5.0, 0.4, 28.539095),
            (1.0, -3.0, 5.0, 0.2, 9.946289),
            (1.0, -3.0, 5.0, 0.1, 6.811631),
            (-1.0, 9.0, 20.0, 0.05, 304.051379),
            (-1.0, 9.0, 20.0, 0.1, 61.637436),
            (-1.0, 9.0, 20.0, 0.2, 18.599342),
        ] {
            close(Chart::new(met, missed, limit).run_length(miss), expected, 1e-6);
        }
    }

    /// `r` in a row: mean attempts (p^−r − 1) / (1 − p), Feller (formula from memory).
    #[test]
    fn a_chart_that_one_miss_empties_counts_straight_runs() {
        for (p, r, expected) in [(0.8, 3, 4.765625), (0.8, 5, 10.258789), (0.8, 8, 24.802322), (0.5, 3, 14.0)]
        {
            let formula = (f64::powi(p, -r) - 1.0) / (1.0 - p);
            let found = Chart::new(1.0, -f64::from(r), r.into()).run_length(1.0 - p);
            close(found, formula, 1e-6);
            close(found, expected, 1e-6);
        }
    }

    /// Log-likelihood weights that rise on misses, p0 .2, p1 .4, h 2.5 (computed by exact recursion, and by simulation:
    /// 161.8 ± 0.8 and 19.04 ± 0.07).
    #[test]
    fn run_lengths_of_the_rising_chart() {
        let chart = Chart::new(f64::ln(0.6 / 0.8), f64::ln(2.0), 2.5);
        close(chart.run_length(0.2), 162.459, 0.01);
        close(chart.run_length(0.4), 19.118, 0.01);
    }

    #[test]
    fn chances_add_up_attempt_by_attempt() {
        let chart = Chart::new(1.0, -2.0, 3.0);
        let chances = chart.chances_of_signal(0.2, 30);
        close(chances[2], 0.0, 1e-15);
        close(chances[3], 0.512, 1e-12);
        close(chances[30], chart.chance_of_signal(0.2, 30), 1e-15);
    }
}
