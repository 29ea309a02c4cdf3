//! What a line does when it comes tight, for one dog's weight.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use crate::app::App;
use crate::domain::line::{
    ASSUMPTIONS, Assumption, HARNESS, HARNESS_SOURCE, PRACTICE, PULLS, PublishedPull, Tight, come_tight,
    longest_slack, mean_pull,
};
use crate::domain::vocabulary::Line;
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::plan::PlanItem;
use crate::store::{dog_weight, plan};
use crate::web::{Answer, At, Page, TrainerOnly, WebError, zones};

/// Length of the line that the table is about where the plan names none, m.
const LINE: f64 = 10.0;
/// Slack that the table shows besides the whole line, m.
const SLACKS: [f64; 3] = [2.0, 5.0, 10.0];
/// How far a handler who gives way goes with the line, m.
const GIVES: f64 = 1.0;

/// One row of the table.
struct Row {
    slack: String,
    speed: String,
    peak: String,
    body_weights: String,
    given: String,
}

/// One measured pull, and the slack that is enough for it.
struct Beside {
    pull: PublishedPull,
    newtons: String,
    slack: String,
}

/// The figures for one weight.
struct Figures {
    rows: Vec<Row>,
    beside: Vec<Beside>,
}

#[derive(Template, WebTemplate)]
#[template(path = "line/show.html")]
struct LinePage {
    page: Page,
    dog: Dog,
    /// "12.5 kg, weighed Tue 3 Mar"; empty where the dog was never weighed.
    weight: String,
    figures: Option<Figures>,
    line: f64,
    /// Whether the plan says how long the line is.
    is_planned: bool,
    gives: f64,
    harness: &'static str,
    harness_source: &'static str,
    practice: [&'static str; 5],
    assumptions: [Assumption; 5],
}

/// The page: figures where the dog was weighed, what to do in any case.
pub async fn show(State(app): State<App>, At(dog): At<DogId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let weighed = dog_weight::of_dog(dog.id, 1).read(&mut who.tx).await?.pop();
    let planned = match plan::current(dog.id).read(&mut who.tx).await? {
        Some(version) => longest(&plan::items(version.id).read(&mut who.tx).await?),
        None => None,
    };
    let line = planned.unwrap_or(LINE);
    let page = LinePage {
        page: Page::of(&who, format!("{}: the line", dog.name), "caseload"),
        weight: weighed
            .map(|one| format!("{} kg, weighed {}", one.kg, zones::day(one.on, today)))
            .unwrap_or_default(),
        figures: weighed.and_then(|one| figures(one.kg, line)),
        line,
        is_planned: planned.is_some(),
        gives: GIVES,
        harness: HARNESS,
        harness_source: HARNESS_SOURCE,
        practice: PRACTICE,
        assumptions: ASSUMPTIONS,
        dog,
    };
    Ok(page.into_response())
}

/// The longest line that a plan asks to be held, m.
fn longest(items: &[PlanItem]) -> Option<f64> {
    let held = items.iter().filter(|item| item.line == Line::LongLine);
    held.filter_map(|item| item.line_metres).max().map(f64::from)
}

fn figures(kg: f64, line: f64) -> Option<Figures> {
    let slacks = SLACKS.into_iter().filter(|slack| *slack < line).chain([line]);
    let rows: Option<Vec<Row>> = slacks.map(|slack| Some(row(kg, come_tight(kg, line, slack)?))).collect();
    let beside = |pull: PublishedPull| {
        let slack = longest_slack(kg, line, pull.newtons)?;
        Some(Beside { pull, newtons: format!("{:.0} N", pull.newtons), slack: length(slack) })
    };
    let beside: Option<Vec<Beside>> = PULLS.into_iter().map(beside).collect();
    Some(Figures { rows: rows?, beside: beside? })
}

fn row(kg: f64, tight: Tight) -> Row {
    Row {
        slack: format!("{} m", tight.slack),
        speed: format!("{:.1} m/s ({:.0} km/h)", tight.speed, tight.speed * 3.6),
        peak: format!("{:.0} N", tight.peak),
        body_weights: format!("{:.1} ×", tight.body_weights),
        given: format!("{:.0} N", mean_pull(kg, tight.speed, GIVES)),
    }
}

/// A length as people say it, rounded down: "9 cm", "2.5 m".
fn length(metres: f64) -> String {
    match metres {
        m if m < 1.0 => format!("{:.0} cm", (m * 100.0).floor()),
        m => format!("{} m", (m * 10.0).floor() / 10.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_is_rounded_down() {
        assert_eq!(length(0.0999), "9 cm");
        assert_eq!(length(2.57), "2.5 m");
        assert_eq!(length(10.0), "10 m");
    }

    #[test]
    fn every_weight_and_line_that_can_be_kept_has_figures() {
        let slacks = |line| {
            let rows = figures(12.5, line).expect("figures").rows;
            rows.into_iter().map(|row| row.slack).collect::<Vec<_>>()
        };
        assert_eq!(slacks(10.0), ["2 m", "5 m", "10 m"]);
        assert_eq!(slacks(15.0), ["2 m", "5 m", "10 m", "15 m"]);
        assert_eq!(slacks(1.0), ["1 m"]);
        for (kg, line) in [(0.1, 1.0), (149.9, 50.0)] {
            assert!(figures(kg, line).is_some_and(|found| found.beside.len() == 2));
        }
    }
}
