//! A dog's logs and encounters, as a trainer reads them.

use std::collections::{HashMap, HashSet};
use uuid::Uuid;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::app::App;
use crate::domain::dates::counted;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{
    Basis, Busy, Capture, EncounterKind, Finish, Held, ItemKind, Line, Looked, Recovery, TookFood, Word,
};
use crate::domain::welfare::{HIGH_AROUSAL, HouseNumbers};
use crate::ids::{DogId, EncounterId, LineId, PlanItemId, PracticeLogId};
use crate::store::day_off::DayOff;
use crate::store::dog::{self, Dog};
use crate::store::encounter::{self, Encounter};
use crate::store::house::House;
use crate::store::plan::{self, PlanItem};
use crate::store::practice_log::{self, PracticeLog, Wanted};
use crate::store::reading::{Reading, Together};
use crate::store::{arrangement_week, day_off, house, look};
use crate::web::plans::words::{self, capital};
use crate::web::{Answer, At, Page, TrainerOnly, WebError, looks, notice, practice_logs, zones};

/// Logs on one page.
const A_PAGE: i64 = 30;

/// One log.
pub struct LogView {
    /// The log.
    pub id: PracticeLogId,
    /// The day.
    pub day: String,
    /// The time of day.
    pub time: String,
    /// The exercise.
    pub exercise: String,
    /// What came of it: step, result, where.
    pub result: String,
    /// What stands out, in one quiet line.
    pub stands_out: String,
    /// The note.
    pub note: String,
    /// Who logged it, and how.
    pub by: String,
    /// Whether no trainer has looked at it yet, as it is now.
    pub is_new: bool,
}

impl LogView {
    /// A log as it is shown in a list.
    pub fn of(log: &PracticeLog, numbers: &HouseNumbers, zone: &str, today: Date) -> Self {
        let local = zones::local(log.started_at, zone);
        let how = match log.capture {
            Capture::OneTap => ", one tap",
            Capture::Form | Capture::Helper => "",
            Capture::CountedLive => ", counted live",
            Capture::Lesson => ", seen in a lesson",
        };
        Self {
            id: log.id,
            day: zones::day(log.sitting.local_date, today),
            time: format!("{:02}:{:02}", local.hour(), local.minute()),
            exercise: log.sitting.exercise.clone().unwrap_or_default(),
            result: result(log),
            stands_out: stands_out(&log.sitting, numbers),
            note: log.note.clone(),
            by: format!("{}{how}", practice_logs::told_by(log)),
            is_new: false,
        }
    }
}

/// What came of a sitting: step, result, where.
fn result(log: &PracticeLog) -> String {
    let counts = log.sitting.counted().map(|(attempts, met)| format!("{met} of {attempts} met"));
    let parts =
        [Some(log.step_name.clone()), practice_logs::value(log).or(counts), Some(log.place_name.clone())];
    parts.into_iter().flatten().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// What stands out, the gravest first; what went as planned, or easily, is left to the sitting's own page.
fn stands_out(s: &Sitting, numbers: &HouseNumbers) -> String {
    let told = [(s.bite, EncounterKind::Bite), (s.bolted, EncounterKind::Bolted)];
    let grave = told.iter().filter(|(happened, _)| *happened).map(|(_, kind)| kind.label().to_lowercase());
    let mut parts: Vec<String> = grave.collect();
    parts.extend(s.health_signs.iter().map(|sign| sign.label().to_lowercase()));
    parts.extend(s.minutes.map(|n| counted(n.into(), "minute", "minutes")));
    parts.extend(match s.busy {
        Some(Busy::Quiet) => Some("quieter than usual".to_owned()),
        Some(Busy::Busy) => Some("busier than usual".to_owned()),
        Some(Busy::Usual) | None => None,
    });
    let otherwise = s.line != s.planned.line || s.clip != s.planned.clip;
    if let Some(line) = s.line.filter(|_| otherwise && s.equipment == Some(Basis::Stated)) {
        parts.push(match line {
            Line::None => "no line".to_owned(),
            line => words::wear(line, s.clip).to_lowercase(),
        });
    }
    let looked = s.looked.filter(|looked| *looked != Looked::Loose);
    parts.extend(looked.map(|looked| format!("looked {}", looked.label().to_lowercase())));
    parts.extend(match s.took_food {
        Some(TookFood::Snatched) => Some("snatched the food".to_owned()),
        Some(TookFood::Refused) => Some("would not take food".to_owned()),
        Some(TookFood::Gently) | None => None,
    });
    let high = s.arousal_end.filter(|end| f64::from(*end) >= numbers.of(&HIGH_AROUSAL));
    parts.extend(high.map(|end| format!("arousal {end} of 5 at the end")));
    let slow = s.recovery.filter(|recovery| *recovery != Recovery::Within5);
    parts.extend(slow.map(|recovery| recovered(recovery).to_owned()));
    if s.finish == Some(Finish::StraightHome) {
        parts.push("went straight home".to_owned());
    }
    capital(&parts.join(", "))
}

fn recovered(recovery: Recovery) -> &'static str {
    match recovery {
        Recovery::Within5 => "calm again within 5 minutes",
        Recovery::Within15 => "calm again within 15 minutes",
        Recovery::Longer => "took longer than 15 minutes to calm down",
        Recovery::NotYet => "not calm yet when this was logged",
    }
}

/// One encounter.
pub struct EncounterView {
    /// The encounter.
    pub id: EncounterId,
    /// When.
    pub when: String,
    /// What happened.
    pub kind: &'static str,
    /// The rest in one line.
    pub facts: String,
    /// The note.
    pub note: String,
    /// Whether no trainer has looked at it yet, as it is now.
    pub is_new: bool,
}

impl EncounterView {
    /// An encounter as it is shown in a list.
    pub fn of(encounter: &Encounter, zone: &str, today: Date) -> Self {
        let f = &encounter.facts;
        let mut parts = Vec::new();
        if !encounter.what.is_empty() {
            parts.push(encounter.what.clone());
        }
        parts.extend(f.distance_m.map(|m| format!("{m} m away")));
        parts.extend(f.reaction.map(|r| format!("reaction {r} of 4")));
        parts.extend(f.recovery.map(|recovery| recovered(recovery).to_owned()));
        parts.extend(f.towards.map(|w| format!("towards {}", w.in_a_sentence())));
        parts.extend(
            f.broken_skin.map(|b| if b { "skin broken".to_owned() } else { "skin not broken".to_owned() }),
        );
        if !encounter.place_name.is_empty() {
            parts.push(encounter.place_name.clone());
        }
        Self {
            id: encounter.id,
            when: zones::day_and_time(encounter.happened_at, zone, today),
            kind: f.kind.label(),
            facts: parts.join(" · "),
            note: encounter.note.clone(),
            is_new: false,
        }
    }
}

#[derive(Template, WebTemplate)]
#[template(path = "dog_page/log.html")]
struct LogPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    about: String,
    logs: Vec<LogView>,
    older: Option<PracticeLogId>,
    encounters: Vec<EncounterView>,
    /// How much waits to be looked at, and the microsecond until which the page knows of it.
    waiting: usize,
    until: String,
    /// Days off of the last four weeks, and how arrangements were kept in them, a line each.
    told: Vec<String>,
    items: Vec<(PlanItemId, String)>,
}

/// What the page shows beside the sittings.
struct Known {
    encounters: Vec<Encounter>,
    house: House,
    items: Vec<PlanItem>,
    days_off: Vec<DayOff>,
    /// How arrangements were kept: line, week, answer.
    kept: Vec<(LineId, Date, Held)>,
    /// What waits to be looked at.
    waiting: HashSet<Uuid>,
}

impl Known {
    fn of(dog: DogId, today: Date) -> Reading<Self> {
        let from = today - time::Duration::weeks(4);
        (
            encounter::of_dog(dog, None, 50),
            house::find(),
            plan::newest(dog),
            day_off::since(dog, from),
            arrangement_week::since(dog, from),
            look::waiting(dog),
        )
            .together()
            .then(|(encounters, house, plan, days_off, kept, waiting)| {
                let items = plan.map(|plan| plan.items).unwrap_or_default();
                Ok(Self { encounters, house, items, days_off, kept, waiting })
            })
    }

    /// Days off of the last four weeks, and how the arrangements of the plan were kept in them, a line each.
    fn told(&self, today: Date) -> Vec<String> {
        let off = self.days_off.iter().map(|off| {
            let why =
                off.reason.map(|reason| format!(": {}", reason.label().to_lowercase())).unwrap_or_default();
            format!("Not today, {}{why} ({})", zones::day(off.on, today), off.by)
        });
        let kept = self.kept.iter().filter_map(|(line, week_of, held)| {
            let item = self.items.iter().find(|item| item.line_id == *line)?;
            let week = zones::day(*week_of, today);
            Some(format!("{}, week of {week}: kept? {}", item.name, held.label().to_lowercase()))
        });
        off.chain(kept).collect()
    }
}

/// The dog's logs, newest first, and its encounters; `?before=` names the sitting before which the list goes on.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    // before anything that was told is read
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let wanted = match query.get("before") {
        Some(text) => {
            let id = text.parse().map_err(|_| WebError::NotFound)?;
            let log = practice_log::find(&mut who.tx, dog.id, id).await?.ok_or(WebError::NotFound)?;
            Wanted::Before(log.started_at, log.id)
        }
        None => Wanted::Newest,
    };
    let logs = practice_log::of_dog(&mut who.tx, dog.id, wanted, A_PAGE + 1).await?;
    let shown = &logs[..logs.len().min(usize::try_from(A_PAGE).unwrap_or(30))];
    let older = shown.last().map(|log| log.id).filter(|_| logs.len() > shown.len());
    let known = Known::of(dog.id, today).read(&mut who.tx).await?;
    let told = known.told(today);
    let Known { encounters, house: House { numbers, .. }, items, waiting, .. } = known;
    let log_view = |log: &PracticeLog| LogView {
        is_new: waiting.contains(&log.id.0),
        ..LogView::of(log, &numbers, &dog.zone, today)
    };
    let encounter_view = |met: &Encounter| EncounterView {
        is_new: waiting.contains(&met.id.0),
        ..EncounterView::of(met, &dog.zone, today)
    };
    let page = LogPage {
        page: Page::of(&who, format!("{}: log", dog.name), "caseload").with_notice(notice::of(&query)),
        tab: "log",
        about: super::about(&dog, today),
        logs: shown.iter().map(log_view).collect(),
        older,
        told,
        encounters: encounters.iter().map(encounter_view).collect(),
        waiting: waiting.len(),
        until: looks::made_at(moment.at),
        items: items
            .iter()
            .filter(|i| i.kind == ItemKind::Exercise)
            .map(|i| (i.id, i.name.clone()))
            .collect(),
        dog,
    };
    Ok(page.into_response())
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn teeth_and_running_off_stand_in_front() {
        let easy = Sitting { arousal_end: Some(3), minutes: Some(5), ..Sitting::on(date!(2026 - 03 - 12)) };
        assert_eq!(stands_out(&easy, HouseNumbers::as_catalogued()), "5 minutes");
        let grave = Sitting { bite: true, bolted: true, arousal_end: Some(4), ..easy };
        assert_eq!(
            stands_out(&grave, HouseNumbers::as_catalogued()),
            "Bit, bolted, 5 minutes, arousal 4 of 5 at the end"
        );
    }
}
