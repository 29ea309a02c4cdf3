//! Reports: composed of what was logged and of nothing that is private, edited, and issued for good.

use sqlx::AssertSqlSafe;
use time::Duration;
use uuid::Uuid;

use crate::incidents::{EXERCISE, beginning, log, tell};
use crate::support::builders::{id_in, sent_to};
use crate::support::world::BEGINNING;
use crate::support::{Answer, Browser, Practice, World};

/// Said in everything that is for trainers alone; reports must not hold it.
const SECRET: &str = "kestrel";

/// A practice whose dog was practised with, met things, was decided on and weighed.
pub struct Home {
    /// The service.
    pub world: World,
    /// The practice.
    pub practice: Practice,
    /// The dog.
    pub moss: Uuid,
    /// Its owner.
    pub ada: Browser,
}

async fn say(world: &World, statement: &str) {
    let mut all = world.database.as_superuser().await;
    sqlx::raw_sql(AssertSqlSafe(statement.to_owned())).execute(&mut all).await.expect("is done");
}

impl Home {
    /// With a plan, and nothing logged.
    pub async fn new() -> Self {
        let world = World::new().await;
        let (practice, moss, ada) = beginning(&world).await;
        Self { world, practice, moss, ada }
    }

    /// Two days of work: three sittings, of which one does not say how long it was, and a day that no report asks for.
    async fn lived_in() -> Self {
        let mut home = Self::new().await;
        let moss = home.moss;
        home.keep("goal", &[("goal", "Past the school gate without a sound")]).await;
        let told = [("nearness", "6"), ("confidence", "5")];
        home.ada.post(&format!("/dogs/{moss}/goal"), &told).await.expect(303);
        home.practice
            .lead
            .post(&format!("/dogs/{moss}/weights"), &[("on", "2026-03-12"), ("kg", "18.5")])
            .await
            .expect(303);
        log(&mut home.ada, moss, &[("attempts", "10"), ("left", "3"), ("minutes", "8")]).await;
        home.world.pass(Duration::days(1));
        home.practice.lead_signs_in().await;
        log(&mut home.ada, moss, &[("attempts", "10"), ("left", "0"), ("minutes", "5")]).await;
        log(&mut home.ada, moss, &[("attempts", "9"), ("left", "1"), ("minutes", ""), ("health", "lame")])
            .await;
        home.decide("move_on").await;
        home.practice.publish_plan(moss, &[]).await;
        let bite = [
            ("kind", "bite"),
            ("towards", "stranger"),
            ("skin_broken", "no"),
            ("note", "He reached over her."),
        ];
        tell(&mut home.ada, moss, &bite).await;
        home.answer_what_is_open("Rang her: a lead indoors with guests.").await;
        home.world.pass(Duration::days(1));
        home.practice.lead_signs_in().await;
        log(&mut home.ada, moss, &[("attempts", "10"), ("left", "9"), ("minutes", "30")]).await;
        home
    }

    async fn keep(&mut self, section: &str, fields: &[(&str, &str)]) {
        let page = self.practice.lead.get(&format!("/dogs/{}/profile/edit/{section}", self.moss)).await;
        self.practice.lead.submit(&page, "main form", fields).await.expect(303);
    }

    async fn decide(&mut self, choice: &str) {
        let item = "select i.id from plan_item i join plan_version v on v.id = i.plan_version_id order by v.number desc limit 1";
        let mut all = self.world.database.as_superuser().await;
        let item: Uuid = sqlx::query_scalar(item).fetch_one(&mut all).await.expect("an item");
        let page = self.practice.lead.get(&format!("/dogs/{}/decide/{item}", self.moss)).await;
        let chosen = [("choice", choice), ("reason", "counts")];
        self.practice.lead.submit(&page, "main form", &chosen).await.expect(303);
    }

    async fn answer_what_is_open(&mut self, words: &str) {
        let welfare = self.practice.lead.get(&format!("/dogs/{}/welfare", self.moss)).await;
        for flag in welfare.attributes("main .watch .actions a", "href") {
            let page = self.practice.lead.get(&flag).await;
            self.practice.lead.submit(&page, "main form", &[("answer", words)]).await.expect(303);
        }
    }

    /// A draft over the two days, or over what there is of them so far: its path.
    pub async fn draft(&mut self, kind: &str, more: &[(&str, &str)]) -> String {
        let is_over = self.world.now() > BEGINNING + Duration::days(1);
        let to = if is_over { "2026-03-13" } else { "2026-03-12" };
        let mut fields = vec![("kind", kind), ("from", "2026-03-12"), ("to", to)];
        fields.extend(more);
        self.practice.draft_report(self.moss, &fields).await
    }

    /// The text of a draft's section.
    async fn section(&mut self, report: &str, heading: &str) -> String {
        let page = self.practice.lead.get(&format!("{report}/edit")).await;
        let field = field_of(&page, heading);
        page.text(&format!("[name='{field}']"))
    }

    async fn edit(&mut self, report: &str, fields: &[(&str, &str)]) -> Answer {
        let page = self.practice.lead.get(&format!("{report}/edit")).await;
        self.practice.lead.submit(&page, "main form.form", fields).await
    }
}

/// The field of a draft that is labelled so.
#[track_caller]
fn field_of(page: &Answer, heading: &str) -> String {
    let (labels, fields) = (page.texts("main label[for]"), page.attributes("main label[for]", "for"));
    let at =
        labels.iter().position(|label| label == heading).unwrap_or_else(|| panic!("{heading}: {labels:?}"));
    fields[at].trim_start_matches("f-").to_owned()
}

/// Fails unless a text holds all of these words.
#[track_caller]
pub fn says(text: &str, wanted: &[&str]) {
    for words in wanted {
        assert!(text.contains(words), "{words:?} is not in {text}");
    }
}

#[tokio::test]
async fn a_progress_report_counts_what_was_logged() {
    let mut home = Home::lived_in().await;
    let report = home.draft("progress", &[]).await;
    for (heading, wanted) in [
        (
            "What the household hopes for",
            &["“Past the school gate without a sound”", "in their eyes: 6 of 10"][..],
        ),
        (
            "What was practised",
            &["3 sittings on 2 days, 13 minutes in all.", "How long it took is not stated for 1 sitting."],
        ),
        (
            "How each exercise went",
            &[EXERCISE, "At the start step 1 of", "at the end step 2 of", "3 sittings, 25 of 29 went well"],
        ),
        ("What was decided", &["13 Mar 2026: Nose to hand, on to the next step ("]),
        (
            "What happened besides",
            &[
                "Bit: 1",
                "13 Mar 2026: bit, towards someone outside the household, skin not broken",
                "told by Ada Okoro (household)",
                "lame or stiff",
            ],
        ),
        (
            "What was raised and answered",
            &[
                "Change this next time: 2. Answered: 2 of 2.",
                "Answered: “Rang her: a lead indoors with guests.”",
            ],
        ),
        ("What comes next", &["Plan 2 of 13 Mar 2026.", EXERCISE, "step 2 of"]),
    ] {
        says(&home.section(&report, heading).await, wanted);
    }
    // what was told in the household's words is not for everybody
    let all = home.practice.lead.get(&format!("{report}/edit")).await.texts("main textarea").join("\n");
    assert!(!all.contains("reached over her"), "{all}");
}

#[tokio::test]
async fn a_referral_tells_what_was_seen_by_whom_and_when() {
    let mut home = Home::lived_in().await;
    home.keep("vet", &[("status", "seen"), ("on", "2026-03-10")]).await;
    let report = home.draft("referral", &[("addressed_to", "Beckside surgery")]).await;
    let page = home.practice.lead.get(&format!("{report}/edit")).await;
    says(&page.text("main .watch"), &["have not agreed"]);
    for (heading, wanted) in [
        (
            "The dog and its household",
            &["lurcher", "Okoro (Ada Okoro)", "Weight: 18.5 kg on 12 Mar 2026."][..],
        ),
        (
            "Health, as recorded",
            &[
                "Vet: seen by a vet, 10 Mar 2026.",
                "13 Mar 2026: lame or stiff, at Nose to hand, told by Ada Okoro (household)",
            ],
        ),
        (
            "Bites and other incidents, as told",
            &["A bite is on record.", "skin not broken", "In their words: “He reached over her.”"],
        ),
        ("What has been tried", &["3 sittings on 2 days", "25 of 29 went well"]),
        ("What the household agreed to", &["Nothing is signed yet."]),
    ] {
        says(&home.section(&report, heading).await, wanted);
    }
    // nobody is referred without a reason in a trainer's own words
    let read = home.practice.lead.get(&report).await;
    let refused = home.practice.lead.submit(&read, "main form[action$='/issue']", &[]).await;
    says(&refused.expect(422).error_of("issue"), &["Write the reason for referring first"]);
    let field = field_of(&page, "Reason for referring");
    home.edit(&report, &[(&field, "Please look at her left hip: lame after play.")]).await.expect(303);
    home.practice.issue_report(&report).await;
    let issued = home.practice.lead.get(&report).await.text("main article");
    says(&issued, &["Referral letter: Moss", "Beckside surgery", "left hip", "Facts only: no diagnosis"]);
    assert!(!issued.contains("What else matters"), "what is empty is left out");
}

#[tokio::test]
async fn a_hand_over_tells_the_plan_what_works_and_what_is_open() {
    let mut home = Home::lived_in().await;
    let moss = home.moss;
    home.practice.place(moss, "The green").await;
    for (noun, fields) in [
        ("triggers", vec![("what", "Vans at speed")]),
        ("reinforcers", vec![("what", "Cooked liver"), ("rank", "5")]),
    ] {
        let page = home.practice.lead.get(&format!("/dogs/{moss}/{noun}/new")).await;
        home.practice.lead.submit(&page, "main form", &fields).await.expect(303);
    }
    tell(&mut home.ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    let report = home.practice.draft_report(moss, &[("kind", "hand_over")]).await;
    for (heading, wanted) in [
        ("Places", &["The green, distraction 2 of 5, on the line."][..]),
        ("What sets the dog off", &["Vans at speed"]),
        ("What the dog works for", &["Cooked liver, worth 5 of 5."]),
        ("The plan", &["Plan 2 of", EXERCISE]),
        (
            "What works",
            &["Works best for: Cooked liver.", "Moved on to a harder step:", "Nose to hand, 13 Mar 2026."],
        ),
        ("What is open", &["Raised and not answered yet:", "(stop)"]),
        // everything since the dog was taken in, the last day with it
        ("How practice went", &["4 sittings on 3 days, 43 minutes in all."]),
    ] {
        says(&home.section(&report, heading).await, wanted);
    }
}

/// Puts a word into every column that is for trainers alone.
async fn write_secrets(home: &Home) {
    let (moss, any) = (home.moss, "gen_random_uuid()");
    let by = "(select id from membership where role = 'lead' limit 1)";
    say(
        &home.world,
        &format!(
            "update dog set history = '{SECRET} of history';
             update household set note = '{SECRET} of household';
             update plan_version set despite_stop = '{SECRET} of stop';
             update exercise set purpose = '{SECRET} of purpose';
             update plan_draft set note = '{SECRET} of draft';
             insert into lesson (practice_id, id, dog_id, held_on, summary, private_note, kept_by, kept_at)
               select practice_id, {any}, id, date '2026-03-12', 'A fine walk', '{SECRET} of lesson', {by}, now() from dog where id = '{moss}';
             insert into intake_triage (practice_id, id, dog_id, answer, reason, decided_by, decided_at)
               select practice_id, {any}, id, 'take', '{SECRET} of triage', {by}, now() from dog where id = '{moss}';
             insert into decision (practice_id, id, dog_id, line_id, step_id, advice, choice, reason, note, decided_by, decided_at)
               select practice_id, {any}, dog_id, line_id, step_id, '{SECRET} of advice', 'repeat', 'other', '{SECRET} of decision', {by},
                 timestamptz '2026-03-12 12:00Z' from plan_item where step_id is not null limit 1;
             insert into log_revision (practice_id, practice_log_id, number, dog_id, removes, before, by_membership_id, at, reason)
               select practice_id, id, 90, dog_id, false, '{{}}', {by}, now(), '{SECRET} of revision' from practice_log;
             insert into encounter_revision (practice_id, encounter_id, number, dog_id, removes, before, by_membership_id, at, reason)
               select practice_id, id, 90, dog_id, false, '{{}}', {by}, now(), '{SECRET} of revision' from encounter;"
        ),
    )
    .await;
}

#[tokio::test]
async fn what_is_for_trainers_alone_is_in_no_report_that_did_not_ask_for_it() {
    let mut home = Home::lived_in().await;
    write_secrets(&home).await;
    for kind in ["progress", "referral", "hand_over"] {
        let report = home.draft(kind, &[]).await;
        let edit = home.practice.lead.get(&format!("{report}/edit")).await;
        assert!(!edit.body().contains(SECRET), "{kind}: {:?}", edit.texts("main textarea"));
        if kind == "referral" {
            let reason = field_of(&edit, "Reason for referring");
            home.edit(&report, &[(&reason, "Please look at her.")]).await.expect(303);
        }
        home.practice.issue_report(&report).await;
        let path = home.practice.share_report(&report, "Beckside surgery").await;
        let mut vet = home.world.visitor();
        let front = vet.get(&path).await;
        let opened = vet.submit(&front, "main form", &[]).await;
        for page in [&front, &opened, &home.practice.lead.get(&report).await] {
            assert!(!page.expect(200).body().contains(SECRET), "{kind}: {page:?}");
        }
    }
    let report = home.draft("hand_over", &[("with_notes", "yes")]).await;
    let notes = home.section(&report, "Notes for trainers").await;
    for of in ["history", "household", "stop", "lesson", "triage", "decision"] {
        says(&notes, &[&format!("{SECRET} of {of}")]);
    }
    // and it is asked for in a hand-over alone
    let page = home.practice.lead.get(&format!("/dogs/{}/reports", home.moss)).await;
    let asked = [("kind", "referral"), ("with_notes", "yes")];
    let refused = home.practice.lead.submit(&page, "main form.form", &asked).await;
    says(&refused.expect(422).error_of("with_notes"), &["into a hand-over alone"]);
}

#[tokio::test]
async fn a_draft_keeps_what_was_typed_and_nobody_overwrites_another() {
    let mut home = Home::new().await;
    let report = home.draft("progress", &[]).await;
    let page = home.practice.lead.get(&format!("{report}/edit")).await;
    let [next, other] = ["What comes next", "What else matters"].map(|heading| field_of(&page, heading));
    let out = field_of(&page, "What was decided").replace("text", "out");
    let long = "a".repeat(4001);
    let typed = [(next.as_str(), "A quieter place first."), (other.as_str(), long.as_str())];
    let refused = home.practice.lead.submit(&page, "main form.form", &typed).await;
    says(
        &refused.expect(422).error_of(&other),
        &["What else matters: this has 4001 characters. Use at most 4000."],
    );
    assert_eq!(refused.text(&format!("[name='{next}']")), "A quieter place first.");
    let fine = [(next.as_str(), "A quieter place first.\n- the lane\n- the yard"), (out.as_str(), "yes")];
    let saved = home.practice.lead.submit(&page, "main form.form", &fine).await;
    saved.redirects_to(&format!("{report}?notice=report-saved"));
    // the same again is a repeat; other words on the page of before are refused, and stay on it
    home.practice.lead.submit(&page, "main form.form", &fine).await.expect(303);
    let late = [(next.as_str(), "Written on an old page.")];
    let refused = home.practice.lead.submit(&page, "main form.form", &late).await;
    says(&refused.expect(422).text(".error-summary"), &["Somebody changed this draft"]);
    assert_eq!(refused.text(&format!("[name='{next}']")), "Written on an old page.");
    let read = home.practice.lead.get(&report).await;
    assert!(read.texts("main article li").ends_with(&["the lane".to_owned(), "the yard".to_owned()]));
    says(&read.text("main article"), &["A quieter place first.", "Not issued: this may still change."]);
    assert!(!read.texts("main article h2").contains(&"What was decided".to_owned()), "left out");
    // who read it before the change does not issue it
    home.practice.lead.submit(&refused, "main form.form", &[]).await.expect(303);
    let unread = home.practice.lead.submit(&read, "main form[action$='/issue']", &[]).await;
    says(&unread.expect(422).error_of("issue"), &["Somebody changed this draft"]);
    says(&unread.text("main article"), &["Written on an old page."]);
    assert_eq!(home.world.database.count("select count(*) from report_issued").await, 0);
    home.practice.lead.submit(&unread, "main form[action$='/issue']", &[]).await.expect(303);
    assert_eq!(home.world.database.count("select count(*) from report_issued").await, 1);
}

#[tokio::test]
async fn what_was_issued_never_changes() {
    let mut home = Home::lived_in().await;
    let moss = home.moss;
    let report = home.draft("progress", &[("addressed_to", "Beckside surgery")]).await;
    home.practice.issue_report(&report).await;
    let path = home.practice.share_report(&report, "Beckside surgery").await;
    let mut vet = home.world.visitor();
    let (front, opened) = (vet.get(&path).await, vet.post(&format!("{path}/open"), &[]).await);
    let article = |page: &Answer| {
        let page = page.expect(200).body().to_owned();
        let (from, to) = (page.find("<article").expect("begins"), page.find("</article>").expect("ends"));
        page[from..to].to_owned()
    };
    let before = home.practice.lead.get(&report).await;
    says(&before.text("main article"), &["13 Mar 2026", "25 of 29 went well", "Issued", "14 Mar 2026, by"]);
    // a sitting is changed, the dog and its breed are renamed, another plan is published, the household tells more
    let log = "select id from practice_log where attempts = 10 and met = 7";
    let mut all = home.world.database.as_superuser().await;
    let log: Uuid = sqlx::query_scalar(log).fetch_one(&mut all).await.expect("a sitting");
    let edit = home.practice.lead.get(&format!("/dogs/{moss}/log/{log}/edit")).await;
    let form = format!("main form[action='/dogs/{moss}/log/{log}/edit']");
    home.practice
        .lead
        .submit(&edit, &form, &[("attempts", "10"), ("left", "9"), ("met", "1")])
        .await
        .expect(303);
    home.keep("who", &[("name", "Mossy"), ("breed", "whippet")]).await;
    home.practice.publish_plan(moss, &["Settle on a mat"]).await;
    tell(&mut home.ada, moss, &[("kind", "bolted"), ("on", "2026-03-13"), ("at", "10:00")]).await;
    let fresh = home.draft("progress", &[]).await;
    says(&home.section(&fresh, "How each exercise went").await, &["19 of 29 went well"]);
    let after = home.practice.lead.get(&report).await;
    assert_eq!(article(&after), article(&before));
    assert_eq!(after.texts(".crumbs a"), before.texts(".crumbs a"), "not even on the way there");
    assert_eq!(vet.get(&path).await.body(), front.body());
    assert_eq!(vet.post(&format!("{path}/open"), &[]).await.body(), opened.body());
    // what was issued takes no other text, whoever sends it
    let page = home.practice.lead.get(&format!("{fresh}/edit")).await;
    let sent: Vec<(String, String)> = page
        .attributes("main textarea", "name")
        .into_iter()
        .map(|name| (name, "Another text.".to_owned()))
        .collect();
    let mut sent: Vec<(&str, &str)> = sent.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    sent.push(("saw", "1"));
    home.practice.lead.post(&format!("{report}/edit"), &sent).await.expect(409);
    home.practice.lead.post(&format!("{report}/discard"), &[]).await.expect(409);
    assert_eq!(article(&home.practice.lead.get(&report).await), article(&before));
}

#[tokio::test]
async fn the_service_s_own_role_cannot_change_what_was_issued() {
    let mut home = Home::new().await;
    let report = home.draft("progress", &[]).await;
    home.practice.issue_report(&report).await;
    home.practice.share_report(&report, "Beckside surgery").await;
    let mut app = home.world.database.as_app().await;
    let practice = home.practice.id;
    for (statement, code) in [
        ("update report_issued set title = 'x'", "42501"),
        ("update report_issued set sections = '[]'", "42501"),
        ("delete from report_issued", "42501"),
        ("update report_opening set opened_at = now()", "42501"),
        ("delete from report_opening", "42501"),
        ("delete from report_link", "42501"),
        // and what was issued holds its draft
        ("delete from report", "23503"),
    ] {
        let tried = format!("begin; select set_config('app.practice_id', '{practice}', true); {statement}");
        let error = sqlx::raw_sql(AssertSqlSafe(tried)).execute(&mut app).await.expect_err(statement);
        let found = error.as_database_error().and_then(|e| e.code()).unwrap_or_default().into_owned();
        assert_eq!(found, code, "{statement}: {error}");
        sqlx::raw_sql("rollback").execute(&mut app).await.expect("ends");
    }
}

#[tokio::test]
async fn what_is_wrong_is_put_right_by_another_report() {
    let mut home = Home::new().await;
    let first = home.draft("progress", &[]).await;
    let page = home.practice.lead.get(&format!("{first}/edit")).await;
    let (text, out) =
        (field_of(&page, "What else matters"), field_of(&page, "What was decided").replace("text", "out"));
    home.edit(&first, &[(&text, "She weighs 18 kg."), (&out, "yes")]).await.expect(303);
    home.practice.issue_report(&first).await;
    let path = home.practice.share_report(&first, "Beckside surgery").await;
    let issued = home.practice.lead.get(&first).await;
    let mut second = String::new();
    for _ in 0..2 {
        let copied = home.practice.lead.submit(&issued, "main form[action$='/correct']", &[]).await;
        second = format!("/dogs/{}/reports/{}", home.moss, id_in(&sent_to(&copied), "reports"));
    }
    assert_eq!(home.world.database.count("select count(*) from report").await, 2, "sent twice, copied once");
    let again = home.practice.lead.get(&first).await;
    let copied = home.practice.lead.submit(&again, "main form[action$='/correct']", &[]).await;
    let third = format!("/dogs/{}/reports/{}", home.moss, id_in(&sent_to(&copied), "reports"));
    let page = home.practice.lead.get(&format!("{second}/edit")).await;
    assert_eq!(page.text(&format!("[name='{text}']")), "She weighs 18 kg.");
    assert_eq!(page.count(&format!("[name='{out}'][checked]")), 1, "what was left out is left out");
    home.edit(&second, &[(&text, "She weighs 81 lb.")]).await.expect(303);
    let mut vet = home.world.visitor();
    assert_eq!(vet.get(&path).await.count("main .watch"), 0, "nothing takes its place yet");
    home.practice.issue_report(&second).await;
    let late = home.practice.lead.get(&third).await;
    let late = home.practice.lead.submit(&late, "main form[action$='/issue']", &[]).await;
    says(
        &late.expect(422).text(".error-summary"),
        &["Another report has taken the place of that one already."],
    );
    let old = home.practice.lead.get(&first).await;
    says(&old.text("main article"), &["She weighs 18 kg."]);
    assert_eq!(old.link("Read that one"), second);
    says(&vet.get(&path).await.text("main .watch"), &["A later report takes its place"]);
    let new = home.practice.lead.get(&second).await;
    says(
        &new.text("main article"),
        &["She weighs 81 lb.", "takes the place of the report that was issued on 12 Mar 2026"],
    );
    let list = home.practice.lead.get(&format!("/dogs/{}/reports", home.moss)).await.texts("main .links a");
    assert!(list[2].contains("A later one takes its place"), "{list:?}");
}

#[tokio::test]
async fn a_draft_can_be_thrown_away_and_a_form_sent_twice_makes_one() {
    let mut home = Home::new().await;
    let path = format!("/dogs/{}/reports", home.moss);
    let page = home.practice.lead.get(&path).await;
    let refused = home.practice.lead.submit(&page, "main form.form", &[]).await;
    assert_eq!(refused.expect(422).error_of("kind"), "Choose what the report is for.");
    let backwards =
        [("kind", "progress"), ("from", "2026-03-12"), ("to", "2026-03-11"), ("addressed_to", "Her vet")];
    let refused = home.practice.lead.submit(&page, "main form.form", &backwards).await;
    says(&refused.expect(422).error_of("from"), &["after the last day"]);
    assert_eq!(refused.attribute("#f-addressed_to", "value"), "Her vet");
    let first = home.practice.lead.submit(&page, "main form.form", &[("kind", "progress")]).await;
    let again = home.practice.lead.submit(&page, "main form.form", &[("kind", "progress")]).await;
    assert_eq!(sent_to(&first), sent_to(&again));
    home.practice.lead.submit(&page, "main form.form", &[("kind", "hand_over")]).await.expect(409);
    assert_eq!(home.world.database.count("select count(*) from report").await, 1);
    let report = sent_to(&first).trim_end_matches("/edit").to_owned();
    let ask = home.practice.lead.get(&format!("{report}/discard")).await;
    home.practice
        .lead
        .submit(&ask, "main form", &[])
        .await
        .redirects_to(&format!("{path}?notice=report-discarded"));
    home.practice.lead.get(&report).await.expect(404);
    let list = home.practice.lead.get(&path).await;
    assert_eq!((list.count("main .links"), list.count("main .empty")), (0, 1));
    // an owner sees none of it
    home.ada.get(&path).await.expect(404);
}

#[tokio::test]
async fn a_long_list_of_reports_goes_on_from_page_to_page() {
    let mut home = Home::new().await;
    home.draft("progress", &[]).await;
    say(
        &home.world,
        "insert into report select (jsonb_populate_record(r, jsonb_build_object(
           'id', gen_random_uuid(), 'begun_at', r.begun_at - n * interval '1 day'))).* from report r, generate_series(1, 34) n",
    )
    .await;
    let first = home.practice.lead.get(&format!("/dogs/{}/reports", home.moss)).await;
    let second = home.practice.lead.get(&first.link("Older")).await;
    let shown = [&first, &second].map(|page| page.attributes("main .links a", "href"));
    assert_eq!(shown.each_ref().map(Vec::len), [30, 5]);
    assert!(shown[0].iter().all(|href| !shown[1].contains(href)));
}
