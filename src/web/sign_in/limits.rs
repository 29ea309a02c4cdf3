//! How often an address may be tried. High enough that nobody can lock somebody else out for long.

use std::num::NonZeroU32;

use governor::{DefaultDirectRateLimiter, DefaultKeyedRateLimiter, Quota, RateLimiter};

/// Tries at once, and tries a minute after that.
const TRIES: NonZeroU32 = NonZeroU32::new(10).expect("ten is not zero");

/// Challenges a second that this process makes for whoever asks: each is a row until it is an hour old.
const CHALLENGES: NonZeroU32 = NonZeroU32::new(20).expect("twenty is not zero");

/// Limits of signing in, kept in memory: they protect this process from guessing, not a ledger.
#[derive(Debug)]
pub struct Limits {
    by_name: DefaultKeyedRateLimiter<String>,
    challenges: DefaultDirectRateLimiter,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            by_name: RateLimiter::keyed(Quota::per_minute(TRIES)),
            challenges: RateLimiter::direct(Quota::per_second(CHALLENGES)),
        }
    }
}

impl Limits {
    /// Whether one more challenge for passkeys may be made now.
    pub fn may_challenge(&self) -> bool {
        self.challenges.check().is_ok()
    }

    /// Whether an account may be tried once more now under this name: an address, or a passkey.
    pub fn may_try(&self, name: &str) -> bool {
        if self.by_name.len() > 10_000 {
            self.by_name.retain_recent();
        }
        self.by_name.check_key(&name.to_owned()).is_ok()
    }
}
