//! One exercise as its card reads it.

use crate::domain::outcomes::OutcomeAdvice;
use crate::domain::vocabulary::{Choice, ItemKind, Outcome};
use crate::domain::week::Habit;
use crate::ids::PracticeLogId;
use crate::store::dog::Dog;
use crate::store::plan::PlanItem;
use crate::web::plans::words;
use crate::web::practice_logs::ask::{clip_words, outcome};
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
    /// What is enough for now, where that is less than the plan says; empty otherwise.
    pub less: String,
    /// How to come down.
    pub then: String,
    /// What today's sitting is tied to; empty where the week, laid out, has none.
    pub when: &'static str,
    /// How the week stands.
    pub week: String,
    /// Whether it can be counted while it is practised: no line takes a hand.
    pub counts: bool,
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
    /// What is tapped.
    pub what: TapWhat,
    /// For line work, where the line is clipped; empty otherwise.
    pub clipped: String,
}

/// What is tapped.
pub enum TapWhat {
    /// Pieces that are left, of so many put out.
    Pieces(i16),
    /// What was measured: the question with its unit, and the usual answers.
    Measured(String, Vec<i16>),
    /// That it was done.
    Done,
}

impl Card {
    /// Pieces to put out, where the tap is for them.
    pub fn pieces(&self) -> Option<i16> {
        self.tap.as_ref().and_then(|tap| if let TapWhat::Pieces(n) = tap.what { Some(n) } else { None })
    }

    /// This card, tied to a habit.
    pub fn tied_to(self, habit: Option<Habit>) -> Self {
        Self { when: habit.map(Habit::in_words).unwrap_or_default(), ..self }
    }

    /// This card, where less than the plan says is enough for now.
    pub fn eased_by(self, advice: Option<OutcomeAdvice>) -> Self {
        let eased = advice.filter(|advice| advice.choice == Choice::MakeEasier);
        Self { less: eased.map(|advice| advice.for_owner).unwrap_or_default(), ..self }
    }

    /// The card of an item; `(this_week, today)` are the sittings since Monday and today's among them.
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
            less: String::new(),
            when: "",
            week: words::week(item.times_a_week, this_week),
            then: words::cool_down(item.cool_down_minutes, &item.cool_down_way),
            counts: counted && !is_line_work(&item),
            done_today: today > 0,
            tap: tap(&item, counted, dog, id),
            form: format!("/dogs/{}/log/new?item={}", dog.id, item.id),
            item,
        }
    }
}

/// One tap needs a number of pieces that fits a thumb where it is counted, and for line work a clip to confirm.
fn tap(item: &PlanItem, counted: bool, dog: &Dog, id: PracticeLogId) -> Option<Tap> {
    let what = match outcome(item, dog) {
        _ if counted => TapWhat::Pieces(item.attempts.filter(|n| (1..=MOST_PIECES).contains(n))?),
        Some((question, unit)) => TapWhat::Measured(format!("{question} ({unit})"), usual_answers(item)),
        None => TapWhat::Done,
    };
    let clipped = match (is_line_work(item), item.clip) {
        (true, Some(clip)) => clip_words(clip),
        (true, None) => return None,
        (false, _) => String::new(),
    };
    Some(Tap { id, what, clipped })
}

/// The answers that one tap offers, the planned minutes among them; anything between goes by the form. Common practice.
fn usual_answers(item: &PlanItem) -> Vec<i16> {
    let usual: &[i16] = match item.outcome {
        Outcome::Distance => &[1, 2, 3, 5, 8, 10, 15, 20, 30, 50],
        Outcome::Duration | Outcome::Recovery => &[1, 2, 3, 5, 10, 15, 20, 30],
        Outcome::Events | Outcome::Count => &[0, 1, 2, 3, 4, 5, 6],
    };
    let planned = item.minutes.filter(|n| item.outcome == Outcome::Duration && *n > 0);
    let mut answers: Vec<i16> = usual.iter().copied().chain(planned).collect();
    answers.sort_unstable();
    answers.dedup();
    answers
}
