//! What a careful history holds about a dog, beyond what [`dog`](crate::store::dog) needs everywhere.
//!
//! `None` and empty texts mean "not stated", never "no".

use time::{Date, OffsetDateTime};

use crate::domain::vocabulary::{Activity, BirthPrecision, Coat, DayOfWeek, Phase, Sex, VetStatus, Word};
use crate::ids::{DogId, HouseholdId, MembershipId};
use crate::store::word::{all_words, word, word_or_none};
use crate::store::{Result, Tx};

/// Everything stated about a dog, in the sections in which it is asked for.
#[derive(Debug, Clone)]
pub struct Profile {
    /// Who it is.
    pub identity: Identity,
    /// Its body and health.
    pub health: Health,
    /// What it eats.
    pub food: Food,
    /// How far a vet has been part of this.
    pub vet: Vet,
    /// What happened before, and what keeps everyone safe.
    pub safety: Safety,
    /// What the owner wants.
    pub goal: Goal,
    /// The days on which its household can practise; empty where nobody has said.
    pub days: Vec<DayOfWeek>,
    /// Who looks after it, and where it stands.
    pub care: Care,
}

/// Who a dog is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Identity {
    /// Its name.
    pub name: String,
    /// Its breed or kind.
    pub breed: String,
    /// When it was born.
    pub born: Option<Date>,
    /// How exactly that is known.
    pub birth_precision: BirthPrecision,
    /// Its sex.
    pub sex: Option<Sex>,
    /// Whether it is neutered.
    pub neutered: Option<bool>,
    /// Since when it lives in its home.
    pub home_since: Option<Date>,
}

/// A dog's body and health.
#[derive(Debug, Clone, Default)]
pub struct Health {
    /// What it is expected to weigh when grown, kg.
    pub expected_adult_kg: Option<f64>,
    /// Body condition, 1 (emaciated) to 9 (severely obese).
    pub body_condition: Option<i16>,
    /// How much it moves.
    pub activity: Option<Activity>,
    /// Its coat.
    pub coat: Option<Coat>,
    /// Whether its muzzle is short.
    pub short_nosed: Option<bool>,
    /// Heart and breathing.
    pub heart_or_breathing: String,
    /// Bones and joints.
    pub orthopaedic: String,
    /// Anything else about its health.
    pub other: String,
    /// Medicines.
    pub medicines: String,
    /// Allergies.
    pub allergies: String,
}

/// What a dog eats.
#[derive(Debug, Clone, Default)]
pub struct Food {
    /// Its main food.
    pub main: String,
    /// The energy of it, kcal per gram.
    pub kcal_per_g: Option<f64>,
}

/// How far a vet has been part of this.
#[derive(Debug, Clone, Copy)]
pub struct Vet {
    /// How far.
    pub status: VetStatus,
    /// Since when.
    pub on: Option<Date>,
}

/// What happened before, and what keeps everyone safe.
#[derive(Debug, Clone, Default)]
pub struct Safety {
    /// History, with incidents as facts.
    pub history: String,
    /// Whether a bite is on record.
    pub bite_on_record: bool,
    /// Muzzle: type, what it allows, for how long, where it is required.
    pub muzzle: String,
    /// Whom it must not meet.
    pub must_not_meet: String,
}

/// What the owner wants.
#[derive(Debug, Clone, Default)]
pub struct Goal {
    /// The goal, in the owner's words.
    pub goal: String,
    /// What was tried before.
    pub tried_before: String,
}

/// Who looks after a dog, and where it stands.
#[derive(Debug, Clone, Copy)]
pub struct Care {
    /// Where it stands in its work.
    pub phase: Phase,
    /// The trainer.
    pub trainer: MembershipId,
}

struct Row {
    name: String,
    breed: String,
    birth_date: Option<Date>,
    birth_precision: String,
    sex: Option<String>,
    neutered: Option<bool>,
    home_since: Option<Date>,
    expected_adult_kg: Option<f64>,
    body_condition: Option<i16>,
    activity: Option<String>,
    coat: Option<String>,
    short_nosed: Option<bool>,
    heart_or_breathing: String,
    orthopaedic: String,
    other_health: String,
    medicines: String,
    allergies: String,
    main_food: String,
    main_food_kcal_per_g: Option<f64>,
    vet_status: String,
    vet_status_on: Option<Date>,
    history: String,
    bite_on_record: bool,
    muzzle: String,
    must_not_meet: String,
    goal: String,
    tried_before: String,
    phase: String,
    trainer_id: uuid::Uuid,
    practice_days: Option<Vec<String>>,
}

impl TryFrom<Row> for Profile {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            identity: Identity {
                name: row.name,
                breed: row.breed,
                born: row.birth_date,
                birth_precision: word(&row.birth_precision)?,
                sex: word_or_none(row.sex.as_deref())?,
                neutered: row.neutered,
                home_since: row.home_since,
            },
            health: Health {
                expected_adult_kg: row.expected_adult_kg,
                body_condition: row.body_condition,
                activity: word_or_none(row.activity.as_deref())?,
                coat: word_or_none(row.coat.as_deref())?,
                short_nosed: row.short_nosed,
                heart_or_breathing: row.heart_or_breathing,
                orthopaedic: row.orthopaedic,
                other: row.other_health,
                medicines: row.medicines,
                allergies: row.allergies,
            },
            food: Food { main: row.main_food, kcal_per_g: row.main_food_kcal_per_g },
            vet: Vet { status: word(&row.vet_status)?, on: row.vet_status_on },
            safety: Safety {
                history: row.history,
                bite_on_record: row.bite_on_record,
                muzzle: row.muzzle,
                must_not_meet: row.must_not_meet,
            },
            goal: Goal { goal: row.goal, tried_before: row.tried_before },
            days: all_words(row.practice_days.as_deref().unwrap_or_default())?,
            care: Care { phase: word(&row.phase)?, trainer: row.trainer_id.into() },
        })
    }
}

/// What is stated about a dog of this practice. Whether the reader may see it is [`dog::find`](crate::store::dog::find)'s
/// to say.
pub async fn find(tx: &mut Tx, dog: DogId) -> Result<Option<Profile>> {
    let practice = tx.practice();
    let row = sqlx::query_as!(
        Row,
        "select name, breed, birth_date, birth_precision, sex, neutered, home_since, expected_adult_kg, body_condition, activity,
                coat, short_nosed, heart_or_breathing, orthopaedic, other_health, medicines, allergies, main_food,
                main_food_kcal_per_g, vet_status, vet_status_on, history, bite_on_record, muzzle, must_not_meet, goal,
                tried_before, phase, trainer_id, practice_days
         from dog where practice_id = $1 and id = $2",
        practice.0,
        dog.0
    )
    .fetch_optional(tx.conn())
    .await?;
    row.map(Profile::try_from).transpose()
}

/// Adds a dog to a household; the rest of its profile is not stated yet. False where its id is taken.
pub async fn add(
    tx: &mut Tx,
    dog: DogId,
    household: HouseholdId,
    identity: &Identity,
    care: Care,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into dog (practice_id, id, household_id, name, breed, birth_date, birth_precision, sex, neutered,
                          phase, trainer_id, created_at, home_since)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)
         on conflict (practice_id, id) do nothing",
        practice.0,
        dog.0,
        household.0,
        identity.name,
        identity.breed,
        identity.born,
        identity.birth_precision.stored(),
        identity.sex.map(Word::stored),
        identity.neutered,
        care.phase.stored(),
        care.trainer.0,
        now,
        identity.home_since
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Changes who a dog is.
pub async fn set_identity(tx: &mut Tx, dog: DogId, identity: &Identity) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set name = $3, breed = $4, birth_date = $5, birth_precision = $6, sex = $7, neutered = $8,
                home_since = $9
         where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        identity.name,
        identity.breed,
        identity.born,
        identity.birth_precision.stored(),
        identity.sex.map(Word::stored),
        identity.neutered,
        identity.home_since
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes a dog's body and health.
pub async fn set_health(tx: &mut Tx, dog: DogId, health: &Health) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set expected_adult_kg = $3, body_condition = $4, activity = $5, coat = $6, short_nosed = $7,
                heart_or_breathing = $8, orthopaedic = $9, other_health = $10, medicines = $11, allergies = $12
         where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        health.expected_adult_kg,
        health.body_condition,
        health.activity.map(Word::stored),
        health.coat.map(Word::stored),
        health.short_nosed,
        health.heart_or_breathing,
        health.orthopaedic,
        health.other,
        health.medicines,
        health.allergies
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes what a dog eats.
pub async fn set_food(tx: &mut Tx, dog: DogId, food: &Food) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set main_food = $3, main_food_kcal_per_g = $4 where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        food.main,
        food.kcal_per_g
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes how far a vet has been part of this.
pub async fn set_vet(tx: &mut Tx, dog: DogId, vet: Vet) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set vet_status = $3, vet_status_on = $4 where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        vet.status.stored(),
        vet.on
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes a dog's history and what keeps everyone safe. A bite on record stays there: a page that was opened before
/// it was noted must not take it away.
pub async fn set_safety(tx: &mut Tx, dog: DogId, safety: &Safety) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set history = $3, bite_on_record = bite_on_record or $4, muzzle = $5, must_not_meet = $6
         where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        safety.history,
        safety.bite_on_record,
        safety.muzzle,
        safety.must_not_meet
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes what the owner wants.
pub async fn set_goal(tx: &mut Tx, dog: DogId, goal: &Goal) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set goal = $3, tried_before = $4 where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        goal.goal,
        goal.tried_before
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes the days on which a dog's household can practise; none for not stated.
pub async fn set_days(tx: &mut Tx, dog: DogId, days: &[DayOfWeek]) -> Result<()> {
    let practice = tx.practice();
    let days: Vec<String> = days.iter().map(|day| day.stored().to_owned()).collect();
    let stated = (!days.is_empty()).then_some(days);
    sqlx::query!(
        "update dog set practice_days = $3 where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        stated.as_deref()
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes who looks after a dog, and where it stands.
pub async fn set_care(tx: &mut Tx, dog: DogId, care: Care) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog set phase = $3, trainer_id = $4 where practice_id = $1 and id = $2",
        practice.0,
        dog.0,
        care.phase.stored(),
        care.trainer.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
