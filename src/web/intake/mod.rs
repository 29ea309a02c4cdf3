//! What a household tells before the first lesson: as the trainer reads it, and as the owner fills it in.

pub mod consent;
mod fields;
pub mod tell;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use crate::actions::ask_intake::ask_intake;
use crate::actions::triage_dog::triage_dog;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::intake::IntakePage;
use crate::domain::intake::answers::{Answers, Said};
use crate::domain::intake::triage::{Publishing, Triage, may_follow};
use crate::domain::vocabulary::{Role, Word};
use crate::ids::{DogId, TriageId};
use crate::store::dog::{self, Dog};
use crate::store::intake::{self, Intake};
use crate::store::sign_in::SignedIn;
use crate::store::triage::{self, Answered};
use crate::web::choices::Choices;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, dog_page, notice, zones};

#[derive(Template, WebTemplate)]
#[template(path = "intake/show.html")]
struct IntakeView {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    /// `None` where nobody asked.
    told: Option<Told>,
    publishing: Publishing,
    answered: Vec<(String, Answered)>,
    answers: Choices,
    consent: Option<String>,
    id: TriageId,
    /// A mark of what the household told, as it stands here.
    seen: String,
}
form_pages!(IntakeView);

/// An intake in words.
struct Told {
    state: String,
    pages: Vec<PageView>,
}

/// A page of an intake in words.
pub(super) struct PageView {
    pub(super) page: IntakePage,
    pub(super) saved: bool,
    pub(super) said: Vec<Said>,
}

/// Every page of an intake.
pub(super) fn pages(answers: &Answers) -> Vec<PageView> {
    let view = |page: &IntakePage| PageView {
        page: *page,
        saved: answers.is_saved(*page),
        said: answers.in_words(*page),
    };
    IntakePage::ALL.iter().map(view).collect()
}

/// The answers that this person may give next.
fn next_answers(latest: Option<Triage>, role: Role) -> Choices {
    let may = |answer: &&Triage| may_follow(latest, **answer, role == Role::Lead);
    Triage::ALL
        .iter()
        .filter(may)
        .map(|answer| (answer.stored().to_owned(), in_full(*answer).to_owned()))
        .collect()
}

fn in_full(answer: Triage) -> &'static str {
    match answer {
        Triage::Take => "Take: we start",
        Triage::VetFirst => {
            "Vet first: a vet looks at this dog before we work on more than keeping everyone safe"
        }
        Triage::Refer => {
            "Refer: somebody else should take this dog; no plan is published until a lead releases it"
        }
        Triage::Released => "Release: the lead lets this dog be worked with after all",
    }
}

async fn view(who: &mut SignedIn, dog: DogId, form: Form, moment: &Moment) -> Result<IntakeView, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(moment.at, &dog.zone);
    let when = |at| zones::day_and_time(at, &dog.zone, today);
    let found = intake::find(&mut who.tx, dog.id).await?;
    let seen = found.as_ref().map(Intake::stamp).unwrap_or_default();
    let told = found.map(|intake| {
        let pages = pages(&intake.answers);
        let done = pages.iter().filter(|page| page.saved).count();
        let state = match (intake.sent_at, &intake.sent_by) {
            (Some(at), Some(by)) if intake.is_changed_since() => {
                format!("Sent by {by}, {}. Changed since, and not sent again.", when(at))
            }
            (Some(at), Some(by)) => format!("Sent by {by}, {}.", when(at)),
            _ => format!(
                "Asked {}. {done} of {} pages filled in so far; not sent yet.",
                when(intake.asked_at),
                pages.len()
            ),
        };
        Told { state, pages }
    });
    let answered = triage::of_dog(&mut who.tx, dog.id).await?;
    let latest = answered.first().map(|answered| answered.answer);
    let signed = crate::store::consent::latest(&mut who.tx, dog.id).await?;
    let consent =
        signed.map(|signed| format!("Signed by {}, {}.", signed.signed_name, when(signed.signed_at)));
    Ok(IntakeView {
        page: Page::of(who, format!("{}: before the first lesson", dog.name), "caseload").with_errors(&form),
        tab: "intake",
        about: dog_page::about(&dog, today),
        told,
        publishing: triage::publishing_of(&mut who.tx, dog.id).await?,
        answers: next_answers(latest, who.member.role),
        answered: answered.into_iter().map(|answered| (when(answered.at), answered)).collect(),
        consent,
        id: form.value("id").parse().unwrap_or_else(|_| moment.id()),
        seen,
        form,
        dog,
    })
}

/// What the household told, and what the trainer makes of it.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let mut view = view(&mut who, dog, Form::blank(), &app.moment()).await?;
    view.page = view.page.with_notice(notice::of(&query));
    Ok(view.into_response())
}

/// Asks the household.
pub async fn ask(State(app): State<App>, At(dog): At<DogId>, TrainerOnly(who): TrainerOnly) -> Answer {
    ask_intake(who.tx, &who.actor, dog, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/intake?notice=intake-asked")).into_response())
}

/// Keeps what the trainer makes of it.
pub async fn answer(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let moment = app.moment();
    let answer: Option<Triage> = form.word("answer");
    if answer.is_none() {
        form.refuse("answer", "Say what you make of it: choose one of the answers.");
    }
    let reason = form.text("reason", 1000);
    if matches!(answer, Some(Triage::Refer | Triage::Released)) && reason.is_empty() {
        form.refuse("reason", "Write why, in a line: whoever looks at this dog next reads it.");
    }
    let id = form.id("id").unwrap_or_else(|| moment.id());
    let seen = form.text("seen", 80);
    let page = view(&mut who, dog, form, &moment).await?;
    let Some(answer) = answer.filter(|_| page.form.is_fine()) else { return Ok(page.again()) };
    if page.told.is_none() {
        return Err(WebError::NotFound);
    }
    let done = triage_dog(who.tx, &who.actor, dog, (id, &seen), (answer, &reason), &moment).await;
    page.settle(done, &format!("/dogs/{dog}/intake?notice=answered"))
}
