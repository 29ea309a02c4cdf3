//! A trainer's side of the conversation about a dog.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::send_message::{MessageInput, mark_messages_read, send_message};
use crate::app::App;
use crate::domain::vocabulary::ItemKind;
use crate::domain::welfare::NOT_COPING;
use crate::ids::{DogId, FlagId, MessageId};
use crate::store::dog::{self, Dog};
use crate::store::flag::{self, Wanted};
use crate::store::message::Message;
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::store::{dog_summary, plan};
use crate::web::choices::Choices;
use crate::web::flags::came_from;
use crate::web::messages::about::{self, AboutView};
use crate::web::messages::{message_page, older, photo_goes_to};
use crate::web::photos::PhotoView;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, dog_page, notice, zones};

/// How many messages a page shows.
const A_PAGE: usize = 50;

/// A message as the page shows it.
struct Line {
    m: Message,
    when: String,
    /// Whether no trainer has answered or settled it.
    new: bool,
    about: Option<AboutView>,
    photos: Vec<PhotoView>,
    /// Whether a photo can be added to it now.
    adds_photo: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "conversations/show.html")]
pub(in crate::web) struct ConversationPage {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    lines: Vec<Line>,
    /// The message before which the older page goes on.
    older: Option<MessageId>,
    /// Whether this is the newest page; older ones are for reading.
    newest: bool,
    /// What is being written about.
    writing: Option<AboutView>,
    /// The page without it.
    without: String,
    waits: bool,
    /// "I am not coping", while it waits for its answer: a message alone does not settle it.
    not_coping: Option<FlagId>,
    /// The last message that is shown: what is sent or settled here is said knowing so much.
    seen: String,
    id: String,
    /// For whom what is typed is kept on the device.
    keeper: String,
    /// Where whoever writes came from and goes back to: "caseload", or empty.
    from: &'static str,
    /// What can be practised of the current plan, for a message that tells of a sitting.
    items: Choices,
}

/// The conversation, with whatever is wrong in a form of it.
pub(in crate::web) async fn page(
    app: &App,
    who: &mut SignedIn,
    dog: DogId,
    form: Form,
    (about, older): (&str, Option<MessageId>),
) -> Result<ConversationPage, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let (messages, more) = message_page(who, dog.id, older, A_PAGE).await?;
    let reader = (true, today);
    let abouts = about::of_messages(who, &dog, &messages, reader).await?;
    let writing = about::named(who, &dog, about, reader).await?;
    let ((waits, answered_to), open, plan, mut photos) = (
        dog_summary::question_waits(dog.id),
        flag::of_dog(dog.id, Wanted::Open),
        plan::newest(dog.id),
        PhotoView::of_messages(&who.member, dog.id, &messages),
    )
        .together()
        .read(&mut who.tx)
        .await?;
    let adds_to = photo_goes_to(&messages, who.member.id, moment.at);
    let items = plan.map(|plan| plan.items).unwrap_or_default();
    let practised = items.into_iter().filter(|item| item.kind != ItemKind::StandingArrangement);
    let seen = messages.last().map(|m| m.id.to_string()).unwrap_or_default();
    Ok(ConversationPage {
        page: Page::of(who, format!("{}: messages", dog.name), "caseload").with_errors(&form),
        tab: "messages",
        keeper: who.actor.membership.to_string(),
        about: dog_page::about(&dog, today),
        lines: messages
            .into_iter()
            .zip(abouts)
            .map(|(m, about)| Line {
                when: zones::day_and_time(m.sent_at, &dog.zone, today),
                new: !m.from_trainer && Some(m.sent_at) > answered_to,
                about,
                photos: PhotoView::among(&mut photos, m.id),
                adds_photo: adds_to == Some(m.id),
                m,
            })
            .collect(),
        older: more,
        newest: older.is_none(),
        writing,
        without: format!("/dogs/{}/messages", dog.id),
        waits,
        not_coping: open.iter().find(|flag| flag.rule.id == NOT_COPING.id).map(|flag| flag.id),
        seen,
        from: came_from(form.value("from")),
        items: practised.map(|item| (item.id.to_string(), item.name)).collect(),
        id: form.value("id").parse().unwrap_or_else(|_| moment.id::<MessageId>()).to_string(),
        form,
        dog,
    })
}

/// The conversation.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let about = query.get("about").map_or("", String::as_str);
    let from = query.get("from").cloned().unwrap_or_default();
    let form = Form::blank().with("from", from);
    let mut page = page(&app, &mut who, dog, form, (about, older(&query)?)).await?;
    page.page.notice = notice::of(&query);
    Ok(page.into_response())
}

/// Sends a message.
pub async fn send(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let about = about::in_form(&form)?;
    let body = form.required("body", 4000, "Write your message first.");
    let id = form.id::<MessageId>("id");
    let seen = form.id::<MessageId>("seen");
    let back = match came_from(form.value("from")) {
        "" => format!("/dogs/{dog}/messages"),
        from => format!("/{from}?after={dog}"),
    };
    let (Some(id), true) = (id, form.is_fine()) else {
        let named = form.value("subject").to_owned();
        let page = page(&app, &mut who, dog, form, (&named, None)).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    };
    let input = MessageInput { id, body: &body, seen, about };
    send_message(who.tx, &who.actor, dog, input, &app.moment()).await?;
    Ok(Redirect::to(&format!("{back}{}notice=sent", if back.contains('?') { "&" } else { "?" }))
        .into_response())
}

/// Says that no answer is needed to what was shown.
pub async fn settle(At(dog): At<DogId>, TrainerOnly(who): TrainerOnly, mut form: Form) -> Answer {
    mark_messages_read(who.tx, &who.actor, dog, form.id("seen")).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/messages?notice=settled")).into_response())
}
