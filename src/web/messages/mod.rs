//! An owner's conversation with the trainers of their dog.

pub mod about;

use std::collections::HashMap;
use time::OffsetDateTime;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::send_message::{MessageInput, mark_messages_read, send_message};
use crate::app::App;
use crate::ids::{DogId, MembershipId, MessageId};
use crate::store::dog::Dog;
use crate::store::message::Message;
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::store::{dog, message};
use crate::web::messages::about::AboutView;
use crate::web::photos::PhotoView;
use crate::web::{Answer, Form, OwnerOnly, Page, WebError, notice, own_dog, zones};

/// How many messages a page shows.
const A_PAGE: usize = 50;
/// The most characters of a message.
const LONGEST: usize = 4000;

/// A message as the page shows it.
struct Line {
    mine: bool,
    body: String,
    name: String,
    when: String,
    new: bool,
    about: Option<AboutView>,
    photos: Vec<PhotoView>,
    /// Whether a photo can be added to it now.
    adds_photo: bool,
    id: MessageId,
}

#[derive(Template, WebTemplate)]
#[template(path = "messages/show.html")]
struct MessagesPage {
    page: Page,
    form: Form,
    dog: Dog,
    dogs: Vec<Dog>,
    here: &'static str,
    id: String,
    /// For whom what is typed is kept on the device.
    keeper: String,
    /// The last message that is shown: what is sent or marked here is said knowing so much.
    seen: String,
    lines: Vec<Line>,
    /// The message before which the older page goes on.
    older: Option<MessageId>,
    /// Whether this is the newest page; older ones are for reading.
    newest: bool,
    /// What is being written about.
    about: Option<AboutView>,
    /// The page without it.
    without: String,
    unread: bool,
    replies: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "own_dog/none.html")]
struct NoDogPage {
    page: Page,
}

async fn conversation(
    app: &App,
    who: &mut SignedIn,
    page: Page,
    (dog, dogs): (Dog, Vec<Dog>),
    form: Form,
    (about, older): (&str, Option<MessageId>),
) -> Result<Response, WebError> {
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let me = who.member.id;
    let (messages, more) = message_page(who, dog.id, older, A_PAGE).await?;
    let seen = messages.last().map(|m| m.id.to_string()).unwrap_or_default();
    let reader = (false, today);
    let abouts = about::of_messages(who, &dog, &messages, reader).await?;
    let (read_to, mut photos) =
        (message::read_to(dog.id, me), PhotoView::of_messages(&who.member, dog.id, &messages))
            .together()
            .read(&mut who.tx)
            .await?;
    let adds_to = photo_goes_to(&messages, me, moment.at);
    let about = about::named(who, &dog, about, reader).await?;
    let lines: Vec<Line> = messages
        .into_iter()
        .zip(abouts)
        .map(|(m, about)| Line {
            about,
            photos: PhotoView::among(&mut photos, m.id),
            adds_photo: adds_to == Some(m.id),
            id: m.id,
            mine: m.by == me,
            new: m.from_trainer && read_to.is_none_or(|to| m.sent_at > to),
            when: zones::day_and_time(m.sent_at, &dog.zone, today),
            body: m.body,
            name: m.name,
        })
        .collect();
    let status = if form.is_fine() { StatusCode::OK } else { StatusCode::UNPROCESSABLE_ENTITY };
    let id: MessageId = if form.is_fine() { moment.id() } else { sent_id(&form)? };
    let page = MessagesPage {
        page: page.with_errors(&form),
        form,
        here: "/messages",
        id: id.to_string(),
        keeper: who.actor.membership.to_string(),
        seen,
        unread: lines.iter().any(|line| line.new),
        lines,
        older: more,
        newest: older.is_none(),
        about,
        without: format!("/messages?dog={}", dog.id),
        replies: who.practice.replies.clone(),
        dog,
        dogs,
    };
    Ok((status, page).into_response())
}

/// How long after a message a photo may be added to it. House rule: it belongs to what was just said.
const PHOTO_FOLLOWS: time::Duration = time::Duration::hours(1);

/// The message that a photo would be added to: one's own that stands last, while it is new.
pub(in crate::web) fn photo_goes_to(
    messages: &[Message],
    me: MembershipId,
    now: OffsetDateTime,
) -> Option<MessageId> {
    let last = messages.last().filter(|last| last.by == me && now - last.sent_at < PHOTO_FOLLOWS);
    last.map(|last| last.id)
}

/// The message before which an older page goes on.
pub(in crate::web) fn older(query: &HashMap<String, String>) -> Result<Option<MessageId>, WebError> {
    query.get("older").map(|text| text.parse().map_err(|_| WebError::NotFound)).transpose()
}

/// A page of a conversation, oldest first, with the message before which it goes on where there are older ones.
pub(in crate::web) async fn message_page(
    who: &mut SignedIn,
    dog: DogId,
    older: Option<MessageId>,
    most: usize,
) -> Result<(Vec<Message>, Option<MessageId>), WebError> {
    let before = match older {
        Some(id) => {
            let at = message::sent_at(&mut who.tx, dog, id).await?.ok_or(WebError::NotFound)?;
            Some((at, id))
        }
        None => None,
    };
    let wanted = i64::try_from(most + 1).unwrap_or(i64::MAX);
    let mut messages = message::of_dog(&mut who.tx, dog, before, wanted).await?;
    let more = messages.len() > most;
    if more {
        messages.remove(0);
    }
    let first = messages.first().map(|message| message.id).filter(|_| more);
    Ok((messages, first))
}

/// The id that came with a form.
fn sent_id(form: &Form) -> Result<MessageId, WebError> {
    form.value("id").parse().map_err(|_| WebError::Status(StatusCode::BAD_REQUEST))
}

/// The dog that a form names.
fn sent_dog(form: &Form) -> Result<DogId, WebError> {
    form.value("dog").parse().map_err(|_| WebError::NotFound)
}

/// The conversation about `?dog=`.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let (page, dogs) = own_dog::page_and_dogs(&mut who, ("Messages", "messages"), &query).await?;
    let page = page.with_notice(notice::of(&query));
    match dogs {
        Some(chosen) => {
            let about = query.get("about").map_or("", String::as_str);
            let older = older(&query)?;
            conversation(&app, &mut who, page, chosen, Form::blank(), (about, older)).await
        }
        None => Ok(NoDogPage { page }.into_response()),
    }
}

/// Sends a message; whoever writes has read what stands above.
pub async fn send(State(app): State<App>, OwnerOnly(mut who): OwnerOnly, mut form: Form) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, sent_dog(&form)?).await?.ok_or(WebError::NotFound)?;
    let id = sent_id(&form)?;
    let seen: Option<MessageId> = form.id("seen");
    let about = about::in_form(&form)?;
    let body = form.required("body", LONGEST, "Write something first.");
    if !form.is_fine() {
        let page = own_dog::page(&mut who, "Messages", "messages").await?;
        let dogs = dog::of_owner(who.member.id).read(&mut who.tx).await?;
        let named = form.value("subject").to_owned();
        return conversation(&app, &mut who, page, (dog, dogs), form, (&named, None)).await;
    }
    let input = MessageInput { id, body: &body, seen, about };
    send_message(who.tx, &who.actor, dog.id, input, &app.moment()).await?;
    Ok(Redirect::to(&format!("/messages?dog={}&notice=message-sent", dog.id)).into_response())
}

/// Marks what was shown about a dog as read.
pub async fn mark_read(OwnerOnly(who): OwnerOnly, mut form: Form) -> Answer {
    let dog = sent_dog(&form)?;
    mark_messages_read(who.tx, &who.actor, dog, form.id("seen")).await?;
    Ok(Redirect::to(&format!("/messages?dog={dog}&notice=messages-read")).into_response())
}
