//! A sitting and what came of it: for owners what went well first, for trainers the facts and figures.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;
use time::Date;

use crate::actions::raise_flags;
use crate::app::App;
use crate::domain::readiness::Readiness;
use crate::domain::revision::may_revise;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Basis, Capture, Finish, FlagState, Outcome, Role, Severity, Word};
use crate::ids::{DogId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::flag::Wanted;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::store::sign_in::SignedIn;
use crate::store::{dog, flag, plan, practice_log, readiness};
use crate::web::practice_logs::edit::page_of;
use crate::web::practice_logs::{figures, well};
use crate::web::revisions::{self, Change, Facts};
use crate::web::watch::Watch;
use crate::web::{Answer, AnyMember, At, Page, WebError, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "practice_logs/show_owner.html")]
struct OwnerResult {
    page: Page,
    dog: Dog,
    item: PlanItem,
    when: String,
    headline: String,
    well: Vec<String>,
    urgent: Vec<Watch>,
    watch: Vec<Watch>,
    reading: String,
    /// The calm ending that the plan asks for, where none was stated yet.
    then: String,
    /// What to add where teeth or running off were ticked: the kind of encounter.
    add: &'static str,
    facts: Facts,
    note: String,
    past: Past,
}

#[derive(Template, WebTemplate)]
#[template(path = "practice_logs/show_trainer.html")]
struct TrainerResult {
    page: Page,
    dog: Dog,
    item: PlanItem,
    when: String,
    by: String,
    trainer_seen: bool,
    headline: String,
    watch: Vec<Watch>,
    verdict: String,
    stream: String,
    facts: Facts,
    note: String,
    past: Past,
}

/// What became of a sitting since it was logged.
struct Past {
    /// The address of its page.
    path: String,
    /// Whether whoever reads may change or remove it.
    may_revise: bool,
    /// Whether it was removed.
    is_removed: bool,
    /// What was done to it, the newest first.
    changes: Vec<Change>,
}

/// The page of a sitting.
pub async fn show(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let log = practice_log::find(&mut who.tx, dog.id, log).await?.ok_or(WebError::NotFound)?;
    let item = plan::item(&mut who.tx, dog.id, log.item).await?.ok_or(WebError::NotFound)?;
    let mut flags = flag::of_dog(&mut who.tx, dog.id, Wanted::About(log.id.0)).await?;
    flags.retain(|flag| flag.state != FlagState::Withdrawn);
    let state = match log.step {
        Some(step) => readiness::find(&mut who.tx, dog.id, log.line_id, step).await?.map(|kept| kept.state),
        None => None,
    };
    let today = zones::local_date(app.moment().at, &dog.zone);
    let when = zones::day_and_time(log.started_at, &dog.zone, today);
    let past = past(&app, &mut who, &dog, &log, today).await?;
    if who.member.role == Role::Owner {
        let cards: Vec<Watch> = flags.iter().map(Watch::for_owner).collect();
        return owner_page(&mut who, dog, item, log, (when, past), cards, state).await;
    }
    let watch = flags.iter().map(Watch::for_trainer).collect();
    Ok(trainer_page(&who, dog, item, log, (when, past), watch, state).into_response())
}

async fn past(
    app: &App,
    who: &mut SignedIn,
    dog: &Dog,
    log: &PracticeLog,
    today: Date,
) -> Result<Past, WebError> {
    let revisions = practice_log::revisions(&mut who.tx, dog.id, log.id).await?;
    let trainer = who.member.role != Role::Owner;
    let said = |log: &PracticeLog| told(log, &dog.zone, today, trainer);
    let may = may_revise(&who.actor, log.by_member, log.received_at, app.moment().at);
    Ok(Past {
        path: page_of(log),
        may_revise: may.allowed() && log.removed_at.is_none(),
        is_removed: log.removed_at.is_some(),
        changes: revisions::changes(&revisions, log, said, &dog.zone, today),
    })
}

async fn owner_page(
    who: &mut SignedIn,
    dog: Dog,
    item: PlanItem,
    log: PracticeLog,
    (when, past): (String, Past),
    cards: Vec<Watch>,
    state: Option<Readiness>,
) -> Answer {
    let sitting = &log.sitting;
    // While something is to be paused, nobody is urged towards one more good sitting.
    let state = state.filter(|_| cards.iter().all(|card| card.kind != Severity::Stop.stored()));
    let (urgent, watch) = cards.into_iter().partition(|card| card.urgent);
    let asks_for_calm = sitting.finish.is_none() && sitting.cool_down_minutes.is_none();
    let result = OwnerResult {
        page: own_dog::page(who, format!("{}: {}", dog.name, item.name), "today").await?,
        headline: headline(&log),
        well: well::sentences(sitting, &dog.name, raise_flags::facts(&dog).pronouns()),
        urgent,
        watch,
        reading: state.map(|state| figures::owner_reading(&state, item.class)).unwrap_or_default(),
        then: if asks_for_calm { item.cool_down_way.clone() } else { String::new() },
        add: match (sitting.bite, sitting.bolted) {
            (true, _) => "bite",
            (false, true) => "bolted",
            (false, false) => "",
        },
        facts: facts(&log, false),
        note: log.note,
        past,
        when,
        item,
        dog,
    };
    Ok(result.into_response())
}

fn trainer_page(
    who: &SignedIn,
    dog: Dog,
    item: PlanItem,
    log: PracticeLog,
    (when, past): (String, Past),
    watch: Vec<Watch>,
    state: Option<Readiness>,
) -> TrainerResult {
    let counted = log.sitting.counted();
    TrainerResult {
        page: Page::of(who, format!("{}: {}", dog.name, item.name), "caseload"),
        headline: counted.map_or_else(
            || value(&log).unwrap_or_else(|| "Not counted".to_owned()),
            |(attempts, met)| figures::trainer_counts(met.into(), attempts.into()),
        ),
        watch,
        verdict: state.map(|state| state.verdict(item.class).for_trainer()).unwrap_or_default(),
        stream: state.map(|state| figures::trainer_counts(state.met, state.attempts)).unwrap_or_default(),
        trainer_seen: log.sitting.trainer_seen,
        facts: facts(&log, true),
        by: log.by,
        note: log.note,
        past,
        when,
        item,
        dog,
    }
}

fn headline(log: &PracticeLog) -> String {
    value(log).unwrap_or_else(|| well::headline(&log.sitting))
}

/// What was measured where nothing is counted, with its unit: "Calm for 6 min".
pub fn value(log: &PracticeLog) -> Option<String> {
    let (value, outcome) = log.outcome_value.zip(log.sitting.outcome)?;
    Some(match outcome {
        Outcome::Count => return None,
        Outcome::Distance => format!("Comfortable at {value} m"),
        Outcome::Duration => format!("Calm for {value} minutes"),
        Outcome::Recovery => format!("Recovered in {value} minutes"),
        Outcome::Events if value.abs() < f64::EPSILON => "It did not happen that day".to_owned(),
        Outcome::Events => format!("It happened {value} times that day"),
    })
}

/// Everything that a log says, as whoever changes it compares it.
pub(super) fn told(log: &PracticeLog, zone: &str, today: Date, trainer: bool) -> Facts {
    let counted = log.sitting.counted().map(|(attempts, met)| match trainer {
        true => format!("{met} of {attempts} met"),
        false => format!("{met} of {attempts} earned the “yes”"),
    });
    let mut told = vec![("When", zones::day_and_time(log.started_at, zone, today))];
    told.extend(value(log).or(counted).map(|count| ("Result", count)));
    told.extend(facts(log, trainer).into_iter().filter(|(label, _)| *label != "Logged by"));
    let s = &log.sitting;
    told.extend(s.bolted.then(|| ("Ran off", "Yes".to_owned())));
    told.extend(s.bite.then(|| ("Teeth touched", "Yes".to_owned())));
    told.extend(Some(log.note.clone()).filter(|note| !note.is_empty()).map(|note| ("Note", note)));
    told
}

/// What was stated, label and value. Trainers also read how it is known.
fn facts(log: &PracticeLog, trainer: bool) -> Facts {
    let s: &Sitting = &log.sitting;
    let minutes = |n: Option<i16>| n.map(|n| format!("{n} min"));
    let word = |text: Option<&'static str>| text.map(str::to_owned);
    let assumed = trainer && s.equipment == Some(Basis::AsPlanned);
    let basis = if assumed { " (assumed as planned)" } else { "" };
    let arousal = s.arousal_before.or(s.arousal_end).map(|_| {
        let side = |n: Option<i16>| n.map_or("–".to_owned(), |n| n.to_string());
        format!("{} before, {} at the end, of 5", side(s.arousal_before), side(s.arousal_end))
    });
    let signs: Vec<&str> = s.health_signs.iter().map(|sign| sign.label()).collect();
    let captured = match log.capture {
        Capture::OneTap => "One tap",
        Capture::Form => "Form",
        Capture::Lesson => "Lesson",
    };
    let rows = [
        ("Where", Some(log.place_name.clone())),
        ("How busy", word(s.busy.map(Word::label))),
        ("Took", minutes(s.minutes)),
        ("Rewarded", s.rewarded.map(|n| format!("{n} times"))),
        (if trainer { "Line" } else { "On" }, s.line.map(|line| format!("{}{basis}", line.label()))),
        ("Clipped to", s.clip.map(|clip| format!("{}{basis}", clip.label()))),
        ("Looked", word(s.looked.map(Word::label))),
        ("Took food", word(s.took_food.map(Word::label))),
        ("Arousal", arousal.filter(|_| trainer)),
        ("Recovered", word(s.recovery.map(Word::label))),
        ("Finished", word(s.finish.map(Finish::label))),
        (if trainer { "Cool-down" } else { "Calm ending" }, minutes(s.cool_down_minutes)),
        ("Unlike usual", Some(signs.join(", "))),
        ("Handler", Some(log.handler.clone())),
        ("Logged by", Some(captured.to_owned()).filter(|_| trainer)),
    ];
    rows.into_iter()
        .filter_map(|(label, value)| value.filter(|value| !value.is_empty()).map(|value| (label, value)))
        .collect()
}
