//! Who is asked for an answer, and by when, in words.

use time::{Date, OffsetDateTime};

use crate::domain::duty::{Asked, asked};
use crate::ids::MembershipId;
use crate::store::dog::Dog;
use crate::store::practice::{OnDuty, Practice};
use crate::web::zones;

/// Who is on duty, and what the clock says.
pub struct Duty {
    on_duty: Option<OnDuty>,
    now: OffsetDateTime,
}

impl Duty {
    /// The practice's duty, now.
    pub fn of(practice: &Practice, now: OffsetDateTime) -> Self {
        Self { on_duty: practice.duty.clone(), now }
    }

    /// Who answers by an instant, as trainers read it.
    pub fn words(&self, due: &OffsetDateTime, dog: &Dog) -> String {
        let today = zones::local_date(self.now, &dog.zone);
        self.for_trainers(*due, &dog.trainer_name, (dog.trainer, &dog.zone), today)
    }

    /// The same, where only the trainer and the zone are at hand.
    pub fn for_trainers(
        &self,
        due: OffsetDateTime,
        trainer: &str,
        (id, zone): (MembershipId, &str),
        today: Date,
    ) -> String {
        let by = zones::day_and_time(due, zone, today);
        match (asked(due, self.now), self.on_duty.as_ref()) {
            (Asked::TheTrainer, _) => format!("{trainer} answers by {by}"),
            (Asked::WhoIsOnDuty, Some(duty)) if duty.id != id => {
                format!("{trainer} has not answered by {by}: it is with {}, who is on duty", duty.name)
            }
            (Asked::WhoIsOnDuty, Some(_)) => {
                format!("Overdue since {by}: {trainer}, who is on duty, answers now")
            }
            (Asked::WhoIsOnDuty, None) => {
                format!("Not answered by {by}: nobody is on duty, so it is with every lead")
            }
        }
    }

    /// The same, as the household reads it: whom it may expect, never a reproach.
    pub fn for_owner(&self, due: OffsetDateTime, dog: &Dog) -> String {
        let by = zones::day_and_time(due, &dog.zone, zones::local_date(self.now, &dog.zone));
        match asked(due, self.now) {
            Asked::TheTrainer => {
                format!("{} is asked to answer by {by}. If it cannot wait, ring.", dog.trainer_name)
            }
            Asked::WhoIsOnDuty => {
                let who = self.on_duty.as_ref().map_or("The practice", |duty| duty.name.as_str());
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
    use uuid::Uuid;

    #[test]
    fn an_answer_that_is_due_says_who_gives_it_and_by_when() {
        let due = datetime!(2026-03-13 18:20 UTC);
        let (ines, other) = (MembershipId(Uuid::from_u128(1)), MembershipId(Uuid::from_u128(2)));
        let words = |on_duty: Option<(MembershipId, &str)>, now| {
            let on_duty = on_duty.map(|(id, name)| OnDuty { id, name: name.to_owned() });
            let today = date!(2026 - 03 - 13);
            Duty { on_duty, now }.for_trainers(due, "Ines", (ines, "Europe/London"), today)
        };
        let (early, late) = (datetime!(2026-03-12 19:00 UTC), due);
        assert_eq!(words(Some((other, "Rowan")), early), "Ines answers by Fri 13 Mar, 18:20");
        assert!(words(Some((other, "Rowan")), late).ends_with("it is with Rowan, who is on duty"));
        assert!(words(Some((other, "Ines")), late).starts_with("Ines has not"), "another of the same name");
        assert!(words(Some((ines, "Ines")), late).starts_with("Overdue since"));
        assert!(words(None, late).ends_with("it is with every lead"));
    }
}
