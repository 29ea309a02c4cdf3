//! The Hallworth household: Ulla.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line, Towards};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "hallworth",
    name: "Hallworth",
    about: "Detached, high fence, long drive. He drives nights; she has gone part-time to walk the dog in the dark.",
    children: &[],
    owners: &[
        owner("perpetua", "Perpetua Hallworth", "07700 900215", 8),
        owner("leonard", "Leonard Hallworth", "07700 900216", 2),
    ],
    dogs: &[ULLA],
};

/// Bit a jogger nine days ago; nothing has been heard since.
const ULLA: Dog = Dog {
    key: "ulla",
    name: "Ulla",
    story: Story::QuietAfterBite,
    trainer: "morwenna",
    joined: 80,
    profile: Profile {
        breed: "German shepherd dog",
        age_days: 1890,
        weights: &[(80, 33.5), (25, 33.0)],
        adult_kg: 33.0,
        coat: Coat::Thick,
        orthopaedic: "Left hip clicks. X-ray booked, then put off.",
        heart_breathing: "Nothing heard at the last check.",
        other: "Muzzled on every walk. Takes pilchard paste through the front of it like soup.",
        food: "dry complete, fish",
        food_kcal_g: 3.5,
        vet: Vet::Asked(76),
        incidents: &[
            Incident {
                days_ago: 210,
                kind: IncidentKind::Snap,
                skin_broken: false,
                towards: "a man with a hood",
                whom: Some(Towards::Stranger),
                facts: "Snapped at a sleeve at the bus stop, no contact.",
            },
            Incident {
                days_ago: 95,
                kind: IncidentKind::Bite,
                skin_broken: false,
                towards: "a cyclist who stopped to ask the way",
                whom: Some(Towards::Stranger),
                facts: "Bruise on the calf through trousers. He was decent about it.",
            },
        ],
        muzzle: Some(Muzzle {
            kind: "basket",
            can_pant_and_eat: true,
            comfortable_minutes: 40,
            required: "everywhere outside the fence",
        }),
        must_not_meet: &["runners and cyclists close by"],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "One walk a day in daylight. I miss daylight.",
        readings: &[(80, 1, 2), (50, 3, 3), (20, 5, 7)],
    },
    tried_before: &[
        "Walking her up to people to make friends. That was the bus stop.",
        "A residential course. She came back thinner and quicker to snap.",
    ],
    triggers: &[
        trigger("runners", 45, "Ears forward, closes her mouth, leans."),
        trigger("hoods and rucksacks", 30, "Stops, hackles, low bark."),
    ],
    reinforcers: &[
        food("pilchard paste", 5, 1.4, 1.0),
        food("beef heart, boiled", 4, 1.6, 0.8),
        meal("kibble", 2, 3.5, 0.3),
    ],
    places: &[fenced("home garden", 2), open("old airfield, far side", 3), roadside("Station Road, late", 3)],
    versions: &[
        version(
            78,
            "Muzzle on from the front step, quiet hours, and watching runners from so far away that they are dull. Please get the hip looked at: sore dogs have shorter fuses.",
        ),
        version(38, "She is reading you now. Same plan, forty metres, and only on days when she has slept."),
    ],
    standing: &["quiet-hours-walks", "gate-for-visitors"],
    items: &[
        Item {
            key: "muzzle-comfort",
            climb: &[(78, 3), (64, 4), (51, 5)],
            attempts: 6,
            times_a_week: 5,
            logged_a_week: 3,
            minutes: 5,
            when: "before the night walk",
            place: "home garden",
            reinforcer: "pilchard paste",
            met: (82, 98),
            met_now: (86, 97),
            ..Item::CALM
        },
        Item {
            key: "seen-from-far-off",
            climb: &[(78, 0), (38, 1)],
            attempts: 0,
            times_a_week: 2,
            logged_a_week: 2,
            minutes: 10,
            when: "running club night, from the far side",
            place: "old airfield, far side",
            reinforcer: "beef heart, boiled",
            reading: (65, 42),
            ..Item::ON_LEAD
        },
        Item {
            key: "wind-down-walk",
            climb: &[(78, 1), (55, 2)],
            attempts: 0,
            times_a_week: 4,
            logged_a_week: 2,
            minutes: 20,
            when: "after ten at night",
            place: "old airfield, far side",
            reinforcer: "kibble",
            cool_down: None,
            reading: (18, 6),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm {
        first: 77,
        last: 11,
        hours: &[21, 19, 22],
        one_tap: 30,
        cooled_down: 92,
        arousal: (3, 3),
    },
    notes: &[
        good("muzzle-comfort", "Fetched it off the hook herself and stood there."),
        good("seen-from-far-off", "Nine runners. She watched them like a tennis match and ate the lot."),
        hard(
            "seen-from-far-off",
            "One came out of the trees at twenty. I turned us and threw everything I had on the ground. No noise from her. Shaking, both of us.",
        ),
        good("wind-down-walk", "An owl. She sat down to listen. I had forgotten she could."),
        hard("wind-down-walk", "Somebody sleeping in the hangar. We walked the long way back to the car."),
        good("muzzle-comfort", "A minute with it on while I did the pots."),
        hard("muzzle-comfort", "Pawed at it once, so back two steps like you said."),
        hard("", "Stiff getting out of the car again. Will ring about the hip."),
        good("seen-from-far-off", "Forty paces off a bicycle and she chose to look at me."),
    ],
    moments: &[Moment {
        days_ago: 9,
        hour: 7,
        item: "wind-down-walk",
        by: "leonard",
        place: "Station Road, late",
        busy: Busy::Busy,
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        minutes: 10,
        arousal: (3, 5),
        food: TookFood::Refused,
        looked: Looked::WoundUp,
        recovery: Recovery::Longer,
        cool_down: Some((0, CoolDown::StraightHome)),
        incident: Some(Incident {
            days_ago: 9,
            kind: IncidentKind::Bite,
            skin_broken: true,
            towards: "a runner",
            whom: Some(Towards::Stranger),
            facts: "Came up from behind on the pavement. One bite to the forearm, skin broken. Muzzle was in the car. Gave my number, he went to the surgery, he has not rung.",
        }),
        note: "I took her because P. was poorly. I only went to the postbox.",
        answer: Some(Answer {
            days_ago: 8,
            by: "morwenna",
            words: "Rang twice, spoke to Leonard. Muzzle before the front door from now on, garden only until we meet, vet and behaviourist named, law leaflet sent. Asked him to find out how the runner is.",
        }),
        ..Moment::USUAL
    }],
    encounters: &[
        met(
            60,
            "perpetua",
            "Paper boy, hood up",
            12,
            3,
            Recovery::Longer,
            "Came round the corner. Muzzle on, thank God.",
        ),
        met(
            27,
            "perpetua",
            "Cyclist with a light like a lighthouse",
            40,
            1,
            Recovery::Within5,
            "She blinked. I blinked.",
        ),
    ],
    messages: &[
        said(78, "perpetua", "Does the muzzle mean she is a bad dog? My neighbour crossed over and said so."),
        said(
            78,
            "morwenna",
            "It means she has a careful owner. Your neighbour crossing over is rather useful; perhaps thank her.",
        ),
        said(39, "perpetua", "I slept through. I did not lie there planning routes."),
        said(
            38,
            "morwenna",
            "Put that in the log under good days. I have moved the distance a little and nothing else.",
        ),
        said(
            8,
            "morwenna",
            "I have spoken to Leonard and I am not cross with anybody. No walks off the premises until we have met; garden searches instead. When can I come?",
        ),
        said(
            5,
            "morwenna",
            "Only checking that you are both all right. You do not have to have a plan to answer this.",
        ),
    ],
    trainer_notes: &[
        said(
            78,
            "morwenna",
            "Fear of fast approach, good bite inhibition so far, hip very likely part of it. Vet first, and I said so three ways.",
        ),
        said(
            38,
            "morwenna",
            "Hip still not X-rayed. Money? Ask kindly about the hardship fund at the surgery.",
        ),
        said(
            4,
            "morwenna",
            "No answer to two messages. If nothing tomorrow, ring the landline in the morning when Perpetua is up.",
        ),
    ],
    lessons: &[
        held(
            38,
            (9, 0),
            "Front step and the quiet lane",
            "She looked at two runners and came back to you both times. Forty metres, and only on days when she has slept.",
            "Perpetua held her breath until the second runner. Practise the walking-away without the dog next time.",
        ),
        ahead(1, (9, 0), 75, "Front step and the quiet lane"),
    ],
    package: Some((6, 78, "")),
    ..Dog::PLAIN
};
