//! What to know before a lesson: what changed since the last one that was held.

use time::{Date, OffsetDateTime};

use crate::domain::dates::counted;
use crate::domain::dog::Weighing;
use crate::domain::vocabulary::{Choice, Word};
use crate::store::dog::Dog;
use crate::store::lesson::Lesson;
use crate::store::preparation::{self, Practised, Raised};
use crate::store::reading::{Reading, Together};
use crate::store::{decision, dog_summary, dog_weight, encounter, life_event};
use crate::web::dog_page::log::EncounterView;
use crate::web::life::LifeView;
use crate::web::zones;

/// The most flags and encounters that are shown.
const MOST: i64 = 12;
/// The most decisions that are looked through.
const MOST_DECISIONS: i64 = 100;

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
    /// What went on beside the training.
    pub life: Vec<LifeView>,
    /// What the dog weighs; empty where it was not weighed since.
    pub weight: String,
    /// Whether a message of the household waits for its answer.
    pub question_waits: bool,
}

impl Preparation {
    /// What changed about a dog since its last lesson.
    pub fn of(dog: &Dog, last: Option<&Lesson>, today: Date) -> Reading<Self> {
        let day = last.map_or(Date::from_ordinal_date(1970, 1).unwrap_or(Date::MIN), |last| last.held_on);
        let instant = last.map_or(OffsetDateTime::UNIX_EPOCH, |last| last.kept_at);
        let since = match last {
            Some(last) => format!("Since the lesson of {}", zones::day(last.held_on, today)),
            None => "No lesson is noted yet: everything so far".to_owned(),
        };
        let zone = dog.zone.clone();
        (
            preparation::practised(dog.id, day),
            decision::of_dog(dog.id, MOST_DECISIONS),
            encounter::of_dog(dog.id, day.next_day(), MOST),
            dog_weight::of_dog(dog.id, 2),
            preparation::raised(dog.id, instant, MOST),
            dog_summary::question_waits(dog.id),
            life_event::of_dog(dog.id, day.next_day()),
        )
            .together()
            .then(move |(practised, decisions, met, weights, flags, (question_waits, _), life)| {
                let (all, by_exercise): (Vec<_>, Vec<_>) =
                    practised.into_iter().partition(|practised| practised.exercise.is_none());
                let decisions =
                    decisions.into_iter().filter(|d| d.decided_at > instant && d.choice != Choice::Repeat);
                let decided = decisions.map(|decision| {
                    let on = zones::day(zones::local_date(decision.decided_at, &zone), today);
                    format!("{}: {}, {on}", decision.exercise, decision.choice.label().to_lowercase())
                });
                Ok(Self {
                    since,
                    all: all.first().filter(|all| all.sittings > 0).map(sentence).unwrap_or_default(),
                    practised: by_exercise
                        .into_iter()
                        .map(|line| {
                            let said = sentence(&line);
                            (line.exercise.unwrap_or_default(), said)
                        })
                        .collect(),
                    decided: decided.collect(),
                    flags,
                    encounters: met.iter().map(|met| EncounterView::of(met, &zone, today)).collect(),
                    life: life
                        .into_iter()
                        .filter(|event| event.rest().is_none_or(|rest| !rest.is_over_before(day)))
                        .map(|event| LifeView::of(event, true, today))
                        .collect(),
                    weight: weight(&weights, day, today),
                    question_waits,
                })
            })
    }
}

/// What the dog weighs, where it was weighed after a day.
fn weight(weights: &[Weighing], after: Date, today: Date) -> String {
    match weights {
        [latest, before, ..] if latest.on > after => {
            let then = zones::day(before.on, today);
            format!("{} kg on {}, {} kg on {then}", latest.kg, zones::day(latest.on, today), before.kg)
        }
        [latest] if latest.on > after => format!("{} kg on {}", latest.kg, zones::day(latest.on, today)),
        _ => String::new(),
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
