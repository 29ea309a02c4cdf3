//! What the pages of an intake hold: one object a page, kept as it was saved.

use serde::{Deserialize, Serialize};
use time::Date;
use uuid::Uuid;

use super::{IntakePage, kept_word};
use crate::domain::vocabulary::{Children, DayOfWeek, Word};

/// The answers so far. A page that was never saved is `None`; one that was saved empty is there, and states nothing.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Answers {
    home: Option<Home>,
    dog: Option<History>,
    teeth: Option<Teeth>,
    tried: Option<Tried>,
    food: Option<FoodAndSleep>,
    health: Option<HealthAnswers>,
    week: Option<WeekAnswers>,
    goal: Option<GoodMonth>,
}

/// What one page says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PageAnswers {
    /// Who lives there.
    Home(Home),
    /// Where the dog is from.
    Dog(History),
    /// When teeth touched somebody.
    Teeth(Teeth),
    /// What was tried.
    Tried(Tried),
    /// Food and sleep.
    Food(FoodAndSleep),
    /// Vet, medicines, health.
    Health(HealthAnswers),
    /// Hours alone, and the week.
    Week(WeekAnswers),
    /// What a good month would look like.
    Goal(GoodMonth),
}

/// Who lives there.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Home {
    /// Grown-ups, in their words.
    pub adults: String,
    /// Children, and how much they are there.
    #[serde(with = "kept_word::one")]
    pub children: Option<Children>,
    /// How old they are, in their words.
    pub ages: String,
    /// Other animals.
    pub animals: String,
}

/// Where the dog is from.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct History {
    /// Where from, in their words.
    pub from: String,
    /// Since when it lives with them.
    pub since: Option<Date>,
    /// What is known of its life before.
    pub before: String,
}

/// Whether teeth ever touched somebody, and each time that was told.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Teeth {
    /// Whether they ever did; `None` where nobody has said.
    pub ever: Option<bool>,
    /// Each time.
    pub incidents: Vec<Incident>,
}

/// One time that teeth touched somebody, as a fact.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Incident {
    /// Its id, made with the page, so that sending it twice tells it once.
    pub id: Uuid,
    /// When, as exactly as they know.
    pub happened: String,
    /// Who was touched.
    pub whom: String,
    /// Where it was.
    pub place: String,
    /// Whether skin was broken; `None` where nobody has said.
    pub skin_broken: Option<bool>,
    /// What care was given.
    pub care: String,
}

/// What was tried.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tried {
    /// What, in their words.
    pub what: String,
    /// What seemed to help.
    pub helped: String,
}

/// Food and sleep.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct FoodAndSleep {
    /// The main food.
    pub main: String,
    /// Treats and chews.
    pub treats: String,
    /// What it must not eat.
    pub allergies: String,
    /// Where and how long it sleeps.
    pub sleep: String,
}

/// Vet, medicines, health.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct HealthAnswers {
    /// The vet's name or surgery.
    pub vet: String,
    /// Last visit.
    pub last_visit: Option<Date>,
    /// Medicines.
    pub medicines: String,
    /// Anything about its health.
    pub health: String,
}

/// Hours alone, and the week.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct WeekAnswers {
    /// The longest that it is alone on an ordinary day, hours.
    pub hours_alone: Option<i16>,
    /// The days on which somebody can practise; empty where nobody has said.
    #[serde(with = "kept_word::several")]
    pub days: Vec<DayOfWeek>,
    /// What else matters about the week.
    pub other: String,
}

/// What a good month would look like.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct GoodMonth {
    /// In their words.
    pub goal: String,
}

/// A question in a few words, and what was answered; empty where nobody has said.
pub type Said = (&'static str, String);

impl Answers {
    /// Puts a page's answers in place of those before. Incidents are kept: one that was told is taken out only by
    /// [`Self::take_out`], so that a page opened earlier cannot lose it.
    pub fn put(&mut self, page: PageAnswers) {
        match page {
            PageAnswers::Home(said) => self.home = Some(said),
            PageAnswers::Dog(said) => self.dog = Some(said),
            PageAnswers::Tried(said) => self.tried = Some(said),
            PageAnswers::Food(said) => self.food = Some(said),
            PageAnswers::Health(said) => self.health = Some(said),
            PageAnswers::Week(said) => self.week = Some(said),
            PageAnswers::Goal(said) => self.goal = Some(said),
            PageAnswers::Teeth(said) => {
                let teeth = self.teeth.get_or_insert_default();
                teeth.ever = said.ever;
                for incident in said.incidents.into_iter().filter(|incident| !incident.is_blank()) {
                    match teeth.incidents.iter_mut().find(|told| told.id == incident.id) {
                        Some(told) => *told = incident,
                        None => teeth.incidents.push(incident),
                    }
                }
            }
        }
    }

    /// Takes an incident out that was told by mistake.
    pub fn take_out(&mut self, incident: Uuid) {
        if let Some(teeth) = &mut self.teeth {
            teeth.incidents.retain(|told| told.id != incident);
        }
    }

    /// What a page says; blank where it was never saved.
    pub fn of(&self, page: IntakePage) -> PageAnswers {
        match page {
            IntakePage::Home => PageAnswers::Home(self.home()),
            IntakePage::Dog => PageAnswers::Dog(self.dog()),
            IntakePage::Teeth => PageAnswers::Teeth(self.teeth()),
            IntakePage::Tried => PageAnswers::Tried(self.tried()),
            IntakePage::Food => PageAnswers::Food(self.food()),
            IntakePage::Health => PageAnswers::Health(self.health()),
            IntakePage::Week => PageAnswers::Week(self.week()),
            IntakePage::Goal => PageAnswers::Goal(self.goal()),
        }
    }

    /// Whether a page was saved, be it empty.
    pub fn is_saved(&self, page: IntakePage) -> bool {
        match page {
            IntakePage::Home => self.home.is_some(),
            IntakePage::Dog => self.dog.is_some(),
            IntakePage::Teeth => self.teeth.is_some(),
            IntakePage::Tried => self.tried.is_some(),
            IntakePage::Food => self.food.is_some(),
            IntakePage::Health => self.health.is_some(),
            IntakePage::Week => self.week.is_some(),
            IntakePage::Goal => self.goal.is_some(),
        }
    }

    /// Who lives there.
    pub fn home(&self) -> Home {
        self.home.clone().unwrap_or_default()
    }

    /// Where the dog is from.
    pub fn dog(&self) -> History {
        self.dog.clone().unwrap_or_default()
    }

    /// When teeth touched somebody.
    pub fn teeth(&self) -> Teeth {
        self.teeth.clone().unwrap_or_default()
    }

    /// What was tried.
    pub fn tried(&self) -> Tried {
        self.tried.clone().unwrap_or_default()
    }

    /// Food and sleep.
    pub fn food(&self) -> FoodAndSleep {
        self.food.clone().unwrap_or_default()
    }

    /// Vet, medicines, health.
    pub fn health(&self) -> HealthAnswers {
        self.health.clone().unwrap_or_default()
    }

    /// Hours alone, and the week.
    pub fn week(&self) -> WeekAnswers {
        self.week.clone().unwrap_or_default()
    }

    /// What a good month would look like.
    pub fn goal(&self) -> GoodMonth {
        self.goal.clone().unwrap_or_default()
    }

    /// A page's questions in a few words, with what was answered.
    pub fn in_words(&self, page: IntakePage) -> Vec<Said> {
        match self.of(page) {
            PageAnswers::Home(said) => vec![
                ("Grown-ups", said.adults),
                ("Children", said.children.map(|word| word.label().to_owned()).unwrap_or_default()),
                ("How old they are", said.ages),
                ("Other animals", said.animals),
            ],
            PageAnswers::Dog(said) => {
                vec![("From", said.from), ("Lives here since", day(said.since)), ("Life before", said.before)]
            }
            PageAnswers::Teeth(said) => said.in_words(),
            PageAnswers::Tried(said) => {
                vec![("Tried so far", said.what), ("What seemed to help", said.helped)]
            }
            PageAnswers::Food(said) => vec![
                ("Main food", said.main),
                ("Treats and chews", said.treats),
                ("Must not eat", said.allergies),
                ("Sleep", said.sleep),
            ],
            PageAnswers::Health(said) => vec![
                ("Vet", said.vet),
                ("Last visit", day(said.last_visit)),
                ("Medicines", said.medicines),
                ("Health", said.health),
            ],
            PageAnswers::Week(said) => vec![
                ("Longest alone", said.hours_alone.map(hours).unwrap_or_default()),
                ("Days to practise", labels(&said.days)),
                ("The week", said.other),
            ],
            PageAnswers::Goal(said) => vec![("A good month", said.goal)],
        }
    }
}

fn day(day: Option<Date>) -> String {
    day.map(|day| day.to_string()).unwrap_or_default()
}

fn hours(hours: i16) -> String {
    match hours {
        1 => "1 hour".to_owned(),
        hours => format!("{hours} hours"),
    }
}

fn labels<W: Word>(words: &[W]) -> String {
    words.iter().map(|word| word.label()).collect::<Vec<_>>().join(", ")
}

impl Teeth {
    fn in_words(self) -> Vec<Said> {
        let ever = match self.ever {
            Some(true) => "Yes",
            Some(false) => "No",
            None => "",
        };
        let incidents = self.incidents.iter().map(|incident| ("Told", incident.in_words()));
        std::iter::once(("Teeth on skin, ever", ever.to_owned())).chain(incidents).collect()
    }
}

impl Incident {
    /// Whether nothing was typed about it: an empty part of the form is no incident.
    pub fn is_blank(&self) -> bool {
        *self == Self { id: self.id, ..Self::default() }
    }

    /// The incident in one line: what is not stated is said to be.
    pub fn in_words(&self) -> String {
        let skin = match self.skin_broken {
            Some(true) => "yes",
            Some(false) => "no",
            None => "not stated",
        };
        let stated = |text: &str| if text.is_empty() { "not stated".to_owned() } else { text.to_owned() };
        format!(
            "When: {}. Who: {}. Where: {}. Skin broken: {skin}. Care: {}.",
            stated(&self.happened),
            stated(&self.whom),
            stated(&self.place),
            stated(&self.care)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_saved_empty_is_saved_and_states_nothing() {
        let mut answers = Answers::default();
        answers.put(PageAnswers::Home(Home::default()));
        let saved: Vec<_> = IntakePage::ALL.iter().filter(|page| answers.is_saved(**page)).collect();
        assert_eq!(saved, [&IntakePage::Home]);
        assert_eq!(answers.home().children, None);
        assert!(answers.in_words(IntakePage::Home).iter().all(|(_, said)| said.is_empty()));
    }

    #[test]
    fn an_incident_says_what_is_not_stated() {
        let incident = Incident { whom: "the postman".to_owned(), ..Incident::default() };
        assert!(incident.in_words().contains("Skin broken: not stated."));
        assert!(incident.in_words().contains("Who: the postman."));
        assert!(
            !incident.is_blank() && Incident { id: Uuid::from_u128(3), ..Incident::default() }.is_blank()
        );
    }

    #[test]
    fn an_incident_told_twice_is_told_once_and_a_page_opened_earlier_loses_none() {
        let told = |id: u128, whom: &str| Incident {
            id: Uuid::from_u128(id),
            whom: whom.to_owned(),
            ..Incident::default()
        };
        let page = |incidents: Vec<Incident>| PageAnswers::Teeth(Teeth { ever: Some(true), incidents });
        let mut answers = Answers::default();
        answers.put(page(vec![told(1, "a guest")]));
        answers.put(page(vec![told(1, "a guest, Tuesday")]));
        answers.put(page(vec![told(2, "the postman"), told(3, "")]));
        let whom: Vec<String> = answers.teeth().incidents.into_iter().map(|incident| incident.whom).collect();
        assert_eq!(whom, ["a guest, Tuesday", "the postman"]);
        answers.take_out(Uuid::from_u128(1));
        assert_eq!(answers.teeth().incidents.len(), 1);
    }

    #[test]
    fn what_is_kept_reads_back_as_it_was() {
        let mut answers = Answers::default();
        answers.put(PageAnswers::Home(Home { children: Some(Children::ALL[1]), ..Home::default() }));
        answers.put(PageAnswers::Week(WeekAnswers {
            days: vec![DayOfWeek::ALL[5], DayOfWeek::ALL[0]],
            ..WeekAnswers::default()
        }));
        let kept = serde_json::to_value(&answers).expect("writes");
        assert_eq!(serde_json::from_value::<Answers>(kept).expect("reads"), answers);
        assert!(serde_json::from_str::<Answers>(r#"{"home":{"children":"many"}}"#).is_err());
    }
}
