//! An owner's day: what one tap says of an exercise that is not counted.

use crate::support::World;

#[tokio::test]
async fn what_is_measured_takes_one_tap_and_is_read_with_its_unit() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.publish_plan(moss, &["Alone, in small steps"]).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let today = ada.get("/today").await;
    let tap = format!("main form[action='/dogs/{moss}/log']");
    assert!(today.text(&tap).contains("How long did Moss stay calm? (minutes)"), "{}", today.text(&tap));
    let offered = today.attributes(&format!("{tap} button"), "value");
    assert!(offered.contains(&"5".to_owned()), "{offered:?}");
    let asked = ada.submit(&today, &tap, &[]).await;
    assert!(!asked.expect(422).error_of("outcome_value").is_empty(), "without an answer it is asked for");
    let sent = ada.submit(&today, &tap, &[("outcome_value", "5")]).await;
    sent.expect(303);
    assert!(ada.follow(sent).await.text("h1").contains("Calm for 5 min"));
    assert!(ada.get("/progress").await.text("main .log").contains("Calm for 5 min"));
    assert!(practice.lead.get(&format!("/dogs/{moss}/log")).await.text("main").contains("Calm for 5 min"));
}

#[tokio::test]
async fn what_an_owner_learns_without_the_dog_is_done_by_one_tap() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.publish_plan(moss, &["Timing the yes"]).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let today = ada.get("/today").await;
    let tap = format!("main form[action='/dogs/{moss}/log']");
    assert_eq!(today.texts(&format!("{tap} button")), ["Done as planned"]);
    ada.submit(&today, &tap, &[]).await.expect(303);
    assert_eq!(world.database.count("select count(*) from practice_log where capture = 'one_tap'").await, 1);
}

#[tokio::test]
async fn a_trainers_answer_reaches_the_first_page_and_a_stop_stands_above_a_day_off() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = crate::incidents::beginning(&world).await;
    let told =
        crate::incidents::tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    let on = world.now().date().to_string();
    ada.post(&format!("/dogs/{moss}/not-today"), &[("on", &on)]).await.expect(303);
    assert_eq!(ada.get("/today").await.text("h1"), "Read this first", "a day off hides no stop");
    // what rests is not begun by its own address either
    let plan = ada.get(&format!("/dogs/{moss}/log/new")).await.attributes("main a", "href");
    let item = plan.iter().find_map(|href| href.split_once("item=")).expect("an item").1.to_owned();
    let practise = ada.get(&format!("/dogs/{moss}/practise/{item}")).await;
    assert!(practise.text("main").contains("This rests for now"), "{}", practise.text("main"));
    assert_eq!(practise.count("[data-step=ready] [data-go]"), 0);
    let encounter = format!("/dogs/{moss}/encounters/{told}");
    assert!(ada.get(&encounter).await.text("main").contains("has not looked at it yet"));
    let stop = practice.lead.get(&format!("/dogs/{moss}")).await.attribute("main .stop-open a", "href");
    let flag = practice.lead.get(&stop).await;
    let answer = [("answer", "A gate in the kitchen door, from today.")];
    practice.lead.submit(&flag, "main form.form", &answer).await.expect(303);
    let today = ada.get("/today").await;
    assert!(today.text("main").contains("Rowan Airey answered"), "{}", today.text("main"));
    assert!(today.text("main").contains("A gate in the kitchen door, from today."));
    assert_eq!(today.text("h1"), "A day off");
    assert!(ada.get(&encounter).await.text("main").contains("Looked at by Rowan Airey"));
    assert_eq!(ada.get(&format!("/dogs/{moss}/practise/{item}")).await.count("[data-go=count]"), 1);
    world.pass(time::Duration::days(8));
    assert!(!ada.get("/today").await.text("main").contains("answered"), "after a week it is history");
}

#[tokio::test]
async fn a_poster_has_the_households_number_where_nobody_wrote_whom_to_ring() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = crate::incidents::beginning(&world).await;
    let poster = ada.get(&format!("/dogs/{moss}/gone")).await.text(".poster-ring");
    assert!(poster.contains("______"), "no number is known: {poster}");
    let mut all = world.database.as_superuser().await;
    sqlx::query("update membership set phone = '01632 960011' where role = 'owner'")
        .execute(&mut all)
        .await
        .expect("is kept");
    let page = ada.get(&format!("/dogs/{moss}/gone")).await;
    assert_eq!(page.text(".poster-ring"), "Ring: Ada Okoro 01632 960011");
    ada.submit(&page, "main form.form", &[("ring", "Ada, any hour: 01632 960012")]).await.expect(303);
    assert_eq!(
        ada.get(&format!("/dogs/{moss}/gone")).await.text(".poster-ring"),
        "Ada, any hour: 01632 960012"
    );
}

#[tokio::test]
async fn an_answer_may_keep_the_exercises_resting_until_the_next_plan() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = crate::incidents::beginning(&world).await;
    let answers = async |practice: &mut crate::support::Practice, rests: &[(&str, &str)]| {
        let stops = practice
            .lead
            .get(&format!("/dogs/{moss}"))
            .await
            .attributes("main .stop-open .actions a", "href");
        let flag = practice.lead.get(&stops[0]).await;
        let fields = [&[("answer", "Only the gate and naps this week.")], rests].concat();
        practice.lead.submit(&flag, "main form.form", &fields).await.expect(303);
    };
    let tells = [("kind", "growl_or_snap"), ("towards", "child"), ("note", "By the sofa.")];
    crate::incidents::tell(&mut ada, moss, &tells).await;
    assert!(ada.get("/plan").await.text("main").contains("These rest for now: Nose to hand."));
    assert!(ada.get("/progress").await.text("main").contains("It rests for now"));
    let stop = practice.lead.get(&format!("/dogs/{moss}")).await.attribute("main .stop-open a", "href");
    assert!(
        practice.lead.get(&stop).await.text("main").contains("By the sofa."),
        "the household's own words"
    );
    answers(&mut practice, &[("rests", "yes")]).await;
    world.pass(time::Duration::minutes(1));
    let today = ada.get("/today").await;
    assert!(today.text("main").contains("sends the next plan"), "{}", today.text("main"));
    assert_eq!(today.count("main form[data-outbox-kind=log]"), 0, "nothing is asked for");
    let card = ada.get(&format!("/dogs/{moss}/helpers/card")).await.text("main");
    assert!(!card.contains("Nose to hand"), "nor of a helper: {card}");
    practice.publish_plan(moss, &["A look at you"]).await;
    world.pass(time::Duration::minutes(1));
    let today = ada.get("/today").await;
    assert!(!today.text("main").contains("sends the next plan"));
    assert!(today.count("main form[data-outbox-kind=log]") > 0, "the next plan is practised");
    assert!(!ada.get("/plan").await.text("main").contains("These rest for now"));
    // without it, they come back at once
    crate::incidents::tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    answers(&mut practice, &[]).await;
    while practice.lead.get(&format!("/dogs/{moss}")).await.count("main .stop-open") > 0 {
        answers(&mut practice, &[]).await;
    }
    assert!(ada.get("/today").await.count("main form[data-outbox-kind=log]") > 0);
}

#[tokio::test]
async fn what_may_need_a_call_has_its_number_and_is_never_folded_away() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = crate::incidents::beginning(&world).await;
    let page = practice.lead.get("/account/name").await;
    practice.lead.submit(&page, "main form", &[("phone", "01632 960013")]).await.expect(303);
    crate::incidents::tell(&mut ada, moss, &[("kind", "bite"), ("towards", "child"), ("skin_broken", "no")])
        .await;
    let page = ada.get(&format!("/dogs/{moss}/not-coping")).await;
    ada.submit(&page, "main form[action$='/not-coping']", &[("note", "Too much.")]).await.expect(303);
    let told = crate::incidents::tell(&mut ada, moss, &[("kind", "bolted")]).await;
    let today = ada.get("/today").await;
    assert!(today.attributes("main > .stack > .actions a", "href").contains(&"tel:01632 960013".to_owned()));
    assert!(today.attributes("main > .stack > .actions a", "href").contains(&format!("/dogs/{moss}/gone")));
    let folded = today.texts("main details.also .watch-title").concat();
    assert!(!folded.contains("ran off") && !folded.contains("You have told"), "{folded}");
    assert!(ada.get(&format!("/dogs/{moss}/encounters/{told}")).await.text("main").contains("Not back yet?"));
    // late, it says so
    world.pass(time::Duration::hours(25));
    let today = ada.get("/today").await.text("main");
    assert!(today.contains("This should have been answered by"), "{today}");
}
