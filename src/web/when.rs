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

/// The fields `on` and `at` of something that is kept, as a form shows them.
pub fn filled((at, on): (OffsetDateTime, Date), zone: &str) -> (String, String) {
    let local = zones::local(at, zone);
    (on.to_string(), format!("{:02}:{:02}", local.hour(), local.minute()))
}

/// Reads the fields of something that is kept: what they were filled with, or nothing, is when it was, to the second.
pub fn read_again(
    form: &mut Form,
    zone: &str,
    now: OffsetDateTime,
    kept: (OffsetDateTime, Date),
) -> (OffsetDateTime, Date) {
    let typed = [form.values("on"), form.values("at")].map(|values| values.concat());
    let (on, at) = filled(kept, zone);
    if typed == [on, at] || typed == [String::new(), String::new()] {
        return kept;
    }
    read(form, zone, now).unwrap_or(kept)
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
    fn what_is_kept_stays_to_the_second_unless_it_is_said_otherwise() {
        let kept = (datetime!(2024-06-30 16:30:25 UTC), date!(2024 - 06 - 30));
        let again = |on: &str, at: &str| {
            let mut form = Form::blank().with("on", on).with("at", at);
            (read_again(&mut form, "Europe/London", NOW, kept), form.is_fine())
        };
        assert_eq!(filled(kept, "Europe/London"), ("2024-06-30".to_owned(), "17:30".to_owned()));
        assert_eq!(again("2024-06-30", "17:30"), (kept, true), "however long ago it was");
        assert_eq!(again("", ""), (kept, true));
        let other = (datetime!(2026-06-30 16:31 UTC), date!(2026 - 06 - 30));
        assert_eq!(again("2026-06-30", "17:31"), (other, true));
        assert!(!again("2026-06-30", "").1);
        let mut twice = Form::blank().with("on", "2024-06-30").with("on", "2024-06-30").with("at", "17:30");
        read_again(&mut twice, "Europe/London", NOW, kept);
        assert!(!twice.is_fine());
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
