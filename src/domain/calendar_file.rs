//! A calendar's file of one event: RFC 5545, in UTC, so that no time zone has to be described. Lines are folded at 75 octets,
//! never inside a character, and text is escaped.

use time::{Duration, OffsetDateTime};

/// The most octets of a line, its end not counted. RFC 5545, 3.1.
const MOST_OCTETS: usize = 75;

/// An event.
#[derive(Debug, Clone)]
pub struct Event<'a> {
    /// What names it for good, however often it changes.
    pub uid: &'a str,
    /// How often it was changed: a calendar takes the highest.
    pub sequence: i32,
    /// When it was last changed.
    pub stamp: OffsetDateTime,
    /// When it begins.
    pub starts: OffsetDateTime,
    /// How long it takes.
    pub lasts: Duration,
    /// What it is.
    pub summary: &'a str,
    /// Where; may be empty.
    pub place: &'a str,
    /// Whether it does not take place.
    pub is_cancelled: bool,
}

/// The file of an event.
pub fn write(event: &Event<'_>) -> String {
    let mut file = String::new();
    let mut line = |name: &str, value: &str| file.push_str(&folded(&format!("{name}:{value}")));
    line("BEGIN", "VCALENDAR");
    line("VERSION", "2.0");
    line("PRODID", "-//Settlebrook//Lessons//EN");
    line("BEGIN", "VEVENT");
    line("UID", &escaped(event.uid));
    line("SEQUENCE", &event.sequence.to_string());
    line("DTSTAMP", &utc(event.stamp));
    line("DTSTART", &utc(event.starts));
    line("DTEND", &utc(event.starts + event.lasts));
    line("SUMMARY", &escaped(event.summary));
    if !event.place.is_empty() {
        line("LOCATION", &escaped(event.place));
    }
    line("STATUS", if event.is_cancelled { "CANCELLED" } else { "CONFIRMED" });
    line("END", "VEVENT");
    line("END", "VCALENDAR");
    file
}

/// An instant as calendars write it: 20260312T093000Z.
fn utc(at: OffsetDateTime) -> String {
    let at = at.to_offset(time::UtcOffset::UTC);
    let (hour, minute, second) = at.to_hms();
    format!("{:04}{:02}{:02}T{hour:02}{minute:02}{second:02}Z", at.year(), u8::from(at.month()), at.day())
}

/// A text with what has a meaning in a calendar's file escaped: backslash, semicolon, comma, end of line. RFC 5545, 3.3.11.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.replace("\r\n", "\n").chars() {
        match c {
            '\\' | ';' | ',' => escaped.extend(['\\', c]),
            '\n' | '\r' => escaped.push_str("\\n"),
            c if c.is_control() => {}
            c => escaped.push(c),
        }
    }
    escaped
}

/// A line with its end, folded where it is longer than a line may be: what goes on begins with a space.
fn folded(line: &str) -> String {
    let mut folded = String::with_capacity(line.len() + 2);
    let mut octets = 0;
    for c in line.chars() {
        if octets + c.len_utf8() > MOST_OCTETS {
            folded.push_str("\r\n ");
            octets = 1;
        }
        folded.push(c);
        octets += c.len_utf8();
    }
    folded + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use time::macros::datetime;

    fn lengths(line: &str) -> Vec<usize> {
        let folded = folded(line);
        folded.trim_end_matches("\r\n").split("\r\n").map(str::len).collect()
    }

    #[test]
    fn lines_fold_at_75_octets_and_never_inside_a_character() {
        assert_eq!(lengths(&"X".repeat(75)), [75]);
        assert_eq!(lengths(&"X".repeat(76)), [75, 2], "the second line is a space and one X");
        assert_eq!(lengths(&format!("SUMMARY:{}", "é".repeat(60))), [74, 55], "128 octets");
        assert_eq!(lengths(&"🐕".repeat(19)), [72, 5]);
    }

    #[test]
    fn text_is_escaped() {
        assert_eq!(escaped("Rex, Bob; \\ & co\r\nsecond\nthird"), "Rex\\, Bob\\; \\\\ & co\\nsecond\\nthird");
        assert_eq!(escaped("END:VEVENT\rBEGIN:VALARM"), "END:VEVENT\\nBEGIN:VALARM", "nothing begins a line");
    }

    #[test]
    fn an_event_is_written_whole_and_in_utc() {
        let event = Event {
            uid: "00000000-0000-7000-8000-000000000001@settlebrook",
            sequence: 2,
            stamp: datetime!(2026-03-12 09:30 UTC),
            starts: datetime!(2026-03-30 10:00 +1),
            lasts: Duration::minutes(75),
            summary: "Lesson: Moss",
            place: "The green, by the gate",
            is_cancelled: false,
        };
        let wanted = "BEGIN:VCALENDAR|VERSION:2.0|PRODID:-//Settlebrook//Lessons//EN|BEGIN:VEVENT|\
            UID:00000000-0000-7000-8000-000000000001@settlebrook|SEQUENCE:2|DTSTAMP:20260312T093000Z|\
            DTSTART:20260330T090000Z|DTEND:20260330T101500Z|SUMMARY:Lesson: Moss|LOCATION:The green\\, by the gate|\
            STATUS:CONFIRMED|END:VEVENT|END:VCALENDAR|";
        assert_eq!(write(&event), wanted.replace('|', "\r\n"));
        let off = write(&Event { is_cancelled: true, place: "", ..event });
        assert!(off.contains("STATUS:CANCELLED\r\n") && !off.contains("LOCATION"));
    }

    proptest! {
        #[test]
        fn what_was_folded_unfolds_to_what_it_was(line in "\\PC{0,300}") {
            let folded = folded(&line);
            prop_assert_eq!(folded.replace("\r\n ", ""), format!("{line}\r\n"));
            prop_assert!(folded.split("\r\n").all(|line| line.len() <= MOST_OCTETS));
        }
    }
}
