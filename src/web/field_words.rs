//! What a field is called in a message about it, so that the summary of a page can be read by itself.

/// Fields whose names are not the words of their labels.
const CALLED: [(&str, &str); 29] = [
    ("addressed_to", "For whom"),
    ("as", "What it tells of"),
    ("at", "Time"),
    ("because", "Reason"),
    ("body", "Message"),
    ("bought", "Lessons bought"),
    ("called_off_by", "Who called it off"),
    ("change", "What becomes of them"),
    ("counted", "What you counted"),
    ("csv", "Steps from a table"),
    ("ever", "Teeth on skin"),
    ("from", "First day"),
    ("kg", "Weight"),
    ("next_1", "Next 1"),
    ("next_2", "Next 2"),
    ("next_3", "Next 3"),
    ("on", "Day"),
    ("other", "Other health"),
    ("owner_why", "Why it is worth the owner's time"),
    ("package_note", "Note"),
    ("place_name", "Place"),
    ("replies", "When owners may expect an answer"),
    ("rows", "Rows of the file"),
    ("set_up", "Set-up"),
    ("skin_broken", "Whether skin was broken"),
    ("text", "The file"),
    ("what", "What it is"),
    ("why", "Why"),
    ("zone", "Time zone"),
];

/// Fields that a page sends by itself and that nobody sees.
const UNSEEN: [&str; 18] = [
    "after",
    "appointment",
    "dog",
    "id",
    "incident",
    "instead_of",
    "item",
    "ladder",
    "log",
    "message",
    "number",
    "passed_on",
    "revision",
    "saw",
    "seen",
    "subject",
    "text_version",
    "was",
];

/// What to call a field: `bite_on_record` is “Bite on record”, `step-3-name` is “Step 3, name”.
pub fn called(name: &str) -> String {
    if let Some((number, rest)) = name.strip_prefix("step-").and_then(|row| row.split_once('-')) {
        return format!("Step {number}, {}", rest.replace(['_', '-'], " "));
    }
    if let Some((_, words)) = CALLED.iter().find(|(field, _)| *field == name) {
        return (*words).to_owned();
    }
    let words = name.replace(['_', '-'], " ");
    let mut letters = words.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().collect::<String>() + letters.as_str())
        .unwrap_or_default()
}

/// Whether nobody sees a field: the summary cannot lead to it.
pub fn is_unseen(name: &str) -> bool {
    UNSEEN.contains(&name) || name.starts_with("step-") && name.ends_with("-id")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_called_in_words() {
        for (name, words) in [
            ("name", "Name"),
            ("bite_on_record", "Bite on record"),
            ("step-3-distance", "Step 3, distance"),
            ("kg", "Weight"),
            ("", ""),
        ] {
            assert_eq!(called(name), words);
        }
    }

    #[test]
    fn what_a_page_sends_by_itself_is_unseen() {
        assert!(is_unseen("id") && is_unseen("step-12-id"));
        assert!(!is_unseen("name") && !is_unseen("step-12-name"));
    }
}
