//! Shares an issued report by a link, for somebody who has no account here.

use time::Duration;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, ReportId, ReportLinkId};
use crate::store::audit::{self, AuditEvent};
use crate::store::report_link::{self, NewReportLink};
use crate::store::token::Token;
use crate::store::{Tx, report};

/// How long a link may work, in days.
pub const DAYS: [i16; 3] = [7, 30, 90];
/// The most links of one report that work at once.
const MOST_LINKS: i64 = 20;

/// What a trainer says of a link.
#[derive(Debug)]
pub struct NewShare {
    /// The link's id, made with the form.
    pub id: ReportLinkId,
    /// For whom it is.
    pub for_whom: String,
    /// How many days it works, one of [`DAYS`].
    pub days: i16,
}

/// Makes the link; its secret is known only now.
pub async fn share_report(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: ReportId,
    new: NewShare,
    moment: &Moment,
) -> Done<(Token, NewReportLink)> {
    let dog = authorised_dog(&mut tx, actor, Action::WriteReports, dog).await?.id;
    let found = report::hold(&mut tx, dog, id).await?.ok_or(Refusal::NotFound)?;
    if !found.is_issued {
        return Err(Refusal::NotFound);
    }
    if report_link::working(&mut tx, id, moment.at).await? >= MOST_LINKS {
        return Err(Refusal::Field {
            field: "for_whom",
            message: "Twenty links to this report work at the same time already. Revoke one first.",
        });
    }
    let link = NewReportLink {
        id: new.id,
        report: id,
        for_whom: new.for_whom,
        made_by: actor.membership,
        expires_at: moment.at + Duration::days(new.days.into()),
    };
    let token = Token::fresh();
    let ends = report_link::add(&mut tx, &link, token.hash(), moment.at).await?.ok_or(Refusal::Clash)?;
    audit::note(&mut tx, &AuditEvent::by(actor, "share_report", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    // asked for again with other days, it ends when it was first to end
    Ok((token, NewReportLink { expires_at: ends, ..link }))
}
