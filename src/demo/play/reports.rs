//! A progress report: composed, looked through, issued, and shared by a link that was opened since.

use anyhow::Context;
use time::{Duration, OffsetDateTime};

use super::Player;
use crate::actions::draft_report::{ReportInput, draft_report};
use crate::actions::edit_report::{ReportText, edit_report};
use crate::actions::issue_report::issue_report;
use crate::actions::open_report::open_report;
use crate::actions::share_report::{NewShare, share_report};
use crate::demo::content::DaysAgo;
use crate::domain::vocabulary::ReportKind;
use crate::store::report;

/// Whom it is for.
const FOR_WHOM: &str = "The household, and their vet if they like";
/// What the trainer wrote at its end.
const BESIDES: &str = "He is growing fast: short goes, soft ground, no jumping out of the car. I look at the plan again in four weeks.";
/// Minutes from one act to the next.
const NEXT: Duration = Duration::minutes(4);

impl Player {
    /// Writes a report on the four weeks up to a day.
    pub(super) async fn report_on(&mut self, days_ago: DaysAgo, at: OffsetDateTime) -> anyhow::Result<()> {
        let (stage, trainer) = (self.stage().clone(), self.trainer.clone());
        let today = stage.calendar.date(days_ago);
        let moment = self.scene.moment(at);
        let input = ReportInput {
            id: moment.id(),
            kind: ReportKind::Progress,
            from: None,
            to: today,
            addressed_to: FOR_WHOM.to_owned(),
            with_notes: false,
        };
        draft_report(stage.tx(&trainer).await?, &trainer, self.id, &input, today, &moment).await?;
        let draft = report::find(&mut stage.tx(&trainer).await?, self.id, input.id).await?;
        let draft = draft.context("a draft was just begun")?;
        let sections = draft.sections.iter().map(|section| match section.key.as_str() {
            "else" => (BESIDES.to_owned(), false),
            _ => (section.body.clone(), false),
        });
        let text = ReportText { addressed_to: FOR_WHOM.to_owned(), sections: sections.collect() };
        let moment = self.scene.moment(at + NEXT);
        let tx = stage.tx(&trainer).await?;
        edit_report(tx, &trainer, self.id, draft.id, &text, &draft.stamp(), &moment).await?;
        let draft = report::find(&mut stage.tx(&trainer).await?, self.id, input.id).await?;
        let saw = draft.context("the draft was just saved")?.stamp();
        let moment = self.scene.moment(at + NEXT * 2);
        let tx = stage.tx(&trainer).await?;
        issue_report(tx, &trainer, self.id, input.id, &saw, today, &moment).await?;
        let moment = self.scene.moment(at + NEXT * 3);
        let share = NewShare { id: moment.id(), for_whom: "The household".to_owned(), days: 90 };
        let tx = stage.tx(&trainer).await?;
        let (token, _) = share_report(tx, &trainer, self.id, input.id, share, &moment).await?;
        open_report(&stage.db, &token, &self.scene.moment(at + NEXT * 6)).await?;
        Ok(())
    }
}
