//! What just happened, said once after a redirect: `?notice=key`, from a fixed table, so that a link cannot put words
//! on our pages.

use std::collections::HashMap;

/// The sentence for a key.
pub fn words(key: &str) -> Option<&'static str> {
    TABLE.iter().find(|(k, _)| *k == key).map(|(_, words)| *words)
}

/// The sentence for the `notice` of a query.
pub fn of(query: &HashMap<String, String>) -> Option<String> {
    query.get("notice").and_then(|key| words(key)).map(str::to_owned)
}

const TABLE: &[(&str, &str)] = &[
    ("set-up", "Your practice is set up. Add a household to begin."),
    ("saved", "Saved."),
    // people
    // dogs and library
    // plans
    // practice
    // the owner's day
    ("message-sent", "Sent. Your trainer sees it with their other messages."),
    ("messages-read", "Marked as read."),
];
