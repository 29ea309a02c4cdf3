//! Words that people never read on our pages: design decisions that a slip of the pen would undo.

use super::answer::Answer;

/// What owners never read: it grades them, or it is the trade's. They read "not yet", "something to watch".
const NOT_FOR_OWNERS: [&str; 12] = [
    "missed",
    "misses",
    "failure",
    "failures",
    "failed",
    "adherence",
    "compliance",
    "compliant",
    "flag",
    "flags",
    "flagged",
    "integrity",
];

/// Fails when a page uses words that its readers should not meet. Tests keep such words out of what they type.
pub fn check(answer: &Answer) {
    if answer.count("body.owner") == 0 {
        return;
    }
    let said = answer.texts("title, main").join(" ").to_lowercase();
    let found: Vec<&str> =
        said.split(|c: char| !c.is_alphabetic()).filter(|word| NOT_FOR_OWNERS.contains(word)).collect();
    assert!(found.is_empty(), "{answer:?} tells an owner: {found:?}");
}
