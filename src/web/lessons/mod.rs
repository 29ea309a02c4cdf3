//! A dog's lessons: those that are booked, what to prepare, packages of them, and the note after one, on a phone in the car: sorted
//! into its parts, looked over and kept.

pub mod booking;
pub mod coming;
pub mod packages;
mod prepare;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::{Date, Duration, Time};

use crate::actions::keep_lesson::{LessonInput, keep_lesson};
use crate::actions::submit_practice_log::LogInput;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::lesson_note::{meant, sort};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{AppointmentState, Capture, FlagState, Word};
use crate::ids::{AppointmentId, DogId, ExerciseId, LessonId, LessonPackageId, PlanItemId, PracticeLogId};
use crate::store::appointment::{self, Appointment};
use crate::store::dog::{self, Dog};
use crate::store::exercise::{self, Exercise, Wanted};
use crate::store::lesson::{self, Lesson};
use crate::store::place;
use crate::store::plan::{self, PlanItem};
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::web::choices::Choices;
use crate::web::dogs::past_day;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::lessons::booking::Offered;
use crate::web::lessons::packages::Packages;
use crate::web::lessons::prepare::Preparation;
use crate::web::practice_logs::{is_counted, is_line_work};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, dog_page, notice, zones};

/// How many lessons the page shows.
const SHOWN: i64 = 20;
/// How many booked lessons it shows, and for how long one that was called off stays among them.
const BOOKED: (i64, Duration) = (20, Duration::days(14));
/// The fields of what comes next.
const NEXT: [&str; 3] = ["next_1", "next_2", "next_3"];

/// The fields that a note is sorted into.
const PARTS: [&str; 8] = ["summary", "private_note", "counted", "met", "attempts", NEXT[0], NEXT[1], NEXT[2]];

#[derive(Template, WebTemplate)]
#[template(path = "lessons/show.html")]
struct LessonsPage {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    id: LessonId,
    log: PracticeLogId,
    keeper: String,
    /// The exercises of the current plan that are counted and need no line.
    items: Choices,
    names: Vec<String>,
    lessons: Vec<(String, Lesson)>,
    /// The last summary as plain text, to share.
    share: String,
    /// Whether the note has just been sorted into the fields.
    sorted: bool,
    /// The booked lesson that the note is of.
    of: Option<Appointment>,
    of_line: String,
    /// Those that are booked, each in a line, the next of them first.
    coming: Vec<(String, Appointment)>,
    /// Those that are over and have no note yet.
    unnoted: Vec<(String, Appointment)>,
    called_off: Vec<(String, Appointment)>,
    prepared: Preparation,
    offered: Offered,
    clash: String,
    book: Form,
    book_id: AppointmentId,
    packages: Packages,
    package: Form,
    package_id: LessonPackageId,
}
form_pages!(LessonsPage);

/// What the page is made of.
struct Known {
    dog: Dog,
    items: Vec<PlanItem>,
    library: Vec<Exercise>,
    lessons: Vec<Lesson>,
    booked: Vec<Appointment>,
    of: Option<Appointment>,
    prepared: Preparation,
    offered: Offered,
    packages: Packages,
}

/// The booked lesson that a note is of, where it is named and has none yet.
async fn noted(
    who: &mut SignedIn,
    dog: &Dog,
    id: Option<AppointmentId>,
) -> Result<Option<Appointment>, WebError> {
    let Some(id) = id else { return Ok(None) };
    Ok(Some(appointment::find(dog.id, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)?))
}

async fn known(
    who: &mut SignedIn,
    dog: DogId,
    of: Option<AppointmentId>,
    moment: &Moment,
) -> Result<Known, WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(moment.at, &dog.zone);
    let (most, stays) = BOOKED;
    let (plan, lessons, booked, places, packages) = (
        plan::newest(dog.id),
        lesson::of_dog(dog.id, SHOWN),
        appointment::of_dog(dog.id, moment.at - stays, most),
        place::of_dog(dog.id),
        packages::of_dog(dog.id, today),
    )
        .together()
        .read(&mut who.tx)
        .await?;
    // line work is logged where its clip is asked for
    let mut items = plan.map(|plan| plan.items).unwrap_or_default();
    items.retain(|item| is_counted(item) && !is_line_work(item));
    Ok(Known {
        booked,
        of: noted(who, &dog, of).await?,
        prepared: Preparation::of(&dog, lessons.first(), today).read(&mut who.tx).await?,
        offered: Offered::of(&mut who.tx, places).await?,
        packages,
        lessons,
        items,
        library: exercise::list(&mut who.tx, &Wanted::default()).await?,
        dog,
    })
}

/// Lessons, each in a line.
fn in_lines<'a>(lessons: impl Iterator<Item = &'a Appointment>) -> Vec<(String, Appointment)> {
    lessons.map(|lesson| (booking::in_one_line(lesson), lesson.clone())).collect()
}

fn page(who: &SignedIn, known: Known, form: Form, moment: &Moment) -> LessonsPage {
    let dog = known.dog;
    let today = zones::local_date(moment.at, &dog.zone);
    let planned = |lesson: &Appointment| lesson.state == AppointmentState::Planned;
    let is_over = |lesson: &Appointment| lesson.booking.ends_at() <= moment.at;
    let share = known.lessons.first().filter(|lesson| !lesson.summary.is_empty());
    let share =
        share.map(|last| format!("{}, {}\n\n{}", dog.name, zones::long_day(last.held_on), last.summary));
    LessonsPage {
        page: Page::of(who, format!("{}: lessons", dog.name), "caseload").with_errors(&form),
        tab: "lessons",
        about: dog_page::about(&dog, today),
        id: form.value("id").parse().unwrap_or_else(|_| moment.id()),
        log: form.value("log").parse().unwrap_or_else(|_| moment.id()),
        keeper: who.actor.membership.to_string(),
        items: known.items.iter().map(|item| (item.id.to_string(), item.name.clone())).collect(),
        of_line: known.of.as_ref().map(booking::in_one_line).unwrap_or_default(),
        of: known.of,
        coming: in_lines(known.booked.iter().filter(|lesson| planned(lesson) && !is_over(lesson))),
        unnoted: in_lines(known.booked.iter().filter(|lesson| planned(lesson) && is_over(lesson))),
        called_off: in_lines(
            known.booked.iter().filter(|lesson| lesson.state == AppointmentState::CalledOff),
        ),
        prepared: known.prepared,
        offered: known.offered,
        clash: String::new(),
        book: booking::blank(
            &dog,
            who.member.id,
            known.booked.iter().rfind(|lesson| planned(lesson)),
            moment.at,
        ),
        book_id: moment.id(),
        packages: known.packages,
        package: packages::blank(today),
        package_id: moment.id(),
        names: known.library.into_iter().map(|exercise| exercise.name).collect(),
        lessons: known
            .lessons
            .into_iter()
            .map(|lesson| (zones::day(lesson.held_on, today), lesson))
            .collect(),
        share: share.unwrap_or_default(),
        sorted: false,
        form,
        dog,
    }
}

/// What came of lessons, and the form after one.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let moment = app.moment();
    let after = query.get("after").map(|id| id.parse().map_err(|_| WebError::NotFound)).transpose()?;
    let known = known(&mut who, dog, after, &moment).await?;
    let today = zones::local_date(moment.at, &known.dog.zone);
    let on = known.of.as_ref().map_or(today, |lesson| lesson.booking.on.min(today));
    let mut page = page(&who, known, Form::blank().with("on", on.to_string()), &moment);
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Sorts the note into the fields, or keeps what stands in them.
pub async fn keep(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let moment = app.moment();
    let appointment: Option<AppointmentId> = form.id("appointment");
    let known = known(&mut who, dog, appointment, &moment).await?;
    let note = form.text("note", 4000);
    // a note alone is sorted first, whichever button was pressed: nobody types it twice
    let is_note_alone = !note.is_empty() && PARTS.iter().all(|field| form.value(field).trim().is_empty());
    if (form.is("do", "sort") || is_note_alone) && form.is_fine() {
        let form = sorted(&form, &note, &known);
        return Ok(LessonsPage { sorted: true, ..page(&who, known, form, &moment) }.into_response());
    }
    let today = zones::local_date(moment.at, &known.dog.zone);
    let held_on = past_day(&mut form, "on", today).unwrap_or(today);
    let (summary, private_note) = (form.text("summary", 2000), form.text("private_note", 4000));
    let baseline = baseline(&mut form, &known, (held_on, today), &moment);
    let next = next(&mut form, &known);
    let id = form.id("id").unwrap_or_else(|| moment.id());
    form.id::<PracticeLogId>("log");
    if summary.is_empty()
        && private_note.is_empty()
        && baseline.is_none()
        && next.is_empty()
        && form.is_fine()
    {
        form.refuse("summary", "Write what came of the lesson, for the household or for yourself.");
    }
    let page = page(&who, known, form, &moment);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let to = match next.is_empty() {
        true => format!("/dogs/{dog}/lessons?notice=lesson-kept"),
        // homework goes straight on to the draft
        false => format!("/dogs/{dog}/plan/edit?notice=lesson-kept-with-homework"),
    };
    let input = LessonInput { id, dog, held_on, summary, private_note, baseline, next, appointment };
    let done = keep_lesson(who.tx, &who.actor, input, today, &moment).await;
    page.settle(done, &to)
}

/// The form with its fields filled from the note, where they are empty.
fn sorted(form: &Form, note: &str, known: &Known) -> Form {
    let parts = sort(note);
    let mut filled = Form::blank().with("note", note);
    for name in ["id", "log", "on", "appointment"] {
        filled = filled.with(name, form.value(name));
    }
    let or = |name: &str, said: &str| match form.value(name) {
        "" => said.to_owned(),
        typed => typed.to_owned(),
    };
    filled = filled
        .with("summary", or("summary", &parts.summary))
        .with("private_note", or("private_note", &parts.private));
    let names: Vec<&str> = known.items.iter().map(|item| item.name.as_str()).collect();
    let item = parts.counted.as_ref().and_then(|counted| meant(&counted.at, &names));
    let item = item.and_then(|name| known.items.iter().find(|item| item.name == name));
    if let (Some(counted), Some(item)) = (&parts.counted, item) {
        filled = filled
            .with("counted", or("counted", &item.id.to_string()))
            .with("met", or("met", &counted.met.to_string()))
            .with("attempts", or("attempts", &counted.attempts.to_string()));
    } else {
        for name in ["counted", "met", "attempts"] {
            filled = filled.with(name, form.value(name));
        }
    }
    let library: Vec<&str> = known.library.iter().map(|exercise| exercise.name.as_str()).collect();
    for (at, name) in NEXT.iter().enumerate() {
        let written = parts.next.get(at).map_or("", String::as_str);
        filled = filled.with(name, or(name, meant(written, &library).unwrap_or(written)));
    }
    filled
}

/// The sitting that was counted in the lesson; `None` where no exercise is chosen.
fn baseline(
    form: &mut Form,
    known: &Known,
    (held_on, today): (Date, Date),
    moment: &Moment,
) -> Option<LogInput> {
    let item = form.id::<PlanItemId>("counted");
    let attempts = form.whole("attempts", "Of how many", 1, 200);
    let met = form.whole("met", "How many met the criterion", 0, 200);
    let Some(item) = item else {
        if attempts.is_some() || met.is_some() {
            form.refuse("counted", "Choose which exercise you counted, or leave the numbers out.");
        }
        return None;
    };
    let Some(item) = known.items.iter().find(|known| known.id == item) else {
        form.refuse("counted", "What you counted: choose an exercise of the plan.");
        return None;
    };
    let (Some(attempts), Some(met)) = (attempts, met) else {
        form.refuse("met", "How many met the criterion, and of how many?");
        return None;
    };
    if met > attempts {
        form.refuse("met", format!("How many met the criterion: {met} is more than {attempts}."));
        return None;
    }
    let mut sitting = Sitting::on(zones::local_date(moment.at, &known.dog.zone));
    (sitting.attempts, sitting.met) = (Some(attempts), Some(met));
    Some(LogInput {
        id: form.id("log").unwrap_or_else(|| moment.id()),
        dog: known.dog.id,
        item: item.id,
        capture: Capture::Lesson,
        // a lesson of another day is told at its noon: only the day is asked for
        started: zones::instant(held_on, Time::MIDNIGHT + time::Duration::hours(12), &known.dog.zone)
            .map(|noon| (noon, held_on))
            .filter(|_| held_on != today),
        handler: String::new(),
        outcome_value: None,
        elsewhere: None,
        note: String::new(),
        sitting,
        passed_on: false,
        tries: Vec::new(),
        lived: None,
    })
}

/// The exercises that come next, by their names.
fn next(form: &mut Form, known: &Known) -> Vec<ExerciseId> {
    let names: Vec<&str> = known.library.iter().map(|exercise| exercise.name.as_str()).collect();
    let mut found = Vec::new();
    for field in NEXT {
        let written = form.text(field, 120);
        if written.is_empty() {
            continue;
        }
        let exercise = meant(&written, &names).and_then(|name| known.library.iter().find(|e| e.name == name));
        match exercise {
            Some(exercise) => found.push(exercise.id),
            None => form.refuse_by_name(field, "choose something of your library, or leave it empty."),
        }
    }
    found
}
