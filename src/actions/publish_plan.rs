//! Publishing a dog's draft as its next plan version, which nobody can change afterwards.

use crate::actions::check_plan::Measure;
use crate::actions::fold_readiness::refold;
use crate::actions::plan_draft::{authorised, finished};
use crate::actions::set_phase::put_in;
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::intake::triage::Publishing;
use crate::domain::plan_order::arranged;
use crate::domain::vocabulary::{Phase, Severity};
use crate::domain::welfare::Finding;
use crate::ids::{DogId, LineId, PlanItemId, PlanVersionId};
use crate::store::dog::Dog;
use crate::store::plan::PlanItem;
use crate::store::{self, Tx, dog_summary, plan, plan_draft, plan_summary, plan_version, triage};

/// What a trainer says when publishing.
#[derive(Debug, Clone, Default)]
pub struct Publication {
    /// A note to the owner; may be empty.
    pub note: String,
    /// Why the plan is published though a rule says stop, kept with the version; empty where none does.
    pub despite_stop: String,
    /// The number that the plan shall have, as whoever publishes read it; whichever is next where they did not say.
    pub number: Option<i32>,
    /// Whether whoever publishes has read that a vet was to look first.
    pub knows_vet_first: bool,
}

impl Publication {
    /// Why these items, in which the rules found this, may not be published so, if they may not.
    pub fn objection(&self, items: &[PlanItem], findings: &[Finding]) -> Option<Refusal> {
        if items.is_empty() {
            return Some(Refusal::Field {
                field: "note",
                message: "Add at least one item before you publish.",
            });
        }
        let stops = findings.iter().any(|finding| finding.severity == Severity::Stop);
        (stops && self.despite_stop.is_empty()).then_some(Refusal::Field {
            field: "despite_stop",
            message: "Put the stop right first, or write why you publish all the same. The lead trainer reads it.",
        })
    }
}

/// A plan that was published.
#[derive(Debug, Clone)]
pub struct PublishedPlan {
    /// The version.
    pub version: PlanVersionId,
    /// Its number.
    pub number: i32,
    /// What the rules found in it, the worst first.
    pub findings: Vec<Finding>,
    /// Whether the dog was settling in, and is active with it.
    pub is_now_active: bool,
}

/// The plan of this number, if this person published it with this note: then the form was sent twice.
async fn repeated(
    tx: &mut Tx,
    actor: &Actor,
    dog: &Dog,
    publication: &Publication,
    number: i32,
) -> Done<PublishedPlan> {
    let is_active = dog.phase == Phase::Active;
    let dog = dog.id;
    let first = plan_version::numbered(tx, dog, number, actor.membership, &publication.note).await?;
    let version = first.ok_or(Refusal::Field {
        field: "note",
        message: "Another plan was published after you opened this page. Look at what changes now, then publish.",
    })?;
    Ok(PublishedPlan { version, number, findings: Vec::new(), is_now_active: number == 1 && is_active })
}

/// Why an intake keeps every plan back, if it does.
fn held_back(by: Publishing, knows_vet_first: bool) -> Option<Refusal> {
    let (field, message) = match by {
        Publishing::Open => return None,
        Publishing::VetFirst if knows_vet_first => return None,
        Publishing::VetFirst => (
            "vet_first",
            "A vet was to look first. Tick that this plan only keeps everybody safe until then.",
        ),
        Publishing::Unanswered => ("triage", "Say first what you make of the intake."),
        Publishing::Referred => {
            ("triage", "This dog was referred. A lead trainer releases it before a plan is published.")
        }
    };
    Some(Refusal::Field { field, message })
}

/// For the record that a lead reads: "despite child_within_reach: …", as much of the reason as fits.
fn despite(finding: &Finding, why: &str) -> String {
    format!("despite {}: {}", finding.rule.id, why.chars().take(400).collect::<String>())
}

/// Publishes the draft: copies its items with their wording of now, makes them what the dog is measured by, and lets
/// a dog that was settling in start its work. The draft stays, with its lines, for the next version.
pub async fn publish_plan(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    publication: &Publication,
    moment: &Moment,
) -> Done<PublishedPlan> {
    let dog = authorised(&mut tx, actor, dog).await?;
    store::dog::lock_summary(&mut tx, dog.id).await?;
    let intake = triage::publishing_of(&mut tx, dog.id).await?;
    let next = plan::current(dog.id).read(&mut tx).await?.map_or(1, |version| version.number + 1);
    if let Some(number) = publication.number.filter(|number| *number != next) {
        return repeated(&mut tx, actor, &dog, publication, number).await;
    }
    if let Some(refusal) = held_back(intake, publication.knows_vet_first) {
        return Err(refusal);
    }
    let order = if plan_draft::find(dog.id).read(&mut tx).await?.is_some() {
        plan_draft::hold(&mut tx, dog.id, actor.membership, moment.at).await?;
        arranged(&plan_draft::order(&mut tx, dog.id).await?)
    } else {
        Vec::new()
    };
    plan_draft::set_order(&mut tx, dog.id, &order).await?;
    let items = plan_draft::items(&mut tx, dog.id).await?;
    let findings = Measure::of(dog.id).read(&mut tx).await?.check(&items, moment);
    if let Some(refusal) = publication.objection(&items, &findings) {
        return Err(refusal);
    }
    let stop = findings.iter().find(|finding| finding.severity == Severity::Stop);
    let why = if stop.is_some() { publication.despite_stop.as_str() } else { "" };
    let mut detail = stop.map(|finding| despite(finding, why)).unwrap_or_default();
    if intake == Publishing::VetFirst {
        detail = format!("before a vet has looked; {detail}");
    }
    let version: PlanVersionId = moment.id();
    let number =
        plan_version::add(&mut tx, dog.id, version, (&publication.note, why), actor.membership, moment.at)
            .await?;
    let items: Vec<(LineId, PlanItemId)> = order.into_iter().map(|line| (line, moment.id())).collect();
    plan_version::copy_draft(&mut tx, dog.id, version, &items).await?;
    plan_summary::set_plan(&mut tx, dog.id, version).await?;
    refold(&mut tx, dog.id, number).await?;
    dog_summary::decisions_changed(&mut tx, dog.id).await?;
    plan_draft::set_note(&mut tx, dog.id, "").await?;
    let is_now_active = dog.phase == Phase::SettlingIn;
    if is_now_active {
        put_in(&mut tx, actor, &dog, Phase::Active, moment).await?;
    }
    finished(tx, actor, dog.id, "publish_plan", &detail, moment).await?;
    Ok(PublishedPlan { version, number, findings, is_now_active })
}
