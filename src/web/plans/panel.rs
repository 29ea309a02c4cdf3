//! What stands beside a draft while it is written: what the rules find, the food of a day, the week laid out, what it asks,
//! what it changes. A constant number of statements, however long the plan is.

use crate::actions::check_plan::Measure;
use crate::clock::Moment;
use crate::domain::food::energy::EnergyFacts;
use crate::domain::food::picture::Picture;
use crate::domain::food::share::percent;
use crate::domain::welfare::TREATS;
use crate::store::dog::Dog;
use crate::store::house::House;
use crate::store::plan::PlanItem;
use crate::store::reading::Together;
use crate::store::{Tx, food_planned, plan_draft};
use crate::web::plans::{changes, checks};
use crate::web::week::WeekView;
use crate::web::{WebError, zones};

/// The panel of a draft as it stands in this transaction.
pub struct Panel {
    /// What the rules find, the worst first.
    pub checks: Vec<checks::Check>,
    /// How much it asks of a week.
    pub load: checks::Load,
    /// The week laid out; `None` where nothing is asked for.
    pub week: Option<WeekView>,
    /// The food of a day, a sentence each.
    pub food: Vec<String>,
    /// What it changes against what owners read now.
    pub changes: Vec<changes::Change>,
    /// Whether owners read a plan already.
    pub is_published: bool,
}

impl Panel {
    /// The panel of a dog's draft, with its items, as they stand in this transaction.
    pub async fn of(tx: &mut Tx, dog: &Dog, moment: &Moment) -> Result<(Self, Vec<PlanItem>), WebError> {
        let items = plan_draft::items(tx, dog.id).await?;
        let (measure, paid) =
            (Measure::of(dog.id), food_planned::of_draft(dog.id)).together().read(tx).await?;
        let findings = measure.check(&items, moment);
        let Measure { published, facts, house: House { numbers, .. } } = measure;
        let today = zones::local_date(moment.at, &dog.zone);
        let picture = Picture::of(&EnergyFacts::of(&facts, today), &paid);
        let ceiling = numbers.of(&TREATS) / 100.0;
        let panel = Self {
            checks: checks::of(findings, &items),
            load: checks::Load::of(&items),
            week: WeekView::of(&items, &facts, &numbers, today),
            food: food(&picture, ceiling, &facts.allergies),
            is_published: published.is_some(),
            changes: changes::between(
                published.as_ref().map_or(&[], |plan| plan.items.as_slice()),
                &items,
                changes::Reader::Trainer,
            ),
        };
        Ok((panel, items))
    }
}

/// The food of a planned day: its share of the need with the biggest contributor, what would fit, what could not be counted.
fn food(picture: &Picture, ceiling: f64, allergies: &str) -> Vec<String> {
    let earned = &picture.earned;
    let mut said = Vec::new();
    match (picture.share, earned.biggest()) {
        (_, None) if earned.is_empty() => said.push("No food is planned as a reinforcer.".to_owned()),
        (_, None) => {}
        (None, Some(biggest)) => said.push(format!(
            "About {:.0} kcal a day, most of it {}. Without a weight its share of the day is not known.",
            earned.kcal_a_day(),
            biggest.what
        )),
        (Some(share), Some(biggest)) => said.push(format!(
            "If every try is met, about {} of the daily need ({:.0} kcal a day), most of it {}.{}",
            percent(share.point(), ceiling),
            earned.kcal_a_day(),
            biggest.what,
            if share.is_over(ceiling) {
                format!(" The most is {}.", percent(ceiling, ceiling))
            } else {
                String::new()
            }
        )),
    }
    if let Some(grams) = picture.fits(ceiling, allergies).and_then(|fits| fits.grams_per_piece) {
        said.push(format!("Pieces of at most {grams:.2} g would bring it under."));
    }
    said.extend(earned.not_counted_in_words().into_iter().map(|left| format!("Not counted: {left}.")));
    said
}
