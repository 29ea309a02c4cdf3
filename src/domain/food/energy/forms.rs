//! The published forms and their constants, kcal a day from kilograms.

/// Resting energy requirement, kcal a day: 70 × kg^0.75 (Kleiber 1961; Merck Veterinary Manual, second-hand).
pub fn resting_kcal(kg: f64) -> f64 {
    allometric_kcal(RESTING, kg)
}

/// Energy by the allometric form: a constant in kcal per kg^0.75 × kg^0.75.
pub fn allometric_kcal(per_metabolic_kg: f64, kg: f64) -> f64 {
    per_metabolic_kg * kg.powf(0.75)
}

/// The body weight of a growing dog as a share of its adult weight, at most 1.
pub(super) fn share_of_adult(kg: f64, adult_kg: f64) -> f64 {
    (kg / adult_kg).min(1.0)
}

/// NRC 2006, growth: the constant in kcal per kg^0.75 at a share `p` of adult weight,
/// 130 × 3.2 × (e^(−0.87 p) − 0.1). Verified.
pub(super) fn nrc_growth(p: f64) -> f64 {
    130.0 * 3.2 * ((-0.87 * p).exp() - 0.1)
}

/// FEDIAF 2021, growth: the constant in kcal per kg^0.75, 210 to half the adult weight, 175 to four fifths, then 140.
/// Verified.
pub(super) fn fediaf_growth(p: f64) -> f64 {
    match p {
        ..=0.5 => 210.0,
        ..=0.8 => 175.0,
        _ => 140.0,
    }
}

/// The weight at the middle of the condition scale (5 of 9): each point above is taken as 10 % over. From memory
/// (German et al.; Laflamme 1997); the usual span is 10–15 %.
pub fn ideal_kg(kg: f64, body_condition: i16) -> f64 {
    kg / (1.0 + 0.10 * f64::from((body_condition.clamp(1, 9) - 5).max(0)))
}

/// Resting, kcal per kg^0.75.
const RESTING: f64 = 70.0;
/// 1.2 × resting: the low end for inactive dogs and those that gain easily (textbook tables, second-hand).
pub(super) const INACTIVE: f64 = 1.2 * RESTING;
/// 1.6 × resting: neutered adults (textbook tables, second-hand).
pub(super) const NEUTERED: f64 = 1.6 * RESTING;
/// 1.8 × resting: entire adults (textbook tables, second-hand).
pub(super) const ENTIRE: f64 = 1.8 * RESTING;
/// 2 × resting: puppies from four months (textbook tables, from memory).
pub(super) const OLDER_PUP: f64 = 2.0 * RESTING;
/// 3 × resting: puppies under four months (textbook tables, second-hand).
pub(super) const YOUNG_PUP: f64 = 3.0 * RESTING;
/// FEDIAF's high end for dogs of one and two years (from memory).
pub(super) const YOUNG_HIGH: f64 = 140.0;
/// FEDIAF's low end for dogs over seven (from memory).
pub(super) const OLDER_LOW: f64 = 80.0;
