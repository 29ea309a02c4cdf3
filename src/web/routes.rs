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
    let sections = [
        running(),
        signing_in(),
        own_account(),
        of_households(),
        of_practice(),
        trainers_day(),
        of_lessons(),
        of_plans(),
        of_dogs(),
        of_intake(),
        of_library(),
        owners_day(),
        logging(),
        of_helpers(),
        of_lives(),
        of_reports(),
        of_charts(),
        passkeys(),
        offline(),
    ];
    sections.into_iter().flatten().collect()
}

/// What works without a network, and what is sent once there is one.
fn offline() -> Vec<Route> {
    use crate::web::{fits, gone, looks, offline, photos, practice_logs, sync, today};
    use Who::{Member, Owner, Public, Trainer};
    vec![
        get(Public, "/sw.js", offline::worker),
        get(Public, "/manifest.webmanifest", offline::manifest),
        get(Public, "/offline", offline::nothing),
        get(Owner, "/kept", offline::kept),
        post(Member, "/dogs/{dog}/photos", photos::keep),
        get(Member, "/dogs/{dog}/photos/{photo}", photos::show),
        post(Member, "/dogs/{dog}/photos/{photo}/remove", photos::remove),
        get(Member, "/dogs/{dog}/gone", gone::show),
        post(Member, "/dogs/{dog}/gone", gone::keep),
        post(Owner, "/dogs/{dog}/not-today", today::off::not_today),
        post(Owner, "/dogs/{dog}/after-all", today::off::after_all),
        post(Owner, "/dogs/{dog}/held/{line}", today::off::held),
        get(Owner, "/dogs/{dog}/practise/{item}", practice_logs::practise::show),
        post(Public, sync::PATH, sync::logs),
        post(Trainer, "/dogs/{dog}/photos/{photo}/fit", fits::approve),
        post(Owner, "/dogs/{dog}/fit", fits::answer),
        post(Trainer, "/dogs/{dog}/log/looked", looks::all),
        post(Trainer, "/dogs/{dog}/log/{log}/looked", looks::log),
        post(Trainer, "/dogs/{dog}/encounters/{encounter}/looked", looks::encounter),
    ]
}

/// Links for people who walk or mind a dog.
fn of_helpers() -> Vec<Route> {
    use crate::web::helpers;
    use Who::{Link, Owner};
    vec![
        get(Owner, "/dogs/{dog}/helpers", helpers::show),
        post(Owner, "/dogs/{dog}/helpers", helpers::make),
        get(Owner, "/dogs/{dog}/helpers/card", helpers::card::preview),
        post(Owner, "/dogs/{dog}/helpers/{helper}/end", helpers::end),
        get(Link, "/h/{token}", helpers::card::show),
        post(Link, "/h/{token}/log", helpers::card::log),
    ]
}

/// What goes on in a dog's life, how near its goal feels, and everything in the order of time.
fn of_lives() -> Vec<Route> {
    use crate::web::{goals, life, timeline};
    use Who::{Member, Trainer};
    vec![
        get(Trainer, "/dogs/{dog}/timeline", timeline::show),
        get(Member, "/dogs/{dog}/goal", goals::show),
        post(Member, "/dogs/{dog}/goal", goals::tell),
        get(Member, "/dogs/{dog}/life", life::list),
        post(Member, "/dogs/{dog}/life", life::add),
        get(Member, "/dogs/{dog}/life/{event}", life::show),
        post(Member, "/dogs/{dog}/life/{event}", life::edit),
        post(Member, "/dogs/{dog}/life/{event}/remove", life::remove),
    ]
}

/// Reports about a dog, and the links under which they are read.
fn of_reports() -> Vec<Route> {
    use crate::web::reports;
    use Who::{Link, Trainer};
    vec![
        get(Trainer, "/dogs/{dog}/reports", reports::list),
        post(Trainer, "/dogs/{dog}/reports", reports::draft),
        get(Trainer, "/dogs/{dog}/reports/{report}", reports::show::show),
        get(Trainer, "/dogs/{dog}/reports/{report}/edit", reports::edit::show),
        post(Trainer, "/dogs/{dog}/reports/{report}/edit", reports::edit::submit),
        get(Trainer, "/dogs/{dog}/reports/{report}/discard", reports::edit::ask_to_discard),
        post(Trainer, "/dogs/{dog}/reports/{report}/discard", reports::edit::discard),
        post(Trainer, "/dogs/{dog}/reports/{report}/issue", reports::show::issue),
        post(Trainer, "/dogs/{dog}/reports/{report}/correct", reports::show::correct),
        post(Trainer, "/dogs/{dog}/reports/{report}/share", reports::show::share),
        post(Trainer, "/dogs/{dog}/reports/{report}/links/{report_link}/revoke", reports::show::revoke),
        get(Link, "/r/{token}", reports::link::show),
        post(Link, "/r/{token}/open", reports::link::open),
    ]
}

/// Whether the service runs.
fn running() -> Vec<Route> {
    use crate::web::health;
    use Who::Public;
    vec![get(Public, "/livez", health::live), get(Public, "/readyz", health::ready)]
}

/// Signing in and setting up; links.
fn signing_in() -> Vec<Route> {
    use crate::web::{link, set_up, sign_in};
    use Who::{Link, Public};
    vec![
        get(Public, "/", sign_in::home),
        get(Public, "/sign-in", sign_in::show),
        post(Public, "/sign-in", sign_in::submit),
        post(Public, "/sign-out", sign_in::sign_out),
        get(Link, "/set-up/{token}", set_up::show),
        post(Link, "/set-up/{token}", set_up::submit),
        get(Link, "/l/{token}", link::show),
        post(Link, "/l/{token}", link::submit),
    ]
}

/// One's own account, and the guide that everybody may read.
fn own_account() -> Vec<Route> {
    use crate::web::{account, guide};
    use Who::Member;
    vec![
        get(Member, "/guide", guide::show),
        get(Member, "/account", account::show),
        post(Member, "/account/devices/{sign_in}/end", account::end_device),
        post(Member, "/account/devices/end-others", account::end_others),
        get(Member, "/account/name", account::name::show),
        post(Member, "/account/name", account::name::submit),
        get(Member, "/account/password", account::password::show),
        post(Member, "/account/password", account::password::submit),
    ]
}

/// Households and their owners.
fn of_households() -> Vec<Route> {
    use crate::web::{household, households};
    use Who::{Owner, Trainer};
    vec![
        get(Trainer, "/households", households::list),
        get(Trainer, "/households/new", households::edit::new),
        post(Trainer, "/households/new", households::edit::create),
        get(Trainer, "/households/{household}", households::show),
        get(Trainer, "/households/{household}/edit", households::edit::edit),
        post(Trainer, "/households/{household}/edit", households::edit::update),
        get(Trainer, "/households/{household}/owners/new", households::owners::new),
        post(Trainer, "/households/{household}/owners/new", households::owners::create),
        get(Trainer, "/households/{household}/owners/existing", households::existing::show),
        post(Trainer, "/households/{household}/owners/existing", households::existing::submit),
        get(Trainer, "/households/{household}/owners/{owner}/edit", households::owners::edit),
        post(Trainer, "/households/{household}/owners/{owner}/edit", households::owners::update),
        get(Trainer, "/households/{household}/owners/{owner}/link", households::owners::link_form),
        post(Trainer, "/households/{household}/owners/{owner}/link", households::owners::link),
        get(Trainer, "/households/{household}/owners/{owner}/remove", households::removal::ask),
        post(Trainer, "/households/{household}/owners/{owner}/remove", households::removal::submit),
        get(Owner, "/household", household::show),
        get(Owner, "/household/{household}/invite", household::invite_form),
        post(Owner, "/household/{household}/invite", household::invite),
        post(Owner, "/household/people/{person}/link", household::link),
    ]
}

/// The practice and its team.
fn of_practice() -> Vec<Route> {
    use crate::web::practice;
    use Who::{Lead, Trainer};
    vec![
        get(Trainer, "/practice", practice::show),
        get(Lead, "/practice/edit", practice::edit),
        post(Lead, "/practice/edit", practice::update),
        get(Lead, "/practice/audit", practice::audit::show),
        get(Lead, "/practice/numbers", practice::numbers::show),
        post(Lead, "/practice/numbers", practice::numbers::submit),
        get(Lead, "/practice/records", practice::records::show),
        post(Lead, "/practice/records", practice::records::check),
        get(Lead, "/practice/import", practice::import::show),
        post(Lead, "/practice/import", practice::import::check),
        get(Lead, "/practice/import/{batch}", practice::import_batch::show),
        post(Lead, "/practice/import/{batch}", practice::import_batch::apply),
        get(Lead, "/practice/export.csv", practice::export::download),
        get(Lead, "/practice/team/invite", practice::team::invite_form),
        post(Lead, "/practice/team/invite", practice::team::invite),
        get(Lead, "/practice/team/{member}/link", practice::team::link_form),
        post(Lead, "/practice/team/{member}/link", practice::team::link),
        get(Lead, "/practice/team/{member}/remove", practice::team::remove_form),
        post(Lead, "/practice/team/{member}/remove", practice::team::remove),
    ]
}

/// A trainer's caseload, and what waits about a dog.
fn trainers_day() -> Vec<Route> {
    use crate::web::{caseload, conversations, decisions, dog_page, encounters, flags, review};
    use Who::{Lead, Trainer};
    vec![
        get(Trainer, "/caseload", caseload::show),
        get(Trainer, "/review", review::show),
        get(Trainer, "/review/phrases", review::phrases::show),
        post(Trainer, "/review/phrases", review::phrases::keep),
        post(Trainer, "/review/phrases/{phrase}/remove", review::phrases::remove),
        post(Trainer, "/dogs/{dog}/log/{log}/reviewed", review::log),
        post(Trainer, "/dogs/{dog}/encounters/{encounter}/reviewed", review::encounter),
        get(Lead, "/caseload/team", caseload::team::show),
        get(Trainer, "/caseload/views", caseload::views::show),
        post(Trainer, "/caseload/views", caseload::views::keep),
        post(Trainer, "/caseload/views/{view}/remove", caseload::views::remove),
        get(Trainer, "/caseload/several", caseload::several::show),
        post(Trainer, "/caseload/several", caseload::several::change),
        get(Trainer, "/dogs/{dog}", dog_page::show),
        post(Trainer, "/dogs/{dog}/phase", dog_page::change_phase),
        get(Trainer, "/dogs/{dog}/log", dog_page::log::show),
        get(Trainer, "/dogs/{dog}/welfare", flags::list),
        get(Trainer, "/flags/{flag}", flags::show),
        post(Trainer, "/flags/{flag}/answer", flags::answer),
        get(Trainer, "/dogs/{dog}/decide/{item}", decisions::show),
        post(Trainer, "/dogs/{dog}/decide/{item}", decisions::submit),
        get(Trainer, "/dogs/{dog}/messages", conversations::show),
        post(Trainer, "/dogs/{dog}/pasted", encounters::pasted::open),
        post(Trainer, "/dogs/{dog}/messages", conversations::send),
        post(Trainer, "/dogs/{dog}/messages/settle", conversations::settle),
    ]
}

/// Lessons, packages of them, and what comes when a plan is only kept up.
fn of_lessons() -> Vec<Route> {
    use crate::web::lessons::{self, booking, coming, packages};
    use crate::web::{check_in, dog_page};
    use Who::{Member, Owner, Trainer};
    vec![
        get(Trainer, "/lessons", coming::show),
        get(Trainer, "/dogs/{dog}/lessons", lessons::show),
        post(Trainer, "/dogs/{dog}/lessons", lessons::keep),
        post(Trainer, "/dogs/{dog}/lessons/book", booking::book),
        get(Trainer, "/dogs/{dog}/lessons/{appointment}", booking::show),
        post(Trainer, "/dogs/{dog}/lessons/{appointment}", booking::change),
        post(Trainer, "/dogs/{dog}/lessons/{appointment}/call-off", booking::call_off),
        get(Member, "/dogs/{dog}/lessons/{appointment}/lesson.ics", booking::file),
        post(Trainer, "/dogs/{dog}/packages", packages::add),
        get(Trainer, "/dogs/{dog}/packages/{package}/take-back", packages::ask),
        post(Trainer, "/dogs/{dog}/packages/{package}/take-back", packages::take_back),
        get(Trainer, "/dogs/{dog}/work-again", dog_page::again::show),
        post(Trainer, "/dogs/{dog}/work-again", dog_page::again::submit),
        get(Owner, "/dogs/{dog}/check-in", check_in::show),
        post(Owner, "/dogs/{dog}/check-in", check_in::say),
        post(Owner, "/dogs/{dog}/come-back", check_in::come_back),
    ]
}

/// Plans.
fn of_plans() -> Vec<Route> {
    use crate::web::plans;
    use Who::{Member, Owner, Trainer};
    vec![
        get(Trainer, "/dogs/{dog}/plan", plans::current),
        get(Member, "/dogs/{dog}/plan/handout", plans::handout),
        get(Trainer, "/dogs/{dog}/plan/versions/{version}", plans::version),
        get(Trainer, "/dogs/{dog}/plan/edit", plans::edit),
        get(Trainer, "/dogs/{dog}/plan/preview", plans::preview),
        get(Trainer, "/dogs/{dog}/plan/add", plans::add_page),
        post(Trainer, "/dogs/{dog}/plan/add", plans::add),
        post(Trainer, "/dogs/{dog}/plan/add-named", plans::add_named),
        get(Trainer, "/dogs/{dog}/plan/start", plans::start_page),
        post(Trainer, "/dogs/{dog}/plan/start", plans::start),
        get(Trainer, "/dogs/{dog}/plan/template", plans::keep_page),
        post(Trainer, "/dogs/{dog}/plan/template", plans::keep),
        get(Trainer, "/library/templates/{template}/remove", plans::remove_template_page),
        post(Trainer, "/library/templates/{template}/remove", plans::remove_template),
        get(Trainer, "/dogs/{dog}/plan/items/{line}", plans::item_page),
        post(Trainer, "/dogs/{dog}/plan/items/{line}", plans::save_item),
        post(Trainer, "/dogs/{dog}/plan/items/{line}/check", plans::check_item),
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

/// What a household tells before the first lesson.
fn of_intake() -> Vec<Route> {
    use crate::web::intake;
    use Who::{Member, Owner, Trainer};
    vec![
        get(Trainer, "/dogs/{dog}/intake", intake::show),
        post(Trainer, "/dogs/{dog}/intake/ask", intake::ask),
        post(Trainer, "/dogs/{dog}/intake/triage", intake::answer),
        get(Owner, "/dogs/{dog}/tell", intake::tell::show),
        post(Owner, "/dogs/{dog}/tell", intake::tell::send),
        get(Owner, "/dogs/{dog}/tell/{section}", intake::tell::page),
        post(Owner, "/dogs/{dog}/tell/{section}", intake::tell::keep),
        get(Member, "/dogs/{dog}/consent", intake::consent::show),
        post(Owner, "/dogs/{dog}/consent", intake::consent::sign),
    ]
}

/// A dog's profile, places and weights.
fn of_dogs() -> Vec<Route> {
    use crate::web::{dogs, line};
    use Who::{Owner, Trainer};
    vec![
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
        get(Trainer, "/dogs/{dog}/line", line::show),
        get(Trainer, "/dogs/{dog}/food", dogs::food::show),
        get(Trainer, "/dogs/{dog}/weights", dogs::weights::show),
        post(Trainer, "/dogs/{dog}/weights", dogs::weights::record),
        post(Trainer, "/dogs/{dog}/weights/remove", dogs::weights::remove),
        get(Owner, "/dogs/{dog}/health", dogs::health::show),
        post(Owner, "/dogs/{dog}/health/weight", dogs::health::record),
    ]
}

/// How a dog is getting on.
fn of_charts() -> Vec<Route> {
    use crate::web::charts;
    vec![get(Who::Trainer, "/dogs/{dog}/charts", charts::show)]
}

/// The library.
fn of_library() -> Vec<Route> {
    use crate::web::library;
    use Who::Trainer;
    vec![
        get(Trainer, "/library", library::list),
        get(Trainer, "/library/new", library::edit::new),
        post(Trainer, "/library/new", library::edit::add),
        get(Trainer, "/library/export.json", library::file::export),
        get(Trainer, "/library/import", library::import::show),
        post(Trainer, "/library/import", library::import::submit),
        get(Trainer, "/library/format", library::format::show),
        get(Trainer, "/library/{exercise}", library::show),
        get(Trainer, "/library/{exercise}/copy", library::edit::copy),
        get(Trainer, "/library/{exercise}/steps.csv", library::file::steps),
        get(Trainer, "/library/{exercise}/edit", library::edit::show),
        post(Trainer, "/library/{exercise}/edit", library::edit::edit),
        post(Trainer, "/library/{exercise}/archive", library::archive),
        post(Trainer, "/library/{exercise}/restore", library::restore),
    ]
}

/// The owner's day.
fn owners_day() -> Vec<Route> {
    use crate::web::{messages, progress, today};
    use Who::Owner;
    vec![
        get(Owner, "/today", today::show),
        get(Owner, "/progress", progress::show),
        get(Owner, "/messages", messages::show),
        post(Owner, "/messages", messages::send),
        post(Owner, "/messages/read", messages::mark_read),
    ]
}

/// Sittings and encounters, logged by owners and trainers.
fn logging() -> Vec<Route> {
    use crate::web::{encounters, practice_logs};
    use Who::{Member, Owner};
    vec![
        get(Member, "/dogs/{dog}/log/new", practice_logs::new),
        post(Member, "/dogs/{dog}/log", practice_logs::submit),
        get(Member, "/dogs/{dog}/log/{log}", practice_logs::show),
        get(Member, "/dogs/{dog}/log/{log}/edit", practice_logs::edit),
        post(Member, "/dogs/{dog}/log/{log}/edit", practice_logs::change),
        get(Member, "/dogs/{dog}/log/{log}/remove", practice_logs::ask_to_remove),
        post(Member, "/dogs/{dog}/log/{log}/remove", practice_logs::remove),
        get(Member, "/dogs/{dog}/encounters/new", encounters::new),
        post(Member, "/dogs/{dog}/encounters", encounters::submit),
        get(Member, "/dogs/{dog}/encounters/{encounter}", encounters::show),
        get(Member, "/dogs/{dog}/encounters/{encounter}/edit", encounters::edit),
        post(Member, "/dogs/{dog}/encounters/{encounter}/edit", encounters::change),
        get(Member, "/dogs/{dog}/encounters/{encounter}/remove", encounters::ask_to_remove),
        post(Member, "/dogs/{dog}/encounters/{encounter}/remove", encounters::remove),
        get(Owner, "/dogs/{dog}/not-coping", encounters::not_coping),
        post(Owner, "/dogs/{dog}/not-coping", encounters::say_not_coping),
    ]
}

/// The routes of passkeys; those that a script posts to speak JSON.
#[cfg(feature = "passkeys")]
fn passkeys() -> Vec<Route> {
    use crate::web::passkeys::{add, keep, sign_in};
    use Who::{Member, Public};
    vec![
        post(Public, "/sign-in/passkey/begin", sign_in::begin),
        post(Public, "/sign-in/passkey", sign_in::submit),
        post(Member, "/account/passkeys/begin", add::begin),
        post(Member, "/account/passkeys", add::submit),
        get(Member, "/account/passkeys/{passkey}", keep::show),
        post(Member, "/account/passkeys/{passkey}", keep::rename),
        get(Member, "/account/passkeys/{passkey}/remove", keep::ask),
        post(Member, "/account/passkeys/{passkey}/remove", keep::remove),
    ]
}

#[cfg(not(feature = "passkeys"))]
fn passkeys() -> Vec<Route> {
    Vec::new()
}

/// The router of the table.
pub fn router() -> Router<App> {
    table().into_iter().fold(Router::new(), |router, route| router.route(route.path, route.handler))
}
