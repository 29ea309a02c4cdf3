//! How standing arrangements were kept, a week at a time.

use serde::Deserialize;
use time::Date;
use uuid::Uuid;

use crate::clock::Moment;
use crate::domain::vocabulary::{Held, Word};
use crate::ids::{DogId, LineId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// Keeps how an arrangement was kept in the week that begins on this Monday; said again, the later counts.
pub async fn put(
    tx: &mut Tx,
    dog: DogId,
    (line, week_of): (LineId, Date),
    held: Held,
    by: MembershipId,
    moment: &Moment,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into arrangement_week (practice_id, dog_id, line_id, week_of, held, said_by, said_at)
         values ($1, $2, $3, $4, $5, $6, $7)
         on conflict (practice_id, dog_id, line_id, week_of) do update set held = $5, said_by = $6, said_at = $7",
        practice.0,
        dog.0,
        line.0,
        week_of,
        held.stored(),
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

#[derive(Deserialize)]
struct Row {
    line_id: Uuid,
    #[serde(with = "day")]
    week_of: Date,
    held: String,
}

/// How the arrangements of a dog were kept in weeks since a day: line, week, answer; the latest week first.
pub fn since(dog: DogId, from: Date) -> Reading<Vec<(LineId, Date, Held)>> {
    reading!(
        Row,
        "select line_id, week_of, held from arrangement_week
         where practice_id = $1 and dog_id = $2 and week_of >= $3 order by week_of desc, line_id",
        dog.0,
        from
    )
    .then(|rows| {
        rows.into_iter().map(|row| Ok((row.line_id.into(), row.week_of, word(&row.held)?))).collect()
    })
}
