//! Faster work out of doors: coming back, searching, and giving things up gladly.

use super::{CALM, Clip, Energy, Line, SkillClass, StarterExercise, step};

/// Work that stirs a dog up and therefore ends in a cool-down.
const FAST: StarterExercise = StarterExercise {
    line: Line::LongLine,
    clip: Some(Clip::HarnessBack),
    energy: Energy::Arousing,
    impact: true,
    cool_down_minutes: 10,
    cool_down_way: "A slow sniffing walk on the lead until the head is low and food is taken gently, then home.",
    usual_times_a_week: 3,
    ..CALM
};

/// Coming back and giving up, the kinder way round.
pub(super) const ENTRIES: &[StarterExercise] = &[
    StarterExercise {
        key: "recall-long-line",
        name: "Come, on the long line",
        purpose: "A recall cue with an unbroken history of payment, built where the dog cannot rehearse leaving.",
        owner_why: "Each time your dog comes and is paid, the word gets stronger. The line is there so that the other \
                    thing cannot be practised, not to pull anybody in.",
        criterion: "Your dog turns at the first call and reaches you; the line stays slack all the way.",
        set_up: "A fenced field or a wide open one away from roads. Five to ten metres of line in loose loops, gloves on, \
                 nothing round your wrist. Best food of the week, in a pocket that opens easily.",
        delivery: "Call once, cheerful, when you would put money on it. Run backwards a few steps. Yes at the turn, then \
                   four or five small pieces one after another at your feet. Then \"off you go\": coming back is not \
                   the end of the fun.",
        equipment_note: "Line on the back ring of a well-fitting harness, never on a collar or head collar: at the end of a \
                         run it would stop your dog at the neck. No extending leads.",
        class: SkillClass::Safety,
        usual_attempts: 8,
        caution: "Do not call when you doubt it; walk closer along the line instead. Puppies and growing dogs: short \
                  distances and no sprinting to the end. Stop for limping, for panting that does not settle, or in heat. \
                  Good counts here never mean off the lead; your trainer decides that with you, place by place.",
        steps: &[
            step("Across the garden", "Comes three metres to one call.", 3, 0, 2),
            step("Length of the garden", "Comes eight metres to one call.", 8, 0, 2),
            step("Quiet field, close", "Comes three metres to one call in a quiet field.", 3, 0, 3),
            step("Quiet field, further", "Comes ten metres to one call.", 10, 0, 3),
            step("Others far away", "Comes three metres with people or dogs far off.", 3, 0, 4),
            step("Others far away, further", "Comes ten metres with people or dogs far off.", 10, 0, 4),
            step(
                "Something interesting near",
                "Comes three metres away from something truly tempting.",
                3,
                0,
                5,
            ),
        ],
        ..FAST
    },
    StarterExercise {
        key: "moving-search",
        name: "Moving search",
        purpose: "A legal outlet for chasing and hunting: brief movement, then a nose-down search that brings arousal \
                  back down. Predation rehearsed on our terms and ended on ours.",
        owner_why: "Dogs who love to chase need somewhere to put it. A short burst after something you threw, then a long \
                    sniff to find it, satisfies more than a ball flung twenty times and leaves your dog calmer.",
        criterion: "Your dog waits for the word, goes out, and finishes by searching with the nose until it is found.",
        set_up: "Long grass or leaves in a fenced field. A food pouch or soft toy. Long line in your hand, not trailing \
                 through a child or another dog.",
        delivery: "Throw low and short while your dog watches, wait for one look at you, \"find it\". Let the nose work and \
                   keep quiet. Yes at the find, swap for food. Six is plenty.",
        equipment_note: "Back of the harness, always; the line paid out so that it cannot come tight at a run.",
        usual_attempts: 6,
        usual_times_a_week: 2,
        caution: "Not two days running, not in heat, not for a growing, old, stiff or sore dog without your vet's word: \
                  those dogs search without the run. Stop while it is still easy to stop. If your dog cannot eat or hear \
                  you afterwards, leave it out next time and tell your trainer.",
        steps: &[
            step("Scattered at your feet", "Searches for food in grass until done.", 1, 0, 2),
            step("Thrown three metres", "Waits for the word, goes, and searches.", 3, 0, 2),
            step("Thrown eight metres", "Waits for the word, goes, and searches.", 8, 0, 2),
            step("A new field", "Waits, goes and searches close by in a quiet park.", 3, 0, 3),
            step("Wait a little longer", "Waits five seconds for the word.", 3, 5, 3),
        ],
        ..FAST
    },
    StarterExercise {
        key: "toy-exchange",
        name: "Swap: toy for food, toy again",
        purpose: "Drop on cue without conflict; prevents guarding and teaches a dog to switch arousal down.",
        owner_why: "If giving something up always leads to something good, and usually to getting it back, your dog has no \
                    reason to run off with it or hold on tighter. One day it will be a chicken bone.",
        criterion: "Your dog lets go of the toy at the word, before any food is shown.",
        set_up: "Two toys of equal worth, a soft floor, room to move. Food hidden.",
        delivery: "Play gently, low and side to side. Hold the toy still against your leg. Say \"swap\" once, wait, and at \
                   the opening mouth: yes, food on the floor. Pick the toy up while your dog eats, then offer it again.",
        equipment_note: "On a lead only where the place is not fenced; back of the harness.",
        line: Line::None,
        clip: None,
        class: SkillClass::Safety,
        cool_down_minutes: 5,
        cool_down_way: "Scatter a handful of food to sniff for, then a chew on the mat, toys put away.",
        usual_attempts: 6,
        caution: "Never pull anything out of a mouth or chase a dog for it. If your dog freezes over the toy, goes stiff, \
                  shows the whites of the eyes or growls, walk away, log it, and do not repeat it: that needs your trainer \
                  and perhaps a behaviourist. Keep tugging low and mild for puppies and for sore necks and teeth.",
        steps: &[
            step("Dull toy, good food", "Lets go of a dull toy at the word.", 0, 0, 1),
            step("Better toy", "Lets go of a favourite lying still.", 0, 0, 1),
            step("After gentle play", "Lets go after five seconds of gentle tug.", 0, 5, 1),
            step("After longer play", "Lets go after fifteen seconds of tug.", 0, 15, 1),
            step("In the garden", "Lets go out of doors after five seconds.", 0, 5, 2),
            step("Found things", "Swaps something found on a quiet walk, planted by you.", 0, 0, 3),
        ],
        ..FAST
    },
];
