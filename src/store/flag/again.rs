//! Looking at a flag again: its ground has changed, is gone, or the rule reads it differently.

use time::{Date, OffsetDateTime};
use uuid::Uuid;

use super::{Flag, Place, Subject, facts_of};
use crate::domain::vocabulary::{LookedAgain, Word};
use crate::domain::welfare::{CATALOGUE, Finding};
use crate::ids::{DogId, FlagId};
use crate::store::{Result, Tx};

/// Says in a flag what its rule finds now, and opens it where it was settled.
pub async fn restate(
    tx: &mut Tx,
    id: FlagId,
    finding: &Finding,
    place: &Place,
    why: LookedAgain,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update welfare_flag set rule_version = $3, severity = $4, seen = $5, owner_seen = $6, facts = $7,
           raised_at = case when state <> 'open' or severity <> 'stop' and $4 = 'stop' then $8 else raised_at end,
           state = 'open', answered_by = null, answered_at = null, keeps_resting = false, looked_again = $9, looked_again_at = $8
         where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        finding.rule.stored_version(),
        finding.severity.stored(),
        finding.seen,
        finding.owner_seen,
        facts_of(finding) as _,
        place.now,
        why.stored()
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Withdraws an open flag: its rule finds nothing any more.
pub async fn withdraw(tx: &mut Tx, id: FlagId, why: LookedAgain, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update welfare_flag set state = 'withdrawn', looked_again = $3, looked_again_at = $4
         where practice_id = $1 and id = $2 and state = 'open'",
        practice.0,
        id.0,
        why.stored(),
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Puts every flag about a log or encounter on the day that it is said to have been now.
pub async fn move_to(tx: &mut Tx, dog: DogId, subject: Subject, day: Date) -> Result<()> {
    let practice = tx.practice();
    let (kind, id) = subject.parts();
    sqlx::query!(
        "update welfare_flag set local_date = $5
         where practice_id = $1 and dog_id = $2 and subject_kind = $3 and subject_id = $4 and local_date <> $5",
        practice.0,
        dog.0,
        kind,
        id,
        day
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// What the open flags of a dog are about whose rule had another meaning when it raised them, at most `most`.
pub async fn outdated(tx: &mut Tx, dog: DogId, most: i64) -> Result<Vec<Subject>> {
    let practice = tx.practice();
    let rules: Vec<String> = CATALOGUE.iter().map(|rule| rule.id.to_owned()).collect();
    let versions: Vec<i16> = CATALOGUE.iter().map(|rule| rule.stored_version()).collect();
    let rows = sqlx::query!(
        r#"select distinct f.subject_kind, f.subject_id from welfare_flag f
           join unnest($3::text[], $4::smallint[]) r (rule, version) on r.rule = f.rule and f.rule_version < r.version
           where f.practice_id = $1 and f.dog_id = $2 and f.state = 'open'
           order by f.subject_kind, f.subject_id limit $5"#,
        practice.0,
        dog.0,
        &rules,
        &versions,
        most
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(rows.into_iter().map(|row| Subject::of(&row.subject_kind, row.subject_id)).collect())
}

impl Flag {
    /// Why it was withdrawn, in a sentence of a trainer's.
    pub fn why_withdrawn(&self) -> String {
        let why = self.looked_again.map_or("", |(why, _)| why.label());
        if why.is_empty() { "Withdrawn.".to_owned() } else { format!("Withdrawn: {why}.") }
    }
}

impl Subject {
    pub(super) fn of(kind: &str, id: Uuid) -> Self {
        match kind {
            "encounter" => Self::Encounter(id),
            _ => Self::PracticeLog(id),
        }
    }

    /// Its id.
    pub fn id(self) -> Uuid {
        self.parts().1
    }
}
