//! The Ravenscroft household: Admiral and Harriet.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "ravenscroft",
    name: "Ravenscroft",
    about: "A narrowboat that moves every fortnight. Two dogs, one deaf, one pretending to be.",
    children: &[],
    owners: &[
        owner("meg", "Meg Ravenscroft", "07700 900224", 7),
        owner("solly", "Solomon Ravenscroft", "07700 900225", 3),
    ],
    dogs: &[ADMIRAL, HARRIET],
};

/// Was sure of it, then it slid.
const ADMIRAL: Dog = Dog {
    key: "admiral",
    name: "Admiral",
    story: Story::SlippedBack,
    trainer: "desmond",
    joined: 84,
    profile: Profile {
        breed: "Jack Russell terrier",
        sex: Sex::Male,
        age_days: 2250,
        weights: &[(84, 7.0), (22, 7.1)],
        adult_kg: 7.0,
        coat: Coat::Medium,
        other: "Sleeps in the coal box. White dog, in theory.",
        vet: Vet::Cleared(70),
        incidents: &[Incident {
            days_ago: 300,
            kind: IncidentKind::Slipped,
            skin_broken: false,
            towards: "a moorhen",
            whom: None,
            facts: "Backed out of a harness two sizes up and swam.",
        }],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "Step off the boat with two dogs and have two dogs by the next lock.",
        readings: &[(84, 4, 5), (56, 7, 6), (28, 8, 9), (4, 5, 5)],
    },
    tried_before: &["Shouting his full name and rank."],
    triggers: &[trigger("moorhens", 15, "In."), trigger("rats under the coal wharf", 3, "Digs, deaf.")],
    reinforcers: &[food("kipper flakes", 5, 2.1, 0.4), toy("rope end", 4), food("oatcake", 3, 4.4, 0.3)],
    places: &[open("towpath, moorings", 3), fenced("lock-keeper's garden", 2), open("coal wharf", 5)],
    versions: &[
        version(82, "Name and recall, on the line, away from the water first."),
        version(45, "He has it in the garden. Out to the towpath, three metres, kipper only."),
        version(
            16,
            "Ten metres on the towpath. If it wobbles, go back to three and tell me; that is not a defeat, it is steering.",
        ),
    ],
    standing: &["line-on-the-harness"],
    items: &[
        Item {
            key: "recall-long-line",
            climb: &[(82, 0), (62, 1), (45, 2), (16, 3)],
            attempts: 8,
            times_a_week: 3,
            logged_a_week: 3,
            when: "after mooring up",
            place: "towpath, moorings",
            reinforcer: "kipper flakes",
            met: (80, 98),
            met_now: (76, 40),
            ..Item::LONG_LINE
        },
        Item {
            key: "name-response",
            climb: &[(82, 1), (60, 2), (38, 3)],
            attempts: 8,
            times_a_week: 3,
            logged_a_week: 2,
            when: "while the kettle boils",
            place: "lock-keeper's garden",
            reinforcer: "oatcake",
            met: (75, 95),
            met_now: (60, 70),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 81, last: 1, hours: &[16, 8], one_tap: 30, cooled_down: 86, arousal: (3, 3) },
    notes: &[
        good("recall-long-line", "Left a moorhen for a kipper. Solly is having it engraved."),
        good("name-response", "Woke up in the coal for it."),
        hard("", "Wind on the water and nobody listening to anybody."),
        good("", "Muddy to the elbows, both of us, worth it."),
        good("recall-long-line", "Eight of eight with a canoe going by. The canoe clapped.").of(8, 8),
        hard("recall-long-line", "New moorings, everything smells of somebody else.").since(15),
        hard("recall-long-line", "Heard me. I saw the ear. Carried on.").since(13),
        hard("recall-long-line", "Four of eight. Rats have moved in under the wharf.").of(4, 8).since(10),
        hard("recall-long-line", "Three. I called when I should not have. Twice.").of(3, 8).since(7),
    ],
    moments: &[
        Moment {
            days_ago: 16,
            hour: 11,
            item: "recall-long-line",
            by: "desmond",
            place: "towpath, moorings",
            line: Line::LongLine,
            clip: Some(Clip::HarnessBack),
            minutes: 10,
            attempts: 8,
            met: 8,
            rewards: 8,
            arousal: (3, 2),
            cool_down: Some((10, CoolDown::SniffWalk)),
            note: "Lesson on the towpath. Eight of eight at three metres.",
            ..Moment::USUAL
        },
        Moment {
            days_ago: 2,
            hour: 8,
            item: "recall-long-line",
            by: "meg",
            place: "towpath, moorings",
            line: Line::LongLine,
            clip: Some(Clip::HarnessBack),
            minutes: 11,
            attempts: 8,
            met: 3,
            rewards: 3,
            arousal: (3, 3),
            cool_down: Some((10, CoolDown::SniffWalk)),
            note: "Three of eight. He used to fly back. Have I broken it?",
            ..Moment::USUAL
        },
    ],
    encounters: &[
        met(
            35,
            "meg",
            "Moorhen, close",
            4,
            2,
            Recovery::Within5,
            "Trembled, came away. Kipper for everyone.",
        ),
        met(7, "solly", "Rat, in person", 1, 4, Recovery::Longer, "Took twenty minutes and the dustpan."),
    ],
    messages: &[
        said(80, "meg", "Can we still let him off at the lock?"),
        said(
            80,
            "desmond",
            "Not yet, and not because he is bad at it: because each free moorhen costs us a fortnight.",
        ),
        said(45, "solly", "He is better behaved than the crew."),
        said(17, "meg", "Moving to the coal wharf tomorrow."),
        said(
            16,
            "desmond",
            "Lovely work today. New mooring, new smells: treat the first week as a fresh start even though he has moved up.",
        ),
    ],
    trainer_notes: &[said(
        16,
        "desmond",
        "Moved to ten metres, in hindsight the day before they changed moorings. Mine to own if it slips.",
    )],
    life_events: &[life(16, 14, LifeKind::Move, "New moorings, by the coal wharf.")],
    ..Dog::PLAIN
};

/// Old, deaf, steady; the plan is due a look.
const HARRIET: Dog = Dog {
    key: "harriet",
    name: "Harriet",
    story: Story::ReviewDue,
    trainer: "desmond",
    joined: 84,
    profile: Profile {
        breed: "collie cross",
        age_days: 4520,
        birth_known: BirthPrecision::Estimated,
        weights: &[(84, 18.1), (22, 17.8)],
        adult_kg: 18.0,
        activity: Activity::Low,
        coat: Coat::Long,
        orthopaedic: "Stiff elbows, worse after rain.",
        heart_breathing: "Soft murmur, watched twice a year.",
        other: "Deaf. Touch her shoulder, never wake her by surprise. Hand signals: thumbs up is yes.",
        medicines: &["joint injection, monthly"],
        vet: Vet::Cleared(23),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "For her to find me again when she turns round and I am not where she left me.",
        readings: &[(84, 5, 6), (42, 7, 7), (15, 8, 9)],
    },
    tried_before: &["A vibrating collar somebody lent us. She hated the buzz; it went back the same day."],
    triggers: &[],
    reinforcers: &[food("kipper flakes", 5, 2.1, 0.5), food("scrambled egg", 4, 1.5, 1.0)],
    places: &[fenced("lock-keeper's garden", 2), open("towpath, moorings", 3)],
    versions: &[version(
        82,
        "Looks at you are her new ears. Everything slow, on grass, ten minutes and no more.",
    )],
    standing: &["own-rest-place", "food-and-chews-apart"],
    items: &[
        Item {
            key: "eye-contact",
            climb: &[(82, 0), (60, 2), (48, 3)],
            attempts: 8,
            times_a_week: 4,
            logged_a_week: 3,
            minutes: 5,
            when: "before Admiral's turn",
            place: "lock-keeper's garden",
            reinforcer: "kipper flakes",
            cool_down: None,
            met: (75, 95),
            met_now: (62, 70),
            ..Item::ON_LEAD
        },
        Item {
            key: "chin-rest",
            climb: &[(82, 0), (74, 1), (68, 2), (60, 3), (53, 4), (46, 5)],
            attempts: 5,
            times_a_week: 3,
            logged_a_week: 2,
            minutes: 3,
            when: "after her joint jab day, gently",
            place: "lock-keeper's garden",
            reinforcer: "scrambled egg",
            met: (80, 96),
            met_now: (86, 90),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 81, last: 1, hours: &[15, 10], one_tap: 50, cooled_down: 100, arousal: (2, 2) },
    notes: &[
        good("eye-contact", "Checked in nine times between two bridges. I counted on my fingers, in gloves."),
        hard("eye-contact", "Elbows stiff, let her lie down and look at the ducks."),
        good("chin-rest", "All four feet wiped. No opinions."),
        good("eye-contact", "I stepped behind a willow. She came and stood on my foot."),
        hard("chin-rest", "Lifted her chin at the left ear, so I left the left ear."),
        good("", "Rain on her back and she wanted to stay out."),
    ],
    encounters: &[met(
        38,
        "solly",
        "Bicycle from behind",
        1,
        1,
        Recovery::Within5,
        "She felt it go by. I got hold of the harness. Bells are no use to us.",
    )],
    messages: &[
        said(81, "meg", "Thumbs up instead of yes. I keep thumbs-upping Solly."),
        said(81, "desmond", "Feed him as well, then, or it will stop working."),
        said(46, "meg", "She is up to five seconds of being touched all over. The nurse was amazed."),
        said(46, "desmond", "I am not. Stay there a while, there is no hurry at twelve."),
    ],
    trainer_notes: &[said(
        46,
        "desmond",
        "Plan does its job. Look again in six weeks: elbows, and whether the murmur changes what we ask.",
    )],
    ..Dog::PLAIN
};
