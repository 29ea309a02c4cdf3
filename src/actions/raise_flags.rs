//! Raising what the rules found, inside the action that let them look: flags, the day's mark, and the summary.

use time::{Date, OffsetDateTime};

use crate::actions::Done;
use crate::clock::Moment;
use crate::domain::vocabulary::Severity;
use crate::domain::welfare::Finding;
use crate::ids::{DogId, LineId};
use crate::store::flag::{Place, Subject};
use crate::store::{Tx, dog, dog_summary, flag, off_lead_permission};

/// What the findings are about.
#[derive(Debug, Clone, Copy)]
pub struct About {
    /// The dog.
    pub dog: DogId,
    /// The log or encounter.
    pub subject: Subject,
    /// The instruction that was practised.
    pub line: Option<LineId>,
    /// The day.
    pub on: Date,
    /// The instant.
    pub happened_at: OffsetDateTime,
}

impl About {
    /// Where its flags belong.
    pub(super) fn place(&self, moment: &Moment) -> Place {
        Place { dog: self.dog, subject: self.subject, line: self.line, local_date: self.on, now: moment.at }
    }
}

/// Raises the findings; the dog's summary must be locked already.
pub async fn raise_flags(tx: &mut Tx, findings: &[Finding], about: &About, moment: &Moment) -> Done<()> {
    let place = about.place(moment);
    for finding in findings {
        flag::raise(tx, moment.id(), finding, &place).await?;
        dog_summary::mark_day(tx, about.dog, about.on, finding.severity).await?;
        let bite = finding.rule.id == "bite";
        consequences(tx, finding, about, moment).await?;
        if bite || finding.severity == Severity::Stop || matches!(finding.rule.id, "bolted" | "not_coping") {
            dog_summary::trouble(tx, about.dog, about.happened_at, bite).await?;
        }
    }
    dog_summary::flags_changed(tx, about.dog).await?;
    Ok(())
}

/// What a finding brings about besides its flag. It stays when the flag is withdrawn: a trainer takes it back.
pub(super) async fn consequences(tx: &mut Tx, finding: &Finding, about: &About, moment: &Moment) -> Done<()> {
    if finding.rule.id == "bite" {
        dog::note_bite(tx, about.dog).await?;
    }
    if finding.off_lead_lapses() {
        off_lead_permission::lapse_all(tx, about.dog, "Bolted", about.happened_at, moment.at).await?;
    }
    Ok(())
}
