//! When things happened: days before "now" as instants where the households live.

use anyhow::Context;
use jiff::civil;
use jiff::tz::TimeZone;
use time::{Date, Duration, OffsetDateTime};

use super::content::DaysAgo;

/// The hour from which today has enough of a morning for what the stories tell of it; before it, they end yesterday.
const MORNING_OVER: u8 = 9;

/// The days of the invented practice.
#[derive(Debug, Clone)]
pub struct Calendar {
    now: OffsetDateTime,
    last_day: Date,
    zone: TimeZone,
}

impl Calendar {
    /// The calendar whose last moment is `now`.
    ///
    /// # Errors
    /// When the zone is none.
    pub fn ending_at(now: OffsetDateTime, zone: &str) -> anyhow::Result<Self> {
        let zone = TimeZone::get(zone).context("the invented practice's zone")?;
        let local = local(now, &zone)?;
        let today = date_of(local.date())?;
        let early = local.hour() < i8::try_from(MORNING_OVER)?;
        let last_day = if early { today - Duration::days(1) } else { today };
        Ok(Self { now, last_day, zone })
    }

    /// The day.
    pub fn date(&self, days_ago: DaysAgo) -> Date {
        self.last_day - Duration::days(days_ago.into())
    }

    /// The instant at which a clock on the wall shows this on a day that lies ahead.
    ///
    /// # Errors
    /// When there is no such time.
    pub fn ahead(&self, days: u16, hour: u8, minute: u8) -> anyhow::Result<OffsetDateTime> {
        self.on(self.last_day + Duration::days(days.into()), hour, minute)
    }

    /// The day that an instant falls on.
    ///
    /// # Errors
    /// When the instant is out of a calendar's range.
    pub fn date_at(&self, at: OffsetDateTime) -> anyhow::Result<Date> {
        date_of(local(at, &self.zone)?.date())
    }

    /// The instant at which a clock on the wall shows this.
    ///
    /// # Errors
    /// When there is no such time.
    pub fn at(&self, days_ago: DaysAgo, hour: u8, minute: u8) -> anyhow::Result<OffsetDateTime> {
        self.on(self.date(days_ago), hour, minute)
    }

    fn on(&self, day: Date, hour: u8, minute: u8) -> anyhow::Result<OffsetDateTime> {
        let (year, month) = (i16::try_from(day.year())?, i8::try_from(u8::from(day.month()))?);
        let wall = civil::date(year, month, i8::try_from(day.day())?);
        let wall = wall.at(i8::try_from(hour)?, i8::try_from(minute)?, 0, 0);
        let instant = self.zone.to_timestamp(wall).context("a time of the invented practice")?;
        Ok(OffsetDateTime::from_unix_timestamp(instant.as_second())?)
    }

    /// Whether an instant is over by now, with a few minutes to spare for logging it.
    pub fn is_over(&self, at: OffsetDateTime) -> bool {
        at + Duration::minutes(5) < self.now
    }
}

fn local(at: OffsetDateTime, zone: &TimeZone) -> anyhow::Result<civil::DateTime> {
    Ok(zone.to_datetime(jiff::Timestamp::from_second(at.unix_timestamp())?))
}

fn date_of(date: civil::Date) -> anyhow::Result<Date> {
    let month = time::Month::try_from(u8::try_from(date.month())?)?;
    Ok(Date::from_calendar_date(date.year().into(), month, u8::try_from(date.day())?)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::{date, datetime};

    fn calendar(now: OffsetDateTime) -> Calendar {
        Calendar::ending_at(now, "Europe/London").unwrap()
    }

    #[test]
    fn the_last_day_is_today_once_the_morning_is_over() {
        assert_eq!(calendar(datetime!(2026-03-12 09:30 UTC)).date(0), date!(2026 - 03 - 12));
        assert_eq!(calendar(datetime!(2026-03-12 06:30 UTC)).date(0), date!(2026 - 03 - 11));
        assert_eq!(calendar(datetime!(2026-07-01 08:10 UTC)).date(1), date!(2026 - 06 - 30));
    }

    #[test]
    fn clocks_go_forward_between_two_mornings() {
        let calendar = calendar(datetime!(2026-03-30 12:00 UTC));
        assert_eq!(calendar.at(2, 8, 0).unwrap(), datetime!(2026-03-28 08:00 UTC));
        assert_eq!(calendar.at(1, 8, 0).unwrap(), datetime!(2026-03-29 07:00 UTC));
        assert_eq!(calendar.date_at(datetime!(2026-03-29 23:30 UTC)).unwrap(), date!(2026 - 03 - 30));
    }
}
