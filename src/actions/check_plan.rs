//! What the rules say of a plan that may be published, against the version that owners read now.

use crate::actions::Done;
use crate::clock::Moment;
use crate::domain::welfare::{Finding, PlanContext, evaluate_plan};
use crate::ids::DogId;
use crate::store::plan::PlanItem;
use crate::store::{Tx, dog_facts, house, plan};

/// What the rules find in these items of a dog's draft, the worst first. Ages are counted to the day in UTC: a day's
/// difference between zones moves none that matters here.
pub async fn check_plan(tx: &mut Tx, dog: DogId, items: &[PlanItem], moment: &Moment) -> Done<Vec<Finding>> {
    let current = match plan::current(tx, dog).await? {
        Some(version) => Some(plan::facts(&plan::items(tx, version.id).await?)),
        None => None,
    };
    let facts = dog_facts::find(tx, dog).await?;
    let house = house::find(tx).await?;
    Ok(evaluate_plan(&PlanContext {
        plan: &plan::facts(items),
        current: current.as_ref(),
        dog: &facts,
        today: moment.at.date(),
        numbers: &house.numbers,
        not_used: &house.not_used,
    }))
}
