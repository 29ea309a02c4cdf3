//! What Today says beside the day's practice: the next lesson, "still going well?", and how to come back.

use time::{Date, OffsetDateTime};

use crate::clock::Moment;
use crate::domain::check_in::Standing;
use crate::domain::vocabulary::Phase;
use crate::ids::{CheckInId, DogId, MessageId};
use crate::store::dog::Dog;
use crate::store::reading::{Reading, Together};
use crate::store::{appointment, check_in, dog_summary};
use crate::web::lessons::booking::in_one_line;
use crate::web::lessons::packages;
use crate::web::zones;

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
    pub fn of(dog: DogId, now: OffsetDateTime) -> Reading<Self> {
        (appointment::next_of_dog(dog, now), packages::in_words(dog)).together().then(
            move |(next, package)| {
                Ok(Self {
                    file: next
                        .as_ref()
                        .map(|next| format!("/dogs/{dog}/lessons/{}/lesson.ics", next.id))
                        .unwrap_or_default(),
                    next: next.as_ref().map(in_one_line).unwrap_or_default(),
                    package,
                })
            },
        )
    }
}

/// What a household reads whose work is done.
pub struct Graduated {
    /// The id of the message with which it would come back.
    pub message: MessageId,
    /// Whether a message of theirs waits for its answer.
    pub waits: bool,
}

/// Where the dog stands in its work.
pub struct Stand {
    /// Since when it stands there.
    since: OffsetDateTime,
    /// The last answer to "still going well?".
    answered: Option<Date>,
    /// Whether a message of the household waits for its answer.
    question_waits: bool,
}

impl Stand {
    /// That of a dog.
    pub fn of(dog: DogId) -> Reading<Self> {
        (check_in::phase_since(dog), check_in::of_dog(dog, 1), dog_summary::question_waits(dog))
            .together()
            .then(|(since, said, (question_waits, _))| {
                Ok(Self { since, answered: said.first().map(|said| said.on), question_waits })
            })
    }

    /// What there is to say of a dog that has graduated.
    pub fn graduated(&self, dog: &Dog, moment: &Moment) -> Option<Graduated> {
        let has = dog.phase == Phase::Graduated;
        has.then(|| Graduated { message: moment.id(), waits: self.question_waits })
    }

    /// The id of an answer to "still going well?", where it is asked today; `rests` is a day off, or that the exercises rest.
    pub fn check_in(&self, dog: &Dog, rests: bool, today: Date, moment: &Moment) -> Option<CheckInId> {
        let since = zones::local_date(self.since, &dog.zone);
        let standing = Standing { phase: dog.phase, since, answered: self.answered };
        standing.is_due(today, rests).then(|| moment.id())
    }
}
