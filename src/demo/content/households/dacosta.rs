//! The Da Costa household: Quill.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "dacosta",
    name: "Da Costa",
    about: "Ex-farm with a fenced yard. Marathon swimmer and a potter; the kiln room is out of bounds.",
    children: &[],
    owners: &[
        owner("inacio", "Inácio Da Costa", "07700 900222", 7),
        owner("thora", "Thora Da Costa", "07700 900223", 3),
    ],
    dogs: &[QUILL],
};

/// Works brilliantly and ends higher than she began.
const QUILL: Dog = Dog {
    key: "quill",
    name: "Quill",
    story: Story::StillHigh,
    trainer: "desmond",
    joined: 52,
    profile: Profile {
        breed: "Belgian shepherd cross",
        age_days: 1010,
        weights: &[(52, 24.0), (8, 23.2)],
        adult_kg: 23.5,
        condition: 4,
        activity: Activity::High,
        coat: Coat::Short,
        other: "Chases light. No torches, no watch faces, no glazed tiles in the sun.",
        food: "dry active food, pork",
        food_kcal_g: 4.1,
        vet: Vet::Cleared(49),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "An off switch. I keep looking under the fur for it.",
        readings: &[(52, 3, 4), (24, 4, 3), (2, 4, 5)],
    },
    tried_before: &["More sport. A second sport.", "Chews that said calming on the packet."],
    triggers: &[
        trigger("moving vehicles", 20, "Stares, trembles, then spins."),
        trigger("a dropped tool in the studio", 0, "Barks, paces, half an hour."),
    ],
    reinforcers: &[toy("jute roll", 5), food("eel, smoked, tiny", 5, 2.8, 0.3), meal("kibble", 3, 4.1, 0.2)],
    places: &[
        fenced("studio", 1),
        fenced("yard", 2),
        fenced("top meadow, deer-fenced", 3),
        roadside("lane end", 4),
    ],
    versions: &[
        version(
            50,
            "Half the speed, twice the nose. A search only when she starts quiet, and the mat after it whether she likes it or not, with eel.",
        ),
        version(
            18,
            "I would like to see what happens if we do even less. One search a week, swaps with a dull toy, and a sniffing walk on every other day.",
        ),
    ],
    standing: &["own-rest-place", "line-on-the-harness"],
    items: &[
        Item {
            key: "toy-exchange",
            climb: &[(50, 0), (36, 1), (18, 2)],
            attempts: 6,
            times_a_week: 2,
            logged_a_week: 2,
            minutes: 6,
            when: "before Inácio swims",
            place: "yard",
            reinforcer: "eel, smoked, tiny",
            cool_down: Some((5, CoolDown::Chew)),
            met: (80, 97),
            met_now: (84, 96),
            ..Item::CALM
        },
        Item {
            key: "moving-search",
            climb: &[(50, 0), (42, 1), (34, 2), (26, 3), (18, 4)],
            attempts: 5,
            times_a_week: 1,
            logged_a_week: 1,
            when: "late afternoon",
            place: "top meadow, deer-fenced",
            reinforcer: "jute roll",
            met: (80, 95),
            met_now: (82, 95),
            ..Item::LONG_LINE
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(50, 0)],
            attempts: 0,
            times_a_week: 6,
            logged_a_week: 3,
            minutes: 8,
            when: "in the studio while Thora wedges clay",
            place: "studio",
            reinforcer: "kibble",
            reading: (10, 70),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 49, last: 4, hours: &[6, 16, 11], one_tap: 15, cooled_down: 90, arousal: (3, 3) },
    notes: &[
        good("toy-exchange", "Let go at the s of swap."),
        hard("settle-on-a-mat", "Lay like a coiled spring. Technically down."),
        good("moving-search", "Nose, nose, nose. Then found, and a small sneeze."),
        hard(
            "moving-search",
            "A hare lifted before the word. She waited, vibrating. Took the eel with her whole face.",
        ),
        good("settle-on-a-mat", "Fifty seconds, then a sigh. I wrote it on the wall in slip.").read(50),
        hard("toy-exchange", "Brilliant for six and then could not stop asking. Paced until ten. T.")
            .of(6, 6),
        hard("", "A kiln shelf went over. Enough for one day. T."),
        good("", "Walked the hedge for half an hour at her speed. Slower than I have ever seen her."),
    ],
    moments: &[
        Moment {
            days_ago: 3,
            hour: 16,
            item: "moving-search",
            by: "inacio",
            place: "top meadow, deer-fenced",
            line: Line::LongLine,
            clip: Some(Clip::HarnessBack),
            minutes: 10,
            attempts: 5,
            met: 5,
            rewards: 5,
            arousal: (3, 5),
            food: TookFood::Snatched,
            looked: Looked::WoundUp,
            recovery: Recovery::Longer,
            cool_down: Some((12, CoolDown::SniffWalk)),
            note: "Five of five and not there at all. We did the sniff walk, she did it at a trot.",
            ..Moment::USUAL
        },
        Moment {
            days_ago: 1,
            hour: 17,
            item: "toy-exchange",
            by: "inacio",
            place: "yard",
            minutes: 6,
            attempts: 6,
            met: 6,
            rewards: 6,
            arousal: (2, 4),
            food: TookFood::Snatched,
            looked: Looked::WoundUp,
            recovery: Recovery::NotYet,
            cool_down: Some((10, CoolDown::Chew)),
            note: "Perfect on paper. Still patrolling the yard as I write, an hour on.",
            ..Moment::USUAL
        },
    ],
    encounters: &[met(
        28,
        "thora",
        "Milk tanker",
        15,
        3,
        Recovery::Longer,
        "Spun at the end of the lead. We now know when the tanker comes.",
    )],
    messages: &[
        said(49, "inacio", "Is there nothing faster we could give her? She loves it."),
        said(
            49,
            "desmond",
            "She loves it the way some people love coffee at midnight. Let us find what she loves that also lets her sleep.",
        ),
        said(
            19,
            "thora",
            "She watched me throw a whole jug without getting up. I sold it as a seconds, it is crooked, I was watching her.",
        ),
        said(18, "desmond", "Keep that jug. Slower plan attached, and I mean every empty day in it."),
    ],
    trainer_notes: &[
        said(
            50,
            "desmond",
            "Can do anything, cannot stop. Light-chasing: ask the vet behaviourist's opinion if the slower month does not help.",
        ),
        said(18, "desmond", "Counts are flattering here. Judge by how long until she lies down."),
    ],
    answers: &[
        "Agreed with Inácio: no search this week, hedge walks instead.",
        "Shorter: three swaps and stop while she is still a person.",
    ],
    ..Dog::PLAIN
};
