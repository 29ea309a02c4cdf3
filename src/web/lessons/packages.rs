//! Packages of lessons: what is used and left, adding one, and taking one back.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;
use time::{Date, Duration};

use crate::actions::packages::{add_package, take_back_package};
use crate::app::App;
use crate::domain::packages::{Bought, Drawn, drawn};
use crate::ids::{DogId, LessonPackageId};
use crate::store::dog::{self, Dog};
use crate::store::lesson;
use crate::store::lesson_package::{self, LessonPackage, NewPackage};
use crate::store::reading::{Reading, Together};
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, dog_page, zones};

/// How far from today a package may begin.
const FURTHEST: Duration = Duration::days(3 * 366);

/// A package as a trainer reads it.
pub struct PackageView {
    /// The package.
    pub package: LessonPackage,
    /// Since when.
    pub from: String,
    /// "2 of 6 used"; empty for one that was taken back.
    pub used: String,
}

/// All packages of a dog.
pub struct Packages {
    /// "3 of 6 used, 3 left"; empty where nothing was bought.
    pub said: String,
    /// One by one, the oldest first.
    pub each: Vec<PackageView>,
}

/// The packages of a dog, counted against its lessons.
pub fn of_dog(dog: DogId, today: Date) -> Reading<Packages> {
    counted(dog).then(move |(packages, drawn)| {
        let said = drawn.in_words();
        let mut used = drawn.used.into_iter();
        let each = packages.into_iter().map(|package| PackageView {
            from: zones::day(package.from, today),
            used: match package.taken_back_at {
                None => format!("{} of {} used", used.next().unwrap_or(0), package.bought),
                Some(_) => String::new(),
            },
            package,
        });
        Ok(Packages { said, each: each.collect() })
    })
}

/// "3 of 6 used, 3 left"; empty where nothing was bought.
pub fn in_words(dog: DogId) -> Reading<String> {
    counted(dog).then(|(_, drawn)| Ok(drawn.in_words()))
}

fn counted(dog: DogId) -> Reading<(Vec<LessonPackage>, Drawn)> {
    (lesson_package::of_dog(dog), lesson::days(dog)).together().then(|(packages, days)| {
        let standing = packages.iter().filter(|package| package.taken_back_at.is_none());
        let bought: Vec<Bought> =
            standing.map(|package| (package.from, u16::try_from(package.bought).unwrap_or(0))).collect();
        let drawn = if bought.is_empty() { Drawn::default() } else { drawn(&bought, &days) };
        Ok((packages, drawn))
    })
}

/// A blank form.
pub fn blank(today: Date) -> Form {
    Form::blank().with("from", today.to_string())
}

#[derive(Template, WebTemplate)]
#[template(path = "lessons/package.html")]
struct PackagePage {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    id: LessonPackageId,
}
form_pages!(PackagePage);

/// Adds a package.
pub async fn add(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let id = form.id("id").unwrap_or_else(|| moment.id());
    let bought = form.whole("bought", "Lessons bought", 1, 50);
    if bought.is_none() {
        form.refuse("bought", "Enter how many lessons were bought, from 1 to 50.");
    }
    let from = form.date("from");
    if from.is_none() {
        form.refuse("from", "Enter the first day on which a lesson counts.");
    }
    if from.is_some_and(|from| (from - today).abs() > FURTHEST) {
        form.refuse("from", "First day: enter one within three years of today.");
    }
    let note = form.text("package_note", 500);
    let page = PackagePage {
        page: Page::of(&who, format!("{}: add a package", dog.name), "caseload").with_errors(&form),
        tab: "lessons",
        about: dog_page::about(&dog, today),
        id,
        form,
        dog,
    };
    let (Some(bought), Some(from), true) = (bought, from, page.form.is_fine()) else {
        return Ok(page.again());
    };
    let dog = page.dog.id;
    let new = NewPackage { id, dog, bought, from, note: &note };
    let done = add_package(who.tx, &who.actor, &new, &moment).await;
    page.settle(done, &format!("/dogs/{dog}/lessons?notice=package-added"))
}

#[derive(Template, WebTemplate)]
#[template(path = "lessons/take_back.html")]
struct TakeBackPage {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    kept: PackageView,
}
form_pages!(TakeBackPage);

async fn take_back_of(
    who: &mut SignedIn,
    (dog, id): (DogId, LessonPackageId),
    form: Form,
    app: &App,
) -> Result<TakeBackPage, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let packages = of_dog(dog.id, today).read(&mut who.tx).await?;
    let kept = packages.each.into_iter().find(|kept| kept.package.id == id).ok_or(WebError::NotFound)?;
    Ok(TakeBackPage {
        page: Page::of(who, format!("{}: take a package back", dog.name), "caseload").with_errors(&form),
        tab: "lessons",
        about: dog_page::about(&dog, today),
        kept,
        form,
        dog,
    })
}

/// Asks why a package is taken back.
pub async fn ask(
    State(app): State<App>,
    At(ids): At<(DogId, LessonPackageId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    Ok(take_back_of(&mut who, ids, Form::blank(), &app).await?.into_response())
}

/// Takes it back.
pub async fn take_back(
    State(app): State<App>,
    At(ids): At<(DogId, LessonPackageId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let why = form.required("why", 500, "Write why it is taken back. The lead trainer reads it.");
    let page = take_back_of(&mut who, ids, form, &app).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let dog = page.dog.id;
    let done = take_back_package(who.tx, &who.actor, ids, &why, &app.moment()).await;
    page.settle(done, &format!("/dogs/{dog}/lessons?notice=package-taken-back"))
}
