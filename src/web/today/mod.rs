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
use crate::domain::life::{Rest, rest_on};
use crate::domain::plan::counts_in_the_week;
use crate::domain::today::{Enough, enough};
use crate::domain::vocabulary::{DayOffReason, FlagState, Gear, Held, ItemKind, Severity, Word};
use crate::domain::welfare::{BOLTED, NOT_COPING, Pause, pause};
use crate::ids::CheckInId;
use crate::store::dog::Dog;
use crate::store::flag::{self, Flag, Found, Wanted};
use crate::store::intake;
use crate::store::life_event::LifeEvent;
use crate::store::plan::{self, PlanItem};
use crate::store::sign_in::SignedIn;
use crate::store::{arrangement_week, day_off, life_event, membership};
use crate::web::choices::Choices;
use crate::web::fits::{self, FitView};
use crate::web::flags::Duty;
use crate::web::goals::{self, GoalView};
use crate::web::practice_logs::advice;
use crate::web::watch::Watch;
use crate::web::{Answer, Form, OwnerOnly, Page, WebError, notice, own_dog, zones};
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
    /// Whether they rest until something is answered; else until the next plan.
    waits: bool,
    /// Whether running off waits for its answer: the dog may still be gone.
    has_bolted: bool,
    /// The trainer's number, where something waits that may need a call; empty where there is none.
    phone: String,
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
    /// What the trainer answered lately to what was found, with the day of that.
    answered: Vec<(Flag, String)>,
    /// Why nothing is expected today: away, ill, in season.
    rest: Option<String>,
    /// The question how near the goal feels, where it is time to ask.
    asks_goal: bool,
    marks: Choices,
    form: Form,
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

/// Days for which a trainer's answer to a finding stands on the page. House rule.
const ANSWER_STANDS_DAYS: i64 = 7;
/// The most answers that the page shows.
const MOST_ANSWERS: usize = 3;
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
    let resting = flag::of_dog(&mut who.tx, dog.id, Wanted::Resting).await?;
    let open: Vec<Flag> = resting.iter().filter(|flag| flag.state == FlagState::Open).cloned().collect();
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let found = Found::by_rule(open.iter().cloned());
    let duty = Duty::of(&who.practice, moment.at);
    let watch = found.iter().map(|found| {
        let mut card = Watch::found_for_owner(found, today);
        if found.first.severity == Severity::Stop {
            let since = found.all().map(|flag| flag.raised_at).min().unwrap_or(found.first.raised_at);
            card.answer = duty.for_owner(since, &dog);
        }
        card
    });
    let mut watch: Vec<Watch> = watch.collect();
    let day_ago = moment.at - time::Duration::days(1);
    if let Some(card) = watch.iter_mut().find(|card| card.rule == NOT_COPING.id)
        && open.iter().any(|flag| flag.rule.id == NOT_COPING.id && flag.raised_at < day_ago)
    {
        card.answer = format!(
            "You said so more than a day ago, and we are sorry if nobody has answered yet: please ring, or write again. {} is asked to answer.",
            dog.trainer_name
        );
    }
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
    Ok(with_plan(&mut who, page, (dog, dogs), (version.note, items), (resting, watch), today, &moment)
        .await?
        .into_response())
}

/// Whether a stop rests every exercise.
fn stops_rest(resting: &[Flag]) -> bool {
    resting.iter().any(|flag| pause(flag.rule, flag.severity) == Pause::AllExercises)
}

async fn with_plan(
    who: &mut SignedIn,
    page: Page,
    (dog, dogs): (Dog, Vec<Dog>),
    (trainer_note, items): (String, Vec<PlanItem>),
    (resting, watch): (Vec<Flag>, Vec<Watch>),
    today: Date,
    moment: &Moment,
) -> Result<TodayPage, WebError> {
    let (standing, done): (Vec<PlanItem>, Vec<PlanItem>) =
        items.into_iter().partition(|item| item.kind == ItemKind::StandingArrangement);
    let (practised, skills): (Vec<PlanItem>, Vec<PlanItem>) =
        done.into_iter().partition(|item| counts_in_the_week(item.kind));
    let week = day::week(&mut who.tx, &dog, &practised, &resting, today).await?;
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
    let all_rests = stops_rest(&resting) || resting.iter().any(|flag| flag.rule.id == NOT_COPING.id);
    let is_off = day_off::since(&mut who.tx, dog.id, today).await?.iter().any(|off| off.on == today);
    let rests = life_event::of_dog(&mut who.tx, dog.id, Some(today)).await?;
    let rests: Vec<Rest> = rests.iter().filter_map(LifeEvent::rest).collect();
    let rest = rest_on(&rests, today).map(|rest| rest.for_owner(&dog.name, today));
    let is_away = rest.is_some();
    if is_off || is_away {
        later.splice(0..0, now.drain(..));
    }
    let week_of = today - time::Duration::days(i64::from(today.weekday().number_days_from_monday()));
    let kept = arrangement_week::since(&mut who.tx, dog.id, week_of).await?;
    let held = |item: &PlanItem| kept.iter().find(|(line, ..)| *line == item.line_id).map(|(.., held)| *held);
    let standing =
        standing.into_iter().map(|item| (held(&item), item)).map(|(held, item)| (item, held)).collect();
    // a stop, a dog that is gone, and a call for help are never folded away
    let stands = |card: &Watch| {
        card.kind == Severity::Stop.stored() || [BOLTED.id, NOT_COPING.id].contains(&card.rule)
    };
    let (first, others): (Vec<Watch>, Vec<Watch>) = watch.into_iter().partition(stands);
    let (stopped, stops) = (first.iter().any(|card| card.kind == Severity::Stop.stored()), first.len());
    let mut watch: Vec<Watch> = first.into_iter().chain(others).collect();
    let has_bolted = watch.iter().any(|card| card.rule == BOLTED.id);
    let waits = resting.iter().any(|flag| {
        let pauses = flag.rule.id == NOT_COPING.id || pause(flag.rule, flag.severity) != Pause::Nothing;
        flag.state == FlagState::Open && pauses
    });
    let phone = match stops {
        0 => String::new(),
        _ => membership::find(&mut who.tx, dog.trainer).await?.map(|m| m.phone).unwrap_or_default(),
    };
    let mut more_watch = watch.split_off(watch.len().min(stops.max(1)));
    more_watch.truncate(MOST_FOLDED);
    let answered = answered(who, &dog, today, moment).await?;
    Ok(TodayPage {
        page,
        answered,
        date: zones::long_day(today),
        here: "/today",
        enough,
        watch,
        more_watch,
        today: now,
        paused,
        stopped,
        has_bolted,
        waits,
        phone,
        later,
        skills,
        standing,
        held: Held::ALL,
        reasons: DayOffReason::ALL,
        on: today,
        week_of,
        is_off,
        // not on a day of rest, and not while something is to be paused
        asks_goal: !dog.goal.is_empty()
            && stops == 0
            && !week.day.not_coping
            && !is_off
            && rest.is_none()
            && GoalView::of(&mut who.tx, dog.id, today).await?.is_due,
        rest,
        marks: goals::marks(),
        form: Form::blank(),
        trainer_note,
        intake_waits: intake::waits(&mut who.tx, dog.id).await?,
        lessons: Lessons::of(&mut who.tx, &dog, moment).await?,
        check_in: phase::check_in(&mut who.tx, &dog, is_off || all_rests || is_away, today, moment).await?,
        graduated: Graduated::of(&mut who.tx, &dog, moment).await?,
        fits: fits::due(&mut who.tx, &dog, moment.at).await?,
        dog,
        dogs,
    })
}

/// What the trainer answered within the last days, the newest answer first, a rule once.
async fn answered(
    who: &mut SignedIn,
    dog: &Dog,
    today: Date,
    moment: &Moment,
) -> Result<Vec<(Flag, String)>, WebError> {
    let since = moment.at - time::Duration::days(ANSWER_STANDS_DAYS);
    let mut flags = flag::of_dog(&mut who.tx, dog.id, Wanted::Settled).await?;
    flags.retain(|flag| flag.state == FlagState::Answered && flag.answered_at.is_some_and(|at| at > since));
    flags.sort_by_key(|flag| std::cmp::Reverse(flag.answered_at));
    let mut told: Vec<(Flag, String)> = Vec::new();
    for flag in flags {
        if told.len() < MOST_ANSWERS && !told.iter().any(|(other, _)| other.answer == flag.answer) {
            let day = zones::day(flag.local_date, today);
            told.push((flag, day));
        }
    }
    Ok(told)
}
