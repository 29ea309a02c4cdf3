//! The Aldous-Reyes household: Cordelia.

use crate::demo::content::build::*;
use crate::demo::content::types::*;

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "aldous",
    name: "Aldous-Reyes",
    about: "Semi with a conservatory. Everybody out by eight; granddad next door has a key.",
    children: &[12, 15],
    owners: &[
        owner("luz", "Luz Aldous-Reyes", "07700 900227", 6),
        owner("grandad", "Wilfred Aldous", "07700 900228", 4),
    ],
    dogs: &[CORDELIA],
};

/// Nobody has written for over two weeks.
const CORDELIA: Dog = Dog {
    key: "cordelia",
    name: "Cordelia",
    story: Story::GoneQuiet,
    trainer: "yusra",
    joined: 68,
    profile: Profile {
        breed: "Cavalier King Charles spaniel",
        age_days: 2480,
        weights: &[(68, 9.4), (30, 9.2)],
        adult_kg: 8.8,
        condition: 6,
        activity: Activity::Low,
        coat: Coat::Long,
        short_nosed: true,
        heart_breathing: "Murmur, grade three, tablets twice a day. Count breaths asleep: under thirty.",
        medicines: &["heart tablet, twice a day with food"],
        other: "Cries when the last person leaves; settles for granddad.",
        food: "dry complete, cardiac, prescribed",
        food_kcal_g: 3.9,
        vet: Vet::Cleared(60),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "That she can be by herself for a school concert. Just the one concert.",
        readings: &[(68, 2, 1), (37, 4, 3)],
    },
    tried_before: &["The radio.", "A second-hand cat."],
    triggers: &[trigger("coats and car keys", 0, "Follows, shakes, cries at the door.")],
    reinforcers: &[food("low-salt ham", 5, 1.1, 0.5), meal("cardiac kibble", 2, 3.9, 0.3)],
    places: &[fenced("living room", 1), fenced("conservatory", 1)],
    versions: &[
        version(
            66,
            "Nobody leaves her for longer than she finds boring. For now that is a door closed for as long as it takes to say it.",
        ),
        version(34, "Up to two minutes, then down again, then up. Granddad covers the rest of the day."),
    ],
    standing: &["someone-with-her"],
    items: &[
        Item {
            key: "alone-in-small-steps",
            climb: &[(66, 0), (48, 1), (34, 2)],
            attempts: 0,
            times_a_week: 4,
            logged_a_week: 3,
            minutes: 6,
            when: "before the school bus",
            place: "living room",
            reinforcer: "low-salt ham",
            reading: (5, 140),
            ..Item::CALM
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(66, 0), (40, 1)],
            attempts: 0,
            times_a_week: 4,
            logged_a_week: 3,
            minutes: 8,
            when: "granddad's crossword",
            place: "conservatory",
            reinforcer: "cardiac kibble",
            reading: (60, 330),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm {
        first: 65,
        last: 17,
        hours: &[7, 10, 19],
        one_tap: 50,
        cooled_down: 100,
        arousal: (2, 2),
    },
    notes: &[
        good(
            "alone-in-small-steps",
            "Ninety seconds. She was asleep on the camera before I reached the gate.",
        )
        .read(90),
        hard("alone-in-small-steps", "I forgot my glasses and came back in. We agreed it did not count."),
        good("settle-on-a-mat", "W.A.: dog asleep by 4 across."),
        hard("settle-on-a-mat", "W.A.: Milkman. Dog not asleep."),
        hard(
            "alone-in-small-steps",
            "Cried at twenty seconds. I went straight back in, sorry if that was wrong, I could not bear it.",
        )
        .read(18),
        good(
            "alone-in-small-steps",
            "Two minutes, chewed her foot a bit, then looked out of the window like a lady.",
        )
        .read(120),
        hard("", "Ankle-deep in exams and costumes here."),
    ],
    encounters: &[met(
        40,
        "grandad",
        "Lodger's dog in the porch",
        2,
        1,
        Recovery::Within5,
        "Said how do you do. W.A.",
    )],
    messages: &[
        said(65, "luz", "The children are making a chart. There will be stickers. I apologise in advance."),
        said(65, "yusra", "Stickers for the humans, please. Cordelia will have ham."),
        said(35, "luz", "First time she did not meet us at the gate shaking."),
        said(
            34,
            "yusra",
            "Then two minutes is fair. If she is upset, go back in, always; that was never wrong.",
        ),
        said(19, "grandad", "Dear Miss Penhale, the crossword is going well. Yours, W. Aldous."),
        said(
            6,
            "yusra",
            "No need for numbers. Only wondering how you all are, and whether the plan should be smaller for a while.",
        ),
    ],
    trainer_notes: &[
        said(34, "yusra", "Family kind and overfull. Granddad is the anchor: write the plan to him."),
        said(6, "yusra", "Quiet for longer than is like them. Ring the granddad, not Luz."),
    ],
    ..Dog::PLAIN
};
