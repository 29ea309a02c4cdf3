//! A dog at a glance: goal first, then what waits, how each exercise stands, and what was practised last.

pub mod again;
pub mod line;
pub mod log;
mod rates;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};
use time::{Date, Duration};

use crate::actions::set_phase::set_phase;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::check_in::{SOURCE, Standing};
use crate::domain::dates::age_words;
use crate::domain::rates::Reading;
use crate::domain::vocabulary::{FlagState, ItemKind, Phase, Word};
use crate::domain::welfare::{NOT_COPING, Pause, pause};
use crate::ids::{DecisionId, DogId};
use crate::store::caseload::DayMark;
use crate::store::check_in::{self, CheckIn};
use crate::store::decision::{self, Decision};
use crate::store::dog::{self, Dog};
use crate::store::hand_over::{self, HandOver};
use crate::store::practice_log::{self, Wanted};
use crate::store::reading::Together;
use crate::store::{appointment, dog_facts, flag, house, plan, readiness};
use crate::web::caseload::strip;
use crate::web::flags::{Duty, Open};
use crate::web::goals::GoalView;
use crate::web::lessons::booking::in_one_line;
use crate::web::lessons::packages;
use crate::web::practice_logs::advice;
use crate::web::week::WeekView;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

use line::LineView;
use log::LogView;
use rates::Grounds;

#[derive(Template, WebTemplate)]
#[template(path = "dog_page/show.html")]
struct DogPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    about: String,
    goal: GoalView,
    stops: Vec<Open>,
    flags: Vec<Open>,
    lines: Vec<LineView>,
    week: Option<WeekView>,
    rates: Vec<Reading>,
    plan_number: Option<i32>,
    arrangements: Vec<String>,
    logs: Vec<LogView>,
    decisions: Vec<(String, Decision)>,
    strip: Vec<&'static str>,
    strip_reading: String,
    phases: Vec<(&'static str, &'static str)>,
    /// What the household said to "still going well?", the latest first.
    check_ins: Vec<(String, CheckIn)>,
    /// Since when nobody has answered, where that is long.
    no_answer: String,
    asked_by: &'static str,
    /// Whether there is something to work on again.
    can_work_again: bool,
    /// The next lesson in a line; empty where none is booked.
    next_lesson: String,
    /// Lessons used and left; empty where nothing was bought.
    package: String,
    moment: Moment,
    /// Whether exercises rest until the next plan, as an answer said.
    rests_until_plan: bool,
    /// Who answers a stop.
    duty: Duty,
    /// The day and the last hand-over to another trainer, while it is new.
    handed_over: Option<(String, HandOver)>,
}

impl DogPage {
    /// The id of a decision that may be made here.
    fn fresh(&self) -> DecisionId {
        self.moment.id()
    }
}

/// How long a hand-over to another trainer stands on the page. House rule.
const HAND_OVER_STANDS: Duration = Duration::days(30);
/// The decisions, and the answers to "still going well?", that the page shows.
const DECISIONS: i64 = 5;
const CHECK_INS: i64 = 3;
/// The last sittings that the page shows.
const SHOWN: usize = 5;
/// The last sittings that say how practice goes.
const LOOKED_AT: i64 = 30;

/// Breed, age and household in one line.
pub fn about(dog: &Dog, today: Date) -> String {
    let mut parts = vec![format!("{} household", dog.household_name)];
    if !dog.breed.is_empty() {
        parts.push(dog.breed.clone());
    }
    if let Some(born) = dog.born.filter(|born| *born <= today) {
        parts.push(age_words(born, today));
    }
    parts.push(dog.phase.label().to_lowercase());
    parts.push(format!("looked after by {}", dog.trainer_name));
    parts.join(" · ")
}

/// The dog's first page for trainers.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let tx = &mut who.tx;
    let (standing, known, household, ahead) = (
        (flag::of_dog(dog.id, flag::Wanted::Resting), plan::newest(dog.id), readiness::of_dog(dog.id))
            .together(),
        (dog_facts::find(dog.id), house::find(), Grounds::of(dog.id, today)).together(),
        (
            GoalView::of(dog.id, today),
            decision::of_dog(dog.id, DECISIONS),
            check_in::of_dog(dog.id, CHECK_INS),
            check_in::phase_since(dog.id),
        )
            .together(),
        (
            appointment::next_of_dog(dog.id, moment.at),
            packages::in_words(dog.id),
            hand_over::last(dog.id, moment.at - HAND_OVER_STANDS),
        )
            .together(),
    )
        .together()
        .read(tx)
        .await?;
    let ((resting, plan, kept), (known, house, grounds)) = (standing, known);
    let ((goal, decisions, check_ins, phase_since), (next, package, handed_over)) = (household, ahead);
    let (version, items) = plan.map_or((None, Vec::new()), |plan| (Some(plan.version), plan.items));
    let mut measures = advice(tx, &items).await?;
    let logs = practice_log::of_dog(tx, dog.id, Wanted::Newest, LOOKED_AT).await?;
    let (flags, answered): (Vec<_>, Vec<_>) =
        resting.into_iter().partition(|flag| flag.state == FlagState::Open);
    let rests_until_plan = answered
        .iter()
        .any(|flag| flag.rule.id == NOT_COPING.id || pause(flag.rule, flag.severity) != Pause::Nothing);
    let (stops, flags): (Vec<_>, Vec<_>) = Open::of(flags, today).into_iter().partition(Open::is_stop);
    let open_stops = line::Stops::of(&stops);
    let exercises = items.iter().filter(|item| item.kind == ItemKind::Exercise);
    let lines =
        exercises.map(|item| LineView::of(item, &kept, measures.remove(&item.id), open_stops)).collect();
    let rates = grounds.readings(&dog, &logs, today);
    let strip_since = today - Duration::days(14);
    let marks: Vec<DayMark> = grounds
        .days
        .iter()
        .filter(|day| day.on >= strip_since)
        .map(|day| DayMark { dog: dog.id, on: day.on, sittings: day.sittings, severity: day.severity })
        .collect();
    let since = zones::local_date(phase_since, &dog.zone);
    let said_last = check_ins.first().map(|said| said.on);
    let no_answer = Standing { phase: dog.phase, since, answered: said_last }.silent_since(today);
    let (strip, strip_reading) = strip(&marks.iter().collect::<Vec<_>>(), today);
    let handed_over =
        handed_over.map(|over| (zones::day(zones::local_date(over.at, &dog.zone), today), over));
    let page = DogPage {
        rests_until_plan,
        duty: Duty::of(&who.practice, moment.at),
        handed_over,
        page: Page::of(&who, dog.name.clone(), "caseload").with_notice(notice::of(&query)),
        tab: "overview",
        about: about(&dog, today),
        goal,
        lines,
        week: WeekView::of(&items, &known, &house.numbers, today),
        rates,
        arrangements: items.iter().filter(|i| i.kind != ItemKind::Exercise).map(|i| i.name.clone()).collect(),
        plan_number: version.map(|v| v.number),
        logs: logs.iter().take(SHOWN).map(|l| LogView::of(l, &house.numbers, &dog.zone, today)).collect(),
        decisions: decisions
            .into_iter()
            .map(|d| (zones::day(zones::local_date(d.decided_at, &dog.zone), today), d))
            .collect(),
        phases: Phase::ALL.iter().map(|p| (p.stored(), p.label())).collect(),
        check_ins: check_ins.into_iter().map(|said| (zones::day(said.on, today), said)).collect(),
        no_answer: no_answer.map(|since| zones::day(since, today)).unwrap_or_default(),
        asked_by: SOURCE,
        can_work_again: matches!(dog.phase, Phase::Maintaining | Phase::Graduated | Phase::Paused),
        next_lesson: next.as_ref().map(in_one_line).unwrap_or_default(),
        package,
        stops,
        flags,
        strip,
        strip_reading,
        dog,
        moment,
    };
    Ok(page.into_response())
}

/// Changes where the dog stands in its work.
pub async fn change_phase(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?.id;
    let chosen = form.word::<Phase>("phase").filter(|_| form.is_fine());
    let phase = chosen.ok_or(WebError::Status(axum::http::StatusCode::UNPROCESSABLE_ENTITY))?;
    set_phase(who.tx, &who.actor, dog, phase, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}?notice=phase")).into_response())
}
