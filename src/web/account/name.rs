//! One's own name and number, as everybody in the practice reads them.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use crate::actions::edit_own_name::edit_own_name;
use crate::app::App;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, AnyMember, Form, Page, own_dog};

#[derive(Template, WebTemplate)]
#[template(path = "account/name.html")]
struct NamePage {
    page: Page,
    form: Form,
}

form_pages!(NamePage);

/// The name as it is.
pub async fn show(AnyMember(mut who): AnyMember) -> Answer {
    let form = Form::blank()
        .with("name", &who.member.name)
        .with("phone", &who.member.phone)
        .with("was", &who.member.phone);
    let page = own_dog::page(&mut who, "Your name and number", "account").await?;
    Ok(NamePage { page, form }.into_response())
}

/// Changes it.
pub async fn submit(State(app): State<App>, AnyMember(mut who): AnyMember, mut form: Form) -> Answer {
    let page = own_dog::page(&mut who, "Your name and number", "account").await?;
    let name = form.required("name", 120, "Enter your name.");
    let phone = form.text("phone", 40);
    // a number that somebody else is just changing stays theirs, where this page leaves it as it was
    let is_left = phone == form.value("was").trim();
    let page = NamePage { page, form };
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done =
        edit_own_name(who.tx, &who.actor, (&name, (!is_left).then_some(phone.as_str())), &app.moment()).await;
    page.settle(done, "/account?notice=saved")
}
