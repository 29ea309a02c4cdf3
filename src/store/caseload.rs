//! The caseload's rows: one a dog, from the summaries, with the item that waits where a decision does.

use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::domain::caseload::{DogState, review_due_on};
use crate::domain::life::{OPEN_ENDED, Rest, rest_on, went_on_after};
use crate::domain::vocabulary::{LifeKind, Phase, Severity, Word};
use crate::ids::{DogId, FlagId, MembershipId, PlanItemId};
use crate::store::word::{all_words, word};
use crate::store::{Result, Tx};

/// Days for which a rest that is over is looked back on: silence that began before it is long enough by then.
const BACK: i32 = 60;

/// The most dogs that one caseload shows.
pub const MOST: i64 = 400;

/// Which dogs are wanted.
#[derive(Debug, Clone, Default)]
pub struct Filter {
    /// Only those of this trainer.
    pub trainer: Option<MembershipId>,
    /// And those of others where an answer was due by this instant: for whoever is on duty.
    pub due_by: Option<OffsetDateTime>,
    /// Only these, where somebody searched.
    pub found: Option<Vec<DogId>>,
    /// Only those in this phase.
    pub phase: Option<Phase>,
    /// Those that were put away. They are among the others as well while a stop, a question or "I am not coping" waits.
    pub archived: bool,
    /// The day around which it is read what lets the work rest, wherever a dog lives; `None` where that does not matter.
    pub today: Option<Date>,
}

/// One dog of the caseload.
#[derive(Debug, Clone)]
pub struct CaseloadRow {
    /// The dog.
    pub dog: DogId,
    /// Its name.
    pub name: String,
    /// Its breed.
    pub breed: String,
    /// When it was born.
    pub born: Option<Date>,
    /// Its household's name.
    pub household: String,
    /// Its household's zone.
    pub zone: String,
    /// Its trainer's name.
    pub trainer: String,
    /// Where it stands.
    pub phase: Phase,
    /// By when somebody answers what is open, where it cannot wait.
    pub answer_due: Option<OffsetDateTime>,
    /// When its lessons are, of those about today.
    pub lessons_at: Vec<OffsetDateTime>,
    /// Whether exercises rest until the next plan, as an answer said.
    pub rests_until_plan: bool,
    /// When it came to its trainer, and from whose hand, where it was handed over.
    pub handed_over: Option<(OffsetDateTime, String)>,
    /// Whom it is entrusted to.
    pub trainer_id: MembershipId,
    /// The gravest open flag: how bad, and what was seen.
    pub top_flag: Option<(Severity, String)>,
    /// Its id.
    pub top_flag_id: Option<FlagId>,
    /// The start of the owner's last message.
    pub last_owner_message: String,
    /// The exercise that waits longest for a decision.
    pub decision_waits_on: String,
    /// Its item of the current plan, to decide on.
    pub decision_item: Option<PlanItemId>,
    /// Sittings that the plan asks for in a week.
    pub planned_times_a_week: i32,
    has_plan: bool,
    plan_published_on: Option<Date>,
    phase_since: Option<OffsetDateTime>,
    last_log_on: Option<Date>,
    open: (i32, i32, i32),
    last_bite_at: Option<OffsetDateTime>,
    last_trouble_at: Option<OffsetDateTime>,
    not_coping_open: bool,
    trouble_besides_on: Option<Date>,
    bite_open: bool,
    trouble_open: bool,
    last_owner_message_at: Option<OffsetDateTime>,
    answered_to: Option<OffsetDateTime>,
    decisions_waiting: i32,
    rests: Vec<Rest>,
}

impl CaseloadRow {
    /// What the caseload's rules read; `day` gives the day that an instant falls on where the dog lives.
    pub fn state(&self, day: impl Fn(OffsetDateTime) -> Date, today: Date) -> DogState {
        let went_on = went_on_after(&self.rests, today);
        let question = self.last_owner_message_at.filter(|at| Some(*at) > self.answered_to);
        DogState {
            dog: self.dog,
            name: self.name.clone(),
            phase: self.phase,
            rest: rest_on(&self.rests, today),
            has_plan: self.has_plan,
            plan_since: self
                .plan_published_on
                .map(|on| self.phase_since.map(&day).map_or(on, |since| on.max(since)))
                .map(|since| went_on.map_or(since, |on| since.max(on))),
            planned_times_a_week: i16::try_from(self.planned_times_a_week).ok().filter(|n| *n > 0),
            review_due_on: review_due_on(self.plan_published_on, self.phase),
            last_log_on: self.last_log_on,
            open_stops: self.open.0,
            open_cautions: self.open.1,
            open_notices: self.open.2,
            last_bite_on: self.last_bite_at.map(&day),
            last_trouble_on: self.last_trouble_at.map(&day),
            not_coping_open: self.not_coping_open,
            trouble_besides_on: self.trouble_besides_on,
            bite_open: self.bite_open,
            trouble_open: self.trouble_open,
            questions_waiting: i32::from(question.is_some()),
            decisions_waiting: self.decisions_waiting,
            waiting_since: question,
        }
    }
}

struct Row {
    id: Uuid,
    name: String,
    breed: String,
    birth_date: Option<Date>,
    household: String,
    zone: String,
    trainer: String,
    trainer_id: Uuid,
    answer_due: Option<OffsetDateTime>,
    lessons_at: Vec<OffsetDateTime>,
    rests_until_plan: bool,
    handed_at: Option<OffsetDateTime>,
    handed_by: Option<String>,
    phase: String,
    severity: Option<String>,
    seen: Option<String>,
    top_flag_id: Option<Uuid>,
    last_owner_message: String,
    planned_times_a_week: i32,
    has_plan: bool,
    plan_published_on: Option<Date>,
    last_log_on: Option<Date>,
    open_stops: i32,
    open_cautions: i32,
    open_notices: i32,
    last_bite_at: Option<OffsetDateTime>,
    last_trouble_at: Option<OffsetDateTime>,
    not_coping_open: bool,
    trouble_besides_on: Option<Date>,
    bite_open: bool,
    trouble_open: bool,
    phase_since: Option<OffsetDateTime>,
    last_owner_message_at: Option<OffsetDateTime>,
    answered_to: Option<OffsetDateTime>,
    decisions_waiting: i32,
    decision_waits_on: String,
    decision_item: Option<Uuid>,
    rest_kinds: Option<Vec<String>>,
    rest_from: Option<Vec<Date>>,
    rest_to: Option<Vec<Option<Date>>>,
}

impl TryFrom<Row> for CaseloadRow {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        let (from, to) = (row.rest_from.unwrap_or_default(), row.rest_to.unwrap_or_default());
        let kinds = all_words::<LifeKind>(&row.rest_kinds.unwrap_or_default())?;
        let rests = kinds.into_iter().zip(from.into_iter().zip(to));
        let flag = row.severity.as_deref().map(word::<Severity>).transpose()?;
        Ok(Self {
            dog: row.id.into(),
            name: row.name,
            breed: row.breed,
            born: row.birth_date,
            household: row.household,
            zone: row.zone,
            trainer: row.trainer,
            trainer_id: row.trainer_id.into(),
            answer_due: row.answer_due,
            lessons_at: row.lessons_at,
            rests_until_plan: row.rests_until_plan,
            handed_over: row.handed_at.zip(row.handed_by),
            phase: word(&row.phase)?,
            top_flag: flag.zip(row.seen),
            top_flag_id: row.top_flag_id.map(Into::into),
            last_owner_message: row.last_owner_message,
            decision_waits_on: row.decision_waits_on,
            decision_item: row.decision_item.map(Into::into),
            planned_times_a_week: row.planned_times_a_week,
            has_plan: row.has_plan,
            plan_published_on: row.plan_published_on,
            phase_since: row.phase_since,
            last_log_on: row.last_log_on,
            open: (row.open_stops, row.open_cautions, row.open_notices),
            last_bite_at: row.last_bite_at,
            last_trouble_at: row.last_trouble_at,
            not_coping_open: row.not_coping_open,
            trouble_besides_on: row.trouble_besides_on,
            bite_open: row.bite_open,
            trouble_open: row.trouble_open,
            last_owner_message_at: row.last_owner_message_at,
            answered_to: row.answered_to,
            decisions_waiting: row.decisions_waiting,
            rests: rests.filter_map(|(kind, (from, to))| Rest::of(kind, from, to)).collect(),
        })
    }
}

/// The rows of the caseload, unordered. Where there are more than it shows, those that need nothing are left out.
pub async fn rows(tx: &mut Tx, filter: &Filter) -> Result<Vec<CaseloadRow>> {
    let practice = tx.practice();
    let found: Option<Vec<Uuid>> = filter.found.as_ref().map(|dogs| dogs.iter().map(|dog| dog.0).collect());
    let rows = sqlx::query_as!(
        Row,
        r#"select d.id, d.name, d.breed, d.birth_date, h.name as household, h.zone, t.name as trainer, d.trainer_id, s.answer_due, d.phase,
             array(select a.starts_at from appointment a where a.practice_id = d.practice_id and a.dog_id = d.id
                and a.state = 'planned' and a.starts_at >= $7::date - 1 and a.starts_at < $7::date + 3 order by a.starts_at) as "lessons_at!",
             exists (select from welfare_flag k where k.practice_id = d.practice_id and k.dog_id = d.id and k.state = 'answered'
               and k.keeps_resting and not exists (select from plan_version v where v.practice_id = d.practice_id
                 and v.dog_id = d.id and v.published_at > k.answered_at)) as "rests_until_plan!",
             handed.at as "handed_at?", handed.name as "handed_by?",
             f.severity as "severity?", f.seen as "seen?", s.top_flag_id, s.last_owner_message, s.planned_times_a_week,
             s.plan_version_id is not null as "has_plan!", s.plan_published_on, s.last_log_on, s.open_stops,
             s.open_cautions, s.open_notices, s.last_bite_at, s.last_trouble_at, s.not_coping_open, s.bite_open,
             s.trouble_open, d.phase_since,
             case when s.not_coping_open then
               (select max(o.local_date) from welfare_flag o
                where o.practice_id = s.practice_id and o.dog_id = s.dog_id and o.state = 'open' and o.rule <> 'not_coping'
                  and (o.severity = 'stop' or o.rule in ('bolted', 'second_incident', 'growl_at_child'))) end
               as trouble_besides_on,
             s.last_owner_message_at, s.answered_to, s.decisions_waiting,
             s.decision_waits_on,
             case when s.decisions_waiting > 0 then
               (select i.id from readiness r
                join plan_item i on i.practice_id = r.practice_id and i.plan_version_id = s.plan_version_id
                  and i.line_id = r.line_id and i.step_id = r.step_id
                where r.practice_id = s.practice_id and r.dog_id = s.dog_id and r.waiting
                order by r.last_started_at, r.line_id limit 1) end as decision_item,
             rest.kinds as "rest_kinds?", rest.first_days as "rest_from?", rest.last_days as "rest_to?: Vec<Option<Date>>"
           from dog d
           join dog_summary s on s.practice_id = d.practice_id and s.dog_id = d.id
           join household h on h.practice_id = d.practice_id and h.id = d.household_id
           join membership t on t.practice_id = d.practice_id and t.id = d.trainer_id
           left join welfare_flag f on f.practice_id = s.practice_id and f.id = s.top_flag_id
           left join lateral (
             select array_agg(e.kind order by e.from_on, e.id) as kinds, array_agg(e.from_on order by e.from_on, e.id) as first_days,
               array_agg(e.to_on order by e.from_on, e.id) as last_days
             from life_event e
             where e.practice_id = d.practice_id and e.dog_id = d.id and e.removed_at is null
               and e.kind in ('season', 'illness', 'holiday') and e.from_on <= $7::date + 1
               and coalesce(e.to_on, e.from_on + $8::int - 1) >= $7::date - $9::int) rest on true
           left join lateral (
             select h.at, m.name from hand_over h
             join membership m on m.practice_id = h.practice_id and m.id = h.by_membership_id
             where h.practice_id = d.practice_id and h.dog_id = d.id and h.to_membership_id = d.trainer_id
             order by h.at desc, h.id desc limit 1) handed on true
           where d.practice_id = $1
             and ($2::uuid is null or d.trainer_id = $2 or s.answer_due <= $10)
             and ($3::uuid[] is null or d.id = any($3))
             and ($4::text is null or d.phase = $4)
             and case when $6 then d.archived_at is not null
                 else d.archived_at is null or s.open_stops > 0 or s.not_coping_open
                   or s.last_owner_message_at > coalesce(s.answered_to, '-infinity') end
           order by s.open_stops desc, s.not_coping_open desc, s.open_cautions desc, s.decisions_waiting desc,
             d.phase in ('settling_in', 'active') desc, s.last_trouble_at desc nulls last,
             s.last_owner_message_at desc nulls last, d.id
           limit $5"#,
        practice.0,
        filter.trainer.map(|t| t.0),
        found.as_deref(),
        filter.phase.map(Word::stored),
        MOST,
        filter.archived,
        filter.today,
        OPEN_ENDED as i32,
        BACK,
        filter.due_by
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(CaseloadRow::try_from).collect()
}

/// Every dog's name, household and breed, to be searched by.
pub async fn names(tx: &mut Tx) -> Result<Vec<(DogId, [String; 3])>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select d.id, d.name, h.name as household, d.breed from dog d
         join household h on h.practice_id = d.practice_id and h.id = d.household_id
         where d.practice_id = $1",
        practice.0
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(rows.into_iter().map(|r| (r.id.into(), [r.name, r.household, r.breed])).collect())
}

/// One dog's day with something in it.
#[derive(Debug, Clone, Copy)]
pub struct DayMark {
    /// The dog.
    pub dog: DogId,
    /// The day.
    pub on: Date,
    /// Sittings on it.
    pub sittings: i32,
    /// The gravest thing found on it.
    pub severity: Option<Severity>,
}

/// The marked days of every dog since a day.
pub async fn days(tx: &mut Tx, since: Date) -> Result<Vec<DayMark>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select dog_id, local_date, sittings, severity from dog_day where practice_id = $1 and local_date >= $2",
        practice.0,
        since
    )
    .fetch_all(tx.conn())
    .await?;
    let marks = rows.into_iter().map(|r| DayMark {
        dog: r.dog_id.into(),
        on: r.local_date,
        sittings: r.sittings,
        severity: r.severity.as_deref().and_then(Severity::from_stored),
    });
    Ok(marks.collect())
}
