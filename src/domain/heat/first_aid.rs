//! First aid for a dog that may be overheated. A veterinary surgeon decides; cooling comes before the drive.

/// What comes first.
pub const COOL_FIRST: &str = "Stop, and go into the shade. Muzzle, coat and tight collar off if the dog lets you. Cool first, transport second, and ring \
    your vet while you cool.";

/// How to cool, for whom.
pub const COOLING: [(&str, &str); 2] = [
    (
        "A young, healthy dog that is fully awake",
        "may stand or lie in water that is cooler than the dog, head held well above it.",
    ),
    (
        "An older dog, one that is ill or short-nosed, or one that is not fully awake",
        "is wetted all over with water, with air moving over it: a breeze, a fan, a car with the air on.",
    ),
];

/// Whom to ring.
pub const WHOM_TO_RING: &str = "Ring your vet even if your dog seems better, and go as they say. Small drinks for a fully awake dog \
    only, never forced. Nobody but a vet can tell how bad it is.";

/// What to watch for, mild before grave.
pub const SIGNS: [&str; 3] = [
    "Panting that will not slow, noisy or laboured breathing, unusual tiredness: stop, cool, and ring your vet.",
    "Vomiting or an upset stomach, stumbling, a collapse, a fit: cool, and ring your vet now.",
    "Confusion, blood in vomit or stool, bruises, not waking: cool, and ring your vet now.",
];

/// Where it comes from.
pub const FIRST_AID_SOURCE: &str = "Cool first, transport second, and how to cool for whom: ACVECC Vet-COT prehospital \
    guidelines 2016 (Hanel et al.), second-hand; short noses among the others: common practice. In practice 21.7 % of dogs \
    were cooled before the drive: Hall et al. 2023, Vet Sci 10(7):465. Signs by how grave they are: Hall et al. 2021, Sci \
    Rep 11:6828.";
