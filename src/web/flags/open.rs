//! What is open on a dog, as a trainer reads it: one entry a rule, with every time that it was raised.

use time::{Date, OffsetDateTime};

use crate::domain::vocabulary::Severity;
use crate::store::flag::{Flag, Found, Subject};
use crate::web::zones;

/// What one rule found and nobody has answered.
pub struct Open {
    /// The flags.
    pub found: Found,
    /// The day that the first of them to be read is about.
    pub day: String,
    /// "Raised 3 times since Thu 12 Mar". Empty where it was raised once.
    pub since: String,
    /// Every time: (the day, the address of what it is about, what was seen), the gravest and newest first.
    pub times: Vec<(String, String, String)>,
}

impl Open {
    /// Open flags, one entry a rule, in the order in which they are read.
    pub fn of(flags: Vec<Flag>, today: Date) -> Vec<Self> {
        let entries = Found::by_rule(flags).into_iter().map(|found| Self {
            day: zones::day(found.first.local_date, today),
            since: match found.times() {
                1 => String::new(),
                times => format!("Raised {times} times since {}", zones::day(found.since(), today)),
            },
            times: found
                .all()
                .map(|flag| (zones::day(flag.local_date, today), subject_path(flag), flag.seen.clone()))
                .collect(),
            found,
        });
        entries.collect()
    }

    /// By when somebody answers it; `None` for what can wait.
    pub fn due(&self) -> Option<OffsetDateTime> {
        self.found.due()
    }

    /// Whether a stop is among them.
    pub fn is_stop(&self) -> bool {
        self.found.first.severity == Severity::Stop
    }
}

/// The address of the log or encounter that a flag is about.
pub fn subject_path(flag: &Flag) -> String {
    match flag.subject {
        Subject::PracticeLog(id) => format!("/dogs/{}/log/{id}", flag.dog),
        Subject::Encounter(id) => format!("/dogs/{}/encounters/{id}", flag.dog),
    }
}
