//! A sitting as a form states it. Everything may be left open but what the exercise is counted by.

use time::{Date, OffsetDateTime};

use crate::actions::submit_practice_log::LogInput;
use crate::domain::heat::AirTemperature;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Basis, Capture, Clip, ItemKind, Line, Outcome, Role, Word};
use crate::domain::weather::Weather;
use crate::ids::PracticeLogId;
use crate::store::dog::Dog;
use crate::store::place::Place;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::web::practice_logs::ask;
use crate::web::{Form, when, zones};

/// The answer "as planned" to how the line was clipped.
pub const AS_PLANNED: &str = "as_planned";
/// The answer "I am not sure" to the same.
pub const NOT_SURE: &str = "not_sure";
/// The answer "somewhere else" to where it was.
pub const ELSEWHERE: &str = "elsewhere";
/// The answer "as logged" to the same, where a sitting is changed that was elsewhere.
pub const AS_LOGGED: &str = "as_logged";
/// The most characters of a note.
pub const LONGEST_NOTE: usize = 2000;
/// The most minutes of a cool-down.
const LONGEST_COOL_DOWN: i16 = 240;

/// The labels of the counts, as the form shows them and messages begin with them.
const PUT_OUT: &str = "Pieces you put out";
const LEFT: &str = "Pieces left";

/// The label of a count that reads differently for a trainer; empty for what is no count.
fn count_label(field: &str, by: Role) -> &'static str {
    match (field, by) {
        ("attempts", _) => PUT_OUT,
        ("met", Role::Owner) => "How many earned the “yes”",
        ("met", _) => "How many met the criterion",
        ("rewarded", _) => "How many were rewarded",
        _ => "",
    }
}

/// Whether an item is line work: then how the line was clipped is asked for, never taken as read.
pub fn is_line_work(item: &PlanItem) -> bool {
    item.line == Line::LongLine
}

/// Whether a sitting of an item yields a count.
pub fn is_counted(item: &PlanItem) -> bool {
    item.outcome == Outcome::Count && item.kind == ItemKind::Exercise
}

/// What a form is read for.
pub struct About<'a> {
    /// The log's id, made with the form.
    pub id: PracticeLogId,
    /// The dog.
    pub dog: &'a Dog,
    /// The instruction that was practised.
    pub item: &'a PlanItem,
    /// The dog's places.
    pub places: &'a [Place],
    /// What whoever writes may do.
    pub by: Role,
    /// Now.
    pub now: OffsetDateTime,
    /// The log that is changed; `None` for a new one.
    pub logged: Option<&'a PracticeLog>,
}

/// Reads one tap: "as planned, so many pieces left", what was measured, or that it was done. What cannot be right stays in
/// the form.
pub fn one_tap(form: &mut Form, about: &About<'_>) -> LogInput {
    let item = about.item;
    let mut sitting = Sitting::on(zones::local_date(about.now, &about.dog.zone));
    sitting.equipment = Some(Basis::AsPlanned);
    if is_line_work(item) {
        if !form.tick("clipped") {
            form.refuse("clip", "Say how the line was clipped.");
        }
        (sitting.line, sitting.clip, sitting.equipment) = (Some(item.line), item.clip, Some(Basis::Stated));
    }
    if item.outcome != Outcome::Count {
        if form.value("outcome_value").trim().is_empty() {
            form.refuse("outcome_value", "Say what you measured.");
        }
    } else if is_counted(item) {
        one_count(form, item, &mut sitting);
    }
    input(form, about, Capture::OneTap, None, None, sitting)
}

/// The pieces that are left of those that the plan puts out.
fn one_count(form: &mut Form, item: &PlanItem, sitting: &mut Sitting) {
    let attempts = item.attempts.unwrap_or(0);
    match form.whole("left", LEFT, 0, attempts).filter(|_| attempts > 0) {
        Some(left) => {
            sitting.attempts = Some(attempts);
            sitting.met = Some(attempts - left);
            sitting.rewarded = sitting.met;
        }
        None => form.refuse("left", "Say how many pieces are left."),
    }
}

/// Reads the whole form.
pub fn whole(form: &mut Form, about: &About<'_>) -> LogInput {
    let (item, zone) = (about.item, about.dog.zone.as_str());
    let started = match about.logged {
        Some(log) => Some(when::read_again(form, zone, about.now, (log.started_at, log.sitting.local_date))),
        None => when::read(form, zone, about.now),
    };
    let mut sitting = Sitting::on(started.map_or_else(|| zones::local_date(about.now, zone), |(_, on)| on));
    if is_counted(item) {
        counts(form, about.by, &mut sitting);
    }
    equipment(form, item, &mut sitting);
    let elsewhere = place(form, about, &mut sitting);
    sitting.busy = form.word("busy");
    sitting.weather = weather(form);
    sitting.minutes = form.whole("minutes", "How long did it take", 0, 600);
    sitting.looked = form.word("looked");
    sitting.took_food = form.word("took_food");
    sitting.arousal_before = form.whole("arousal_before", "Before you started", 1, 5);
    sitting.arousal_end = form.whole("arousal_end", "At the end", 1, 5);
    sitting.recovery = form.word("recovery");
    sitting.finish = form.word("finish");
    sitting.cool_down_minutes =
        form.whole("cool_down_minutes", "How long did that calm ending last", 0, LONGEST_COOL_DOWN);
    sitting.health_signs = form.ticked("health");
    sitting.child_held_line = form.yes_no("child_held_line");
    sitting.loop_round_hand = form.yes_no("loop_round_hand");
    sitting.muzzle_worn = form.yes_no("muzzle_worn");
    sitting.had_break = form.yes_no("had_break");
    sitting.bolted = form.tick("bolted");
    sitting.bite = form.tick("bite");
    for wrong in sitting.check() {
        let label = count_label(wrong.field, about.by);
        let says = if label.is_empty() { wrong.says.to_owned() } else { format!("{label}: {}", wrong.says) };
        form.refuse(wrong.field, says);
    }
    let was_seen = about.by != Role::Owner && !form.tick("passed_on");
    let capture = if was_seen { Capture::Lesson } else { Capture::Form };
    input(form, about, capture, started, elsewhere, sitting)
}

fn input(
    form: &mut Form,
    about: &About<'_>,
    capture: Capture,
    started: Option<(OffsetDateTime, Date)>,
    elsewhere: Option<String>,
    sitting: Sitting,
) -> LogInput {
    let outcome_value = match about.item.outcome {
        Outcome::Count => None,
        _ => {
            let question =
                ask::outcome(about.item, about.dog).map(|(question, _)| question).unwrap_or_default();
            form.decimal("outcome_value", &question, 0.0, 2000.0)
        }
    };
    LogInput {
        id: about.id,
        dog: about.dog.id,
        item: about.item.id,
        capture,
        started,
        handler: form.text("handler", 120),
        outcome_value,
        elsewhere,
        note: form.text("note", LONGEST_NOTE),
        sitting,
        passed_on: form.tick("passed_on"),
        tries: Vec::new(),
        lived: None,
    }
}

/// Where it was: nothing for the planned place, the name of another one otherwise. How distracting it was is known only of
/// the dog's own places.
fn place(form: &mut Form, about: &About<'_>, sitting: &mut Sitting) -> Option<String> {
    let answer = form.text("place", 40);
    if answer.is_empty() {
        return None;
    }
    if let Some(log) = about.logged.filter(|_| answer == AS_LOGGED) {
        sitting.place_distraction = log.sitting.place_distraction;
        return Some(log.place_name.clone());
    }
    if answer == ELSEWHERE {
        return Some("Somewhere else".to_owned());
    }
    let Some(place) = about.places.iter().find(|place| place.id.to_string() == answer) else {
        form.refuse("place", "Choose where it was.");
        return None;
    };
    sitting.place_distraction = Some(place.distraction);
    Some(place.name.clone())
}

/// The weather: a word, or what was measured. A tick that is left open says nothing.
fn weather(form: &mut Form) -> Weather {
    let humidity = form.whole("humidity", "Humidity", 0, 100);
    let air_c = form.decimal("air_c", "Air", AirTemperature::LOWEST, AirTemperature::HIGHEST);
    if humidity.is_some() && air_c.is_none() && form.error("air_c").is_none() {
        form.refuse("air_c", "Air: enter the degrees as well, or leave the humidity out.");
    }
    Weather {
        air_c,
        humidity,
        felt: form.word("felt"),
        in_sun: form.tick("in_sun").then_some(true),
        hot_ground: form.tick("hot_ground").then_some(true),
    }
}

/// Attempts, and either the pieces that are left or how many earned their reward.
fn counts(form: &mut Form, by: Role, sitting: &mut Sitting) {
    sitting.attempts = form.whole("attempts", PUT_OUT, 1, 200);
    sitting.met = form.whole("met", count_label("met", by), 0, 200);
    sitting.rewarded = form.whole("rewarded", count_label("rewarded", by), 0, 200);
    let left = form.whole("left", LEFT, 0, 200);
    let Some(left) = left else {
        // a number of tries alone says nothing of how they went
        if sitting.met.is_none() && form.error("met").is_none() && form.error("left").is_none() {
            sitting.attempts = None;
        }
        return;
    };
    let Some(attempts) = sitting.attempts else {
        form.refuse("attempts", "Say how many pieces you put out.");
        return;
    };
    if left > attempts {
        form.refuse("left", format!("{LEFT}: {left} is more than the {attempts} you put out."));
        return;
    }
    let met = attempts - left;
    if sitting.met.is_some_and(|stated| stated != met) {
        let label = count_label("met", by);
        form.refuse(
            "met",
            format!("{label}: {left} left of {attempts} makes {met}. Fill in one of the two."),
        );
    }
    sitting.met = Some(met);
    sitting.rewarded = sitting.rewarded.or(Some(met));
}

/// What joined dog and handler, and where it was clipped: as planned, stated, or not stated.
fn equipment(form: &mut Form, item: &PlanItem, sitting: &mut Sitting) {
    let line: Option<Line> = form.word("line");
    let answer = form.text("clip", 40);
    let line_in_use = line.unwrap_or(item.line);
    let clip = match answer.as_str() {
        "" | NOT_SURE => None,
        AS_PLANNED => item.clip,
        stated => {
            let clip = Clip::from_stored(stated);
            if clip.is_none() {
                form.refuse("clip", "Choose how the line was clipped.");
            }
            clip
        }
    };
    if answer.is_empty() && line_in_use == Line::LongLine {
        form.refuse("clip", "Say how the line was clipped.");
    }
    if answer.is_empty() && line.is_none() {
        return;
    }
    if answer == AS_PLANNED && line.is_none() && !is_line_work(item) {
        sitting.equipment = Some(Basis::AsPlanned);
        return;
    }
    sitting.equipment = Some(Basis::Stated);
    sitting.line = Some(line_in_use);
    sitting.clip = clip.filter(|_| line_in_use != Line::None);
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn counted(body: &str) -> (Sitting, Form) {
        let mut form = Form::parse(body.as_bytes());
        let mut sitting = Sitting::on(date!(2026 - 03 - 12));
        counts(&mut form, Role::Owner, &mut sitting);
        (sitting, form)
    }

    #[test]
    fn leftover_pieces_give_attempts_met_and_rewards() {
        let (sitting, form) = counted("attempts=10&left=3&met=");
        assert_eq!((sitting.attempts, sitting.met, sitting.rewarded), (Some(10), Some(7), Some(7)));
        assert!(form.is_fine());
    }

    #[test]
    fn two_answers_that_disagree_are_refused() {
        assert!(counted("attempts=10&left=3&met=6").1.error("met").is_some());
        assert!(counted("attempts=10&left=11").1.error("left").is_some());
        assert!(counted("attempts=&left=2").1.error("attempts").is_some());
    }

    #[test]
    fn a_planned_number_alone_states_nothing() {
        let (sitting, form) = counted("attempts=10&left=&met=");
        assert_eq!((sitting.attempts, sitting.met), (None, None));
        assert!(form.is_fine());
    }
}
