//! Passkeys: made on the account page, used on the sign-in page, and refused whenever anything about them is not right.

use serde_json::{Value, json};
use time::Duration;

use crate::support::authenticator::Authenticator;
use crate::support::browser::From;
use crate::support::people::PASSWORD;
use crate::support::{Answer, Browser, Practice, World};

const COOKIE: &str = "settlebrook";
const CHALLENGE: &str = "settlebrook-passkey";

/// A practice with a household, and its owner on their phone.
async fn with_an_owner(world: &World) -> (Practice, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    practice.dog(household, "Moss").await;
    let ada = practice.owner(world, household, "Ada Okoro").await;
    (practice, ada)
}

fn said(answer: &Answer) -> Value {
    serde_json::from_str(answer.body()).unwrap_or_else(|error| panic!("{answer:?} is no JSON: {error}"))
}

async fn begin(browser: &mut Browser, path: &str) -> Value {
    let answer = browser.post_json(path, "{}").await;
    said(answer.expect(200))
}

/// Adds a passkey to whoever is signed in: the phone that has it now.
pub async fn add(browser: &mut Browser) -> Authenticator {
    let mut phone = Authenticator::new();
    let challenge = begin(browser, "/account/passkeys/begin").await;
    let answer = browser.post_json("/account/passkeys", &phone.make(&challenge).to_string()).await;
    let to = said(answer.expect(200))["to"].as_str().expect("where to go").to_owned();
    browser.get(&to).await.expect(200);
    phone
}

async fn show(browser: &mut Browser, answer: &Value) -> Answer {
    browser.post_json("/sign-in/passkey", &json!({ "answer": answer, "next": "/" }).to_string()).await
}

async fn sign_in(browser: &mut Browser, phone: &mut Authenticator) -> Answer {
    let challenge = begin(browser, "/sign-in/passkey/begin").await;
    show(browser, &phone.use_for(&challenge)).await
}

/// Nobody is signed in, and the answer says so in words.
#[track_caller]
fn is_refused(browser: &Browser, answer: &Answer) {
    assert!(said(answer.expect(422))["message"].as_str().is_some_and(|words| words.len() > 20));
    assert_eq!(browser.cookie(COOKIE), None);
}

#[tokio::test]
async fn an_owner_adds_a_passkey_and_comes_back_in_with_it() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let mut phone = add(&mut ada).await;
    assert!(ada.get("/account").await.texts("main").concat().contains("not used yet"));
    ada.post("/sign-out", &[]).await.redirects_to("/sign-in");
    world.pass(Duration::hours(2));

    let answer = sign_in(&mut ada, &mut phone).await;
    assert_eq!(said(answer.expect(200)), json!({ "to": "/today" }));
    assert_eq!(ada.cookie(CHALLENGE), None, "its cookie goes with it");
    ada.get("/").await.redirects_to("/today");
    assert!(ada.get("/account").await.texts("main").concat().contains("last used Thu 12 Mar, 11:30"));
    let noted = "select count(*) from audit_event where action in ('add_passkey', 'sign_in_by_passkey')";
    assert_eq!(world.database.count(noted).await, 2);
    world.pass(Duration::days(180) - Duration::SECOND);
    ada.get("/").await.redirects_to("/today");
    world.pass(Duration::SECOND);
    ada.get("/").await.redirects_to("/sign-in");
}

#[tokio::test]
async fn signing_in_with_a_passkey_leads_on_and_never_away() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let mut phone = add(&mut ada).await;
    for (next, to) in [("/progress", "/progress"), ("https://elsewhere.example", "/today")] {
        let mut visitor = world.visitor();
        let challenge = begin(&mut visitor, "/sign-in/passkey/begin").await;
        let shown = json!({ "answer": phone.use_for(&challenge), "next": next });
        let answer = visitor.post_json("/sign-in/passkey", &shown.to_string()).await;
        assert_eq!(said(answer.expect(200))["to"], to);
    }
}

#[tokio::test]
async fn whoever_stands_in_two_practices_chooses_one() {
    let world = World::new().await;
    let (mut here, mut there) =
        (world.practice("Heath and Hollow").await, world.practice("Moss and Mire").await);
    let page = there.lead.get("/practice/team/invite").await;
    let invited = [("name", "Rowan Airey"), ("email", here.lead_email.as_str())];
    let link = there.lead.submit(&page, "main form", &invited).await.text(".link-out");
    let path = format!("/l/{}", link.split_once("/l/").expect("an invitation").1);
    let mut visitor = world.visitor();
    let page = visitor.get(&path).await;
    let known = [("email", here.lead_email.as_str()), ("password", PASSWORD)];
    visitor.submit(&page, "main form", &known).await.expect(303);

    let mut phone = add(&mut here.lead).await;
    let mut visitor = world.visitor();
    let asked = sign_in(&mut visitor, &mut phone).await;
    is_refused(&visitor, &asked);
    let practices = said(&asked)["practices"].clone();
    assert_eq!(practices[0][1], "Heath and Hollow");
    assert_eq!(practices[1], json!([there.id.to_string(), "Moss and Mire"]));
    let challenge = begin(&mut visitor, "/sign-in/passkey/begin").await;
    let chosen = json!({ "answer": phone.use_for(&challenge), "practice": practices[1][0] });
    visitor.post_json("/sign-in/passkey", &chosen.to_string()).await.expect(200);
    assert_eq!(visitor.get("/account").await.text(".lead p"), "Trainer, Moss and Mire");
}

#[tokio::test]
async fn an_answer_counts_once() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let mut phone = add(&mut ada).await;
    let mut visitor = world.visitor();
    let challenge = begin(&mut visitor, "/sign-in/passkey/begin").await;
    let cookie = visitor.cookie(CHALLENGE).expect("a cookie").to_owned();
    let answer = phone.use_for(&challenge);
    show(&mut visitor, &answer).await.expect(200);
    let mut thief = world.visitor();
    thief.hold_cookie(CHALLENGE, &cookie);
    let again = show(&mut thief, &answer).await;
    is_refused(&thief, &again);
}

#[tokio::test]
async fn a_challenge_is_for_a_few_minutes_and_for_one_browser() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let mut phone = add(&mut ada).await;
    let mut late = world.visitor();
    let challenge = begin(&mut late, "/sign-in/passkey/begin").await;
    let mut other = world.visitor();
    begin(&mut other, "/sign-in/passkey/begin").await;
    let foreign = show(&mut other, &phone.use_for(&challenge)).await;
    is_refused(&other, &foreign);
    let mut nobody = world.visitor();
    let unasked = show(&mut nobody, &phone.use_for(&challenge)).await;
    is_refused(&nobody, &unasked);
    world.pass(Duration::minutes(5));
    let expired = show(&mut late, &phone.use_for(&challenge)).await;
    is_refused(&late, &expired);
}

#[tokio::test]
async fn a_challenge_for_one_thing_answers_no_other() {
    let world = World::new().await;
    let (mut practice, mut ada) = with_an_owner(&world).await;
    add(&mut ada).await;
    let challenge = begin(&mut ada, "/account/passkeys/begin").await;
    let cookie = ada.cookie(CHALLENGE).expect("a cookie").to_owned();
    let made = Authenticator::new().make(&challenge);
    practice.lead.hold_cookie(CHALLENGE, &cookie);
    practice.lead.post_json("/account/passkeys", &made.to_string()).await.expect(422);
    ada.post_json("/account/passkeys", &made.to_string()).await.expect(422);
    assert_eq!(
        world.database.count("select count(*) from passkey").await,
        1,
        "it was used up by the wrong one"
    );

    let mut phone = Authenticator::new();
    let challenge = begin(&mut ada, "/account/passkeys/begin").await;
    phone.make(&challenge);
    ada.post("/sign-out", &[]).await.redirects_to("/sign-in");
    let answer = phone.use_for(
        &json!({ "publicKey": { "rpId": "localhost", "challenge": challenge["publicKey"]["challenge"] } }),
    );
    let refused = show(&mut ada, &answer).await;
    is_refused(&ada, &refused);
}

#[tokio::test]
async fn a_removed_passkey_is_refused() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let mut phone = add(&mut ada).await;
    let account = ada.get("/account").await;
    let links = account.attributes("main a", "href");
    let remove = links.iter().find(|to| to.starts_with("/account/passkeys/") && to.ends_with("/remove"));
    let page = ada.get(remove.expect("a way to remove it")).await;
    assert!(page.texts("main").concat().contains("a link from your trainer"), "the last way in is named");
    ada.submit(&page, "main form", &[]).await.redirects_to("/account?notice=passkey-removed");
    let mut visitor = world.visitor();
    let refused = sign_in(&mut visitor, &mut phone).await;
    is_refused(&visitor, &refused);
}

#[tokio::test]
async fn a_passkey_opens_its_own_account_alone() {
    let world = World::new().await;
    let (mut practice, mut ada) = with_an_owner(&world).await;
    let mut phone = add(&mut ada).await;
    let lead = add(&mut practice.lead).await;
    phone.user = lead.user.clone();
    let mut visitor = world.visitor();
    let refused = sign_in(&mut visitor, &mut phone).await;
    is_refused(&visitor, &refused);

    let account = practice.lead.get("/account").await;
    let links = account.attributes("main a", "href");
    let own = links.iter().find(|to| to.starts_with("/account/passkeys/")).expect("the lead's own");
    let own = own.trim_end_matches("/remove");
    ada.get(own).await.expect(404);
    ada.get(&format!("{own}/remove")).await.expect(404);
    ada.post(own, &[("name", "Mine")]).await.expect(404);
    ada.post(&format!("{own}/remove"), &[]).await.expect(404);
    let page = practice.lead.get(own).await;
    practice.lead.submit(&page, "main form", &[("name", "")]).await.expect(422);
    let saved = practice.lead.submit(&page, "main form", &[("name", "Work laptop")]).await;
    saved.redirects_to("/account?notice=saved");
    assert!(practice.lead.get("/account").await.texts("main b").contains(&"Work laptop".to_owned()));
}

#[tokio::test]
async fn a_phone_that_breaks_the_rules_is_refused() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let phone = add(&mut ada).await;
    let wrong: [fn(&mut Authenticator); 4] = [
        |phone| phone.counter = 0,
        |phone| phone.verifies = false,
        |phone| phone.origin = "https://elsewhere.example".to_owned(),
        |phone| phone.user = Value::Null,
    ];
    for (at, make_wrong) in wrong.into_iter().enumerate() {
        let (mut visitor, mut phone) = (world.visitor(), phone.clone());
        make_wrong(&mut phone);
        let refused = sign_in(&mut visitor, &mut phone).await;
        assert_eq!(refused.status(), 422, "{at}");
        is_refused(&visitor, &refused);
    }
    let mut lax = Authenticator::new();
    lax.verifies = false;
    let challenge = begin(&mut ada, "/account/passkeys/begin").await;
    ada.post_json("/account/passkeys", &lax.make(&challenge).to_string()).await.expect(422);
}

#[tokio::test]
async fn whoever_may_not_sign_in_may_not_by_a_passkey() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let mut phone = add(&mut ada).await;
    for (change, may) in [
        ("update account set disabled_at = now() where email is null", false),
        ("update account set disabled_at = null", true),
        ("update membership set removed_at = now(), account_id = null where role = 'owner'", false),
    ] {
        sqlx::raw_sql(change).execute(&mut world.database.as_superuser().await).await.expect(change);
        let mut visitor = world.visitor();
        let answer = sign_in(&mut visitor, &mut phone).await;
        if may {
            answer.expect(200);
        } else {
            is_refused(&visitor, &answer);
        }
    }
}

#[tokio::test]
async fn one_passkey_is_not_tried_without_end() {
    let world = World::new().await;
    let mut guesser = world.visitor();
    let mut phone = Authenticator::new();
    phone.user = json!("AZznsPgAcAA");
    let mut slowed = false;
    for _ in 0..40 {
        let answer = sign_in(&mut guesser, &mut phone).await;
        if answer.status() == 429 {
            slowed = true;
            break;
        }
        is_refused(&guesser, &answer);
    }
    assert!(slowed, "forty tries at once are too many");
}

#[tokio::test]
async fn what_is_not_json_of_ours_is_refused_and_writes_nothing() {
    let world = World::new().await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    let before = world.database.fingerprint().await;
    let paths =
        ["/sign-in/passkey/begin", "/sign-in/passkey", "/account/passkeys/begin", "/account/passkeys"];
    for path in paths {
        for body in ["", "null", "[]", "{", "{\"answer\":{}}", "{\"id\":\"x\",\"rawId\":\"\"}", "\u{0}"] {
            let answer = ada.post_json(path, body).await;
            assert!(answer.status().is_client_error(), "{path} {body:?}: {answer:?}");
        }
        ada.post(path, &[]).await.expect(415);
        for from in [From::AnotherSite, From::AnotherOrigin, From::Unsaid] {
            ada.ask(axum::http::Method::POST, path, &[], from).await.expect(403);
        }
    }
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn under_a_number_there_are_none_and_the_pages_say_why() {
    let world = World::at("http://127.0.0.1:8080").await;
    let (_practice, mut ada) = with_an_owner(&world).await;
    for page in [ada.get("/account").await, world.visitor().get("/sign-in").await] {
        assert_eq!(page.count("[data-passkey]"), 0);
        assert!(page.texts("main").concat().contains("an address with a name"), "{page:?}");
    }
    ada.post_json("/account/passkeys/begin", "{}").await.expect(404);
    world.visitor().post_json("/sign-in/passkey/begin", "{}").await.expect(404);
}

#[tokio::test]
async fn challenges_that_nobody_answered_go_after_an_hour() {
    let world = World::new().await;
    begin(&mut world.visitor(), "/sign-in/passkey/begin").await;
    let old = "update passkey_challenge set kept_since = now() - interval '61 minutes'";
    sqlx::raw_sql(old).execute(&mut world.database.as_superuser().await).await.expect("ages it");
    begin(&mut world.visitor(), "/sign-in/passkey/begin").await;
    begin(&mut world.visitor(), "/sign-in/passkey/begin").await;
    assert_eq!(world.database.count("select count(*) from passkey_challenge").await, 2);
}
