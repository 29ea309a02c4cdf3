//! Plans: what is published, the draft behind it, and what the owner reads.

mod add;
mod card;
mod changes;
mod checks;
mod confirm;
mod editor;
mod handout;
mod item;
mod others;
mod owner;
mod panel;
mod preview;
mod publish;
mod share;
mod start;
mod template;
mod view;
pub mod words;

pub use add::{add, add_page};
pub use confirm::{remove, remove_page, restart, restart_page};
pub use editor::{add_named, edit, move_item};
pub use handout::handout;
pub use item::{check_item, item_page, save_item};
pub use owner::plan;
pub use preview::preview;
pub use publish::{keep_note, publish, publish_page};
pub use start::{start, start_page};
pub use template::{keep, keep_page, remove as remove_template, remove_page as remove_template_page};
pub use view::{current, version};

use std::str::FromStr;

use crate::ids::DogId;
use crate::store;
use crate::store::dog::Dog;
use crate::store::sign_in::SignedIn;
use crate::web::WebError;

/// An id from a path; what is none leads nowhere.
fn id<T: FromStr>(text: &str) -> Result<T, WebError> {
    text.parse().map_err(|_| WebError::NotFound)
}

/// The dog of a path, as far as this person may see it.
async fn dog_of(who: &mut SignedIn, text: &str) -> Result<Dog, WebError> {
    let dog: DogId = id(text)?;
    store::dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)
}
