//! Taking one thing that a phone kept: read as the form that it was, with when it was lived.

use axum::http::StatusCode;
use time::{Duration, OffsetDateTime};

use super::{KeptThere, Kind, Taken, revise};
use crate::actions::Refusal;
use crate::actions::record_encounter::record_from_phone;
use crate::actions::say_not_coping::say_not_coping;
use crate::actions::submit_practice_log::{Logged, submit_practice_log};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::encounter::EncounterFacts;
use crate::domain::sitting::Try;
use crate::domain::sync::{Lived, PhoneTime, lived};
use crate::domain::vocabulary::{Capture, EncounterKind, ItemKind, Role, Word};
use crate::ids::{DogId, EncounterId, MessageId, PlanItemId, PracticeLogId};
use crate::store::dog::{self, Dog};
use crate::store::encounter::Encounter;
use crate::store::{Tx, place, plan, trigger};
use crate::web::practice_logs::fields::{self, About};
use crate::web::{Form, WebError, encounters, zones};

/// The most tries of one sitting.
const MOST_TRIES: usize = 200;

/// Takes one, in this transaction.
pub(super) async fn one(
    tx: Tx,
    actor: &Actor,
    kept: KeptThere,
    phone_now: OffsetDateTime,
    moment: &Moment,
) -> Result<Taken, WebError> {
    let (id, kind, dog, of) = (kept.id, kept.kind, kept.dog, kept.of.unwrap_or(kept.id));
    match taken(tx, actor, kept, phone_now, moment).await {
        Ok(is_new) => {
            let noun = if matches!(kind, Kind::Log | Kind::LogEdit) { "log" } else { "encounters" };
            let state = if is_new { "kept" } else { "repeat" };
            Ok(Taken { id, state, status: 200, why: Vec::new(), page: format!("/dogs/{dog}/{noun}/{of}") })
        }
        Err(No::For(status, why)) => {
            Ok(Taken { id, state: "refused", status: status.as_u16(), why, page: String::new() })
        }
        Err(No::Failed(error)) => Err(error),
    }
}

/// Why it was not taken: for a reason that the phone is told, or because the service failed.
pub(super) enum No {
    For(StatusCode, Vec<String>),
    Failed(WebError),
}

impl No {
    pub(super) fn because(status: StatusCode, why: &str) -> Self {
        Self::For(status, vec![why.to_owned()])
    }

    pub(super) fn found() -> Self {
        Self::because(
            StatusCode::NOT_FOUND,
            "This dog or this part of its plan is not here for you any more. Ask your trainer.",
        )
    }

    pub(super) fn form(form: &Form) -> Self {
        Self::For(
            StatusCode::UNPROCESSABLE_ENTITY,
            form.errors().iter().map(|(_, message)| message.clone()).collect(),
        )
    }
}

impl From<crate::store::Error> for No {
    fn from(error: crate::store::Error) -> Self {
        Self::Failed(error.into())
    }
}

impl From<Refusal> for No {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::NotFound => Self::found(),
            Refusal::Forbidden => {
                Self::because(StatusCode::FORBIDDEN, "You may not record this. Ask your trainer.")
            }
            Refusal::Clash => Self::because(
                StatusCode::CONFLICT,
                "Something else was sent under this number before, and that stays. Log this one by the form.",
            ),
            Refusal::Field { message, .. } => Self::because(StatusCode::UNPROCESSABLE_ENTITY, message),
            Refusal::Database(error) => error.into(),
        }
    }
}

async fn taken(
    mut tx: Tx,
    actor: &Actor,
    kept: KeptThere,
    phone_now: OffsetDateTime,
    moment: &Moment,
) -> Result<bool, No> {
    let dog = dog::find(&mut tx, actor, DogId(kept.dog)).await?.ok_or_else(No::found)?;
    let phone = PhoneTime {
        at: kept.at,
        elapsed: kept.elapsed_ms.map(Duration::milliseconds),
        zone: kept.zone.chars().filter(|c| !c.is_control()).take(64).collect(),
        offset_minutes: kept.offset_minutes.clamp(-1440, 1440),
    };
    let lived = lived(phone, phone_now, moment.at)
        .map_err(|wrong| No::because(StatusCode::UNPROCESSABLE_ENTITY, wrong.for_owner()))?;
    let mut form = Form::parse(kept.form.as_bytes());
    if !kept.can_ask && matches!(kept.kind, Kind::Encounter | Kind::EncounterEdit) {
        encounters::fields::leave_open(&mut form);
    }
    match kept.kind {
        Kind::Log => log(tx, actor, (&dog, PracticeLogId(kept.id)), form, (lived, &kept.tries), moment).await,
        Kind::Encounter => encounter(tx, actor, (&dog, EncounterId(kept.id)), form, &lived, moment).await,
        Kind::NotCoping => not_coping(tx, actor, (&dog, EncounterId(kept.id)), form, &lived, moment).await,
        Kind::LogEdit => {
            let of = kept.of.ok_or_else(No::found)?;
            revise::log(tx, actor, (&dog, of), form, lived.at, moment).await
        }
        Kind::EncounterEdit => {
            let of = kept.of.ok_or_else(No::found)?;
            revise::encounter(tx, actor, (&dog, of), form, lived.at, moment).await
        }
    }
}

async fn log(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (&Dog, PracticeLogId),
    mut form: Form,
    (lived, tries): (Lived, &[super::TryThere]),
    moment: &Moment,
) -> Result<bool, No> {
    let item: PlanItemId = form.id("item").ok_or_else(No::found)?;
    let item = plan::item(dog.id, item).read(&mut tx).await?;
    let item = item.filter(|item| item.kind != ItemKind::StandingArrangement).ok_or_else(No::found)?;
    let places = place::of_dog(dog.id).read(&mut tx).await?;
    let about = About { id, dog, item: &item, places: &places, by: actor.role, now: lived.at, logged: None };
    let one_tap = form.value("capture") == Capture::OneTap.stored();
    let mut input =
        if one_tap { fields::one_tap(&mut form, &about) } else { fields::whole(&mut form, &about) };
    input.tries = counted(&mut form, &input.sitting, tries);
    if !form.is_fine() {
        return Err(No::form(&form));
    }
    if !input.tries.is_empty() && actor.role == Role::Owner {
        input.capture = Capture::CountedLive;
    }
    input.lived = Some(lived);
    let today = zones::local_date(moment.at, &dog.zone);
    let Logged { repeat, .. } = submit_practice_log(tx, actor, input, today, moment).await?;
    Ok(!repeat)
}

/// The tries that were counted, where they are those of the sitting.
fn counted(
    form: &mut Form,
    sitting: &crate::domain::sitting::Sitting,
    tries: &[super::TryThere],
) -> Vec<Try> {
    if tries.is_empty() {
        return Vec::new();
    }
    let met = tries.iter().filter(|one| one.met).count();
    let says = |n: Option<i16>| n.and_then(|n| usize::try_from(n).ok());
    let fits = says(sitting.attempts) == Some(tries.len()) && says(sitting.met) == Some(met);
    if !fits || tries.len() > MOST_TRIES || tries.iter().any(|one| one.after_ms < 0) {
        form.refuse("attempts", "The tries that were counted do not add up to what was logged.");
        return Vec::new();
    }
    tries.iter().map(|one| Try { met: one.met, after_ms: one.after_ms }).collect()
}

async fn encounter(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (&Dog, EncounterId),
    mut form: Form,
    lived: &Lived,
    moment: &Moment,
) -> Result<bool, No> {
    let triggers = trigger::of_dog(dog.id).read(&mut tx).await?;
    let read = encounters::fields::read(&mut form, id, dog, &triggers, lived.at, None);
    let Some((mut encounter, stated_at)) = read.filter(|_| form.is_fine()) else {
        return Err(No::form(&form));
    };
    if stated_at.is_none() {
        encounter.facts.local_date = lived.on;
    }
    Ok(record_from_phone(tx, actor, &encounter, stated_at, lived, moment).await?)
}

async fn not_coping(
    tx: Tx,
    actor: &Actor,
    (dog, id): (&Dog, EncounterId),
    mut form: Form,
    lived: &Lived,
    moment: &Moment,
) -> Result<bool, No> {
    let message: MessageId = form.id("message").ok_or_else(No::found)?;
    let note = form.text("note", encounters::LONGEST_CALL);
    if !form.is_fine() {
        return Err(No::form(&form));
    }
    let said = Encounter {
        id,
        dog: dog.id,
        trigger: None,
        what: String::new(),
        playful: None,
        froze: None,
        place_name: String::new(),
        note,
        happened_at: lived.at,
        facts: EncounterFacts::on(lived.on, EncounterKind::NotCoping),
    };
    Ok(say_not_coping(tx, actor, &said, message, Some(lived), moment).await?)
}
