//! Adding a passkey on the account page.

use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::IntoResponse;
use axum_extra::extract::CookieJar;

use crate::actions::add_passkey::{Answered, Own, add_passkey, begin_adding};
use crate::actions::passkey::RegisterPublicKeyCredential;
use crate::actions::proof::Came;
use crate::app::App;
use crate::store::sign_in::SignedIn;
use crate::web::json::{self, Json};
use crate::web::passkeys::challenge::{self, Begin, GoTo};
use crate::web::{Answer, AnyMember, identity};

fn own(who: &SignedIn) -> Own {
    Own { account: who.account, sign_in: who.sign_in, came: Came { way: who.way, since: who.since } }
}

/// The challenge for a new passkey.
pub async fn begin(
    State(app): State<App>,
    AnyMember(who): AnyMember,
    jar: CookieJar,
    Json(Begin {}): Json<Begin>,
) -> Answer {
    let (party, own) = (challenge::party(&app)?, own(&who));
    let name = format!("{}, {}", who.member.name, who.practice.name);
    match begin_adding(&app.db, &party, who.tx, own, &name, &app.moment()).await {
        Ok(asked) => Ok(challenge::asked(&app, jar, &asked)),
        Err(refusal) => challenge::refused(refusal),
    }
}

/// Adds the passkey that answers it.
pub async fn submit(
    State(app): State<App>,
    AnyMember(who): AnyMember,
    jar: CookieJar,
    headers: HeaderMap,
    Json(answer): Json<RegisterPublicKeyCredential>,
) -> Answer {
    let (party, own) = (challenge::party(&app)?, own(&who));
    drop(who.tx); // no connection is held while the answer is checked
    let name = identity::device(&headers);
    let answered = Answered { token: challenge::token(&app, &jar), answer: &answer, name: &name };
    let said = match add_passkey(&app.db, &party, &who.actor, own, answered, &app.moment()).await {
        Ok(id) => {
            json::answer(StatusCode::OK, &GoTo { to: format!("/account/passkeys/{id}?notice=passkey-added") })
        }
        Err(refusal) => challenge::refused(refusal)?,
    };
    Ok((jar.add(challenge::over(&app)), said).into_response())
}
