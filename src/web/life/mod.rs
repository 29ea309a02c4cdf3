//! What goes on in a dog's life: the list with its form, and the page of each. Owners and trainers use the same ones.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect, Response};
use time::{Date, Duration};

use crate::actions::Refusal;
use crate::actions::keep_life_event::{add_life_event, edit_life_event};
use crate::actions::remove_life_event::remove_life_event;
use crate::app::App;
use crate::domain::owner_words::OwnerWord;
use crate::domain::vocabulary::{LifeKind, Role, Sex, Word};
use crate::ids::{DogId, LifeEventId};
use crate::store::dog::{self, Dog};
use crate::store::life_event::{self, LifeEvent, Told};
use crate::store::sign_in::SignedIn;
use crate::web::choices::Choices;
use crate::web::{Answer, AnyMember, At, Form, Page, WebError, notice, own_dog, zones};

/// Days that something may lie behind: thirty years, more than the oldest dog on record.
const BACK: Duration = Duration::days(30 * 366);
/// Days that something may lie ahead.
const AHEAD: Duration = Duration::days(366);

/// One of them, as lists show it.
pub struct LifeView {
    /// Its id.
    pub id: LifeEventId,
    /// What it is.
    pub what: &'static str,
    /// From when to when.
    pub when: String,
    /// Its note.
    pub note: String,
    /// Who told it.
    pub by: String,
    /// Whether the work rests for it today.
    pub rests: bool,
}

impl LifeView {
    /// For whoever reads it.
    pub fn of(event: LifeEvent, for_trainer: bool, today: Date) -> Self {
        let rests = event.rest().is_some_and(|rest| rest.covers(today));
        let LifeEvent { id, told, by, .. } = event;
        let from = zones::day(told.from, today);
        let when = match told.to {
            Some(to) if to == told.from => from,
            Some(to) => format!("{from} to {}", zones::day(to, today)),
            None if lasts(told.kind) => format!("since {from}"),
            None => from,
        };
        Self { id, what: words(told.kind, for_trainer), when, note: told.note, by, rests }
    }
}

/// Whether something goes on where no last day was told.
fn lasts(kind: LifeKind) -> bool {
    kind.rests() || kind == LifeKind::Medicine
}

fn words(kind: LifeKind, for_trainer: bool) -> &'static str {
    if for_trainer { kind.label() } else { kind.for_owner() }
}

/// The frame of both pages.
struct View {
    /// The one that is changed; `None` where one is added.
    one: Option<LifeEventId>,
    id: String,
    kinds: Choices,
    events: Vec<LifeView>,
    /// Whether there are more than the page shows.
    cut: bool,
    /// A mark of how the one that is changed stood when the page was made.
    seen: String,
    /// How it stands by now, where somebody else changed it meanwhile.
    meanwhile: Option<LifeView>,
}

#[derive(Template, WebTemplate)]
#[template(path = "life/owner.html")]
struct OwnerPage {
    page: Page,
    form: Form,
    dog: Dog,
    view: View,
}

#[derive(Template, WebTemplate)]
#[template(path = "life/trainer.html")]
struct TrainerPage {
    page: Page,
    form: Form,
    dog: Dog,
    view: View,
}

/// On which state of something a form is made.
enum Seen {
    /// As it stands.
    Now,
    /// As the form says that it stood.
    AsTheFormSays,
    /// As it stands since somebody else changed it, which is shown beside the form.
    Meanwhile,
}

async fn page(
    who: &mut SignedIn,
    dog: Dog,
    (one, form): (Option<(&LifeEvent, Seen)>, Form),
    (today, said): (Date, Option<String>),
) -> Result<Response, WebError> {
    let for_trainer = who.member.role != Role::Owner;
    let events = match one {
        Some(_) => Vec::new(),
        None => life_event::of_dog(dog.id, None).read(&mut who.tx).await?,
    };
    let cut = i64::try_from(events.len()).is_ok_and(|found| found >= life_event::MOST);
    let view = View {
        cut,
        one: one.as_ref().map(|(event, _)| event.id),
        seen: match &one {
            // what was wrong in the form is put right on the state that it was made on
            Some((_, Seen::AsTheFormSays)) => form.value("seen").to_owned(),
            Some((event, _)) => event.told.stamp(),
            None => String::new(),
        },
        meanwhile: match one {
            Some((event, Seen::Meanwhile)) => Some(LifeView::of(event.clone(), for_trainer, today)),
            _ => None,
        },
        id: form.value("id").to_owned(),
        kinds: LifeKind::ALL
            .iter()
            .filter(|kind| **kind != LifeKind::Season || dog.sex != Some(Sex::Male))
            .map(|kind| (kind.stored().to_owned(), words(*kind, for_trainer).to_owned()))
            .collect(),
        events: events.into_iter().map(|event| LifeView::of(event, for_trainer, today)).collect(),
    };
    let title = format!("{}: what goes on", dog.name);
    let status = form.status();
    if for_trainer {
        let page = Page::of(who, title, "caseload").with_errors(&form).with_notice(said);
        return Ok((status, TrainerPage { page, form, dog, view }).into_response());
    }
    let page = own_dog::page(who, title, "progress").await?.with_errors(&form).with_notice(said);
    Ok((status, OwnerPage { page, form, dog, view }).into_response())
}

fn read(form: &mut Form, today: Date) -> Option<Told> {
    let kind: Option<LifeKind> = form.word("kind");
    if kind.is_none() {
        form.refuse("kind", "Choose what it is.");
    }
    let (from, to) = (day(form, "first_day", today), day(form, "last_day", today));
    if from.is_none() {
        form.refuse("first_day", "Enter the first day.");
    }
    if let (Some(from), Some(to)) = (from, to)
        && to < from
    {
        form.refuse("last_day", "Last day: this is before the first day. Enter the same day or a later one.");
    }
    let note = form.text("note", 300);
    form.is_fine().then_some(())?;
    Some(Told { kind: kind?, from: from?, to, note })
}

fn day(form: &mut Form, field: &str, today: Date) -> Option<Date> {
    let day = form.date(field)?;
    if day > today + AHEAD {
        form.refuse_by_name(field, "this is more than a year ahead. Check the year.");
    } else if today - day > BACK {
        form.refuse_by_name(field, "this is more than 30 years ago. Check the year.");
    }
    Some(day)
}

async fn load(app: &App, who: &mut SignedIn, dog: DogId) -> Result<(Dog, Date), WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    Ok((dog, today))
}

/// The list, and the form for one more.
pub async fn list(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let (dog, today) = load(&app, &mut who, dog).await?;
    let id: LifeEventId = app.moment().id();
    let form = Form::blank().with("id", id.to_string());
    page(&mut who, dog, (None, form), (today, notice::of(&query))).await
}

/// Tells one more.
pub async fn add(
    State(app): State<App>,
    At(dog): At<DogId>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let (dog, today) = load(&app, &mut who, dog).await?;
    let moment = app.moment();
    let id = form.id("id").unwrap_or_else(|| moment.id());
    let Some(told) = read(&mut form, today) else {
        return page(&mut who, dog, (None, form), (today, None)).await;
    };
    add_life_event(who.tx, &who.actor, dog.id, (id, &told), &moment).await?;
    Ok(Redirect::to(&format!("/dogs/{}/life?notice=life-kept", dog.id)).into_response())
}

/// The page of one.
pub async fn show(
    State(app): State<App>,
    At((dog, id)): At<(DogId, LifeEventId)>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let (dog, today) = load(&app, &mut who, dog).await?;
    let event = life_event::find(dog.id, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    let told = &event.told;
    let form = Form::blank()
        .with("kind", told.kind.stored())
        .with("first_day", told.from.to_string())
        .with("last_day", told.to.map(|day| day.to_string()).unwrap_or_default())
        .with("note", &told.note);
    page(&mut who, dog, (Some((&event, Seen::Now)), form), (today, None)).await
}

/// Puts one right.
pub async fn edit(
    State(app): State<App>,
    At((dog, id)): At<(DogId, LifeEventId)>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let (dog, today) = load(&app, &mut who, dog).await?;
    let event = life_event::find(dog.id, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    let Some(told) = read(&mut form, today) else {
        return page(&mut who, dog, (Some((&event, Seen::AsTheFormSays)), form), (today, None)).await;
    };
    let seen = form.value("seen").to_owned();
    match edit_life_event(who.tx, &who.actor, dog.id, (id, &told, &seen), &app.moment()).await {
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let event = life_event::find(dog.id, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
            return page(&mut who, dog, (Some((&event, Seen::Meanwhile)), form), (today, None)).await;
        }
        done => done?,
    }
    Ok(Redirect::to(&format!("/dogs/{}/life?notice=life-kept", dog.id)).into_response())
}

/// Takes one out.
pub async fn remove(
    State(app): State<App>,
    At((dog, id)): At<(DogId, LifeEventId)>,
    AnyMember(who): AnyMember,
) -> Answer {
    remove_life_event(who.tx, &who.actor, dog, id, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/life?notice=removed")).into_response())
}
