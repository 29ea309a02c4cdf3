//! The Szymanska household: Kluska.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "szymanska",
    name: "Szymanska",
    about: "Top-floor flat with a lift, balcony netted. Works from home, patient as a heron.",
    children: &[],
    owners: &[owner("danuta", "Danuta Szymanska", "07700 900219", 10)],
    dogs: &[KLUSKA],
};

/// Shut down in the lift lobby.
const KLUSKA: Dog = Dog {
    key: "kluska",
    name: "Kluska",
    story: Story::ShutDown,
    phase: Phase::SettlingIn,
    trainer: "morwenna",
    joined: 33,
    profile: Profile {
        breed: "street dog from abroad, fox-coloured",
        age_days: 1100,
        birth_known: BirthPrecision::Estimated,
        weights: &[(33, 14.2), (6, 15.0)],
        adult_kg: 16.0,
        condition: 3,
        activity: Activity::Low,
        coat: Coat::Thick,
        orthopaedic: "Old break of the right foreleg, healed a little crooked.",
        other: "Seven weeks in the country. Blood tests clear. Double lead, harness and collar both on for every doorway.",
        food: "wet complete, goat",
        food_kcal_g: 1.1,
        vet: Vet::Seen(28),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "That she finds out the lift is only a cupboard that moves.",
        readings: &[(33, 4, 4), (4, 5, 4)],
    },
    tried_before: &["Carrying her into the lift. She let me. I did not like how she let me."],
    triggers: &[
        trigger("the lift", 4, "Goes flat, looks through you."),
        trigger("men's voices in the stairwell", 0, "Freezes, will not eat."),
    ],
    reinforcers: &[food("twaróg, crumbled", 5, 1.2, 0.8), food("goat's meat tin, off a spoon", 4, 1.1, 1.5)],
    places: &[fenced("flat", 1), fenced("landing, door shut", 2), open("courtyard, early", 3)],
    versions: &[version(
        31,
        "She chooses everything: whether, how near, how long. If she looks away, the answer is yes, of course. Two minutes is a full sitting.",
    )],
    standing: &["own-rest-place", "quiet-hours-walks"],
    items: &[
        Item {
            key: "yes-means-food",
            climb: &[(31, 0), (14, 2)],
            attempts: 6,
            times_a_week: 5,
            logged_a_week: 5,
            minutes: 2,
            when: "after my first coffee",
            place: "flat",
            reinforcer: "twaróg, crumbled",
            met: (60, 92),
            met_now: (60, 66),
            ..Item::CALM
        },
        Item {
            key: "harness-on-gladly",
            climb: &[(31, 0), (12, 1)],
            attempts: 4,
            times_a_week: 7,
            logged_a_week: 5,
            minutes: 3,
            when: "not before a walk; any other time",
            place: "flat",
            reinforcer: "goat's meat tin, off a spoon",
            met: (50, 88),
            met_now: (55, 66),
            ..Item::CALM
        },
        Item {
            key: "wind-down-walk",
            climb: &[(31, 0)],
            attempts: 0,
            times_a_week: 5,
            logged_a_week: 3,
            minutes: 8,
            when: "half past five, nobody about",
            place: "landing, door shut",
            reinforcer: "twaróg, crumbled",
            cool_down: None,
            reading: (30, 14),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm { first: 30, last: 2, hours: &[9, 20, 5], one_tap: 15, cooled_down: 95, arousal: (2, 2) },
    notes: &[
        good("yes-means-food", "Her tail moved. A small amount. I wrote down the time: 09:12."),
        hard("yes-means-food", "Hoover next door. She ate nothing until evening."),
        good("harness-on-gladly", "Nose through by herself, then looked surprised at where she was."),
        hard("harness-on-gladly", "Turned her head away, so I hung it up again and we watched the pigeons."),
        good("wind-down-walk", "She sniffed a whole staircase. Took nine minutes for one floor."),
        good("yes-means-food", "She came from the other room when she heard the lid of the tub."),
        hard(
            "wind-down-walk",
            "Cleaner's trolley. We sat on the step and waited until it was nobody's fault.",
        ),
        good("", "Slept on her side. I have not seen that before."),
    ],
    moments: &[Moment {
        days_ago: 1,
        hour: 8,
        item: "wind-down-walk",
        by: "danuta",
        place: "landing, door shut",
        busy: Busy::Busy,
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        minutes: 4,
        arousal: (3, 3),
        food: TookFood::Refused,
        looked: Looked::Frozen,
        recovery: Recovery::NotYet,
        cool_down: Some((0, CoolDown::StraightHome)),
        note: "Removal men on our floor, the lift banging. She stood against the wall and would not move or eat, even twaróg. I sat by her twenty minutes, then carried her in. She is in the wardrobe with the door open.",
        ..Moment::USUAL
    }],
    encounters: &[met(
        16,
        "danuta",
        "Boy on the stairs who sat down and did not look at her",
        5,
        1,
        Recovery::Within5,
        "I would like to hire this boy.",
    )],
    messages: &[
        said(30, "danuta", "How will I know that it is working? She does so little."),
        said(
            30,
            "morwenna",
            "Count the small things: eating with her back to you, sleeping on her side, yawns that stretch. Write me one a day.",
        ),
        said(
            14,
            "danuta",
            "On her side! Both hips on one side! I stood like a statue so as not to spoil it.",
        ),
        said(
            13,
            "morwenna",
            "That is the best message of my week. One rung up indoors, nothing new outside.",
        ),
        said(6, "danuta", "She has gained eight hundred grams. The vet says I may keep the goat."),
    ],
    trainer_notes: &[
        said(
            31,
            "morwenna",
            "Learned to go quiet rather than say no. Stillness is not calm with her: read mouth and blink. No lift work until the landing is dull.",
        ),
        said(13, "morwenna", "Danuta notices everything. Trust the notes more than the numbers."),
    ],
    life_events: &[life(
        51,
        33,
        LifeKind::Move,
        "Arrived by van, three days on the road. First weeks at home.",
    )],
    ..Dog::PLAIN
};
