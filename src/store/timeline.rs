//! Everything that happened with a dog, in the order of time: one statement over every kind, each with a limit of its own.

use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::domain::vocabulary::{TimelineKind, Word};
use crate::ids::DogId;
use crate::store::{Result, Tx};

/// What a row of the timeline is. The numbers are those of the statement, and part of the addresses of older pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Happened {
    /// A sitting.
    Sitting,
    /// Something that happened in life.
    Encounter,
    /// A rule raised something.
    Raised,
    /// Somebody answered it.
    Answered,
    /// A decision about a step.
    Decided,
    /// A plan was published.
    Published,
    /// A lesson was kept.
    Lesson,
    /// A message.
    Message,
    /// A weighing.
    Weight,
    /// Something that went on in its life.
    Life,
    /// How near the goal felt.
    Goal,
    /// Another phase.
    Phase,
}

impl Happened {
    const ALL: [Self; 12] = [
        Self::Sitting,
        Self::Encounter,
        Self::Raised,
        Self::Answered,
        Self::Decided,
        Self::Published,
        Self::Lesson,
        Self::Message,
        Self::Weight,
        Self::Life,
        Self::Goal,
        Self::Phase,
    ];
}

/// Where a row stands in the order: before this one, the timeline goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// When; what is known by its day alone stands at its noon.
    pub at: OffsetDateTime,
    /// Its id; a weighing's is its dog's.
    pub id: Uuid,
    /// Its number among the kinds.
    pub arm: i16,
}

/// One row.
#[derive(Debug, Clone)]
pub struct Row {
    /// What it is.
    pub happened: Happened,
    /// Where it stands.
    pub place: Place,
    /// The day that it is of, where that is not the day of its instant.
    pub on: Option<Date>,
    /// What, in a stored word or a name.
    pub what: String,
    /// What was written of it.
    pub said: String,
    /// A word or figure more.
    pub more: String,
    /// Who, where somebody did it.
    pub by: Option<String>,
}

/// The newest `most` rows of a dog before a place, of one kind or of all.
pub async fn of_dog(
    tx: &mut Tx,
    dog: DogId,
    before: Option<Place>,
    kind: Option<TimelineKind>,
    most: i64,
) -> Result<Vec<Row>> {
    let practice = tx.practice();
    let end = Date::MAX.midnight().assume_utc();
    let place = before.unwrap_or(Place { at: end, id: Uuid::max(), arm: i16::MAX });
    let rows = sqlx::query!(
        r#"select t.arm as "arm!", t.at as "at!", t.id as "id!", t.on_day, t.what as "what!", left(t.said, 400) as "said!",
             t.more as "more!", m.name as "by?"
           from (
             (select 1::smallint as arm, l.started_at as at, l.id, l.local_date as on_day, i.name as what, l.note as said,
                case when l.met is not null and l.attempts is not null then l.met || ' of ' || l.attempts || ' met' else '' end as more,
                l.by_membership_id as by_id
              from practice_log l join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
              where l.practice_id = $1 and l.dog_id = $2 and l.deleted_at is null and ($7::text is null or $7 = 'sittings')
                and l.started_at <= $3 and (l.started_at, l.id, 1::smallint) < ($3, $4, $5)
              order by l.started_at desc, l.id desc limit $6)
             union all
             (select 2::smallint, e.happened_at, e.id, e.local_date, e.kind, e.note, e.what, e.by_membership_id
              from encounter e
              where e.practice_id = $1 and e.dog_id = $2 and e.deleted_at is null and ($7::text is null or $7 = 'encounters')
                and e.happened_at <= $3 and (e.happened_at, e.id, 2::smallint) < ($3, $4, $5)
              order by e.happened_at desc, e.id desc limit $6)
             union all
             (select 3::smallint, f.raised_at, f.id, f.local_date, f.rule, f.seen, f.severity, null::uuid
              from welfare_flag f
              where f.practice_id = $1 and f.dog_id = $2 and f.state <> 'withdrawn' and ($7::text is null or $7 = 'welfare')
                and f.raised_at <= $3 and (f.raised_at, f.id, 3::smallint) < ($3, $4, $5)
              order by f.raised_at desc, f.id desc limit $6)
             union all
             (select 4::smallint, f.answered_at, f.id, null::date, f.rule, f.answer, f.severity, f.answered_by
              from welfare_flag f
              where f.practice_id = $1 and f.dog_id = $2 and f.answered_at is not null and ($7::text is null or $7 = 'welfare')
                and f.answered_at <= $3 and (f.answered_at, f.id, 4::smallint) < ($3, $4, $5)
              order by f.answered_at desc, f.id desc limit $6)
             union all
             (select 5::smallint, c.decided_at, c.id, null::date, x.name, c.note, c.choice, c.decided_by
              from decision c
              join step s on s.practice_id = c.practice_id and s.id = c.step_id
              join exercise x on x.practice_id = s.practice_id and x.id = s.exercise_id
              where c.practice_id = $1 and c.dog_id = $2 and ($7::text is null or $7 = 'decisions')
                and c.decided_at <= $3 and (c.decided_at, c.id, 5::smallint) < ($3, $4, $5)
              order by c.decided_at desc, c.id desc limit $6)
             union all
             (select 6::smallint, v.published_at, v.id, null::date, v.number::text, v.note, '', v.published_by
              from plan_version v
              where v.practice_id = $1 and v.dog_id = $2 and ($7::text is null or $7 = 'plans')
                and v.published_at <= $3 and (v.published_at, v.id, 6::smallint) < ($3, $4, $5)
              order by v.published_at desc, v.id desc limit $6)
             union all
             (select 7::smallint, k.kept_at, k.id, k.held_on, '', k.summary, k.private_note, k.kept_by
              from lesson k
              where k.practice_id = $1 and k.dog_id = $2 and ($7::text is null or $7 = 'lessons')
                and k.kept_at <= $3 and (k.kept_at, k.id, 7::smallint) < ($3, $4, $5)
              order by k.kept_at desc, k.id desc limit $6)
             union all
             (select 8::smallint, g.sent_at, g.id, null::date, '', g.body, '', g.by_membership_id
              from message g
              where g.practice_id = $1 and g.dog_id = $2 and ($7::text is null or $7 = 'messages')
                and g.sent_at <= $3 and (g.sent_at, g.id, 8::smallint) < ($3, $4, $5)
              order by g.sent_at desc, g.id desc limit $6)
             union all
             (select 9::smallint, (w.weighed_on + time '12:00') at time zone 'UTC', w.dog_id, w.weighed_on, w.kg::text, '', '', null::uuid
              from dog_weight w
              where w.practice_id = $1 and w.dog_id = $2 and ($7::text is null or $7 = 'weights')
                and ((w.weighed_on + time '12:00') at time zone 'UTC', w.dog_id, 9::smallint) < ($3, $4, $5)
              order by w.weighed_on desc limit $6)
             union all
             (select 10::smallint, (e.from_on + time '12:00') at time zone 'UTC', e.id, e.from_on, e.kind, e.note,
                coalesce(e.to_on::text, ''), e.told_by
              from life_event e
              where e.practice_id = $1 and e.dog_id = $2 and e.removed_at is null and ($7::text is null or $7 = 'life')
                and ((e.from_on + time '12:00') at time zone 'UTC', e.id, 10::smallint) < ($3, $4, $5)
              order by e.from_on desc, e.id desc limit $6)
             union all
             (select 11::smallint, r.at, r.id, r.local_date, r.nearness::text, r.note, coalesce(r.confidence::text, ''), r.by_membership_id
              from goal_reading r
              where r.practice_id = $1 and r.dog_id = $2 and ($7::text is null or $7 = 'goal')
                and r.at <= $3 and (r.at, r.id, 11::smallint) < ($3, $4, $5)
              order by r.at desc, r.id desc limit $6)
             union all
             (select 12::smallint, a.at, a.id, null::date, a.detail, '', '', a.by_membership_id
              from audit_event a
              where a.practice_id = $1 and a.object_id = $2 and a.action = 'set_phase' and ($7::text is null or $7 = 'phases')
                and a.at <= $3 and (a.at, a.id, 12::smallint) < ($3, $4, $5)
              order by a.at desc, a.id desc limit $6)
           ) t
           left join membership m on m.practice_id = $1 and m.id = t.by_id
           order by t.at desc, t.id desc, t.arm desc limit $6"#,
        practice.0,
        dog.0,
        place.at,
        place.id,
        place.arm,
        most,
        kind.map(Word::stored)
    )
    .fetch_all(tx.conn())
    .await?;
    let rows = rows.into_iter().map(|row| {
        let happened = usize::try_from(row.arm - 1).ok().and_then(|n| Happened::ALL.get(n).copied());
        let happened = happened.ok_or_else(|| sqlx::Error::Decode("an arm without a name".into()))?;
        let place = Place { at: row.at, id: row.id, arm: row.arm };
        let (what, said, more) = (row.what, row.said, row.more);
        Ok(Row { happened, place, on: row.on_day, what, said, more, by: row.by })
    });
    rows.collect()
}
