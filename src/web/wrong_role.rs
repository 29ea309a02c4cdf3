//! What somebody is told who asks for a route of another role.
//!
//! A page of another role does not exist for them. Nor does an act on what they do not see; on what they see, it is
//! refused. `domain::access` says the same of every act, and `tests/it/acts.rs` holds the two to each other.

use axum::extract::{FromRequestParts, RawPathParams};
use axum::http::Method;
use axum::http::request::Parts;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::domain::vocabulary::Role;
use crate::store::sign_in::SignedIn;
use crate::store::{self, dog, flag, household, import_batch, membership};
use crate::web::WebError;

/// 403 for an act on what they see, 404 otherwise.
pub async fn refusal(parts: &mut Parts, who: &mut SignedIn) -> WebError {
    if matches!(parts.method, Method::GET | Method::HEAD) {
        return WebError::NotFound;
    }
    let Ok(path) = RawPathParams::from_request_parts(parts, &()).await else { return WebError::NotFound };
    match sees(who, path.iter().next()).await {
        Ok(true) => WebError::Forbidden,
        Ok(false) => WebError::NotFound,
        Err(error) => error.into(),
    }
}

/// Whether they see what a route acts on: the first thing that its path names, or else the practice as a whole, which
/// owners do not see.
async fn sees(who: &mut SignedIn, named: Option<(&str, &str)>) -> store::Result<bool> {
    let is_owner = who.member.role == Role::Owner;
    let Some((name, id)) = named else { return Ok(!is_owner) };
    let Ok(id) = id.parse::<Uuid>() else { return Ok(false) };
    let tx = &mut who.tx;
    Ok(match name {
        "dog" => dog::find(tx, &who.actor, id.into()).await?.is_some(),
        "flag" => match flag::dog_of(tx, id.into()).await? {
            Some(dog) => dog::find(tx, &who.actor, dog).await?.is_some(),
            None => false,
        },
        "household" if is_owner => who.actor.households.contains(&id.into()),
        "household" => household::find(tx, id.into()).await?.is_some(),
        "batch" if !is_owner => {
            import_batch::find(tx, id.into(), OffsetDateTime::UNIX_EPOCH).await?.is_some()
        }
        "member" | "person" if !is_owner => membership::find(id.into()).read(tx).await?.is_some(),
        _ => false,
    })
}
