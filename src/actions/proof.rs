//! How far the way in which somebody signed in proves that the account is theirs: what opens it later, a password or a
//! passkey, is not to be set by whoever finds a phone on a bench.

use time::{Duration, OffsetDateTime};

use crate::domain::vocabulary::Way;
use crate::ids::AccountId;
use crate::store::{Result, Tx, membership};

/// For how long coming in proves something.
const PROVES_FOR: Duration = Duration::hours(1);

/// How and when somebody signed in.
#[derive(Debug, Clone, Copy)]
pub struct Came {
    /// By what.
    pub way: Way,
    /// When.
    pub since: OffsetDateTime,
}

impl Came {
    /// Whether they have come in just now, in a way that proves the whole account.
    pub async fn fresh(self, tx: &mut Tx, account: AccountId, now: OffsetDateTime) -> Result<bool> {
        Ok(now - self.since <= PROVES_FOR && self.is_for_the_account(tx, account).await?)
    }

    /// A link of one practice proves nothing to another, so it does not count for an account that stands in two.
    pub async fn is_for_the_account(self, tx: &mut Tx, account: AccountId) -> Result<bool> {
        Ok(self.way != Way::Link || !membership::stands_elsewhere(tx, account).await?)
    }
}
