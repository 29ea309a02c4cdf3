//! What somebody searches a list for: `?q=`.

use std::collections::HashMap;

/// The most that is searched for, in characters.
const MOST: usize = 120;

/// The text to search for: trimmed, without control characters, which no name has and the database cannot hold.
pub fn text(query: &HashMap<String, String>) -> String {
    let typed = query.get("q").map_or("", String::as_str).trim();
    typed.chars().filter(|c| !c.is_control()).take(MOST).collect()
}
