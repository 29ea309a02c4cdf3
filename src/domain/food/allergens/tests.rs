//! Allergies that must be met, and those that must not.

use super::families::FAMILIES;
use super::*;
use proptest::prelude::*;

fn sure(allergies: &str, food: &str) -> Option<bool> {
    named(allergies, food).first().map(|met| met.sure)
}

#[test]
fn families_meet_in_both_directions() {
    for (allergies, food) in [
        ("beef", "ox heart"),
        ("beef", "Steak, thin"),
        ("ox", "beef"),
        ("veal", "Beef mince"),
        ("dairy", "cheddar cubes"),
        ("milk", "Gouda"),
        ("cheese", "yoghurt"),
        ("dairy, upset stomach", "twaróg, crumbled"),
        ("wheat", "toast"),
        ("gluten", "digestive, a corner"),
        ("wheat", "bread"),
        ("eggs", "scrambled egg"),
        ("fish", "salmon, boiled"),
        ("chicken, ear infections", "Cooked CHICKEN"),
        ("poultry", "turkey, cooked"),
        ("pork", "low-salt ham"),
        ("lamb", "mutton, cold"),
        ("grain", "oatcake"),
        ("Chicken, beef; maybe wheat", "bread"),
        ("suspected: beef", "roast beef"),
        ("venison", "venison sausage"),
        ("quinoa", "quinoa puffs"),
        ("carrot", "carrots"),
    ] {
        assert_eq!(sure(allergies, food), Some(true), "{allergies} / {food}");
    }
}

#[test]
fn words_that_leave_it_open_may_be_it() {
    for (allergies, food) in [
        ("salmon", "fish flakes"),
        ("chicken", "poultry bites"),
        ("beef", "liver, baked"),
        ("chicken", "kibble"),
        ("wheat", "sausage"),
        ("beef", "tripe sticks"),
    ] {
        assert_eq!(sure(allergies, food), Some(false), "{allergies} / {food}");
    }
}

#[test]
fn other_foods_are_let_pass() {
    for (allergies, food) in [
        ("chicken", "turkey"),
        ("beef", "chicken liver"),
        ("salmon", "cod skin, dried"),
        ("dairy", "dairy-free cheese"),
        ("dairy", "peanut butter"),
        ("wheat", "gluten-free biscuit"),
        ("wheat", "buckwheat"),
        ("egg", "eggplant"),
        ("", "chicken"),
        ("none known", "chicken"),
        ("no known allergies", "chicken"),
        ("not stated", "chicken"),
        ("chicken, ear infections", "pig's ear"),
        ("beef, itchy feet", "duck feet"),
        ("beef, but tolerates lamb", "beetroot"),
        ("beef, fine with lamb", "lamb"),
        ("no chicken allergy", "chicken"),
        ("nut", "coconut"),
        ("pea", "peanut"),
        ("chicken", "chicken-free turkey bites"),
        ("grass pollen", "chicken"),
    ] {
        assert_eq!(sure(allergies, food), None, "{allergies} / {food}");
    }
}

#[test]
fn an_allergy_is_read_as_people_write_it() {
    for (allergies, food) in [
        ("no dairy", "cheddar"),
        ("No dairy, no beef", "beef"),
        ("avoid chicken", "chicken"),
        ("chicken-free diet", "chicken"),
        ("beef but tolerates lamb", "beef"),
        ("does not tolerate chicken", "chicken"),
        ("not ok with chicken", "chicken"),
        ("not allergic to lamb, chicken", "chicken"),
    ] {
        assert_eq!(sure(allergies, food), Some(true), "{allergies} / {food}");
    }
    for (allergies, food) in [
        ("beef but tolerates lamb", "lamb"),
        ("beef, lamb is fine", "lamb"),
        ("not allergic to chicken", "chicken"),
        ("no known allergy to chicken", "chicken"),
        ("beef, lamb ok", "lamb"),
    ] {
        assert_eq!(sure(allergies, food), None, "{allergies} / {food}");
    }
}

#[test]
fn lactose_free_milk_is_still_milk() {
    assert_eq!(sure("milk", "lactose-free milk"), Some(true));
    assert_eq!(sure("lactose", "milk"), Some(true));
}

#[test]
fn each_allergy_is_met_once_the_certain_first() {
    let met = named("salmon, beef", "fish flakes and ox heart, beef");
    let said: Vec<(&str, bool)> = met.iter().map(|one| (one.allergen.as_str(), one.sure)).collect();
    assert_eq!(said, [("beef", true), ("salmon", false)]);
}

#[test]
fn words_are_in_small_letters_and_in_one() {
    for family in FAMILIES {
        for word in family.words {
            assert_eq!(word.to_lowercase(), **word);
            assert!(!read(word, Text::Food).kinds.is_empty(), "{word} is not found by its own word");
        }
    }
}

proptest! {
    #[test]
    fn no_text_panics(allergies in ".{0,60}", food in ".{0,60}") {
        named(&allergies, &food);
    }

    #[test]
    fn a_stated_food_is_met_wherever_it_stands(before in "[a-z]{0,8}", after in "[a-z]{0,8}") {
        let allergies = format!("{before}, beef, {after}");
        prop_assert_eq!(sure(&allergies, "beef"), Some(true));
    }
}
