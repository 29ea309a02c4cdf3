//! Offering a new practice to be set up: a one-time link for whoever runs the service.

use time::Duration;

use crate::actions::Done;
use crate::clock::Moment;
use crate::store::token::Token;
use crate::store::{Db, Secret, setup_token};

/// Whether no practice was ever set up here.
pub async fn needs_set_up(db: &Db) -> Done<bool> {
    let mut door = db.door(Secret::Token(Token::fresh().hash())).await?;
    Ok(!setup_token::any_used(&mut door).await?)
}

/// Makes a token that sets up one practice within `works`.
pub async fn offer_set_up(db: &Db, works: Duration, moment: &Moment) -> Done<Token> {
    let token = Token::fresh();
    let mut door = db.door(Secret::Token(token.hash())).await?;
    setup_token::add(&mut door, token.hash(), moment.at, moment.at + works).await?;
    door.commit().await?;
    Ok(token)
}
