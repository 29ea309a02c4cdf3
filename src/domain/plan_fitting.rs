//! What a new line of a plan takes from the dog's own lists, until its trainer says otherwise. Common practice: no harder than
//! the step, and paid at least as well as the place distracts.

use crate::ids::{PlaceId, ReinforcerId};

/// The place for a step of this distraction, 1–5: the busiest that is no busier than the step, else the quietest there is.
/// `None` where the dog has no places, or the step states no distraction.
pub fn place_for(distraction: Option<i16>, places: &[(PlaceId, i16)]) -> Option<(PlaceId, i16)> {
    let most = distraction?;
    let fitting = places.iter().filter(|(_, level)| *level <= most).max_by_key(|(_, level)| *level);
    fitting.or_else(|| places.iter().min_by_key(|(_, level)| *level)).copied()
}

/// The reinforcer for a place of this distraction, 1–5: the plainest that is worth at least as much, so that the best is kept
/// for where it is needed; else the best there is. `None` where the dog has none.
pub fn reinforcer_for(distraction: i16, reinforcers: &[(ReinforcerId, i16)]) -> Option<ReinforcerId> {
    let worth_it = reinforcers.iter().filter(|(_, rank)| *rank >= distraction).min_by_key(|(_, rank)| *rank);
    worth_it.or_else(|| reinforcers.iter().max_by_key(|(_, rank)| *rank)).map(|(id, _)| *id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use uuid::Uuid;

    fn places(levels: &[i16]) -> Vec<(PlaceId, i16)> {
        levels.iter().map(|level| (PlaceId(Uuid::from_u128(*level as u128)), *level)).collect()
    }

    fn ranks(ranks: &[i16]) -> Vec<(ReinforcerId, i16)> {
        ranks.iter().map(|rank| (ReinforcerId(Uuid::from_u128(*rank as u128)), *rank)).collect()
    }

    #[test]
    fn a_place_is_as_busy_as_the_step_and_no_busier() {
        let level = |step, levels: &[i16]| place_for(step, &places(levels)).map(|(_, level)| level);
        assert_eq!(level(Some(3), &[1, 2, 4]), Some(2));
        assert_eq!(level(Some(4), &[1, 2, 4]), Some(4));
        assert_eq!(level(Some(1), &[5, 3]), Some(3), "the quietest where all are busier");
        assert_eq!(level(None, &[1]), None);
        assert_eq!(level(Some(3), &[]), None);
    }

    #[test]
    fn the_plainest_that_will_do_is_chosen() {
        let rank = |distraction, all: &[i16]| {
            reinforcer_for(distraction, &ranks(all)).map(|id| id.0.as_u128() as i16)
        };
        assert_eq!(rank(2, &[1, 3, 5]), Some(3));
        assert_eq!(rank(3, &[1, 3, 5]), Some(3));
        assert_eq!(rank(5, &[1, 3]), Some(3), "the best there is");
        assert_eq!(rank(1, &[]), None);
    }
}
