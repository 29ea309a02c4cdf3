//! Rules on sittings.

use super::*;
use crate::domain::vocabulary::{
    Basis, Clip, EncounterKind, Energy, Finish, HealthSign, Line, Looked, Outcome, Recovery, TookFood,
};
use crate::ids::{LineId, StepId};
use Severity::{Caution, Notice, Stop};
use time::Duration;
use uuid::Uuid;

#[test]
fn nothing_stated_finds_nothing() {
    assert_eq!(log(|_| ()), []);
}

#[test]
fn a_hand_in_the_loop_is_told_of_where_a_line_is_held() {
    let on = |line, looped, energy| {
        log(|s| {
            (s.line, s.clip, s.equipment) = (line, Some(Clip::HarnessBack), Some(Basis::Stated));
            (s.loop_round_hand, s.energy) = (looped, energy);
        })
    };
    let yes = Some(true);
    assert_eq!(on(Some(Line::LongLine), yes, None), [("hand_in_loop", Caution)]);
    assert_eq!(on(Some(Line::ShortLead), yes, None), [("hand_in_loop", Notice)]);
    assert_eq!(on(None, yes, None), [("hand_in_loop", Notice)]);
    assert_eq!(on(Some(Line::ShortLead), yes, Some(Energy::Arousing)), [("hand_in_loop", Caution)]);
    assert_eq!(on(Some(Line::LongLine), Some(false), None), []);
    assert_eq!(on(Some(Line::LongLine), None, None), []);
    assert_eq!(on(Some(Line::TrailingLine), yes, None), [], "nobody holds it");
    assert_eq!(on(Some(Line::None), yes, None), []);
}

#[test]
fn long_exciting_work_has_a_break_in_it() {
    let with = |minutes, had_break, energy| {
        log(|s| {
            (s.minutes, s.had_break, s.energy, s.finish) =
                (Some(minutes), had_break, energy, Some(Finish::SniffWalk))
        })
    };
    let wild = Some(Energy::Arousing);
    assert_eq!(with(6, Some(false), wild), [("no_break", Notice)]);
    assert_eq!(with(5, Some(false), wild), []);
    assert_eq!(with(6, Some(true), wild), []);
    assert_eq!(with(6, None, wild), [], "not stated raises nothing");
    assert_eq!(with(6, Some(false), Some(Energy::Calm)), []);
}

#[test]
fn a_held_long_line_belongs_on_a_harness() {
    let on = |line, clip| log(|s| (s.line, s.clip, s.equipment) = (Some(line), clip, Some(Basis::Stated)));
    for clip in [Clip::Collar, Clip::HeadCollar, Clip::SlipOrChoke, Clip::Prong] {
        assert_eq!(on(Line::LongLine, Some(clip)), [("long_line_without_harness", Stop)]);
        assert_eq!(on(Line::TrailingLine, Some(clip)), []);
        assert_eq!(on(Line::ShortLead, Some(clip)), []);
    }
    assert_eq!(on(Line::LongLine, None), [("long_line_without_harness", Caution)]);
    for clip in [Clip::HarnessBack, Clip::HarnessFront] {
        assert_eq!(on(Line::LongLine, Some(clip)), []);
    }
}

#[test]
fn assumed_equipment_is_what_the_plan_says() {
    let planned = |clip: Option<Clip>| {
        log(|s| {
            s.equipment = Some(Basis::AsPlanned);
            (s.line, s.clip) = (Some(Line::LongLine), Some(Clip::HarnessBack));
            (s.planned.line, s.planned.clip) = (Some(Line::LongLine), clip);
        })
    };
    assert_eq!(planned(Some(Clip::HarnessBack)), []);
    assert_eq!(planned(Some(Clip::Collar)), [("long_line_without_harness", Stop)]);
    assert_eq!(planned(None), [("long_line_without_harness", Caution)]);
}

fn straight_home(s: &mut Sitting) {
    (s.energy, s.finish) = (Some(Energy::Arousing), Some(Finish::StraightHome));
}

#[test]
fn a_missing_cool_down_is_a_notice_once() {
    assert_eq!(log(straight_home), [("cool_down_missing", Notice)]);
    assert_eq!(
        log(|s| {
            straight_home(s);
            s.recovery = Some(Recovery::Longer);
        }),
        [("cool_down_missing", Caution)]
    );
    let running = |s: &mut Sitting| (s.impact, s.cool_down_minutes) = (Some(true), Some(0));
    assert_eq!(log(running), [("cool_down_missing", Notice)]);
}

#[test]
fn calm_work_and_silence_about_the_ending_raise_nothing() {
    assert_eq!(log(|s| (s.energy, s.finish) = (Some(Energy::Calm), Some(Finish::StraightHome))), []);
    assert_eq!(log(|s| s.finish = Some(Finish::StraightHome)), []);
    assert_eq!(log(|s| s.energy = Some(Energy::Arousing)), []);
    assert_eq!(log(|s| (s.energy, s.finish) = (Some(Energy::Arousing), Some(Finish::SniffWalk))), []);
}

#[test]
fn a_cool_down_shorter_than_planned_counts_as_short() {
    let took = |minutes| {
        log(|s| {
            s.energy = Some(Energy::Arousing);
            s.finish = Some(Finish::SniffWalk);
            (s.cool_down_minutes, s.planned.cool_down_minutes) = (Some(minutes), Some(10));
        })
    };
    assert_eq!(took(9), [("cool_down_missing", Notice)]);
    assert_eq!(took(0), [("cool_down_missing", Notice)]);
    assert_eq!(took(10), []);
}

#[test]
fn three_of_the_last_five_arousing_sittings_are_a_pattern() {
    let day_before = |s: &mut Sitting| s.local_date = DAY - Duration::days(1);
    let bad = sitting(|s| {
        straight_home(s);
        day_before(s);
    });
    let good = sitting(|s| {
        (s.energy, s.finish) = (Some(Energy::Arousing), Some(Finish::Chew));
        day_before(s);
    });
    let calm = sitting(|s| (s.energy, s.finish) = (Some(Energy::Calm), Some(Finish::StraightHome)));
    let recent = |recent: &[&Sitting]| {
        let recent: Vec<Sitting> = recent.iter().map(|past| (*past).clone()).collect();
        after(&recent, straight_home)
    };
    assert_eq!(recent(&[&bad, &good, &good, &good]), [("cool_down_missing", Notice)]);
    assert_eq!(recent(&[&good, &bad, &good, &bad]), [("cool_down_missing", Caution)]);
    assert_eq!(recent(&[&good, &bad, &good, &good, &bad]), [("cool_down_missing", Notice)]);
    assert_eq!(recent(&[&calm, &calm, &bad, &calm, &bad]), [("cool_down_missing", Caution)]);
}

#[test]
fn still_high_is_four_or_two_above_or_not_yet() {
    let ended = |before, end| log(|s| (s.arousal_before, s.arousal_end) = (before, end));
    assert_eq!(ended(None, Some(3)), []);
    assert_eq!(ended(Some(2), Some(3)), []);
    assert_eq!(ended(None, Some(4)), [("still_high", Notice)]);
    assert_eq!(ended(Some(1), Some(3)), [("still_high", Notice)]);
    assert_eq!(ended(Some(5), Some(5)), [("still_high", Caution)]);
    assert_eq!(log(|s| s.recovery = Some(Recovery::NotYet)), [("still_high", Notice)]);
    assert_eq!(log(|s| s.recovery = Some(Recovery::Within15)), []);
    let high = sitting(|s| s.arousal_end = Some(4));
    let often = after(&[high.clone(), high], |s| s.arousal_end = Some(4));
    assert_eq!(often, [("still_high", Caution)]);
}

#[test]
fn shut_down_needs_both_the_look_and_the_refusal() {
    let seen = |looked, food| log(|s| (s.looked, s.took_food) = (looked, food));
    for looked in [Looked::Worried, Looked::Frozen] {
        assert_eq!(seen(Some(looked), Some(TookFood::Refused)), [("shut_down", Caution)]);
        assert_eq!(seen(Some(looked), None), []);
        assert_eq!(seen(Some(looked), Some(TookFood::Gently)), []);
    }
    assert_eq!(seen(Some(Looked::WoundUp), Some(TookFood::Refused)), []);
    assert_eq!(seen(None, Some(TookFood::Refused)), []);
}

#[test]
fn one_unpaid_marker_may_be_a_miscount() {
    let paid = |met: i16, rewarded: i16| {
        log(|s| (s.attempts, s.met, s.rewarded) = (Some(met.max(rewarded)), Some(met), Some(rewarded)))
    };
    assert_eq!(paid(10, 10), []);
    assert_eq!(paid(10, 9), []);
    assert_eq!(paid(10, 8), [("marker_unpaid", Notice)]);
    assert_eq!(paid(30, 27), []);
    assert_eq!(paid(30, 26), [("marker_unpaid", Notice)]);
    assert_eq!(paid(10, 5), [("marker_unpaid", Notice)]);
    assert_eq!(paid(10, 4), [("marker_unpaid", Caution)]);
    assert_eq!(paid(8, 10), []);
    assert_eq!(log(|s| (s.attempts, s.met) = (Some(10), Some(10))), []);
}

fn at_step(step: u128, met: i16, attempts: i16) -> impl Fn(&mut Sitting) {
    move |s| {
        s.plan_line = Some(LineId(Uuid::from_u128(1)));
        s.step = Some(StepId(Uuid::from_u128(step)));
        (s.met, s.attempts) = (Some(met), Some(attempts));
    }
}

#[test]
fn under_half_is_pooled_over_ten_attempts_at_the_step() {
    assert_eq!(log(at_step(1, 4, 10)), [("under_half_met", Notice)]);
    assert_eq!(log(at_step(1, 5, 10)), []);
    assert_eq!(log(at_step(1, 0, 9)), [("misses_running", Notice)]);
    assert_eq!(after(&[sitting(at_step(1, 2, 5))], at_step(1, 2, 5)), [("under_half_met", Notice)]);
    assert_eq!(after(&[sitting(at_step(1, 3, 5))], at_step(1, 2, 5)), []);
    assert_eq!(after(&[sitting(at_step(2, 0, 5))], at_step(1, 2, 5)), []);
}

#[test]
fn under_half_twice_over_is_a_caution() {
    assert_eq!(after(&[sitting(at_step(1, 4, 10))], at_step(1, 4, 10)), [("under_half_met", Caution)]);
    assert_eq!(after(&[sitting(at_step(1, 7, 10))], at_step(1, 4, 10)), [("under_half_met", Notice)]);
}

#[test]
fn fear_work_is_never_scored() {
    let fear = |s: &mut Sitting| {
        at_step(1, 0, 20)(s);
        s.outcome = Some(Outcome::Distance);
    };
    assert_eq!(log(fear), []);
}

#[test]
fn far_longer_is_half_again_and_five_minutes() {
    let took = |minutes, planned| log(|s| (s.minutes, s.planned.minutes) = (Some(minutes), Some(planned)));
    assert_eq!(took(15, 10), []);
    assert_eq!(took(16, 10), [("longer_than_planned", Notice)]);
    assert_eq!(took(7, 3), []);
    assert_eq!(took(8, 3), [("longer_than_planned", Notice)]);
    assert_eq!(log(|s| s.minutes = Some(90)), []);
    let arousing = log(|s| {
        (s.minutes, s.planned.minutes, s.energy) = (Some(15), Some(9), Some(Energy::Arousing));
    });
    assert_eq!(arousing, [("longer_than_planned", Caution)]);
}

#[test]
fn health_signs_go_to_the_vet_now_or_soon() {
    use HealthSign as H;
    for sign in [H::Collapse, H::Fit, H::PaleGums, H::LabouredBreathing, H::Bloat, H::Poison] {
        assert_eq!(log(|s| s.health_signs = vec![sign]), [("vet_now", Stop)]);
    }
    assert_eq!(log(|s| s.health_signs = vec![H::Heat]), [("heat_illness", Stop)]);
    for sign in [H::Lame, H::Vomiting, H::TouchSore, H::Reluctant, H::OffFood] {
        assert_eq!(log(|s| s.health_signs = vec![sign]), [("vet_soon", Caution)]);
    }
    assert_eq!(log(|s| s.health_signs = vec![H::OtherSign]), [("vet_soon", Notice)]);
    let both = log(|s| s.health_signs = vec![H::Lame, H::Fit]);
    assert_eq!(both, [("vet_now", Stop), ("vet_soon", Caution)]);
}

#[test]
fn any_change_in_an_old_dog_goes_to_the_vet() {
    let sitting = sitting(|s| s.health_signs = vec![HealthSign::OtherSign]);
    let found = |born| {
        let dog = DogFacts { born: Some(born), ..dog() };
        short(&evaluate_log(&LogContext::of(&sitting, &dog)))
    };
    assert_eq!(found(date!(2017 - 06 - 20)), [("vet_soon", Caution)]);
    assert_eq!(found(date!(2017 - 06 - 21)), [("vet_soon", Notice)]);
}

#[test]
fn bolting_and_biting_in_a_sitting_are_found() {
    assert_eq!(log(|s| s.bolted = true), [("bolted", Caution)]);
    let off_lead = |basis| {
        log(|s| {
            (s.bolted, s.line, s.planned.line, s.equipment) =
                (true, Some(Line::None), Some(Line::None), basis)
        })
    };
    assert_eq!(off_lead(Some(Basis::Stated)), [("bolted", Stop)]);
    assert_eq!(off_lead(Some(Basis::AsPlanned)), [("bolted", Caution)], "assumed from the plan");
    assert_eq!(log(|s| s.bite = true), [("bite", Caution)]);
    let bitten = |days: i64| {
        let other = EncounterFacts::on(DAY - Duration::days(days), EncounterKind::Bite);
        let bitten = sitting(|s| s.bite = true);
        short(&evaluate_log(&LogContext { encounters: &[other], ..LogContext::of(&bitten, &dog()) }))
    };
    assert_eq!(bitten(30), [("second_incident", Stop), ("bite", Caution)]);
    assert_eq!(bitten(31), [("bite", Caution)]);
    assert_eq!(bitten(-30), [("second_incident", Stop), ("bite", Caution)], "told out of order");
    assert_eq!(bitten(-31), [("bite", Caution)]);
}

#[test]
fn both_readers_get_the_numbers_in_their_own_words() {
    let sitting = sitting(|s| {
        straight_home(s);
        (s.line, s.clip) = (Some(Line::LongLine), Some(Clip::Collar));
    });
    let found = evaluate_log(&LogContext::of(&sitting, &dog()));
    let said: Vec<_> = found.iter().map(|f| (f.seen.as_str(), f.owner_seen.as_str())).collect();
    assert_eq!(
        said,
        [
            (
                "Bracken worked on a held long line clipped to the collar.",
                "The long line was clipped to Bracken's collar, not to a harness."
            ),
            ("No cool-down after arousing work.", "There was no calm ending after the exciting part."),
        ]
    );
}

#[test]
fn what_was_seen_reads_as_a_colleague_says_it() {
    let said = |change: fn(&mut Sitting)| {
        let sitting = sitting(change);
        let found = evaluate_log(&LogContext::of(&sitting, &dog()));
        found.into_iter().map(|finding| finding.seen).collect::<Vec<_>>()
    };
    let signs = |s: &mut Sitting| {
        s.health_signs = vec![HealthSign::Collapse, HealthSign::Fit, HealthSign::LabouredBreathing];
    };
    assert_eq!(said(signs), ["Bracken collapsed, had a fit and was struggling to breathe."]);
    let level = |s: &mut Sitting| (s.arousal_before, s.arousal_end) = (Some(3), Some(3));
    assert!(said(level).is_empty());
    assert_eq!(
        said(|s| {
            (s.arousal_before, s.arousal_end) = (Some(3), Some(3));
            s.recovery = Some(Recovery::NotYet);
        }),
        ["Bracken had not recovered yet when this was logged."]
    );
    assert_eq!(
        said(|s| {
            (s.arousal_before, s.arousal_end) = (Some(2), Some(4));
            s.recovery = Some(Recovery::NotYet);
        }),
        ["Bracken began at arousal 2 and ended at 4, and had not recovered yet when this was logged."]
    );
}
