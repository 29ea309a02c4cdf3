//! How sure we are of what is said, carried beside it so that a screen can say so.

/// How sure we are of a figure, or of where a rule comes from: of the weakest that it rests on. The weakest is the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Certainty {
    /// Read in the source.
    Verified,
    /// Read where the source is quoted.
    SecondHand,
    /// A convention of the trade, without a published source.
    CommonPractice,
    /// Stated from memory, not looked up: to be checked before anybody leans on it.
    FromMemory,
}

impl Certainty {
    /// What both readers read.
    pub fn label(self) -> &'static str {
        match self {
            Self::Verified => "Read in the source",
            Self::SecondHand => "Read where the source is quoted",
            Self::CommonPractice => "Common practice",
            Self::FromMemory => "From memory, not looked up",
        }
    }
}
