//! Advice for what is measured and not counted: distance to a trigger, calm time, recovery, events a week.
//!
//! A "miss" in fear work is harm, so these exercises have no chart of hits and misses. What they advise rests on what was
//! stated of each sitting; not stated never counts as easy. A trainer decides, and numbers alone never advise off lead, muzzle
//! off, or nearer a child.

mod distance;
mod duration;
mod ease;
mod events;
mod exact;
mod measured;
mod recovery;
mod trend;

pub use ease::Ease;
pub use exact::{Ratio, clopper_pearson, rate_ratio};
pub use measured::Measured;
pub use trend::{Trend, theil_sen};

use super::figure::Figure;
use super::sitting::Sitting;
use super::vocabulary::{Choice, Outcome};

/// What the measures of one line and step say.
#[derive(Debug, Clone, PartialEq)]
pub struct OutcomeAdvice {
    /// The advice. A trainer decides.
    pub choice: Choice,
    /// One or two words for it.
    pub word: &'static str,
    /// For trainers.
    pub for_trainer: String,
    /// For owners.
    pub for_owner: String,
    /// The figures behind it.
    pub figures: Vec<Figure>,
    /// Where it comes from, and how sure we are.
    pub source: &'static str,
}

/// What the sittings at one line and step, oldest first, say; `planned` are the minutes that the plan asks for. `None` where
/// there is nothing measured yet, and for counted skills, which have readiness.
pub fn advise(outcome: Outcome, sittings: &[Measured], planned: Option<i16>) -> Option<OutcomeAdvice> {
    match outcome {
        Outcome::Count => None,
        Outcome::Distance => distance::advise(sittings),
        Outcome::Duration => duration::advise(sittings, planned),
        Outcome::Recovery => recovery::advise(sittings),
        Outcome::Events => events::advise(sittings),
    }
}

/// The same of sittings as they were logged, each with the value that was stated. A reaction whose distance nobody stated is one
/// all the same: what was easy before it counts no more.
pub fn advise_on<'a>(
    outcome: Outcome,
    logged: impl IntoIterator<Item = (&'a Sitting, Option<f64>)>,
    planned: Option<i16>,
) -> Option<OutcomeAdvice> {
    let (mut sittings, mut reacted_somewhere) = (Vec::new(), false);
    for (sitting, value) in logged {
        match Measured::from_sitting(sitting, value) {
            Some(measured) => {
                sittings.push(measured);
                reacted_somewhere = false;
            }
            None if outcome == Outcome::Distance && Ease::of(sitting) == Ease::Reaction => {
                sittings.clear();
                reacted_somewhere = true;
            }
            None => {}
        }
    }
    if reacted_somewhere { Some(distance::reacted_somewhere()) } else { advise(outcome, &sittings, planned) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::vocabulary::Word;
    use proptest::prelude::*;
    use time::Duration;
    use time::macros::date;

    fn sittings() -> impl Strategy<Value = Vec<Measured>> {
        let ease = prop::sample::select(vec![Ease::Easy, Ease::NotEasy, Ease::Reaction, Ease::NotStated]);
        let one = (0_i64..5, prop_oneof![0.0_f64..200.0, Just(0.0), Just(1e6)], ease);
        prop::collection::vec(one, 0..40).prop_map(|steps| {
            let mut on = date!(2025 - 03 - 01);
            let build = |(gap, value, ease)| {
                on += Duration::days(gap);
                Measured { on, value, ease }
            };
            steps.into_iter().map(build).collect()
        })
    }

    proptest! {
        #[test]
        fn nothing_measured_panics_and_owners_read_no_statistics(
            sittings in sittings(),
            planned in prop::option::of(0_i16..=600),
        ) {
            for outcome in Outcome::ALL {
                let Some(advice) = advise(*outcome, &sittings, planned) else { continue };
                prop_assert!(!advice.source.is_empty() && !advice.figures.is_empty());
                let said = advice.for_owner.to_lowercase();
                for word in ["interval", "%", "trend", "rate", "miss", "fail", "nan", "inf"] {
                    prop_assert!(!said.contains(word), "{said}");
                }
            }
        }

        #[test]
        fn a_reaction_last_never_advises_a_harder_step(sittings in sittings(), planned in prop::option::of(1_i16..60)) {
            let mut sittings = sittings;
            let on = sittings.last().map_or(date!(2025 - 03 - 01), |last| last.on);
            sittings.push(Measured { on, value: 5.0, ease: Ease::Reaction });
            for outcome in [Outcome::Distance, Outcome::Duration] {
                let advice = advise(outcome, &sittings, planned).expect("there is a sitting");
                prop_assert_eq!(advice.choice, Choice::MakeEasier);
            }
        }
    }

    #[test]
    fn a_reaction_without_its_distance_ends_what_was_easy() {
        use crate::domain::vocabulary::{Looked, TookFood};
        let on = |day: u8| date!(2025 - 03 - 01) + Duration::days(day.into());
        let easy = |day| Sitting {
            looked: Some(Looked::Loose),
            took_food: Some(TookFood::Gently),
            ..Sitting::on(on(day))
        };
        let reacted = Sitting {
            looked: Some(Looked::Frozen),
            took_food: Some(TookFood::Refused),
            arousal_end: Some(5),
            ..Sitting::on(on(4))
        };
        let all = [easy(1), easy(2), easy(3), reacted, easy(5)];
        let until = |last: usize| {
            let told = all[..last].iter().map(|sitting| {
                let value = Some(20.0).filter(|_| sitting.looked == Some(Looked::Loose));
                (sitting, value)
            });
            advise_on(Outcome::Distance, told, None).map(|advice| advice.choice)
        };
        assert_eq!(until(3), Some(Choice::MoveOn));
        assert_eq!(until(4), Some(Choice::MakeEasier), "where it was, nobody said");
        assert_eq!(until(5), Some(Choice::Repeat), "the run begins anew");
    }

    #[test]
    fn counted_skills_and_empty_streams_have_none() {
        let one = [Measured { on: date!(2025 - 03 - 01), value: 5.0, ease: Ease::Easy }];
        assert_eq!(advise(Outcome::Count, &one, None), None);
        for outcome in Outcome::ALL {
            assert_eq!(advise(*outcome, &[], None), None);
        }
    }
}
