//! What others need to know when a dog is gone.

use serde::Deserialize;
use time::OffsetDateTime;

use crate::clock::Moment;
use crate::ids::{DogId, MembershipId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// The sheet of a dog. Empty texts are not stated.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
pub struct LostSheet {
    /// The number of its chip.
    pub chip: String,
    /// What one knows it by.
    pub marks: String,
    /// Whom to ring: name and number.
    pub ring: String,
    /// How to come near it, or that one should not.
    pub approach: String,
    /// When it was written; `None` where it never was.
    #[serde(rename = "kept_at?", with = "time::serde::rfc3339::option")]
    pub kept_at: Option<OffsetDateTime>,
}

impl LostSheet {
    /// A mark of what it says now.
    pub fn stamp(&self) -> String {
        self.kept_at.map(|at| at.unix_timestamp_nanos().to_string()).unwrap_or_default()
    }
}

/// A dog's sheet; an empty one where nothing was written yet.
pub fn find(dog: DogId) -> Reading<LostSheet> {
    reading!(
        LostSheet,
        r#"select chip, marks, ring, approach, kept_at as "kept_at?" from lost_sheet
           where practice_id = $1 and dog_id = $2"#,
        dog.0
    )
    .first()
    .then(|sheet| Ok(sheet.unwrap_or_default()))
}

/// Keeps a dog's sheet.
pub async fn put(
    tx: &mut Tx,
    dog: DogId,
    sheet: &LostSheet,
    by: MembershipId,
    moment: &Moment,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into lost_sheet (practice_id, dog_id, chip, marks, ring, approach, kept_by, kept_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8)
         on conflict (practice_id, dog_id) do update
           set chip = $3, marks = $4, ring = $5, approach = $6, kept_by = $7, kept_at = $8",
        practice.0,
        dog.0,
        sheet.chip,
        sheet.marks,
        sheet.ring,
        sheet.approach,
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
