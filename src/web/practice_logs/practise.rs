//! Practising with the phone at hand: get ready, count, come down, say how it was. The page is plain; `practise.js` shows one part
//! at a time and keeps where it stands on the phone. Without it, the form of the sitting is one link away.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;
use uuid::Uuid;

use crate::app::App;
use crate::domain::vocabulary::{Outcome, Word};
use crate::ids::{DogId, PlanItemId, StepId};
use crate::store::reading::Together;
use crate::store::{dog, flag, membership, place, step};
use crate::web::plans::words;
use crate::web::practice_logs::ask::Ask;
use crate::web::practice_logs::fields::{is_counted, is_line_work};
use crate::web::practice_logs::new::practised;
use crate::web::today::day::{is_at_rest, is_away};
use crate::web::{Answer, At, OwnerOnly, Page, WebError, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "practice_logs/practise.html")]
struct PractisePage {
    page: Page,
    ask: Ask,
    /// What to have on and ready, one line each.
    ready: Vec<String>,
    /// Whether a hand is free to count: no line, and one try after the other.
    counts: bool,
    /// How many tries are planned.
    attempts: i16,
    /// How many minutes are planned; 0 where the plan says none.
    minutes: i16,
    cool_down: String,
    cool_down_minutes: i16,
    /// The step below, in words; empty on the first.
    easier: String,
    trainer_phone: String,
    /// Whether it rests until the trainer has answered.
    rests: bool,
}

/// The page.
pub async fn show(
    State(app): State<App>,
    At((dog, item)): At<(DogId, PlanItemId)>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let item = practised(&mut who, dog.id, item).await?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let below = step::below(item.step.unwrap_or(StepId(Uuid::nil())));
    let (places, below, trainer, open, away) = (
        place::of_dog(dog.id),
        below,
        membership::find(dog.trainer),
        flag::of_dog(dog.id, flag::Wanted::Resting),
        is_away(dog.id, today),
    )
        .together()
        .read(&mut who.tx)
        .await?;
    let easier = below.map(|step| format!("{}: {}", step.name, step.criterion)).unwrap_or_default();
    let rests = away || is_at_rest(&open, &dog, &item);
    let wear = words::wear(item.line, item.clip);
    let attempts = item.attempts.unwrap_or(10);
    let reward = match item.reinforcer_name.as_str() {
        "" => String::new(),
        reward => format!("{attempts} × {reward}, counted out"),
    };
    let place = match item.place_name.as_str() {
        "" => String::new(),
        place => format!("At: {place}"),
    };
    let ready = [wear, item.equipment_note.clone(), reward, place, item.set_up.clone()];
    let page = PractisePage {
        page: own_dog::page(&mut who, format!("{}: practise", item.name), "today").await?,
        ready: ready.into_iter().filter(|line| !line.is_empty()).collect(),
        counts: is_counted(&item) && !is_line_work(&item) && item.outcome == Outcome::Count,
        attempts,
        rests,
        minutes: item.minutes.unwrap_or(0),
        cool_down: words::cool_down(item.cool_down_minutes, &item.cool_down_way),
        cool_down_minutes: item.cool_down_minutes,
        easier,
        trainer_phone: trainer.map(|trainer| trainer.phone).unwrap_or_default(),
        ask: Ask::new(app.moment().id::<crate::ids::PracticeLogId>().to_string(), dog, item, &places, false),
    };
    Ok(page.into_response())
}
