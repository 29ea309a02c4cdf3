//! Being touched, and wearing things, by consent.

use super::{CALM, Clip, Line, Outcome, SkillClass, StarterExercise, step};

/// Work in which the dog may always say no.
pub(super) const ENTRIES: &[StarterExercise] = &[
    StarterExercise {
        key: "muzzle-comfort",
        name: "At ease in a muzzle",
        purpose: "Voluntary wearing of a basket muzzle, long before it is needed; required where there is a bite history near \
                  targets.",
        owner_why: "A muzzle your dog likes putting on is a seat belt: it makes vet visits, busy days and other people safer \
                    and lets you breathe out. It says nothing bad about your dog.",
        criterion: "Your dog puts their own nose in and keeps it there, soft-eyed, taking food.",
        set_up: "A basket muzzle with room to open the mouth, pant and drink, fitted by your trainer. Soft food on a spoon or \
                 in a tube.",
        delivery: "Hold the muzzle like a cup. Nose goes in: yes, food through the front. Nose comes out: nothing happens, you \
                   wait. Straps come last of all, and for a moment only.",
        equipment_note: "Never a fabric sleeve that holds the mouth shut: a dog must be able to pant, drink and eat in it.",
        class: SkillClass::Safety,
        usual_times_a_week: 5,
        caution: "Pawing, freezing or turning away means two steps back. Never leave a muzzled dog alone or with dogs who are \
                  not. Mind heat: panting works less well. A muzzle never makes it all right to go nearer to what worries \
                  your dog.",
        steps: &[
            step("Muzzle about the house", "Looks at it lying there, and gets food.", 1, 0, 1),
            step("Nose in", "Puts the nose in for a second.", 0, 1, 1),
            step("Nose stays", "Keeps the nose in for five seconds, eating.", 0, 5, 1),
            step("Strap behind the ears", "Stays easy while the strap is done up and undone.", 0, 5, 1),
            step("A minute on", "Wears it for a minute, eating and looking about.", 0, 60, 1),
            step("In the garden", "Wears it for a minute out of doors.", 0, 60, 2),
            step("A short stroll", "Wears it for five minutes on a quiet street.", 0, 300, 2),
        ],
        ..CALM
    },
    StarterExercise {
        key: "chin-rest",
        name: "Chin on hand to say yes",
        purpose: "Cooperative care: a start-button behaviour for ears, nails, harness and the vet's hands.",
        owner_why: "When your dog can say \"go on\" and \"stop\", and both are heard, they need to struggle far less. Nails get \
                    done. So do ears.",
        criterion: "Chin rests in your palm while the small thing happens; lifting it stops everything at once.",
        set_up: "Dog standing or sitting on a rug. The brush, clipper or drops in sight, out of reach.",
        delivery: "Offer the palm under the chin. Chin down: the small thing for a moment, yes, food. Chin up: hands off, wait. \
                   Always end with your dog still wanting one more.",
        usual_attempts: 8,
        caution: "A growl is information: stop, thank your dog, log it. Flinching at one spot, sore ears, broken nails: vet \
                  first, practice later. Not for children to try.",
        steps: &[
            step("Chin down", "Rests the chin for a second.", 0, 1, 1),
            step("Five seconds", "Rests the chin for five seconds.", 0, 5, 1),
            step("A hand near", "Rests the chin while your other hand hovers a hand's width off.", 0, 5, 1),
            step("A light touch", "Rests the chin while you touch shoulder, ear or paw.", 0, 5, 1),
            step("The real thing, once", "Rests the chin for one stroke of the brush or one nail.", 0, 5, 1),
            step("Someone else's hand", "Rests the chin while a known helper does the touching.", 0, 5, 2),
        ],
        ..CALM
    },
    StarterExercise {
        key: "harness-on-gladly",
        name: "Into the harness, gladly",
        purpose: "Removes the daily conflict over equipment and shows pain at the shoulder or neck early.",
        owner_why: "If the walk starts with a chase round the kitchen table, everybody leaves the house wound up.",
        criterion: "Your dog puts their head through by themselves and stands easy for the clips.",
        set_up: "Harness held open like a hoop, food on the far side of it. Five minutes before you need to go.",
        delivery: "Head comes through: yes, feed through the hoop. Do up one clip, feed, undo it. Some days put it on and \
                   stay in.",
        equipment_note: "A Y-shaped harness that leaves the shoulders free; two fingers fit under every strap.",
        clip: Some(Clip::HarnessBack),
        line: Line::ShortLead,
        outcome: Outcome::Count,
        usual_attempts: 6,
        usual_times_a_week: 7,
        caution: "Ducking away from a harness that used to be fine, or yelping at a clip: stop and have neck and shoulders \
                  looked at by your vet. Check for rubbed skin behind the elbows.",
        steps: &[
            step("Nose through", "Nose comes through the hoop.", 0, 0, 1),
            step("Head through", "Head comes through and stays for two seconds.", 0, 2, 1),
            step("One clip", "Stands easy for the first clip.", 0, 5, 1),
            step("All done up", "Stands easy for every clip and half a minute after.", 0, 30, 1),
            step("By the front door", "Puts the head through with the door and the lead in sight.", 0, 2, 2),
        ],
        ..CALM
    },
];
