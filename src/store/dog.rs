//! Dogs: who they are, whose they are, and who looks after their plan.

use serde::Deserialize;
use time::{Date, OffsetDateTime};

use crate::domain::access::Actor;
use crate::domain::vocabulary::{Phase, Role, Sex};
use crate::ids::{DogId, HouseholdId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// What every page and action about a dog needs.
#[derive(Debug, Clone)]
pub struct Dog {
    /// Its id.
    pub id: DogId,
    /// Its household.
    pub household: HouseholdId,
    /// The household's name.
    pub household_name: String,
    /// The household's IANA time zone: the dog's days are counted in it.
    pub zone: String,
    /// The trainer who looks after its plan.
    pub trainer: MembershipId,
    /// That trainer's name.
    pub trainer_name: String,
    /// Its name.
    pub name: String,
    /// Its breed or kind.
    pub breed: String,
    /// When it was born, as far as stated.
    pub born: Option<Date>,
    /// Its sex.
    pub sex: Option<Sex>,
    /// What it is expected to weigh when grown, kg.
    pub expected_adult_kg: Option<f64>,
    /// Where it stands in its work.
    pub phase: Phase,
    /// The owner's goal, in their words.
    pub goal: String,
    /// Whether a bite is on record.
    pub bite_on_record: bool,
}

#[derive(Deserialize)]
struct Row {
    id: uuid::Uuid,
    household_id: uuid::Uuid,
    household_name: String,
    zone: String,
    trainer_id: uuid::Uuid,
    trainer_name: String,
    name: String,
    breed: String,
    #[serde(with = "day::option")]
    birth_date: Option<Date>,
    sex: Option<String>,
    expected_adult_kg: Option<f64>,
    phase: String,
    goal: String,
    bite_on_record: bool,
}

impl TryFrom<Row> for Dog {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            id: row.id.into(),
            household: row.household_id.into(),
            household_name: row.household_name,
            zone: row.zone,
            trainer: row.trainer_id.into(),
            trainer_name: row.trainer_name,
            name: row.name,
            breed: row.breed,
            born: row.birth_date,
            sex: word_or_none(row.sex.as_deref())?,
            expected_adult_kg: row.expected_adult_kg,
            phase: word(&row.phase)?,
            goal: row.goal,
            bite_on_record: row.bite_on_record,
        })
    }
}

/// Dogs with whose they are beside them; `$tail` says which.
macro_rules! dogs {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Row,
            "select d.id, d.household_id, h.name as household_name, h.zone, d.trainer_id, t.name as trainer_name, d.name,
                d.breed, d.birth_date, d.sex, d.expected_adult_kg, d.phase, d.goal, d.bite_on_record
             from dog d
             join household h on h.practice_id = d.practice_id and h.id = d.household_id
             join membership t on t.practice_id = d.practice_id and t.id = d.trainer_id
             where d.practice_id = $1 "
                + $tail
            $(, $bind)*
        )
        .each::<Dog>()
    };
}

/// A dog that this person may see: any of the practice for trainers, their own households' for owners.
pub async fn find(tx: &mut Tx, viewer: &Actor, id: DogId) -> Result<Option<Dog>> {
    let found = dogs!(
        "and d.id = $2 and ($3 or exists (select 1 from household_member m
           where m.practice_id = d.practice_id and m.household_id = d.household_id and m.membership_id = $4))",
        id.0,
        viewer.role != Role::Owner,
        viewer.membership.0
    );
    found.first().read(tx).await
}

/// The dogs of an owner's households, by name.
pub fn of_owner(owner: MembershipId) -> Reading<Vec<Dog>> {
    dogs!(
        "and exists (select 1 from household_member m
           where m.practice_id = d.practice_id and m.household_id = d.household_id and m.membership_id = $2)
         order by d.name, d.id",
        owner.0
    )
}

/// The dogs of a household, by name.
pub fn of_household(household: HouseholdId) -> Reading<Vec<Dog>> {
    dogs!("and d.household_id = $2 order by d.name, d.id", household.0)
}

/// The ids of the practice's dogs that come after `after`, in order, `most` of them.
pub async fn ids_after(tx: &mut Tx, after: Option<DogId>, most: i64) -> Result<Vec<DogId>> {
    let practice = tx.practice();
    let ids = sqlx::query_scalar!(
        r#"select id from dog where practice_id = $1 and ($2::uuid is null or id > $2) order by id limit $3"#,
        practice.0,
        after.map(|dog| dog.0),
        most
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(ids.into_iter().map(DogId).collect())
}

/// Locks a dog's summary row until the transaction ends, so that what is kept in it cannot be lost between two
/// writers; makes the row if there is none. Batches lock dogs in the order of their ids.
pub async fn lock_summary(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into dog_summary (practice_id, dog_id) values ($1, $2) on conflict do nothing",
        practice.0,
        dog.0
    )
    .execute(tx.conn())
    .await?;
    sqlx::query!(
        "select dog_id from dog_summary where practice_id = $1 and dog_id = $2 for update",
        practice.0,
        dog.0
    )
    .fetch_one(tx.conn())
    .await
    .map(drop)
}

/// Changes where a dog stands in its work; what is so already keeps the instant since which it is.
pub async fn set_phase(tx: &mut Tx, dog: DogId, phase: Phase, now: OffsetDateTime) -> Result<()> {
    use crate::domain::vocabulary::Word;
    let practice = tx.practice();
    sqlx::query!(
        "update dog set phase = $3, phase_since = $4 where practice_id = $1 and id = $2 and phase <> $3",
        practice.0,
        dog.0,
        phase.stored(),
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Notes that a bite is on record.
pub async fn note_bite(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!("update dog set bite_on_record = true where practice_id = $1 and id = $2", practice.0, dog.0)
        .execute(tx.conn())
        .await
        .map(drop)
}

/// Puts dogs away from the caseload, or takes them out again; gives how many of them are this practice's. One that is put
/// away already stays so since when it was.
pub async fn set_archived(tx: &mut Tx, dogs: &[DogId], at: Option<OffsetDateTime>) -> Result<usize> {
    let practice = tx.practice();
    let dogs: Vec<uuid::Uuid> = dogs.iter().map(|dog| dog.0).collect();
    let done = sqlx::query!(
        "update dog set archived_at = case when $3::timestamptz is null then null else coalesce(archived_at, $3) end
         where practice_id = $1 and id = any($2)",
        practice.0,
        &dogs,
        at
    )
    .execute(tx.conn())
    .await?;
    Ok(usize::try_from(done.rows_affected()).unwrap_or(usize::MAX))
}

/// The dogs that a trainer looks after.
pub async fn of_trainer(tx: &mut Tx, trainer: MembershipId) -> Result<Vec<DogId>> {
    let practice = tx.practice();
    let ids = sqlx::query_scalar!(
        "select id from dog where practice_id = $1 and trainer_id = $2 order by id",
        practice.0,
        trainer.0
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(ids.into_iter().map(DogId).collect())
}

/// Hands dogs to a trainer; gives how many of them are this practice's.
pub async fn set_trainer(tx: &mut Tx, dogs: &[DogId], trainer: MembershipId) -> Result<usize> {
    let practice = tx.practice();
    let dogs: Vec<uuid::Uuid> = dogs.iter().map(|dog| dog.0).collect();
    let done = sqlx::query!(
        "update dog set trainer_id = $3 where practice_id = $1 and id = any($2)",
        practice.0,
        &dogs,
        trainer.0
    )
    .execute(tx.conn())
    .await?;
    Ok(usize::try_from(done.rows_affected()).unwrap_or(usize::MAX))
}
