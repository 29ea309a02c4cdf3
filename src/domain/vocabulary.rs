//! The closed sets the trade uses, each spelled once.

/// How much an exercise stirs a dog up; decides whether a cool-down is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Energy {
    /// Still or slow work; daily, no cool-down.
    Calm,
    /// Walking or mild movement.
    Moving,
    /// Running, tugging, chasing or anything that leaves a dog wound up.
    Arousing,
}

/// How sure the counts must be before a harder step is advised.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SkillClass {
    /// A slip costs nothing but time.
    Ordinary,
    /// A slip can hurt somebody: recall, doors, drop, muzzle.
    Safety,
}

/// What is measured at a sitting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// Attempts and how many met the criterion.
    Count,
    /// Nearest comfortable distance, metres.
    Distance,
    /// Longest calm time, seconds.
    Duration,
    /// Time until herself again, minutes.
    Recovery,
    /// Events a week.
    Events,
}

/// What joins dog and handler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Line {
    /// Nothing.
    None,
    /// An ordinary lead, about two metres.
    ShortLead,
    /// A line of five to fifteen metres.
    LongLine,
}

/// Where the line is attached.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Clip {
    /// A flat collar.
    Collar,
    /// The back ring of a harness.
    HarnessBack,
    /// The front ring of a harness.
    HarnessFront,
    /// A head collar.
    HeadCollar,
    /// Anything that tightens round the neck.
    SlipOrChoke,
    /// A prong collar.
    Prong,
}

/// What kind of line in a plan this is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ItemKind {
    /// Something practised with the dog, in steps.
    Exercise,
    /// Something arranged once and kept, which makes life easier meanwhile.
    StandingArrangement,
    /// Something the owner practises without the dog.
    OwnerSkill,
}
