//! Two walls between practices: row-level security, and the practice in every query. Each is taken down alone, and the
//! people of one practice still read, byte for byte, what they read with both. With both down the same walk must find
//! the other practice: a walk that finds nothing there finds nothing here.

use std::collections::{BTreeMap, BTreeSet};

use axum::http::Method;
use settlebrook::domain::vocabulary::Role;
use uuid::Uuid;

use crate::support::lived_in::{FELL, HEATH};
use crate::support::walls::{ids_of, predicate_dropped, row_level_security_off};
use crate::support::{LivedIn, Walker, World, walk};

/// Every dog of the practice, whoever trains it.
const EVERYONE_S: &str = "/caseload?show=everyone";

/// What one person read of each page: its status and its body, without the ids that it was given for its forms.
type Read = BTreeMap<(&'static str, String), (u16, String)>;

/// Two practices that are lived in, and how one is seen by the people of the other.
struct Walls {
    world: World,
    home: LivedIn,
    walkers: [Walker; 3],
    /// Every id that is kept, and those that are this practice's alone.
    kept: BTreeSet<Uuid>,
    secret: BTreeSet<Uuid>,
    pages: Vec<String>,
}

impl Walls {
    async fn new() -> Self {
        let world = World::new().await;
        let home = LivedIn::new(&world, &HEATH).await;
        let other = LivedIn::new(&world, &FELL).await;
        let walkers = [
            Walker::stranger("the other practice's lead", &other.practice.lead, Role::Lead),
            Walker::stranger("the other practice's trainer", &other.trainer, Role::Trainer),
            Walker::stranger("the other practice's owner", &other.owner, Role::Owner),
        ];
        let ours = ids_of(&world.database, home.practice.id.0).await;
        let theirs = ids_of(&world.database, other.practice.id.0).await;
        let mut pages = BTreeSet::new();
        for things in [&home.practice.things, &other.practice.things] {
            let stops = walk::every_route(things).into_iter();
            let stops = stops.filter(|stop| stop.method == Method::GET && !stop.pattern.contains("{token}"));
            pages.extend(stops.filter(|stop| !stop.has_id || stop.has_every_id).map(|stop| stop.path));
            for path in ["/today", "/plan", "/progress", "/messages"] {
                pages.insert(format!("{path}?dog={}", things["dog"]));
            }
        }
        pages.extend(["/library?show=archived", "/households?q=o", EVERYONE_S].map(str::to_owned));
        Self {
            kept: ours.union(&theirs).copied().collect(),
            secret: ours.difference(&theirs).copied().collect(),
            pages: pages.into_iter().collect(),
            world,
            home,
            walkers,
        }
    }

    /// Everybody reads every page, with the ids of both practices in the paths.
    async fn read(&mut self) -> Read {
        let mut read = Read::new();
        for walker in &mut self.walkers {
            walker.browser.expects_failures(); // where both walls are down
            for path in &self.pages {
                let answer = walker.ask(&Method::GET, path).await;
                let body = without_new_ids(answer.body(), &self.kept);
                read.insert((walker.name, path.clone()), (answer.status().as_u16(), body));
            }
        }
        read
    }

    /// The pages that say one of these names, or an id of this practice.
    fn found<'a>(&self, read: &'a Read, names: &[&str]) -> Vec<&'a (&'static str, String)> {
        let ids: Vec<String> = self.secret.iter().map(Uuid::to_string).collect();
        let says = |body: &str| {
            names.iter().any(|name| body.contains(name)) || ids.iter().any(|id| body.contains(id))
        };
        read.iter().filter(|(_, (_, body))| says(body)).map(|(page, _)| page).collect()
    }

    /// Everybody reads what they read before, which is nothing of this practice; nor can they change anything of it.
    async fn hold(&mut self, before: &Read) {
        let after = self.read().await;
        assert_eq!(self.found(&after, &HEATH.all()), Vec::<&(&str, String)>::new());
        for (page, now) in &after {
            assert_eq!(now, &before[page], "{page:?} says something else now");
        }
        let stops = walk::every_route(&self.home.practice.things);
        let written = self.world.database.fingerprint().await;
        for walker in &mut self.walkers {
            walker.finds_nothing(&stops).await;
        }
        assert_eq!(self.world.database.fingerprint().await, written);
        println!("{} pages compared, {} ids looked for", after.len(), self.secret.len());
    }

    /// What everybody reads while both walls stand.
    async fn read_behind_both(&mut self) -> Read {
        let read = self.read().await;
        assert_eq!(self.found(&read, &HEATH.all()), Vec::<&(&str, String)>::new());
        assert!(read.len() > 200 && self.secret.len() > 100, "{} pages", read.len());
        assert!(
            read.values().filter(|(status, _)| *status == 200).count() > 60,
            "pages of their own among them"
        );
        assert!(read.values().all(|(status, _)| matches!(status, 200 | 303 | 404)));
        read
    }
}

/// A page's text with a dash for every id that is not kept: each form is given a new one each time.
fn without_new_ids(body: &str, kept: &BTreeSet<Uuid>) -> String {
    let (mut rest, mut text) = (body, String::with_capacity(body.len()));
    while let Some(next) = rest.chars().next() {
        let new = rest.get(..36).and_then(|id| Uuid::try_parse(id).ok()).filter(|id| !kept.contains(id));
        let length = if new.is_some() { 36 } else { next.len_utf8() };
        text.push(if new.is_some() { '–' } else { next });
        rest = &rest[length..];
    }
    text
}

#[tokio::test]
async fn the_practice_in_every_query_is_wall_enough() {
    let mut walls = Walls::new().await;
    let before = walls.read_behind_both().await;
    row_level_security_off(&walls.world.database).await;
    walls.hold(&before).await;
}

#[tokio::test]
async fn row_level_security_is_wall_enough() {
    let mut walls = Walls::new().await;
    let before = walls.read_behind_both().await;
    predicate_dropped(&walls.world.database).await;
    walls.hold(&before).await;
}

#[tokio::test]
async fn without_either_wall_the_same_walk_finds_the_other_practice() {
    let mut walls = Walls::new().await;
    row_level_security_off(&walls.world.database).await;
    predicate_dropped(&walls.world.database).await;
    let read = walls.read().await;
    let found = walls.found(&read, &HEATH.all()[1..]); // without the practice's own name, which is on every page
    let dog = walls.home.practice.things["dog"].to_string();
    let (by_id, lists): (Vec<_>, Vec<_>) = found.iter().copied().partition(|(_, path)| path.contains(&dog));
    println!("found on {} of {} pages", found.len(), read.len());
    assert!(by_id.len() > 10, "pages of a dog that is somebody else's: {by_id:?}");
    for list in [EVERYONE_S, "/households", "/library", "/practice", "/practice/audit"] {
        assert!(lists.iter().any(|(_, path)| path == list), "{list} is not among {lists:?}");
    }
}
