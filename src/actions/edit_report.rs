//! Changes the text of a report's draft, leaves sections out or takes them in again, or throws the draft away.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, ReportId};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::report::{self, Report};

/// What to say where somebody else was first.
pub(super) const CHANGED_MEANWHILE: Refusal = Refusal::Field {
    field: "saw",
    message: "Somebody changed this draft after you opened the page, and nothing of yours was kept yet. Open it once more in another window to see what it says now; what you typed is still here. Save it again if it should stand.",
};

/// What a trainer made of a draft.
#[derive(Debug)]
pub struct ReportText {
    /// Whom it is for; may be empty.
    pub addressed_to: String,
    /// Each section in the draft's order: its text, and whether it is left out.
    pub sections: Vec<(String, bool)>,
}

/// The draft, held; what was issued is no draft any more.
pub(super) async fn held_draft(tx: &mut Tx, dog: DogId, id: ReportId) -> Done<Report> {
    let draft = report::hold(tx, dog, id).await?.ok_or(Refusal::NotFound)?;
    if draft.is_issued { Err(Refusal::Clash) } else { Ok(draft) }
}

/// Changes a draft as it stood at the mark `saw`. What changes nothing, or was sent before, does nothing.
pub async fn edit_report(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: ReportId,
    text: &ReportText,
    saw: &str,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::WriteReports, dog).await?.id;
    let draft = held_draft(&mut tx, dog, id).await?;
    let mut sections = draft.sections.clone();
    for (section, (body, left_out)) in sections.iter_mut().zip(&text.sections) {
        section.body.clone_from(body);
        section.left_out = *left_out;
    }
    if sections == draft.sections && text.addressed_to == draft.addressed_to {
        return Ok(());
    }
    if saw != draft.stamp() {
        return Err(CHANGED_MEANWHILE);
    }
    report::edit(&mut tx, id, &text.addressed_to, &sections, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_report", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

/// Throws a draft away.
pub async fn discard_report(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: ReportId,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::WriteReports, dog).await?.id;
    held_draft(&mut tx, dog, id).await?;
    report::discard(&mut tx, id).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "discard_report", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
