//! Everything of a practice that a file holds, read and added in a few statements, however long the file is.

use std::collections::HashMap;

use serde::Serialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::domain::dog::Weighing;
use crate::domain::import::{DogEntry, HouseholdEntry, Known, KnownDog};
use crate::domain::vocabulary::{BirthPrecision, Phase, Word};
use crate::ids::{DogId, HouseholdId, MembershipId};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// A household that is added.
#[derive(Debug)]
pub struct HouseholdToAdd<'a> {
    /// Its id.
    pub id: HouseholdId,
    /// Its zone where the file says none.
    pub usual_zone: &'a str,
    /// What the file says of it.
    pub entry: &'a HouseholdEntry,
}

/// A dog that is added.
#[derive(Debug)]
pub struct DogToAdd<'a> {
    /// Its id.
    pub id: DogId,
    /// Its household.
    pub household: HouseholdId,
    /// What the file says of it.
    pub entry: &'a DogEntry,
}

/// The practice's households with their dogs and all weights, told apart by their names.
pub async fn known(tx: &mut Tx) -> Result<Vec<Known>> {
    let mut weights = weights(tx).await?;
    let mut dogs = dogs(tx, &mut weights).await?;
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select id, name, zone, children, note from household where practice_id = $1 order by created_at, id",
        practice.0
    )
    .fetch_all(tx.conn())
    .await?;
    let known = rows.into_iter().map(|row| {
        let entry = HouseholdEntry {
            name: row.name,
            zone: Some(row.zone),
            children: word_or_none(row.children.as_deref())?,
            note: stated(row.note),
            dogs: Vec::new(),
        };
        Ok(Known { id: HouseholdId(row.id), entry, dogs: dogs.remove(&row.id).unwrap_or_default() })
    });
    Ok(Known::told_apart(known.collect::<Result<Vec<Known>>>()?))
}

fn stated(text: String) -> Option<String> {
    Some(text).filter(|text| !text.is_empty())
}

async fn weights(tx: &mut Tx) -> Result<HashMap<Uuid, Vec<Weighing>>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select dog_id, weighed_on, kg from dog_weight where practice_id = $1 order by dog_id, weighed_on",
        practice.0
    )
    .fetch_all(tx.conn())
    .await?;
    let mut weights: HashMap<Uuid, Vec<Weighing>> = HashMap::new();
    for row in rows {
        weights.entry(row.dog_id).or_default().push(Weighing { on: row.weighed_on, kg: row.kg });
    }
    Ok(weights)
}

/// The dogs by household, each household's from the oldest record on.
async fn dogs(
    tx: &mut Tx,
    weights: &mut HashMap<Uuid, Vec<Weighing>>,
) -> Result<HashMap<Uuid, Vec<KnownDog>>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select id, household_id, name, breed, birth_date, birth_precision, sex, neutered, home_since, phase,
                expected_adult_kg, main_food, main_food_kcal_per_g, allergies, medicines, goal
         from dog where practice_id = $1 order by created_at, id",
        practice.0
    )
    .fetch_all(tx.conn())
    .await?;
    let mut dogs: HashMap<Uuid, Vec<KnownDog>> = HashMap::new();
    for row in rows {
        let precision = word::<BirthPrecision>(&row.birth_precision)?;
        let entry = DogEntry {
            name: row.name,
            breed: stated(row.breed),
            born: row.birth_date,
            birth_precision: row.birth_date.map(|_| precision),
            sex: word_or_none(row.sex.as_deref())?,
            neutered: row.neutered,
            home_since: row.home_since,
            phase: Some(word(&row.phase)?),
            expected_adult_kg: row.expected_adult_kg,
            main_food: stated(row.main_food),
            main_food_kcal_per_g: row.main_food_kcal_per_g,
            allergies: stated(row.allergies),
            medicines: stated(row.medicines),
            goal: stated(row.goal),
            weights: weights.remove(&row.id).unwrap_or_default(),
        };
        dogs.entry(row.household_id).or_default().push(KnownDog { id: DogId(row.id), entry });
    }
    Ok(dogs)
}

/// Adds households.
pub async fn add_households(tx: &mut Tx, new: &[HouseholdToAdd<'_>], now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    let ids: Vec<Uuid> = new.iter().map(|one| one.id.0).collect();
    let texts = |text: fn(&HouseholdToAdd<'_>) -> String| new.iter().map(text).collect::<Vec<String>>();
    let names = texts(|one| one.entry.name.clone());
    let zones = texts(|one| one.entry.zone.clone().unwrap_or_else(|| one.usual_zone.to_owned()));
    let notes = texts(|one| one.entry.note.clone().unwrap_or_default());
    let children = texts(|one| one.entry.children.map(Word::stored).unwrap_or_default().to_owned());
    sqlx::query!(
        "insert into household (practice_id, id, name, zone, note, children, created_at)
         select $1, n.id, n.name, n.zone, n.note, nullif(n.children, ''), $7
         from unnest($2::uuid[], $3::text[], $4::text[], $5::text[], $6::text[]) as n (id, name, zone, note, children)",
        practice.0,
        &ids,
        &names,
        &zones,
        &notes,
        &children,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// A dog as the statement reads it.
#[derive(Serialize)]
struct Row<'a> {
    id: Uuid,
    household_id: Uuid,
    name: &'a str,
    breed: &'a str,
    birth_date: Option<String>,
    birth_precision: &'static str,
    sex: Option<&'static str>,
    neutered: Option<bool>,
    home_since: Option<String>,
    phase: &'static str,
    expected_adult_kg: Option<f64>,
    main_food: &'a str,
    main_food_kcal_per_g: Option<f64>,
    allergies: &'a str,
    medicines: &'a str,
    goal: &'a str,
}

impl<'a> From<&DogToAdd<'a>> for Row<'a> {
    fn from(new: &DogToAdd<'a>) -> Self {
        let entry = new.entry;
        let text = |said: &'a Option<String>| said.as_deref().unwrap_or_default();
        Self {
            id: new.id.0,
            household_id: new.household.0,
            name: &entry.name,
            breed: text(&entry.breed),
            birth_date: entry.born.map(|day| day.to_string()),
            birth_precision: entry.birth_precision.unwrap_or(BirthPrecision::Exact).stored(),
            sex: entry.sex.map(Word::stored),
            neutered: entry.neutered,
            home_since: entry.home_since.map(|day| day.to_string()),
            phase: entry.phase.unwrap_or(Phase::SettlingIn).stored(),
            expected_adult_kg: entry.expected_adult_kg,
            main_food: text(&entry.main_food),
            main_food_kcal_per_g: entry.main_food_kcal_per_g,
            allergies: text(&entry.allergies),
            medicines: text(&entry.medicines),
            goal: text(&entry.goal),
        }
    }
}

/// Adds dogs, all with one trainer, each with its summary.
pub async fn add_dogs(
    tx: &mut Tx,
    new: &[DogToAdd<'_>],
    trainer: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    let rows: Vec<Row<'_>> = new.iter().map(Row::from).collect();
    let rows = serde_json::to_value(rows).map_err(|error| sqlx::Error::Encode(error.into()))?;
    sqlx::query!(
        "insert into dog (practice_id, id, household_id, trainer_id, name, breed, birth_date, birth_precision, sex, neutered,
                          home_since, phase, expected_adult_kg, main_food, main_food_kcal_per_g, allergies, medicines, goal,
                          created_at)
         select $1, n.id, n.household_id, $2, n.name, n.breed, n.birth_date, n.birth_precision, n.sex, n.neutered,
                n.home_since, n.phase, n.expected_adult_kg, n.main_food, n.main_food_kcal_per_g, n.allergies, n.medicines,
                n.goal, $4
         from jsonb_to_recordset($3) as n (id uuid, household_id uuid, name text, breed text, birth_date date,
                birth_precision text, sex text, neutered boolean, home_since date, phase text,
                expected_adult_kg double precision, main_food text, main_food_kcal_per_g double precision, allergies text,
                medicines text, goal text)",
        practice.0,
        trainer.0,
        rows,
        now
    )
    .execute(tx.conn())
    .await?;
    let ids: Vec<Uuid> = new.iter().map(|one| one.id.0).collect();
    sqlx::query!(
        "insert into dog_summary (practice_id, dog_id) select $1, unnest($2::uuid[])",
        practice.0,
        &ids
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Adds weights of days that have none; one that was recorded meanwhile stays.
pub async fn add_weights(tx: &mut Tx, new: &[(DogId, Weighing)]) -> Result<u64> {
    let practice = tx.practice();
    let dogs: Vec<Uuid> = new.iter().map(|(dog, _)| dog.0).collect();
    let days: Vec<time::Date> = new.iter().map(|(_, weight)| weight.on).collect();
    let kg: Vec<f64> = new.iter().map(|(_, weight)| weight.kg).collect();
    let done = sqlx::query!(
        "insert into dog_weight (practice_id, dog_id, weighed_on, kg)
         select $1, n.dog_id, n.weighed_on, n.kg
         from unnest($2::uuid[], $3::date[], $4::double precision[]) as n (dog_id, weighed_on, kg)
         on conflict (practice_id, dog_id, weighed_on) do nothing",
        practice.0,
        &dogs,
        &days,
        &kg
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected())
}
