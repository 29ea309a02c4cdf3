//! What holds of every week, and the weeks that people meet.

use super::*;
use proptest::prelude::*;

const ALL: [bool; DAYS] = [true; DAYS];

fn calm(times_a_week: i16) -> Asked {
    Asked { times_a_week, minutes: Some(5), energetic: false }
}

fn wild(times_a_week: i16) -> Asked {
    Asked { energetic: true, ..calm(times_a_week) }
}

fn days_of(week: &Week, asked: usize) -> Vec<usize> {
    week.placed.iter().filter(|sitting| sitting.asked == asked).map(|sitting| sitting.day).collect()
}

#[test]
fn an_owner_of_whom_no_days_are_stated_has_all() {
    assert_eq!(owners_days(&[]), [true; DAYS]);
    let weekend = owners_days(&[DayOfWeek::Sunday, DayOfWeek::Saturday]);
    assert_eq!(weekend, [false, false, false, false, false, true, true]);
    assert_eq!((day_name(0), day_name(6), day_name(7)), ("Monday", "Sunday", ""));
}

#[test]
fn a_usual_plan_keeps_sunday_free_and_exciting_days_apart() {
    let week = lay_out(&[calm(5), wild(2), calm(3)], ALL, 10);
    assert!(week.unmet.is_empty(), "{:?}", week.unmet);
    assert_eq!(days_of(&week, 1), [0, 3]);
    assert_eq!((days_of(&week, 0).len(), days_of(&week, 2).len()), (5, 3));
    assert!(week.placed.iter().all(|sitting| sitting.day != SUNDAY));
}

#[test]
fn sittings_are_tied_to_habits() {
    let week = lay_out(&[calm(6), wild(1), calm(6)], ALL, 10);
    let monday: Vec<_> =
        week.placed.iter().filter(|s| s.day == 0).map(|s| (s.asked, s.habit.in_words())).collect();
    assert_eq!(
        monday,
        [
            (0, "after the breakfast walk"),
            (1, "on the afternoon walk, well away from meals"),
            (2, "before the evening meal")
        ]
    );
}

#[test]
fn what_is_asked_for_daily_takes_the_rest_day_and_says_so() {
    let week = lay_out(&[calm(7), calm(2)], ALL, 10);
    assert_eq!(days_of(&week, 0).len(), 7);
    assert_eq!(week.unmet, [Unmet::NoRestDay]);
    assert_eq!(week.placed.iter().filter(|sitting| sitting.day == SUNDAY).count(), 1);
}

#[test]
fn too_long_for_the_age_is_laid_out_shorter_and_said() {
    let long = Asked { minutes: Some(12), ..calm(1) };
    let week = lay_out(&[long, Asked { minutes: None, ..calm(1) }], ALL, 5);
    assert_eq!(week.unmet, [Unmet::Shortened { asked: 0, from: 12, to: 5 }]);
    assert!(week.placed.iter().all(|sitting| sitting.minutes == 5));
    let fits = lay_out(&[Asked { minutes: Some(5), ..calm(1) }], ALL, 5);
    assert!(fits.unmet.is_empty());
}

#[test]
fn exciting_work_on_neighbouring_days_is_said() {
    let weekend = [false, false, false, false, false, true, true];
    assert_eq!(lay_out(&[wild(2)], weekend, 10).unmet, [Unmet::NoDayBetween]);
    assert!(lay_out(&[wild(1)], weekend, 10).unmet.is_empty());
    assert_eq!(lay_out(&[wild(4)], ALL, 10).unmet, [Unmet::NoDayBetween]);
    assert!(lay_out(&[wild(3)], ALL, 10).unmet.is_empty());
}

#[test]
fn what_finds_no_day_is_named() {
    let week = lay_out(&[calm(6), calm(6), wild(7), calm(6)], ALL, 10);
    let names = |index: usize| ["Mat", "Door", "Chase", "Name"][index].to_owned();
    let said: Vec<_> = week.unmet.iter().map(|unmet| unmet.for_trainer(names)).collect();
    assert!(said[0].starts_with("Chase: no room for 1 sitting a week"), "{said:?}");
    assert!(said.iter().any(|said| said.starts_with("Name: no room for 6 sittings a week")), "{said:?}");
    let none = lay_out(&[calm(2), wild(1)], [false; DAYS], 10);
    assert!(none.placed.is_empty());
    assert_eq!(none.unmet.len(), 2);
}

#[test]
fn odd_numbers_do_not_panic() {
    let odd = [calm(-3), calm(i16::MAX), wild(i16::MAX), wild(0), Asked { minutes: Some(-4), ..calm(1) }];
    let week = lay_out(&odd, ALL, 0);
    assert!(week.unmet.len() >= 2);
    assert!(lay_out(&[], ALL, 10).placed.is_empty());
}

fn plans() -> impl Strategy<Value = Vec<Asked>> {
    let one = (0_i16..9, prop::option::of(1_i16..30), any::<bool>())
        .prop_map(|(times_a_week, minutes, energetic)| Asked { times_a_week, minutes, energetic });
    prop::collection::vec(one, 0..6)
}

fn left_over(week: &Week, index: usize) -> usize {
    let of = |unmet: &Unmet| match unmet {
        Unmet::LeftOver { asked, sittings } if *asked == index => *sittings,
        _ => 0,
    };
    week.unmet.iter().map(of).sum()
}

/// The days of energetic sittings, in order.
fn energetic_days(week: &Week, plan: &[Asked]) -> Vec<usize> {
    week.placed.iter().filter(|sitting| plan[sitting.asked].energetic).map(|sitting| sitting.day).collect()
}

fn is_apart(days: &[usize]) -> bool {
    days.iter().all(|day| !days.contains(&((day + 1) % DAYS)))
}

/// Every set of `count` of the open days that are a day apart, found without the planner.
fn apart(open: [bool; DAYS], count: usize) -> Vec<Vec<usize>> {
    let sets =
        (0..1_u32 << DAYS).map(|set| (0..DAYS).filter(|day| set & (1 << day) != 0).collect::<Vec<_>>());
    sets.filter(|days| days.len() == count && days.iter().all(|day| open[*day]) && is_apart(days)).collect()
}

proptest! {
    #[test]
    fn all_is_placed_or_named_and_no_limit_is_passed(
        plan in plans(),
        days in any::<[bool; DAYS]>(),
        most_minutes in 3_i16..16,
    ) {
        let week = lay_out(&plan, days, most_minutes);
        prop_assert_eq!(&week, &lay_out(&plan, days, most_minutes));
        for (index, asked) in plan.iter().enumerate() {
            let placed = days_of(&week, index).len();
            prop_assert_eq!(placed + left_over(&week, index), asked.times());
        }
        for (day, is_there) in days.into_iter().enumerate() {
            let sittings: Vec<_> = week.placed.iter().filter(|sitting| sitting.day == day).collect();
            prop_assert!(sittings.len() <= MOST_A_DAY);
            prop_assert!(sittings.is_empty() || is_there);
            prop_assert!(sittings.iter().all(|sitting| sitting.minutes <= most_minutes));
            let exciting: Vec<_> = sittings.iter().filter(|sitting| plan[sitting.asked].energetic).collect();
            prop_assert!(exciting.len() <= 1);
            prop_assert!(exciting.iter().map(|sitting| sitting.minutes).sum::<i16>() <= 3 * most_minutes);
            let mut habits: Vec<_> = sittings.iter().map(|sitting| sitting.habit).collect();
            habits.dedup();
            prop_assert!(habits.len() == sittings.len(), "one sitting a habit: {:?}", sittings);
        }
        let free = (0..DAYS).any(|day| week.placed.iter().all(|sitting| sitting.day != day));
        prop_assert_eq!(free, !week.unmet.contains(&Unmet::NoRestDay));
        prop_assert!(free || plan.iter().any(|asked| asked.times_a_week >= 7 && !asked.energetic));
        prop_assert!(energetic_days(&week, &plan).len() < DAYS);
    }

    #[test]
    fn exciting_days_touch_only_where_nothing_else_was_possible(plan in plans(), days in any::<[bool; DAYS]>()) {
        let week = lay_out(&plan, days, 10);
        let exciting = energetic_days(&week, &plan);
        prop_assert_eq!(is_apart(&exciting), !week.unmet.contains(&Unmet::NoDayBetween));
        if !is_apart(&exciting) {
            prop_assert!(apart(without_rest(days), exciting.len()).is_empty());
        }
    }

    /// Losing one day of the whole week moves that day's sittings, exciting ones as few as will do, and a calm one elsewhere
    /// only where an exciting one took its room.
    #[test]
    fn losing_a_day_moves_little(plan in plans(), lost in 0..DAYS) {
        let mut days = ALL;
        days[lost] = false;
        let (before, after) = (lay_out(&plan, ALL, 10), lay_out(&plan, days, 10));
        let (was, is) = (energetic_days(&before, &plan), energetic_days(&after, &plan));
        let new = |set: &[usize]| set.iter().filter(|day| !was.contains(day)).count();
        if is_apart(&is) {
            let fewest = apart(days, is.len()).iter().map(|set| new(set)).min();
            prop_assert_eq!(Some(new(&is)), fewest);
        }
        for day in (0..DAYS).filter(|day| *day != lost && *day != SUNDAY) {
            let calm = |week: &Week| -> Vec<usize> {
                let on_day = week.placed.iter().filter(|s| s.day == day && !plan[s.asked].energetic);
                let mut asked: Vec<usize> = on_day.map(|sitting| sitting.asked).collect();
                asked.sort_unstable();
                asked
            };
            let (before, after) = (calm(&before), calm(&after));
            let mut left = after.clone();
            let gone = before.iter().filter(|asked| match left.iter().position(|one| one == *asked) {
                Some(at) => {
                    left.remove(at);
                    false
                }
                None => true,
            });
            let taken = usize::from(is.contains(&day) && !was.contains(&day));
            prop_assert!(gone.count() <= taken, "{day}: {before:?} became {after:?}");
        }
    }
}
