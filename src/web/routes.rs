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
    use crate::web::{health, plans, set_up, sign_in};
    use Who::{Lead, Link, Member, Owner, Public, Trainer};
    let _ = (Lead, Member, Owner, Trainer);
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
        // plans
        get(Trainer, "/dogs/{dog}/plan", plans::current),
        get(Trainer, "/dogs/{dog}/plan/versions/{version}", plans::version),
        get(Trainer, "/dogs/{dog}/plan/edit", plans::edit),
        get(Trainer, "/dogs/{dog}/plan/preview", plans::preview),
        get(Trainer, "/dogs/{dog}/plan/add", plans::add_page),
        post(Trainer, "/dogs/{dog}/plan/add", plans::add),
        get(Trainer, "/dogs/{dog}/plan/items/{line}", plans::item_page),
        post(Trainer, "/dogs/{dog}/plan/items/{line}", plans::save_item),
        post(Trainer, "/dogs/{dog}/plan/items/{line}/move", plans::move_item),
        get(Trainer, "/dogs/{dog}/plan/items/{line}/remove", plans::remove_page),
        post(Trainer, "/dogs/{dog}/plan/items/{line}/remove", plans::remove),
        get(Trainer, "/dogs/{dog}/plan/restart", plans::restart_page),
        post(Trainer, "/dogs/{dog}/plan/restart", plans::restart),
        get(Trainer, "/dogs/{dog}/plan/publish", plans::publish_page),
        post(Trainer, "/dogs/{dog}/plan/publish", plans::publish),
        post(Trainer, "/dogs/{dog}/plan/note", plans::keep_note),
        get(Owner, "/plan", plans::plan),
    ]
}

/// The router of the table.
pub fn router() -> Router<App> {
    table().into_iter().fold(Router::new(), |router, route| router.route(route.path, route.handler))
}
