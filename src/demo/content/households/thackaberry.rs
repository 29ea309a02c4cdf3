//! The Thackaberry household: Juniper.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "thackaberry",
    name: "Thackaberry",
    about: "Cottage by the forest track, fence mended twice this year. Two dads, one on crutches until his knee mends.",
    children: &[11],
    owners: &[
        owner("corin", "Corin Thackaberry", "07700 900212", 8),
        owner("faisal", "Faisal Thackaberry", "07700 900213", 2),
    ],
    dogs: &[JUNIPER],
};

/// Went after deer; home two hours later on three and a half legs and a grin.
const JUNIPER: Dog = Dog {
    key: "juniper",
    name: "Juniper",
    story: Story::Bolted,
    trainer: "desmond",
    joined: 82,
    profile: Profile {
        breed: "beagle",
        age_days: 1350,
        weights: &[(82, 13.9), (30, 13.4), (5, 13.3)],
        adult_kg: 13.0,
        condition: 6,
        activity: Activity::Moderate,
        heart_breathing: "Nothing known.",
        allergies: &["dairy, upset stomach"],
        vet: Vet::Cleared(78),
        incidents: &[Incident {
            days_ago: 200,
            kind: IncidentKind::Bolted,
            skin_broken: false,
            towards: "a scent",
            whom: None,
            facts: "Under the fence, found at the railway halt, being fed by commuters.",
        }],
        off_lead: &["orchard, fenced"],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "To live next to a forest with a beagle and not have the search party on speed dial.",
        readings: &[(82, 2, 2), (52, 4, 5), (22, 6, 7)],
    },
    tried_before: &["Calling louder.", "A tracker. Very useful for knowing exactly where she is not."],
    triggers: &[
        trigger("deer scent", 0, "Nose down, tail up, deaf."),
        trigger("open gates", 0, "Through them."),
    ],
    reinforcers: &[
        food("sausage, cooked", 5, 3.0, 0.5),
        food("tripe sticks, snipped", 4, 3.3, 0.5),
        meal("kibble", 3, 3.5, 0.2),
    ],
    places: &[
        fenced("orchard, fenced", 2),
        open("forest track, first bend", 4),
        roadside("lane to the halt", 3),
    ],
    versions: &[
        version(
            80,
            "Three things: her name, doors and gates, and coming back on the line. The orchard is her off-lead place; the forest is for the line.",
        ),
        version(
            35,
            "Out to the first bend. Call when her nose comes up, not while it is down: that is the difference between practising and hoping.",
        ),
    ],
    standing: &["line-on-the-harness"],
    items: &[
        Item {
            key: "waiting-at-doors",
            climb: &[(80, 0), (66, 1), (49, 2), (30, 3)],
            attempts: 8,
            times_a_week: 5,
            logged_a_week: 4,
            minutes: 5,
            when: "every time somebody goes out for logs",
            place: "orchard, fenced",
            reinforcer: "tripe sticks, snipped",
            cool_down: None,
            met: (78, 97),
            met_now: (84, 95),
            ..Item::ON_LEAD
        },
        Item {
            key: "recall-long-line",
            climb: &[(80, 0), (60, 1), (35, 2)],
            attempts: 8,
            times_a_week: 3,
            logged_a_week: 3,
            when: "after Corin's early call",
            place: "forest track, first bend",
            reinforcer: "sausage, cooked",
            met: (76, 95),
            met_now: (70, 86),
            ..Item::LONG_LINE
        },
        Item {
            key: "name-response",
            climb: &[(80, 1), (62, 2), (41, 3)],
            attempts: 8,
            logged_a_week: 3,
            when: "in the orchard after tea",
            place: "orchard, fenced",
            reinforcer: "kibble",
            met: (70, 95),
            met_now: (74, 92),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 79, last: 3, hours: &[13, 8, 18], one_tap: 35, cooled_down: 85, arousal: (3, 3) },
    notes: &[
        good("name-response", "Head round so fast her ears arrived late."),
        hard(
            "recall-long-line",
            "Nose down the whole way. I did not call once, and I am counting that as my success rather than hers.",
        ),
        good("recall-long-line", "Came off a scent for sausage. A neighbour clapped."),
        good(
            "waiting-at-doors",
            "Front door wide open, parcel on the step, beagle on the mat. Driver took a photo.",
        ),
        hard(
            "waiting-at-doors",
            "Faisal on crutches could not close it in time. Back gate was shut, thank heaven.",
        ).since(46),
        good("recall-long-line", "Seven of eight in drizzle so fine you could only see it on her whiskers.").of(7, 8),
        hard("name-response", "Blackbirds. Apparently there is no answer to blackbirds."),
        hard(
            "recall-long-line",
            "Something has been through the bracken in the night. She was trembling with it. Two easy ones and home.",
        ).of(2, 2),
        good("", "Zaid held the treats, I held the line, and nobody held a grudge."),
    ],
    moments: &[Moment {
        days_ago: 2,
        hour: 8,
        item: "recall-long-line",
        by: "corin",
        place: "forest track, first bend",
        busy: Busy::Busy,
        line: Line::LongLine,
        clip: Some(Clip::HarnessBack),
        minutes: 6,
        attempts: 3,
        met: 1,
        rewards: 1,
        arousal: (3, 5),
        food: TookFood::Refused,
        looked: Looked::WoundUp,
        recovery: Recovery::Longer,
        cool_down: Some((20, CoolDown::Settle)),
        incident: Some(Incident {
            days_ago: 2,
            kind: IncidentKind::Bolted,
            skin_broken: false,
            towards: "three roe deer",
            whom: None,
            facts: "Deer crossed at ten metres. Line pulled out of one glove, dropped, dog gone over the lane and into the plantation, line trailing. Back by herself after two hours, line chewed through, scratches on the belly, otherwise well.",
        }),
        note: "Two hours. I have never been so pleased to see anybody so filthy. She slept until supper and so did I.",
        ..Moment::USUAL
    }],
    encounters: &[
        met(
            50,
            "corin",
            "Horse and rider on the track",
            15,
            1,
            Recovery::Within5,
            "Sat in the ferns and had sausage until they had gone.",
        ),
        met(
            18,
            "faisal",
            "Gate left open by the meter reader",
            3,
            0,
            Recovery::Within5,
            "She stopped at the sill and looked at me. Reader was given a biscuit and a talking-to.",
        ),
    ],
    messages: &[
        said(79, "corin", "Our last trainer said beagles cannot be recalled. Is that true?"),
        said(
            79,
            "desmond",
            "They can, to about the distance at which a sausage still beats a deer. We find that distance and grow it. And we keep a line on for the rest of it.",
        ),
        said(36, "corin", "Orchard is boringly perfect."),
        said(
            35,
            "desmond",
            "Boring is what perfect looks like. First bend from this week, line on, sausage only there and nowhere else.",
        ),
        said(2, "corin", "She is home. Details in the log. I let go, I am sorry."),
        said(
            1,
            "desmond",
            "You let go because it was that or your shoulder, and that was right. Please keep her on a lead or in the orchard with both gates shut until we have met. Is she sore anywhere? If she is, or off her food, ring your vet today.",
        ),
    ],
    trainer_notes: &[
        said(
            80,
            "desmond",
            "Family of good observers. The boy keeps a wildlife diary: use it to choose times without deer.",
        ),
        said(35, "desmond", "Orchard off lead agreed, it is fenced to the ground now. Nowhere else."),
    ],
    answers: &["Agreed: on days without time for the walk, a chew in the porch instead."],
    life_events: &[life(47, 10, LifeKind::Other, "Faisal's knee. Corin does the walks, Faisal does the doors.")],
    ..Dog::PLAIN
};
