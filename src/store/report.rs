//! Reports: drafts that can be changed, and what was issued, which the app role can only add.

use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::domain::report::{Document, Section};
use crate::domain::vocabulary::{ReportKind, Word};
use crate::ids::{DogId, MembershipId, ReportId};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// A report as it is begun.
#[derive(Debug, Clone)]
pub struct NewReport<'a> {
    /// Its id, made with the form.
    pub id: ReportId,
    /// The dog.
    pub dog: DogId,
    /// What it is for.
    pub kind: ReportKind,
    /// The time it covers.
    pub from: Date,
    /// The last day of it.
    pub to: Date,
    /// Whom it is for; may be empty.
    pub addressed_to: &'a str,
    /// Whether what is for trainers alone is in it.
    pub with_notes: bool,
    /// The issued one that it is to take the place of.
    pub replaces: Option<ReportId>,
}

/// A report, draft or issued.
#[derive(Debug, Clone)]
pub struct Report {
    /// Its id.
    pub id: ReportId,
    /// What it is for.
    pub kind: ReportKind,
    /// The time it covers.
    pub from: Date,
    /// The last day of it.
    pub to: Date,
    /// Whom the draft is for.
    pub addressed_to: String,
    /// Whether what is for trainers alone is in it.
    pub with_notes: bool,
    /// The draft's sections.
    pub sections: Vec<Section>,
    /// The issued one that it takes the place of, and when that was issued.
    pub replaces: Option<(ReportId, Date)>,
    /// Who began it.
    pub by: String,
    /// When the draft was changed last.
    pub changed_at: OffsetDateTime,
    /// Whether it was issued.
    pub is_issued: bool,
}

impl Report {
    /// A mark of how the draft stands, for a form to carry.
    pub fn stamp(&self) -> String {
        (self.changed_at.unix_timestamp_nanos() / 1000).to_string()
    }
}

/// A report in a dog's list.
#[derive(Debug, Clone)]
pub struct ReportRow {
    /// Its id.
    pub id: ReportId,
    /// What it is for.
    pub kind: ReportKind,
    /// Whom it is for.
    pub addressed_to: String,
    /// The time it covers.
    pub from: Date,
    /// The last day of it.
    pub to: Date,
    /// Who began it.
    pub by: String,
    /// When it was begun.
    pub begun_at: OffsetDateTime,
    /// Who issued it, and the day.
    pub issued: Option<(String, Date)>,
    /// Whether a later one that was issued takes its place.
    pub is_replaced: bool,
    /// Links under which it can be read now.
    pub links: i64,
}

/// What was issued.
#[derive(Debug, Clone)]
pub struct Issued {
    /// The report.
    pub id: ReportId,
    /// Every word of it.
    pub document: Document,
    /// When.
    pub at: OffsetDateTime,
    /// The one that takes its place, where one was issued.
    pub replaced_by: Option<ReportId>,
}

/// What the database keeps of sections.
type Kept = sqlx::types::Json<Vec<Section>>;
/// The same of what was issued: headings and texts.
type KeptTexts = sqlx::types::Json<Vec<(String, String)>>;

/// Begins a draft; false where its id is taken.
pub async fn add(
    tx: &mut Tx,
    new: &NewReport<'_>,
    sections: &[Section],
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let sections: Kept = sqlx::types::Json(sections.to_vec());
    let done = sqlx::query!(
        "insert into report (practice_id, id, dog_id, kind, from_day, to_day, addressed_to, with_notes, sections, replaces_id,
           begun_by, begun_at, changed_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $12) on conflict (practice_id, id) do nothing",
        practice.0,
        new.id.0,
        new.dog.0,
        new.kind.stored(),
        new.from,
        new.to,
        new.addressed_to,
        new.with_notes,
        sections as _,
        new.replaces.map(|id| id.0),
        by.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Whether the report with this id was begun like this.
pub async fn is_same(tx: &mut Tx, new: &NewReport<'_>, by: MembershipId) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from report where practice_id = $1 and id = $2 and dog_id = $3 and kind = $4 and from_day = $5
             and to_day = $6 and with_notes = $7 and replaces_id is not distinct from $8 and begun_by = $9) as "same!""#,
        practice.0,
        new.id.0,
        new.dog.0,
        new.kind.stored(),
        new.from,
        new.to,
        new.with_notes,
        new.replaces.map(|id| id.0),
        by.0
    )
    .fetch_one(tx.conn())
    .await
}

/// A report of this dog, held until the transaction ends, so that two who change it wait for each other.
pub async fn hold(tx: &mut Tx, dog: DogId, id: ReportId) -> Result<Option<Report>> {
    let practice = tx.practice();
    sqlx::query!(
        "select id from report where practice_id = $1 and dog_id = $2 and id = $3 for update",
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    find(tx, dog, id).await
}

/// A report of this dog.
pub async fn find(tx: &mut Tx, dog: DogId, id: ReportId) -> Result<Option<Report>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select r.id, r.kind, r.from_day, r.to_day, r.addressed_to, r.with_notes, r.sections as "sections: Kept", r.replaces_id,
             first.issued_on as "replaced_on?", m.name as by, r.changed_at,
             exists (select 1 from report_issued i where i.practice_id = r.practice_id and i.report_id = r.id) as "is_issued!"
           from report r
           join membership m on m.practice_id = r.practice_id and m.id = r.begun_by
           left join report_issued first on first.practice_id = r.practice_id and first.report_id = r.replaces_id
           where r.practice_id = $1 and r.dog_id = $2 and r.id = $3"#,
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    row.map(|row| {
        Ok(Report {
            id: row.id.into(),
            kind: word(&row.kind)?,
            from: row.from_day,
            to: row.to_day,
            addressed_to: row.addressed_to,
            with_notes: row.with_notes,
            sections: row.sections.0,
            replaces: row.replaces_id.map(Into::into).zip(row.replaced_on),
            by: row.by,
            changed_at: row.changed_at,
            is_issued: row.is_issued,
        })
    })
    .transpose()
}

/// Changes a draft. It must be held, and not be issued. Its mark is another one afterwards, whatever the clock says.
pub async fn edit(
    tx: &mut Tx,
    id: ReportId,
    addressed_to: &str,
    sections: &[Section],
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    let sections: Kept = sqlx::types::Json(sections.to_vec());
    sqlx::query!(
        "update report set addressed_to = $3, sections = $4, changed_at = greatest($5, changed_at + interval '1 microsecond')
         where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        addressed_to,
        sections as _,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Throws a draft away; one that was issued the database keeps.
pub async fn discard(tx: &mut Tx, id: ReportId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!("delete from report where practice_id = $1 and id = $2", practice.0, id.0)
        .execute(tx.conn())
        .await
        .map(drop)
}

/// Keeps what is issued, word for word.
pub async fn issue(
    tx: &mut Tx,
    id: ReportId,
    document: &Document,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    let sections: KeptTexts = sqlx::types::Json(document.sections.clone());
    sqlx::query!(
        "insert into report_issued (practice_id, report_id, title, dog_name, about, period, addressed_to, replaces, statement,
           sections, practice_name, issued_name, issued_by, issued_at, issued_on)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)",
        practice.0,
        id.0,
        document.title,
        document.dog_name,
        document.about,
        document.period,
        document.addressed_to,
        document.replaces,
        document.statement,
        sections as _,
        document.practice,
        document.by,
        by.0,
        now,
        document.on
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// What was issued under this id.
pub async fn issued(tx: &mut Tx, id: ReportId) -> Result<Option<Issued>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select i.title, i.dog_name, i.about, i.period, i.addressed_to, i.replaces, i.statement,
             i.sections as "sections: KeptTexts", i.practice_name, i.issued_name, i.issued_at, i.issued_on,
             (select r.id from report r join report_issued later on later.practice_id = r.practice_id and later.report_id = r.id
              where r.practice_id = $1 and r.replaces_id = $2 order by later.issued_at desc, r.id limit 1) as "replaced_by: Uuid"
           from report_issued i where i.practice_id = $1 and i.report_id = $2"#,
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(row.map(|row| Issued {
        id,
        document: Document {
            title: row.title,
            dog_name: row.dog_name,
            about: row.about,
            period: row.period,
            addressed_to: row.addressed_to,
            replaces: row.replaces,
            statement: row.statement,
            sections: row.sections.0,
            practice: row.practice_name,
            by: row.issued_name,
            on: row.issued_on,
        },
        at: row.issued_at,
        replaced_by: row.replaced_by.map(Into::into),
    }))
}

/// A dog's reports, the newest first, at most `most`; those begun before another one, where it is named.
pub async fn of_dog(
    tx: &mut Tx,
    dog: DogId,
    before: Option<ReportId>,
    now: OffsetDateTime,
    most: i64,
) -> Result<Vec<ReportRow>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select r.id, r.kind, coalesce(i.addressed_to, r.addressed_to) as "addressed_to!", r.from_day, r.to_day, m.name as by,
             r.begun_at, i.issued_name as "issued_name?", i.issued_on as "issued_on?",
             exists (select 1 from report later join report_issued l on l.practice_id = later.practice_id and l.report_id = later.id
               where later.practice_id = r.practice_id and later.replaces_id = r.id) as "is_replaced!",
             (select count(*) from report_link k where k.practice_id = r.practice_id and k.report_id = r.id
               and k.revoked_at is null and k.expires_at > $4) as "links!"
           from report r
           join membership m on m.practice_id = r.practice_id and m.id = r.begun_by
           left join report_issued i on i.practice_id = r.practice_id and i.report_id = r.id
           where r.practice_id = $1 and r.dog_id = $2
             and ($3::uuid is null or (r.begun_at, r.id) < (select b.begun_at, b.id from report b
               where b.practice_id = $1 and b.dog_id = $2 and b.id = $3))
           order by r.begun_at desc, r.id desc limit $5"#,
        practice.0,
        dog.0,
        before.map(|id| id.0),
        now,
        most
    )
    .fetch_all(tx.conn())
    .await?;
    let rows = rows.into_iter().map(|row| {
        Ok(ReportRow {
            id: row.id.into(),
            kind: word(&row.kind)?,
            addressed_to: row.addressed_to,
            from: row.from_day,
            to: row.to_day,
            by: row.by,
            begun_at: row.begun_at,
            issued: row.issued_name.zip(row.issued_on),
            is_replaced: row.is_replaced,
            links: row.links,
        })
    });
    rows.collect()
}

/// The day on which a dog was taken in, where it lives.
pub async fn joined_on(tx: &mut Tx, dog: DogId, zone: &str) -> Result<Date> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select (created_at at time zone $3::text)::date as "on!" from dog where practice_id = $1 and id = $2"#,
        practice.0,
        dog.0,
        zone
    )
    .fetch_one(tx.conn())
    .await
}

/// Whether an issued report has taken the place of this one.
pub async fn is_replaced(tx: &mut Tx, id: ReportId) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select from report r
             join report_issued later on later.practice_id = r.practice_id and later.report_id = r.id
             where r.practice_id = $1 and r.replaces_id = $2) as "replaced!""#,
        practice.0,
        id.0
    )
    .fetch_one(tx.conn())
    .await
}
