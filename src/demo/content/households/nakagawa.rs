//! The Nakagawa-Bell household: Ned and Parsnip.

use crate::demo::content::build::*;
use crate::demo::content::types::*;

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "nakagawa",
    name: "Nakagawa-Bell",
    about: "Thatched cottage, low beams, stair gates for the short one and a ramp for the long one.",
    children: &[],
    owners: &[
        owner("hester", "Hester Bell", "07700 900229", 6),
        owner("koji", "Koji Nakagawa", "07700 900230", 4),
    ],
    dogs: &[NED, PARSNIP],
};

/// Finished the hard part; keeps it up.
const NED: Dog = Dog {
    key: "ned",
    name: "Ned",
    story: Story::Maintaining,
    phase: Phase::Maintaining,
    trainer: "yusra",
    joined: 320,
    profile: Profile {
        breed: "golden retriever",
        sex: Sex::Male,
        age_days: 4090,
        weights: &[(300, 36.5), (120, 34.0), (20, 33.2)],
        adult_kg: 33.0,
        activity: Activity::Low,
        coat: Coat::Long,
        orthopaedic: "Hips, daily tablet. Ramp for the car. Slow to rise, no worse this year.",
        heart_breathing: "Heard twice a year, good for his age.",
        medicines: &["pain relief, once a day with breakfast"],
        other: "Carries a wellington everywhere, always the left.",
        food: "dry senior food",
        food_kcal_g: 3.4,
        vet: Vet::Cleared(21),
        off_lead: &["orchard behind the church"],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "For the puppy to be a pleasure to him and not a sentence.",
        readings: &[(84, 7, 6), (50, 8, 9), (18, 9, 10)],
    },
    tried_before: &["Letting them sort it out. Ned sorted it out by living in the bath."],
    triggers: &[trigger("a puppy on his bed", 2, "Gets up and leaves, sighing.")],
    reinforcers: &[
        food("apple slices", 4, 0.52, 2.0),
        food("rice cake bits", 4, 3.9, 0.3),
        meal("senior kibble", 3, 3.4, 0.4),
    ],
    places: &[
        fenced("kitchen, puppy about", 2),
        fenced("orchard behind the church", 2),
        open("drove road", 3),
    ],
    versions: &[version(
        83,
        "You have earned the short version: his bed is his, one settle with the puppy in the room, and the drove road at his pace.",
    )],
    standing: &["own-rest-place", "food-and-chews-apart"],
    items: &[
        Item {
            key: "settle-on-a-mat",
            climb: &[(83, 3), (50, 4)],
            attempts: 0,
            times_a_week: 2,
            logged_a_week: 1,
            minutes: 10,
            when: "after supper, puppy in her pen",
            place: "kitchen, puppy about",
            reinforcer: "apple slices",
            reading: (180, 620),
            ..Item::CALM
        },
        Item {
            key: "wind-down-walk",
            climb: &[(83, 2)],
            attempts: 0,
            times_a_week: 3,
            logged_a_week: 1,
            minutes: 15,
            when: "the two of us, without the puppy",
            place: "drove road",
            reinforcer: "rice cake bits",
            cool_down: None,
            reading: (6, 4),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm { first: 82, last: 6, hours: &[20, 10], one_tap: 70, cooled_down: 100, arousal: (2, 1) },
    notes: &[
        good("wind-down-walk", "He led. We ended up at the butcher's."),
        good("settle-on-a-mat", "Puppy squeaked for a quarter of an hour. He turned over."),
        hard("wind-down-walk", "Stiff after the rain, to the gate and back, wellington and all."),
        good("", "Koji says log that he was perfect. He was perfect. He was asleep."),
        hard(
            "settle-on-a-mat",
            "Parsnip got out and sat on his head. He brought her to me by the look on his face.",
        ),
        good("wind-down-walk", "Met his old friend the donkey. They stood."),
    ],
    encounters: &[met(
        22,
        "hester",
        "Puppy fell in his water bowl",
        0,
        1,
        Recovery::Within5,
        "He waited for somebody to deal with it.",
    )],
    messages: &[
        said(60, "hester", "Is it all right that he does less than last year?"),
        said(
            60,
            "yusra",
            "It is all right that he is nearly twelve. If less comes suddenly, or he minds being touched, vet before plan.",
        ),
        said(19, "koji", "They slept in the same room. Different beds, same rhythm."),
        said(
            18,
            "yusra",
            "That is the goal, I think. I will look in at the turn of the season unless you want me sooner.",
        ),
    ],
    trainer_notes: &[said(
        83,
        "yusra",
        "Came last year for pulling on the lead; sore hips behind it. Vet and a ramp did more than I did.",
    )],
    check_ins: &[(57, "hester"), (43, "koji"), (29, "hester"), (15, "hester")],
    ..Dog::PLAIN
};

/// Five months, small in every way but one; going well.
const PARSNIP: Dog = Dog {
    key: "parsnip",
    name: "Parsnip",
    story: Story::BoltedAnswered,
    trainer: "yusra",
    joined: 50,
    profile: Profile {
        breed: "miniature dachshund",
        neutered: false,
        age_days: 152,
        weights: &[(50, 2.1), (25, 3.0), (5, 3.7)],
        adult_kg: 4.8,
        orthopaedic: "Long back: no stairs, no sofa jumps, two hands to lift.",
        other: "Sings at the kettle.",
        food: "dry small-breed puppy food",
        food_kcal_g: 3.9,
        vet: Vet::Cleared(40),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "That one of us can have a bath without an audience howling.",
        readings: &[(50, 3, 4), (20, 6, 7), (4, 8, 7)],
    },
    tried_before: &["Ignoring it. So did next door, until they did not."],
    triggers: &[trigger("a closed door with a person behind it", 0, "Whines, then sings.")],
    reinforcers: &[
        food("salmon, boiled", 5, 2.06, 0.2),
        meal("puppy kibble", 3, 3.9, 0.1),
        toy("half a glove", 4),
    ],
    places: &[fenced("kitchen", 1), fenced("front garden", 2)],
    versions: &[
        version(
            48,
            "Tiny times behind tiny doors, and a mat of her own well away from Ned's. Three minutes a go, and only when she has slept.",
        ),
        version(
            15,
            "Half a minute is easy now, so two minutes. Some goes shorter than the last: it should not only ever get harder.",
        ),
    ],
    standing: &["own-rest-place", "food-and-chews-apart", "someone-with-her"],
    items: &[
        Item {
            key: "alone-in-small-steps",
            climb: &[(48, 0), (31, 1), (15, 2)],
            attempts: 0,
            times_a_week: 5,
            logged_a_week: 4,
            minutes: 3,
            when: "when the kettle has boiled and she has finished singing",
            place: "kitchen",
            reinforcer: "salmon, boiled",
            reading: (4, 150),
            ..Item::CALM
        },
        Item {
            key: "name-response",
            climb: &[(48, 0), (36, 1), (18, 2)],
            attempts: 6,
            times_a_week: 4,
            logged_a_week: 3,
            minutes: 2,
            when: "in the front garden with the paper",
            place: "front garden",
            reinforcer: "puppy kibble",
            met: (72, 96),
            met_now: (60, 70),
            ..Item::CALM
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(48, 0), (26, 1)],
            attempts: 0,
            minutes: 4,
            when: "while Ned has his walk",
            place: "kitchen",
            reinforcer: "puppy kibble",
            reading: (20, 250),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm {
        first: 47,
        last: 0,
        hours: &[8, 13, 10],
        one_tap: 45,
        cooled_down: 100,
        arousal: (2, 2),
    },
    notes: &[
        good("alone-in-small-steps", "Bath. With bubbles. Two minutes of them.").read(120),
        hard("alone-in-small-steps", "She saw my toes under the door."),
        good("name-response", "Turned so hard she went round twice."),
        hard("name-response", "A beetle. There is no competing with a beetle."),
        good("settle-on-a-mat", "Asleep like a dropped sock."),
        good("alone-in-small-steps", "Koji went for a pint of milk and nobody noticed but me."),
        hard("settle-on-a-mat", "Teething on the corner of the mat. Swapped it for a carrot."),
        hard("", "Vaccination day, grumpy, cuddles only after one go.").of(1, 1),
    ],
    moments: &[Moment {
        days_ago: 4,
        hour: 13,
        item: "name-response",
        by: "koji",
        place: "front garden",
        minutes: 2,
        attempts: 6,
        met: 5,
        rewards: 5,
        incident: Some(Incident {
            days_ago: 4,
            kind: IncidentKind::Bolted,
            skin_broken: false,
            towards: "the postman's trolley",
            whom: None,
            facts: "Under the gate, which I would have sworn she could not. Two doors down, ten minutes, came out for salmon.",
        }),
        note: "Small dogs go through small holes. The hole is a brick smaller now.",
        answer: Some(Answer {
            days_ago: 3,
            by: "yusra",
            words: "Rang Koji. Board along the foot of the gate, short lead in the front garden until it is up, and the name game indoors this week.",
        }),
        ..Moment::USUAL
    }],
    encounters: &[
        met(
            26,
            "koji",
            "Great big dog over the gate",
            3,
            2,
            Recovery::Within5,
            "Retired behind Ned. Ned was flattered.",
        ),
        met(8, "hester", "Chimney sweep", 4, 0, Recovery::Within5, "Wanted to help."),
    ],
    messages: &[
        said(47, "hester", "We managed four seconds. Is four seconds a thing?"),
        said(47, "yusra", "Four is a thing. Four times four seconds is a good morning's work."),
        said(16, "hester", "Half a minute with the door shut and she was washing her ear when I came in."),
        said(15, "yusra", "Ear-washing is as good as it gets. New times are on the plan."),
        said(
            4,
            "koji",
            "The neighbours have sent a card. It says thank you. It has a dachshund on it, asleep.",
        ),
    ],
    trainer_notes: &[
        said(
            48,
            "yusra",
            "Noisy, not panicked: eats, plays, stops when bored. Keep below the first whine. Back care told to both.",
        ),
        said(15, "yusra", "Videos excellent. Leave them to it."),
    ],
    lessons: &[
        held(
            48,
            (10, 30),
            "At home",
            "Three minutes at a time, behind the tiny door, and her own mat. She learns fast; stop while she still wants more.",
            "Ned keeps out of it by himself. Puppy was tired by the end: book the next one for the morning.",
        ),
        held(
            15,
            (10, 30),
            "At home",
            "Half a minute alone is easy now. Some goes stay short, so that going away is never only harder.",
            "",
        ),
        ahead(6, (10, 30), 60, "At home"),
    ],
    package: Some((4, 48, "Puppy course.")),
    ..Dog::PLAIN
};
