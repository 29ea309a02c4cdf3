//! One exercise as its card reads it.

use crate::domain::today::Exercise;
use crate::domain::vocabulary::ItemKind;
use crate::ids::PracticeLogId;
use crate::store::dog::Dog;
use crate::store::plan::PlanItem;
use crate::web::practice_logs::ask::clip_words;
use crate::web::practice_logs::{is_counted, is_line_work};
use crate::web::today::words;

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
    /// How much, how long, where.
    pub dose: String,
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
    /// The card of an item.
    pub fn new(item: PlanItem, exercise: &Exercise, dog: &Dog, id: PracticeLogId) -> Self {
        let counted = is_counted(&item);
        Self {
            dog: dog.id.to_string(),
            without_dog: item.kind == ItemKind::OwnerSkill,
            wear: words::wear(&item),
            dose: words::dose(&item, counted),
            week: words::week(&item, exercise.this_week),
            done_today: exercise.today > 0,
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
