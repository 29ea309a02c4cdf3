//! What a household agrees to: each thing with a tick of its own, a name under it, and a page to print.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::actions::give_consent::give_consent;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::intake::consent::{CLAUSES, Clause, TEXT_VERSION, missing};
use crate::ids::{ConsentId, DogId};
use crate::store::consent::{self, Consent, Tick, ToSign};
use crate::store::dog::{self, Dog};
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, AnyMember, At, Form, OwnerOnly, Page, WebError, notice, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "intake/consent.html")]
struct ConsentPage {
    page: Page,
    form: Form,
    dog: Dog,
    signed: Option<(String, Consent)>,
    clauses: &'static [Clause],
    text_version: i16,
    id: ConsentId,
}
form_pages!(ConsentPage);

async fn consent_page(
    who: &mut SignedIn,
    dog: DogId,
    form: Form,
    moment: &Moment,
) -> Result<ConsentPage, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(moment.at, &dog.zone);
    let here = if who.actor.role == crate::domain::vocabulary::Role::Owner { "today" } else { "caseload" };
    let page = own_dog::page(who, format!("{}: what you agree to", dog.name), here).await?;
    let signed = consent::latest(&mut who.tx, dog.id).await?;
    Ok(ConsentPage {
        page: page.with_errors(&form),
        signed: signed.map(|signed| (zones::day_and_time(signed.signed_at, &dog.zone, today), signed)),
        clauses: CLAUSES,
        text_version: TEXT_VERSION,
        id: form.value("id").parse().unwrap_or_else(|_| moment.id()),
        form,
        dog,
    })
}

/// What was signed last; to an owner the form beneath it.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let mut page = consent_page(&mut who, dog, Form::blank(), &app.moment()).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Signs it.
pub async fn sign(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let moment = app.moment();
    let ticks: Vec<Tick> = CLAUSES
        .iter()
        .map(|clause| Tick {
            clause: clause.key.to_owned(),
            words: clause.text.to_owned(),
            agreed: form.tick(clause.key),
        })
        .collect();
    let agreed: Vec<&str> =
        ticks.iter().filter(|tick| tick.agreed).map(|tick| tick.clause.as_str()).collect();
    for clause in missing(&agreed) {
        form.refuse(clause.key, "Lessons need this one. Tick it, or talk with your trainer first.");
    }
    if form.text("text_version", 4) != TEXT_VERSION.to_string() {
        form.refuse(
            "signed_name",
            "The text has changed since you opened this page. Read it again, then sign.",
        );
    }
    let signed_name = form.required("signed_name", 120, "Write your name, as you would sign.");
    let id = form.id("id").unwrap_or_else(|| moment.id());
    let page = consent_page(&mut who, dog, form, &moment).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let signed = ToSign { id, text_version: TEXT_VERSION, signed_name: &signed_name, ticks: &ticks };
    let done = give_consent(who.tx, &who.actor, dog, &signed, &moment).await;
    page.settle(done, &format!("/dogs/{dog}/consent?notice=signed"))
}
