//! One exercise as its card reads it.

use crate::domain::vocabulary::ItemKind;
use crate::ids::PracticeLogId;
use crate::store::dog::Dog;
use crate::store::plan::PlanItem;
use crate::web::plans::words;
use crate::web::practice_logs::ask::clip_words;
use crate::web::practice_logs::{is_counted, is_line_work};

/// The most pieces that fit a thumb on a phone; more are logged by the form.
const MOST_PIECES: i16 = 24;

/// One card.
pub struct Card {
    /// The instruction.
    pub item: PlanItem,
    /// The dog.
    pub dog: String,
    /// Whether it is done without the dog.
    pub without_dog: bool,
    /// What to wear.
    pub wear: String,
    /// How much, how long.
    pub dose: String,
    /// How to come down.
    pub then: String,
    /// How the week stands.
    pub week: String,
    /// Whether it was practised today.
    pub done_today: bool,
    /// The one tap: its log's id, how many pieces, and the tick that line work needs.
    pub tap: Option<Tap>,
    /// The address of the whole form.
    pub form: String,
}

/// The one tap of a card.
pub struct Tap {
    /// The log's id, made with the page, so that sending twice makes one log.
    pub id: PracticeLogId,
    /// Pieces put out.
    pub pieces: i16,
    /// For line work, where the line is clipped; empty otherwise.
    pub clipped: String,
}

impl Card {
    /// The card of an item; `(this_week, today)` are the goes since Monday and today's among them.
    pub fn new(item: PlanItem, (this_week, today): (i64, i64), dog: &Dog, id: PracticeLogId) -> Self {
        let counted = is_counted(&item);
        Self {
            dog: dog.id.to_string(),
            without_dog: item.kind == ItemKind::OwnerSkill,
            wear: match words::wear(item.line, item.clip) {
                nothing if nothing.is_empty() => item.equipment_note.clone(),
                wear => wear,
            },
            dose: words::dose(item.attempts.filter(|_| counted), None, item.minutes),
            week: words::week(item.times_a_week, this_week),
            then: words::cool_down(item.cool_down_minutes, &item.cool_down_way),
            done_today: today > 0,
            tap: tap(&item, counted, id),
            form: format!("/dogs/{}/log/new?item={}", dog.id, item.id),
            item,
        }
    }
}

/// One tap needs a count, a number of pieces that fits a thumb, and for line work a clip to confirm.
fn tap(item: &PlanItem, counted: bool, id: PracticeLogId) -> Option<Tap> {
    let pieces = item.attempts.filter(|n| counted && (1..=MOST_PIECES).contains(n))?;
    let clipped = match (is_line_work(item), item.clip) {
        (true, Some(clip)) => clip_words(clip),
        (true, None) => return None,
        (false, _) => String::new(),
    };
    Some(Tap { id, pieces, clipped })
}
