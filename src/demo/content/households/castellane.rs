//! The Castellane household: Ottoman.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "castellane",
    name: "Castellane",
    about: "Bungalow with a half-acre paddock. Retired couple, grandchildren at weekends, slippery kitchen floor.",
    children: &[],
    owners: &[
        owner("ottoline", "Ottoline Castellane", "07700 900203", 7),
        owner("ray", "Ray Castellane", "07700 900204", 3),
    ],
    dogs: &[OTTOMAN],
};

/// Size XL, rising; steady progress.
const OTTOMAN: Dog = Dog {
    key: "ottoman",
    name: "Ottoman",
    story: Story::Progressing,
    trainer: "yusra",
    joined: 63,
    profile: Profile {
        breed: "Newfoundland",
        sex: Sex::Male,
        neutered: false,
        age_days: 214,
        weights: &[(63, 29.5), (35, 36.2), (7, 41.0)],
        adult_kg: 64.0,
        activity: Activity::Low,
        coat: Coat::Thick,
        heart_breathing: "Heart listened to at first vaccination, nothing heard.",
        orthopaedic: "Growing fast. Vet asks for no stairs and no jumping out of the car.",
        other: "Dribbles. Bring a towel and old clothes.",
        food: "dry large-breed puppy food",
        food_kcal_g: 3.7,
        vet: Vet::Cleared(58),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "To open the door to my sister, who is seventy-four and has a new hip, without fear for her life.",
        readings: &[(63, 2, 4), (35, 4, 5), (6, 6, 6)],
    },
    tried_before: &["Knee in the chest, on a neighbour's advice. He took it as a hug."],
    triggers: &[trigger("visitors in the doorway", 3, "Bounces, front paws on shoulders, delighted.")],
    reinforcers: &[
        food("sprats, dried", 5, 3.6, 1.0),
        food("cheddar cubes", 4, 4.03, 1.0),
        meal("his own food", 2, 3.7, 0.4),
    ],
    places: &[
        fenced("hall", 2),
        fenced("paddock", 2),
        roadside("Hob Lane", 2),
        open("the green by the pump", 3),
    ],
    versions: &[
        version(
            61,
            "Two exercises and a shut gate. His joints are still under construction, so everything is on the flat and slow.",
        ),
        version(
            26,
            "He has earned a change: hellos now happen with a real friend in the hall. The lead work moves out to the lane.",
        ),
    ],
    standing: &["gate-for-visitors"],
    items: &[
        Item {
            key: "calm-greeting",
            climb: &[(61, 0), (44, 1), (26, 2), (9, 3)],
            attempts: 6,
            times_a_week: 3,
            logged_a_week: 3,
            minutes: 6,
            when: "when Ray comes in with the paper",
            place: "hall",
            reinforcer: "cheddar cubes",
            met: (55, 92),
            met_now: (55, 68),
            ..Item::ON_LEAD
        },
        Item {
            key: "loose-lead",
            climb: &[(61, 1), (47, 2), (26, 3)],
            attempts: 8,
            when: "after the second breakfast",
            place: "Hob Lane",
            reinforcer: "sprats, dried",
            met: (60, 90),
            met_now: (58, 70),
            ..Item::ON_LEAD
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(61, 0), (40, 1), (19, 3)],
            attempts: 0,
            minutes: 8,
            when: "while the six o'clock news is on",
            place: "hall",
            reinforcer: "his own food",
            reading: (40, 420),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 60, last: 1, hours: &[9, 11, 18], one_tap: 35, cooled_down: 88, arousal: (3, 2) },
    notes: &[
        good(
            "loose-lead",
            "Ray did this one. He says he gave nine treats for eight because the last one was beautiful.",
        )
        .of(8, 8),
        good("calm-greeting", "Four paws for Ray, who says he has never been so well received."),
        hard(
            "calm-greeting",
            "Did it for Ray. Did not do it for the man about the boiler. He was kind about it.",
        ),
        good("settle-on-a-mat", "Fell asleep on the mat before I had opened the cheese. Does that count?"),
        hard(
            "loose-lead",
            "Met the postwoman, whom he loves. Towed me as far as the pump. Sat down there and so did I.",
        ),
        good(
            "loose-lead",
            "Whole lane with the lead in a smile. A tractor went by and he looked at me as if to say, see that?",
        ),
        good(
            "calm-greeting",
            "My sister came! Gate first, then lead, then two seconds of ears. She cried a bit. So did I.",
        ),
        hard("settle-on-a-mat", "Grandchildren doing cartwheels next door. Half of it, then a chew instead."),
        good("loose-lead", "Seven out of eight with rain going sideways. He likes it, I do not.").of(7, 8),
        hard("", "Both tired. Three goes and stopped while it was still nice.").of(2, 3),
    ],
    moments: &[Moment {
        days_ago: 9,
        hour: 14,
        item: "calm-greeting",
        by: "yusra",
        place: "hall",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        minutes: 6,
        attempts: 6,
        met: 6,
        rewards: 6,
        arousal: (3, 2),
        cool_down: Some((5, CoolDown::Chew)),
        note: "Lesson at home. I was the friend: six calm hellos, one very wet sleeve.",
        ..Moment::USUAL
    }],
    encounters: &[
        met(
            31,
            "ottoline",
            "Toddler with an ice cream at nose height",
            2,
            2,
            Recovery::Within5,
            "Leaned. I turned us round before it got expensive.",
        ),
        met(
            12,
            "ray",
            "Small dog barking behind a gate",
            5,
            1,
            Recovery::Within5,
            "Looked, sat, waited for his sprat.",
        ),
    ],
    messages: &[
        said(60, "ottoline", "Is it normal that he is tired after ten minutes of this? He slept until four."),
        said(
            60,
            "yusra",
            "Quite normal, and a good sign. Thinking is hard work at that age. If he ever wakes up stiff, tell me and ring the vet.",
        ),
        said(27, "ray", "Permission to use sprats indoors denied by management. Is cheese all right?"),
        said(
            26,
            "yusra",
            "Cheese is fine. Cut his cubes to the size of a pea and take a spoonful out of his supper.",
        ),
        said(
            5,
            "ottoline",
            "Sister has booked herself in for a whole weekend. I never thought I would say I am looking forward to it.",
        ),
        said(
            4,
            "yusra",
            "That is exactly what the practice was for. Gate for the arrival, lead for the first ten minutes, then let him sleep on it.",
        ),
    ],
    trainer_notes: &[
        said(
            61,
            "yusra",
            "Lovely soft dog. All jumping is invitation, no conflict. Floor is a rink: suggested runners, for hips and for confidence.",
        ),
        said(
            9,
            "yusra",
            "Saw 6 of 6 with me. Next rung is a short hello from a friend; watch that Ottoline does not lean over to praise.",
        ),
    ],
    answers: &[
        "Spoke by phone: sniff along the hedge before the gate, every time, even when it rains. Ray will do the wet days.",
    ],
    ..Dog::PLAIN
};
