//! Marker integrity: how many markers were paid. A marker that is not followed by its reinforcer loses its meaning.

use super::{Reading, percent};
use crate::domain::readiness::wilson;
use crate::domain::sitting::Sitting;

/// Markers paid, over some sittings. Each attempt that met the criterion earns one marker.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MarkersPaid {
    /// Markers earned.
    pub earned: i32,
    /// Of these, how many were paid.
    pub paid: i32,
}

/// Markers paid over the sittings in which attempts that met and reinforcers were both stated; `None` where none was earned.
pub fn markers_paid<'a>(sittings: impl IntoIterator<Item = &'a Sitting>) -> Option<MarkersPaid> {
    let mut all = MarkersPaid { earned: 0, paid: 0 };
    for (met, rewarded) in sittings.into_iter().filter_map(|sitting| sitting.met.zip(sitting.rewarded)) {
        all.earned += i32::from(met);
        all.paid += i32::from(rewarded.min(met));
    }
    (all.earned > 0).then_some(all)
}

impl MarkersPaid {
    /// What it says to a trainer.
    pub fn reading(&self) -> Reading {
        let unpaid = self.earned - self.paid;
        let likely = wilson(self.paid, self.earned).map_or_else(String::new, |found| {
            format!(", likely {:.0}–{:.0} %", found.low * 100.0, found.high * 100.0)
        });
        let share = percent(self.paid.into(), self.earned.into());
        Reading {
            what: "Markers paid",
            value: format!("{} of {} ({share} %{likely})", self.paid, self.earned),
            says: if unpaid == 0 {
                "Every marker was paid. That is what keeps it worth hearing.".to_owned()
            } else {
                "Some markers were not paid. Ask how the food is carried; each marker is a promise."
                    .to_owned()
            },
            source: "Common practice. A marker may be a sound or a word; trials show no faster learning with one kind than another \
                     (Chiandetti et al. 2016; Gilchrist et al. 2021, PeerJ 9:e10881).",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn sitting(met: Option<i16>, rewarded: Option<i16>) -> Sitting {
        Sitting { met, rewarded, ..Sitting::on(date!(2025 - 05 - 01)) }
    }

    #[test]
    fn more_food_in_one_sitting_pays_no_marker_of_another() {
        let found =
            markers_paid(&[sitting(Some(8), Some(10)), sitting(Some(8), Some(6)), sitting(Some(9), None)]);
        let found = found.expect("markers");
        assert_eq!((found.earned, found.paid), (16, 14));
        assert!(found.reading().value.starts_with("14 of 16 (88 %, likely "), "{}", found.reading().value);
        assert!(found.reading().says.starts_with("Some markers"));
    }

    #[test]
    fn none_earned_says_nothing_and_all_paid_is_said() {
        assert_eq!(markers_paid(&[sitting(Some(0), Some(3))]), None);
        let found = markers_paid(&[sitting(Some(4), Some(4))]).expect("markers");
        assert!(found.reading().says.starts_with("Every marker"));
    }
}
