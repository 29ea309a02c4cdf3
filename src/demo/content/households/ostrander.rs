//! The Ostrander household: Magnus.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "ostrander",
    name: "Ostrander",
    about: "Big house, small car. Two teenagers who do most of it.",
    children: &[13, 16],
    owners: &[
        owner("anneke", "Anneke Ostrander", "07700 900234", 5),
        owner("piet", "Piet Ostrander", "07700 900235", 5),
    ],
    dogs: &[MAGNUS],
};

/// Away for three weeks; silence is expected.
const MAGNUS: Dog = Dog {
    key: "magnus",
    name: "Magnus",
    story: Story::Paused,
    phase: Phase::Paused,
    trainer: "desmond",
    joined: 72,
    profile: Profile {
        breed: "Great Dane",
        sex: Sex::Male,
        age_days: 1000,
        weights: &[(72, 66.0), (30, 67.5)],
        adult_kg: 67.0,
        activity: Activity::Moderate,
        orthopaedic: "Vet happy with hips and neck.",
        heart_breathing: "Heart scan clear last year; repeat when four.",
        other: "Two small meals, an hour's rest after each: ask the family about bloat signs, they know them by heart.",
        food: "dry giant-breed food",
        food_kcal_g: 3.7,
        vet: Vet::Cleared(65),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "For the kids to be able to walk him. Both at once, at least.",
        readings: &[(72, 2, 2), (42, 5, 6), (25, 6, 6)],
    },
    tried_before: &["A thicker lead."],
    triggers: &[trigger("small white dogs", 20, "Bows, then goes to them, with whoever is holding him.")],
    reinforcers: &[food("gouda cubes", 5, 3.6, 1.0), meal("his own food", 3, 3.7, 0.8)],
    places: &[fenced("drive, gates shut", 2), open("playing field, school hours", 3)],
    versions: &[
        version(
            70,
            "Adults hold the lead, the children pay him. Slack lead in short stretches, and a settle at the side of the pitch.",
        ),
        version(32, "Out on the field. When you are away, be away: no homework in a tent."),
    ],
    standing: &["gate-for-visitors"],
    items: &[
        Item {
            key: "loose-lead",
            climb: &[(70, 1), (54, 2), (32, 4)],
            attempts: 8,
            times_a_week: 4,
            logged_a_week: 3,
            when: "after school, one adult on the lead",
            place: "playing field, school hours",
            reinforcer: "gouda cubes",
            met: (64, 93),
            met_now: (58, 70),
            ..Item::ON_LEAD
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(70, 0), (44, 1)],
            attempts: 0,
            times_a_week: 3,
            logged_a_week: 2,
            minutes: 10,
            when: "homework hour, theirs",
            place: "drive, gates shut",
            reinforcer: "his own food",
            reading: (40, 400),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 69, last: 14, hours: &[16, 18], one_tap: 40, cooled_down: 90, arousal: (3, 2) },
    notes: &[
        good("loose-lead", "Walked past a bichon. PAST."),
        hard("loose-lead", "Did not walk past the second bichon."),
        good("settle-on-a-mat", "He needs two mats. He has two mats. Asleep on both."),
        hard("settle-on-a-mat", "Pizza delivery. Stood up like a garden shed being lifted."),
        good("loose-lead", "Lotte fed, I held, nobody fell over."),
        hard("", "Very wet, very large dog in a very small car."),
        good("loose-lead", "Seven of eight, and the goalkeeper cheered.").of(7, 8),
    ],
    moments: &[Moment {
        days_ago: 32,
        hour: 13,
        item: "loose-lead",
        by: "desmond",
        place: "playing field, school hours",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessFront),
        minutes: 8,
        attempts: 8,
        met: 7,
        rewards: 7,
        arousal: (3, 2),
        cool_down: Some((5, CoolDown::SniffWalk)),
        note: "Lesson on the field. Tried the front ring with Anneke: steadier. Seven of eight.",
        ..Moment::USUAL
    }],
    encounters: &[met(
        40,
        "piet",
        "Bichon, small, rude",
        5,
        3,
        Recovery::Within5,
        "I moved some way without using my legs.",
    )],
    messages: &[
        said(69, "anneke", "Lotte is thirteen and strong. Really not the lead?"),
        said(
            69,
            "desmond",
            "He is twice her weight and he loves bichons. She pays, you hold; in a month we look again.",
        ),
        said(
            15,
            "anneke",
            "Off tomorrow for three weeks, tent, coast, all of us including him. Shall I log?",
        ),
        said(
            14,
            "desmond",
            "No. Paddle. I have paused the plan until you are back, and it will not have forgotten you.",
        ),
    ],
    trainer_notes: &[said(
        32,
        "desmond",
        "Kind giant, no malice, no brakes. Piet pulls back without noticing.",
    )],
    life_events: &[life(
        13,
        0,
        LifeKind::Holiday,
        "Three weeks by the sea with a tent bigger than our kitchen.",
    )],
    ..Dog::PLAIN
};
