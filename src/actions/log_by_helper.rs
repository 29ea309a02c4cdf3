//! A sitting that a helper tells by a link: kept like the household's own, with their name on it.

use time::Date;

use crate::actions::submit_practice_log::{LogInput, Logged, log};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::vocabulary::{Capture, Role};
use crate::store::helper_link::{self, Opened};
use crate::store::{dog, membership, practice_log};

/// The most sittings of a dog that helpers may log in a day: a link that went astray does no more harm than that.
pub const MOST_A_DAY: i64 = 12;

/// Keeps the sitting. It is told by whoever made the link, and held by the helper.
pub async fn log_by_helper(opened: Opened, input: LogInput, today: Date, moment: &Moment) -> Done<Logged> {
    let Opened { mut tx, link, maker, .. } = opened;
    let households = membership::households(maker.id).read(&mut tx).await?;
    let actor = Actor { practice: tx.practice(), membership: maker.id, role: Role::Owner, households };
    dog::lock_summary(&mut tx, link.dog).await?;
    let is_new = practice_log::fingerprint(&mut tx, input.id).await?.is_none();
    if is_new && helper_link::logged_on(&mut tx, link.dog, today).await? >= MOST_A_DAY {
        return Err(Refusal::Field {
            field: "practised",
            message: "That is as much as helpers can log in a day. Tell the household instead.",
        });
    }
    let input = LogInput { handler: link.name, capture: Capture::Helper, dog: link.dog, ..input };
    let logged = log(&mut tx, &actor, input, today, moment).await?;
    tx.commit().await?;
    Ok(logged)
}
