//! Welfare flags: what a rule found. A flag is answered by a person, never deleted.

use serde::Deserialize;
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::domain::duty::due;
use crate::domain::vocabulary::{FlagState, LookedAgain, Severity, Word};
use crate::domain::welfare::{Finding, Rule, rule};
use crate::ids::{DogId, FlagId, LineId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

mod again;

pub use again::{move_to, outdated, restate, withdraw};

/// What a flag is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// A practice log.
    PracticeLog(Uuid),
    /// An encounter.
    Encounter(Uuid),
}

impl Subject {
    fn parts(self) -> (&'static str, Uuid) {
        match self {
            Self::PracticeLog(id) => ("practice_log", id),
            Self::Encounter(id) => ("encounter", id),
        }
    }
}

/// A flag as it is kept.
#[derive(Debug, Clone)]
pub struct Flag {
    /// Its id.
    pub id: FlagId,
    /// The dog.
    pub dog: DogId,
    /// The rule that raised it, as the catalogue has it now.
    pub rule: &'static Rule,
    /// The version of the rule that spoke last.
    pub rule_version: i16,
    /// How bad it is.
    pub severity: Severity,
    /// What was seen, in a trainer's words.
    pub seen: String,
    /// What was seen, in an owner's words.
    pub owner_seen: String,
    /// The facts that raised it: (label, value).
    pub facts: Vec<(String, String)>,
    /// What it is about.
    pub subject: Subject,
    /// The instruction that was practised, where it is about a sitting.
    pub line: Option<LineId>,
    /// When it was raised.
    pub raised_at: OffsetDateTime,
    /// The day it is about.
    pub local_date: Date,
    /// Where it stands.
    pub state: FlagState,
    /// Who answered it.
    pub answered_by: Option<String>,
    /// When.
    pub answered_at: Option<OffsetDateTime>,
    /// What was done.
    pub answer: String,
    /// Whether it rests what it is about: it is open, or its answer keeps the rest until the next plan.
    pub rests: bool,
    /// Why and when it was looked at again since it was raised, and was changed by that.
    pub looked_again: Option<(LookedAgain, OffsetDateTime)>,
}

/// What one rule found about one dog, once or again and again: shown as one and answered as one.
#[derive(Debug, Clone)]
pub struct Found {
    /// The one that is read first: the gravest, and of those the newest.
    pub first: Flag,
    /// The others, in the same order.
    pub again: Vec<Flag>,
}

impl Found {
    /// Puts flags of one rule together; the groups keep the order of the flags that they are read by.
    pub fn by_rule(flags: impl IntoIterator<Item = Flag>) -> Vec<Self> {
        let mut found: Vec<Self> = Vec::new();
        for flag in flags {
            match found.iter_mut().find(|other| other.first.rule.id == flag.rule.id) {
                Some(other) => other.again.push(flag),
                None => found.push(Self { first: flag, again: Vec::new() }),
            }
        }
        found
    }

    /// All of them, in the order in which they are read.
    pub fn all(&self) -> impl Iterator<Item = &Flag> {
        std::iter::once(&self.first).chain(&self.again)
    }

    /// How often it was raised.
    pub fn times(&self) -> usize {
        1 + self.again.len()
    }

    /// By when somebody answers them; `None` for what can wait.
    pub fn due(&self) -> Option<OffsetDateTime> {
        self.all().filter_map(|flag| due(Some(flag.rule), flag.severity, flag.raised_at)).min()
    }

    /// The day that the earliest of them is about.
    pub fn since(&self) -> Date {
        self.all().map(|flag| flag.local_date).min().unwrap_or(self.first.local_date)
    }
}

#[derive(Deserialize)]
struct Row {
    id: Uuid,
    dog_id: Uuid,
    rule: String,
    rule_version: i16,
    severity: String,
    seen: String,
    owner_seen: String,
    #[serde(rename = "facts: sqlx::types::Json<Vec<(String, String)>>")]
    facts: sqlx::types::Json<Vec<(String, String)>>,
    subject_kind: String,
    subject_id: Uuid,
    line_id: Option<Uuid>,
    #[serde(with = "time::serde::rfc3339")]
    raised_at: OffsetDateTime,
    #[serde(with = "day")]
    local_date: Date,
    state: String,
    #[serde(rename = "answered_by?")]
    answered_by: Option<String>,
    #[serde(with = "time::serde::rfc3339::option")]
    answered_at: Option<OffsetDateTime>,
    answer: String,
    #[serde(rename = "rests!")]
    rests: bool,
    looked_again: Option<String>,
    #[serde(with = "time::serde::rfc3339::option")]
    looked_again_at: Option<OffsetDateTime>,
}

impl TryFrom<Row> for Flag {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        let rule = rule(&row.rule)
            .ok_or_else(|| sqlx::Error::Decode(format!("no rule {:?} in the catalogue", row.rule).into()))?;
        let subject = Subject::of(&row.subject_kind, row.subject_id);
        let looked_again = word_or_none(row.looked_again.as_deref())?;
        Ok(Self {
            id: row.id.into(),
            dog: row.dog_id.into(),
            rule,
            rule_version: row.rule_version,
            severity: word(&row.severity)?,
            seen: row.seen,
            owner_seen: row.owner_seen,
            facts: row.facts.0,
            subject,
            line: row.line_id.map(Into::into),
            raised_at: row.raised_at,
            local_date: row.local_date,
            state: word(&row.state)?,
            answered_by: row.answered_by,
            answered_at: row.answered_at,
            answer: row.answer,
            rests: row.rests,
            looked_again: looked_again.zip(row.looked_again_at),
        })
    }
}

/// Where a finding belongs.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// The dog.
    pub dog: DogId,
    /// What it is about.
    pub subject: Subject,
    /// The instruction that was practised.
    pub line: Option<LineId>,
    /// The day it is about.
    pub local_date: Date,
    /// Now.
    pub now: OffsetDateTime,
}

/// The facts of a finding, as they are kept.
fn facts_of(finding: &Finding) -> sqlx::types::Json<Vec<(String, String)>> {
    sqlx::types::Json(finding.facts.iter().map(|f| (f.label.to_owned(), f.value.clone())).collect())
}

/// Raises a flag. The same rule on the same subject is never raised twice; an answered one opens again only when it
/// is graver than before.
pub async fn raise(tx: &mut Tx, id: FlagId, finding: &Finding, place: &Place) -> Result<()> {
    let practice = tx.practice();
    let (kind, subject) = place.subject.parts();
    sqlx::query!(
        "insert into welfare_flag (practice_id, id, dog_id, rule, rule_version, severity, seen, owner_seen, facts,
           subject_kind, subject_id, line_id, raised_at, local_date)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)
         on conflict on constraint welfare_flag_once do update
           set severity = excluded.severity, seen = excluded.seen, owner_seen = excluded.owner_seen,
               facts = excluded.facts, rule_version = excluded.rule_version, state = 'open',
               answered_by = null, answered_at = null, keeps_resting = false, raised_at = excluded.raised_at
           where array_position(array['notice', 'caution', 'stop'], excluded.severity)
               > array_position(array['notice', 'caution', 'stop'], welfare_flag.severity)",
        practice.0,
        id.0,
        place.dog.0,
        finding.rule.id,
        finding.rule.stored_version(),
        finding.severity.stored(),
        finding.seen,
        finding.owner_seen,
        facts_of(finding) as _,
        kind,
        subject,
        place.line.map(|l| l.0),
        place.now,
        place.local_date
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Which flags of a dog are wanted.
#[derive(Debug, Clone, Copy)]
pub enum Wanted {
    /// Those that nobody has answered.
    Open,
    /// Those that rest exercises, as far as they rest any: the open ones, and those whose answer keeps the rest until the next plan.
    Resting,
    /// Those, and those that somebody answered after an instant: what a household is told of.
    Standing(OffsetDateTime),
    /// Those that somebody has answered, or that were withdrawn: the newest, at most 200.
    Settled,
    /// Those about one log or encounter.
    About(Uuid),
    /// This one.
    One(FlagId),
}

/// The flags of a dog that are wanted, open ones first, the gravest and newest first as the catalogue ranks them.
pub fn of_dog(dog: DogId, wanted: Wanted) -> Reading<Vec<Flag>> {
    let (mut open, mut subject, mut one, mut answered_after) = (None, None, None, None);
    let resting = matches!(wanted, Wanted::Resting | Wanted::Standing(_));
    match wanted {
        Wanted::Open => open = Some(true),
        Wanted::Resting => {}
        Wanted::Standing(after) => answered_after = Some(after),
        Wanted::Settled => open = Some(false),
        Wanted::About(id) => subject = Some(id),
        Wanted::One(id) => one = Some(id.0),
    }
    let flags = reading!(
        Row,
        r#"select f.id, f.dog_id, f.rule, f.rule_version, f.looked_again, f.looked_again_at, f.severity, f.seen, f.owner_seen,
             f.facts as "facts: sqlx::types::Json<Vec<(String, String)>>", f.subject_kind, f.subject_id, f.line_id,
             f.raised_at, f.local_date, f.state, m.name as "answered_by?", f.answered_at, f.answer, r.rests as "rests!"
           from welfare_flag f
           cross join lateral (select f.state = 'open' or f.state = 'answered' and f.keeps_resting and not exists (
             select from plan_version v where v.practice_id = $1 and v.dog_id = $2 and v.published_at > f.answered_at) as rests) r
           left join membership m on m.practice_id = f.practice_id and m.id = f.answered_by
           where f.practice_id = $1 and f.dog_id = $2
             and ($3::bool is null or (f.state = 'open') = $3) and ($4::uuid is null or f.subject_id = $4) and ($5::uuid is null or f.id = $5)
             and (not $6 or r.rests or f.state = 'answered' and f.answered_at > $7)
           order by f.raised_at desc, f.id desc
           limit case when $3 is false then 200 end"#,
        dog.0,
        open,
        subject,
        one,
        resting,
        answered_after
    );
    flags.each::<Flag>().then(|mut flags| {
        // the sort is stable: those alike stay with the newest first
        flags.sort_by_key(|flag| {
            (flag.state != FlagState::Open, std::cmp::Reverse(flag.rule.gravity(flag.severity)))
        });
        Ok(flags)
    })
}

/// What the household, or whoever logged it, wrote where a flag was found; empty where nothing.
pub async fn note_of(tx: &mut Tx, flag: &Flag) -> Result<String> {
    let practice = tx.practice();
    let (_, subject) = flag.subject.parts();
    let note = sqlx::query_scalar!(
        r#"select note as "note!" from (
             select note from practice_log where practice_id = $1 and id = $2
             union all select concat_ws(': ', nullif(what, ''), nullif(note, '')) from encounter where practice_id = $1 and id = $2
           ) told limit 1"#,
        practice.0,
        subject
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(note.unwrap_or_default())
}

/// What is open on a dog: the flag that is read first, and by when the first answer is due.
pub async fn standing(tx: &mut Tx, dog: DogId) -> Result<(Option<FlagId>, Option<OffsetDateTime>)> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select id, rule, severity, raised_at from welfare_flag where practice_id = $1 and dog_id = $2 and state = 'open'
         order by raised_at desc, id desc",
        practice.0,
        dog.0
    )
    .fetch_all(tx.conn())
    .await?;
    let (mut top, mut first_due) = (None, None);
    for row in rows {
        let severity = word::<Severity>(&row.severity)?;
        let rule = rule(&row.rule);
        let gravity = rule.map(|rule| rule.gravity(severity));
        if top.is_none_or(|(most, _)| gravity > most) {
            top = Some((gravity, row.id));
        }
        let due = due(rule, severity, row.raised_at);
        first_due = first_due.into_iter().chain(due).min();
    }
    Ok((top.map(|(_, id)| id.into()), first_due))
}

/// The dog of a flag: to be checked against what the asker may see.
pub async fn dog_of(tx: &mut Tx, id: FlagId) -> Result<Option<DogId>> {
    let practice = tx.practice();
    let dog = sqlx::query_scalar!(
        "select dog_id from welfare_flag where practice_id = $1 and id = $2",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(dog.map(Into::into))
}

/// Answers an open flag, and those of the same rule and dog among `with` that are still open; gives those answered, none
/// where the flag itself was not open. `keeps_resting`: what rests goes on resting until the next plan.
pub async fn answer(
    tx: &mut Tx,
    id: FlagId,
    with: &[FlagId],
    (by, what, keeps_resting): (MembershipId, &str, bool),
    now: OffsetDateTime,
) -> Result<Vec<FlagId>> {
    let practice = tx.practice();
    let with: Vec<Uuid> = with.iter().map(|id| id.0).collect();
    let answered = sqlx::query_scalar!(
        "update welfare_flag f set state = 'answered', answered_by = $3, answered_at = $4, answer = $5, keeps_resting = $7
         from welfare_flag asked
         where f.practice_id = $1 and f.state = 'open' and (f.id = $2 or f.id = any($6))
           and asked.practice_id = $1 and asked.id = $2 and asked.state = 'open'
           and f.dog_id = asked.dog_id and f.rule = asked.rule
         returning f.id",
        practice.0,
        id.0,
        by.0,
        now,
        what,
        &with,
        keeps_resting
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(answered.into_iter().map(Into::into).collect())
}

/// Whether this person answered a flag in these words, and kept what rests resting or not.
pub async fn is_answered_by(
    tx: &mut Tx,
    id: FlagId,
    by: MembershipId,
    (what, keeps_resting): (&str, bool),
) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from welfare_flag
             where practice_id = $1 and id = $2 and state = 'answered' and answered_by = $3 and answer = $4
               and keeps_resting = $5) as "so!""#,
        practice.0,
        id.0,
        by.0,
        what,
        keeps_resting
    )
    .fetch_one(tx.conn())
    .await
}
