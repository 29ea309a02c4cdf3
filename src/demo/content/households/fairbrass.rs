//! The Fairbrass household: Duffel and Toggle.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "fairbrass",
    name: "Fairbrass",
    about: "Village pub with a walled beer garden. The dogs live upstairs and come down when the bar is shut.",
    children: &[14],
    owners: &[
        owner("linnet", "Linnet Fairbrass", "07700 900207", 5),
        owner("gil", "Gil Fairbrass", "07700 900208", 3),
        owner("roo", "Rowan Fairbrass", "07700 900209", 2),
    ],
    dogs: &[DUFFEL, TOGGLE],
};

/// The careful brother; a question stands open.
const DUFFEL: Dog = Dog {
    key: "duffel",
    name: "Duffel",
    story: Story::QuestionWaiting,
    trainer: "yusra",
    joined: 77,
    profile: Profile {
        breed: "Border terrier",
        sex: Sex::Male,
        age_days: 1130,
        weights: &[(77, 7.4), (14, 7.3)],
        adult_kg: 7.3,
        coat: Coat::Medium,
        other: "Hides in the airing cupboard when barrels are delivered.",
        food_kcal_g: 3.6,
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "For him to be in the bar for an hour on a slow afternoon and look as if he wants to be there.",
        readings: &[(77, 2, 1), (46, 3, 2), (16, 5, 5)],
    },
    tried_before: &[
        "Having the regulars all feed him. He took the food with a neck like a giraffe and then left.",
    ],
    triggers: &[
        trigger("men in hats", 6, "Backs off, low growl, tail down."),
        trigger("barrels rolling", 0, "Bolts upstairs."),
    ],
    reinforcers: &[
        food("black pudding crumbs", 5, 2.8, 0.4),
        meal("kibble", 2, 3.6, 0.2),
        toy("squeaky pheasant", 3),
    ],
    places: &[fenced("upstairs flat", 1), fenced("beer garden, shut", 2), fenced("bar, before opening", 2)],
    versions: &[
        version(
            75,
            "Duffel and Toggle are brothers and not the same dog. His plan is about being left in peace and finding out that people far away are good news.",
        ),
        version(
            30,
            "He settles upstairs beautifully, so the mat goes down to the empty bar. Nobody in it yet but you.",
        ),
    ],
    standing: &["own-rest-place", "gate-for-visitors"],
    items: &[
        Item {
            key: "seen-from-far-off",
            climb: &[(75, 0), (30, 1)],
            attempts: 0,
            times_a_week: 2,
            logged_a_week: 2,
            minutes: 8,
            when: "from the landing window, when the regulars arrive",
            place: "beer garden, shut",
            reinforcer: "black pudding crumbs",
            cool_down: Some((10, CoolDown::SniffWalk)),
            reading: (60, 38),
            ..Item::ON_LEAD
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(75, 0), (52, 1), (30, 3)],
            attempts: 0,
            times_a_week: 5,
            logged_a_week: 4,
            minutes: 10,
            when: "while the bar is being mopped",
            place: "bar, before opening",
            reinforcer: "kibble",
            reading: (45, 540),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 74, last: 1, hours: &[17, 10], one_tap: 45, cooled_down: 90, arousal: (2, 2) },
    notes: &[
        good("settle-on-a-mat", "Chin down in four minutes. I mopped round him."),
        hard(
            "seen-from-far-off",
            "Big Terry in his flat cap came in by the wrong gate. Too near. We went up and had pudding on the stairs.",
        ),
        good("seen-from-far-off", "Watched three hats go by from the far wall. Ate for all of them."),
        hard("settle-on-a-mat", "Dray came early. He was in the cupboard before I had put the mat down."),
        good("settle-on-a-mat", "Rolled on his hip. I did not know he had a hip."),
        good(
            "seen-from-far-off",
            "Terry took the cap off and sat down, bless him, and Duffel sniffed in his direction.",
        ),
        hard("", "Quiz night last night, nobody slept, did it anyway, should not have."),
    ],
    encounters: &[
        met(
            41,
            "gil",
            "Stag party in novelty hats",
            4,
            3,
            Recovery::Longer,
            "All eleven of them. I carried him up.",
        ),
        met(15, "linnet", "Vicar, in hat", 9, 1, Recovery::Within5, "Looked, looked at me. Paid in full."),
    ],
    messages: &[
        said(70, "linnet", "Do I do him and Toggle together or one at a time?"),
        said(
            70,
            "yusra",
            "One at a time, the other behind a door with a chew. They each get you to themselves, which I suspect is worth more than the pudding.",
        ),
        said(
            31,
            "gil",
            "He lay in the sun in the beer garden for ten minutes. With the gate open to the yard. By choice.",
        ),
        said(30, "yusra", "That is the whole goal in miniature. New plan is up; go as slow as he likes."),
        said(
            2,
            "linnet",
            "Darts team have asked if they can meet him. There are six, four of them bearded, all kind. Could we do it in the garden one at a time, or is that too many beards in one week?",
        ),
    ],
    trainer_notes: &[
        said(
            75,
            "yusra",
            "Worried, not cross: growl only when cornered. Family reads him well except at busy times. No greeting on the plan until he asks for one.",
        ),
        said(30, "yusra", "Saw the mat downstairs, soft within five. Linnet has good hands."),
    ],
    lessons: &[ahead(2, (16, 0), 60, "The empty bar, before opening")],
    ..Dog::PLAIN
};

/// The bold brother; steady steps.
const TOGGLE: Dog = Dog {
    key: "toggle",
    name: "Toggle",
    story: Story::Progressing,
    trainer: "yusra",
    joined: 77,
    profile: Profile {
        breed: "Border terrier",
        sex: Sex::Male,
        age_days: 1130,
        weights: &[(77, 8.6), (14, 8.1)],
        adult_kg: 7.8,
        condition: 6,
        coat: Coat::Medium,
        other: "Steals beer mats and crisps. On a diet, which the public bar has been told about in writing.",
        off_lead: &["beer garden, shut"],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "Go past the bowls club without an incident in the minutes.",
        readings: &[(77, 4, 3), (46, 6, 5), (16, 7, 7)],
    },
    tried_before: &["A whistle. He comes to it if he was coming anyway."],
    triggers: &[trigger("anything rolling on grass", 25, "Ears up, shaking, then gone.")],
    reinforcers: &[
        food("black pudding crumbs", 4, 2.8, 0.4),
        toy("squeaky pheasant", 5),
        meal("kibble", 2, 3.6, 0.2),
    ],
    places: &[fenced("beer garden, shut", 2), fenced("Sexton's field, hired", 3), open("the rec, early", 3)],
    versions: &[
        version(
            75,
            "Coming back on the line, giving things up, and a wind-down after each. He will make you laugh; keep it to eight goes.",
        ),
        version(
            40,
            "On to the hired field. Line on the harness, gloves on, and do not call unless you would put a fiver on it.",
        ),
    ],
    standing: &["line-on-the-harness", "food-and-chews-apart"],
    owner_skills: &["handling-the-line"],
    items: &[
        Item {
            key: "recall-long-line",
            climb: &[(75, 0), (58, 1), (40, 2), (13, 3)],
            attempts: 8,
            times_a_week: 3,
            logged_a_week: 3,
            when: "after the lunchtime shift",
            place: "Sexton's field, hired",
            reinforcer: "black pudding crumbs",
            met: (78, 97),
            met_now: (82, 92),
            ..Item::LONG_LINE
        },
        Item {
            key: "toy-exchange",
            climb: &[(75, 1), (50, 2), (22, 3)],
            attempts: 6,
            times_a_week: 2,
            logged_a_week: 1,
            minutes: 5,
            when: "Rowan, after school",
            place: "beer garden, shut",
            reinforcer: "black pudding crumbs",
            cool_down: Some((5, CoolDown::Chew)),
            met: (76, 95),
            met_now: (80, 92),
            ..Item::CALM
        },
        Item {
            key: "wind-down-walk",
            climb: &[(75, 2)],
            attempts: 0,
            times_a_week: 3,
            logged_a_week: 2,
            minutes: 15,
            when: "on the days without a field",
            place: "the rec, early",
            reinforcer: "kibble",
            cool_down: None,
            reading: (12, 5),
            ..Item::ON_LEAD
        },
    ],
    rhythm: Rhythm { first: 74, last: 1, hours: &[15, 16, 7], one_tap: 30, cooled_down: 92, arousal: (3, 3) },
    notes: &[
        good("recall-long-line", "Left a crisp packet for me. A full one."),
        hard("recall-long-line", "Moles have been. Every call was second best to a molehill."),
        good("recall-long-line", "8 out of 8 and a rainbow, it was disgusting.").of(8, 8),
        good(
            "toy-exchange",
            "Swapped the pheasant for pudding, gave him the pheasant back, he looked at me like I was soft in the head. Roo",
        ),
        hard("toy-exchange", "Held on a bit. Stopped, he dropped it when I yawned. Roo"),
        good("wind-down-walk", "Forty lamp posts, no opinions about any of them."),
        hard("recall-long-line", "Got the line round a bench. My fault. Gloves worked."),
        good(
            "recall-long-line",
            "Turned mid-run for the bowls noise from over the hedge. I nearly fell over.",
        ),
    ],
    moments: &[Moment {
        days_ago: 13,
        hour: 14,
        item: "recall-long-line",
        by: "yusra",
        place: "Sexton's field, hired",
        line: Line::LongLine,
        clip: Some(Clip::HarnessBack),
        minutes: 10,
        attempts: 8,
        met: 8,
        rewards: 8,
        arousal: (3, 2),
        cool_down: Some((10, CoolDown::SniffWalk)),
        note: "Lesson in the field. Eight of eight at three metres, line slack each time.",
        ..Moment::USUAL
    }],
    encounters: &[met(
        20,
        "roo",
        "Football came over the wall",
        2,
        3,
        Recovery::Within15,
        "He did not give it back. It is flat now.",
    )],
    messages: &[
        said(58, "roo", "is it ok if i do his toy swaps, i am 14 and very responsible"),
        said(
            58,
            "yusra",
            "Very much so, with one of your parents in earshot. Write down how many and whether he let go before he saw the food.",
        ),
        said(
            14,
            "gil",
            "Bowls club asked what we have done with the other dog. I said nothing, this is the other dog.",
        ),
        said(
            13,
            "yusra",
            "Then the next step is yours: ten metres, same field. I saw everything I needed today.",
        ),
    ],
    trainer_notes: &[
        said(
            40,
            "yusra",
            "Weight coming down slowly. Rowan is the best trainer in the family; do not tell the parents.",
        ),
        said(13, "yusra", "Trainer-seen 8 of 8. Moved to ten metres."),
    ],
    ..Dog::PLAIN
};
