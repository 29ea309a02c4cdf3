//! Begins a report about a dog: a draft, composed of what is recorded, that a trainer then edits.

use time::{Date, Duration};

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::report::{Period, compose};
use crate::domain::vocabulary::ReportKind;
use crate::ids::{DogId, ReportId};
use crate::store::audit::{self, AuditEvent};
use crate::store::report::{self, NewReport};
use crate::store::{Tx, report_facts};

/// How far a progress report looks back where nobody says: four weeks.
const USUAL_DAYS: i64 = 28;

/// What a trainer asks for.
#[derive(Debug)]
pub struct ReportInput {
    /// The report's id, made with the form.
    pub id: ReportId,
    /// What it is for.
    pub kind: ReportKind,
    /// The first day that it covers; four weeks back for a progress report, and the day on which the dog was taken in for the others,
    /// where nobody says.
    pub from: Option<Date>,
    /// The last day.
    pub to: Date,
    /// Whom it is for; may be empty.
    pub addressed_to: String,
    /// Whether a hand-over holds what is for trainers alone.
    pub with_notes: bool,
}

/// Begins the draft. Sending the same again changes nothing. `today` is the day it is where the dog lives.
pub async fn draft_report(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    input: &ReportInput,
    today: Date,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::WriteReports, dog).await?;
    if input.with_notes && input.kind != ReportKind::HandOver {
        return Err(Refusal::Field {
            field: "with_notes",
            message: "Notes for trainers go into a hand-over alone. Choose that, or untick this.",
        });
    }
    let from = match (input.from, input.kind) {
        (Some(from), _) => from,
        (None, ReportKind::Progress) => input.to - Duration::days(USUAL_DAYS),
        (None, _) => report::joined_on(&mut tx, dog.id, &dog.zone).await?.min(input.to),
    };
    let new = NewReport {
        id: input.id,
        dog: dog.id,
        kind: input.kind,
        from,
        to: input.to,
        addressed_to: &input.addressed_to,
        with_notes: input.with_notes,
        replaces: None,
    };
    let period = Period { from, to: input.to, today };
    let facts = report_facts::find(&mut tx, &dog, period, input.with_notes).await?;
    let sections = compose(input.kind, &facts);
    if !report::add(&mut tx, &new, &sections, actor.membership, moment.at).await? {
        let same = report::is_same(&mut tx, &new, actor.membership).await?;
        return if same { Ok(()) } else { Err(Refusal::Clash) };
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "draft_report", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
