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
use crate::store::encounter::Encounter;
use crate::store::flag::Flag;
use crate::store::plan::Plan;
use crate::store::practice_log::{PracticeLog, Wanted};
use crate::store::readiness::Kept;
use crate::store::reading::{Reading, Together};
use crate::store::sign_in::SignedIn;
use crate::store::{encounter, flag, life_event, plan, practice_log, readiness};
use crate::web::encounters::{kind_words, reaction_words};
use crate::web::goals::GoalView;
use crate::web::life::LifeView;
use crate::web::today::day::{is_at_rest, is_away};
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
    let (page, dogs) = own_dog::page_and_dogs(&mut who, ("How it is going", "progress"), &query).await?;
    let page = page.with_notice(notice::of(&query));
    let Some((dog, dogs)) = dogs else {
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
    let newest = matches!(wanted, Wanted::Newest);
    let most = if newest { CHARTED.max(A_PAGE + 1) } else { A_PAGE + 1 };
    let mut logs = practice_log::of_dog(&mut who.tx, dog.id, wanted, most).await?;
    let mut known = match newest {
        true => Some(Known::of(&dog, today).read(&mut who.tx).await?),
        false => None,
    };
    let lines = match &mut known {
        Some(known) => lines_of(&mut who, &dog, known, &logs, today).await?,
        None => Vec::new(),
    };
    let more = logs.len() as i64 > A_PAGE;
    logs.truncate(A_PAGE as usize);
    let (mut encounters, goal, life) = match known {
        Some(known) => (entries_of(known.met, &dog, today), Some(known.goal), known.life),
        None => (Vec::new(), None, Vec::new()),
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

/// What the first page is made of, beside the sittings.
struct Known {
    plan: Option<Plan>,
    kept: Vec<Kept>,
    resting: Vec<Flag>,
    /// Whether the dog is away, ill or in season.
    away: bool,
    met: Vec<Encounter>,
    goal: GoalView,
    life: Vec<LifeView>,
}

impl Known {
    fn of(dog: &Dog, today: Date) -> Reading<Self> {
        let life = life_event::of_dog(dog.id, None).then(move |events| {
            Ok(events.into_iter().take(MOST_LIFE).map(|event| LifeView::of(event, false, today)).collect())
        });
        (
            plan::newest(dog.id),
            readiness::of_dog(dog.id),
            flag::of_dog(dog.id, flag::Wanted::Resting),
            is_away(dog.id, today),
            encounter::of_dog(dog.id, None, MOST_ENCOUNTERS + 1),
            GoalView::of(dog.id, today),
            life,
        )
            .together()
            .then(|(plan, kept, resting, away, met, goal, life)| {
                Ok(Self { plan, kept, resting, away, met, goal, life })
            })
    }
}

async fn lines_of(
    who: &mut SignedIn,
    dog: &Dog,
    known: &mut Known,
    newest: &[PracticeLog],
    today: Date,
) -> Result<Vec<Line>, WebError> {
    let Some(plan) = known.plan.take() else { return Ok(Vec::new()) };
    let mut measures = practice_logs::advice(&mut who.tx, &plan.items).await?;
    let logs: Vec<PracticeLog> = newest.iter().take(CHARTED as usize).rev().cloned().collect();
    let stops = known.resting.iter().any(|flag| flag.severity == Severity::Stop);
    let mut lines = Vec::new();
    for item in plan.items.into_iter().filter(|item| item.kind == ItemKind::Exercise) {
        // While something is to be paused, nobody is urged on.
        let measures = measures.remove(&item.id).filter(|advice| !stops || advice.choice != Choice::MoveOn);
        let rests = known.away || is_at_rest(&known.resting, dog, &item);
        lines.push(Line::new(lines.len(), item, (&known.kept, measures), rests, &logs, today));
    }
    Ok(lines)
}

fn entries_of(met: Vec<Encounter>, dog: &Dog, today: Date) -> Vec<Entry> {
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
    entries.collect()
}

fn entry(log: PracticeLog, dog: &Dog, today: Date) -> Entry {
    let local = zones::local(log.started_at, &dog.zone);
    let counted =
        log.sitting.counted().map(|(attempts, met)| format!("{met} of {attempts} earned the “yes”"));
    let value = practice_logs::value(&log);
    let seen = if log.sitting.trainer_seen { "seen by your trainer" } else { "" };
    let finish = log.sitting.finish.map(|finish| finish.label().to_lowercase()).unwrap_or_default();
    let with = if log.handler.is_empty() { String::new() } else { format!("with {}", log.handler) };
    let how: Vec<String> = [counted.or(value).unwrap_or_default(), finish, with, seen.to_owned()]
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
