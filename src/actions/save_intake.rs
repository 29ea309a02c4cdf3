//! An owner saves a page of an intake, or takes an incident out that was told by mistake.

use uuid::Uuid;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::intake::answers::{Answers, PageAnswers};
use crate::ids::DogId;
use crate::store::{Tx, intake};

/// The most incidents that one intake holds.
const MOST_INCIDENTS: usize = 12;

/// Saves what a page says. Another page that is saved at the same time, on another phone, is kept as well.
pub async fn save_intake(tx: Tx, actor: &Actor, dog: DogId, page: PageAnswers, moment: &Moment) -> Done<()> {
    change(tx, actor, dog, moment, |answers| {
        answers.put(page);
        if answers.teeth().incidents.len() > MOST_INCIDENTS {
            return Err(Refusal::Field {
                field: "whom",
                message: "There are twelve here already. Write the rest to your trainer.",
            });
        }
        Ok(())
    })
    .await
}

/// Takes an incident out.
pub async fn take_incident_out(
    tx: Tx,
    actor: &Actor,
    dog: DogId,
    incident: Uuid,
    moment: &Moment,
) -> Done<()> {
    change(tx, actor, dog, moment, |answers| {
        answers.take_out(incident);
        Ok(())
    })
    .await
}

async fn change(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    moment: &Moment,
    how: impl FnOnce(&mut Answers) -> Done<()>,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::TellIntake, dog).await?.id;
    let before = intake::hold(&mut tx, dog).await?.ok_or(Refusal::NotFound)?;
    let mut answers = before.clone();
    how(&mut answers)?;
    // a page looked at once more and saved as it was does not ask the trainer again
    if answers != before {
        intake::save(&mut tx, dog, &answers, moment.at).await?;
    }
    tx.commit().await?;
    Ok(())
}
