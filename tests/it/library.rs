//! Finding something in the library, and copying it.

use crate::support::World;
use crate::support::builders::id_in;

#[tokio::test]
async fn it_is_found_by_every_word_kind_line_and_first_step() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let names = async |lead: &mut crate::support::Browser, query: &str| {
        lead.get(&format!("/library?{query}")).await.texts("main .links b")
    };
    let all = names(&mut lead, "").await;
    let search = names(&mut lead, "q=search+moving").await;
    assert!(search.contains(&"Moving search".to_owned()), "the order of words is free: {search:?}");
    assert!(names(&mut lead, "q=moving+zebra").await.is_empty(), "every word counts");
    let on_long_line = names(&mut lead, "line=long_line").await;
    assert!(on_long_line.contains(&"Come, on the long line".to_owned()), "{on_long_line:?}");
    assert!(!on_long_line.contains(&"Timing the yes".to_owned()) && on_long_line.len() < all.len());
    let mut by_level = 0;
    for level in 1..=5 {
        by_level += names(&mut lead, &format!("level={level}")).await.len();
    }
    assert!(
        by_level > 0 && by_level < all.len(),
        "{by_level} of {}: what has no step has no level",
        all.len()
    );
    assert_eq!(names(&mut lead, "line=rope&level=9").await, all, "odd words narrow nothing");
    let page = lead.get("/library?q=come&line=long_line&level=1&show=exercise").await;
    let archived = page.link("Archived");
    assert_eq!(archived, "/library?show=archived&q=come&line=long_line&level=1");
    assert_eq!(page.attribute("select[name=line] option[selected]", "value"), "long_line");
    let none = lead.get("/library?q=zebra&line=retractable").await;
    assert_eq!(none.text(".empty h2"), "Nothing found for “zebra”");
}

#[tokio::test]
async fn a_copy_is_a_new_entry_with_the_same_ladder() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let list = lead.get("/library?q=Moving+search").await;
    let entry = list.attributes("main .links a", "href")[0].clone();
    let original = lead.get(&entry).await;
    let page = lead.get(&original.link("Copy")).await;
    assert_eq!(page.attribute("#f-name", "value"), "Moving search (2)");
    let made = lead.submit(&page, "main form", &[]).await;
    assert_ne!(id_in(made.location().expect("it is made"), "library"), id_in(&entry, "library"));
    let copy = lead.follow(made).await;
    assert_eq!(copy.text("h1"), "Moving search (2)");
    assert_eq!(copy.texts(".steps li"), original.texts(".steps li"));
    assert_eq!(copy.texts("dl.facts dd"), original.texts("dl.facts dd"));
    assert_eq!(lead.get(&entry).await.text("h1"), "Moving search", "the original stays");
    let again = lead.get(&original.link("Copy")).await;
    assert_eq!(again.attribute("#f-name", "value"), "Moving search (3)");
}
