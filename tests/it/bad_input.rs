//! Every form of every page, sent with one thing wrong: the page comes again with everything that was typed, says what
//! to put right beside its field, and nothing is written that was not asked for.
//!
//! The forms are found by following links, so a new one is tried by itself. A route that takes a form and is on no page
//! fails [`every_form_is_on_a_page`].

use std::collections::{BTreeMap, BTreeSet};

use axum::http::Method;
use settlebrook::web::routes::{self, Who};

use crate::support::bad_values::{self, Bad, LONG, Sent, With};
use crate::support::every_form::{self, Found, Kind, numberless};
use crate::support::stage::{Setting, Stage};
use crate::support::{Answer, settings};

/// Routes that are posted to by no form of a page, with the reason.
const BY_NO_FORM: [(&str, &str); 10] = [
    ("/sign-in/passkey/begin", "a script sends JSON"),
    ("/sign-in/passkey", "a script sends JSON"),
    ("/account/passkeys/begin", "a script sends JSON"),
    ("/account/passkeys", "a script sends JSON"),
    ("/sync/logs", "a phone sends JSON"),
    ("/dogs/{dog}/after-all", "its button is there on a day off alone: tests/it/owners_day.rs"),
    ("/dogs/{dog}/fit", "its question comes after a month: tests/it/fits.rs"),
    ("/dogs/{dog}/come-back", "its button is there once a dog has graduated: tests/it/phases.rs"),
    ("/dogs/{dog}/photos", "a phone sends the photo itself"),
    ("/messages/read", "a script says that the page was seen"),
];

/// Who has pages of their own; the lead comes after the trainer, whose forms a lead has as well.
const MEMBERS: [&str; 3] = ["the trainer", "the owner", "the lead"];
/// Everybody who has a form before them.
const EVERYBODY: [&str; 5] = ["the trainer", "the owner", "the lead", "a visitor", "the other owner"];

/// Forms of one choice on a page about something else: what is no choice is answered by a page of its own.
const BY_ONE_CHOICE: [&str; 6] = [
    "/dogs/{dog}/phase",
    "/dogs/{dog}/not-today",
    "/dogs/{dog}/held/{line}",
    "/dogs/{dog}/photos/{photo}/fit",
    "/dogs/{dog}/log/{log}/looked",
    "/dogs/{dog}/encounters/{encounter}/looked",
];

/// A form, and who has it before them.
type Before = (&'static str, Found);

/// Every form once for whoever it is made for: those of all members for a trainer and for an owner.
async fn forms(setting: &Setting, wanted: &[&'static str]) -> Vec<Before> {
    let mut stage = setting.set().await;
    let mut found: Vec<Before> = Vec::new();
    let mut of_trainers = BTreeSet::new();
    let walkers = MEMBERS
        .into_iter()
        .filter(|who| wanted.contains(who) || wanted == ["the lead"] && *who == "the trainer");
    for who in walkers {
        for form in every_form::walk(stage.who(who), &setting.things).await.forms.into_values() {
            let is_theirs = who != "the lead" || !of_trainers.contains(&form.make());
            if who == "the trainer" {
                of_trainers.insert(form.make());
            }
            if is_theirs && wanted.contains(&who) && !matches!(whose(&form), Who::Public) {
                found.push((who, form));
            }
        }
    }
    let visitor = ("a visitor", "/sign-in".to_owned());
    let sign_out = ("the trainer", "/account".to_owned());
    let open = setting.links.iter().chain([&visitor, &sign_out]);
    for (who, path) in open.filter(|(who, _)| wanted.contains(who)) {
        let page = stage.who(who).get(path).await;
        let open =
            every_form::on(&page).into_iter().filter(|form| matches!(whose(form), Who::Public | Who::Link));
        found.extend(open.map(|form| (*who, form)));
    }
    found
}

/// Who may send a form.
fn whose(form: &Found) -> Who {
    let route = routes::table().into_iter().find(|r| r.method == Method::POST && r.path == form.route);
    route.expect("a route of the table").who
}

#[tokio::test]
async fn every_form_is_on_a_page() {
    let setting = Setting::build().await;
    let found: BTreeSet<&str> =
        forms(&setting, &EVERYBODY).await.into_iter().map(|(_, form)| form.route).collect();
    let posts =
        routes::table().into_iter().filter(|route| route.method == Method::POST).map(|route| route.path);
    let excused = |path: &str| BY_NO_FORM.iter().any(|(route, _)| *route == path);
    let missing: Vec<&str> = posts.filter(|path| !found.contains(path) && !excused(path)).collect();
    assert!(missing.is_empty(), "these take forms that no page has: {missing:#?}");
    let needless: Vec<&&str> = found.iter().filter(|path| excused(path)).collect();
    assert!(needless.is_empty(), "these have a form after all: {needless:?}");
}

/// One form, tried by the person whose it is.
struct Trial<'a> {
    setting: &'a Setting,
    stage: Stage,
    who: &'static str,
    form: Found,
    wrong: Vec<String>,
    tried: usize,
    /// Fields of the form by what was said about them, figures aside.
    said: BTreeMap<String, BTreeSet<String>>,
}

/// What came of one try.
struct Tried {
    answer: Answer,
    sent: Sent,
    has_written: bool,
}

impl Trial<'_> {
    async fn begin<'a>(setting: &'a Setting, stage: Stage, (who, form): Before) -> Trial<'a> {
        Trial { setting, stage, who, form, wrong: Vec::new(), tried: 0, said: BTreeMap::new() }
    }

    /// The form as its page has it now, on a stage that has it.
    async fn open(&mut self, anew: bool) -> Found {
        if anew && self.stage.is_touched {
            self.stage = self.setting.set().await;
        }
        for _ in 0..2 {
            let page = self.stage.who(self.who).get(&self.form.page).await;
            let here = every_form::on(&page).into_iter().find(|form| form.make() == self.form.make());
            match here.filter(|form| form.action == self.form.action) {
                Some(form) => return form,
                None => self.stage = self.setting.set().await,
            }
        }
        panic!("{} has no form to {} for {}", self.form.page, self.form.action, self.who)
    }

    async fn send(&mut self, bad: Option<&Bad>, anew: bool) -> Tried {
        let form = self.open(anew).await;
        let sent = bad_values::valid(&form);
        let body = match bad {
            Some(bad) => bad.body(&sent),
            None => form_urlencoded::Serializer::new(String::new()).extend_pairs(&sent).finish(),
        };
        let before = self.stage.state().await;
        let kind = Some("application/x-www-form-urlencoded");
        let answer = self.stage.who(self.who).send_body(Method::POST, &form.action, kind, body.into()).await;
        let has_written = self.stage.state().await != before;
        self.stage.is_touched |= has_written || answer.status() != 422;
        self.tried += 1;
        Tried { answer, sent, has_written }
    }

    /// Sends one bad thing; what looks wrong is tried once more on a stage that nobody touched.
    async fn try_out(&mut self, bad: &Bad) -> Option<Answer> {
        let mut anew = false;
        loop {
            let was_touched = self.stage.is_touched;
            let tried = self.send(Some(bad), anew).await;
            let judged = self.judge(bad, &tried);
            match judged {
                Ok(()) => return (tried.answer.status() == 422).then_some(tried.answer),
                // nor does what was tried before stand in the way there
                Err(_) if tried.answer.status() == 429 && !anew => anew = true,
                Err(_) if was_touched && !anew && !tried.answer.status().is_server_error() => anew = true,
                Err(why) => {
                    let (who, route, answer) = (self.who, self.form.route, &tried.answer);
                    self.wrong.push(format!("{who}, {route}: {bad}: {why} ({answer:?})"));
                    return None;
                }
            }
        }
    }

    fn judge(&mut self, bad: &Bad, tried: &Tried) -> Result<(), String> {
        let answer = &tried.answer;
        let status = answer.status().as_u16();
        if answer.status().is_server_error() || status == 429 {
            return Err("is no answer to a form".into());
        }
        if answer.status().is_success() || answer.location().is_some() {
            return if bad.never { Err("was taken".into()) } else { Ok(()) };
        }
        if tried.has_written {
            return Err("was refused and written all the same".into());
        }
        let field = self.form.field(&bad.field).expect("a field of the form");
        let is_seen = !matches!(field.kind, Kind::Hidden | Kind::Button(_));
        let is_gone = matches!(status, 400 | 404 | 409);
        if status != 422 && (is_seen || !is_gone) {
            return Err("has the wrong status".into());
        }
        let is_form = answer.count(".error-summary") > 0;
        if !is_form {
            return if is_seen && !BY_ONE_CHOICE.contains(&self.form.route) {
                Err("has no summary of what is wrong".into())
            } else {
                Ok(())
            };
        }
        let about = summary(answer)?;
        if bad.never && is_seen && !about.iter().any(|(name, _)| *name == bad.field) {
            return Err("says nothing about the field".into());
        }
        for (name, message) in about {
            let message = message.chars().map(|c| if c.is_ascii_digit() { '#' } else { c }).collect();
            self.said.entry(message).or_default().insert(numberless(&name));
        }
        kept(&self.form, bad, tried)
    }

    /// Everything that is tried with the form.
    async fn run(&mut self) {
        let valid = self.send(None, true).await;
        let taken = valid.answer.status().is_success() || valid.answer.location().is_some();
        if !taken {
            self.wrong.push(format!("{}: nobody can send it: {:?} {:?}", self.who, valid.answer, valid.sent));
            return;
        }
        let other = self.setting.other_practice.to_string();
        let has_password = self.form.fields.iter().any(|field| field.kind == Kind::Password);
        let mut names = BTreeSet::new();
        for field in self.form.fields.clone() {
            if !names.insert(numberless(&field.name)) || field.name == "username" {
                continue;
            }
            let mut tries = if settings::is_long() {
                bad_values::bad(&field, &other)
            } else {
                bad_values::few(&field, &other)
            };
            if has_password && !settings::is_long() {
                tries.truncate(3); // each is hashed slowly, on purpose
            }
            for bad in tries {
                let refused = self.try_out(&bad).await;
                let is_long = matches!(&bad.with, With::Value(text) if text.len() == LONG);
                // what is read as a file says more than that it is long: tests/it/library_file.rs
                let is_file = ["csv", "rows", "next_1", "next_2", "next_3"].contains(&field.name.as_str())
                    || self.form.route == "/library/import";
                if let Some(answer) = refused.filter(|_| is_long && field.kind == Kind::Text && !is_file) {
                    self.one_too_many(&field.name, &answer).await;
                }
            }
        }
        for (message, fields) in self.said.iter().filter(|(_, fields)| fields.len() > 1) {
            self.wrong.push(format!(
                "{}: does not say of which field it is: {message:?} {fields:?}",
                self.form.route
            ));
        }
    }

    /// The length that the message allows is allowed, and one more is not.
    async fn one_too_many(&mut self, name: &str, answer: &Answer) {
        let message = answer.error_of(name);
        let figures: Vec<usize> =
            message.split(|c: char| !c.is_ascii_digit()).filter_map(|n| n.parse().ok()).collect();
        let Some(most) = figures.last().copied().filter(|most| *most < LONG) else {
            self.wrong
                .push(format!("{}: {name} does not say how long it may be: {message:?}", self.form.route));
            return;
        };
        let length =
            |n: usize, never| Bad { field: name.to_owned(), with: With::Value("a".repeat(n)), never };
        self.try_out(&length(most + 1, true)).await;
        if let Some(answer) = self.try_out(&length(most, false)).await {
            let about = summary(&answer).unwrap_or_default();
            if about.iter().any(|(field, _)| field == name) {
                self.wrong.push(format!("{}: {most} characters are refused: {answer:?}", self.form.route));
            }
        }
    }
}

/// The fields of the summary with what it says of each, which is said beside the field as well.
fn summary(answer: &Answer) -> Result<Vec<(String, String)>, String> {
    let links = answer.attributes(".error-summary li a", "href");
    let said = answer.texts(".error-summary li a");
    let mut about = Vec::new();
    for (link, message) in links.into_iter().zip(said) {
        let name = link.strip_prefix("#f-").ok_or_else(|| format!("{link} leads to no field"))?.to_owned();
        if answer.count(&format!("[id='f-{name}']")) != 1 {
            return Err(format!("the summary leads to {link}, which is not there"));
        }
        let beside = answer.texts(&format!("[id='f-{name}-error']"));
        if !beside.iter().any(|text| text.trim_start_matches("Error: ") == message) {
            return Err(format!("{message:?} is not beside {name}: {beside:?}"));
        }
        about.push((name, message));
    }
    // what is wrong with a field that nobody sees is said in the summary alone
    if answer.count(".error-summary li") == 0 { Err("the summary is empty".into()) } else { Ok(about) }
}

/// Whether everything that was typed is in the form still, passwords aside.
fn kept(form: &Found, bad: &Bad, tried: &Tried) -> Result<(), String> {
    let again =
        every_form::on(&tried.answer).into_iter().find(|f| f.route == form.route && f.action == form.action);
    let again = again.ok_or("the form is not on the page")?;
    let plain = |text: &str| text.replace("\r\n", "\n").trim().to_owned();
    for field in &form.fields {
        let typed: Vec<String> = match &bad.with {
            With::Value(value) if field.name == bad.field => {
                let is_plain = value.chars().all(|c| c.is_ascii_graphic() || c == ' ');
                if !is_plain || matches!(field.kind, Kind::Choice(_) | Kind::Ticks(_) | Kind::Hidden) {
                    continue;
                }
                vec![plain(value)]
            }
            _ if field.name == bad.field => continue,
            _ => tried.sent.iter().filter(|(name, _)| *name == field.name).map(|(_, v)| plain(v)).collect(),
        };
        if matches!(field.kind, Kind::Password | Kind::Button(_)) {
            continue;
        }
        let holds = again.field(&field.name).map(|f| f.filled.iter().map(|v| plain(v)).collect());
        if holds.is_none() && typed.is_empty() && matches!(field.kind, Kind::Ticks(_)) {
            continue; // a tick that was not set is lost by nobody
        }
        if field.name == "capture" && holds.is_none() {
            continue; // one tap that cannot be taken leads to the whole form, which says so by itself
        }
        let holds: Vec<String> = holds.ok_or_else(|| format!("{} is gone", field.name))?;
        if holds != typed {
            return Err(format!("{} was {typed:.60?} and is {holds:.60?}", field.name));
        }
    }
    Ok(())
}

/// The forms of one person, dealt out among `of` tests.
async fn try_forms_of(people: &[&'static str], share: usize, of: usize) {
    let setting = Setting::build().await;
    let mine = forms(&setting, people).await.into_iter();
    let (mut wrong, mut tried, mut stage) = (Vec::new(), 0, Some(setting.set().await));
    for (_, before) in mine.enumerate().filter(|(at, _)| at % of == share) {
        let on_stage = stage.take().expect("the last one gave it back");
        let mut trial = Trial::begin(&setting, on_stage, before).await;
        trial.run().await;
        wrong.append(&mut trial.wrong);
        tried += trial.tried;
        stage = Some(trial.stage);
    }
    println!("{tried} forms sent");
    assert!(tried > 0, "nothing was tried");
    assert!(wrong.is_empty(), "{} of {tried} went wrong:\n{}", wrong.len(), wrong.join("\n"));
}

macro_rules! try_forms {
    ($($name:ident: $people:expr, $share:literal of $of:literal;)*) => {$(
        #[tokio::test]
        async fn $name() {
            try_forms_of(&$people, $share, $of).await;
        }
    )*};
}

try_forms! {
    a_trainer_s_forms_take_nothing_bad_1: ["the trainer"], 0 of 4;
    a_trainer_s_forms_take_nothing_bad_2: ["the trainer"], 1 of 4;
    a_trainer_s_forms_take_nothing_bad_3: ["the trainer"], 2 of 4;
    a_trainer_s_forms_take_nothing_bad_4: ["the trainer"], 3 of 4;
    an_owner_s_forms_take_nothing_bad: ["the owner"], 0 of 1;
    a_lead_s_forms_take_nothing_bad: ["the lead"], 0 of 1;
    open_forms_take_nothing_bad: ["a visitor", "the other owner"], 0 of 1;
}

/// Sends a form as it should be, with these fields as well, on a stage that nobody touched: what is there afterwards.
async fn with_extras(setting: &Setting, before: &Before, extras: &[(&str, String)]) -> (Answer, Vec<String>) {
    let stage = setting.set().await;
    let mut trial = Trial::begin(setting, stage, before.clone()).await;
    let form = trial.open(false).await;
    let mut sent = bad_values::valid(&form);
    let extras = extras.iter().filter(|(name, _)| form.field(name).is_none());
    sent.extend(extras.map(|(name, value)| ((*name).to_owned(), value.clone())));
    let sent: Vec<(&str, &str)> = sent.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let answer = trial.stage.who(before.0).post(&form.action, &sent).await;
    (answer, trial.stage.everything().await)
}

#[tokio::test]
async fn what_a_form_did_not_ask_for_changes_nothing() {
    let setting = Setting::build().await;
    let other = setting.other_practice.to_string();
    let extras = [
        ("role", "lead".to_owned()),
        ("is_lead", "true".to_owned()),
        ("practice_id", other.clone()),
        ("practice", other.clone()),
        ("household", other.clone()),
        ("household_id", other.clone()),
        ("trainer_id", other.clone()),
        ("id", "00000000-0000-4000-8000-00000000000a".to_owned()),
        ("author", other),
        ("published_at", "2020-01-01".to_owned()),
    ];
    let mut wrong = Vec::new();
    let every = if settings::is_long() { 1 } else { 3 };
    for before in forms(&setting, &EVERYBODY).await.into_iter().step_by(every) {
        let (answer, there) = with_extras(&setting, &before, &[]).await;
        let (answer_too, there_too) = with_extras(&setting, &before, &extras).await;
        let same_answer =
            answer.status() == answer_too.status() && answer.location() == answer_too.location();
        if !same_answer || there != there_too {
            let new = there_too.iter().filter(|row| !there.contains(row)).take(3).collect::<Vec<_>>();
            wrong.push(format!(
                "{}, {}: {answer_too:?} rather than {answer:?}, with {new:#?}",
                before.0, before.1.route
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What a page must never hold as markup or outside of text.
fn is_dangerous(page: &Answer) -> bool {
    let source = page.body().to_lowercase();
    source.contains("<script>alert")
        || source.contains("<img src=x")
        || page.header("set-cookie-two").is_some()
}

#[tokio::test]
async fn hostile_text_is_shown_as_text_wherever_it_is_read() {
    let setting = Setting::build().await;
    // short enough for every field; the form's number goes before it, since some names are given once
    let hostile = "\"><img src=x onerror=alert(1)><script>alert(1)</script>";
    let mut stage = setting.set().await;
    let mut wrong = Vec::new();
    let taken_from = |form: &Found| {
        let gone =
            ["/remove", "/end", "/end-others", "/archive", "/password", "/restart", "/sign-out", "/discard"];
        !gone.iter().any(|end| form.route.ends_with(end)) && !form.route.starts_with("/l/")
    };
    let found = forms(&setting, &EVERYBODY).await.into_iter().filter(|(_, form)| taken_from(form));
    for (turn, (who, found)) in found.enumerate() {
        let page = stage.who(who).get(&found.page).await;
        let Some(form) = every_form::on(&page).into_iter().find(|f| f.make() == found.make()) else {
            continue;
        };
        let mut sent = bad_values::valid(&form);
        for (name, value) in &mut sent {
            let kind = form.field(name).map(|field| &field.kind);
            if kind == Some(&Kind::Text)
                && !matches!(
                    name.as_str(),
                    "username" | "phone" | "csv" | "rows" | "next_1" | "next_2" | "next_3"
                )
                && form.route != "/library/import"
            {
                *value = format!("{turn}{hostile}");
            }
        }
        let sent: Vec<(&str, &str)> = sent.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
        let answer = stage.who(who).post(&form.action, &sent).await;
        if is_dangerous(&answer) || answer.status() == 422 {
            wrong.push(format!("{answer:?}"));
        }
    }
    let mut read = 0;
    for who in MEMBERS {
        for page in every_form::walk(stage.who(who), &setting.things).await.pages {
            read += usize::from(page.body().contains("&#60;script&#62;alert(1)"));
            if is_dangerous(&page) {
                wrong.push(format!("{who}: {page:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(read > 30, "the text was read on {read} pages alone");
}
