//! The invented practice: its content, and how it is played through the same actions that people use.

mod calendar;
mod chance;
pub mod content;
mod load;
mod marker;
mod passwords;
mod people;
mod play;
mod script;
mod stage;
mod welcome;

use std::path::Path;

use self::marker::Loaded;
use self::passwords::Passwords;
use crate::actions::offer_set_up::needs_set_up;
use crate::app::App;
use crate::refusal::Refusal;

/// Loads the invented practice where it is not loaded yet, and prints who can sign in. `folder` keeps the passwords
/// and the note that everything was loaded.
///
/// # Errors
/// A [`Refusal`] when an earlier load did not come to its end; else when the database or the folder fails.
pub async fn open(app: &App, folder: &Path) -> anyhow::Result<()> {
    let loaded = match (Loaded::found_in(folder)?, needs_set_up(&app.db).await?) {
        (Some(loaded), false) => loaded,
        (None, true) => {
            let passwords = Passwords::kept_in(folder)?;
            let loaded = load::load(app, &passwords).await?;
            loaded.keep_in(folder)?;
            loaded
        }
        (None, false) | (Some(_), true) => return Err(Refusal::new(
            "The invented practice was not loaded to its end: run `settlebrook demo --reset` to make it afresh.",
        )
        .into()),
    };
    let passwords = Passwords::kept_in(folder)?;
    welcome::print(app, &loaded, &passwords).await
}
