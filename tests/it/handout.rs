//! The plan on paper: what stands on it, for whom, and where its code leads.

use uuid::Uuid;

use crate::support::world::SECURE;
use crate::support::{Answer, Browser, Practice, World};

const SHEET: &str = "?layout=sheet&size=letter";

struct Home {
    practice: Practice,
    moss: Uuid,
    ada: Browser,
    bo: Browser,
}

impl Home {
    async fn new(world: &World) -> Self {
        let mut practice = world.practice("Heath and Hollow").await;
        let other = practice.household("Lund").await;
        practice.dog(other, "Wren").await;
        let bo = practice.owner(world, other, "Bo Lund").await;
        let household = practice.household("Okoro").await;
        let moss = practice.dog(household, "Moss").await;
        let ada = practice.owner(world, household, "Ada Okoro").await;
        Self { practice, moss, ada, bo }
    }

    fn path(&self, query: &str) -> String {
        format!("/dogs/{}/plan/handout{query}", self.moss)
    }

    async fn publish(&mut self) {
        let items = ["Come, on the long line", "Moving search", "Gate shut when visitors come"];
        self.practice.publish_plan(self.moss, &items).await;
    }
}

/// What the code on a page says, read from its picture by a decoder that shares nothing with the one that wrote it.
fn scanned(page: &Answer) -> String {
    const SCALE: usize = 6;
    let side: usize =
        page.attribute("svg.qr", "viewBox").rsplit(' ').next().expect("a side").parse().expect("a side");
    let path = page.attribute("svg.qr path", "d");
    let mut dark = vec![false; side * side];
    for run in path.split_terminator('z') {
        let (x, rest) = run.strip_prefix('M').and_then(|r| r.split_once(' ')).expect("a beginning");
        let (y, rest) = rest.split_once('h').expect("a row");
        let (length, back) = rest.split_once("v1h-").expect("a run that is one module high");
        assert_eq!(length, back, "a run is a rectangle");
        let [x, y, length]: [usize; 3] = [x, y, length].map(|n| n.parse().expect("a number"));
        dark[y * side + x..][..length].fill(true);
    }
    let grey = |x: usize, y: usize| if dark[(y / SCALE) * side + x / SCALE] { 0 } else { 255 };
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(side * SCALE, side * SCALE, grey);
    let grids = image.detect_grids();
    let [grid] = &grids[..] else { panic!("{} codes", grids.len()) };
    grid.decode().expect("it can be read").1
}

#[tokio::test]
async fn the_code_leads_to_the_owners_plan() {
    let world = World::at(SECURE).await;
    let mut home = Home::new(&world).await;
    home.publish().await;
    for query in ["", SHEET] {
        let page = home.ada.get(&home.path(query)).await;
        let address = scanned(&page);
        assert_eq!(address, format!("{SECURE}/plan?dog={}", home.moss));
        let path = address.strip_prefix(SECURE).expect("our own address").to_owned();
        home.ada.get(&path).await.expect(200);
        assert!(page.text(".live p").ends_with(&format!("open {SECURE}/plan")), "and can be typed");
    }
}

#[tokio::test]
async fn each_exercise_has_a_page_with_what_it_needs_and_a_table() {
    let world = World::new().await;
    let mut home = Home::new(&world).await;
    home.publish().await;
    let page = home.ada.get(&home.path("")).await;
    assert_eq!(page.text("h1"), "Moss’s plan");
    assert!(page.text(".masthead").contains("Plan 1, Thursday 12 March 2026."), "{}", page.text(".masthead"));
    assert!(page.text(".masthead").starts_with("Heath and Hollow"));
    assert_eq!(page.texts(".first h2")[0], "All the time", "what holds comes first");
    assert_eq!(page.count(".first .block"), 1);
    assert_eq!(page.count(".leaf"), 3, "the first, and one for each exercise");
    assert_eq!(page.count(".leaf table"), 2);
    let terms = page.texts(".leaf:nth-of-type(2) dt");
    for term in [
        "Step",
        "Earns the “yes”",
        "Why",
        "Set-up",
        "How",
        "How much",
        "Wear",
        "Equipment",
        "Then",
        "Take care",
    ] {
        assert!(terms.iter().any(|said| said == term), "{term} is not among {terms:?}");
    }
    assert!(page.text(".leaf:nth-of-type(2) dl").contains("Long line, clipped to the back of the harness"));
    let columns = page.texts(".leaf:nth-of-type(2) thead th");
    let wanted = ["Day", "Pieces put out", "Left", "Line clipped to", "Calm ending", "Anything unlike Moss"];
    assert_eq!(columns, wanted);
    assert_eq!(page.count(".leaf:nth-of-type(2) tbody tr"), 7);
    assert!(page.text(".vet").contains("Ring now"), "when to ring a vet");
    assert!(page.text(".vet").contains("for stiffness alone, tomorrow will do"), "vomiting does not wait");
    assert_eq!(page.attributes("head link[rel=stylesheet]", "href").len(), 3);
    assert!(page.attributes("head link", "href").iter().any(|href| href.contains("paper-a4")));
}

#[tokio::test]
async fn a_sheet_is_short_and_letter_is_letter() {
    let world = World::new().await;
    let mut home = Home::new(&world).await;
    home.publish().await;
    let page = home.ada.get(&home.path(SHEET)).await;
    assert_eq!(page.count("table"), 1, "one table for all");
    assert_eq!(page.texts("thead th")[1], "No.");
    assert_eq!(page.count(".blocks .block"), 2);
    assert!(page.attributes("head link", "href").iter().any(|href| href.contains("paper-letter")));
    let chosen = page.texts(".choose a[aria-current]");
    assert_eq!(chosen, ["One compact sheet", "US Letter"]);
    let odd = home.ada.get(&home.path("?layout=poster&size=a0")).await;
    assert_eq!(odd.texts(".choose a[aria-current]"), ["A page for each exercise", "A4"]);
}

#[tokio::test]
async fn it_is_for_trainers_and_the_household_alone() {
    let world = World::new().await;
    let mut home = Home::new(&world).await;
    for who in [&mut home.ada, &mut home.practice.lead] {
        let none = who.get(&format!("/dogs/{}/plan/handout", home.moss)).await;
        assert_eq!(none.expect(200).text(".empty h2"), "Nothing to print yet");
    }
    home.publish().await;
    let plan = home.ada.get("/plan").await;
    assert_eq!(plan.link("Print the plan"), home.path(""));
    let plan = home.practice.lead.get(&format!("/dogs/{}/plan", home.moss)).await;
    assert_eq!(plan.link("Print the plan"), home.path(""));
    home.practice.lead.get(&home.path("")).await.expect(200);
    home.bo.get(&home.path("")).await.expect(404);
    home.bo.get(&home.path(SHEET)).await.expect(404);
    let mut elsewhere = world.practice("Fell and Fern").await;
    elsewhere.lead.get(&home.path("")).await.expect(404);
    let asked = world.visitor().get(&home.path("")).await;
    assert!(asked.location().is_some_and(|to| to.starts_with("/sign-in?next=")), "{asked:?}");
}

#[tokio::test]
async fn a_hostile_note_stays_text() {
    let world = World::new().await;
    let mut home = Home::new(&world).await;
    home.publish().await;
    let path = format!("/dogs/{}/plan/publish", home.moss);
    let page = home.practice.lead.get(&path).await;
    let note = "</p><script>alert(1)</script><b>Hello</b>";
    home.practice.lead.submit(&page, "main form", &[("note", note)]).await.expect(303);
    let page = home.ada.get(&home.path("")).await;
    assert_eq!(page.text(".note-from"), note);
}
