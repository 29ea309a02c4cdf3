//! The share of a day's need that was paid as extras, day by day.
//!
//! A day is known where everything that was paid on it can be counted and the dog had been weighed by then. What is not known
//! is left out and said, never drawn as nothing.

use std::collections::BTreeMap;

use time::Date;

use super::Charted;
use crate::domain::dog::DogFacts;
use crate::domain::food::earned::{Paid, Source, earned};
use crate::domain::food::energy::{EnergyFacts, daily_need};
use crate::domain::food::share::percent;

/// A day whose extras are known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FoodDay {
    /// The day.
    pub on: Date,
    /// Energy of the extras, kcal.
    pub kcal: f64,
    /// Their share of the day's need: at the high end of the need, at its point, at its low end.
    pub share: [f64; 3],
}

/// The days on which something was practised.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FoodDays {
    /// The known ones, oldest first.
    pub known: Vec<FoodDay>,
    /// Days on which what was paid could not be counted.
    pub uncounted: usize,
    /// Days before the first weighing.
    pub unweighed: usize,
}

/// The days of some sittings.
pub fn food_days(sittings: &[&Charted], dog: &DogFacts) -> FoodDays {
    let mut by_day: BTreeMap<Date, Vec<Paid>> = BTreeMap::new();
    for one in sittings.iter().filter(|one| one.is_exercise) {
        by_day.entry(one.sitting.local_date).or_default().push(one.paid.clone());
    }
    let mut days = FoodDays::default();
    for (on, paid) in by_day {
        let earned = earned(&paid);
        if !earned.not_counted.is_empty() {
            days.uncounted += 1;
            continue;
        }
        let Some(need) = daily_need(&EnergyFacts::of(dog, on)) else {
            days.unweighed += 1;
            continue;
        };
        // an empty sum is a negative zero
        let kcal = earned.sources.iter().map(Source::kcal).fold(0.0, |sum, kcal| sum + kcal);
        let share = [need.energy.high(), need.energy.point(), need.energy.low()].map(|need| kcal / need);
        days.known.push(FoodDay { on, kcal, share });
    }
    days
}

impl FoodDays {
    /// What they say beside a ceiling.
    pub fn says(&self, ceiling: f64) -> String {
        let over = self.known.iter().filter(|day| day.share[1] > ceiling).count();
        let highest = self.known.iter().map(|day| day.share[1]).fold(0.0, f64::max);
        let highest = match percent(highest, ceiling) {
            words if words.starts_with("under") => words,
            words => format!("about {words}"),
        };
        match self.known.len() {
            0 => String::new(),
            1 => format!("The only day that is known: {highest} of its need."),
            n => format!(
                "Over {} on {over} of {n} days that are known; the highest is {highest}.",
                percent(ceiling, ceiling)
            ),
        }
    }

    /// Which days are left out, and why; nothing where none is.
    pub fn left_out(&self) -> Option<String> {
        let because = |days: usize, why: &str| (days > 0).then(|| format!("{days} because {why}"));
        let parts: Vec<String> = [
            because(self.uncounted, "what was paid is not stated in full (pieces, grams or energy)"),
            because(self.unweighed, "there was no weight yet"),
        ]
        .into_iter()
        .flatten()
        .collect();
        (!parts.is_empty())
            .then(|| format!("Days of practice that are not known are left out: {}.", parts.join(", ")))
    }
}
