//! The list itself.

use super::{Harm, Poison};
use crate::domain::certainty::Certainty;

/// Cortinovis & Caloni 2016, a review of poisonings by household food in dogs and cats.
const REVIEW: &str = "Cortinovis & Caloni 2016, Front Vet Sci 3:26, doi 10.3389/fvets.2016.00026";
const LISTS: &str = "First-aid lists of veterinary poison lines";

const fn poison(
    name: &'static str,
    words: &'static [&'static str],
    unless: &'static [&'static str],
    why: &'static str,
    source: &'static str,
    certainty: Certainty,
) -> Poison {
    Poison { name, harm: Harm::Poison, words, unless, why, source, certainty }
}

const fn check(name: &'static str, words: &'static [&'static str], why: &'static str) -> Poison {
    Poison {
        name,
        harm: Harm::CheckLabel,
        words,
        unless: &[],
        why,
        source: LISTS,
        certainty: Certainty::FromMemory,
    }
}

/// Every food that is looked for.
pub static POISONS: [Poison; 18] = [
    poison(
        "Chocolate or cocoa",
        &["chocolate", "choc", "chocolatey", "cocoa", "cacao", "brownie"],
        &["chocolate lab", "chocolate labrador", "chocolate coloured"],
        "Chocolate and cocoa can poison a dog; the darker, the less it takes.",
        REVIEW,
        Certainty::Verified,
    ),
    poison(
        "Xylitol (birch sugar, E967)",
        &["xylitol", "birch sugar", "birch sweetener", "wood sugar", "e967", "e 967", "chewing gum"],
        &[],
        "Very little of this sweetener can poison a dog.",
        REVIEW,
        Certainty::Verified,
    ),
    poison(
        "Grapes, raisins, sultanas or currants",
        &["grape", "raisin", "sultana", "currant", "mince pie", "fruit cake", "fruitcake", "hot cross bun"],
        &["grape tomato"],
        "Fresh or dried they can harm a dog's kidneys, and nobody can say beforehand how many it takes.",
        REVIEW,
        Certainty::Verified,
    ),
    poison(
        "Onion, garlic, leek or chives",
        &["onion", "garlic", "leek", "chive", "shallot", "scallion", "allium", "ramson"],
        &[],
        "Raw, cooked or dried, they can harm a dog's blood, days later and little by little.",
        REVIEW,
        Certainty::Verified,
    ),
    poison("Macadamia nuts", &["macadamia"], &[], "A few can make a dog ill.", REVIEW, Certainty::Verified),
    poison(
        "Alcohol",
        &[
            "alcohol", "beer", "lager", "ale", "stout", "wine", "cider", "rum", "whisky", "whiskey",
            "brandy", "vodka", "gin", "sherry", "liqueur", "liquor", "advocaat", "eggnog",
        ],
        &["root beer", "ginger beer", "ginger ale", "cider vinegar", "wine vinegar", "wine gum"],
        "Dogs bear far less alcohol than people.",
        REVIEW,
        Certainty::Verified,
    ),
    poison(
        "Raw yeast dough",
        &["dough", "bread dough", "raw yeast", "fresh yeast", "live yeast", "sourdough starter"],
        &["baked dough", "dough ball toy", "play dough"],
        "Raw dough goes on rising in a dog's stomach, and makes alcohol as it does.",
        REVIEW,
        Certainty::Verified,
    ),
    poison(
        "Caffeine, coffee or tea",
        &[
            "caffeine",
            "coffee",
            "espresso",
            "tea",
            "teabag",
            "guarana",
            "matcha",
            "cola",
            "energy drink",
            "energy gel",
            "caffeine tablet",
        ],
        &[
            "tea towel",
            "tea time",
            "tea set",
            "his tea",
            "her tea",
            "their tea",
            "its tea",
            "our tea",
            "my tea",
            "your tea",
            "for tea",
            "at tea",
            "dogs tea",
            "coffee table",
        ],
        "Caffeine can poison a dog, as what is in chocolate can.",
        LISTS,
        Certainty::SecondHand,
    ),
    poison("Nutmeg", &["nutmeg"], &[], "Larger amounts can make a dog ill.", LISTS, Certainty::FromMemory),
    poison(
        "Hops",
        &["hop pellet", "brewing hop", "brewers hop", "hops"],
        &[],
        "They can overheat a dog dangerously.",
        LISTS,
        Certainty::FromMemory,
    ),
    poison(
        "Mouldy food",
        &["mouldy", "moldy", "mould", "compost"],
        &["mould shaped", "silicone mould", "cake mould"],
        "Some moulds on food and in compost make dogs tremble and fit.",
        LISTS,
        Certainty::FromMemory,
    ),
    Poison {
        name: "Cooked bones",
        harm: Harm::Hazard,
        words: &[
            "cooked bone",
            "cooked chicken bone",
            "cooked lamb bone",
            "cooked beef bone",
            "cooked pork bone",
            "roast bone",
            "roasted bone",
            "boiled bone",
            "baked bone",
            "smoked bone",
            "grilled bone",
            "fried bone",
            "barbecued bone",
            "chicken bone",
            "turkey bone",
            "duck bone",
            "rib bone",
            "chop bone",
            "ham bone",
            "spare rib",
            "leftover bone",
        ],
        unless: &[
            "bone broth",
            "chicken bone broth",
            "turkey bone broth",
            "beef bone broth",
            "raw chicken bone",
            "raw turkey bone",
            "raw duck bone",
            "raw rib bone",
        ],
        why: "Cooked bones splinter; they can choke a dog or tear its gut.",
        source: LISTS,
        certainty: Certainty::SecondHand,
    },
    check(
        "Peanut butter",
        &["peanut butter", "nut butter"],
        "Some are sweetened with xylitol, which poisons dogs: check the label for xylitol, birch sugar or E967.",
    ),
    check(
        "Food sold as free of sugar",
        &["sugar free", "no added sugar", "no sugar", "unsweetened", "sweetener", "diet jelly"],
        "Some are sweetened with xylitol, which poisons dogs: check the label for xylitol, birch sugar or E967.",
    ),
    check(
        "Stock, gravy or stuffing",
        &["gravy", "stock", "stock cube", "bouillon", "stuffing", "broth"],
        "Most are made with onion or garlic: check the label, and use one without.",
    ),
    check(
        "Black pudding, haggis or sausage",
        &[
            "black pudding",
            "haggis",
            "sausage",
            "frankfurter",
            "hot dog",
            "meatball",
            "burger",
            "pate",
            "kebab",
            "salami",
            "pepperoni",
        ],
        "Many are made with onion or garlic: check the label, and use one without.",
    ),
    check(
        "Baby food",
        &["baby food"],
        "Some is made with onion or garlic: check the label, and use one without.",
    ),
    check(
        "Trail mix or muesli",
        &["trail mix", "muesli", "granola", "cereal bar", "malt loaf"],
        "Many hold raisins or chocolate: check the label, and use one without.",
    ),
];
