//! Ages and gaps between calendar days, as people say them.

use time::Date;

/// Whole days from `from` to `to`; negative when `to` is earlier.
pub fn days_between(from: Date, to: Date) -> i64 {
    (to - from).whole_days()
}

/// Whole calendar months from `from` to `to`; negative when `to` is earlier.
pub fn whole_months(from: Date, to: Date) -> i32 {
    let months =
        (to.year() - from.year()) * 12 + i32::from(u8::from(to.month())) - i32::from(u8::from(from.month()));
    if to.day() < from.day() { months - 1 } else { months }
}

/// "1 day", "3 days": a count with its noun.
pub fn counted(count: i64, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// An age as people say it: weeks to sixteen weeks, months to two years, then years.
pub fn age_words(born: Date, today: Date) -> String {
    let weeks = days_between(born, today) / 7;
    let months = i64::from(whole_months(born, today));
    match (weeks, months) {
        (..0, _) => "not born yet".to_owned(),
        (0..16, _) => counted(weeks, "week", "weeks"),
        (_, ..24) => counted(months, "month", "months"),
        _ => counted(months / 12, "year", "years"),
    }
}

/// How long ago a day was: "today", "yesterday", "9 days ago".
pub fn ago(day: Date, today: Date) -> String {
    match days_between(day, today) {
        ..=0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        days => format!("{days} days ago"),
    }
}

/// A day without its weekday: "3 Dec", with the year where it is not this one.
pub fn in_short(day: Date, today: Date) -> String {
    let month = day.month().to_string();
    let year = if day.year() == today.year() { String::new() } else { format!(" {}", day.year()) };
    format!("{} {}{year}", day.day(), &month[..3])
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn ages_are_said_in_weeks_then_months_then_years() {
        let born = date!(2024 - 01 - 31);
        assert_eq!(age_words(born, date!(2024 - 02 - 07)), "1 week");
        assert_eq!(age_words(born, date!(2024 - 05 - 15)), "15 weeks");
        assert_eq!(age_words(born, date!(2024 - 06 - 30)), "4 months");
        assert_eq!(age_words(born, date!(2026 - 01 - 30)), "23 months");
        assert_eq!(age_words(born, date!(2026 - 01 - 31)), "2 years");
        assert_eq!(age_words(born, date!(2023 - 01 - 31)), "not born yet");
    }

    #[test]
    fn a_month_is_whole_only_on_its_day() {
        assert_eq!(whole_months(date!(2025 - 03 - 15), date!(2025 - 04 - 14)), 0);
        assert_eq!(whole_months(date!(2025 - 03 - 15), date!(2025 - 04 - 15)), 1);
        assert_eq!(whole_months(date!(2025 - 12 - 15), date!(2026 - 12 - 15)), 12);
    }

    #[test]
    fn gaps_are_said_in_words() {
        let today = date!(2025 - 06 - 10);
        assert_eq!(ago(today, today), "today");
        assert_eq!(ago(date!(2025 - 06 - 09), today), "yesterday");
        assert_eq!(ago(date!(2025 - 06 - 01), today), "9 days ago");
    }
}
