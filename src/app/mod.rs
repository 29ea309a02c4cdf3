//! The service put together: what every handler can reach, and the router with its layers.

pub mod lifecycle;
mod serve;

pub use serve::{Serving, print_setup_link, serve};

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::{Request, StatusCode};
use axum::middleware;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::request_id::{MakeRequestUuid, PropagateRequestIdLayer, SetRequestIdLayer};
use tower_http::trace::TraceLayer;

#[cfg(feature = "passkeys")]
use crate::actions::passkey::RelyingParty;
use crate::actions::password::Hasher;
use crate::clock::{Clock, Ids, Moment};
use crate::store::Db;
use crate::web;
use crate::web::sign_in::limits::Limits;

/// The most that a form may send, in bytes.
const FORM_BYTES: usize = 64 * 1024;
/// How long a request may take.
const REQUEST_TIME: Duration = Duration::from_secs(15);

/// What every handler can reach.
#[derive(Clone)]
pub struct App {
    /// The database.
    pub db: Db,
    /// The address under which people reach the service, without a slash at the end.
    pub base_url: Arc<str>,
    /// Where time comes from.
    pub clock: Clock,
    /// Where ids come from.
    pub ids: Ids,
    /// Passwords are hashed here, a few at a time.
    pub hasher: Hasher,
    /// How often somebody may try to sign in.
    pub limits: Arc<Limits>,
    /// Passkeys, where the address can have them.
    #[cfg(feature = "passkeys")]
    pub passkeys: Option<Arc<RelyingParty>>,
    stopping: Arc<AtomicBool>,
}

impl App {
    /// The service over this database, reached under `base_url`.
    pub fn new(db: Db, base_url: &str, clock: Clock, ids: Ids) -> Self {
        Self {
            db,
            base_url: base_url.trim_end_matches('/').into(),
            clock,
            ids,
            hasher: Hasher::default(),
            limits: Arc::default(),
            #[cfg(feature = "passkeys")]
            passkeys: RelyingParty::at(base_url).map(Arc::new),
            stopping: Arc::default(),
        }
    }

    /// The present moment.
    pub fn moment(&self) -> Moment {
        Moment::of(&self.clock, &self.ids)
    }

    /// Whether people reach the service by https.
    pub fn is_https(&self) -> bool {
        self.base_url.starts_with("https://")
    }

    /// The cookie's name. `__Host-` is only taken by browsers over https.
    pub fn cookie_name(&self) -> &'static str {
        if self.is_https() { "__Host-settlebrook" } else { "settlebrook" }
    }

    /// Whether the service is about to stop.
    pub fn is_stopping(&self) -> bool {
        self.stopping.load(Ordering::SeqCst)
    }

    /// Says that the service is about to stop: `/readyz` answers 503 from now on.
    pub fn stop(&self) {
        self.stopping.store(true, Ordering::SeqCst);
    }
}

/// The whole router.
pub fn router(app: App) -> Router {
    let trace = TraceLayer::new_for_http().make_span_with(|request: &Request<_>| {
        let id = request.headers().get("x-request-id").and_then(|v| v.to_str().ok()).unwrap_or_default();
        // the matched pattern, never the path: links carry secrets
        let path = request.extensions().get::<axum::extract::MatchedPath>().map_or("", |p| p.as_str());
        tracing::info_span!("request", method = %request.method(), path, id)
    });
    web::routes::router()
        .method_not_allowed_fallback(async || web::error::error_page(StatusCode::METHOD_NOT_ALLOWED))
        .merge(web::assets::router())
        .fallback(async || web::WebError::NotFound)
        .layer(middleware::from_fn(web::whole_body::read))
        .layer(DefaultBodyLimit::max(FORM_BYTES))
        .layer(middleware::from_fn_with_state(app.clone(), web::cross_site::guard))
        .layer(CatchPanicLayer::custom(|_| web::error::error_page(StatusCode::INTERNAL_SERVER_ERROR)))
        .layer(middleware::from_fn_with_state(REQUEST_TIME, web::time_limit::within))
        .layer(CompressionLayer::new())
        .layer(trace)
        .layer(middleware::from_fn_with_state(app.clone(), web::headers::add))
        .layer(PropagateRequestIdLayer::x_request_id())
        .layer(SetRequestIdLayer::x_request_id(MakeRequestUuid))
        .with_state(app)
}
