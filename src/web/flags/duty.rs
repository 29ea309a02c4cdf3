//! Who is asked to answer a stop, and by when, in words.

use time::{Date, OffsetDateTime};

use crate::domain::duty::{Asked, asked};
use crate::store::dog::Dog;
use crate::store::practice::Practice;
use crate::web::zones;

/// Who is on duty, and what the clock says.
pub struct Duty {
    on_duty: Option<String>,
    now: OffsetDateTime,
}

impl Duty {
    /// The practice's duty, now.
    pub fn of(practice: &Practice, now: OffsetDateTime) -> Self {
        Self { on_duty: practice.duty.as_ref().map(|duty| duty.name.clone()), now }
    }

    /// Who answers a stop that was raised at an instant, as trainers read it.
    pub fn words(&self, raised_at: &OffsetDateTime, dog: &Dog) -> String {
        let today = zones::local_date(self.now, &dog.zone);
        self.for_trainers(*raised_at, &dog.trainer_name, &dog.zone, today)
    }

    /// The same, where only names are at hand.
    pub fn for_trainers(&self, raised_at: OffsetDateTime, trainer: &str, zone: &str, today: Date) -> String {
        let until = |at| zones::day_and_time(at, zone, today);
        match (asked(raised_at, self.now), self.on_duty.as_deref()) {
            (Asked::TheTrainer(by), _) => format!("{trainer} answers by {}", until(by)),
            (Asked::WhoIsOnDuty(by), Some(duty)) if duty != trainer => {
                format!("{trainer} has not answered by {}: it is with {duty}, who is on duty", until(by))
            }
            (Asked::WhoIsOnDuty(by), Some(_)) => {
                format!("Overdue since {}: {trainer}, who is on duty, answers now", until(by))
            }
            (Asked::WhoIsOnDuty(by), None) => {
                format!("Not answered by {}: nobody is on duty, so it is with every lead", until(by))
            }
        }
    }

    /// The same, as the household reads it: whom it may expect, never a reproach.
    pub fn for_owner(&self, raised_at: OffsetDateTime, dog: &Dog) -> String {
        let today = zones::local_date(self.now, &dog.zone);
        match (asked(raised_at, self.now), self.on_duty.as_deref()) {
            (Asked::TheTrainer(by), _) => format!(
                "{} is asked to answer by {}. If it cannot wait, ring.",
                dog.trainer_name,
                zones::day_and_time(by, &dog.zone, today)
            ),
            (Asked::WhoIsOnDuty(by), on_duty) => {
                let who = on_duty.unwrap_or("The practice");
                let by = zones::day_and_time(by, &dog.zone, today);
                format!(
                    "This should have been answered by {by}; we are sorry. {who} is asked to answer now. If it cannot wait, ring."
                )
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::{date, datetime};

    #[test]
    fn a_stop_says_who_answers_and_by_when() {
        let raised = datetime!(2026-03-12 18:20 UTC);
        let words = |on_duty: Option<&str>, now| {
            Duty { on_duty: on_duty.map(str::to_owned), now }.for_trainers(
                raised,
                "Ines",
                "Europe/London",
                date!(2026 - 03 - 13),
            )
        };
        let (early, late) = (datetime!(2026-03-12 19:00 UTC), datetime!(2026-03-13 18:20 UTC));
        assert_eq!(words(Some("Rowan"), early), "Ines answers by Fri 13 Mar, 18:20");
        assert!(words(Some("Rowan"), late).ends_with("it is with Rowan, who is on duty"));
        assert!(words(Some("Ines"), late).starts_with("Overdue since"));
        assert!(words(None, late).ends_with("it is with every lead"));
    }
}
