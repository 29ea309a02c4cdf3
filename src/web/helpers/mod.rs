//! Links for people who walk or mind a dog: the household makes and ends them; whoever holds one sees the card.

pub mod card;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use crate::actions::Refusal;
use crate::actions::make_helper_link::{MOST_DAYS, NewHelperLink, end_helper_link, make_helper_link};
use crate::app::App;
use crate::ids::{DogId, HelperLinkId};
use crate::store::dog::{self, Dog};
use crate::store::helper_link;
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, OwnerOnly, Page, WebError, notice, own_dog, zones};

/// How long a link may work, in days, and in words.
const DAYS: [(&str, &str); 5] =
    [("1", "24 hours"), ("3", "Three days"), ("7", "A week"), ("14", "Two weeks"), ("30", "A month")];

#[derive(Template, WebTemplate)]
#[template(path = "helpers/show.html")]
struct HelpersPage {
    page: Page,
    form: Form,
    dog: Dog,
    /// Links that work: id, for whom, until when.
    links: Vec<(HelperLinkId, String, String)>,
    days: &'static [(&'static str, &'static str)],
}
form_pages!(HelpersPage);

#[derive(Template, WebTemplate)]
#[template(path = "helpers/made.html")]
struct MadePage {
    page: Page,
    dog: Dog,
    name: String,
    link: String,
    message: String,
    until: String,
}

async fn helpers_page(
    app: &App,
    who: &mut SignedIn,
    dog: DogId,
    form: Option<Form>,
) -> Result<HelpersPage, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let links = helper_link::of_dog(&mut who.tx, dog.id, moment.at).await?;
    let form = form.unwrap_or_else(|| {
        let id: HelperLinkId = moment.id();
        Form::blank().with("id", id.to_string()).with("days", "7")
    });
    Ok(HelpersPage {
        page: own_dog::page(who, format!("Helpers for {}", dog.name), "today").await?.with_errors(&form),
        links: links
            .into_iter()
            .map(|link| (link.id, link.name, zones::day_and_time(link.expires_at, &dog.zone, today)))
            .collect(),
        days: &DAYS,
        form,
        dog,
    })
}

/// Who may help, and the form for one more.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let mut page = helpers_page(&app, &mut who, dog, None).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Makes a link and shows it, once.
pub async fn make(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let moment = app.moment();
    let new = NewHelperLink {
        id: form.id("id").unwrap_or_else(|| moment.id()),
        name: form.required("name", 80, "Enter their name."),
        note: form.text("note", 500),
        days: form.whole("days", "How long it works", 1, MOST_DAYS).unwrap_or(0),
    };
    if form.value("days").trim().is_empty() {
        form.refuse("days", "Say how long it works.");
    }
    let mut page = helpers_page(&app, &mut who, dog, Some(form)).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let (token, link) = match make_helper_link(who.tx, &who.actor, dog, new, &moment).await {
        Ok(made) => made,
        Err(Refusal::Field { field, message }) => {
            page.form.refuse(field, message);
            return Ok(page.again());
        }
        Err(other) => return Err(other.into()),
    };
    let dog = page.dog;
    let today = zones::local_date(moment.at, &dog.zone);
    let made = MadePage {
        page: Page { title: format!("A link for {}", link.name), error: false, ..page.page },
        until: zones::day_and_time(link.expires_at, &dog.zone, today),
        link: format!("{}/h/{}", app.base_url, token.text()),
        message: format!("Hello {}, what to know when you have {} with you:", link.name, dog.name),
        name: link.name,
        dog,
    };
    Ok(made.into_response())
}

/// Ends a link at once.
pub async fn end(
    State(app): State<App>,
    At((dog, link)): At<(DogId, HelperLinkId)>,
    OwnerOnly(who): OwnerOnly,
) -> Answer {
    end_helper_link(who.tx, &who.actor, dog, link, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/helpers?notice=helper-ended")).into_response())
}
