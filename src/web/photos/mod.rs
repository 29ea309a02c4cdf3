//! Photos: sent by a script as they are, cleaned, and shown to those who may see the dog.

use std::collections::HashMap;
use time::OffsetDateTime;

use axum::body::Bytes;
use axum::extract::{Query, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Redirect};
use serde::Serialize;
use tokio::sync::Semaphore;

use crate::actions::clean_photo::{MOST_BYTES, clean_photo};
use crate::actions::keep_photo::{keep_photo, remove_photo};
use crate::app::App;
use crate::domain::vocabulary::Role;
use crate::ids::{DogId, MessageId, PhotoId};
use crate::store::membership::Membership;
use crate::store::message::Message;
use crate::store::photo::{self, Of, Photo};
use crate::store::reading::Reading;
use crate::store::{Result, dog};
use crate::web::{Answer, AnyMember, At, WebError, json};

/// The most that a photo may weigh, in bytes.
pub const BYTES: usize = MOST_BYTES;
/// How many photos are cleaned at once: each may take hundreds of megabytes.
static CLEANERS: Semaphore = Semaphore::const_new(2);

/// Which photo it is, and of what.
fn wanted(query: &HashMap<String, String>) -> Option<(PhotoId, Of)> {
    let id = query.get("id")?.parse().ok()?;
    match (query.get("log"), query.get("encounter"), query.get("message")) {
        (Some(log), None, None) => Some((id, Of::Log(log.parse().ok()?))),
        (None, Some(encounter), None) => Some((id, Of::Encounter(encounter.parse().ok()?))),
        (None, None, Some(message)) => Some((id, Of::Message(message.parse().ok()?))),
        _ => None,
    }
}

#[derive(Serialize)]
struct Kept {
    version: u8,
    id: PhotoId,
    why: String,
}

/// A photo as pages show it: where it is, its size, and who kept it.
pub struct PhotoView {
    /// The path of the photo.
    pub path: String,
    /// The photo.
    pub photo: Photo,
    /// Whether whoever reads may take it away.
    pub may_go: bool,
}

impl PhotoView {
    /// The photos of a sitting or an encounter, as this person sees them.
    pub fn of(reader: &Membership, dog: DogId, of: Of) -> Reading<Vec<Self>> {
        photo::of(dog, of).then(Self::seen_by(reader, dog))
    }

    /// The photos of messages in their order, as this person sees them.
    pub fn of_messages(reader: &Membership, dog: DogId, messages: &[Message]) -> Reading<Vec<Self>> {
        let ends = [messages.first(), messages.last()].map(|message| message.map(|message| message.sent_at));
        let [from, to] = ends.map(|at| at.unwrap_or(OffsetDateTime::UNIX_EPOCH));
        photo::of_messages(dog, (from, to)).then(Self::seen_by(reader, dog))
    }

    fn seen_by(reader: &Membership, dog: DogId) -> impl FnOnce(Vec<Photo>) -> Result<Vec<Self>> + use<> {
        let (is_owner, me) = (reader.role == Role::Owner, reader.id);
        move |photos| {
            let views = photos.into_iter().map(|photo| Self {
                path: format!("/dogs/{dog}/photos/{}", photo.id),
                may_go: !is_owner || photo.by_member == me,
                photo,
            });
            Ok(views.collect())
        }
    }

    /// Those of one message.
    pub fn among(all: &mut Vec<Self>, message: MessageId) -> Vec<Self> {
        all.extract_if(.., |one| one.photo.of == Of::Message(message)).collect()
    }
}

/// Cleans a photo and keeps it: the body is the file, `?log=`, `?encounter=` or `?message=` says of what it is.
pub async fn keep(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
    file: Bytes,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    if query.get("account").is_some_and(|account| *account != who.member.id.to_string()) {
        return Err(WebError::Status(StatusCode::UNAUTHORIZED));
    }
    let (id, of) = wanted(&query).ok_or(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY))?;
    // cleaning takes seconds: nothing is held open meanwhile
    let (practice, member) = (who.practice.id, who.member.id);
    drop(who.tx);
    let _turn = CLEANERS.acquire().await.map_err(|error| WebError::Inside(error.into()))?;
    let cleaned = tokio::task::spawn_blocking(move || clean_photo(&file)).await;
    let clean = match cleaned.map_err(|error| WebError::Inside(error.into()))? {
        Ok(clean) => clean,
        Err(why) => {
            let said = Kept { version: 1, id, why: why.to_string() };
            return Ok(json::answer(StatusCode::UNPROCESSABLE_ENTITY, &said));
        }
    };
    let tx = app.db.for_member(practice, member).await?.ok_or(WebError::NotFound)?;
    keep_photo(tx, &who.actor, dog.id, (id, of), &clean, &app.moment()).await?;
    Ok(json::answer(StatusCode::OK, &Kept { version: 1, id, why: String::new() }))
}

/// A photo, to those who may see the dog.
pub async fn show(At((dog, id)): At<(DogId, PhotoId)>, AnyMember(mut who): AnyMember) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let bytes = photo::bytes(&mut who.tx, dog.id, id).await?.ok_or(WebError::NotFound)?;
    Ok(([(header::CONTENT_TYPE, "image/jpeg")], bytes).into_response())
}

/// Takes a photo away.
pub async fn remove(
    State(app): State<App>,
    At((dog, id)): At<(DogId, PhotoId)>,
    AnyMember(who): AnyMember,
) -> Answer {
    let is_owner = who.member.role == Role::Owner;
    let to = match remove_photo(who.tx, &who.actor, dog, id, &app.moment()).await? {
        Of::Log(log) => format!("/dogs/{dog}/log/{log}?notice=removed"),
        Of::Encounter(encounter) => format!("/dogs/{dog}/encounters/{encounter}?notice=removed"),
        Of::Message(_) if is_owner => format!("/messages?dog={dog}&notice=removed"),
        Of::Message(_) => format!("/dogs/{dog}/messages?notice=removed"),
    };
    Ok(Redirect::to(&to).into_response())
}
