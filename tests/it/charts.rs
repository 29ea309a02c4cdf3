//! The charts of a dog: read back from their drawings, what they say, what is left out, and how much the database is asked.

use scraper::Html;
use settlebrook::web::zones;
use time::Duration;
use uuid::Uuid;

use crate::food::on_cheddar;
use crate::incidents::{beginning, log, tell};
use crate::readiness::decides;
use crate::support::drawing::check_charts;
use crate::support::{Browser, Practice, World, statements};

/// Logs a sitting of the plan's exercise of this name in detail.
async fn sit(phone: &mut Browser, dog: Uuid, exercise: &str, fields: &[(&str, &str)]) {
    let choice = phone.visit(&format!("/dogs/{dog}/log/new")).await;
    let css = format!("main form[action='/dogs/{dog}/log']");
    for href in choice.attributes("main a[href*='/log/new?item=']", "href") {
        let form = phone.get(&href).await;
        if form.text("main").contains(exercise) {
            phone.submit(&form, &css, fields).await.expect(303);
            return;
        }
    }
    panic!("no form for {exercise} on {choice:?}");
}

/// Five weeks of a dog in which everything that can be drawn was told.
async fn five_weeks(world: &World) -> (Practice, Uuid, Browser) {
    let (mut practice, moss, mut ada) = on_cheddar(world).await;
    practice.publish_plan(moss, &["Seen from far off"]).await;
    let counted = [
        ("7", "5", "2", "3", "2"),
        ("6", "4", "3", "4", "3"),
        ("1", "6", "3", "2", "5"),
        ("0", "5", "2", "2", "6"),
    ];
    for (left, minutes, before, end, cool_down) in counted {
        for _ in 0..2 {
            let fields = [
                ("attempts", "10"),
                ("left", left),
                ("minutes", minutes),
                ("arousal_before", before),
                ("arousal_end", end),
                ("cool_down_minutes", cool_down),
            ];
            sit(&mut ada, moss, "Nose to hand", &fields).await;
            world.pass(Duration::hours(3));
        }
        world.pass(Duration::hours(66));
    }
    // what was paid is not stated, nor the minutes
    sit(&mut ada, moss, "Nose to hand", &[("cool_down_minutes", "4")]).await;
    for (metres, looked) in [("40", "loose"), ("38", "loose"), ("20", "frozen"), ("41", "loose")] {
        world.pass(Duration::days(2));
        sit(&mut ada, moss, "Seen from far off", &[("outcome_value", metres), ("looked", looked)]).await;
    }
    for (kind, metres, reaction, recovery) in [
        ("reaction", "30", "0", "within_5"),
        ("reaction", "12", "3", "within_15"),
        ("bolted", "", "", "not_yet"),
    ] {
        world.pass(Duration::days(1));
        let fields = [("kind", kind), ("distance_m", metres), ("reaction", reaction), ("recovery", recovery)];
        let fields: Vec<_> = fields.into_iter().filter(|(_, value)| !value.is_empty()).collect();
        tell(&mut ada, moss, &fields).await;
    }
    world.pass(Duration::days(4));
    practice.lead_signs_in().await;
    let weigh = [("on", "2026-04-02"), ("kg", "10.6")];
    practice.lead.post(&format!("/dogs/{moss}/weights"), &weigh).await.expect(303);
    let health = practice.lead.get(&format!("/dogs/{moss}/profile/edit/health")).await;
    practice.lead.submit(&health, "main form", &[("expected_adult_kg", "12")]).await.expect(303);
    (practice, moss, ada)
}

#[tokio::test]
async fn every_chart_is_drawn_as_its_table_says() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = five_weeks(&world).await;
    let today = zones::local_date(world.now(), "Europe/London");
    let page = practice.lead.get(&format!("/dogs/{moss}/charts")).await;
    let charts = check_charts(&page.page(), today);
    let wanted = [
        ("Nose to hand: success by sitting", 16),
        ("Nose to hand: evidence for a harder step", 8),
        ("Seen from far off: nearest comfortable distance", 4),
        ("Minutes and days practised", 9),
        ("Arousal before and at the end", 16),
        ("Cool-down by sitting", 9),
        ("Extras as a share of the day’s food", 8),
        ("Distance of encounters", 2),
        ("Recovery after encounters", 3),
        ("Weight", 2),
    ];
    let found: Vec<&str> = charts.iter().map(|(title, _)| title.as_str()).collect();
    assert_eq!(found, wanted.map(|(title, _)| title));
    for ((title, drawn), (_, least)) in charts.iter().zip(wanted) {
        assert!(*drawn >= least, "{title}: {drawn} of {least}");
    }
    let owner = check_charts(&ada.get("/progress").await.page(), today);
    assert_eq!(owner.len(), 2, "{owner:?}");
}

/// A page with the `nth` number after the first of some words moved.
fn moved(page: &str, words: &str, nth: usize, by: f64) -> String {
    let begin = page.find(words).unwrap_or_else(|| panic!("no {words}")) + words.len();
    let is_number = |c: char| c.is_ascii_digit() || c == '.';
    let mut at = begin;
    for left in (0..=nth).rev() {
        at += page[at..].find(is_number).expect("a number");
        let end = at + page[at..].find(|c| !is_number(c)).expect("its end");
        if left == 0 {
            let number: f64 = page[at..end].parse().expect("a number");
            return format!("{}{}{}", &page[..at], number + by, &page[end..]);
        }
        at = end;
    }
    unreachable!()
}

#[tokio::test]
async fn a_drawing_that_is_shifted_is_found_out() {
    let world = World::new().await;
    let (mut practice, moss, _) = five_weeks(&world).await;
    let today = zones::local_date(world.now(), "Europe/London");
    let page = practice.lead.get(&format!("/dogs/{moss}/charts")).await.body().to_owned();
    let is_right =
        |page: &str| std::panic::catch_unwind(|| check_charts(&Html::parse_document(page), today)).is_ok();
    assert!(is_right(&page));
    for (words, nth, by) in [
        ("transform=\"translate(", 1, 1.0),      // a point, downwards
        ("transform=\"translate(", 0, 4.0),      // a point, to another day
        ("<rect class=\"bar\"", 1, -1.0),        // a bar, taller
        ("<rect class=\"bar\"", 0, 4.0),         // a bar, to another day
        ("<path class=\"span\"", 1, 1.0),        // the low end of a band
        ("<path class=\"span\"", 2, 1.0),        // its high end
        ("<path class=\"area\" d=\"M", 1, 1.0),  // its area
        ("<path class=\"trace\" d=\"M", 1, 1.0), // a line
        ("<path class=\"limit\"", 1, 1.0),       // the limit of evidence
        ("<text class=\"minutes\"", 0, 35.0),    // a day of the calendar
        ("<td class=\"num\">", 0, 2.0),          // a number of a table
    ] {
        assert!(!is_right(&moved(&page, words, nth, by)), "{words}, number {nth}, moved by {by}");
    }
}

#[tokio::test]
async fn what_is_said_is_what_was_told() {
    let world = World::new().await;
    let (mut practice, moss, _) = five_weeks(&world).await;
    let path = format!("/dogs/{moss}/charts");
    let page = practice.lead.get(&path).await;
    let main = page.text("main");
    for words in [
        "Up from 14 of 40 to 38 of 40 met: the last 4 sittings at this step against the 4 before",
        "Of the last 8 sittings that say both, 4 ended no higher than they began, and 2 ended at 4 or 5.",
        "Nearest without a reaction: 30 m; farthest with one: 12 m.",
        "Itself again within 15 minutes after 2 of 3 that say so.",
        "4 days since the last bolt or bite that was told.",
        "10.6 kg, up 0.6 kg (6 %) over 22 days, 88 % of the 12 kg expected when grown.",
        "Days of practice that are not known are left out: ",
        "From 40 m to 41 m over 3 sittings at this step without a reaction: too few days for a trend.",
        "and 5 more that do not state theirs.",
    ] {
        assert!(main.contains(words), "{words} is not in {main}");
    }
    // the evidence that is drawn last is the evidence that is kept
    let kept = "select (1000000 * (state->>'score')::float8)::bigint from readiness";
    let drawn = page.attributes("#chart-evidence-0 [data-column='1'][data-value]", "data-value");
    let drawn: f64 = drawn.last().expect("a point").parse().expect("a number");
    assert_eq!((drawn * 1e6).round() as i64, world.database.count(kept).await);
    assert_eq!(page.attributes("main .filters [aria-current]", "href"), [format!("{path}?range=quarter")]);

    let of = async |practice: &mut Practice, range: &str| {
        let page = practice.lead.get(&format!("{path}?range={range}")).await;
        let chosen = page.attribute("main .filters [aria-current]", "href");
        (chosen, page.count("#chart-success-0 tbody tr"), page.text("main"))
    };
    assert_eq!(of(&mut practice, "a%20wrong%20one").await.0, format!("{path}?range=quarter"));
    assert_eq!(of(&mut practice, "all").await.1, 8);
    world.pass(Duration::days(20));
    practice.lead_signs_in().await;
    let (_, rows, main) = of(&mut practice, "month").await;
    assert!(rows == 0 && main.contains("No counted sitting in these 30 days."), "{rows}: {main}");
    assert!(main.contains("24 days since the last bolt or bite"), "whatever the range: {main}");
}

#[tokio::test]
async fn a_dog_of_which_nothing_is_told_has_a_sentence_for_each_chart() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let path = format!("/dogs/{moss}/charts");
    let page = practice.lead.get(&path).await;
    assert_eq!(page.count("main figure"), 0);
    let main = page.text("main");
    for words in [
        "No exercise yet",
        "No bolt and no bite was told here.",
        "Nothing was practised in these 13 weeks.",
        "No sitting states arousal in these 13 weeks.",
        "No sitting states the minutes of its cool-down",
        "No day is known in these 13 weeks.",
        "No encounter states its distance",
        "No encounter says how soon the dog was itself again",
        "No weighing in these 13 weeks.",
    ] {
        assert!(main.contains(words), "{words} is not in {main}");
    }
    practice.publish_plan(moss, &["Nose to hand", "Seen from far off"]).await;
    let main = practice.lead.get(&path).await.text("main");
    assert_eq!(main.matches("No counted sitting in these 13 weeks.").count(), 2, "{main}");
    assert!(main.contains("Nothing was measured in these 13 weeks."), "{main}");
    let current = practice.lead.get(&path).await.text("nav.tabs [aria-current]");
    assert_eq!(current, "Progress");
}

#[tokio::test]
async fn a_step_is_marked_where_it_changed_and_no_line_is_drawn_across() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    for _ in 0..2 {
        world.pass(Duration::days(1));
        log(&mut ada, moss, &[("attempts", "10"), ("left", "0")]).await;
    }
    decides(&mut practice, moss, "move_on").await;
    for left in ["6", "5"] {
        world.pass(Duration::days(1));
        log(&mut ada, moss, &[("attempts", "10"), ("left", left)]).await;
    }
    practice.lead_signs_in().await;
    let page = practice.lead.get(&format!("/dogs/{moss}/charts?range=month")).await;
    check_charts(&page.page(), zones::local_date(world.now(), "Europe/London"));
    for chart in ["success", "evidence"] {
        assert_eq!(page.count(&format!("#chart-{chart}-0 svg[role=img] .change")), 1, "{chart}");
        let line = page.attribute(&format!("#chart-{chart}-0 svg[role=img] .trace"), "d");
        assert_eq!(line.matches('M').count(), 2, "{chart}: {line}");
    }
    let main = page.text("main");
    assert!(main.contains("9 of 20 met in 2 sittings so far at this step"), "{main}");
    assert!(main.contains("Evidence begins anew"), "{main}");
}

#[tokio::test]
async fn long_histories_are_cut_and_say_so() {
    let world = World::new().await;
    let (mut practice, moss, _) = five_weeks(&world).await;
    repeated(&world, 300).await;
    let page = practice.lead.get(&format!("/dogs/{moss}/charts?range=all")).await;
    let charts = check_charts(&page.page(), zones::local_date(world.now(), "Europe/London"));
    assert_eq!(charts.len(), 10, "{charts:?}");
    assert_eq!(page.count("#chart-success-0 tbody tr"), 200);
    assert!(page.text("#chart-success-0").contains("The newest 200 of 308 are shown."));
}

/// Repeats the first counted sitting on earlier days.
async fn repeated(world: &World, times: i32) {
    let repeat = "insert into practice_log
         select (jsonb_populate_record(l, jsonb_build_object('id', gen_random_uuid(), 'fingerprint', '\\x' || encode(sha256(n::text::bytea), 'hex'),
           'started_at', l.started_at - n * interval '1 day', 'local_date', l.local_date - n))).*
         from practice_log l, generate_series(1, $1) n
         where l.id = (select id from practice_log where attempts is not null order by started_at limit 1)";
    sqlx::query(repeat).bind(times).execute(&mut world.database.as_superuser().await).await.expect("repeats");
}

/// How many statements a page takes, beside who asks.
async fn statements_of(browser: &mut Browser, path: &str) -> usize {
    statements::since_last();
    browser.get(path).await.expect(200);
    statements::since_last().len()
}

#[tokio::test]
async fn more_to_draw_asks_the_database_no_more() {
    statements::listen();
    let world = World::new().await;
    let (mut practice, moss, _) = five_weeks(&world).await;
    let path = format!("/dogs/{moss}/charts?range=all");
    practice.lead.get(&path).await.expect(200);
    let few = statements_of(&mut practice.lead, &path).await;
    repeated(&world, 100).await;
    practice.publish_plan(moss, &["Settle on a mat", "A look at you"]).await;
    let many = statements_of(&mut practice.lead, &path).await;
    assert_eq!(few, many);
    assert!(few > 0, "statements are heard");
}
