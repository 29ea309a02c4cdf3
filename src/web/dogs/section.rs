//! The sections of a profile, each a short page of its own.

/// One section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Section {
    /// Who it is.
    Who,
    /// Its body and health.
    Health,
    /// What it eats.
    Food,
    /// How far a vet has been part of this.
    Vet,
    /// What happened before, and what keeps everyone safe.
    Safety,
    /// What the owner wants.
    Goal,
    /// The days on which its household can practise.
    Days,
    /// Who looks after it, and where it stands.
    Care,
}

impl Section {
    /// Every section, in the order of the page.
    pub const ALL: [Self; 8] =
        [Self::Goal, Self::Who, Self::Health, Self::Food, Self::Vet, Self::Safety, Self::Days, Self::Care];

    /// The word in the address.
    pub fn slug(self) -> &'static str {
        match self {
            Self::Who => "who",
            Self::Health => "health",
            Self::Food => "food",
            Self::Vet => "vet",
            Self::Safety => "safety",
            Self::Goal => "goal",
            Self::Days => "days",
            Self::Care => "care",
        }
    }

    /// The heading.
    pub fn title(self) -> &'static str {
        match self {
            Self::Who => "Who it is",
            Self::Health => "Body and health",
            Self::Food => "Food",
            Self::Vet => "Vet",
            Self::Safety => "History and safety",
            Self::Goal => "Goal",
            Self::Days => "Days for practice",
            Self::Care => "Phase and trainer",
        }
    }

    /// The section with this word.
    pub fn named(slug: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|section| section.slug() == slug)
    }
}
