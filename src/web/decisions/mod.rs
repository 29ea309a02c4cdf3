//! Deciding on an exercise: move on, repeat, make it easier.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::decide::{DecisionInput, decide, leads_to};
use crate::app::App;
use crate::domain::vocabulary::{Choice, DecisionReason, Word};
use crate::ids::{DecisionId, DogId, PlanItemId};
use crate::store::dog::{self, Dog};
use crate::store::flag::{self, Wanted};
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::store::{plan, readiness};
use crate::web::dog_page::line::{LineView, Stops};
use crate::web::flags::{Duty, Open};
use crate::web::practice_logs::advice;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, zones};

#[derive(Template, WebTemplate)]
#[template(path = "decisions/show.html")]
struct DecisionPage {
    page: Page,
    form: Form,
    dog: Dog,
    stops: Vec<Open>,
    line: LineView,
    /// The step that "make it easier" leads to; empty where there is none.
    easier: String,
    /// Who answers a stop.
    duty: Duty,
    choices: Vec<(&'static str, &'static str)>,
    reasons: Vec<(&'static str, &'static str)>,
}

async fn page(
    app: &App,
    who: &mut SignedIn,
    dog: DogId,
    item: PlanItemId,
    form: Form,
) -> Result<DecisionPage, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let item = plan::item(dog.id, item).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    let step = item.step.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let (kept, open) =
        (readiness::of_dog(dog.id), flag::of_dog(dog.id, Wanted::Open)).together().read(&mut who.tx).await?;
    let stops: Vec<Open> = Open::of(open, today).into_iter().filter(Open::is_stop).collect();
    let mut choices = Choice::ALL.to_vec();
    if !stops.is_empty() {
        // what makes it easier comes first, and a harder step last
        choices.reverse();
    }
    let measures = advice(&mut who.tx, std::slice::from_ref(&item)).await?.remove(&item.id);
    let easier = leads_to(&mut who.tx, &item, step, &kept, Choice::MakeEasier).await?;
    Ok(DecisionPage {
        page: Page::of(who, format!("Decide on {}", item.name), "caseload").with_errors(&form),
        form,
        line: LineView::of(&item, &kept, measures, Stops::of(&stops)),
        easier: easier.map(|step| step.name).unwrap_or_default(),
        stops,
        choices: choices.iter().map(|c| (c.stored(), c.label())).collect(),
        reasons: DecisionReason::ALL.iter().map(|r| (r.stored(), r.label())).collect(),
        duty: Duty::of(&who.practice, app.moment().at),
        dog,
    })
}

/// The figures, and the choice.
pub async fn show(
    State(app): State<App>,
    At((dog, item)): At<(DogId, PlanItemId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let id: DecisionId = app.moment().id();
    let form = Form::blank().with("id", id.to_string());
    Ok(page(&app, &mut who, dog, item, form).await?.into_response())
}

/// Records the choice.
pub async fn submit(
    State(app): State<App>,
    At((dog, item)): At<(DogId, PlanItemId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let choice = form.word::<Choice>("choice");
    let reason = form.word::<DecisionReason>("reason");
    let note = form.text("note", 1000);
    let id = form.id("id");
    if choice.is_none() {
        form.refuse("choice", "Choose what comes next.");
    }
    if reason.is_none() {
        form.refuse("reason", "Choose a reason.");
    }
    let saw = form.text("saw", 200);
    if form.is_fine() && !saw.is_empty() {
        let now = page(&app, &mut who, dog, item, Form::blank()).await?;
        if now.line.stamp() != saw {
            form.refuse(
                "choice",
                "What the sittings say has changed since you opened the dog’s page. Look again, then choose.",
            );
        }
    }
    let (Some(choice), Some(reason), true) = (choice, reason, form.is_fine()) else {
        let page = page(&app, &mut who, dog, item, form).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    };
    let moment = app.moment();
    let id = id.unwrap_or_else(|| moment.id());
    let input = DecisionInput { id, dog, item, choice, reason, note };
    let moved = decide(who.tx, &who.actor, &input, &moment).await?;
    let to = match (choice, moved) {
        (Choice::Repeat, _) => format!("/dogs/{dog}?notice=decided"),
        (_, true) => format!("/dogs/{dog}/plan/publish?notice=step-moved"),
        (_, false) => format!("/dogs/{dog}/plan/edit?notice=no-such-step"),
    };
    Ok(Redirect::to(&to).into_response())
}
