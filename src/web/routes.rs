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
    use crate::web::{dogs, health, library, set_up, sign_in};
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
        // dogs
        get(Trainer, "/households/{household}/dogs/new", dogs::new::show),
        post(Trainer, "/households/{household}/dogs/new", dogs::new::submit),
        get(Trainer, "/dogs/{dog}/profile", dogs::profile::show),
        get(Trainer, "/dogs/{dog}/profile/edit/{section}", dogs::profile::edit),
        post(Trainer, "/dogs/{dog}/profile/edit/{section}", dogs::profile::submit),
        get(Trainer, "/dogs/{dog}/triggers/new", dogs::triggers::new),
        post(Trainer, "/dogs/{dog}/triggers/new", dogs::triggers::add),
        get(Trainer, "/dogs/{dog}/triggers/{trigger}", dogs::triggers::show),
        post(Trainer, "/dogs/{dog}/triggers/{trigger}", dogs::triggers::edit),
        post(Trainer, "/dogs/{dog}/triggers/{trigger}/remove", dogs::triggers::remove),
        get(Trainer, "/dogs/{dog}/reinforcers/new", dogs::reinforcers::new),
        post(Trainer, "/dogs/{dog}/reinforcers/new", dogs::reinforcers::add),
        get(Trainer, "/dogs/{dog}/reinforcers/{reinforcer}", dogs::reinforcers::show),
        post(Trainer, "/dogs/{dog}/reinforcers/{reinforcer}", dogs::reinforcers::edit),
        post(Trainer, "/dogs/{dog}/reinforcers/{reinforcer}/remove", dogs::reinforcers::remove),
        get(Trainer, "/dogs/{dog}/places/new", dogs::places::new),
        post(Trainer, "/dogs/{dog}/places/new", dogs::places::add),
        get(Trainer, "/dogs/{dog}/places/{place}", dogs::places::show),
        post(Trainer, "/dogs/{dog}/places/{place}", dogs::places::edit),
        post(Trainer, "/dogs/{dog}/places/{place}/remove", dogs::places::remove),
        post(Trainer, "/dogs/{dog}/places/{place}/off-lead", dogs::off_lead::grant),
        post(Trainer, "/dogs/{dog}/places/{place}/off-lead/withdraw", dogs::off_lead::withdraw),
        get(Trainer, "/dogs/{dog}/weights", dogs::weights::show),
        post(Trainer, "/dogs/{dog}/weights", dogs::weights::record),
        post(Trainer, "/dogs/{dog}/weights/remove", dogs::weights::remove),
        get(Owner, "/dogs/{dog}/health", dogs::health::show),
        post(Owner, "/dogs/{dog}/health/weight", dogs::health::record),
        // library
        get(Trainer, "/library", library::list),
        get(Trainer, "/library/new", library::edit::new),
        post(Trainer, "/library/new", library::edit::add),
        get(Trainer, "/library/{exercise}", library::show),
        get(Trainer, "/library/{exercise}/edit", library::edit::show),
        post(Trainer, "/library/{exercise}/edit", library::edit::edit),
        post(Trainer, "/library/{exercise}/archive", library::archive),
        post(Trainer, "/library/{exercise}/restore", library::restore),
    ]
}

/// The router of the table.
pub fn router() -> Router<App> {
    table().into_iter().fold(Router::new(), |router, route| router.route(route.path, route.handler))
}
