//! A plan item's numbers in words, for owners and trainers alike, wherever an item is shown.

use crate::domain::dates::counted;
use crate::domain::vocabulary::{Clip, Line, Word};

/// What the dog wears and where the line clips: "Long line, clipped to the back of the harness". Empty without a line.
pub fn wear(line: Line, clip: Option<Clip>) -> String {
    match (line, clip) {
        (Line::None, _) => String::new(),
        (line, None) => line.label().to_owned(),
        (line, Some(clip)) => format!("{}, clipped to the {}", line.label(), clip.label().to_lowercase()),
    }
}

/// How much is asked for: "10 tries, 4 times a week, 5 minutes each". Of one sitting, without a week: "10 tries, 5 minutes".
pub fn dose(attempts: Option<i16>, times_a_week: Option<i16>, minutes: Option<i16>) -> String {
    let parts = [
        attempts.map(|n| counted(n.into(), "try", "tries")),
        times_a_week.map(|n| match n {
            1 => "once a week".to_owned(),
            2 => "twice a week".to_owned(),
            7 => "every day".to_owned(),
            n => format!("{n} times a week"),
        }),
        minutes.filter(|n| *n > 0).map(|n| {
            let each = if times_a_week.is_some() { " each" } else { "" };
            format!("{}{each}", counted(n.into(), "minute", "minutes"))
        }),
    ];
    capital(&parts.into_iter().flatten().collect::<Vec<_>>().join(", "))
}

/// How the week stands: "2 of 4 this week". Empty where the plan says no number and nothing was done.
pub fn week(times_a_week: Option<i16>, this_week: i64) -> String {
    match times_a_week.filter(|times| *times > 0) {
        Some(times) => format!("{this_week} of {times} this week"),
        None if this_week > 0 => format!("{this_week} this week"),
        None => String::new(),
    }
}

/// How the dog comes down afterwards; empty where nothing is asked for.
pub fn cool_down(minutes: i16, way: &str) -> String {
    match (minutes, way) {
        (0, way) => capital(way),
        (n, "") => format!("{} to come down", counted(n.into(), "minute", "minutes")),
        (n, way) => format!("{}: {}", counted(n.into(), "minute", "minutes"), small(way)),
    }
}

/// Which rung it is: "Step 2 of 6: Length of the garden". Empty without a ladder.
pub fn step(position: Option<i16>, total: i16, name: &str) -> String {
    match position {
        Some(n) => format!("Step {n} of {total}: {name}"),
        None => String::new(),
    }
}

fn changed(text: &str, first: impl Fn(&str) -> String) -> String {
    let end = text.chars().next().map_or(0, char::len_utf8);
    format!("{}{}", first(&text[..end]), &text[end..])
}

/// The same, as a sentence begins.
pub fn capital(text: &str) -> String {
    changed(text, str::to_uppercase)
}

fn small(text: &str) -> String {
    changed(text, str::to_lowercase)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_people_say_them() {
        assert_eq!(dose(Some(10), Some(4), Some(5)), "10 tries, 4 times a week, 5 minutes each");
        assert_eq!(dose(None, Some(7), None), "Every day");
        assert_eq!(dose(Some(10), None, Some(5)), "10 tries, 5 minutes");
        assert_eq!(dose(None, None, None), "");
        assert_eq!(week(Some(4), 2), "2 of 4 this week");
        assert_eq!(week(None, 0), "");
        assert_eq!(cool_down(10, "A slow walk."), "10 minutes: a slow walk.");
        assert_eq!(cool_down(1, ""), "1 minute to come down");
        assert_eq!(cool_down(0, ""), "");
        assert_eq!(step(Some(2), 6, "Length of the garden"), "Step 2 of 6: Length of the garden");
    }

    #[test]
    fn a_line_says_where_it_clips_where_that_is_known() {
        assert_eq!(
            wear(Line::LongLine, Some(Clip::HarnessBack)),
            "Long line, clipped to the back of the harness"
        );
        assert_eq!(wear(Line::ShortLead, None), "Short lead");
        assert_eq!(wear(Line::None, None), "");
    }
}
