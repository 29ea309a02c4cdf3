//! Playing a dog's script: every deed is done by the action that people use, at its own moment.

mod evening;
mod lessons;
mod plans;
mod profile;
mod reports;
mod told;

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use anyhow::Context;
use time::OffsetDateTime;
use uuid::Uuid;

use self::told::Told;

use super::content::{Dog, Encounter, Household, Incident, IncidentKind, LifeEvent, Message, Moment, Phase};
use super::script::{self, Cue, Deed, Log, STILL_OPEN};
use super::stage::{Scene, Stage};
use crate::actions::add_dog::{NewDog, add_dog};
use crate::actions::edit_dog::{Section, edit_dog};
use crate::actions::keep_life_event::add_life_event;
use crate::actions::record_encounter::record_encounter;
use crate::actions::record_weight::record_weight;
use crate::actions::say_not_coping::say_not_coping;
use crate::actions::send_message::{MessageInput, mark_messages_read, send_message};
use crate::actions::set_phase::set_phase;
use crate::actions::submit_practice_log::{LogInput, submit_practice_log};
use crate::actions::tell_goal::tell_goal;
use crate::domain::access::Actor;
use crate::domain::dog::Weighing;
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::EncounterKind;
use crate::ids::{DogId, LineId, MessageId, PlanItemId, PracticeLogId, StepId};
use crate::store::dog_profile::Care;
use crate::store::message::About;
use crate::store::{Tx, encounter, goal_reading, life_event, message};

/// How an owner begins who can no more.
const NOT_COPING: &str = "I am not coping";

/// One dog's play, and what it has come to so far.
struct Player {
    scene: Scene,
    dog: &'static Dog,
    id: DogId,
    trainer: Actor,
    /// Whoever of the household does most.
    owner: Actor,
    /// Lines of the plan by the exercises' keys.
    lines: HashMap<&'static str, LineId>,
    /// Items of the current version by the exercises' keys, with their steps.
    items: HashMap<&'static str, (PlanItemId, Option<StepId>)>,
    /// What moments became, so that what they raised can be answered, or left open.
    subjects: Vec<(&'static Moment, Uuid)>,
    /// Logs and encounters whose flags nobody answers.
    left_open: HashSet<Uuid>,
    /// The sitting that was logged last.
    last_log: Option<PracticeLogId>,
    /// How many of the content's answers were given.
    answered: usize,
    /// What was said of the general words.
    told: Told,
}

/// Adds a dog, fills in its history and plays its weeks.
///
/// # Errors
/// When an action refuses, which is a mistake in the content, or the database fails.
pub async fn play(scene: Scene, household: &'static Household, dog: &'static Dog) -> anyhow::Result<()> {
    let played = async {
        let cues = script::of(&scene.stage.calendar, household, dog)?;
        let mut player = Player::begin(scene, household, dog).await?;
        for cue in cues {
            let at = cue.at;
            player.perform(cue).await.with_context(|| format!("what happens at {at}"))?;
        }
        anyhow::Ok(())
    };
    played.await.with_context(|| format!("playing {}", dog.name))
}

impl Player {
    async fn begin(scene: Scene, household: &'static Household, dog: &'static Dog) -> anyhow::Result<Self> {
        let stage = scene.stage.clone();
        let trainer = stage.actor(dog.trainer)?.clone();
        let owner = household.owners.first().context("a household without an owner")?;
        let owner = stage.actor(owner.key)?.clone();
        let moment = scene.moment(stage.calendar.at(dog.joined, 10, 30)?);
        let new = NewDog {
            id: moment.id(),
            identity: profile::identity(&stage.calendar, dog),
            care: Care { phase: Phase::SettlingIn, trainer: trainer.membership },
            weight: None,
        };
        let home = stage.household(household)?;
        let id = add_dog(stage.tx(&trainer).await?, &trainer, home, &new, &moment).await?;
        let player = Self {
            scene,
            dog,
            id,
            trainer,
            owner,
            last_log: None,
            lines: HashMap::new(),
            items: HashMap::new(),
            subjects: Vec::new(),
            left_open: HashSet::new(),
            answered: 0,
            told: Told::of(dog.key),
        };
        player.take_history().await?;
        Ok(player)
    }

    fn stage(&self) -> &Arc<Stage> {
        &self.scene.stage
    }

    async fn perform(&mut self, Cue { at, deed }: Cue) -> anyhow::Result<()> {
        match deed {
            Deed::Publish(days_ago) => self.publish(days_ago, at).await,
            Deed::Log(log) => self.log(*log, at).await,
            Deed::Meet(encounter) => self.meet(encounter, at).await,
            Deed::Say(message) => self.say(message, at).await,
            Deed::Near(near, sure) => self.say_how_near((near, sure), at).await,
            Deed::Live(event) => self.live(event, at).await,
            Deed::Weigh(days_ago, kg) => self.weigh(days_ago, kg, at).await,
            Deed::Vet => self.edit(&Section::Vet(profile::vet(&self.stage().calendar, self.dog)), at).await,
            Deed::Read(key) => {
                let reader = self.stage().actor(key)?.clone();
                self.read_messages(&reader).await
            }
            Deed::Evening(days_ago) => self.evening(days_ago, at).await,
            Deed::Answer(moment, answer) => self.answer_moment(moment, answer, at).await,
            Deed::Report(days_ago) => self.report_on(days_ago, at).await,
            Deed::Phase => self.settle_phase(at).await,
            Deed::Book(lesson, id) => self.book(lesson, id, at).await,
            Deed::Hold(lesson, id) => self.hold(lesson, id, at).await,
            Deed::Buy(bought, from, note) => self.buy(bought, from, note, at).await,
            Deed::StillGood(key) => self.still_good(key, at).await,
        }
    }

    async fn say_how_near(&self, (near, sure): (u8, u8), at: OffsetDateTime) -> anyhow::Result<()> {
        let on = self.stage().calendar.date_at(at)?;
        let told =
            goal_reading::Told { on, nearness: near.into(), confidence: sure.into(), note: String::new() };
        let (tx, moment) = (self.stage().tx(&self.owner).await?, self.scene.moment(at));
        Ok(tell_goal(tx, &self.owner, self.id, &told, &moment).await?)
    }

    async fn live(&self, event: &'static LifeEvent, at: OffsetDateTime) -> anyhow::Result<()> {
        let calendar = &self.stage().calendar;
        let told = life_event::Told {
            kind: event.kind,
            from: calendar.date(event.from),
            to: (event.to > 0).then(|| calendar.date(event.to)),
            note: event.note.to_owned(),
        };
        let (tx, moment) = (self.stage().tx(&self.owner).await?, self.scene.moment(at));
        Ok(add_life_event(tx, &self.owner, self.id, (moment.id(), &told), &moment).await?)
    }

    async fn edit(&self, section: &Section, at: OffsetDateTime) -> anyhow::Result<()> {
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        Ok(edit_dog(tx, &self.trainer, self.id, section, &moment).await?)
    }

    async fn weigh(&self, days_ago: u16, kg: f32, at: OffsetDateTime) -> anyhow::Result<()> {
        // to the hundred grams, as the scales showed it
        let kg = (f64::from(kg) * 10.0).round() / 10.0;
        let weight = Weighing { on: self.stage().calendar.date(days_ago), kg };
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        Ok(record_weight(tx, &self.trainer, self.id, weight, &moment).await?)
    }

    async fn log(&mut self, log: Log, at: OffsetDateTime) -> anyhow::Result<()> {
        let by = self.stage().actor(log.by)?.clone();
        let moment = self.scene.moment(at);
        let (item, _) =
            self.items.get(log.item).with_context(|| format!("{} is on no plan yet", log.item))?;
        let input = LogInput {
            id: moment.id(),
            dog: self.id,
            item: *item,
            capture: log.capture,
            started: None,
            handler: String::new(),
            outcome_value: log.reading,
            elsewhere: None,
            note: log.note,
            sitting: log.sitting,
            passed_on: false,
            tries: Vec::new(),
            lived: None,
        };
        let (id, today) = (input.id, input.sitting.local_date);
        submit_practice_log(self.stage().tx(&by).await?, &by, input, today, &moment).await?;
        self.last_log = Some(id);
        if let Some(written) = log.moment {
            self.remember(written, id.0);
            let bite = written.incident.filter(|incident| incident.kind != IncidentKind::Bolted);
            if let Some(incident) = bite {
                self.report(written, incident, &by, at).await?;
            }
        }
        Ok(())
    }

    /// A bite, a snap or a growl in a sitting is told as "something happened".
    async fn report(
        &mut self,
        written: &'static Moment,
        incident: Incident,
        by: &Actor,
        at: OffsetDateTime,
    ) -> anyhow::Result<()> {
        let moment = self.scene.moment(at + time::Duration::minutes(6));
        let kind = match incident.kind {
            IncidentKind::Bite | IncidentKind::Redirected => EncounterKind::Bite,
            IncidentKind::Snap | IncidentKind::Growl => EncounterKind::GrowlOrSnap,
            IncidentKind::Guarding => EncounterKind::Guarded,
            IncidentKind::Bolted => EncounterKind::Bolted,
            IncidentKind::Slipped => EncounterKind::EquipmentFailed,
        };
        let facts = EncounterFacts {
            towards: incident.whom,
            broken_skin: Some(incident.skin_broken),
            recovery: Some(written.recovery),
            looked: Some(written.looked),
            line: Some(written.line),
            ..EncounterFacts::on(self.stage().calendar.date_at(moment.at)?, kind)
        };
        let told = self.encounter(incident.towards, written.place, incident.facts, facts, at, &moment);
        let id = record_encounter(self.stage().tx(by).await?, by, &told, None, &moment).await?;
        self.remember(written, id.0);
        Ok(())
    }

    fn encounter(
        &self,
        what: &str,
        place: &str,
        note: &str,
        facts: EncounterFacts,
        happened_at: OffsetDateTime,
        moment: &crate::clock::Moment,
    ) -> encounter::Encounter {
        encounter::Encounter {
            id: moment.id(),
            dog: self.id,
            trigger: None,
            what: what.to_owned(),
            playful: None,
            froze: None,
            place_name: place.to_owned(),
            note: note.to_owned(),
            happened_at,
            facts,
        }
    }

    fn remember(&mut self, written: &'static Moment, subject: Uuid) {
        self.subjects.push((written, subject));
        if written.answer.is_none() && written.days_ago <= STILL_OPEN {
            self.left_open.insert(subject);
        }
    }

    async fn meet(&mut self, met: &'static Encounter, at: OffsetDateTime) -> anyhow::Result<()> {
        let by = self.stage().actor(met.by)?.clone();
        let moment = self.scene.moment(at);
        let kind = if met.reaction == 0 { EncounterKind::Other } else { EncounterKind::Reaction };
        let facts = EncounterFacts {
            distance_m: Some(i16::try_from(met.metres)?),
            reaction: Some(met.reaction.into()),
            recovery: Some(met.recovery),
            ..EncounterFacts::on(self.stage().calendar.date_at(at)?, kind)
        };
        let told = self.encounter(met.what, "", met.note, facts, at, &moment);
        record_encounter(self.stage().tx(&by).await?, &by, &told, None, &moment).await?;
        Ok(())
    }

    async fn say(&mut self, message: &'static Message, at: OffsetDateTime) -> anyhow::Result<()> {
        let by = self.stage().actor(message.from)?.clone();
        let moment = self.scene.moment(at);
        if message.words.starts_with(NOT_COPING) {
            let facts = EncounterFacts::on(self.stage().calendar.date_at(at)?, EncounterKind::NotCoping);
            let told = self.encounter("", "", message.words, facts, at, &moment);
            let tx = self.stage().tx(&by).await?;
            say_not_coping(tx, &by, &told, moment.id(), None, &moment).await?;
            self.left_open.insert(told.id.0);
            return Ok(());
        }
        let mut tx = self.stage().tx(&by).await?;
        let seen = self.last_message(&mut tx).await?;
        let about = self.last_log.filter(|_| message.about_the_last).map(About::Log);
        let input = MessageInput { id: moment.id(), body: message.words, seen, about };
        Ok(send_message(tx, &by, self.id, input, &moment).await?)
    }

    /// The last message so far.
    async fn last_message(&self, tx: &mut Tx) -> anyhow::Result<Option<MessageId>> {
        Ok(message::of_dog(tx, self.id, None, 1).await?.pop().map(|last| last.id))
    }

    /// Reads everything that was written so far.
    async fn read_messages(&self, reader: &Actor) -> anyhow::Result<()> {
        let mut tx = self.stage().tx(reader).await?;
        match self.last_message(&mut tx).await? {
            Some(last) => Ok(mark_messages_read(tx, reader, self.id, Some(last)).await?),
            None => Ok(()),
        }
    }

    async fn settle_phase(&self, at: OffsetDateTime) -> anyhow::Result<()> {
        let reached = if self.items.is_empty() { Phase::SettlingIn } else { Phase::Active };
        if self.dog.phase == reached {
            return Ok(());
        }
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        Ok(set_phase(tx, &self.trainer, self.id, self.dog.phase, &moment).await?)
    }
}
