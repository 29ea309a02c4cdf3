//! What owners practise on their own, so that the dog never has to be what they learn on.

use super::{CALM, ItemKind, Line, StarterExercise, step};

/// Skills without the dog.
pub(super) const ENTRIES: &[StarterExercise] = &[
    StarterExercise {
        key: "handling-the-line",
        name: "Handling the long line",
        kind: ItemKind::OwnerSkill,
        purpose: "Mechanical skill: gathering, paying out and braking without jerks, burns or wrist loops.",
        owner_why: "Ten metres of line is a handful. Half an hour with a gatepost, once, saves your fingers and your dog's \
                    shoulders.",
        criterion: "The line is paid out and gathered in flat loops, never round a hand, and never snaps tight.",
        set_up: "Clip the line to a gatepost or to a friend. Gloves on.",
        delivery: "Walk away paying out, walk back gathering. Then have the friend set off without warning: let it run through \
                   your gloves, slow it, give with your arms. Drop it if it is that or your feet.",
        equipment_note: "The line you will really use, and gloves. No dog.",
        line: Line::LongLine,
        usual_attempts: 6,
        usual_times_a_week: 2,
        caution: "No loops round wrist or fingers. Bare hands burn. Stand side on with your feet apart.",
        steps: &[
            step("Gather standing", "Five metres into flat loops without looking.", 5, 0, 1),
            step("Gather walking", "Pays out and gathers while walking, no tangle.", 5, 0, 1),
            step("All of it", "The same with the full ten metres.", 10, 0, 1),
            step("A friend sets off", "Brakes a walking friend over three metres, no jerk.", 5, 0, 2),
        ],
        ..CALM
    },
    StarterExercise {
        key: "timing-the-yes",
        name: "Timing the yes",
        kind: ItemKind::OwnerSkill,
        purpose: "Marker timing and a clean hand: word before movement, one marker one reward.",
        owner_why: "A yes half a second late praises the wrong thing. Timing is learned like catching: quickly, and better with \
                    a ball than with a dog.",
        criterion: "The yes comes as the thing happens, and the hand stays still until it has.",
        set_up: "A ball and a friend, or the television. A pot and ten dry beans.",
        delivery: "Say yes each time the ball touches the floor, then put a bean in the pot. Then each time a newsreader blinks. \
                   Word, then hand.",
        equipment_note: "A ball and beans. No dog.",
        usual_attempts: 10,
        usual_times_a_week: 3,
        caution: "Two minutes. Stop when you start to laugh or to guess.",
        steps: &[
            step("The ball bounces", "Yes on the bounce, eight in ten by your friend's ear.", 0, 0, 1),
            step("Word, then hand", "The bean hand stays still until the yes is said.", 0, 0, 1),
            step("Something less sure", "Yes on a blink or a page turning.", 0, 0, 1),
            step("While walking", "Yes on the bounce while walking and holding a lead.", 0, 0, 2),
        ],
        source: "common practice; answers fell when food came half a second late or more (Yamamoto and others 2009)",
        ..CALM
    },
];
