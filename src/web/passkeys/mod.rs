//! Passkeys as pages show them: where they can be used, and one's own list. Making and using one needs a script.

#[cfg(feature = "passkeys")]
pub mod add;
#[cfg(feature = "passkeys")]
mod challenge;
#[cfg(feature = "passkeys")]
pub mod keep;
#[cfg(feature = "passkeys")]
pub mod sign_in;

use crate::app::App;
use crate::ids::PasskeyId;
use crate::store::passkey;
use crate::store::sign_in::SignedIn;
use crate::web::{WebError, zones};

/// Where passkeys can be used, as pages need to know it.
#[derive(Debug)]
pub struct Place {
    /// The one origin under which browsers make and use them; `None` where the configured address is a number.
    pub origin: Option<String>,
}

/// Where passkeys can be used; `None` where the service is built without them.
pub fn place(app: &App) -> Option<Place> {
    #[cfg(feature = "passkeys")]
    let place = Some(Place { origin: app.passkeys.is_some().then(|| app.base_url.to_string()) });
    #[cfg(not(feature = "passkeys"))]
    let place = None.filter(|_| app.is_https());
    place
}

/// One's own passkeys, and where one more can be made.
#[derive(Debug)]
pub struct Own {
    /// Where.
    pub place: Place,
    /// The list, newest first.
    pub passkeys: Vec<Listed>,
}

/// One passkey of the list.
#[derive(Debug)]
pub struct Listed {
    /// Its id.
    pub id: PasskeyId,
    /// What it is called.
    pub name: String,
    /// When it was made.
    pub made: String,
    /// When it was last used, or that it never was.
    pub used: String,
}

/// One's own passkeys; `None` where the service is built without them. The transaction must have been shown the account.
pub async fn own(
    app: &App,
    who: &mut SignedIn,
    zone: &str,
    today: time::Date,
) -> Result<Option<Own>, WebError> {
    let Some(place) = place(app) else { return Ok(None) };
    let passkeys = passkey::of_account(&mut who.tx, who.account).await?;
    let listed = passkeys.into_iter().map(|kept| Listed {
        id: kept.id,
        made: zones::day(zones::local_date(kept.created_at, zone), today),
        used: kept.last_used_at.map_or_else(
            || "not used yet".to_owned(),
            |at| format!("last used {}", zones::day_and_time(at, zone, today)),
        ),
        name: kept.name,
    });
    Ok(Some(Own { place, passkeys: listed.collect() }))
}
