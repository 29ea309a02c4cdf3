//! Filled next.
use super::StarterExercise;
pub(super) const ENTRIES: &[StarterExercise] = &[];
