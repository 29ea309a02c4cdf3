//! Rules on plans.

use super::*;
use crate::domain::plan::PlannedItem;
use crate::domain::vocabulary::{Clip, Energy, Finish, ItemKind, Line};
use Severity::{Caution, Notice, Stop};

pub(super) fn exercise(title: &str, change: impl FnOnce(&mut PlannedItem)) -> PlannedItem {
    let mut item = PlannedItem {
        minutes: Some(5),
        place: Some("Garden".to_owned()),
        reinforcer: Some("Chicken".to_owned()),
        ..PlannedItem::new(title, ItemKind::Exercise)
    };
    change(&mut item);
    item
}

fn evaluate(plan: &PlanFacts) -> Vec<Finding> {
    evaluate_plan(&PlanContext::of(plan, &dog(), DAY))
}

fn found(items: Vec<PlannedItem>) -> Vec<(&'static str, Severity, Option<usize>)> {
    let findings = evaluate(&PlanFacts { items });
    findings.iter().map(|finding| (finding.rule.id, finding.severity, finding.item)).collect()
}

#[test]
fn a_planned_long_line_says_where_it_clips() {
    let recall = |clip| exercise("Recall", |item| (item.line, item.clip) = (Some(Line::LongLine), clip));
    assert_eq!(found(vec![recall(Some(Clip::HarnessBack))]), []);
    assert_eq!(
        found(vec![exercise("Mat", |_| ()), recall(Some(Clip::Collar))]),
        [("planned_long_line_on_collar", Stop, Some(1))]
    );
    assert_eq!(found(vec![recall(None)]), [("planned_long_line_on_collar", Caution, Some(0))]);
}

#[test]
fn a_plan_does_not_end_high() {
    let chase = || exercise("Chase the tug", |item| item.energy = Some(Energy::Arousing));
    let mat = || exercise("Mat", |item| item.energy = Some(Energy::Calm));
    let gate = || PlannedItem::new("Stair gate", ItemKind::StandingArrangement);
    assert_eq!(found(vec![mat(), chase()]), [("arousing_last", Caution, Some(1))]);
    assert_eq!(found(vec![chase(), gate()]), [("arousing_last", Caution, Some(0))]);
    assert_eq!(found(vec![chase(), mat()]), []);
    let cooled = |change: fn(&mut PlannedItem)| {
        let mut last = chase();
        change(&mut last);
        found(vec![mat(), last])
    };
    assert_eq!(cooled(|item| item.cool_down_minutes = Some(10)), []);
    assert_eq!(cooled(|item| item.cool_down = Some(Finish::SniffWalk)), []);
    assert_eq!(cooled(|item| item.cool_down = Some(Finish::StraightHome)).len(), 1);
    let running = exercise("Moving search", |item| item.impact = Some(true));
    assert_eq!(found(vec![running]), [("arousing_last", Caution, Some(0))]);
}

#[test]
fn more_than_five_instructions_draw_a_notice() {
    let plan = |count| found((0..count).map(|_| exercise("Mat", |_| ())).collect());
    assert_eq!(plan(5), []);
    assert_eq!(plan(6), [("plan_too_large", Notice, None)]);
}

#[test]
fn an_exercise_says_how_long_where_and_what_is_paid_with() {
    let mat = || exercise("Mat", |_| ());
    let without = |change: fn(&mut PlannedItem)| found(vec![mat(), exercise("Recall", change), mat()]);
    assert_eq!(found(vec![mat()]), []);
    assert_eq!(without(|item| item.reinforcer = None), [("no_reinforcer", Notice, Some(1))]);
    assert_eq!(without(|item| item.minutes = None), [("no_length", Notice, Some(1))]);
    assert_eq!(without(|item| item.place = None), [("no_place", Notice, Some(1))]);
    let gate = PlannedItem::new("Stair gate", ItemKind::StandingArrangement);
    let rest = PlannedItem::new("Marker practice", ItemKind::OwnerSkill);
    assert_eq!(found(vec![gate, rest]), [], "only exercises have these");
    let open = |title| exercise(title, |item| item.place = None);
    let findings = evaluate(&PlanFacts { items: vec![open("Mat"), open("Recall"), open("Down")] });
    assert_eq!(findings.len(), 1, "one finding for all of them");
    assert_eq!(findings[0].seen, "“Mat”, “Recall” and “Down” do not say where it is practised.");
}
