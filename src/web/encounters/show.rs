//! An encounter and what to do about it, first things first.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::app::App;
use crate::domain::owner_words::OwnerWord;
use crate::domain::revision::may_revise;
use crate::domain::vocabulary::{EncounterKind, FlagState, Role, Word};
use crate::ids::{DogId, EncounterId};
use crate::store::dog::Dog;
use crate::store::encounter::{Encounter, Kept};
use crate::store::flag::Wanted;
use crate::store::look::Look;
use crate::store::membership::Membership;
use crate::store::message::About;
use crate::store::reading::Together;
use crate::store::revision::Revision;
use crate::store::sign_in::SignedIn;
use crate::store::trigger::Trigger;
use crate::store::{dog, encounter, flag, look, membership, photo, trigger};
use crate::web::encounters::edit::page_of;
use crate::web::encounters::fields::{kind_words, reaction_words};
use crate::web::looks::LookView;
use crate::web::messages::about::write_about;
use crate::web::photos::PhotoView;
use crate::web::revisions::{self, Change, Facts};
use crate::web::watch::Watch;
use crate::web::{Answer, AnyMember, At, Page, WebError, notice, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "encounters/show_owner.html")]
struct OwnerPage {
    page: Page,
    dog: Dog,
    when: String,
    heading: &'static str,
    lead: String,
    watch: Vec<Watch>,
    /// Where to write about it.
    write: String,
    facts: Facts,
    note: String,
    phone: String,
    /// Whether the dog ran off: then it may still be gone.
    has_bolted: bool,
    /// Whether somebody said that they are not coping.
    is_not_coping: bool,
    past: Past,
    look: Option<LookView>,
    photos: Vec<PhotoView>,
}

#[derive(Template, WebTemplate)]
#[template(path = "encounters/show_trainer.html")]
struct TrainerPage {
    page: Page,
    dog: Dog,
    when: String,
    heading: &'static str,
    watch: Vec<Watch>,
    /// Where to write about it.
    write: String,
    facts: Facts,
    note: String,
    past: Past,
    look: Option<LookView>,
    photos: Vec<PhotoView>,
}

/// What became of an encounter since it was told.
struct Past {
    /// The address of its page.
    path: String,
    /// Whether whoever reads may change or remove it.
    may_revise: bool,
    /// Whether it was removed.
    is_removed: bool,
    /// What was done to it, the newest first.
    changes: Vec<Change>,
}

/// The page of an encounter.
pub async fn show(
    State(app): State<App>,
    At((dog, id)): At<(DogId, EncounterId)>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let kept = encounter::find(&mut who.tx, dog.id, id).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let ((mut flags, triggers, revisions), look, (photos, trainer)) = (
        (
            flag::of_dog(dog.id, Wanted::About(id.0)),
            trigger::of_dog(dog.id),
            encounter::revisions(dog.id, id),
        )
            .together(),
        (membership::find(kept.by), look::at(dog.id, look::Of::Encounter(id))).together(),
        (PhotoView::of(&who.member, dog.id, photo::Of::Encounter(id)), membership::find(dog.trainer))
            .together(),
    )
        .together()
        .read(&mut who.tx)
        .await?;
    flags.retain(|flag| flag.state != FlagState::Withdrawn);
    let past = past(&app, &who, &dog, &kept, (&revisions, &triggers), today);
    let look = look_of(look, &dog, &kept, today);
    let phone = trainer.map(|trainer| trainer.phone).unwrap_or_default();
    let met = kept.encounter;
    let when = zones::day_and_time(met.happened_at, &dog.zone, today);
    let trainer = who.member.role != Role::Owner;
    let facts = facts(&met, &triggers, trainer);
    let heading = kind_words(met.facts.kind, trainer);
    let note = met.note;
    let write = write_about(trainer, dog.id, About::Encounter(id));
    if trainer {
        let page =
            Page::of(&who, format!("{}: {heading}", dog.name), "caseload").with_notice(notice::of(&query));
        let watch = flags.iter().map(Watch::for_trainer).collect();
        return Ok(TrainerPage { page, dog, when, heading, watch, write, facts, note, past, look, photos }
            .into_response());
    }
    let watch: Vec<Watch> = flags.iter().map(Watch::for_owner).collect();
    let lead = lead(met.facts.kind, &watch, &dog.trainer_name);
    let heading =
        if met.facts.kind == EncounterKind::NotCoping { "Thank you for saying so" } else { heading };
    let page = own_dog::page(&mut who, format!("{}: {heading}", dog.name), "today")
        .await?
        .with_notice(notice::of(&query));
    let is_not_coping = met.facts.kind == EncounterKind::NotCoping;
    let has_bolted = met.facts.kind == EncounterKind::Bolted;
    Ok(OwnerPage {
        page,
        dog,
        when,
        heading,
        lead,
        watch,
        write,
        facts,
        note,
        phone,
        has_bolted,
        is_not_coping,
        past,
        look,
        photos,
    }
    .into_response())
}

/// How it stands with the trainers; `None` where one of them told it.
fn look_of(
    (by, look): (Option<Membership>, Option<Look>),
    dog: &Dog,
    kept: &Kept,
    today: Date,
) -> Option<LookView> {
    if kept.removed_at.is_some() || by.is_none_or(|by| by.role != Role::Owner) {
        return None;
    }
    Some(LookView::of(look, kept.revision, &dog.zone, today))
}

fn past(
    app: &App,
    who: &SignedIn,
    dog: &Dog,
    kept: &Kept,
    (revisions, triggers): (&[Revision<Encounter>], &[Trigger]),
    today: Date,
) -> Past {
    let now = &kept.encounter;
    let trainer = who.member.role != Role::Owner;
    let said = |met: &Encounter| told(met, triggers, &dog.zone, today, trainer);
    let may = may_revise(&who.actor, kept.by, kept.received_at, app.moment().at);
    let asks_for_help = now.facts.kind == EncounterKind::NotCoping;
    Past {
        path: page_of(kept),
        may_revise: may.allowed() && kept.removed_at.is_none() && !asks_for_help,
        is_removed: kept.removed_at.is_some(),
        changes: revisions::changes(revisions, now, said, &dog.zone, today),
    }
}

/// Everything that an encounter says, as whoever changes it compares it.
pub(super) fn told(met: &Encounter, triggers: &[Trigger], zone: &str, today: Date, trainer: bool) -> Facts {
    let mut told = vec![
        ("When", zones::day_and_time(met.happened_at, zone, today)),
        ("What happened", kind_words(met.facts.kind, trainer).to_owned()),
    ];
    told.extend(facts(met, triggers, trainer));
    told.extend(Some(met.note.clone()).filter(|note| !note.is_empty()).map(|note| ("Note", note)));
    told
}

fn lead(kind: EncounterKind, watch: &[Watch], trainer: &str) -> String {
    match (kind, watch.is_empty()) {
        (EncounterKind::NotCoping, _) => format!(
            "{trainer} is asked to answer as soon as possible, within a day: on the list only safety and health stand before it. You do not have \
             to solve this alone, and nothing has to be practised before there is an answer."
        ),
        (_, true) => {
            "Written down. It helps to see what happens between lessons; nothing else is needed now."
                .to_owned()
        }
        (_, false) => format!("Written down, and {trainer} sees it. This first:"),
    }
}

/// What was stated, label and value.
fn facts(met: &Encounter, triggers: &[Trigger], trainer: bool) -> Facts {
    let f = &met.facts;
    let trigger = triggers.iter().find(|trigger| Some(trigger.id) == met.trigger);
    let trigger = trigger.map(|trigger| trigger.what.clone());
    let yes_no = |said: Option<bool>| said.map(|yes| if yes { "Yes" } else { "No" }.to_owned());
    let towards = f.towards.map(|word| if trainer { word.label() } else { word.for_owner() }.to_owned());
    let strength = f.reaction.map(|n| match trainer {
        true => format!("{n} of 4 · {}", reaction_words(n)),
        false => reaction_words(n).to_owned(),
    });
    let rows = [
        ("How strong", strength),
        (if trainer { "Trigger" } else { "What it was about" }, trigger),
        ("What", Some(met.what.clone())),
        ("How far", f.distance_m.map(|m| format!("{m} m"))),
        ("Towards", towards),
        ("Skin broken", yes_no(f.broken_skin)),
        ("Loose and playful", yes_no(met.playful)),
        ("Froze or went stiff", yes_no(met.froze)),
        ("Warned first", yes_no(f.warned)),
        ("Lead or line", f.line.map(|word| word.label().to_owned())),
        ("Recovered", f.recovery.map(|word| word.label().to_owned())),
        ("Where", Some(met.place_name.clone())),
    ];
    rows.into_iter()
        .filter_map(|(label, value)| value.filter(|value| !value.is_empty()).map(|value| (label, value)))
        .collect()
}
