//! What the safe way of opening a transaction costs, beside the unsafe one, in one run.
//!
//! `tests/run --server` starts a migrated database and names its folder; then `cargo bench --bench openers -- FOLDER`.
//! Prints the median and the 95th percentile of opening, setting and committing, the two ways taken in turn, so that
//! whatever else the machine does strikes both.

mod unsafe_opener;

use std::time::{Duration, Instant};

use settlebrook::store::{Db, Secret};
use sqlx::PgPool;
use sqlx::postgres::{PgConnectOptions, PgPoolOptions};
use uuid::Uuid;

const ROUNDS: usize = 5_000;

#[tokio::main]
async fn main() -> anyhow::Result<()> {
    let Some(socket) = std::env::args_os().skip(1).find(|word| !word.to_string_lossy().starts_with("--"))
    else {
        println!(
            "usage: cargo bench --bench openers -- FOLDER_OF_THE_SERVERS_SOCKET (tests/run --server names it)"
        );
        return Ok(());
    };
    let options = PgConnectOptions::new_without_pgpass().socket(&socket).username("settlebrook_app");
    let options = options.database("settlebrook_template");
    let pool = PgPoolOptions::new().max_connections(2).connect_with(options).await?;
    let db = Db::new(pool.clone());
    let (mut safe, mut bare) = (Vec::with_capacity(ROUNDS), Vec::with_capacity(ROUNDS));
    for _ in 0..ROUNDS {
        let began = Instant::now();
        db.door(Secret::Email("nobody@example.org")).await?.commit().await?;
        safe.push(began.elapsed());
        let began = Instant::now();
        open_unsafely(&pool).await?;
        bare.push(began.elapsed());
    }
    let (safe, bare) = (figures(safe), figures(bare));
    println!("opener          median       95th percentile   (of {ROUNDS}, in turn)");
    println!("in a task       {:>9.1?}   {:>9.1?}", safe.0, safe.1);
    println!("unsafe          {:>9.1?}   {:>9.1?}", bare.0, bare.1);
    println!("ratio           {:>9.2}   {:>9.2}", ratio(safe.0, bare.0), ratio(safe.1, bare.1));
    Ok(())
}

async fn open_unsafely(pool: &PgPool) -> sqlx::Result<()> {
    unsafe_opener::open(pool, Uuid::nil()).await?.commit().await
}

fn figures(mut taken: Vec<Duration>) -> (Duration, Duration) {
    taken.sort_unstable();
    (taken[taken.len() / 2], taken[taken.len() * 95 / 100])
}

fn ratio(one: Duration, other: Duration) -> f64 {
    one.as_secs_f64() / other.as_secs_f64()
}
