//! Keeping a view of the caseload under a name, and taking it away: each trainer's own.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::CaseloadViewId;
use crate::store::Tx;
use crate::store::caseload_view::{self, CaseloadView};

/// The most views that one trainer keeps.
const MOST: usize = caseload_view::MOST as usize;

/// Keeps a view; one of the same name gives way.
pub async fn keep_view(mut tx: Tx, actor: &Actor, name: &str, query: &str, moment: &Moment) -> Done<()> {
    authorise(actor, Action::SeeCaseload, None)?;
    let kept = caseload_view::of_member(&mut tx, actor.membership).await?;
    if kept.len() >= MOST && kept.iter().all(|view| view.name != name) {
        return Err(Refusal::Field {
            field: "name",
            message: "You have as many views as can be kept. Take one away first.",
        });
    }
    let view = CaseloadView { id: moment.id(), name: name.to_owned(), query: query.to_owned() };
    caseload_view::put(&mut tx, &view, actor.membership, moment.at).await?;
    tx.commit().await?;
    Ok(())
}

/// Takes a view away.
pub async fn remove_view(mut tx: Tx, actor: &Actor, view: CaseloadViewId) -> Done<()> {
    authorise(actor, Action::SeeCaseload, None)?;
    if !caseload_view::remove(&mut tx, view, actor.membership).await? {
        return Err(Refusal::NotFound);
    }
    tx.commit().await?;
    Ok(())
}
