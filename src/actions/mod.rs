//! What people do, one verb a file. Each is one transaction: authorise, load, decide, write. No HTTP here.

pub mod add_dog;
pub mod add_draft_item;
pub mod add_exercise;
pub mod add_existing_owner;
pub mod add_household;
pub mod add_owner;
#[cfg(feature = "passkeys")]
pub mod add_passkey;
pub mod answer_flag;
pub mod apply_import;
pub mod appointments;
pub mod archive_exercise;
pub mod ask_intake;
pub mod caseload_views;
pub mod change_dogs;
pub mod change_password;
pub mod check_in;
pub mod check_plan;
pub mod check_records;
pub mod clean_photo;
pub mod copy_starter_library;
pub mod decide;
pub mod draft_report;
pub mod edit_dog;
pub mod edit_draft_item;
pub mod edit_encounter;
pub mod edit_exercise;
pub mod edit_household;
pub mod edit_own_name;
pub mod edit_owner;
pub mod edit_practice;
pub mod edit_practice_log;
pub mod edit_report;
pub mod end_sign_ins;
mod fit_to_dog;
pub mod fits;
mod fold_readiness;
pub mod give_consent;
pub mod grant_off_lead;
pub mod import_exercises;
mod incidents;
pub mod invite_trainer;
pub mod issue_report;
pub mod keep_lesson;
pub mod keep_life_event;
pub mod keep_lost_sheet;
#[cfg(feature = "passkeys")]
pub mod keep_passkey;
pub mod keep_photo;
pub mod keep_place;
pub mod keep_reinforcer;
pub mod keep_template;
pub mod keep_trigger;
pub mod log_by_helper;
mod look_again;
pub mod look_at;
pub mod make_helper_link;
pub mod make_link;
pub mod move_draft_item;
pub mod note_on_draft;
pub mod offer_set_up;
pub mod open_report;
pub mod owners_day;
pub mod packages;
#[cfg(feature = "passkeys")]
pub mod passkey;
pub mod password;
pub mod plan_draft;
pub mod proof;
#[cfg(feature = "passkeys")]
pub mod prove_by_passkey;
pub mod publish_plan;
pub mod raise_flags;
pub mod record_encounter;
pub mod record_weight;
pub mod remove_draft_item;
pub mod remove_encounter;
pub mod remove_life_event;
pub mod remove_owner;
pub mod remove_place;
pub mod remove_practice_log;
pub mod remove_reinforcer;
pub mod remove_trainer;
pub mod remove_trigger;
pub mod remove_weight;
pub mod reset_password;
pub mod restart_draft;
pub mod review;
pub mod revoke_report_link;
pub mod save_intake;
pub mod say_not_coping;
pub mod send_intake;
pub mod send_message;
pub mod set_house_numbers;
pub mod set_phase;
pub mod set_up_practice;
pub mod share_report;
pub mod sign_in;
pub mod stage_import;
pub mod start_plan;
pub mod submit_practice_log;
pub mod take_up_invitation;
pub mod tell_goal;
pub mod triage_dog;
pub mod try_draft_item;
pub mod use_device_link;
pub mod withdraw_off_lead;
pub mod work_again;

use crate::domain::access::{self, Access, Action, Actor, Resource};
use crate::ids::{DogId, HouseholdId};
use crate::store::dog::{self, Dog};
use crate::store::{self, Tx};

/// Why an action was not done. Nothing was written.
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// There is no such thing, or it is not this person's to see.
    #[error("no such thing")]
    NotFound,
    /// One may see it, but not do this.
    #[error("not allowed")]
    Forbidden,
    /// The same id was used before, for something else.
    #[error("sent before, with other content")]
    Clash,
    /// A field cannot be taken, for a reason that only the database knows.
    #[error("{field}: {message}")]
    Field {
        /// The form's field.
        field: &'static str,
        /// What to do about it.
        message: &'static str,
    },
    /// The database failed.
    #[error(transparent)]
    Database(#[from] store::Error),
}

/// What an action gives.
pub type Done<T> = Result<T, Refusal>;

/// Goes on only where this actor may do this, on the practice as a whole or on a household's things.
pub fn authorise(actor: &Actor, action: Action, household: Option<HouseholdId>) -> Done<()> {
    match access::decide(actor, action, &Resource { practice: actor.practice, household }) {
        Access::Allow => Ok(()),
        Access::Hide => Err(Refusal::NotFound),
        Access::Refuse => Err(Refusal::Forbidden),
    }
}

/// The dog with this id, where this actor may do this on it.
async fn authorised_dog(tx: &mut Tx, actor: &Actor, action: Action, id: DogId) -> Done<Dog> {
    let dog = dog::find(tx, actor, id).await?.ok_or(Refusal::NotFound)?;
    authorise(actor, action, Some(dog.household))?;
    Ok(dog)
}

/// What a failed write means where it failed because of this constraint: something about a field of the form.
fn field_refused(
    constraint: &'static str,
    field: &'static str,
    message: &'static str,
) -> impl Fn(store::Error) -> Refusal {
    move |error| match store::refused_by(&error) {
        Some(refused) if refused == constraint => Refusal::Field { field, message },
        _ => error.into(),
    }
}

/// What a failed write means where an address belongs to another account already.
fn address_taken(message: &'static str) -> impl Fn(store::Error) -> Refusal {
    field_refused("account_email_key", "email", message)
}

/// What a failed removal means where something else names what should go.
fn in_use(message: &'static str) -> impl Fn(store::Error) -> Refusal {
    move |error| {
        if store::is_in_use(&error) { Refusal::Field { field: "remove", message } } else { error.into() }
    }
}
