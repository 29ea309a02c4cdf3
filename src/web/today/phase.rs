//! What Today says beside the day's practice: the next lesson, "still going well?", and how to come back.

use time::Date;

use crate::clock::Moment;
use crate::domain::check_in::Standing;
use crate::domain::vocabulary::Phase;
use crate::ids::{CheckInId, MessageId};
use crate::store::dog::Dog;
use crate::store::{Tx, appointment, check_in, dog_summary};
use crate::web::lessons::booking::in_one_line;
use crate::web::lessons::packages;
use crate::web::{WebError, zones};

/// The next lesson, and packages of lessons.
pub struct Lessons {
    /// The next one in a line; empty where none is booked.
    pub next: String,
    /// The address of its calendar's file.
    pub file: String,
    /// "3 of 6 used, 3 left"; empty where nothing was bought.
    pub package: String,
}

impl Lessons {
    /// Those of a dog.
    pub async fn of(tx: &mut Tx, dog: &Dog, moment: &Moment) -> Result<Self, WebError> {
        let next = appointment::next_of_dog(tx, dog.id, moment.at).await?;
        Ok(Self {
            file: next
                .as_ref()
                .map(|next| format!("/dogs/{}/lessons/{}/lesson.ics", dog.id, next.id))
                .unwrap_or_default(),
            next: next.as_ref().map(in_one_line).unwrap_or_default(),
            package: packages::in_words(tx, dog.id).await?,
        })
    }
}

/// What a household reads whose work is done.
pub struct Graduated {
    /// The id of the message with which it would come back.
    pub message: MessageId,
    /// Whether a message of theirs waits for its answer.
    pub waits: bool,
}

impl Graduated {
    /// That of a dog that has graduated.
    pub async fn of(tx: &mut Tx, dog: &Dog, moment: &Moment) -> Result<Option<Self>, WebError> {
        if dog.phase != Phase::Graduated {
            return Ok(None);
        }
        Ok(Some(Self { message: moment.id(), waits: dog_summary::question_waits(tx, dog.id).await?.0 }))
    }
}

/// The id of an answer to "still going well?", where it is asked today; `rests` is a day off, or that the exercises rest.
pub async fn check_in(
    tx: &mut Tx,
    dog: &Dog,
    rests: bool,
    today: Date,
    moment: &Moment,
) -> Result<Option<CheckInId>, WebError> {
    if dog.phase != Phase::Maintaining {
        return Ok(None);
    }
    let since = zones::local_date(check_in::phase_since(tx, dog.id).await?, &dog.zone);
    let answered = check_in::of_dog(tx, dog.id, 1).await?.first().map(|said| said.on);
    Ok((Standing { phase: dog.phase, since, answered }).is_due(today, rests).then(|| moment.id()))
}
