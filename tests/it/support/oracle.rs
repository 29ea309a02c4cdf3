//! What is kept of a dog, worked out by another way: from the raw rows of what people told, changed, removed, answered and
//! decided, with nothing of `store` and `actions`. The rules and the chart themselves are `domain`'s, and tested there.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use settlebrook::domain::dog::DogFacts;
use settlebrook::domain::encounter::EncounterFacts;
use settlebrook::domain::place::PlaceFacts;
use settlebrook::domain::readiness::{CountedSitting, Readiness};
use settlebrook::domain::sitting::{Planned, Sitting};
use settlebrook::domain::vocabulary::{EncounterKind, Looked, Severity, SkillClass, Word};
use settlebrook::domain::weather::Weather;
use settlebrook::domain::welfare::{
    EncounterContext, Finding, HouseNumbers, LogContext, PaidFood, evaluate_encounter, evaluate_log, rule,
};
use sqlx::{AssertSqlSafe, PgConnection};
use time::macros::format_description;
use time::{Date, Duration, OffsetDateTime};
use uuid::Uuid;

use super::World;

/// How many days lie around an incident in which another one stands beside it.
const WINDOW: i64 = 30;
/// How many sittings rules look back over.
const LOOK_BACK: usize = 30;

fn word<W: Word>(row: &Value, name: &str) -> Option<W> {
    row[name].as_str().and_then(W::from_stored)
}

fn number(row: &Value, name: &str) -> Option<i16> {
    row[name].as_i64().and_then(|n| i16::try_from(n).ok())
}

fn yes(row: &Value, name: &str) -> bool {
    row[name] == json!(true)
}

fn id(row: &Value, name: &str) -> Uuid {
    row[name].as_str().and_then(|text| text.parse().ok()).unwrap_or_default()
}

fn day(row: &Value, name: &str) -> Date {
    let text = row[name].as_str().expect("a day");
    Date::parse(text, format_description!("[year]-[month]-[day]")).expect("a day")
}

fn at(row: &Value, name: &str) -> OffsetDateTime {
    let text = row[name].as_str().expect("an instant");
    OffsetDateTime::parse(text, &time::format_description::well_known::Rfc3339).expect("an instant")
}

/// Every row of a query as JSON.
async fn rows(raw: &mut PgConnection, query: &str) -> Vec<Value> {
    let query = format!("select to_jsonb(found) from ({query}) found");
    let found: Vec<sqlx::types::Json<Value>> =
        sqlx::query_scalar(AssertSqlSafe(query.clone())).fetch_all(raw).await.expect(&query);
    found.into_iter().map(|row| row.0).collect()
}

/// A sitting with the plan that it is laid over, from a row of the log and of the plan's item.
fn sitting(log: &Value, item: &Value) -> Sitting {
    let signs = log["health_signs"].as_array().cloned().unwrap_or_default();
    Sitting {
        plan_line: Some(id(log, "line_id").into()),
        step: log["step_id"].as_str().map(|_| id(log, "step_id").into()),
        exercise: item["name"].as_str().map(str::to_owned),
        energy: word(item, "energy"),
        impact: Some(yes(item, "impact")),
        class: word(item, "class"),
        outcome: word(item, "outcome"),
        planned: Planned {
            line: word(item, "line"),
            clip: word(item, "clip"),
            attempts: number(item, "attempts"),
            minutes: number(item, "minutes"),
            cool_down_minutes: number(item, "cool_down_minutes"),
            times_a_week: number(item, "times_a_week"),
            distraction: number(item, "place_distraction"),
            line_metres: number(item, "line_metres"),
            reinforcer_rank: number(item, "reinforcer_rank"),
            step_position: number(item, "step_position"),
        },
        place: place(log, item),
        weather: Weather {
            air_c: log["air_c"].as_f64(),
            humidity: number(log, "humidity"),
            felt: word(log, "felt"),
            in_sun: log["in_sun"].as_bool(),
            hot_ground: log["hot_ground"].as_bool(),
        },
        child_held_line: log["child_held_line"].as_bool(),
        loop_round_hand: log["loop_round_hand"].as_bool(),
        muzzle_worn: log["muzzle_worn"].as_bool(),
        had_break: log["had_break"].as_bool(),
        line: word(log, "line"),
        clip: word(log, "clip"),
        equipment: word(log, "equipment_basis"),
        place_distraction: number(log, "place_distraction"),
        busy: word(log, "busy"),
        minutes: number(log, "minutes"),
        attempts: number(log, "attempts"),
        met: number(log, "met"),
        rewarded: number(log, "rewarded"),
        arousal_before: number(log, "arousal_before"),
        arousal_end: number(log, "arousal_end"),
        took_food: word(log, "took_food"),
        looked: word(log, "looked"),
        recovery: word(log, "recovery"),
        finish: word(log, "finish"),
        cool_down_minutes: number(log, "cool_down_minutes"),
        health_signs: signs.iter().filter_map(|sign| Word::from_stored(sign.as_str()?)).collect(),
        bolted: yes(log, "bolted"),
        bite: yes(log, "bite"),
        trainer_seen: yes(log, "trainer_seen"),
        ..Sitting::on(day(log, "local_date"))
    }
}

/// What is known of the planned place, where it was there. No history allows a dog off lead.
fn place(log: &Value, item: &Value) -> PlaceFacts {
    if log["place_name"] != item["place_name"] {
        return PlaceFacts::default();
    }
    PlaceFacts {
        secure: item["place_secure"].as_bool(),
        near_road: item["place_near_road"].as_bool(),
        road_metres: number(item, "place_road_metres"),
        off_lead_allowed: item["place_id"].as_str().map(|_| false),
    }
}

fn encounter(row: &Value) -> EncounterFacts {
    let kind: EncounterKind = word(row, "kind").expect("a kind");
    EncounterFacts {
        towards: word(row, "towards"),
        broken_skin: row["skin_broken"].as_bool(),
        distance_m: row["distance_m"].as_f64().map(|metres| metres.round() as i16),
        reaction: number(row, "reaction"),
        recovery: word(row, "recovery"),
        looked: match (yes(row, "froze"), yes(row, "playful")) {
            (true, _) => Some(Looked::Frozen),
            (false, playful) => playful.then_some(Looked::Loose),
        },
        warned: row["warned"].as_bool(),
        happened_at: Some(at(row, "happened_at")),
        line: word(row, "line"),
        ..EncounterFacts::on(day(row, "local_date"), kind)
    }
}

/// Everything that was told of one dog.
struct Told {
    dog: DogFacts,
    /// Logs with the plan's items, removed ones included.
    logs: Vec<(Value, Value)>,
    encounters: Vec<Value>,
    flags: Vec<Value>,
}

async fn told(raw: &mut PgConnection, dog: Uuid) -> Told {
    let of_dog = |table: &str| format!("select * from {table} where dog_id = '{dog}'");
    let items = rows(raw, &of_dog("plan_item")).await;
    let item =
        |log: &Value| items.iter().find(|item| item["id"] == log["plan_item_id"]).expect("an item").clone();
    let logs = rows(raw, &of_dog("practice_log")).await.into_iter().map(|log| {
        let item = item(&log);
        (log, item)
    });
    let logs = logs.collect();
    let known = rows(raw, &format!("select * from dog where id = '{dog}'")).await.remove(0);
    let dog_facts = DogFacts {
        name: known["name"].as_str().unwrap_or_default().to_owned(),
        sex: word(&known, "sex"),
        born: known["birth_date"].as_str().map(|_| day(&known, "birth_date")),
        expected_adult_kg: known["expected_adult_kg"].as_f64(),
        bite_on_record: yes(&known, "bite_on_record"),
        ..DogFacts::default()
    };
    let encounters = rows(raw, &of_dog("encounter")).await;
    Told { dog: dog_facts, logs, encounters, flags: rows(raw, &of_dog("welfare_flag")).await }
}

fn stands(row: &Value) -> bool {
    row["deleted_at"].is_null()
}

impl Told {
    /// The bites, growls and snaps that stand beside something of a day, of those told before it.
    fn beside(&self, told: OffsetDateTime, on: Date, kind: Option<EncounterKind>) -> Vec<EncounterFacts> {
        let is_sitting = kind.is_none();
        let near = |row: &Value| {
            stands(row)
                && at(row, "received_at") < told
                && (day(row, "local_date") - on).whole_days().abs() <= WINDOW
        };
        let met = self.encounters.iter().filter(|row| near(row)).map(encounter);
        let met = met.filter(|met| matches!(met.kind, EncounterKind::Bite | EncounterKind::GrowlOrSnap));
        let twice = |kind: EncounterKind, day: Date| kind == EncounterKind::Bite && day == on;
        let met = met.filter(|met| !is_sitting || !twice(met.kind, met.local_date));
        let bitten = self.logs.iter().filter(|(log, _)| near(log) && yes(log, "bite"));
        let bitten = bitten.map(|(log, _)| EncounterFacts::on(day(log, "local_date"), EncounterKind::Bite));
        let bitten = bitten.filter(|bite| kind != Some(EncounterKind::Bite) || bite.local_date != on);
        met.chain(bitten).collect()
    }

    /// Reactions of the days around, of those told before.
    fn reactions(&self, told: OffsetDateTime, on: Date) -> impl Iterator<Item = EncounterFacts> {
        let near = move |row: &&Value| {
            stands(row)
                && at(row, "received_at") < told
                && (day(row, "local_date") - on).whole_days().abs() <= 1
        };
        let met = self.encounters.iter().filter(near).map(encounter);
        met.filter(|met| met.kind == EncounterKind::Reaction)
    }

    /// The dog with what stood on record once this was told.
    fn dog_at(&self, told: OffsetDateTime) -> DogFacts {
        let by_then = |row: &&Value| stands(row) && at(row, "received_at") <= told;
        let met = |kinds: &[&str]| {
            let mut met = self.encounters.iter().filter(by_then);
            met.any(|row| kinds.iter().any(|kind| row["kind"] == *kind))
        };
        let ran = self.logs.iter().map(|(log, _)| log).filter(by_then).any(|log| yes(log, "bolted"));
        DogFacts {
            growl_on_record: met(&["growl_or_snap", "guarded"]),
            has_bolted: ran || met(&["bolted"]),
            ..self.dog.clone()
        }
    }

    /// What the rules find in a sitting beside what was told before it.
    fn in_log(&self, log: &Value, item: &Value) -> Vec<Finding> {
        let told = at(log, "received_at");
        let began = |log: &Value| (at(log, "started_at"), id(log, "id"));
        let mut earlier: Vec<_> = self
            .logs
            .iter()
            .filter(|(other, _)| {
                stands(other) && at(other, "received_at") < told && began(other) < began(log)
            })
            .collect();
        earlier.sort_by_key(|(other, _)| std::cmp::Reverse(began(other)));
        let recent: Vec<Sitting> =
            earlier.into_iter().take(LOOK_BACK).map(|(log, item)| sitting(log, item)).collect();
        let facts = sitting(log, item);
        let encounters = self.beside(told, facts.local_date, None);
        let with = item["reinforcer_name"].as_str().filter(|name| !name.is_empty());
        evaluate_log(&LogContext {
            sitting: &facts,
            dog: &self.dog_at(told),
            recent: &recent,
            encounters: &encounters,
            // nobody weighs the dog, and without a weight its food is not judged
            paid: PaidFood { with, over_seven_days: &[] },
            numbers: HouseNumbers::as_catalogued(),
            not_used: &[],
        })
    }

    fn in_encounter(&self, row: &Value) -> Vec<Finding> {
        let facts = encounter(row);
        let told = at(row, "received_at");
        let mut recent = self.beside(told, facts.local_date, Some(facts.kind));
        recent.extend(self.reactions(told, facts.local_date));
        let numbers = HouseNumbers::as_catalogued();
        let dog = self.dog_at(told);
        evaluate_encounter(&EncounterContext { encounter: &facts, dog: &dog, recent: &recent, numbers })
    }

    /// Fails where the flags are not what the rules find.
    fn flags_are_what_is_found(&self) {
        let in_logs = self.logs.iter().map(|(log, item)| (log, self.in_log(log, item)));
        let in_encounters = self.encounters.iter().map(|row| (row, self.in_encounter(row)));
        let mut explained = Vec::new();
        for (row, findings) in in_logs.chain(in_encounters).filter(|(row, _)| stands(row)) {
            for finding in findings {
                let flag = self
                    .flags
                    .iter()
                    .find(|flag| flag["subject_id"] == row["id"] && flag["rule"] == finding.rule.id);
                let flag = flag.unwrap_or_else(|| panic!("no flag for {finding:?} in {row}"));
                assert_eq!(flag["local_date"], row["local_date"], "{flag}");
                let severity: Severity = word(flag, "severity").expect("a severity");
                match flag["state"].as_str() {
                    Some("open") => {
                        assert_eq!(
                            (severity, flag["seen"].as_str()),
                            (finding.severity, Some(&*finding.seen)),
                            "{row}"
                        );
                        explained.push(flag["id"].clone());
                    }
                    Some("answered") => assert!(severity >= finding.severity, "{flag}: {finding:?}"),
                    _ => panic!("{flag} is withdrawn, and found: {finding:?}"),
                }
            }
        }
        for flag in self.flags.iter().filter(|flag| flag["state"] == "open") {
            assert!(explained.contains(&flag["id"]), "nothing is found for {flag}");
        }
    }

    /// The open flag that is read first.
    fn top_flag(&self) -> Value {
        let open = self.flags.iter().filter(|flag| flag["state"] == "open");
        let top = open.max_by_key(|flag| {
            let severity: Severity = word(flag, "severity").expect("a severity");
            let gravity = rule(flag["rule"].as_str().unwrap_or_default()).expect("a rule").gravity(severity);
            (gravity, at(flag, "raised_at"), id(flag, "id"))
        });
        top.map_or(Value::Null, |flag| flag["id"].clone())
    }

    /// Each day's sittings and gravest flag.
    fn days(&self) -> BTreeMap<Date, (i64, Option<Severity>)> {
        let mut days: BTreeMap<Date, (i64, Option<Severity>)> = BTreeMap::new();
        for (log, _) in self.logs.iter().filter(|(log, item)| stands(log) && item["kind"] == "exercise") {
            days.entry(day(log, "local_date")).or_default().0 += 1;
        }
        for flag in self.flags.iter().filter(|flag| flag["state"] != "withdrawn") {
            let gravest = &mut days.entry(day(flag, "local_date")).or_default().1;
            *gravest = (*gravest).max(word(flag, "severity"));
        }
        days
    }

    /// When the last trouble was, and the last bite: what stands of what was flagged as that.
    fn last_trouble(&self, is_bite: bool) -> Option<OffsetDateTime> {
        let flagged = self.flags.iter().filter(|flag| {
            let rule = flag["rule"].as_str().unwrap_or_default();
            let is_trouble = flag["severity"] == "stop" || ["bite", "bolted", "not_coping"].contains(&rule);
            flag["state"] != "withdrawn" && if is_bite { rule == "bite" } else { is_trouble }
        });
        let happened = flagged.map(|flag| {
            let log = self.logs.iter().find(|(log, _)| log["id"] == flag["subject_id"]);
            let met =
                || self.encounters.iter().find(|row| row["id"] == flag["subject_id"]).expect("its subject");
            log.map_or_else(|| at(met(), "happened_at"), |(log, _)| at(log, "started_at"))
        });
        happened.max()
    }
}

/// What a log said, from when on; nothing where it was removed.
type Versions = Vec<(OffsetDateTime, Option<Value>)>;

/// A stream as it should stand.
struct Stream {
    line: Uuid,
    step: Uuid,
    class: SkillClass,
    state: Readiness,
    last: (OffsetDateTime, Uuid),
    waiting: bool,
}

/// Under which terms a line's step is counted.
struct Terms<'a> {
    /// The number of the plan with which evidence began anew; 0 where it never did.
    since: i64,
    /// Whether the line came up to the step, so that it is watched for decline.
    is_watched: bool,
    /// The item of the latest plan that has the step.
    chosen: &'a Value,
}

impl<'a> Terms<'a> {
    /// Of every line and step that was planned; the items come by line and plan.
    fn of(planned: &'a [Value]) -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        for (index, item) in planned.iter().enumerate().filter(|(_, item)| !item["step_id"].is_null()) {
            let before =
                index.checked_sub(1).map(|i| &planned[i]).filter(|b| b["line_id"] == item["line_id"]);
            let came = before.filter(|b| !b["step_id"].is_null() && b["step_id"] != item["step_id"]);
            let is_reworded = before
                .is_some_and(|b| b["step_id"] == item["step_id"] && b["criterion"] != item["criterion"]);
            let number = item["number"].as_i64().expect("a number");
            let known = |terms: &Self| {
                terms.chosen["line_id"] == item["line_id"] && terms.chosen["step_id"] == item["step_id"]
            };
            let place = all.iter().position(known).unwrap_or_else(|| {
                all.push(Self { since: 0, is_watched: false, chosen: item });
                all.len() - 1
            });
            let terms = &mut all[place];
            terms.chosen = item;
            if came.is_some() || is_reworded {
                terms.since = number;
            }
            if let Some(before) = came {
                terms.is_watched = before["exercise_id"] == item["exercise_id"]
                    && item["step_position"].as_i64() > before["step_position"].as_i64();
            }
        }
        all
    }
}

/// Every stream of a dog, lived through again: after each thing that was told, changed, removed or decided, everything is
/// counted from the beginning.
async fn streams(raw: &mut PgConnection, dog: Uuid, told: &Told) -> Vec<Stream> {
    let revisions =
        rows(raw, &format!("select * from log_revision where dog_id = '{dog}' order by number")).await;
    let decisions = rows(raw, &format!("select * from decision where dog_id = '{dog}'")).await;
    let planned = rows(
        raw,
        &format!(
            "select i.*, v.number from plan_item i join plan_version v on v.id = i.plan_version_id
             where i.dog_id = '{dog}' order by i.line_id, v.number"
        ),
    )
    .await;
    let mut streams = Vec::new();
    for chosen in Terms::of(&planned) {
        let Terms { since, is_watched, chosen } = chosen;
        let number_of = |log: &Value| {
            let item = planned.iter().find(|item| item["id"] == log["plan_item_id"]);
            item.and_then(|item| item["number"].as_i64()).expect("an item of a plan")
        };
        let is_of = |row: &Value| row["line_id"] == chosen["line_id"] && row["step_id"] == chosen["step_id"];
        // for each log, what it said from when on
        let versions: Vec<(Uuid, Versions, &Value)> = told
            .logs
            .iter()
            .filter(|(log, _)| is_of(log) && number_of(log) >= since)
            .map(|(log, item)| {
                let mut since = at(log, "received_at");
                let mut said = Vec::new();
                for revision in revisions.iter().filter(|r| r["practice_log_id"] == log["id"]) {
                    said.push((since, Some(revision["before"].clone())));
                    since = at(revision, "at");
                }
                said.push((since, Some(log.clone()).filter(stands)));
                (id(log, "id"), said, item)
            })
            .collect();
        let told_at = versions.iter().flat_map(|(_, said, _)| said.iter().map(|(at, _)| (*at, false)));
        let decided_at = decisions.iter().filter(|row| is_of(row)).map(|row| (at(row, "decided_at"), true));
        let mut instants: Vec<(OffsetDateTime, bool)> = told_at.chain(decided_at).collect();
        instants.sort_unstable();
        let class: SkillClass = word(chosen, "class").expect("a class");
        let begun = if is_watched { Readiness::after_moving_on() } else { Readiness::default() };
        let (mut before, mut waiting, mut last) = (begun, false, None);
        for (now, is_decision) in instants {
            if is_decision {
                waiting = false;
                continue;
            }
            let mut counted: Vec<((OffsetDateTime, Uuid), CountedSitting)> = versions
                .iter()
                .filter_map(|(log, said, item)| {
                    let said = said.iter().rfind(|(at, _)| *at <= now)?.1.as_ref()?;
                    let counted = CountedSitting::from_sitting(&sitting(said, item))?;
                    Some(((at(said, "started_at"), *log), counted))
                })
                .collect();
            counted.sort_by_key(|(began, _)| *began);
            let state = begun.replay(counted.iter().map(|(_, counted)| counted), class);
            let (was, is) = (before.verdict(class), state.verdict(class));
            waiting = is.waits_for_trainer() && (waiting || was != is);
            before = state;
            last = counted.last().map(|(began, _)| *began);
        }
        if let Some(last) = last {
            let (line, step) = (id(chosen, "line_id"), id(chosen, "step_id"));
            streams.push(Stream { line, step, class, state: before, last, waiting });
        }
    }
    streams
}

impl Stream {
    fn row(&self) -> (Value, OffsetDateTime) {
        let s = &self.state;
        let mut row = json!({
            "line_id": self.line, "step_id": self.step, "class": self.class.stored(), "last_log_id": self.last.1,
            "waiting": self.waiting,
            "state": {
                "score": s.score, "attempts": s.attempts, "met": s.met, "sittings": s.sittings, "days": s.days,
                "first_day": s.first_day, "last_day": s.last_day, "trainer_seen": s.trainer_seen,
                "shown_only": s.shown_only, "signalled_on": s.signalled_on,
            },
        });
        if let Some(watch) = s.decline {
            row["state"]["decline"] = json!({ "score": watch.score, "relapsed_on": watch.relapsed_on });
        }
        (row, self.last.0)
    }
}

/// Fails unless what is kept of a dog is what people told, changed, removed, answered and decided.
pub async fn is_kept_as_told(world: &World, dog: Uuid) {
    let raw = &mut world.database.as_superuser().await;
    let told = told(raw, dog).await;
    told.flags_are_what_is_found();
    let streams = streams(raw, dog, &told).await;
    let kept = rows(raw, &format!("select * from readiness where dog_id = '{dog}'")).await;
    assert_eq!(kept.len(), streams.len(), "{kept:#?}");
    for stream in &streams {
        let (row, last) = stream.row();
        let kept =
            kept.iter().find(|kept| kept["line_id"] == row["line_id"] && kept["step_id"] == row["step_id"]);
        let kept = kept.unwrap_or_else(|| panic!("nothing is kept of {row}"));
        for (name, value) in row.as_object().expect("an object") {
            assert_eq!(&kept[name], value, "{name} of {kept}");
        }
        assert_eq!(at(kept, "last_started_at"), last);
    }
    let days: BTreeMap<_, _> = rows(raw, &format!("select * from dog_day where dog_id = '{dog}'"))
        .await
        .iter()
        .map(|row| (day(row, "local_date"), (row["sittings"].as_i64().unwrap_or(-1), word(row, "severity"))))
        .collect();
    assert_eq!(days, told.days());
    let summary = rows(raw, &format!("select * from dog_summary where dog_id = '{dog}'")).await.remove(0);
    summary_says(raw, dog, &summary, &told, &streams).await;
}

async fn summary_says(raw: &mut PgConnection, dog: Uuid, summary: &Value, told: &Told, streams: &[Stream]) {
    let instant = |name: &str| summary[name].as_str().map(|_| at(summary, name));
    let standing: Vec<&Value> = told.logs.iter().map(|(log, _)| log).filter(|log| stands(log)).collect();
    assert_eq!(summary["logs"], standing.len());
    assert_eq!(instant("last_log_at"), standing.iter().map(|log| at(log, "started_at")).max());
    let last_on = standing.iter().map(|log| day(log, "local_date")).max();
    assert_eq!(summary["last_log_on"].as_str().map(|_| day(summary, "last_log_on")), last_on);
    assert_eq!(instant("last_trouble_at"), told.last_trouble(false));
    assert_eq!(instant("last_bite_at"), told.last_trouble(true));
    let open: Vec<&Value> = told.flags.iter().filter(|flag| flag["state"] == "open").collect();
    let due = open.iter().filter_map(|flag| {
        let at_once =
            ["vet_now", "heat_illness", "harmful_food_paid"].iter().any(|rule| flag["rule"] == *rule);
        let hours = match (flag["severity"] == "stop", at_once) {
            (true, true) => 4,
            (true, false) => 24,
            (false, _) if flag["rule"] == "not_coping" => 24,
            (false, _) => return None,
        };
        Some(at(flag, "raised_at") + Duration::hours(hours))
    });
    assert_eq!(instant("answer_due"), due.min());
    let of = |severity: &str| open.iter().filter(|flag| flag["severity"] == severity).count();
    let is_open = |rules: &[&str]| open.iter().any(|flag| rules.iter().any(|rule| flag["rule"] == *rule));
    let troubles = ["bolted", "second_incident", "growl_at_child", "not_coping"];
    let expected = json!({
        "open_stops": of("stop"), "open_cautions": of("caution"), "open_notices": of("notice"),
        "top_flag_id": told.top_flag(), "not_coping_open": is_open(&["not_coping"]), "bite_open": is_open(&["bite"]),
        "trouble_open": is_open(&troubles) || of("stop") > 0,
    });
    for (name, value) in expected.as_object().expect("an object") {
        assert_eq!(&summary[name], value, "{name} of {summary}");
    }
    let current = "select i.line_id, i.step_id, i.name, i.step_name, i.kind, i.times_a_week, i.plan_version_id from plan_item i";
    let current = format!(
        "{current} where i.plan_version_id = (select id from plan_version where dog_id = '{dog}' order by number desc limit 1)"
    );
    let items = rows(raw, &current).await;
    let mut waiting: Vec<(OffsetDateTime, Uuid, String)> = Vec::new();
    for stream in streams.iter().filter(|stream| stream.waiting) {
        let item = items.iter().find(|i| id(i, "line_id") == stream.line && id(i, "step_id") == stream.step);
        waiting.extend(item.map(|item| {
            let text = |name: &str| item[name].as_str().unwrap_or_default().to_owned();
            (stream.last.0, stream.line, format!("{}, {}", text("name"), text("step_name")))
        }));
    }
    waiting.sort();
    assert_eq!(summary["decisions_waiting"], waiting.len(), "{summary}");
    assert_eq!(
        summary["decision_waits_on"],
        waiting.first().map_or("", |first| first.2.as_str()),
        "{summary}"
    );
    let exercises: Vec<&Value> = items.iter().filter(|item| item["kind"] == "exercise").collect();
    let times: i64 = exercises.iter().filter_map(|item| item["times_a_week"].as_i64()).sum();
    assert_eq!(
        (&summary["planned_items"], &summary["planned_times_a_week"]),
        (&json!(exercises.len()), &json!(times))
    );
    assert_eq!(
        summary["plan_version_id"],
        items.first().map_or(Value::Null, |item| item["plan_version_id"].clone())
    );
}
