//! Looking at what a household told: a trainer says so, takes it back, or says it of everything until now.

use time::OffsetDateTime;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::look::Of;
use crate::store::{Tx, dog, encounter, look, practice_log};

/// What a trainer says of something that was told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Looked {
    /// That they looked at this wording of it: how often it had been changed.
    At(i32),
    /// That they have not, after all.
    NotYet,
}

/// Notes it. A wording that nobody could have seen counts as the present one.
pub async fn look_at(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    of: Of,
    looked: Looked,
    moment: &Moment,
) -> Done<()> {
    match looked {
        Looked::At(seen) => look(&mut tx, actor, dog, of, seen, moment).await?,
        Looked::NotYet => {
            let dog = authorised_dog(&mut tx, actor, Action::LookAt, dog).await?.id;
            dog::lock_summary(&mut tx, dog).await?;
            wording(&mut tx, dog, of).await?;
            look::remove(&mut tx, dog, of).await?;
        }
    }
    tx.commit().await?;
    Ok(())
}

/// Notes a look inside a transaction that goes on.
pub(super) async fn look(
    tx: &mut Tx,
    actor: &Actor,
    dog: DogId,
    of: Of,
    seen: i32,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(tx, actor, Action::LookAt, dog).await?.id;
    dog::lock_summary(tx, dog).await?;
    let revision = wording(tx, dog, of).await?;
    look::add(tx, dog, of, seen.clamp(0, revision), actor.membership, moment.at).await?;
    Ok(())
}

/// The present wording of what was told: how often it was changed.
async fn wording(tx: &mut Tx, dog: DogId, of: Of) -> Done<i32> {
    let revision = match of {
        Of::Log(id) => practice_log::find(tx, dog, id).await?.map(|log| log.revision),
        Of::Encounter(id) => encounter::find(tx, dog, id).await?.map(|kept| kept.revision),
    };
    revision.ok_or(Refusal::NotFound)
}

/// Notes that everything was looked at that was told until the page was made.
pub async fn look_at_all(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    until: OffsetDateTime,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::LookAt, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    look::add_all(&mut tx, dog, until.min(moment.at), actor.membership, moment.at).await?;
    tx.commit().await?;
    Ok(())
}
