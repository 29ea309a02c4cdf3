//! Walking, doors, guests: the everyday joins.

use super::{CALM, Clip, Energy, Line, Outcome, SkillClass, StarterExercise, step};

/// Everyday work, on an ordinary lead unless an entry says otherwise.
pub(super) const ENTRIES: &[StarterExercise] = &[
    StarterExercise {
        key: "loose-lead",
        name: "Walking on a slack lead",
        purpose: "Reinforced position and pace; the line's slack is the criterion, not a heel.",
        owner_why: "Pulling works: it gets dogs where they want to go. Here the slack lead is what gets your dog there, with \
                    food along the way until it becomes the habit.",
        criterion: "The clip hangs straight down for the whole of the stretch.",
        set_up: "Start after a sniff and a wee, not at the front door. Pieces in the hand nearest your dog.",
        delivery: "Walk at your dog's pace. While the lead is slack, yes, and feed at the seam of your trousers. If it goes \
                   tight, stand like a lamp post, breathe, and walk on the moment it softens.",
        equipment_note: "Two metres of lead on the back of the harness; the front ring if your trainer fitted it. Nothing that \
                         tightens.",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        energy: Energy::Moving,
        cool_down_minutes: 5,
        cool_down_way: "The last five minutes are your dog's: a longer lead, any lamp post, as slow as they like.",
        caution: "A few minutes of this, then an ordinary walk; nobody can do it for an hour. A dog who suddenly lags, pulls to \
                  one side or will not go down steps may be sore: stop and ask your vet.",
        steps: &[
            step("Three steps indoors", "Slack for three steps.", 2, 0, 1),
            step("Length of the hall", "Slack for five metres.", 5, 0, 1),
            step("Garden or drive", "Slack for five metres out of doors.", 5, 0, 2),
            step("Quiet street", "Slack for twenty metres.", 20, 0, 2),
            step("Quiet park", "Slack for ten metres on grass.", 10, 0, 3),
            step("Further in the park", "Slack for thirty metres.", 30, 0, 3),
            step("People about", "Slack for ten metres with people and dogs in view.", 10, 0, 4),
        ],
        ..CALM
    },
    StarterExercise {
        key: "waiting-at-doors",
        name: "Waiting at doors and gates",
        purpose: "An open door becomes the cue to look back. Management for bolters, never a substitute for a shut gate.",
        owner_why: "A dog who waits for your word at the door, the boot and the garden gate is a dog who does not meet a van.",
        criterion: "The door opens and your dog stays behind the line of the sill until you say go.",
        set_up: "An inside door first. Lead on and in your hand, and the outer gate shut.",
        delivery: "Hand to the handle: if your dog waits, yes, feed away from the door. Open it a hand's width, then more. If \
                   your dog moves, close it gently, no words, and ask for less.",
        equipment_note: "Short lead on the back of the harness whenever the door leads outside.",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        class: SkillClass::Safety,
        usual_attempts: 8,
        caution: "Mind noses and tails in the gap. With a dog who has run off, keep a second shut gate between this and the \
                  road for good, however well it goes.",
        steps: &[
            step("Hand on an inside door", "Waits while you touch the handle.", 0, 1, 1),
            step("A hand's width", "Waits three seconds with the door ajar.", 0, 3, 1),
            step("Wide open inside", "Waits ten seconds with the door wide open.", 0, 10, 1),
            step("Front door, gate shut", "Waits one second with the front door open.", 0, 1, 2),
            step("You go first", "Waits while you step through and back.", 1, 1, 2),
            step("Car boot", "Waits at the open boot in a quiet place, on the lead, until told.", 0, 1, 3),
        ],
        ..CALM
    },
    StarterExercise {
        key: "calm-greeting",
        name: "Four paws for hello",
        purpose: "Differential reinforcement of standing or sitting at the approach of people; greeting itself is the reward.",
        owner_why: "Jumping up is a friendly dog asking to be noticed. If four paws get the fuss and the biscuit, four paws are \
                    what your visitors will meet.",
        criterion: "All four paws are on the floor while the person comes and says hello.",
        set_up: "A helper who has read this. Dog on a lead or behind a gate, food scattered as the helper comes in.",
        delivery: "Helper comes a step nearer while paws stay down: yes, food on the floor. Paws up: helper turns away, waits, \
                   tries again from further. Two seconds of stroking at most, then a pause to see if your dog asks for more.",
        equipment_note: "Short lead on the back of the harness, slack, held by you and not by a child.",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        energy: Energy::Moving,
        cool_down_minutes: 5,
        cool_down_way: "A chew behind the gate while people sit down and talk about something else.",
        usual_attempts: 6,
        usual_times_a_week: 3,
        caution: "For friendly dogs. A dog who growls, hides, freezes or has bitten does not greet: gate shut, and talk to your \
                  trainer. No children as helpers until an adult has made it easy.",
        steps: &[
            step("Someone of the house", "Paws down while family comes in from the next room.", 0, 0, 1),
            step("Closer", "Paws down while family stands beside you.", 0, 0, 1),
            step("A friend, at a distance", "Paws down as a known friend stops three metres away.", 0, 0, 2),
            step("A short hello", "Paws down through two seconds of stroking by a friend.", 0, 2, 2),
            step("On a walk", "Paws down as someone stops to talk to you.", 0, 0, 3),
        ],
        ..CALM
    },
    StarterExercise {
        key: "wind-down-walk",
        name: "Wind-down walk",
        purpose: "Decompression: slow, self-directed sniffing. The cool-down for everything else, and a rest-day item in \
                  itself.",
        owner_why: "Sniffing slowly is how many dogs settle themselves. A walk where nothing is asked is no waste of a walk: it \
                    is where yesterday's learning sinks in.",
        criterion: "Your dog ends with head low, tail easy, and takes food gently.",
        set_up: "The dullest green place you know, at the dullest hour.",
        delivery: "Two or three metres of lead, your dog chooses where and how fast. Say little. If something worrying \
                   appears, curve away early and scatter a few pieces.",
        equipment_note: "Lead on the back of the harness; a five-metre line only in the open.",
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        outcome: Outcome::Recovery,
        usual_attempts: 0,
        usual_times_a_week: 5,
        caution: "Ten to thirty minutes, less for puppies, old dogs and hot days. If your dog does not come down within a \
                  quarter of an hour, day after day, tell your trainer: something in the week is too much.",
        steps: &[
            step("In the garden", "Sniffs about for five minutes and comes in loose.", 0, 300, 1),
            step("A quiet lane", "Ten minutes at sniffing pace, ends loose.", 0, 600, 1),
            step(
                "A quiet green place",
                "Ten minutes among duller smells of other dogs, ends loose.",
                0,
                600,
                2,
            ),
            step("A longer one", "Twenty minutes, ends loose.", 0, 1200, 2),
        ],
        ..CALM
    },
];
