//! The Lazenby household: Rusk.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "lazenby",
    name: "Lazenby",
    about: "New estate at the field edge. Ellis walks mornings, his mum Bernadette on the days he is on shift.",
    children: &[],
    owners: &[
        owner("ellis", "Ellis Lazenby", "07700 900210", 6),
        owner("bernadette", "Bernadette Lazenby", "07700 900211", 4),
    ],
    dogs: &[RUSK],
};

/// Good plan, wrong clip on a rushed morning.
const RUSK: Dog = Dog {
    key: "rusk",
    name: "Rusk",
    story: Story::StopLongLineOnCollar,
    trainer: "desmond",
    joined: 70,
    profile: Profile {
        breed: "Hungarian vizsla",
        sex: Sex::Male,
        neutered: false,
        age_days: 760,
        weights: &[(70, 26.0), (21, 26.8)],
        adult_kg: 27.0,
        condition: 4,
        activity: Activity::High,
        orthopaedic: "Hips scored by the breeder's vet, low.",
        food: "dry active food, duck",
        food_kcal_g: 4.1,
        vet: Vet::Cleared(66),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "Walk the field edge with the hares out and still have a dog at the end of it.",
        readings: &[(70, 3, 4), (40, 5, 5), (10, 6, 8)],
    },
    tried_before: &["A stop whistle from a gundog book. He stops when there is nothing to stop for."],
    triggers: &[
        trigger("hares", 80, "Freezes, one paw up, gone."),
        trigger("pigeons lifting", 30, "Spins at the end of the lead."),
    ],
    reinforcers: &[
        food("liver, baked", 5, 1.9, 0.8),
        toy("rabbit-skin dummy", 5),
        food("cheddar cubes", 3, 4.03, 0.5),
    ],
    places: &[
        fenced("back garden", 2),
        fenced("Sexton's field, hired", 3),
        open("field edge, Lower Mere", 4),
    ],
    versions: &[
        version(
            68,
            "Recall and a search, each with ten minutes' sniffing after. The line goes on the back ring of the harness, always; I have put a photo of it on the hook.",
        ),
        version(
            29,
            "Lower Mere from now on, at the quiet end. Two searches a week at most: they are the pudding, not the dinner.",
        ),
    ],
    standing: &["line-on-the-harness"],
    owner_skills: &["handling-the-line"],
    items: &[
        Item {
            key: "recall-long-line",
            climb: &[(68, 1), (50, 2), (29, 3)],
            attempts: 8,
            times_a_week: 3,
            logged_a_week: 3,
            when: "first walk of the day",
            place: "field edge, Lower Mere",
            reinforcer: "liver, baked",
            met: (76, 96),
            met_now: (76, 90),
            ..Item::LONG_LINE
        },
        Item {
            key: "moving-search",
            climb: &[(68, 0), (45, 1)],
            attempts: 6,
            times_a_week: 2,
            logged_a_week: 2,
            when: "after work, not two days running",
            place: "Sexton's field, hired",
            reinforcer: "rabbit-skin dummy",
            met: (70, 92),
            met_now: (72, 90),
            ..Item::LONG_LINE
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(68, 0), (40, 1)],
            attempts: 0,
            minutes: 10,
            when: "after the evening walk",
            place: "back garden",
            reinforcer: "cheddar cubes",
            reading: (30, 300),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 67, last: 3, hours: &[6, 17, 19], one_tap: 40, cooled_down: 90, arousal: (3, 3) },
    notes: &[
        good("recall-long-line", "Two hares, one recall. I could have kissed him. I did."),
        hard("recall-long-line", "Wind in the wrong direction for me and the right one for him."),
        good("moving-search", "Found it in nettles, took his time, tail like a metronome."),
        hard(
            "moving-search",
            "Went before the word twice. Shortened the throw and he waited. Mum's turn tomorrow.",
        )
        .of(4, 6),
        good("settle-on-a-mat", "Five minutes while I took my boots off. They were full.").read(300),
        good("recall-long-line", "I called him Ellis by mistake. He came. So would Ellis, for liver. B."),
        hard("recall-long-line", "Pigeons. All of them. Stopped after four. B.").of(2, 4),
        good("", "Fog so thick I could only see the line. The other end had a dog on it every time."),
        hard("", "He had rolled in something before we started and I could not feed him without breathing."),
    ],
    moments: &[Moment {
        days_ago: 1,
        hour: 6,
        item: "recall-long-line",
        by: "bernadette",
        place: "field edge, Lower Mere",
        line: Line::LongLine,
        clip: Some(Clip::Collar),
        minutes: 15,
        attempts: 6,
        met: 3,
        rewards: 3,
        arousal: (3, 4),
        food: TookFood::Snatched,
        looked: Looked::WoundUp,
        recovery: Recovery::Within15,
        cool_down: Some((0, CoolDown::StraightHome)),
        note: "Harness was still wet from his bath so I used his collar, just the once. A hare got up and he hit the end of the line hard. Coughed a bit. Seems all right now. B.",
        ..Moment::USUAL
    }],
    encounters: &[
        met(
            44,
            "ellis",
            "Hare, close",
            20,
            3,
            Recovery::Within15,
            "Line held, gloves held, I nearly did not.",
        ),
        met(
            17,
            "ellis",
            "Deer at the far hedge",
            120,
            2,
            Recovery::Within5,
            "Watched. Ate. Turned round when I did.",
        ),
    ],
    messages: &[
        said(66, "ellis", "How do I stop the line wrapping round his legs? We look like a maypole."),
        said(
            66,
            "desmond",
            "Ten minutes with a gatepost instead of a dog, that is the skill on your plan. Gather while he comes to you, let out while he goes, never both.",
        ),
        said(30, "bernadette", "I am a bit frightened of dropping it. My hands are not what they were."),
        said(
            29,
            "desmond",
            "Then let us give you five metres, not ten, and thicker gloves. And you may always drop it in the fenced field.",
        ),
        said(
            12,
            "ellis",
            "Best week yet. He looked at the hare, then at me. I have it on video but it is mostly my thumb.",
        ),
    ],
    trainer_notes: &[
        said(
            68,
            "desmond",
            "Real prey drive, soft mouth, wants to work with somebody. Ellis is steady; Bernadette keen and not strong. Two harnesses would be cheaper than one accident.",
        ),
        said(29, "desmond", "Showed both the back ring again. Photo on the hook."),
    ],
    answers: &[
        "Talked through with Ellis: search only on days without recall, and a sniff along the hedge before the car.",
    ],
    lessons: &[
        held(
            27,
            (14, 0),
            "The far paddock",
            "The line stays off his legs when you keep the slack in your near hand. Ten calls, ten fish flakes, home.",
            "Good pair. Watch the loops round the wrist.",
        ),
        ahead(4, (14, 0), 60, "The far paddock"),
    ],
    package: Some((6, 70, "")),
    ..Dog::PLAIN
};
