//! Dogs: their profile, and what is kept with it. An owner sees what the practice holds about the dog's health.

pub mod facts;
pub mod food;
pub mod health;
pub mod new;
pub mod off_lead;
pub mod places;
pub mod profile;
pub mod reinforcers;
pub mod section;
pub mod section_form;
pub mod triggers;
pub mod weights;

use time::{Date, Duration};

use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::sign_in::SignedIn;
use crate::store::{Tx, membership};
use crate::web::choices::Choices;
use crate::web::{Form, WebError};

/// The oldest a dog can be, in days: thirty years, more than any on record.
const OLDEST: Duration = Duration::days(30 * 366);

/// The dog with this id, if this person may see it.
async fn load(who: &mut SignedIn, id: DogId) -> Result<Dog, WebError> {
    dog::find(&mut who.tx, &who.actor, id).await?.ok_or(WebError::NotFound)
}

/// The team, to choose a trainer from.
pub(in crate::web) async fn trainers(tx: &mut Tx) -> Result<Choices, WebError> {
    let team = membership::team(tx).await?;
    Ok(team.into_iter().map(|member| (member.id.to_string(), member.name)).collect())
}

/// A day that lies behind us, and not further than a dog's life.
pub(in crate::web) fn past_day(form: &mut Form, field: &str, today: Date) -> Option<Date> {
    let day = form.date(field)?;
    if day > today {
        form.refuse_by_name(field, "this day is still to come. Enter a day up to today.");
    } else if today - day > OLDEST {
        form.refuse_by_name(field, "this is more than 30 years ago. Check the year.");
    }
    Some(day)
}
