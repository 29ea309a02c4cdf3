//! How near a household feels to what it hopes for, and how sure of itself: asked kindly, once a month.

use time::Date;

use super::dates::{days_between, in_short};

/// Days after which it is asked again: a month. Common practice; oftener, small ups and downs are taken for news.
pub const ASKED_EVERY: i64 = 30;

/// Whether to ask, where it was said last on this day.
pub fn is_due(last: Option<Date>, today: Date) -> bool {
    last.is_none_or(|on| days_between(on, today) >= ASKED_EVERY)
}

/// How a mark of ten moved, in words: "6 of 10 (4 → 6 since 3 Sep)". `marks` are the days and marks, the newest first.
pub fn moved(marks: &[(Date, i16)], today: Date) -> Option<String> {
    let (newest, now) = *marks.first()?;
    let (oldest, first) = *marks.last()?;
    Some(match (newest == oldest, first == now) {
        (true, _) => format!("{now} of 10, said on {}", in_short(newest, today)),
        (false, true) => format!("{now} of 10, as on {}", in_short(oldest, today)),
        (false, false) => format!("{now} of 10 ({first} → {now} since {})", in_short(oldest, today)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    const TODAY: Date = date!(2026 - 11 - 26);

    #[test]
    fn it_is_asked_once_a_month() {
        assert!(is_due(None, TODAY));
        assert!(!is_due(Some(date!(2026 - 10 - 28)), TODAY));
        assert!(is_due(Some(date!(2026 - 10 - 27)), TODAY));
    }

    #[test]
    fn a_change_says_since_when() {
        let (september, october, november) =
            (date!(2026 - 09 - 03), date!(2026 - 10 - 03), date!(2026 - 11 - 03));
        let said = |marks: &[(Date, i16)]| moved(marks, TODAY);
        assert_eq!(said(&[]), None);
        assert_eq!(said(&[(november, 6)]).as_deref(), Some("6 of 10, said on 3 Nov"));
        let all = [(november, 6), (october, 7), (september, 4)];
        assert_eq!(said(&all).as_deref(), Some("6 of 10 (4 → 6 since 3 Sep)"));
        assert_eq!(said(&[(november, 4), (september, 4)]).as_deref(), Some("4 of 10, as on 3 Sep"));
    }
}
