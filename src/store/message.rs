//! Messages about a dog, between its household and its trainers.

use std::fmt;
use std::str::FromStr;

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, EncounterId, FlagId, MembershipId, MessageId, PlanVersionId, PracticeLogId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// The one thing that a message is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// A sitting.
    Log(PracticeLogId),
    /// Something that happened.
    Encounter(EncounterId),
    /// A published plan.
    Plan(PlanVersionId),
    /// What a rule found.
    Flag(FlagId),
}

impl About {
    fn id(self) -> Uuid {
        match self {
            Self::Log(id) => id.0,
            Self::Encounter(id) => id.0,
            Self::Plan(id) => id.0,
            Self::Flag(id) => id.0,
        }
    }

    /// Ids of the four columns.
    fn columns(self) -> [Option<Uuid>; 4] {
        let of = |is: bool| is.then_some(self.id());
        [
            of(matches!(self, Self::Log(_))),
            of(matches!(self, Self::Encounter(_))),
            of(matches!(self, Self::Plan(_))),
            of(matches!(self, Self::Flag(_))),
        ]
    }

    fn of([log, encounter, plan, flag]: [Option<Uuid>; 4]) -> Option<Self> {
        let log = log.map(|id| Self::Log(id.into()));
        let encounter = encounter.map(|id| Self::Encounter(id.into()));
        log.or(encounter)
            .or_else(|| plan.map(|id| Self::Plan(id.into())))
            .or_else(|| flag.map(|id| Self::Flag(id.into())))
    }
}

impl fmt::Display for About {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Log(id) => write!(f, "log-{id}"),
            Self::Encounter(id) => write!(f, "encounter-{id}"),
            Self::Plan(id) => write!(f, "plan-{id}"),
            Self::Flag(id) => write!(f, "flag-{id}"),
        }
    }
}

impl FromStr for About {
    type Err = ();

    fn from_str(text: &str) -> std::result::Result<Self, ()> {
        let (kind, id) = text.split_once('-').ok_or(())?;
        let id: Uuid = id.parse().map_err(drop)?;
        match kind {
            "log" => Ok(Self::Log(id.into())),
            "encounter" => Ok(Self::Encounter(id.into())),
            "plan" => Ok(Self::Plan(id.into())),
            "flag" => Ok(Self::Flag(id.into())),
            _ => Err(()),
        }
    }
}

/// What is known of a thing that a message is about.
#[derive(Debug, Clone)]
pub struct Subject {
    /// Which.
    pub about: About,
    /// When it was.
    pub at: OffsetDateTime,
    /// The exercise, the stored kind of an encounter, the number of a plan, the rule of a flag.
    pub what: String,
    /// The sitting or encounter that a flag was raised at.
    pub raised_at: Option<About>,
}

/// A message.
#[derive(Debug, Clone)]
pub struct Message {
    /// Its id.
    pub id: MessageId,
    /// Who wrote it.
    pub by: MembershipId,
    /// Their name.
    pub name: String,
    /// Whether a trainer wrote it.
    pub from_trainer: bool,
    /// What it says.
    pub body: String,
    /// When it was sent.
    pub sent_at: OffsetDateTime,
    /// What it is about.
    pub about: Option<About>,
}

/// A message to be sent.
#[derive(Debug, Clone, Copy)]
pub struct NewMessage<'a> {
    /// Its id, made where it was typed.
    pub id: MessageId,
    /// The dog.
    pub dog: DogId,
    /// Who writes.
    pub by: MembershipId,
    /// Whether a trainer does.
    pub from_trainer: bool,
    /// What it says.
    pub body: &'a str,
    /// What it is about: something of this dog.
    pub about: Option<About>,
}

/// Sends a message; gives when it stands as sent, or `None` if its id is known already. The dog's summary must be
/// locked: every message stands after those before it, so that what was read up to one leaves none out.
pub async fn add(tx: &mut Tx, new: &NewMessage<'_>, now: OffsetDateTime) -> Result<Option<OffsetDateTime>> {
    let practice = tx.practice();
    let [log, encounter, plan, flag] = new.about.map(About::columns).unwrap_or_default();
    sqlx::query_scalar!(
        "insert into message (practice_id, id, dog_id, by_membership_id, from_trainer, body, sent_at,
           about_log_id, about_encounter_id, about_plan_version_id, about_flag_id)
         values ($1, $2, $3, $4, $5, $6, greatest($7, (select max(sent_at) + interval '1 microsecond' from message
           where practice_id = $1 and dog_id = $3)), $8, $9, $10, $11)
         on conflict (practice_id, id) do nothing
         returning sent_at",
        practice.0,
        new.id.0,
        new.dog.0,
        new.by.0,
        new.from_trainer,
        new.body,
        now,
        log,
        encounter,
        plan,
        flag
    )
    .fetch_optional(tx.conn())
    .await
}

/// Whether the message with this id, whichever dog it is about, says this about this dog and is by this member.
pub async fn is_same(tx: &mut Tx, new: &NewMessage<'_>) -> Result<bool> {
    let practice = tx.practice();
    let [log, encounter, plan, flag] = new.about.map(About::columns).unwrap_or_default();
    sqlx::query_scalar!(
        r#"select exists (select 1 from message
             where practice_id = $1 and id = $2 and dog_id = $3 and by_membership_id = $4 and body = $5
               and (about_log_id, about_encounter_id, about_plan_version_id, about_flag_id)
                 is not distinct from ($6::uuid, $7::uuid, $8::uuid, $9::uuid)) as "same!""#,
        practice.0,
        new.id.0,
        new.dog.0,
        new.by.0,
        new.body,
        log,
        encounter,
        plan,
        flag
    )
    .fetch_one(tx.conn())
    .await
}

/// What is known of things of a dog that messages are about; things of other dogs are left out.
pub async fn subjects(tx: &mut Tx, dog: DogId, abouts: &[About]) -> Result<Vec<Subject>> {
    if abouts.is_empty() {
        return Ok(Vec::new());
    }
    let practice = tx.practice();
    let ids: Vec<Uuid> = abouts.iter().map(|about| about.id()).collect();
    let rows = sqlx::query!(
        r#"select l.id as log, null::uuid as encounter, null::uuid as plan, null::uuid as flag, l.started_at as "at!", i.name as "what!",
             null::uuid as at_log, null::uuid as at_encounter
           from practice_log l join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
           where l.practice_id = $1 and l.dog_id = $2 and l.id = any($3)
           union all
           select null, e.id, null, null, e.happened_at, e.kind, null, null
           from encounter e where e.practice_id = $1 and e.dog_id = $2 and e.id = any($3)
           union all
           select null, null, v.id, null, v.published_at, v.number::text, null, null
           from plan_version v where v.practice_id = $1 and v.dog_id = $2 and v.id = any($3)
           union all
           select null, null, null, f.id, f.raised_at, f.rule, case f.subject_kind when 'practice_log' then f.subject_id end,
             case f.subject_kind when 'encounter' then f.subject_id end
           from welfare_flag f where f.practice_id = $1 and f.dog_id = $2 and f.id = any($3)"#,
        practice.0,
        dog.0,
        &ids
    )
    .fetch_all(tx.conn())
    .await?;
    let subjects = rows.into_iter().filter_map(|row| {
        let about = About::of([row.log, row.encounter, row.plan, row.flag])?;
        let raised_at = About::of([row.at_log, row.at_encounter, None, None]);
        Some(Subject { about, at: row.at, what: row.what, raised_at })
    });
    Ok(subjects.filter(|subject| abouts.contains(&subject.about)).collect())
}

/// What is known of one thing, where it is of this dog.
pub async fn subject(tx: &mut Tx, dog: DogId, about: About) -> Result<Option<Subject>> {
    Ok(subjects(tx, dog, &[about]).await?.pop())
}

/// When a message about a dog was sent.
pub async fn sent_at(tx: &mut Tx, dog: DogId, id: MessageId) -> Result<Option<OffsetDateTime>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select sent_at from message where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await
}

/// Who wrote a message about a dog.
pub async fn writer(tx: &mut Tx, dog: DogId, id: MessageId) -> Result<Option<MembershipId>> {
    let practice = tx.practice();
    let by = sqlx::query_scalar!(
        "select by_membership_id from message where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(by.map(Into::into))
}

/// The last messages about a dog before one of them, oldest first, at most `most`.
pub async fn of_dog(
    tx: &mut Tx,
    dog: DogId,
    before: Option<(OffsetDateTime, MessageId)>,
    most: i64,
) -> Result<Vec<Message>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select g.id, g.by_membership_id, m.name, g.from_trainer, g.body, g.sent_at, g.about_log_id, g.about_encounter_id,
           g.about_plan_version_id, g.about_flag_id
         from message g
         join membership m on m.practice_id = g.practice_id and m.id = g.by_membership_id
         where g.practice_id = $1 and g.dog_id = $2
           and ($4::timestamptz is null or (g.sent_at, g.id) < ($4, $5))
         order by g.sent_at desc, g.id desc limit $3",
        practice.0,
        dog.0,
        most,
        before.map(|(at, _)| at),
        before.map(|(_, id)| id.0)
    )
    .fetch_all(tx.conn())
    .await?;
    let messages = rows.into_iter().rev().map(|row| Message {
        id: row.id.into(),
        by: row.by_membership_id.into(),
        name: row.name,
        from_trainer: row.from_trainer,
        body: row.body,
        sent_at: row.sent_at,
        about: About::of([
            row.about_log_id,
            row.about_encounter_id,
            row.about_plan_version_id,
            row.about_flag_id,
        ]),
    });
    Ok(messages.collect())
}

/// Notes that a member has read everything about a dog up to an instant.
pub async fn mark_read(tx: &mut Tx, dog: DogId, member: MembershipId, to: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into message_read (practice_id, dog_id, membership_id, read_to) values ($1, $2, $3, $4)
         on conflict (practice_id, dog_id, membership_id) do update set read_to = greatest(message_read.read_to, excluded.read_to)",
        practice.0,
        dog.0,
        member.0,
        to
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

#[derive(Deserialize)]
struct Unread {
    #[serde(rename = "unread!")]
    unread: i64,
}

/// How many messages of trainers an owner has not read, over their own dogs.
pub fn unread_by_owner(owner: MembershipId) -> Reading<i64> {
    reading!(
        Unread,
        r#"select count(*) as "unread!" from household_member h
           join dog d on d.practice_id = h.practice_id and d.household_id = h.household_id
           join message g on g.practice_id = d.practice_id and g.dog_id = d.id and g.from_trainer
           left join message_read r on r.practice_id = g.practice_id and r.dog_id = g.dog_id and r.membership_id = $2
           where h.practice_id = $1 and h.membership_id = $2 and (r.read_to is null or g.sent_at > r.read_to)"#,
        owner.0
    )
    .only()
    .then(|row| Ok(row.unread))
}

#[derive(Deserialize)]
struct Read {
    #[serde(with = "time::serde::rfc3339")]
    read_to: OffsetDateTime,
}

/// Up to when a member has read the messages about a dog.
pub fn read_to(dog: DogId, member: MembershipId) -> Reading<Option<OffsetDateTime>> {
    reading!(
        Read,
        "select read_to from message_read where practice_id = $1 and dog_id = $2 and membership_id = $3",
        dog.0,
        member.0
    )
    .first()
    .then(|row| Ok(row.map(|row| row.read_to)))
}
