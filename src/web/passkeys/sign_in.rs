//! Signing in with a passkey, without an address or a password.

use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use axum_extra::extract::CookieJar;
use serde::{Deserialize, Serialize};

use crate::actions::passkey::PublicKeyCredential;
use crate::actions::prove_by_passkey::{begin_proof, prove_by_passkey};
use crate::actions::sign_in::sign_in;
use crate::app::App;
use crate::domain::vocabulary::Way;
use crate::ids::PracticeId;
use crate::web::json::{self, Json};
use crate::web::passkeys::challenge::{self, Begin, GoTo};
use crate::web::sign_in::{names, own_path, start};
use crate::web::{Answer, WebError, identity};

/// How much of a credential id tells passkeys apart, in bytes.
const LONG_ENOUGH: usize = 64;

/// What the script sends: the browser's answer, where to go, and which practice where there are several.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shown {
    answer: PublicKeyCredential,
    #[serde(default)]
    next: String,
    #[serde(default)]
    practice: Option<PracticeId>,
}

#[derive(Serialize)]
struct Choose {
    message: &'static str,
    practices: Vec<(String, String)>,
}

/// The challenge; the same for everybody.
pub async fn begin(State(app): State<App>, jar: CookieJar, Json(Begin {}): Json<Begin>) -> Answer {
    let party = challenge::party(&app)?;
    if !app.limits.may_challenge() {
        return Err(WebError::Status(StatusCode::TOO_MANY_REQUESTS));
    }
    match begin_proof(&app.db, &party, &app.moment()).await {
        Ok(asked) => Ok(challenge::asked(&app, jar, &asked)),
        Err(refusal) => challenge::refused(refusal),
    }
}

/// Signs in whose passkey answered.
pub async fn submit(
    State(app): State<App>,
    jar: CookieJar,
    headers: HeaderMap,
    Json(shown): Json<Shown>,
) -> Answer {
    let party = challenge::party(&app)?;
    // as for an address, by the id that is looked up; the space keeps the two kinds of names apart
    let id = shown.answer.get_credential_id();
    let named: String = id.iter().take(LONG_ENOUGH).map(|byte| format!("{byte:02x}")).collect();
    if !app.limits.may_try(&format!("passkey {named}")) {
        return Err(WebError::Status(StatusCode::TOO_MANY_REQUESTS));
    }
    let (token, moment) = (challenge::token(&app, &jar), app.moment());
    let jar = jar.add(challenge::over(&app));
    let (account, places) = match prove_by_passkey(&app.db, &party, token, &shown.answer, &moment).await {
        Ok(proven) => proven,
        Err(refusal) => return Ok((jar, challenge::refused(refusal)?).into_response()),
    };
    let wanted = places.iter().find(|p| places.len() == 1 || Some(p.0) == shown.practice).copied();
    let Some(place) = wanted else {
        return Ok((jar, choose(names(&app.db, &places).await?)).into_response());
    };
    let done = sign_in(&app.db, account, place, Way::Passkey, &identity::device(&headers), &moment).await?;
    let next = own_path(&shown.next);
    let to = if next == "/" { start(place.2).to_owned() } else { next };
    let jar = jar.add(identity::cookie(&app, &done.token, done.expires_at));
    Ok((jar, json::answer(StatusCode::OK, &GoTo { to })).into_response())
}

fn choose(practices: Vec<(String, String)>) -> Response {
    let message = "Choose a practice, then use the passkey once more.";
    json::answer(StatusCode::UNPROCESSABLE_ENTITY, &Choose { message, practices })
}
