//! What the pages of an intake hold: one object a page, kept as it was saved.

use serde::{Deserialize, Serialize};
use time::Date;

use super::IntakePage;

/// The answers so far. A page that was never saved is `None`; one that was saved empty is there, and states nothing.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Answers {
    /// Who lives there.
    pub home: Option<Home>,
    /// Where the dog is from.
    pub dog: Option<History>,
    /// When teeth touched somebody; the incidents themselves are rows of their own.
    pub incidents: Option<Teeth>,
    /// What was tried.
    pub tried: Option<Tried>,
    /// Food and sleep.
    pub food: Option<FoodAndSleep>,
    /// Vet, medicines, health.
    pub health: Option<HealthAnswers>,
    /// Hours alone, and the week.
    pub week: Option<WeekAnswers>,
    /// What a good month would look like.
    pub goal: Option<GoodMonth>,
}

/// Who lives there.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Home {
    /// Grown-ups, in their words.
    pub adults: String,
    /// Ages of children in whole years, of those who live there or come often.
    pub child_ages: Vec<u8>,
    /// Whether no child lives there or comes often; `None` where nobody has said.
    pub no_children: Option<bool>,
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

/// Whether teeth ever touched somebody.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Teeth {
    /// Whether they said that it never happened; `None` where nobody has said.
    pub never: Option<bool>,
}

/// One time that teeth touched somebody, as a fact.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Incident {
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
    pub hours_alone: Option<u8>,
    /// The days on which somebody can practise, as the vocabulary stores them; empty where nobody has said.
    pub days: Vec<String>,
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

impl Answers {
    /// Whether a page was saved, be it empty.
    pub fn is_saved(&self, page: IntakePage) -> bool {
        match page {
            IntakePage::Home => self.home.is_some(),
            IntakePage::Dog => self.dog.is_some(),
            IntakePage::Incidents => self.incidents.is_some(),
            IntakePage::Tried => self.tried.is_some(),
            IntakePage::Food => self.food.is_some(),
            IntakePage::Health => self.health.is_some(),
            IntakePage::Week => self.week.is_some(),
            IntakePage::Goal => self.goal.is_some(),
        }
    }
}

impl Incident {
    /// Whether nothing was typed about it: an empty row of the form is no incident.
    pub fn is_blank(&self) -> bool {
        *self == Self::default()
    }

    /// The incident as one line of a dog's history.
    pub fn in_words(&self) -> String {
        let skin = match self.skin_broken {
            Some(true) => "skin broken",
            Some(false) => "skin not broken",
            None => "skin: not stated",
        };
        let stated = |text: &str| if text.is_empty() { "not stated".to_owned() } else { text.to_owned() };
        format!(
            "Teeth, told at intake. When: {}. Who: {}. Where: {}. {skin}. Care: {}.",
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
    use crate::domain::vocabulary::Word;

    #[test]
    fn a_page_saved_empty_is_saved_and_states_nothing() {
        let answers = Answers { home: Some(Home::default()), ..Answers::default() };
        let saved: Vec<_> = IntakePage::ALL.iter().filter(|page| answers.is_saved(**page)).collect();
        assert_eq!(saved, [&IntakePage::Home]);
        assert_eq!(answers.home.and_then(|home| home.no_children), None);
    }

    #[test]
    fn an_incident_says_what_is_not_stated() {
        let incident = Incident { whom: "the postman".to_owned(), ..Incident::default() };
        assert!(incident.in_words().contains("skin: not stated"));
        assert!(incident.in_words().contains("Who: the postman."));
        assert!(!incident.is_blank() && Incident::default().is_blank());
    }
}
