//! A finding as its card reads it: what to do first, then what was seen and why, then where that comes from.

use time::Date;

use crate::domain::lists::in_a_sentence;
use crate::domain::owner_words::OwnerWord;
use crate::domain::vocabulary::{FlagState, Severity, Word};
use crate::domain::welfare::{Danger, Group};
use crate::store::flag::{Flag, Found};
use crate::web::zones;

/// One card.
pub struct Watch {
    /// The kind of mark: notice, caution, stop.
    pub kind: &'static str,
    /// How bad it is, in a word.
    pub word: &'static str,
    /// Its heading.
    pub title: &'static str,
    /// What to do first, in one sentence.
    pub act: &'static str,
    /// What to do then.
    pub then: &'static str,
    /// What was seen.
    pub seen: String,
    /// The other days on which it was seen: "Also on Thu 12 Mar." Empty where it was seen once.
    pub also: String,
    /// Why it matters.
    pub why: &'static str,
    /// Where that comes from.
    pub source: &'static str,
    /// How sure we are of it.
    pub certainty: &'static str,
    /// The rule, as the guide names it.
    pub rule: &'static str,
    /// What became of it.
    pub answer: String,
    /// Whether it comes before everything else on a page.
    pub urgent: bool,
}

fn urgent(flag: &Flag) -> bool {
    let is_grave =
        matches!(flag.rule.group, Group::Health | Group::Safety) || flag.rule.danger() == Danger::Life;
    flag.severity == Severity::Stop && is_grave
}

/// The word above a card. Teeth, growls and a call for help are no habit to change.
fn owner_word(flag: &Flag) -> &'static str {
    match (flag.rule.id, flag.severity) {
        ("not_coping", _) => "We have heard you",
        (_, Severity::Stop) => flag.severity.for_owner(),
        _ if flag.rule.group == Group::Safety => "Safety first",
        _ => flag.severity.for_owner(),
    }
}

/// The first sentence, and the rest: what comes first stands out.
fn first_sentence(text: &'static str) -> (&'static str, &'static str) {
    match text.find(". ") {
        Some(end) => (&text[..=end], &text[end + 2..]),
        None => (text, ""),
    }
}

/// The other days on which the same was seen, in a sentence.
fn also(found: &Found, today: Date) -> String {
    let mut days: Vec<Date> = found.again.iter().map(|flag| flag.local_date).collect();
    days.sort_unstable();
    days.dedup();
    let days: Vec<String> = days.iter().map(|day| zones::day(*day, today)).collect();
    if days.is_empty() { String::new() } else { format!("Also on {}.", in_a_sentence(&days)) }
}

impl Watch {
    /// A flag as owners read it.
    pub fn for_owner(flag: &Flag) -> Self {
        Self {
            kind: flag.severity.stored(),
            word: owner_word(flag),
            title: flag.rule.owner_title,
            act: first_sentence(flag.rule.owner_do).0,
            then: first_sentence(flag.rule.owner_do).1,
            seen: flag.owner_seen.clone(),
            also: String::new(),
            why: flag.rule.owner_why,
            source: flag.rule.source,
            certainty: flag.rule.certainty.label(),
            rule: flag.rule.id,
            answer: match (&flag.answered_by, flag.state) {
                (Some(name), FlagState::Answered) => format!("{name}: {}", flag.answer),
                (_, FlagState::Open) if flag.severity == Severity::Notice => String::new(),
                (_, state) => state.for_owner().to_owned(),
            },
            urgent: urgent(flag),
        }
    }

    /// What one rule found as owners read it: one card, with the other days.
    pub fn found_for_owner(found: &Found, today: Date) -> Self {
        let day = zones::day(found.first.local_date, today);
        let also = match also(found, today).as_str() {
            "" => format!("{day}."),
            also => format!("{day}. {also}"),
        };
        Self { also, ..Self::for_owner(&found.first) }
    }

    /// A flag as trainers read it.
    pub fn for_trainer(flag: &Flag) -> Self {
        Self {
            kind: flag.severity.stored(),
            word: flag.severity.label(),
            title: flag.rule.title,
            act: first_sentence(flag.rule.trainer_do).0,
            then: first_sentence(flag.rule.trainer_do).1,
            seen: flag.seen.clone(),
            also: String::new(),
            why: flag.rule.why,
            source: flag.rule.source,
            certainty: flag.rule.certainty.label(),
            rule: flag.rule.id,
            answer: match (&flag.answered_by, flag.state) {
                (Some(name), FlagState::Answered) => format!("Answered by {name}: {}", flag.answer),
                (_, state) => state.label().to_owned(),
            },
            urgent: urgent(flag),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_comes_first_is_one_sentence() {
        assert_eq!(first_sentence("Stop. Then rest."), ("Stop.", "Then rest."));
        assert_eq!(first_sentence("Stop now."), ("Stop now.", ""));
    }
}
