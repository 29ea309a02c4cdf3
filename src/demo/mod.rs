//! The invented practice: its content, and how it is played through the same actions that people use.

pub mod content;

use std::path::Path;

use crate::app::App;

/// Opens the demo.
///
/// # Errors
/// When the database fails.
pub async fn open(_app: &App, _folder: &Path) -> anyhow::Result<()> {
    Ok(())
}
