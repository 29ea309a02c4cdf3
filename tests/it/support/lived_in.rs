//! A practice with everything in it, for walks: whatever a route can name is there.

use uuid::Uuid;

use super::people::PASSWORD;
use super::{Browser, Practice, World};

/// The day on which its dog was weighed.
pub const WEIGHED_ON: &str = "2026-03-12";

/// What its people, dogs and notes are called; nothing of it is said anywhere else.
#[derive(Debug, Clone, Copy)]
pub struct Names {
    /// The practice.
    pub practice: &'static str,
    /// A trainer of the team.
    pub trainer: &'static str,
    /// The household whose things are walked, its dog, its owner, and an owner who has not come yet.
    pub household: [&'static str; 4],
    /// Another household, its dog and its owner.
    pub other: [&'static str; 3],
    /// What the owner wrote of an encounter.
    pub note: &'static str,
    /// What the owner wrote to the trainer.
    pub message: &'static str,
    /// Whom the owner gave a link.
    pub helper: &'static str,
    /// For whom a report is.
    pub surgery: &'static str,
    /// A place, a trigger and a reinforcer.
    pub facts: [&'static str; 3],
}

/// One practice.
pub const HEATH: Names = Names {
    practice: "Heath and Hollow",
    trainer: "Tamsin Rook",
    household: ["Okoro", "Moss", "Ada Okoro", "Uche Okoro"],
    other: ["Lund", "Wren", "Bo Lund"],
    note: "A van, close.",
    message: "Is a chew in the car enough?",
    helper: "Sam Pell",
    surgery: "Beckside surgery",
    facts: ["The long meadow", "Brown vans", "Poached chicken"],
};

/// Another one.
pub const FELL: Names = Names {
    practice: "Fell and Fern",
    trainer: "Piers Quill",
    household: ["Castell", "Tansy", "Cy Castell", "Mina Castell"],
    other: ["Varga", "Bramble", "Ilse Varga"],
    note: "A bicycle, far.",
    message: "May she sleep upstairs?",
    helper: "Olu Dray",
    surgery: "The surgery at Fernbank",
    facts: ["The quarry path", "Red bicycles", "Dried sprats"],
};

impl Names {
    /// Every one of them.
    pub fn all(&self) -> Vec<&'static str> {
        let few = [self.practice, self.trainer, self.note, self.message, self.helper, self.surgery];
        few.into_iter().chain(self.household).chain(self.other).chain(self.facts).collect()
    }
}

/// The practice and its people, signed in.
pub struct LivedIn {
    /// The practice, with its lead.
    pub practice: Practice,
    /// A trainer of its team, who signs in by address and [`PASSWORD`].
    pub trainer: Browser,
    /// The owner whose dog is in [`Practice::things`], who signs in by address and [`PASSWORD`] as well.
    pub owner: Browser,
    /// An owner of another household.
    pub other_owner: Browser,
}

impl LivedIn {
    /// Sets it up and lives in it.
    pub async fn new(world: &World, names: &Names) -> Self {
        let mut practice = world.practice(names.practice).await;
        let other = practice.household(names.other[0]).await;
        practice.dog(other, names.other[1]).await;
        let other_owner = practice.owner(world, other, names.other[2]).await;
        let trainer = practice.trainer(world, names.trainer).await;
        let household = practice.household(names.household[0]).await;
        let dog = practice.dog(household, names.household[1]).await;
        let mut owner = practice.owner(world, household, names.household[2]).await;
        practice.owner_to_come(household, names.household[3]).await;
        practice.publish_plan(dog, &["Moving search"]).await;
        practice.template(dog).await;
        let [place, trigger, reinforcer] = names.facts;
        practice.place(dog, place).await;
        let page = practice.lead.get(&format!("/dogs/{dog}/triggers/new")).await;
        practice.lead.submit(&page, "main form", &[("what", trigger)]).await.expect(303);
        let page = practice.lead.get(&format!("/dogs/{dog}/reinforcers/new")).await;
        let filled = [("what", reinforcer), ("rank", "4")];
        practice.lead.submit(&page, "main form", &filled).await.expect(303);
        let weighed = [("on", WEIGHED_ON), ("kg", "18.5")];
        practice.lead.post(&format!("/dogs/{dog}/weights"), &weighed).await.expect(303);
        practice.lead.post(&format!("/dogs/{dog}/intake/ask"), &[]).await.expect(303);
        Self::practise(&mut owner, dog, names).await;
        practice.life_event(&mut owner, dog).await;
        practice.look_up_things(world, dog).await;
        practice.photo(&mut owner, dog).await;
        practice.lesson(dog, &[("place", place)]).await;
        practice.package(dog, &[("bought", "6"), ("package_note", place)]).await;
        practice.helper(&mut owner, dog, names.helper).await;
        let report = practice.draft_report(dog, &[("kind", "progress")]).await;
        practice.issue_report(&report).await;
        practice.share_report(&report, names.surgery).await;
        let rows = format!("household,dog\n{} again,{} again\n", names.household[0], names.household[1]);
        practice.checked_file(&rows).await;
        let mut lived_in = Self { practice, trainer, owner, other_owner };
        lived_in.look_up_people(world, names).await;
        lived_in
    }

    /// What the owner does: logs, meets something, writes, takes a password.
    async fn practise(owner: &mut Browser, dog: Uuid, names: &Names) {
        crate::journey::log_on_the_collar(owner, dog).await;
        let page = owner.get(&format!("/dogs/{dog}/encounters/new")).await;
        let form = format!("main form[action='/dogs/{dog}/encounters']");
        owner.submit(&page, &form, &[("kind", "reaction"), ("note", names.note)]).await.expect(303);
        let page = owner.get("/messages").await;
        owner.submit(&page, "main form:has(textarea)", &[("body", names.message)]).await.expect(303);
        let page = owner.get("/account/password").await;
        let email = address(names.household[2]);
        let filled = [("email", email.as_str()), ("password", PASSWORD)];
        owner.submit(&page, "main form", &filled).await.expect(303);
    }

    async fn look_up_people(&mut self, world: &World, names: &Names) {
        let mut everything = world.database.as_superuser().await;
        let membership = "select id from membership where name = $1";
        for (thing, query, name) in [
            ("owner", membership, names.household[2]),
            ("person", membership, names.household[3]),
            ("member", membership, names.trainer),
            ("message", "select id from message where body = $1", names.message),
            ("place", "select id from place where name = $1", names.facts[0]),
            ("trigger", "select id from trigger where what = $1", names.facts[1]),
            ("reinforcer", "select id from reinforcer where what = $1", names.facts[2]),
            (
                "sign_in",
                "select s.id from sign_in s join membership m on m.id = s.membership_id where m.name = $1",
                names.household[2],
            ),
        ] {
            let id: Uuid =
                sqlx::query_scalar(query).bind(name).fetch_one(&mut everything).await.expect(thing);
            self.practice.things.insert(thing, id);
        }
    }
}

/// The address that somebody of a lived-in practice signs in with.
pub fn address(name: &str) -> String {
    format!("{}@example.org", name.to_lowercase().replace(' ', "."))
}
