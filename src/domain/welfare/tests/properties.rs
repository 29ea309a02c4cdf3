//! What holds for every sitting, encounter, plan and dog.

use super::*;
use crate::domain::dog::Weighing;
use crate::domain::place::PlaceFacts;
use crate::domain::vocabulary::{
    Basis, Children, Clip, EncounterKind, Energy, Felt, Finish, HealthSign, ItemKind, Line, Looked, Outcome,
    Recovery, SkillClass, TookFood, Towards, Word,
};
use crate::domain::weather::Weather;
use crate::ids::{LineId, StepId};
use Severity::{Caution, Stop};
use proptest::prelude::*;
use time::macros::datetime;
use time::{Duration, OffsetDateTime};
use uuid::Uuid;

const AT: OffsetDateTime = datetime!(2025-06-20 10:00 UTC);

fn any_of<W: Word + std::fmt::Debug>() -> impl Strategy<Value = Option<W>> {
    prop::option::of(prop::sample::select(W::ALL))
}

fn maybe<S: Strategy>(strategy: S) -> impl Strategy<Value = Option<S::Value>>
where
    S::Value: std::fmt::Debug,
{
    prop::option::of(strategy)
}

/// Every number that the type can hold, mostly those that mean something.
fn number() -> impl Strategy<Value = Option<i16>> {
    maybe(prop_oneof![8 => 0_i16..=40, 1 => any::<i16>()])
}

fn decimal() -> impl Strategy<Value = Option<f64>> {
    maybe(prop_oneof![8 => -50.0..150.0, 1 => any::<f64>()])
}

fn day() -> impl Strategy<Value = Date> {
    prop_oneof![
        20 => (-400_i64..30).prop_map(|days| DAY + Duration::days(days)),
        1 => Just(Date::MIN),
        1 => Just(Date::MAX),
    ]
}

prop_compose! {
    fn any_place()(
        secure in any::<Option<bool>>(), near_road in any::<Option<bool>>(),
        road_metres in number(), off_lead_allowed in any::<Option<bool>>(),
    ) -> PlaceFacts {
        PlaceFacts { secure, near_road, road_metres, off_lead_allowed }
    }
}

prop_compose! {
    fn any_sitting()(
        when in (prop_oneof![3 => Just(DAY), 2 => day()], 1_u128..3, 1_u128..3),
        kind in (any_of::<Energy>(), any::<Option<bool>>(), any_of::<SkillClass>(), any_of::<Outcome>()),
        equipment in (any_of::<Line>(), any_of::<Clip>(), any_of::<Basis>()),
        planned in (any_of::<Line>(), any_of::<Clip>(), number(), number(), number()),
        place in (any_place(), number()),
        weather in (decimal(), number(), any_of::<Felt>(), any::<Option<bool>>()),
        counts in (number(), number(), number(), number(), number()),
        state in (number(), number(), any_of::<TookFood>(), any_of::<Looked>(), any_of::<Recovery>()),
        end in (any_of::<Finish>(), prop::collection::vec(prop::sample::select(HealthSign::ALL), 0..3)),
        trouble in (any::<bool>(), any::<bool>(), any::<Option<bool>>(), any::<Option<bool>>(), any::<Option<bool>>()),
    ) -> Sitting {
        sitting(|s| {
            s.local_date = when.0;
            s.plan_line = Some(LineId(Uuid::from_u128(when.1)));
            s.step = Some(StepId(Uuid::from_u128(when.2)));
            (s.energy, s.impact, s.class, s.outcome) = kind;
            (s.line, s.clip, s.equipment) = equipment;
            (s.planned.line, s.planned.clip, s.planned.minutes, s.planned.cool_down_minutes, s.planned.line_metres) =
                planned;
            (s.place, s.place_distraction) = place;
            s.weather = Weather {
                air_c: weather.0, humidity: weather.1, felt: weather.2, in_sun: weather.3, hot_ground: weather.3,
            };
            (s.minutes, s.attempts, s.met, s.rewarded, s.cool_down_minutes) = counts;
            (s.arousal_before, s.arousal_end, s.took_food, s.looked, s.recovery) = state;
            (s.finish, s.health_signs) = end;
            (s.bolted, s.bite, s.child_held_line, s.loop_round_hand, s.had_break) = trouble;
        })
    }
}

prop_compose! {
    fn any_dog()(
        born in maybe(day()), expected_adult_kg in decimal(), home_since in maybe(day()),
        record in (any::<bool>(), any::<bool>(), any::<bool>(), any::<Option<bool>>()),
        children in any_of::<Children>(),
        weights in prop::collection::vec((day(), prop_oneof![9 => 0.1..150.0, 1 => any::<f64>()]), 0..4),
    ) -> DogFacts {
        let mut weighings: Vec<Weighing> = weights.into_iter().map(|(on, kg)| Weighing { on, kg }).collect();
        weighings.sort_by_key(|weighing| std::cmp::Reverse(weighing.on));
        DogFacts {
            born, expected_adult_kg, home_since, children, weighings,
            bite_on_record: record.0, growl_on_record: record.1, has_bolted: record.2, sore: record.3,
            tried_before: "Whistle, gate, recall".to_owned(),
            ..dog()
        }
    }
}

prop_compose! {
    fn any_encounter()(
        on in day(), kind in prop::sample::select(EncounterKind::ALL), towards in any_of::<Towards>(),
        broken_skin in any::<Option<bool>>(), numbers in (number(), number()), looked in any_of::<Looked>(),
        warned in any::<Option<bool>>(), line in any_of::<Line>(), hours in maybe(-60_i64..60),
    ) -> EncounterFacts {
        EncounterFacts {
            towards, broken_skin, looked, warned, line,
            distance_m: numbers.0, reaction: numbers.1,
            happened_at: hours.map(|hours| AT + Duration::hours(hours)),
            ..EncounterFacts::on(on, kind)
        }
    }
}

prop_compose! {
    fn any_item()(
        kind in prop::sample::select(ItemKind::ALL), title in prop::sample::select(&["Recall", "Marker", "Gate", ""][..]),
        line_id in maybe(1_u128..4), energy in any_of::<Energy>(), impact in any::<Option<bool>>(),
        step in (number(), prop::sample::select(&["", "3 metres", "1 min", "9e9 m", "far"][..]), number()),
        equipment in (any_of::<Line>(), any_of::<Clip>(), number()),
        asked in (number(), number(), number(), number()),
        outcome in any_of::<Outcome>(), place in (any_place(), number()), rank in number(),
    ) -> PlannedItem {
        PlannedItem {
            line_id: line_id.map(|n| LineId(Uuid::from_u128(n))),
            energy, impact, outcome,
            step_position: step.0, distance: step.1.to_owned(), duration: step.1.to_owned(), distraction: step.2,
            line: equipment.0, clip: equipment.1, line_metres: equipment.2,
            attempts: asked.0, minutes: asked.1, times_a_week: asked.2, cool_down_minutes: asked.3,
            place_facts: place.0, place_distraction: place.1, reinforcer_rank: rank,
            ..PlannedItem::new(title, kind)
        }
    }
}

fn worst(findings: &[Finding]) -> Option<Severity> {
    findings.iter().map(|finding| finding.severity).max()
}

fn found(sitting: &Sitting, dog: &DogFacts, recent: &[Sitting]) -> Vec<Finding> {
    evaluate_log(&LogContext { recent, not_used: &[Clip::Prong], ..LogContext::of(sitting, dog) })
}

/// Takes one fact away.
const ERASERS: [fn(&mut Sitting); 16] = [
    |s| s.line = None,
    |s| s.clip = None,
    |s| s.energy = None,
    |s| s.finish = None,
    |s| s.recovery = None,
    |s| s.arousal_end = None,
    |s| s.looked = None,
    |s| s.took_food = None,
    |s| s.minutes = None,
    |s| (s.attempts, s.met) = (None, None),
    |s| s.rewarded = None,
    |s| s.bite = false,
    |s| s.health_signs.clear(),
    |s| s.place.secure = None,
    |s| (s.place.road_metres, s.place.near_road) = (None, None),
    |s| s.child_held_line = None,
];

/// Makes a sitting worse in one way.
const WORSE: [fn(&mut Sitting); 10] = [
    |s| s.minutes = s.minutes.map(|n| n.saturating_add(5)),
    |s| s.cool_down_minutes = s.cool_down_minutes.map(|n| (n / 2).min(n)),
    |s| s.met = s.met.map(|n| n.saturating_sub(1).max(0).min(n)),
    |s| s.arousal_end = s.arousal_end.map(|n| n.saturating_add(1)),
    |s| s.place.road_metres = s.place.road_metres.map(|n| (n / 2).min(n)),
    |s| s.child_held_line = Some(true),
    |s| s.loop_round_hand = Some(true),
    |s| s.had_break = Some(false),
    |s| s.planned.line_metres = s.planned.line_metres.map(|n| n.saturating_add(5)),
    |s| s.bolted = true,
];

/// Makes a dog's risk greater in one way.
const RISKIER: [fn(&mut DogFacts); 5] = [
    |d| d.has_bolted = true,
    |d| d.bite_on_record = true,
    |d| d.growl_on_record = true,
    |d| d.sore = Some(true),
    |d| d.children = Some(Children::Living),
];

proptest! {
    #[test]
    fn no_sitting_panics(sittings in prop::collection::vec(any_sitting(), 1..12), dog in any_dog(),
                         others in prop::collection::vec(any_encounter(), 0..3)) {
        let (sitting, recent) = (&sittings[0], &sittings[1..]);
        let context = LogContext { recent, encounters: &others, ..LogContext::of(sitting, &dog) };
        for finding in evaluate_log(&context) {
            prop_assert!(!finding.seen.is_empty() && finding.seen.chars().count() <= 1000);
            prop_assert!(!finding.owner_seen.is_empty());
        }
    }

    #[test]
    fn no_encounter_panics(met in any_encounter(), others in prop::collection::vec(any_encounter(), 0..4), dog in any_dog()) {
        for finding in evaluate_encounter(&EncounterContext { recent: &others, ..EncounterContext::of(&met, &dog) }) {
            prop_assert!(!finding.seen.is_empty() && !finding.owner_seen.is_empty());
        }
    }

    #[test]
    fn no_plan_panics(now in prop::collection::vec(any_item(), 0..6), then in prop::collection::vec(any_item(), 0..4),
                      dog in any_dog(), today in day()) {
        let (plan, current) = (PlanFacts { items: now }, PlanFacts { items: then });
        let context = PlanContext { current: Some(&current), ..PlanContext::of(&plan, &dog, today) };
        for finding in evaluate_plan(&context) {
            prop_assert!(finding.item.is_none_or(|index| index < plan.items.len()));
        }
    }

    /// Not stated never raises a stop: taking a fact away never brings one that was not there.
    #[test]
    fn leaving_a_fact_out_never_raises_a_stop(whole in any_sitting(), dog in any_dog()) {
        let stops = |sitting: &Sitting| -> Vec<&'static str> {
            let found = found(sitting, &dog, &[]);
            found.iter().filter(|finding| finding.severity == Stop).map(|finding| finding.rule.id).collect()
        };
        let before = stops(&whole);
        for erase in ERASERS {
            let mut less = whole.clone();
            erase(&mut less);
            prop_assert!(stops(&less).iter().all(|stop| before.contains(stop)));
        }
    }

    /// More minutes, less cool-down, fewer met, a nearer road, more on record: never a milder finding.
    #[test]
    fn worse_is_never_milder(sitting in any_sitting(), recent in prop::collection::vec(any_sitting(), 0..8), dog in any_dog()) {
        // pay has a rule of its own, which reads fewer met as fewer unpaid
        let sitting = Sitting { rewarded: None, ..sitting };
        let before = worst(&found(&sitting, &dog, &recent));
        for worsen in WORSE {
            let mut worse = sitting.clone();
            worsen(&mut worse);
            prop_assert!(worst(&found(&worse, &dog, &recent)) >= before);
        }
        for risk in RISKIER {
            let mut riskier = dog.clone();
            risk(&mut riskier);
            prop_assert!(worst(&found(&sitting, &riskier, &recent)) >= before);
        }
    }
}

fn careful(days_ago: i64) -> Sitting {
    sitting(|s| {
        s.local_date = DAY - Duration::days(days_ago);
        s.plan_line = Some(LineId(Uuid::from_u128(1)));
        (s.energy, s.impact, s.outcome) = (Some(Energy::Arousing), Some(true), Some(Outcome::Count));
        (s.line, s.clip, s.equipment) = (Some(Line::LongLine), Some(Clip::HarnessBack), Some(Basis::Stated));
        (s.planned.minutes, s.planned.cool_down_minutes) = (Some(10), Some(10));
        s.place = PlaceFacts {
            secure: Some(true),
            near_road: Some(false),
            road_metres: Some(200),
            off_lead_allowed: Some(false),
        };
        (s.attempts, s.met, s.rewarded, s.minutes) = (Some(8), Some(7), Some(7), Some(10));
        (s.arousal_before, s.arousal_end) = (Some(2), Some(3));
        (s.took_food, s.looked, s.recovery) =
            (Some(TookFood::Gently), Some(Looked::Loose), Some(Recovery::Within5));
        (s.finish, s.cool_down_minutes) = (Some(Finish::SniffWalk), Some(10));
        (s.weather.felt, s.child_held_line) = (Some(Felt::Mild), Some(false));
    })
}

#[test]
fn a_careful_sitting_raises_nothing() {
    let recent: Vec<Sitting> = (1..10).map(|n| careful(3 * n)).collect();
    let weighings = vec![Weighing { on: DAY, kg: 19.6 }, Weighing { on: DAY - Duration::days(90), kg: 20.0 }];
    let dog = DogFacts { weighings, children: Some(Children::Living), ..dog() };
    assert_eq!(short(&found(&careful(0), &dog, &recent)), []);
}

#[test]
fn a_tidy_plan_raises_nothing() {
    let item = |n: u128, title: &str, rung| PlannedItem {
        line_id: Some(LineId(Uuid::from_u128(n))),
        step_position: Some(rung),
        minutes: Some(5),
        times_a_week: Some(3),
        place: Some("Garden".to_owned()),
        place_distraction: Some(2),
        place_facts: PlaceFacts { secure: Some(true), near_road: Some(false), ..PlaceFacts::default() },
        reinforcer: Some("Chicken".to_owned()),
        reinforcer_rank: Some(4),
        ..PlannedItem::new(title, ItemKind::Exercise)
    };
    let recall = |rung| PlannedItem {
        energy: Some(Energy::Arousing),
        impact: Some(true),
        line: Some(Line::LongLine),
        clip: Some(Clip::HarnessBack),
        line_metres: Some(10),
        cool_down_minutes: Some(10),
        ..item(1, "Recall", rung)
    };
    let gate = PlannedItem::new("A gate between the children and her", ItemKind::StandingArrangement);
    let plan = PlanFacts { items: vec![gate, recall(2), item(2, "Mat", 1)] };
    let current = PlanFacts { items: vec![recall(1)] };
    let dog = DogFacts { growl_on_record: true, children: Some(Children::Living), ..dog() };
    let context = PlanContext { current: Some(&current), ..PlanContext::of(&plan, &dog, DAY) };
    assert_eq!(short(&evaluate_plan(&context)), []);
}

#[test]
fn the_worst_stands_first() {
    let sitting = sitting(|s| {
        (s.child_held_line, s.took_food, s.looked) =
            (Some(true), Some(TookFood::Refused), Some(Looked::Frozen));
    });
    assert_eq!(
        short(&evaluate_log(&LogContext::of(&sitting, &dog()))),
        [("child_held_line", Stop), ("shut_down", Caution)]
    );
}
