use super::super::vocabulary::LifeKind;
use super::*;
use proptest::prelude::*;
use time::Duration;
use time::macros::{date, datetime};
use uuid::Uuid;

const TODAY: Date = date!(2025 - 06 - 20);

fn dog() -> DogState {
    DogState {
        dog: DogId(Uuid::from_u128(1)),
        name: "Bracken".to_owned(),
        phase: Phase::Active,
        rest: None,
        has_plan: true,
        plan_since: Some(date!(2025 - 05 - 01)),
        planned_times_a_week: Some(4),
        review_due_on: None,
        last_log_on: Some(date!(2025 - 06 - 19)),
        open_stops: 0,
        open_cautions: 0,
        open_notices: 0,
        last_bite_on: None,
        last_trouble_on: None,
        not_coping_open: false,
        trouble_besides_on: None,
        bite_open: false,
        trouble_open: false,
        questions_waiting: 0,
        decisions_waiting: 0,
        waiting_since: None,
    }
}

fn need(change: impl FnOnce(&mut DogState)) -> (Need, String) {
    let mut dog = dog();
    change(&mut dog);
    let standing = dog.standing(TODAY, &HouseNumbers::default());
    (standing.need, standing.reasons.join("; "))
}

#[test]
fn every_need_has_its_reason_in_words() {
    let days_ago = |days| Some(TODAY - Duration::days(days));
    let said = |need, words: &str| (need, words.to_owned());
    assert_eq!(need(|_| ()), said(Need::GoingWell, "Practised yesterday"));
    assert_eq!(need(|d| d.open_stops = 2), said(Need::NewStop, "2 stops open"));
    assert_eq!(need(|d| d.questions_waiting = 1), said(Need::Question, "1 question waiting"));
    assert_eq!(need(|d| d.decisions_waiting = 2), said(Need::Decision, "2 decisions waiting"));
    assert_eq!(need(|d| d.open_cautions = 1), said(Need::Caution, "1 caution open"));
    assert_eq!(need(|d| d.not_coping_open = true), said(Need::NotCoping, "Owner is not coping"));
    assert_eq!(need(|d| d.review_due_on = Some(TODAY)), said(Need::ReviewDue, "Plan due for a look"));
    assert_eq!(need(|d| d.has_plan = false).0, Need::New);
    assert_eq!(need(|d| d.last_log_on = days_ago(9)), said(Need::GoneQuiet, "Nothing logged for 9 days"));
    assert_eq!(
        need(|d| (d.last_log_on, d.last_trouble_on) = (days_ago(9), days_ago(9))),
        said(Need::QuietAfterTrouble, "Nothing logged for 9 days")
    );
    assert_eq!(need(|d| d.phase = Phase::Maintaining), said(Need::Resting, "Maintaining"));
    let away = Rest::of(LifeKind::Holiday, TODAY, TODAY.checked_add(Duration::days(9)));
    let words = away.expect("it rests").words(TODAY);
    assert_eq!(need(|d| d.rest = away), said(Need::Resting, &words));
    // silence is no news meanwhile; what waits does
    assert_eq!(need(|d| (d.rest, d.last_log_on) = (away, days_ago(40))), said(Need::Resting, &words));
    assert_eq!(
        need(|d| (d.rest, d.questions_waiting) = (away, 1)),
        said(Need::Question, "1 question waiting")
    );
}

#[test]
fn a_bite_is_new_for_a_week_while_unanswered() {
    let bite = |days: i64, open: bool| {
        need(|d| {
            (d.open_cautions, d.bite_open) = (1, open);
            d.last_bite_on = Some(TODAY - Duration::days(days));
        })
    };
    assert_eq!(bite(2, true), (Need::NewStop, "Bite 2 days ago; 1 caution open".to_owned()));
    assert_eq!(bite(7, true).0, Need::Caution);
    assert_eq!(
        bite(2, false),
        (Need::Caution, "1 caution open; Bite 2 days ago, answered".to_owned()),
        "answered; the caution is another's"
    );
}

#[test]
fn what_was_grave_is_not_going_well_a_week_long_though_it_was_answered() {
    let days_ago = |days| Some(TODAY - Duration::days(days));
    let bite = |days| need(|d| (d.last_bite_on, d.last_trouble_on) = (days_ago(days), days_ago(days)));
    assert_eq!(bite(2), (Need::AfterTrouble, "Bite 2 days ago, answered".to_owned()));
    assert_eq!(bite(6).0, Need::AfterTrouble);
    assert_eq!(bite(7).0, Need::GoingWell);
    let ran_off = need(|d| (d.last_bite_on, d.last_trouble_on) = (days_ago(9), days_ago(1)));
    assert_eq!(ran_off, (Need::AfterTrouble, "Something happened yesterday, answered".to_owned()));
    let paused = need(|d| (d.phase, d.last_bite_on) = (Phase::Paused, days_ago(1)));
    assert_eq!(paused.0, Need::AfterTrouble, "a dog that rests as well");
}

#[test]
fn unanswered_trouble_is_an_incident_and_answered_trouble_is_none() {
    let trouble =
        |open| need(|d| (d.open_cautions, d.last_trouble_on, d.trouble_open) = (1, Some(TODAY), open));
    assert_eq!(trouble(true), (Need::Incident, "Something happened today; 1 caution open".to_owned()));
    assert_eq!(
        trouble(false),
        (Need::Caution, "1 caution open; Something happened today, answered".to_owned())
    );
}

#[test]
fn not_coping_is_said_once_and_hides_nothing_else_that_happened() {
    let yesterday = TODAY - Duration::days(1);
    let not_coping = |besides| {
        need(|d| {
            (d.not_coping_open, d.trouble_open, d.last_trouble_on) = (true, true, Some(TODAY));
            d.trouble_besides_on = besides;
        })
    };
    assert_eq!(not_coping(None), (Need::NotCoping, "Owner is not coping, said today".to_owned()));
    assert_eq!(
        not_coping(Some(yesterday)),
        (Need::NotCoping, "Owner is not coping, said today; Something happened yesterday".to_owned())
    );
}

#[test]
fn a_resting_dog_is_silent_but_its_stop_is_not() {
    let long_ago = Some(date!(2025 - 01 - 01));
    assert_eq!(need(|d| (d.phase, d.last_log_on) = (Phase::Paused, long_ago)).0, Need::Resting);
    assert_eq!(need(|d| (d.phase, d.open_stops) = (Phase::Paused, 1)).0, Need::NewStop);
}

#[test]
fn who_waits_longest_comes_first() {
    let at = |waiting_since| {
        let state = DogState { questions_waiting: 1, waiting_since, ..dog() };
        state.standing(TODAY, &HouseNumbers::default()).rank
    };
    let earlier = at(Some(datetime!(2025-06-18 08:00 UTC)));
    let later = at(Some(datetime!(2025-06-19 08:00 UTC)));
    assert!(earlier < later && later < at(None));
}

#[test]
fn needs_are_listed_in_their_order() {
    assert!(Need::ALL.windows(2).all(|pair| pair[0] < pair[1]));
}

fn states() -> impl Strategy<Value = Vec<DogState>> {
    let day = || prop::option::of((0_i64..40).prop_map(|days| TODAY - Duration::days(days)));
    let phase = prop::sample::select(vec![Phase::Active, Phase::Maintaining, Phase::Paused]);
    let counts = (0_i32..3, 0_i32..3, 0_i32..2, 0_i32..2);
    let flags = (any::<bool>(), any::<bool>(), any::<bool>(), any::<bool>(), any::<bool>());
    let one = (phase, counts, flags, (day(), day(), day(), day()));
    prop::collection::vec(one, 0..20).prop_map(|dogs| {
        let build = |(index, (phase, counts, flags, days)): (usize, _)| {
            let (open_stops, open_cautions, questions_waiting, decisions_waiting) = counts;
            let (not_coping_open, has_plan, on_holiday, bite_open, trouble_open) = flags;
            let (last_log_on, last_bite_on, last_trouble_on, review_due_on) = days;
            DogState {
                dog: DogId(Uuid::from_u128(index as u128)),
                phase,
                open_stops,
                open_cautions,
                questions_waiting,
                decisions_waiting,
                not_coping_open,
                bite_open,
                trouble_open,
                has_plan,
                rest: Rest::of(LifeKind::Illness, TODAY, None).filter(|_| on_holiday),
                last_log_on,
                last_bite_on,
                last_trouble_on,
                review_due_on,
                waiting_since: (questions_waiting > 0)
                    .then(|| datetime!(2025-06-10 08:00 UTC) + Duration::hours(index as i64 * 7 % 90)),
                trouble_besides_on: last_bite_on.filter(|_| not_coping_open && trouble_open),
                ..dog()
            }
        };
        dogs.into_iter().enumerate().map(build).collect()
    })
}

/// What raises a need, in words.
type Raise = (&'static str, fn(&mut DogState));

/// Everything that raises what a dog needs.
const RAISES: [Raise; 10] = [
    ("one more stop", |d| d.open_stops += 1),
    ("a bite today", |d| (d.bite_open, d.last_bite_on, d.last_trouble_on) = (true, Some(TODAY), Some(TODAY))),
    ("a bite of before is open again", |d| d.bite_open = d.bite_open || d.last_bite_on.is_some()),
    ("not coping", |d| {
        (d.trouble_besides_on, d.not_coping_open) = (d.last_trouble_on.filter(|_| d.trouble_open), true);
        (d.trouble_open, d.last_trouble_on) = (true, Some(TODAY));
    }),
    ("ran off today", |d| {
        (d.trouble_open, d.last_trouble_on) = (true, Some(TODAY));
        d.trouble_besides_on = Some(TODAY);
    }),
    ("a question", |d| {
        d.questions_waiting += 1;
        d.waiting_since = d.waiting_since.or(Some(datetime!(2025-06-19 08:00 UTC)));
    }),
    ("the question waits for longer", |d| {
        d.waiting_since = d.waiting_since.map(|since| since - Duration::days(3));
    }),
    ("a decision", |d| d.decisions_waiting += 1),
    ("one more caution", |d| d.open_cautions += 1),
    ("the plan is due", |d| d.review_due_on = Some(TODAY)),
];

fn ordered(mut states: Vec<DogState>) -> Vec<DogId> {
    states.sort_by_cached_key(|state| state.standing(TODAY, &HouseNumbers::default()).rank);
    states.into_iter().map(|state| state.dog).collect()
}

proptest! {
    #[test]
    fn the_order_does_not_depend_on_the_order_read(states in states(), turn in 0_usize..20) {
        let mut turned = states.clone();
        turned.reverse();
        let by = turn.checked_rem(turned.len()).unwrap_or(0);
        turned.rotate_left(by);
        prop_assert_eq!(ordered(states), ordered(turned));
    }

    #[test]
    fn a_stop_always_comes_before_anything_else(states in states()) {
        for stopped in states.iter().filter(|state| state.open_stops > 0) {
            for other in states.iter() {
                let (first, second) = (stopped.standing(TODAY, &HouseNumbers::default()), other.standing(TODAY, &HouseNumbers::default()));
                prop_assert_eq!(first.need, Need::NewStop);
                prop_assert!(second.need == Need::NewStop || first.rank < second.rank);
            }
        }
    }

    #[test]
    fn more_trouble_never_ranks_later(states in states()) {
        for state in states {
            let worse = DogState { open_stops: state.open_stops + 1, ..state.clone() };
            prop_assert!(worse.standing(TODAY, &HouseNumbers::default()).rank < state.standing(TODAY, &HouseNumbers::default()).rank);
        }
    }

    #[test]
    fn raising_what_a_dog_needs_never_lowers_its_place(states in states(), which in 0_usize..20, raised in 0..RAISES.len()) {
        prop_assume!(!states.is_empty());
        let (words, raise) = RAISES[raised];
        let which = which % states.len();
        let dog = states[which].dog;
        let place = |states: Vec<DogState>| ordered(states).iter().position(|other| *other == dog);
        let before = place(states.clone());
        let mut after = states;
        raise(&mut after[which]);
        prop_assert!(place(after) <= before, "{}", words);
    }

    #[test]
    fn there_is_always_a_reason(states in states()) {
        for state in states {
            prop_assert!(!state.standing(TODAY, &HouseNumbers::default()).reasons.is_empty());
        }
    }
}

#[test]
fn a_plan_is_due_after_six_weeks_unless_the_dog_may_rest() {
    let (day, due) = (Some(TODAY), Some(TODAY + Duration::days(42)));
    assert_eq!(review_due_on(day, Phase::Active), due);
    assert_eq!(review_due_on(day, Phase::SettlingIn), due);
    for phase in [Phase::Maintaining, Phase::Graduated, Phase::Paused] {
        assert_eq!(review_due_on(day, phase), None);
    }
    assert_eq!(review_due_on(None, Phase::Active), None);
}
