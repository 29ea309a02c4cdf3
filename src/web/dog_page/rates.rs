//! How the practice of a dog goes, as its trainer reads it.

use time::{Date, Duration};

use crate::domain::life::{Rest, rest_on};
use crate::domain::rates::{Reading, adherence, came_down, markers_paid, reinforcement_rate};
use crate::domain::vocabulary::Phase;
use crate::store::dog::Dog;
use crate::store::life_event::LifeEvent;
use crate::store::practice_log::PracticeLog;
use crate::store::{Result, Tx, dog_summary, life_event, plan_version};
use crate::web::zones;

/// Days that four whole weeks before this one can reach back.
const BACK: Duration = Duration::days(35);

/// What there is to say of how practice goes, from the plans and the last sittings. While the work rests, or silence is fine,
/// nothing is said of adherence; nor does a day count on which the dog was away, ill or in season.
pub async fn readings(tx: &mut Tx, dog: &Dog, logs: &[PracticeLog], today: Date) -> Result<Vec<Reading>> {
    let mut found = Vec::new();
    if matches!(dog.phase, Phase::SettlingIn | Phase::Active) {
        let asked: Vec<(Date, i64)> = plan_version::weekly_times(tx, dog.id)
            .await?
            .into_iter()
            .map(|(published_at, times)| (zones::local_date(published_at, &dog.zone), times))
            .collect();
        let rests: Vec<Rest> = life_event::of_dog(tx, dog.id, Some(today - BACK))
            .await?
            .iter()
            .filter_map(LifeEvent::rest)
            .collect();
        let times_on = |on: Date| {
            if rest_on(&rests, on).is_some() {
                return 0;
            }
            asked.iter().rev().find(|(since, _)| *since <= on).map_or(0, |(_, times)| *times)
        };
        let days = dog_summary::days(tx, dog.id, today - BACK).await?;
        let done: Vec<(Date, i64)> =
            days.into_iter().map(|(on, sittings, _)| (on, sittings.into())).collect();
        found.extend(adherence(times_on, &done, today).map(|found| found.reading()));
    }
    let sittings = || logs.iter().map(|log| &log.sitting);
    found.extend(reinforcement_rate(sittings()).map(|found| found.reading()));
    found.extend(markers_paid(sittings()).map(|found| found.reading()));
    found.extend(came_down(sittings()).map(|found| found.reading()));
    Ok(found)
}
