//! What to know before a lesson: what changed since the last one that was held.

use time::{Date, OffsetDateTime};

use crate::domain::dates::counted;
use crate::domain::vocabulary::{Choice, Word};
use crate::store::dog::Dog;
use crate::store::lesson::Lesson;
use crate::store::preparation::{self, Practised, Raised};
use crate::store::{Tx, decision, dog_summary, dog_weight, encounter};
use crate::web::dog_page::log::EncounterView;
use crate::web::{WebError, zones};

/// The most flags and encounters that are shown.
const MOST: i64 = 12;

/// What changed.
pub struct Preparation {
    /// Since when, in words.
    pub since: String,
    /// All sittings in a sentence.
    pub all: String,
    /// Each exercise, and how it went.
    pub practised: Vec<(String, String)>,
    /// What was decided.
    pub decided: Vec<String>,
    /// The flags that were raised or answered.
    pub flags: Vec<Raised>,
    /// What happened in life.
    pub encounters: Vec<EncounterView>,
    /// What the dog weighs; empty where it was not weighed since.
    pub weight: String,
    /// Whether a message of the household waits for its answer.
    pub question_waits: bool,
}

impl Preparation {
    /// What changed about a dog since its last lesson, in as many statements however much that was.
    pub async fn of(tx: &mut Tx, dog: &Dog, last: Option<&Lesson>, today: Date) -> Result<Self, WebError> {
        let day = last.map_or(Date::from_ordinal_date(1970, 1).unwrap_or(Date::MIN), |last| last.held_on);
        let instant = last.map_or(OffsetDateTime::UNIX_EPOCH, |last| last.kept_at);
        let (all, by_exercise): (Vec<_>, Vec<_>) = preparation::practised(tx, dog.id, day)
            .await?
            .into_iter()
            .partition(|practised| practised.exercise.is_none());
        let decisions = decision::of_dog(tx, dog.id)
            .await?
            .into_iter()
            .filter(|d| d.decided_at > instant && d.choice != Choice::Repeat);
        let decided = decisions.map(|decision| {
            let on = zones::day(zones::local_date(decision.decided_at, &dog.zone), today);
            format!("{}: {}, {on}", decision.exercise, decision.choice.label().to_lowercase())
        });
        let met = encounter::of_dog(tx, dog.id, day.next_day(), MOST).await?;
        let weights = dog_weight::of_dog(tx, dog.id, 2).await?;
        let weight = match weights.as_slice() {
            [latest, before, ..] if latest.on > day => {
                let then = zones::day(before.on, today);
                format!("{} kg on {}, {} kg on {then}", latest.kg, zones::day(latest.on, today), before.kg)
            }
            [latest] if latest.on > day => format!("{} kg on {}", latest.kg, zones::day(latest.on, today)),
            _ => String::new(),
        };
        Ok(Self {
            since: match last {
                Some(last) => format!("Since the lesson of {}", zones::day(last.held_on, today)),
                None => "No lesson is noted yet: everything so far".to_owned(),
            },
            all: all.first().filter(|all| all.sittings > 0).map(sentence).unwrap_or_default(),
            practised: by_exercise
                .into_iter()
                .map(|line| {
                    let said = sentence(&line);
                    (line.exercise.unwrap_or_default(), said)
                })
                .collect(),
            decided: decided.collect(),
            flags: preparation::raised(tx, dog.id, instant, MOST).await?,
            encounters: met.iter().map(|met| EncounterView::of(met, &dog.zone, today)).collect(),
            weight,
            question_waits: dog_summary::question_waits(tx, dog.id).await?.0,
        })
    }
}

/// "5 sittings on 4 days, 38 of 50 met".
fn sentence(practised: &Practised) -> String {
    let sittings = counted(practised.sittings, "sitting", "sittings");
    let days = counted(practised.days, "day", "days");
    match practised.attempts {
        0 => format!("{sittings} on {days}"),
        attempts => format!("{sittings} on {days}, {} of {attempts} met", practised.met),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sittings_are_said_with_their_counts_where_there_are_any() {
        let all = Practised { exercise: None, sittings: 5, days: 1, attempts: 50, met: 38 };
        assert_eq!(sentence(&all), "5 sittings on 1 day, 38 of 50 met");
        assert_eq!(sentence(&Practised { sittings: 1, attempts: 0, ..all }), "1 sitting on 1 day");
    }
}
