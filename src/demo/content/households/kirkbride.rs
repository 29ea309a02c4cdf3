//! The Kirkbride household: Soot.

use crate::demo::content::build::*;
use crate::demo::content::types::*;

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "kirkbride",
    name: "Kirkbride",
    about: "Ground-floor maisonette, shared path, shift work. First dog of her own.",
    children: &[],
    owners: &[owner("shanice", "Shanice Kirkbride", "07700 900236", 10)],
    dogs: &[SOOT],
};

/// Here since the day before yesterday; history taken, no plan yet.
const SOOT: Dog = Dog {
    key: "soot",
    name: "Soot",
    story: Story::NewNoPlan,
    phase: Phase::SettlingIn,
    trainer: "morwenna",
    joined: 2,
    profile: Profile {
        breed: "Staffordshire bull terrier cross, black with one white toe",
        age_days: 1280,
        birth_known: BirthPrecision::Estimated,
        weights: &[(2, 17.9)],
        adult_kg: 17.0,
        condition: 6,
        activity: Activity::Low,
        other: "From the rescue twelve days ago. Sleeps under the bed, eats at night. Ears not yet looked at.",
        vet: Vet::Asked(2),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "I just want to know what she needs. I have never had a dog and I already cannot imagine not.",
        readings: &[(2, 5, 6)],
    },
    tried_before: &["Nothing yet. I was afraid of doing it wrong."],
    triggers: &[
        trigger("the shared path at five o'clock", 8, "Lies down flat, then bolts for the door."),
        trigger("hands coming from above", 0, "Blinks hard, licks lips."),
    ],
    reinforcers: &[food("corned beef", 5, 2.2, 0.6), meal("rescue's kibble", 3, 3.5, 0.2)],
    places: &[fenced("bedroom", 1), roadside("shared path", 3)],
    encounters: &[met(
        1,
        "shanice",
        "Neighbour said hello through the letterbox",
        3,
        2,
        Recovery::Within15,
        "Under the bed. Came out for corned beef.",
    )],
    messages: &[
        said(
            2,
            "shanice",
            "Thank you for today. I wrote down \"she does not have to like me yet\" and stuck it on the kettle.",
        ),
        said(
            2,
            "morwenna",
            "She may take longer than the kettle. Nothing to practise yet: same times, same path, food near where she hides. Has the vet given you a day for her ears?",
        ),
        said(1, "shanice", "Day after tomorrow. She took the corned beef off my hand, just now, on purpose."),
    ],
    trainer_notes: &[said(
        2,
        "morwenna",
        "First fortnight in a home. Soft, flat, watchful; no warning given yet, so go slowly. Ears smell yeasty: vet before handling work. Plan after that.",
    )],
    ..Dog::PLAIN
};
