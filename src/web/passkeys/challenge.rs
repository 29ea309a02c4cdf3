//! The cookie that binds a challenge to the browser that asked for it, and the answers of these routes.

use std::sync::Arc;

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::Cookie;
use serde::{Deserialize, Serialize};

use crate::actions::Refusal;
use crate::actions::add_passkey::Asked;
use crate::actions::passkey::{ANSWER_WITHIN, RelyingParty};
use crate::app::App;
use crate::store::token::{Token, TokenHash};
use crate::web::{WebError, identity, json};

/// What the script sends to begin: nothing.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Begin {}

/// Where to go now.
#[derive(Serialize)]
pub(super) struct GoTo {
    /// A path of ours.
    pub to: String,
}

#[derive(Serialize)]
struct Refused {
    message: &'static str,
}

/// The party that passkeys are made for; 404 where the address can have none.
pub(super) fn party(app: &App) -> Result<Arc<RelyingParty>, WebError> {
    app.passkeys.clone().ok_or(WebError::NotFound)
}

fn cookie_name(app: &App) -> &'static str {
    if app.is_https() { "__Host-settlebrook-passkey" } else { "settlebrook-passkey" }
}

/// The challenge, with its cookie.
pub(super) fn asked<T: Serialize>(app: &App, jar: CookieJar, asked: &Asked<T>) -> Response {
    let mut cookie = identity::cookie(app, &asked.token, app.moment().at + ANSWER_WITHIN);
    cookie.set_name(cookie_name(app));
    (jar.add(cookie), json::answer(StatusCode::OK, &asked.challenge)).into_response()
}

/// The token that came with an answer; without one nothing was asked here, or too long ago.
pub(super) fn token(app: &App, jar: &CookieJar) -> TokenHash {
    jar.get(cookie_name(app)).and_then(|c| Token::shown(c.value())).unwrap_or_else(Token::fresh).hash()
}

/// Takes the cookie away: its challenge is used up.
pub(super) fn over(app: &App) -> Cookie<'static> {
    let mut cookie = identity::no_cookie(app);
    cookie.set_name(cookie_name(app));
    cookie
}

/// A refusal in words that the script shows; everything else as on any page.
pub(super) fn refused(refusal: Refusal) -> Result<Response, WebError> {
    match refusal {
        Refusal::Field { message, .. } => {
            Ok(json::answer(StatusCode::UNPROCESSABLE_ENTITY, &Refused { message }))
        }
        other => Err(other.into()),
    }
}
