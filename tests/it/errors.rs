//! What people meet when something is not there, not right, or broken: a page that says what to do, and nothing of
//! what failed.

use axum::http::Method;

use crate::support::browser::From;
use crate::support::{Answer, World};

#[tokio::test]
async fn what_does_not_exist_leads_back_to_the_first_page() {
    let world = World::new().await;
    let mut visitor = world.visitor();
    for path in ["/nothing/here", "/static/nothing.css", "/%00", "/sign-in/"] {
        let missing = visitor.get(path).await;
        missing.expect(404);
        let first = visitor.visit(&missing.link("Go to the first page")).await;
        assert_eq!(first.path(), "/sign-in");
    }
}

#[tokio::test]
async fn what_cannot_be_read_is_refused_with_a_page() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let text = |answer: Answer| answer.text("h1");
    let put = lead.ask(Method::PUT, "/sign-in", &[], From::OurPage).await;
    put.expect(405);
    assert!(!text(put).is_empty());
    let long = "a".repeat(100_000);
    let much = lead.post("/sign-in", &[("email", &long)]).await;
    much.expect(413);
    assert!(!text(much).is_empty());
}

#[tokio::test]
async fn a_failure_inside_shows_nothing_of_the_inside() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    lead.expects_failures();
    sqlx::raw_sql("alter table sign_in rename to gone")
        .execute(&mut world.database.as_superuser().await)
        .await
        .expect("breaks");
    let broken = lead.get("/").await;
    broken.expect(500);
    assert_eq!(broken.text("h1"), "Something broke on our side");
}

#[tokio::test]
async fn a_database_that_is_away_is_said_so_and_comes_back() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    lead.expects_failures();
    let name = world.database.name().to_owned();
    let on_server = async |statement: String| world.database.on_server(&statement).await;
    on_server(format!("alter database {name} connection limit 0")).await;
    on_server(format!("select pg_terminate_backend(pid) from pg_stat_activity where datname = '{name}'"))
        .await;
    let away = lead.get("/").await;
    away.expect(503);
    assert_eq!(away.header("retry-after"), Some("30"));
    lead.get("/readyz").await.expect(503);
    lead.get("/livez").await.expect(200);
    on_server(format!("alter database {name} connection limit -1")).await;
    lead.get("/").await.redirects_to("/caseload");
    lead.get("/readyz").await.expect(200);
}
