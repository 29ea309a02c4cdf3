//! The statements that a request sends to the database, as the driver tells of them.

use std::sync::Mutex;

use tracing::field::{Field, Visit};
use tracing::level_filters::LevelFilter;
use tracing::{Event, Subscriber};
use tracing_subscriber::Layer;
use tracing_subscriber::layer::{Context, SubscriberExt};

static SENT: Mutex<Vec<String>> = Mutex::new(Vec::new());

/// How what opens a transaction inside a practice ends: the door's last statement (`store::sign_in::open`).
const OPENED: &str = "select p.id, p.name, p.zone, p.replies";

struct Listens;

struct Statement(Option<String>);

impl Visit for Statement {
    fn record_debug(&mut self, field: &Field, value: &dyn std::fmt::Debug) {
        self.record_str(field, &format!("{value:?}"));
    }

    fn record_str(&mut self, field: &Field, value: &str) {
        if field.name() == "db.statement" || field.name() == "summary" {
            let text = value.split_whitespace().collect::<Vec<_>>().join(" ");
            if self.0.as_ref().is_none_or(|kept| kept.len() < text.len()) {
                self.0 = Some(text);
            }
        }
    }
}

impl<S: Subscriber> Layer<S> for Listens {
    fn on_event(&self, event: &Event<'_>, _: Context<'_, S>) {
        if event.metadata().target() == "sqlx::query" {
            let mut statement = Statement(None);
            event.record(&mut statement);
            SENT.lock().expect("nobody panicked with it").extend(statement.0);
        }
    }
}

/// Listens from now on. A test that counts calls it before it makes its world; each test is a process of its own.
pub fn listen() {
    let only = tracing_subscriber::filter::Targets::new().with_target("sqlx::query", LevelFilter::DEBUG);
    let listens = tracing_subscriber::registry().with(Listens.with_filter(only));
    tracing::subscriber::set_global_default(listens).expect("nobody listens yet");
}

/// What was sent since it was last asked, beside BEGIN, COMMIT, the scope and who asks.
pub fn since_last() -> Vec<String> {
    let sent = std::mem::take(&mut *SENT.lock().expect("nobody panicked with it"));
    let opened = sent.iter().position(|text| text.contains(OPENED)).map_or(0, |at| at + 1);
    let is_frame = |text: &str| ["BEGIN", "COMMIT", "ROLLBACK"].iter().any(|word| text.contains(word));
    sent[opened..].iter().filter(|text| !is_frame(text) && !text.contains("set_config")).cloned().collect()
}
