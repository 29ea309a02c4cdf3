//! Time and fresh ids are parameters, so that tests and the demo can move both.

use std::sync::Arc;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};
use std::time::SystemTime;

use time::OffsetDateTime;
use uuid::Uuid;

/// Where the current instant comes from.
#[derive(Clone, Debug)]
pub enum Clock {
    /// The machine's clock.
    System,
    /// A clock that stands still until it is set: nanoseconds since 1970.
    Movable(Arc<AtomicI64>),
}

impl Clock {
    /// A clock that stands still at `at`.
    pub fn standing_at(at: OffsetDateTime) -> Self {
        Self::Movable(Arc::new(AtomicI64::new(nanoseconds(at))))
    }

    /// The current instant, in UTC.
    pub fn now(&self) -> OffsetDateTime {
        match self {
            Self::System => OffsetDateTime::from(SystemTime::now()),
            Self::Movable(at) => {
                OffsetDateTime::UNIX_EPOCH + time::Duration::nanoseconds(at.load(Ordering::SeqCst))
            }
        }
    }

    /// Sets a movable clock; the machine's clock cannot be set.
    pub fn set(&self, to: OffsetDateTime) {
        if let Self::Movable(at) = self {
            at.store(nanoseconds(to), Ordering::SeqCst);
        }
    }
}

/// Nanoseconds since 1970; instants past the year 2262 are held at the last one that fits.
fn nanoseconds(at: OffsetDateTime) -> i64 {
    i64::try_from(at.unix_timestamp_nanos()).unwrap_or(i64::MAX)
}

/// Where fresh ids come from: UUIDs version 7.
#[derive(Clone, Debug)]
pub enum Ids {
    /// Random tails.
    Random,
    /// Tails that count up from a seed: the same run makes the same ids.
    Counting(Arc<AtomicU64>),
}

impl Ids {
    /// Ids whose tails count up from `seed`.
    pub fn counting_from(seed: u64) -> Self {
        Self::Counting(Arc::new(AtomicU64::new(seed)))
    }
}

/// One instant in which somebody acts, and the ids made in it.
#[derive(Clone, Debug)]
pub struct Moment {
    /// The instant, in UTC, to the microsecond that the database keeps.
    pub at: OffsetDateTime,
    ids: Ids,
}

impl Moment {
    /// The present moment by `clock`, with ids from `ids`.
    pub fn of(clock: &Clock, ids: &Ids) -> Self {
        let at = clock.now();
        let at = at.replace_nanosecond(at.microsecond() * 1_000).unwrap_or(at);
        Self { at, ids: ids.clone() }
    }

    /// A fresh id of the wanted kind.
    pub fn id<T: From<Uuid>>(&self) -> T {
        let millis = u64::try_from(self.at.unix_timestamp_nanos() / 1_000_000).unwrap_or(0);
        let id = match &self.ids {
            Ids::Random => {
                uuid::Builder::from_unix_timestamp_millis(millis, &rand::random::<[u8; 10]>()).into_uuid()
            }
            Ids::Counting(next) => {
                let mut tail = [0_u8; 10];
                tail[2..].copy_from_slice(&next.fetch_add(1, Ordering::SeqCst).to_be_bytes());
                uuid::Builder::from_unix_timestamp_millis(millis, &tail).into_uuid()
            }
        };
        T::from(id)
    }
}
