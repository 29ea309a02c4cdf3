//! Rules on what is worn and held.

use super::plans::exercise;
use super::*;
use crate::domain::vocabulary::{Basis, Clip, EncounterKind, Energy, Line};
use Severity::{Caution, Notice};

fn on(line: Line, clip: Clip) -> impl FnOnce(&mut Sitting) {
    move |s| (s.line, s.clip, s.equipment) = (Some(line), Some(clip), Some(Basis::Stated))
}

#[test]
fn a_clip_that_the_practice_does_not_use_is_a_caution() {
    let not_used = [Clip::Prong, Clip::HeadCollar, Clip::HarnessFront];
    let found = |line, clip| {
        let sitting = sitting(on(line, clip));
        of(
            "clip_not_used",
            &evaluate_log(&LogContext { not_used: &not_used, ..LogContext::of(&sitting, &dog()) }),
        )
    };
    assert_eq!(found(Line::ShortLead, Clip::Prong), Some(Caution));
    assert_eq!(found(Line::TrailingLine, Clip::HeadCollar), Some(Caution));
    assert_eq!(found(Line::ShortLead, Clip::Collar), None);
    assert_eq!(found(Line::LongLine, Clip::Prong), None, "a rule of its own speaks");
    assert_eq!(found(Line::LongLine, Clip::HarnessFront), Some(Caution), "a harness has none");
    assert_eq!(found(Line::None, Clip::Prong), None);
    let planned = |not_used: &[Clip]| {
        let prong =
            exercise("Heel", |item| (item.line, item.clip) = (Some(Line::ShortLead), Some(Clip::Prong)));
        let plan = PlanFacts { items: vec![prong] };
        of("clip_not_used", &evaluate_plan(&PlanContext { not_used, ..PlanContext::of(&plan, &dog(), DAY) }))
    };
    assert_eq!(planned(&not_used), Some(Caution));
    assert_eq!(planned(&[]), None);
}

#[test]
fn a_retractable_lead_is_noticed_and_worse_at_speed() {
    let found = |line, energy| {
        in_log("retractable_lead", &dog(), &[], |s| {
            on(line, Clip::HarnessBack)(s);
            s.energy = energy;
        })
    };
    assert_eq!(found(Line::Retractable, None), Some(Notice));
    assert_eq!(found(Line::Retractable, Some(Energy::Arousing)), Some(Caution));
    assert_eq!(found(Line::ShortLead, Some(Energy::Arousing)), None);
    let planned = exercise("Walk", |item| item.line = Some(Line::Retractable));
    assert_eq!(in_plan("retractable_lead", &dog(), vec![planned]), Some(Notice));
}

#[test]
fn running_work_belongs_on_a_harness() {
    let found = |line, clip, secure| {
        in_log("chase_without_harness", &dog(), &[], |s| {
            on(line, clip)(s);
            (s.impact, s.place.secure) = (Some(true), secure);
        })
    };
    assert_eq!(found(Line::ShortLead, Clip::Collar, None), Some(Caution));
    assert_eq!(found(Line::ShortLead, Clip::HarnessFront, None), None);
    assert_eq!(found(Line::TrailingLine, Clip::Collar, Some(true)), None, "no fault in a fenced field");
    assert_eq!(found(Line::TrailingLine, Clip::Collar, Some(false)), Some(Caution));
    assert_eq!(found(Line::TrailingLine, Clip::Collar, None), Some(Caution), "not stated is not fenced");
    assert_eq!(
        in_log("chase_without_harness", &dog(), &[], on(Line::ShortLead, Clip::Collar)),
        None,
        "calm work"
    );
    let planned = |clip| {
        let chase = exercise("Chase", |item| {
            (item.line, item.clip, item.impact) = (Some(Line::ShortLead), Some(clip), Some(true));
        });
        in_plan("chase_without_harness", &dog(), vec![chase])
    };
    assert_eq!((planned(Clip::Collar), planned(Clip::HarnessBack)), (Some(Caution), None));
}

#[test]
fn hands_hold_ten_metres_of_line() {
    let found = |line, metres| {
        let item = exercise("Recall", |item| {
            (item.line, item.clip, item.line_metres) = (Some(line), Some(Clip::HarnessBack), Some(metres));
        });
        in_plan("line_too_long", &dog(), vec![item])
    };
    assert_eq!(found(Line::LongLine, 10), None);
    assert_eq!(found(Line::LongLine, 11), Some(Notice));
    assert_eq!(found(Line::TrailingLine, 20), None);
}

#[test]
fn equipment_that_failed_is_a_caution() {
    let met = EncounterFacts::on(DAY, EncounterKind::EquipmentFailed);
    assert_eq!(
        of("equipment_failed", &evaluate_encounter(&EncounterContext::of(&met, &dog()))),
        Some(Caution)
    );
    let other = EncounterFacts::on(DAY, EncounterKind::Other);
    assert_eq!(evaluate_encounter(&EncounterContext::of(&other, &dog())), []);
}
