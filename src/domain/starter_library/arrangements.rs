//! Standing arrangements: set up once, kept daily, and often worth more than any exercise.

use super::{CALM, Clip, ItemKind, Line, Outcome, StarterExercise};

/// An arrangement kept every day.
const KEPT: StarterExercise = StarterExercise {
    kind: ItemKind::StandingArrangement,
    outcome: Outcome::Events,
    usual_attempts: 0,
    usual_times_a_week: 7,
    ..CALM
};

/// Arrangements, those that keep people safe first.
pub(super) const ENTRIES: &[StarterExercise] = &[
    StarterExercise {
        key: "children-and-dog-apart",
        name: "Children and dog apart unless someone is between",
        purpose: "Active supervision or a barrier; closes the commonest road to a bite at home.",
        owner_why: "Even very good dogs get tired, sore or startled, and children are quick. A gate means you can boil an egg \
                    without watching two at once.",
        criterion: "Child and dog are in one room only with an adult awake, near and between. Otherwise there is a gate.",
        set_up: "Two stair gates, a pen or a shut door; a bed for the dog on their side of it, toys for the child on theirs.",
        delivery: "Move the dog before the child, cheerfully, with a piece of food. Being behind the gate should usually mean a \
                   chew.",
        caution: "No child holds the lead near a road, feeds from the hand where there is guarding, or follows a dog who walks \
                  away. A growl at a child: gate shut, ring your trainer today, and your vet.",
        ..KEPT
    },
    StarterExercise {
        key: "gate-for-visitors",
        name: "Gate shut when visitors come",
        purpose: "Prevents rehearsal of rushing, barking or biting at arrivals.",
        owner_why: "The doorbell is the hardest minute of your dog's day. Having it happen on the other side of a gate, with \
                    something to chew, takes the minute away.",
        criterion: "Dog behind the gate with a chew before the front door opens, every time.",
        set_up: "A sign on the door that buys you a minute. Chews in a tin by the gate.",
        delivery: "Bell, chew, gate, door: in that order. Your dog joins in only if it is on the plan, and when everybody sits.",
        caution: "Tell people not to lean over. If your dog throws themselves at the gate or cannot take the chew, use a room \
                  further away and tell your trainer.",
        ..KEPT
    },
    StarterExercise {
        key: "line-on-the-harness",
        name: "Long line on the harness, every field walk",
        purpose: "No rehearsal of leaving; no load on the neck.",
        owner_why: "Each successful run after a hare teaches your dog more than a month of practice. With the line on the \
                    harness your dog still has a proper walk, and you still have your dog.",
        criterion: "Line on the back ring before the car door or gate opens, and off again only behind a shut one.",
        set_up: "Hang line and harness together on one hook, gloves in the pocket.",
        delivery: "Hold it in loose loops, let it trail only in fenced fields, keep it short near a road.",
        equipment_note: "Back ring of the harness. Not the collar, not a head collar, not round your wrist.",
        line: Line::LongLine,
        clip: Some(Clip::HarnessBack),
        caution: "Check the clip and stitching weekly. Near roads the line must be shorter than the distance to the kerb.",
        ..KEPT
    },
    StarterExercise {
        key: "food-and-chews-apart",
        name: "Food and chews apart",
        purpose: "Removes competition between dogs, and between dog and family, while swapping is taught.",
        owner_why: "Nobody eats well with somebody looking over their shoulder. Apart, there is nothing to defend.",
        criterion: "Each dog eats and chews behind their own door or gate; bowls and leftovers are picked up before they meet.",
        set_up: "Fixed places, same every day, bowls down after doors are shut.",
        delivery: "Call dogs to their places with a few pieces, then bowls. Open up when everybody has stopped looking for \
                   more.",
        caution: "Freezing, hard staring or growling over food: leave it, log it, tell your trainer. Do not take the bowl away \
                  to see what happens.",
        ..KEPT
    },
    StarterExercise {
        key: "quiet-hours-walks",
        name: "Walks at the quiet hours",
        purpose: "Lowers trigger dose so that arousal can fall and practice can be chosen.",
        owner_why: "A walk where nothing happens is a rest. A few weeks of them and your dog has something left for the walk \
                    where something does.",
        criterion: "Walks at hours and places where you usually meet nobody; another way home if you do.",
        set_up: "Write down when your streets are empty: school times, bin day, the paper round.",
        delivery: "Shorter and duller beats longer and braver. A day without a walk, with a search in the garden, is allowed.",
        caution: "Wear something bright in the dark. If your dog does not want to go out at all, tell your trainer and vet.",
        ..KEPT
    },
    StarterExercise {
        key: "blocked-view",
        name: "Window covered, fence filled",
        purpose: "Stops all-day rehearsal of barking at passers-by.",
        owner_why: "Barking at the postie works: the postie always leaves. Without the view there is nothing to see off, and \
                    your dog can sleep.",
        criterion: "No view of the street from sofa, stairs or gate while somebody is not there to answer it.",
        set_up: "Frosted film to standing-dog height, furniture moved, reed screen along the fence.",
        delivery: "When your dog does bark, thank them, call them away, scatter a few pieces. Then look what gap you forgot.",
        caution: "Keep light and air. A dog who now listens all day instead needs a radio, a rest room further in, and a word \
                  with your trainer.",
        ..KEPT
    },
    StarterExercise {
        key: "own-rest-place",
        name: "A rest place nobody enters",
        purpose: "Guaranteed undisturbed sleep; a retreat that makes warnings unnecessary.",
        owner_why: "Grown dogs sleep or doze much of the day, and puppies more. A bed where nobody ever reaches in is a dog's \
                    way of saying \"not just now\" without having to growl it.",
        criterion: "In the bed or behind its gate, nobody touches, calls or climbs in. Your dog comes out when they like.",
        set_up: "Away from doors and draughts, not a corridor. Two of them if you have two dogs.",
        delivery: "Draw a line on the floor for children. Put a piece of food there sometimes, when nobody is looking.",
        caution: "A dog who starts to hide there, or snaps when disturbed, may be in pain: vet first.",
        ..KEPT
    },
    StarterExercise {
        key: "someone-with-her",
        name: "Not left alone for now",
        purpose: "Suspends real absences while graded departures are built.",
        owner_why: "Practice works when the only times alone are the easy ones. For a few weeks, borrow neighbours, take turns, \
                    take your dog along.",
        criterion: "Nobody leaves the dog alone for longer than the longest calm time on the plan.",
        set_up: "A list on the fridge: who can sit, when, and the number of the next person to ask.",
        delivery: "Plan the week on Sunday. A walk to the sitter's is a walk.",
        caution: "A car is not a sitter: cars heat up in minutes. If the week cannot be covered, tell your trainer, who will \
                  not think less of you.",
        ..KEPT
    },
    StarterExercise {
        key: "no-greetings",
        name: "No greetings for now",
        purpose: "Takes strangers, hands and other dogs out of the first weeks, so that nothing has to be coped with.",
        owner_why: "A dog who has just moved has enough to take in. Nobody has to be met: people and dogs can be looked at from \
                    far away, and that is plenty.",
        criterion: "Nobody reaches for the dog, and no dog is met nose to nose. You step aside, or in between, every time.",
        set_up: "A sentence that you have ready: \"Not today, thank you.\" A side of the path to step to.",
        delivery: "See somebody, turn away early, pay your dog for coming along. Visitors sit down and look elsewhere.",
        caution: "If your dog freezes, hides, growls or snaps at people at home, keep everybody apart and ring your trainer.",
        ..KEPT
    },
    StarterExercise {
        key: "two-attachments",
        name: "Two attachments on every walk",
        purpose: "A frightened dog that backs out of one piece of equipment is still held by the other.",
        owner_why: "Most dogs who get lost in their first weeks slip out of something. With two attachments one may slip and \
                    you still have your dog.",
        criterion: "Outside the door or the car there are always two: the lead on the harness, and a second one on a collar \
                    that cannot pull tight.",
        set_up: "Fit both indoors: two fingers under every strap. A tag with your number on the collar, and a chip that is \
                 registered to you.",
        delivery: "Door shut, put both on, check, door open. The second one hangs loose and never takes the pull.",
        equipment_note: "Harness with a second lead on a flat collar. Doors of the car open only when a hand is on both.",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        caution: "A dog that has got away is not chased: stop, sit, food on the ground, ring your trainer, the chip register, \
                  vets nearby.",
        ..KEPT
    },
    StarterExercise {
        key: "puppy-sleep",
        name: "Sleep comes first",
        purpose: "Overtired puppies bite and race; rest removes most of it.",
        owner_why: "A puppy sleeps most of the day, and one that does not gets wild and nippy in the evening. Sleep is the \
                    easiest exercise on this plan.",
        criterion: "An hour awake is followed by sleep, in a place where nobody wakes the puppy.",
        set_up: "A pen or crate with an open door, near you, in the dim. Chew, water, a blanket.",
        delivery: "Before the wild phase comes: out to the garden, then to bed with something to chew, and stay near until it \
                   sleeps.",
        caution: "A puppy who sleeps much more than before, does not eat, or has loose stools needs the vet the same day.",
        source: "common practice; how much puppies sleep differs widely",
        ..KEPT
    },
    StarterExercise {
        key: "puppy-toilet",
        name: "Out before it is urgent",
        purpose: "House training by prevention: no accidents rehearsed, no scolding.",
        owner_why: "A puppy cannot hold on for long, and learns the place where it goes most often. Be early, and it is soon \
                    done.",
        criterion: "Out after sleep, food, play, and every hour in between while awake; paid on the spot when it is done.",
        set_up: "Lead and food by the door, one place that is always the same.",
        delivery: "Stand still and dull, wait, say a quiet \"yes\" when it is finished, pay at once, then a minute of play.",
        caution: "An accident is wiped away without a word. Straining, blood, or many tiny puddles: ring the vet.",
        ..KEPT
    },
];
