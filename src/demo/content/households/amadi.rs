//! The Pryce-Amadi household: Nettle.

use crate::demo::content::build::*;
use crate::demo::content::types::*;

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "amadi",
    name: "Pryce-Amadi",
    about: "Terraced house on a busy road, small walled yard. Two working parents at home on alternate days.",
    children: &[4, 9],
    owners: &[
        owner("gwen", "Gwen Pryce-Amadi", "07700 900201", 6),
        owner("tunde", "Tunde Pryce-Amadi", "07700 900202", 4),
    ],
    dogs: &[NETTLE],
};

/// Plan published yesterday, nothing logged yet.
const NETTLE: Dog = Dog {
    key: "nettle",
    name: "Nettle",
    story: Story::NewNoLog,
    phase: Phase::SettlingIn,
    trainer: "yusra",
    joined: 4,
    profile: Profile {
        breed: "cocker spaniel, working lines",
        neutered: false,
        age_days: 93,
        weights: &[(10, 4.6), (4, 5.1)],
        adult_kg: 12.0,
        coat: Coat::Long,
        other: "Home for eighteen days. Carsick on anything longer than the school run.",
        food: "dry puppy food, soaked, four meals",
        food_kcal_g: 3.9,
        vet: Vet::Seen(10),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "A puppy who can be in the same room as Lego and a four-year-old without eating either.",
        readings: &[(4, 3, 3)],
    },
    tried_before: &[
        "Squealing \"ouch\" like another puppy: she thought it was a game and came in harder.",
        "Putting her in the crate when she bites: now she will not go in at bedtime.",
    ],
    triggers: &[trigger("children running", 0, "Chases, hangs on to sleeves and pyjama legs.")],
    reinforcers: &[
        food("cooked chicken, crumbled", 5, 1.65, 0.5),
        meal("her own soaked food", 3, 1.3, 0.7),
        toy("the flattened hedgehog", 4),
    ],
    places: &[fenced("kitchen", 1), fenced("yard", 2)],
    versions: &[version(
        1,
        "Only three small things, each two or three minutes, and a lot of sleep. Most of the biting happens when she \
         is overtired, so the nap list on the fridge is the most useful page of the plan. Gate first, then the rest.",
    )],
    standing: &["children-and-dog-apart", "own-rest-place"],
    owner_skills: &["timing-the-yes"],
    items: &[
        Item {
            key: "yes-means-food",
            climb: &[(1, 0)],
            attempts: 8,
            times_a_week: 5,
            minutes: 2,
            when: "before the school run breakfast",
            place: "kitchen",
            reinforcer: "her own soaked food",
            ..Item::CALM
        },
        Item {
            key: "name-response",
            climb: &[(1, 0)],
            attempts: 5,
            times_a_week: 5,
            minutes: 2,
            when: "after tea, children at the table",
            place: "kitchen",
            reinforcer: "cooked chicken, crumbled",
            ..Item::CALM
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(1, 0)],
            attempts: 0,
            minutes: 3,
            when: "last thing, when she is sleepy already",
            place: "kitchen",
            reinforcer: "her own soaked food",
            ..Item::CALM
        },
    ],
    encounters: &[met(
        2,
        "gwen",
        "Dustbin lorry, all of it, right outside",
        6,
        1,
        Recovery::Within5,
        "Sat down and watched it like telly.",
    )],
    messages: &[
        said(
            4,
            "gwen",
            "Thank you for not making me feel like the world's worst puppy owner. Tunde has put the gate up. Idris has already posted a sandwich through it.",
        ),
        said(
            3,
            "yusra",
            "A sandwich is at least a peaceful offering. Leave the plan until tomorrow; today just count her naps and tell me the number.",
        ),
        said(2, "gwen", "Four naps. Two of them on my foot."),
        said(
            1,
            "yusra",
            "That is roughly half of what she would like. The plan is up. Start whenever a quiet three minutes turns up, and not before.",
        ),
    ],
    trainer_notes: &[
        said(
            4,
            "yusra",
            "Normal mouthy pup, loose body, tail going, no freeze. Nine-year-old is good with her and should not be made into a trainer. Crate now has a history: leave the door off.",
        ),
        said(
            1,
            "yusra",
            "Name game with parents only. Children get the scatter job. Swaps wait until the biting is dull.",
        ),
    ],
    ..Dog::PLAIN
};
