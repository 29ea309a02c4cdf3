//! Imports a file that was checked: what of it is not here yet is added in one transaction, or nothing is.

use crate::actions::stage_import::WAITS;
use crate::actions::{Done, Refusal, authorise, edit_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::dog::Weighing;
use crate::domain::import::{Additions, HouseholdOf, Setting, compare, read};
use crate::ids::{DogId, HouseholdId, ImportBatchId, MembershipId};
use crate::store::audit::{self, AuditEvent};
use crate::store::import::{self, DogToAdd, HouseholdToAdd};
use crate::store::import_batch::{self, ImportBatch};
use crate::store::{Tx, practice};

/// Who and what an import is about.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The file.
    pub batch: ImportBatchId,
    /// Who looks after the dogs that are new.
    pub trainer: MembershipId,
    /// The zone of new households of which the file says none.
    pub usual_zone: &'a str,
}

/// Adds what is new in the file. What is here already stays as it is; a file that was imported before adds nothing.
pub async fn apply_import(
    mut tx: Tx,
    actor: &Actor,
    wanted: Wanted<'_>,
    setting: Setting,
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::ImportRecords, None)?;
    practice::lock(&mut tx).await?;
    import_batch::forget_before(&mut tx, moment.at - WAITS).await?;
    let found = import_batch::find(&mut tx, wanted.batch, moment.at - WAITS).await?;
    let batch = found.ok_or(Refusal::NotFound)?;
    if batch.applied_at.is_some() {
        return Ok(());
    }
    edit_dog::trainer_stands(&mut tx, wanted.trainer).await?;
    let file = read(&batch.sheet, setting).map_err(|_| Refusal::Field {
        field: "trainer",
        message: "This file was checked by an older version of the service. Check it once more.",
    })?;
    let known = import::known(&mut tx).await?;
    let additions = compare(&file, &known);
    let settled = add(&mut tx, &additions, wanted, batch, moment).await?;
    import_batch::settle(&mut tx, &settled, moment.at).await?;
    let detail =
        format!("{} households, {} dogs, {} weights", settled.households, settled.dogs, settled.weights);
    let event = AuditEvent::by(actor, "apply_import", "practice", actor.practice.0, moment);
    audit::note(&mut tx, &AuditEvent { detail: &detail, ..event }).await?;
    tx.commit().await?;
    Ok(())
}

/// Adds what is new, a statement for each kind, and says how much it was.
async fn add(
    tx: &mut Tx,
    additions: &Additions<'_>,
    wanted: Wanted<'_>,
    batch: ImportBatch,
    moment: &Moment,
) -> Done<ImportBatch> {
    let usual_zone = wanted.usual_zone;
    let new = |entry| HouseholdToAdd { id: moment.id(), usual_zone, entry };
    let households: Vec<HouseholdToAdd<'_>> = additions.households.iter().copied().map(new).collect();
    import::add_households(tx, &households, moment.at).await?;
    let household = |of: HouseholdOf| -> HouseholdId {
        match of {
            HouseholdOf::Here(id) => id,
            HouseholdOf::New(at) => households[at].id,
        }
    };
    let dogs = additions.dogs.iter();
    let dogs: Vec<DogToAdd<'_>> = dogs
        .map(|dog| DogToAdd { id: moment.id(), household: household(dog.household), entry: dog.entry })
        .collect();
    import::add_dogs(tx, &dogs, wanted.trainer, moment.at).await?;
    let weights = additions.weights.iter().map(|new| (new.dog.unwrap_or_else(|at| dogs[at].id), new.weight));
    let weights: Vec<(DogId, Weighing)> = weights.collect();
    let weighed = import::add_weights(tx, &weights).await?;
    let count = |n: usize| i32::try_from(n).unwrap_or(i32::MAX);
    Ok(ImportBatch {
        households: count(households.len()),
        dogs: count(dogs.len()),
        weights: i32::try_from(weighed).unwrap_or(i32::MAX),
        ..batch
    })
}
