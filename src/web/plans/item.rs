//! The form of one line of the draft.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::Refusal;
use crate::actions::edit_draft_item::{edit_draft_item, stamp};
use crate::actions::plan_draft::checked;
use crate::actions::try_draft_item::try_draft_item;
use crate::app::App;
use crate::domain::vocabulary::{Clip, ItemKind, Line, Word};
use crate::ids::LineId;
use crate::store::dog::Dog;
use crate::store::exercise::{self, Exercise};
use crate::store::plan_draft_item::{self, LineSettings};
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::store::step::{self, Step};
use crate::store::{place, plan_draft, reinforcer};
use crate::web::plans::card::Card;
use crate::web::plans::panel::Panel;
use crate::web::plans::{dog_of, id, others};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice};

type Choices = Vec<(String, String)>;

#[derive(Template, WebTemplate)]
#[template(path = "plans/item.html")]
struct ItemPage {
    page: Page,
    dog: Dog,
    form: Form,
    line: LineId,
    exercise: Exercise,
    asks: Asks,
    steps: Vec<Step>,
    step_choices: Choices,
    places: Choices,
    reinforcers: Choices,
    lines: Choices,
    clips: Choices,
    panel: Panel,
    /// The mark of the state that the form was made on.
    seen: String,
    /// The line as it stands now, where somebody changed it while the form was open.
    meanwhile: Option<Card>,
    /// Who else has worked on this draft lately, and when; empty for nobody.
    others: String,
    /// Who writes: what is typed is kept on their device alone.
    keeper: String,
}

/// Which parts of the form a kind of item has.
#[derive(Clone, Copy)]
struct Asks {
    /// Step, attempts, place, reinforcer and cool-down.
    practice: bool,
    /// Times a week and minutes.
    rhythm: bool,
    /// Line and clip.
    equipment: bool,
}

impl Asks {
    fn of(kind: ItemKind) -> Self {
        Self {
            practice: kind == ItemKind::Exercise,
            rhythm: kind != ItemKind::StandingArrangement,
            equipment: kind != ItemKind::OwnerSkill,
        }
    }
}

fn words<W: Word>() -> Choices {
    W::ALL.iter().map(|word| (word.stored().to_owned(), word.label().to_owned())).collect()
}

fn filled(chosen: &LineSettings) -> Form {
    let number = |n: Option<i16>| n.map(|n| n.to_string()).unwrap_or_default();
    Form::blank()
        .with("step", chosen.step.map(|id| id.to_string()).unwrap_or_default())
        .with("attempts", number(chosen.attempts))
        .with("times_a_week", number(chosen.times_a_week))
        .with("minutes", number(chosen.minutes))
        .with("place", chosen.place.map(|id| id.to_string()).unwrap_or_default())
        .with("reinforcer", chosen.reinforcer.map(|id| id.to_string()).unwrap_or_default())
        .with("line", chosen.line.stored())
        .with("clip", chosen.clip.map(Word::stored).unwrap_or_default())
        .with("line_metres", number(chosen.line_metres))
        .with("cool_down_minutes", chosen.cool_down_minutes.to_string())
        .with("cool_down_way", chosen.cool_down_way.clone())
        .with("note", chosen.note.clone())
}

fn parsed(form: &mut Form, exercise: &Exercise, asks: Asks) -> LineSettings {
    let line = form.word::<Line>("line").filter(|_| asks.equipment).unwrap_or(Line::None);
    let clip = form.word::<Clip>("clip").filter(|_| line != Line::None);
    if asks.practice && line != Line::None && clip.is_none() {
        form.refuse("clip", "Say where the line clips, or choose no line.");
    }
    let line_metres = form.whole("line_metres", "Length of the line", 1, 50).filter(|_| line != Line::None);
    LineSettings {
        exercise: exercise.id,
        step: form.id("step"),
        attempts: form.whole("attempts", "Tries a sitting", 1, 50),
        times_a_week: form.whole("times_a_week", "Times a week", 1, 21),
        minutes: form.whole("minutes", "Length of a sitting", 1, 120),
        place: form.id("place"),
        reinforcer: form.id("reinforcer"),
        line,
        clip,
        line_metres,
        cool_down_minutes: form.whole("cool_down_minutes", "Cool-down", 0, 60).unwrap_or(0),
        cool_down_way: form.text("cool_down_way", 200),
        note: form.text("note", 1000),
    }
}

/// The page of a line whose form was made on the state `seen`, with the draft as it stands in this transaction beside it.
async fn page(
    app: &App,
    who: &mut SignedIn,
    dog: Dog,
    (line, exercise, seen): (LineId, Exercise, String),
    form: Form,
) -> Result<ItemPage, WebError> {
    let (steps, places, reinforcers, draft) = (
        step::of_exercise(exercise.id),
        place::of_dog(dog.id),
        reinforcer::of_dog(dog.id),
        plan_draft::find(dog.id),
    )
        .together()
        .read(&mut who.tx)
        .await?;
    let moment = app.moment();
    let (panel, _) = Panel::of(&mut who.tx, &dog, &moment).await?;
    let others = others::lately(draft.as_ref(), who.actor.membership, &moment);
    let described = |step: &Step| format!("{}. {}", step.position, step.name);
    Ok(ItemPage {
        page: Page::of(who, format!("{}: {}", dog.name, exercise.name), "caseload").with_errors(&form),
        dog,
        form,
        line,
        asks: Asks::of(exercise.kind),
        exercise,
        step_choices: steps.iter().map(|s| (s.id.to_string(), described(s))).collect(),
        steps,
        places: places
            .into_iter()
            .map(|p| (p.id.to_string(), format!("{} (distraction {} of 5)", p.name, p.distraction)))
            .collect(),
        reinforcers: reinforcers
            .into_iter()
            .map(|r| (r.id.to_string(), format!("{} (worth {} of 5)", r.what, r.rank)))
            .collect(),
        lines: words::<Line>(),
        clips: words::<Clip>(),
        panel,
        seen,
        meanwhile: None,
        others,
        keeper: who.actor.membership.to_string(),
    })
}

async fn line_of(who: &mut SignedIn, dog: &Dog, line: LineId) -> Result<(LineSettings, Exercise), WebError> {
    let chosen = plan_draft_item::find(&mut who.tx, dog.id, line).await?.ok_or(WebError::NotFound)?;
    let exercise = exercise::find(&mut who.tx, chosen.exercise).await?.ok_or(WebError::NotFound)?;
    Ok((chosen, exercise))
}

/// The form, as the line stands.
pub async fn item_page(
    State(app): State<App>,
    At((dog, line)): At<(String, String)>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let line = id(&line)?;
    let (chosen, exercise) = line_of(&mut who, &dog, line).await?;
    let seen = stamp(&chosen);
    let mut page = page(&app, &mut who, dog, (line, exercise, seen), filled(&chosen)).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// What a form says of a line, with what is wrong with it in the form.
async fn read(
    who: &mut SignedIn,
    dog: &Dog,
    exercise: &Exercise,
    form: &mut Form,
) -> Result<LineSettings, WebError> {
    let chosen = parsed(form, exercise, Asks::of(exercise.kind));
    if form.is_fine()
        && let Err(refusal) = checked(&mut who.tx, dog.id, &chosen).await
    {
        match refusal {
            Refusal::Field { field, message } => form.refuse(field, message),
            other => return Err(other.into()),
        }
    }
    Ok(chosen)
}

/// Shows what the rules would find and what the plan would ask with the line as it is typed. Keeps nothing.
pub async fn check_item(
    State(app): State<App>,
    At((dog, line)): At<(String, String)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let line = id(&line)?;
    let (_, exercise) = line_of(&mut who, &dog, line).await?;
    let chosen = read(&mut who, &dog, &exercise, &mut form).await?;
    if form.is_fine() {
        try_draft_item(&mut who.tx, &who.actor, dog.id, line, &chosen).await?;
    }
    let (status, seen) = (form.status(), form.value("seen").to_owned());
    let page = page(&app, &mut who, dog, (line, exercise, seen), form).await?;
    Ok((status, page).into_response())
}

/// Saves the line. Where somebody else was first, the form comes again with what it says now above what was typed.
pub async fn save_item(
    State(app): State<App>,
    At((dog, line)): At<(String, String)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let line = id(&line)?;
    let (_, exercise) = line_of(&mut who, &dog, line).await?;
    let chosen = read(&mut who, &dog, &exercise, &mut form).await?;
    let seen = form.text("seen", 32);
    if !form.is_fine() {
        let page = page(&app, &mut who, dog, (line, exercise, seen), form).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    match edit_draft_item(who.tx, &who.actor, dog.id, line, &chosen, &seen, &app.moment()).await {
        Ok(()) => {
            let to = format!("/dogs/{}/plan/edit?notice=plan-item-saved#item-{line}", dog.id);
            Ok(Redirect::to(&to).into_response())
        }
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let (now, exercise) = line_of(&mut who, &dog, line).await?;
            let items = plan_draft::items(&mut who.tx, dog.id).await?;
            let meanwhile = items.iter().find(|item| item.line_id == line).map(Card::from);
            let page = page(&app, &mut who, dog, (line, exercise, stamp(&now)), form).await?;
            let page = ItemPage { meanwhile, ..page };
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
        }
        Err(other) => Err(other.into()),
    }
}
