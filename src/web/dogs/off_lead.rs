//! Where a dog may be off the lead: granted and taken back by a trainer, place by place.

use axum::extract::State;

use crate::actions::grant_off_lead::grant_off_lead;
use crate::actions::withdraw_off_lead::withdraw_off_lead;
use crate::app::App;
use crate::ids::{DogId, PlaceId};
use crate::web::dogs::{load, places};
use crate::web::form_page::FormPage;
use crate::web::{Answer, At, Form, TrainerOnly, zones};

/// Grants the permission.
pub async fn grant(
    State(app): State<App>,
    At((dog, id)): At<(DogId, PlaceId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let (dog_id, moment) = (dog.id, app.moment());
    let today = zones::local_date(moment.at, &dog.zone);
    let page = places::kept(&mut who, dog, id, today).await?;
    let done = grant_off_lead(who.tx, &who.actor, dog_id, id, &moment).await;
    page.settle(done, &format!("/dogs/{dog_id}/profile?notice=off-lead-granted"))
}

/// Takes the permission back, with the reason.
pub async fn withdraw(
    State(app): State<App>,
    At((dog, id)): At<(DogId, PlaceId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let (dog_id, moment) = (dog.id, app.moment());
    let today = zones::local_date(moment.at, &dog.zone);
    let mut page = places::kept(&mut who, dog, id, today).await?;
    let because = form.required("because", 200, "Enter why, so that the household and your colleagues know.");
    page.form = page.form.with("because", &because);
    if let Some(objection) = form.error("because") {
        page.form.refuse("because", objection);
        return Ok(page.again());
    }
    let done = withdraw_off_lead(who.tx, &who.actor, dog_id, id, &because, &moment).await;
    page.settle(done, &format!("/dogs/{dog_id}/profile?notice=off-lead-withdrawn"))
}
