//! What the log form asks: its questions and answers in the words of whoever fills it in.

use crate::domain::dog::{Pronouns, pronouns};
use crate::domain::vocabulary::{
    Busy, Clip, Felt, Finish, HealthSign, Line, Looked, Outcome, Recovery, TookFood, Word,
};
use crate::store::dog::Dog;
use crate::store::place::Place;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::web::Form;
use crate::web::practice_logs::fields::{self, AS_PLANNED, NOT_SURE};
use crate::web::practice_logs::filled::is_elsewhere;
use crate::web::revisions::Changing;

/// An answer: what is sent, and what is read.
pub type Answers = Vec<(&'static str, String)>;

/// Everything that the form's template reads.
pub struct Ask {
    /// The log's id, made with the page, so that sending twice makes one log.
    pub id: String,
    /// The dog.
    pub dog: Dog,
    /// The instruction.
    pub item: PlanItem,
    /// Whether a trainer fills it in.
    pub trainer: bool,
    /// Whether it asks for a count.
    pub counted: bool,
    /// What else it asks for: question and unit.
    pub outcome: Option<(String, &'static str)>,
    /// Whether it is done without any line, so that lines are asked for only on wish.
    pub lineless: bool,
    /// Where the line was clipped.
    pub clips: Answers,
    /// What joined dog and handler.
    pub lines: Answers,
    /// The same as planned, in words.
    pub planned_line: String,
    /// The dog's other places, and somewhere else.
    pub places: Vec<(String, String)>,
    /// The planned place, in words.
    pub planned_place: String,
    /// How busy the place was.
    pub busy: Answers,
    /// How warm it felt.
    pub felt: Answers,
    /// How the dog looked.
    pub looked: Answers,
    /// How it took its food.
    pub took_food: Answers,
    /// How long until it was itself again.
    pub recovery: Answers,
    /// How the sitting was brought down.
    pub finish: Answers,
    /// Arousal, 1–5.
    pub arousal: Answers,
    /// Signs of illness or pain.
    pub health: Answers,
    /// The questions that name the dog or the place.
    pub questions: Questions,
    /// What a sitting that is logged already needs beside them.
    pub changing: Option<Changing>,
}

/// Questions that name the dog or the place.
pub struct Questions {
    /// What joined dog and handler.
    pub line: String,
    /// The fold over it.
    pub other_line: String,
    /// How the dog looked.
    pub looked: String,
    /// How it took food.
    pub took_food: String,
    /// How long until it was itself again.
    pub recovery: String,
    /// The fold over how it was.
    pub how: String,
    /// The fold over the signs of illness.
    pub unlike: String,
    /// How busy the place was.
    pub busy: String,
}

impl Questions {
    fn new(dog: &Dog, pronouns: Pronouns, item: &PlanItem) -> Self {
        let name = &dog.name;
        let were = if pronouns.subject == "they" { "were" } else { "was" };
        Self {
            line: format!("What joined you and {name}?"),
            other_line: match item.line {
                Line::None => "On a line this time?".to_owned(),
                line => format!("Not on the {}?", line_words(line)),
            },
            looked: format!("How did {name} look?"),
            took_food: format!("How did {name} take food?"),
            recovery: format!("How long until {name} was {} again?", pronouns.reflexive),
            how: format!("How {} {were}", pronouns.subject),
            unlike: format!("Anything unlike {} today?", pronouns.object),
            busy: "How busy was it?".to_owned(),
        }
    }
}

/// All answers of a closed set.
pub fn answers<W: Word>() -> Answers {
    W::ALL.iter().map(|word| (word.stored(), word.label().to_owned())).collect()
}

/// The scale of arousal. Common practice.
pub fn arousal() -> Answers {
    [
        ("1", "1 · resting"),
        ("2", "2 · loose"),
        ("3", "3 · alert, eats and answers"),
        ("4", "4 · wound up, snatches, slow to answer"),
        ("5", "5 · cannot eat or hear you"),
    ]
    .map(|(value, words)| (value, words.to_owned()))
    .into()
}

/// "long line" or "no line", as it stands within a sentence.
pub fn line_words(line: Line) -> String {
    line.label().to_lowercase()
}

/// "back of the harness", as it stands within a sentence.
pub fn clip_words(clip: Clip) -> String {
    clip.label().to_lowercase()
}

/// What is asked for where nothing is counted: question and unit.
pub fn outcome(item: &PlanItem, dog: &Dog) -> Option<(String, &'static str)> {
    let (name, pronouns) = (&dog.name, pronouns(dog.sex));
    match item.outcome {
        Outcome::Count => None,
        Outcome::Distance => Some((format!("How near could {name} be and still be comfortable?"), "metres")),
        Outcome::Duration => Some((format!("How long did {name} stay calm?"), "minutes")),
        Outcome::Recovery => {
            Some((format!("How long until {name} was {} again?", pronouns.reflexive), "minutes"))
        }
        Outcome::Events => Some(("How often did it happen today?".to_owned(), "times")),
    }
}

impl Ask {
    /// Whether a fold has something in it to show: an answer, or something wrong.
    pub fn has(&self, form: &Form, fields: &[&str]) -> bool {
        fields.iter().any(|field| !form.value(field).is_empty() || form.error(field).is_some())
    }

    /// The same form for a sitting that is logged already.
    #[must_use]
    pub fn changing(mut self, log: &PracticeLog, changing: Changing) -> Self {
        if is_elsewhere(log, &self.item) {
            let name = if log.place_name.is_empty() { "not said" } else { &log.place_name };
            self.places.insert(0, (fields::AS_LOGGED.to_owned(), format!("As logged: {name}")));
        }
        self.changing = Some(changing);
        self
    }

    /// The form for an instruction of a dog's plan.
    pub fn new(id: String, dog: Dog, item: PlanItem, places: &[Place], trainer: bool) -> Self {
        let pronouns = pronouns(dog.sex);
        let planned_clip = item.clip.map(|clip| (AS_PLANNED, format!("As planned: {}", clip_words(clip))));
        let nothing_clipped = (item.line == Line::None || item.clip.is_none()) && item.line != Line::LongLine;
        let planned_clip =
            planned_clip.or_else(|| nothing_clipped.then(|| (AS_PLANNED, "As planned".to_owned())));
        let others =
            answers::<Clip>().into_iter().filter(|(value, _)| item.clip.map(Word::stored) != Some(*value));
        let mut clips: Answers = planned_clip.into_iter().chain(others).collect();
        clips.push((NOT_SURE, "I am not sure".to_owned()));
        let others = places.iter().filter(|place| Some(place.id) != item.place);
        let others = others.map(|place| (place.id.to_string(), place.name.clone()));
        Self {
            places: others.chain([(fields::ELSEWHERE.to_owned(), "Somewhere else".to_owned())]).collect(),
            planned_place: match item.place_name.as_str() {
                "" => "Not said".to_owned(),
                place => format!("As planned: {place}"),
            },
            id,
            trainer,
            counted: fields::is_counted(&item),
            outcome: outcome(&item, &dog),
            lineless: item.line == Line::None,
            clips,
            lines: answers::<Line>(),
            planned_line: format!("As planned: {}", line_words(item.line)),
            busy: answers::<Busy>(),
            felt: answers::<Felt>(),
            looked: answers::<Looked>(),
            took_food: answers::<TookFood>(),
            recovery: answers::<Recovery>(),
            finish: answers::<Finish>(),
            arousal: arousal(),
            health: answers::<HealthSign>(),
            questions: Questions::new(&dog, pronouns, &item),
            changing: None,
            dog,
            item,
        }
    }
}
