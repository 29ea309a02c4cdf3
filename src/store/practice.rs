//! The practice: the business, the tenant.

use time::OffsetDateTime;

use crate::domain::vocabulary::{Clip, Word};
use crate::ids::{MembershipId, PracticeId};
use crate::store::{Door, Result, Tx};

/// A practice.
#[derive(Debug, Clone)]
pub struct Practice {
    /// Its id.
    pub id: PracticeId,
    /// What it is called.
    pub name: String,
    /// Its IANA time zone.
    pub zone: String,
    /// What owners may expect: "Usually replies within two working days".
    pub replies: String,
    /// Who answers stops that a dog's own trainer has not answered in time; none where the leads do.
    pub duty: Option<OnDuty>,
}

/// The trainer on duty.
#[derive(Debug, Clone)]
pub struct OnDuty {
    /// Their place in the practice.
    pub id: MembershipId,
    /// Their name.
    pub name: String,
}

/// Makes a practice and goes on inside it. The door must have been shown a good set-up token.
pub async fn found(door: Door, id: PracticeId, name: &str, zone: &str, now: OffsetDateTime) -> Result<Tx> {
    let mut tx = door.enter(id).await?;
    sqlx::query!(
        "insert into practice (id, name, zone, created_at) values ($1, $2, $3, $4)",
        id.0,
        name,
        zone,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(tx)
}

/// The practice that this transaction is inside.
pub async fn here(tx: &mut Tx) -> Result<Practice> {
    let id = tx.practice();
    let row = sqlx::query!(
        r#"select p.id, p.name, p.zone, p.replies, m.id as "duty?", m.name as "duty_name?" from practice p
           left join membership m on m.practice_id = p.id and m.id = p.duty_trainer_id and m.removed_at is null
           where p.id = $1"#,
        id.0
    )
    .fetch_one(tx.conn())
    .await?;
    let duty = row.duty.zip(row.duty_name).map(|(id, name)| OnDuty { id: id.into(), name });
    Ok(Practice { id: row.id.into(), name: row.name, zone: row.zone, replies: row.replies, duty })
}

/// Changes what the practice says of itself.
pub async fn edit(
    tx: &mut Tx,
    (name, zone, replies): (&str, &str, &str),
    duty: Option<MembershipId>,
) -> Result<()> {
    let id = tx.practice();
    sqlx::query!(
        "update practice set name = $2, zone = $3, replies = $4, duty_trainer_id = $5 where id = $1",
        id.0,
        name,
        zone,
        replies,
        duty.map(|trainer| trainer.0)
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Takes somebody off duty who leaves the team.
pub async fn end_duty(tx: &mut Tx, trainer: MembershipId) -> Result<()> {
    let id = tx.practice();
    sqlx::query!(
        "update practice set duty_trainer_id = null where id = $1 and duty_trainer_id = $2",
        id.0,
        trainer.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Locks the practice's row until the transaction ends, so that two who change how it works wait for each other.
pub async fn lock(tx: &mut Tx) -> Result<()> {
    let id = tx.practice();
    sqlx::query!("select id from practice where id = $1 for no key update", id.0)
        .fetch_one(tx.conn())
        .await
        .map(drop)
}

/// Changes which clips the practice does not use.
pub async fn set_clips_not_used(tx: &mut Tx, clips: &[Clip]) -> Result<()> {
    let id = tx.practice();
    let clips: Vec<String> = clips.iter().map(|clip| clip.stored().to_owned()).collect();
    sqlx::query!("update practice set clips_not_used = $2 where id = $1", id.0, &clips)
        .execute(tx.conn())
        .await
        .map(drop)
}
