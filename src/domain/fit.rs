//! When to ask whether a harness or a muzzle still sits as it was approved. Common practice: dogs grow, slim down and chew, straps
//! slip, and after a bolt everything is looked at again.

use time::Date;

use super::vocabulary::Gear;

impl Gear {
    /// As it is called inside a sentence.
    pub fn in_a_sentence(self) -> &'static str {
        match self {
            Self::Harness => "harness",
            Self::Muzzle => "muzzle",
        }
    }
}

/// How many days an answer holds: about a month. Common practice.
pub const HOLDS_DAYS: i64 = 30;

/// Whether to ask: a month after it was approved or last said to sit like that, and after a bolt since then.
pub fn is_due(sure_on: Date, last_bolt: Option<Date>, today: Date) -> bool {
    (today - sure_on).whole_days() >= HOLDS_DAYS || last_bolt.is_some_and(|bolt| bolt >= sure_on)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn asked_monthly_and_after_a_bolt() {
        let sure = date!(2026 - 03 - 01);
        assert!(!is_due(sure, None, date!(2026 - 03 - 30)));
        assert!(is_due(sure, None, date!(2026 - 03 - 31)));
        assert!(is_due(sure, Some(date!(2026 - 03 - 02)), date!(2026 - 03 - 03)));
        assert!(
            !is_due(sure, Some(date!(2026 - 02 - 27)), date!(2026 - 03 - 03)),
            "a bolt before it was approved"
        );
    }

    #[test]
    fn a_bolt_on_the_day_itself_asks_again() {
        let sure = date!(2026 - 03 - 01);
        assert!(is_due(sure, Some(sure), sure));
    }
}
