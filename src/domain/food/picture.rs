//! A dog's food in one picture: what it needs, what it earned, which share that is, and what would fit.

use super::earned::{Earned, Paid, earned};
use super::energy::{DailyNeed, EnergyFacts, daily_need};
use super::fits::{Fits, fits};
use super::share::{Share, share};

/// A dog's food over seven days.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// What it needs in a day; `None` without a weight.
    pub need: Option<DailyNeed>,
    /// What it earned in training.
    pub earned: Earned,
    /// Which share of its need the extras are; `None` without a need.
    pub share: Option<Share>,
}

impl Picture {
    /// The picture of a dog that was paid with this.
    pub fn of(facts: &EnergyFacts, paid: &[Paid]) -> Self {
        let (need, earned) = (daily_need(facts), earned(paid));
        Self { share: need.as_ref().map(|need| share(&earned, need.energy)), need, earned }
    }

    /// What would fit instead of the biggest contributor, with the allergies stated for the dog; `None` where the extras
    /// are not over the ceiling.
    pub fn fits(&self, ceiling: f64, allergies: &str) -> Option<Fits> {
        fits(&self.earned, self.need.as_ref()?.energy.point(), ceiling, allergies)
    }

    /// Whether the extras are over a ceiling; never where the need or the food is not known.
    pub fn is_over(&self, ceiling: f64) -> bool {
        self.share.is_some_and(|share| share.is_over(ceiling))
    }
}

#[cfg(test)]
mod tests {
    use super::super::share::CEILING;
    use super::*;

    fn cheddar(pieces: i64) -> Paid {
        Paid {
            what: Some("Cheddar".to_owned()),
            pieces: Some(pieces),
            grams_per_piece: Some(0.5),
            kcal_per_g: Some(4.03),
            ..Paid::default()
        }
    }

    #[test]
    fn without_a_weight_there_is_no_share_and_nothing_is_over() {
        let picture = Picture::of(&EnergyFacts::default(), &[cheddar(5000)]);
        assert_eq!((picture.share, picture.fits(CEILING, "")), (None, None));
        assert!(!picture.is_over(CEILING) && picture.earned.kcal() > 0.0);
    }

    #[test]
    fn what_fits_is_offered_exactly_where_the_share_is_over() {
        let facts = EnergyFacts { kg: Some(10.0), ..EnergyFacts::default() };
        for pieces in [0, 100, 180, 185, 190, 1000] {
            let picture = Picture::of(&facts, &[cheddar(pieces)]);
            assert_eq!(picture.fits(CEILING, "").is_some(), picture.is_over(CEILING), "{pieces}");
        }
        assert!(Picture::of(&facts, &[cheddar(1000)]).is_over(CEILING));
    }
}
