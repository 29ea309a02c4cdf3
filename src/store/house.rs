//! How a practice has set the welfare rules: its numbers, and the clips that it does not use.

use serde::Deserialize;
use time::OffsetDateTime;

use crate::domain::vocabulary::Clip;
use crate::domain::welfare::HouseNumbers;
use crate::ids::MembershipId;
use crate::store::reading::{Reading, reading};
use crate::store::word::all_words;
use crate::store::{Result, Tx};

/// What the rules need to know of the practice.
#[derive(Debug, Clone, PartialEq)]
pub struct House {
    /// Its numbers.
    pub numbers: HouseNumbers,
    /// Clips that it does not use.
    pub not_used: Vec<Clip>,
}

#[derive(Deserialize)]
struct Row {
    clips_not_used: Vec<String>,
    #[serde(rename = "keys!")]
    keys: Vec<String>,
    #[serde(rename = "values!")]
    values: Vec<f64>,
}

impl TryFrom<Row> for House {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        let set = row.keys.iter().map(String::as_str).zip(row.values);
        Ok(Self { numbers: HouseNumbers::with(set), not_used: all_words(&row.clips_not_used)? })
    }
}

/// How this practice has set the rules.
pub fn find() -> Reading<House> {
    reading!(
        Row,
        r#"select clips_not_used,
             array(select key from house_number where practice_id = $1 order by key) as "keys!",
             array(select value from house_number where practice_id = $1 order by key) as "values!"
           from practice where id = $1"#
    )
    .only()
    .then(House::try_from)
}

/// Sets a number of the rules.
pub async fn set(tx: &mut Tx, key: &str, value: f64, by: MembershipId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into house_number (practice_id, key, value, set_by, set_at) values ($1, $2, $3, $4, $5)
         on conflict (practice_id, key) do update set value = excluded.value, set_by = excluded.set_by, set_at = excluded.set_at",
        practice.0,
        key,
        value,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Lets a number be as the catalogue says.
pub async fn reset(tx: &mut Tx, key: &str) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!("delete from house_number where practice_id = $1 and key = $2", practice.0, key)
        .execute(tx.conn())
        .await
        .map(drop)
}
