//! Issues a report: its text is kept as it was read and never changes again. What was wrong is put right by another report that
//! says which it takes the place of.

use time::Date;

use crate::actions::edit_report::CHANGED_MEANWHILE;
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::report::{Document, Head, document, objection};
use crate::ids::{DogId, ReportId};
use crate::store::audit::{self, AuditEvent};
use crate::store::dog::Dog;
use crate::store::report::{self, NewReport, Report};
use crate::store::{Tx, membership, practice};

/// Said where another report took the place first.
const ALREADY_REPLACED: Refusal = Refusal::Field {
    field: "issue",
    message: "Another report has taken the place of that one already. Correct the newest one, or remove this draft.",
};

/// The report as it would be issued by this person on this day.
pub async fn as_read(tx: &mut Tx, actor: &Actor, dog: &Dog, draft: &Report, today: Date) -> Done<Document> {
    let practice = practice::here(tx).await?;
    let by = membership::find(actor.membership).read(tx).await?.ok_or(Refusal::NotFound)?;
    let head = Head {
        kind: draft.kind,
        dog_name: &dog.name,
        breed: &dog.breed,
        born: dog.born,
        sex: dog.sex,
        household: &dog.household_name,
        from: draft.from,
        to: draft.to,
        addressed_to: &draft.addressed_to,
        replaces: draft.replaces.map(|(_, on)| on),
        practice: &practice.name,
        by: &by.name,
        on: today,
    };
    Ok(document(&head, &draft.sections))
}

/// Issues the draft as it stood at the mark `saw`. Sent again, it changes nothing. `today` is the day it is where the dog lives.
pub async fn issue_report(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: ReportId,
    saw: &str,
    today: Date,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::WriteReports, dog).await?;
    let draft = report::hold(&mut tx, dog.id, id).await?.ok_or(Refusal::NotFound)?;
    if draft.is_issued {
        // sent twice: what is issued is what was read
        return if saw == draft.stamp() { Ok(()) } else { Err(Refusal::Clash) };
    }
    if saw != draft.stamp() {
        return Err(CHANGED_MEANWHILE);
    }
    if let Some((replaced, _)) = draft.replaces {
        // held, so that of two that would take its place one is told of the other
        report::hold(&mut tx, dog.id, replaced).await?;
        if report::is_replaced(&mut tx, replaced).await? {
            return Err(ALREADY_REPLACED);
        }
    }
    if let Some(message) = objection(draft.kind, &draft.sections) {
        return Err(Refusal::Field { field: "issue", message });
    }
    let document = as_read(&mut tx, actor, &dog, &draft, today).await?;
    report::issue(&mut tx, id, &document, actor.membership, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "issue_report", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

/// Begins a draft that is to take the place of an issued report: copied from it, with the sections that were left out.
pub async fn correct_report(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    wrong: ReportId,
    id: ReportId,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::WriteReports, dog).await?.id;
    let first = report::hold(&mut tx, dog, wrong).await?.ok_or(Refusal::NotFound)?;
    if !first.is_issued {
        return Err(Refusal::NotFound);
    }
    let new = NewReport {
        id,
        dog,
        kind: first.kind,
        from: first.from,
        to: first.to,
        addressed_to: &first.addressed_to,
        with_notes: first.with_notes,
        replaces: Some(wrong),
    };
    // a draft that was issued is not changed any more: its sections are those that were issued
    if !report::add(&mut tx, &new, &first.sections, actor.membership, moment.at).await? {
        let same = report::is_same(&mut tx, &new, actor.membership).await?;
        return if same { Ok(()) } else { Err(Refusal::Clash) };
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "correct_report", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
