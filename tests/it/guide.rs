//! "What we watch for, and why": for trainers and owners, each in their words, with the numbers as the practice has them.

use settlebrook::domain::welfare::{CATALOGUE, parameters};

use crate::incidents::{beginning, log};
use crate::support::World;

#[tokio::test]
async fn trainers_read_every_rule_with_its_source_and_its_numbers() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let guide = lead.get("/guide").await;
    assert_eq!(guide.count("main article.card"), CATALOGUE.len());
    for rule in CATALOGUE {
        let entry = guide.text(&format!("main #{}", rule.id));
        for said in [rule.title, rule.raises, rule.source, rule.certainty.label()] {
            let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(entry.contains(&said), "{} does not say {said}", rule.id);
        }
        for parameter in rule.parameters {
            assert!(entry.contains(parameter.name), "{} does not say {}", rule.id, parameter.name);
        }
    }
    assert_eq!(guide.count("main a[href='/practice/numbers']"), 1);
}

#[tokio::test]
async fn owners_read_the_same_in_their_own_words() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    let guide = ada.get("/guide").await;
    assert_eq!(guide.count("main article.card"), CATALOGUE.len());
    for rule in CATALOGUE {
        let entry = guide.text(&format!("main #{}", rule.id));
        assert!(entry.contains(rule.owner_title), "{}", rule.id);
        assert!(!entry.contains(rule.raises), "{} speaks the trade's words", rule.id);
    }
    assert_eq!(guide.count("main a[href='/practice/numbers']"), 0);
    log(&mut ada, moss, &[("child_held_line", "yes")]).await;
    let today = ada.get("/today").await;
    let link = today.attributes("main .watch a[href^='/guide?']", "href");
    assert_eq!(link, ["/guide?rule=child_held_line#child_held_line"], "a card leads to its entry");
    assert_eq!(guide.count("main details.group[open]"), 0, "a long list begins folded");
    let open = ada.get(&link[0]).await.text("main details.group[open] > summary");
    assert!(open.starts_with("Keeping everyone safe"), "{open}");
}

#[tokio::test]
async fn a_flag_leads_to_its_entry() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("child_held_line", "yes")]).await;
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    let flag = welfare.attributes("main .watch .actions a", "href").remove(0);
    let page = practice.lead.get(&flag).await;
    assert_eq!(
        page.attributes("main a[href^='/guide?']", "href"),
        ["/guide?rule=child_held_line#child_held_line"]
    );
}

#[tokio::test]
async fn the_guide_says_what_a_practice_has_set() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let page = lead.get("/practice/numbers").await;
    lead.submit(&page, "main form", &[("high_arousal", "3")])
        .await
        .redirects_to("/practice/numbers?notice=saved");
    let entry = lead.get("/guide").await.text("main #still_high");
    assert!(entry.contains("3 on 1–5 set by this practice"), "{entry}");
    assert!(parameters().iter().any(|parameter| parameter.key == "high_arousal"));
}
