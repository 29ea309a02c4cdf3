//! The starting points themselves. Common practice.

use super::{StartingItem, StartingPoint};

/// What holds all the time.
const fn kept(key: &'static str) -> StartingItem {
    StartingItem { key, rung: 0, times_a_week: 0, minutes: 0 }
}

/// An exercise: key, rung, sittings a week, minutes.
const fn practised(key: &'static str, rung: u8, times_a_week: u8, minutes: u8) -> StartingItem {
    StartingItem { key, rung, times_a_week, minutes }
}

const REACTS: &str = "Growls, snaps or bites, or fear that does not ease within minutes: a qualified behaviourist, and a vet to \
    look for pain, before exercises.";

/// All of them, in the order in which they are offered.
pub(super) const ALL: &[StartingPoint] = &[
    StartingPoint {
        key: "new-home",
        name: "First three weeks in a new home",
        suits: "A rescue or rehomed dog that has just arrived. Nothing is counted, nobody is greeted, and nothing is asked for \
                but calm.",
        caution: "Ask for a vet check in the first week, and whether the chip is registered to the household. A dog that does not \
                  eat for a day, or hides for longer than that, goes to the vet.",
        note: "These weeks are for arriving. You do not have to teach anything: sleep, quiet walks and being left in peace do the \
               work. Write down what you see, and ring me when something worries you.",
        weeks: None,
        items: &[
            kept("own-rest-place"),
            kept("no-greetings"),
            kept("two-attachments"),
            kept("quiet-hours-walks"),
            practised("wind-down-walk", 1, 5, 10),
        ],
    },
    StartingPoint {
        key: "puppy-8-weeks",
        name: "Puppy, 8 to 11 weeks",
        suits: "A puppy in its first weeks at home.",
        caution: "Until the vet says that vaccination protects it, carry the puppy where unknown dogs go. Bites that hold on, or a \
                  puppy that growls over food, go to a behaviourist early.",
        note: "A puppy learns all day long. Sleep, the garden on time and a few pieces of food for the “yes” are enough; three \
               minutes are a long lesson at this age.",
        weeks: Some((0, 12)),
        items: &[
            kept("puppy-sleep"),
            kept("puppy-toilet"),
            practised("yes-means-food", 1, 7, 2),
            practised("name-response", 1, 5, 2),
        ],
    },
    StartingPoint {
        key: "puppy-12-weeks",
        name: "Puppy, 12 to 15 weeks",
        suits: "A puppy that has settled in and meets the world.",
        caution: "New things are looked at from as far away as the puppy stays loose. Fear that grows from week to week goes to a \
                  behaviourist early.",
        note: "Let your puppy look at the world from a little way off and come back to you when it likes. Being touched, and \
               putting on the harness, are worth a minute every day.",
        weeks: Some((12, 16)),
        items: &[
            kept("puppy-sleep"),
            kept("gate-for-visitors"),
            practised("name-response", 2, 5, 2),
            practised("harness-on-gladly", 1, 5, 2),
            practised("chin-rest", 1, 4, 2),
        ],
    },
    StartingPoint {
        key: "puppy-16-weeks",
        name: "Puppy, 16 to 25 weeks",
        suits: "A growing puppy before its first half year: no jumping, no stairs at speed, no running beside a bicycle.",
        caution: "Limping, or getting up stiffly, goes to the vet, and running waits.",
        note: "Short and often. Time alone is built in steps so small that your puppy hardly notices them.",
        weeks: Some((16, 26)),
        items: &[
            kept("own-rest-place"),
            practised("hand-target", 1, 4, 3),
            practised("loose-lead", 1, 4, 4),
            practised("calm-greeting", 1, 3, 3),
            practised("alone-in-small-steps", 1, 4, 5),
        ],
    },
    StartingPoint {
        key: "barks-at-dogs",
        name: "Barking and lunging at dogs",
        suits: "A dog that reacts to other dogs on the lead and recovers within minutes.",
        caution: REACTS,
        note: "For a few weeks the most important thing is that nothing happens. Walk where it is quiet, and count every dog that \
               was seen from far off and let go as a success.",
        weeks: None,
        items: &[
            kept("quiet-hours-walks"),
            kept("blocked-view"),
            practised("eye-contact", 1, 4, 3),
            practised("seen-from-far-off", 1, 3, 10),
            practised("coming-down", 1, 3, 10),
        ],
    },
    StartingPoint {
        key: "runs-off",
        name: "Running off",
        suits: "A dog that leaves after game, dogs or smells.",
        caution: "Off the lead is for fenced places until the counts and your own eyes say otherwise. Near roads the line is shorter \
                  than the way to the kerb.",
        note: "Every run that does not happen helps. The long line goes on the back of the harness; coming to you is always worth \
               it.",
        weeks: None,
        items: &[
            kept("line-on-the-harness"),
            practised("name-response", 1, 4, 3),
            practised("recall-long-line", 1, 4, 10),
            practised("moving-search", 1, 2, 5),
            practised("handling-the-line", 1, 2, 5),
        ],
    },
    StartingPoint {
        key: "pulls",
        name: "Pulling on the lead",
        suits: "A dog that pulls out of hurry, not out of fear.",
        caution: "A dog that coughs, or pulls only on some days, goes to the vet first. A harness spares the neck; by itself it does \
                  not stop pulling.",
        note: "Choose: either we are practising, or we are getting there. On the way to somewhere let it be, and practise on the \
               short dull stretch.",
        weeks: None,
        items: &[
            kept("quiet-hours-walks"),
            practised("harness-on-gladly", 1, 3, 3),
            practised("food-on-the-floor", 1, 4, 3),
            practised("loose-lead", 1, 5, 5),
        ],
    },
    StartingPoint {
        key: "wound-up-outdoors",
        name: "Wound up outdoors",
        suits: "A dog that cannot eat or hear you as soon as it is outside.",
        caution: "Hardly any sleep, itching, or eating everything goes to the vet first: pain and illness wind dogs up.",
        note: "Less is more for now: fewer places, slower walks, more sleep. Put the practice where your dog can still eat.",
        weeks: None,
        items: &[
            kept("own-rest-place"),
            kept("quiet-hours-walks"),
            practised("settle-on-a-mat", 1, 5, 5),
            practised("food-on-the-floor", 1, 4, 3),
            practised("wind-down-walk", 1, 4, 10),
        ],
    },
    StartingPoint {
        key: "left-alone",
        name: "Being left alone",
        suits: "A dog that barks, destroys or soils when nobody is there.",
        caution: "Injuries at doors or windows, or a dog that does not eat when alone, go to a vet and a qualified behaviourist: \
                  medicine may be part of the help.",
        note: "The only times alone are the easy ones on this plan. Borrow neighbours for the rest; it is for weeks, not for ever.",
        weeks: None,
        items: &[
            kept("someone-with-her"),
            kept("own-rest-place"),
            practised("settle-on-a-mat", 1, 5, 5),
            practised("alone-in-small-steps", 1, 5, 10),
        ],
    },
    StartingPoint {
        key: "muzzle",
        name: "At ease in a muzzle",
        suits: "A dog that needs a muzzle, or may one day: at the vet, by law, or to keep everyone safe.",
        caution: "A basket in which the dog can pant, drink and eat. A muzzle does not replace distance; a bite on record goes to a \
                  qualified behaviourist.",
        note: "The muzzle is a bowl with holes: the nose goes in by itself, because there is food in it. Nobody pushes it on.",
        weeks: None,
        items: &[
            kept("gate-for-visitors"),
            practised("chin-rest", 1, 3, 3),
            practised("muzzle-comfort", 1, 6, 3),
        ],
    },
];
