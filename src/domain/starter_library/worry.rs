//! Work with worry. Nothing here is counted: a dog who reacts has been brought too near, which is ours to put right.

use super::{CALM, Clip, Energy, Line, Outcome, StarterExercise, step};

/// Distance, duration and recovery, in small steps.
pub(super) const ENTRIES: &[StarterExercise] = &[
    StarterExercise {
        key: "seen-from-far-off",
        name: "Seen from far off",
        purpose: "Counter-conditioning and desensitisation to a trigger at a distance the dog finds easy; nearest comfortable \
                  distance is the measure.",
        owner_why: "Your dog learns that the thing over there makes good food appear over here. It only works while the thing \
                    is far enough away to be dull, so far is not a step back: far is where the learning is.",
        criterion: "Your dog sees it, stays loose, eats, and can turn away.",
        set_up: "A wide view and a way out behind you. Somewhere you see the thing before it sees you. Ten very good pieces.",
        delivery: "Your dog looks: feed, feed, feed for as long as it is there. It goes: the food stops. A look followed by a \
                   turn back to you gets the best piece. Leave while it is easy, after three or four.",
        equipment_note: "Two or three metres of lead on the back of the harness. Muzzle where your plan says so.",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        energy: Energy::Moving,
        outcome: Outcome::Distance,
        cool_down_minutes: 10,
        cool_down_way: "Walk away from it, then ten minutes' sniffing on grass.",
        usual_attempts: 0,
        usual_times_a_week: 2,
        caution: "One bark, lunge or freeze ends it for the day: move off without fuss, and start from further next time. After \
                  two in a day, tomorrow is a sniffing day. Never hold a dog still to look. Where there has been a bite, this \
                  belongs under your trainer and a vet or behaviourist together.",
        steps: &[
            step("Hardly in sight", "Loose and eating with it standing still sixty metres off.", 60, 0, 2),
            step("Nearer, still", "Loose and eating at forty metres, standing still.", 40, 0, 2),
            step("Nearer again", "Loose and eating at twenty-five metres, standing still.", 25, 0, 2),
            step("Moving, from further", "Loose and eating at sixty metres while it walks about.", 60, 0, 3),
            step("Moving, nearer", "Loose and eating at forty metres while it walks about.", 40, 0, 3),
            step("Across a wide street", "Loose and eating at twenty metres while it goes by.", 20, 0, 3),
        ],
        source: "common practice; treatment of fear and aggression belongs with a vet or behaviourist (AVSAB 2021)",
        ..CALM
    },
    StarterExercise {
        key: "alone-in-small-steps",
        name: "Alone, in small steps",
        purpose: "Graded departures below the onset of distress; measured as longest calm time on camera, never exceeded.",
        owner_why: "Being alone is a skill, and it grows from times so short they are boring. Each calm one is a brick. Each \
                    upset one takes a few away, so short is quick.",
        criterion: "Your dog stays loose the whole time: lying down, or pottering, no whining, no waiting at the door.",
        set_up: "A camera you can watch. After a walk and a rest. Coat, keys and shoes have been dull for a few days already.",
        delivery: "Go out without ceremony, come back without ceremony, before anything changes. Write down the time. Some \
                   goes shorter than the last, so that it does not only ever get harder.",
        outcome: Outcome::Duration,
        usual_attempts: 0,
        usual_times_a_week: 4,
        caution: "Never plan longer than the longest calm time so far. Howling, drool, torn doors, or a dog who will not eat \
                  while you are out: come back, stop, and speak to your vet; panic is an illness and can be treated. \
                  Meanwhile arrange not to leave your dog alone in daily life.",
        steps: &[
            step("The other side of a door", "Loose for five seconds.", 0, 5, 1),
            step("Half a minute", "Loose for half a minute.", 0, 30, 1),
            step("Two minutes", "Loose for two minutes, front door shut.", 0, 120, 1),
            step("Ten minutes", "Loose for ten minutes.", 0, 600, 1),
            step("Half an hour", "Loose for half an hour.", 0, 1800, 1),
            step("An hour", "Loose for an hour.", 0, 3600, 1),
            step("Street noise outside", "Loose for half an hour at a noisier time of day.", 0, 1800, 2),
        ],
        source: "common practice; severe distress belongs with a vet or behaviourist (AVSAB 2021)",
        ..CALM
    },
    StarterExercise {
        key: "coming-down",
        name: "Coming down after a surprise",
        purpose: "A practised routine for the minutes after arousal: distance, scatter, slow breathing, wait. Recovery time is \
                  the measure.",
        owner_why: "Things will jump out at you both. What you do in the next five minutes decides whether the rest of the day \
                    is spoiled, and it is the same few things every time.",
        criterion: "Your dog is loose again: eats gently, sniffs, answers to the name.",
        set_up: "Practise after small surprises at home, a dropped spoon, a knock on wood, so that it is there for large ones.",
        delivery: "Turn away together. Ten steps. Scatter a handful in the grass. Loosen your own shoulders and the lead. Wait \
                   until the head comes up soft, then go on or go home.",
        equipment_note: "Whatever your dog is wearing for the walk; nothing extra.",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        outcome: Outcome::Recovery,
        usual_attempts: 0,
        usual_times_a_week: 3,
        caution: "Only dull surprises on purpose, never what truly frightens your dog. If it takes longer than a quarter of an \
                  hour, tomorrow is for sniffing and sleeping; if that happens often, tell your trainer.",
        steps: &[
            step(
                "After nothing at all",
                "Scatter and sniff in the garden for a minute, ends loose.",
                0,
                60,
                1,
            ),
            step("After a small noise", "Loose again after a dull sound indoors.", 0, 60, 2),
            step("After a quick turn", "Loose again after a brisk turn-away on a quiet walk.", 10, 60, 2),
            step("After life", "Loose again after a real, mild surprise.", 10, 60, 3),
        ],
        ..CALM
    },
];
