//! The safety card: what somebody needs to know who has the dog with them, and one tap for a sitting. Whoever holds the link sees it;
//! a link that is wrong, ended, run out, or of a dog that left is the same 404.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use time::OffsetDateTime;

use crate::actions::Refusal;
use crate::actions::log_by_helper::log_by_helper;
use crate::app::App;
use crate::domain::access::Actor;
use crate::domain::dog::{DogFacts, Pronouns, tells};
use crate::domain::vocabulary::{FitAnswer, Gear, ItemKind, Line, Role, VetStatus};
use crate::ids::{DogId, PlanItemId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::flag::Wanted;
use crate::store::helper_link::{self, HelperLink, Opened};
use crate::store::plan::PlanItem;
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::store::token::Token;
use crate::store::{
    Tx, dog, dog_facts, dog_profile, fit, flag, lost_sheet, membership, plan, practice_log, trigger,
};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::plans::words::{capital, wear};
use crate::web::practice_logs::fields::{self, About};
use crate::web::today::cards::{Card, TapWhat};
use crate::web::today::day::{is_at_rest, is_away};
use crate::web::{Answer, At, Form, OwnerOnly, Page, WebError, notice, zones};

/// Where the card says what is wrong with a sitting.
const PRACTISED: &str = "practised";

/// What the card says of a dog.
struct Safety {
    dog: Dog,
    facts: DogFacts,
    pronouns: Pronouns,
    /// What to wear and where it clips, each once.
    wear: Vec<String>,
    /// Arrangements of the plan: name and what is asked.
    arrangements: Vec<(String, String)>,
    /// What to keep away from.
    triggers: Vec<String>,
    /// Whom to ring: who and number.
    ring: Vec<(String, String)>,
    /// What the sheet for a lost dog says.
    lost: lost_sheet::LostSheet,
    /// Its breed, as a sentence begins with it.
    breed: String,
    /// What must not come near, in the words of its profile; empty where nothing is known.
    must_not_meet: String,
    /// What it does not get; empty where nothing is known.
    allergies: String,
    /// Gear that the household said sits wrong.
    sits_wrong: Vec<Gear>,
    /// The plan's exercises that do not rest.
    exercises: Vec<PlanItem>,
    /// Whether some rest.
    rests: bool,
}

impl Safety {
    /// Whether a piece of gear sits wrong.
    fn is_wrong(&self, gear: Gear) -> bool {
        self.sits_wrong.contains(&gear)
    }

    /// Whether a vet should be asked before much is done.
    fn asks_for_care(&self) -> bool {
        self.facts.vet == VetStatus::Asked
            || self.facts.heart_or_breathing == Some(true)
            || self.facts.sore == Some(true)
    }
}

#[derive(Template, WebTemplate)]
#[template(path = "helpers/card.html")]
struct CardPage {
    page: Page,
    form: Form,
    safety: Safety,
    /// For whom it is; empty in the household's own view of it.
    name: String,
    note: String,
    until: String,
    /// The address of the link; empty in the household's own view of it.
    path: String,
    cards: Vec<Card>,
}
form_pages!(CardPage);

/// What is worn for an item, and where alone, for a line that nobody holds.
fn worn_for(item: &PlanItem) -> String {
    let words = wear(item.line, item.clip);
    match item.line {
        Line::TrailingLine if !item.place_name.is_empty() => format!("{words}: at {} alone", item.place_name),
        Line::TrailingLine => String::new(),
        _ => words,
    }
}

/// Whether somebody who stands in may do it: what trails or is held by a harness that sits wrong is not for them.
fn is_for_a_helper(item: &PlanItem, sits_wrong: &[Gear]) -> bool {
    let is_long = matches!(item.line, Line::LongLine | Line::TrailingLine);
    let is_placed = item.line != Line::TrailingLine || !item.place_name.is_empty();
    item.kind == ItemKind::Exercise && is_placed && !(is_long && sits_wrong.contains(&Gear::Harness))
}

/// Reads what the card says.
async fn safety(tx: &mut Tx, dog: Dog, now: OffsetDateTime) -> Result<Safety, WebError> {
    let today = zones::local_date(now, &dog.zone);
    let ((plan, facts, triggers), (open, fits, away), (trainer, people, lost)) = (
        (plan::newest(dog.id), dog_facts::find(dog.id), trigger::of_dog(dog.id)).together(),
        (flag::of_dog(dog.id, Wanted::Resting), fit::of_dog(dog.id), is_away(dog.id, today)).together(),
        (membership::find(dog.trainer), membership::of_household(dog.household), lost_sheet::find(dog.id))
            .together(),
    )
        .together()
        .read(tx)
        .await?;
    let items = plan.map(|plan| plan.items).unwrap_or_default();
    let mut worn: Vec<String> = Vec::new();
    for item in &items {
        let words = worn_for(item);
        if !words.is_empty() && !worn.contains(&words) {
            worn.push(words);
        }
    }
    // "Long line" says nothing beside "Long line, clipped to the back of the harness"
    let whole = worn.clone();
    worn.retain(|words| !whole.iter().any(|other| other.starts_with(&format!("{words}, "))));
    let wrong =
        fits.into_iter().filter(|fit| fit.answered.is_some_and(|(answer, _)| answer == FitAnswer::Changed));
    let sits_wrong: Vec<Gear> = wrong.map(|fit| fit.gear).collect();
    let profile = dog_profile::find(tx, dog.id).await?;
    let must_not_meet = profile.map(|profile| profile.safety.must_not_meet).unwrap_or_default();
    let ring = people.into_iter().chain(trainer).filter(|m| !m.phone.is_empty()).map(|m| (m.name, m.phone));
    let (arrangements, practised): (Vec<PlanItem>, Vec<PlanItem>) =
        items.into_iter().partition(|item| item.kind == ItemKind::StandingArrangement);
    let practised: Vec<PlanItem> =
        practised.into_iter().filter(|item| is_for_a_helper(item, &sits_wrong)).collect();
    let (rest, exercises): (Vec<PlanItem>, Vec<PlanItem>) =
        practised.into_iter().partition(|item| away || is_at_rest(&open, &dog, item));
    let said = |text: &str| if tells(text) { text.to_owned() } else { String::new() };
    Ok(Safety {
        breed: capital(&dog.breed),
        must_not_meet: said(&must_not_meet),
        allergies: said(&facts.allergies),
        sits_wrong,
        ring: ring.collect(),
        triggers: triggers.into_iter().map(|trigger| trigger.what).collect(),
        lost,
        arrangements: arrangements.into_iter().map(|item| (item.name, item.criterion)).collect(),
        exercises,
        rests: !rest.is_empty(),
        wear: worn,
        pronouns: facts.pronouns(),
        facts,
        dog,
    })
}

/// The link's page, or nothing.
async fn card_page(app: &App, opened: &mut Opened, token: &Token, form: Form) -> Result<CardPage, WebError> {
    let dog = of_link(opened).await?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let mut safety = safety(&mut opened.tx, dog, app.moment().at).await?;
    let exercises = std::mem::take(&mut safety.exercises);
    // what was sent and refused keeps its id, so that it can still be told once only
    let sent: Option<(PlanItemId, PracticeLogId)> =
        form.value("item").parse().ok().zip(form.value("id").parse().ok());
    let id_of =
        |item: &PlanItem| sent.filter(|(of, _)| *of == item.id).map_or_else(|| moment.id(), |(_, id)| id);
    let cards = exercises.into_iter().map(|item| {
        let id = id_of(&item);
        Card::new(item, (0, 0), &safety.dog, id)
    });
    let HelperLink { name, note, expires_at, .. } = &opened.link;
    Ok(CardPage {
        page: Page {
            practice: opened.practice.name.clone(),
            ..Page::plain(format!("With {}", safety.dog.name))
        }
        .with_errors(&form),
        cards: cards.filter(|card| card.tap.is_some()).collect(),
        name: name.clone(),
        note: note.clone(),
        until: zones::day_and_time(*expires_at, &safety.dog.zone, today),
        path: format!("/h/{}", token.text()),
        form,
        safety,
    })
}

/// The dog of a link, as its household sees it; archived ones are gone.
async fn of_link(opened: &mut Opened) -> Result<Dog, WebError> {
    let households = membership::households(opened.maker.id).read(&mut opened.tx).await?;
    let actor =
        Actor { practice: opened.practice.id, membership: opened.maker.id, role: Role::Owner, households };
    dog::find(&mut opened.tx, &actor, opened.link.dog).await?.ok_or(WebError::NotFound)
}

async fn opened(app: &App, token: &str, now: OffsetDateTime) -> Result<(Token, Opened), WebError> {
    let token = Token::shown(token).ok_or(WebError::NotFound)?;
    let opened = helper_link::open(&app.db, token.hash(), now).await?.ok_or(WebError::NotFound)?;
    Ok((token, opened))
}

/// The card, to whoever holds the link.
pub async fn show(
    State(app): State<App>,
    At(token): At<String>,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let (token, mut opened) = opened(&app, &token, app.moment().at).await?;
    let mut page = card_page(&app, &mut opened, &token, Form::blank()).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Keeps a sitting that a helper tells by one tap.
pub async fn log(State(app): State<App>, At(token): At<String>, mut form: Form) -> Answer {
    let moment = app.moment();
    let (token, mut opened) = opened(&app, &token, moment.at).await?;
    let dog = of_link(&mut opened).await?;
    let (id, item): (Option<PracticeLogId>, Option<PlanItemId>) = (form.id("id"), form.id("item"));
    let (Some(id), Some(item)) = (id, item) else {
        return Err(WebError::Status(StatusCode::BAD_REQUEST));
    };
    let item = plan::item(dog.id, item).read(&mut opened.tx).await?.ok_or(WebError::NotFound)?;
    if item.kind != ItemKind::Exercise {
        return Err(WebError::NotFound);
    }
    let about =
        About { id, dog: &dog, item: &item, places: &[], by: Role::Owner, now: moment.at, logged: None };
    let input = fields::one_tap(&mut form, &about);
    if !form.is_fine() {
        return again(&app, opened, &token, &form).await;
    }
    let today = zones::local_date(moment.at, &dog.zone);
    let mut page = card_page(&app, &mut opened, &token, form).await?;
    // what was kept already is a repeat, also where the exercise has come to rest since
    let is_kept = practice_log::fingerprint(&mut opened.tx, input.id).await?.is_some();
    if !is_kept && !page.cards.iter().any(|card| card.item.id == item.id) {
        page.form.refuse(PRACTISED, "That exercise rests for now. Tell the household what you did.");
        return Ok(page.again());
    }
    match log_by_helper(opened, input, today, &moment).await {
        Err(Refusal::Field { message, .. }) => {
            page.form.refuse(PRACTISED, message);
            Ok(page.again())
        }
        done => {
            done?;
            Ok(Redirect::to(&format!("/h/{}?notice=helper-kept", token.text())).into_response())
        }
    }
}

/// The card again; what is wrong stands at the exercises, whose forms are many.
async fn again(app: &App, mut opened: Opened, token: &Token, form: &Form) -> Result<Response, WebError> {
    let mut wrong = Form::blank().with("id", form.value("id")).with("item", form.value("item"));
    for (_, message) in form.errors() {
        wrong.refuse(PRACTISED, message);
    }
    let form = wrong;
    Ok(card_page(app, &mut opened, token, form).await?.again())
}

/// The card as a helper will see it, for the household.
pub async fn preview(State(app): State<App>, At(dog): At<DogId>, OwnerOnly(mut who): OwnerOnly) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let safety = safety(&mut who.tx, dog, app.moment().at).await?;
    let SignedIn { practice, .. } = who;
    let page = CardPage {
        page: Page { practice: practice.name, ..Page::plain(format!("With {}", safety.dog.name)) },
        form: Form::blank(),
        name: String::new(),
        note: String::new(),
        until: String::new(),
        path: String::new(),
        cards: Vec::new(),
        safety,
    };
    Ok(page.into_response())
}
