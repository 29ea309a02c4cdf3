//! Revokes a link to a report at once.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, ReportId, ReportLinkId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, report_link};

/// Revokes it. One that is revoked already stays so.
pub async fn revoke_report_link(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    report: ReportId,
    link: ReportLinkId,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::WriteReports, dog).await?.id;
    let done = report_link::revoke(&mut tx, dog, report, link, moment.at).await?;
    if done.ok_or(Refusal::NotFound)? {
        audit::note(&mut tx, &AuditEvent::by(actor, "revoke_report_link", "dog", dog.0, moment)).await?;
        tx.commit().await?;
    }
    Ok(())
}
