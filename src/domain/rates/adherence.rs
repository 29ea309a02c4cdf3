//! Adherence: what was done of what was planned, in the owner's whole weeks.

use time::{Date, Duration};

use super::{Reading, percent};

/// Whole weeks that are looked back over, this week apart.
const WEEKS: i64 = 4;
/// Share of the plan, in percent, under which the plan is likely too large. Common practice.
const HALF: i64 = 50;

/// What was done of what was planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Adherence {
    /// Sittings planned, without the days on which the work was paused.
    pub planned: i64,
    /// Sittings done, in each week no more than were planned: a busy week does not make up for an empty one.
    pub done: i64,
    /// Weeks in which something was planned.
    pub weeks: i64,
}

/// Adherence over the last four whole weeks, Monday to Sunday, before the one of `today`. `times_on` says how many sittings a week
/// were asked for on a day: none before the first plan and while the work was paused (phases, life events). A week asks for the
/// mean of its days, rounded in the owner's favour. `None` where nothing was planned.
pub fn adherence(times_on: impl Fn(Date) -> i64, done_on: &[(Date, i64)], today: Date) -> Option<Adherence> {
    let monday = today - Duration::days(i64::from(today.weekday().number_days_from_monday()));
    let mut all = Adherence { planned: 0, done: 0, weeks: 0 };
    for week in 1..=WEEKS {
        let from = monday - Duration::weeks(week);
        let asked: i64 = (0..7).map(|day| times_on(from + Duration::days(day)).max(0)).sum();
        let planned = asked / 7;
        let within = |on: &Date| (0..7).contains(&(*on - from).whole_days());
        let done: i64 = done_on.iter().filter(|(on, _)| within(on)).map(|(_, sittings)| sittings).sum();
        all.planned += planned;
        all.done += done.clamp(0, planned);
        all.weeks += i64::from(planned > 0);
    }
    (all.planned > 0).then_some(all)
}

impl Adherence {
    /// What it says to a trainer.
    pub fn reading(&self) -> Reading {
        let share = percent(self.done, self.planned);
        let says = match share {
            90.. => "The plan fits into this owner’s weeks.",
            HALF..90 => "Most of it is done. Ask which part is hardest to fit in.",
            _ => {
                "Under half is done. The plan is likely too large for these weeks: ask for less, or for another time of day."
            }
        };
        let weeks = if self.weeks == 1 { "week".to_owned() } else { format!("{} weeks", self.weeks) };
        Reading {
            what: "Adherence",
            value: format!(
                "{} of {} planned sittings in the last whole {weeks} ({share} %)",
                self.done, self.planned
            ),
            says: says.to_owned(),
            source: "Fewer dogs improved where more than five instructions were given: Takeuchi, Houpt & Scarlett 2000, JAVMA \
                     217:342–345. The bounds of the sentence are common practice.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    /// A Wednesday; the last whole week began on 2 March.
    const TODAY: Date = date!(2026 - 03 - 11);

    fn found(done_on: &[(Date, i64)], times_on: impl Fn(Date) -> i64) -> Option<(i64, i64, i64)> {
        adherence(times_on, done_on, TODAY).map(|found| (found.done, found.planned, found.weeks))
    }

    #[test]
    fn whole_weeks_count_and_this_one_does_not() {
        let done = [
            (date!(2026 - 03 - 08), 2),
            (date!(2026 - 03 - 09), 5),
            (date!(2026 - 02 - 09), 1),
            (date!(2026 - 02 - 08), 1),
        ];
        assert_eq!(found(&done, |_| 7), Some((3, 28, 4)));
    }

    #[test]
    fn a_busy_week_does_not_make_up_for_an_empty_one() {
        assert_eq!(found(&[(date!(2026 - 03 - 03), 20)], |_| 7), Some((7, 28, 4)));
    }

    #[test]
    fn days_without_a_plan_ask_for_nothing() {
        let since = |times: i64| move |on: Date| if on < date!(2026 - 03 - 05) { 0 } else { times };
        assert_eq!(found(&[(date!(2026 - 03 - 06), 3)], since(7)), Some((3, 4, 1)));
        assert_eq!(found(&[], since(2)), Some((0, 1, 1)), "in the owner's favour");
        assert_eq!(found(&[], |_| 0), None);
        assert_eq!(found(&[], |_| -7), None);
    }

    #[test]
    fn the_sentence_turns_at_half_and_at_nine_tenths() {
        let says = |done| Adherence { planned: 20, done, weeks: 4 }.reading().says;
        assert!(says(9).starts_with("Under half") && says(10).starts_with("Most"));
        assert!(says(17).starts_with("Most") && says(18).starts_with("The plan fits"));
    }
}
