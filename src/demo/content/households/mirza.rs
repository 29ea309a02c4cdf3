//! The Mirza household: Gherkin.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "mirza",
    name: "Mirza",
    about: "Ground-floor flat on a square full of dogs. New baby, no sleep, mother-in-law visiting.",
    children: &[0],
    owners: &[
        owner("saima", "Saima Mirza", "07700 900217", 8),
        owner("hamid", "Hamid Mirza", "07700 900218", 2),
    ],
    dogs: &[GHERKIN],
};

/// The owner has written that she is not coping.
const GHERKIN: Dog = Dog {
    key: "gherkin",
    name: "Gherkin",
    story: Story::NotCoping,
    trainer: "morwenna",
    joined: 45,
    profile: Profile {
        breed: "terrier cross, perhaps Jack Russell and something with eyebrows",
        sex: Sex::Male,
        age_days: 790,
        birth_known: BirthPrecision::Estimated,
        weights: &[(45, 8.9), (9, 8.8)],
        adult_kg: 8.8,
        coat: Coat::Medium,
        other: "Barks at buggies. Baby's buggy included.",
        allergies: &["chicken, ear infections"],
        food: "dry complete, turkey-free, venison",
        food_kcal_g: 3.6,
        vet: Vet::Seen(40),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "To get the baby and the dog round the block in one go and come home the same people.",
        readings: &[(45, 3, 2), (18, 4, 4), (3, 1, 2)],
    },
    tried_before: &["A spray of water. He barks at plant misters now too."],
    triggers: &[
        trigger("dogs across the square", 40, "Barks, bounces, redirects on to the lead."),
        trigger("buggies with the hood up", 15, "Growl, then bark, backing off."),
    ],
    reinforcers: &[
        food("venison sausage", 5, 2.0, 0.5),
        food("fish skin cubes", 4, 3.4, 0.3),
        toy("old sock in a sock", 3),
    ],
    places: &[fenced("flat", 1), roadside("the square, before seven", 4), open("allotment path", 2)],
    versions: &[version(
        43,
        "Two exercises, five minutes each, and the window covered. Nobody with a baby in the house should be given homework, so this is the smallest plan I know how to write.",
    )],
    standing: &["blocked-view", "children-and-dog-apart"],
    items: &[
        Item {
            key: "eye-contact",
            climb: &[(43, 0), (25, 2)],
            attempts: 8,
            times_a_week: 3,
            logged_a_week: 2,
            when: "first nap",
            place: "allotment path",
            reinforcer: "fish skin cubes",
            cool_down: None,
            met: (65, 90),
            met_now: (60, 70),
            ..Item::ON_LEAD
        },
        Item {
            key: "seen-from-far-off",
            climb: &[(43, 0)],
            attempts: 0,
            times_a_week: 2,
            logged_a_week: 1,
            when: "Hamid, when he is home by light",
            place: "allotment path",
            reinforcer: "venison sausage",
            reading: (70, 60),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm { first: 42, last: 5, hours: &[10, 16], one_tap: 60, cooled_down: 80, arousal: (3, 3) },
    notes: &[
        good("eye-contact", "Looked at me seven times. That is more than anybody else has today.").of(7, 8),
        hard("eye-contact", "Did this with the baby in the sling and cried and so did he. The dog was fine."),
        hard(
            "seen-from-far-off",
            "Spaniel off lead came bowling up. \"He only wants to say hello.\" No, he does not.",
        ),
        good(
            "seen-from-far-off",
            "Hamid saw three dogs and came home with all his sausage used and a big smile.",
        ),
        hard("", "Four hours' sleep. Did two.").of(2, 2),
        good("eye-contact", "Empty path, fog, nobody else in the world."),
    ],
    moments: &[Moment {
        days_ago: 4,
        hour: 11,
        item: "seen-from-far-off",
        by: "saima",
        place: "the square, before seven",
        busy: Busy::Busy,
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        minutes: 5,
        arousal: (4, 5),
        food: TookFood::Refused,
        looked: Looked::WoundUp,
        recovery: Recovery::Longer,
        cool_down: Some((0, CoolDown::StraightHome)),
        note: "Could not get to the allotments. Two dogs, one each side. A woman told me I should not have a dog if I could not control it.",
        ..Moment::USUAL
    }],
    encounters: &[
        met(30, "hamid", "Labrador behind a hedge", 8, 3, Recovery::Within15, "Neither of us saw it."),
        met(
            10,
            "saima",
            "Buggy, twins",
            6,
            3,
            Recovery::Within15,
            "The other mother was nice. We compared sleep.",
        ),
        met(
            4,
            "saima",
            "Loose dog on the square",
            2,
            4,
            Recovery::Longer,
            "I picked him up and he caught my sleeve. Not skin.",
        ),
    ],
    messages: &[
        said(43, "saima", "Is it bad that I only managed one of the two?"),
        said(
            43,
            "morwenna",
            "It is one more than nothing and I would have bet on nothing, with a newborn. Well done.",
        ),
        said(19, "hamid", "Window film is up. Silence. I keep checking that he is alive."),
        said(
            4,
            "saima",
            "I am not coping. I sat on the stairs with both of them and could not make myself go out again. I am sorry to write this in here.",
        ),
    ],
    trainer_notes: &[
        said(
            43,
            "morwenna",
            "Good people, no slack in the week. Dog not a danger to the baby as seen; apart-unless-between is kept. Ask about a walker who understands.",
        ),
        said(18, "morwenna", "Hamid could take the whole of the distance work. Suggest."),
    ],
    life_events: &[life(
        84,
        0,
        LifeKind::Other,
        "Zara, born a week after he came. She is lovely. Nobody sleeps.",
    )],
    ..Dog::PLAIN
};
