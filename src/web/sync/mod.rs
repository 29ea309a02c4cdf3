//! What a phone kept and sends later: sittings and encounters, many at once, each taken or refused by itself.
//!
//! `POST /sync/logs` in JSON, version 1. The phone sends the form that was filled in, urlencoded as a browser would have sent
//! it, so that one reader judges both:
//!
//! ```json
//! { "version": 1, "account": "…", "phone_now": "2026-07-01T10:00:00.000Z",
//!   "logs": [ { "id": "…", "kind": "log", "dog": "…", "form": "item=…&left=3&capture=one_tap",
//!               "at": "2026-06-29T17:00:00.000Z", "elapsed_ms": null, "zone": "Europe/London", "offset_minutes": 60,
//!               "tries": [ { "met": true, "after_ms": 4100 } ] } ] }
//! ```
//!
//! `account` is the membership of whoever kept them: where somebody else is signed in, the answer is 401. A log's `can_ask` says that
//! somebody is there to be asked: then what must be answered of teeth is; else it counts as not sure.
//! `kind` is `log`, `encounter`, `not_coping`, or a change of one that was sent: `log_edit`, `encounter_edit`, whose `of` names it and whose form
//! carries the `revision` that it was made on (refused where somebody else was first, with nothing changed; `kept` where it says so already).
//! `elapsed_ms` is how long ago it was kept by a clock that cannot be set, where
//! the page was open all the time. At most 50 at a time (413 otherwise). The answer names every id:
//!
//! ```json
//! { "version": 1, "logs": [ { "id": "…", "state": "kept", "page": "/dogs/…/log/…", "status": 200, "why": [] } ] }
//! ```
//!
//! `state` is `later` (the service failed at this one), `kept`, `repeat` (it was here already, with the same content) or `refused`, with a status as HTTP has it and what
//! is wrong in words. A phone deletes what was kept or repeated, and nothing else. Who is not signed in is answered 401.

mod revise;
mod take;

use axum::extract::State;
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use time::OffsetDateTime;
use uuid::Uuid;

use crate::app::App;
use crate::web::json::{self, Json};
use crate::web::{Answer, AnyMember, WebError};

/// The version of the format. The last two are taken for at least 90 days.
const VERSION: u8 = 1;
/// The most that one request holds.
const MOST: usize = 50;
/// The most that the request may send, in bytes: fifty long notes.
pub const BYTES: usize = 1024 * 1024;
/// Where it is sent.
pub const PATH: &str = "/sync/logs";

/// What a phone sends.
#[derive(Debug, Deserialize)]
pub struct Batch {
    version: u8,
    #[serde(with = "time::serde::rfc3339")]
    phone_now: OffsetDateTime,
    /// Whose phone keeps them: their membership.
    account: Uuid,
    logs: Vec<KeptThere>,
}

/// One thing that a phone kept.
#[derive(Debug, Deserialize)]
pub struct KeptThere {
    id: Uuid,
    kind: Kind,
    dog: Uuid,
    /// What is changed, where something is.
    #[serde(default)]
    of: Option<Uuid>,
    form: String,
    #[serde(with = "time::serde::rfc3339")]
    at: OffsetDateTime,
    #[serde(default)]
    elapsed_ms: Option<i64>,
    #[serde(default)]
    zone: String,
    #[serde(default)]
    offset_minutes: i16,
    #[serde(default)]
    tries: Vec<TryThere>,
    /// Whether somebody is there to be asked what the form left open.
    #[serde(default)]
    can_ask: bool,
}

/// One try that was counted live.
#[derive(Debug, Clone, Copy, Deserialize)]
pub struct TryThere {
    met: bool,
    after_ms: i32,
}

/// What it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Kind {
    Log,
    Encounter,
    NotCoping,
    LogEdit,
    EncounterEdit,
}

/// What became of one.
#[derive(Debug, Serialize)]
struct Taken {
    id: Uuid,
    state: &'static str,
    status: u16,
    why: Vec<String>,
    page: String,
}

#[derive(Serialize)]
struct Answered {
    version: u8,
    logs: Vec<Taken>,
}

/// Takes them one by one, each in a transaction of its own.
pub async fn logs(State(app): State<App>, who: Option<AnyMember>, Json(batch): Json<Batch>) -> Answer {
    let Some(AnyMember(who)) = who else {
        return Ok(json::answer(StatusCode::UNAUTHORIZED, &Answered { version: VERSION, logs: Vec::new() }));
    };
    if batch.version != VERSION {
        return Err(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY));
    }
    if batch.logs.len() > MOST {
        return Err(WebError::Status(StatusCode::PAYLOAD_TOO_LARGE));
    }
    let moment = app.moment();
    let mut taken = Vec::with_capacity(batch.logs.len());
    let (practice, member) = (who.practice.id, who.member.id);
    if batch.account != member.0 {
        // somebody else has signed in on this phone: theirs is not to send
        return Ok(json::answer(StatusCode::UNAUTHORIZED, &Answered { version: VERSION, logs: Vec::new() }));
    }
    drop(who.tx);
    for kept in batch.logs {
        let tx =
            app.db.for_member(practice, member).await?.ok_or(WebError::Status(StatusCode::UNAUTHORIZED))?;
        let id = kept.id;
        taken.push(match take::one(tx, &who.actor, kept, batch.phone_now, &moment).await {
            Ok(taken) => taken,
            // one that fails must not hold up the others
            Err(error) => {
                tracing::error!(?error, "a log from a phone failed");
                Taken { id, state: "later", status: 500, why: Vec::new(), page: String::new() }
            }
        });
    }
    Ok(json::answer(StatusCode::OK, &Answered { version: VERSION, logs: taken }))
}
