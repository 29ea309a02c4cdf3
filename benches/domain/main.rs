//! What the rules cost: one readiness update, choosing a limit anew, one log through the whole catalogue.
//!
//! `cargo bench --bench domain` prints medians beside what they should stay under. It fails nothing: no test depends on timing.

use std::hint::black_box;
use std::time::{Duration, Instant};

use settlebrook::domain::dog::DogFacts;
use settlebrook::domain::readiness::{
    CountedSitting, Horizon, Parameters, PlaceMatch, Readiness, smallest_limit,
};
use settlebrook::domain::sitting::Sitting;
use settlebrook::domain::vocabulary::{Energy, Line, SkillClass};
use settlebrook::domain::week::{Asked, lay_out};
use settlebrook::domain::welfare::{HouseNumbers, LogContext, PaidFood, evaluate_log};
use time::macros::date;

/// Rounds of which the median is taken.
const ROUNDS: usize = 201;

/// The median time of one call, out of rounds of `calls` each.
fn median(calls: u32, mut call: impl FnMut()) -> Duration {
    let mut rounds: Vec<Duration> = (0..ROUNDS)
        .map(|_| {
            let began = Instant::now();
            for _ in 0..calls {
                call();
            }
            began.elapsed() / calls
        })
        .collect();
    rounds.sort_unstable();
    rounds[ROUNDS / 2]
}

fn print(what: &str, found: Duration, wanted: &str) {
    println!("{what:<44} {found:>10.2?}   wanted: under {wanted}");
}

fn main() {
    let sitting = CountedSitting {
        local_date: date!(2026 - 03 - 12),
        attempts: 10,
        met: 8,
        trainer_seen: false,
        place: PlaceMatch::AsHard,
    };
    let ordinary = SkillClass::Ordinary;
    let mut state = Readiness::after_moving_on().advance(&sitting, ordinary);
    let update = median(10_000, || state = black_box(state).advance(black_box(&sitting), ordinary));
    print("readiness update", update, "1 µs");

    for (name, class) in [("ordinary", SkillClass::Ordinary), ("safety", SkillClass::Safety)] {
        let parameters = class.parameters();
        let choose = median(1, || {
            black_box(smallest_limit(black_box(&parameters)));
        });
        print(&format!("choosing h, {name}"), choose, "50 ms");
        let far = Parameters { horizon: Horizon::of::<200>(), ..parameters };
        let choose = median(1, || {
            black_box(smallest_limit(black_box(&far)));
        });
        print(&format!("choosing h, {name}, 200 attempts"), choose, "50 ms");
    }

    let earlier = Sitting {
        energy: Some(Energy::Arousing),
        line: Some(Line::LongLine),
        attempts: Some(10),
        met: Some(4),
        rewarded: Some(3),
        minutes: Some(30),
        arousal_before: Some(2),
        arousal_end: Some(5),
        bolted: true,
        ..Sitting::on(date!(2026 - 03 - 11))
    };
    let recent = vec![earlier.clone(); 30];
    let dog = DogFacts { name: "Moss".to_owned(), ..DogFacts::default() };
    let context = LogContext {
        sitting: &earlier,
        dog: &dog,
        recent: &recent,
        encounters: &[],
        paid: PaidFood { with: Some("cheddar cubes"), over_seven_days: &[] },
        numbers: HouseNumbers::as_catalogued(),
        not_used: &[],
    };
    let evaluate = median(1_000, || {
        black_box(evaluate_log(black_box(&context)));
    });
    print("one log through the catalogue", evaluate, "20 µs");

    let asked = |times_a_week, energetic| Asked { times_a_week, minutes: Some(5), energetic };
    let plan = [asked(5, false), asked(2, true), asked(3, false), asked(1, true), asked(7, false)];
    let days = [true, true, false, true, true, true, true];
    let week = median(1_000, || {
        black_box(lay_out(black_box(&plan), days, 10));
    });
    print("laying out a week", week, "1 ms");
}
