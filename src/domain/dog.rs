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

/// Ages at which a dog bears different amounts of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum AgeBand {
    /// Under 16 weeks.
    UnderSixteenWeeks,
    /// Under six months, counted as 26 weeks.
    UnderSixMonths,
    /// Under twelve months.
    UnderTwelveMonths,
    /// Grown.
    Adult,
    /// Nine years or more.
    Senior,
}

/// Six months in weeks, for the puppy rules. Common practice.
pub const SIX_MONTHS_IN_WEEKS: i64 = 26;

/// Years from which a dog counts as senior: the last quarter of a 12-year life
/// (2019 AAHA Canine Life Stage Guidelines give the quarter; 12 years is common practice).
pub const SENIOR_YEARS: i32 = 9;

impl AgeBand {
    /// Minutes that one sitting may last. Common practice.
    pub fn sitting_minutes(self) -> i16 {
        match self {
            Self::UnderSixteenWeeks => 3,
            Self::UnderSixMonths => 5,
            Self::UnderTwelveMonths | Self::Senior => 10,
            Self::Adult => 15,
        }
    }
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

    /// Under six months on a day. An unknown age is not a puppy's: it earns no exception.
    pub fn is_puppy(&self, on: Date) -> bool {
        self.age_weeks(on).is_some_and(|weeks| weeks < SIX_MONTHS_IN_WEEKS)
    }

    /// The age band on a day.
    pub fn age_band(&self, on: Date) -> Option<AgeBand> {
        let (weeks, months) = (self.age_weeks(on)?, self.age_months(on)?);
        Some(match (weeks, months) {
            (..16, _) => AgeBand::UnderSixteenWeeks,
            (..SIX_MONTHS_IN_WEEKS, _) => AgeBand::UnderSixMonths,
            (_, ..12) => AgeBand::UnderTwelveMonths,
            (_, months) if months < SENIOR_YEARS * 12 => AgeBand::Adult,
            _ => AgeBand::Senior,
        })
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
    fn bands_change_on_the_day() {
        let dog = born(date!(2024 - 01 - 01));
        assert_eq!(dog.age_band(date!(2024 - 04 - 21)), Some(AgeBand::UnderSixteenWeeks));
        assert_eq!(dog.age_band(date!(2024 - 04 - 22)), Some(AgeBand::UnderSixMonths));
        assert_eq!(dog.age_band(date!(2024 - 06 - 30)), Some(AgeBand::UnderSixMonths));
        assert_eq!(dog.age_band(date!(2024 - 07 - 01)), Some(AgeBand::UnderTwelveMonths));
        assert_eq!(dog.age_band(date!(2025 - 01 - 01)), Some(AgeBand::Adult));
        assert_eq!(dog.age_band(date!(2032 - 12 - 31)), Some(AgeBand::Adult));
        assert_eq!(dog.age_band(date!(2033 - 01 - 01)), Some(AgeBand::Senior));
    }

    #[test]
    fn an_unknown_age_is_no_puppy_and_no_band() {
        let dog = DogFacts::default();
        assert!(!dog.is_puppy(date!(2024 - 01 - 01)));
        assert_eq!(dog.age_band(date!(2024 - 01 - 01)), None);
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
