//! Booking a lesson, moving it, and calling it off.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::{AppointmentState, CalledOffBy};
use crate::ids::{AppointmentId, DogId};
use crate::store::appointment::{self, Booking};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, membership};

/// A lesson to be booked, or moved.
#[derive(Debug, Clone)]
pub struct AppointmentInput {
    /// Its id, made with the form.
    pub id: AppointmentId,
    /// The dog.
    pub dog: DogId,
    /// When and where.
    pub booking: Booking,
    /// Whether it is wanted although the trainer has another lesson then.
    pub anyway: bool,
}

/// Refuses a trainer who is none, and a time at which the trainer has another lesson, unless it is wanted all the same.
async fn fits(tx: &mut Tx, input: &AppointmentInput) -> Done<()> {
    if !membership::hold_trainer(tx, input.booking.trainer).await? {
        return Err(Refusal::Field { field: "trainer", message: "Choose somebody of the team." });
    }
    let clashes =
        !input.anyway && !appointment::overlapping(&input.booking, Some(input.id)).read(tx).await?.is_empty();
    let message =
        "Another lesson of this trainer is at that time. Tick this to keep both, or choose another time.";
    if clashes { Err(Refusal::Field { field: "anyway", message }) } else { Ok(()) }
}

async fn finished(mut tx: Tx, actor: &Actor, action: &'static str, dog: DogId, moment: &Moment) -> Done<()> {
    audit::note(&mut tx, &AuditEvent::by(actor, action, "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

/// Books a lesson. Sent again, it changes nothing; the same id with other content is refused.
pub async fn book_lesson(mut tx: Tx, actor: &Actor, input: &AppointmentInput, moment: &Moment) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepLessons, input.dog).await?.id;
    if let Some(kept) = appointment::find(dog, input.id).read(&mut tx).await? {
        return if kept.booking == input.booking { Ok(()) } else { Err(Refusal::Clash) };
    }
    fits(&mut tx, input).await?;
    if !appointment::add(&mut tx, (input.id, dog), &input.booking, actor.membership, moment).await? {
        return Err(Refusal::Clash);
    }
    finished(tx, actor, "book_lesson", dog, moment).await
}

/// Moves a lesson that is planned still. `revision` is how often it had been changed when the page was opened: a page that was open
/// for long overwrites nobody.
pub async fn move_lesson(
    mut tx: Tx,
    actor: &Actor,
    input: &AppointmentInput,
    revision: i32,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepLessons, input.dog).await?.id;
    let kept = appointment::find(dog, input.id).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    if kept.state == AppointmentState::Planned && kept.booking == input.booking {
        return Ok(());
    }
    fits(&mut tx, input).await?;
    if !appointment::change(&mut tx, (input.id, revision), &input.booking, moment.at).await? {
        return Err(Refusal::Field {
            field: "day",
            message: "This lesson was changed after you opened this page. Open it again to see how it stands now.",
        });
    }
    finished(tx, actor, "move_lesson", dog, moment).await
}

/// Calls a planned lesson off. Sent again, it changes nothing.
pub async fn call_off_lesson(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (DogId, AppointmentId),
    said: (Option<CalledOffBy>, &str),
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepLessons, dog).await?.id;
    let kept = appointment::find(dog, id).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    if kept.state == AppointmentState::CalledOff {
        let same = (kept.called_off_by, kept.called_off_why.as_str()) == said;
        return if same { Ok(()) } else { Err(Refusal::Clash) };
    }
    if !appointment::call_off(&mut tx, id, said, moment.at).await? {
        return Err(Refusal::Field { field: "why", message: "This lesson was held: its note is kept." });
    }
    finished(tx, actor, "call_off_lesson", dog, moment).await
}
