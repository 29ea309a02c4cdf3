//! One plan item as a card reads it, and the items of a plan by what they are.

use crate::domain::vocabulary::{ItemKind, Line};
use crate::ids::LineId;
use crate::store::plan::PlanItem;
use crate::web::plans::words;

/// A plan item in words. What is not stated is an empty text.
pub struct Card {
    /// The line across versions.
    pub line_id: LineId,
    /// What it is called.
    pub name: String,
    /// Which rung.
    pub step: String,
    /// Why, in the owner's words.
    pub why: String,
    /// What earns the marker: the owner's "yes".
    pub earns: String,
    /// How far, how long, how distracting.
    pub measure: String,
    /// How to set it up.
    pub set_up: String,
    /// How to do it and reward it.
    pub how: String,
    /// How much is asked for.
    pub dose: String,
    /// Where.
    pub place: String,
    /// With what.
    pub reward: String,
    /// What joins dog and handler, and where it clips.
    pub wear: String,
    /// Whether it is work on a long line.
    pub long_line: bool,
    /// More about what to wear and hold.
    pub equipment: String,
    /// How to come down.
    pub then: String,
    /// When to stop or ask.
    pub caution: String,
    /// The trainer's note on it.
    pub note: String,
    /// Where it comes from.
    pub source: String,
}

impl From<&PlanItem> for Card {
    fn from(item: &PlanItem) -> Self {
        let on_ladder = item.distraction.filter(|_| item.kind == ItemKind::Exercise);
        let distraction = on_ladder.map(|n| format!("Distraction {n} of 5")).unwrap_or_default();
        let measure = [distraction.as_str(), item.distance.as_str(), item.duration.as_str()];
        Self {
            line_id: item.line_id,
            name: item.name.clone(),
            step: words::step(item.step_position, item.steps_total, &item.step_name),
            why: item.owner_why.clone(),
            earns: item.criterion.clone(),
            measure: measure.into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join(" · "),
            set_up: item.set_up.clone(),
            how: item.delivery.clone(),
            dose: words::dose(item.attempts, item.times_a_week, item.minutes),
            place: item.place_name.clone(),
            reward: item.reinforcer_name.clone(),
            wear: words::wear(item.line, item.clip),
            long_line: item.line == Line::LongLine,
            equipment: item.equipment_note.clone(),
            then: words::cool_down(item.cool_down_minutes, &item.cool_down_way),
            caution: item.caution.clone(),
            note: item.note.clone(),
            source: item.source.clone(),
        }
    }
}

/// A plan's cards by what they are, each in the plan's order.
pub struct Cards {
    /// What holds all the time.
    pub standing: Vec<Card>,
    /// What to practise.
    pub exercises: Vec<Card>,
    /// What the owner learns without the dog.
    pub skills: Vec<Card>,
}

impl Cards {
    /// The cards of a plan.
    pub fn of(items: &[PlanItem]) -> Self {
        let of = |kind| items.iter().filter(|item| item.kind == kind).map(Card::from).collect();
        Self {
            standing: of(ItemKind::StandingArrangement),
            exercises: of(ItemKind::Exercise),
            skills: of(ItemKind::OwnerSkill),
        }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.standing.len() + self.exercises.len() + self.skills.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.count() == 0
    }

    /// The groups with their headings, as trainers read them; empty ones left out.
    pub fn groups(&self) -> Vec<(&'static str, &[Card])> {
        let groups: [(_, &[Card]); 3] = [
            ("Standing arrangements", &self.standing),
            ("Exercises", &self.exercises),
            ("Owner’s skills without the dog", &self.skills),
        ];
        groups.into_iter().filter(|(_, cards)| !cards.is_empty()).collect()
    }
}
