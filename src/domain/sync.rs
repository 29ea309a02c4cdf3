//! When something was lived that a phone kept and sent later: by the phone's own clock, corrected where that is wrong, on
//! the day that the phone's wall showed.

use time::{Date, Duration, OffsetDateTime, UtcOffset};

/// How far a phone's clock may be off before it is corrected and marked. Common practice.
pub const TOLERATED: Duration = Duration::minutes(5);
/// How far ahead something may seem to lie that was lived: a clock that was set meanwhile. Beyond it nobody can say when it was.
const AHEAD: Duration = Duration::hours(24);
/// How long ago something may be told.
const OLDEST: Duration = Duration::days(365);

/// What a phone says of one thing that it kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhoneTime {
    /// Its clock, when the thing was kept there.
    pub at: OffsetDateTime,
    /// How long ago that was at least when it was sent, by a clock that nobody can set, where the page was open all the time. It
    /// stands still while a phone sleeps (W3C High Resolution Time, issue 115), so it only ever says too little.
    pub elapsed: Option<Duration>,
    /// The name of its zone; empty where it has none.
    pub zone: String,
    /// How far its wall was ahead of UTC, in minutes.
    pub offset_minutes: i16,
}

/// When something was lived.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lived {
    /// The instant.
    pub at: OffsetDateTime,
    /// The day that the phone's wall showed.
    pub on: Date,
    /// What the phone said.
    pub phone: PhoneTime,
    /// Whether its clock was corrected.
    pub corrected: bool,
}

/// A time that cannot be right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Impossible {
    /// More than a day ahead.
    Ahead,
    /// More than a year ago.
    TooOld,
}

impl Impossible {
    /// What the person reads who kept it.
    pub fn for_owner(self) -> &'static str {
        match self {
            Self::Ahead => {
                "The phone’s clock says that this is still to come. Set the clock, then log it by the form with its day."
            }
            Self::TooOld => {
                "The phone’s clock says that this was more than a year ago. Log it by the form with its day."
            }
        }
    }
}

/// When it was lived. `phone_now` is the phone's clock at the sending, `now` is ours at the receiving.
pub fn lived(phone: PhoneTime, phone_now: OffsetDateTime, now: OffsetDateTime) -> Result<Lived, Impossible> {
    let off = now - phone_now;
    let by_clock = if off.abs() > TOLERATED { phone.at.checked_add(off) } else { Some(phone.at) };
    // longer ago than the wall says: then that was set back in between
    let was_set_back = phone.elapsed.filter(|elapsed| *elapsed > phone_now - phone.at + TOLERATED);
    let at = was_set_back.map_or(by_clock, |elapsed| now.checked_sub(elapsed)).ok_or(Impossible::TooOld)?;
    if at - now > AHEAD {
        return Err(Impossible::Ahead);
    }
    if now - at > OLDEST {
        return Err(Impossible::TooOld);
    }
    let at = at.min(now);
    let corrected = (at - phone.at).abs() > TOLERATED;
    let at = at.replace_nanosecond(at.microsecond() * 1_000).unwrap_or(at);
    let offset =
        UtcOffset::from_whole_seconds(i32::from(phone.offset_minutes) * 60).unwrap_or(UtcOffset::UTC);
    Ok(Lived { on: at.to_offset(offset).date(), at, phone, corrected })
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::{date, datetime};

    const NOW: OffsetDateTime = datetime!(2026-07-01 10:00 UTC);

    fn phone(at: OffsetDateTime, offset_minutes: i16) -> PhoneTime {
        PhoneTime { at, elapsed: None, zone: "Europe/London".to_owned(), offset_minutes }
    }

    #[test]
    fn a_clock_that_is_right_is_believed() {
        let at = datetime!(2026-06-29 17:00 UTC);
        let lived = lived(phone(at, 60), NOW - Duration::seconds(20), NOW).expect("possible");
        assert_eq!((lived.at, lived.on, lived.corrected), (at, date!(2026 - 06 - 29), false));
    }

    #[test]
    fn a_clock_three_days_off_is_corrected_and_marked() {
        for days in [-3, 3] {
            let off = Duration::days(days);
            let at = datetime!(2026-06-29 17:00 UTC);
            let lived = lived(phone(at + off, 60), NOW + off, NOW).expect("possible");
            assert_eq!((lived.at, lived.on, lived.corrected), (at, date!(2026 - 06 - 29), true));
        }
    }

    #[test]
    fn a_clock_that_was_set_back_in_between_gives_way_to_the_one_that_cannot_be() {
        let wrong =
            PhoneTime { elapsed: Some(Duration::hours(2)), ..phone(datetime!(2026-07-04 08:00 UTC), 60) };
        let lived = lived(wrong, NOW, NOW).expect("possible");
        assert_eq!((lived.at, lived.corrected), (datetime!(2026-07-01 8:00 UTC), true));
    }

    #[test]
    fn a_phone_that_slept_is_believed_by_its_wall() {
        let slept =
            PhoneTime { elapsed: Some(Duration::minutes(3)), ..phone(datetime!(2026-06-30 17:00 UTC), 60) };
        let lived = lived(slept, NOW, NOW).expect("possible");
        assert_eq!(
            (lived.at, lived.on, lived.corrected),
            (datetime!(2026-06-30 17:00 UTC), date!(2026 - 06 - 30), false)
        );
    }

    #[test]
    fn no_time_is_too_strange_to_be_answered() {
        let far = [datetime!(0001-01-01 0:00 UTC), datetime!(9999-12-31 23:59 UTC), NOW];
        for at in far {
            for phone_now in far {
                for elapsed in
                    [None, Some(Duration::milliseconds(i64::MAX)), Some(Duration::milliseconds(i64::MIN))]
                {
                    let _ = lived(PhoneTime { elapsed, ..phone(at, 60) }, phone_now, NOW);
                }
            }
        }
    }

    #[test]
    fn the_day_is_the_one_on_the_phone_s_wall() {
        for (at, offset, on) in [
            // late in the evening, the first hour of the next day in UTC
            (datetime!(2026-06-30 23:30 UTC), -240, date!(2026 - 06 - 30)),
            (datetime!(2026-06-30 23:30 UTC), 60, date!(2026 - 07 - 01)),
            // the night on which clocks go back: 01:30 twice, one day
            (datetime!(2025-10-26 00:30 UTC), 60, date!(2025 - 10 - 26)),
            (datetime!(2025-10-26 01:30 UTC), 0, date!(2025 - 10 - 26)),
            // the night on which they go forward
            (datetime!(2026-03-28 23:59 UTC), 0, date!(2026 - 03 - 28)),
            (datetime!(2026-03-29 01:00 UTC), 60, date!(2026 - 03 - 29)),
        ] {
            assert_eq!(lived(phone(at, offset), NOW, NOW).map(|lived| lived.on), Ok(on), "{at} {offset}");
        }
    }

    #[test]
    fn what_cannot_be_is_asked_about() {
        assert_eq!(lived(phone(NOW + Duration::hours(25), 0), NOW, NOW), Err(Impossible::Ahead));
        assert_eq!(lived(phone(NOW - Duration::days(366), 0), NOW, NOW), Err(Impossible::TooOld));
        let soon = lived(phone(NOW + Duration::hours(3), 0), NOW, NOW).expect("possible");
        assert_eq!((soon.at, soon.corrected), (NOW, true), "never later than it was received");
    }
}
