//! How sure we are of a figure, carried beside it so that a screen can say so.

/// How a figure or a statement is known; the weakest last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Certainty {
    /// Read in the source, or on a page that reproduces it.
    Verified,
    /// Read on a page that quotes the source.
    SecondHand,
    /// A convention of the trade, with no source.
    CommonPractice,
    /// Stated from memory, not looked up: to be checked before anybody leans on it.
    FromMemory,
}

impl Certainty {
    /// What everybody reads beside the figure.
    pub fn label(self) -> &'static str {
        match self {
            Self::Verified => "Read in the source",
            Self::SecondHand => "Read where the source is quoted",
            Self::CommonPractice => "Common practice",
            Self::FromMemory => "From memory, not looked up",
        }
    }
}
