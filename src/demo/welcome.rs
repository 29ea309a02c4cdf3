//! What is printed once the invented practice is there: who can sign in, and how.

use anyhow::Context;

use super::content::{Household, PRACTICE, Trainer, households};
use super::marker::Loaded;
use super::passwords::Passwords;
use crate::actions::make_link::make_link;
use crate::app::App;
use crate::domain::access::Actor;
use crate::domain::vocabulary::Role;

/// Owners whose links are printed: a plan that has just begun, two dogs that do well, and a day that went wrong.
const OWNERS: [&str; 3] = ["gwen", "hester", "ellis"];

/// Prints the trainers with their passwords, and fresh links for three owners.
///
/// # Errors
/// When the database fails.
pub async fn print(app: &App, loaded: &Loaded, passwords: &Passwords) -> anyhow::Result<()> {
    let mut text = format!("\n{}: sign in at {}/sign-in\n", PRACTICE.name, app.base_url);
    for trainer in PRACTICE.trainers {
        let (email, password) = (trainer.email, passwords.of(trainer.email)?);
        text += &line(&who(trainer), &format!("{email:<30}{password}"));
    }
    text += "\nAs an owner, open one of these; each works once, and every start makes new ones:\n";
    for key in OWNERS {
        let link = link(app, loaded, key).await?;
        text += &line(&household_of(key)?, &link);
    }
    println!("{text}");
    Ok(())
}

fn line(who: &str, what: &str) -> String {
    format!("  {who:<34}{what}\n")
}

fn who(trainer: &Trainer) -> String {
    let role = if trainer.lead { "lead trainer" } else { "trainer" };
    format!("{}, {role}", trainer.name)
}

/// "Hester Bell (Ned and Parsnip)".
fn household_of(key: &str) -> anyhow::Result<String> {
    let found = |household: &&Household| household.owners.iter().any(|owner| owner.key == key);
    let household = households().find(found).context("an owner of no household")?;
    let owner = household.owners.iter().find(|owner| owner.key == key).context("an owner of no household")?;
    let dogs: Vec<&str> = household.dogs.iter().map(|dog| dog.name).collect();
    Ok(format!("{} ({})", owner.name, dogs.join(" and ")))
}

async fn link(app: &App, loaded: &Loaded, key: &str) -> anyhow::Result<String> {
    let lead = Actor {
        practice: loaded.practice,
        membership: loaded.lead,
        role: Role::Lead,
        households: Vec::new(),
    };
    let found = loaded.owners.iter().find(|(owner, _)| owner == key);
    let (_, owner) = found.with_context(|| format!("nobody in the invented practice is {key}"))?;
    let tx = app.db.for_member(lead.practice, lead.membership).await?;
    let tx = tx.context("the invented practice has lost its lead trainer")?;
    let made = make_link(tx, &lead, *owner, false, &app.moment()).await?;
    Ok(format!("{}/l/{}", app.base_url, made.token.text()))
}
