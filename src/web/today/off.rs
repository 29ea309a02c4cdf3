//! Not today, and how the arrangements were kept this week: one tap each.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::owners_day::{say_held, take_back_day_off, take_day_off};
use crate::app::App;
use crate::domain::vocabulary::{DayOffReason, Held};
use crate::ids::{DogId, LineId};
use crate::store::dog;
use crate::web::{Answer, At, Form, OwnerOnly, WebError, zones};

/// Takes the day off.
pub async fn not_today(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let on = form.date("on").ok_or(WebError::Status(StatusCode::BAD_REQUEST))?;
    let reason: Option<DayOffReason> = form.word("reason");
    if !form.is_fine() {
        return Err(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY));
    }
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    if on != today {
        return Ok(Redirect::to(&format!("/today?dog={}&notice=day-over", dog.id)).into_response());
    }
    take_day_off(who.tx, &who.actor, dog.id, (today, reason), &moment).await?;
    Ok(Redirect::to(&format!("/today?dog={}&notice=day-off", dog.id)).into_response())
}

/// Practises after all.
pub async fn after_all(State(app): State<App>, At(dog): At<DogId>, OwnerOnly(mut who): OwnerOnly) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    take_back_day_off(who.tx, &who.actor, dog.id, today).await?;
    Ok(Redirect::to(&format!("/today?dog={}", dog.id)).into_response())
}

/// Says how an arrangement was kept this week.
pub async fn held(
    State(app): State<App>,
    At((dog, line)): At<(DogId, LineId)>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let held: Option<Held> = form.word("held");
    let held = held.filter(|_| form.is_fine()).ok_or(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY))?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let week_of = today - time::Duration::days(i64::from(today.weekday().number_days_from_monday()));
    if form.date("week_of") != Some(week_of) {
        return Ok(Redirect::to(&format!("/today?dog={}&notice=day-over", dog.id)).into_response());
    }
    say_held(who.tx, &who.actor, dog.id, (line, week_of), held, &moment).await?;
    Ok(Redirect::to(&format!("/today?dog={}&notice=saved", dog.id)).into_response())
}
