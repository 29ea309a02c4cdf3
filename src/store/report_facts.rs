//! What a report may say, read in a fixed number of statements whatever was logged.
//!
//! No column that is for trainers alone is read here but by [`notes_for_trainers`], which is asked for by a hand-over only, and only
//! where a trainer wants it: `lesson.private_note`, `household.note`, `dog.history`, `decision.note`, `intake_triage.reason`,
//! `plan_version.despite_stop`.

use std::collections::HashMap;

use time::Date;
use uuid::Uuid;

use crate::domain::report::{
    About, ConsentSaid, Decided, Facts, LineFacts, Met, Note, OnPlan, Period, PlaceSaid, PlanSaid, Practised,
    Raised, SeenInPractice, Step, StepCounts, Teller, Told, Waiting,
};
use crate::domain::vocabulary::{ItemKind, Outcome, Role};
use crate::domain::welfare::rule;
use crate::store::dog::Dog;
use crate::store::plan::{self, PlanItem};
use crate::store::word::{all_words, word, word_or_none};
use crate::store::{
    Result, Tx, consent, dog_summary, dog_weight, goal_reading, intake, membership, off_lead_permission,
    place, reinforcer, trigger,
};

/// Weighings that are read.
const WEIGHINGS: i64 = 100;
/// Encounters and sittings that are read, the newest.
const MOST: i64 = 400;

/// Everything that a report about a dog may say of a time. `with_notes` adds what is for trainers alone.
pub async fn find(tx: &mut Tx, dog: &Dog, period: Period, with_notes: bool) -> Result<Facts> {
    let owners = membership::of_household(dog.household).read(tx).await?;
    let owners = owners.into_iter().map(|owner| owner.name).collect();
    let version = plan::current(dog.id).read(tx).await?;
    let items = match &version {
        Some(version) => plan::items(version.id).read(tx).await?,
        None => Vec::new(),
    };
    let plan = match version {
        Some(version) => Some(PlanSaid {
            number: version.number,
            on: on(tx, dog, version.published_at).await?,
            items: items.iter().map(on_plan).collect(),
        }),
        None => None,
    };
    let triggers = trigger::of_dog(dog.id).read(tx).await?;
    let reinforcers = reinforcer::of_dog(dog.id).read(tx).await?;
    Ok(Facts {
        dog: about(tx, dog, owners).await?,
        practised: practised(tx, dog, period).await?,
        lines: lines(tx, dog, period).await?,
        decided: decided(tx, dog, period).await?,
        met: met(tx, dog, period).await?,
        seen: seen(tx, dog, period).await?,
        raised: raised(tx, dog, period).await?,
        lessons: lessons(tx, dog, period).await?,
        plan,
        weights: dog_weight::of_dog(dog.id, WEIGHINGS).read(tx).await?,
        // the note is a trainer's own word
        triggers: triggers
            .into_iter()
            .map(|trigger| (trigger.what, if with_notes { trigger.note } else { String::new() }))
            .collect(),
        reinforcers: reinforcers.into_iter().map(|one| (one.what, one.rank)).collect(),
        places: places(tx, dog).await?,
        told: told(tx, dog).await?,
        consent: consented(tx, dog).await?,
        waiting: waiting(tx, dog, &items).await?,
        notes: if with_notes { Some(notes_for_trainers(tx, dog).await?) } else { None },
        period,
    })
}

/// The day that an instant falls on where the dog lives.
async fn on(tx: &mut Tx, dog: &Dog, at: time::OffsetDateTime) -> Result<Date> {
    sqlx::query_scalar!(r#"select ($1::timestamptz at time zone $2::text)::date as "on!""#, at, dog.zone)
        .fetch_one(tx.conn())
        .await
}

async fn about(tx: &mut Tx, dog: &Dog, owners: Vec<String>) -> Result<About> {
    let practice = tx.practice();
    let row = sqlx::query!(
        "select neutered, home_since, tried_before, body_condition, heart_or_breathing, orthopaedic, other_health, medicines,
           allergies, main_food, muzzle, must_not_meet, vet_status, vet_status_on
         from dog where practice_id = $1 and id = $2",
        practice.0,
        dog.id.0
    )
    .fetch_one(tx.conn())
    .await?;
    let nearness = goal_reading::of_dog(dog.id, 1).read(tx).await?.first().map(|reading| reading.nearness);
    Ok(About {
        name: dog.name.clone(),
        breed: dog.breed.clone(),
        born: dog.born,
        sex: dog.sex,
        neutered: row.neutered,
        home_since: row.home_since,
        household: dog.household_name.clone(),
        owners,
        trainer: dog.trainer_name.clone(),
        goal: dog.goal.clone(),
        goal_score: nearness,
        tried_before: row.tried_before,
        body_condition: row.body_condition,
        heart_or_breathing: row.heart_or_breathing,
        orthopaedic: row.orthopaedic,
        other_health: row.other_health,
        medicines: row.medicines,
        allergies: row.allergies,
        main_food: row.main_food,
        muzzle: row.muzzle,
        must_not_meet: row.must_not_meet,
        bite_on_record: dog.bite_on_record,
        vet: word(&row.vet_status)?,
        vet_on: row.vet_status_on,
    })
}

async fn practised(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Practised> {
    let practice = tx.practice();
    sqlx::query_as!(
        Practised,
        r#"select count(distinct l.local_date) as "days!", count(*) as "sittings!",
             coalesce(sum(l.minutes), 0) as "minutes!", count(*) filter (where l.minutes is null) as "without_minutes!",
             count(*) filter (where l.trainer_seen) as "trainer_seen!"
           from practice_log l join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
           where l.practice_id = $1 and l.dog_id = $2 and l.local_date between $3 and $4 and l.deleted_at is null
             and i.kind = 'exercise'"#,
        practice.0,
        dog.id.0,
        period.from,
        period.to
    )
    .fetch_one(tx.conn())
    .await
}

fn rung(position: Option<i16>, total: i16, name: String) -> Option<Step> {
    position.map(|position| Step { position, total, name })
}

/// Each exercise: where it stood in the plans of the period, and what was practised of it.
async fn lines(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Vec<LineFacts>> {
    let practice = tx.practice();
    // the plan in force on the first day, and every later one; the newest first
    let planned = sqlx::query!(
        "select i.line_id, v.number, i.name, i.outcome, i.step_position, i.steps_total, i.step_name
         from plan_version v
         join plan_item i on i.practice_id = v.practice_id and i.plan_version_id = v.id and i.kind = 'exercise'
         where v.practice_id = $1 and v.dog_id = $2 and (v.published_at at time zone $3::text)::date <= $5
           and v.number >= coalesce((select max(b.number) from plan_version b where b.practice_id = $1 and b.dog_id = $2
             and (b.published_at at time zone $3::text)::date <= $4), 0)
         order by v.number desc, i.position",
        practice.0,
        dog.id.0,
        dog.zone,
        period.from,
        period.to
    )
    .fetch_all(tx.conn())
    .await?;
    let mut lines: Vec<LineFacts> = Vec::new();
    let mut known: HashMap<Uuid, usize> = HashMap::new();
    let newest = planned.iter().map(|row| row.number).max();
    let oldest = planned.iter().map(|row| row.number).min();
    for row in planned {
        let step = rung(row.step_position, row.steps_total, row.step_name);
        match known.get(&row.line_id).and_then(|at| lines.get_mut(*at)) {
            Some(line) => {
                line.start = step;
                line.joined = Some(row.number) != oldest;
            }
            None => {
                known.insert(row.line_id, lines.len());
                lines.push(LineFacts {
                    name: row.name,
                    outcome: word(&row.outcome)?,
                    start: step.clone(),
                    end: step,
                    joined: Some(row.number) != oldest,
                    left: Some(row.number) != newest,
                    counts: Vec::new(),
                });
            }
        }
    }
    for (line, name, outcome, counts) in counts(tx, dog, period).await? {
        let at = *known.entry(line).or_insert_with(|| {
            // practised by an older plan, on none of this time
            lines.push(LineFacts {
                name,
                outcome,
                start: None,
                end: None,
                joined: false,
                left: false,
                counts: Vec::new(),
            });
            lines.len() - 1
        });
        if let Some(line) = lines.get_mut(at) {
            line.counts.push(counts);
        }
    }
    Ok(lines)
}

/// What was practised, a row for each instruction and step, in the order of steps.
async fn counts(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Vec<(Uuid, String, Outcome, StepCounts)>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select l.line_id, i.step_position, i.steps_total, i.step_name,
             (array_agg(i.name order by l.started_at desc, l.id))[1] as "name!",
             (array_agg(i.outcome order by l.started_at desc, l.id))[1] as "outcome!",
             count(*) as "sittings!",
             coalesce(sum(l.attempts) filter (where l.met is not null), 0) as "attempts!",
             coalesce(sum(l.met) filter (where l.attempts is not null), 0) as "met!",
             min(l.local_date) filter (where l.outcome_value is not null) as first_on,
             (array_agg(l.outcome_value order by l.started_at, l.id) filter (where l.outcome_value is not null))[1] as first_value,
             max(l.local_date) filter (where l.outcome_value is not null) as last_on,
             (array_agg(l.outcome_value order by l.started_at desc, l.id desc) filter (where l.outcome_value is not null))[1] as last_value
           from practice_log l join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
           where l.practice_id = $1 and l.dog_id = $2 and l.local_date between $3 and $4 and l.deleted_at is null
             and i.kind = 'exercise'
           group by l.line_id, i.step_position, i.steps_total, i.step_name
           order by min(l.started_at), l.line_id"#,
        practice.0,
        dog.id.0,
        period.from,
        period.to
    )
    .fetch_all(tx.conn())
    .await?;
    let counts = rows.into_iter().map(|row| {
        let counts = StepCounts {
            step: rung(row.step_position, row.steps_total, row.step_name),
            sittings: row.sittings,
            attempts: row.attempts,
            met: row.met,
            first: row.first_on.zip(row.first_value),
            last: row.last_on.zip(row.last_value),
        };
        Ok((row.line_id, row.name, word(&row.outcome)?, counts))
    });
    counts.collect()
}

async fn decided(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Vec<Decided>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select (d.decided_at at time zone $3::text)::date as "on!", e.name as exercise, d.choice, m.name as by
           from decision d
           join step s on s.practice_id = d.practice_id and s.id = d.step_id
           join exercise e on e.practice_id = d.practice_id and e.id = s.exercise_id
           join membership m on m.practice_id = d.practice_id and m.id = d.decided_by
           where d.practice_id = $1 and d.dog_id = $2 and (d.decided_at at time zone $3::text)::date between $4 and $5
           order by d.decided_at, d.id limit $6"#,
        practice.0,
        dog.id.0,
        dog.zone,
        period.from,
        period.to,
        MOST
    )
    .fetch_all(tx.conn())
    .await?;
    let decided = rows.into_iter().map(|row| {
        Ok(Decided { on: row.on, exercise: row.exercise, choice: word(&row.choice)?, by: row.by })
    });
    decided.collect()
}

fn told_by(name: String, role: &str) -> Result<Teller> {
    Ok(Teller { name, is_trainer: word::<Role>(role)? != Role::Owner })
}

async fn met(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Vec<Met>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select e.local_date, e.kind, e.what, t.what as \"trigger?\", e.distance_m, e.reaction, e.recovery, e.towards, e.skin_broken,
           e.froze, e.warned, e.place_name, e.note, m.name, m.role
         from encounter e
         join membership m on m.practice_id = e.practice_id and m.id = e.by_membership_id
         left join trigger t on t.practice_id = e.practice_id and t.id = e.trigger_id
         where e.practice_id = $1 and e.dog_id = $2 and e.local_date between $3 and $4 and e.deleted_at is null
         order by e.happened_at desc, e.id desc limit $5",
        practice.0,
        dog.id.0,
        period.from,
        period.to,
        MOST
    )
    .fetch_all(tx.conn())
    .await?;
    let met = rows.into_iter().map(|row| {
        Ok(Met {
            on: row.local_date,
            kind: word(&row.kind)?,
            what: if row.what.is_empty() { row.trigger.unwrap_or_default() } else { row.what },
            metres: row.distance_m,
            reaction: row.reaction,
            recovery: word_or_none(row.recovery.as_deref())?,
            towards: word_or_none(row.towards.as_deref())?,
            skin_broken: row.skin_broken,
            froze: row.froze,
            warned: row.warned,
            place: row.place_name,
            note: row.note,
            by: told_by(row.name, &row.role)?,
        })
    });
    met.collect()
}

async fn seen(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Vec<SeenInPractice>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select l.local_date, i.name as exercise, l.bite, l.bolted, l.health_signs, l.trainer_seen, m.name, m.role
         from practice_log l
         join plan_item i on i.practice_id = l.practice_id and i.id = l.plan_item_id
         join membership m on m.practice_id = l.practice_id and m.id = l.by_membership_id
         where l.practice_id = $1 and l.dog_id = $2 and l.local_date between $3 and $4 and l.deleted_at is null
           and (l.bite or l.bolted or l.health_signs <> '{}')
         order by l.started_at desc, l.id desc limit $5",
        practice.0,
        dog.id.0,
        period.from,
        period.to,
        MOST
    )
    .fetch_all(tx.conn())
    .await?;
    let seen = rows.into_iter().map(|row| {
        Ok(SeenInPractice {
            on: row.local_date,
            exercise: row.exercise,
            bite: row.bite,
            bolted: row.bolted,
            signs: all_words(&row.health_signs)?,
            by: told_by(row.name, &row.role)?,
            trainer_seen: row.trainer_seen,
        })
    });
    seen.collect()
}

async fn raised(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Vec<Raised>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select f.local_date, f.local_date between $3 and $4 as "in_period!", f.rule, f.severity, f.state, f.answer, f.owner_seen,
             coalesce(l.note, e.note, '') as "note!", m.name as "teller?", m.role as "role?"
           from welfare_flag f
           left join practice_log l on l.practice_id = $1 and l.id = f.subject_id and l.deleted_at is null
           left join encounter e on e.practice_id = $1 and e.id = f.subject_id and e.deleted_at is null
           left join membership m on m.practice_id = $1 and m.id = coalesce(l.by_membership_id, e.by_membership_id)
           where f.practice_id = $1 and f.dog_id = $2 and (f.local_date between $3 and $4 or f.state = 'open')
           order by f.local_date, f.raised_at, f.id limit $5"#,
        practice.0,
        dog.id.0,
        period.from,
        period.to,
        MOST
    )
    .fetch_all(tx.conn())
    .await?;
    let raised = rows.into_iter().map(|row| {
        let rule = rule(&row.rule)
            .ok_or_else(|| sqlx::Error::Decode(format!("no rule {:?} in the catalogue", row.rule).into()))?;
        Ok(Raised {
            on: row.local_date,
            in_period: row.in_period,
            title: rule.owner_title,
            severity: word(&row.severity)?,
            state: word(&row.state)?,
            answer: row.answer,
            seen: row.owner_seen,
            told: match row.teller.zip(row.role) {
                Some((name, role)) if !row.note.trim().is_empty() => Some((row.note, told_by(name, &role)?)),
                _ => None,
            },
        })
    });
    raised.collect()
}

async fn lessons(tx: &mut Tx, dog: &Dog, period: Period) -> Result<Vec<Date>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select distinct held_on from lesson where practice_id = $1 and dog_id = $2 and held_on between $3 and $4
         order by held_on",
        practice.0,
        dog.id.0,
        period.from,
        period.to
    )
    .fetch_all(tx.conn())
    .await
}

fn on_plan(item: &PlanItem) -> OnPlan {
    OnPlan {
        name: item.name.clone(),
        is_exercise: item.kind == ItemKind::Exercise,
        criterion: item.criterion.clone(),
        step: rung(item.step_position, item.steps_total, item.step_name.clone()),
        times_a_week: item.times_a_week.filter(|_| item.kind == ItemKind::Exercise),
        attempts: item.attempts.filter(|_| item.kind == ItemKind::Exercise && item.outcome == Outcome::Count),
        minutes: item.minutes.filter(|_| item.kind == ItemKind::Exercise),
        place: item.place_name.clone(),
        reinforcer: item.reinforcer_name.clone(),
        note: item.note.clone(),
    }
}

async fn places(tx: &mut Tx, dog: &Dog) -> Result<Vec<PlaceSaid>> {
    let allowed = off_lead_permission::of_dog(dog.id).read(tx).await?;
    let places = place::of_dog(dog.id).read(tx).await?.into_iter().map(|place| PlaceSaid {
        off_lead: allowed.iter().any(|one| one.place == place.id && one.lapsed_at.is_none()),
        name: place.name,
        distraction: place.distraction,
        secure: place.secure,
        near_road: place.near_road,
    });
    Ok(places.collect())
}

async fn told(tx: &mut Tx, dog: &Dog) -> Result<Option<Told>> {
    let Some(intake) = intake::find(tx, dog.id).await? else { return Ok(None) };
    let Some(sent_at) = intake.sent_at else { return Ok(None) };
    let answers = intake.answers;
    let incidents = answers.teeth().incidents.into_iter().filter(|incident| !incident.is_blank());
    let (tried, health) = (answers.tried(), answers.health());
    Ok(Some(Told {
        on: Some(on(tx, dog, sent_at).await?),
        teeth: incidents.map(|incident| incident.in_words()).collect(),
        tried: tried.what,
        helped: tried.helped,
        medicines: health.medicines,
        health: health.health,
        vet: health.vet,
    }))
}

async fn consented(tx: &mut Tx, dog: &Dog) -> Result<Option<ConsentSaid>> {
    let Some(signed) = consent::latest(tx, dog.id).await? else { return Ok(None) };
    Ok(Some(ConsentSaid {
        on: on(tx, dog, signed.signed_at).await?,
        name: signed.signed_name,
        clauses: signed.ticks.into_iter().map(|tick| (tick.words, tick.agreed)).collect(),
    }))
}

async fn waiting(tx: &mut Tx, dog: &Dog, items: &[PlanItem]) -> Result<Waiting> {
    let practice = tx.practice();
    let lines = sqlx::query_scalar!(
        "select distinct line_id from readiness where practice_id = $1 and dog_id = $2 and waiting",
        practice.0,
        dog.id.0
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(Waiting {
        question: dog_summary::question_waits(dog.id).read(tx).await?.0,
        decisions: items
            .iter()
            .filter(|item| lines.contains(&item.line_id.0))
            .map(|item| item.name.clone())
            .collect(),
    })
}

/// What trainers wrote for trainers alone: for a hand-over, and only where a trainer asks for it.
async fn notes_for_trainers(tx: &mut Tx, dog: &Dog) -> Result<Vec<Note>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select what as "what!", says as "says!", at as "at?" from (
             select 'History' as what, history as says, null::date as at, 1 as turn from dog
               where practice_id = $1 and id = $2
             union all select 'Of the household', note, null, 2 from household where practice_id = $1 and id = $4
             union all select 'Intake', reason, (decided_at at time zone $3::text)::date, 3 from intake_triage
               where practice_id = $1 and dog_id = $2
             union all select 'Plan published despite a stop', despite_stop, (published_at at time zone $3::text)::date, 4
               from plan_version where practice_id = $1 and dog_id = $2
             union all select 'Decision', note, (decided_at at time zone $3::text)::date, 5 from decision
               where practice_id = $1 and dog_id = $2
             union all select 'Lesson', private_note, held_on, 6 from lesson where practice_id = $1 and dog_id = $2
           ) notes where says <> '' order by turn, at desc limit 100"#,
        practice.0,
        dog.id.0,
        dog.zone,
        dog.household.0
    )
    .fetch_all(tx.conn())
    .await?;
    let notes = rows.into_iter().map(|row| Note {
        what: match row.at {
            Some(at) => format!("{}, {} {} {}", row.what, at.day(), &at.month().to_string()[..3], at.year()),
            None => row.what,
        },
        says: row.says,
    });
    Ok(notes.collect())
}
