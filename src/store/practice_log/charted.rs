//! A dog's sittings as its charts read them: fewer columns than a log has, and what each was paid with.

use crate::domain::charts::Charted;
use crate::domain::food::earned::Paid;
use crate::domain::sitting::{Planned, Sitting};
use crate::ids::DogId;
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// The last sittings of a dog, oldest first, at most `most` of them. A reinforcer's energy and weight are those that stand now.
pub async fn charted(tx: &mut Tx, dog: DogId, most: i64) -> Result<Vec<Charted>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select l.id, l.line_id, l.step_id, l.started_at, l.local_date, l.trainer_seen, l.place_distraction, l.busy, l.minutes,
             l.attempts, l.met, l.rewarded, l.outcome_value, l.arousal_before, l.arousal_end, l.took_food, l.looked, l.recovery,
             l.cool_down_minutes, l.bolted, l.bite, v.number as plan, i.kind = 'exercise' as "is_exercise!", i.name, i.step_name,
             i.criterion, i.outcome, i.class, i.step_position, i.place_distraction as planned_distraction,
             i.cool_down_minutes as planned_cool_down, coalesce(r.what, nullif(i.reinforcer_name, '')) as what,
             r.grams_per_piece as "grams_per_piece?", r.kcal_per_g as "kcal_per_g?", coalesce(r.is_toy, false) as "is_toy!",
             r.from_meals as "from_meals?"
           from practice_log l
           join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
           join plan_version v on v.practice_id = i.practice_id and v.id = i.plan_version_id
           left join reinforcer r on r.practice_id = i.practice_id and r.id = i.reinforcer_id
           where l.practice_id = $1 and l.dog_id = $2 and l.deleted_at is null
           order by l.started_at desc, l.id desc limit $3"#,
        practice.0,
        dog.0,
        most
    )
    .fetch_all(tx.conn())
    .await?;
    let sittings = rows.into_iter().rev().map(|row| {
        let sitting = Sitting {
            started_at: Some(row.started_at),
            plan_line: Some(row.line_id.into()),
            step: row.step_id.map(Into::into),
            exercise: Some(row.name),
            class: Some(word(&row.class)?),
            outcome: Some(word(&row.outcome)?),
            planned: Planned {
                cool_down_minutes: Some(row.planned_cool_down),
                distraction: row.planned_distraction,
                step_position: row.step_position,
                ..Planned::default()
            },
            place_distraction: row.place_distraction,
            busy: word_or_none(row.busy.as_deref())?,
            minutes: row.minutes,
            attempts: row.attempts,
            met: row.met,
            rewarded: row.rewarded,
            arousal_before: row.arousal_before,
            arousal_end: row.arousal_end,
            took_food: word_or_none(row.took_food.as_deref())?,
            looked: word_or_none(row.looked.as_deref())?,
            recovery: word_or_none(row.recovery.as_deref())?,
            cool_down_minutes: row.cool_down_minutes,
            bolted: row.bolted,
            bite: row.bite,
            trainer_seen: row.trainer_seen,
            ..Sitting::on(row.local_date)
        };
        let paid = Paid {
            what: row.what,
            pieces: row.rewarded.or(row.met).map(i64::from),
            grams_per_piece: row.grams_per_piece,
            kcal_per_g: row.kcal_per_g,
            is_toy: row.is_toy,
            from_meals: row.from_meals,
        };
        Ok(Charted {
            id: row.id.into(),
            plan: row.plan,
            is_exercise: row.is_exercise,
            criterion: row.criterion,
            step_name: row.step_name,
            value: row.outcome_value,
            paid,
            sitting,
        })
    });
    sittings.collect()
}
