//! A sitting and what came of it: for owners what went well first, for trainers the facts and figures.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Response};
use time::Date;

use crate::app::App;
use crate::domain::dog::{DogFacts, pronouns};
use crate::domain::outcomes::OutcomeAdvice;
use crate::domain::readiness::Readiness;
use crate::domain::revision::may_revise;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{
    Basis, Capture, Finish, FlagState, Outcome, Role, Severity, SkillClass, Word,
};
use crate::ids::{DogId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::flag::Wanted;
use crate::store::house::House;
use crate::store::look::Look;
use crate::store::membership::Membership;
use crate::store::message::About;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::store::reading::Together;
use crate::store::revision::Revision;
use crate::store::sign_in::SignedIn;
use crate::store::{dog, dog_facts, flag, house, look, membership, photo, plan, practice_log, readiness};
use crate::web::looks::LookView;
use crate::web::messages::about::write_about;
use crate::web::photos::PhotoView;
use crate::web::practice_logs::edit::page_of;
use crate::web::practice_logs::heat::Heat;
use crate::web::practice_logs::{figures, heat, measured, well};
use crate::web::revisions::{self, Change, Facts};
use crate::web::watch::Watch;
use crate::web::{Answer, AnyMember, At, Page, WebError, notice, own_dog, zones};

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
    /// Where to write about this sitting.
    write: String,
    reading: String,
    heat: Option<Heat>,
    /// The calm ending that the plan asks for, where none was stated yet.
    then: String,
    /// What to add where teeth or running off were ticked: the kind of encounter.
    add: &'static str,
    facts: Facts,
    note: String,
    past: Past,
    look: Option<LookView>,
    photos: Vec<PhotoView>,
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
    /// Where to write about this sitting.
    write: String,
    verdict: String,
    /// What the measures say where nothing is counted, and where that comes from.
    advice: Option<(String, &'static str)>,
    stream: String,
    heat: Heat,
    facts: Facts,
    note: String,
    past: Past,
    look: Option<LookView>,
    photos: Vec<PhotoView>,
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

/// When it was, what became of it, how it stands with the trainers, and what both pages show of it.
struct Frame {
    when: String,
    past: Past,
    look: Option<LookView>,
    photos: Vec<PhotoView>,
    /// What the rules know.
    known: (DogFacts, House),
    notice: Option<String>,
}

/// Where the instruction stands with this sitting: by counts, or by what is measured.
struct CameOfIt {
    state: Option<Readiness>,
    measures: Option<OutcomeAdvice>,
}

impl CameOfIt {
    fn for_owner(self, class: SkillClass) -> String {
        match (self.state, self.measures) {
            (Some(state), _) => figures::owner_reading(&state, class),
            (None, measures) => measures.map(|advice| advice.for_owner).unwrap_or_default(),
        }
    }
}

/// The page of a sitting.
pub async fn show(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let log = practice_log::find(&mut who.tx, dog.id, log).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let ((item, mut flags, kept), (revisions, look, photos), known) = (
        (
            plan::item(dog.id, log.item),
            flag::of_dog(dog.id, Wanted::About(log.id.0)),
            readiness::of_dog(dog.id),
        )
            .together(),
        (
            practice_log::revisions(dog.id, log.id),
            (membership::find(log.by_member), look::at(dog.id, look::Of::Log(log.id))).together(),
            PhotoView::of(&who.member, dog.id, photo::Of::Log(log.id)),
        )
            .together(),
        (dog_facts::find(dog.id), house::find()).together(),
    )
        .together()
        .read(&mut who.tx)
        .await?;
    let item = item.ok_or(WebError::NotFound)?;
    flags.retain(|flag| flag.state != FlagState::Withdrawn);
    let state = kept.into_iter().find(|kept| kept.line == log.line_id && Some(kept.step) == log.step);
    let state = state.map(|kept| kept.state);
    let measures = measured::advice(&mut who.tx, std::slice::from_ref(&item)).await?.remove(&item.id);
    let came_of_it = CameOfIt { state, measures };
    let when = zones::day_and_time(log.started_at, &dog.zone, today);
    let past = past(&app, &who, &dog, &log, &revisions, today);
    let look = look_of(look, &dog, &log, today);
    let frame = Frame { when, past, look, photos, known, notice: notice::of(&query) };
    if who.member.role == Role::Owner {
        let cards: Vec<Watch> = flags.iter().map(Watch::for_owner).collect();
        return owner_page(&mut who, dog, item, log, frame, cards, came_of_it).await;
    }
    let watch = flags.iter().map(Watch::for_trainer).collect();
    Ok(trainer_page(&who, dog, item, log, frame, watch, came_of_it))
}

/// How it stands with the trainers; `None` where one of them told it.
fn look_of(
    (by, look): (Option<Membership>, Option<Look>),
    dog: &Dog,
    log: &PracticeLog,
    today: Date,
) -> Option<LookView> {
    if log.removed_at.is_some() || by.is_none_or(|by| by.role != Role::Owner) {
        return None;
    }
    Some(LookView::of(look, log.revision, &dog.zone, today))
}

fn past(
    app: &App,
    who: &SignedIn,
    dog: &Dog,
    log: &PracticeLog,
    revisions: &[Revision<PracticeLog>],
    today: Date,
) -> Past {
    let trainer = who.member.role != Role::Owner;
    let said = |log: &PracticeLog| told(log, &dog.zone, today, trainer);
    let may = may_revise(&who.actor, log.by_member, log.received_at, app.moment().at);
    Past {
        path: page_of(log),
        may_revise: may.allowed() && log.removed_at.is_none(),
        is_removed: log.removed_at.is_some(),
        changes: revisions::changes(revisions, log, said, &dog.zone, today),
    }
}

async fn owner_page(
    who: &mut SignedIn,
    dog: Dog,
    item: PlanItem,
    log: PracticeLog,
    Frame { when, past, look, photos, known: (known, house), notice }: Frame,
    cards: Vec<Watch>,
    came_of_it: CameOfIt,
) -> Answer {
    let sitting = &log.sitting;
    // While something is to be paused, nobody is urged towards one more good sitting.
    let stopped = cards.iter().any(|card| card.kind == Severity::Stop.stored());
    let (urgent, watch) = cards.into_iter().partition(|card| card.urgent);
    let asks_for_calm = sitting.finish.is_none() && sitting.cool_down_minutes.is_none();
    let result = OwnerResult {
        page: own_dog::page(who, format!("{}: {}", dog.name, item.name), "today").await?.with_notice(notice),
        headline: headline(&log),
        well: well::sentences(sitting, &dog.name, pronouns(dog.sex)),
        urgent,
        watch,
        write: write_about(false, dog.id, About::Log(log.id)),
        reading: if stopped { String::new() } else { came_of_it.for_owner(item.class) },
        then: if asks_for_calm { item.cool_down_way.clone() } else { String::new() },
        heat: Heat::for_owner(sitting, &known, &house.numbers),
        add: match (sitting.bite, sitting.bolted) {
            (true, _) => "bite",
            (false, true) => "bolted",
            (false, false) => "",
        },
        facts: facts(&log, false),
        note: log.note,
        photos,
        past,
        look,
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
    Frame { when, past, look, photos, known: (known, house), notice }: Frame,
    watch: Vec<Watch>,
    CameOfIt { state, measures }: CameOfIt,
) -> Response {
    let counted = log.sitting.counted();
    // while something is to be paused, nothing is advised but that
    let stopped = watch.iter().any(|card| card.kind == Severity::Stop.stored());
    let says = |state: Readiness| match stopped {
        true => "On hold: a stop is open. Answer it before this goes on.".to_owned(),
        false => state.for_trainer(item.class, item.is_last_step()),
    };
    let result = TrainerResult {
        page: Page::of(who, format!("{}: {}", dog.name, item.name), "caseload").with_notice(notice),
        headline: counted.map_or_else(
            || value(&log).unwrap_or_else(|| "Not counted".to_owned()),
            |(attempts, met)| figures::trainer_counts(met.into(), attempts.into()),
        ),
        watch,
        write: write_about(true, dog.id, About::Log(log.id)),
        advice: measures.filter(|_| !stopped).map(|advice| (advice.for_trainer, advice.source)),
        verdict: state.map(says).unwrap_or_default(),
        stream: state.map(|state| figures::trainer_counts(state.met, state.attempts)).unwrap_or_default(),
        heat: Heat::for_trainer(&log.sitting, &known, &house.numbers),
        trainer_seen: log.sitting.trainer_seen,
        facts: facts(&log, true),
        by: told_by(&log),
        note: log.note,
        photos,
        past,
        look,
        when,
        item,
        dog,
    };
    result.into_response()
}

fn headline(log: &PracticeLog) -> String {
    value(log).unwrap_or_else(|| well::headline(&log.sitting))
}

/// What was measured where nothing is counted, with its unit: "Calm for 6 min".
pub fn value(log: &PracticeLog) -> Option<String> {
    let (value, outcome) = log.outcome_value.zip(log.sitting.outcome)?;
    let is_one = (value - 1.0).abs() < f64::EPSILON;
    let (minutes, times) = if is_one { ("minute", "time") } else { ("minutes", "times") };
    Some(match outcome {
        Outcome::Count => return None,
        Outcome::Distance => format!("Comfortable at {value} m"),
        Outcome::Duration => format!("Calm for {value} {minutes}"),
        Outcome::Recovery => format!("Recovered in {value} {minutes}"),
        Outcome::Events if value.abs() < f64::EPSILON => "It did not happen that day".to_owned(),
        Outcome::Events => format!("It happened {value} {times} that day"),
    })
}

/// Who told it: a helper by a link of somebody's, or somebody.
pub fn told_by(log: &PracticeLog) -> String {
    match log.capture {
        Capture::Helper if log.handler.is_empty() => format!("A helper, by a link from {}", log.by),
        Capture::Helper => format!("{}, a helper, by a link from {}", log.handler, log.by),
        _ => log.by.clone(),
    }
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
    let yes_no = |said: Option<bool>| said.map(|yes| if yes { "Yes" } else { "No" }.to_owned());
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
        Capture::CountedLive => "Counted live",
        Capture::Helper => "A helper’s link",
        Capture::Lesson => "Lesson",
    };
    let rows = [
        ("Where", Some(log.place_name.clone())),
        ("How busy", word(s.busy.map(Word::label))),
        ("Weather", Some(heat::weather(&s.weather))),
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
        ("A child held the line", yes_no(s.child_held_line)),
        ("Loop around the hand", yes_no(s.loop_round_hand)),
        ("Muzzle on", yes_no(s.muzzle_worn)),
        ("A break in between", yes_no(s.had_break)),
        ("Logged by", Some(captured.to_owned()).filter(|_| trainer)),
    ];
    rows.into_iter()
        .filter_map(|(label, value)| value.filter(|value| !value.is_empty()).map(|value| (label, value)))
        .collect()
}
