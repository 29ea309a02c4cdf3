//! A plan as plain text, for whatever chat the household already uses.

use std::fmt::Write;

use crate::web::plans::card::{Card, Cards};

/// The plan in owners' words. `from` is who wrote it and when.
pub fn text(dog: &str, from: &str, note: &str, cards: &Cards) -> String {
    let mut text = format!("{dog}: the plan\n{from}\n");
    if !note.is_empty() {
        let _ = write!(text, "\n{note}\n");
    }
    if !cards.standing.is_empty() {
        text.push_str("\nKeeping things easy, all the time\n");
        cards.standing.iter().for_each(|card| {
            let _ = writeln!(text, "- {}: {}", card.name, card.earns);
        });
    }
    if !cards.exercises.is_empty() {
        text.push_str("\nTo practise\n");
        cards.exercises.iter().enumerate().for_each(|(index, card)| exercise(&mut text, index + 1, card));
    }
    if !cards.skills.is_empty() {
        text.push_str("\nFor you, without the dog\n");
        cards.skills.iter().for_each(|card| {
            let _ = writeln!(text, "- {}: {}", card.name, card.earns);
        });
    }
    text
}

fn exercise(text: &mut String, number: usize, card: &Card) {
    let _ = writeln!(text, "{number}. {}", card.name);
    let lines = [
        ("", &card.step),
        ("Earns the “yes”: ", &card.earns),
        ("How much: ", &card.dose),
        ("Where: ", &card.place),
        ("Reward: ", &card.reward),
        ("Wear: ", &card.wear),
        ("Then: ", &card.then),
        ("Take care: ", &card.caution),
        ("", &card.note),
    ];
    for (label, words) in lines.into_iter().filter(|(_, words)| !words.is_empty()) {
        let _ = writeln!(text, "   {label}{words}");
    }
}
