//! Makes a link for somebody who walks or minds a dog and has no account, and ends it.

use time::Duration;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, HelperLinkId};
use crate::store::audit::{self, AuditEvent};
use crate::store::helper_link::{self, HelperLink};
use crate::store::token::Token;
use crate::store::{Tx, dog};

/// The longest that a link may work, in days.
pub const MOST_DAYS: i16 = 30;
/// The most links of one dog that work at once.
pub const MOST_LINKS: usize = 20;

/// What the household says of a helper.
#[derive(Debug)]
pub struct NewHelperLink {
    /// The link's id, made with the form.
    pub id: HelperLinkId,
    /// Whom it is for.
    pub name: String,
    /// What they should know.
    pub note: String,
    /// How many days it works.
    pub days: i16,
}

/// Makes the link; its secret is known only now.
pub async fn make_helper_link(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    new: NewHelperLink,
    moment: &Moment,
) -> Done<(Token, HelperLink)> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepHelperLinks, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    if helper_link::of_dog(&mut tx, dog, moment.at).await?.len() >= MOST_LINKS {
        return Err(Refusal::Field {
            field: "name",
            message: "Twenty links work at the same time already. End one below first.",
        });
    }
    let link = HelperLink {
        id: new.id,
        dog,
        name: new.name,
        note: new.note,
        made_by: actor.membership,
        expires_at: moment.at + Duration::days(new.days.clamp(1, MOST_DAYS).into()),
    };
    let token = Token::fresh();
    if !helper_link::add(&mut tx, &link, token.hash(), moment.at).await? {
        return Err(Refusal::Clash);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "make_helper_link", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok((token, link))
}

/// Ends a link at once. One that is ended already stays so.
pub async fn end_helper_link(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: HelperLinkId,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepHelperLinks, dog).await?.id;
    if helper_link::end(&mut tx, dog, id, moment.at).await? {
        audit::note(&mut tx, &AuditEvent::by(actor, "end_helper_link", "dog", dog.0, moment)).await?;
        tx.commit().await?;
    }
    Ok(())
}
