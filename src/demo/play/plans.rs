//! Writing plans: the first one, and the ones in which steps have moved.

use anyhow::Context;
use time::OffsetDateTime;

use super::Player;
use crate::actions::add_draft_item::{add_chosen_item, add_draft_item};
use crate::actions::decide::{DecisionInput, decide};
use crate::actions::edit_draft_item::{edit_draft_item, stamp};
use crate::actions::grant_off_lead::grant_off_lead;
use crate::actions::publish_plan::{Publication, publish_plan};
use crate::demo::content::{CoolDown, DaysAgo, Item};
use crate::demo::script::{is_trainer, rung};
use crate::demo::stage::starter;
use crate::domain::readiness::Verdict;
use crate::domain::vocabulary::{Choice, DecisionReason, Line, Outcome};
use crate::ids::{LineId, StepId};
use crate::store::plan_draft_item::{self, LineSettings};
use crate::store::{place, plan, readiness, reinforcer};

/// What trainers note of counted work where neither the counts nor a lesson speak, the next one each time.
const SEEN_FROM_AFAR: &[&str] = &[
    "Sent a good video: clean and loose. One step on.",
    "Steady for a week by their notes. A little more.",
    "Looks easy for both of them by now.",
    "They asked for it, and the last three notes agree.",
];
/// The same of work that is not counted.
const READ_FROM_AFAR: &[&str] = &[
    "Readings hold. One step, and back if it wobbles.",
    "Better each week without being asked. On, gently.",
    "Long enough at this one: it has become dull, which is the point.",
    "Watched their video twice. Soft from nose to tail.",
];
/// Days in which a lesson counts as just seen.
const JUST_SEEN: DaysAgo = 3;

impl Player {
    /// Publishes the plan of a day: what joins it, what moves on it, and the note.
    pub(super) async fn publish(&mut self, days_ago: DaysAgo, at: OffsetDateTime) -> anyhow::Result<()> {
        let first = self.items.is_empty();
        if first {
            for key in self.dog.standing.iter().chain(self.dog.owner_skills).copied() {
                let (moment, exercise) = (self.scene.moment(at), self.stage().exercise(key)?.0);
                let tx = self.stage().tx(&self.trainer).await?;
                let line = add_draft_item(tx, &self.trainer, self.id, exercise, moment.id(), &moment).await?;
                self.lines.insert(key, line);
            }
        }
        let mut moved = Vec::new();
        for item in self.dog.items {
            let joins = item.climb.first().is_some_and(|(day, _)| self.joins(*day, days_ago));
            if joins && !self.lines.contains_key(item.key) {
                let chosen = self.settings(item, days_ago).await?;
                let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
                let line = add_chosen_item(tx, &self.trainer, self.id, &chosen, &moment).await?;
                self.lines.insert(item.key, line);
            } else if item.climb.iter().skip(1).any(|(day, _)| *day == days_ago) {
                self.move_step(item, days_ago, moved.is_empty(), at).await?;
                let ladder = starter(item.key)?;
                let step =
                    ladder.steps.get(usize::from(rung(item, days_ago))).context("a rung of no ladder")?;
                moved.push(format!("{} moves on to “{}”.", ladder.name, step.name));
            }
        }
        let written = self.dog.versions.iter().find(|version| version.days_ago == days_ago);
        let note = match written {
            Some(version) => version.note.to_owned(),
            None => format!("{} The rest stays as it is.", moved.join(" ")),
        };
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        let publication = Publication { note, ..Publication::default() };
        let published = publish_plan(tx, &self.trainer, self.id, &publication, &moment).await?;
        let mut tx = self.stage().tx(&self.trainer).await?;
        let items = plan::items(published.version).read(&mut tx).await?;
        drop(tx);
        let key_of = |line: LineId| self.lines.iter().find(|(_, l)| **l == line).map(|(key, _)| *key);
        self.items =
            items.iter().filter_map(|item| Some((key_of(item.line_id)?, (item.id, item.step)))).collect();
        if first { self.allow_off_lead(at).await } else { Ok(()) }
    }

    /// Whether an item that joins on `day` joins with the plan of `published`: that day's, or the next.
    fn joins(&self, day: DaysAgo, published: DaysAgo) -> bool {
        let next = self.dog.versions.iter().map(|version| version.days_ago).find(|version| *version <= day);
        next == Some(published)
    }

    /// How this dog practises an item on the rung of a day.
    async fn settings(&self, item: &Item, days_ago: DaysAgo) -> anyhow::Result<LineSettings> {
        let ladder = starter(item.key)?;
        let (exercise, steps) = self.stage().exercise(item.key)?;
        let rung = usize::from(rung(item, days_ago));
        let mut tx = self.stage().tx(&self.trainer).await?;
        let places = place::of_dog(self.id).read(&mut tx).await?;
        let paid = reinforcer::of_dog(self.id).read(&mut tx).await?;
        let name = self.place(item, rung)?;
        Ok(LineSettings {
            exercise: *exercise,
            step: Some(*steps.get(rung).context("a rung of no ladder")?),
            attempts: (item.attempts > 0).then_some(item.attempts.into()),
            times_a_week: Some(item.times_a_week.into()),
            minutes: Some(item.minutes.into()),
            place: places.iter().find(|known| known.name == name).map(|known| known.id),
            reinforcer: paid.iter().find(|known| known.what == item.reinforcer).map(|known| known.id),
            line: item.line,
            clip: item.clip,
            line_metres: None,
            cool_down_minutes: item.cool_down.map_or(0, |(minutes, _)| minutes.into()),
            cool_down_way: item.cool_down.map_or_else(String::new, |(_, way)| {
                let own = ladder.cool_down_way;
                if way == CoolDown::SniffWalk && !own.is_empty() { own } else { way_down(way) }.to_owned()
            }),
            note: sentence(item.when),
        })
    }

    /// Where an item is practised on a rung: the last rung at its place, earlier ones somewhere just as easy as they
    /// ask. Where something to be watched or a walk is, the place stays.
    fn place(&self, item: &Item, rung: usize) -> anyhow::Result<&'static str> {
        let ladder = starter(item.key)?;
        let asked = ladder.steps.get(rung).context("a rung of no ladder")?.distraction;
        let own =
            self.dog.places.iter().find(|place| place.name == item.place).context("an item of no place")?;
        let is_last = item.climb.last().is_some_and(|(_, last)| usize::from(*last) == rung);
        let stays = matches!(ladder.outcome, Outcome::Distance | Outcome::Recovery);
        if is_last || stays || own.distraction == asked {
            return Ok(own.name);
        }
        let safe = |road: bool| item.line != Line::LongLine || !road;
        let easier = self.dog.places.iter().find(|place| place.distraction == asked && safe(place.near_road));
        Ok(easier.unwrap_or(own).name)
    }

    /// A decision about a step, and the step in the draft that it leads to.
    async fn move_step(
        &mut self,
        item: &Item,
        days_ago: DaysAgo,
        is_first: bool,
        at: OffsetDateTime,
    ) -> anyhow::Result<()> {
        let (plan_item, step) = *self.items.get(item.key).context("a step moves on no plan")?;
        let line = *self.lines.get(item.key).context("a step moves on no line")?;
        let (to, from) = (rung(item, days_ago), rung(item, days_ago + 1));
        let choice = if to >= from { Choice::MoveOn } else { Choice::MakeEasier };
        let reason = self.reason(item, line, step, days_ago).await?;
        let note = self.why(item, days_ago, reason, is_first).to_owned();
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        let input = DecisionInput { id: moment.id(), dog: self.id, item: plan_item, choice, reason, note };
        decide(tx, &self.trainer, &input, &moment).await?;
        let chosen = self.settings(item, days_ago).await?;
        let mut tx = self.stage().tx(&self.trainer).await?;
        if let Some(kept) =
            plan_draft_item::find(&mut tx, self.id, line).await?.filter(|kept| *kept != chosen)
        {
            edit_draft_item(tx, &self.trainer, self.id, line, &chosen, &stamp(&kept), &moment).await?;
        }
        Ok(())
    }

    /// Why a step moves: what the counts say, what was just seen, or neither.
    async fn reason(
        &self,
        item: &Item,
        line: LineId,
        step: Option<StepId>,
        days_ago: DaysAgo,
    ) -> anyhow::Result<DecisionReason> {
        let mut tx = self.stage().tx(&self.trainer).await?;
        let kept = match step {
            Some(step) => readiness::find(&mut tx, self.id, line, step).await?,
            None => None,
        };
        let class = starter(item.key)?.class;
        let says_ready = kept.is_some_and(|kept| kept.state.verdict(class) == Verdict::LikelyReady);
        let seen = self.dog.versions.iter().any(|version| version.days_ago == days_ago)
            || self.dog.moments.iter().any(|moment| {
                is_trainer(moment.by) && (days_ago..=days_ago + JUST_SEEN).contains(&moment.days_ago)
            });
        Ok(match (says_ready, seen) {
            (true, _) => DecisionReason::Counts,
            (false, true) => DecisionReason::SeenInLesson,
            (false, false) => DecisionReason::Other,
        })
    }

    /// What is noted with it: the first step of a day takes the trainer's note of that day; another reason is given.
    fn why(
        &mut self,
        item: &Item,
        days_ago: DaysAgo,
        reason: DecisionReason,
        is_first: bool,
    ) -> &'static str {
        let noted = self.dog.trainer_notes.iter().find(|note| note.days_ago == days_ago && is_first);
        match noted {
            Some(note) => note.words,
            None if reason != DecisionReason::Other => "",
            None if item.attempts > 0 => self.told.next(SEEN_FROM_AFAR),
            None => self.told.next(READ_FROM_AFAR),
        }
    }

    async fn allow_off_lead(&self, at: OffsetDateTime) -> anyhow::Result<()> {
        let mut tx = self.stage().tx(&self.trainer).await?;
        let places = place::of_dog(self.id).read(&mut tx).await?;
        drop(tx);
        for known in places.iter().filter(|known| self.dog.profile.off_lead.contains(&known.name.as_str())) {
            let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
            grant_off_lead(tx, &self.trainer, self.id, known.id, &moment).await?;
        }
        Ok(())
    }
}

/// How to come down, where the exercise itself does not say.
fn way_down(way: CoolDown) -> &'static str {
    match way {
        CoolDown::SniffWalk => "A slow sniffing walk on a slack lead, until the head is low.",
        CoolDown::Chew => "Something to chew on the bed or the mat, toys put away.",
        CoolDown::Settle => "Lie down somewhere quiet together, nothing asked.",
        CoolDown::StraightHome => "",
    }
}

/// "after lunch" as a sentence.
fn sentence(when: &str) -> String {
    let mut letters = when.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}.", first.to_uppercase(), letters.as_str()))
}
