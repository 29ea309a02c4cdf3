//! What makes heat harder for a dog, so that its bands begin earlier.

use crate::domain::dog::DogFacts;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Coat;

/// From where on something counts as a burden, and by how much every dog's bands begin earlier. A practice may make them
/// stricter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Kilograms above which a dog counts as heavy: 50 in Hall, Carter & O'Neill 2020.
    pub heavy_kg: f64,
    /// Years from which a dog counts as old. Common practice.
    pub old_years: f64,
    /// Body condition, 1–9, from which a dog counts as over its ideal weight. Four and five are ideal on that scale; the
    /// study behind it found more heat illness at or above the mean weight of breed and sex, so the first step over counts.
    pub over_ideal: f64,
    /// Bands that every dog's begin earlier, whatever it carries.
    pub every_dog: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self { heavy_kg: 50.0, old_years: 8.0, over_ideal: 6.0, every_dog: 0 }
    }
}

/// How hard a dog works.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// Still or walking.
    Gentle,
    /// Running, jumping, or work that winds a dog up.
    Vigorous,
}

/// A dog and its work, as far as heat is concerned. Every fact is stated or not.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Circumstances {
    /// Whether the dog has a short nose.
    pub short_nosed: Option<bool>,
    /// Its last weight, kilograms.
    pub kg: Option<f64>,
    /// Its age in whole years.
    pub years: Option<i32>,
    /// Its body condition, 1–9.
    pub body_condition: Option<i16>,
    /// Whether heart or breathing is known to be affected.
    pub heart_or_breathing: Option<bool>,
    /// Its coat.
    pub coat: Option<Coat>,
    /// Whether it wears a muzzle.
    pub muzzled: Option<bool>,
    /// How hard it works.
    pub effort: Option<Effort>,
    /// Whether it is in full sun.
    pub in_sun: Option<bool>,
    /// Whether the ground is hot.
    pub hot_ground: Option<bool>,
}

/// One thing that makes heat harder for a dog. Each begins the bands one earlier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Burden {
    /// A short nose.
    ShortNose,
    /// More than [`Limits::heavy_kg`].
    Heavy,
    /// [`Limits::old_years`] or more.
    Old,
    /// Body condition of [`Limits::over_ideal`] or more.
    Overweight,
    /// Heart or breathing affected.
    HeartOrBreathing,
    /// A thick or double coat.
    ThickCoat,
    /// A muzzle is worn.
    Muzzle,
    /// Vigorous work.
    Vigorous,
    /// Full sun.
    FullSun,
    /// Hot ground.
    HotGround,
}

impl Burden {
    /// All of them, the dog's own first.
    pub const ALL: [Self; 10] = [
        Self::ShortNose,
        Self::Heavy,
        Self::Old,
        Self::Overweight,
        Self::HeartOrBreathing,
        Self::ThickCoat,
        Self::Muzzle,
        Self::Vigorous,
        Self::FullSun,
        Self::HotGround,
    ];

    /// Whether it applies; `None` when what decides was not stated.
    pub fn applies(self, to: &Circumstances, limits: &Limits) -> Option<bool> {
        match self {
            Self::ShortNose => to.short_nosed,
            Self::Heavy => to.kg.map(|kg| kg > limits.heavy_kg),
            Self::Old => to.years.map(|years| f64::from(years) >= limits.old_years),
            Self::Overweight => to.body_condition.map(|score| f64::from(score) >= limits.over_ideal),
            Self::HeartOrBreathing => to.heart_or_breathing,
            Self::ThickCoat => to.coat.map(|coat| coat == Coat::Thick),
            Self::Muzzle => to.muzzled,
            Self::Vigorous => to.effort.map(|effort| effort == Effort::Vigorous),
            Self::FullSun => to.in_sun,
            Self::HotGround => to.hot_ground,
        }
    }

    /// What trainers read.
    pub fn label(self) -> &'static str {
        match self {
            Self::ShortNose => "short nose",
            Self::Heavy => "very heavy",
            Self::Old => "old",
            Self::Overweight => "over ideal weight",
            Self::HeartOrBreathing => "heart or breathing affected",
            Self::ThickCoat => "thick coat",
            Self::Muzzle => "muzzle",
            Self::Vigorous => "arousing or running work",
            Self::FullSun => "full sun",
            Self::HotGround => "hot ground",
        }
    }

    /// What owners read.
    pub fn for_owner(self) -> &'static str {
        match self {
            Self::Heavy => "a very big dog",
            Self::Old => "not so young any more",
            Self::Overweight => "a little heavy",
            Self::HeartOrBreathing => "heart or breathing to look after",
            Self::Vigorous => "running or exciting work",
            Self::ShortNose | Self::ThickCoat | Self::Muzzle | Self::FullSun | Self::HotGround => {
                self.label()
            }
        }
    }

    /// What has to be stated to decide it.
    pub fn decided_by(self) -> &'static str {
        match self {
            Self::ShortNose => "short nose or not",
            Self::Heavy => "weight",
            Self::Old => "age",
            Self::Overweight => "body condition",
            Self::HeartOrBreathing => "heart and breathing",
            Self::ThickCoat => "coat",
            Self::Muzzle => "muzzle or not",
            Self::Vigorous => "how hard the work is",
            Self::FullSun => "sun or shade",
            Self::HotGround => "the ground",
        }
    }

    /// Where it comes from. That it moves the bands by one is a house rule in every case.
    pub fn source(self) -> &'static str {
        match self {
            Self::ShortNose | Self::Heavy => "Risk factor in Hall, Carter & O'Neill 2020, Sci Rep 10:9128.",
            Self::Old => {
                "More heat illness in dogs over two years: Hall, Carter & O'Neill 2020, Sci Rep 10:9128. From 8 \
                 years: common practice."
            }
            Self::Overweight => {
                "More heat illness at or above the mean weight of breed and sex: Hall, Carter & O'Neill 2020, Sci \
                 Rep 10:9128. Body condition from 6 of 9: our reading of it."
            }
            Self::HeartOrBreathing | Self::ThickCoat | Self::Muzzle => "Common practice.",
            Self::Vigorous => {
                "Exertion set off 74.2 % of 1,259 events: Hall, Carter & O'Neill 2020, Animals 10(8):1324."
            }
            Self::FullSun => {
                "The heat index is made for shade; full sun can add up to 15 °F (8 °C): National Weather Service."
            }
            Self::HotGround => {
                "Asphalt far hotter than the air: Berens 1970, JAMA 214(11):2025–2027, as others quote it."
            }
        }
    }
}

impl Circumstances {
    /// A dog at a sitting. Where the sitting does not say whether a muzzle was worn, a dog whose profile speaks of one is
    /// taken to wear it.
    pub fn of(dog: &DogFacts, sitting: &Sitting) -> Self {
        let effort = match sitting.is_arousing() {
            true => Some(Effort::Vigorous),
            false => sitting.energy.map(|_| Effort::Gentle),
        };
        Self {
            short_nosed: dog.short_nosed,
            kg: dog.weighings.first().map(|weighing| weighing.kg),
            years: dog.age_months(sitting.local_date).map(|months| months / 12),
            body_condition: dog.body_condition,
            heart_or_breathing: dog.heart_or_breathing,
            coat: dog.coat,
            muzzled: sitting.muzzle_worn.or(dog.has_muzzle().then_some(true)),
            effort,
            in_sun: sitting.weather.in_sun,
            hot_ground: sitting.weather.hot_ground,
        }
    }

    /// What is stated to apply.
    pub fn burdens(&self, limits: &Limits) -> Vec<Burden> {
        Burden::ALL.into_iter().filter(|burden| burden.applies(self, limits) == Some(true)).collect()
    }

    /// What cannot be decided, since nothing was stated. It is no burden, and no reassurance either.
    pub fn not_stated(&self) -> Vec<Burden> {
        let limits = Limits::default();
        Burden::ALL.into_iter().filter(|burden| burden.applies(self, &limits).is_none()).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_begins_where_it_says() {
        let (none, limits) = (Circumstances::default(), Limits::default());
        let kg = |kg| Burden::Heavy.applies(&Circumstances { kg: Some(kg), ..none }, &limits);
        assert_eq!((kg(50.0), kg(50.1), kg(f64::NAN)), (Some(false), Some(true), Some(false)));
        let years = |years| Burden::Old.applies(&Circumstances { years: Some(years), ..none }, &limits);
        assert_eq!((years(7), years(8)), (Some(false), Some(true)));
        let score = |score| {
            Burden::Overweight.applies(&Circumstances { body_condition: Some(score), ..none }, &limits)
        };
        assert_eq!((score(5), score(6)), (Some(false), Some(true)));
        let coat = |coat| Burden::ThickCoat.applies(&Circumstances { coat: Some(coat), ..none }, &limits);
        assert_eq!((coat(Coat::Long), coat(Coat::Thick)), (Some(false), Some(true)));
    }

    #[test]
    fn what_is_not_stated_is_neither_a_burden_nor_its_absence() {
        let none = Circumstances::default();
        assert!(none.burdens(&Limits::default()).is_empty());
        assert_eq!(none.not_stated(), Burden::ALL);
        let pug = Circumstances { short_nosed: Some(true), in_sun: Some(false), ..none };
        assert_eq!(pug.burdens(&Limits::default()), [Burden::ShortNose]);
        assert_eq!(pug.not_stated().len(), 8);
    }

    #[test]
    fn every_burden_can_apply_and_has_its_words() {
        let all = Circumstances {
            short_nosed: Some(true),
            kg: Some(60.0),
            years: Some(9),
            body_condition: Some(7),
            heart_or_breathing: Some(true),
            coat: Some(Coat::Thick),
            muzzled: Some(true),
            effort: Some(Effort::Vigorous),
            in_sun: Some(true),
            hot_ground: Some(true),
        };
        assert_eq!(all.burdens(&Limits::default()), Burden::ALL);
        assert!(all.not_stated().is_empty());
        for burden in Burden::ALL {
            let published = burden.source().chars().filter(char::is_ascii_digit).count() >= 4;
            let said =
                burden.source().contains("ommon practice") || burden.source().contains("Weather Service");
            assert!(published || said, "{burden:?}");
            assert!(!burden.label().is_empty() && !burden.for_owner().is_empty());
            assert!(!burden.decided_by().is_empty());
        }
    }
}
