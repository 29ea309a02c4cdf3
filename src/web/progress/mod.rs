//! How it is going: where each exercise stands, a chart of each, past sittings, and what happened in life.

mod lines;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::app::App;
use crate::domain::vocabulary::{Choice, ItemKind, Severity, Word};
use crate::ids::PracticeLogId;
use crate::store::dog::Dog;
use crate::store::practice_log::{PracticeLog, Wanted};
use crate::store::sign_in::SignedIn;
use crate::store::{encounter, flag, life_event, plan, practice_log, readiness};
use crate::web::encounters::{kind_words, reaction_words};
use crate::web::goals::GoalView;
use crate::web::life::LifeView;
use crate::web::today::day::is_at_rest;
use crate::web::{Answer, OwnerOnly, Page, WebError, notice, own_dog, practice_logs, zones};
use lines::Line;

/// Sittings on one page.
const A_PAGE: i64 = 20;
/// How many of the last sittings the charts are drawn from.
const CHARTED: i64 = 200;
/// How many encounters the page shows.
const MOST_ENCOUNTERS: i64 = 20;

/// How much of the dog's life the page shows.
const MOST_LIFE: usize = 5;

/// A past sitting or encounter, as the list shows it.
struct Entry {
    day: String,
    time: String,
    href: String,
    what: String,
    how: String,
    note: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "progress/show.html")]
struct ProgressPage {
    page: Page,
    dog: Dog,
    dogs: Vec<Dog>,
    here: &'static str,
    /// Whether this is the newest page; older ones show past sittings only.
    newest: bool,
    lines: Vec<Line>,
    logs: Vec<Entry>,
    older: Option<PracticeLogId>,
    encounters: Vec<Entry>,
    encounters_cut: bool,
    goal: Option<GoalView>,
    life: Vec<LifeView>,
}

#[derive(Template, WebTemplate)]
#[template(path = "own_dog/none.html")]
struct NoDogPage {
    page: Page,
}

/// The page; `?older=` names the sitting before which the list goes on.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let page = own_dog::page(&mut who, "How it is going", "progress").await?.with_notice(notice::of(&query));
    let Some((dog, dogs)) = own_dog::chosen(&mut who, &query).await? else {
        return Ok(NoDogPage { page }.into_response());
    };
    let today = zones::local_date(app.moment().at, &dog.zone);
    let wanted = match query.get("older") {
        Some(text) => {
            let id = text.parse().map_err(|_| WebError::NotFound)?;
            let log = practice_log::find(&mut who.tx, dog.id, id).await?.ok_or(WebError::NotFound)?;
            Wanted::Before(log.started_at, log.id)
        }
        None => Wanted::Newest,
    };
    let mut logs = practice_log::of_dog(&mut who.tx, dog.id, wanted, A_PAGE + 1).await?;
    let more = logs.len() as i64 > A_PAGE;
    logs.truncate(A_PAGE as usize);
    let newest = matches!(wanted, Wanted::Newest);
    let (lines, mut encounters) = match newest {
        true => (lines_of(&mut who, &dog, today).await?, encounters_of(&mut who, &dog, today).await?),
        false => (Vec::new(), Vec::new()),
    };
    let (goal, life) = match newest {
        true => {
            (Some(GoalView::of(&mut who.tx, dog.id, today).await?), life_of(&mut who, &dog, today).await?)
        }
        false => (None, Vec::new()),
    };
    let encounters_cut = encounters.len() as i64 > MOST_ENCOUNTERS;
    encounters.truncate(MOST_ENCOUNTERS as usize);
    let page = ProgressPage {
        page,
        here: "/progress",
        newest,
        lines,
        older: logs.last().map(|log| log.id).filter(|_| more),
        logs: logs.into_iter().map(|log| entry(log, &dog, today)).collect(),
        encounters,
        encounters_cut,
        goal,
        life,
        dog,
        dogs,
    };
    Ok(page.into_response())
}

async fn life_of(who: &mut SignedIn, dog: &Dog, today: Date) -> Result<Vec<LifeView>, WebError> {
    let events = life_event::of_dog(&mut who.tx, dog.id, None).await?;
    Ok(events.into_iter().take(MOST_LIFE).map(|event| LifeView::of(event, false, today)).collect())
}

async fn lines_of(who: &mut SignedIn, dog: &Dog, today: Date) -> Result<Vec<Line>, WebError> {
    let Some(version) = plan::current(&mut who.tx, dog.id).await? else { return Ok(Vec::new()) };
    let items = plan::items(&mut who.tx, version.id).await?;
    let kept = readiness::of_dog(&mut who.tx, dog.id).await?;
    let mut logs = practice_log::of_dog(&mut who.tx, dog.id, Wanted::Newest, CHARTED).await?;
    logs.reverse();
    let resting = flag::of_dog(&mut who.tx, dog.id, flag::Wanted::Resting).await?;
    let stops = resting.iter().any(|flag| flag.severity == Severity::Stop);
    let mut lines = Vec::new();
    for item in items.into_iter().filter(|item| item.kind == ItemKind::Exercise) {
        let measures = practice_logs::advice(&mut who.tx, &item).await?;
        // While something is to be paused, nobody is urged on.
        let measures = measures.filter(|advice| !stops || advice.choice != Choice::MoveOn);
        let rests = is_at_rest(&resting, dog, &item);
        lines.push(Line::new(lines.len(), item, (&kept, measures), rests, &logs, today));
    }
    Ok(lines)
}

async fn encounters_of(who: &mut SignedIn, dog: &Dog, today: Date) -> Result<Vec<Entry>, WebError> {
    let met = encounter::of_dog(&mut who.tx, dog.id, None, MOST_ENCOUNTERS + 1).await?;
    let entries = met.into_iter().map(|met| {
        let local = zones::local(met.happened_at, &dog.zone);
        Entry {
            day: zones::day(local.date(), today),
            time: format!("{:02}:{:02}", local.hour(), local.minute()),
            href: format!("/dogs/{}/encounters/{}", dog.id, met.id),
            what: kind_words(met.facts.kind, false).to_owned(),
            how: met.facts.reaction.map(|n| reaction_words(n).to_owned()).unwrap_or_default(),
            note: if met.note.is_empty() { met.what } else { met.note },
        }
    });
    Ok(entries.collect())
}

fn entry(log: PracticeLog, dog: &Dog, today: Date) -> Entry {
    let local = zones::local(log.started_at, &dog.zone);
    let counted =
        log.sitting.counted().map(|(attempts, met)| format!("{met} of {attempts} earned the “yes”"));
    let value = practice_logs::value(&log);
    let seen = if log.sitting.trainer_seen { "seen by your trainer" } else { "" };
    let finish = log.sitting.finish.map(|finish| finish.label().to_lowercase()).unwrap_or_default();
    let how: Vec<String> = [counted.or(value).unwrap_or_default(), finish, seen.to_owned()]
        .into_iter()
        .filter(|s| !s.is_empty())
        .collect();
    Entry {
        day: zones::day(local.date(), today),
        time: format!("{:02}:{:02}", local.hour(), local.minute()),
        href: format!("/dogs/{}/log/{}", dog.id, log.id),
        what: log.sitting.exercise.unwrap_or_default(),
        how: how.join(" · "),
        note: log.note,
    }
}
