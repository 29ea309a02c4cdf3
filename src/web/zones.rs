//! Time zones: the choices of a form, and dates as people in a zone read them.

use jiff::tz::TimeZone;
use time::{Date, OffsetDateTime, Time, UtcOffset};

use crate::web::Form;
use crate::web::choices::Choices;

/// The zone that a form starts with.
pub const USUAL: &str = "Europe/London";

/// Every country's own zones, a line each, sorted: the third column of zone.tab in the IANA time zone database (public
/// domain). Older names for the same places are left out.
const OWN_NAMES: &str = include_str!("zones.txt");

/// The choices of a form: continents and oceans, each with its zones as (id, words).
pub type Zones = Vec<(String, Choices)>;

/// The zones to choose from. `now`, the one in the form, is among them by whichever name it is known.
pub fn choices(now: &str) -> Zones {
    let mut zones: Zones = Vec::new();
    if !now.is_empty() && OWN_NAMES.lines().all(|id| id != now) && TimeZone::get(now).is_ok() {
        zones.push(("In use now".to_owned(), vec![(now.to_owned(), now.replace('_', " "))]));
    }
    for id in OWN_NAMES.lines() {
        let Some((continent, place)) = id.split_once('/') else { continue };
        let zone = (id.to_owned(), place.replace('/', ", ").replace('_', " "));
        match zones.last_mut().filter(|(group, _)| group == continent) {
            Some((_, places)) => places.push(zone),
            None => zones.push((continent.to_owned(), vec![zone])),
        }
    }
    zones
}

/// Whether there is a zone of this name.
pub fn is_known(zone: &str) -> bool {
    TimeZone::get(zone).is_ok()
}

/// The zone in a field; refused when it is none that we know.
pub fn read(form: &mut Form, field: &str) -> String {
    let zone = form.required(field, 64, "Choose a time zone.");
    if !zone.is_empty() && TimeZone::get(&zone).is_err() {
        form.refuse(field, "Choose one of the time zones in the list.");
    }
    zone
}

/// An instant as the clock on the wall shows it in a zone; UTC where the zone is unknown.
pub fn local(at: OffsetDateTime, zone: &str) -> OffsetDateTime {
    let offset = TimeZone::get(zone)
        .ok()
        .and_then(|tz| {
            let instant = jiff::Timestamp::from_nanosecond(at.unix_timestamp_nanos()).ok()?;
            UtcOffset::from_whole_seconds(tz.to_offset(instant).seconds()).ok()
        })
        .unwrap_or(UtcOffset::UTC);
    at.to_offset(offset)
}

/// The day that an instant falls on in a zone.
pub fn local_date(at: OffsetDateTime, zone: &str) -> Date {
    local(at, zone).date()
}

/// A day as people read it: "Thu 12 Mar", with the year where it is not this one.
pub fn day(date: Date, today: Date) -> String {
    let (weekday, month) = (date.weekday().to_string(), date.month().to_string());
    let year = if date.year() == today.year() { String::new() } else { format!(" {}", date.year()) };
    format!("{} {} {}{year}", &weekday[..3], date.day(), &month[..3])
}

/// A day in full: "Thursday 12 March".
pub fn long_day(date: Date) -> String {
    format!("{} {} {}", date.weekday(), date.day(), date.month())
}

/// An instant as people in a zone read it: "Thu 12 Mar, 18:04".
pub fn day_and_time(at: OffsetDateTime, zone: &str, today: Date) -> String {
    let local = local(at, zone);
    format!("{}, {:02}:{:02}", day(local.date(), today), local.hour(), local.minute())
}

/// The instant at which the clock on the wall shows this in a zone; in a gap or a fold of summer time, the one that
/// most calendars would choose. `None` where the zone or the time is unknown.
pub fn instant(on: Date, at: Time, zone: &str) -> Option<OffsetDateTime> {
    let month = i8::try_from(u8::from(on.month())).ok()?;
    let (day, hour, minute) =
        (i8::try_from(on.day()).ok()?, i8::try_from(at.hour()).ok()?, i8::try_from(at.minute()).ok()?);
    let year = i16::try_from(on.year()).ok()?;
    let wall = jiff::civil::DateTime::new(year, month, day, hour, minute, 0, 0).ok()?;
    let instant = TimeZone::get(zone).ok()?.to_timestamp(wall).ok()?;
    OffsetDateTime::from_unix_timestamp(instant.as_second()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::{date, datetime};

    #[test]
    fn every_place_is_known_and_stands_once_under_its_continent() {
        let zones = choices(USUAL);
        let groups: Vec<&str> = zones.iter().map(|(group, _)| group.as_str()).collect();
        assert_eq!(groups.len(), 10, "{groups:?}");
        let ids: Vec<&str> = zones.iter().flat_map(|(_, zones)| zones).map(|(id, _)| id.as_str()).collect();
        assert!(ids.is_sorted() && ids.contains(&USUAL) && !ids.contains(&"Europe/Belfast"));
        assert!(ids.iter().all(|id| TimeZone::get(id).is_ok()));
    }

    #[test]
    fn the_zone_in_use_is_shown_by_whichever_name() {
        let old = &choices("Asia/Calcutta")[0];
        assert_eq!((old.0.as_str(), old.1[0].0.as_str()), ("In use now", "Asia/Calcutta"));
        assert_eq!(choices("Nowhere/At_all")[0].0, "Africa");
    }

    #[test]
    fn summer_time_moves_the_day() {
        assert_eq!(local_date(datetime!(2026-06-30 23:30 UTC), "Europe/London"), date!(2026 - 07 - 01));
        assert_eq!(local_date(datetime!(2026-12-31 23:30 UTC), "Europe/London"), date!(2026 - 12 - 31));
    }

    #[test]
    fn days_read_as_people_write_them() {
        assert_eq!(day(date!(2026 - 03 - 12), date!(2026 - 03 - 20)), "Thu 12 Mar");
        assert_eq!(day(date!(2025 - 03 - 12), date!(2026 - 03 - 20)), "Wed 12 Mar 2025");
        assert_eq!(
            day_and_time(datetime!(2026-07-01 17:04 UTC), "Europe/London", date!(2026 - 07 - 02)),
            "Wed 1 Jul, 18:04"
        );
    }
}
