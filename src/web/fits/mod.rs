//! "Like this?": the approved photo of a harness or a muzzle, asked about monthly and after a bolt.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use time::OffsetDateTime;

use crate::actions::fits::{answer_fit, approve_fit};
use crate::app::App;
use crate::domain::fit::is_due;
use crate::domain::vocabulary::{FitAnswer, Gear};
use crate::ids::{DogId, PhotoId};
use crate::store::photo::{self, Of};
use crate::store::reading::{Reading, Together};
use crate::store::{dog, fit};
use crate::web::{Answer, At, Form, OwnerOnly, TrainerOnly, WebError};

/// A fit as an owner is asked about it.
pub struct FitView {
    /// Of what, as it is sent.
    pub gear: Gear,
    /// In a sentence.
    pub what: String,
    /// The photo.
    pub path: String,
    /// Its pixels across and down.
    pub size: (i32, i32),
    /// Whether it was said to sit differently, and nobody has approved it anew.
    pub is_changed: bool,
}

/// What to ask about today, or to remind of.
pub fn due(dog: DogId, now: OffsetDateTime) -> Reading<Vec<FitView>> {
    (fit::of_dog(dog), fit::last_bolt(dog)).together().then(move |(fits, bolt)| {
        let asked = fits.into_iter().filter_map(|fit| {
            let is_changed = fit.answered.is_some_and(|(answer, _)| answer == FitAnswer::Changed);
            let sure_at = fit.answered.map_or(fit.approved_at, |(_, at)| at);
            let asks = is_due(sure_at, bolt, now);
            (is_changed || asks).then(|| FitView {
                what: fit.gear.in_a_sentence().to_owned(),
                path: format!("/dogs/{dog}/photos/{}", fit.photo),
                size: fit.size,
                gear: fit.gear,
                is_changed,
            })
        });
        Ok(asked.collect())
    })
}

/// Approves a photo.
pub async fn approve(
    State(app): State<App>,
    At((dog, photo)): At<(DogId, PhotoId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?.id;
    let kept = photo::find(dog, photo).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    let gear: Option<Gear> = form.word("gear");
    let gear = gear.filter(|_| form.is_fine()).ok_or(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY))?;
    approve_fit(who.tx, &who.actor, dog, photo, gear, &app.moment()).await?;
    let of = match kept.of {
        Of::Log(log) => format!("log/{log}"),
        Of::Encounter(encounter) => format!("encounters/{encounter}"),
        Of::Message(_) => "messages".to_owned(),
    };
    Ok(Redirect::to(&format!("/dogs/{dog}/{of}?notice=fit-approved")).into_response())
}

/// Says whether it still sits like that.
pub async fn answer(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?.id;
    let (gear, said): (Option<Gear>, Option<FitAnswer>) = (form.word("gear"), form.word("like_this"));
    let said = gear.zip(said).filter(|_| form.is_fine());
    let said = said.ok_or(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY))?;
    answer_fit(who.tx, &who.actor, dog, said, &app.moment()).await?;
    let notice = if said.1 == FitAnswer::Changed { "fit-changed" } else { "saved" };
    Ok(Redirect::to(&format!("/today?dog={dog}&notice={notice}")).into_response())
}
