//! The Winterbourne household: Clement.

use crate::demo::content::build::*;
use crate::demo::content::types::*;

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "winterbourne",
    name: "Winterbourne",
    about: "Town centre, no car, market twice a week under the window.",
    children: &[],
    owners: &[
        owner("hal", "Hal Winterbourne", "07700 900220", 6),
        owner("beatrix", "Beatrix Winterbourne", "07700 900221", 4),
    ],
    dogs: &[CLEMENT],
};

/// Stuck at the same rung for a month.
const CLEMENT: Dog = Dog {
    key: "clement",
    name: "Clement",
    story: Story::Stuck,
    trainer: "yusra",
    joined: 74,
    profile: Profile {
        breed: "poodle cross, standard size",
        sex: Sex::Male,
        age_days: 610,
        weights: &[(74, 21.5), (18, 22.4)],
        adult_kg: 22.0,
        coat: Coat::Medium,
        orthopaedic: "Not looked at. Sits with one leg out to the left.",
        other: "Groomer every six weeks, sulks for a day.",
        vet: Vet::Asked(6),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "Get from the front door to the river without arriving with one arm longer.",
        readings: &[(74, 3, 2), (44, 5, 5), (11, 4, 6)],
    },
    tried_before: &[
        "Turning round every time he pulled. We went round and round outside the bakery for three weeks and are known there.",
    ],
    triggers: &[trigger("market stalls", 10, "Head down, pulls for crumbs.")],
    reinforcers: &[
        food("pork scratchings, crushed", 4, 5.5, 0.2),
        food("cucumber", 3, 0.15, 1.5),
        meal("kibble", 2, 3.6, 0.3),
    ],
    places: &[fenced("stairwell", 1), roadside("Tanner's Passage", 3), open("river path", 3)],
    versions: &[
        version(
            72,
            "Slack lead in short stretches. Ten steps that work are worth more than a mile that does not.",
        ),
        version(33, "Up to the quiet passage, twenty metres at a time. Not on market days."),
    ],
    standing: &["quiet-hours-walks"],
    owner_skills: &["timing-the-yes"],
    items: &[
        Item {
            key: "loose-lead",
            climb: &[(72, 0), (58, 1), (47, 2), (33, 3)],
            attempts: 10,
            times_a_week: 4,
            logged_a_week: 4,
            when: "on the way to get bread",
            place: "Tanner's Passage",
            reinforcer: "pork scratchings, crushed",
            met: (66, 93),
            met_now: (60, 60),
            ..Item::ON_LEAD
        },
        Item {
            key: "food-on-the-floor",
            climb: &[(72, 0), (28, 1)],
            attempts: 10,
            times_a_week: 3,
            logged_a_week: 2,
            when: "in the stairwell when it rains",
            place: "stairwell",
            reinforcer: "kibble",
            met: (80, 96),
            met_now: (60, 70),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 71, last: 0, hours: &[7, 17], one_tap: 20, cooled_down: 88, arousal: (3, 3) },
    notes: &[
        hard("loose-lead", "Six. It is always six.").of(6, 10).since(32),
        good("loose-lead", "Eight, but there was a sea fret and nobody could see us, including him.")
            .of(8, 10)
            .since(30),
        hard("loose-lead", "Croissant on the pavement at metre nine.").since(28),
        hard("loose-lead", "Slow today, sat down twice. Tired? It was only the second stretch.").since(24),
        good("food-on-the-floor", "Clockwork. Why can we do this and not that?"),
        hard("loose-lead", "Six again. I said yes late on two, Bea timed me.").of(6, 10).since(16),
        good("loose-lead", "Seven and a half. The half was the last five metres with a pigeon.")
            .of(7, 10)
            .since(12),
        hard("loose-lead", "He leans to the left, or the pavement does.").since(9),
        good("food-on-the-floor", "Did it on the landing with the bin men on the stairs."),
        hard("", "We are doing it properly, I promise."),
    ],
    encounters: &[met(
        26,
        "hal",
        "Cheese van, hatch open",
        3,
        2,
        Recovery::Within5,
        "He did not bark. He prayed.",
    )],
    messages: &[
        said(71, "beatrix", "Do we count stretches where we were the ones who forgot?"),
        said(71, "yusra", "Leave those out. You are allowed to be learning as well."),
        said(34, "hal", "Bakery did a double take. Slack lead all the way past."),
        said(12, "hal", "Four weeks of six out of ten. What are we doing wrong?"),
        said(
            11,
            "yusra",
            "Nothing that I can see; you are beautifully consistent, which is how I can tell that something else is in the way. Would you ask your vet to look at his back and hips? He sat crookedly in your video.",
        ),
        said(6, "hal", "Vet appointment made, earliest was next week."),
    ],
    trainer_notes: &[
        said(
            33,
            "yusra",
            "Owners precise, rate fine. Steps past twenty metres fall apart on the second stretch, not the first.",
        ),
        said(
            11,
            "yusra",
            "Puppy sit, leans left, slower on the way home. Pain until shown otherwise. If cleared: shorter stretch, better food, another street.",
        ),
    ],
    answers: &[
        "Dropped back to ten metres for the rest of the week and asked for a video from behind.",
        "Rang Hal: three stretches at most, then a sniff, until the vet has seen him.",
    ],
    ..Dog::PLAIN
};
