//! Requests that are dropped while their transaction is being opened.
//!
//! With sqlx 0.9.0's own `begin` such a request gave its connection back inside an open transaction, in which the next
//! one could read another practice's rows. Requests are dropped here after each number of steps they can take, and
//! after each drop the same connection must see nothing and be in no transaction. The opener that leaks, kept with the
//! benches, goes through the same drops and must be caught: an experiment that finds nothing there finds nothing here.

use std::future::Future;
use std::pin::pin;
use std::task::Poll;
use std::time::Duration;

use settlebrook::ids::AccountId;
use settlebrook::store::{self, Db, Secret};
use sqlx::PgPool;
use uuid::Uuid;

use crate::support::database::TestDatabase;
use crate::support::{World, settings};

#[path = "../../benches/openers/unsafe_opener.rs"]
mod unsafe_opener;

/// As many as must be dropped between their `BEGIN` and their `COMMIT`, and in the long version.
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
///
/// With a `pause` between the steps each finds an answer of the database's; without, it is dropped between two words.
async fn dropped_after<F: Future>(steps: usize, pause: Duration, opening: F) -> bool {
    let mut opening = pin!(opening);
    for _ in 0..=steps {
        let ready =
            std::future::poll_fn(|context| Poll::Ready(opening.as_mut().poll(context).is_ready())).await;
        if ready {
            return false;
        }
        if pause.is_zero() {
            tokio::task::yield_now().await;
        } else {
            tokio::time::sleep(pause).await;
        }
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
        let (steps, pause) = match attempt % 2 {
            0 => (attempt / 2 % 40, Duration::ZERO),
            _ => (attempt / 2 % 6, Duration::from_micros(500)),
        };
        landed += usize::from(dropped_after(steps, pause, opening()).await);
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

/// With the pool's one connection in hand, nothing is under way any more: the server must know of no transaction.
async fn no_connection_stays_in_a_transaction(database: &TestDatabase, pool: &PgPool) {
    let held = pool.acquire().await.expect("whatever was dropped has given the connection back");
    let open = "select count(*) from pg_stat_activity
        where datname = current_database() and pid <> pg_backend_pid() and state like 'idle in transaction%'";
    assert_eq!(database.count(open).await, 0, "connections stay in a transaction");
    drop(held);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_dropped_request_leaves_no_practice_open() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let pool = world.database.app_pool(1).await;
    let db = Db::new(pool.clone());
    let seen = drop_many(&pool, || async {
        let tx = db.for_member(practice.id, practice.lead_id).await;
        let mut tx = tx.expect("opens").expect("the lead is there");
        store::membership::team(&mut tx).await.expect("reads");
        tx.commit().await.expect("commits");
    });
    assert_eq!(seen.await, Seen::default());
    no_connection_stays_in_a_transaction(&world.database, &pool).await;
    assert!(
        finds_the_unsafe_opener(&pool, practice.id.0).await,
        "the experiment finds no leak where there is one"
    );
}

/// Whether the opener that leaks is caught: it was in each of many runs, in a tenth of the drops, and has five chances.
async fn finds_the_unsafe_opener(pool: &PgPool, practice: Uuid) -> bool {
    for _ in 0..5 {
        let seen = drop_many(pool, || async {
            let mut tx = unsafe_opener::open(pool, practice).await.expect("opens");
            sqlx::query("select id from membership").fetch_all(&mut *tx).await.expect("reads");
            tx.commit().await.expect("commits");
        });
        let seen = seen.await;
        if seen.leaks > 0 && seen.stale > 0 {
            return true;
        }
    }
    false
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
    no_connection_stays_in_a_transaction(&world.database, &pool).await;
}
