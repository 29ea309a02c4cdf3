//! Adding lines to a text that people wrote: nothing of it is lost, nothing is added twice, and it stays as long as it may be.

/// A text of at most `most` characters with these lines added; `None` where that changes nothing or does not fit.
pub fn added(text: &str, lines: &str, most: usize) -> Option<String> {
    let lines = lines.trim();
    if lines.is_empty() || holds(text, lines) {
        return None;
    }
    let longer = match text.trim() {
        "" => lines.to_owned(),
        _ => format!("{}\n{lines}", text.trim_end()),
    };
    (longer.chars().count() <= most).then_some(longer)
}

/// Whether a text holds these lines already, so that taking twice adds once.
fn holds(text: &str, lines: &str) -> bool {
    let there: Vec<&str> = text.lines().map(str::trim).collect();
    lines.lines().map(str::trim).filter(|line| !line.is_empty()).all(|line| there.contains(&line))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_does_not_fit_is_not_added() {
        assert_eq!(added("abc", "def", 7).as_deref(), Some("abc\ndef"));
        assert_eq!(added("abc", "def", 6), None);
    }

    proptest! {
        #[test]
        fn what_was_written_is_still_there(before in "[a-z \n]{0,40}", lines in "[a-z \n]{0,40}") {
            if let Some(text) = added(&before, &lines, 200) {
                prop_assert!(text.starts_with(before.trim_end()) || before.trim().is_empty());
                prop_assert_eq!(added(&text, &lines, 200), None);
            }
        }
    }
}
