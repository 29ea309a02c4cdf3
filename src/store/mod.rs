//! PostgreSQL: one file a noun. All SQL of the service is here, checked at compile time.
//!
//! Every query runs in a transaction that [`scope`] opened, and names the practice as well: row-level security
//! is the second wall, not the only one.

pub mod account;
pub mod appointment;
pub mod arrangement_week;
pub mod audit;
pub mod caseload;
pub mod caseload_view;
pub mod check_in;
pub mod consent;
pub mod day_off;
pub mod decision;
pub mod dog;
pub mod dog_facts;
pub mod dog_profile;
pub mod dog_summary;
pub mod dog_weight;
pub mod encounter;
pub mod exercise;
pub mod fit;
pub mod flag;
pub mod food_paid;
pub mod food_planned;
pub mod goal_reading;
pub mod hand_over;
pub mod helper_link;
pub mod house;
pub mod household;
pub mod import;
pub mod import_batch;
pub mod intake;
pub mod lesson;
pub mod lesson_package;
pub mod life_event;
pub mod link_token;
pub mod look;
pub mod lost_sheet;
pub mod membership;
pub mod message;
pub mod off_lead_permission;
pub mod passkey;
pub mod passkey_challenge;
pub mod photo;
pub mod phrase;
pub mod place;
pub mod plan;
pub mod plan_draft;
pub mod plan_draft_item;
pub mod plan_history;
pub mod plan_summary;
pub mod plan_template;
pub mod plan_version;
pub mod practice;
pub mod practice_log;
pub mod preparation;
pub mod readiness;
pub mod reading;
pub mod reinforcer;
pub mod report;
pub mod report_facts;
pub mod report_link;
pub mod review;
pub mod revision;
pub mod scope;
pub mod setup_token;
pub mod sign_in;
pub mod step;
pub mod timeline;
pub mod token;
pub mod triage;
pub mod trigger;
pub mod word;

pub use scope::{Db, Door, Secret, Tx};

/// The name of the constraint that refused a write, if one did: constraint names are part of the interface.
pub fn refused_by(error: &sqlx::Error) -> Option<&str> {
    error.as_database_error().and_then(|e| e.constraint())
}

/// Whether a row could not be removed because others name it.
pub fn is_in_use(error: &sqlx::Error) -> bool {
    error.as_database_error().is_some_and(|e| e.is_foreign_key_violation())
}

/// Whether the database is away, starting, full or busy: a reason to try again later, not a mistake of ours.
pub fn is_away(error: &sqlx::Error) -> bool {
    match error {
        sqlx::Error::Io(_) | sqlx::Error::PoolTimedOut | sqlx::Error::PoolClosed | sqlx::Error::Tls(_) => {
            true
        }
        sqlx::Error::Database(e) => e.code().is_some_and(|code| is_code_of_away(&code)),
        _ => false,
    }
}

/// Whether the database's disk has no room left.
pub fn is_full(error: &sqlx::Error) -> bool {
    matches!(error, sqlx::Error::Database(e) if e.code().is_some_and(|code| code == "53100"))
}

/// 08 connection, 40 transaction rolled back for another's sake, 53 resources, 57 operator intervention, 25P03 idle in a transaction for too long, 55P03 lock timeout
/// (PostgreSQL manual, appendix A).
fn is_code_of_away(code: &str) -> bool {
    ["08", "40", "53", "57"].iter().any(|class| code.starts_with(class)) || matches!(code, "25P03" | "55P03")
}

/// A failure of the database.
pub type Error = sqlx::Error;
/// The result of a query.
pub type Result<T> = sqlx::Result<T>;

#[cfg(test)]
mod tests {
    use super::is_code_of_away;

    #[test]
    fn a_transaction_that_idled_too_long_is_a_reason_to_try_again() {
        assert!(["08006", "40P01", "53300", "57P01", "25P03", "55P03"].into_iter().all(is_code_of_away));
        assert!(!["23505", "42P01", "25P02"].into_iter().any(is_code_of_away));
    }
}
