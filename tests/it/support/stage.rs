//! A practice in which every page has something on it, begun from again whenever a test has changed it.

use std::collections::BTreeMap;

use sqlx::{AssertSqlSafe, PgConnection};
use uuid::Uuid;

use super::people::PASSWORD;
use super::world::Frozen;
use super::{Browser, Practice, World, database};

/// Who is on stage, by the names that tests call them.
pub type People = BTreeMap<&'static str, Browser>;

/// The practice, as it was before a test touched it.
pub struct Setting {
    frozen: Frozen,
    people: People,
    /// Its things.
    pub things: BTreeMap<&'static str, Uuid>,
    /// Another practice of the same service.
    pub other_practice: Uuid,
    /// Pages that only whoever holds a link can open, with whom they are opened by.
    pub links: Vec<(&'static str, String)>,
}

/// The practice as a test has it before itself.
pub struct Stage {
    /// The people, signed in.
    pub people: People,
    /// Whether something was changed since it was set.
    pub is_touched: bool,
    watch: PgConnection,
    state: String,
    _world: World,
}

impl Setting {
    /// Builds it, through the pages that real people use.
    pub async fn build() -> Self {
        let world = World::new().await;
        let other = world.practice("Moss and Mire").await;
        let (mut practice, mut ada, bo, mut trainer, open) = beginning(&world).await;
        furnish_dog(&mut practice, &mut ada).await;
        furnish_practice(&mut practice, &world).await;
        #[cfg(feature = "passkeys")]
        drop(crate::passkeys::add(&mut trainer).await);
        // phrases and views are each trainer's own, and the pages of both are walked
        for person in [&mut practice.lead, &mut trainer] {
            let page = person.get("/review/phrases").await;
            person.submit(&page, "main form.form", &[("body", "Lovely. The same again.")]).await.expect(303);
            let page = person.get("/caseload/views?show=everyone").await;
            person.submit(&page, "main form[action='/caseload/views']", &[("name", "All")]).await.expect(303);
        }
        let ends = sign_in_elsewhere(&world, &mut trainer).await;
        let mut links = links(&mut practice, &world).await;
        links.extend(open.map(|path| ("a visitor", path)));
        let visitor = world.visitor();
        let people = [
            ("the lead", practice.lead),
            ("the trainer", trainer),
            ("the owner", ada),
            ("the other owner", bo),
            ("the trainer elsewhere", ends),
            ("a visitor", visitor),
        ];
        let (things, other_practice) = (practice.things, other.id.0);
        Self { frozen: world.frozen().await, people: people.into(), things, other_practice, links }
    }

    /// Sets the stage anew.
    pub async fn set(&self) -> Stage {
        let world = self.frozen.thawed().await;
        let people = self.people.iter().map(|(name, browser)| {
            let mut browser = world.takes_in(browser);
            browser.expects_failures();
            (*name, browser)
        });
        let people = people.collect();
        let mut watch = world.database.as_superuser().await;
        let state = counting(&mut watch).await;
        Stage { people, is_touched: false, watch, state, _world: world }
    }
}

/// A practice with a plan, a sitting and an encounter in it, the owner whose they are, an owner of another household, and
/// a trainer.
async fn beginning(world: &World) -> (Practice, Browser, Browser, Browser, [String; 2]) {
    let mut practice = world.practice("Heath and Hollow").await;
    let other = practice.household("Lund").await;
    let wren = practice.dog(other, "Wren").await;
    let mut bo = practice.owner(world, other, "Bo Lund").await;
    practice.publish_plan(wren, &["A look at you"]).await;
    let card = practice.helper(&mut bo, wren, "Noor Abadi").await;
    let trainer = practice.trainer(world, "Tamsin Rook").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Moving search"]).await;
    practice.template(moss).await;
    crate::journey::log_on_the_collar(&mut ada, moss).await;
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let form = format!("main form[action='/dogs/{moss}/encounters']");
    ada.submit(&page, &form, &[("kind", "reaction"), ("note", "A van, close.")]).await.expect(303);
    practice.publish_plan(moss, &["A look at you", "Long line on the harness, every field walk"]).await;
    practice.look_up_things(world, moss).await;
    practice.photo(&mut ada, moss).await;
    practice.life_event(&mut ada, moss).await;
    practice.helper(&mut ada, moss, "Sam Pell").await;
    practice.draft_report(moss, &[("kind", "progress"), ("addressed_to", "Whoever reads it")]).await;
    let report = practice.draft_report(moss, &[("kind", "hand_over"), ("with_notes", "yes")]).await;
    practice.issue_report(&report).await;
    let reading = practice.share_report(&report, "Beckside surgery").await;
    (practice, ada, bo, trainer, [card, reading])
}

impl Stage {
    /// How many rows every table has, and when it was last written: equal where nothing was written in between.
    pub async fn state(&mut self) -> Vec<(i64, i64)> {
        sqlx::query_as(AssertSqlSafe(self.state.clone()))
            .fetch_all(&mut self.watch)
            .await
            .expect("counts rows")
    }

    /// Does something to the database that no page does.
    pub async fn say(&mut self, statement: &str) {
        sqlx::raw_sql(AssertSqlSafe(statement.to_owned())).execute(&mut self.watch).await.expect(statement);
    }

    /// Puts a text into a column of every row; gives how many there are.
    pub async fn mark(&mut self, table: &str, column: &str, text: &str) -> u64 {
        let is_json: bool = sqlx::query_scalar(
            "select atttypid = 'jsonb'::regtype from pg_attribute where attrelid = $1::regclass and attname = $2",
        )
        .bind(table)
        .bind(column)
        .fetch_one(&mut self.watch)
        .await
        .expect("reads the schema");
        let cast = if is_json { "::jsonb" } else { "" };
        // names are unique within a practice: one row is enough
        let statement = format!(
            "update \"{table}\" set \"{column}\" = $1{cast} where ctid = any(array(select ctid from \"{table}\" where
               not exists (select from pg_index i join pg_attribute a on a.attrelid = i.indrelid and a.attnum = any(i.indkey)
                 where i.indrelid = '\"{table}\"'::regclass and i.indisunique and a.attname = '{column}')
             union all (select ctid from \"{table}\" limit 1)))"
        );
        let done = sqlx::query(AssertSqlSafe(statement)).bind(text).execute(&mut self.watch).await;
        done.expect(column).rows_affected()
    }

    /// The columns that people's own words are kept in, as `table.column`: texts that no list of the schema limits.
    pub async fn columns_of_words(&mut self) -> Vec<String> {
        sqlx::query_scalar(
            "select c.relname || '.' || a.attname from pg_attribute a join pg_class c on c.oid = a.attrelid
             where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and a.attnum > 0 and not a.attisdropped
               and a.atttypid in ('text'::regtype, 'text[]'::regtype, 'jsonb'::regtype)
               and not exists (select from pg_constraint k where k.conrelid = c.oid and k.contype = 'c' and a.attnum = any(k.conkey)
                 and pg_get_constraintdef(k.oid) ~ (a.attname || ' (= ANY|<@)'))
             order by 1",
        )
        .fetch_all(&mut self.watch)
        .await
        .expect("reads the schema")
    }

    /// Every row of every table as a text, without what is random.
    pub async fn everything(&mut self) -> Vec<String> {
        let mut rows = Vec::new();
        for table in database::tables(&mut self.watch).await {
            let query = format!(
                "select '{table} ' || (to_jsonb(t) - '{{token_hash,secret,fingerprint,credential_id}}'::text[])::text
                 from \"{table}\" t order by 1"
            );
            let found =
                sqlx::query_scalar::<_, String>(AssertSqlSafe(query)).fetch_all(&mut self.watch).await;
            rows.extend(found.expect("reads rows"));
        }
        rows
    }

    /// Somebody of the stage.
    pub fn who(&mut self, name: &str) -> &mut Browser {
        self.people.get_mut(name).unwrap_or_else(|| panic!("{name} is not on stage"))
    }
}

async fn counting(watch: &mut PgConnection) -> String {
    let tables = database::tables(watch).await.into_iter();
    let count = tables.map(|t| format!("select count(*), coalesce(max(xmin::text::bigint), 0) from \"{t}\""));
    count.collect::<Vec<_>>().join(" union all ")
}

/// What the pages of a dog have on them.
async fn furnish_dog(practice: &mut Practice, ada: &mut Browser) {
    let (moss, household) = (practice.things["dog"], practice.things["household"]);
    let green = practice.place(moss, "The green").await;
    practice.place(moss, "The lane").await;
    let lead = &mut practice.lead;
    let page = lead.get(&green).await;
    lead.submit(&page, &format!("form[action='{green}/off-lead']"), &[]).await.expect(303);
    let profile = lead.get(&format!("/dogs/{moss}/profile")).await;
    let places = profile.attributes("main a[href*='/places/']", "href");
    let lane = places.iter().find(|href| **href != green && !href.ends_with("/new")).expect("the lane");
    practice.things.insert("place", super::builders::id_in(lane, "places"));
    let thing =
        [("triggers", vec![("what", "Vans")]), ("reinforcers", vec![("what", "Liver"), ("rank", "4")])];
    for (noun, fields) in thing {
        let page = lead.get(&format!("/dogs/{moss}/{noun}/new")).await;
        lead.submit(&page, "main form", &fields).await.expect(303);
    }
    let page = lead.get(&format!("/dogs/{moss}/weights")).await;
    let form = format!("main form[action='/dogs/{moss}/weights']");
    lead.submit(&page, &form, &[("kg", "18.2"), ("on", "2026-03-01")]).await.expect(303);
    lead.post(&format!("/dogs/{moss}/intake/ask"), &[]).await.expect(303);
    practice.lesson(moss, &[("place", "The green")]).await;
    practice.package(moss, &[("bought", "6")]).await;
    let lead = &mut practice.lead;
    for button in [0, 1, 2] {
        let page = lead.get(&format!("/dogs/{moss}/plan/add")).await;
        let exercise = page.attributes("main button[name=exercise]", "value")[button].clone();
        lead.submit(&page, "main form[method=post]", &[("exercise", &exercise)]).await.expect(303);
    }
    let page = ada.get("/messages").await;
    ada.submit(&page, "main form[action='/messages']", &[("body", "He slept well.")]).await.expect(303);
    let page = ada.get(&format!("/household/{household}/invite")).await;
    ada.submit(&page, "main form", &[("name", "Cy Okoro")]).await.expect(200);
}

/// What the pages of a practice have on them.
async fn furnish_practice(practice: &mut Practice, world: &World) {
    practice.trainer(world, "Ines Quill").await;
    practice.checked_file("household,dog\nFenn,Teasel\n").await;
    let library = practice.lead.get("/library").await;
    let entries = library.attributes("main a[href^='/library/']", "href");
    let entry = entries.iter().rfind(|href| !href.ends_with("/new")).expect("the library has entries");
    let page = practice.lead.get(entry).await;
    practice.lead.submit(&page, "main form[action$='/archive']", &[]).await.expect(303);
    practice.things.insert("exercise", super::builders::id_in(entry, "library"));
}

/// The trainer signs in a second time, on another device.
async fn sign_in_elsewhere(world: &World, trainer: &mut Browser) -> Browser {
    trainer.get("/caseload").await.expect(200);
    let mut elsewhere = world.visitor();
    let page = elsewhere.get("/sign-in").await;
    let typed = [("email", "tamsin.rook@example.org"), ("password", PASSWORD)];
    elsewhere.submit(&page, "main form", &typed).await.expect(303);
    elsewhere
}

/// A set-up, a device, an invitation and a new password, and the device's once more where somebody is signed in.
async fn links(practice: &mut Practice, world: &World) -> Vec<(&'static str, String)> {
    let household = practice.things["household"];
    let mut links = vec![("a visitor", world.set_up_link().await)];
    let lead = &mut practice.lead;
    let page = lead.get(&format!("/households/{household}/owners/new")).await;
    let device = lead.submit(&page, "main form", &[("name", "Dee Okoro")]).await;
    let page = lead.get("/practice/team/invite").await;
    let typed = [("name", "Fen Marsh"), ("email", "fen@example.org")];
    let invitation = lead.submit(&page, "main form", &typed).await;
    let team = lead.get("/practice").await;
    let reset = team.attributes("main a[href$='/link']", "href")[0].clone();
    let page = lead.get(&reset).await;
    let reset = lead.submit(&page, "main form", &[]).await;
    for made in [device, invitation, reset] {
        let link = made.expect(200).text(".link-out");
        let (_, token) = link.split_once("/l/").expect("a link");
        links.push(("a visitor", format!("/l/{token}")));
        links.push(("the other owner", format!("/l/{token}")));
    }
    links
}
