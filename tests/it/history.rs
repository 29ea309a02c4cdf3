//! Random histories of a dog: told now and late, changed, removed, answered, decided and published under another class.
//! After every act what is kept is what another way of working it out says ([`oracle`]), and what building anew gives.

use time::{Duration, OffsetDateTime};
use uuid::Uuid;

use crate::incidents::tell;
use crate::rebuild::is_built_anew;
use crate::revisions::{change, remove};
use crate::support::{Browser, Practice, World, oracle, settings};

/// What is practised: counted calmly, and on a long line that winds a dog up.
const EXERCISES: [&str; 2] = ["Nose to hand", "Moving search"];

/// Numbers that look random and are the same in every run (SplitMix64, Steele, Lea & Flood 2014, OOPSLA).
struct Chance(u64);

impl Chance {
    fn below(&mut self, n: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ (mixed >> 31)) % n
    }

    fn one_in(&mut self, n: u64) -> bool {
        self.below(n) == 0
    }

    fn of<T: Clone>(&mut self, all: &[T]) -> Option<T> {
        if all.is_empty() { None } else { Some(all[self.below(all.len() as u64) as usize].clone()) }
    }
}

type Fields = Vec<(&'static str, String)>;

/// One dog's history.
struct History {
    world: World,
    practice: Practice,
    owner: Browser,
    dog: Uuid,
    chance: Chance,
}

impl History {
    async fn begin(seed: u64) -> Self {
        let world = World::new().await;
        let mut practice = world.practice("Heath and Hollow").await;
        let household = practice.household("Okoro").await;
        let dog = practice.dog_born(household, "Moss", "2025-10-01").await;
        let owner = practice.owner(&world, household, "Ada Okoro").await;
        practice.publish_plan(dog, &EXERCISES).await;
        // months of working days pass, and signing in is held to so many tries a minute by the clock on the wall
        sqlx::raw_sql("update sign_in set expires_at = '2100-01-01'")
            .execute(&mut world.database.as_superuser().await)
            .await
            .expect("keeps people signed in");
        Self { world, practice, owner, dog, chance: Chance(seed) }
    }

    async fn found<T>(&self, query: &'static str) -> Vec<T>
    where
        T: Send + Unpin + for<'r> sqlx::Decode<'r, sqlx::Postgres> + sqlx::Type<sqlx::Postgres>,
    {
        let mut all = self.world.database.as_superuser().await;
        sqlx::query_scalar(query).fetch_all(&mut all).await.expect(query)
    }

    /// A day and a time of the last three weeks.
    fn some_day(&mut self) -> Fields {
        let back = Duration::minutes(1 + self.chance.below(21 * 24 * 60) as i64);
        let then = self.world.now() - back;
        vec![("on", then.date().to_string()), ("at", format!("{:02}:{:02}", then.hour(), then.minute()))]
    }

    /// What is stated of a sitting.
    fn sitting(&mut self) -> Fields {
        let chance = &mut self.chance;
        let attempts = 4 + chance.below(9);
        let left = if chance.one_in(4) { chance.below(attempts + 1) } else { 0 };
        let mut fields = vec![
            ("attempts", attempts.to_string()),
            ("left", left.to_string()),
            ("clip", "as_planned".to_owned()),
        ];
        if chance.one_in(8) {
            fields = vec![("clip", "collar".to_owned())];
        }
        let tick = |is_set: bool| if is_set { "yes" } else { "" }.to_owned();
        fields.push(("bite", tick(chance.one_in(8))));
        fields.push(("bolted", tick(chance.one_in(9))));
        if chance.one_in(4) {
            fields.extend([("looked", "frozen".to_owned()), ("took_food", "refused".to_owned())]);
        }
        if chance.one_in(2) {
            fields.extend([("finish", "straight_home".to_owned()), ("cool_down_minutes", "0".to_owned())]);
        }
        if chance.one_in(5) {
            fields.push(("felt", "hot".to_owned()));
        }
        let ends = ["", "3", "4", "5"][chance.below(4) as usize];
        fields.push(("arousal_end", ends.to_owned()));
        fields
    }

    fn encounter(&mut self) -> Fields {
        let kind = ["bite", "growl_or_snap", "reaction", "bolted"][self.chance.below(4) as usize];
        let towards = ["dog", "stranger", "child"]
            [self.chance.below(if kind == "bite" || kind == "growl_or_snap" { 3 } else { 2 }) as usize];
        let skin = if kind == "bite" && self.chance.one_in(2) { "yes" } else { "no" };
        let line = ["none", "long_line"][self.chance.below(2) as usize];
        let said = [("kind", kind), ("towards", towards), ("skin_broken", skin), ("line", line)];
        said.into_iter().map(|(name, value)| (name, value.to_owned())).collect()
    }

    /// Whoever may change something, and does: the owner what they sent within a fortnight, the lead everything.
    fn reviser(&mut self, (told, by): (OffsetDateTime, String)) -> &mut Browser {
        let is_theirs = by == "Ada Okoro" && self.world.now() - told <= Duration::days(14);
        if self.chance.one_in(3) || !is_theirs {
            return &mut self.practice.lead;
        }
        &mut self.owner
    }

    /// Something that was told and stands, with when and by whom it was told.
    async fn something(&mut self, is_log: bool) -> Option<(String, (OffsetDateTime, String))> {
        let query = if is_log {
            "select id from practice_log where deleted_at is null order by received_at"
        } else {
            "select id from encounter where deleted_at is null order by received_at"
        };
        let all: Vec<Uuid> = self.found(query).await;
        let id = self.chance.of(&all)?;
        let told = "select t.received_at, m.name from
                      (select id, received_at, by_membership_id from practice_log
                       union all select id, received_at, by_membership_id from encounter) t
                    join membership m on m.id = t.by_membership_id where t.id = $1";
        let mut raw = self.world.database.as_superuser().await;
        let told = sqlx::query_as(told).bind(id).fetch_one(&mut raw).await.expect("it was told");
        let noun = if is_log { "log" } else { "encounters" };
        Some((format!("/dogs/{}/{noun}/{id}", self.dog), told))
    }

    async fn act(&mut self) -> String {
        self.world.pass(Duration::minutes(3 + self.chance.below(18 * 60) as i64));
        match self.chance.below(20) {
            0..=6 => self.log().await,
            7..=9 => self.change_log().await,
            10 => self.take_away(true).await,
            11..=12 => self.meet().await,
            13..=14 => self.change_encounter().await,
            15 => self.take_away(false).await,
            16 => self.answer().await,
            17..=18 => self.decide().await,
            _ => self.publish().await,
        }
    }

    async fn log(&mut self) -> String {
        let items: Vec<Uuid> =
            self.found("select id from plan_item where step_id is not null order by id").await;
        let item = self.chance.of(&items).expect("a plan");
        let mut fields = self.sitting();
        if self.chance.one_in(3) {
            fields.extend(self.some_day());
        }
        let id = Uuid::from_u128(
            (u128::from(self.chance.below(u64::MAX)) << 64) | u128::from(self.chance.below(u64::MAX)),
        );
        fields.extend([("id", id.to_string()), ("item", item.to_string())]);
        let is_seen = self.chance.one_in(4);
        let path = format!("/dogs/{}/log", self.dog);
        let sent = borrowed(&fields);
        if is_seen {
            self.practice.lead.post(&path, &sent).await.expect(303);
        } else {
            self.owner.post(&path, &sent).await.expect(303);
        }
        format!("logged {fields:?}")
    }

    async fn change_log(&mut self) -> String {
        let Some((path, told)) = self.something(true).await else { return "nothing to change".to_owned() };
        let mut fields = self.sitting();
        fields.retain(|(name, _)| *name != "clip");
        if !fields.iter().any(|(name, _)| *name == "left") {
            fields.extend([("attempts", String::new()), ("left", String::new())]);
        }
        // what was counted another way is counted by what is left now
        fields.extend([
            ("met", String::new()),
            ("rewarded", String::new()),
            ("reason", "Looked again.".to_owned()),
        ]);
        if self.chance.one_in(3) {
            fields.extend(self.some_day());
        }
        let answer = change(self.reviser(told), &path, &borrowed(&fields)).await;
        answer.redirects_to(&path);
        format!("changed {path}: {fields:?}")
    }

    async fn change_encounter(&mut self) -> String {
        let Some((path, told)) = self.something(false).await else { return "nothing to change".to_owned() };
        let mut fields = self.encounter();
        fields.push(("reason", "Looked again.".to_owned()));
        if self.chance.one_in(3) {
            fields.extend(self.some_day());
        }
        let answer = change(self.reviser(told), &path, &borrowed(&fields)).await;
        answer.redirects_to(&path);
        format!("changed {path}: {fields:?}")
    }

    async fn take_away(&mut self, is_log: bool) -> String {
        let Some((path, told)) = self.something(is_log).await else { return "nothing to remove".to_owned() };
        remove(self.reviser(told), &path, "Told twice.").await.redirects_to(&path);
        format!("removed {path}")
    }

    async fn meet(&mut self) -> String {
        let mut fields = self.encounter();
        if self.chance.one_in(3) {
            fields.extend(self.some_day());
        }
        tell(&mut self.owner, self.dog, &borrowed(&fields)).await;
        format!("met {fields:?}")
    }

    async fn answer(&mut self) -> String {
        let open: Vec<Uuid> =
            self.found("select id from welfare_flag where state = 'open' order by id").await;
        let Some(flag) = self.chance.of(&open) else { return "nothing to answer".to_owned() };
        let page = self.practice.lead.get(&format!("/flags/{flag}")).await;
        self.practice.lead.submit(&page, "main form", &[("answer", "Rang her.")]).await.expect(303);
        format!("answered {flag}")
    }

    async fn decide(&mut self) -> String {
        let items = "select i.id from plan_item i join dog_summary s on s.plan_version_id = i.plan_version_id
                     where i.step_id is not null order by i.id";
        let items: Vec<Uuid> = self.found(items).await;
        let item = self.chance.of(&items).expect("a plan");
        let page = self.practice.lead.get(&format!("/dogs/{}/decide/{item}", self.dog)).await;
        let decided = [("choice", "repeat"), ("reason", "counts")];
        self.practice.lead.submit(&page, "main form", &decided).await.expect(303);
        format!("decided about {item}")
    }

    async fn publish(&mut self) -> String {
        let exercise = EXERCISES[self.chance.below(2) as usize];
        let flip = "update exercise set class = case class when 'safety' then 'ordinary' else 'safety' end where name = $1";
        let mut raw = self.world.database.as_superuser().await;
        sqlx::query(flip).bind(exercise).execute(&mut raw).await.expect("changes the class");
        self.practice.publish_plan(self.dog, &[]).await;
        format!("published with {exercise} in another class")
    }
}

fn borrowed(fields: &Fields) -> Vec<(&str, &str)> {
    fields.iter().map(|(name, value)| (*name, value.as_str())).collect()
}

/// Lives through a history; where it goes wrong, the last thing printed was done last.
async fn is_kept_throughout(seed: u64) {
    let acts = if settings::is_long() { 150 } else { 30 };
    let mut history = History::begin(seed).await;
    for turn in 0..acts {
        let done = history.act().await;
        println!("{turn}: {done}");
        oracle::is_kept_as_told(&history.world, history.dog).await;
        if turn % 5 == 4 || settings::is_long() {
            is_built_anew(&history.world, &mut history.practice).await;
        }
    }
    let what_came = "select count(distinct state) from welfare_flag";
    println!("{} states of flags", history.world.database.count(what_came).await);
}

macro_rules! histories {
    ($($name:ident: $seed:literal;)*) => {$(
        #[tokio::test]
        async fn $name() {
            is_kept_throughout($seed).await;
        }
    )*};
}

histories! {
    whatever_is_done_what_is_kept_is_what_was_told_1: 1;
    whatever_is_done_what_is_kept_is_what_was_told_2: 20_260_312;
    whatever_is_done_what_is_kept_is_what_was_told_3: 777;
}
