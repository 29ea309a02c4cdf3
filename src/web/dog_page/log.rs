//! A dog's logs and encounters, as a trainer reads them.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::app::App;
use crate::domain::dates::counted;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{
    Basis, Busy, Capture, Finish, ItemKind, Line, Looked, Recovery, TookFood, Word,
};
use crate::ids::{DogId, EncounterId, PlanItemId, PracticeLogId};
use crate::store::dog::{self, Dog};
use crate::store::encounter::{self, Encounter};
use crate::store::plan;
use crate::store::practice_log::{self, PracticeLog, Wanted};
use crate::web::plans::words::{self, capital};
use crate::web::practice_logs;
use crate::web::{Answer, At, Page, TrainerOnly, WebError, notice, zones};

/// Logs on one page.
const A_PAGE: i64 = 30;

/// Arousal at the end from which a row says it: 4 of 5, wound up. Common practice.
const HIGH: i16 = 4;

/// One log.
pub struct LogView {
    /// The log.
    pub id: PracticeLogId,
    /// The day.
    pub day: String,
    /// The time of day.
    pub time: String,
    /// The exercise.
    pub exercise: String,
    /// What came of it: step, result, where.
    pub result: String,
    /// What else stands out, in one quiet line.
    pub rest: String,
    /// The note.
    pub note: String,
    /// Who logged it, and how.
    pub by: String,
}

impl LogView {
    /// A log as it is shown in a list.
    pub fn of(log: &PracticeLog, zone: &str, today: Date) -> Self {
        let local = zones::local(log.started_at, zone);
        let how = match log.capture {
            Capture::OneTap => ", one tap",
            Capture::Form => "",
            Capture::Lesson => ", seen in a lesson",
        };
        Self {
            id: log.id,
            day: zones::day(log.sitting.local_date, today),
            time: format!("{:02}:{:02}", local.hour(), local.minute()),
            exercise: log.sitting.exercise.clone().unwrap_or_default(),
            result: result(log),
            rest: rest(log),
            note: log.note.clone(),
            by: format!("{}{how}", log.by),
        }
    }
}

/// What came of a sitting: step, result, where.
fn result(log: &PracticeLog) -> String {
    let counts = log.sitting.counted().map(|(attempts, met)| format!("{met} of {attempts} met"));
    let parts =
        [Some(log.step_name.clone()), practice_logs::value(log).or(counts), Some(log.place_name.clone())];
    parts.into_iter().flatten().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// What else stands out; what went as planned, or easily, is left to the sitting's own page.
fn rest(log: &PracticeLog) -> String {
    let s: &Sitting = &log.sitting;
    let mut parts: Vec<String> = s.health_signs.iter().map(|sign| sign.label().to_lowercase()).collect();
    parts.extend(s.minutes.map(|n| counted(n.into(), "minute", "minutes")));
    parts.extend(s.busy.filter(|busy| *busy != Busy::Usual).map(|busy| match busy {
        Busy::Quiet => "quieter than usual".to_owned(),
        Busy::Usual | Busy::Busy => "busier than usual".to_owned(),
    }));
    let otherwise = s.line != s.planned.line || s.clip != s.planned.clip;
    if let Some(line) = s.line.filter(|_| otherwise && s.equipment == Some(Basis::Stated)) {
        parts.push(match line {
            Line::None => "no line".to_owned(),
            line => words::wear(line, s.clip).to_lowercase(),
        });
    }
    let looked = s.looked.filter(|looked| *looked != Looked::Loose);
    parts.extend(looked.map(|looked| format!("looked {}", looked.label().to_lowercase())));
    parts.extend(s.took_food.filter(|took| *took != TookFood::Gently).map(|took| took_food(took).to_owned()));
    parts
        .extend(s.arousal_end.filter(|end| *end >= HIGH).map(|end| format!("arousal {end} of 5 at the end")));
    let slow = s.recovery.filter(|recovery| *recovery != Recovery::Within5);
    parts.extend(slow.map(|recovery| recovered(recovery).to_owned()));
    if s.finish == Some(Finish::StraightHome) {
        parts.push("went straight home".to_owned());
    }
    capital(&parts.join(", "))
}

fn took_food(took: TookFood) -> &'static str {
    match took {
        TookFood::Gently => "took food gently",
        TookFood::Snatched => "snatched the food",
        TookFood::Refused => "would not take food",
    }
}

fn recovered(recovery: Recovery) -> &'static str {
    match recovery {
        Recovery::Within5 => "calm again within 5 minutes",
        Recovery::Within15 => "calm again within 15 minutes",
        Recovery::Longer => "took longer than 15 minutes to calm down",
        Recovery::NotYet => "not calm yet when this was logged",
    }
}

/// One encounter.
pub struct EncounterView {
    /// The encounter.
    pub id: EncounterId,
    /// When.
    pub when: String,
    /// What happened.
    pub kind: &'static str,
    /// The rest in one line.
    pub facts: String,
    /// The note.
    pub note: String,
}

impl EncounterView {
    fn of(encounter: &Encounter, zone: &str, today: Date) -> Self {
        let f = &encounter.facts;
        let mut parts = Vec::new();
        if !encounter.what.is_empty() {
            parts.push(encounter.what.clone());
        }
        parts.extend(f.distance_m.map(|m| format!("{m} m away")));
        parts.extend(f.reaction.map(|r| format!("reaction {r} of 4")));
        parts.extend(f.recovery.map(|recovery| recovered(recovery).to_owned()));
        parts.extend(f.towards.map(|w| format!("towards {}", w.in_a_sentence())));
        parts.extend(
            f.broken_skin.map(|b| if b { "skin broken".to_owned() } else { "skin not broken".to_owned() }),
        );
        if !encounter.place_name.is_empty() {
            parts.push(encounter.place_name.clone());
        }
        Self {
            id: encounter.id,
            when: zones::day_and_time(encounter.happened_at, zone, today),
            kind: f.kind.label(),
            facts: parts.join(" · "),
            note: encounter.note.clone(),
        }
    }
}

#[derive(Template, WebTemplate)]
#[template(path = "dog_page/log.html")]
struct LogPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    about: String,
    logs: Vec<LogView>,
    older: Option<PracticeLogId>,
    encounters: Vec<EncounterView>,
    items: Vec<(PlanItemId, String)>,
}

/// The dog's logs, newest first, and its encounters; `?before=` names the sitting before which the list goes on.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let wanted = match query.get("before") {
        Some(text) => {
            let id = text.parse().map_err(|_| WebError::NotFound)?;
            let log = practice_log::find(&mut who.tx, dog.id, id).await?.ok_or(WebError::NotFound)?;
            Wanted::Before(log.started_at, log.id)
        }
        None => Wanted::Newest,
    };
    let logs = practice_log::of_dog(&mut who.tx, dog.id, wanted, A_PAGE + 1).await?;
    let shown = &logs[..logs.len().min(usize::try_from(A_PAGE).unwrap_or(30))];
    let older = shown.last().map(|log| log.id).filter(|_| logs.len() > shown.len());
    let encounters = encounter::of_dog(&mut who.tx, dog.id, None, 50).await?;
    let items = match plan::current(&mut who.tx, dog.id).await? {
        Some(version) => plan::items(&mut who.tx, version.id).await?,
        None => Vec::new(),
    };
    let page = LogPage {
        page: Page::of(&who, format!("{}: log", dog.name), "caseload").with_notice(notice::of(&query)),
        tab: "log",
        about: super::about(&dog, today),
        logs: shown.iter().map(|l| LogView::of(l, &dog.zone, today)).collect(),
        older,
        encounters: encounters.iter().map(|e| EncounterView::of(e, &dog.zone, today)).collect(),
        items: items
            .iter()
            .filter(|i| i.kind == ItemKind::Exercise)
            .map(|i| (i.id, i.name.clone()))
            .collect(),
        dog,
    };
    Ok(page.into_response())
}
