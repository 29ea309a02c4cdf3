//! What a draft would pay a dog with in a week, for what it may eat in a day.

use serde::Deserialize;

use crate::domain::food::earned::Paid;
use crate::ids::DogId;
use crate::store::reading::{Reading, reading};

#[derive(Deserialize)]
struct Row {
    #[serde(rename = "what?")]
    what: Option<String>,
    pieces: Option<i64>,
    #[serde(rename = "grams_per_piece?")]
    grams_per_piece: Option<f64>,
    #[serde(rename = "kcal_per_g?")]
    kcal_per_g: Option<f64>,
    #[serde(rename = "is_toy!")]
    is_toy: bool,
    #[serde(rename = "from_meals?")]
    from_meals: Option<bool>,
}

impl From<Row> for Paid {
    fn from(row: Row) -> Self {
        let Row { what, pieces, grams_per_piece, kcal_per_g, is_toy, from_meals } = row;
        Self { what, pieces, grams_per_piece, kcal_per_g, is_toy, from_meals }
    }
}

/// What the exercises of a dog's draft pay in a week if every attempt is met, one reinforcer together. What states neither
/// attempts nor times a week stands apart, its pieces not stated.
pub fn of_draft(dog: DogId) -> Reading<Vec<Paid>> {
    reading!(
        Row,
        r#"select r.what as "what?", sum(i.attempts::bigint * i.times_a_week)::bigint as pieces,
             r.grams_per_piece as "grams_per_piece?", r.kcal_per_g as "kcal_per_g?",
             coalesce(r.is_toy, false) as "is_toy!", r.from_meals as "from_meals?"
           from plan_draft_item i
           join exercise e on e.practice_id = i.practice_id and e.id = i.exercise_id
           join reinforcer r on r.practice_id = i.practice_id and r.id = i.reinforcer_id
           where i.practice_id = $1 and i.dog_id = $2 and e.kind = 'exercise'
           group by r.id, r.what, r.grams_per_piece, r.kcal_per_g, r.is_toy, r.from_meals,
             (i.attempts is null or i.times_a_week is null)
           order by 1, 2"#,
        dog.0
    )
    .then(|rows| Ok(rows.into_iter().map(Paid::from).collect()))
}
