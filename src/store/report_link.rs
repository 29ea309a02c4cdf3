//! Links under which an issued report may be read, and when each was opened: the instant, and nothing of by whom or from where.

use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, MembershipId, ReportId, ReportLinkId};
use crate::store::report::{self, Issued};
use crate::store::token::TokenHash;
use crate::store::{Db, Result, Secret, Tx};

/// A link to be kept.
#[derive(Debug, Clone)]
pub struct NewReportLink {
    /// Its id, which is no secret.
    pub id: ReportLinkId,
    /// The report.
    pub report: ReportId,
    /// For whom it is.
    pub for_whom: String,
    /// Who made it.
    pub made_by: MembershipId,
    /// When it stops working.
    pub expires_at: OffsetDateTime,
}

/// A link as trainers see it.
#[derive(Debug, Clone)]
pub struct ReportLink {
    /// Its id.
    pub id: ReportLinkId,
    /// For whom it is.
    pub for_whom: String,
    /// Who made it.
    pub by: String,
    /// When.
    pub made_at: OffsetDateTime,
    /// When it stops working.
    pub expires_at: OffsetDateTime,
    /// When it was revoked.
    pub revoked_at: Option<OffsetDateTime>,
    /// How often it was opened.
    pub opened: i64,
    /// When it was opened last.
    pub opened_at: Option<OffsetDateTime>,
}

/// A link that was shown and works.
pub struct Opened {
    /// The transaction, inside its practice.
    pub tx: Tx,
    /// The link.
    pub link: ReportLinkId,
    /// When it stops working.
    pub expires_at: OffsetDateTime,
    /// The household's zone.
    pub zone: String,
    /// What it leads to.
    pub issued: Issued,
}

/// Opens the practice of a report's link that has not run out and was not revoked, while its dog is not archived. Everything else is
/// the same nothing.
pub async fn open(db: &Db, hash: TokenHash, now: OffsetDateTime) -> Result<Option<Opened>> {
    let mut door = db.door(Secret::Token(hash)).await?;
    let row = sqlx::query!(
        r#"select practice_id, report_link_id as "link!" from link_token
           where token_hash = $1 and kind = 'report' and expires_at > $2 and revoked_at is null"#,
        hash.bytes(),
        now
    )
    .fetch_optional(door.conn())
    .await?;
    let Some(row) = row else { return Ok(None) };
    let mut tx = door.enter(row.practice_id.into()).await?;
    let practice = tx.practice();
    let found = sqlx::query!(
        "select l.report_id, l.expires_at, h.zone from report_link l
         join report r on r.practice_id = l.practice_id and r.id = l.report_id
         join dog d on d.practice_id = r.practice_id and d.id = r.dog_id and d.archived_at is null
         join household h on h.practice_id = d.practice_id and h.id = d.household_id
         where l.practice_id = $1 and l.id = $2 and l.revoked_at is null and l.expires_at > $3",
        practice.0,
        row.link,
        now
    )
    .fetch_optional(tx.conn())
    .await?;
    let Some(found) = found else { return Ok(None) };
    let issued = report::issued(&mut tx, found.report_id.into()).await?;
    Ok(issued.map(|issued| Opened {
        tx,
        link: row.link.into(),
        expires_at: found.expires_at,
        zone: found.zone,
        issued,
    }))
}

/// Keeps a link with the hash of its secret. Asked for again with the same content, it gets a new secret in place of the first, which
/// nobody may have seen, and ends when that would have. Gives when it ends; `None` if its id is known with other content.
pub async fn add(
    tx: &mut Tx,
    link: &NewReportLink,
    hash: TokenHash,
    now: OffsetDateTime,
) -> Result<Option<OffsetDateTime>> {
    let practice = tx.practice();
    let added = sqlx::query!(
        "insert into report_link (practice_id, id, report_id, for_whom, made_by, made_at, expires_at)
         values ($1, $2, $3, $4, $5, $6, $7) on conflict (practice_id, id) do nothing",
        practice.0,
        link.id.0,
        link.report.0,
        link.for_whom,
        link.made_by.0,
        now,
        link.expires_at
    )
    .execute(tx.conn())
    .await?;
    let ends = match added.rows_affected() {
        0 => same_again(tx, link, now).await?,
        _ => Some(link.expires_at),
    };
    let Some(ends) = ends else { return Ok(None) };
    sqlx::query!(
        // spent for whatever opens a link once: it signs nobody in
        "insert into link_token
           (token_hash, practice_id, kind, membership_id, created_by, created_at, expires_at, used_at, report_link_id)
         values ($1, $2, 'report', $3, $3, $4, $5, $4, $6)",
        hash.bytes(),
        practice.0,
        link.made_by.0,
        now,
        ends,
        link.id.0
    )
    .execute(tx.conn())
    .await?;
    Ok(Some(ends))
}

/// When the link with this id ends, where it says the same and works; its secrets stop working then.
async fn same_again(
    tx: &mut Tx,
    link: &NewReportLink,
    now: OffsetDateTime,
) -> Result<Option<OffsetDateTime>> {
    let practice = tx.practice();
    let ends = sqlx::query_scalar!(
        "select expires_at from report_link where practice_id = $1 and id = $2 and report_id = $3 and for_whom = $4
           and made_by = $5 and revoked_at is null and expires_at > $6",
        practice.0,
        link.id.0,
        link.report.0,
        link.for_whom,
        link.made_by.0,
        now
    )
    .fetch_optional(tx.conn())
    .await?;
    if ends.is_some() {
        end_secrets(tx, link.id, now).await?;
    }
    Ok(ends)
}

async fn end_secrets(tx: &mut Tx, link: ReportLinkId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update link_token set revoked_at = $3 where practice_id = $1 and report_link_id = $2 and revoked_at is null",
        practice.0,
        link.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// The links of a report, the newest first, at most `most`: those that work, and those that are over.
pub async fn of_report(tx: &mut Tx, report: ReportId, most: i64) -> Result<Vec<ReportLink>> {
    let practice = tx.practice();
    sqlx::query_as!(
        ReportLink,
        r#"select l.id, l.for_whom, m.name as by, l.made_at, l.expires_at, l.revoked_at,
             count(o.id) as "opened!", max(o.opened_at) as "opened_at?"
           from report_link l
           join membership m on m.practice_id = l.practice_id and m.id = l.made_by
           left join report_opening o on o.practice_id = l.practice_id and o.link_id = l.id
           where l.practice_id = $1 and l.report_id = $2
           group by l.id, l.for_whom, m.name, l.made_at, l.expires_at, l.revoked_at
           order by l.made_at desc, l.id desc limit $3"#,
        practice.0,
        report.0,
        most
    )
    .fetch_all(tx.conn())
    .await
}

/// How many links of a report work.
pub async fn working(tx: &mut Tx, report: ReportId, now: OffsetDateTime) -> Result<i64> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select count(*) as "count!" from report_link
           where practice_id = $1 and report_id = $2 and revoked_at is null and expires_at > $3"#,
        practice.0,
        report.0,
        now
    )
    .fetch_one(tx.conn())
    .await
}

/// Revokes a link of a dog's report; `None` where there is none, false where it is revoked already.
pub async fn revoke(
    tx: &mut Tx,
    dog: DogId,
    report: ReportId,
    id: ReportLinkId,
    now: OffsetDateTime,
) -> Result<Option<bool>> {
    let practice = tx.practice();
    let found = sqlx::query_scalar!(
        r#"select l.revoked_at is not null as "over!" from report_link l
           join report r on r.practice_id = l.practice_id and r.id = l.report_id
           where l.practice_id = $1 and r.dog_id = $2 and l.report_id = $3 and l.id = $4"#,
        practice.0,
        dog.0,
        report.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    let Some(over) = found else { return Ok(None) };
    if over {
        return Ok(Some(false));
    }
    sqlx::query!(
        "update report_link set revoked_at = $3 where practice_id = $1 and id = $2 and revoked_at is null",
        practice.0,
        id.0,
        now
    )
    .execute(tx.conn())
    .await?;
    end_secrets(tx, id, now).await?;
    Ok(Some(true))
}

/// Notes that a link was opened.
pub async fn note_opening(tx: &mut Tx, id: Uuid, link: ReportLinkId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into report_opening (practice_id, id, link_id, opened_at) values ($1, $2, $3, $4)",
        practice.0,
        id,
        link.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
