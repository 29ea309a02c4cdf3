//! The Obuya household: Sprocket.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::{Clip, Line};

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "obuya",
    name: "Obuya",
    about: "Second-floor flat, communal garden, a car boot full of towels. Lives alone, runs, would like to run with her dog.",
    children: &[],
    owners: &[owner("maryanne", "Maryanne Obuya", "07700 900214", 10)],
    dogs: &[SPROCKET],
};

/// Three of the last five without a cool-down.
const SPROCKET: Dog = Dog {
    key: "sprocket",
    name: "Sprocket",
    story: Story::CoolDownPattern,
    trainer: "desmond",
    joined: 60,
    profile: Profile {
        breed: "working cocker spaniel",
        sex: Sex::Male,
        age_days: 830,
        weights: &[(60, 13.2), (12, 13.0)],
        adult_kg: 13.0,
        condition: 4,
        activity: Activity::High,
        coat: Coat::Long,
        food: "dry active food, lamb",
        food_kcal_g: 4.0,
        vet: Vet::Cleared(55),
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "A dog I can run with who can also lie down in the same day.",
        readings: &[(60, 4, 5), (30, 6, 6), (3, 6, 7)],
    },
    tried_before: &["A ball launcher, two hours a day, to tire him out. He got fitter."],
    triggers: &[trigger("a ball in anybody's hand", 20, "Whines, spins, cannot hear.")],
    reinforcers: &[
        toy("fur-covered ring", 5),
        food("cod skin, dried", 4, 3.4, 0.3),
        meal("kibble", 2, 4.0, 0.2),
    ],
    places: &[
        fenced("flat", 1),
        fenced("communal garden", 2),
        fenced("Sexton's field, hired", 3),
        open("river meadow", 3),
    ],
    versions: &[
        version(
            58,
            "Less running and more finding. Each search ends with ten minutes of nothing much: that part is not optional extra time, it is the half that makes him easier to live with.",
        ),
        version(
            21,
            "The searches are lovely. I have kept them at two a week on purpose and put the mat work straight after.",
        ),
    ],
    standing: &["own-rest-place"],
    items: &[
        Item {
            key: "moving-search",
            climb: &[(58, 0), (41, 1), (21, 2)],
            attempts: 6,
            times_a_week: 2,
            logged_a_week: 2,
            when: "after work",
            place: "Sexton's field, hired",
            reinforcer: "fur-covered ring",
            met: (72, 94),
            met_now: (60, 68),
            ..Item::LONG_LINE
        },
        Item {
            key: "food-on-the-floor",
            climb: &[(58, 0), (49, 1), (40, 2), (30, 3), (21, 4)],
            attempts: 12,
            logged_a_week: 3,
            when: "in the meadow before breakfast",
            place: "river meadow",
            reinforcer: "kibble",
            met: (75, 95),
            met_now: (78, 93),
            ..Item::CALM
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(58, 0), (30, 1)],
            attempts: 0,
            times_a_week: 5,
            logged_a_week: 3,
            minutes: 10,
            when: "straight after a search, in the flat",
            place: "flat",
            reinforcer: "cod skin, dried",
            reading: (15, 240),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 57, last: 1, hours: &[18, 7, 19], one_tap: 30, cooled_down: 88, arousal: (3, 3) },
    notes: &[
        good("food-on-the-floor", "Twelve of twelve, and the neighbour's cat was there for nine of them.")
            .of(12, 12),
        hard("settle-on-a-mat", "Lay down, got up, lay down, sang. We got to a minute.").read(60),
        good("moving-search", "Nose down for four whole minutes. I could hear him breathing it in."),
        hard("moving-search", "Somebody's ball in the grass. That was that."),
        good("settle-on-a-mat", "Asleep by the radiator while I stretched. Two animals steaming."),
        hard("food-on-the-floor", "Stones got mixed in with the kibble, moved to the mown bit."),
        good("", "Rain, mud, joy."),
    ],
    moments: &[
        SEARCH,
        Moment {
            days_ago: 12,
            cool_down: Some((0, CoolDown::StraightHome)),
            arousal: (3, 4),
            note: "Car park shuts at seven so straight in the boot. He barked all the way home.",
            ..SEARCH
        },
        Moment {
            days_ago: 9,
            met: 5,
            rewards: 5,
            cool_down: Some((12, CoolDown::SniffWalk)),
            arousal: (3, 2),
            recovery: Recovery::Within5,
            note: "Went early, had time for the sniff. Different dog in the car.",
            ..SEARCH
        },
        Moment {
            days_ago: 5,
            cool_down: Some((0, CoolDown::StraightHome)),
            arousal: (3, 4),
            food: TookFood::Snatched,
            note: "Late from work, did the fun bit only. Snatched the fish, and my finger with it, his mouth is soft though.",
            ..SEARCH
        },
        Moment {
            days_ago: 2,
            cool_down: Some((2, CoolDown::SniffWalk)),
            arousal: (3, 4),
            met: 3,
            rewards: 3,
            recovery: Recovery::Within15,
            note: "Couple of minutes' sniff then the heavens opened.",
            ..SEARCH
        },
    ],
    encounters: &[met(
        24,
        "maryanne",
        "Family playing football",
        30,
        3,
        Recovery::Longer,
        "Screamed like a kettle. We left by the other gate.",
    )],
    messages: &[
        said(
            57,
            "maryanne",
            "Are you sure about less exercise? He is a spaniel, he will take the flat apart.",
        ),
        said(
            57,
            "desmond",
            "Give me three weeks. Less flat out, more nose, same hours outdoors. If the flat suffers I will bring a brush.",
        ),
        said(28, "maryanne", "All right, you win, he slept through a whole film."),
        said(22, "desmond", "He wins. You get the sofa back."),
        said(
            3,
            "maryanne",
            "It is the cool-down I cannot fit in, the gate shuts at seven. The rest is going great though.",
        ),
        said(
            3,
            "desmond",
            "Then search first thing on your late days, or swap to the garden with a scatter. I would rather have one search a week with its ending than two without.",
        ),
    ],
    trainer_notes: &[
        said(58, "desmond", "Ball-made, not born, this one. Fit, keen, honest owner."),
        said(21, "desmond", "Search lovely. Watch endings: her job squeezes them."),
    ],
    answers: &["Noted, once and understandable. Suggested the lay-by with the long verge."],
    ..Dog::PLAIN
};

/// The evening search all of Sprocket's last five are like.
const SEARCH: Moment = Moment {
    days_ago: 15,
    hour: 18,
    item: "moving-search",
    by: "maryanne",
    place: "Sexton's field, hired",
    line: Line::LongLine,
    clip: Some(Clip::HarnessBack),
    minutes: 11,
    attempts: 6,
    met: 4,
    rewards: 4,
    arousal: (3, 3),
    recovery: Recovery::Within15,
    cool_down: Some((10, CoolDown::SniffWalk)),
    note: "Under the bramble arch, down the ditch, up again, found it. Grand.",
    ..Moment::USUAL
};
