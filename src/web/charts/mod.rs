//! How a dog is getting on, in charts: one page for its trainer, over a month, a quarter or everything.
//!
//! Every chart has an empty state of its own. What happened in life beside the training comes from one place ([`marks`]) and is
//! drawn on every chart. The number of statements does not depend on what there is to draw.

mod exercises;
mod life;
mod marks;
mod sittings;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::{Date, Duration};

use crate::app::App;
use crate::domain::charts::{Charted, Mark, PlannedLine, Range, Reading};
use crate::domain::dog::DogFacts;
use crate::domain::welfare::TREATS;
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::encounter::{self, Encounter};
use crate::store::reading::Together;
use crate::store::{Result, Tx, dog_facts, goal_reading, house, plan_history, practice_log};
use crate::web::chart::{Calendar, Chart};
use crate::web::dog_page::about;
use crate::web::{Answer, At, Page, TrainerOnly, WebError, zones};

use exercises::Exercise;

/// The most sittings, encounters, lines of plans and weighings that are read: years of a busy dog.
const MOST: i64 = 5000;

/// One thing to show: a drawing, or why there is none.
pub enum Item {
    /// A chart.
    Chart(Box<Chart>),
    /// A calendar.
    Calendar(Box<Calendar>),
    /// Nothing to draw: the title, and a sentence.
    Empty(&'static str, String),
}

/// Everything that the charts are drawn from, read once.
pub struct Known {
    /// The dog's sittings, oldest first.
    pub sittings: Vec<Charted>,
    /// The exercises of its plans, as each plan had them, oldest plan first.
    pub planned: Vec<PlannedLine>,
    /// Its encounters, newest first.
    pub encounters: Vec<Encounter>,
    /// The dog, with its weighings.
    pub facts: DogFacts,
    /// The share of the day's need that extras may be.
    pub ceiling: f64,
    /// What happened in life.
    pub marks: Vec<Mark>,
    /// How near the goal felt, oldest first.
    pub goals: Vec<Reading>,
}

/// What a chart needs besides its own numbers.
pub struct Frame<'a> {
    /// What is known.
    pub known: &'a Known,
    /// The dog.
    pub dog: DogId,
    /// The days, both included.
    pub days: (Date, Date),
    /// The range.
    pub range: Range,
}

impl Known {
    async fn of(tx: &mut Tx, dog: DogId) -> Result<Self> {
        let sittings = practice_log::charted(tx, dog, MOST).await?;
        let (encounters, facts, house, marks, goals) = (
            encounter::of_dog(dog, None, MOST),
            dog_facts::with_weighings(dog, MOST),
            house::find(),
            marks::marks_of(dog),
            goal_reading::of_dog(dog, MOST),
        )
            .together()
            .read(tx)
            .await?;
        Ok(Self {
            sittings,
            planned: plan_history::lines(tx, dog, MOST).await?,
            encounters,
            facts,
            ceiling: house.numbers.of(&TREATS) / 100.0,
            marks,
            goals: goals
                .into_iter()
                .rev()
                .map(|reading| (reading.on, reading.nearness, reading.confidence))
                .collect(),
        })
    }

    /// The day of the first thing that can be drawn.
    fn first_told(&self) -> Option<Date> {
        let sitting = self.sittings.first().map(|one| one.sitting.local_date);
        let encounter = self.encounters.iter().map(|met| met.facts.local_date).min();
        let weighing = self.facts.weighings.last().map(|one| one.on);
        let goal = self.goals.first().map(|reading| reading.0);
        [sitting, encounter, weighing, goal].into_iter().flatten().min()
    }
}

impl<'a> Frame<'a> {
    /// The present day.
    pub fn today(&self) -> Date {
        self.days.1
    }

    /// Whether a day is drawn.
    pub fn has(&self, on: Date) -> bool {
        (self.days.0..=self.days.1).contains(&on)
    }

    /// The sittings of these days, oldest first.
    pub fn sittings(&self) -> Vec<&'a Charted> {
        self.known.sittings.iter().filter(|one| self.has(one.sitting.local_date)).collect()
    }

    /// What there is to say where nothing of these days can be drawn.
    pub fn nothing(&self, title: &'static str, what: &str) -> Item {
        Item::Empty(title, format!("{what} {}.", self.range.words()))
    }
}

/// A range to choose.
struct Choice {
    address: String,
    words: &'static str,
    chosen: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "charts/show.html")]
struct ChartsPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    about: String,
    choices: Vec<Choice>,
    days: String,
    incidents: life::Incidents,
    exercises: Vec<Exercise>,
    left_out: usize,
    sittings: Vec<Item>,
    life: Vec<Item>,
}

/// The page; `?range=` says how far it looks back.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let range = Range::said(query.get("range").map_or("", String::as_str));
    let known = Known::of(&mut who.tx, dog.id).await?;
    // what a phone logged ahead of this clock is drawn as well
    let newest = known.sittings.last().map_or(today, |one| one.sitting.local_date);
    let last = newest.clamp(today, today.saturating_add(Duration::days(1)));
    let days = (range.first_day(today, known.first_told()), last);
    let frame = Frame { known: &known, dog: dog.id, days, range };
    let (exercises, left_out) = exercises::of(&frame);
    let page = ChartsPage {
        page: Page::of(&who, format!("{}: progress", dog.name), "caseload"),
        tab: "progress",
        about: about(&dog, today),
        choices: Range::ALL
            .iter()
            .map(|(one, said, words)| Choice {
                address: format!("/dogs/{}/charts?range={said}", dog.id),
                words,
                chosen: *one == range,
            })
            .collect(),
        days: format!("{} to {}", zones::day(days.0, today), zones::day(days.1, today)),
        incidents: life::incidents(&frame),
        exercises,
        left_out,
        sittings: sittings::charts(&frame),
        life: life::charts(&frame),
        dog,
    };
    Ok(page.into_response())
}
