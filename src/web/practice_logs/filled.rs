//! The form filled in from a log, so that sending it unchanged states the same.

use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Basis, Line, Word};
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::web::choices::{number, yes_no};
use crate::web::practice_logs::fields::{AS_LOGGED, AS_PLANNED, NOT_SURE, is_line_work};
use crate::web::{Form, when};

fn stored<W: Word>(said: Option<W>) -> &'static str {
    said.map_or("", Word::stored)
}

/// Whether a sitting was elsewhere than planned.
pub fn is_elsewhere(log: &PracticeLog, item: &PlanItem) -> bool {
    log.place_name != item.place_name || log.sitting.place_distraction != item.place_distraction
}

/// The form as it would have been filled in.
pub fn filled(log: &PracticeLog, item: &PlanItem, zone: &str) -> Form {
    let s = &log.sitting;
    let (on, at) = when::filled((log.started_at, s.local_date), zone);
    let mut form = equipment(counts(Form::blank(), s), item, s)
        .with("outcome_value", number(log.outcome_value))
        .with("place", if is_elsewhere(log, item) { AS_LOGGED } else { "" })
        .with("busy", stored(s.busy))
        .with("minutes", number(s.minutes))
        .with("looked", stored(s.looked))
        .with("took_food", stored(s.took_food))
        .with("arousal_before", number(s.arousal_before))
        .with("arousal_end", number(s.arousal_end))
        .with("recovery", stored(s.recovery))
        .with("finish", stored(s.finish))
        .with("cool_down_minutes", number(s.cool_down_minutes))
        .with("handler", &log.handler)
        .with("child_held_line", yes_no(s.child_held_line))
        .with("loop_round_hand", yes_no(s.loop_round_hand))
        .with("muzzle_worn", yes_no(s.muzzle_worn))
        .with("had_break", yes_no(s.had_break))
        .with("felt", stored(s.weather.felt))
        .with("air_c", number(s.weather.air_c))
        .with("humidity", number(s.weather.humidity))
        .with("note", &log.note)
        .with("on", on)
        .with("at", at);
    for sign in &s.health_signs {
        form = form.with("health", sign.stored());
    }
    let weather = [("in_sun", s.weather.in_sun), ("hot_ground", s.weather.hot_ground)];
    let weather = weather.map(|(name, stated)| (name, stated == Some(true)));
    for (name, is_ticked) in [("bolted", s.bolted), ("bite", s.bite)].into_iter().chain(weather) {
        if is_ticked {
            form = form.with(name, "yes");
        }
    }
    form
}

/// The pieces that were left, where that says it all; otherwise the counts.
fn counts(form: Form, s: &Sitting) -> Form {
    let form = form.with("attempts", number(s.attempts));
    match (s.attempts, s.met) {
        (Some(attempts), Some(met)) if s.rewarded == Some(met) => {
            form.with("left", (attempts - met).to_string())
        }
        _ => form.with("met", number(s.met)).with("rewarded", number(s.rewarded)),
    }
}

fn equipment(form: Form, item: &PlanItem, s: &Sitting) -> Form {
    let stated = s.line.filter(|_| s.equipment == Some(Basis::Stated));
    let is_as_planned = is_line_work(item) && stated == Some(item.line);
    let clip = match (s.equipment, s.clip) {
        (None, _) => "",
        (Some(Basis::AsPlanned), _) => AS_PLANNED,
        (Some(Basis::Stated), _) if s.line == Some(Line::None) => "",
        (Some(Basis::Stated), None) => NOT_SURE,
        (Some(Basis::Stated), clip) if clip == item.clip => AS_PLANNED,
        (Some(Basis::Stated), Some(clip)) => clip.stored(),
    };
    form.with("clip", clip).with("line", stored(stated.filter(|_| !is_as_planned)))
}
