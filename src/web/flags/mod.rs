//! Welfare: what the rules found about a dog, and answering it.

mod duty;
mod open;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use time::Date;

use crate::actions::Refusal;
use crate::actions::answer_flag::answer_flag;
use crate::app::App;
use crate::domain::vocabulary::{FlagState, Severity, Word};
use crate::domain::welfare::{Danger, Group, HouseNumbers, NOT_COPING, Pause, pause};
use crate::ids::{DogId, FlagId};
use crate::store::dog::{self, Dog};
use crate::store::flag::{self, Flag, Wanted};
use crate::store::house;
use crate::store::membership::{self, Membership};
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, dog_page, looks, notice, zones};
pub use duty::Duty;
pub use open::Open;
use open::subject_path;

#[derive(Template, WebTemplate)]
#[template(path = "flags/list.html")]
struct WelfarePage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    about: String,
    open: Vec<Open>,
    settled: Vec<(String, Flag)>,
}

/// Everything the rules found about a dog.
pub async fn list(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let open = flag::of_dog(dog.id, Wanted::Open).read(&mut who.tx).await?;
    let settled = flag::of_dog(dog.id, Wanted::Settled).read(&mut who.tx).await?;
    let page = WelfarePage {
        page: Page::of(&who, format!("{}: welfare", dog.name), "caseload").with_notice(notice::of(&query)),
        tab: "welfare",
        about: dog_page::about(&dog, today),
        open: Open::of(open, today),
        settled: settled.into_iter().map(|f| (zones::day(f.local_date, today), f)).collect(),
        dog,
    };
    Ok(page.into_response())
}

#[derive(Template, WebTemplate)]
#[template(path = "flags/show.html")]
struct FlagPage {
    page: Page,
    form: Form,
    dog: Dog,
    flag: Flag,
    day: String,
    about: String,
    /// Whether it is about what a line does to a dog.
    about_a_line: bool,
    answered: String,
    /// When and why it was looked at again; empty where it was not.
    again: String,
    /// The open flags that one answer settles, this one among them; `None` where this one is settled.
    open: Option<Open>,
    /// The numbers as the practice has them now.
    numbers: HouseNumbers,
    /// Whom to ring, where what happened asks for a call.
    owners: Vec<Membership>,
    /// Who answers a stop.
    duty: Duty,
    /// Whether exercises rest by it, so that the answer may keep them resting.
    rests: bool,
    /// Whether every exercise does.
    all_rest: bool,
    /// What the household wrote where it is about.
    told: String,
    /// For whom what is typed is kept on the device.
    keeper: String,
    /// When the page was made: a wording that came later was not seen on it.
    until: String,
    /// Where whoever answers came from: "caseload", or empty.
    from: &'static str,
}

async fn load(who: &mut SignedIn, id: FlagId) -> Result<(Dog, Flag), WebError> {
    let dog = flag::dog_of(&mut who.tx, id).await?.ok_or(WebError::NotFound)?;
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let flag =
        flag::of_dog(dog.id, Wanted::One(id)).read(&mut who.tx).await?.pop().ok_or(WebError::NotFound)?;
    Ok((dog, flag))
}

async fn page(app: &App, who: &mut SignedIn, dog: Dog, flag: Flag, form: Form) -> Result<FlagPage, WebError> {
    // before anything of what it is about is read
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let about = subject_path(&flag);
    let open = match flag.state {
        FlagState::Open => open_with(who, &flag, today).await?,
        _ => None,
    };
    let (house, household) =
        (house::find(), membership::of_household(dog.household)).together().read(&mut who.tx).await?;
    let asks_somebody = flag.severity == Severity::Stop || flag.rule.danger() > Danger::TheWork;
    let owners = if asks_somebody { household } else { Vec::new() };
    let answered = match (&flag.answered_by, flag.answered_at) {
        (Some(by), Some(at)) => format!("{by}, {}", zones::day_and_time(at, &dog.zone, today)),
        _ => String::new(),
    };
    let again = flag.looked_again.map_or_else(String::new, |(why, at)| {
        format!("Looked at again on {}, because {}.", zones::day_and_time(at, &dog.zone, today), why.label())
    });
    let title = format!("{}: {}", dog.name, flag.rule.title);
    let page = Page::of(who, title, "caseload").with_errors(&form);
    let day = zones::day(flag.local_date, today);
    let about_a_line = flag.rule.group == Group::Equipment;
    let duty = Duty::of(&who.practice, moment.at);
    let from = came_from(form.value("from"));
    let rests = flag.rule.id == NOT_COPING.id || pause(flag.rule, flag.severity) != Pause::Nothing;
    let all_rest = flag.rule.id == NOT_COPING.id || pause(flag.rule, flag.severity) == Pause::AllExercises;
    let told = flag::note_of(&mut who.tx, &flag).await?;
    Ok(FlagPage {
        page,
        form,
        day,
        about,
        about_a_line,
        answered,
        again,
        open,
        numbers: house.numbers,
        owners,
        duty,
        rests,
        all_rest,
        told,
        keeper: who.actor.membership.to_string(),
        until: looks::made_at(moment.at),
        from,
        dog,
        flag,
    })
}

/// An open flag with the others that one answer settles. It was open when it was read; what somebody has answered since is
/// found out on answering.
async fn open_with(who: &mut SignedIn, flag: &Flag, today: Date) -> Result<Option<Open>, WebError> {
    let mut all = flag::of_dog(flag.dog, Wanted::Open).read(&mut who.tx).await?;
    if !all.iter().any(|other| other.id == flag.id) {
        all.push(flag.clone());
    }
    Ok(Open::of(all, today).into_iter().find(|open| open.found.all().any(|other| other.id == flag.id)))
}

/// "caseload" where somebody came from there and goes back there, or nothing.
pub(in crate::web) fn came_from(said: &str) -> &'static str {
    if said == CASELOAD { CASELOAD } else { "" }
}

const CASELOAD: &str = "caseload";

/// One flag: what was seen, why it matters, what to do, and its answer.
pub async fn show(
    State(app): State<App>,
    At(id): At<FlagId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (dog, flag) = load(&mut who, id).await?;
    let from = query.get("from").cloned().unwrap_or_default();
    Ok(page(&app, &mut who, dog, flag, Form::blank().with("from", from)).await?.into_response())
}

/// Answers a flag, and with it those of the same rule that the page showed. Where somebody else was first, the page comes again with their answer and what was typed.
pub async fn answer(
    State(app): State<App>,
    At(id): At<FlagId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (dog, flag) = load(&mut who, id).await?;
    let what = form.required("answer", 2000, "Say what was done, or what you agreed with the owner.");
    let saw: Vec<FlagId> = form.ids("saw");
    let rests = form.tick("rests");
    let moment = app.moment();
    let until = looks::until(&form, moment.at).unwrap_or(moment.at);
    let from = came_from(form.value("from"));
    if !form.is_fine() {
        let page = page(&app, &mut who, dog, flag, form).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    match answer_flag(who.tx, &who.actor, id, (&saw, until), (&what, rests), &moment).await {
        Ok(dog) if from == CASELOAD => {
            Ok(Redirect::to(&format!("/caseload?after={dog}&notice=answered")).into_response())
        }
        Ok(dog) => Ok(Redirect::to(&format!("/dogs/{dog}/welfare?notice=answered")).into_response()),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let (dog, flag) = load(&mut who, id).await?;
            let page = page(&app, &mut who, dog, flag, form).await?;
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
        }
        Err(other) => Err(other.into()),
    }
}
