//! The Quartermaine household: Dumpling.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "quartermaine",
    name: "Quartermaine",
    about: "Flat above a launderette, warm floors. One owner, one dog, one sofa.",
    children: &[],
    owners: &[owner("percy", "Percy Quartermaine", "07700 900226", 10)],
    dogs: &[DUMPLING],
};

/// Breathing did not settle after a short walk.
const DUMPLING: Dog = Dog {
    key: "dumpling",
    name: "Dumpling",
    story: Story::VetSigns,
    trainer: "yusra",
    joined: 49,
    profile: Profile {
        breed: "French bulldog",
        sex: Sex::Male,
        age_days: 1580,
        weights: &[(49, 13.8), (14, 13.9)],
        adult_kg: 12.5,
        condition: 7,
        activity: Activity::Low,
        short_nosed: true,
        heart_breathing: "Snores. Noisy after stairs. Vet mentioned the airway operation last year.",
        other: "No exercise above mild weather. Carry him up the stairs.",
        food: "wet complete, light",
        food_kcal_g: 0.9,
        vet: Vet::Seen(45),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "To have the window cleaner come without the two of us needing a lie-down.",
        readings: &[(49, 4, 6), (20, 6, 6)],
    },
    tried_before: &["Closing the curtains. He learned to open the curtains."],
    triggers: &[trigger("ladders", 10, "Barks till he coughs.")],
    reinforcers: &[food("white fish flakes", 5, 1.0, 0.6), food("blueberries", 4, 0.57, 1.0)],
    places: &[fenced("living room", 2), roadside("Laundry Street", 2)],
    versions: &[
        version(
            47,
            "Everything lying down, nothing that makes him puff. The food comes out of his dish, weighed, because he is rounder than his knees would like.",
        ),
        version(
            15,
            "The mat works, so it moves to where he can hear the street. Ladder still two weeks off.",
        ),
    ],
    standing: &["blocked-view"],
    items: &[
        Item {
            key: "settle-on-a-mat",
            climb: &[(47, 0), (30, 1), (15, 3)],
            attempts: 0,
            times_a_week: 5,
            logged_a_week: 4,
            minutes: 8,
            when: "during the shipping forecast",
            place: "living room",
            reinforcer: "blueberries",
            reading: (50, 480),
            ..Item::CALM
        },
        Item {
            key: "hand-target",
            climb: &[(47, 0), (24, 1)],
            attempts: 6,
            times_a_week: 3,
            logged_a_week: 3,
            minutes: 3,
            when: "after lunch",
            place: "living room",
            reinforcer: "white fish flakes",
            met: (78, 95),
            met_now: (80, 93),
            ..Item::CALM
        },
        Item {
            key: "wind-down-walk",
            climb: &[(47, 0), (30, 1)],
            attempts: 0,
            times_a_week: 5,
            logged_a_week: 3,
            minutes: 8,
            when: "before the day warms up",
            place: "Laundry Street",
            reinforcer: "blueberries",
            cool_down: None,
            reading: (12, 7),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm {
        first: 46,
        last: 2,
        hours: &[12, 14, 7],
        one_tap: 55,
        cooled_down: 100,
        arousal: (2, 2),
    },
    notes: &[
        good("settle-on-a-mat", "Snored by Dogger, silent by German Bight."),
        good("hand-target", "Nose like a wet button. Six times.").of(6, 6),
        hard("settle-on-a-mat", "Ladder against the launderette. Even the blueberries rolled away."),
        good("wind-down-walk", "Eleven lamp posts in eight minutes. We are not fast, but we are thorough."),
        hard("wind-down-walk", "Puffing by the second lamp post, so home after four minutes. He agreed."),
        good(
            "settle-on-a-mat",
            "Window cleaner came to the wrong house. Not one bark. Gave us both a biscuit.",
        ),
        hard("hand-target", "Bored of me. Fair enough."),
    ],
    moments: &[Moment {
        days_ago: 0,
        hour: 8,
        item: "wind-down-walk",
        by: "percy",
        place: "Laundry Street",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        minutes: 5,
        arousal: (2, 3),
        food: TookFood::Refused,
        looked: Looked::Worried,
        recovery: Recovery::NotYet,
        signs: &[HealthSign::LabouredBreathing],
        note: "Only went to the corner. Twenty minutes later he is still heaving with his elbows out and will not lie down. Is this his usual snoring or something else?",
        ..Moment::USUAL
    }],
    encounters: &[met(
        29,
        "percy",
        "Ladder, with man",
        12,
        2,
        Recovery::Within15,
        "Barked four times and looked at me. It used to be forty.",
    )],
    messages: &[
        said(46, "percy", "He ate two mats before you came. Should I worry about the third?"),
        said(
            46,
            "yusra",
            "Pick it up between goes and he will not have the time. If he swallows any, ring the vet rather than me.",
        ),
        said(16, "percy", "He slept through the play and most of the news."),
        said(
            15,
            "yusra",
            "Then he is ready to hear a bit of street. Please ask the surgery again about his airway: rest at home should be quiet.",
        ),
    ],
    trainer_notes: &[said(
        47,
        "yusra",
        "Breathing is the ceiling on everything. Owner lovely and thinks snoring is character. Bring up the operation each time, kindly.",
    )],
    lessons: &[ahead(2, (11, 0), 45, "living room")],
    ..Dog::PLAIN
};
