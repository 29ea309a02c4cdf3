//! How long one sitting may be at a dog's age. Common practice.

use time::Date;

use super::dog::DogFacts;

/// Age in months from which a dog counts as senior here: three quarters of twelve years, after the last quarter of the expected
/// lifespan in the AAHA Canine Life Stage Guidelines 2019. Big dogs are old sooner.
const SENIOR_MONTHS: i32 = 108;
/// Minutes where the age is not stated: as careful as for a young dog.
const AGE_NOT_STATED: i16 = 10;
/// Minutes that one sitting may take on a day: under sixteen weeks 3, under six months 5, under a year 10, grown 15, senior 10.
/// Arousing or running work may take three times that in a day; the week lays out one such sitting a day, which keeps to it.
pub fn minutes_a_sitting(dog: &DogFacts, on: Date) -> i16 {
    let Some((weeks, months)) = dog.age_weeks(on).zip(dog.age_months(on)) else { return AGE_NOT_STATED };
    match (weeks, months) {
        (..16, _) => 3,
        (_, ..6) => 5,
        (_, ..12) => 10,
        (_, ..SENIOR_MONTHS) => 15,
        _ => 10,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn minutes_grow_with_a_dog_and_shrink_again() {
        let dog = DogFacts { born: Some(date!(2020 - 01 - 15)), ..DogFacts::default() };
        for (on, minutes) in [
            (date!(2020 - 05 - 05), 3),
            (date!(2020 - 05 - 06), 5),
            (date!(2020 - 07 - 14), 5),
            (date!(2020 - 07 - 15), 10),
            (date!(2021 - 01 - 14), 10),
            (date!(2021 - 01 - 15), 15),
            (date!(2029 - 01 - 14), 15),
            (date!(2029 - 01 - 15), 10),
        ] {
            assert_eq!(minutes_a_sitting(&dog, on), minutes, "{on}");
        }
    }

    #[test]
    fn an_age_that_is_not_stated_is_not_taken_for_grown() {
        assert_eq!(minutes_a_sitting(&DogFacts::default(), date!(2025 - 01 - 01)), 10);
    }
}
