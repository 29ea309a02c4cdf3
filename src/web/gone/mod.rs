//! If the dog is gone: what to do, whom to ring, and a poster. Kept on the phone, since it is read where there is no signal.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::actions::keep_lost_sheet::keep_lost_sheet;
use crate::app::App;
use crate::domain::dog::{Pronouns, pronouns};
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::lost_sheet::{self, LostSheet};
use crate::store::membership;
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, AnyMember, At, Form, Page, WebError, notice, own_dog};

#[derive(Template, WebTemplate)]
#[template(path = "gone/show.html")]
struct GonePage {
    page: Page,
    form: Form,
    dog: Dog,
    sheet: LostSheet,
    trainer_phone: String,
    /// The household's names and numbers, for a poster on which nobody wrote whom to ring.
    owners: Vec<(String, String)>,
    pronouns: Pronouns,
    /// Whether what the poster says of ringing has no number in it: then the household's stand beside it.
    lacks_number: bool,
}
form_pages!(GonePage);

async fn gone_page(who: &mut SignedIn, dog: DogId, form: Option<Form>) -> Result<GonePage, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let sheet = lost_sheet::find(dog.id).read(&mut who.tx).await?;
    let trainer = membership::find(dog.trainer).read(&mut who.tx).await?;
    let owners = membership::of_household(dog.household).read(&mut who.tx).await?;
    let owners = owners.into_iter().filter(|owner| !owner.phone.is_empty()).map(|o| (o.name, o.phone));
    let form = form.unwrap_or_else(|| {
        Form::blank()
            .with("chip", &sheet.chip)
            .with("marks", &sheet.marks)
            .with("ring", &sheet.ring)
            .with("approach", &sheet.approach)
            .with("saw", sheet.stamp())
    });
    Ok(GonePage {
        page: own_dog::page(who, format!("If {} is gone", dog.name), "today").await?.with_errors(&form),
        form,
        owners: owners.collect(),
        lacks_number: !sheet.ring.chars().any(|c| c.is_ascii_digit()),
        sheet,
        trainer_phone: trainer.map(|trainer| trainer.phone).unwrap_or_default(),
        pronouns: pronouns(dog.sex),
        dog,
    })
}

/// The page.
pub async fn show(
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let mut page = gone_page(&mut who, dog, None).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Keeps what others need to know.
pub async fn keep(
    State(app): State<App>,
    At(dog): At<DogId>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let sheet = LostSheet {
        chip: form.text("chip", 60),
        marks: form.text("marks", 500),
        ring: form.text("ring", 200),
        approach: form.text("approach", 500),
        kept_at: None,
    };
    let saw = form.text("saw", 40);
    let page = gone_page(&mut who, dog, Some(form)).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = keep_lost_sheet(who.tx, &who.actor, dog, &sheet, &saw, &app.moment()).await;
    page.settle(done, &format!("/dogs/{dog}/gone?notice=saved"))
}
