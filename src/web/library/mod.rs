//! The practice's library: what plans are written from.

pub mod copy_name;
pub mod edit;
pub mod entry_form;
pub mod file;
pub mod format;
pub mod import;
pub mod ladder_csv;
pub mod step_rows;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use crate::actions::archive_exercise::{archive_exercise, restore_exercise};
use crate::actions::authorise;
use crate::app::App;
use crate::domain::access::Action;
use crate::domain::dates::counted;
use crate::domain::scales;
use crate::domain::vocabulary::{ItemKind, Line, Outcome, Word};
use crate::ids::ExerciseId;
use crate::store::exercise::{self, Exercise, Wanted};
use crate::store::step::{self, Step};
use crate::web::choices::{self, Choices};
use crate::web::{Answer, At, Page, TrainerOnly, WebError, notice, search};

/// The entries of one kind.
struct Group {
    kind: ItemKind,
    heading: &'static str,
    entries: Vec<(Exercise, String)>,
}

#[derive(Template, WebTemplate)]
#[template(path = "library/list.html")]
struct ListPage {
    page: Page,
    q: String,
    show: String,
    filters: Vec<(&'static str, &'static str)>,
    line: &'static str,
    lines: Choices,
    level: String,
    levels: Choices,
    /// What else is asked for, as the filters' addresses carry it on.
    rest: String,
    groups: Vec<Group>,
    found: usize,
}

/// What the filter for archived entries is called in an address.
const ARCHIVED: &str = "archived";

fn heading(kind: ItemKind) -> &'static str {
    match kind {
        ItemKind::Exercise => "Exercises",
        ItemKind::StandingArrangement => "Standing arrangements",
        ItemKind::OwnerSkill => "Owner's skills without the dog",
    }
}

/// The list, by kind; `?q=`, `?show=`, `?line=` and `?level=` narrow it.
pub async fn list(TrainerOnly(mut who): TrainerOnly, Query(query): Query<HashMap<String, String>>) -> Answer {
    let asked = query.get("show").map_or("", String::as_str);
    let (kind, archived) = (ItemKind::from_stored(asked), asked == ARCHIVED);
    let search = search::text(&query);
    let line = query.get("line").and_then(|text| Line::from_stored(text));
    let level = query.get("level").and_then(|text| text.parse().ok()).filter(|level| (1..=5).contains(level));
    let wanted = Wanted { search: search.clone(), line, level, kind, archived };
    let found = exercise::list(&mut who.tx, &wanted).await?;
    let counts = step::counts(&mut who.tx).await?;
    let mut groups: Vec<Group> = ItemKind::ALL
        .iter()
        .map(|kind| Group { kind: *kind, heading: heading(*kind), entries: Vec::new() })
        .collect();
    let total = found.len();
    for entry in found {
        let steps = counts.get(&entry.id).map_or(String::new(), |n| counted(*n, "step", "steps"));
        if let Some(group) = groups.iter_mut().find(|group| group.kind == entry.kind) {
            group.entries.push((entry, steps));
        }
    }
    groups.retain(|group| !group.entries.is_empty());
    let mut filters = vec![("", "All")];
    filters.extend(ItemKind::ALL.iter().map(|kind| (kind.stored(), heading(*kind))));
    filters.push((ARCHIVED, "Archived"));
    let page = Page::of(&who, "Library", "library").with_notice(notice::of(&query));
    let show = if archived { ARCHIVED } else { kind.map_or("", Word::stored) };
    let (line, level) = (line.map_or("", Word::stored), choices::number(level));
    let mut rest = form_urlencoded::Serializer::new(String::new());
    for (name, value) in [("q", search.as_str()), ("line", line), ("level", &level)] {
        if !value.is_empty() {
            rest.append_pair(name, value);
        }
    }
    let list = ListPage {
        page,
        q: search,
        show: show.to_owned(),
        filters,
        line,
        lines: choices::words::<Line>(),
        level,
        levels: choices::scale(&scales::DISTRACTION),
        rest: rest.finish(),
        groups,
        found: total,
    };
    Ok(list.into_response())
}

#[derive(Template, WebTemplate)]
#[template(path = "library/show.html")]
struct ShowPage {
    page: Page,
    entry: Exercise,
    steps: Vec<(Step, &'static str)>,
    /// Whether the reader may put it away or offer it again.
    may_archive: bool,
}

/// One entry with its ladder.
pub async fn show(
    At(id): At<ExerciseId>,
    TrainerOnly(mut who): TrainerOnly,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let entry = exercise::find(&mut who.tx, id).await?.ok_or(WebError::NotFound)?;
    let steps = step::of_exercise(id).read(&mut who.tx).await?;
    let steps = steps.into_iter().map(|step| (scales::distraction(step.distraction), step));
    let steps = steps.map(|(words, step)| (step, words)).collect();
    let page = Page::of(&who, entry.name.clone(), "library").with_notice(notice::of(&query));
    let may_archive = authorise(&who.actor, Action::ArchiveExercise, None).is_ok();
    Ok(ShowPage { page, entry, steps, may_archive }.into_response())
}

/// Puts an entry away.
pub async fn archive(
    State(app): State<App>,
    At(id): At<ExerciseId>,
    TrainerOnly(who): TrainerOnly,
) -> Answer {
    archive_exercise(who.tx, &who.actor, id, &app.moment()).await?;
    Ok(Redirect::to(&format!("/library/{id}?notice=archived")).into_response())
}

/// Offers an entry again.
pub async fn restore(
    State(app): State<App>,
    At(id): At<ExerciseId>,
    TrainerOnly(who): TrainerOnly,
) -> Answer {
    restore_exercise(who.tx, &who.actor, id, &app.moment()).await?;
    Ok(Redirect::to(&format!("/library/{id}?notice=restored")).into_response())
}
