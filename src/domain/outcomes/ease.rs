//! How a dog was in a sitting, from what was stated of it.

use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Looked, Recovery, TookFood};

/// Arousal up to which a dog is at ease: loose. Common practice.
const LOOSE_AROUSAL: i16 = 2;

/// Arousal from which a dog is over the top: wound up, slow to answer. Common practice.
const HIGH_AROUSAL: i16 = 4;

/// How a dog was in a sitting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ease {
    /// Something said that it was at ease, and nothing said otherwise.
    Easy,
    /// Not over the top, and not at ease: wound up, snatching, up to a quarter of an hour to recover.
    NotEasy,
    /// It was too much: worried, frozen, off food, cannot come down, ran off, teeth.
    Reaction,
    /// Nothing was said. Never counts as easy.
    NotStated,
}

impl Ease {
    /// How the dog was. Common practice.
    pub fn of(sitting: &Sitting) -> Self {
        let arousal = sitting.arousal_end;
        let reaction = sitting.bolted
            || sitting.bite
            || matches!(sitting.looked, Some(Looked::Worried | Looked::Frozen))
            || sitting.took_food == Some(TookFood::Refused)
            || matches!(sitting.recovery, Some(Recovery::Longer | Recovery::NotYet))
            || arousal.is_some_and(|level| level >= HIGH_AROUSAL);
        let uneasy = sitting.looked == Some(Looked::WoundUp)
            || sitting.took_food == Some(TookFood::Snatched)
            || sitting.recovery == Some(Recovery::Within15);
        let easy = sitting.looked == Some(Looked::Loose)
            || sitting.took_food == Some(TookFood::Gently)
            || sitting.recovery == Some(Recovery::Within5)
            || arousal.is_some_and(|level| level <= LOOSE_AROUSAL);
        match (reaction, uneasy, easy) {
            (true, _, _) => Self::Reaction,
            (_, true, _) => Self::NotEasy,
            (_, _, true) => Self::Easy,
            _ => Self::NotStated,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn ease(change: impl FnOnce(&mut Sitting)) -> Ease {
        let mut sitting = Sitting::on(date!(2025 - 05 - 01));
        change(&mut sitting);
        Ease::of(&sitting)
    }

    #[test]
    fn nothing_stated_is_never_easy() {
        assert_eq!(ease(|_| ()), Ease::NotStated);
        assert_eq!(ease(|s| s.arousal_end = Some(3)), Ease::NotStated);
    }

    #[test]
    fn one_good_sign_is_easy_and_one_bad_sign_outweighs_it() {
        assert_eq!(ease(|s| s.looked = Some(Looked::Loose)), Ease::Easy);
        assert_eq!(ease(|s| s.arousal_end = Some(2)), Ease::Easy);
        assert_eq!(ease(|s| s.took_food = Some(TookFood::Gently)), Ease::Easy);
        assert_eq!(ease(|s| s.recovery = Some(Recovery::Within5)), Ease::Easy);
        let loose = |change: fn(&mut Sitting)| {
            ease(|s| {
                s.looked = Some(Looked::Loose);
                change(s);
            })
        };
        assert_eq!(loose(|s| s.took_food = Some(TookFood::Snatched)), Ease::NotEasy);
        assert_eq!(loose(|s| s.recovery = Some(Recovery::Within15)), Ease::NotEasy);
        assert_eq!(loose(|s| s.took_food = Some(TookFood::Refused)), Ease::Reaction);
        assert_eq!(loose(|s| s.recovery = Some(Recovery::NotYet)), Ease::Reaction);
        assert_eq!(loose(|s| s.arousal_end = Some(4)), Ease::Reaction);
        assert_eq!(loose(|s| s.bolted = true), Ease::Reaction);
        assert_eq!(loose(|s| s.bite = true), Ease::Reaction);
    }

    #[test]
    fn looks_are_told_apart() {
        assert_eq!(ease(|s| s.looked = Some(Looked::WoundUp)), Ease::NotEasy);
        assert_eq!(ease(|s| s.looked = Some(Looked::Worried)), Ease::Reaction);
        assert_eq!(ease(|s| s.looked = Some(Looked::Frozen)), Ease::Reaction);
    }
}
