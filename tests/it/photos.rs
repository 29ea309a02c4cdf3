//! Photos: cleaned, kept once, shown to those who may see the dog, and refused where they are none.

use axum::http::Method;
use uuid::Uuid;

use crate::support::builders::photo_of;
use crate::support::lived_in::{FELL, HEATH};
use crate::support::{LivedIn, World};

#[tokio::test]
async fn a_photo_is_kept_once_as_a_jpeg_and_shown_to_those_who_may_see_the_dog() {
    let world = World::new().await;
    let mut home = LivedIn::new(&world, &HEATH).await;
    let mut elsewhere = LivedIn::new(&world, &FELL).await;
    let things = &home.practice.things;
    let (dog, log, id) = (things["dog"], things["log"], Uuid::new_v4());
    let path = format!("/dogs/{dog}/photos?id={id}&log={log}");
    for _ in 0..2 {
        // what it calls itself does not matter, and neither does a name
        let sent = photo_of(3000, 1000);
        let kept = home.owner.send_body(Method::POST, &path, Some("image/svg+xml"), sent).await;
        assert!(kept.expect(200).body().contains(&id.to_string()));
    }
    assert_eq!(
        world.database.count("select count(*) from photo where width = 1600 and height = 533").await,
        1
    );
    let shown = format!("/dogs/{dog}/photos/{id}");
    for who in [&mut home.owner, &mut home.trainer] {
        let photo = who.get(&shown).await;
        assert_eq!(photo.expect(200).header("content-type"), Some("image/jpeg"));
    }
    for who in [&mut home.other_owner, &mut elsewhere.owner, &mut elsewhere.practice.lead] {
        who.get(&shown).await.expect(404);
        who.send_body(Method::POST, &path, None, photo_of(10, 10)).await.expect(404);
        who.post(&format!("{shown}/remove"), &[]).await.expect(404);
    }
    let page = home.owner.get(&format!("/dogs/{dog}/log/{log}")).await;
    assert!(page.attributes("main .photos img", "src").contains(&shown));
    let remove = format!("main form[action='{shown}/remove']");
    home.owner.submit(&page, &remove, &[]).await.expect(303);
    home.owner.get(&shown).await.expect(404);
}

#[tokio::test]
async fn what_is_no_photo_is_refused_in_words() {
    let world = World::new().await;
    let mut home = LivedIn::new(&world, &HEATH).await;
    let (dog, log) = (home.practice.things["dog"], home.practice.things["log"]);
    let whole = photo_of(400, 300);
    let files: [(&str, Vec<u8>); 4] = [
        (
            "../../photo.svg",
            b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>".to_vec(),
        ),
        ("half.png", whole[..whole.len() / 2].to_vec()),
        ("nothing", Vec::new()),
        ("words.txt", b"In so many words.".to_vec()),
    ];
    for (name, file) in files {
        let path = format!("/dogs/{dog}/photos?id={}&log={log}&name={name}", Uuid::new_v4());
        let refused = home.owner.send_body(Method::POST, &path, Some("image/png"), file).await;
        assert!(refused.expect(422).body().contains("\"why\":\""), "{name}: {refused:?}");
    }
    let large = home
        .owner
        .send_body(
            Method::POST,
            &format!("/dogs/{dog}/photos?id={}&log={log}", Uuid::new_v4()),
            None,
            vec![0; 13 * 1024 * 1024],
        )
        .await;
    large.expect(413);
    let no_log = format!("/dogs/{dog}/photos?id={}&log={}", Uuid::new_v4(), Uuid::new_v4());
    home.owner.send_body(Method::POST, &no_log, None, photo_of(10, 10)).await.expect(404);
    assert_eq!(world.database.count("select count(*) from photo").await, 1, "the one that was there");
}

#[tokio::test]
async fn whoever_wrote_a_message_adds_a_photo_to_it_and_both_sides_see_it() {
    let world = World::new().await;
    let mut home = LivedIn::new(&world, &HEATH).await;
    let (dog, message) = (home.practice.things["dog"], home.practice.things["message"]);
    let path = |id: Uuid| format!("/dogs/{dog}/photos?id={id}&message={message}");
    let id = Uuid::new_v4();
    let hers = format!("/messages?dog={dog}");
    let adds = "main [data-photo-now]";
    let to = home.owner.get(&hers).await.attribute(adds, "data-photo-now");
    assert_eq!(to, format!("/dogs/{dog}/photos?message={message}"));
    for _ in 0..2 {
        home.owner.send_body(Method::POST, &path(id), None, photo_of(800, 600)).await.expect(200);
    }
    assert_eq!(world.database.count("select count(*) from photo where message_id is not null").await, 1);
    // nobody puts a picture into another's words
    for who in [&mut home.trainer, &mut home.practice.lead] {
        who.send_body(Method::POST, &path(Uuid::new_v4()), None, photo_of(10, 10)).await.expect(403);
    }
    home.other_owner.send_body(Method::POST, &path(Uuid::new_v4()), None, photo_of(10, 10)).await.expect(404);
    let of_nothing = format!("/dogs/{dog}/photos?id={}&message={}", Uuid::new_v4(), Uuid::new_v4());
    home.owner.send_body(Method::POST, &of_nothing, None, photo_of(10, 10)).await.expect(404);
    let shown = format!("/dogs/{dog}/photos/{id}");
    let theirs = home.practice.lead.get(&format!("/dogs/{dog}/messages")).await;
    assert!(theirs.attributes("main .message.theirs img", "src").contains(&shown));
    assert_eq!(theirs.count(adds), 0, "what stands last is not theirs");
    let page = home.owner.get(&hers).await;
    assert_eq!(page.attributes("main .message.mine img", "src"), [shown.as_str()]);
    // a trainer answers, and then it is theirs to add one
    home.practice
        .lead
        .submit(&theirs, "main form.form:has(#f-body)", &[("body", "It is.")])
        .await
        .expect(303);
    assert_eq!(home.owner.get(&hers).await.count(adds), 0);
    assert_eq!(home.practice.lead.get(&format!("/dogs/{dog}/messages")).await.count(adds), 1);
    world.pass(time::Duration::minutes(61));
    assert_eq!(
        home.practice.lead.get(&format!("/dogs/{dog}/messages")).await.count(adds),
        0,
        "not much later"
    );
    let remove = format!("main form[action='{shown}/remove']");
    home.owner.submit(&page, &remove, &[]).await.redirects_to(&format!("{hers}&notice=removed"));
    home.owner.get(&shown).await.expect(404);
}
