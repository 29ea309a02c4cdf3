//! Where the play happens: the practice, who is in it, its library, and the day it is.

use std::collections::HashMap;
use std::sync::Arc;

use anyhow::Context;
use time::OffsetDateTime;

use super::calendar::Calendar;
use super::content::Household;
use crate::clock::{Clock, Ids, Moment};
use crate::domain::access::Actor;
use crate::domain::starter_library::{self, StarterExercise};
use crate::ids::{ExerciseId, HouseholdId, PracticeId, StepId};
use crate::store::{Db, Tx, exercise, step};

/// What everybody in the play shares.
#[derive(Debug)]
pub struct Stage {
    /// The database.
    pub db: Db,
    /// The practice.
    pub practice: PracticeId,
    /// The days.
    pub calendar: Calendar,
    /// Trainers and owners by their keys.
    pub cast: HashMap<&'static str, Actor>,
    /// Households by their keys.
    pub households: HashMap<&'static str, HouseholdId>,
    /// Exercises and their steps by their keys.
    pub library: HashMap<&'static str, (ExerciseId, Vec<StepId>)>,
}

/// One corner of the stage with a clock and ids of its own, so that several can be played at once and still give the
/// same ids every time.
#[derive(Debug, Clone)]
pub struct Scene {
    /// The stage.
    pub stage: Arc<Stage>,
    clock: Clock,
    ids: Ids,
}

impl Stage {
    /// Somebody by their key.
    ///
    /// # Errors
    /// When nobody has it.
    pub fn actor(&self, key: &str) -> anyhow::Result<&Actor> {
        self.cast.get(key).with_context(|| format!("nobody in the invented practice is {key}"))
    }

    /// A transaction of this person's.
    ///
    /// # Errors
    /// When the database fails.
    pub async fn tx(&self, actor: &Actor) -> anyhow::Result<Tx> {
        let opened = self.db.for_member(actor.practice, actor.membership).await?;
        opened.context("somebody of the invented practice is no member of it")
    }

    /// A household's id.
    ///
    /// # Errors
    /// When there is none.
    pub fn household(&self, household: &Household) -> anyhow::Result<HouseholdId> {
        self.households.get(household.key).copied().context("a household was not taken in")
    }

    /// An exercise of the practice and its steps.
    ///
    /// # Errors
    /// When the library has none.
    pub fn exercise(&self, key: &str) -> anyhow::Result<&(ExerciseId, Vec<StepId>)> {
        self.library.get(key).with_context(|| format!("no exercise {key} in the library"))
    }
}

impl Scene {
    /// The corner with this number.
    pub fn new(stage: &Arc<Stage>, number: u32) -> Self {
        let ids = Ids::counting_from(u64::from(number) << 32);
        Self { stage: stage.clone(), clock: Clock::standing_at(OffsetDateTime::UNIX_EPOCH), ids }
    }

    /// Moves the clock, and gives that moment.
    pub fn moment(&self, at: OffsetDateTime) -> Moment {
        self.clock.set(at);
        Moment::of(&self.clock, &self.ids)
    }
}

/// An entry of the starter library by its key.
///
/// # Errors
/// When there is none.
pub fn starter(key: &str) -> anyhow::Result<&'static StarterExercise> {
    starter_library::find(key).with_context(|| format!("no exercise {key} on the shelf"))
}

/// The practice's copy of the starter library, found by names.
///
/// # Errors
/// When the database fails.
pub async fn library(tx: &mut Tx) -> anyhow::Result<HashMap<&'static str, (ExerciseId, Vec<StepId>)>> {
    let copied = exercise::list(tx, &exercise::Wanted::default()).await?;
    let by_name: HashMap<&str, ExerciseId> = copied.iter().map(|e| (e.name.as_str(), e.id)).collect();
    let mut steps: HashMap<ExerciseId, Vec<StepId>> = HashMap::new();
    for step in step::all().read(tx).await? {
        steps.entry(step.exercise).or_default().push(step.id);
    }
    let entries = starter_library::all().filter_map(|entry| {
        let id = by_name.get(entry.name).copied()?;
        Some((entry.key, (id, steps.remove(&id).unwrap_or_default())))
    });
    Ok(entries.collect())
}
