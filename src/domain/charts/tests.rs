use time::Duration;
use time::macros::date;
use uuid::Uuid;

use super::success::rise;
use super::*;
use crate::domain::dog::{DogFacts, Weighing};
use crate::domain::encounter::EncounterFacts;
use crate::domain::readiness::limit;
use crate::domain::sitting::Planned;
use crate::domain::vocabulary::{Busy, EncounterKind, Looked, Recovery};

const FIRST: Date = date!(2026 - 03 - 02); // a Monday

fn day(n: i64) -> Date {
    FIRST + Duration::days(n)
}

fn id(n: u128) -> Uuid {
    Uuid::from_u128(n)
}

/// A sitting at step 1 on a day, by plan 1.
fn on(n: i64, change: impl FnOnce(&mut Charted)) -> Charted {
    let mut sitting = Sitting::on(day(n));
    sitting.plan_line = Some(LineId(id(1)));
    sitting.step = Some(StepId(id(11)));
    sitting.planned = Planned { step_position: Some(1), ..Planned::default() };
    let mut charted = Charted {
        id: PracticeLogId(id(1000 + n.unsigned_abs() as u128)),
        plan: 1,
        is_exercise: true,
        criterion: "Touches.".to_owned(),
        step_name: "A hand's width".to_owned(),
        value: None,
        paid: Paid::default(),
        sitting,
    };
    change(&mut charted);
    charted
}

fn counts(n: i64, met: i16, attempts: i16) -> Charted {
    on(n, |one| (one.sitting.met, one.sitting.attempts) = (Some(met), Some(attempts)))
}

fn says(all: &[Charted]) -> String {
    let all: Vec<&Charted> = all.iter().collect();
    successes_say(&successes(&all))
}

#[test]
fn up_and_down_are_said_where_chance_is_left_out() {
    let up = [counts(0, 3, 10), counts(1, 4, 10), counts(2, 9, 10), counts(3, 10, 10)];
    assert_eq!(
        says(&up),
        "Up from 7 of 20 to 19 of 20 met: the last 2 sittings at this step against the 2 before, where was not stated."
    );
    let down: Vec<Charted> = up.iter().rev().cloned().collect();
    assert!(says(&down).starts_with("Down from 19 of 20 to 7 of 20 met"), "{}", says(&down));
    let same = [counts(0, 6, 10), counts(1, 7, 10), counts(2, 7, 10), counts(3, 8, 10)];
    assert!(says(&same).starts_with("No clear change, from 13 of 20 to 15 of 20 met"), "{}", says(&same));
}

#[test]
fn unlike_sittings_are_not_compared() {
    let harder = |n: i64| {
        let mut one = counts(n, 9, 10);
        one.sitting.step = Some(StepId(id(12)));
        one
    };
    let busy = |n: i64, busy: Busy| {
        let mut one = counts(n, 9, 10);
        (one.sitting.place_distraction, one.sitting.busy) = (Some(2), Some(busy));
        one
    };
    let reworded = |n: i64| {
        on(n, |one| {
            *one = counts(n, 9, 10);
            one.criterion = "Touches and stays.".to_owned();
        })
    };
    let few = "too few to compare";
    assert!(says(&[counts(0, 1, 10), counts(1, 2, 10), harder(2), harder(3)]).contains(few));
    assert!(says(&[counts(0, 1, 10), counts(1, 2, 10), reworded(2), reworded(3)]).contains(few));
    let places = [busy(0, Busy::Usual), busy(1, Busy::Usual), busy(2, Busy::Busy), busy(3, Busy::Busy)];
    assert_eq!(
        says(&places),
        "18 of 20 met in 2 sittings so far at this step, in places alike: too few to compare."
    );
    assert_eq!(says(&[]), "");
    let three = [counts(0, 1, 10), counts(1, 9, 10), counts(2, 10, 10)];
    assert!(says(&three).contains(few), "{}", says(&three));
}

/// Newcombe 1998, Stat Med 17:873–890, table II, method 10: 56/70 − 48/80 and 9/10 − 3/10.
#[test]
fn the_interval_of_a_difference_is_as_published() {
    for (after, before, low, high) in [
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
        ((5, 56), (0, 29), -0.0381, 0.1926),
    ] {
        let found = rise(before, after).expect("an interval");
        assert!((found.low - low).abs() < 5e-5 && (found.high - high).abs() < 5e-5, "{after:?}: {found:?}");
    }
}

fn planned(plan: i32, step: u128, is_anew: bool, is_up: Option<bool>) -> PlannedLine {
    PlannedLine {
        line: LineId(id(1)),
        plan,
        position: 1,
        name: "Nose to hand".to_owned(),
        step: Some(StepId(id(step))),
        step_position: Some(1),
        steps_total: 6,
        step_name: String::new(),
        class: SkillClass::Ordinary,
        outcome: Outcome::Count,
        is_anew,
        is_up,
    }
}

#[test]
fn evidence_is_gathered_for_each_step_and_begins_anew_when_told_so() {
    let plans = [planned(1, 11, false, None), planned(2, 11, true, None), planned(3, 12, true, Some(true))];
    let plans: Vec<&PlannedLine> = plans.iter().collect();
    let by = |n: i64, plan: i32, step: u128| {
        let mut one = counts(n, 8, 10);
        (one.plan, one.sitting.step) = (plan, Some(StepId(id(step))));
        one
    };
    // the last is told by an old form, at an item of the first plan
    let all = [by(0, 1, 11), by(1, 2, 11), by(2, 3, 12), by(3, 2, 11), by(4, 1, 11)];
    let all: Vec<&Charted> = all.iter().collect();
    let found = evidence(&all, &plans);
    let begun: Vec<i32> = found.iter().map(|one| one.begun.1).collect();
    assert_eq!(begun, [0, 2, 3, 2, 0]);
    let sittings: Vec<i32> = found.iter().map(|one| one.state.sittings).collect();
    assert_eq!(sittings, [1, 1, 1, 2, 2]);
    let watched: Vec<bool> = found.iter().map(|one| one.state.decline.is_some()).collect();
    assert_eq!(watched, [false, false, true, false, false]);
    let now = evidence_says(&found, &plans, Some(plans[2]), day(5));
    assert!(now.contains("after 1 counted sitting at the present step"), "{now}");
    assert!(
        evidence_says(&found[..2], &plans, Some(plans[2]), day(5))
            .starts_with("Nothing counted at the present step")
    );
    assert!(evidence_says(&found, &plans, None, day(5)).contains("has this exercise no more"));
}

#[test]
fn evidence_says_how_far_it_is_and_when_it_got_there() {
    let plans = [planned(1, 11, false, None)];
    let plans: Vec<&PlannedLine> = plans.iter().collect();
    let limit = limit(SkillClass::Ordinary);
    let said = |all: &[Charted], today: i64| {
        let all: Vec<&Charted> = all.iter().collect();
        evidence_says(&evidence(&all, &plans), &plans, Some(plans[0]), day(today))
    };
    let one = said(&[counts(0, 5, 5)], 0);
    assert_eq!(
        one,
        format!(
            "Evidence stands at 1.44 of {limit:.2} after 1 counted sitting at the present step: at the fewest, 5 more met in a row would reach it."
        )
    );
    let there = said(&[counts(0, 10, 10), counts(1, 10, 10)], 4);
    assert!(there.starts_with(&format!("Evidence reached its limit of {limit:.2} 4 days ago")), "{there}");
}

#[test]
fn measures_have_a_trend_only_where_the_interval_shows_one() {
    let at = |n: i64, metres: f64| {
        on(n, |one| {
            one.value = Some(metres);
            one.sitting.looked = Some(Looked::Loose);
        })
    };
    let says = |all: &[Charted]| measured(Outcome::Distance, &all.iter().collect::<Vec<_>>());
    let nearer: Vec<Charted> = (0..8).map(|n| at(n * 2, 40.0 - n as f64 * 2.0)).collect();
    assert!(
        says(&nearer).starts_with("Nearer, by about 7 m a week (95 % interval −7 to −7 m a week, 8 sittings"),
        "{}",
        says(&nearer)
    );
    let about: Vec<Charted> =
        [30.0, 32.0, 29.0, 31.0, 30.0, 32.0].into_iter().zip(0..).map(|(m, n)| at(n, m)).collect();
    assert!(says(&about).starts_with("No clear trend"), "{}", says(&about));
    assert!(
        says(&nearer[..2]).contains("From 40 m to 38 m over 2") && says(&nearer[..2]).contains("too few")
    );
    let mut reacted = at(20, 5.0);
    reacted.sitting.looked = Some(Looked::Frozen);
    let with = [nearer.clone(), vec![reacted.clone()]].concat();
    assert_eq!(says(&with), says(&nearer), "a reaction is no comfortable distance");
    assert!(says(&[reacted]).starts_with("A reaction at every distance"));
    assert_eq!(says(&[]), "");
}

#[test]
fn arousal_and_cooling_down_are_summed_up_over_what_was_stated() {
    let felt =
        |n, before, end| on(n, |one| (one.sitting.arousal_before, one.sitting.arousal_end) = (before, end));
    let all = [
        felt(0, Some(2), Some(2)),
        felt(1, Some(3), Some(4)),
        felt(2, Some(3), Some(2)),
        felt(3, None, Some(5)),
    ];
    let all: Vec<&Charted> = all.iter().collect();
    assert_eq!(
        arousal(&all),
        "Of the last 3 sittings that say both, 2 ended no higher than they began, and 1 ended at 4 or 5."
    );
    assert_eq!(arousal(&all[2..]), "Only 1 of 2 say both how it began and how it ended: too few to sum up.");
    assert_eq!(arousal(&[]), "");

    let took = |n, minutes, asked| {
        on(n, |one| {
            (one.sitting.cool_down_minutes, one.sitting.planned.cool_down_minutes) = (minutes, Some(asked));
        })
    };
    let all = [took(0, Some(5), 5), took(1, Some(2), 5), took(2, None, 5), took(3, Some(3), 0)];
    let all: Vec<&Charted> = all.iter().collect();
    assert_eq!(
        cool_down(&all),
        "As long as the plan asked for in 1 of 2 that state it. Not stated in 1 more that were to have one."
    );
    assert_eq!(cool_down(&all[3..]), "The plan asked for none; 3 minutes on average over 1 that state it.");
    assert_eq!(cool_down(&all[2..3]), "");
}

#[test]
fn weeks_begin_on_monday_and_count_what_was_stated() {
    let minutes = |n, minutes| on(n, |one| one.sitting.minutes = minutes);
    let all = [minutes(1, Some(5)), minutes(1, Some(7)), minutes(8, None), minutes(9, Some(3))];
    let all: Vec<&Charted> = all.iter().collect();
    let found = weeks(&all, day(1), day(9));
    assert_eq!(found.iter().map(|week| week.monday).collect::<Vec<_>>(), [day(0), day(7)]);
    assert!(found[0].days[0].is_none() && found[1].days[3].is_none(), "outside the range");
    assert_eq!(
        (found[0].minutes(), found[0].practised(), found[1].minutes(), found[1].practised()),
        (12, 1, 3, 2)
    );
    assert_eq!(
        weeks_say(&found),
        "Practised on 3 of 9 days: 15 minutes in 3 sittings, and 1 more that do not state theirs."
    );
    assert_eq!(
        weeks_say(&weeks(&all[2..3], day(1), day(9))),
        "Practised on 1 of 9 days; minutes were stated for none of 1 sitting."
    );
}

#[test]
fn days_of_food_are_known_or_left_out() {
    let paid = |n, pieces| {
        on(n, |one| {
            one.paid = Paid {
                what: Some("Cheddar".to_owned()),
                pieces,
                grams_per_piece: Some(1.0),
                kcal_per_g: Some(4.0),
                ..Paid::default()
            };
        })
    };
    let mut dog = DogFacts { weighings: vec![Weighing { on: day(1), kg: 10.0 }], ..DogFacts::default() };
    dog.born = Some(date!(2020 - 01 - 01));
    let all = [paid(0, Some(5)), paid(1, Some(10)), paid(1, Some(10)), paid(2, None), paid(2, Some(3))];
    let all: Vec<&Charted> = all.iter().collect();
    let found = food_days(&all, &dog);
    assert_eq!((found.known.len(), found.unweighed, found.uncounted), (1, 1, 1));
    let known = found.known[0];
    assert!((known.kcal - 80.0).abs() < 1e-9, "20 pieces of 4 kcal: {known:?}");
    assert!(known.share[0] <= known.share[1] && known.share[1] <= known.share[2]);
    let left_out = found.left_out().expect("two days are");
    assert!(
        left_out.contains("1 because what was paid")
            && left_out.contains("1 because there was no weight yet")
    );
    assert_eq!(FoodDays::default().left_out(), None);
}

#[test]
fn encounters_incidents_and_weights_say_no_more_than_they_know() {
    let met = |metres, reaction, recovery| EncounterFacts {
        distance_m: metres,
        reaction,
        recovery,
        ..EncounterFacts::on(FIRST, EncounterKind::Reaction)
    };
    let all = [
        met(Some(12), Some(0), Some(Recovery::Within5)),
        met(Some(30), Some(3), Some(Recovery::NotYet)),
        met(Some(8), None, None),
    ];
    let all: Vec<&EncounterFacts> = all.iter().collect();
    assert_eq!(distances(&all), "Nearest without a reaction: 12 m; farthest with one: 30 m.");
    assert_eq!(
        distances(&all[..1]),
        "No reaction in the only one that says how strong it was, the nearest at 12 m."
    );
    assert_eq!(distances(&all[2..]), "None of these says how strong the reaction was.");
    assert_eq!(
        recoveries(&all),
        "Itself again within 15 minutes after 1 of 2 that say so. Not stated for 1 more."
    );

    let bolt = |n| Incident { on: day(n), what: "Bolted", href: String::new(), told: "" };
    assert_eq!(
        incidents_say(&[bolt(3), bolt(1)], false, day(12)),
        "9 days since the last bolt or bite that was told."
    );
    assert_eq!(incidents_say(&[], false, day(12)), "No bolt and no bite was told here.");
    assert!(incidents_say(&[], true, day(12)).contains("on record"));

    let weighings = [Weighing { on: day(0), kg: 18.0 }, Weighing { on: day(20), kg: 18.9 }];
    assert_eq!(
        weights_say(&weighings, Some(21.0)),
        "18.9 kg, up 0.9 kg (5 %) over 20 days, 90 % of the 21 kg expected when grown."
    );
    assert_eq!(weights_say(&weighings[..1], None), "18 kg in the only weighing here.");
    assert_eq!(weights_say(&[], None), "");
}

#[test]
fn ranges_end_today_and_begin_where_they_say() {
    let today = day(200);
    assert_eq!(Range::said("month").first_day(today, None), day(171));
    assert_eq!(Range::said("nonsense"), Range::Quarter);
    assert_eq!(Range::Quarter.first_day(today, Some(day(0))), day(110));
    assert_eq!(Range::All.first_day(today, Some(day(0))), day(0));
    assert_eq!(Range::All.first_day(today, Some(day(199))), day(187), "a first day is no whole chart");
}
