//! A trainer's link: takes a place in the team up, or sets a new password for whoever has one.

use askama::Template;
use askama_web::WebTemplate;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};
use axum_extra::extract::CookieJar;

use crate::actions::reset_password::reset_password;
use crate::actions::sign_in::{Proof, check};
use crate::actions::take_up_invitation::{Holder, TakeUp, take_up_invitation};
use crate::actions::{Refusal, password};
use crate::domain::vocabulary::Word;
use crate::web::link::{Asked, Here, over, sign_out, signed_in};
use crate::web::{Answer, Form, Page, WebError, identity};

#[derive(Template, WebTemplate)]
#[template(path = "link/invitation.html")]
struct InvitationPage {
    page: Page,
    form: Form,
    token: String,
    practice: String,
    role: String,
    somebody_else: Option<Here>,
}

#[derive(Template, WebTemplate)]
#[template(path = "link/reset.html")]
struct ResetPage {
    page: Page,
    form: Form,
    token: String,
    name: String,
    practice: String,
    email: String,
    somebody_else: Option<Here>,
}

pub(super) fn page(asked: &Asked, form: Form) -> Response {
    InvitationPage {
        page: asked.page("Take up your invitation").with_errors(&form),
        form,
        token: asked.token.text().to_owned(),
        practice: asked.practice.clone(),
        role: asked.member.role.label().to_lowercase(),
        somebody_else: asked.somebody_else(),
    }
    .into_response()
}

pub(super) fn reset_page(asked: &Asked, email: &str, form: Form) -> Response {
    ResetPage {
        page: asked.page("Set a new password").with_errors(&form),
        form,
        token: asked.token.text().to_owned(),
        name: asked.member.name.clone(),
        practice: asked.practice.clone(),
        email: email.to_owned(),
        somebody_else: asked.somebody_else(),
    }
    .into_response()
}

/// Sets the new password. It signs nobody in: the new password does that, on the next page.
pub(super) async fn reset(asked: Asked, email: &str, jar: CookieJar, mut form: Form) -> Answer {
    let chosen = form.password("password");
    form.forget("password");
    if let Some(objection) =
        password::objection(&chosen, &[email, &asked.member.name, &asked.practice, "settlebrook"])
    {
        form.refuse("password", objection);
        return Ok(asked.refused(form));
    }
    let Asked { app, token, here, .. } = asked;
    let hash = app.hasher.hash(chosen).await?;
    match reset_password(&app.db, token.hash(), &hash, &app.moment()).await {
        Ok(()) => {
            sign_out(&app, here).await?;
            let jar = jar.add(identity::no_cookie(&app));
            Ok((jar, Redirect::to("/sign-in?notice=password-set")).into_response())
        }
        Err(Refusal::NotFound) => Ok(over(true, here)),
        Err(other) => Err(other.into()),
    }
}

/// Takes the place up with a new account, or with one that the person proves.
pub(super) async fn submit(asked: Asked, jar: CookieJar, headers: &HeaderMap, mut form: Form) -> Answer {
    let name = form.required("name", 120, "Enter your name.");
    let email = form.email("email", "Enter your e-mail address.");
    let typed = form.password("password");
    form.forget("password");
    if typed.is_empty() {
        form.refuse("password", "Enter a password.");
    }
    if !form.is_fine() {
        return Ok(asked.refused(form));
    }
    let holder = match holder(&asked, &email, &name, typed).await? {
        Ok(holder) => holder,
        Err(message) => {
            form.refuse("password", message);
            return Ok(asked.refused(form));
        }
    };
    let given = TakeUp { name, email, holder, device: identity::device(headers) };
    match take_up_invitation(&asked.app.db, asked.token.hash(), &given, &asked.app.moment()).await {
        Ok(done) => {
            let jar = signed_in(&asked.app, asked.here, &done, jar).await?;
            Ok((jar, Redirect::to("/caseload?notice=welcome")).into_response())
        }
        Err(Refusal::NotFound) => Ok(over(true, asked.here)),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            Ok(asked.refused(form))
        }
        Err(other) => Err(other.into()),
    }
}

/// Who takes the place up, or what is wrong with the password.
async fn holder(
    asked: &Asked,
    email: &str,
    name: &str,
    typed: String,
) -> Result<Result<Holder, String>, WebError> {
    let app = &asked.app;
    if !app.limits.may_try(email) {
        return Err(WebError::Status(StatusCode::TOO_MANY_REQUESTS));
    }
    match check(&app.db, &app.hasher, email, typed.clone()).await? {
        Proof::Right(account) => Ok(Ok(Holder::Known(account))),
        Proof::Wrong => Ok(Err(
            "This address has an account already. Enter that account's password, or use another address."
                .to_owned(),
        )),
        Proof::Unknown => {
            if let Some(objection) =
                password::objection(&typed, &[email, name, &asked.practice, "settlebrook"])
            {
                return Ok(Err(objection));
            }
            let password_hash = app.hasher.hash(typed).await?;
            Ok(Ok(Holder::New { password_hash }))
        }
    }
}
