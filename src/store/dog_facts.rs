//! A dog as the rules see it: its profile, its household's children, its weighings, and what is on record.

use serde::Deserialize;
use time::{Date, OffsetDateTime};

use crate::domain::dog::{DogFacts, Weighing, tells};
use crate::ids::DogId;
use crate::store::reading::{Reading, Together, day, reading};
use crate::store::word::{all_words, word, word_or_none};
use crate::store::{Result, dog_weight};

/// Weighings that the rules look back over.
const WEIGHINGS: i64 = 12;

#[derive(Deserialize)]
struct Row {
    name: String,
    sex: Option<String>,
    #[serde(with = "day::option")]
    birth_date: Option<Date>,
    expected_adult_kg: Option<f64>,
    neutered: Option<bool>,
    body_condition: Option<i16>,
    activity: Option<String>,
    coat: Option<String>,
    short_nosed: Option<bool>,
    heart_or_breathing: String,
    orthopaedic: String,
    allergies: String,
    main_food_kcal_per_g: Option<f64>,
    muzzle: String,
    tried_before: String,
    bite_on_record: bool,
    #[serde(rename = "growl_on_record!")]
    growl_on_record: bool,
    #[serde(rename = "has_bolted!")]
    has_bolted: bool,
    vet_status: String,
    #[serde(with = "day::option")]
    home_since: Option<Date>,
    children: Option<String>,
    practice_days: Option<Vec<String>>,
}

/// Yes where something is told of; no text says no.
fn written(text: &str) -> Option<bool> {
    tells(text).then_some(true)
}

/// What the rules know of a dog of this practice. Whether somebody may see it is [`dog::find`](crate::store::dog::find)'s
/// to say.
pub fn find(dog: DogId) -> Reading<DogFacts> {
    told_by(dog, None)
}

/// The same with more weighings than the rules look back over, at most so many.
pub fn with_weighings(dog: DogId, most: i64) -> Reading<DogFacts> {
    facts(dog, None, most)
}

/// The same, with what stands on record of growls and running off as it had been told by an instant: so that what is looked at
/// again is looked at beside what was told before it.
pub fn told_by(dog: DogId, told: Option<OffsetDateTime>) -> Reading<DogFacts> {
    facts(dog, told, WEIGHINGS)
}

fn facts(dog: DogId, told: Option<OffsetDateTime>, weighings: i64) -> Reading<DogFacts> {
    let row = reading!(
        Row,
        r#"select d.name, d.sex, d.birth_date, d.expected_adult_kg, d.neutered, d.body_condition, d.activity, d.coat,
             d.short_nosed, d.heart_or_breathing, d.orthopaedic, d.allergies, d.main_food_kcal_per_g, d.muzzle,
             d.tried_before, d.bite_on_record, d.vet_status, d.home_since, h.children,
             d.practice_days,
             exists (select 1 from encounter e where e.practice_id = d.practice_id and e.dog_id = d.id and e.deleted_at is null
               and ($3::timestamptz is null or e.received_at <= $3)
               and e.kind in ('growl_or_snap', 'guarded')) as "growl_on_record!",
             exists (select 1 from encounter e where e.practice_id = d.practice_id and e.dog_id = d.id and e.deleted_at is null
               and ($3::timestamptz is null or e.received_at <= $3)
                 and e.kind = 'bolted')
               or exists (select 1 from practice_log l where l.practice_id = d.practice_id and l.dog_id = d.id and l.deleted_at is null
                 and ($3::timestamptz is null or l.received_at <= $3)
                 and l.bolted)
               as "has_bolted!"
           from dog d join household h on h.practice_id = d.practice_id and h.id = d.household_id
           where d.practice_id = $1 and d.id = $2"#,
        dog.0,
        told
    );
    (row.only(), dog_weight::of_dog(dog, weighings)).together().then(|(row, weighings)| known(row, weighings))
}

fn known(row: Row, weighings: Vec<Weighing>) -> Result<DogFacts> {
    Ok(DogFacts {
        name: row.name,
        sex: word_or_none(row.sex.as_deref())?,
        born: row.birth_date,
        expected_adult_kg: row.expected_adult_kg,
        neutered: row.neutered,
        body_condition: row.body_condition,
        activity: word_or_none(row.activity.as_deref())?,
        coat: word_or_none(row.coat.as_deref())?,
        short_nosed: row.short_nosed,
        heart_or_breathing: written(&row.heart_or_breathing),
        sore: written(&row.orthopaedic),
        allergies: row.allergies,
        main_food_kcal_per_g: row.main_food_kcal_per_g,
        muzzle: row.muzzle,
        tried_before: row.tried_before,
        bite_on_record: row.bite_on_record,
        growl_on_record: row.growl_on_record,
        has_bolted: row.has_bolted,
        vet: word(&row.vet_status)?,
        home_since: row.home_since,
        children: word_or_none(row.children.as_deref())?,
        practice_days: all_words(row.practice_days.as_deref().unwrap_or_default())?,
        weighings,
    })
}
