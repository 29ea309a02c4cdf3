//! The caseload: which dog needs the trainer first, and why, in words.

pub mod search;

use std::cmp::Reverse;

use time::{Date, Duration, OffsetDateTime};

use super::dates::{ago, counted, days_between};
use super::life::Rest;
use super::vocabulary::Phase;
use super::welfare::{HouseNumbers, Quiet, SilenceFacts, quiet};
use crate::ids::DogId;

/// What a dog needs of its trainer, the most pressing first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Need {
    /// A stop is open, or a bite is new and unanswered.
    NewStop,
    /// Silence after a bite, a stop or "I am not coping".
    QuietAfterTrouble,
    /// The owner is not coping.
    NotCoping,
    /// Something happened and is unanswered.
    Incident,
    /// A question waits.
    Question,
    /// A decision waits.
    Decision,
    /// A caution is open.
    Caution,
    /// Something grave was answered a few days ago: how it went since is worth asking.
    AfterTrouble,
    /// Nothing heard for a while.
    GoneQuiet,
    /// The plan is due for a look.
    ReviewDue,
    /// No plan yet.
    New,
    /// Going well.
    GoingWell,
    /// Paused, maintaining, graduated, away, ill or in season, with nothing waiting.
    Resting,
}

impl Need {
    /// Every need, the most pressing first.
    pub const ALL: [Self; 13] = [
        Self::NewStop,
        Self::QuietAfterTrouble,
        Self::NotCoping,
        Self::Incident,
        Self::Question,
        Self::Decision,
        Self::Caution,
        Self::AfterTrouble,
        Self::GoneQuiet,
        Self::ReviewDue,
        Self::New,
        Self::GoingWell,
        Self::Resting,
    ];

    /// What trainers read.
    pub fn label(self) -> &'static str {
        match self {
            Self::NewStop => "Stop",
            Self::QuietAfterTrouble => "Quiet after trouble",
            Self::NotCoping => "Not coping",
            Self::Incident => "Something happened",
            Self::Question => "Question waiting",
            Self::Decision => "Decision waiting",
            Self::Caution => "Caution",
            Self::AfterTrouble => "After trouble",
            Self::GoneQuiet => "Gone quiet",
            Self::ReviewDue => "Review due",
            Self::New => "No plan yet",
            Self::GoingWell => "Going well",
            Self::Resting => "Resting",
        }
    }

    /// The name in addresses and style sheets.
    pub fn key(self) -> &'static str {
        match self {
            Self::NewStop => "stop",
            Self::QuietAfterTrouble => "quiet_after_trouble",
            Self::NotCoping => "not_coping",
            Self::Incident => "incident",
            Self::Question => "question",
            Self::Decision => "decision",
            Self::Caution => "caution",
            Self::AfterTrouble => "after_trouble",
            Self::GoneQuiet => "gone_quiet",
            Self::ReviewDue => "review_due",
            Self::New => "new",
            Self::GoingWell => "going_well",
            Self::Resting => "resting",
        }
    }
}

/// Days for which a bite or other trouble counts as new while it is unanswered. Common practice.
const NEW_FOR_DAYS: i64 = 7;
/// Weeks after which a plan that nobody has touched is due for a look. Common practice.
const REVIEW_AFTER: Duration = Duration::weeks(6);

/// The day on which a published plan is due for a look; none for dogs whose plan may rest.
pub fn review_due_on(published_on: Option<Date>, phase: Phase) -> Option<Date> {
    let works = matches!(phase, Phase::SettlingIn | Phase::Active);
    published_on.filter(|_| works).map(|day| day + REVIEW_AFTER)
}

/// What the caseload reads of one dog: facts that change by writes, as kept in the dog's summary.
#[derive(Debug, Clone, PartialEq)]
pub struct DogState {
    /// The dog.
    pub dog: DogId,
    /// What it is called.
    pub name: String,
    /// Where it stands in its work.
    pub phase: Phase,
    /// What lets the work rest today: away, ill, in season.
    pub rest: Option<Rest>,
    /// A plan is published.
    pub has_plan: bool,
    /// The day on which the current plan was published, or the dog came back to it from a phase or a rest, whichever is later.
    pub plan_since: Option<Date>,
    /// Sittings that the plan asks for in a week.
    pub planned_times_a_week: Option<i16>,
    /// The day on which the plan is due for a look.
    pub review_due_on: Option<Date>,
    /// The day of the last sitting.
    pub last_log_on: Option<Date>,
    /// Open stops.
    pub open_stops: i32,
    /// Open cautions.
    pub open_cautions: i32,
    /// Open notices.
    pub open_notices: i32,
    /// The day of the last bite; a playful puppy's mouthing is none.
    pub last_bite_on: Option<Date>,
    /// The day of the last bite, bolt, stop or "I am not coping".
    pub last_trouble_on: Option<Date>,
    /// "I am not coping" is unanswered.
    pub not_coping_open: bool,
    /// The last day of unanswered trouble besides "I am not coping"; read only while that is unanswered.
    pub trouble_besides_on: Option<Date>,
    /// A bite is unanswered.
    pub bite_open: bool,
    /// A stop, a bolt, a second incident, a growl at a child or "I am not coping" is unanswered.
    pub trouble_open: bool,
    /// Questions of the household that wait for an answer.
    pub questions_waiting: i32,
    /// Lines whose counts wait for a decision.
    pub decisions_waiting: i32,
    /// When the oldest thing that waits began to wait.
    pub waiting_since: Option<OffsetDateTime>,
}

/// The order among dogs: need first, then how much, how long, and at last the name, so that it is total.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Rank {
    need: Need,
    stops: Reverse<i32>,
    waits: (bool, Option<OffsetDateTime>),
    trouble: Reverse<Option<Date>>,
    cautions: Reverse<i32>,
    last_log: Option<Date>,
    name: String,
    dog: DogId,
}

/// Where a dog stands in the caseload.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// Its most pressing need.
    pub need: Need,
    /// Everything that speaks for it, the most pressing first; never empty.
    pub reasons: Vec<String>,
    /// Sort by this, ascending.
    pub rank: Rank,
}

impl DogState {
    /// Where this dog stands today.
    pub fn standing(&self, today: Date, numbers: &HouseNumbers) -> Standing {
        let needs = self.needs(today, numbers);
        let need = needs.first().map_or(Need::GoingWell, |(need, _)| *need);
        let rank = Rank {
            need,
            stops: Reverse(self.open_stops),
            waits: (self.waiting_since.is_none(), self.waiting_since),
            trouble: Reverse(self.last_trouble_on.max(self.last_bite_on)),
            cautions: Reverse(self.open_cautions),
            last_log: self.last_log_on,
            name: self.name.clone(),
            dog: self.dog,
        };
        Standing { need, reasons: needs.into_iter().map(|(_, reason)| reason).collect(), rank }
    }

    /// Every need that holds with its reason in words, the most pressing first; never empty.
    fn needs(&self, today: Date, numbers: &HouseNumbers) -> Vec<(Need, String)> {
        let mut needs = Vec::new();
        self.alarms(today, numbers, &mut needs);
        self.waiting(&mut needs);
        if self.review_due_on.is_some_and(|day| day <= today) {
            needs.push((Need::ReviewDue, "Plan due for a look".to_owned()));
        }
        let resting = matches!(self.phase, Phase::Paused | Phase::Graduated | Phase::Maintaining);
        if !self.has_plan && !resting {
            needs.push((Need::New, "No plan yet".to_owned()));
        }
        if needs.is_empty() {
            needs.push(match (resting, self.rest) {
                (true, None) => (Need::Resting, self.phase.to_string()),
                (true, Some(rest)) => (Need::Resting, format!("{}. {}", self.phase, rest.words(today))),
                (false, Some(rest)) => (Need::Resting, rest.words(today)),
                (false, None) => (Need::GoingWell, self.going_well(today)),
            });
        }
        needs.sort_by_key(|(need, _)| *need);
        needs
    }

    fn alarms(&self, today: Date, numbers: &HouseNumbers, needs: &mut Vec<(Need, String)>) {
        let recent = |day: Option<Date>| day.filter(|day| days_between(*day, today) < NEW_FOR_DAYS);
        if self.open_stops > 0 {
            needs.push((Need::NewStop, counted(self.open_stops.into(), "stop open", "stops open")));
        }
        let cautions = self.open_cautions > 0;
        let bite = recent(self.last_bite_on).filter(|_| self.bite_open);
        if let Some(day) = bite {
            needs.push((Need::NewStop, format!("Bite {}", ago(day, today))));
        }
        if let Some(Quiet { days, after_trouble, .. }) = quiet(&self.silence_facts(), today, numbers) {
            let need = if after_trouble { Need::QuietAfterTrouble } else { Need::GoneQuiet };
            needs.push((need, format!("Nothing logged for {days} days")));
        }
        if self.not_coping_open {
            let said_on = self.last_trouble_on.filter(|on| Some(*on) != self.trouble_besides_on);
            let said = said_on.map(|on| format!(", said {}", ago(on, today))).unwrap_or_default();
            needs.push((Need::NotCoping, format!("Owner is not coping{said}")));
        }
        // a bite, and that the owner is not coping, are said above
        let happened = if self.not_coping_open { self.trouble_besides_on } else { self.last_trouble_on };
        if let Some(day) = recent(happened).filter(|_| self.trouble_open && bite.is_none()) {
            needs.push((Need::Incident, format!("Something happened {}", ago(day, today))));
        }
        let answered_bite = recent(self.last_bite_on).filter(|_| !self.bite_open);
        let answered = recent(self.last_trouble_on).filter(|_| !self.trouble_open && !self.bite_open);
        if let Some(day) = answered_bite.max(answered) {
            let what = if answered_bite == Some(day) { "Bite" } else { "Something happened" };
            needs.push((Need::AfterTrouble, format!("{what} {}, answered", ago(day, today))));
        }
        if cautions {
            needs.push((Need::Caution, counted(self.open_cautions.into(), "caution open", "cautions open")));
        }
    }

    fn waiting(&self, needs: &mut Vec<(Need, String)>) {
        let mut waits = |count: i32, need, one, many| {
            if count > 0 {
                needs.push((need, counted(count.into(), one, many)));
            }
        };
        waits(self.questions_waiting, Need::Question, "question waiting", "questions waiting");
        waits(self.decisions_waiting, Need::Decision, "decision waiting", "decisions waiting");
    }

    fn going_well(&self, today: Date) -> String {
        match self.last_log_on {
            Some(day) => format!("Practised {}", ago(day, today)),
            None => "Plan is new, nothing logged yet".to_owned(),
        }
    }

    /// What the rule on silence reads.
    pub fn silence_facts(&self) -> SilenceFacts {
        SilenceFacts {
            dog_name: self.name.clone(),
            phase: self.phase,
            on_holiday: self.rest.is_some(),
            last_log_on: self.last_log_on,
            plan_since: self.plan_since,
            planned_times_a_week: self.planned_times_a_week,
            last_trouble_on: self.last_trouble_on.max(self.last_bite_on),
        }
    }
}

#[cfg(test)]
mod tests;
