//! A figure in words, for those who ask "Why?".

/// One figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// What it is.
    pub what: &'static str,
    /// Its value with its unit.
    pub value: String,
}

impl Figure {
    /// A figure and its value.
    pub fn new(what: &'static str, value: impl Into<String>) -> Self {
        Self { what, value: value.into() }
    }
}
