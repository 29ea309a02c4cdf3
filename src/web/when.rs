//! When something happened, as a form states it: nothing for "just now", or a day and a time where the dog lives.

use time::macros::format_description;
use time::{Date, Duration, OffsetDateTime, Time};

use crate::web::{Form, zones};

/// How far back something may be told.
const OLDEST: Duration = Duration::days(365);

/// Reads the fields `on` and `at`. A time alone is today's.
pub fn read(form: &mut Form, zone: &str, now: OffsetDateTime) -> Option<(OffsetDateTime, Date)> {
    let today = zones::local_date(now, zone);
    let on = form.date("on");
    let at = time_of(form);
    let (on, at) = match (on, at) {
        (None, None) => return None,
        (None, Some(at)) => (today, at),
        (Some(on), Some(at)) => (on, at),
        (Some(_), None) => {
            form.refuse("at", "Enter the time as well, as near as you remember.");
            return None;
        }
    };
    let Some(instant) = zones::instant(on, at, zone) else {
        form.refuse("on", "Enter a day that is in the calendar.");
        return None;
    };
    if instant > now {
        form.refuse(if on > today { "on" } else { "at" }, "This is still to come. Enter when it happened.");
    } else if now - instant > OLDEST {
        form.refuse("on", "Enter a day of the last twelve months.");
    }
    Some((instant, on))
}

/// The field `at`: 17:30, as browsers send it.
fn time_of(form: &mut Form) -> Option<Time> {
    let text = form.text("at", 8);
    if text.is_empty() {
        return None;
    }
    let shape = format_description!("[hour padding:none]:[minute]");
    let short: String = text.chars().take(5).collect();
    let time = Time::parse(&short, shape).ok();
    if time.is_none() {
        form.refuse("at", "Enter the time as hours and minutes, such as 17:30.");
    }
    time
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::{date, datetime};

    const NOW: OffsetDateTime = datetime!(2026-07-01 10:00 UTC);

    fn asked(on: &str, at: &str) -> (Option<(OffsetDateTime, Date)>, Form) {
        let mut form = Form::blank().with("on", on).with("at", at);
        (read(&mut form, "Europe/London", NOW), form)
    }

    #[test]
    fn nothing_stated_is_now_and_a_time_is_the_wall_clocks() {
        assert_eq!(asked("", "").0, None);
        let (found, form) = asked("2026-06-30", "17:30");
        assert_eq!(found, Some((datetime!(2026-06-30 16:30 UTC), date!(2026 - 06 - 30))));
        assert!(form.is_fine());
        assert_eq!(asked("", "09:00").0, Some((datetime!(2026-07-01 8:00 UTC), date!(2026 - 07 - 01))));
    }

    #[test]
    fn a_day_needs_a_time_and_neither_lies_ahead() {
        assert!(asked("2026-06-30", "").1.error("at").is_some());
        assert!(asked("", "23:00").1.error("at").is_some());
        assert!(asked("2026-07-02", "09:00").1.error("on").is_some());
        assert!(asked("2024-07-02", "09:00").1.error("on").is_some());
        assert!(asked("", "9 o'clock").1.error("at").is_some());
    }
}
