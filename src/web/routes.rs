//! The one table of addresses. The router is made from it, and tests walk it.

use axum::Router;
use axum::handler::Handler;
use axum::http::Method;
use axum::routing::MethodRouter;

use crate::app::App;

/// Who may ask for a route.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Who {
    /// Anybody.
    Public,
    /// Whoever holds the link.
    Link,
    /// Anybody signed in.
    Member,
    /// Owners.
    Owner,
    /// Trainers and leads.
    Trainer,
    /// Leads.
    Lead,
}

/// One route.
pub struct Route {
    /// GET or POST.
    pub method: Method,
    /// The path, with `{names}` for ids.
    pub path: &'static str,
    /// Who may ask.
    pub who: Who,
    handler: MethodRouter<App>,
}

fn get<H: Handler<T, App>, T: 'static>(who: Who, path: &'static str, handler: H) -> Route {
    Route { method: Method::GET, path, who, handler: axum::routing::get(handler) }
}

fn post<H: Handler<T, App>, T: 'static>(who: Who, path: &'static str, handler: H) -> Route {
    Route { method: Method::POST, path, who, handler: axum::routing::post(handler) }
}

/// Every route of the service but the static files.
pub fn table() -> Vec<Route> {
    use crate::web::{encounters, health, messages, practice_logs, progress, set_up, sign_in, today};
    use Who::{Lead, Link, Member, Owner, Public, Trainer};
    let _ = (Lead, Trainer);
    vec![
        // running
        get(Public, "/livez", health::live),
        get(Public, "/readyz", health::ready),
        // signing in
        get(Public, "/", sign_in::home),
        get(Public, "/sign-in", sign_in::show),
        post(Public, "/sign-in", sign_in::submit),
        post(Public, "/sign-out", sign_in::sign_out),
        get(Link, "/set-up/{token}", set_up::show),
        post(Link, "/set-up/{token}", set_up::submit),
        // the owner's day
        get(Owner, "/today", today::show),
        get(Owner, "/progress", progress::show),
        get(Owner, "/messages", messages::show),
        post(Owner, "/messages", messages::send),
        post(Owner, "/messages/read", messages::mark_read),
        // sittings and encounters, logged by owners and trainers
        get(Member, "/dogs/{dog}/log/new", practice_logs::new),
        post(Member, "/dogs/{dog}/log", practice_logs::submit),
        get(Member, "/dogs/{dog}/log/{log}", practice_logs::show),
        get(Member, "/dogs/{dog}/encounters/new", encounters::new),
        post(Member, "/dogs/{dog}/encounters", encounters::submit),
        get(Member, "/dogs/{dog}/encounters/{encounter}", encounters::show),
        get(Owner, "/dogs/{dog}/not-coping", encounters::not_coping),
        post(Owner, "/dogs/{dog}/not-coping", encounters::say_not_coping),
    ]
}

/// The router of the table.
pub fn router() -> Router<App> {
    table().into_iter().fold(Router::new(), |router, route| router.route(route.path, route.handler))
}
