//! Who comes in before the dogs: the practice, its team, its households.

use std::collections::HashMap;

use anyhow::Context;
use time::{Duration, OffsetDateTime};

use super::calendar::Calendar;
use super::content::{DaysAgo, Household, Owner, PRACTICE, Trainer, households};
use super::passwords::Passwords;
use super::stage::{self, Stage};
use crate::actions::add_household::add_household;
use crate::actions::add_owner::{NewOwner, add_owner};
use crate::actions::edit_own_name::edit_own_name;
use crate::actions::invite_trainer::invite_trainer;
use crate::actions::offer_set_up::offer_set_up;
use crate::actions::password::Hasher;
use crate::actions::set_up_practice::{NewPractice, set_up_practice};
use crate::actions::take_up_invitation::{Holder, TakeUp, take_up_invitation};
use crate::actions::use_device_link::use_device_link;
use crate::clock::{Clock, Ids, Moment};
use crate::domain::access::Actor;
use crate::domain::vocabulary::{Children, Role};
use crate::ids::{HouseholdId, MembershipId, PracticeId};
use crate::store::Db;
use crate::store::household;
use crate::store::membership::NewMembership;

/// Days that the practice had been going before its first dog came.
const BEFORE_THE_FIRST: DaysAgo = 10;
/// What trainers' browsers and owners' phones call themselves.
const DEVICES: [&str; 2] = ["Firefox on Linux", "Safari on iPhone"];

/// Sets the practice up, brings its team together and takes its households in.
///
/// # Errors
/// When the database fails.
pub async fn gather(
    db: &Db,
    hasher: &Hasher,
    passwords: &Passwords,
    calendar: Calendar,
) -> anyhow::Result<Stage> {
    let dogs = households().flat_map(|household| household.dogs);
    let founded = dogs.map(|dog| dog.joined).max().unwrap_or(0) + BEFORE_THE_FIRST;
    let clock = Clock::standing_at(calendar.at(founded, 9, 0)?);
    let ids = Ids::counting_from(1);
    let [lead, others @ ..] = PRACTICE.trainers else {
        anyhow::bail!("the invented practice has no trainers")
    };
    let moment = Moment::of(&clock, &ids);
    let token = offer_set_up(db, Duration::days(1), &moment).await?;
    let new = NewPractice {
        practice: PRACTICE.name.to_owned(),
        zone: PRACTICE.zone.to_owned(),
        name: lead.name.to_owned(),
        email: lead.email.to_owned(),
        password_hash: hasher.hash(passwords.of(lead.email)?).await?,
        device: DEVICES[0].to_owned(),
    };
    let set_up = set_up_practice(db, token.hash(), &new, &moment).await?;
    let actor = actor(set_up.practice, set_up.lead, Role::Lead, Vec::new());
    let tx = db.for_member(set_up.practice, set_up.lead).await?.context("the lead stands")?;
    edit_own_name(tx, &actor, (lead.name, Some(lead.phone)), &moment).await?;
    let mut stage = Stage {
        db: db.clone(),
        practice: set_up.practice,
        calendar,
        cast: HashMap::from([(lead.key, actor.clone())]),
        households: HashMap::new(),
        library: HashMap::new(),
    };
    for trainer in others {
        clock.set(stage.calendar.at(founded, 10, 0)?);
        let hash = hasher.hash(passwords.of(trainer.email)?).await?;
        let member = join_team(&stage, &actor, trainer, hash, &Moment::of(&clock, &ids)).await?;
        stage.cast.insert(trainer.key, member);
    }
    let mut tx = stage.tx(&actor).await?;
    stage.library = stage::library(&mut tx).await?;
    drop(tx);
    for household in households() {
        let joined = household.dogs.iter().map(|dog| dog.joined).max().unwrap_or(founded);
        clock.set(stage.calendar.at(joined, 9, 15)?);
        let id = take_in(&stage, household, &Moment::of(&clock, &ids)).await?;
        stage.households.insert(household.key, id);
        for owner in household.owners {
            clock.set(clock.now() + Duration::minutes(4));
            let member = bring(&stage, household, id, owner, &clock, &ids).await?;
            stage.cast.insert(owner.key, member);
        }
    }
    Ok(stage)
}

fn actor(practice: PracticeId, membership: MembershipId, role: Role, households: Vec<HouseholdId>) -> Actor {
    Actor { practice, membership, role, households }
}

async fn join_team(
    stage: &Stage,
    lead: &Actor,
    trainer: &Trainer,
    password_hash: String,
    moment: &Moment,
) -> anyhow::Result<Actor> {
    let new = NewMembership {
        id: moment.id(),
        account: None,
        role: Role::Trainer,
        name: trainer.name.to_owned(),
        email: trainer.email.to_owned(),
        phone: trainer.phone.to_owned(),
    };
    let id = new.id;
    let link = invite_trainer(stage.tx(lead).await?, lead, new, moment).await?;
    let given = TakeUp {
        name: trainer.name.to_owned(),
        email: trainer.email.to_owned(),
        holder: Holder::New { password_hash },
        device: DEVICES[0].to_owned(),
    };
    take_up_invitation(&stage.db, link.token.hash(), &given, moment).await?;
    Ok(actor(stage.practice, id, Role::Trainer, Vec::new()))
}

/// The trainer of a household's first dog takes it in.
async fn take_in(stage: &Stage, household: &Household, moment: &Moment) -> anyhow::Result<HouseholdId> {
    let trainer = trainer_of(stage, household)?;
    let ages: Vec<String> = household.children.iter().map(|age| child(*age)).collect();
    let children = match &ages[..] {
        [] => String::new(),
        [one] => format!(" Child at home: {one}."),
        many => format!(" Children at home: {}.", many.join(", ")),
    };
    let new = household::Household {
        id: moment.id(),
        name: household.name.to_owned(),
        zone: PRACTICE.zone.to_owned(),
        note: format!("{}{children}", household.about),
        children: Some(if ages.is_empty() { Children::None } else { Children::Living }),
    };
    add_household(stage.tx(trainer).await?, trainer, &new, moment).await?;
    Ok(new.id)
}

fn child(age: u8) -> String {
    if age == 0 { "a baby".to_owned() } else { age.to_string() }
}

fn trainer_of<'a>(stage: &'a Stage, household: &Household) -> anyhow::Result<&'a Actor> {
    let dog = household.dogs.first().context("a household without a dog")?;
    stage.actor(dog.trainer)
}

/// Adds an owner, who opens the link a little later.
async fn bring(
    stage: &Stage,
    household: &Household,
    id: HouseholdId,
    owner: &Owner,
    clock: &Clock,
    ids: &Ids,
) -> anyhow::Result<Actor> {
    let trainer = trainer_of(stage, household)?;
    let moment = Moment::of(clock, ids);
    let new = NewOwner {
        id: moment.id(),
        name: owner.name.to_owned(),
        phone: owner.phone.to_owned(),
        email: String::new(),
    };
    let member = new.id;
    let link = add_owner(stage.tx(trainer).await?, trainer, id, new, &moment).await?;
    let opened: OffsetDateTime = clock.now() + Duration::minutes(2);
    clock.set(opened);
    use_device_link(&stage.db, link.token.hash(), DEVICES[1], &Moment::of(clock, ids)).await?;
    Ok(actor(stage.practice, member, Role::Owner, vec![id]))
}
