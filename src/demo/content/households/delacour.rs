//! The Delacour household: Elsie.

use crate::demo::content::build::*;
use crate::demo::content::types::*;

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "delacour",
    name: "Delacour",
    about: "Sheltered flats with a shared garden. She is eighty-one and walks further than most.",
    children: &[],
    owners: &[owner("winifred", "Winifred Delacour", "07700 900233", 10)],
    dogs: &[ELSIE],
};

/// Finished five weeks ago.
const ELSIE: Dog = Dog {
    key: "elsie",
    name: "Elsie",
    story: Story::Graduated,
    phase: Phase::Graduated,
    trainer: "yusra",
    joined: 210,
    profile: Profile {
        breed: "greyhound, retired from racing",
        age_days: 2210,
        weights: &[(200, 27.1), (90, 28.4), (40, 28.6)],
        adult_kg: 28.5,
        condition: 4,
        activity: Activity::Low,
        orthopaedic: "Corn on the right fore, filed by the vet nurse.",
        heart_breathing: "Slow greyhound heart, vet content.",
        other: "Coat on below ten degrees. Thin skin: mind brambles.",
        food: "dry complete with tripe",
        food_kcal_g: 3.6,
        vet: Vet::Cleared(96),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "That she comes up the stairs of the flats without thinking each one is a cliff.",
        readings: &[(84, 7, 6), (60, 9, 9), (38, 10, 10)],
    },
    tried_before: &["The lift. It has a mirror and in the mirror there is a greyhound."],
    triggers: &[trigger("open-backed stairs", 0, "Plants all four feet.")],
    reinforcers: &[
        food("sardine on toast, toast mostly", 5, 2.6, 1.0),
        food("digestive, a corner", 4, 4.8, 0.5),
    ],
    places: &[
        fenced("flat", 1),
        fenced("shared garden", 2),
        fenced("stairs of the flats", 3),
        open("cemetery walk", 2),
    ],
    versions: &[version(
        83,
        "Last stretch: nose to hand is how you ask her up the stairs, and the cemetery is how you both get your breath back.",
    )],
    standing: &["own-rest-place"],
    items: &[
        Item {
            key: "hand-target",
            climb: &[(83, 3), (66, 4), (50, 5)],
            attempts: 6,
            times_a_week: 3,
            logged_a_week: 3,
            minutes: 4,
            when: "after the ten o'clock service",
            place: "stairs of the flats",
            reinforcer: "digestive, a corner",
            met: (84, 98),
            met_now: (88, 98),
            ..Item::CALM
        },
        Item {
            key: "wind-down-walk",
            climb: &[(83, 2)],
            attempts: 0,
            times_a_week: 4,
            logged_a_week: 2,
            minutes: 20,
            when: "before lunch",
            place: "cemetery walk",
            reinforcer: "digestive, a corner",
            cool_down: None,
            reading: (7, 3),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm { first: 82, last: 36, hours: &[11, 12], one_tap: 60, cooled_down: 100, arousal: (2, 1) },
    notes: &[
        good("hand-target", "Third stair. We both had a rest and a biscuit."),
        good("wind-down-walk", "Read every headstone in row C."),
        hard("hand-target", "Someone had polished the stairs. We do not blame her."),
        good("hand-target", "The top! Mr Osei on the landing applauded, quietly, as instructed."),
        hard("wind-down-walk", "Wind got under her coat and she flew home like a kite."),
        good("", "I am writing this at the top of the stairs."),
    ],
    messages: &[
        said(80, "winifred", "My grandson has shown me the telephone. I prefer writing to you."),
        said(80, "yusra", "I prefer being written to. How many stairs is she on?"),
        said(38, "winifred", "All of them, up and down, twice on lunch-club days. What do I do now?"),
        said(
            36,
            "yusra",
            "Now you have a dog who climbs stairs, and I have a free hour I will rather miss. The plan stays here whenever you want it, and so do I.",
        ),
        said(35, "winifred", "She sends you a corner of digestive. I have eaten it on your behalf."),
    ],
    trainer_notes: &[said(
        36,
        "yusra",
        "Graduated. Corn will come back: told Winifred what a corn limp looks like and to ring the nurse.",
    )],
    encounters: &[met(
        52,
        "winifred",
        "Cat on the seventh stair",
        2,
        1,
        Recovery::Within5,
        "They exchanged a look and both thought better of it.",
    )],
    ..Dog::PLAIN
};
