//! A dog as the rules see it: who it is, its body, its home, and what is on record.

use time::Date;

use super::dates::{age_words, days_between, whole_months};
use super::vocabulary::{Activity, Children, Coat, DayOfWeek, Sex, VetStatus};

/// One weighing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighing {
    /// The day.
    pub on: Date,
    /// Kilograms.
    pub kg: f64,
}

/// What the rules know of a dog. `None` and empty texts mean not stated.
#[derive(Debug, Clone, PartialEq)]
pub struct DogFacts {
    /// What the dog is called.
    pub name: String,
    /// Sex, for pronouns in sentences.
    pub sex: Option<Sex>,
    /// Day of birth, or the best estimate of it.
    pub born: Option<Date>,
    /// Weight expected when grown, kilograms.
    pub expected_adult_kg: Option<f64>,
    /// Whether it is neutered.
    pub neutered: Option<bool>,
    /// Body condition, 1 (emaciated) to 9 (severely obese).
    pub body_condition: Option<i16>,
    /// How much it moves in an ordinary day.
    pub activity: Option<Activity>,
    /// Its coat.
    pub coat: Option<Coat>,
    /// Whether its muzzle is short.
    pub short_nosed: Option<bool>,
    /// Whether heart or breathing are affected: yes where something was written about them.
    pub heart_or_breathing: Option<bool>,
    /// Whether bones or joints are affected: yes where something was written about them.
    pub sore: Option<bool>,
    /// Allergies, as they were written.
    pub allergies: String,
    /// The energy of its main food, kcal per gram.
    pub main_food_kcal_per_g: Option<f64>,
    /// Muzzle: type, what it allows, for how long, where it is required.
    pub muzzle: String,
    /// What was tried before, as it was written.
    pub tried_before: String,
    /// Whether a bite is on record.
    pub bite_on_record: bool,
    /// Whether a growl, a snap or guarding was ever told.
    pub growl_on_record: bool,
    /// Whether it ever ran off and could not be called back.
    pub has_bolted: bool,
    /// How far a vet has been part of this.
    pub vet: VetStatus,
    /// Since when it lives in its home.
    pub home_since: Option<Date>,
    /// Children in its home.
    pub children: Option<Children>,
    /// The days on which its household can practise; empty where nobody has said.
    pub practice_days: Vec<DayOfWeek>,
    /// What it weighed, newest first; the twelve latest at most.
    pub weighings: Vec<Weighing>,
}

/// The words that stand for a dog in a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pronouns {
    /// she, he, they.
    pub subject: &'static str,
    /// her, him, them.
    pub object: &'static str,
    /// her, his, their.
    pub possessive: &'static str,
    /// herself, himself, themselves.
    pub reflexive: &'static str,
}

impl Default for DogFacts {
    /// A dog of which nothing is stated.
    fn default() -> Self {
        Self {
            name: String::new(),
            sex: None,
            born: None,
            expected_adult_kg: None,
            neutered: None,
            body_condition: None,
            activity: None,
            coat: None,
            short_nosed: None,
            heart_or_breathing: None,
            sore: None,
            allergies: String::new(),
            main_food_kcal_per_g: None,
            muzzle: String::new(),
            tried_before: String::new(),
            bite_on_record: false,
            growl_on_record: false,
            has_bolted: false,
            vet: VetStatus::None,
            home_since: None,
            children: None,
            practice_days: Vec::new(),
            weighings: Vec::new(),
        }
    }
}

/// The words that stand for a dog of this sex.
pub fn pronouns(sex: Option<Sex>) -> Pronouns {
    match sex {
        Some(Sex::Female) => {
            Pronouns { subject: "she", object: "her", possessive: "her", reflexive: "herself" }
        }
        Some(Sex::Male) => Pronouns { subject: "he", object: "him", possessive: "his", reflexive: "himself" },
        None => Pronouns { subject: "they", object: "them", possessive: "their", reflexive: "themselves" },
    }
}

/// Whether a text of the profile tells of something: an empty one does not, and "none known" does not either.
pub fn tells(text: &str) -> bool {
    const NOTHING: [&str; 11] = [
        "",
        "no",
        "none",
        "none known",
        "nothing",
        "nothing known",
        "not known",
        "no problems",
        "no concerns",
        "n/a",
        "unknown",
    ];
    let said = text.trim().trim_end_matches(['.', '!']).trim_matches(['-', '–', ' ']).to_lowercase();
    !NOTHING.contains(&said.as_str())
}

impl DogFacts {
    /// Whether the profile speaks of a muzzle that the dog can wear: not where it says that there is none yet, or that the dog
    /// refuses it.
    pub fn has_muzzle(&self) -> bool {
        const DENIES: [&str; 8] = ["no", "not", "never", "none", "refuses", "refused", "yet", "without"];
        let text = self.muzzle.to_lowercase();
        let mut words = text.split(|c: char| !c.is_alphabetic());
        tells(&text) && !words.any(|word| DENIES.contains(&word))
    }

    /// Age in days on a day; `None` when the birth date is not stated or lies ahead.
    pub fn age_days(&self, on: Date) -> Option<i64> {
        self.born.map(|born| days_between(born, on)).filter(|days| *days >= 0)
    }

    /// Age in whole weeks on a day.
    pub fn age_weeks(&self, on: Date) -> Option<i64> {
        self.age_days(on).map(|days| days / 7)
    }

    /// Age in whole calendar months on a day.
    pub fn age_months(&self, on: Date) -> Option<i32> {
        self.age_days(on).and(self.born).map(|born| whole_months(born, on))
    }

    /// Age as people say it: "5 months", "4 years".
    pub fn age_words(&self, on: Date) -> Option<String> {
        self.age_days(on).and(self.born).map(|born| age_words(born, on))
    }

    /// Whether the dog still grows: under 12 months, or under 18 where it will weigh over 25 kg.
    /// Common practice. `None` when the age is not stated.
    pub fn growing(&self, on: Date) -> Option<bool> {
        let until = if self.expected_adult_kg.is_some_and(|kg| kg > 25.0) { 18 } else { 12 };
        self.age_months(on).map(|months| months < until)
    }

    /// The words that stand for this dog.
    pub fn pronouns(&self) -> Pronouns {
        pronouns(self.sex)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn none_known_tells_nothing() {
        for text in ["", " ", "None known.", "no", "Nothing known", "n/a", "–"] {
            assert!(!tells(text), "{text}");
        }
        assert!(tells("Left hip stiff after rest") && tells("No grain"));
    }

    #[test]
    fn a_muzzle_that_is_refused_is_none() {
        let with = |muzzle: &str| DogFacts { muzzle: muzzle.to_owned(), ..DogFacts::default() }.has_muzzle();
        assert!(with("Basket muzzle, can pant and take food in it"));
        for text in ["", "None", "Refuses the muzzle", "Not trained yet", "No muzzle"] {
            assert!(!with(text), "{text}");
        }
    }

    use time::macros::date;

    fn born(born: Date) -> DogFacts {
        DogFacts { name: "Bracken".to_owned(), born: Some(born), ..DogFacts::default() }
    }

    #[test]
    fn an_unknown_age_stays_unknown() {
        let dog = DogFacts::default();
        assert_eq!(dog.age_weeks(date!(2024 - 01 - 01)), None);
        assert_eq!(dog.growing(date!(2024 - 01 - 01)), None);
        assert_eq!(born(date!(2025 - 01 - 01)).age_days(date!(2024 - 01 - 01)), None);
    }

    #[test]
    fn big_dogs_grow_for_longer() {
        let day = date!(2025 - 03 - 01);
        let mut dog = born(date!(2024 - 01 - 01));
        assert_eq!(dog.growing(day), Some(false));
        dog.expected_adult_kg = Some(32.0);
        assert_eq!(dog.growing(day), Some(true));
        dog.expected_adult_kg = Some(25.0);
        assert_eq!(dog.growing(day), Some(false));
    }
}
