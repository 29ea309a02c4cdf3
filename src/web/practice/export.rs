//! Every household, dog and weight of the practice as a file, in the columns that an import takes.

use axum::extract::State;

use crate::actions::authorise;
use crate::app::App;
use crate::domain::access::Action;
use crate::domain::import::{HouseholdEntry, Known, write};
use crate::store::import;
use crate::web::practice::import::as_file;
use crate::web::{Answer, LeadOnly, zones};

/// The file.
pub async fn download(State(app): State<App>, LeadOnly(mut who): LeadOnly) -> Answer {
    authorise(&who.actor, Action::ImportRecords, None)?;
    let known = import::known(&mut who.tx).await?;
    let all: Vec<HouseholdEntry> = known.into_iter().map(Known::whole).collect();
    let today = zones::local_date(app.moment().at, &who.practice.zone);
    Ok(as_file(&format!("households-dogs-weights-{today}.csv"), write(&all)))
}
