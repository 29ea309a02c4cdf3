//! The order in which a trainer looks at what was told: by dog, what is grave first, then what has waited longest.

use time::OffsetDateTime;
use uuid::Uuid;

use super::vocabulary::Severity;
use crate::ids::DogId;

/// What decides the place of something that was told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Told {
    /// What it is: the id of a sitting or an encounter.
    pub subject: Uuid,
    /// The dog.
    pub dog: DogId,
    /// When it was told.
    pub at: OffsetDateTime,
    /// The gravest thing found in it and not answered.
    pub gravity: Option<Severity>,
}

/// Puts it in order: dogs stay together, each as pressing as the gravest thing told of it; among dogs alike, whoever has waited longest
/// comes first; and a dog's tellings are read as they came.
pub fn order(mut told: Vec<Told>) -> Vec<Told> {
    let weight = |dog: DogId, told: &[Told]| {
        let of_dog = told.iter().filter(|one| one.dog == dog);
        let gravest = of_dog.clone().filter_map(|one| one.gravity).max();
        (std::cmp::Reverse(gravest), of_dog.map(|one| one.at).min(), dog)
    };
    let all = told.clone();
    told.sort_by_cached_key(|one| (weight(one.dog, &all), one.at, one.subject));
    told
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::Duration;
    use time::macros::datetime;

    #[test]
    fn dogs_stay_together_the_gravest_first_then_who_waited_longest() {
        let told = |subject: u128, dog: u128, hour: i64, gravity| Told {
            subject: Uuid::from_u128(subject),
            dog: DogId(Uuid::from_u128(dog)),
            at: datetime!(2026-03-12 08:00 UTC) + Duration::hours(hour),
            gravity,
        };
        let all = vec![
            told(1, 1, 0, None),
            told(2, 2, 1, Some(Severity::Caution)),
            told(3, 1, 2, None),
            told(4, 3, 3, Some(Severity::Stop)),
            told(5, 3, -5, None),
            told(6, 4, -1, None),
        ];
        let ids = |told: Vec<Told>| told.iter().map(|one| one.subject.as_u128()).collect::<Vec<_>>();
        assert_eq!(ids(order(all.clone())), [5, 4, 2, 6, 1, 3]);
        let mut turned = all;
        turned.reverse();
        assert_eq!(ids(order(turned)), [5, 4, 2, 6, 1, 3], "however it was read");
    }
}
