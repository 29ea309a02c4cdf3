//! One's own password: changed by whoever shows the current one or has just come in by a link or a passkey, or set for
//! the first time with an address.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use time::OffsetDateTime;

use crate::actions::change_password::{Own, change_password, set_first_password};
use crate::actions::proof::Came;
use crate::actions::{Refusal, password};
use crate::app::App;
use crate::domain::vocabulary::Way;
use crate::store::sign_in::SignedIn;
use crate::store::{Secret, Tx, account};
use crate::web::{Answer, AnyMember, Form, Page, WebError, own_dog};

#[derive(Template, WebTemplate)]
#[template(path = "account/password.html")]
struct PasswordPage {
    page: Page,
    form: Form,
    /// The address, where there is a password already.
    email: Option<String>,
    /// Whether the current one is asked for.
    asks: bool,
}

/// What is kept of a password: the address and the hash, and whether it must be shown to be changed.
struct Kept {
    email: String,
    hash: String,
    asks: bool,
}

fn came(who: &SignedIn) -> Came {
    Came { way: who.way, since: who.since }
}

/// Whoever has just come in by a link or a passkey need not know the password that they replace.
async fn kept(who: &mut SignedIn, now: OffsetDateTime) -> Result<Option<Kept>, WebError> {
    who.tx.show(Secret::Account(who.account)).await?;
    let email = account::email(&mut who.tx, who.account).await?.unwrap_or_default();
    let fresh = came(who).fresh(&mut who.tx, who.account, now).await?;
    let asks = who.way == Way::Password || !fresh;
    Ok(account::password_inside(&mut who.tx, who.account).await?.map(|hash| Kept { email, hash, asks }))
}

fn page(frame: Page, kept: Option<&Kept>, form: Form) -> PasswordPage {
    let (email, asks) = (kept.map(|k| k.email.clone()), kept.is_some_and(|k| k.asks));
    PasswordPage { page: frame.with_errors(&form), form, email, asks }
}

async fn frame(who: &mut SignedIn, kept: Option<&Kept>) -> Result<Page, WebError> {
    own_dog::page(who, if kept.is_some() { "Change your password" } else { "Set a password" }, "account")
        .await
}

/// The form.
pub async fn show(State(app): State<App>, AnyMember(mut who): AnyMember) -> Answer {
    let kept = kept(&mut who, app.moment().at).await?;
    let form = Form::blank().with("email", &who.member.email);
    Ok(page(frame(&mut who, kept.as_ref()).await?, kept.as_ref(), form).into_response())
}

/// Changes or sets the password; every other device is signed out.
pub async fn submit(State(app): State<App>, AnyMember(mut who): AnyMember, mut form: Form) -> Answer {
    let kept = kept(&mut who, app.moment().at).await?;
    let frame = frame(&mut who, kept.as_ref()).await?;
    let (current, chosen) = (form.password("current"), form.password("password"));
    form.forget("current");
    form.forget("password");
    let email = match &kept {
        Some(kept) => kept.email.clone(),
        None => form.email("email", "Enter your e-mail address: you sign in with it."),
    };
    if let Some(objection) =
        password::objection(&chosen, &[&email, &who.member.name, &who.practice.name, "settlebrook"])
    {
        form.refuse("password", objection);
    }
    if kept.is_none() && !came(&who).is_for_the_account(&mut who.tx, who.account).await? {
        form.refuse(
            "password",
            "Your account belongs to two practices: a link of one cannot set what opens both.",
        );
    }
    let own = Own { account: who.account, sign_in: who.sign_in };
    drop(who.tx); // no connection is held while hashing
    if let Some(kept) = kept.as_ref().filter(|kept| kept.asks) {
        if !app.limits.may_try(&email) {
            return Err(WebError::Status(StatusCode::TOO_MANY_REQUESTS));
        }
        if !app.hasher.verify(current, Some(kept.hash.clone())).await? {
            form.refuse("current", "This is not your current password. Enter it as you sign in with it.");
        }
    }
    if !form.is_fine() {
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page(frame, kept.as_ref(), form)).into_response());
    }
    let hash = app.hasher.hash(chosen).await?;
    let tx = reopened(&app, &who.actor).await?;
    let done = match &kept {
        Some(kept) => change_password(tx, &who.actor, own, &kept.hash, &hash, &app.moment()).await,
        None => set_first_password(tx, &who.actor, own, &email, &hash, &app.moment()).await,
    };
    match done {
        Ok(()) => Ok(Redirect::to("/account?notice=password-changed").into_response()),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page(frame, kept.as_ref(), form)).into_response())
        }
        Err(other) => Err(other.into()),
    }
}

/// A transaction for the same person; whoever was removed in the meantime has none.
async fn reopened(app: &App, actor: &crate::domain::access::Actor) -> Result<Tx, WebError> {
    app.db.for_member(actor.practice, actor.membership).await?.ok_or(WebError::NotFound)
}
