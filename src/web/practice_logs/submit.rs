//! Sending a sitting: one tap or the whole form.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::submit_practice_log::submit_practice_log;
use crate::app::App;
use crate::domain::vocabulary::{Capture, Role, Word};
use crate::ids::{DogId, PlanItemId, PracticeLogId};
use crate::store::{dog, place};
use crate::web::practice_logs::ask::Ask;
use crate::web::practice_logs::fields::{self, About};
use crate::web::practice_logs::new::{form_page, practised};
use crate::web::{Answer, AnyMember, At, Form, WebError, zones};

/// Keeps the sitting and shows what came of it. Sent again, it leads to the same page.
pub async fn submit(
    State(app): State<App>,
    At(dog): At<DogId>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let id: Option<PracticeLogId> = form.id("id");
    let item: Option<PlanItemId> = form.id("item");
    let (Some(id), Some(item)) = (id, item) else { return Err(WebError::Status(StatusCode::BAD_REQUEST)) };
    let item = practised(&mut who, dog.id, item).await?;
    let moment = app.moment();
    let places = place::of_dog(dog.id).read(&mut who.tx).await?;
    let about = About {
        id,
        dog: &dog,
        item: &item,
        places: &places,
        by: who.member.role,
        now: moment.at,
        logged: None,
    };
    let one_tap = form.value("capture") == Capture::OneTap.stored();
    let input = if one_tap { fields::one_tap(&mut form, &about) } else { fields::whole(&mut form, &about) };
    if !form.is_fine() {
        if let (true, Some(attempts)) = (one_tap, item.attempts) {
            form = form.with("attempts", attempts.to_string());
        }
        let trainer = who.member.role != Role::Owner;
        return form_page(&mut who, Ask::new(id.to_string(), dog, item, &places, trainer), form).await;
    }
    let today = zones::local_date(moment.at, &dog.zone);
    let logged = submit_practice_log(who.tx, &who.actor, input, today, &moment).await?;
    Ok(Redirect::to(&format!("/dogs/{}/log/{}", dog.id, logged.id)).into_response())
}
