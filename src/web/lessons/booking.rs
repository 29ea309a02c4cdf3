//! A booked lesson: the form for one, its page with what to prepare, moving it, calling it off, and its calendar's file.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use time::macros::format_description;
use time::{Duration, OffsetDateTime, Time};

use crate::actions::appointments::{AppointmentInput, book_lesson, call_off_lesson, move_lesson};
use crate::app::App;
use crate::clock::Moment;
use crate::domain::calendar_file::{self, Event};
use crate::domain::vocabulary::{AppointmentState, CalledOffBy, FlagState, Word};
use crate::ids::{AppointmentId, DogId, MembershipId};
use crate::store::appointment::{self, Appointment, Booking};
use crate::store::dog::{self, Dog};
use crate::store::place::Place;
use crate::store::sign_in::SignedIn;
use crate::store::{Tx, lesson, place};
use crate::web::choices::{Choices, words};
use crate::web::dogs::trainers;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::lessons::prepare::Preparation;
use crate::web::{Answer, AnyMember, At, Form, Page, TrainerOnly, WebError, dog_page, notice, zones};

/// How far ahead a lesson may be booked.
const FURTHEST: Duration = Duration::days(2 * 366);
/// What a form begins with where no lesson is booked yet: a week from now, at ten, for an hour. Common practice.
const USUAL: (i64, &str, &str) = (7, "10:00", "60");

/// What a booking is chosen from.
pub struct Offered {
    /// The team.
    pub trainers: Choices,
    /// The names of the dog's places.
    pub places: Vec<String>,
}

impl Offered {
    /// What a booking for a dog with these places is chosen from.
    pub async fn of(tx: &mut Tx, places: Vec<Place>) -> Result<Self, WebError> {
        let places = places.into_iter().map(|place| place.name).collect();
        Ok(Self { trainers: trainers(tx).await?, places })
    }
}

/// What a booking for a dog is chosen from.
async fn offered(tx: &mut Tx, dog: DogId) -> Result<Offered, WebError> {
    let places = place::of_dog(dog).read(tx).await?;
    Offered::of(tx, places).await
}

/// A blank form: a week after the last booked lesson, at the same time and place.
pub fn blank(dog: &Dog, me: MembershipId, last: Option<&Appointment>, now: OffsetDateTime) -> Form {
    let (days, time, minutes) = USUAL;
    match last.map(|last| &last.booking) {
        Some(last) => filled(last, &dog.zone, days),
        None => Form::blank()
            .with("day", (zones::local_date(now, &dog.zone) + Duration::days(days)).to_string())
            .with("time", time)
            .with("minutes", minutes)
            .with("trainer", me.to_string()),
    }
}

/// The form of a booking, on the clocks of a zone, or of one so many days later.
fn filled(booking: &Booking, zone: &str, later: i64) -> Form {
    let local = zones::local(booking.starts_at, zone);
    Form::blank()
        .with("day", (local.date() + Duration::days(later)).to_string())
        .with("time", format!("{:02}:{:02}", local.hour(), local.minute()))
        .with("minutes", booking.minutes.to_string())
        .with("trainer", booking.trainer.to_string())
        .with("place", booking.place.clone())
}

/// Reads a booking. `kept` is what it is by now: that may stay, however long ago it was.
fn read(
    form: &mut Form,
    dog: &Dog,
    offered: &Offered,
    kept: Option<&Booking>,
    now: OffsetDateTime,
) -> Option<Booking> {
    let day = form.date("day");
    let time = time_of(form);
    let minutes = form.whole("minutes", "Minutes", 15, 240);
    let trainer = form.text("trainer", 64);
    let place = form.text("place", 120);
    if day.is_none() {
        form.refuse("day", "Enter the day of the lesson.");
    }
    if minutes.is_none() {
        form.refuse("minutes", "Enter how many minutes the lesson takes, from 15 to 240.");
    }
    if !offered.trainers.iter().any(|(id, _)| *id == trainer) {
        form.refuse("trainer", "Choose the trainer who gives the lesson.");
    }
    let (day, time, minutes) = (day?, time?, minutes?);
    let Some(starts_at) = zones::instant(day, time, &dog.zone) else {
        form.refuse("day", "Enter a day that is in the calendar.");
        return None;
    };
    let shown = zones::local(starts_at, &dog.zone);
    if (shown.date(), shown.hour(), shown.minute()) != (day, time.hour(), time.minute()) {
        form.refuse("time", "The clocks go forward over this time on that day. Enter another time.");
    } else if kept.is_none_or(|kept| kept.starts_at != starts_at) {
        if starts_at <= now {
            form.refuse("day", "This is over already. Choose a time to come; what came of a lesson is kept under “After a lesson”.");
        } else if starts_at - now > FURTHEST {
            form.refuse("day", "Choose a day within the next two years.");
        }
    }
    let trainer = trainer.parse().ok()?;
    let booking = Booking { trainer, starts_at, zone: dog.zone.clone(), on: day, minutes, place };
    form.is_fine().then_some(booking)
}

/// The field `time`: 17:30, as browsers send it.
fn time_of(form: &mut Form) -> Option<Time> {
    let text = form.text("time", 8);
    let short: String = text.chars().take(5).collect();
    let time = Time::parse(&short, format_description!("[hour padding:none]:[minute]")).ok();
    if time.is_none() {
        form.refuse("time", "Enter the time as hours and minutes, such as 10:30.");
    }
    time
}

/// What overlaps a booking, in words; empty where nothing does.
async fn clash(tx: &mut Tx, booking: &Booking, this: AppointmentId) -> Result<String, WebError> {
    let others = appointment::overlapping(booking, Some(this)).read(tx).await?;
    let said: Vec<String> = others
        .iter()
        .map(|other| {
            let hours = hours(&other.booking, &booking.zone);
            format!("{} has a lesson with {} then, {hours}", other.trainer_name, other.dog_name)
        })
        .collect();
    Ok(if said.is_empty() { String::new() } else { format!("{}.", said.join("; ")) })
}

/// From when to when: "10:00–11:00".
pub fn hours(booking: &Booking, zone: &str) -> String {
    let (from, to) = (zones::local(booking.starts_at, zone), zones::local(booking.ends_at(), zone));
    format!("{:02}:{:02}–{:02}:{:02}", from.hour(), from.minute(), to.hour(), to.minute())
}

/// A lesson in one plain line: "Thursday 19 March, 10:00, 60 minutes, at the green, with Ines".
pub fn in_one_line(lesson: &Appointment) -> String {
    let booking = &lesson.booking;
    let local = zones::local(booking.starts_at, &booking.zone);
    let place = if booking.place.is_empty() { String::new() } else { format!(", {}", booking.place) };
    format!(
        "{}, {:02}:{:02}, {} minutes{place}, with {}",
        zones::long_day(booking.on),
        local.hour(),
        local.minute(),
        booking.minutes,
        lesson.trainer_name
    )
}

#[derive(Template, WebTemplate)]
#[template(path = "lessons/book.html")]
struct BookPage {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    id: AppointmentId,
    offered: Offered,
    clash: String,
}
form_pages!(BookPage);

/// Books a lesson.
pub async fn book(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let offered = offered(&mut who.tx, dog.id).await?;
    let id = form.id("id").unwrap_or_else(|| moment.id());
    let (asked, anyway) = asked(&mut who, &mut form, (&dog, &offered), (id, None), &moment).await?;
    let today = zones::local_date(moment.at, &dog.zone);
    let page = BookPage {
        page: Page::of(&who, format!("{}: book a lesson", dog.name), "caseload").with_errors(&form),
        tab: "lessons",
        about: dog_page::about(&dog, today),
        id,
        offered,
        clash: asked.1,
        form,
        dog,
    };
    let Some(booking) = asked.0.filter(|_| page.form.is_fine()) else { return Ok(page.again()) };
    let dog = page.dog.id;
    let input = AppointmentInput { id, dog, booking, anyway };
    let done = book_lesson(who.tx, &who.actor, &input, &moment).await;
    page.settle(done, &format!("/dogs/{dog}/lessons?notice=lesson-booked"))
}

/// What a form asks for, with what it overlaps, and whether it is wanted all the same.
async fn asked(
    who: &mut SignedIn,
    form: &mut Form,
    (dog, offered): (&Dog, &Offered),
    (id, kept): (AppointmentId, Option<&Booking>),
    moment: &Moment,
) -> Result<((Option<Booking>, String), bool), WebError> {
    let booking = read(form, dog, offered, kept, moment.at);
    let anyway = form.tick("anyway");
    let overlaps = match &booking {
        Some(booking) => clash(&mut who.tx, booking, id).await?,
        None => String::new(),
    };
    // the same booking sent again has been answered already
    let is_new = kept.is_none() && appointment::find(dog.id, id).read(&mut who.tx).await?.is_none();
    let changes = booking.as_ref().is_some_and(|booking| kept.is_some_and(|kept| kept != booking));
    if !overlaps.is_empty() && !anyway && (is_new || changes) {
        form.refuse("anyway", format!("{overlaps} Tick this to keep both, or choose another time."));
    }
    Ok(((booking, overlaps), anyway))
}

#[derive(Template, WebTemplate)]
#[template(path = "lessons/appointment.html")]
struct AppointmentPage {
    page: Page,
    form: Form,
    off: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    lesson: Appointment,
    when: String,
    hours: String,
    prepared: Preparation,
    offered: Offered,
    clash: String,
    called_off_by: Choices,
    /// Whether its day has come, so that its note can be kept.
    has_come: bool,
}
form_pages!(AppointmentPage);

async fn page(
    who: &mut SignedIn,
    dog: Dog,
    lesson: Appointment,
    form: Form,
    moment: &Moment,
) -> Result<AppointmentPage, WebError> {
    let today = zones::local_date(moment.at, &dog.zone);
    let last = lesson::of_dog(dog.id, 1).read(&mut who.tx).await?;
    let when = zones::long_day(lesson.booking.on);
    Ok(AppointmentPage {
        page: Page::of(who, format!("{}: lesson on {when}", dog.name), "caseload").with_errors(&form),
        tab: "lessons",
        about: dog_page::about(&dog, today),
        hours: hours(&lesson.booking, &lesson.booking.zone),
        prepared: Preparation::of(&dog, last.first(), today).read(&mut who.tx).await?,
        offered: offered(&mut who.tx, dog.id).await?,
        clash: String::new(),
        called_off_by: words::<CalledOffBy>(),
        has_come: lesson.booking.on <= today,
        off: Form::blank(),
        when,
        form,
        lesson,
        dog,
    })
}

/// The dog and its booked lesson, for somebody who may see them.
async fn load(who: &mut SignedIn, (dog, id): (DogId, AppointmentId)) -> Result<(Dog, Appointment), WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let lesson = appointment::find(dog.id, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    Ok((dog, lesson))
}

/// A booked lesson, with what to prepare.
pub async fn show(
    State(app): State<App>,
    At(ids): At<(DogId, AppointmentId)>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (dog, lesson) = load(&mut who, ids).await?;
    let form = filled(&lesson.booking, &dog.zone, 0);
    let mut page = page(&mut who, dog, lesson, form, &app.moment()).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Moves it.
pub async fn change(
    State(app): State<App>,
    At(ids): At<(DogId, AppointmentId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (dog, lesson) = load(&mut who, ids).await?;
    let moment = app.moment();
    let offered = offered(&mut who.tx, dog.id).await?;
    let revision = form.text("revision", 9).parse().unwrap_or(-1);
    let kept = lesson.booking.clone();
    let ((booking, clash), anyway) =
        asked(&mut who, &mut form, (&dog, &offered), (lesson.id, Some(&kept)), &moment).await?;
    let page = AppointmentPage { clash, ..page(&mut who, dog, lesson, form, &moment).await? };
    let Some(booking) = booking.filter(|_| page.form.is_fine()) else { return Ok(page.again()) };
    let (dog, id) = (page.dog.id, page.lesson.id);
    let input = AppointmentInput { id, dog, booking, anyway };
    let done = move_lesson(who.tx, &who.actor, &input, revision, &moment).await;
    page.settle(done, &format!("/dogs/{dog}/lessons/{id}?notice=lesson-moved"))
}

/// Calls it off.
pub async fn call_off(
    State(app): State<App>,
    At(ids): At<(DogId, AppointmentId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (dog, lesson) = load(&mut who, ids).await?;
    let moment = app.moment();
    let (by, why) = (form.word::<CalledOffBy>("called_off_by"), form.text("why", 500));
    let blank = filled(&lesson.booking, &dog.zone, 0);
    let (dog_id, id) = (dog.id, lesson.id);
    let mut page = page(&mut who, dog, lesson, blank, &moment).await?;
    if !form.is_fine() {
        page.off = form;
        return Ok(page.again());
    }
    match call_off_lesson(who.tx, &who.actor, (dog_id, id), (by, &why), &moment).await {
        Err(crate::actions::Refusal::Field { field, message }) => {
            form.refuse(field, message);
            page.off = form;
            Ok(page.again())
        }
        done => page.settle(done, &format!("/dogs/{dog_id}/lessons?notice=lesson-called-off")),
    }
}

/// Its calendar's file.
pub async fn file(At(ids): At<(DogId, AppointmentId)>, AnyMember(mut who): AnyMember) -> Answer {
    let (dog, lesson) = load(&mut who, ids).await?;
    let event = Event {
        uid: &format!("{}@settlebrook", lesson.id),
        sequence: lesson.revision,
        stamp: lesson.changed_at,
        starts: lesson.booking.starts_at,
        lasts: Duration::minutes(lesson.booking.minutes.into()),
        summary: &format!("Lesson: {} with {}", dog.name, lesson.trainer_name),
        place: &lesson.booking.place,
        is_cancelled: lesson.state == AppointmentState::CalledOff,
    };
    let kind = (header::CONTENT_TYPE, "text/calendar; charset=utf-8");
    let name = (header::CONTENT_DISPOSITION, "attachment; filename=\"lesson.ics\"");
    let file: Response = ([kind, name], calendar_file::write(&event)).into_response();
    Ok(file)
}
