//! The catalogue: every rule with its words, sources and numbers. Screens, docs and tests all read it.

use super::{
    children, clips, cool_down, day_load, distress, equipment, failure, food, food_share, food_words, health,
    heat, impact, progress, progression, reactions, rhythm, roads, safety, slow_change, warnings, workload,
};
pub use crate::domain::certainty::Certainty;
use crate::domain::vocabulary::Severity;

/// What a rule is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// Lines, clips, collars, harnesses.
    Equipment,
    /// How a dog comes down after work.
    CoolDown,
    /// Fear and overload.
    Distress,
    /// How long, how often.
    Workload,
    /// Work that goes wrong more often than right.
    Failure,
    /// What is made harder, and whether the dog can follow.
    Progress,
    /// Food and pay.
    Food,
    /// The weather.
    Heat,
    /// Illness and pain.
    Health,
    /// Teeth, running off, people at risk.
    Safety,
    /// The rhythm of the work.
    Rhythm,
}

impl Group {
    /// Every group, in the order in which the guide lists them.
    pub const ALL: [Self; 11] = [
        Self::Health,
        Self::Safety,
        Self::Distress,
        Self::Equipment,
        Self::CoolDown,
        Self::Workload,
        Self::Failure,
        Self::Progress,
        Self::Food,
        Self::Heat,
        Self::Rhythm,
    ];

    /// What trainers read.
    pub fn label(self) -> &'static str {
        match self {
            Self::Equipment => "Equipment",
            Self::CoolDown => "Cool-down",
            Self::Distress => "Distress",
            Self::Workload => "Workload",
            Self::Failure => "Failure",
            Self::Progress => "Progression",
            Self::Food => "Food",
            Self::Heat => "Heat",
            Self::Health => "Health",
            Self::Safety => "Safety",
            Self::Rhythm => "Rhythm",
        }
    }
}

impl Group {
    /// What owners read.
    pub fn for_owner(self) -> &'static str {
        match self {
            Self::Equipment => "Lines, harnesses and roads",
            Self::CoolDown => "A calm ending",
            Self::Distress => "When it is too much",
            Self::Workload => "How long, how often, and rest",
            Self::Failure => "When it does not work",
            Self::Progress => "Making it harder",
            Self::Food => "Food and rewards",
            Self::Heat => "Warm weather",
            Self::Health => "Health",
            Self::Safety => "Keeping everyone safe",
            Self::Rhythm => "The rhythm of your weeks",
        }
    }
}

/// How dangerous what a rule is about is, the least first. It parts findings of one severity, so that teeth or a
/// failing breath are read before a clip or a missing cool-down, whichever came last. Common practice: what harms
/// within minutes, then people and animals at risk, then what may come next, then how the work is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Danger {
    /// How the work is done: equipment, cool-down, workload, progress, food, rhythm.
    TheWork,
    /// A dog or an owner in trouble: running off, pain, heat, shutting down, not coping.
    Trouble,
    /// Teeth, or a warning to a child.
    Teeth,
    /// Signs that a vet must hear of at once.
    Life,
}

/// What a rule reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum LooksAt {
    /// A plan, before it is published.
    Plan,
    /// A plan before it is published, and each practice log.
    PlanAndLog,
    /// One practice log.
    Log,
    /// One encounter.
    Encounter,
    /// Several logs or encounters together.
    Trend,
    /// The time since the last log; derived when read.
    Silence,
}

impl LooksAt {
    /// What trainers read.
    pub fn label(self) -> &'static str {
        match self {
            Self::Plan => "The plan",
            Self::PlanAndLog => "The plan, and each practice log",
            Self::Log => "One practice log",
            Self::Encounter => "One encounter",
            Self::Trend => "Several logs together",
            Self::Silence => "The time since the last log",
        }
    }
}

/// A number that a rule uses, with the bounds within which a practice may set it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameter {
    /// Stable name, kept with what a practice sets; one for each number.
    pub key: &'static str,
    /// What it is.
    pub name: &'static str,
    /// What the rule uses.
    pub value: f64,
    /// The lowest safe value.
    pub low: f64,
    /// The highest safe value.
    pub high: f64,
    /// Its unit.
    pub unit: &'static str,
}

/// One rule: what it sees, why it matters, what to do, where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rule {
    /// Stable name, kept with every flag.
    pub id: &'static str,
    /// Raised whenever the meaning changes.
    pub version: u16,
    /// What it is about.
    pub group: Group,
    /// What it reads.
    pub looks_at: LooksAt,
    /// Heading for trainers.
    pub title: &'static str,
    /// Heading for owners.
    pub owner_title: &'static str,
    /// When it speaks, and what raises its severity.
    pub raises: &'static str,
    /// Why it matters, for trainers.
    pub why: &'static str,
    /// What a trainer does, first things first.
    pub trainer_do: &'static str,
    /// What an owner does, first things first, in plain words.
    pub owner_do: &'static str,
    /// Why it matters, in plain words.
    pub owner_why: &'static str,
    /// The published source, or "Common practice".
    pub source: &'static str,
    /// How sure we are of it.
    pub certainty: Certainty,
    /// The numbers it uses.
    pub parameters: &'static [Parameter],
}

impl Rule {
    /// The version, as it is kept with a flag.
    pub fn stored_version(&self) -> i16 {
        i16::try_from(self.version).unwrap_or(i16::MAX)
    }

    /// How dangerous what it is about is.
    pub fn danger(&self) -> Danger {
        const TROUBLE: [&str; 3] = ["bolted", "puppy_mouthing", "child_held_line"];
        let urgent = [health::VET_NOW.id, health::HEAT_ILLNESS.id, food_words::HARMFUL_FOOD_PAID.id];
        match self.group {
            _ if urgent.contains(&self.id) => Danger::Life,
            Group::Safety if !TROUBLE.contains(&self.id) => Danger::Teeth,
            Group::Health | Group::Safety | Group::Distress | Group::Heat => Danger::Trouble,
            Group::Equipment
            | Group::CoolDown
            | Group::Workload
            | Group::Failure
            | Group::Progress
            | Group::Food
            | Group::Rhythm => Danger::TheWork,
        }
    }

    /// What findings are sorted by, the gravest last: severity, then danger. Those alike are told apart by their time,
    /// the newest first. The one order of findings and flags, wherever they are listed or one of them is named.
    pub fn gravity(&self, severity: Severity) -> (Severity, Danger) {
        (severity, self.danger())
    }
}

/// A fact behind a finding, as label and value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// What it is.
    pub label: &'static str,
    /// What was stated.
    pub value: String,
}

/// What a rule found.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The rule that spoke.
    pub rule: &'static Rule,
    /// How bad it is.
    pub severity: Severity,
    /// What was seen, for trainers, with the numbers.
    pub seen: String,
    /// What was seen, for owners.
    pub owner_seen: String,
    /// The facts it rests on.
    pub facts: Vec<Fact>,
    /// In a plan, the position of the item concerned.
    pub item: Option<usize>,
}

impl Finding {
    /// A finding of a rule, in the words of both readers.
    pub(super) fn new(
        rule: &'static Rule,
        severity: Severity,
        seen: impl Into<String>,
        owner_seen: impl Into<String>,
    ) -> Self {
        Self {
            rule,
            severity,
            seen: seen.into(),
            owner_seen: owner_seen.into(),
            facts: Vec::new(),
            item: None,
        }
    }

    /// The finding with one more fact behind it.
    pub(super) fn fact(mut self, label: &'static str, value: impl ToString) -> Self {
        self.facts.push(Fact { label, value: value.to_string() });
        self
    }

    /// The finding with one more fact behind it, where it was stated.
    pub(super) fn fact_if(self, label: &'static str, value: Option<impl ToString>) -> Self {
        match value {
            Some(value) => self.fact(label, value),
            None => self,
        }
    }

    /// Whether every permission to be off lead lapses.
    pub fn off_lead_lapses(&self) -> bool {
        self.rule.id == safety::BOLTED.id
    }
}

/// Every rule, in the order in which the screen lists them.
pub static CATALOGUE: &[&Rule] = &[
    &equipment::LONG_LINE_WITHOUT_HARNESS,
    &equipment::PLANNED_LONG_LINE_ON_COLLAR,
    &clips::CLIP_NOT_USED,
    &clips::RETRACTABLE_LEAD,
    &clips::CHASE_WITHOUT_HARNESS,
    &clips::LINE_TOO_LONG,
    &clips::HAND_IN_LOOP,
    &clips::EQUIPMENT_FAILED,
    &roads::ROAD_NEAR,
    &roads::OFF_LEAD_NOT_ALLOWED,
    &cool_down::COOL_DOWN_MISSING,
    &cool_down::STILL_HIGH,
    &cool_down::AROUSING_LAST,
    &distress::SHUT_DOWN,
    &reactions::SNATCHING_GROWS,
    &reactions::TWO_REACTIONS,
    &distress::NOT_COPING,
    &workload::LONGER_THAN_PLANNED,
    &workload::NO_BREAK,
    &workload::NO_LENGTH,
    &day_load::LONG_FOR_AGE,
    &day_load::AROUSING_DAY,
    &day_load::TWO_AROUSING,
    &day_load::NO_REST_DAY,
    &impact::IMPACT_FOR_BODY,
    &progress::UNDER_HALF_MET,
    &failure::MISSES_RUNNING,
    &failure::DECLINE,
    &reactions::REACTION_IN_FEAR_WORK,
    &progress::NO_PLACE,
    &progression::TWO_RAISED,
    &progression::RUNG_JUMPED,
    &progression::MARKER_AMID_DISTRACTIONS,
    &progression::WEAK_REINFORCER,
    &progression::ASKED_AGAIN,
    &food::MARKER_UNPAID,
    &food::NO_REINFORCER,
    &food_share::OVER_DAILY_SHARE,
    &food_words::HARMFUL_FOOD_PLANNED,
    &food_words::HARMFUL_FOOD_PAID,
    &food_words::ALLERGEN_PLANNED,
    &food_words::ALLERGEN_PAID,
    &heat::HEAT_AT_WORK,
    &health::VET_NOW,
    &health::HEAT_ILLNESS,
    &health::VET_SOON,
    &slow_change::SLOW_PAIN,
    &slow_change::WEIGHT_CHANGE,
    &safety::BITE,
    &safety::PUPPY_MOUTHING,
    &safety::GROWL_AT_CHILD,
    &safety::SECOND_INCIDENT,
    &warnings::GUARDING,
    &warnings::GROWL_GONE,
    &warnings::BITE_NEAR_TARGET,
    &children::CHILD_HELD_LINE,
    &children::CHILD_WITHIN_REACH,
    &safety::BOLTED,
    &rhythm::GONE_QUIET,
    &rhythm::PLAN_TOO_LARGE,
];

/// The rule with this stable name.
pub fn rule(id: &str) -> Option<&'static Rule> {
    CATALOGUE.iter().copied().find(|rule| rule.id == id)
}
