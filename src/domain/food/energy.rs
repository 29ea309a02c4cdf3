//! How much energy a dog needs in a day: a range with a point, how it was found, and how sure that is.

mod forms;
mod stage;

use super::super::certainty::Certainty;
use super::super::dog::DogFacts;
use super::super::vocabulary::Activity;
use time::Date;

use forms::{
    ENTIRE, INACTIVE, NEUTERED, OLDER_LOW, OLDER_PUP, YOUNG_HIGH, YOUNG_PUP, fediaf_growth, nrc_growth,
    share_of_adult,
};
pub use forms::{allometric_kcal, ideal_kg, resting_kcal};
pub use stage::Stage;

/// The heaviest dog that a figure is given for, kg; beyond it a typing mistake is likelier than a dog.
const HEAVIEST_KG: f64 = 150.0;

/// What the need is worked out from. `None` means not stated: without a weight there is no figure, and anything
/// else that is missing widens the range.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct EnergyFacts {
    /// The latest weighing, kg.
    pub kg: Option<f64>,
    /// Where the dog stands in its life.
    pub stage: Option<Stage>,
    /// What it is expected to weigh when grown, kg.
    pub expected_adult_kg: Option<f64>,
    /// Whether it is neutered.
    pub neutered: Option<bool>,
    /// How much it moves.
    pub activity: Option<Activity>,
    /// Body condition, 1–9.
    pub body_condition: Option<i16>,
}

impl EnergyFacts {
    /// What is stated of a dog on a day; a later weighing says nothing about it.
    pub fn of(dog: &DogFacts, on: Date) -> Self {
        Self {
            kg: dog.weighings.iter().find(|weighing| weighing.on <= on).map(|weighing| weighing.kg),
            stage: Stage::of(dog.born, dog.expected_adult_kg, on),
            expected_adult_kg: dog.expected_adult_kg,
            neutered: dog.neutered,
            activity: dog.activity,
            body_condition: dog.body_condition,
        }
    }
}

/// Energy a day in kcal: a point within a range. `low <= point <= high`, and all are above zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Energy {
    low: f64,
    point: f64,
    high: f64,
}

impl Energy {
    /// The low end, kcal a day.
    pub fn low(self) -> f64 {
        self.low
    }

    /// The starting point, kcal a day.
    pub fn point(self) -> f64 {
        self.point
    }

    /// The high end, kcal a day.
    pub fn high(self) -> f64 {
        self.high
    }
}

/// One thing that the need rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    /// What was taken, in words.
    pub says: String,
    /// Where it comes from.
    pub source: &'static str,
    /// How sure that is.
    pub certainty: Certainty,
}

/// What a dog needs in a day, with everything it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct DailyNeed {
    /// The figure.
    pub energy: Energy,
    /// The weight it was worked out for, kg: the dog's, or less where it is over its ideal condition.
    pub kg: f64,
    /// What it rests on.
    pub grounds: Vec<Ground>,
    /// What was not stated, so that the range is wider: "how old she is".
    pub missing: Vec<&'static str>,
}

impl DailyNeed {
    /// How sure the weakest of its grounds is.
    pub fn certainty(&self) -> Certainty {
        self.grounds.iter().map(|ground| ground.certainty).max().unwrap_or(Certainty::FromMemory)
    }
}

/// Constants in kcal per kg^0.75, as a point within a range.
#[derive(Clone, Copy)]
struct Band {
    low: f64,
    point: f64,
    high: f64,
}

impl Band {
    fn reaching(self, other: f64) -> Self {
        Self { low: self.low.min(other), high: self.high.max(other), ..self }
    }
}

const FEDIAF_GROWTH: &str = "FEDIAF 2021, growth: 210, 175 or 140 kcal per kg^0.75 by share of adult weight";
const NRC_GROWTH: &str = "NRC 2006, growth: 130 × W^0.75 × 3.2 × (e^(−0.87 p) − 0.1)";
const FACTORS: &str =
    "Textbook factors on resting energy, 70 × kg^0.75 (Merck Veterinary Manual; AAHA and WSAVA hand-outs)";
const FEDIAF_AGE: &str = "FEDIAF, annex on energy: by age";

/// What the dog needs in a day; `None` where its weight is not stated or cannot be right.
pub fn daily_need(facts: &EnergyFacts) -> Option<DailyNeed> {
    let kg = facts.kg.filter(|kg| *kg > 0.0 && *kg <= HEAVIEST_KG)?;
    let mut need = Grounds::default();
    let (kg, band) = match facts.stage {
        Some(stage @ (Stage::YoungPup | Stage::OlderPup)) => (kg, need.growing(facts, stage, kg)),
        stage => {
            let band = need.grown(facts, stage);
            let ideal = need.ideal(facts.body_condition, kg);
            let band = need.gains_easily(facts.body_condition, band);
            (ideal, need.perhaps_growing(facts, ideal, band))
        }
    };
    let energy = Energy {
        low: allometric_kcal(band.low, kg),
        point: allometric_kcal(band.point, kg),
        high: allometric_kcal(band.high, kg),
    };
    Some(DailyNeed { energy, kg, grounds: need.grounds, missing: need.missing })
}

/// What a figure rests on, gathered while it is worked out.
#[derive(Default)]
struct Grounds {
    grounds: Vec<Ground>,
    missing: Vec<&'static str>,
}

impl Grounds {
    fn ground(&mut self, says: impl Into<String>, source: &'static str, certainty: Certainty) {
        self.grounds.push(Ground { says: says.into(), source, certainty });
    }

    /// A pup, by its share of adult weight where that is stated, else by its age.
    fn growing(&mut self, facts: &EnergyFacts, stage: Stage, kg: f64) -> Band {
        if let Some(adult) = stated_adult(facts) {
            let p = share_of_adult(kg, adult);
            let (fediaf, nrc) = (fediaf_growth(p), nrc_growth(p));
            let percent = (p * 100.0).round();
            self.ground(
                format!("growing, at {percent} % of adult weight: {fediaf} kcal per kg^0.75"),
                FEDIAF_GROWTH,
                Certainty::Verified,
            );
            self.ground(
                format!("the same by the growth curve: {nrc:.0} kcal per kg^0.75"),
                NRC_GROWTH,
                Certainty::Verified,
            );
            self.ground(
                "pups of one weight differ: the range reaches a fifth below the lower of these figures and above the higher",
                "Common practice. Grown dogs of one weight differ up to threefold: Merck Veterinary Manual (second-hand)",
                Certainty::CommonPractice,
            );
            let band = Band { low: fediaf, point: fediaf, high: fediaf }.reaching(nrc);
            return Band { low: 0.8 * band.low, high: 1.2 * band.high, ..band };
        }
        self.missing.push("the expected adult weight");
        let point = if stage == Stage::YoungPup {
            self.ground("under four months: 3 × resting energy", FACTORS, Certainty::SecondHand);
            YOUNG_PUP
        } else {
            self.ground(
                "four months or older and growing: 2 × resting energy",
                FACTORS,
                Certainty::FromMemory,
            );
            OLDER_PUP
        };
        self.ground(
            "range of the growth curve from a quarter of adult weight to all of it",
            NRC_GROWTH,
            Certainty::Verified,
        );
        Band { low: point, point, high: point }.reaching(nrc_growth(0.25)).reaching(nrc_growth(1.0))
    }

    /// A grown dog, or one whose age is not stated: by activity, reaching for neutering and age.
    fn grown(&mut self, facts: &EnergyFacts, stage: Option<Stage>) -> Band {
        const CONSTANTS: &str = "FEDIAF, adults by activity: 95, 110 or 125 kcal per kg^0.75; a published maker's table follows the same constants";
        let mut band = match facts.activity {
            Some(Activity::Low) => {
                self.ground(
                    "under an hour a day: 95 kcal per kg^0.75, from 84 (1.2 × resting energy) to 110",
                    CONSTANTS,
                    Certainty::SecondHand,
                );
                Band { low: INACTIVE, point: 95.0, high: 110.0 }
            }
            Some(Activity::Moderate) => {
                self.ground(
                    "one to three hours a day: 110 kcal per kg^0.75, from 95 to 130",
                    "FEDIAF 2018, adults: practical mean and range",
                    Certainty::SecondHand,
                );
                Band { low: 95.0, point: 110.0, high: 130.0 }
            }
            Some(Activity::High) => {
                self.ground(
                    "hard work: 125 kcal per kg^0.75, from 110 to 175",
                    CONSTANTS,
                    Certainty::Verified,
                );
                Band { low: 110.0, point: 125.0, high: 175.0 }
            }
            None => {
                self.missing.push("how much the dog moves");
                self.ground("activity not stated: the low point of household dogs, 95 kcal per kg^0.75, from 84 to 175", CONSTANTS, Certainty::SecondHand);
                Band { low: INACTIVE, point: 95.0, high: 175.0 }
            }
        };
        match facts.neutered {
            Some(true) => self.ground(
                "neutered: the range reaches 1.6 × resting energy",
                FACTORS,
                Certainty::SecondHand,
            ),
            Some(false) => self.ground(
                "not neutered: the range reaches 1.8 × resting energy",
                FACTORS,
                Certainty::SecondHand,
            ),
            None => {
                self.missing.push("whether the dog is neutered");
                self.ground(
                    "neutered or not: the range reaches 1.6 and 1.8 × resting energy",
                    FACTORS,
                    Certainty::SecondHand,
                );
            }
        }
        if facts.neutered != Some(false) {
            band = band.reaching(NEUTERED);
        }
        if facts.neutered != Some(true) {
            band = band.reaching(ENTIRE);
        }
        match stage {
            Some(Stage::YoungAdult) => {
                self.ground(
                    "under three years: the range reaches 140 kcal per kg^0.75",
                    FEDIAF_AGE,
                    Certainty::FromMemory,
                );
                band.reaching(YOUNG_HIGH)
            }
            Some(Stage::Older) => {
                self.ground(
                    "over seven years: the range reaches down to 80 kcal per kg^0.75",
                    FEDIAF_AGE,
                    Certainty::FromMemory,
                );
                band.reaching(OLDER_LOW)
            }
            None => {
                self.missing.push("how old the dog is");
                self.ground(
                    "age not stated: the range reaches from 80 to 140 kcal per kg^0.75",
                    FEDIAF_AGE,
                    Certainty::FromMemory,
                );
                band.reaching(OLDER_LOW).reaching(YOUNG_HIGH)
            }
            Some(_) => band,
        }
    }

    /// Where the age is not stated and the dog weighs less than it will, it may be growing.
    fn perhaps_growing(&mut self, facts: &EnergyFacts, kg: f64, band: Band) -> Band {
        match stated_adult(facts) {
            Some(adult) if facts.stage.is_none() && kg < adult => {
                let p = share_of_adult(kg, adult);
                self.ground("lighter than the expected adult weight, so perhaps growing: the range reaches the growth figures", FEDIAF_GROWTH, Certainty::Verified);
                band.reaching(fediaf_growth(p)).reaching(nrc_growth(p))
            }
            _ => band,
        }
    }

    /// A dog over its ideal condition gains on what feeds others.
    fn gains_easily(&mut self, body_condition: Option<i16>, band: Band) -> Band {
        if !body_condition.is_some_and(|points| (6..=9).contains(&points)) {
            return band;
        }
        self.ground(
            "over the ideal condition: the range reaches down to 84 kcal per kg^0.75 (1.2 × resting energy)",
            FACTORS,
            Certainty::SecondHand,
        );
        band.reaching(INACTIVE)
    }

    /// The weight to feed for.
    fn ideal(&mut self, body_condition: Option<i16>, kg: f64) -> f64 {
        const CONDITION: &str = "Laflamme 1997 and German et al.: about 10 % for each point over 5";
        let Some(condition) = body_condition.filter(|points| (1..=9).contains(points)) else {
            self.missing.push("body condition");
            return kg;
        };
        let ideal = ideal_kg(kg, condition);
        if condition > 5 {
            self.ground(
                format!(
                    "body condition {condition} of 9: worked out for an ideal weight of about {ideal:.1} kg"
                ),
                CONDITION,
                Certainty::FromMemory,
            );
        }
        ideal
    }
}

/// The expected adult weight, where one is stated that can be right.
fn stated_adult(facts: &EnergyFacts) -> Option<f64> {
    facts.expected_adult_kg.filter(|kg| *kg > 0.0 && *kg <= HEAVIEST_KG)
}

#[cfg(test)]
mod tests;
