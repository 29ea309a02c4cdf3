//! What brings extras under the ceiling: smaller pieces, fewer pieces, or a lighter food.

use super::allergens;
use super::earned::{DAYS, Earned, Source};
use super::listed::{LISTED, Listed};
use super::poisons;

/// Pieces are cut to a twentieth of a gram at best.
const SMALLEST_CUT_G: f64 = 0.05;

/// What would fit instead of the biggest contributor, with all else as it was.
#[derive(Debug, Clone, PartialEq)]
pub struct Fits {
    /// The biggest contributor.
    pub source: Source,
    /// The largest piece at the same count, grams, rounded down to 0.05 g; `None` where no piece is small enough.
    pub grams_per_piece: Option<f64>,
    /// The most pieces a day at the same size, rounded down.
    pub pieces_a_day: i64,
    /// Listed foods that fit at the same count and size, the lightest first.
    pub lighter: Vec<&'static Listed>,
}

/// What fits under a ceiling, for a day's need in kcal; `None` where the extras are not over it. Listed foods that
/// the dog's stated allergies speak against are left out.
pub fn fits(earned: &Earned, need_kcal: f64, ceiling: f64, allergies: &str) -> Option<Fits> {
    let budget = need_kcal * ceiling * f64::from(DAYS);
    if earned.kcal() <= budget {
        return None;
    }
    let source = earned.biggest()?;
    let room = (budget - (earned.kcal() - source.kcal())).max(0.0);
    let pieces = source.pieces as f64;
    let grams = (room / (pieces * source.kcal_per_g) / SMALLEST_CUT_G).floor() * SMALLEST_CUT_G;
    let kcal_per_g = room / source.grams();
    let fitting = |food: &&Listed| {
        food.kcal_per_g() <= kcal_per_g
            && poisons::named(food.name).is_empty()
            && allergens::named(allergies, food.name).is_empty()
    };
    let mut lighter: Vec<&'static Listed> = LISTED.iter().filter(fitting).collect();
    lighter.sort_by(|a, b| a.kcal_per_100g.total_cmp(&b.kcal_per_100g));
    Some(Fits {
        source: source.clone(),
        grams_per_piece: (grams > 0.0).then_some(grams),
        pieces_a_day: pieces_within(room / f64::from(DAYS), source.kcal_per_piece()),
        lighter,
    })
}

/// Whole pieces within a budget, both in kcal; none where a piece has no energy stated.
pub fn pieces_within(budget: f64, kcal_per_piece: f64) -> i64 {
    if kcal_per_piece > 0.0 { (budget / kcal_per_piece).floor().max(0.0) as i64 } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::super::earned::{Paid, earned};
    use super::super::energy::resting_kcal;
    use super::super::share::CEILING;
    use super::*;
    use proptest::prelude::*;

    fn paid(what: &str, pieces: i64, grams: f64, kcal_per_g: f64) -> Paid {
        Paid {
            what: Some(what.to_owned()),
            pieces: Some(pieces),
            grams_per_piece: Some(grams),
            kcal_per_g: Some(kcal_per_g),
            ..Paid::default()
        }
    }

    /// A tenth of 1.6 × resting energy at 10 kg is 63.0 kcal: 38.2 g of roast chicken, 15.6 g of cheddar, or 31 cubes
    /// of cheddar of 0.5 g (computed from USDA SR 05064 and 01009).
    #[test]
    fn a_small_dogs_budget() {
        let budget = 0.1 * 1.6 * resting_kcal(10.0);
        assert!((budget - 62.98).abs() < 0.01);
        assert!((budget / 1.65 - 38.2).abs() < 0.05);
        assert!((budget / 4.03 - 15.6).abs() < 0.05);
        assert_eq!(pieces_within(budget, 0.5 * 4.03), 31);
        assert_eq!(pieces_within(budget, 0.0), 0);
    }

    #[test]
    fn nothing_is_offered_where_it_fits_already() {
        let cheddar = earned(&[paid("Cheddar", 31 * 7, 0.5, 4.03)]);
        let need = 1.6 * resting_kcal(10.0);
        assert_eq!(fits(&cheddar, need, CEILING, ""), None);
        assert!(fits(&earned(&[paid("Cheddar", 32 * 7, 0.5, 4.03)]), need, CEILING, "").is_some());
    }

    #[test]
    fn smaller_fewer_or_lighter() {
        let need = 1.6 * resting_kcal(10.0);
        let fit = fits(&earned(&[paid("Cheddar", 60 * 7, 0.5, 4.03)]), need, CEILING, "").expect("over");
        assert_eq!(fit.pieces_a_day, 31);
        assert!((fit.grams_per_piece.expect("a size") - 0.25).abs() < 1e-9);
        let names: Vec<&str> = fit.lighter.iter().map(|food| food.name).collect();
        assert_eq!(names.first(), Some(&"Carrot, raw"));
        assert!(names.contains(&"Chicken breast, roasted, meat only"), "{names:?}");
        assert!(!names.iter().any(|name| name.contains("Cheddar")));
        let allergic =
            fits(&earned(&[paid("Cheddar", 60 * 7, 0.5, 4.03)]), need, CEILING, "chicken").expect("over");
        assert!(!allergic.lighter.iter().any(|food| food.name.contains("Chicken")));
    }

    #[test]
    fn no_piece_is_small_enough_when_the_rest_is_over_already() {
        let both = earned(&[paid("Liver", 500, 1.0, 2.0), paid("Cheese", 400, 1.0, 2.0)]);
        let fit = fits(&both, 300.0, CEILING, "").expect("over");
        assert_eq!((fit.source.what.as_str(), fit.grams_per_piece, fit.pieces_a_day), ("Liver", None, 0));
        assert!(fit.lighter.is_empty());
    }

    proptest! {
        #[test]
        fn what_fits_is_under_the_ceiling(
            pieces in 1_i64..3000, grams in 0.05_f64..20.0, kcal in 0.1_f64..9.0, need in 50.0_f64..4000.0,
        ) {
            if let Some(fit) = fits(&earned(&[paid("Cheese", pieces, grams, kcal)]), need, CEILING, "") {
                let budget = need * CEILING * 7.0 + 1e-6;
                if let Some(smaller) = fit.grams_per_piece {
                    prop_assert!(pieces as f64 * smaller * kcal <= budget);
                    prop_assert!(pieces as f64 * (smaller + SMALLEST_CUT_G) * kcal > budget - 1e-3);
                }
                prop_assert!(7.0 * fit.pieces_a_day as f64 * grams * kcal <= budget);
                for food in fit.lighter {
                    prop_assert!(pieces as f64 * grams * food.kcal_per_g() <= budget);
                }
            }
        }
    }
}
