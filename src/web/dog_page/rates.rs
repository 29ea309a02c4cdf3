//! How the practice of a dog goes, as its trainer reads it.

use time::{Date, Duration, OffsetDateTime};

use crate::domain::life::{Rest, rest_on};
use crate::domain::rates::{self, adherence, came_down, markers_paid, reinforcement_rate};
use crate::domain::vocabulary::Phase;
use crate::ids::DogId;
use crate::store::dog::Dog;
use crate::store::dog_summary::{self, DayKept};
use crate::store::life_event::{self, LifeEvent};
use crate::store::plan_version;
use crate::store::practice_log::PracticeLog;
use crate::store::reading::{Reading, Together};
use crate::web::zones;

/// Days that four whole weeks before this one can reach back.
const BACK: Duration = Duration::days(35);

/// What the figures rest on beside the last sittings.
pub struct Grounds {
    /// When each plan was published, and how many sittings a week it asks for, oldest first.
    asked: Vec<(OffsetDateTime, i64)>,
    /// What went on in the dog's life.
    life: Vec<LifeEvent>,
    /// The days with something in them.
    pub days: Vec<DayKept>,
}

impl Grounds {
    /// Those of a dog.
    pub fn of(dog: DogId, today: Date) -> Reading<Self> {
        let since = today - BACK;
        let life = life_event::of_dog(dog, Some(since));
        (plan_version::weekly_times(dog), life, dog_summary::days(dog, since))
            .together()
            .then(|(asked, life, days)| Ok(Self { asked, life, days }))
    }

    /// What there is to say of how practice goes, from the plans and the last sittings. While the work rests, or silence is fine,
    /// nothing is said of adherence; nor does a day count on which the dog was away, ill or in season.
    pub fn readings(&self, dog: &Dog, logs: &[PracticeLog], today: Date) -> Vec<rates::Reading> {
        let mut found = Vec::new();
        if matches!(dog.phase, Phase::SettlingIn | Phase::Active) {
            let asked: Vec<(Date, i64)> = self
                .asked
                .iter()
                .map(|(published_at, times)| (zones::local_date(*published_at, &dog.zone), *times))
                .collect();
            let rests: Vec<Rest> = self.life.iter().filter_map(LifeEvent::rest).collect();
            let times_on = |on: Date| {
                if rest_on(&rests, on).is_some() {
                    return 0;
                }
                asked.iter().rev().find(|(since, _)| *since <= on).map_or(0, |(_, times)| *times)
            };
            let done: Vec<(Date, i64)> = self.days.iter().map(|day| (day.on, day.sittings.into())).collect();
            found.extend(adherence(times_on, &done, today).map(|found| found.reading()));
        }
        let sittings = || logs.iter().map(|log| &log.sitting);
        found.extend(reinforcement_rate(sittings()).map(|found| found.reading()));
        found.extend(markers_paid(sittings()).map(|found| found.reading()));
        found.extend(came_down(sittings()).map(|found| found.reading()));
        found
    }
}
