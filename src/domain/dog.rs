//! A dog as the rules see it: name, age, growth.

use time::Date;

use super::dates::{age_words, days_between, whole_months};
use super::vocabulary::Sex;

/// What the rules know of a dog. `None` means not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DogFacts {
    /// What the dog is called.
    pub name: String,
    /// Sex, for pronouns in sentences.
    pub sex: Option<Sex>,
    /// Day of birth, or the best estimate of it.
    pub born: Option<Date>,
    /// Weight expected when grown, kilograms.
    pub expected_adult_kg: Option<f64>,
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

impl DogFacts {
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
        match self.sex {
            Some(Sex::Female) => {
                Pronouns { subject: "she", object: "her", possessive: "her", reflexive: "herself" }
            }
            Some(Sex::Male) => {
                Pronouns { subject: "he", object: "him", possessive: "his", reflexive: "himself" }
            }
            None => {
                Pronouns { subject: "they", object: "them", possessive: "their", reflexive: "themselves" }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
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
