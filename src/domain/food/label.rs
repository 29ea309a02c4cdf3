//! The energy of a food from its label, by Atwater factors.

/// What kind of food a label belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Processed pet food: modified factors, 3.5 protein, 8.5 fat, 3.5 carbohydrate (FEDIAF 2014, p. 57). Verified.
    Processed,
    /// Natural, highly digestible food: 4, 9, 4 (FEDIAF). Verified.
    Natural,
}

impl Kind {
    /// kcal a gram of protein, fat and carbohydrate.
    fn factors(self) -> (f64, f64, f64) {
        match self {
            Self::Processed => (3.5, 8.5, 3.5),
            Self::Natural => (4.0, 9.0, 4.0),
        }
    }
}

/// A label, in per cent of the food as fed. Fibre and ash may be missing from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Label {
    /// Crude protein.
    pub protein: f64,
    /// Crude fat, or fat content.
    pub fat: f64,
    /// Moisture.
    pub moisture: f64,
    /// Crude fibre.
    pub fibre: Option<f64>,
    /// Crude ash, or inorganic matter.
    pub ash: Option<f64>,
}

/// What a label comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Energy, kcal in 100 g.
    pub kcal_per_100g: f64,
    /// Carbohydrate by difference, per cent (NFE).
    pub carbohydrate: f64,
    /// Whether fibre or ash was missing, so that the true figure is lower.
    pub at_most: bool,
}

impl Estimate {
    /// Energy, kcal a gram.
    pub fn kcal_per_g(self) -> f64 {
        self.kcal_per_100g / 100.0
    }
}

/// Why a label gives no figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LabelError {
    /// A share is below 0, above 100 or no number.
    OutOfRange,
    /// The shares come to more than 100 %.
    OverAHundred,
}

impl LabelError {
    /// One plain sentence.
    pub fn says(self) -> &'static str {
        match self {
            Self::OutOfRange => "Give each figure in per cent, from 0 to 100.",
            Self::OverAHundred => "Together these come to more than 100 %. Check them against the label.",
        }
    }
}

/// Shares that are printed rounded may come to a little over a hundred.
const ROUNDING: f64 = 0.05;

/// The energy of a food from its label; carbohydrate is what is left of a hundred.
///
/// # Errors
/// When a share is no share, or when together they exceed 100 %.
pub fn estimate(label: &Label, kind: Kind) -> Result<Estimate, LabelError> {
    let (fibre, ash) = (label.fibre.unwrap_or(0.0), label.ash.unwrap_or(0.0));
    let parts = [label.protein, label.fat, label.moisture, fibre, ash];
    if !parts.iter().all(|part| (0.0..=100.0).contains(part)) {
        return Err(LabelError::OutOfRange);
    }
    let stated: f64 = parts.iter().sum();
    if stated > 100.0 + ROUNDING {
        return Err(LabelError::OverAHundred);
    }
    let carbohydrate = (100.0 - stated).max(0.0);
    let (protein, fat, carbohydrates) = kind.factors();
    Ok(Estimate {
        kcal_per_100g: protein * label.protein + fat * label.fat + carbohydrates * carbohydrate,
        carbohydrate,
        at_most: label.fibre.is_none() || label.ash.is_none(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const DRY: Label = Label { protein: 26.0, fat: 15.0, moisture: 8.0, fibre: Some(3.0), ash: Some(7.0) };

    /// 26 % protein, 15 % fat, 41 % carbohydrate: 362.0 kcal in 100 g (modified Atwater, FEDIAF 2014).
    #[test]
    fn a_dry_food_by_modified_factors() {
        let found = estimate(&DRY, Kind::Processed).expect("an estimate");
        assert!((found.carbohydrate - 41.0).abs() < 1e-9);
        assert!((found.kcal_per_100g - 362.0).abs() < 1e-9);
        assert!((found.kcal_per_g() - 3.62).abs() < 1e-9);
        assert!(!found.at_most);
        let natural = estimate(&DRY, Kind::Natural).expect("an estimate");
        assert!((natural.kcal_per_100g - 403.0).abs() < 1e-9);
    }

    #[test]
    fn more_than_a_hundred_is_refused() {
        let label = |ash| Label { ash: Some(ash), ..DRY };
        assert!(estimate(&label(48.0), Kind::Processed).is_ok(), "exactly 100");
        assert_eq!(estimate(&label(48.1), Kind::Processed), Err(LabelError::OverAHundred));
        assert_eq!(estimate(&label(-0.1), Kind::Processed), Err(LabelError::OutOfRange));
        assert_eq!(estimate(&label(f64::NAN), Kind::Processed), Err(LabelError::OutOfRange));
    }

    #[test]
    fn a_label_without_ash_gives_an_upper_end() {
        let (whole, without) =
            (estimate(&DRY, Kind::Processed), estimate(&Label { ash: None, ..DRY }, Kind::Processed));
        let (whole, without) = (whole.expect("an estimate"), without.expect("an estimate"));
        assert!(without.at_most && without.kcal_per_100g > whole.kcal_per_100g);
    }

    proptest! {
        #[test]
        fn energy_stays_within_that_of_fat(
            protein in any::<f64>(), fat in any::<f64>(), moisture in -10.0_f64..110.0,
            fibre in proptest::option::of(-5.0_f64..50.0), ash in proptest::option::of(any::<f64>()),
        ) {
            for label in [
                Label { protein, fat, moisture, fibre, ash },
                Label { protein: protein.rem_euclid(40.0), fat: fat.rem_euclid(40.0), moisture: moisture.rem_euclid(20.0), fibre: None, ash: None },
            ] {
                if let Ok(found) = estimate(&label, Kind::Natural) {
                    prop_assert!((0.0..=901.0).contains(&found.kcal_per_100g));
                }
            }
        }
    }
}
