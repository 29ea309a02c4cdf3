//! Rules on what a plan makes harder.

use super::plans::exercise;
use super::*;
use crate::domain::vocabulary::Outcome;
use crate::ids::LineId;
use Severity::Notice;
use uuid::Uuid;

fn recall(change: impl FnOnce(&mut PlannedItem)) -> PlannedItem {
    exercise("Recall", |item| {
        item.line_id = Some(LineId(Uuid::from_u128(1)));
        (item.distance, item.duration) = ("3 metres".to_owned(), "5 seconds".to_owned());
        (item.distraction, item.step_position, item.attempts) = (Some(2), Some(2), Some(10));
        change(item);
    })
}

fn against(id: &str, now: PlannedItem, then: PlannedItem) -> Option<Severity> {
    let (plan, current) = (PlanFacts { items: vec![now] }, PlanFacts { items: vec![then] });
    let dog = DogFacts { tried_before: "A recall whistle; it wore off.".to_owned(), ..dog() };
    of(id, &evaluate_plan(&PlanContext { current: Some(&current), ..PlanContext::of(&plan, &dog, DAY) }))
}

#[test]
fn one_thing_is_raised_at_a_time() {
    let raised = |change: fn(&mut PlannedItem)| against("two_raised", recall(change), recall(|_| ()));
    let further = |item: &mut PlannedItem| item.distance = "10 metres".to_owned();
    assert_eq!(raised(further), None);
    let both = |item: &mut PlannedItem| (item.distance, item.distraction) = ("10 m".to_owned(), Some(3));
    assert_eq!(raised(both), Some(Notice));
    let eased = |item: &mut PlannedItem| (item.distance, item.distraction) = ("1 metre".to_owned(), Some(3));
    assert_eq!(raised(eased), None);
    let longer =
        |item: &mut PlannedItem| (item.duration, item.distraction) = ("1 minute".to_owned(), Some(3));
    assert_eq!(raised(longer), Some(Notice), "a minute is more than five seconds");
    let unsaid = |item: &mut PlannedItem| (item.distance, item.distraction) = ("far off".to_owned(), Some(3));
    assert_eq!(raised(unsaid), None, "what cannot be compared is not compared");
    let other = recall(|item| (item.distance, item.distraction) = ("10 m".to_owned(), Some(3)));
    let another = recall(|item| item.line_id = Some(LineId(Uuid::from_u128(2))));
    assert_eq!(against("two_raised", other.clone(), another), None, "another line");
    let whistle = recall(|item| item.title = "Whistle".to_owned());
    assert_eq!(against("two_raised", other, whistle), None, "another exercise on the line");
}

#[test]
fn nearer_is_harder_where_distance_is_the_measure() {
    let fear = |metres: &str, distraction| {
        recall(|item| {
            (item.outcome, item.distance) = (Some(Outcome::Distance), metres.to_owned());
            item.distraction = Some(distraction);
        })
    };
    assert_eq!(against("two_raised", fear("20 metres", 3), fear("30 metres", 2)), Some(Notice));
    assert_eq!(against("two_raised", fear("40 metres", 3), fear("30 metres", 2)), None);
}

#[test]
fn a_rung_is_not_jumped_but_may_be_probed() {
    let to = |rung, attempts| {
        let now = recall(|item| (item.step_position, item.attempts) = (Some(rung), Some(attempts)));
        against("rung_jumped", now, recall(|_| ()))
    };
    assert_eq!(to(3, 10), None);
    assert_eq!(to(4, 10), Some(Notice));
    assert_eq!(to(4, 4), Some(Notice));
    assert_eq!(to(4, 3), None, "a probe");
    assert_eq!(to(1, 10), None, "back is no jump");
}

#[test]
fn a_marker_is_taught_where_nothing_is_on() {
    let at = |title: &str, level, rung| {
        let item =
            exercise(title, |item| (item.place_distraction, item.step_position) = (Some(level), Some(rung)));
        in_plan("marker_amid_distractions", &dog(), vec![item])
    };
    assert_eq!(at("Charging the marker", 2, 1), Some(Notice));
    assert_eq!(at("Charging the marker", 1, 1), None);
    assert_eq!(at("Charging the marker", 2, 3), None, "a later rung may go out");
    assert_eq!(at("Mat", 2, 1), None);
}

#[test]
fn pay_is_worth_what_the_place_asks() {
    let pays = |rank, level| {
        let item = exercise("Recall", |item| (item.reinforcer_rank, item.place_distraction) = (rank, level));
        in_plan("weak_reinforcer", &dog(), vec![item])
    };
    assert_eq!(pays(Some(2), Some(3)), Some(Notice));
    assert_eq!(pays(Some(3), Some(3)), None);
    assert_eq!(pays(None, Some(3)), None);
}

#[test]
fn what_failed_before_is_not_asked_again_unsaid() {
    let new = recall(|item| item.line_id = Some(LineId(Uuid::from_u128(2))));
    assert_eq!(against("asked_again", new, recall(|_| ())), Some(Notice));
    assert_eq!(against("asked_again", recall(|_| ()), recall(|_| ())), None, "in the plan already");
    let mat = exercise("Mat", |_| ());
    assert_eq!(against("asked_again", mat, recall(|_| ())), None);
}
