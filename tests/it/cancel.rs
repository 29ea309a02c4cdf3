//! Requests that are dropped while their transaction is being opened.
//!
//! With sqlx 0.9.0's own `begin` such a request gave its connection back inside an open transaction, in which the next
//! one could read another practice's rows. Openings are dropped here after each number of steps they can take, and
//! after each drop the same connection must see nothing and be in no transaction.

use std::future::Future;
use std::pin::pin;
use std::task::Poll;
use std::time::Duration;

use settlebrook::ids::AccountId;
use settlebrook::store::{Db, Secret};
use sqlx::PgPool;
use uuid::Uuid;

use crate::support::{World, settings};

/// As many as must be dropped in mid-flight, and in the long version.
const DROPS: (usize, usize) = (200, 10_000);
/// Tries for each of them, after which it is clear that dropping does not work on this machine.
const TRIES: usize = 20;

/// What was seen after the drops.
#[derive(Debug, Default, PartialEq, Eq)]
struct Seen {
    leaks: usize,
    stale: usize,
}

/// Polls `opening` until it has given way `steps` times, then drops it. Whether it was still under way.
async fn dropped_after<F: Future>(steps: usize, opening: F) -> bool {
    let mut opening = pin!(opening);
    for _ in 0..=steps {
        let ready =
            std::future::poll_fn(|context| Poll::Ready(opening.as_mut().poll(context).is_ready())).await;
        if ready {
            return false;
        }
        tokio::task::yield_now().await;
    }
    true
}

/// Whether the pool's one connection, as the next request gets it, shows rows or is in a transaction.
async fn look(pool: &PgPool, seen: &mut Seen) {
    let mut next = pool.acquire().await.expect("a connection for the next request");
    let rows: i64 =
        sqlx::query_scalar("select (select count(*) from practice) + (select count(*) from membership)")
            .fetch_one(&mut *next)
            .await
            .expect("counts");
    seen.leaks += usize::from(rows > 0);
    if sqlx::raw_sql("savepoint probe").execute(&mut *next).await.is_ok() {
        seen.stale += 1;
        sqlx::raw_sql("rollback").execute(&mut *next).await.expect("ends the transaction that was left");
    }
}

/// Drops openings until enough were under way.
async fn drop_many<F: Future>(pool: &PgPool, opening: impl Fn() -> F) -> Seen {
    let mut seen = Seen::default();
    let mut landed = 0;
    let wanted = if settings::is_long() { DROPS.1 } else { DROPS.0 };
    for attempt in 0..wanted * TRIES {
        landed += usize::from(dropped_after(attempt % 40, opening()).await);
        if attempt % 4 != 0 {
            tokio::time::sleep(Duration::from_micros((attempt % 7) as u64 * 100)).await;
        }
        look(pool, &mut seen).await;
        if landed == wanted {
            return seen;
        }
    }
    panic!("only {landed} of {wanted} openings could be dropped in mid-flight")
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_dropped_request_leaves_no_practice_open() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let pool = world.database.app_pool(1).await;
    let db = Db::new(pool.clone());
    let seen = drop_many(&pool, || async {
        let tx = db.for_member(practice.id, practice.lead_id).await;
        tx.expect("opens").expect("the lead is there")
    });
    assert_eq!(seen.await, Seen::default());
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_dropped_request_leaves_no_door_open() {
    let world = World::new().await;
    world.lead().await;
    let account: Uuid = sqlx::query_scalar("select id from account")
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("the lead's account");
    let account = AccountId::from(account);
    let pool = world.database.app_pool(1).await;
    let db = Db::new(pool.clone());
    let seen = drop_many(&pool, || async { db.door(Secret::Account(account)).await.expect("opens") });
    assert_eq!(seen.await, Seen::default());
}
