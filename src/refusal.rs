//! What the program says when it cannot start for a reason that the person starting it can put right.

/// One plain sentence saying what is wrong and what to do about it; the program prints it alone and exits with
/// status 2. Every other error is a fault: its chain of causes is printed and the status is 1.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub struct Refusal(String);

impl Refusal {
    /// A refusal carrying `sentence`, already complete with its full stop.
    pub fn new(sentence: impl Into<String>) -> Self {
        Self(sentence.into())
    }
}
