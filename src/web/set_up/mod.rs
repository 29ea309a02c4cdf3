//! First-run set-up, for whoever holds the link that was printed where the service was started.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::CookieJar;

use crate::actions::Refusal;
use crate::actions::password;
use crate::actions::set_up_practice::{NewPractice, set_up_practice};
use crate::app::App;
use crate::store::token::Token;
use crate::store::{Secret, setup_token};
use crate::web::zones::{self, Zones};
use crate::web::{Answer, At, Form, Page, WebError, identity};

#[derive(Template, WebTemplate)]
#[template(path = "set_up/show.html")]
struct SetUpPage {
    page: Page,
    form: Form,
    token: String,
    zones: Zones,
}

fn page(token: &Token, form: Form) -> SetUpPage {
    let page = Page::plain("Set up your practice").with_errors(&form);
    SetUpPage { page, token: token.text().to_owned(), zones: zones::choices(form.value("zone")), form }
}

/// The token of a link that may still be used. No connection is held any more.
async fn good(app: &App, shown: &str) -> Result<Token, WebError> {
    let token = Token::shown(shown).ok_or(WebError::NotFound)?;
    let mut door = app.db.door(Secret::Token(token.hash())).await?;
    if setup_token::is_good(&mut door, token.hash(), app.moment().at).await? {
        Ok(token)
    } else {
        Err(WebError::NotFound)
    }
}

/// The set-up page.
pub async fn show(State(app): State<App>, At(token): At<String>) -> Answer {
    let token = good(&app, &token).await?;
    Ok(page(&token, Form::blank().with("zone", zones::USUAL)).into_response())
}

/// Sets the practice up and signs its lead trainer in.
pub async fn submit(
    State(app): State<App>,
    At(token): At<String>,
    jar: CookieJar,
    headers: HeaderMap,
    mut form: Form,
) -> Answer {
    let token = good(&app, &token).await?;
    let practice = form.required("practice", 120, "Enter the name of your practice.");
    let zone = zones::read(&mut form, "zone");
    let name = form.required("name", 120, "Enter your name.");
    let email = form.email("email", "Enter your e-mail address.");
    let chosen = form.password("password");
    form.forget("password");
    if let Some(objection) = password::objection(&chosen, &[&email, &name, &practice, "settlebrook"]) {
        form.refuse("password", objection);
    }
    if !form.is_fine() {
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page(&token, form)).into_response());
    }
    let password_hash = app.hasher.hash(chosen).await?;
    let new = NewPractice { practice, zone, name, email, password_hash, device: identity::device(&headers) };
    match set_up_practice(&app.db, token.hash(), &new, &app.moment()).await {
        Ok(done) => {
            let cookie = identity::cookie(&app, &done.token, done.expires_at);
            Ok((jar.add(cookie), Redirect::to("/caseload?notice=set-up")).into_response())
        }
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page(&token, form)).into_response())
        }
        Err(other) => Err(other.into()),
    }
}
