//! What a dog was paid with in its sittings, for what it may eat in a day.

use serde::Deserialize;
use time::{Date, Duration, OffsetDateTime};

use crate::domain::food::earned::{DAYS, Paid};
use crate::ids::DogId;
use crate::store::reading::{Reading, reading};

#[derive(Deserialize)]
struct Row {
    what: Option<String>,
    pieces: Option<i64>,
    grams_per_piece: Option<f64>,
    kcal_per_g: Option<f64>,
    #[serde(rename = "is_toy!")]
    is_toy: bool,
    from_meals: Option<bool>,
}

impl From<Row> for Paid {
    fn from(row: Row) -> Self {
        let Row { what, pieces, grams_per_piece, kcal_per_g, is_toy, from_meals } = row;
        Self { what, pieces, grams_per_piece, kcal_per_g, is_toy, from_meals }
    }
}

/// What a dog was paid with over the seven days that end on a day, sittings with one reinforcer together. Pieces are the
/// times the marker was paid, else the attempts that met the criterion; sittings that state neither stand apart. A
/// reinforcer's energy and weight are those that stand now. With `told`, only what had been told by that instant.
pub fn over_seven_days(dog: DogId, until: Date, told: Option<OffsetDateTime>) -> Reading<Vec<Paid>> {
    let from = until - Duration::days(i64::from(DAYS) - 1);
    reading!(
        Row,
        r#"select coalesce(r.what, nullif(i.reinforcer_name, '')) as what,
             sum(coalesce(l.rewarded, l.met))::bigint as pieces, r.grams_per_piece, r.kcal_per_g,
             coalesce(r.is_toy, false) as "is_toy!", r.from_meals
           from practice_log l
           join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
           left join reinforcer r on r.practice_id = i.practice_id and r.id = i.reinforcer_id
           where l.practice_id = $1 and l.dog_id = $2 and l.local_date between $3 and $4 and i.kind = 'exercise'
             and l.deleted_at is null and ($5::timestamptz is null or l.received_at <= $5)
           group by coalesce(r.what, nullif(i.reinforcer_name, '')), r.id, r.grams_per_piece, r.kcal_per_g, r.is_toy,
             r.from_meals, coalesce(l.rewarded, l.met) is null
           order by 1, 2"#,
        dog.0,
        from,
        until,
        told
    )
    .then(|rows| Ok(rows.into_iter().map(Paid::from).collect()))
}
