//! The week laid out, as a table reads it.

use time::Date;

use crate::domain::dates::counted;
use crate::domain::dog::DogFacts;
use crate::domain::plan::counts_in_the_week;
use crate::domain::vocabulary::Energy;
use crate::domain::week::{Asked, DAYS, Week, day_name, lay_out, owners_days};
use crate::domain::welfare::{HouseNumbers, minutes_to_lay_out};
use crate::store::plan::PlanItem;

/// A week as a table reads it.
pub struct WeekView {
    /// Monday to Sunday.
    pub days: Vec<DayView>,
    /// What could not be satisfied, a sentence each.
    pub unmet: Vec<String>,
}

/// One day.
pub struct DayView {
    /// Its name.
    pub name: &'static str,
    /// What is on, with how long and when: "Settle on a mat, 5 minutes, after the breakfast walk". Minutes that the plan leaves
    /// open are those of the dog's age.
    pub sittings: Vec<String>,
    /// Minutes of all of them.
    pub minutes: i16,
}

/// The exercises of a plan, laid over the days that the dog's household has, no sitting longer than its age carries; those
/// that rest are asked for no sitting.
pub fn laid_out<'a>(
    items: impl IntoIterator<Item = &'a PlanItem>,
    dog: &DogFacts,
    numbers: &HouseNumbers,
    today: Date,
    rests: impl Fn(&PlanItem) -> bool,
) -> Week {
    let asked: Vec<Asked> = items
        .into_iter()
        .map(|item| Asked {
            times_a_week: item.times_a_week.filter(|_| !rests(item)).unwrap_or(0),
            minutes: item.minutes,
            energetic: item.energy == Energy::Arousing || item.impact,
        })
        .collect();
    lay_out(&asked, owners_days(&dog.practice_days), minutes_to_lay_out(dog, today, numbers))
}

impl WeekView {
    /// The minutes of the fullest day.
    pub fn most_minutes(&self) -> i16 {
        self.days.iter().map(|day| day.minutes).max().unwrap_or(0)
    }

    /// The week of a plan as its trainer reads it; `None` where the plan asks for no sittings a week.
    pub fn of(items: &[PlanItem], dog: &DogFacts, numbers: &HouseNumbers, today: Date) -> Option<Self> {
        let items: Vec<&PlanItem> = items.iter().filter(|item| counts_in_the_week(item.kind)).collect();
        let week = laid_out(items.iter().copied(), dog, numbers, today, |_| false);
        let name = |index: usize| items.get(index).map(|item| item.name.clone()).unwrap_or_default();
        let day = |day: usize| DayView {
            name: day_name(day),
            minutes: week
                .placed
                .iter()
                .filter(|sitting| sitting.day == day)
                .map(|sitting| sitting.minutes)
                .sum(),
            sittings: week
                .placed
                .iter()
                .filter(|sitting| sitting.day == day)
                .map(|sitting| {
                    let minutes = counted(sitting.minutes.into(), "minute", "minutes");
                    let is_planned = items.get(sitting.asked).is_some_and(|item| item.minutes.is_some());
                    let most = if is_planned { "" } else { " at most" };
                    format!("{}, {minutes}{most}, {}", name(sitting.asked), sitting.habit.in_words())
                })
                .collect(),
        };
        let unmet = week.unmet.iter().map(|unmet| unmet.for_trainer(name)).collect();
        (!week.placed.is_empty()).then(|| Self { days: (0..DAYS).map(day).collect(), unmet })
    }
}
