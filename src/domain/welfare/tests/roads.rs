//! Rules on roads, fences and permission.

use super::plans::exercise;
use super::*;
use crate::domain::place::PlaceFacts;
use crate::domain::vocabulary::{Basis, Line};
use Severity::{Caution, Notice, Stop};

const OPEN: PlaceFacts =
    PlaceFacts { secure: Some(false), near_road: Some(true), road_metres: None, off_lead_allowed: None };

fn worked(line: Line, metres: Option<i16>, place: PlaceFacts) -> impl FnOnce(&mut Sitting) {
    move |s| {
        (s.line, s.equipment, s.planned.line_metres, s.place) =
            (Some(line), Some(Basis::Stated), metres, place);
    }
}

fn road(line: Line, metres: Option<i16>, place: PlaceFacts) -> Option<Severity> {
    in_log("road_near", &dog(), &[], worked(line, metres, place))
}

#[test]
fn a_road_nearer_than_line_and_run_out_is_a_stop() {
    let at = |road_metres| PlaceFacts { road_metres: Some(road_metres), ..OPEN };
    assert_eq!(road(Line::LongLine, Some(10), at(29)), Some(Stop));
    assert_eq!(road(Line::LongLine, Some(10), at(30)), None);
    assert_eq!(
        road(Line::LongLine, None, at(29)),
        Some(Stop),
        "a length that is not said counts as ten metres"
    );
    assert_eq!(road(Line::None, None, at(19)), Some(Stop));
    assert_eq!(road(Line::None, None, at(20)), None);
    assert_eq!(road(Line::ShortLead, None, at(1)), None);
    assert_eq!(road(Line::LongLine, Some(10), PlaceFacts { secure: Some(true), ..at(5) }), None);
}

#[test]
fn what_is_not_stated_is_no_stop_and_not_safe() {
    assert_eq!(road(Line::LongLine, Some(10), OPEN), Some(Caution), "near, and nobody said how far");
    let unsaid = PlaceFacts { secure: None, road_metres: Some(5), ..OPEN };
    assert_eq!(road(Line::LongLine, Some(10), unsaid), Some(Notice));
    assert_eq!(road(Line::LongLine, Some(10), PlaceFacts { near_road: None, ..OPEN }), None);
}

#[test]
fn any_road_stops_a_dog_that_has_bolted() {
    let bolted = DogFacts { has_bolted: true, ..dog() };
    let found = |place| in_log("road_near", &bolted, &[], worked(Line::LongLine, Some(10), place));
    assert_eq!(found(OPEN), Some(Stop));
    assert_eq!(found(PlaceFacts { road_metres: Some(300), ..OPEN }), Some(Stop));
    assert_eq!(found(PlaceFacts { near_road: Some(false), road_metres: Some(300), ..OPEN }), None);
    assert_eq!(found(PlaceFacts { secure: Some(true), ..OPEN }), None);
}

#[test]
fn a_plan_is_held_to_the_same() {
    let planned = |place_facts| {
        let item = exercise("Recall", |item| {
            (item.line, item.line_metres, item.place_facts) =
                (Some(Line::TrailingLine), Some(5), place_facts);
        });
        in_plan("road_near", &dog(), vec![item])
    };
    assert_eq!(planned(PlaceFacts { road_metres: Some(24), ..OPEN }), Some(Stop));
    assert_eq!(planned(PlaceFacts { road_metres: Some(25), ..OPEN }), None);
}

#[test]
fn off_lead_needs_permission_where_there_is_no_fence() {
    let field = |secure, off_lead_allowed| PlaceFacts { secure, off_lead_allowed, near_road: None, ..OPEN };
    let found =
        |dog: &DogFacts, line, place| in_log("off_lead_not_allowed", dog, &[], worked(line, None, place));
    let unfenced = field(Some(false), Some(false));
    assert_eq!(found(&dog(), Line::None, unfenced), Some(Caution));
    assert_eq!(found(&DogFacts { has_bolted: true, ..dog() }, Line::None, unfenced), Some(Stop));
    assert_eq!(found(&dog(), Line::None, field(Some(false), Some(true))), None);
    assert_eq!(found(&dog(), Line::None, field(Some(false), None)), None, "nobody looked");
    assert_eq!(found(&dog(), Line::None, field(Some(true), Some(false))), None, "fenced");
    assert_eq!(found(&dog(), Line::None, field(None, Some(false))), None, "at home it is not asked");
    assert_eq!(found(&dog(), Line::TrailingLine, unfenced), None);
    let item = exercise("Search", |item| (item.line, item.place_facts) = (Some(Line::None), unfenced));
    assert_eq!(in_plan("off_lead_not_allowed", &dog(), vec![item]), Some(Caution));
}
