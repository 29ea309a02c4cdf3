//! A trainer's evening: answering what came in, deciding what waits, reading what was written. What the story leaves
//! open stays open.

use time::OffsetDateTime;
use uuid::Uuid;

use super::Player;
use crate::actions::answer_flag::answer_flag;
use crate::actions::decide::{DecisionInput, decide};
use crate::actions::look_at::look_at_all;
use crate::demo::content::{Answer, DaysAgo, Moment, Story};
use crate::demo::script::is_trainer;
use crate::demo::stage::starter;
use crate::domain::readiness::Verdict;
use crate::domain::vocabulary::{Choice, DecisionReason};
use crate::domain::welfare::Group;
use crate::ids::FlagId;
use crate::store::flag::{self, Flag, Subject, Wanted};
use crate::store::readiness;

/// Days within which a step moves anyway, so that a decision can wait for it.
const MOVES_SOON: DaysAgo = 10;

const WITHOUT_COOL_DOWN: &[&str] = &[
    "Once is life. A chew by the door counts as well when there is no time for the walk.",
    "Spoke in passing: stop two goes sooner and the walk fits.",
    "Noted. We look again if it happens more often.",
    "Rain, and fair enough. The hall floor and a scatter do for such days.",
];
const STILL_HIGH: &[&str] = &[
    "Asked for an easier go next time, and a quiet evening after it.",
    "A busy day by the sound of it. Tomorrow off, then shorter.",
    "Fewer goes, more sniffing between them. They see it too.",
    "Wrote: stop at the first good one on days like that.",
];
const UNDER_HALF: &[&str] = &[
    "Too near by the sound of it. More room, and fewer goes.",
    "One easy day, please, then the same step again.",
    "The place was too busy that day. Same step, quieter corner.",
    "Better food for a week, and only where it is dull.",
];
const HOW_MUCH: &[&str] = &[
    "One exciting thing a day is enough. The other one moves to the weekend.",
    "Good fun, too much of it. A sniffing walk instead next time.",
    "Split it in two, or leave the second half out.",
];
const OF_ANYTHING: &[&str] = &[
    "As we said on the phone: no harm done, and the same again.",
    "Seen. We speak about it at the next lesson.",
];
const NOT_YET: &[&str] = &[
    "Enough on their plate this week. It keeps.",
    "One more week: I want it boring first.",
    "Fine as it is while the other exercise is new.",
    "Counts say yes. The place gets busier first, then the step.",
];
const TO_BE_SEEN: &[&str] = &[
    "Counts are lovely. I look at it in the next lesson before it gets harder.",
    "Still to be seen by me. Same step until then.",
];
const HOLDING: &[&str] = &[
    "Holds its own. Same step, shorter goes, until the lesson.",
    "Not moving, not slipping. I bring another pair of eyes next time.",
];
const SLIPPING: &[&str] = &[
    "A new step may wobble. Shorter goes this week, and back if it does not settle.",
    "Half the distance for a few days. I look at it before it goes back a step.",
];
const AT_THE_TOP: &[&str] =
    &["Top of the ladder. Keep it as it is, for pleasure.", "Nothing above it that they need. Keep it warm."];

impl Player {
    pub(super) async fn evening(&mut self, days_ago: DaysAgo, at: OffsetDateTime) -> anyhow::Result<()> {
        let mut tx = self.stage().tx(&self.trainer).await?;
        let mut open = flag::of_dog(self.id, Wanted::Open).read(&mut tx).await?;
        drop(tx);
        // once something is left open, nothing that came after it is answered either
        open.retain(|_| self.left_open.is_empty());
        for flag in &open {
            let words = self.words_for(flag);
            self.answer(flag.id, words, at).await?;
        }
        // what came in is gone through at the end of the week; the last days are still new
        if self.left_open.is_empty() && days_ago % 7 == 2 {
            let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
            look_at_all(tx, &self.trainer, self.id, at, &moment).await?;
        }
        self.decide_what_waits(days_ago, at).await?;
        self.read(days_ago).await
    }

    /// Answers what a moment raised, as it was written.
    pub(super) async fn answer_moment(
        &mut self,
        moment: &'static Moment,
        answer: Answer,
        at: OffsetDateTime,
    ) -> anyhow::Result<()> {
        let about: Vec<Uuid> = self
            .subjects
            .iter()
            .filter(|(written, _)| std::ptr::eq(*written, moment))
            .map(|(_, id)| *id)
            .collect();
        let mut tx = self.stage().tx(&self.trainer).await?;
        let open = flag::of_dog(self.id, Wanted::Open).read(&mut tx).await?;
        drop(tx);
        for flag in open.iter().filter(|flag| about.contains(&subject(flag))) {
            self.answer(flag.id, answer.words, at).await?;
        }
        Ok(())
    }

    async fn answer(&self, flag: FlagId, words: &str, at: OffsetDateTime) -> anyhow::Result<()> {
        let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
        answer_flag(tx, &self.trainer, flag, (&[], moment.at), (words, false), &moment).await?;
        Ok(())
    }

    /// The content's answers in their order, then others that fit the rule. They speak of the coming down, of counts and of
    /// what a dog showed; what is said of how much was done has words of its own.
    fn words_for(&mut self, flag: &Flag) -> &'static str {
        if flag.rule.group == Group::Workload && flag.rule.id != "longer_than_planned" {
            return self.told.next(HOW_MUCH);
        }
        if let Some(words) = self.dog.answers.get(self.answered) {
            self.answered += 1;
            return words;
        }
        self.told.next(match flag.rule.id {
            "cool_down_missing" => WITHOUT_COOL_DOWN,
            "still_high" => STILL_HIGH,
            "under_half_met" => UNDER_HALF,
            _ => OF_ANYTHING,
        })
    }

    /// Where counts wait and the step does not move soon, the trainer stays with it. Two stories end in waiting.
    async fn decide_what_waits(&mut self, days_ago: DaysAgo, at: OffsetDateTime) -> anyhow::Result<()> {
        if matches!(self.dog.story, Story::ReadyToMoveOn | Story::Stuck) {
            return Ok(());
        }
        let mut tx = self.stage().tx(&self.trainer).await?;
        let kept = readiness::of_dog(self.id).read(&mut tx).await?;
        drop(tx);
        for item in self.dog.items {
            let Some((plan_item, step)) = self.items.get(item.key).copied() else { continue };
            let line = self.lines.get(item.key).copied();
            let waits = kept.iter().find(|k| k.waiting && Some(k.line) == line && Some(k.step) == step);
            let soon = item.climb.iter().any(|(day, _)| *day < days_ago && *day + MOVES_SOON >= days_ago);
            let Some(waits) = waits.filter(|_| !soon) else { continue };
            let ladder = starter(item.key)?;
            let at_the_top =
                item.climb.last().is_some_and(|(_, r)| usize::from(*r) + 1 == ladder.steps.len());
            let (reason, note) = self.staying(waits.state.verdict(ladder.class), at_the_top);
            let (tx, moment) = (self.stage().tx(&self.trainer).await?, self.scene.moment(at));
            let input = DecisionInput {
                id: moment.id(),
                dog: self.id,
                item: plan_item,
                choice: Choice::Repeat,
                reason,
                note: note.to_owned(),
            };
            decide(tx, &self.trainer, &input, &moment).await?;
        }
        Ok(())
    }

    fn staying(&mut self, verdict: Verdict, at_the_top: bool) -> (DecisionReason, &'static str) {
        match verdict {
            _ if self.dog.story == Story::StillHigh => {
                (DecisionReason::Welfare, "The counts flatter. How long until she lies down decides.")
            }
            Verdict::LikelyReady if at_the_top => (DecisionReason::Counts, self.told.next(AT_THE_TOP)),
            Verdict::NeedsTrainerSeen => (DecisionReason::Other, self.told.next(TO_BE_SEEN)),
            Verdict::Stuck => (DecisionReason::Other, self.told.next(HOLDING)),
            Verdict::Relapse => (DecisionReason::Other, self.told.next(SLIPPING)),
            Verdict::LikelyReady | Verdict::Gathering { .. } | Verdict::NeedsAnotherDay => {
                (DecisionReason::OwnersCapacity, self.told.next(NOT_YET))
            }
        }
    }

    /// Reads what was written, so that no question waits, unless the story ends with one.
    async fn read(&self, days_ago: DaysAgo) -> anyhow::Result<()> {
        let last = self.dog.messages.iter().rfind(|message| message.days_ago >= days_ago);
        let waits = last.is_some_and(|message| !is_trainer(message.from));
        let ends_waiting = matches!(self.dog.story, Story::QuestionWaiting | Story::NotCoping)
            && last.zip(self.dog.messages.last()).is_some_and(|(one, other)| std::ptr::eq(one, other));
        if !waits || ends_waiting {
            return Ok(());
        }
        self.read_messages(&self.trainer).await
    }
}

fn subject(flag: &Flag) -> Uuid {
    match flag.subject {
        Subject::PracticeLog(id) | Subject::Encounter(id) => id,
    }
}
