//! Published plans. A version and its items are only ever added; their wording is copied in.

use serde::Deserialize;
use time::OffsetDateTime;

use crate::domain::place::PlaceFacts;
use crate::domain::plan::{PlanFacts, PlannedItem};
use crate::domain::vocabulary::{Clip, Energy, ItemKind, Line, Outcome, SkillClass};
use crate::ids::{DogId, LineId, PlaceId, PlanItemId, PlanVersionId, StepId};
use crate::store::Result;
use crate::store::reading::{Reading, Together, reading};
use crate::store::word::{word, word_or_none};

/// A published plan version.
#[derive(Debug, Clone, Deserialize)]
pub struct PlanVersion {
    /// Its id.
    pub id: PlanVersionId,
    /// Its number: 1, 2, 3 for one dog.
    pub number: i32,
    /// The trainer's note to the owner.
    pub note: String,
    /// Who published it.
    pub by: String,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub published_at: OffsetDateTime,
    /// Why it was published though a rule said stop; empty where none did.
    pub despite_stop: String,
}

/// One instruction of a plan version, as the owner reads it.
#[derive(Debug, Clone)]
pub struct PlanItem {
    /// Its id.
    pub id: PlanItemId,
    /// The version it belongs to.
    pub version: PlanVersionId,
    /// The dog.
    pub dog: DogId,
    /// The instruction across versions.
    pub line_id: LineId,
    /// Its place in the plan.
    pub position: i16,
    /// What it is.
    pub kind: ItemKind,
    /// The step, for exercises.
    pub step: Option<StepId>,
    /// Which rung the step is, from 1.
    pub step_position: Option<i16>,
    /// How many rungs there are.
    pub steps_total: i16,
    /// The exercise's name.
    pub name: String,
    /// Why, in the owner's words.
    pub owner_why: String,
    /// What earns the marker.
    pub criterion: String,
    /// How to set it up.
    pub set_up: String,
    /// How to deliver the reinforcer.
    pub delivery: String,
    /// What to wear and hold, in words.
    pub equipment_note: String,
    /// The step's name.
    pub step_name: String,
    /// The step's distance.
    pub distance: String,
    /// The step's duration.
    pub duration: String,
    /// How distracting the step is, 1–5.
    pub distraction: Option<i16>,
    /// How much it winds a dog up.
    pub energy: Energy,
    /// Whether it means running or impact.
    pub impact: bool,
    /// How sure to be before moving on.
    pub class: SkillClass,
    /// What a sitting yields.
    pub outcome: Outcome,
    /// What joins dog and handler.
    pub line: Line,
    /// Where the line is clipped.
    pub clip: Option<Clip>,
    /// Length of the line, metres.
    pub line_metres: Option<i16>,
    /// Attempts in one sitting.
    pub attempts: Option<i16>,
    /// Sittings in a week.
    pub times_a_week: Option<i16>,
    /// Minutes in one sitting.
    pub minutes: Option<i16>,
    /// Where.
    pub place: Option<PlaceId>,
    /// Where, in words.
    pub place_name: String,
    /// How distracting that place is, 1–5.
    pub place_distraction: Option<i16>,
    /// What else was known of that place.
    pub place_facts: PlaceFacts,
    /// The reinforcer, in words.
    pub reinforcer_name: String,
    /// What it is worth to this dog, 1–5.
    pub reinforcer_rank: Option<i16>,
    /// Minutes of cool-down; 0 when none is asked for.
    pub cool_down_minutes: i16,
    /// How to cool down.
    pub cool_down_way: String,
    /// Usual cautions.
    pub caution: String,
    /// Where the exercise comes from.
    pub source: String,
    /// The trainer's note on this item.
    pub note: String,
}

impl PlanItem {
    /// Whether the exercise has no harder step.
    pub fn is_last_step(&self) -> bool {
        self.step_position.is_some_and(|position| position >= self.steps_total)
    }
}

/// A row of `plan_item`, or of a draft read as one.
#[derive(Deserialize)]
pub(in crate::store) struct ItemRow {
    pub id: uuid::Uuid,
    pub plan_version_id: uuid::Uuid,
    pub dog_id: uuid::Uuid,
    pub line_id: uuid::Uuid,
    pub position: i16,
    pub kind: String,
    pub step_id: Option<uuid::Uuid>,
    pub step_position: Option<i16>,
    pub steps_total: i16,
    pub name: String,
    pub owner_why: String,
    pub criterion: String,
    pub set_up: String,
    pub delivery: String,
    pub equipment_note: String,
    pub step_name: String,
    pub distance: String,
    pub duration: String,
    pub distraction: Option<i16>,
    pub energy: String,
    pub impact: bool,
    pub class: String,
    pub outcome: String,
    pub line: String,
    pub clip: Option<String>,
    pub line_metres: Option<i16>,
    pub attempts: Option<i16>,
    pub times_a_week: Option<i16>,
    pub minutes: Option<i16>,
    pub place_id: Option<uuid::Uuid>,
    pub place_name: String,
    pub place_distraction: Option<i16>,
    pub place_secure: Option<bool>,
    pub place_near_road: Option<bool>,
    pub place_road_metres: Option<i16>,
    pub off_lead_allowed: Option<bool>,
    pub reinforcer_name: String,
    pub reinforcer_rank: Option<i16>,
    pub cool_down_minutes: i16,
    pub cool_down_way: String,
    pub caution: String,
    pub source: String,
    pub note: String,
}

impl TryFrom<ItemRow> for PlanItem {
    type Error = sqlx::Error;

    fn try_from(row: ItemRow) -> Result<Self> {
        Ok(Self {
            id: row.id.into(),
            version: row.plan_version_id.into(),
            dog: row.dog_id.into(),
            line_id: row.line_id.into(),
            position: row.position,
            kind: word(&row.kind)?,
            step: row.step_id.map(Into::into),
            step_position: row.step_position,
            steps_total: row.steps_total,
            name: row.name,
            owner_why: row.owner_why,
            criterion: row.criterion,
            set_up: row.set_up,
            delivery: row.delivery,
            equipment_note: row.equipment_note,
            step_name: row.step_name,
            distance: row.distance,
            duration: row.duration,
            distraction: row.distraction,
            energy: word(&row.energy)?,
            impact: row.impact,
            class: word(&row.class)?,
            outcome: word(&row.outcome)?,
            line: word(&row.line)?,
            clip: word_or_none(row.clip.as_deref())?,
            line_metres: row.line_metres,
            attempts: row.attempts,
            times_a_week: row.times_a_week,
            minutes: row.minutes,
            place: row.place_id.map(Into::into),
            place_name: row.place_name,
            place_distraction: row.place_distraction,
            place_facts: PlaceFacts {
                secure: row.place_secure,
                near_road: row.place_near_road,
                road_metres: row.place_road_metres,
                off_lead_allowed: row.off_lead_allowed,
            },
            reinforcer_name: row.reinforcer_name,
            reinforcer_rank: row.reinforcer_rank,
            cool_down_minutes: row.cool_down_minutes,
            cool_down_way: row.cool_down_way,
            caution: row.caution,
            source: row.source,
            note: row.note,
        })
    }
}

impl From<&PlanItem> for PlannedItem {
    fn from(item: &PlanItem) -> Self {
        Self {
            energy: Some(item.energy),
            impact: Some(item.impact),
            line_id: Some(item.line_id),
            class: Some(item.class),
            outcome: Some(item.outcome),
            step_position: item.step_position,
            distance: item.distance.clone(),
            duration: item.duration.clone(),
            distraction: item.distraction,
            words: [&item.set_up, &item.equipment_note, &item.note].map(String::as_str).join("\n"),
            line: Some(item.line),
            clip: item.clip,
            line_metres: item.line_metres,
            attempts: item.attempts,
            minutes: item.minutes,
            times_a_week: item.times_a_week,
            cool_down_minutes: Some(item.cool_down_minutes),
            place: stated(&item.place_name),
            place_distraction: item.place_distraction,
            place_facts: item.place_facts,
            reinforcer: stated(&item.reinforcer_name),
            reinforcer_rank: item.reinforcer_rank,
            ..Self::new(item.name.clone(), item.kind)
        }
    }
}

fn stated(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| text.to_owned())
}

/// What the rules read of a plan, in the owner's order.
pub fn facts(items: &[PlanItem]) -> PlanFacts {
    PlanFacts { items: items.iter().map(PlannedItem::from).collect() }
}

/// A published plan: a version and its items, in order.
#[derive(Debug, Clone)]
pub struct Plan {
    /// The version.
    pub version: PlanVersion,
    /// Its items.
    pub items: Vec<PlanItem>,
}

/// Versions; `$tail` says which.
macro_rules! versions {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            PlanVersion,
            "select v.id, v.number, v.note, m.name as by, v.published_at, v.despite_stop
             from plan_version v
             join membership m on m.practice_id = v.practice_id and m.id = v.published_by
             where v.practice_id = $1 "
                + $tail
            $(, $bind)*
        )
    };
}

/// Items; `$tail` says which.
macro_rules! items {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            ItemRow,
            "select id, plan_version_id, dog_id, line_id, position, kind, step_id, step_position, steps_total, name,
                owner_why, criterion, set_up, delivery, equipment_note, step_name, distance, duration, distraction,
                energy, impact, class, outcome, line, clip, line_metres, attempts, times_a_week, minutes, place_id,
                place_name, place_distraction, place_secure, place_near_road, place_road_metres,
                exists (select 1 from off_lead_permission o where o.practice_id = plan_item.practice_id
                  and o.dog_id = plan_item.dog_id and o.place_id = plan_item.place_id and o.lapsed_at is null)
                  as off_lead_allowed,
                reinforcer_name, reinforcer_rank, cool_down_minutes, cool_down_way, caution, source, note
             from plan_item where practice_id = $1 "
                + $tail
            $(, $bind)*
        )
        .each()
    };
}

/// The dog's newest published version.
pub fn current(dog: DogId) -> Reading<Option<PlanVersion>> {
    versions!("and v.dog_id = $2 order by v.number desc limit 1", dog.0).first()
}

/// The same with its items.
pub fn newest(dog: DogId) -> Reading<Option<Plan>> {
    let items: Reading<Vec<PlanItem>> = items!(
        "and plan_version_id = (select v.id from plan_version v where v.practice_id = $1 and v.dog_id = $2
           order by v.number desc limit 1) order by position, id",
        dog.0
    );
    (current(dog), items)
        .together()
        .then(|(version, items)| Ok(version.map(|version| Plan { version, items })))
}

/// All versions of a dog, newest first.
pub fn versions(dog: DogId) -> Reading<Vec<PlanVersion>> {
    versions!("and v.dog_id = $2 order by v.number desc limit 200", dog.0)
}

/// The items of a version, in order.
pub fn items(version: PlanVersionId) -> Reading<Vec<PlanItem>> {
    items!("and plan_version_id = $2 order by position, id", version.0)
}

/// One item, of any version: logs against an old version are always accepted.
pub fn item(dog: DogId, id: PlanItemId) -> Reading<Option<PlanItem>> {
    let found: Reading<Vec<PlanItem>> = items!("and dog_id = $2 and id = $3", dog.0, id.0);
    found.first()
}
