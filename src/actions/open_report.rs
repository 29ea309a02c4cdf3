//! Somebody who holds a link reads the report that it leads to. Of the opening its instant is kept, and nothing of who or where.

use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::store::Db;
use crate::store::report::Issued;
use crate::store::report_link;
use crate::store::token::Token;

/// Notes the opening, and gives what is read.
pub async fn open_report(db: &Db, token: &Token, moment: &Moment) -> Done<Issued> {
    let opened = report_link::open(db, token.hash(), moment.at).await?;
    let mut opened = opened.ok_or(Refusal::NotFound)?;
    report_link::note_opening(&mut opened.tx, moment.id(), opened.link, moment.at).await?;
    opened.tx.commit().await?;
    Ok(opened.issued)
}
