//! Links to reports: what a reader sees before and after opening one, what is noted of it, and everything that stops it.

use sqlx::AssertSqlSafe;
use time::Duration;

use crate::reports::{Home, says};
use crate::support::Answer;
use crate::support::builders::id_in;

/// The token of a link.
fn token(path: &str) -> &str {
    path.trim_start_matches("/r/")
}

#[tokio::test]
async fn each_opening_is_noted_and_nothing_of_who_it_was() {
    let mut home = Home::new().await;
    let report = home.draft("progress", &[]).await;
    home.practice.issue_report(&report).await;
    let page = home.practice.lead.get(&report).await;
    let refused = home.practice.lead.submit(&page, "main form[action$='/share']", &[("days", "7")]).await;
    assert_eq!(refused.expect(422).error_of("for_whom"), "Say for whom it is.");
    let refused =
        home.practice.lead.post(&format!("{report}/share"), &[("for_whom", "x"), ("days", "8")]).await;
    says(&refused.expect(422).error_of("days"), &["choose one of the answers"]);
    let vet = home.practice.share_report(&report, "Beckside surgery").await;
    home.practice.share_report(&report, "A colleague").await;
    let mut reader = home.world.visitor();
    for _ in 0..3 {
        let before = home.world.database.fingerprint().await;
        let front = reader.get(&vet).await;
        says(
            &front.expect(200).text("main"),
            &["Progress report about Moss", "That it was opened, and when, is noted"],
        );
        assert!(!front.text("main").contains("What was practised"), "nothing of it before it is opened");
        assert_eq!(home.world.database.fingerprint().await, before, "looking at the front writes nothing");
        let opened = reader.submit(&front, "main form", &[]).await;
        says(&opened.expect(200).text("main article"), &["What was practised", "Facts only: no diagnosis"]);
        assert_eq!(opened.attributes("main a", "href"), Vec::<String>::new(), "nothing leads further");
        home.world.pass(Duration::minutes(10));
    }
    let links = home.practice.lead.get(&report).await.texts("main .row.person");
    says(&links[1], &["Beckside surgery", "Opened 3 times, last Thu 12 Mar, 09:50", "Works until"]);
    says(&links[0], &["A colleague", "Not opened yet"]);
    let kept = "select count(*) from information_schema.columns where table_name = 'report_opening'
                and column_name not in ('practice_id', 'id', 'link_id', 'opened_at')";
    assert_eq!(home.world.database.count(kept).await, 0, "an instant, and nothing else");
    assert_eq!(home.world.database.count("select count(*) from report_opening").await, 3);
    // the answer got lost and is asked for again: one link, a new secret, and the one that nobody saw is over
    let page = home.practice.lead.get(&report).await;
    let made = |answer: &Answer| {
        let link = answer.expect(200).text(".link-out");
        format!("/r/{}", link.split_once("/r/").expect("a link").1.trim())
    };
    let share = [("for_whom", "Somebody"), ("days", "90")];
    let first = made(&home.practice.lead.submit(&page, "main form[action$='/share']", &share).await);
    let again = made(&home.practice.lead.submit(&page, "main form[action$='/share']", &share).await);
    reader.get(&first).await.expect(404);
    reader.get(&again).await.expect(200);
    // with other days it ends when it was first to end, and says so
    let other = [("for_whom", "Somebody"), ("days", "7")];
    let other = home.practice.lead.submit(&page, "main form[action$='/share']", &other).await;
    says(&other.expect(200).text("main"), &["10 Jun"]);
    reader.get(&made(&other)).await.expect(200);
    let other = [("for_whom", "Somebody else"), ("days", "90")];
    home.practice.lead.submit(&page, "main form[action$='/share']", &other).await.expect(409);
    assert_eq!(home.world.database.count("select count(*) from report_link").await, 3);
    // what is kept is no secret
    let plain = format!(
        "select count(*) from link_token where encode(token_hash, 'escape') like '%{}%'",
        token(&again)
    );
    let mut all = home.world.database.as_superuser().await;
    let found: i64 = sqlx::query_scalar(AssertSqlSafe(plain)).fetch_one(&mut all).await.expect("counts");
    assert_eq!(found, 0);
}

#[tokio::test]
async fn a_link_that_is_over_is_a_page_that_never_was() {
    let mut home = Home::new().await;
    let (moss, mut reader) = (home.moss, home.world.visitor());
    let report = home.draft("progress", &[]).await;
    home.practice.issue_report(&report).await;
    let nothing = reader.get(&format!("/r/{}", "A".repeat(43))).await.expect(404).body().to_owned();
    let openings = "select count(*) from report_opening";
    // other kinds of links, and this one elsewhere
    let helper = home.practice.helper(&mut home.ada, moss, "Sam Pell").await;
    let household = home.practice.things["household"];
    let device = home.practice.owner_to_come(household, "Uche Okoro").await;
    let path = home.practice.share_report(&report, "Beckside surgery").await;
    for other in
        [helper.replace("/h/", "/r/"), device.replace("/l/", "/r/"), format!("{path}x"), "/r/abc".to_owned()]
    {
        assert_eq!(reader.get(&other).await.expect(404).body(), nothing, "{other}");
        assert_eq!(reader.post(&format!("{other}/open"), &[]).await.expect(404).body(), nothing, "{other}");
    }
    for other in [path.replace("/r/", "/h/"), path.replace("/r/", "/l/")] {
        reader.get(&other).await.expect(404);
    }
    reader.get("/caseload").await.redirects_to("/sign-in?next=%2Fcaseload");
    // revoked
    reader.get(&path).await.expect(200);
    let page = home.practice.lead.get(&report).await;
    for _ in 0..2 {
        let revoked = home.practice.lead.submit(&page, "main form[action$='/revoke']", &[]).await;
        revoked.redirects_to(&format!("{report}?notice=report-link-revoked"));
    }
    assert_eq!(reader.get(&path).await.expect(404).body(), nothing);
    assert_eq!(reader.post(&format!("{path}/open"), &[]).await.expect(404).body(), nothing);
    says(&home.practice.lead.get(&report).await.text("main .row.person"), &["Revoked Thu 12 Mar"]);
    // run out, to the minute; the usual time is thirty days
    let path = home.practice.share_report(&report, "Beckside surgery").await;
    home.world.pass(Duration::days(30) - Duration::minutes(1));
    reader.get(&path).await.expect(200);
    home.world.pass(Duration::minutes(1));
    assert_eq!(reader.get(&path).await.expect(404).body(), nothing);
    assert_eq!(reader.post(&format!("{path}/open"), &[]).await.expect(404).body(), nothing);
    // the dog was archived
    home.practice.lead_signs_in().await;
    let path = home.practice.share_report(&report, "Beckside surgery").await;
    let moss = moss.to_string();
    let several = [("dogs", moss.as_str()), ("change", "archive")];
    home.practice.lead.post("/caseload/several", &several).await.expect(303);
    assert_eq!(reader.get(&path).await.expect(404).body(), nothing);
    assert_eq!(home.world.database.count(openings).await, 0, "nothing was opened");
}

#[tokio::test]
async fn a_link_of_one_practice_opens_nothing_of_another() {
    let mut home = Home::new().await;
    let report = home.draft("progress", &[]).await;
    home.practice.issue_report(&report).await;
    home.practice.share_report(&report, "Beckside surgery").await;
    let link = home.practice.things["report_link"];
    let mut other = home.world.practice("Fell and Fern").await;
    let household = other.household("Castell").await;
    let tansy = other.dog(household, "Tansy").await;
    let theirs = other.draft_report(tansy, &[("kind", "progress")]).await;
    other.issue_report(&theirs).await;
    // ids of another practice's things, at one's own dog and at theirs
    let (moss, id) = (home.moss, id_in(&report, "reports"));
    for path in [report.clone(), format!("/dogs/{tansy}/reports/{id}")] {
        other.lead.get(&path).await.expect(404);
        other.lead.get(&format!("{path}/edit")).await.expect(404);
        other.lead.post(&format!("{path}/share"), &[("for_whom", "Me"), ("days", "7")]).await.expect(404);
        other.lead.post(&format!("{path}/correct"), &[]).await.expect(404);
        other.lead.post(&format!("{path}/links/{link}/revoke"), &[]).await.expect(404);
    }
    // nor another report's link at a report of one's own
    let page = home.practice.lead.get(&format!("/dogs/{moss}/reports")).await;
    assert_eq!(page.count("main .links a"), 1);
    let second = home.draft("hand_over", &[]).await;
    home.practice.issue_report(&second).await;
    home.practice.lead.post(&format!("{second}/links/{link}/revoke"), &[]).await.expect(404);
    let working = "select count(*) from report_link where revoked_at is null";
    assert_eq!(home.world.database.count(working).await, 1);
}
