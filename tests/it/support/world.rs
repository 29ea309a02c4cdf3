//! The whole service over a fresh database, at an instant that moves only when a test says so.

use axum::Router;
use settlebrook::actions::offer_set_up::offer_set_up;
use settlebrook::app::{self, App};
use settlebrook::clock::{Clock, Ids};
use settlebrook::store::Db;
use sqlx::PgPool;
use time::macros::datetime;
use time::{Duration, OffsetDateTime};
use tracing_subscriber::EnvFilter;

use super::browser::Browser;
use super::database::TestDatabase;
use super::people::Practice;

/// A Thursday morning in March, before the clocks change.
pub const BEGINNING: OffsetDateTime = datetime!(2026-03-12 09:30 UTC);
/// Where people reach the service, unless a test says otherwise.
pub const PLAIN: &str = "http://localhost:8080";
/// The same behind https.
pub const SECURE: &str = "https://dogs.example.org";

/// Connections of one world: enough for requests at once, few enough for many tests at once.
const CONNECTIONS: u32 = 4;
/// Ids made after thawing come after all that were made before.
const AFTER_THAWING: u64 = 1_000_000;

/// One service and its database.
pub struct World {
    /// What handlers reach.
    pub app: App,
    /// The database, to look at what was really written.
    pub database: TestDatabase,
    router: Router,
    pool: PgPool,
}

/// What a world was, kept to be begun from again and again.
pub struct Frozen {
    database: TestDatabase,
    at: OffsetDateTime,
}

impl Frozen {
    /// A world of its own that goes on from there; a browser of the frozen one comes along by [`World::takes_in`].
    pub async fn thawed(&self) -> World {
        let world = World::over(self.database.copied().await, PLAIN, AFTER_THAWING).await;
        world.app.clock.set(self.at);
        world
    }
}

impl World {
    /// A service that nobody has set up.
    pub async fn new() -> Self {
        Self::at(PLAIN).await
    }

    /// The same, reached under another address.
    pub async fn at(base_url: &str) -> Self {
        Self::over(TestDatabase::create().await, base_url, 1).await
    }

    async fn over(database: TestDatabase, base_url: &str, first_id: u64) -> Self {
        log();
        let pool = database.app_pool(CONNECTIONS).await;
        let db = Db::new(pool.clone());
        let app = App::new(db, base_url, Clock::standing_at(BEGINNING), Ids::counting_from(first_id));
        let router = app::router(app.clone());
        Self { app, database, router, pool }
    }

    /// Ends this world, and keeps what it was.
    pub async fn frozen(self) -> Frozen {
        self.pool.close().await;
        Frozen { at: self.now(), database: self.database }
    }

    /// The same browser, as a browser of this world.
    pub fn takes_in(&self, browser: &Browser) -> Browser {
        browser.over(self.router.clone())
    }

    /// The present instant.
    pub fn now(&self) -> OffsetDateTime {
        self.app.clock.now()
    }

    /// Lets time pass.
    pub fn pass(&self, time: Duration) {
        self.app.clock.set(self.now() + time);
    }

    /// Somebody who is not signed in.
    pub fn visitor(&self) -> Browser {
        Browser::new(self.router.clone(), &self.app.base_url)
    }

    /// A link with which a practice can be set up, good for a day: its path.
    pub async fn set_up_link(&self) -> String {
        let works = Duration::days(1);
        let token = offer_set_up(&self.app.db, works, &self.app.moment()).await.expect("a link is made");
        format!("/set-up/{}", token.text())
    }

    /// A practice of this name, set up through the real pages.
    pub async fn practice(&self, name: &str) -> Practice {
        Practice::set_up(self, name).await
    }

    /// The lead trainer of a practice, signed in, for tests that need no more.
    pub async fn lead(&self) -> Browser {
        self.practice("Heath and Hollow").await.lead
    }
}

/// Shows what went wrong inside beside a test that failed; RUST_LOG shows more.
fn log() {
    let filter = EnvFilter::from_default_env();
    let _ = tracing_subscriber::fmt().with_env_filter(filter).with_test_writer().with_ansi(false).try_init();
}
