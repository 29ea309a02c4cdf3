//! Requests that no page of ours sends: other methods, other bodies, ids of other things. Each is answered by one of our
//! pages, and writes nothing.

use std::collections::BTreeMap;

use axum::http::Method;
use settlebrook::web::routes::{self, Route, Who};
use uuid::Uuid;

use crate::support::every_form;
use crate::support::stage::{Setting, Stage};
use crate::support::{Answer, settings};

const FORM: &str = "application/x-www-form-urlencoded";
/// One byte more than a form may have.
const TOO_MUCH: usize = 64 * 1024 + 1;

/// People are of one kind, whatever a route calls them.
const PEOPLE: [&str; 3] = ["owner", "person", "member"];

/// Whoever a route is made for.
fn whose(route: &Route) -> &'static str {
    match route.who {
        Who::Owner => "the owner",
        Who::Trainer | Who::Member => "the trainer",
        Who::Lead => "the lead",
        Who::Public | Who::Link => "a visitor",
    }
}

/// A path of a route, with these things in it.
fn path(route: &Route, things: &BTreeMap<&'static str, Uuid>) -> String {
    let part = |part: &'static str| match part.strip_prefix('{').and_then(|p| p.strip_suffix('}')) {
        Some(name) => things.get(name).map_or_else(|| "identity".to_owned(), Uuid::to_string),
        None => part.to_owned(),
    };
    route.path.split('/').map(part).collect::<Vec<_>>().join("/")
}

/// Every thing that a person of the practice meets, by the names that routes give them.
async fn things(setting: &Setting, stage: &mut Stage) -> BTreeMap<&'static str, Uuid> {
    let mut things = setting.things.clone();
    for who in ["the owner", "the lead", "the trainer"] {
        things.extend(every_form::walk(stage.who(who), &setting.things).await.things);
    }
    things
}

/// One of our pages that says what to do; the answers to a script say it in JSON.
#[track_caller]
fn is_helpful(answer: &Answer, asked: &str) {
    assert!(!answer.status().is_server_error(), "{asked}: {answer:?}");
    let says = answer.location().is_some()
        || (answer.is_page() && answer.texts("main").concat().len() > 40)
        || answer.header("content-type").is_some_and(|kind| kind.starts_with("application/json"));
    assert!(says, "{asked}: {answer:?} says {:?}", answer.body());
}

/// Bodies that no form of ours has, with what they say that they are.
fn bodies() -> Vec<(&'static str, Option<&'static str>, Vec<u8>)> {
    let nested = format!("a{}=1", "[b]".repeat(5_000));
    vec![
        ("JSON", Some("application/json"), br#"{"name": "x", "role": "lead"}"#.to_vec()),
        ("JSON that is nested deeply", Some("application/json"), "[".repeat(50_000).into_bytes()),
        (
            "multipart",
            Some("multipart/form-data; boundary=x"),
            b"--x\r\nContent-Disposition: form-data; name=\"name\"\r\n\r\ny\r\n--x--\r\n".to_vec(),
        ),
        ("plain text", Some("text/plain"), b"name=x".to_vec()),
        (
            "XML",
            Some("text/xml"),
            b"<!DOCTYPE a [<!ENTITY b SYSTEM \"file:///etc/passwd\">]><a>&b;</a>".to_vec(),
        ),
        ("another kind that begins alike", Some("application/x-www-form-urlencodedx"), b"name=x".to_vec()),
        ("no kind", None, b"name=x".to_vec()),
        ("a kind that is none", Some(";;;"), b"name=x".to_vec()),
        ("nothing", Some(FORM), Vec::new()),
        (
            "another charset",
            Some("application/x-www-form-urlencoded; charset=utf-16"),
            b"n\0a\0m\0e\0=\0x\0".to_vec(),
        ),
        ("bytes", Some(FORM), (0..=255).collect()),
        ("escapes that are none", Some(FORM), b"name=%zz%&%=%&%ff=%ff&&&==&=".to_vec()),
        ("thousands of fields", Some(FORM), "a=1&name=2&id=3&".repeat(4_000).into_bytes()),
        ("names that are nested", Some(FORM), nested.into_bytes()),
        (
            "numbered names",
            Some(FORM),
            (0..3_000).map(|n| format!("step-{n}-name=a&")).collect::<String>().into(),
        ),
        (
            "numbers beyond all",
            Some(FORM),
            b"step-99999999999999999999-name=a&step--1-name=b&step-0-id=c".to_vec(),
        ),
        ("too much", Some(FORM), format!("name={}", "a".repeat(TOO_MUCH - 5)).into_bytes()),
    ]
}

#[tokio::test]
async fn bodies_that_are_no_form_are_refused_with_a_page() {
    let setting = Setting::build().await;
    let mut stage = setting.set().await;
    let things = things(&setting, &mut stage).await;
    let posts = routes::table().into_iter().filter(|route| route.method == Method::POST);
    for (turn, route) in posts.enumerate() {
        let path = path(&route, &things);
        for (at, (name, kind, body)) in bodies().into_iter().enumerate() {
            if !settings::is_long() && (turn + at) % 4 != 0 {
                continue;
            }
            let size = body.len();
            let answer = stage.who(whose(&route)).send_body(Method::POST, &path, kind, body).await;
            is_helpful(&answer, name);
            let said_form = kind.is_some_and(|kind| kind.split(';').next() == Some(FORM));
            let said_json = kind == Some("application/json");
            if size >= TOO_MUCH && !takes_files(&route) {
                answer.expect(413);
            } else if !said_form && !said_json && answer.location().is_none() {
                assert!(
                    matches!(answer.status().as_u16(), 404 | 415)
                        || takes_nothing(&route)
                        || takes_files(&route),
                    "{name}: {answer:?}"
                );
            }
        }
    }
}

/// Whether a route takes whole files, which may be longer than what people type.
fn takes_files(route: &Route) -> bool {
    ["/practice/import", "/sync/logs"].contains(&route.path) || route.path.ends_with("/photos")
}

/// Whether a route is only a button, whose body nobody reads.
fn takes_nothing(route: &Route) -> bool {
    let buttons = [
        "/sign-out",
        "/end",
        "/end-others",
        "/remove",
        "/archive",
        "/restore",
        "/restart",
        "/link",
        "/off-lead",
    ];
    buttons.iter().any(|end| route.path.ends_with(end))
}

#[tokio::test]
async fn methods_that_a_path_lacks_are_refused_with_a_page() {
    let setting = Setting::build().await;
    let mut stage = setting.set().await;
    let things = things(&setting, &mut stage).await;
    let before = stage.state().await;
    let mut has: BTreeMap<&'static str, Vec<Method>> = BTreeMap::new();
    for route in routes::table() {
        has.entry(route.path).or_default().push(route.method);
    }
    for route in routes::table() {
        let path = path(&route, &things);
        for method in ["GET", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "PROPFIND", "POST"] {
            let method = Method::from_bytes(method.as_bytes()).expect("a method");
            if has[route.path].contains(&method) {
                continue;
            }
            let answer =
                stage.who(whose(&route)).send_body(method, &path, Some(FORM), b"name=x".to_vec()).await;
            answer.expect(405);
            is_helpful(&answer, route.path);
        }
    }
    assert_eq!(stage.state().await, before, "nothing was written");
}

#[tokio::test]
async fn an_id_of_another_kind_of_thing_names_nothing() {
    let setting = Setting::build().await;
    let mut stage = setting.set().await;
    let things = things(&setting, &mut stage).await;
    let before = stage.state().await;
    for route in routes::table().into_iter().filter(|route| route.who != Who::Link) {
        for name in things.keys().filter(|name| route.path.contains(&format!("{{{name}}}"))) {
            let is_kin = |other: &str| PEOPLE.contains(&other) && PEOPLE.contains(name);
            let others = things.iter().filter(|(other, id)| !is_kin(other) && **id != things[name]);
            let every = if settings::is_long() { 1 } else { 3 };
            for (other, id) in others.step_by(every) {
                let mut mixed = things.clone();
                mixed.insert(name, *id);
                let path = path(&route, &mixed);
                let kind = Some(FORM);
                let answer =
                    stage.who(whose(&route)).send_body(route.method.clone(), &path, kind, Vec::new()).await;
                // some acts are no trainer's, whatever they name
                let is_nothing = matches!(answer.status().as_u16(), 403 | 404);
                assert!(is_nothing, "the id of a {other} for {name}: {answer:?}");
            }
        }
    }
    assert_eq!(stage.state().await, before, "nothing was written");
}
