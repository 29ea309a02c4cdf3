//! After a lesson: the trainer's own note, what the household is told, the sitting that was counted there, and what comes
//! next, all kept at once.

use time::Date;

use crate::actions::plan_draft::{finished, opened};
use crate::actions::send_message::{MessageInput, send};
use crate::actions::start_plan::append;
use crate::actions::submit_practice_log::{LogInput, log};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::vocabulary::AppointmentState;
use crate::ids::{AppointmentId, DogId, ExerciseId, LessonId, MessageId};
use crate::store::lesson::{self, NewLesson};
use crate::store::{Tx, appointment, plan_draft_item};

/// What came of a lesson.
#[derive(Debug)]
pub struct LessonInput {
    /// Its id, made with the form.
    pub id: LessonId,
    /// The dog.
    pub dog: DogId,
    /// The day.
    pub held_on: Date,
    /// What the household is told, as a message too; may be empty.
    pub summary: String,
    /// What only trainers read; may be empty.
    pub private_note: String,
    /// The sitting that was counted there.
    pub baseline: Option<LogInput>,
    /// What is added to the draft, where it does not hold it yet.
    pub next: Vec<ExerciseId>,
    /// The booked lesson that it was.
    pub appointment: Option<AppointmentId>,
}

/// Keeps it. Sending the same again changes nothing. `today` is the day it is where the dog lives.
pub async fn keep_lesson(
    mut tx: Tx,
    actor: &Actor,
    input: LessonInput,
    today: Date,
    moment: &Moment,
) -> Done<()> {
    let dog = opened(&mut tx, actor, input.dog, moment).await?.id;
    crate::store::dog::lock_summary(&mut tx, dog).await?;
    if let Some(id) = input.appointment {
        can_be_noted(&mut tx, dog, id, input.id).await?;
    }
    let baseline = match input.baseline {
        Some(sitting) => Some(log(&mut tx, actor, sitting, today, moment).await?.id),
        None => None,
    };
    let new = NewLesson {
        id: input.id,
        dog,
        held_on: input.held_on,
        summary: &input.summary,
        private_note: &input.private_note,
        log: baseline,
        appointment: input.appointment,
    };
    if !lesson::add(&mut tx, &new, actor.membership, moment).await? {
        return if lesson::is_same(&mut tx, &new).await? { Ok(()) } else { Err(Refusal::Clash) };
    }
    if let Some(id) = input.appointment
        && !appointment::hold(&mut tx, dog, id, moment.at).await?
    {
        return Err(Refusal::Clash);
    }
    if !input.summary.is_empty() {
        // one message a lesson: its id is the lesson's
        let message =
            MessageInput { id: MessageId(input.id.0), body: &input.summary, seen: None, about: None };
        send(&mut tx, actor, dog, message, moment).await?;
    }
    add_to_draft(&mut tx, dog, &input.next, moment).await?;
    finished(tx, actor, dog, "keep_lesson", "", moment).await
}

/// Refuses a booked lesson that was called off, or has a note already that is not this one.
async fn can_be_noted(tx: &mut Tx, dog: DogId, id: AppointmentId, lesson: LessonId) -> Done<()> {
    let booked = appointment::find(dog, id).read(tx).await?.ok_or(Refusal::NotFound)?;
    let message = match booked.state {
        AppointmentState::Planned => return Ok(()),
        AppointmentState::Held if booked.lesson == Some(lesson) => return Ok(()),
        AppointmentState::Held => "This lesson has its note already. Open the lessons page to read it.",
        AppointmentState::CalledOff => {
            "This lesson was called off. If it took place after all, open the lessons page and keep the note from there."
        }
    };
    Err(Refusal::Field { field: "on", message })
}

async fn add_to_draft(tx: &mut Tx, dog: DogId, next: &[ExerciseId], moment: &Moment) -> Done<()> {
    let mut lines = Vec::new();
    for exercise in next {
        lines.push(plan_draft_item::usual(tx, *exercise).await?.ok_or(Refusal::NotFound)?);
    }
    append(tx, dog, lines, "next_1", moment).await?;
    Ok(())
}
