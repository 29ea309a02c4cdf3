//! The Abernethy-Cole household: Fenn and Corrie.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "abernethy",
    name: "Abernethy-Cole",
    about: "Hill smallholding, forty ewes, a lane used by cyclists in long strings.",
    children: &[8],
    owners: &[
        owner("isla", "Isla Abernethy-Cole", "07700 900231", 7),
        owner("brannoch", "Brannoch Cole", "07700 900232", 3),
    ],
    dogs: &[FENN, CORRIE],
};

/// Counts say likely ready; the trainer has to say the word.
const FENN: Dog = Dog {
    key: "fenn",
    name: "Fenn",
    story: Story::ReadyToMoveOn,
    trainer: "desmond",
    joined: 66,
    profile: Profile {
        breed: "Border collie",
        sex: Sex::Male,
        age_days: 1210,
        weights: &[(66, 19.0), (24, 18.8)],
        adult_kg: 19.0,
        condition: 4,
        activity: Activity::High,
        coat: Coat::Thick,
        other: "Does not work sheep; the sheep would rather he did not.",
        food: "dry active food, chicken",
        food_kcal_g: 4.0,
        vet: Vet::Cleared(61),
        incidents: &[Incident {
            days_ago: 110,
            kind: IncidentKind::Snap,
            skin_broken: false,
            towards: "a pannier",
            whom: None,
            facts: "Nipped the strap of a passing pannier, no skin, no fall.",
        }],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "Stand in our own lane while a cycling club goes by, and say good morning to them.",
        readings: &[(66, 2, 2), (36, 5, 6), (7, 7, 7)],
    },
    tried_before: &["Sit and stare at me until they have gone. He sat. He did not stare at me."],
    triggers: &[
        trigger("bicycles in a string", 50, "Drops, eye, creeps."),
        trigger("quad bike", 25, "Circles, barks."),
    ],
    reinforcers: &[
        food("mutton, cold", 5, 2.5, 0.5),
        food("cheese rind", 4, 4.0, 0.3),
        toy("baler-twine plait", 5),
    ],
    places: &[fenced("yard, gates shut", 2), open("top gate, above the lane", 3), roadside("the lane", 5)],
    versions: &[
        version(
            64,
            "A look at you is worth more than anything on two wheels. In the yard first, then from the top gate, well above the lane.",
        ),
        version(31, "Top gate now. Any look counts there; do not wait for a long one."),
    ],
    standing: &["blocked-view", "line-on-the-harness"],
    items: &[
        Item {
            key: "eye-contact",
            climb: &[(64, 0), (50, 2), (42, 3), (31, 4)],
            attempts: 10,
            times_a_week: 4,
            logged_a_week: 2,
            when: "after feeding round",
            place: "top gate, above the lane",
            reinforcer: "mutton, cold",
            cool_down: None,
            met: (66, 94),
            met_now: (58, 70),
            ..Item::ON_LEAD
        },
        Item {
            key: "loose-lead",
            climb: &[(64, 2), (40, 4)],
            attempts: 8,
            times_a_week: 3,
            logged_a_week: 2,
            when: "down to fetch the school bus",
            place: "top gate, above the lane",
            reinforcer: "cheese rind",
            met: (70, 94),
            met_now: (60, 70),
            ..Item::ON_LEAD
        },
        Item {
            key: "wind-down-walk",
            climb: &[(64, 1)],
            attempts: 0,
            times_a_week: 3,
            logged_a_week: 2,
            minutes: 15,
            when: "last look at the ewes",
            place: "yard, gates shut",
            reinforcer: "cheese rind",
            cool_down: None,
            reading: (14, 5),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm { first: 63, last: 1, hours: &[7, 16, 19], one_tap: 25, cooled_down: 92, arousal: (3, 2) },
    notes: &[
        good(
            "eye-contact",
            "Two bicycles. Two looks. Two bits of mutton. I said good morning from the hill.",
        ),
        hard(
            "eye-contact",
            "Time trial. They came like starlings. Backed off to the sheep dip and had an easy one.",
        ),
        good(
            "loose-lead",
            "To the bus and back with one finger. Ailsa says he walks like a gentleman in a film.",
        ),
        hard("loose-lead", "Quad on the lane, arm sore."),
        good("eye-contact", "Looked round BEFORE I heard them. He is my early warning."),
        hard("eye-contact", "Horizontal rain. Neither of us could look at anybody."),
        good("wind-down-walk", "Checked every molehill. Reported nothing."),
        hard("", "Flock book to do, short one."),
    ],
    moments: &[
        LOOK,
        Moment {
            days_ago: 4,
            attempts: 10,
            met: 10,
            rewards: 10,
            note: "Six riders in ones and twos. He looked before I had my hand ready.",
            ..LOOK
        },
        Moment {
            days_ago: 3,
            hour: 11,
            by: "desmond",
            attempts: 10,
            met: 10,
            rewards: 10,
            note: "Lesson at the top gate. Ten of ten, loose all through, two bicycles below.",
            ..LOOK
        },
        Moment {
            days_ago: 1,
            attempts: 10,
            met: 10,
            rewards: 10,
            note: "Ten. I have run out of mutton and excuses.",
            ..LOOK
        },
    ],
    encounters: &[
        met(
            45,
            "isla",
            "Club run, thirty of them",
            15,
            3,
            Recovery::Within15,
            "Too near, they came from the other end. Twine held, dignity did not.",
        ),
        met(
            14,
            "brannoch",
            "Postie's electric trike",
            20,
            1,
            Recovery::Within5,
            "Looked, then looked at me like, seriously?",
        ),
    ],
    messages: &[
        said(63, "isla", "Do I tell the cyclists?"),
        said(
            63,
            "desmond",
            "Yes, if you like. A club that knows what you are doing will often wave you a warning, and waving is slow.",
        ),
        said(32, "isla", "Four steps up in the yard, in a month. Is the lane next?"),
        said(31, "desmond", "The top gate is next. The lane can wait until he is bored up there."),
        said(6, "brannoch", "I think he is bored up there."),
        said(4, "isla", "These six: is that a morning to count, or was it only luck?").about_the_last(),
        said(4, "desmond", "It counts. Two more like it and we talk about the lane."),
    ],
    trainer_notes: &[
        said(
            31,
            "desmond",
            "Eye and creep gone in the yard. Keep height and distance; lane is 40 m below the gate.",
        ),
        said(3, "desmond", "Saw ten of ten. Decide on the next rung when the count says so."),
    ],
    life_events: &[life(
        24,
        24,
        LifeKind::Fireworks,
        "Young farmers’ bonfire over the hill. He slept in the porch.",
    )],
    lessons: &[ahead(3, (8, 30), 60, "top gate, above the lane")],
    ..Dog::PLAIN
};

/// Fenn at the top gate: the sittings that settle the count.
const LOOK: Moment = Moment {
    days_ago: 6,
    hour: 8,
    item: "eye-contact",
    by: "isla",
    place: "top gate, above the lane",
    line: Line::ShortLead,
    clip: Some(Clip::HarnessBack),
    minutes: 7,
    attempts: 10,
    met: 9,
    rewards: 9,
    cool_down: Some((5, CoolDown::SniffWalk)),
    note: "Nine, and the one he did not was my phone ringing.",
    ..Moment::USUAL
};

/// His aunt, easy company.
const CORRIE: Dog = Dog {
    key: "corrie",
    name: "Corrie",
    story: Story::GoingWell,
    trainer: "desmond",
    joined: 66,
    profile: Profile {
        breed: "Border collie",
        age_days: 2600,
        weights: &[(66, 17.2), (24, 17.2)],
        adult_kg: 17.0,
        activity: Activity::High,
        coat: Coat::Thick,
        other: "Retired from trials, still marks everybody's work.",
        food: "dry active food, chicken",
        food_kcal_g: 4.0,
        vet: Vet::Cleared(61),
        off_lead: &["yard, gates shut"],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "Nails. I would like to do her nails without feeling like a villain.",
        readings: &[(66, 3, 3), (33, 6, 8), (9, 8, 7)],
    },
    tried_before: &["Two people and a towel, once. She did not come into that room for a month."],
    triggers: &[trigger("clippers", 3, "Leaves. Slowly, so as not to be rude.")],
    reinforcers: &[food("mutton, cold", 5, 2.5, 0.5), food("cheese rind", 4, 4.0, 0.3)],
    places: &[fenced("kitchen", 1), fenced("yard, gates shut", 2), open("drove above the house", 3)],
    versions: &[
        version(
            64,
            "Chin on hand is her way of saying go on. When the chin lifts, everything stops, clippers included.",
        ),
        version(
            28,
            "She says yes to being touched. One nail, on a day when nothing hurts, and then the good mutton.",
        ),
    ],
    standing: &["own-rest-place"],
    owner_skills: &["timing-the-yes"],
    items: &[
        Item {
            key: "chin-rest",
            climb: &[(64, 0), (52, 1), (41, 2), (28, 3), (10, 4)],
            attempts: 6,
            times_a_week: 4,
            logged_a_week: 3,
            minutes: 4,
            when: "by the stove, boots off",
            place: "kitchen",
            reinforcer: "mutton, cold",
            met: (72, 96),
            met_now: (60, 70),
            ..Item::CALM
        },
        Item {
            key: "hand-target",
            climb: &[(64, 2), (50, 3), (34, 4), (18, 5)],
            attempts: 8,
            times_a_week: 2,
            logged_a_week: 2,
            minutes: 3,
            when: "Brannoch, between gates",
            place: "drove above the house",
            reinforcer: "cheese rind",
            met: (84, 97),
            met_now: (88, 97),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 63, last: 1, hours: &[21, 12], one_tap: 50, cooled_down: 100, arousal: (2, 1) },
    notes: &[
        good("chin-rest", "One nail. ONE NAIL. We had a dram, she had mutton."),
        hard(
            "chin-rest",
            "Chin up at the click of the clippers, so we clipped a matchstick for her to hear.",
        ),
        good("hand-target", "Touches like she is stamping a passport."),
        hard("chin-rest", "Thorn in the pad, pulled it, left her be for two days."),
        good("chin-rest", "She put her chin down before I had sat."),
        good("hand-target", "Past the tup and all. B."),
        hard("", "Fenn wanted a turn as well. Shut the door next time."),
    ],
    messages: &[
        said(62, "isla", "What if she never puts her chin down?"),
        said(
            62,
            "desmond",
            "Then she has said no and you have heard it, and tomorrow you ask for less. In my experience it is the hearing that does it.",
        ),
        said(9, "isla", "Three nails this week, three more than in her life."),
        said(9, "desmond", "There are plenty of years for the other fifteen."),
    ],
    trainer_notes: &[said(
        64,
        "desmond",
        "Clever, fair, remembers everything. Isla slow and kind. Easy one; still write to them.",
    )],
    encounters: &[met(
        17,
        "brannoch",
        "Ram on the wrong side of the gate",
        3,
        0,
        Recovery::Within5,
        "She dealt with it.",
    )],
    life_events: &[
        life(52, 46, LifeKind::Medicine, "Tablets for a week after the thorn, with food."),
        life(38, 33, LifeKind::Illness, "Upset stomach. Vet rang back: rice and rest."),
    ],
    ..Dog::PLAIN
};
