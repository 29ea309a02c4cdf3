//! Foods with a published energy, for whoever has no label at hand.

use super::super::certainty::Certainty;
use super::words::{Tokens, is_word};

/// A food whose energy is published.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Listed {
    /// What it is.
    pub name: &'static str,
    /// Other words by which people look for it.
    also: &'static [&'static str],
    /// Energy, kcal in 100 g.
    pub kcal_per_100g: f64,
    /// Where that comes from.
    pub source: &'static str,
    /// How sure that is.
    pub certainty: Certainty,
}

impl Listed {
    /// Energy, kcal a gram.
    pub fn kcal_per_g(&self) -> f64 {
        self.kcal_per_100g / 100.0
    }
}

const fn food(
    name: &'static str,
    also: &'static [&'static str],
    kcal_per_100g: f64,
    source: &'static str,
    certainty: Certainty,
) -> Listed {
    Listed { name, also, kcal_per_100g, source, certainty }
}

/// The foods, as they are looked for: meats, cheese, egg, fish, the rest.
pub static LISTED: [Listed; 14] = [
    food(
        "Chicken breast, roasted, meat only",
        &["cooked", "roast"],
        165.0,
        "USDA FDC 171477, SR 05064",
        Certainty::Verified,
    ),
    food(
        "Chicken, roasted, meat and skin",
        &["cooked", "roast"],
        239.0,
        "USDA SR 05009",
        Certainty::Verified,
    ),
    food(
        "Beef mince, lean (10 % fat), grilled",
        &["ground", "cooked", "burger"],
        217.0,
        "USDA FDC 174031",
        Certainty::Verified,
    ),
    food(
        "Beef frankfurter (label: no onion or garlic)",
        &["sausage", "hot", "dog"],
        315.0,
        "USDA FDC 173862, SR 07022; entries run 310–330",
        Certainty::SecondHand,
    ),
    food(
        "Turkey frankfurter (label: no onion or garlic)",
        &["sausage", "hot", "dog"],
        220.0,
        "USDA SR",
        Certainty::FromMemory,
    ),
    food("Beef liver, weighed raw", &[], 135.0, "USDA SR", Certainty::FromMemory),
    food("Cheddar", &["cheese"], 403.0, "USDA SR 01009", Certainty::Verified),
    food("Mozzarella, part skim", &["cheese"], 277.0, "USDA SR; entries run 254–300", Certainty::FromMemory),
    food("Egg, hard-boiled", &["cooked"], 155.0, "USDA SR 01129", Certainty::Verified),
    food("Salmon, farmed, cooked", &["fish"], 206.0, "USDA FDC 175168", Certainty::Verified),
    food(
        "Peanut butter (label: no xylitol, birch sugar or E967)",
        &["nut"],
        590.0,
        "USDA SR",
        Certainty::FromMemory,
    ),
    food("Carrot, raw", &["vegetable"], 41.0, "USDA SR", Certainty::FromMemory),
    food("Apple, raw, without core or pips", &["fruit"], 52.0, "USDA SR", Certainty::FromMemory),
    food(
        "Complete dry food",
        &["kibble", "biscuit"],
        350.0,
        "Convention, 320–420 as fed; its own label comes first",
        Certainty::FromMemory,
    ),
];

/// The listed foods whose names hold every word that was looked for, plurals as well; all of them for no words.
pub fn search(looked_for: &str) -> Vec<&'static Listed> {
    let wanted = Tokens::of(looked_for);
    let holds = |food: &Listed, wanted: &str| {
        let names = std::iter::once(food.name).chain(food.also.iter().copied());
        names
            .flat_map(|name| Tokens::of(name).words())
            .any(|word| is_word(&word, wanted) || is_word(wanted, &word))
    };
    LISTED.iter().filter(|food| wanted.words().iter().all(|word| holds(food, word))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(looked_for: &str) -> Vec<&'static str> {
        search(looked_for).iter().map(|food| food.name).collect()
    }

    /// USDA figures, kcal in 100 g.
    #[test]
    fn published_foods_have_their_published_energy() {
        for (name, kcal) in [
            ("Chicken breast, roasted, meat only", 165.0),
            ("Chicken, roasted, meat and skin", 239.0),
            ("Cheddar", 403.0),
            ("Egg, hard-boiled", 155.0),
            ("Salmon, farmed, cooked", 206.0),
            ("Beef mince, lean (10 % fat), grilled", 217.0),
        ] {
            let food = LISTED.iter().find(|food| food.name == name).expect("a listed food");
            assert_eq!((food.kcal_per_100g, food.certainty), (kcal, Certainty::Verified), "{name}");
        }
        assert!(LISTED.iter().all(|food| food.kcal_per_g() > 0.0 && food.kcal_per_g() < 9.0));
    }

    #[test]
    fn figures_from_memory_say_so() {
        for food in search("carrots").into_iter().chain(search("mozzarella")) {
            assert_eq!(food.certainty, Certainty::FromMemory, "{}", food.name);
        }
    }

    #[test]
    fn foods_are_found_by_words() {
        assert_eq!(names("roast chicken").len(), 2);
        assert_eq!(names("CHICKEN roasted").len(), 2);
        assert_eq!(names("carrots"), ["Carrot, raw"]);
        assert_eq!(names("cheese"), ["Cheddar", "Mozzarella, part skim"]);
        assert_eq!(names("").len(), LISTED.len());
        assert_eq!(names("egg"), ["Egg, hard-boiled"]);
    }
}
