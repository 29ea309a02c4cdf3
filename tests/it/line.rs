//! What a line does when it comes tight: for trainers, by the dog's weight.

use crate::incidents::{EXERCISE, beginning};
use crate::support::World;

#[tokio::test]
async fn the_pull_stands_in_newtons_and_in_the_dogs_own_weights() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let path = format!("/dogs/{moss}/line");
    let unweighed = practice.lead.get(&path).await;
    assert!(unweighed.text("main .empty").contains("No weight yet") && unweighed.count("main table") == 0);
    assert!(unweighed.text("main").contains("does not make a dog pull less"));
    let page = practice.lead.get(&unweighed.attribute("main .empty a", "href")).await;
    let weighed = [("on", "2026-03-10"), ("kg", "20")];
    let action = format!("main form[action='/dogs/{moss}/weights']");
    practice.lead.submit(&page, &action, &weighed).await.expect(303);
    let page = practice.lead.get(&path).await;
    assert_eq!(page.texts("main tbody th"), ["2 m", "5 m", "10 m"]);
    let last = page.texts("main tbody tr:last-child td");
    assert_eq!(last, ["8.9 m/s (32 km/h)", "1259 N", "6.4 ×", "792 N"]);
    let said = page.text("main");
    for words in
        ["20 kg, weighed", "estimate", "4 cm of slack", "9 cm of slack", "141 N", "199 N", "from memory"]
    {
        assert!(said.contains(words), "{words} is not in {said}");
    }
    ada.visit(&path).await.expect(404);
}

#[tokio::test]
async fn it_is_one_link_away_from_line_work_and_from_what_was_found_about_it() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Come, on the long line", EXERCISE]).await;
    let to_it = format!("main a[href='/dogs/{moss}/line']");
    let plan = practice.lead.get(&format!("/dogs/{moss}/plan")).await;
    assert_eq!((plan.count("main article.item"), plan.count(&to_it)), (2, 1), "from line work alone");
    crate::journey::log_on_the_collar(&mut ada, moss).await;
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    let flag = welfare.attributes("main .watch .actions a", "href").remove(0);
    let page = practice.lead.get(&flag).await;
    assert!(page.text("main h1").contains("Long line without a harness"));
    assert_eq!(page.count(&to_it), 1);
}
