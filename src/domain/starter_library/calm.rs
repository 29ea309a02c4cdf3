//! Still or slow work that most plans begin with.

use super::{CALM, Outcome, StarterExercise, step};

/// Calm work, easiest to teach first.
pub(super) const ENTRIES: &[StarterExercise] = &[
    StarterExercise {
        key: "yes-means-food",
        name: "Yes means food",
        purpose: "Condition the marker: a sound or word that predicts a reinforcer within a second, every time.",
        owner_why: "One small word that always pays lets you tell your dog exactly which moment was right, even \
                    from the far side of a room. Everything later on your plan is built on it.",
        criterion: "Your dog turns to you for the food within a second of hearing the yes.",
        set_up: "A quiet room, ten pea-sized pieces in a pot on the side, hands at rest and empty.",
        delivery: "Say yes once, in the same light voice. Then move your hand to the food and bring it to your dog's \
                   mouth. Word first, hand second: if the hand moves first, the hand is the signal. Wait until your \
                   dog has looked away for a breath before the next one.",
        usual_attempts: 10,
        usual_times_a_week: 5,
        caution: "Keep it where nothing else is going on. If a clicker makes your dog blink or back away, use the word. \
                  If your dog leaves, that was enough for today.",
        steps: &[
            step("In the kitchen", "Turns for the food after the yes, nothing asked beforehand.", 0, 0, 1),
            step(
                "Looking elsewhere",
                "Turns back when the yes comes while looking at something dull.",
                0,
                0,
                1,
            ),
            step("From across the room", "Turns and comes the two metres for the food.", 2, 0, 1),
            step("In the garden", "Turns for the food out of doors, with you beside.", 1, 0, 2),
        ],
        source: "common practice; a late reward slows new learning (Lord 2012), a sound and a word do equally well \
                 (Chiandetti and others 2016)",
        ..CALM
    },
    StarterExercise {
        key: "eye-contact",
        name: "A look at you",
        purpose: "Offered eye contact as the default answer to doubt; the seed of disengaging from triggers.",
        owner_why: "A dog who checks in with you of their own accord is already halfway to walking past things. You \
                    are not asking for it; you are noticing it and paying well.",
        criterion: "Your dog looks up at your face without being called.",
        set_up: "Stand still and comfortable, food out of sight, phone away. On a lead, keep it slack.",
        delivery: "Wait. The moment the eyes reach your face, yes, then food low at your knee so that your dog can look \
                   away again and choose once more.",
        equipment_note: "Nothing indoors. Outside, an ordinary lead on the back of the harness.",
        caution: "Do not hold food by your face or say the name over and over; waiting is the exercise. If half a minute \
                  goes by without a look, the place is too hard today: go somewhere duller.",
        steps: &[
            step("At home, waiting", "Looks up within ten seconds.", 0, 0, 1),
            step("A moment longer", "Holds the look for two seconds.", 0, 2, 1),
            step("In the garden", "Looks up out of doors; any look counts.", 0, 0, 2),
            step(
                "A breath, out of doors",
                "Holds the look for three seconds in the garden or a quiet street.",
                0,
                3,
                2,
            ),
            step("Quiet park", "Looks up within ten seconds; any look counts.", 0, 0, 3),
            step(
                "People about",
                "Looks up with people or dogs in view, far enough off to eat happily.",
                0,
                0,
                4,
            ),
        ],
        ..CALM
    },
    StarterExercise {
        key: "food-on-the-floor",
        name: "Back to you after food on the floor",
        purpose: "Re-orienting: the end of one reward becomes the cue to look for the handler. A rhythm that carries \
                  a dog past mild distractions.",
        owner_why: "It turns the moment after every treat into the moment your dog looks for you. It is easy to win, \
                    and sniffing for food brings most dogs down rather than up.",
        criterion: "Your dog eats the piece from the floor and turns back to you unprompted.",
        set_up: "A floor or short grass where the food can be seen. Ten pieces in one hand.",
        delivery: "Drop a piece a step away and say nothing. When your dog has eaten and turns to you, yes, and drop the \
                   next piece on the other side.",
        equipment_note: "Nothing indoors. Outside, an ordinary lead on the back of the harness, slack.",
        usual_attempts: 12,
        caution: "Not for two dogs at once, nor for a dog who guards food. Choose mown grass: no gravel, no slug pellets, \
                  nothing lying there that you did not put there.",
        steps: &[
            step("One step away", "Turns back to you after eating.", 1, 0, 1),
            step("Rolled across the room", "Turns back after chasing a rolled piece at a walk.", 3, 0, 1),
            step("In the garden", "Turns back after eating from short grass.", 1, 0, 2),
            step("Further on grass", "Turns back from three metres away.", 3, 0, 2),
            step("Quiet park", "Turns back from a step away, with something dull to look at.", 1, 0, 3),
        ],
        ..CALM
    },
    StarterExercise {
        key: "hand-target",
        name: "Nose to hand",
        purpose: "A trained touch to move a dog without pulling: on and off sofas, past a gap, away from a visitor.",
        owner_why: "A friendly way to ask your dog to move with you, past a pushchair or off the sofa, without a hand on \
                    the collar.",
        criterion: "Your dog's nose touches your open palm.",
        set_up: "Palm low and to the side, a hand's width from the nose. Food in the other hand or a pouch.",
        delivery: "Show the palm, keep it still. At the touch, yes, take the palm away, feed from the other hand.",
        caution: "Let your dog come to the hand; a palm pushed at a nose teaches leaning away. Teeth on skin means too \
                  much excitement: slower, duller food, or stop. Leave it out where a dog has bitten a hand, until your \
                  trainer says so.",
        steps: &[
            step("A hand's width", "Touches the palm beside the nose.", 0, 0, 1),
            step("A step to reach it", "Takes a step to touch.", 1, 0, 1),
            step("Across the room", "Comes three metres to touch.", 3, 0, 1),
            step("Stay on it", "Keeps the nose there for two seconds.", 0, 2, 1),
            step("In the garden", "Touches the palm beside the nose, out of doors.", 0, 0, 2),
            step("On a quiet walk", "Touches beside you while something dull goes by.", 0, 0, 3),
        ],
        ..CALM
    },
    StarterExercise {
        key: "name-response",
        name: "Hearing the name",
        purpose: "Orient to the name once, at low cost; kept separate from recall so that neither is worn out.",
        owner_why: "The name should mean \"something nice is coming from your direction\". After a few weeks of only \
                    good news it works when you need it.",
        criterion: "Your dog's head turns to you within two seconds of hearing the name once.",
        set_up: "Wait until your dog is looking at something unimportant.",
        delivery: "Name once, bright and quiet. Head turns: yes, then walk a step backwards and feed close to you. No turn: \
                   wait, go closer, make it easier. Once is the whole trick.",
        equipment_note: "Nothing indoors. Outside, a lead on the back of the harness.",
        usual_attempts: 8,
        usual_times_a_week: 5,
        caution: "For a few weeks, keep the name out of telling-off, baths and nail clippers. A dog who stops turning to a \
                  well-known name, above all an older one, should have ears and eyes looked at by a vet.",
        steps: &[
            step("Dozing nearby", "Head turns within two seconds.", 1, 0, 1),
            step("From the next room", "Turns and sets off from out of sight.", 5, 0, 1),
            step("In the garden", "Head turns from a step away while sniffing lightly.", 1, 0, 2),
            step("Garden, further", "Head turns from five metres.", 5, 0, 2),
            step("Quiet park", "Head turns beside you on the lead.", 1, 0, 3),
            step("Busier park", "Head turns beside you with other dogs in view.", 1, 0, 4),
        ],
        ..CALM
    },
    StarterExercise {
        key: "settle-on-a-mat",
        name: "Settle on a mat",
        purpose: "Relaxation on a cue that can be carried: mat as context, food for soft posture rather than for \
                  staying put.",
        owner_why: "A mat that means \"nothing is needed of you\" goes with you to the café, the vet's and your \
                    mother-in-law's. It is the rest half of the plan, and it counts as much as the clever half.",
        criterion: "Your dog lies down by choice and something softens: a hip rolls, the chin goes down, a sigh.",
        set_up: "A mat used for this alone, out of the path of feet, after a walk rather than before one.",
        delivery: "Sit near with a cup of tea. Put each piece on the mat between the paws, slowly and low. Reward less \
                   often as the body softens. End by lifting the mat, not by calling your dog off.",
        usual_attempts: 0,
        outcome: Outcome::Duration,
        usual_times_a_week: 5,
        caution: "Leaving is allowed. Never hold or send a dog back. A dog who cannot lie still anywhere, changes sides \
                  over and over or gets up stiffly should see the vet before more of this.",
        steps: &[
            step("One minute, beside you", "Lies soft on the mat for a minute.", 0, 60, 1),
            step("Five minutes", "Lies soft while you read.", 0, 300, 1),
            step("You across the room", "Lies soft for two minutes with you three metres off.", 3, 120, 1),
            step("Ordinary life going on", "Lies soft for two minutes while somebody cooks.", 0, 120, 2),
            step("Ten minutes of ordinary life", "Lies soft through ten minutes of it.", 0, 600, 2),
            step(
                "A quiet corner out",
                "Lies soft for two minutes in a quiet garden or café corner.",
                0,
                120,
                3,
            ),
        ],
        ..CALM
    },
    StarterExercise {
        key: "stay",
        name: "Stay till I come back",
        purpose: "Duration and distance on a stationary cue, always ended by the handler's return.",
        owner_why: "You always come back: that is what your dog is learning. It makes gates, muddy paws and answering the \
                    door quieter for everybody.",
        criterion: "Your dog is where you left them when you come back to pay.",
        set_up: "On a mat or a comfortable floor, sit or down as your dog prefers.",
        delivery: "Say it once, do your part, walk back, yes, and feed in position. Then release with a word of your own. \
                   Getting up only means it was too long: go back to half.",
        usual_attempts: 8,
        caution: "Not near a road or an open gate, whatever the counts say. A dog who will not sit, or sits to one side, \
                  may be sore: ask your vet, and use standing meanwhile.",
        steps: &[
            step("Three seconds", "Stays while you stand in front.", 0, 3, 1),
            step("Fifteen seconds", "Stays while you stand in front and look about.", 0, 15, 1),
            step("One step and back", "Stays while you take a step away and return.", 1, 3, 1),
            step("Across the room", "Stays while you walk three metres and return.", 3, 3, 1),
            step("In the garden", "Stays while you take a step and return, out of doors.", 1, 3, 2),
            step("Quiet park", "Stays while you take a step and return, on the lead.", 1, 3, 3),
        ],
        ..CALM
    },
];
