//! The share of a day's need that comes as extras.

use super::earned::Earned;
use super::energy::Energy;

/// The ceiling on extras, as a share of the day's energy: complete food gives the rest (WSAVA Global Nutrition
/// Guidelines 2011; AAHA 2010 and 2021; second-hand).
pub const CEILING: f64 = 0.10;

/// Extras as a share of a day's need, 0.07 for 7 %: a point within a range. `low <= point <= high`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    low: f64,
    point: f64,
    high: f64,
}

impl Share {
    /// The share at the high end of the need.
    pub fn low(self) -> f64 {
        self.low
    }

    /// The share at the starting point of the need.
    pub fn point(self) -> f64 {
        self.point
    }

    /// The share at the low end of the need.
    pub fn high(self) -> f64 {
        self.high
    }

    /// Whether the point is over a ceiling; at the ceiling it is not.
    pub fn is_over(self, ceiling: f64) -> bool {
        self.point > ceiling
    }
}

/// The extras of a day of the seven against the need of a day.
pub fn share(earned: &Earned, need: Energy) -> Share {
    let of = |need: f64| earned.kcal_a_day() / need;
    Share { low: of(need.high()), point: of(need.point()), high: of(need.low()) }
}

/// A share in whole per cent, as people say it: "under 1 %", "7 %". Over the ceiling it is rounded up, so that 10.2 %
/// never reads as "10 %".
pub fn percent(share: f64, ceiling: f64) -> String {
    let percent = share * 100.0;
    let whole = if share > ceiling { percent.ceil() } else { percent.round() };
    if percent > 0.0 && whole < 1.0 { "under 1 %".to_owned() } else { format!("{} %", whole.max(0.0) + 0.0) }
}

#[cfg(test)]
mod tests {
    use super::super::earned::{Paid, earned};
    use super::super::energy::{EnergyFacts, Stage, daily_need};
    use super::*;
    use crate::domain::vocabulary::Activity;
    use proptest::prelude::*;

    fn need(kg: f64) -> Energy {
        let facts = EnergyFacts {
            kg: Some(kg),
            stage: Some(Stage::Adult),
            activity: Some(Activity::Moderate),
            neutered: Some(true),
            body_condition: Some(5),
            ..EnergyFacts::default()
        };
        daily_need(&facts).expect("a need").energy
    }

    fn paid(pieces: i64, grams: f64, kcal_per_g: f64) -> Earned {
        earned(&[Paid {
            what: Some("Cheese".to_owned()),
            pieces: Some(pieces),
            grams_per_piece: Some(grams),
            kcal_per_g: Some(kcal_per_g),
            ..Paid::default()
        }])
    }

    /// FEDIAF's 15 kg dog needs 838 kcal: 586.9 kcal of extras over seven days are a tenth.
    #[test]
    fn a_tenth_of_the_day() {
        let tenth = share(&paid(5870, 0.1, 1.0), need(15.0));
        assert!((tenth.point() - 0.10).abs() < 1e-4, "{tenth:?}");
        assert!(tenth.low() < tenth.point() && tenth.point() < tenth.high());
        assert!(tenth.is_over(CEILING));
        assert!(!share(&paid(5868, 0.1, 1.0), need(15.0)).is_over(CEILING));
    }

    #[test]
    fn a_share_is_said_in_whole_per_cent() {
        for (share, said) in [
            (0.0, "0 %"),
            (-0.0, "0 %"),
            (0.002, "under 1 %"),
            (0.072, "7 %"),
            (0.1, "10 %"),
            (0.102, "11 %"),
            (0.0991, "10 %"),
        ] {
            assert_eq!(percent(share, CEILING), said, "{share}");
        }
    }

    proptest! {
        #[test]
        fn more_food_never_lowers_the_share(
            pieces in 0_i64..2000, more in 0_i64..2000, grams in 0.05_f64..20.0, kcal in 0.1_f64..9.0, kg in 0.5_f64..100.0,
        ) {
            let (less, more) = (share(&paid(pieces, grams, kcal), need(kg)), share(&paid(pieces + more, grams, kcal), need(kg)));
            prop_assert!(more.point() >= less.point() && more.low() >= less.low() && more.high() >= less.high());
            let richer = share(&paid(pieces, grams, kcal * 1.5), need(kg));
            prop_assert!(richer.point() >= less.point());
        }

        #[test]
        fn a_heavier_dog_never_has_a_higher_share(
            pieces in 0_i64..2000, kg in 0.5_f64..100.0, heavier in 0.0_f64..40.0,
        ) {
            let (light, heavy) = (share(&paid(pieces, 1.0, 4.0), need(kg)), share(&paid(pieces, 1.0, 4.0), need(kg + heavier)));
            prop_assert!(heavy.point() <= light.point() && heavy.low() <= light.low() && heavy.high() <= light.high());
        }
    }
}
