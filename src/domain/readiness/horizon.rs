//! Attempts within which an error rate is promised.

/// A number of attempts from 1 to 200 (N): far more than one step ever takes, and few enough for the exact recursion.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Horizon(u32);

impl Horizon {
    /// A horizon that is written in the source; one out of bounds does not compile.
    pub const fn of<const N: u32>() -> Self {
        const { assert!(N >= 1 && N <= 200, "a horizon is from 1 to 200 attempts") };
        Self(N)
    }

    /// The number of attempts.
    pub const fn attempts(self) -> u32 {
        self.0
    }
}
