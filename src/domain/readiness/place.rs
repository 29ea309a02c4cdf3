//! Was the place as hard as the plan asks?

use crate::domain::vocabulary::Busy;

/// How the place of a sitting compares with the planned one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlaceMatch {
    /// As distracting as planned, or more: the sitting counts.
    AsHard,
    /// Less distracting: shown, not counted.
    Easier,
    /// Not stated although the plan asks for one: shown, not counted.
    NotStated,
}

impl PlaceMatch {
    /// Compares distractions on the scale 1–5; a quiet visit is one easier, a busy one is one harder (common
    /// practice). A plan that asks for no place is met anywhere.
    pub fn compare(planned: Option<i16>, here: Option<i16>, busy: Option<Busy>) -> Self {
        let shift = match busy {
            Some(Busy::Quiet) => -1,
            Some(Busy::Busy) => 1,
            Some(Busy::Usual) | None => 0,
        };
        match (planned, here) {
            (None, _) => Self::AsHard,
            (Some(_), None) => Self::NotStated,
            (Some(planned), Some(here)) if (here + shift).clamp(1, 5) >= planned => Self::AsHard,
            (Some(_), Some(_)) => Self::Easier,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quiet_visit_is_easier_and_a_busy_one_harder() {
        let at = |here, busy| PlaceMatch::compare(Some(3), Some(here), busy);
        assert_eq!(at(3, None), PlaceMatch::AsHard);
        assert_eq!(at(3, Some(Busy::Usual)), PlaceMatch::AsHard);
        assert_eq!(at(3, Some(Busy::Quiet)), PlaceMatch::Easier);
        assert_eq!(at(2, Some(Busy::Busy)), PlaceMatch::AsHard);
        assert_eq!(at(2, None), PlaceMatch::Easier);
    }

    #[test]
    fn nowhere_is_easier_than_the_easiest_place() {
        assert_eq!(PlaceMatch::compare(Some(1), Some(1), Some(Busy::Quiet)), PlaceMatch::AsHard);
    }

    #[test]
    fn a_place_counts_only_when_stated_unless_none_was_asked_for() {
        assert_eq!(PlaceMatch::compare(Some(2), None, Some(Busy::Busy)), PlaceMatch::NotStated);
        assert_eq!(PlaceMatch::compare(None, None, None), PlaceMatch::AsHard);
    }
}
