//! A dog's food in words: for the trainer's page and profile, and for the household.

use time::Date;

use crate::domain::dates::counted;
use crate::domain::food::earned::Source;
use crate::domain::food::energy::{EnergyFacts, Ground};
use crate::domain::food::fits::Fits;
use crate::domain::food::picture::Picture;
use crate::domain::food::share::percent;
use crate::domain::lists::in_a_sentence;
use crate::domain::welfare::TREATS;
use crate::ids::DogId;
use crate::store::reading::{Reading, Together};
use crate::store::{dog_facts, food_paid, house};

/// A dog's food over the last seven days.
pub struct FoodView {
    picture: Picture,
    fits: Option<Fits>,
    ceiling: f64,
    name: String,
}

/// One reinforcer and what was earned with it, as a row shows it.
pub struct EarnedRow {
    /// What it is.
    pub what: String,
    /// Pieces over seven days.
    pub pieces: i64,
    /// One piece: "0.5 g, 2.0 kcal".
    pub piece: String,
    /// Energy over seven days.
    pub kcal: String,
}

impl FoodView {
    /// The food of a dog of this practice, as it stands on a day.
    pub fn of(dog: DogId, today: Date) -> Reading<Self> {
        (dog_facts::find(dog), food_paid::over_seven_days(dog, today, None), house::find()).together().then(
            move |(facts, paid, house)| {
                let ceiling = house.numbers.of(&TREATS) / 100.0;
                let picture = Picture::of(&EnergyFacts::of(&facts, today), &paid);
                Ok(Self { fits: picture.fits(ceiling, &facts.allergies), picture, ceiling, name: facts.name })
            },
        )
    }

    /// The need: "about 838 kcal a day, likely 724–990".
    pub fn need(&self) -> Option<String> {
        let energy = self.picture.need.as_ref()?.energy;
        // a population figure is no nearer than ten
        let [low, point, high] = [energy.low(), energy.point(), energy.high()].map(|kcal| match kcal {
            ..100.0 => kcal.round(),
            _ => (kcal / 10.0).round() * 10.0,
        });
        Some(format!("roughly {point:.0} kcal a day, often between {low:.0} and {high:.0}"))
    }

    /// The weight that the need is worked out for.
    pub fn weight(&self) -> Option<String> {
        self.picture.need.as_ref().map(|need| format!("{} kg", (need.kg * 10.0).round() / 10.0))
    }

    /// What the need rests on.
    pub fn grounds(&self) -> &[Ground] {
        self.picture.need.as_ref().map_or(&[], |need| &need.grounds)
    }

    /// How sure the weakest of that is.
    pub fn certainty(&self) -> String {
        self.picture.need.as_ref().map(|need| need.certainty().label().to_lowercase()).unwrap_or_default()
    }

    /// What is not stated, in a sentence; empty for nothing.
    pub fn missing(&self) -> String {
        self.picture.need.as_ref().map(|need| in_a_sentence(&need.missing)).unwrap_or_default()
    }

    /// The share, with its range: "about 7 % of the daily need, likely 5–9 %".
    pub fn share(&self) -> Option<String> {
        let share = self.picture.share?;
        let [low, point, high] =
            [share.low(), share.point(), share.high()].map(|share| percent(share, self.ceiling));
        if low == high {
            return Some(format!("{point} of the daily need"));
        }
        Some(format!("about {point} of the daily need, from {low} to {high}"))
    }

    /// The ceiling: "10 %".
    pub fn ceiling(&self) -> String {
        percent(self.ceiling, self.ceiling)
    }

    /// Whether the share is over the ceiling.
    pub fn is_over(&self) -> bool {
        self.picture.is_over(self.ceiling)
    }

    /// What was earned, the biggest contributor first.
    pub fn earned(&self) -> Vec<EarnedRow> {
        let row = |source: &Source| EarnedRow {
            what: source.what.clone(),
            pieces: source.pieces,
            piece: format!("{} g, {:.1} kcal", source.grams_per_piece, source.kcal_per_piece()),
            kcal: format!("{:.0}", source.kcal()),
        };
        self.picture.earned.sources.iter().map(row).collect()
    }

    /// Energy of the extras on a day of the seven.
    pub fn kcal_a_day(&self) -> String {
        format!("{:.0}", self.picture.earned.kcal_a_day())
    }

    /// What came out of the meals, in a sentence; empty for nothing.
    pub fn from_meals(&self) -> String {
        in_a_sentence(&self.picture.earned.from_meals)
    }

    /// What could not be counted, and why.
    pub fn not_counted(&self) -> Vec<String> {
        self.picture.earned.not_counted_in_words()
    }

    /// The biggest contributor.
    pub fn biggest(&self) -> Option<&str> {
        self.picture.earned.biggest().map(|source| source.what.as_str())
    }

    /// What would bring the share under the ceiling, one way a line.
    pub fn fits(&self) -> Vec<String> {
        self.fits.as_ref().map(ways).unwrap_or_default()
    }

    /// What a household reads of it, in one or two sentences.
    pub fn for_owner(&self) -> String {
        let (name, earned) = (&self.name, &self.picture.earned);
        if earned.sources.is_empty() {
            return if earned.from_meals.is_empty() {
                "No treats counted in the last seven days.".to_owned()
            } else {
                "In the last seven days rewards came out of the daily meals. That is a good way.".to_owned()
            };
        }
        let Some(share) = self.picture.share else {
            return format!(
                "Once we know what {name} weighs, we can say how much of the day's food treats may be."
            );
        };
        let said = percent(share.point(), self.ceiling);
        let most =
            if self.ceiling < 0.1 { format!("Up to {}", self.ceiling()) } else { "Up to a tenth".to_owned() };
        let then = if share.is_over(self.ceiling) {
            format!(
                "{most} is best. Cut the pieces smaller and keep the number, or use part of the daily meals."
            )
        } else {
            format!("{most} is fine.")
        };
        format!("Treats in the last seven days: about {said} of what {name} needs. {then}")
    }

    /// What is left out of a household's figure, in a sentence; empty for nothing.
    pub fn left_out(&self) -> String {
        let mut what: Vec<&str> =
            self.picture.earned.not_counted.iter().map(|one| one.what.as_str()).collect();
        what.dedup();
        in_a_sentence(&what)
    }
}

/// The ways, the dog's own view first: it counts pieces.
fn ways(fits: &Fits) -> Vec<String> {
    let what = &fits.source.what;
    let smaller = match fits.grams_per_piece {
        Some(grams) => format!("Smaller: pieces of {what} of at most {grams:.2} g, as many as now."),
        None => format!("Smaller: no piece of {what} is small enough; the rest is over the share already."),
    };
    let fewer = format!(
        "Fewer: at most {} of {what} a day, as big as now.",
        counted(fits.pieces_a_day, "piece", "pieces")
    );
    let names: Vec<String> = fits
        .lighter
        .iter()
        .map(|food| format!("{} ({} kcal a gram)", food.name.to_lowercase(), food.kcal_per_g()))
        .collect();
    let lighter = if names.is_empty() {
        "Lighter: no listed food is light enough; pay from the daily meals.".to_owned()
    } else {
        format!("Lighter, as many and as big as now: {}.", in_a_sentence(&names))
    };
    vec![smaller, fewer, lighter]
}
