//! What the program says when it cannot start for a reason that the person starting it can put right.

use std::io;

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

/// What the system says was wrong, in lower case and without its number, to stand in brackets in a sentence.
pub fn reason(error: &io::Error) -> String {
    let said = error.to_string();
    said.split(" (os error").next().unwrap_or(&said).to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reason_reads_as_part_of_a_sentence() {
        assert_eq!(reason(&io::Error::from_raw_os_error(13)), "permission denied");
        assert_eq!(reason(&io::ErrorKind::NotADirectory.into()), "not a directory");
    }
}
