//! What changed about a dog since a day: its sittings by exercise, and the flags that were raised or answered.

use serde::Deserialize;
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::domain::vocabulary::{FlagState, Severity};
use crate::domain::welfare::{self, Rule};
use crate::ids::{DogId, FlagId};
use crate::store::Result;
use crate::store::reading::{Reading, reading};
use crate::store::word::word;

/// The sittings of one exercise, or of all of them.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct Practised {
    /// The exercise; `None` for all of them together.
    pub exercise: Option<String>,
    /// How many sittings.
    #[serde(rename = "sittings!")]
    pub sittings: i64,
    /// On how many days.
    #[serde(rename = "days!")]
    pub days: i64,
    /// Attempts that were counted.
    #[serde(rename = "attempts!")]
    pub attempts: i64,
    /// How many of them met the criterion.
    #[serde(rename = "met!")]
    pub met: i64,
}

/// The sittings after a day: all together first, then exercise by exercise, the most practised first.
pub fn practised(dog: DogId, after: Date) -> Reading<Vec<Practised>> {
    reading!(
        Practised,
        r#"select case when grouping(l.line_id) = 0 then max(i.name) end as exercise, count(*) as "sittings!",
             count(distinct l.local_date) as "days!", coalesce(sum(l.attempts), 0)::bigint as "attempts!",
             coalesce(sum(l.met) filter (where l.attempts is not null), 0)::bigint as "met!"
           from practice_log l
           join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
           where l.practice_id = $1 and l.dog_id = $2 and l.local_date > $3 and l.deleted_at is null
           group by grouping sets ((), (l.line_id))
           order by grouping(l.line_id) desc, 2 desc, 1"#,
        dog.0,
        after
    )
}

/// A flag that was raised or answered.
#[derive(Debug, Clone)]
pub struct Raised {
    /// The flag.
    pub id: FlagId,
    /// Its rule.
    pub rule: &'static Rule,
    /// How grave it is.
    pub severity: Severity,
    /// What was seen.
    pub seen: String,
    /// Where it stands.
    pub state: FlagState,
    /// What a trainer answered; empty where nobody has.
    pub answer: String,
}

#[derive(Deserialize)]
struct Row {
    id: Uuid,
    rule: String,
    severity: String,
    seen: String,
    state: String,
    answer: String,
}

impl TryFrom<Row> for Raised {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            id: row.id.into(),
            rule: welfare::rule(&row.rule).ok_or_else(|| sqlx::Error::Decode(row.rule.into()))?,
            severity: word(&row.severity)?,
            seen: row.seen,
            state: word(&row.state)?,
            answer: row.answer,
        })
    }
}

/// The flags that were raised, or answered, after an instant, the newest first, at most `most`; those that were withdrawn are left out.
pub fn raised(dog: DogId, after: OffsetDateTime, most: i64) -> Reading<Vec<Raised>> {
    reading!(
        Row,
        "select id, rule, severity, seen, state, answer from welfare_flag
         where practice_id = $1 and dog_id = $2 and (raised_at > $3 or answered_at > $3) and state <> 'withdrawn'
         order by raised_at desc, id desc limit $4",
        dog.0,
        after,
        most
    )
    .each()
}
