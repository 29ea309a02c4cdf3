//! The Oyelaran household: Treacle.

use crate::demo::content::build::*;
use crate::demo::content::types::*;
use crate::domain::vocabulary::Towards;

/// Who they are and whom they live with.
pub(super) const HOUSEHOLD: Household = Household {
    key: "oyelaran",
    name: "Oyelaran",
    about: "End-of-terrace, open-plan downstairs, grandmother upstairs. Gates since last month.",
    children: &[3, 6],
    owners: &[
        owner("kemi", "Kemi Oyelaran", "07700 900205", 7),
        owner("jide", "Jide Oyelaran", "07700 900206", 3),
    ],
    dogs: &[TREACLE],
};

/// Guards his bowl; bit a visiting uncle yesterday.
const TREACLE: Dog = Dog {
    key: "treacle",
    name: "Treacle",
    story: Story::NewBite,
    trainer: "morwenna",
    joined: 55,
    profile: Profile {
        breed: "Labrador cross",
        sex: Sex::Male,
        age_days: 920,
        birth_known: BirthPrecision::Month,
        weights: &[(55, 31.0), (20, 30.4)],
        adult_kg: 30.0,
        condition: 6,
        orthopaedic: "Nothing known.",
        other: "Ate a whole birthday cake, candles included. Vet has seen the X-ray.",
        allergies: &["beef"],
        food: "dry complete, salmon",
        food_kcal_g: 3.5,
        vet: Vet::Seen(50),
        incidents: &[
            Incident {
                days_ago: 160,
                kind: IncidentKind::Growl,
                skin_broken: false,
                towards: "Kemi",
                whom: Some(Towards::Handler),
                facts: "Growled over a stolen chop bone under the table. Let go when she went to the fridge.",
            },
            Incident {
                days_ago: 70,
                kind: IncidentKind::Guarding,
                skin_broken: false,
                towards: "the six-year-old",
                whom: Some(Towards::Child),
                facts: "Froze over the bowl, showed the whites of his eyes. Child was called away.",
            },
        ],
        ..Profile::PLAIN
    },
    goal: Goal {
        words: "I want to stop listening for it. I want to cook with my back to them and not be listening.",
        readings: &[(55, 1, 1), (27, 4, 4), (5, 5, 5)],
    },
    tried_before: &[
        "Taking the bowl away to show him we can: he eats faster and stiffer.",
        "Hand in the food while he eats, from a video. Stopped after the growl.",
    ],
    triggers: &[
        trigger("someone passing while he eats", 3, "Eats faster, goes still, then whites of the eyes."),
        trigger("dropped food", 2, "Stands over it, head low."),
    ],
    reinforcers: &[
        food("sardine, mashed", 5, 2.0, 1.0),
        food("turkey, cooked", 4, 1.5, 1.0),
        food("carrot coins", 2, 0.41, 2.0),
    ],
    places: &[fenced("utility room", 1), fenced("kitchen, children at school", 1), fenced("back garden", 2)],
    versions: &[
        version(
            54,
            "Arrangements first, and they are most of it: gate, bowl behind the utility-room door, children's snacks at the table. Please do no practice with his bowl at all for now.",
        ),
        version(
            24,
            "The house is calmer, so we add swapping, with dull things only, when the children are at school.",
        ),
    ],
    standing: &["children-and-dog-apart", "food-and-chews-apart", "gate-for-visitors"],
    items: &[
        Item {
            key: "toy-exchange",
            climb: &[(24, 0)],
            attempts: 5,
            times_a_week: 3,
            minutes: 4,
            when: "after drop-off, house empty",
            place: "kitchen, children at school",
            reinforcer: "turkey, cooked",
            cool_down: Some((5, CoolDown::Settle)),
            met: (70, 88),
            met_now: (70, 88),
            ..Item::CALM
        },
        Item {
            key: "hand-target",
            climb: &[(54, 0), (38, 1), (21, 2)],
            attempts: 8,
            when: "before the afternoon school run",
            place: "kitchen, children at school",
            reinforcer: "carrot coins",
            met: (70, 95),
            met_now: (72, 90),
            ..Item::CALM
        },
        Item {
            key: "settle-on-a-mat",
            climb: &[(54, 0), (33, 1)],
            attempts: 0,
            times_a_week: 5,
            minutes: 8,
            when: "behind the gate while the children have tea",
            place: "utility room",
            reinforcer: "carrot coins",
            reading: (60, 360),
            ..Item::CALM
        },
    ],
    rhythm: Rhythm { first: 53, last: 2, hours: &[9, 14, 17], one_tap: 40, cooled_down: 90, arousal: (2, 2) },
    notes: &[
        good("hand-target", "He will come off the sofa for my hand now. I used to have to pull."),
        hard("settle-on-a-mat", "Chips for tea. He lay down but his eyes never left the fryer."),
        good(
            "settle-on-a-mat",
            "Snored through fish fingers. I sat down for a meal. First time since he came.",
        ),
        good("toy-exchange", "Dropped the rope before I had finished the word."),
        hard(
            "toy-exchange",
            "Would not swap the old slipper so I did as you said and walked off and boiled the kettle. He left it after a minute.",
        ),
        good("hand-target", "Granny did five. She says he has better manners than her sons.").of(5, 5),
        hard("", "School shut, everybody everywhere. Did two and called it.").of(1, 2),
        good("settle-on-a-mat", "Six minutes, with a small person singing on the other side of the gate.")
            .read(360),
    ],
    moments: &[Moment {
        days_ago: 1,
        hour: 19,
        item: "settle-on-a-mat",
        by: "kemi",
        place: "utility room",
        busy: Busy::Busy,
        minutes: 3,
        arousal: (3, 4),
        looked: Looked::Frozen,
        food: TookFood::Refused,
        recovery: Recovery::Longer,
        cool_down: Some((15, CoolDown::Settle)),
        incident: Some(Incident {
            days_ago: 1,
            kind: IncidentKind::Bite,
            skin_broken: true,
            towards: "Jide's brother",
            whom: Some(Towards::Stranger),
            facts: "He opened the gate to say hello and bent to move the bowl out of the way. One bite to the right hand, two small punctures. Washed ten minutes under the tap, walk-in centre, tetanus given. Children were upstairs.",
        }),
        note: "He was told about the gate. He thought it was for the children. Treacle has been in the utility room with the door shut since and I have not cried in front of anyone.",
        ..Moment::USUAL
    }],
    encounters: &[
        met(
            33,
            "kemi",
            "Dropped a whole tray of chicken",
            1,
            1,
            Recovery::Within5,
            "Called him to my hand and he came. Jide swept up.",
        ),
        met(
            12,
            "jide",
            "My lad ran past with toast",
            3,
            2,
            Recovery::Within15,
            "Gate was shut. He went stiff, then lay down again.",
        ),
    ],
    messages: &[
        said(
            54,
            "kemi",
            "I am a nurse, I know what teeth do. I need somebody to tell me whether we can keep him.",
        ),
        said(
            54,
            "morwenna",
            "That is the right question and you do not have to answer it this week. Tonight: bowl behind a door, gate shut, and sleep. I will come on the first free morning.",
        ),
        said(25, "kemi", "Two weeks without a stiff face. Is it working or are we just careful?"),
        said(
            24,
            "morwenna",
            "Both, and careful is how it works. I have added one small swap game; only dull things, only when the children are at school.",
        ),
        said(3, "kemi", "Jide's brother is staying from tomorrow. I have told him the rules twice."),
    ],
    trainer_notes: &[
        said(
            54,
            "morwenna",
            "Early, clear warnings, good distance, no child contact so far. Vet seen: ears and feet sore from allergy, treated. Behaviourist details given, family on the waiting list.",
        ),
        said(
            24,
            "morwenna",
            "Kemi does everything. Jide relaxed about it, perhaps too relaxed. Say the visitor rule again, in front of both.",
        ),
    ],
    answers: &[
        "Rang: nothing more with the slipper. Dull toys only, and never when somebody else is in the room.",
    ],
    ..Dog::PLAIN
};
