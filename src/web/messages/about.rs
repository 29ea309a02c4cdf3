//! The thing that a message is about, in words and as a link that whoever reads may open.

use time::Date;

use crate::domain::owner_words::OwnerWord;
use crate::domain::vocabulary::{EncounterKind, Word};
use crate::domain::welfare;
use crate::ids::DogId;
use crate::store::dog::Dog;
use crate::store::message::{About, Message, Subject, subject, subjects};
use crate::store::sign_in::SignedIn;
use crate::web::{Form, WebError, zones};

/// Where to write about something.
pub fn write_about(for_trainer: bool, dog: DogId, about: About) -> String {
    match for_trainer {
        true => format!("/dogs/{dog}/messages?about={about}#f-body"),
        false => format!("/messages?dog={dog}&about={about}#f-body"),
    }
}

/// A thing in words.
#[derive(Debug, Clone)]
pub struct AboutView {
    /// Which, as a form sends it.
    pub key: String,
    /// What it is called.
    pub words: String,
    /// Where it is read.
    pub href: String,
}

impl AboutView {
    fn of(known: &Subject, for_trainer: bool, dog: &Dog, today: Date) -> Self {
        let day = zones::day(zones::local_date(known.at, &dog.zone), today);
        let words = match known.about {
            About::Log(_) => format!("{}, {day}", known.what),
            About::Encounter(_) => {
                let kind = EncounterKind::from_stored(&known.what);
                let words = kind.map_or("Something that happened", |kind| match for_trainer {
                    true => kind.label(),
                    false => kind.for_owner(),
                });
                format!("{words}, {day}")
            }
            About::Plan(_) if for_trainer => format!("Plan {}, {day}", known.what),
            About::Plan(_) => format!("The plan of {day}"),
            About::Flag(_) => {
                let rule = welfare::rule(&known.what);
                let title = rule.map_or("Something to watch", |rule| {
                    if for_trainer { rule.title } else { rule.owner_title }
                });
                format!("{title}, {day}")
            }
        };
        let href = path(known, for_trainer, dog.id);
        Self { key: known.about.to_string(), words, href }
    }
}

/// An owner reads a finding on the page of the sitting or encounter that it was raised at.
fn path(known: &Subject, for_trainer: bool, dog: DogId) -> String {
    match (known.about, known.raised_at) {
        (About::Log(id), _) => format!("/dogs/{dog}/log/{id}"),
        (About::Encounter(id), _) => format!("/dogs/{dog}/encounters/{id}"),
        (About::Plan(id), _) if for_trainer => format!("/dogs/{dog}/plan/versions/{id}"),
        (About::Plan(_), _) => format!("/plan?dog={dog}"),
        (About::Flag(id), _) if for_trainer => format!("/flags/{id}"),
        (About::Flag(_), Some(About::Log(id))) => format!("/dogs/{dog}/log/{id}"),
        (About::Flag(_), Some(About::Encounter(id))) => format!("/dogs/{dog}/encounters/{id}"),
        (About::Flag(_), _) => format!("/today?dog={dog}"),
    }
}

/// What each of these messages is about, in their order.
pub async fn of_messages(
    who: &mut SignedIn,
    dog: &Dog,
    messages: &[Message],
    (for_trainer, today): (bool, Date),
) -> Result<Vec<Option<AboutView>>, WebError> {
    let abouts: Vec<About> = messages.iter().filter_map(|message| message.about).collect();
    let known = subjects(&mut who.tx, dog.id, &abouts).await?;
    let view = |about: About| {
        let known = known.iter().find(|known| known.about == about)?;
        Some(AboutView::of(known, for_trainer, dog, today))
    };
    Ok(messages.iter().map(|message| message.about.and_then(view)).collect())
}

/// The thing that a form or an address names, where it is of this dog; what is of another is not found.
pub async fn named(
    who: &mut SignedIn,
    dog: &Dog,
    text: &str,
    (for_trainer, today): (bool, Date),
) -> Result<Option<AboutView>, WebError> {
    let Some(about) = read(text)? else { return Ok(None) };
    let known = subject(&mut who.tx, dog.id, about).await?.ok_or(WebError::NotFound)?;
    Ok(Some(AboutView::of(&known, for_trainer, dog, today)))
}

/// The thing that a text names; `None` where it names none.
fn read(text: &str) -> Result<Option<About>, WebError> {
    match text {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|()| WebError::NotFound),
    }
}

/// The thing that a form names.
pub fn in_form(form: &Form) -> Result<Option<About>, WebError> {
    read(form.value("subject"))
}
