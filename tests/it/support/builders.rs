//! What a practice has in it, made through the pages that real people use.

use axum::http::Method;
use uuid::Uuid;

use super::people::PASSWORD;
use super::{Answer, Browser, Practice, World};

/// The id that a path carries after `/{noun}/`.
#[track_caller]
pub fn id_in(path: &str, noun: &str) -> Uuid {
    let (_, rest) = path.split_once(&format!("/{noun}/")).unwrap_or_else(|| panic!("{path} names no {noun}"));
    let id = rest.split(['/', '?', '#']).next().unwrap_or_default();
    id.parse().unwrap_or_else(|_| panic!("{path} has no id after {noun}"))
}

/// Where an answer sends the browser.
#[track_caller]
pub fn sent_to(answer: &Answer) -> String {
    answer.location().unwrap_or_else(|| panic!("{answer:?} sends nobody anywhere")).to_owned()
}

/// The path of the link that a page gives out.
#[track_caller]
pub fn link_on(made: &Answer) -> String {
    let link = made.text(".link-out");
    link.split_once("/l/").map(|(_, token)| format!("/l/{token}")).expect("a link")
}

/// A photo of so many pixels, as a PNG.
pub fn photo_of(width: u32, height: u32) -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    image::DynamicImage::new_rgb8(width, height)
        .write_to(&mut bytes, image::ImageFormat::Png)
        .expect("encodes");
    bytes.into_inner()
}

impl Practice {
    /// The lead signs in again where a working day has passed.
    pub async fn lead_signs_in(&mut self) {
        let page = self.lead.get("/sign-in").await;
        if page.location().is_some() {
            return;
        }
        let filled = [("email", self.lead_email.as_str()), ("password", PASSWORD)];
        self.lead.submit(&page, "main form", &filled).await.redirects_to("/caseload");
    }

    /// A household.
    pub async fn household(&mut self, name: &str) -> Uuid {
        let page = self.lead.get("/households/new").await;
        let made = self.lead.submit(&page, "main form", &[("name", name)]).await;
        let id = id_in(&sent_to(&made), "households");
        self.things.insert("household", id);
        id
    }

    /// A dog of a household.
    pub async fn dog(&mut self, household: Uuid, name: &str) -> Uuid {
        self.dog_born(household, name, "").await
    }

    /// A dog of a household, born on this day.
    pub async fn dog_born(&mut self, household: Uuid, name: &str, born: &str) -> Uuid {
        let page = self.lead.get(&format!("/households/{household}/dogs/new")).await;
        let filled = [("name", name), ("breed", "lurcher"), ("born", born)];
        let made = self.lead.submit(&page, "main form", &filled).await;
        let id = id_in(&sent_to(&made), "dogs");
        self.things.insert("dog", id);
        id
    }

    /// A place where a dog practises: its path.
    pub async fn place(&mut self, dog: Uuid, name: &str) -> String {
        let page = self.lead.get(&format!("/dogs/{dog}/places/new")).await;
        let made = self.lead.submit(&page, "main form", &[("name", name), ("distraction", "2")]).await;
        let profile = self.lead.follow(made).await;
        let mut links = profile.attributes("main a", "href").into_iter();
        let path = links.find(|href| href.contains("/places/") && !href.ends_with("/new"));
        let path = path.expect("the profile leads to the place");
        self.things.insert("place", id_in(&path, "places"));
        path
    }

    /// A file that was checked and waits to be imported: the path of its preview.
    pub async fn checked_file(&mut self, rows: &str) -> String {
        let page = self.lead.get("/practice/import").await;
        let checked = self.lead.submit(&page, "main form", &[("rows", rows)]).await;
        let path = sent_to(&checked);
        self.things.insert("batch", id_in(&path, "import"));
        path
    }

    /// A photo of the sitting that was looked up, kept by an owner.
    pub async fn photo(&mut self, owner: &mut Browser, dog: Uuid) {
        let (id, log) = (Uuid::new_v4(), self.things["log"]);
        let path = format!("/dogs/{dog}/photos?id={id}&log={log}");
        let body = photo_of(40, 30);
        owner.send_body(Method::POST, &path, Some("image/png"), body).await.expect(200);
        self.things.insert("photo", id);
    }

    /// Something that went on in a dog's life, told by an owner.
    pub async fn life_event(&mut self, owner: &mut Browser, dog: Uuid) {
        let path = format!("/dogs/{dog}/life");
        let page = owner.get(&path).await;
        let told = [("kind", "move"), ("first_day", "2026-03-01"), ("last_day", "2026-03-02")];
        owner.submit(&page, &format!("main form[action='{path}']"), &told).await.expect(303);
        let page = owner.get(&path).await;
        let one = page.attributes("main .links a", "href")[0].clone();
        self.things.insert("event", id_in(&one, "life"));
    }

    /// A helper's link, made by an owner: its path.
    pub async fn helper(&mut self, owner: &mut Browser, dog: Uuid, name: &str) -> String {
        let path = format!("/dogs/{dog}/helpers");
        let page = owner.get(&path).await;
        let made = owner.submit(&page, "main form.form", &[("name", name)]).await;
        let link = made.expect(200).text(".link-out");
        let (_, token) = link.split_once("/h/").expect("a link");
        let token = token.trim().to_owned();
        let page = owner.get(&path).await;
        let end = page.attributes("main form[action$='/end']", "action")[0].clone();
        self.things.insert("helper", id_in(&end, "helpers"));
        format!("/h/{token}")
    }

    /// A draft of a report about a dog, with these fields: its path.
    pub async fn draft_report(&mut self, dog: Uuid, fields: &[(&str, &str)]) -> String {
        let page = self.lead.get(&format!("/dogs/{dog}/reports")).await;
        let begun = self.lead.submit(&page, "main form.form", fields).await;
        let report = id_in(&sent_to(&begun), "reports");
        format!("/dogs/{dog}/reports/{report}")
    }

    /// Issues a draft as it stands.
    pub async fn issue_report(&mut self, report: &str) {
        let page = self.lead.get(report).await;
        let issued = self.lead.submit(&page, "main form[action$='/issue']", &[]).await;
        issued.redirects_to(&format!("{report}?notice=report-issued"));
        self.things.insert("report", id_in(report, "reports"));
    }

    /// A link to an issued report: its path.
    pub async fn share_report(&mut self, report: &str, for_whom: &str) -> String {
        let page = self.lead.get(report).await;
        let made = self.lead.submit(&page, "main form[action$='/share']", &[("for_whom", for_whom)]).await;
        let link = made.expect(200).text(".link-out");
        let (_, token) = link.split_once("/r/").expect("a link");
        let token = token.trim().to_owned();
        let page = self.lead.get(report).await;
        let revoke = page.attributes("main form[action$='/revoke']", "action")[0].clone();
        self.things.insert("report_link", id_in(&revoke, "links"));
        format!("/r/{token}")
    }

    /// An owner of a household who has not come yet: the path of their link.
    pub async fn owner_to_come(&mut self, household: Uuid, name: &str) -> String {
        let page = self.lead.get(&format!("/households/{household}/owners/new")).await;
        let made = self.lead.submit(&page, "main form", &[("name", name)]).await;
        link_on(made.expect(200))
    }

    /// An owner of a household, signed in on their phone by their link.
    pub async fn owner(&mut self, world: &World, household: Uuid, name: &str) -> Browser {
        let path = self.owner_to_come(household, name).await;
        let mut phone = world.visitor();
        let page = phone.get(&path).await;
        phone.submit(&page, "main form", &[]).await.expect(303);
        phone
    }

    /// A trainer who has been invited and has not come yet: their address and the path of their invitation.
    pub async fn trainer_to_come(&mut self, name: &str) -> (String, String) {
        let page = self.lead.get("/practice/team/invite").await;
        let email = format!("{}@example.org", name.to_lowercase().replace(' ', "."));
        let made = self.lead.submit(&page, "main form", &[("name", name), ("email", &email)]).await;
        (email, link_on(made.expect(200)))
    }

    /// Another trainer of the practice, signed in.
    pub async fn trainer(&mut self, world: &World, name: &str) -> Browser {
        let (email, path) = self.trainer_to_come(name).await;
        let mut trainer = world.visitor();
        let page = trainer.get(&path).await;
        let filled = [("email", email.as_str()), ("password", PASSWORD)];
        trainer.submit(&page, "main form", &filled).await.expect(303);
        trainer
    }

    /// Adds exercises of the library to a dog's draft, by name, and publishes it.
    pub async fn publish_plan(&mut self, dog: Uuid, exercises: &[&str]) {
        for exercise in exercises {
            let page = self.lead.get(&format!("/dogs/{dog}/plan/add")).await;
            let button = page
                .page()
                .select(&super::answer::selector("main button[name=exercise]"))
                .find(|b| super::answer::text(*b) == format!("Add {exercise}"))
                .and_then(|b| b.attr("value").map(str::to_owned))
                .unwrap_or_else(|| panic!("no exercise {exercise} in the library"));
            let added = self.lead.post(&format!("/dogs/{dog}/plan/add"), &[("exercise", &button)]).await;
            self.things.insert("line", id_in(&sent_to(&added), "items"));
        }
        let page = self.lead.get(&format!("/dogs/{dog}/plan/publish")).await;
        let published = self.lead.submit(&page, "main form", &[("note", "Small and often.")]).await;
        let is_first = page.text("main form").contains("settling in");
        let notice = if is_first { "plan-published-active" } else { "plan-published" };
        published.redirects_to(&format!("/dogs/{dog}/plan?notice={notice}"));
    }

    /// A booked lesson of a dog, as the form is filled in but for these fields: its path.
    pub async fn lesson(&mut self, dog: Uuid, fields: &[(&str, &str)]) -> String {
        let page = self.lead.get(&format!("/dogs/{dog}/lessons")).await;
        let form = "main form[action$='/lessons/book']";
        let id = page.attribute(&format!("{form} [name=id]"), "value");
        self.lead
            .submit(&page, form, fields)
            .await
            .redirects_to(&format!("/dogs/{dog}/lessons?notice=lesson-booked"));
        self.things.insert("appointment", id.parse().expect("an id"));
        format!("/dogs/{dog}/lessons/{id}")
    }

    /// A package of lessons of a dog: the path where it is taken back.
    pub async fn package(&mut self, dog: Uuid, fields: &[(&str, &str)]) -> String {
        let page = self.lead.get(&format!("/dogs/{dog}/lessons")).await;
        let form = "main form[action$='/packages']";
        let id = page.attribute(&format!("{form} [name=id]"), "value");
        self.lead
            .submit(&page, form, fields)
            .await
            .redirects_to(&format!("/dogs/{dog}/lessons?notice=package-added"));
        self.things.insert("package", id.parse().expect("an id"));
        format!("/dogs/{dog}/packages/{id}/take-back")
    }

    /// Keeps a dog's draft to start other plans from.
    pub async fn template(&mut self, dog: Uuid) {
        let page = self.lead.get(&format!("/dogs/{dog}/plan/template")).await;
        self.lead.submit(&page, "main form", &[("name", "Kept for others")]).await.expect(303);
    }

    /// Finds the ids of what was made for a dog, for the walks.
    pub async fn look_up_things(&mut self, world: &World, dog: Uuid) {
        let queries: [(&'static str, &'static str); 7] = [
            ("version", "select id from plan_version where dog_id = $1"),
            ("item", "select id from plan_item where dog_id = $1 and step_id is not null"),
            ("log", "select id from practice_log where dog_id = $1"),
            ("encounter", "select id from encounter where dog_id = $1"),
            (
                "template",
                "select t.id from plan_template t join dog d on d.practice_id = t.practice_id where d.id = $1",
            ),
            ("flag", "select id from welfare_flag where dog_id = $1"),
            ("exercise", "select exercise_id from plan_item where dog_id = $1"),
        ];
        let mut everything = world.database.as_superuser().await;
        for (name, query) in queries {
            let found = sqlx::query_scalar(query).bind(dog).fetch_optional(&mut everything).await;
            let id: Uuid = found.expect(name).unwrap_or_else(|| panic!("no {name} was made"));
            self.things.insert(name, id);
        }
    }
}
