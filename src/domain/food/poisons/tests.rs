//! Words that must be found, and words that must not.

use super::*;
use proptest::prelude::*;

fn harms(text: &str) -> Vec<(&'static str, Harm)> {
    named(text).iter().map(|named| (named.food.name, named.food.harm)).collect()
}

fn poisons(text: &str) -> bool {
    named(text).iter().any(|named| named.food.harm == Harm::Poison)
}

#[test]
fn poisonous_foods_are_found_in_their_variants() {
    for text in [
        "Chocolate buttons",
        "dark choc",
        "COCOA powder",
        "cacao nibs",
        "xylitol",
        "birch sugar",
        "E967",
        "E-967",
        "e 967",
        "grapes",
        "a grape",
        "raisins",
        "Sultanas",
        "currants",
        "onion",
        "spring onions",
        "garlic bread",
        "leeks",
        "chives",
        "shallots",
        "macadamias",
        "macadamia nut",
        "beer",
        "a drop of wine",
        "raw dough",
        "bread dough",
        "coffee",
        "green tea",
        "teabags",
        "caffeine",
        "nutmeg",
        "mouldy cheese",
        "chicken with ÓNION",
        "no grapes, raisins",
        "cheese/onion",
    ] {
        assert!(poisons(text), "{text}");
    }
}

#[test]
fn words_that_only_hold_a_poison_are_let_pass() {
    for text in [
        "grapefruit",
        "garlic-free treats",
        "no onion",
        "xylitol free",
        "xylitol-free peanut paste",
        "coconut",
        "cheddar",
        "steak",
        "grape tomatoes",
        "her tea",
        "part of his tea",
        "tea towel",
        "apple cider vinegar",
        "ginger biscuit",
        "sourdough toast",
        "hopping game",
        "chocolate labrador plush",
        "alcohol-free wipes",
        "without onion or garlic",
        "free from garlic",
        "drum stick",
        "peanut",
        "carob drops",
        "stockings",
        "",
        "goat's meat tin, off a spoon",
        "ginseng",
        "female",
        "leek-free",
        "boneless chicken",
        "raw bone",
        "",
    ] {
        assert_eq!(harms(text).iter().filter(|(_, harm)| *harm != Harm::CheckLabel).count(), 0, "{text}");
    }
}

#[test]
fn cooked_bones_are_a_hazard_and_some_labels_are_to_be_checked() {
    assert_eq!(harms("cooked bones"), [("Cooked bones", Harm::Hazard)]);
    assert_eq!(harms("a cooked lamb bone"), [("Cooked bones", Harm::Hazard)]);
    assert_eq!(harms("peanut butter"), [("Peanut butter", Harm::CheckLabel)]);
    assert!(named("Peanut butter")[0].food.why.contains("xylitol"));
    assert_eq!(harms("sugar-free jelly"), [("Food sold as free of sugar", Harm::CheckLabel)]);
    assert_eq!(harms("black pudding crumbs").len(), 1);
}

#[test]
fn the_worst_stands_first_with_the_word_that_names_it() {
    let found = named("Peanut butter and Raisins");
    assert_eq!((found[0].food.harm, found[0].word.as_str()), (Harm::Poison, "raisins"));
    assert_eq!(found.len(), 2);
}

#[test]
fn every_entry_is_whole() {
    for food in &POISONS {
        assert!(
            !food.words.is_empty() && food.why.ends_with('.') && !food.source.is_empty(),
            "{}",
            food.name
        );
        assert!(!food.why.contains("safe"), "{}", food.name);
        for word in food.words.iter().chain(food.unless) {
            assert_eq!(word.to_lowercase(), **word, "words are compared in small letters");
        }
        let first = named(food.words[0]);
        assert!(
            first.iter().any(|named| named.food.name == food.name),
            "{} is not found by its own word",
            food.name
        );
        let published = food.source.chars().filter(char::is_ascii_digit).count() >= 4;
        assert_eq!(published, food.certainty == Certainty::Verified, "{}", food.name);
    }
}

proptest! {
    #[test]
    fn no_text_panics(text in ".{0,80}") {
        named(&text);
    }

    #[test]
    fn more_words_after_a_comma_hide_nothing(before in "[a-z ]{0,20}", after in "[a-z ]{0,20}") {
        let text = format!("{before}, chocolate, {after}");
        prop_assert!(poisons(&text), "{}", text);
    }
}
