//! What a household tells before the first lesson: kept as it goes, on every phone; what it fills; what it holds back.

use uuid::Uuid;

use crate::support::{Answer, Browser, Practice, World};

/// A practice with one household, its dog, a trainer and two owners, who were asked.
struct Asked {
    practice: Practice,
    trainer: Browser,
    ada: Browser,
    uche: Browser,
    household: Uuid,
    moss: Uuid,
}

async fn asked(world: &World) -> Asked {
    let mut practice = world.practice("Heath and Hollow").await;
    let mut trainer = practice.trainer(world, "Tamsin Rook").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let ada = practice.owner(world, household, "Ada Okoro").await;
    let uche = practice.owner(world, household, "Uche Okoro").await;
    let page = trainer.get(&format!("/dogs/{moss}/intake")).await;
    trainer.submit(&page, "main form", &[]).await.expect(303);
    Asked { practice, trainer, ada, uche, household, moss }
}

impl Asked {
    async fn keep(&mut self, page: &str, fields: &[(&str, &str)]) -> Answer {
        let path = format!("/dogs/{}/tell/{page}", self.moss);
        let shown = self.ada.get(&path).await;
        self.ada.submit(&shown, "main form.form", fields).await
    }

    async fn send(&mut self) {
        let overview = self.ada.get(&format!("/dogs/{}/tell", self.moss)).await;
        self.ada.submit(&overview, "main form", &[]).await.expect(303);
    }

    async fn answer(&mut self, by_lead: bool, fields: &[(&str, &str)]) -> Answer {
        let who = if by_lead { &mut self.practice.lead } else { &mut self.trainer };
        let page = who.get(&format!("/dogs/{}/intake", self.moss)).await;
        who.submit(&page, "main form[action$='/triage']", fields).await
    }

    /// Adds something to the draft and publishes it.
    async fn publish(&mut self) -> Answer {
        let add = self.practice.lead.get(&format!("/dogs/{}/plan/add", self.moss)).await;
        let exercise = add.attributes("main button[name=exercise]", "value")[0].clone();
        self.practice
            .lead
            .submit(&add, "main form[method=post]", &[("exercise", &exercise)])
            .await
            .expect(303);
        let page = self.practice.lead.get(&format!("/dogs/{}/plan/publish", self.moss)).await;
        self.practice.lead.submit(&page, "main form[action$='/publish']", &[]).await
    }
}

#[tokio::test]
async fn pages_are_kept_as_they_go_and_another_phone_goes_on() {
    let world = World::new().await;
    let mut asked = asked(&world).await;
    let moss = asked.moss;
    let today = asked.ada.get("/today").await;
    assert_eq!(today.link("Fill them in"), format!("/dogs/{moss}/tell"));
    asked
        .keep("home", &[("adults", "Ada and Uche"), ("children", "visiting"), ("ages", "4")])
        .await
        .redirects_to(&format!("/dogs/{moss}/tell/dog"));
    asked.keep("dog", &[("from", "A rescue")]).await.expect(303);
    // abandoned here, and taken up by the other owner on another phone
    let overview = asked.uche.get(&format!("/dogs/{moss}/tell")).await;
    assert!(overview.text("main .lead p").starts_with("2 of 8"), "{}", overview.text("main .lead p"));
    let page = asked.uche.get(&format!("/dogs/{moss}/tell/home")).await;
    assert_eq!(page.attribute("#f-adults", "value"), "Ada and Uche");
    let food = asked.uche.get(&format!("/dogs/{moss}/tell/food")).await;
    asked.uche.submit(&food, "main form.form", &[("main", "Dry lamb")]).await.expect(303);
    // a page saved from what was opened earlier keeps the others
    asked.keep("week", &[("hours_alone", "5"), ("days", "monday")]).await.expect(303);
    let overview = asked.ada.get(&format!("/dogs/{moss}/tell")).await;
    assert!(overview.text("main .lead p").starts_with("4 of 8"));
    assert!(overview.text("main ul.links").contains("Dry lamb"));
}

#[tokio::test]
async fn an_incident_is_told_once_and_taken_out_only_on_purpose() {
    let world = World::new().await;
    let mut asked = asked(&world).await;
    let path = format!("/dogs/{}/tell/teeth", asked.moss);
    let page = asked.ada.get(&path).await;
    let told = [("ever", "yes"), ("whom", "A guest"), ("skin_broken", "no"), ("again", "yes")];
    for _ in 0..2 {
        asked.ada.submit(&page, "main form.form", &told).await.redirects_to(&format!("{path}?notice=told"));
    }
    let again = asked.ada.get(&path).await;
    assert_eq!(again.count("main .told-before li"), 1);
    assert_eq!(again.attribute("#f-whom", "value"), "");
    let refused = asked.keep("teeth", &[("ever", "no"), ("whom", "A postman")]).await;
    refused.expect(422);
    assert!(refused.error_of("ever").contains("You say no"), "{}", refused.error_of("ever"));
    asked.keep("teeth", &[("whom", "A postman")]).await.expect(303);
    let again = asked.ada.get(&path).await;
    assert_eq!(again.count("main .told-before li"), 2);
    let out = again.attributes("main button[name=take_out]", "value")[0].clone();
    asked.ada.post(&path, &[("take_out", &out)]).await.expect(303);
    let left = asked.ada.get(&path).await.texts("main .told-before li p:first-child");
    assert_eq!(left.len(), 1);
    assert!(left[0].contains("A postman"), "{left:?}");
}

#[tokio::test]
async fn what_is_sent_fills_the_profile_where_it_is_silent_and_overwrites_nothing() {
    let world = World::new().await;
    let mut asked = asked(&world).await;
    let moss = asked.moss;
    let page = asked.practice.lead.get(&format!("/dogs/{moss}/profile/edit/food")).await;
    asked.practice.lead.submit(&page, "main form", &[("main", "Tinned trout")]).await.expect(303);
    asked.keep("home", &[("children", "visiting"), ("ages", "4")]).await.expect(303);
    asked
        .keep("dog", &[("from", "A rescue"), ("since", "2026-01-10"), ("before", "A farm")])
        .await
        .expect(303);
    asked.keep("teeth", &[("ever", "yes"), ("whom", "A guest"), ("care", "None")]).await.expect(303);
    asked.keep("tried", &[("tried", "A class")]).await.expect(303);
    asked.keep("food", &[("main", "Dry lamb"), ("allergies", "Wheat")]).await.expect(303);
    asked
        .keep("health", &[("vet", "The surgery"), ("last_visit", "2026-02-01"), ("health", "Stiff")])
        .await
        .expect(303);
    asked.keep("week", &[("days", "monday"), ("hours_alone", "5")]).await.expect(303);
    asked.keep("goal", &[("goal", "A quiet walk")]).await.expect(303);
    asked.send().await;
    asked.send_again_changes_nothing(&world).await;
    let profile = asked.practice.lead.get(&format!("/dogs/{moss}/profile")).await.text("main");
    for said in [
        "Tinned trout",
        "A rescue",
        "A farm",
        "A guest",
        "A class",
        "Wheat",
        "The surgery",
        "Stiff",
        "A quiet walk",
        "Monday",
    ] {
        assert!(profile.contains(said), "{said}: {profile}");
    }
    assert!(!profile.contains("Dry lamb"), "what was stated stays");
    let bite =
        "select count(*) from dog where name = 'Moss' and bite_on_record and home_since = '2026-01-10'";
    assert_eq!(world.database.count(bite).await, 1);
    let household = asked.practice.lead.get(&format!("/households/{}", asked.household)).await;
    assert!(household.text("main aside").contains("Children’s ages: 4"));
    assert_eq!(world.database.count("select count(*) from household where children = 'visiting'").await, 1);
    let caseload = asked.trainer.get("/caseload?show=everyone").await;
    assert!(
        caseload.text("main").contains("The pages about our dog are filled in"),
        "it waits for an answer"
    );
}

impl Asked {
    async fn send_again_changes_nothing(&mut self, world: &World) {
        let before = world.database.fingerprint().await;
        let id = Uuid::new_v4().to_string();
        self.ada.post(&format!("/dogs/{}/tell", self.moss), &[("id", &id)]).await.expect(303);
        assert_eq!(world.database.fingerprint().await, before);
    }
}

#[tokio::test]
async fn an_intake_holds_plans_back_until_it_is_answered_and_a_referred_dog_until_a_lead_releases_it() {
    let world = World::new().await;
    let mut asked = asked(&world).await;
    let moss = asked.moss;
    asked.publish().await.expect(303);
    asked.keep("goal", &[("goal", "A quiet walk")]).await.expect(303);
    asked.send().await;
    let held = asked.publish().await;
    held.expect(422);
    assert!(held.text("#f-triage").contains("Say what you make of it"), "{held:?}");
    let open = asked.answer(false, &[]).await;
    assert!(open.expect(422).error_of("answer").contains("choose one"), "{open:?}");
    let silent = asked.answer(false, &[("answer", "refer")]).await;
    assert!(silent.expect(422).error_of("reason").contains("why"), "{silent:?}");
    asked.answer(false, &[("answer", "refer"), ("reason", "Beyond us")]).await.expect(303);
    asked.publish().await.expect(422);
    // a trainer is not offered the way out, and cannot take it
    let page = asked.trainer.get(&format!("/dogs/{moss}/intake")).await;
    assert_eq!(page.attributes("main input[name=answer]", "value"), ["refer"]);
    let seen = page.attribute("main input[name=seen]", "value");
    for answer in ["released", "take"] {
        let fields = [("answer", answer), ("reason", "I can"), ("seen", seen.as_str())];
        asked.trainer.post(&format!("/dogs/{moss}/intake/triage"), &fields).await.expect(422);
    }
    asked.publish().await.expect(422);
    asked.answer(true, &[("answer", "released"), ("reason", "With the vet behaviourist")]).await.expect(303);
    asked.publish().await.expect(303);
    // what is told afterwards asks once more
    world.pass(time::Duration::minutes(1));
    asked.keep("teeth", &[("ever", "yes"), ("whom", "A child, 3")]).await.expect(303);
    asked.send().await;
    asked.publish().await.expect(422);
    // an answer to what stood there before is no answer to it
    let stale = [("answer", "take"), ("seen", seen.as_str())];
    let stale = asked.trainer.post(&format!("/dogs/{moss}/intake/triage"), &stale).await;
    assert!(stale.expect(422).error_of("answer").contains("after you opened"), "{stale:?}");
    asked.answer(false, &[("answer", "vet_first")]).await.expect(303);
    let page = asked.practice.lead.get(&format!("/dogs/{moss}/plan/publish")).await;
    assert!(page.text("#f-triage").contains("Vet first"));
    let silent = asked.publish().await;
    assert!(silent.expect(422).error_of("vet_first").contains("A vet was to look first"));
    asked
        .practice
        .lead
        .submit(&page, "main form[action$='/publish']", &[("vet_first", "yes")])
        .await
        .expect(303);
}

#[tokio::test]
async fn consent_is_signed_tick_by_tick_and_kept_as_it_was() {
    let world = World::new().await;
    let mut asked = asked(&world).await;
    let path = format!("/dogs/{}/consent", asked.moss);
    let page = asked.ada.get(&path).await;
    let refused =
        asked.ada.submit(&page, "main form", &[("records", "yes"), ("signed_name", "Ada Okoro")]).await;
    refused.expect(422);
    assert!(!refused.error_of("no_vet").is_empty() && !refused.error_of("cautions").is_empty());
    assert_eq!(refused.attribute("#f-signed_name", "value"), "Ada Okoro");
    assert_eq!(world.database.count("select count(*) from consent").await, 0);
    let needed = [
        ("records", "yes"),
        ("no_vet", "yes"),
        ("cautions", "yes"),
        ("photos", "yes"),
        ("signed_name", "Ada Okoro"),
    ];
    for _ in 0..2 {
        asked.ada.submit(&page, "main form", &needed).await.expect(303);
    }
    assert_eq!(world.database.count("select count(*) from consent").await, 1, "sent twice, signed once");
    let ticks = "select count(*) from consent_tick where agreed = (clause in ('records', 'no_vet', 'cautions', 'photos'))";
    assert_eq!(world.database.count(ticks).await, 7);
    let read = asked.trainer.get(&path).await;
    assert!(read.text("main").contains("Ada Okoro") && read.count("main form") == 0);
    asked.trainer.post(&path, &needed).await.expect(403);
}

#[tokio::test]
async fn nobody_tells_where_nobody_was_asked() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    assert!(!ada.get("/today").await.text("main").contains("Tell us about"));
    ada.get(&format!("/dogs/{moss}/tell")).await.expect(404);
    ada.post(&format!("/dogs/{moss}/tell/home"), &[("adults", "Ada")]).await.expect(404);
    let id = Uuid::new_v4().to_string();
    ada.post(&format!("/dogs/{moss}/tell"), &[("id", &id)]).await.expect(404);
    practice.lead.post(&format!("/dogs/{moss}/intake/triage"), &[("answer", "take")]).await.expect(404);
    practice.lead.post(&format!("/dogs/{moss}/intake/ask"), &[]).await.expect(303);
    ada.get(&format!("/dogs/{moss}/tell/nothing")).await.expect(404);
}
