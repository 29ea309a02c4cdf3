//! The week: what a plan asks for, laid over the days that an owner has and tied to their habits.
//!
//! The whole week, Sunday at rest, is laid out first; days that the owner lacks then give their sittings to other days, and
//! everything else stays. So losing one day moves that day's sittings and, where arousing work needs its distance, as few
//! others as will do. The first day that is lacking is the rest day.
//!
//! At most three sittings a day, one of them arousing or running, a day between such, one day in seven free of all: common
//! practice. What could not be satisfied is said.

mod calm;
mod energetic;
mod unmet;

use super::vocabulary::{DayOfWeek, Word};
pub use unmet::Unmet;

/// Days in a week; Monday is 0.
pub const DAYS: usize = 7;
/// The most sittings in a day. Common practice.
pub const MOST_A_DAY: usize = 3;
/// The rest day of an owner who has all seven.
const SUNDAY: usize = 6;

/// One exercise, as far as the week asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asked {
    /// Sittings a week.
    pub times_a_week: i16,
    /// Minutes of one, where stated.
    pub minutes: Option<i16>,
    /// Whether it winds a dog up or makes it run.
    pub energetic: bool,
}

impl Asked {
    fn times(&self) -> usize {
        usize::try_from(self.times_a_week).unwrap_or(0)
    }
}

/// What a sitting is tied to, so that it is not forgotten.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Habit {
    /// Calm work.
    AfterBreakfastWalk,
    /// Arousing or running work, away from meals.
    AfternoonWalk,
    /// Calm work.
    BeforeEveningMeal,
}

impl Habit {
    /// In words.
    pub fn in_words(self) -> &'static str {
        match self {
            Self::AfterBreakfastWalk => "after the breakfast walk",
            Self::AfternoonWalk => "on the afternoon walk, well away from meals",
            Self::BeforeEveningMeal => "before the evening meal",
        }
    }
}

/// One sitting in the week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placed {
    /// Which of what was asked for.
    pub asked: usize,
    /// The day; Monday is 0.
    pub day: usize,
    /// What it is tied to.
    pub habit: Habit,
    /// Minutes at most.
    pub minutes: i16,
}

/// A week laid out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Week {
    /// The sittings, by day and time of day.
    pub placed: Vec<Placed>,
    /// What could not be satisfied.
    pub unmet: Vec<Unmet>,
}

/// What a day is called.
pub fn day_name(day: usize) -> &'static str {
    DayOfWeek::ALL.get(day).map_or("", |day| day.label())
}

/// The days that an owner has, Monday first. Where none is stated, every day counts.
pub fn owners_days(stated: &[DayOfWeek]) -> [bool; DAYS] {
    std::array::from_fn(|day| stated.is_empty() || stated.contains(&DayOfWeek::ALL[day]))
}

/// Which of what was asked for stands on which days. One day may hold the same thing twice.
type Layout = [Vec<usize>; DAYS];

/// Lays what is asked for over the days that there are; no sitting is longer than `most_minutes`.
pub fn lay_out(asked: &[Asked], days: [bool; DAYS], most_minutes: i16) -> Week {
    let mut unmet = Vec::new();
    let whole = whole_week(asked);
    let open = without_rest(days);
    let mut layout: Layout = Default::default();
    energetic::move_to(&mut layout, &whole, asked, open, &mut unmet);
    calm::move_to(&mut layout, &whole, asked, days, open, &mut unmet);
    for (index, asked) in asked.iter().enumerate() {
        let planned = asked.minutes.filter(|minutes| *minutes > most_minutes && asked.times() > 0);
        unmet.extend(planned.map(|from| Unmet::Shortened { asked: index, from, to: most_minutes }));
    }
    if (0..DAYS).all(|day| !layout[day].is_empty()) {
        unmet.push(Unmet::NoRestDay);
    }
    Week { placed: placed(&layout, asked, most_minutes), unmet }
}

/// The days on which sittings may stand: one of seven is kept free.
fn without_rest(days: [bool; DAYS]) -> [bool; DAYS] {
    let mut open = days;
    if days.iter().all(|day| *day) {
        open[SUNDAY] = false;
    }
    open
}

/// The layout for an owner who has every day.
fn whole_week(asked: &[Asked]) -> Layout {
    let mut layout: Layout = Default::default();
    let all = [true; DAYS];
    energetic::spread(&mut layout, asked, without_rest(all));
    calm::spread(&mut layout, asked, without_rest(all));
    layout
}

/// The sittings with what they are tied to: on each day energetic work in the afternoon, calm work in the morning, before the
/// evening meal, and in the afternoon.
fn placed(layout: &Layout, asked: &[Asked], most_minutes: i16) -> Vec<Placed> {
    const CALM: [Habit; MOST_A_DAY] =
        [Habit::AfterBreakfastWalk, Habit::BeforeEveningMeal, Habit::AfternoonWalk];
    let mut placed = Vec::new();
    for (day, sittings) in layout.iter().enumerate() {
        let mut calm = CALM.into_iter();
        for &index in sittings {
            let habit = if asked[index].energetic { Some(Habit::AfternoonWalk) } else { calm.next() };
            let minutes = asked[index].minutes.unwrap_or(most_minutes).min(most_minutes);
            placed.extend(habit.map(|habit| Placed { asked: index, day, habit, minutes }));
        }
    }
    placed.sort_by_key(|sitting| (sitting.day, sitting.habit, sitting.asked));
    placed
}

#[cfg(test)]
mod tests;
