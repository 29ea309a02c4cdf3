//! Building a dog's rows anew from the facts: for repair, and to prove that keeping them up gives the same.

use super::flags_changed;
use crate::ids::DogId;
use crate::store::{Result, Tx};

/// Builds a dog's row and its days anew, all but what its streams of sittings say. The row must be locked. The day of
/// publication stays as it was kept then, even where the household has moved to another zone since.
pub async fn rebuild(tx: &mut Tx, dog: DogId) -> Result<()> {
    logs_and_messages(tx, dog).await?;
    plan(tx, dog).await?;
    trouble(tx, dog).await?;
    days(tx, dog).await?;
    flags_changed(tx, dog).await
}

async fn logs_and_messages(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary s set logs = l.logs, last_log_at = l.last_at, last_log_on = l.last_on,
           answered_to = r.answered_to, last_owner_message_at = g.owner_at,
           last_owner_message = coalesce(left(g.owner_body, 160), '')
         from (select count(*)::int as logs, max(started_at) as last_at, max(local_date) as last_on
               from practice_log where practice_id = $1 and dog_id = $2 and deleted_at is null) l,
              (select max(r.read_to) as answered_to from message_read r
               join membership m on m.practice_id = r.practice_id and m.id = r.membership_id and m.role in ('lead', 'trainer')
               where r.practice_id = $1 and r.dog_id = $2) r,
              (select max(sent_at) as owner_at, (array_agg(body order by sent_at desc, id desc))[1] as owner_body
               from message where practice_id = $1 and dog_id = $2 and not from_trainer) g
         where s.practice_id = $1 and s.dog_id = $2",
        practice.0,
        dog.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

async fn plan(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary s set plan_version_id = v.id,
           plan_published_on = coalesce(case when s.plan_version_id = v.id then s.plan_published_on end,
             (v.published_at at time zone h.zone)::date),
           planned_items = coalesce(i.items, 0), planned_times_a_week = coalesce(i.times, 0)
         from dog d join household h on h.practice_id = d.practice_id and h.id = d.household_id
         left join lateral (select id, published_at from plan_version
              where practice_id = $1 and dog_id = $2 order by number desc limit 1) v on true
         left join lateral (select count(*)::int as items, coalesce(sum(times_a_week), 0)::int as times from plan_item
              where practice_id = $1 and plan_version_id = v.id and kind = 'exercise') i on true
         where d.practice_id = $1 and d.id = $2 and s.practice_id = $1 and s.dog_id = $2",
        practice.0,
        dog.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// A flag that was answered stands, also where the log it is about was removed afterwards; one that was withdrawn does not.
async fn trouble(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary s set last_trouble_at = t.trouble_at, last_bite_at = t.bite_at
         from (select max(coalesce(l.started_at, e.happened_at)) as trouble_at,
                      max(coalesce(l.started_at, e.happened_at)) filter (where f.rule = 'bite') as bite_at
               from welfare_flag f
               left join practice_log l on f.subject_kind = 'practice_log' and l.practice_id = f.practice_id
                 and l.id = f.subject_id
               left join encounter e on f.subject_kind = 'encounter' and e.practice_id = f.practice_id and e.id = f.subject_id
               where f.practice_id = $1 and f.dog_id = $2 and f.state <> 'withdrawn'
                 and (f.severity = 'stop' or f.rule in ('bite', 'bolted', 'not_coping'))) t
         where s.practice_id = $1 and s.dog_id = $2",
        practice.0,
        dog.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

async fn days(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!("delete from dog_day where practice_id = $1 and dog_id = $2", practice.0, dog.0)
        .execute(tx.conn())
        .await?;
    sqlx::query!(
        "insert into dog_day (practice_id, dog_id, local_date, sittings, severity)
         select $1, $2, local_date, coalesce(l.sittings, 0), f.severity
         from (select log.local_date, count(*)::int as sittings from practice_log log
               join plan_item i on i.practice_id = log.practice_id and i.id = log.plan_item_id and i.kind = 'exercise'
               where log.practice_id = $1 and log.dog_id = $2 and log.deleted_at is null group by log.local_date) l
         full join (select local_date, (array['notice', 'caution', 'stop'])[
                      max(array_position(array['notice', 'caution', 'stop'], severity))] as severity
               from welfare_flag where practice_id = $1 and dog_id = $2 and state <> 'withdrawn' group by local_date) f using (local_date)",
        practice.0,
        dog.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
