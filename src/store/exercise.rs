//! The practice's library: exercises, standing arrangements and owner's skills.

use std::collections::HashSet;

use time::OffsetDateTime;

use crate::domain::vocabulary::{Clip, Energy, ItemKind, Line, Outcome, SkillClass, Word};
use crate::ids::ExerciseId;
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// One entry of the library.
#[derive(Debug, Clone)]
pub struct Exercise {
    /// Its id.
    pub id: ExerciseId,
    /// Which kind of plan line it makes.
    pub kind: ItemKind,
    /// What it is called; once in a practice.
    pub name: String,
    /// What the trainer uses it for.
    pub purpose: String,
    /// Why it is worth the owner's time.
    pub owner_why: String,
    /// What earns the marker; for an arrangement, what "kept" looks like.
    pub criterion: String,
    /// What to have ready and where to stand.
    pub set_up: String,
    /// How to do it and how the reinforcer arrives.
    pub delivery: String,
    /// What is worn and held, in words.
    pub equipment_note: String,
    /// What joins dog and handler.
    pub line: Line,
    /// Where the line is clipped; `None` where there is no line or it is not stated.
    pub clip: Option<Clip>,
    /// How much it winds a dog up.
    pub energy: Energy,
    /// Whether it means running or impact.
    pub impact: bool,
    /// How sure to be before moving on.
    pub class: SkillClass,
    /// What a sitting yields.
    pub outcome: Outcome,
    /// Minutes of cool-down; 0 after calm work.
    pub cool_down_minutes: i16,
    /// How to cool down.
    pub cool_down_way: String,
    /// Attempts usually asked for in one sitting.
    pub usual_attempts: i16,
    /// Sittings usually asked for in a week.
    pub usual_times_a_week: i16,
    /// When to stop, and when to ask somebody.
    pub caution: String,
    /// A published source, or "common practice".
    pub source: String,
    /// When it was put away; `None` while it is offered for plans.
    pub archived_at: Option<OffsetDateTime>,
}

/// Which entries a list shows.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// Words that name, purpose, criterion or equipment hold, each of them somewhere; empty for all.
    pub search: String,
    /// Only what is done on this line.
    pub line: Option<Line>,
    /// Only what begins, on its first step, in a place as distracting as this, 1–5.
    pub level: Option<i16>,
    /// Only this kind.
    pub kind: Option<ItemKind>,
    /// The archived ones instead of the offered ones.
    pub archived: bool,
}

struct Row {
    id: uuid::Uuid,
    kind: String,
    name: String,
    purpose: String,
    owner_why: String,
    criterion: String,
    set_up: String,
    delivery: String,
    equipment_note: String,
    line: String,
    clip: Option<String>,
    energy: String,
    impact: bool,
    class: String,
    outcome: String,
    cool_down_minutes: i16,
    cool_down_way: String,
    usual_attempts: i16,
    usual_times_a_week: i16,
    caution: String,
    source: String,
    archived_at: Option<OffsetDateTime>,
}

impl TryFrom<Row> for Exercise {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            id: row.id.into(),
            kind: word(&row.kind)?,
            name: row.name,
            purpose: row.purpose,
            owner_why: row.owner_why,
            criterion: row.criterion,
            set_up: row.set_up,
            delivery: row.delivery,
            equipment_note: row.equipment_note,
            line: word(&row.line)?,
            clip: word_or_none(row.clip.as_deref())?,
            energy: word(&row.energy)?,
            impact: row.impact,
            class: word(&row.class)?,
            outcome: word(&row.outcome)?,
            cool_down_minutes: row.cool_down_minutes,
            cool_down_way: row.cool_down_way,
            usual_attempts: row.usual_attempts,
            usual_times_a_week: row.usual_times_a_week,
            caution: row.caution,
            source: row.source,
            archived_at: row.archived_at,
        })
    }
}

/// The entries wanted, by name; at most 500.
pub async fn list(tx: &mut Tx, wanted: &Wanted) -> Result<Vec<Exercise>> {
    let practice = tx.practice();
    let words: Vec<String> = wanted.search.split_whitespace().map(str::to_owned).collect();
    let rows = sqlx::query_as!(
        Row,
        "select id, kind, name, purpose, owner_why, criterion, set_up, delivery, equipment_note, line, clip, energy,
                impact, class, outcome, cool_down_minutes, cool_down_way, usual_attempts, usual_times_a_week, caution,
                source, archived_at
         from exercise
         where practice_id = $1 and (archived_at is not null) = $2 and ($3::text is null or kind = $3)
           and not exists (select from unnest($4::text[]) as said (word)
                           where strpos(lower(concat_ws(' ', name, purpose, criterion, equipment_note)), lower(word)) = 0)
           and ($5::text is null or line = $5)
           and ($6::smallint is null or exists (select from step s where s.practice_id = $1 and s.exercise_id = exercise.id
                                                  and s.position = 1 and s.distraction = $6))
         order by lower(name), id
         limit 500",
        practice.0,
        wanted.archived,
        wanted.kind.map(Word::stored),
        &words,
        wanted.line.map(Word::stored),
        wanted.level
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(Exercise::try_from).collect()
}

/// Every entry that is offered for plans, by name.
pub async fn offered(tx: &mut Tx) -> Result<Vec<Exercise>> {
    let practice = tx.practice();
    let rows = sqlx::query_as!(
        Row,
        "select id, kind, name, purpose, owner_why, criterion, set_up, delivery, equipment_note, line, clip, energy,
                impact, class, outcome, cool_down_minutes, cool_down_way, usual_attempts, usual_times_a_week, caution,
                source, archived_at
         from exercise where practice_id = $1 and archived_at is null order by lower(name), id",
        practice.0
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(Exercise::try_from).collect()
}

/// The names of all entries, offered or archived.
pub async fn names(tx: &mut Tx) -> Result<HashSet<String>> {
    let practice = tx.practice();
    let rows = sqlx::query_scalar!("select name from exercise where practice_id = $1", practice.0)
        .fetch_all(tx.conn())
        .await?;
    Ok(rows.into_iter().collect())
}

/// One entry, offered or archived.
pub async fn find(tx: &mut Tx, id: ExerciseId) -> Result<Option<Exercise>> {
    let practice = tx.practice();
    let row = sqlx::query_as!(
        Row,
        "select id, kind, name, purpose, owner_why, criterion, set_up, delivery, equipment_note, line, clip, energy,
                impact, class, outcome, cool_down_minutes, cool_down_way, usual_attempts, usual_times_a_week, caution,
                source, archived_at
         from exercise where practice_id = $1 and id = $2",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    row.map(Exercise::try_from).transpose()
}

/// The entry of this name that is offered, whatever the case of its letters; an archived one is none.
pub async fn named(tx: &mut Tx, name: &str) -> Result<Option<ExerciseId>> {
    let practice = tx.practice();
    let id = sqlx::query_scalar!(
        "select id from exercise where practice_id = $1 and lower(name) = lower($2) and archived_at is null",
        practice.0,
        name
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(id.map(Into::into))
}

/// Whether an entry of this name was put away.
pub async fn is_archived(tx: &mut Tx, name: &str) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from exercise where practice_id = $1 and lower(name) = lower($2)
             and archived_at is not null) as "archived!""#,
        practice.0,
        name
    )
    .fetch_one(tx.conn())
    .await
}

/// Adds an entry.
pub async fn add(tx: &mut Tx, exercise: &Exercise) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into exercise (practice_id, id, kind, name, purpose, owner_why, criterion, set_up, delivery,
                equipment_note, line, clip, energy, impact, class, outcome, cool_down_minutes, cool_down_way,
                usual_attempts, usual_times_a_week, caution, source)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21, $22)",
        practice.0,
        exercise.id.0,
        exercise.kind.stored(),
        exercise.name,
        exercise.purpose,
        exercise.owner_why,
        exercise.criterion,
        exercise.set_up,
        exercise.delivery,
        exercise.equipment_note,
        exercise.line.stored(),
        exercise.clip.map(Word::stored),
        exercise.energy.stored(),
        exercise.impact,
        exercise.class.stored(),
        exercise.outcome.stored(),
        exercise.cool_down_minutes,
        exercise.cool_down_way,
        exercise.usual_attempts,
        exercise.usual_times_a_week,
        exercise.caution,
        exercise.source
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes everything about an entry but whether it is archived.
pub async fn edit(tx: &mut Tx, exercise: &Exercise) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update exercise set kind = $3, name = $4, purpose = $5, owner_why = $6, criterion = $7, set_up = $8,
                delivery = $9, equipment_note = $10, line = $11, clip = $12, energy = $13, impact = $14, class = $15,
                outcome = $16, cool_down_minutes = $17, cool_down_way = $18, usual_attempts = $19,
                usual_times_a_week = $20, caution = $21, source = $22
         where practice_id = $1 and id = $2",
        practice.0,
        exercise.id.0,
        exercise.kind.stored(),
        exercise.name,
        exercise.purpose,
        exercise.owner_why,
        exercise.criterion,
        exercise.set_up,
        exercise.delivery,
        exercise.equipment_note,
        exercise.line.stored(),
        exercise.clip.map(Word::stored),
        exercise.energy.stored(),
        exercise.impact,
        exercise.class.stored(),
        exercise.outcome.stored(),
        exercise.cool_down_minutes,
        exercise.cool_down_way,
        exercise.usual_attempts,
        exercise.usual_times_a_week,
        exercise.caution,
        exercise.source
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Puts an entry away, or (with `None`) offers it again. Plans that hold it are not touched.
pub async fn set_archived(tx: &mut Tx, id: ExerciseId, at: Option<OffsetDateTime>) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update exercise set archived_at = $3 where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
