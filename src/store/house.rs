//! How a practice has set the welfare rules: its numbers, and the clips that it does not use.

use crate::domain::vocabulary::Clip;
use crate::domain::welfare::HouseNumbers;
use crate::store::word::word;
use crate::store::{Result, Tx};

/// What the rules need to know of the practice.
#[derive(Debug, Clone, PartialEq)]
pub struct House {
    /// Its numbers.
    pub numbers: HouseNumbers,
    /// Clips that it does not use.
    pub not_used: Vec<Clip>,
}

/// How this practice has set the rules.
pub async fn find(tx: &mut Tx) -> Result<House> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select p.clips_not_used,
             coalesce(array_agg(n.key order by n.key) filter (where n.key is not null), '{}') as "keys!",
             coalesce(array_agg(n.value order by n.key) filter (where n.key is not null), '{}') as "values!"
           from practice p left join house_number n on n.practice_id = p.id
           where p.id = $1 group by p.id"#,
        practice.0
    )
    .fetch_one(tx.conn())
    .await?;
    let set = row.keys.iter().map(String::as_str).zip(row.values);
    Ok(House {
        numbers: HouseNumbers::with(set),
        not_used: row.clips_not_used.iter().map(|clip| word(clip)).collect::<Result<_>>()?,
    })
}
