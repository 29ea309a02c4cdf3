//! Recovery: after how many exciting sittings the dog came down again.

use super::{Reading, percent};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Recovery;

/// Arousal at which a dog is down again: loose. House scale, common practice.
const DOWN: i16 = 2;
/// Share, in percent, under which coming down needs work. Common practice.
const MOST: i64 = 80;

/// How often a dog came down, over the arousing or running sittings that say so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CameDown {
    /// Sittings that say whether.
    pub sittings: i64,
    /// Of these, how many ended with the dog down again.
    pub down: i64,
}

/// Recovery over arousing or running sittings; `None` where nothing was stated. Down is: itself again within a quarter of an
/// hour, or, where that is not stated, an arousal of two or less at the end.
pub fn came_down<'a>(sittings: impl IntoIterator<Item = &'a Sitting>) -> Option<CameDown> {
    let stated: Vec<bool> =
        sittings.into_iter().filter(|sitting| sitting.is_arousing()).filter_map(is_down).collect();
    let down = stated.iter().filter(|down| **down).count() as i64;
    (!stated.is_empty()).then_some(CameDown { sittings: stated.len() as i64, down })
}

fn is_down(sitting: &Sitting) -> Option<bool> {
    match sitting.recovery {
        Some(Recovery::Within5 | Recovery::Within15) => Some(true),
        Some(Recovery::Longer | Recovery::NotYet) => Some(false),
        None => sitting.arousal_end.map(|arousal| arousal <= DOWN),
    }
}

impl CameDown {
    /// What it says to a trainer.
    pub fn reading(&self) -> Reading {
        let share = percent(self.down, self.sittings);
        Reading {
            what: "Recovery",
            value: format!(
                "down again after {} of {} exciting sittings ({share} %)",
                self.down, self.sittings
            ),
            says: if share >= MOST {
                "Comes down well after exciting work.".to_owned()
            } else {
                "Often still up afterwards. Shorter exciting parts, and a longer, slower finish.".to_owned()
            },
            source: "House scale: arousal 2 or less, or itself again within 15 minutes. Common practice.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::vocabulary::Energy;
    use time::macros::date;

    fn exciting(recovery: Option<Recovery>, arousal_end: Option<i16>) -> Sitting {
        let energy = Some(Energy::Arousing);
        Sitting { energy, recovery, arousal_end, ..Sitting::on(date!(2025 - 05 - 01)) }
    }

    #[test]
    fn down_is_two_or_less_or_within_a_quarter_of_an_hour() {
        for (recovery, arousal, expected) in [
            (Some(Recovery::Within15), Some(5), Some((1, 1))),
            (Some(Recovery::Longer), Some(1), Some((1, 0))),
            (Some(Recovery::NotYet), None, Some((1, 0))),
            (None, Some(2), Some((1, 1))),
            (None, Some(3), Some((1, 0))),
            (None, None, None),
        ] {
            let found = came_down(&[exciting(recovery, arousal)]);
            assert_eq!(found.map(|found| (found.sittings, found.down)), expected, "{recovery:?} {arousal:?}");
        }
    }

    #[test]
    fn calm_work_is_left_out() {
        let calm = Sitting { energy: Some(Energy::Calm), ..exciting(None, Some(5)) };
        assert_eq!(came_down(&[calm]), None);
    }

    #[test]
    fn the_sentence_turns_at_four_fifths() {
        let says = |down| CameDown { sittings: 10, down }.reading().says;
        assert!(says(7).starts_with("Often") && says(8).starts_with("Comes down"));
    }
}
