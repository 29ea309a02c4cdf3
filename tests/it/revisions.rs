//! Changing and removing what was logged: who may, what is kept, and what comes of it.

use time::Duration;
use uuid::Uuid;

use crate::incidents::{beginning, log, tell};
use crate::support::{Answer, Browser, World};

/// The page of the newest log that nobody removed.
pub async fn newest_log(world: &World, dog: Uuid) -> String {
    let newest = "select id from practice_log where deleted_at is null order by received_at desc limit 1";
    let id: Uuid =
        sqlx::query_scalar(newest).fetch_one(&mut world.database.as_superuser().await).await.expect("a log");
    format!("/dogs/{dog}/log/{id}")
}

/// Changes what is told on a page, by its form.
pub async fn change(browser: &mut Browser, path: &str, fields: &[(&str, &str)]) -> Answer {
    let page = browser.get(&format!("{path}/edit")).await;
    browser.submit(page.expect(200), &format!("main form[action='{path}/edit']"), fields).await
}

/// Removes what is told on a page, by its form.
pub async fn remove(browser: &mut Browser, path: &str, reason: &str) -> Answer {
    let page = browser.get(&format!("{path}/remove")).await;
    let form = format!("main form[action='{path}/remove']");
    browser.submit(page.expect(200), &form, &[("reason", reason)]).await
}

/// The state, severity and what is seen of every flag of a rule, by the order in which they were raised.
async fn flags(world: &World, rule: &str) -> Vec<(String, String)> {
    sqlx::query_as("select state, severity from welfare_flag where rule = $1 order by raised_at, id")
        .bind(rule)
        .fetch_all(&mut world.database.as_superuser().await)
        .await
        .expect("reads flags")
}

fn said(flags: &[(String, String)]) -> Vec<(&str, &str)> {
    flags.iter().map(|(state, severity)| (state.as_str(), severity.as_str())).collect()
}

async fn answer(lead: &mut Browser, dog: Uuid, words: &str) {
    let welfare = lead.get(&format!("/dogs/{dog}/welfare")).await;
    let flag = welfare.attributes("main .watch .actions a", "href").remove(0);
    let page = lead.get(&flag).await;
    lead.submit(&page, "main form", &[("answer", words)]).await.expect(303);
}

/// A sitting with something stated in every part of the form.
const EVERYTHING: &[(&str, &str)] = &[
    ("attempts", "12"),
    ("left", "3"),
    ("rewarded", "8"),
    ("clip", "harness_back"),
    ("line", "short_lead"),
    ("finish", "sniff_walk"),
    ("cool_down_minutes", "6"),
    ("recovery", "within_15"),
    ("looked", "wound_up"),
    ("took_food", "snatched"),
    ("arousal_before", "2"),
    ("arousal_end", "3"),
    ("health", "lame"),
    ("bolted", "yes"),
    ("on", "2026-03-11"),
    ("at", "17:30"),
    ("place", "elsewhere"),
    ("busy", "busy"),
    ("minutes", "9"),
    ("handler", "Uche"),
    ("child_held_line", "no"),
    ("loop_round_hand", "no"),
    ("muzzle_worn", "no"),
    ("had_break", "yes"),
    ("felt", "warm"),
    ("air_c", "24.5"),
    ("humidity", "60"),
    ("in_sun", "yes"),
    ("hot_ground", "yes"),
    ("note", "By the gate."),
];

#[tokio::test]
async fn a_form_that_is_sent_back_as_it_came_changes_nothing() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    for fields in [EVERYTHING, &[], &[("attempts", "9"), ("met", "4")], &[("clip", "not_sure")]] {
        log(&mut ada, moss, fields).await;
        let path = newest_log(&world, moss).await;
        change(&mut ada, &path, &[]).await.redirects_to(&path);
        assert_eq!(world.database.count("select count(*) from log_revision").await, 0, "{fields:?}");
    }
    let told: [&[(&str, &str)]; 3] = [
        &[
            ("kind", "bite"),
            ("skin_broken", "not_sure"),
            ("towards", "dog"),
            ("playful", "no"),
            ("froze", "yes"),
            ("warned", "no"),
            ("reaction", "3"),
        ],
        &[
            ("kind", "reaction"),
            ("distance_m", "12"),
            ("on", "2026-03-10"),
            ("at", "08:05"),
            ("recovery", "longer"),
        ],
        &[
            ("kind", "bolted"),
            ("line", "long_line"),
            ("what", "A hare"),
            ("place_name", "The lane"),
            ("note", "Far."),
        ],
    ];
    for fields in told {
        let id = tell(&mut ada, moss, fields).await;
        let path = format!("/dogs/{moss}/encounters/{id}");
        let strength = fields.iter().find(|(name, _)| *name == "reaction");
        change(&mut ada, &path, strength.map_or(&[][..], std::slice::from_ref)).await.redirects_to(&path);
        assert_eq!(world.database.count("select count(*) from encounter_revision").await, 0, "{fields:?}");
    }
}

#[tokio::test]
async fn a_change_is_kept_and_its_page_says_what_it_said_before() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "3"), ("note", "Windy.")]).await;
    let path = newest_log(&world, moss).await;
    world.pass(Duration::hours(1));
    let better = [("left", "1"), ("minutes", "7"), ("reason", "I had miscounted.")];
    change(&mut ada, &path, &better).await.redirects_to(&path);
    let page = ada.get(&path).await;
    let text = page.text("main");
    assert!(text.contains("9 of 10 earned the “yes”") && text.contains("Changed on"), "{text}");
    assert!(text.contains("by Ada Okoro") && text.contains("“I had miscounted.”"), "{text}");
    let before = page.texts("main details:has(summary) dl.facts")[0].clone();
    assert!(before.contains("7 of 10") && before.contains("Not said"), "{before}");
    assert!(!before.contains("Windy."), "what still holds is not repeated: {before}");
    let page = practice.lead.get(&path).await;
    assert!(page.text("main").contains("9 of 10") && page.text("main").contains("7 of 10 met"));
    change(&mut practice.lead, &path, &[("note", "Windy, and late.")]).await.redirects_to(&path);
    assert_eq!(world.database.count("select max(number)::bigint from log_revision").await, 2);
    let kept = "select count(*) from log_revision where before->>'note' = 'Windy.' and before->>'met' = '7'";
    assert_eq!(world.database.count(kept).await, 1);
    let who = "select count(*) from practice_log l join membership m on m.id = l.by_membership_id
               where m.name = 'Ada Okoro' and not l.trainer_seen and l.capture = 'form'";
    assert_eq!(world.database.count(who).await, 1, "whose it is stays");
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn owners_change_their_own_for_a_fortnight_and_trainers_whatever_they_see() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let household = practice.things["household"];
    let mut uche = practice.owner(&world, household, "Uche Okoro").await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "3")]).await;
    let path = newest_log(&world, moss).await;
    let met = tell(&mut ada, moss, &[("kind", "reaction")]).await;
    let met = format!("/dogs/{moss}/encounters/{met}");
    for path in [&path, &met] {
        assert_eq!(uche.get(path).await.expect(200).count("main a[href$='/edit']"), 0);
        for act in ["edit", "remove"] {
            uche.get(&format!("{path}/{act}")).await.expect(403);
            uche.post(&format!("{path}/{act}"), &[("revision", "0")]).await.expect(403);
        }
    }
    world.pass(Duration::days(14) + Duration::seconds(1));
    for path in [&path, &met] {
        assert_eq!(ada.get(path).await.expect(200).count("main a[href$='/edit']"), 0);
        ada.post(&format!("{path}/remove"), &[("revision", "0")]).await.expect(403);
        practice.lead_signs_in().await;
        assert_eq!(practice.lead.get(path).await.count("main a[href$='/edit']"), 1);
        remove(&mut practice.lead, path, "").await.redirects_to(path);
    }
    let removed = "select (select count(*) from practice_log where deleted_at is not null)
                   + (select count(*) from encounter where deleted_at is not null)";
    assert_eq!(world.database.count(removed).await, 2);
}

#[tokio::test]
async fn a_page_that_was_open_for_long_overwrites_nobody_and_loses_nothing() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "3")]).await;
    let path = newest_log(&world, moss).await;
    let form = format!("main form[action='{path}/edit']");
    let open = ada.get(&format!("{path}/edit")).await;
    let ask = ada.get(&format!("{path}/remove")).await;
    change(&mut practice.lead, &path, &[("left", "2"), ("note", "Two were left.")]).await.expect(303);
    let late = ada.submit(&open, &form, &[("left", "1"), ("note", "One was left.")]).await;
    let text = late.expect(422).text("main");
    assert!(text.contains("What it says now") && text.contains("8 of 10"), "{text}");
    assert!(text.contains("Two were left.") && text.contains("One was left."), "both stand there: {text}");
    let stays = "select count(*) from practice_log where met = 8";
    assert_eq!(world.database.count(stays).await, 1);
    ada.submit(&ask, &format!("main form[action='{path}/remove']"), &[]).await.expect(422);
    assert_eq!(world.database.count(stays).await, 1);
    ada.submit(&late, &form, &[]).await.redirects_to(&path);
    let sent = "select count(*) from practice_log where met = 9 and note = 'One was left.' and revision = 2";
    assert_eq!(world.database.count(sent).await, 1, "sent again, it stands");
    ada.submit(&late, &form, &[]).await.redirects_to(&path);
    assert_eq!(world.database.count(sent).await, 1, "and twice makes one");
    let met = tell(&mut ada, moss, &[("kind", "reaction"), ("reaction", "2")]).await;
    let met = format!("/dogs/{moss}/encounters/{met}");
    let open = ada.get(&format!("{met}/edit")).await;
    change(&mut practice.lead, &met, &[("reaction", "3"), ("what", "A van")]).await.expect(303);
    let late = [("reaction", "1"), ("what", "A white van")];
    let late = ada.submit(&open, &format!("main form[action='{met}/edit']"), &late).await;
    let text = late.expect(422).text("main");
    assert!(text.contains("A van") && text.contains("What it says now"), "{text}");
    assert_eq!(late.attributes("input[name=what]", "value"), ["A white van"]);
}

#[tokio::test]
async fn teeth_are_not_taken_back_without_a_word_and_stay_on_record() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let bite = [("kind", "bite"), ("towards", "stranger"), ("skin_broken", "yes")];
    let id = tell(&mut ada, moss, &bite).await;
    let path = format!("/dogs/{moss}/encounters/{id}");
    assert_eq!(said(&flags(&world, "bite").await), [("open", "stop")]);
    let less = [("kind", "reaction"), ("skin_broken", "no"), ("towards", "not_sure")];
    let asked = change(&mut ada, &path, &less).await;
    assert!(!asked.expect(422).error_of("reason").is_empty());
    let asked = remove(&mut ada, &path, "").await;
    assert!(!asked.expect(422).error_of("reason").is_empty());
    assert_eq!(said(&flags(&world, "bite").await), [("open", "stop")]);
    let form = format!("main form[action='{path}/edit']");
    let page = ada.get(&format!("{path}/edit")).await;
    let with_a_word = less.into_iter().chain([("reason", "It was her sister's dog.")]).collect::<Vec<_>>();
    ada.submit(&page, &form, &with_a_word).await.redirects_to(&path);
    assert_eq!(said(&flags(&world, "bite").await), [("withdrawn", "stop")]);
    let kept =
        "select count(*) from dog_summary where open_stops = 0 and not bite_open and last_bite_at is null";
    assert_eq!(world.database.count(kept).await, 1);
    assert_eq!(world.database.count("select count(*) from dog where bite_on_record").await, 1);
    assert_eq!(ada.get(&path).await.count("main .watch"), 0, "what no longer holds is no card");
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    assert!(welfare.text("main").contains("Withdrawn: what was logged was changed."), "{welfare:?}");
    let link = welfare.attributes("main ul.links a", "href").remove(0);
    let flag = practice.lead.get(&link).await.text("main");
    assert!(flag.contains("Looked at again on") && flag.contains("Withdrawn"), "{flag}");
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn an_answer_stands_unless_the_change_makes_it_graver() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let bite = [("kind", "bite"), ("towards", "dog"), ("skin_broken", "no"), ("note", "In play.")];
    let id = tell(&mut ada, moss, &bite).await;
    let path = format!("/dogs/{moss}/encounters/{id}");
    answer(&mut practice.lead, moss, "Rang her.").await;
    change(&mut ada, &path, &[("note", "Over a ball.")]).await.expect(303);
    assert_eq!(said(&flags(&world, "bite").await), [("answered", "caution")]);
    change(&mut ada, &path, &[("skin_broken", "yes")]).await.expect(303);
    assert_eq!(said(&flags(&world, "bite").await), [("open", "stop")], "graver, it opens again");
    answer(&mut practice.lead, moss, "Rang her again.").await;
    let less = [("skin_broken", "no"), ("reason", "It was a scratch.")];
    change(&mut ada, &path, &less).await.expect(303);
    assert_eq!(said(&flags(&world, "bite").await), [("answered", "stop")]);
    remove(&mut practice.lead, &path, "Told twice.").await.expect(303);
    assert_eq!(said(&flags(&world, "bite").await), [("answered", "stop")], "an answer is never taken back");
    let page = practice.lead.get(&path).await;
    assert!(page.text("main").contains("Removed on") && page.text("main").contains("“Told twice.”"));
    assert_eq!(page.count("main a[href$='/edit']"), 0);
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn what_later_sittings_looked_back_on_is_looked_at_again() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "10")]).await;
    let first = newest_log(&world, moss).await;
    assert_eq!(said(&flags(&world, "under_half_met").await), [("open", "notice")]);
    world.pass(Duration::days(1));
    log(&mut ada, moss, &[("attempts", "6"), ("left", "2")]).await;
    assert_eq!(said(&flags(&world, "under_half_met").await), [("open", "notice"); 2], "4 of 16");
    change(&mut ada, &first, &[("left", "1")]).await.expect(303);
    assert_eq!(said(&flags(&world, "under_half_met").await), [("withdrawn", "notice"); 2], "13 of 16");
    change(&mut ada, &first, &[("left", "9")]).await.expect(303);
    let open = flags(&world, "under_half_met").await;
    assert_eq!(said(&open), [("open", "notice"); 2], "raised anew, and never twice");
    remove(&mut ada, &first, "").await.redirects_to(&first);
    assert_eq!(said(&flags(&world, "under_half_met").await), [("withdrawn", "notice"); 2]);
    assert_eq!(world.database.count("select count(*) from dog_summary where logs = 1").await, 1);
    let days = "select count(*) from dog_day where local_date = '2026-03-12'";
    assert_eq!(world.database.count(days).await, 0, "the day without anything is gone");
    practice.lead_signs_in().await;
    let page = practice.lead.get(&format!("/dogs/{moss}/log")).await;
    assert_eq!(page.count("main ol.log li"), 1);
    ada.get(&format!("{first}/remove")).await.redirects_to(&first);
    ada.post(&format!("{first}/remove"), &[("revision", "3")]).await.redirects_to(&first);
    assert_eq!(world.database.count("select count(*) from log_revision where removes").await, 1);
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn what_rests_on_the_record_is_looked_at_again_however_long_ago_that_was() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let growl = tell(&mut ada, moss, &[("kind", "growl_or_snap")]).await;
    world.pass(Duration::days(60));
    practice.lead_signs_in().await;
    tell(&mut ada, moss, &[("kind", "bite"), ("warned", "no")]).await;
    assert_eq!(said(&flags(&world, "growl_gone").await), [("open", "caution")]);
    let path = format!("/dogs/{moss}/encounters/{growl}");
    remove(&mut practice.lead, &path, "It was another dog.").await.expect(303);
    assert_eq!(said(&flags(&world, "growl_gone").await), [("withdrawn", "caution")]);
}

#[tokio::test]
async fn an_incident_that_was_removed_is_no_longer_the_other_one() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let first = tell(&mut ada, moss, &[("kind", "growl_or_snap")]).await;
    world.pass(Duration::days(3));
    log(&mut ada, moss, &[("bite", "yes")]).await;
    world.pass(Duration::days(1));
    let second = tell(&mut ada, moss, &[("kind", "growl_or_snap")]).await;
    assert_eq!(said(&flags(&world, "second_incident").await), [("open", "stop"); 2]);
    let edit = [("note", "By the door.")];
    change(&mut ada, &format!("/dogs/{moss}/encounters/{first}"), &edit).await.expect(303);
    let all = flags(&world, "second_incident").await;
    assert_eq!(all.len(), 2, "what was told first is not made the second by looking again");
    remove(&mut ada, &format!("/dogs/{moss}/encounters/{first}"), "A yawn.").await.expect(303);
    let all = flags(&world, "second_incident").await;
    assert_eq!(said(&all), [("withdrawn", "stop"), ("open", "stop")]);
    remove(&mut ada, &format!("/dogs/{moss}/encounters/{second}"), "A yawn too.").await.expect(303);
    assert_eq!(said(&flags(&world, "second_incident").await), [("withdrawn", "stop"); 2]);
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn a_changed_count_asks_for_a_decision_again_and_the_stream_is_told_anew() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    for left in ["0", "5"] {
        world.pass(Duration::days(1));
        log(&mut ada, moss, &[("attempts", "10"), ("left", left)]).await;
    }
    let last = newest_log(&world, moss).await;
    let waits = "select count(*) from dog_summary where decisions_waiting = 1";
    assert_eq!(world.database.count(waits).await, 0);
    change(&mut ada, &last, &[("left", "0")]).await.expect(303);
    assert_eq!(world.database.count(waits).await, 1, "20 of 20 on two days");
    practice.lead_signs_in().await;
    let item: Uuid = sqlx::query_scalar("select id from plan_item where step_id is not null")
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("an item");
    let page = practice.lead.get(&format!("/dogs/{moss}/decide/{item}")).await;
    let decided = [("choice", "repeat"), ("reason", "counts")];
    practice.lead.submit(&page, "main form", &decided).await.expect(303);
    assert_eq!(world.database.count(waits).await, 0);
    crate::rebuild::is_built_anew(&world, &mut practice).await;
    change(&mut ada, &last, &[("note", "In the rain.")]).await.expect(303);
    assert_eq!(world.database.count(waits).await, 0, "a note asks for nothing");
    crate::rebuild::is_built_anew(&world, &mut practice).await;
    change(&mut ada, &last, &[("minutes", "4")]).await.expect(303);
    change(&mut ada, &last, &[("left", "1")]).await.expect(303);
    assert_eq!(world.database.count(waits).await, 0, "nor does what says the same of readiness");
    change(&mut ada, &last, &[("left", "9")]).await.expect(303);
    change(&mut ada, &last, &[("left", "0")]).await.expect(303);
    assert_eq!(world.database.count(waits).await, 1, "it fell and came back");
    crate::rebuild::is_built_anew(&world, &mut practice).await;
    remove(&mut ada, &last, "").await.expect(303);
    let one = "select count(*) from readiness where not waiting and (state->>'sittings')::int = 1";
    assert_eq!(world.database.count(one).await, 1);
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn a_call_for_help_is_answered_and_neither_changed_nor_removed() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let page = ada.get(&format!("/dogs/{moss}/not-coping")).await;
    let told = ada.submit(&page, "main form", &[]).await;
    let path = told.location().expect("its page").to_owned();
    assert_eq!(ada.get(&path).await.expect(200).count("main a[href$='/edit']"), 0);
    for browser in [&mut ada, &mut practice.lead] {
        for act in ["edit", "remove"] {
            browser.post(&format!("{path}/{act}"), &[("revision", "0"), ("kind", "other")]).await.expect(403);
        }
    }
}

#[tokio::test]
async fn open_flags_of_a_rule_that_has_changed_are_looked_at_again() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "bite"), ("towards", "dog"), ("skin_broken", "no")]).await;
    answer(&mut practice.lead, moss, "Rang her.").await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "9"), ("looked", "frozen"), ("took_food", "refused")])
        .await;
    tell(&mut ada, moss, &[("kind", "bolted"), ("line", "none")]).await;
    // as an earlier version of the rules left them: another severity, other words, one that finds nothing today, and one of
    // a rule that has not changed, which is left alone
    let earlier = "update welfare_flag set rule_version = 0, severity = 'notice', seen = 'As it was.';
                   insert into welfare_flag select practice_id, gen_random_uuid(), dog_id, 'marker_unpaid', 0, 'notice',
                     'Unpaid.', 'Unpaid.', facts, subject_kind, subject_id, line_id, raised_at, local_date
                   from welfare_flag where rule = 'shut_down';
                   insert into welfare_flag select practice_id, gen_random_uuid(), dog_id, 'still_high', 1, 'notice',
                     'High.', 'High.', facts, subject_kind, subject_id, line_id, raised_at, local_date
                   from welfare_flag where rule = 'shut_down'";
    sqlx::raw_sql(earlier).execute(&mut world.database.as_superuser().await).await.expect("ages the flags");
    let check = async |lead: &mut Browser| {
        let page = lead.visit("/practice/records").await;
        lead.submit(&page, "main form[action='/practice/records']", &[]).await.text("main")
    };
    let found = check(&mut practice.lead).await;
    assert!(found.contains("looked at again, because a rule"), "{found}");
    let again = "select count(*) from welfare_flag where looked_again = 'rule_changed' and state = 'open' and seen <> 'As it was.'";
    assert!(world.database.count(again).await >= 2);
    assert_eq!(said(&flags(&world, "marker_unpaid").await), [("withdrawn", "notice")]);
    assert_eq!(said(&flags(&world, "still_high").await), [("open", "notice")]);
    let stale = "select count(*) from welfare_flag where state = 'open' and rule_version = 0";
    assert_eq!(world.database.count(stale).await, 0);
    assert_eq!(said(&flags(&world, "bite").await), [("answered", "notice")], "an answer stands");
    let tops = "select count(*) from dog_summary where open_stops > 0";
    assert_eq!(world.database.count(tops).await, 1, "bolting off lead is a stop again");
    let found = check(&mut practice.lead).await;
    assert!(!found.contains("looked at again") && found.contains("Everything agrees"), "{found}");
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    let flag = welfare.attributes("main .watch .actions a", "href").remove(0);
    let page = practice.lead.get(&flag).await.text("main");
    assert!(page.contains("because the rule changed"), "{page}");
}

#[tokio::test]
async fn what_was_typed_stays_when_it_was_removed_meanwhile() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "3")]).await;
    let encounter = tell(&mut ada, moss, &[("kind", "reaction"), ("reaction", "2")]).await;
    let sitting = newest_log(&world, moss).await;
    for path in [sitting, format!("/dogs/{moss}/encounters/{encounter}")] {
        let open = ada.get(&format!("{path}/edit")).await;
        remove(&mut ada, &path, "Told twice.").await.redirects_to(&path);
        let form = format!("main form[action='{path}/edit']");
        let again = ada.submit(&open, &form, &[("note", "It was windy.")]).await;
        let text = again.expect(422).text("main");
        assert!(
            text.contains("removed after you opened the page") && text.contains("It was windy."),
            "{text}"
        );
        assert_eq!(world.database.count("select count(*) from log_revision where not removes").await, 0);
    }
}
