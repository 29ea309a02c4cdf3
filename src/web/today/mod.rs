//! Today: what is enough, why, what to watch, and one tap to say how it went.

pub mod cards;
pub(in crate::web) mod day;
pub mod off;
mod phase;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::app::App;
use crate::clock::Moment;
use crate::domain::plan::counts_in_the_week;
use crate::domain::today::{Enough, enough};
use crate::domain::vocabulary::{DayOffReason, Gear, Held, ItemKind, Severity, Word};
use crate::domain::welfare::{Pause, pause};
use crate::ids::CheckInId;
use crate::store::dog::Dog;
use crate::store::flag::{self, Flag, Found, Wanted};
use crate::store::intake;
use crate::store::plan::{self, PlanItem};
use crate::store::sign_in::SignedIn;
use crate::store::{arrangement_week, day_off};
use crate::web::fits::{self, FitView};
use crate::web::practice_logs::advice;
use crate::web::watch::Watch;
use crate::web::{Answer, OwnerOnly, Page, WebError, notice, own_dog, zones};
use cards::{Card, TapWhat};
use phase::{Graduated, Lessons};

#[derive(Template, WebTemplate)]
#[template(path = "today/show.html")]
struct TodayPage {
    page: Page,
    dog: Dog,
    dogs: Vec<Dog>,
    here: &'static str,
    date: String,
    enough: Enough,
    /// Stops, or else the gravest finding: what cannot be scrolled past.
    watch: Vec<Watch>,
    /// The others.
    more_watch: Vec<Watch>,
    today: Vec<Card>,
    paused: Vec<Card>,
    /// Whether they rest because of a stop.
    stopped: bool,
    later: Vec<Card>,
    /// What the owner learns without the dog.
    skills: Vec<Card>,
    /// Each arrangement, with how it was kept this week where that was said.
    standing: Vec<(PlanItem, Option<Held>)>,
    held: &'static [Held],
    reasons: &'static [DayOffReason],
    /// The day and the Monday of its week, as the page has them.
    on: Date,
    week_of: Date,
    trainer_note: String,
    /// Whether the household was asked about the dog and has not sent it yet.
    intake_waits: bool,
    /// Gear to look at.
    fits: Vec<FitView>,
    /// Whether the household took the day off.
    is_off: bool,
    /// The next lesson, and packages.
    lessons: Lessons,
    /// The id of an answer to "still going well?", where it is asked today.
    check_in: Option<CheckInId>,
    /// What a household reads whose work is done.
    graduated: Option<Graduated>,
}

impl TodayPage {
    /// Whether an arrangement was said to be kept so.
    #[expect(clippy::unused_self, reason = "a template calls it on the page")]
    fn is_kept(&self, said: &Option<Held>, answer: &Held) -> bool {
        *said == Some(*answer)
    }
}

#[derive(Template, WebTemplate)]
#[template(path = "today/no_plan.html")]
struct NoPlanPage {
    page: Page,
    dog: Dog,
    dogs: Vec<Dog>,
    here: &'static str,
    watch: Vec<Watch>,
    replies: String,
    intake_waits: bool,
    lessons: Lessons,
    graduated: Option<Graduated>,
}

#[derive(Template, WebTemplate)]
#[template(path = "own_dog/none.html")]
struct NoDogPage {
    page: Page,
}

/// The most findings that the page folds away; a trainer has them all.
const MOST_FOLDED: usize = 9;

/// Today's page.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let page = own_dog::page(&mut who, "Today", "today").await?.with_notice(notice::of(&query));
    let Some((dog, dogs)) = own_dog::chosen(&mut who, &query).await? else {
        return Ok(NoDogPage { page }.into_response());
    };
    let open = flag::of_dog(&mut who.tx, dog.id, Wanted::Open).await?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let found = Found::by_rule(open.iter().cloned());
    let watch: Vec<Watch> = found.iter().map(|found| Watch::found_for_owner(found, today)).collect();
    let Some(version) = plan::current(&mut who.tx, dog.id).await? else {
        let replies = who.practice.replies.clone();
        let intake_waits = intake::waits(&mut who.tx, dog.id).await?;
        let lessons = Lessons::of(&mut who.tx, &dog, &moment).await?;
        let graduated = Graduated::of(&mut who.tx, &dog, &moment).await?;
        let here = "/today";
        return Ok(NoPlanPage { page, dog, dogs, here, watch, replies, intake_waits, lessons, graduated }
            .into_response());
    };
    let items = plan::items(&mut who.tx, version.id).await?;
    Ok(with_plan(&mut who, page, (dog, dogs), (version.note, items), (open, watch), today, &moment)
        .await?
        .into_response())
}

/// Whether an open stop rests every exercise.
fn stops_rest(open: &[Flag]) -> bool {
    open.iter().any(|flag| pause(flag.rule, flag.severity) == Pause::AllExercises)
}

async fn with_plan(
    who: &mut SignedIn,
    page: Page,
    (dog, dogs): (Dog, Vec<Dog>),
    (trainer_note, items): (String, Vec<PlanItem>),
    (open, mut watch): (Vec<Flag>, Vec<Watch>),
    today: Date,
    moment: &Moment,
) -> Result<TodayPage, WebError> {
    let (standing, done): (Vec<PlanItem>, Vec<PlanItem>) =
        items.into_iter().partition(|item| item.kind == ItemKind::StandingArrangement);
    let (practised, skills): (Vec<PlanItem>, Vec<PlanItem>) =
        done.into_iter().partition(|item| counts_in_the_week(item.kind));
    let week = day::week(&mut who.tx, &dog, &practised, &open, today).await?;
    let enough = enough(&week.exercises, &week.day);
    let (mut now, mut paused, mut later) = (Vec::new(), Vec::new(), Vec::new());
    for (index, item) in practised.into_iter().enumerate() {
        let exercise = &week.exercises[index];
        let measures = advice(&mut who.tx, &item).await?;
        let card = Card::new(item, (exercise.this_week, exercise.today), &dog, moment.id());
        let card = card.eased_by(measures).tied_to(week.habits[index].filter(|_| exercise.today == 0));
        match (exercise.paused, enough.today.contains(&index)) {
            (true, _) => paused.push(card),
            (false, true) => now.push(card),
            (false, false) => later.push(card),
        }
    }
    let skills = skills.into_iter().map(|item| {
        let done = week.done.of(item.line_id);
        Card::new(item, done, &dog, moment.id())
    });
    let mut skills: Vec<Card> = skills.collect();
    if week.day.not_coping {
        paused.append(&mut skills);
    }
    let rests = week.day.not_coping || stops_rest(&open);
    let is_off = day_off::since(&mut who.tx, dog.id, today).await?.iter().any(|off| off.on == today);
    if is_off {
        later.splice(0..0, now.drain(..));
    }
    let week_of = today - time::Duration::days(i64::from(today.weekday().number_days_from_monday()));
    let kept = arrangement_week::since(&mut who.tx, dog.id, week_of).await?;
    let held = |item: &PlanItem| kept.iter().find(|(line, ..)| *line == item.line_id).map(|(.., held)| *held);
    let standing =
        standing.into_iter().map(|item| (held(&item), item)).map(|(held, item)| (item, held)).collect();
    let stops = watch.iter().filter(|card| card.kind == Severity::Stop.stored()).count();
    let mut more_watch = watch.split_off(watch.len().min(stops.max(1)));
    more_watch.truncate(MOST_FOLDED);
    Ok(TodayPage {
        page,
        date: zones::long_day(today),
        here: "/today",
        enough,
        watch,
        more_watch,
        today: now,
        paused,
        stopped: stops > 0,
        later,
        skills,
        standing,
        held: Held::ALL,
        reasons: DayOffReason::ALL,
        on: today,
        week_of,
        is_off,
        trainer_note,
        intake_waits: intake::waits(&mut who.tx, dog.id).await?,
        lessons: Lessons::of(&mut who.tx, &dog, moment).await?,
        check_in: phase::check_in(&mut who.tx, &dog, is_off || rests, today, moment).await?,
        graduated: Graduated::of(&mut who.tx, &dog, moment).await?,
        fits: fits::due(&mut who.tx, &dog, moment.at).await?,
        dog,
        dogs,
    })
}
