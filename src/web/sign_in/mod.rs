//! Signing in and out with an address and a password.

pub mod limits;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::CookieJar;

use crate::actions::Refusal;
use crate::actions::end_sign_ins::end_sign_in;
use crate::actions::sign_in as action;
use crate::app::App;
use crate::domain::vocabulary::{Role, Way};
use crate::store::{self, Db, practice};
use crate::web::passkeys::{self, Place};
use crate::web::{Answer, AnyMember, Form, Page, WebError, identity, notice};

#[derive(Template, WebTemplate)]
#[template(path = "sign_in/show.html")]
struct SignInPage {
    page: Page,
    form: Form,
    next: String,
    /// The practices to choose from, where a proven account has several.
    practices: Vec<(String, String)>,
    /// Where passkeys can be used, if they can.
    passkeys: Option<Place>,
}

/// The first page: where somebody belongs, or the sign-in page.
pub async fn home(who: Option<AnyMember>) -> Redirect {
    match who {
        Some(AnyMember(who)) => Redirect::to(start(who.member.role)),
        None => Redirect::to("/sign-in"),
    }
}

/// Where somebody of this role starts.
pub fn start(role: Role) -> &'static str {
    if role == Role::Owner { "/today" } else { "/caseload" }
}

/// The sign-in page; `?next=` is where to go afterwards.
pub async fn show(
    State(app): State<App>,
    who: Option<AnyMember>,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    if let Some(AnyMember(who)) = who {
        return Ok(Redirect::to(start(who.member.role)).into_response());
    }
    let page = Page::plain("Sign in").with_notice(notice::of(&query));
    Ok(SignInPage {
        page,
        form: Form::blank(),
        next: own_path(query.get("next").map_or("", String::as_str)),
        practices: Vec::new(),
        passkeys: passkeys::place(&app),
    }
    .into_response())
}

/// Signs in.
pub async fn submit(State(app): State<App>, jar: CookieJar, headers: HeaderMap, mut form: Form) -> Answer {
    let email = form.email("email", "Enter your e-mail address.");
    let password = form.password("password");
    if password.is_empty() {
        form.refuse("password", "Enter your password.");
    }
    form.forget("password");
    let next = own_path(form.value("next"));
    if !form.is_fine() {
        return Ok(again(&app, form, next, Vec::new()));
    }
    if !app.limits.may_try(&email) {
        return Err(WebError::Status(StatusCode::TOO_MANY_REQUESTS));
    }
    let proven = action::prove(&app.db, &app.hasher, &email, password).await?;
    let Some((account, standings)) = proven else {
        tracing::warn!("a sign-in was refused");
        form.refuse("email", "This address and password do not belong together. Check both and try again.");
        return Ok(again(&app, form, next, Vec::new()));
    };
    let wanted = form.id("practice");
    let Some(standing) = standings.iter().find(|s| standings.len() == 1 || Some(s.0) == wanted).copied()
    else {
        form.refuse("practice", "Choose a practice, and enter your password once more.");
        return Ok(again(&app, form, next, names(&app.db, &standings).await?));
    };
    let device = identity::device(&headers);
    let done = action::sign_in(&app.db, account, standing, Way::Password, &device, &app.moment()).await?;
    let to = if next == "/" { start(standing.2).to_owned() } else { next };
    Ok((jar.add(identity::cookie(&app, &done.token, done.expires_at)), Redirect::to(&to)).into_response())
}

fn again(app: &App, form: Form, next: String, practices: Vec<(String, String)>) -> axum::response::Response {
    let passkeys = passkeys::place(app);
    let page = Page::plain("Sign in").with_errors(&form);
    (StatusCode::UNPROCESSABLE_ENTITY, SignInPage { page, form, next, practices, passkeys }).into_response()
}

/// The practices of somebody who has proven who they are, by name.
pub(in crate::web) async fn names(
    db: &Db,
    standings: &action::Standings,
) -> store::Result<Vec<(String, String)>> {
    let mut named = Vec::new();
    for (practice, member, _) in standings {
        if let Some(mut tx) = db.for_member(*practice, *member).await? {
            named.push((practice.to_string(), practice::here(&mut tx).await?.name));
        }
    }
    named.sort_by(|a, b| a.1.cmp(&b.1));
    Ok(named)
}

/// Signs out of this device.
pub async fn sign_out(State(app): State<App>, jar: CookieJar, who: Option<AnyMember>) -> Answer {
    if let Some(AnyMember(who)) = who {
        match end_sign_in(who.tx, &who.actor, who.sign_in, &app.moment()).await {
            // ended from elsewhere in the meantime: that is what was asked for
            Ok(()) | Err(Refusal::NotFound) => {}
            Err(other) => return Err(other.into()),
        }
    }
    Ok((jar.add(identity::no_cookie(&app)), Redirect::to("/sign-in")).into_response())
}

/// A path of ours, or the first page: never another site.
pub(in crate::web) fn own_path(next: &str) -> String {
    let plain = next.starts_with('/')
        && !next.starts_with("//")
        && next.bytes().all(|b| b.is_ascii_graphic() && b != b'\\')
        && !next.contains("/..")
        && !next.starts_with("/sign-");
    if plain { next.to_owned() } else { "/".to_owned() }
}

#[cfg(test)]
mod tests {
    use super::own_path;

    #[test]
    fn only_own_paths_are_gone_to() {
        let foreign = [
            "",
            "//e",
            "/\\e",
            "/\t/e",
            "https:e",
            "https://e",
            "/..//e",
            "javascript:x",
            "\\\\e",
            "e",
            " /e",
            "/e\r\nx",
            "/a/../../e",
            "http:/e",
            "/sign-in",
            "data:x",
        ];
        for text in foreign {
            assert_eq!(own_path(text), "/", "{text:?}");
        }
        assert_eq!(own_path("/dogs/1?tab=log"), "/dogs/1?tab=log");
    }
}
