//! Hanging owners' notes on generated sittings: in their order, spread over the weeks, each once.

use super::days::Slot;
use crate::demo::content::{Note, Owner};

/// Hangs the notes.
pub fn hang(slots: &mut [Slot], notes: &'static [Note]) {
    let mut from = 0;
    for (nth, note) in notes.iter().enumerate() {
        let target = slots.len() * (2 * nth + 1) / (2 * notes.len()).max(1);
        let fits = |slot: &Slot| {
            slot.note.is_none()
                && slot.days_ago <= note.since
                && (note.on.is_empty() || slot.item.key == note.on)
        };
        let after = (target.max(from)..slots.len()).find(|place| fits(&slots[*place]));
        let place =
            after.or_else(|| (from..target.min(slots.len())).rev().find(|place| fits(&slots[*place])));
        if let Some(place) = place {
            slots[place].note = Some(note);
            from = place + 1;
        }
    }
}

/// Who wrote a note: whoever signed it, else whoever writes most.
pub fn writer(note: &Note, owners: &'static [Owner]) -> &'static str {
    let signed = owners.iter().find(|owner| is_signed_by(note.words, owner));
    signed.or(owners.first()).map_or("", |owner| owner.key)
}

/// Signed at the end by an initial or a nickname ("B.", "Roo"), or at the beginning by initials ("W.A.:").
fn is_signed_by(words: &str, owner: &Owner) -> bool {
    let initials: Vec<char> = owner.name.split(' ').filter_map(|name| name.chars().next()).collect();
    let [first, .., last] = initials[..] else { return false };
    let end = words.rsplit(' ').next().unwrap_or_default();
    end == format!("{first}.")
        || end.to_lowercase() == owner.key
        || words.starts_with(&format!("{first}.{last}."))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::content::Day;

    const OWNERS: &[Owner] = &[
        Owner { key: "ellis", name: "Ellis Lazenby", phone: "", share: 6 },
        Owner { key: "roo", name: "Bernadette Lazenby", phone: "", share: 4 },
    ];

    #[test]
    fn whoever_signs_has_written() {
        let by = |words| {
            writer(&Note { on: "", day: Day::Good, words, counts: None, reading: None, since: 90 }, OWNERS)
        };
        assert_eq!(by("Pigeons. All of them."), "ellis");
        assert_eq!(by("Stopped after four. B."), "roo");
        assert_eq!(by("He dropped it when I yawned. Roo"), "roo");
        assert_eq!(by("B.L.: asleep by 4 across."), "roo");
    }
}
