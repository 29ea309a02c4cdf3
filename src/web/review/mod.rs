//! The review queue: what households told and nobody has looked at, one by one, with the plan beside it.

pub mod phrases;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Duration;
use uuid::Uuid;

use crate::actions::review::review;
use crate::actions::send_message::MessageInput;
use crate::app::App;
use crate::ids::{DogId, EncounterId, MessageId, PracticeLogId};
use crate::store::flag::{self, Wanted};
use crate::store::look::Of;
use crate::store::message::About;
use crate::store::review::{self, Context, Unread};
use crate::store::sign_in::SignedIn;
use crate::store::{dog, encounter, house, phrase, practice_log};
use crate::web::choices::Choices;
use crate::web::dog_page::log::{EncounterView, LogView};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::plans::words::capital;
use crate::web::watch::Watch;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

/// How far back the queue goes. What is older stands as new in its dog's log. House rule.
const BACK: Duration = Duration::weeks(4);
/// The most that one queue holds.
const MOST: i64 = 1000;
/// The longest word to a household: with the longest phrase it is as long as a message may be.
const LONGEST: usize = 3400;

/// What is being looked at.
enum Shown {
    Log(LogView),
    Encounter(EncounterView),
}

/// One thing to look at.
struct Item {
    unread: Unread,
    shown: Shown,
    /// What was found in it, with the address of its answer while that waits.
    watch: Vec<(Watch, String)>,
    context: Option<Context>,
    /// The last sittings there, in words.
    lately: Vec<String>,
    /// Where it stands by itself.
    path: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "review/show.html")]
struct ReviewPage {
    page: Page,
    form: Form,
    item: Option<Item>,
    /// How much waits, this one among it; and how much was looked at on this round.
    left: usize,
    done: usize,
    show: &'static str,
    phrases: Choices,
    /// Where the last look is taken back, and of which dog it was.
    undo: Option<String>,
    id: String,
}
form_pages!(ReviewPage);

impl ReviewPage {
    /// The queue from after this one.
    fn later(&self, item: &Item) -> String {
        format!("/review?show={}&done={}&after={}", self.show, self.done, item.unread.of.id())
    }
}

/// Which of the queue is wanted.
enum Wants {
    First,
    After(Uuid),
    This(DogId, Of),
}

/// What an address says of the round.
struct Round {
    show: &'static str,
    done: usize,
}

impl Round {
    fn of(show: &str, done: &str) -> Self {
        let show = if show == "everyone" { "everyone" } else { "mine" };
        Self { show, done: done.parse().unwrap_or(0).min(9999) }
    }
}

async fn page(
    app: &App,
    who: &mut SignedIn,
    round: Round,
    wanted: Wants,
    form: Form,
) -> Result<ReviewPage, WebError> {
    let moment = app.moment();
    let trainer = (round.show == "mine").then_some(who.member.id);
    let unread = review::unread(&mut who.tx, trainer, moment.at - BACK, MOST).await?;
    let left = unread.len();
    let next = match wanted {
        Wants::First => unread.into_iter().next(),
        Wants::After(id) => {
            let at = unread.iter().position(|one| one.of.id() == id).map_or(0, |at| at + 1);
            unread.into_iter().nth(at)
        }
        Wants::This(dog, of) => match unread.into_iter().find(|one| one.of == of) {
            Some(unread) => Some(unread),
            None => told(who, dog, of).await?,
        },
    };
    let item = match next {
        Some(unread) => Some(item(app, who, unread).await?),
        None => None,
    };
    let phrases = phrase::of_member(&mut who.tx, who.member.id).await?;
    Ok(ReviewPage {
        page: Page::of(who, "Review", "caseload").with_errors(&form),
        item,
        left,
        done: round.done,
        show: round.show,
        phrases: phrases.into_iter().map(|phrase| (phrase.id.to_string(), phrase.body)).collect(),
        undo: None,
        id: form.value("id").parse().unwrap_or_else(|_| moment.id::<MessageId>()).to_string(),
        form,
    })
}

/// What somebody else has looked at meanwhile, so that what was typed about it stays.
async fn told(who: &mut SignedIn, dog: DogId, of: Of) -> Result<Option<Unread>, WebError> {
    let Some(dog) = dog::find(&mut who.tx, &who.actor, dog).await? else { return Ok(None) };
    Ok(Some(Unread {
        of,
        dog: dog.id,
        name: dog.name,
        household: dog.household_name,
        zone: dog.zone,
        revision: 0,
        is_changed_since: false,
    }))
}

async fn item(app: &App, who: &mut SignedIn, unread: Unread) -> Result<Item, WebError> {
    let today = zones::local_date(app.moment().at, &unread.zone);
    let tx = &mut who.tx;
    let (shown, line) = match unread.of {
        Of::Log(id) => {
            let log = practice_log::find(tx, unread.dog, id).await?.ok_or(WebError::NotFound)?;
            let numbers = house::find().read(tx).await?.numbers;
            (Shown::Log(LogView::of(&log, &numbers, &unread.zone, today)), Some(log.line_id))
        }
        Of::Encounter(id) => {
            let kept = encounter::find(tx, unread.dog, id).await?.ok_or(WebError::NotFound)?;
            let mut met = EncounterView::of(&kept.encounter, &unread.zone, today);
            met.facts = capital(&met.facts);
            (Shown::Encounter(met), None)
        }
    };
    let flags = flag::of_dog(unread.dog, Wanted::About(unread.of.id())).read(tx).await?;
    let watch = flags.iter().map(|flag| (Watch::for_trainer(flag), format!("/flags/{}", flag.id)));
    let context = match line {
        Some(line) => review::context(tx, unread.dog, line).await?,
        None => None,
    };
    let lately = context.iter().flat_map(|context| &context.lately);
    Ok(Item {
        lately: lately
            .map(|(day, tries, met)| format!("{}: {met} of {tries}", zones::day(*day, today)))
            .collect(),
        path: match unread.of {
            Of::Log(id) => format!("/dogs/{}/log/{id}", unread.dog),
            Of::Encounter(id) => format!("/dogs/{}/encounters/{id}", unread.dog),
        },
        watch: watch.collect(),
        shown,
        context,
        unread,
    })
}

/// The next thing to look at; `?show=everyone` goes through everybody's dogs, `?after=` goes on after one that is left for later.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let text = |name: &str| query.get(name).map_or("", String::as_str);
    let wanted = match text("after").parse() {
        Ok(id) => Wants::After(id),
        Err(_) => Wants::First,
    };
    let round = Round::of(text("show"), text("done"));
    let mut page = page(&app, &mut who, round, wanted, Form::blank()).await?;
    page.page.notice = notice::of(&query);
    page.undo = undo(text("undo"));
    Ok(page.into_response())
}

/// The address at which a look is taken back, from "log.<dog>.<id>"; nothing where it is not that.
fn undo(said: &str) -> Option<String> {
    let mut parts = said.split('.');
    let kind = match parts.next()? {
        "log" => "log",
        "encounter" => "encounters",
        _ => return None,
    };
    let (dog, id): (DogId, Uuid) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
    Some(format!("/dogs/{dog}/{kind}/{id}/looked"))
}

async fn reviewed(app: &App, mut who: SignedIn, dog: DogId, of: Of, mut form: Form) -> Answer {
    dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let is_there = match of {
        Of::Log(id) => practice_log::find(&mut who.tx, dog, id).await?.is_some(),
        Of::Encounter(id) => encounter::find(&mut who.tx, dog, id).await?.is_some(),
    };
    if !is_there {
        return Err(WebError::NotFound);
    }
    let round = Round::of(form.value("show"), form.value("done"));
    let revision = form.value("revision").parse().unwrap_or(0);
    let id = form.id::<MessageId>("id");
    let mut body = form.text("body", LONGEST);
    let phrases = phrase::of_member(&mut who.tx, who.member.id).await?;
    if let Some(chosen) = form.id::<crate::ids::PhraseId>("phrase") {
        match phrases.iter().find(|phrase| phrase.id == chosen) {
            Some(phrase) if body.is_empty() => body.clone_from(&phrase.body),
            Some(phrase) => body = format!("{body}\n\n{}", phrase.body),
            None => form.refuse("phrase", "Choose one of your phrases."),
        }
    }
    let about = match of {
        Of::Log(id) => About::Log(id),
        Of::Encounter(id) => About::Encounter(id),
    };
    let message = id.filter(|_| !body.is_empty()).map(|id| MessageInput {
        id,
        body: &body,
        seen: None,
        about: Some(about),
    });
    let (show, done) = (round.show, round.done);
    let page = page(app, &mut who, round, Wants::This(dog, of), form).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let sent = if message.is_some() { "reviewed-told" } else { "reviewed" };
    let kind = if matches!(of, Of::Log(_)) { "log" } else { "encounter" };
    let to = format!("/review?show={show}&done={}&undo={kind}.{dog}.{}&notice={sent}", done + 1, of.id());
    let result = review(who.tx, &who.actor, dog, (of, revision), message, &app.moment()).await;
    page.settle(result, &to)
}

/// Looked at a sitting, with a word to the household where there is one; then the next.
pub async fn log(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    TrainerOnly(who): TrainerOnly,
    form: Form,
) -> Answer {
    reviewed(&app, who, dog, Of::Log(log), form).await
}

/// Looked at an encounter.
pub async fn encounter(
    State(app): State<App>,
    At((dog, encounter)): At<(DogId, EncounterId)>,
    TrainerOnly(who): TrainerOnly,
    form: Form,
) -> Answer {
    reviewed(&app, who, dog, Of::Encounter(encounter), form).await
}
