//! Signing in and out with an address and a password.

use time::Duration;

use crate::support::people::PASSWORD;
use crate::support::world::SECURE;
use crate::support::{Answer, Browser, World};

const COOKIE: &str = "settlebrook";

async fn sign_in(browser: &mut Browser, email: &str, password: &str) -> Answer {
    let page = browser.get("/sign-in").await;
    browser.submit(&page, "main form", &[("email", email), ("password", password)]).await
}

#[tokio::test]
async fn a_lead_signs_in_and_out() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let mut ada = world.visitor();
    sign_in(&mut ada, &practice.lead_email, PASSWORD).await.redirects_to("/caseload");
    ada.get("/").await.redirects_to("/caseload");
    ada.get("/sign-in").await.redirects_to("/caseload");
    let stolen = ada.cookie(COOKIE).expect("signed in").to_owned();
    ada.post("/sign-out", &[]).await.redirects_to("/sign-in");
    assert_eq!(ada.cookie(COOKIE), None);
    ada.get("/").await.redirects_to("/sign-in");
    let mut thief = world.visitor();
    thief.hold_cookie(COOKIE, &stolen);
    thief.get("/").await.redirects_to("/sign-in");
}

#[tokio::test]
async fn a_trainer_stays_signed_in_for_a_working_day() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    world.pass(Duration::hours(24) - Duration::SECOND);
    lead.get("/").await.redirects_to("/caseload");
    world.pass(Duration::SECOND);
    lead.get("/").await.redirects_to("/sign-in");
}

#[tokio::test]
async fn a_refusal_does_not_tell_whether_the_address_is_known() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let before = world.database.fingerprint().await;
    let known = sign_in(&mut world.visitor(), &practice.lead_email, "another long password").await;
    let unknown = sign_in(&mut world.visitor(), "nobody.here@example.org", "another long password").await;
    for answer in [&known, &unknown] {
        answer.expect(422);
        assert!(answer.attributes("input[type=password]", "value").is_empty());
    }
    let without_address = |answer: &Answer, email: &str| answer.body().replace(email, "");
    assert_eq!(
        without_address(&known, &practice.lead_email),
        without_address(&unknown, "nobody.here@example.org")
    );
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn a_password_counts_to_the_letter_and_an_address_does_not() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    for wrong in [format!(" {PASSWORD}"), format!("{PASSWORD} "), PASSWORD.to_uppercase()] {
        sign_in(&mut world.visitor(), &practice.lead_email, &wrong).await.expect(422);
    }
    let shouted = format!(" {} ", practice.lead_email.to_uppercase());
    sign_in(&mut world.visitor(), &shouted, PASSWORD).await.expect(303);
}

#[tokio::test]
async fn nothing_typed_is_asked_for_beside_its_field() {
    let world = World::new().await;
    let again = sign_in(&mut world.visitor(), "", "").await;
    again.expect(422);
    assert_eq!(again.attributes(".error-summary a", "href"), ["#f-email", "#f-password"]);
}

#[tokio::test]
async fn signing_in_leads_back_to_where_one_wanted_to_go_and_never_away() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    for (next, to) in [
        ("/households?search=fell", "/households?search=fell"),
        ("//elsewhere.example", "/caseload"),
        ("https://elsewhere.example/", "/caseload"),
        ("/\\elsewhere.example", "/caseload"),
    ] {
        let mut ada = world.visitor();
        let query = form_urlencoded::Serializer::new(String::new()).append_pair("next", next).finish();
        let page = ada.get(&format!("/sign-in?{query}")).await;
        let typed = [("email", practice.lead_email.as_str()), ("password", PASSWORD)];
        ada.submit(&page, "main form", &typed).await.redirects_to(to);
    }
}

#[tokio::test]
async fn guessing_is_slowed_down_for_one_address_and_not_for_others() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let mut guesser = world.visitor();
    let mut slowed = None;
    for guess in 0..40 {
        let fields = [("email", "ada@example.org"), ("password", &format!("guess number {guess} of many"))];
        let answer = guesser.post("/sign-in", &fields).await;
        if answer.status() == 429 {
            slowed = Some(answer);
            break;
        }
        answer.expect(422);
    }
    let slowed = slowed.expect("forty guesses at once are too many");
    assert!(slowed.header("retry-after").is_some());
    sign_in(&mut world.visitor(), &practice.lead_email, PASSWORD).await.expect(303);
}

#[tokio::test]
async fn a_token_is_kept_only_as_its_hash_and_a_password_only_as_its_own() {
    let world = World::new().await;
    let lead = world.lead().await;
    let token = lead.cookie(COOKIE).expect("signed in");
    let mut all = world.database.as_superuser().await;
    for secret in [token, PASSWORD] {
        for table in crate::support::database::tables(&mut all).await {
            let query = format!("select count(*) from \"{table}\" t where t::text like '%' || $1 || '%'");
            let found: i64 = sqlx::query_scalar(sqlx::AssertSqlSafe(query))
                .bind(secret)
                .fetch_one(&mut all)
                .await
                .expect("searches");
            assert_eq!(found, 0, "{table} holds a secret as it is");
        }
    }
    let kept: String =
        sqlx::query_scalar("select secret from credential").fetch_one(&mut all).await.expect("one");
    assert!(kept.starts_with("$argon2id$v=19$m=19456,t=2,p=1$"), "{kept}");
}

#[tokio::test]
async fn over_https_the_cookie_is_bound_to_the_host() {
    let world = World::at(SECURE).await;
    let lead = world.lead().await;
    assert!(lead.cookie("__Host-settlebrook").is_some());
}

#[tokio::test]
async fn forged_cookies_are_nobody() {
    let world = World::new().await;
    world.lead().await;
    for forged in ["", "x", &"A".repeat(43), "../../etc", &"A".repeat(5000)] {
        let mut forger = world.visitor();
        forger.hold_cookie(COOKIE, forged);
        forger.get("/").await.redirects_to("/sign-in");
    }
}
