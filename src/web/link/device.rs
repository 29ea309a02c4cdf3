//! An owner's link: signs the phone in that opened it.

use askama::Template;
use askama_web::WebTemplate;
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Redirect, Response};
use axum_extra::extract::CookieJar;

use crate::actions::Refusal;
use crate::actions::use_device_link::use_device_link;
use crate::domain::lists::in_a_sentence;
use crate::web::link::{Asked, Here, over, signed_in};
use crate::web::{Answer, Page, identity};

#[derive(Template, WebTemplate)]
#[template(path = "link/device.html")]
struct DevicePage {
    page: Page,
    token: String,
    name: String,
    dogs: String,
    practice: String,
    somebody_else: Option<Here>,
    already: Option<Here>,
}

pub(super) fn page(asked: &Asked, dogs: &[String]) -> Response {
    let somebody_else = asked.somebody_else();
    DevicePage {
        page: asked.page("Sign this phone in"),
        token: asked.token.text().to_owned(),
        name: asked.member.name.clone(),
        dogs: in_a_sentence(dogs),
        practice: asked.practice.clone(),
        already: asked.here.clone().filter(|_| somebody_else.is_none()),
        somebody_else,
    }
    .into_response()
}

pub(super) async fn submit(asked: Asked, jar: CookieJar, headers: &HeaderMap) -> Answer {
    let Asked { app, token, here, .. } = asked;
    match use_device_link(&app.db, token.hash(), &identity::device(headers), &app.moment()).await {
        Ok(done) => {
            let jar = signed_in(&app, here, &done, jar).await?;
            Ok((jar, Redirect::to("/today?notice=phone-signed-in")).into_response())
        }
        Err(Refusal::NotFound) => Ok(over(true, here)),
        Err(other) => Err(other.into()),
    }
}
