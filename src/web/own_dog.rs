//! Which of an owner's dogs a page is about, and the frame of pages that owners read.

use std::collections::HashMap;

use crate::domain::vocabulary::Role;
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::message;
use crate::store::sign_in::SignedIn;
use crate::web::{Page, WebError};

/// The dog that `?dog=` names, or the first one, with all dogs of the owner's households. `None` while they have none;
/// a dog that is not theirs is not found.
pub async fn chosen(
    who: &mut SignedIn,
    query: &HashMap<String, String>,
) -> Result<Option<(Dog, Vec<Dog>)>, WebError> {
    let dogs = dog::of_owner(&mut who.tx, who.member.id).await?;
    let found = match query.get("dog") {
        Some(text) => {
            let id: DogId = text.parse().map_err(|_| WebError::NotFound)?;
            Some(dogs.iter().find(|dog| dog.id == id).cloned().ok_or(WebError::NotFound)?)
        }
        None => dogs.first().cloned(),
    };
    Ok(found.map(|dog| (dog, dogs)))
}

/// The frame of a page that an owner may read: with the count of messages they have not read.
pub async fn page(
    who: &mut SignedIn,
    title: impl Into<String>,
    here: &'static str,
) -> Result<Page, WebError> {
    let mut page = Page::of(who, title, here);
    if who.member.role == Role::Owner {
        page.unread = message::unread_by_owner(&mut who.tx, who.member.id).await?;
    }
    Ok(page)
}
