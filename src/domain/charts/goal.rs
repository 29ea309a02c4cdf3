//! How near the goal feels, and how sure the household is of itself.

use time::Date;

/// One reading: its day, how near the goal and how sure of themselves, 0–10; the second is not stated where nobody asked.
pub type Reading = (Date, i16, Option<i16>);

/// What the readings, oldest first, say; empty for none.
pub fn goals_say(readings: &[Reading]) -> String {
    let Some((_, nearness, confidence)) = readings.last() else { return String::new() };
    if readings.len() < 2 {
        let sure = confidence.map(|n| format!(", and {n} of 10 for how sure they feel")).unwrap_or_default();
        return format!("{nearness} of 10 for how near the goal feels{sure}, in the only reading here.");
    }
    let first_sure = readings.iter().find_map(|(_, _, sure)| *sure);
    let last_sure = readings.iter().rev().find_map(|(_, _, sure)| *sure);
    let sure = match first_sure.zip(last_sure) {
        Some((first, last)) => format!(" How sure they feel: {}.", change(first, last)),
        None => String::new(),
    };
    format!("How near the goal feels: {}.{sure}", change(readings[0].1, *nearness))
}

fn change(first: i16, last: i16) -> String {
    match last.cmp(&first) {
        std::cmp::Ordering::Greater => format!("up from {first} to {last} of 10"),
        std::cmp::Ordering::Less => format!("down from {first} to {last} of 10"),
        std::cmp::Ordering::Equal => format!("{last} of 10, as in the beginning"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn readings_are_compared_with_the_first_and_one_alone_with_none() {
        let (march, april) = (date!(2026 - 03 - 01), date!(2026 - 04 - 01));
        assert_eq!(goals_say(&[]), "");
        assert_eq!(
            goals_say(&[(march, 4, Some(6))]),
            "4 of 10 for how near the goal feels, and 6 of 10 for how sure they feel, in the only reading here."
        );
        assert_eq!(
            goals_say(&[(march, 4, None), (april, 6, Some(5))]),
            "How near the goal feels: up from 4 to 6 of 10. How sure they feel: 5 of 10, as in the beginning."
        );
        assert_eq!(
            goals_say(&[(march, 7, Some(8)), (april, 6, Some(5))]),
            "How near the goal feels: down from 7 to 6 of 10. How sure they feel: down from 8 to 5 of 10."
        );
    }
}
