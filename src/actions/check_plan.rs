//! What the rules say of a plan that may be published, against the version that owners read now.

use crate::clock::Moment;
use crate::domain::dog::DogFacts;
use crate::domain::welfare::{Finding, PlanContext, evaluate_plan};
use crate::ids::DogId;
use crate::store::house::{self, House};
use crate::store::plan::{Plan, PlanItem};
use crate::store::reading::{Reading, Together};
use crate::store::{dog_facts, plan};

/// What a plan is judged by.
pub struct Measure {
    /// What owners read now.
    pub published: Option<Plan>,
    /// The dog.
    pub facts: DogFacts,
    /// How the practice has set the rules.
    pub house: House,
}

impl Measure {
    /// What a dog's plan is judged by.
    pub fn of(dog: DogId) -> Reading<Self> {
        (plan::newest(dog), dog_facts::find(dog), house::find())
            .together()
            .then(|(published, facts, house)| Ok(Self { published, facts, house }))
    }

    /// What the rules find in these items of the dog's draft, the worst first. Ages are counted to the day in UTC: a day's
    /// difference between zones moves none that matters here.
    pub fn check(&self, items: &[PlanItem], moment: &Moment) -> Vec<Finding> {
        evaluate_plan(&PlanContext {
            plan: &plan::facts(items),
            current: self.published.as_ref().map(|plan| plan::facts(&plan.items)).as_ref(),
            dog: &self.facts,
            today: moment.at.date(),
            numbers: &self.house.numbers,
            not_used: &self.house.not_used,
        })
    }
}
