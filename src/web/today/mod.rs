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
use crate::domain::outcomes::OutcomeAdvice;
use crate::domain::plan::counts_in_the_week;
use crate::domain::today::{Enough, enough};
use crate::domain::vocabulary::{DayOffReason, FlagState, Gear, Held, ItemKind, Severity, Word};
use crate::domain::welfare::{BOLTED, NOT_COPING, Pause, pause};
use crate::ids::{CheckInId, LineId, PlanItemId};
use crate::store::day_off::{self, DayOff};
use crate::store::dog::Dog;
use crate::store::flag::{self, Flag, Found, Wanted};
use crate::store::life_event::{self, LifeEvent};
use crate::store::membership::{self, Membership};
use crate::store::plan::{self, Plan, PlanItem};
use crate::store::reading::{Reading, Together};
use crate::store::{arrangement_week, intake};
use crate::web::choices::Choices;
use crate::web::fits::{self, FitView};
use crate::web::flags::Duty;
use crate::web::goals::{self, GoalView};
use crate::web::practice_logs::advice;
use crate::web::watch::Watch;
use crate::web::{Answer, Form, OwnerOnly, Page, notice, own_dog, zones};
use cards::{Card, TapWhat};
use phase::{Graduated, Lessons, Stand};

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

/// What is read of a dog for its day, beside its plan.
struct Known {
    /// Open flags, those that rest something all the same, and those answered lately.
    flags: Vec<Flag>,
    grounds: day::Grounds,
    days_off: Vec<DayOff>,
    life: Vec<LifeEvent>,
    /// How the arrangements were kept this week.
    kept: Vec<(LineId, Date, Held)>,
    trainer: Option<Membership>,
    goal: GoalView,
    intake_waits: bool,
    lessons: Lessons,
    stand: Stand,
    fits: Vec<FitView>,
}

impl Known {
    fn of(dog: &Dog, today: Date, moment: &Moment) -> Reading<Self> {
        let (id, now) = (dog.id, moment.at);
        let answers_since = now - time::Duration::days(ANSWER_STANDS_DAYS);
        (
            (flag::of_dog(id, Wanted::Standing(answers_since)), day::Grounds::of(id, today)).together(),
            (
                day_off::since(id, today),
                life_event::of_dog(id, Some(today)),
                arrangement_week::since(id, day::monday_of(today)),
            )
                .together(),
            (membership::find(dog.trainer), GoalView::of(id, today), intake::waits(id)).together(),
            (Lessons::of(id, now), Stand::of(id), fits::due(id, now)).together(),
        )
            .together()
            .then(
                |(
                    (flags, grounds),
                    (days_off, life, kept),
                    (trainer, goal, intake_waits),
                    (lessons, stand, fits),
                )| {
                    Ok(Self {
                        flags,
                        grounds,
                        days_off,
                        life,
                        kept,
                        trainer,
                        goal,
                        intake_waits,
                        lessons,
                        stand,
                        fits,
                    })
                },
            )
    }
}

/// Today's page.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let (page, dogs) = own_dog::page_and_dogs(&mut who, ("Today", "today"), &query).await?;
    let page = page.with_notice(notice::of(&query));
    let Some((dog, dogs)) = dogs else {
        return Ok(NoDogPage { page }.into_response());
    };
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let (plan, known) =
        (plan::newest(dog.id), Known::of(&dog, today, &moment)).together().read(&mut who.tx).await?;
    let watch = watch(&known.flags, &Duty::of(&who.practice, moment.at), &dog, today);
    let Some(plan) = plan else {
        let graduated = known.stand.graduated(&dog, &moment);
        let Known { intake_waits, lessons, .. } = known;
        let (replies, here) = (who.practice.replies.clone(), "/today");
        return Ok(NoPlanPage { page, dog, dogs, here, watch, replies, intake_waits, lessons, graduated }
            .into_response());
    };
    let measures = advice(&mut who.tx, &plan.items).await?;
    Ok(with_plan(page, (dog, dogs), (plan, measures), (known, watch), today, &moment).into_response())
}

/// What was found and nobody has answered, the gravest first.
fn watch(flags: &[Flag], duty: &Duty, dog: &Dog, today: Date) -> Vec<Watch> {
    let open: Vec<Flag> = flags.iter().filter(|flag| flag.state == FlagState::Open).cloned().collect();
    let found = Found::by_rule(open.iter().cloned());
    let watch = found.iter().map(|found| {
        let mut card = Watch::found_for_owner(found, today);
        if let Some(due) = found.due() {
            card.answer = duty.for_owner(due, dog);
        }
        card
    });
    watch.collect()
}

/// Whether a stop rests every exercise.
fn stops_rest(resting: &[Flag]) -> bool {
    resting.iter().any(|flag| pause(flag.rule, flag.severity) == Pause::AllExercises)
}

fn with_plan(
    page: Page,
    (dog, dogs): (Dog, Vec<Dog>),
    (plan, mut measures): (Plan, HashMap<PlanItemId, OutcomeAdvice>),
    (known, watch): (Known, Vec<Watch>),
    today: Date,
    moment: &Moment,
) -> TodayPage {
    let resting: Vec<Flag> = known.flags.iter().filter(|flag| flag.rests).cloned().collect();
    let (standing, done): (Vec<PlanItem>, Vec<PlanItem>) =
        plan.items.into_iter().partition(|item| item.kind == ItemKind::StandingArrangement);
    let (practised, skills): (Vec<PlanItem>, Vec<PlanItem>) =
        done.into_iter().partition(|item| counts_in_the_week(item.kind));
    let week = day::week(&known.grounds, &dog, &practised, &resting, today);
    let enough = enough(&week.exercises, &week.day);
    let (mut now, mut paused, mut later) = (Vec::new(), Vec::new(), Vec::new());
    for (index, item) in practised.into_iter().enumerate() {
        let exercise = &week.exercises[index];
        let measures = measures.remove(&item.id);
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
    let is_off = known.days_off.iter().any(|off| off.on == today);
    let rests: Vec<Rest> = known.life.iter().filter_map(LifeEvent::rest).collect();
    let rest = rest_on(&rests, today).map(|rest| rest.for_owner(&dog.name, today));
    let is_away = rest.is_some();
    if is_off || is_away {
        later.splice(0..0, now.drain(..));
    }
    let held =
        |item: &PlanItem| known.kept.iter().find(|(line, ..)| *line == item.line_id).map(|(.., held)| *held);
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
        _ => known.trainer.map(|trainer| trainer.phone).unwrap_or_default(),
    };
    let mut more_watch = watch.split_off(watch.len().min(stops.max(1)));
    more_watch.truncate(MOST_FOLDED);
    TodayPage {
        page,
        answered: answered(known.flags, today, moment),
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
        week_of: day::monday_of(today),
        is_off,
        // not on a day of rest, and not while something is to be paused
        asks_goal: !dog.goal.is_empty()
            && stops == 0
            && !week.day.not_coping
            && !is_off
            && rest.is_none()
            && known.goal.is_due,
        rest,
        marks: goals::marks(),
        form: Form::blank(),
        trainer_note: plan.version.note,
        intake_waits: known.intake_waits,
        lessons: known.lessons,
        check_in: known.stand.check_in(&dog, is_off || all_rests || is_away, today, moment),
        graduated: known.stand.graduated(&dog, moment),
        fits: known.fits,
        dog,
        dogs,
    }
}

/// What the trainer answered within the last days, the newest answer first, an answer once.
fn answered(mut flags: Vec<Flag>, today: Date, moment: &Moment) -> Vec<(Flag, String)> {
    let since = moment.at - time::Duration::days(ANSWER_STANDS_DAYS);
    flags.retain(|flag| flag.state == FlagState::Answered && flag.answered_at.is_some_and(|at| at > since));
    flags.sort_by_key(|flag| std::cmp::Reverse(flag.answered_at));
    let mut told: Vec<(Flag, String)> = Vec::new();
    for flag in flags {
        if told.len() < MOST_ANSWERS && !told.iter().any(|(other, _)| other.answer == flag.answer) {
            let day = zones::day(flag.local_date, today);
            told.push((flag, day));
        }
    }
    told
}
