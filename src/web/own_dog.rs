//! Which of an owner's dogs a page is about, and the frame of pages that owners read.

use std::collections::HashMap;

use crate::domain::vocabulary::Role;
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::message;
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::web::{Page, WebError};

/// The frame of a page, with the dog that `?dog=` names, or the first one, and all dogs of the owner's households. `None` for the dogs
/// while they have none; a dog that is not theirs is not found.
pub async fn page_and_dogs(
    who: &mut SignedIn,
    (title, here): (&str, &'static str),
    query: &HashMap<String, String>,
) -> Result<(Page, Option<(Dog, Vec<Dog>)>), WebError> {
    let mut page = Page::of(who, title, here);
    let me = who.member.id;
    let (dogs, unread) =
        (dog::of_owner(me), message::unread_by_owner(me)).together().read(&mut who.tx).await?;
    page.unread = unread;
    let found = match query.get("dog") {
        Some(text) => {
            let id: DogId = text.parse().map_err(|_| WebError::NotFound)?;
            Some(dogs.iter().find(|dog| dog.id == id).cloned().ok_or(WebError::NotFound)?)
        }
        None => dogs.first().cloned(),
    };
    Ok((page, found.map(|dog| (dog, dogs))))
}

/// The frame of a page that an owner may read: with the count of messages they have not read.
pub async fn page(
    who: &mut SignedIn,
    title: impl Into<String>,
    here: &'static str,
) -> Result<Page, WebError> {
    let mut page = Page::of(who, title, here);
    if who.member.role == Role::Owner {
        page.unread = message::unread_by_owner(who.member.id).read(&mut who.tx).await?;
    }
    Ok(page)
}
