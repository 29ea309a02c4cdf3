//! Sets the numbers of the welfare rules within their safe bounds, and the clips that the practice does not use.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::{Clip, Word};
use crate::domain::welfare::{HouseNumbers, Parameter, parameters};
use crate::store::audit::{self, AuditEvent};
use crate::store::house::{self, House};
use crate::store::{Tx, practice};

/// Keeps what a lead wants. `seen` is what the page that they filled in showed: where somebody else has set something since,
/// nothing is written. What is as the catalogue says is not kept, so that a later catalogue speaks for itself.
pub async fn set_house_numbers(
    mut tx: Tx,
    actor: &Actor,
    wanted: &House,
    seen: &str,
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::RunPractice, None)?;
    practice::lock(&mut tx).await?;
    let now = house::find().read(&mut tx).await?;
    if now == *wanted {
        return Ok(());
    }
    if shown(&now) != seen {
        return Err(Refusal::Field {
            field: "seen",
            message: "Somebody else changed these numbers after you opened this page. Open it again, look, and then change.",
        });
    }
    for parameter in parameters() {
        let (before, after) = (now.numbers.of(parameter), wanted.numbers.of(parameter));
        let (was_set, is_set) = (now.numbers.is_set(parameter), wanted.numbers.is_set(parameter));
        if before == after && was_set == is_set {
            continue;
        }
        if is_set {
            house::set(&mut tx, parameter.key, after, actor.membership, moment.at).await?;
        } else {
            house::reset(&mut tx, parameter.key).await?;
        }
        let detail = format!("{}: {before} to {after} {}", parameter.name, parameter.unit);
        note(&mut tx, actor, "set_house_number", detail.trim_end(), moment).await?;
    }
    if now.not_used != wanted.not_used {
        practice::set_clips_not_used(&mut tx, &wanted.not_used).await?;
        note(&mut tx, actor, "set_equipment_policy", &labels(&wanted.not_used), moment).await?;
    }
    tx.commit().await?;
    Ok(())
}

async fn note(tx: &mut Tx, actor: &Actor, action: &'static str, detail: &str, moment: &Moment) -> Done<()> {
    let event = AuditEvent::by(actor, action, "practice", actor.practice.0, moment);
    audit::note(tx, &AuditEvent { detail, ..event }).await?;
    Ok(())
}

fn labels(clips: &[Clip]) -> String {
    let labels: Vec<&str> = clips.iter().map(|clip| clip.label()).collect();
    if labels.is_empty() { "none".to_owned() } else { labels.join(", ") }
}

/// What a page shows of how the rules are set, in a text that two of them share only where they show the same.
pub fn shown(house: &House) -> String {
    let set = |parameter: &&Parameter| house.numbers.is_set(parameter);
    let value = |parameter: &Parameter, numbers: &HouseNumbers| {
        format!("{}={}", parameter.key, numbers.of(parameter))
    };
    let numbers = parameters().into_iter().filter(set).map(|parameter| value(parameter, &house.numbers));
    let clips = house.not_used.iter().map(|clip| clip.stored().to_owned());
    numbers.chain(clips).collect::<Vec<_>>().join(";")
}
