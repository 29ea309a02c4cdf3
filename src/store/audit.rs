//! Who did what, when. Rows are only ever added.

use time::OffsetDateTime;
use uuid::Uuid;

use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::MembershipId;
use crate::store::{Result, Tx};

/// One thing that was done.
#[derive(Debug)]
pub struct AuditEvent<'a> {
    /// Its id.
    pub id: Uuid,
    /// When.
    pub at: OffsetDateTime,
    /// By whom; `None` where nobody was signed in.
    pub by: Option<MembershipId>,
    /// The verb, as the action's file is called.
    pub action: &'a str,
    /// What kind of thing it was done to.
    pub object_kind: &'a str,
    /// Which one.
    pub object: Option<Uuid>,
    /// A few words more, never private text.
    pub detail: &'a str,
}

impl AuditEvent<'_> {
    /// Something that a signed-in person does to something with an id.
    pub fn by(
        actor: &Actor,
        action: &'static str,
        kind: &'static str,
        object: Uuid,
        moment: &Moment,
    ) -> Self {
        Self::by_member(actor.membership, action, kind, object, moment)
    }

    /// The same by somebody who comes in only now, by a link.
    pub fn by_member(
        member: MembershipId,
        action: &'static str,
        kind: &'static str,
        object: Uuid,
        moment: &Moment,
    ) -> Self {
        Self {
            id: moment.id(),
            at: moment.at,
            by: Some(member),
            action,
            object_kind: kind,
            object: Some(object),
            detail: "",
        }
    }
}

/// Notes what was done, in the transaction that does it.
pub async fn note(tx: &mut Tx, event: &AuditEvent<'_>) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into audit_event (practice_id, id, at, by_membership_id, action, object_kind, object_id, detail)
         values ($1, $2, $3, $4, $5, $6, $7, $8)",
        practice.0,
        event.id,
        event.at,
        event.by.map(|m| m.0),
        event.action,
        event.object_kind,
        event.object,
        event.detail
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// One thing that was done, as the lead trainer reads it.
#[derive(Debug)]
pub struct Noted {
    /// When.
    pub at: OffsetDateTime,
    /// Who did it, or nobody who was signed in.
    pub by: Option<String>,
    /// The verb.
    pub action: String,
    /// What kind of thing it was done to.
    pub object_kind: String,
    /// What that is called, where it has a name.
    pub object: Option<String>,
    /// A few words more.
    pub detail: String,
}

/// The latest things done, newest first.
pub async fn latest(tx: &mut Tx, most: i64) -> Result<Vec<Noted>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Noted,
        r#"select e.at, actor.name as "by?", e.action, e.object_kind,
             case e.object_kind
               when 'membership' then (select m.name from membership m where m.practice_id = e.practice_id and m.id = e.object_id)
               when 'household' then (select h.name from household h where h.practice_id = e.practice_id and h.id = e.object_id)
               when 'dog' then (select d.name from dog d where d.practice_id = e.practice_id and d.id = e.object_id)
               when 'exercise' then (select x.name from exercise x where x.practice_id = e.practice_id and x.id = e.object_id)
             end as "object?",
             e.detail
           from audit_event e
           left join membership actor on actor.practice_id = e.practice_id and actor.id = e.by_membership_id
           where e.practice_id = $1
           order by e.at desc, e.id desc
           limit $2"#,
        practice.0,
        most
    )
    .fetch_all(tx.conn())
    .await
}
