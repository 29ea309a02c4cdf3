//! Rules on changes that come slowly.

use super::*;
use crate::domain::dog::Weighing;
use crate::domain::vocabulary::HealthSign;
use Severity::{Caution, Notice};
use time::Duration;

fn signs(days_ago: i64, signs: &[HealthSign]) -> Sitting {
    sitting(|s| (s.local_date, s.health_signs) = (DAY - Duration::days(days_ago), signs.to_vec()))
}

#[test]
fn signs_of_pain_on_two_days_within_three_weeks() {
    let found = |earlier: Sitting| {
        in_log("slow_pain", &dog(), &[earlier], |s| s.health_signs = vec![HealthSign::Reluctant])
    };
    assert_eq!(found(signs(21, &[HealthSign::Lame])), Some(Caution));
    assert_eq!(found(signs(22, &[HealthSign::Lame])), None);
    assert_eq!(found(signs(0, &[HealthSign::Lame])), None, "the same day is one day");
    assert_eq!(found(signs(5, &[HealthSign::OffFood])), None);
    assert_eq!(in_log("slow_pain", &dog(), &[signs(5, &[HealthSign::Lame])], |_| ()), None, "not this time");
}

fn weighed(weights: &[(i64, f64)]) -> DogFacts {
    let weighings = weights.iter().map(|(ago, kg)| Weighing { on: DAY - Duration::days(*ago), kg: *kg });
    DogFacts { weighings: weighings.collect(), ..dog() }
}

fn change(dog: &DogFacts) -> Option<Severity> {
    in_log("weight_change", dog, &[], |_| ())
}

#[test]
fn a_tenth_of_the_weight_goes_to_a_vet() {
    assert_eq!(change(&weighed(&[(0, 18.0), (60, 20.0)])), Some(Notice));
    assert_eq!(change(&weighed(&[(0, 18.1), (60, 20.0)])), None);
    assert_eq!(change(&weighed(&[(0, 22.0), (60, 20.0)])), Some(Notice), "gained");
    assert_eq!(change(&weighed(&[(0, 17.9), (14, 17.8), (60, 20.0)])), Some(Caution), "said twice");
    assert_eq!(change(&weighed(&[(0, 17.9), (14, 19.0), (60, 20.0)])), Some(Notice));
    assert_eq!(change(&weighed(&[(0, 18.0), (181, 20.0)])), None, "half a year");
    assert_eq!(change(&weighed(&[(0, 18.0)])), None);
    assert_eq!(change(&weighed(&[])), None);
}

#[test]
fn growth_is_no_weight_change() {
    let lighter = weighed(&[(0, 18.0), (60, 20.0)]);
    assert_eq!(change(&DogFacts { born: None, ..lighter.clone() }), None);
    assert_eq!(change(&DogFacts { born: Some(DAY - Duration::days(200)), ..lighter }), None);
}

#[test]
fn a_weight_is_said_once() {
    let lighter = weighed(&[(3, 18.0), (60, 20.0)]);
    let after = |ago| in_log("weight_change", &lighter, &[signs(ago, &[])], |_| ());
    assert_eq!(after(4), Some(Notice), "the first sitting after the weighing");
    assert_eq!(after(2), None, "said before");
    assert_eq!(change(&weighed(&[(-1, 18.0), (60, 20.0)])), None, "weighed later");
}
