//! An owner sends an intake: what it says fills the dog's profile where that is silent, and the trainer is told.

use time::Duration;

use crate::actions::send_message::{MessageInput, send};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::added_text::added;
use crate::domain::intake::answers::Answers;
use crate::domain::intake::takeover::bite_on_record;
use crate::ids::{DogId, HouseholdId, MessageId};
use crate::store::audit::{self, AuditEvent};
use crate::store::dog_profile::{self, Profile};
use crate::store::{Tx, household, intake, triage};

/// The most characters of the texts that are added to, as `migrations/` has them.
const LONG: usize = 4000;
const HEALTH: usize = 1000;
const TRIED: usize = 2000;

/// What the trainer reads in the conversation, where it waits for an answer.
const TOLD: &str = "The pages about our dog are filled in.";

/// Sends it. Sent again without a change it changes nothing.
pub async fn send_intake(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    message: MessageId,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::TellIntake, dog).await?;
    crate::store::dog::lock_summary(&mut tx, dog.id).await?;
    let answers = intake::hold(&mut tx, dog.id).await?.ok_or(Refusal::NotFound)?;
    // after the answers that were given to it before, whatever the clock did meanwhile
    let answered =
        triage::of_dog(&mut tx, dog.id).await?.first().map(|latest| latest.at + Duration::MICROSECOND);
    let at = moment.at.max(answered.unwrap_or(moment.at));
    if intake::send(&mut tx, dog.id, actor.membership, at).await? {
        let input = MessageInput { id: message, body: TOLD, seen: None, about: None };
        send(&mut tx, actor, dog.id, input, moment).await?;
        fill_profile(&mut tx, dog.id, &answers).await?;
        fill_household(&mut tx, dog.household, &answers).await?;
        audit::note(&mut tx, &AuditEvent::by(actor, "send_intake", "dog", dog.id.0, moment)).await?;
    }
    tx.commit().await?;
    Ok(())
}

/// Fills what is not stated, adds to what is a text, and overwrites nothing.
async fn fill_profile(tx: &mut Tx, dog: DogId, answers: &Answers) -> Done<()> {
    let profile = dog_profile::find(tx, dog).await?.ok_or(Refusal::NotFound)?;
    let Profile { mut identity, mut health, mut food, mut safety, mut goal, days, .. } = profile;
    let (told, teeth, week) = (answers.dog(), answers.teeth(), answers.week());
    if identity.home_since.is_none() && told.since.is_some() {
        identity.home_since = told.since;
        dog_profile::set_identity(tx, dog, &identity).await?;
    }
    let said = answers.health();
    let vet =
        [("Vet", said.vet), ("Last visit", said.last_visit.map(|on| on.to_string()).unwrap_or_default())];
    add_to(&mut health.other, &[&in_lines(&vet), &said.health], HEALTH);
    add_to(&mut health.medicines, &[&said.medicines], HEALTH);
    add_to(&mut health.allergies, &[&answers.food().allergies], HEALTH);
    dog_profile::set_health(tx, dog, &health).await?;
    if food.main.is_empty() {
        food.main = answers.food().main;
        dog_profile::set_food(tx, dog, &food).await?;
    }
    let alone = week.hours_alone.map(|hours| format!("{hours} h")).unwrap_or_default();
    let history = [
        ("From", told.from),
        ("Life before", told.before),
        ("Alone at most", alone),
        ("Sleep", answers.food().sleep),
    ];
    let incidents: Vec<String> =
        teeth.incidents.iter().map(|incident| format!("Teeth on skin. {}", incident.in_words())).collect();
    add_to(&mut safety.history, &[&in_lines(&history), &incidents.join("\n")], LONG);
    safety.bite_on_record = bite_on_record(safety.bite_on_record, &teeth.incidents);
    dog_profile::set_safety(tx, dog, &safety).await?;
    let tried = answers.tried();
    add_to(&mut goal.tried_before, &[&in_lines(&[("Tried", tried.what), ("Helped", tried.helped)])], TRIED);
    if goal.goal.is_empty() {
        goal.goal = answers.goal().goal;
    }
    dog_profile::set_goal(tx, dog, &goal).await?;
    if days.is_empty() {
        dog_profile::set_days(tx, dog, &week.days).await?;
    }
    Ok(())
}

/// The same for what is the household's.
async fn fill_household(tx: &mut Tx, id: HouseholdId, answers: &Answers) -> Done<()> {
    let mut known = household::find(tx, id).await?.ok_or(Refusal::NotFound)?;
    let home = answers.home();
    known.children = known.children.or(home.children);
    let note = [("Grown-ups", home.adults), ("Children’s ages", home.ages), ("Animals", home.animals)];
    add_to(&mut known.note, &[&in_lines(&note)], LONG);
    household::edit(tx, &known).await?;
    Ok(())
}

fn add_to(text: &mut String, said: &[&str], most: usize) {
    for said in said {
        if let Some(longer) = added(text, said, most) {
            *text = longer;
        }
    }
}

/// A line for each that was answered.
fn in_lines(said: &[(&str, String)]) -> String {
    let stated = said.iter().filter(|(_, text)| !text.is_empty());
    stated.map(|(what, text)| format!("{what}: {text}")).collect::<Vec<_>>().join("\n")
}
