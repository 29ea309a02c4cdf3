//! Which rung of a ladder a decision leads to.

use super::verdict::Verdict;
use crate::domain::vocabulary::Choice;

/// The rung that a choice leads to from the rung `at`; `None` where it stays, or there is no such rung. `sure` says of each
/// rung, easiest first, whether the counts were there. After a relapse "make it easier" goes back to the last such rung.
pub fn rung_after(choice: Choice, verdict: Verdict, at: usize, sure: &[bool]) -> Option<usize> {
    let below = at.checked_sub(1).filter(|below| *below < sure.len());
    match choice {
        Choice::Repeat => None,
        Choice::MoveOn => Some(at + 1).filter(|above| *above < sure.len()),
        Choice::MakeEasier if verdict == Verdict::Relapse => {
            below.map(|below| sure[..=below].iter().rposition(|sure| *sure).unwrap_or(below))
        }
        Choice::MakeEasier => below,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Choice::{MakeEasier, MoveOn, Repeat};

    #[test]
    fn one_rung_up_or_down_where_there_is_one() {
        let sure = [true, false, false];
        let after = |choice, at| rung_after(choice, Verdict::Stuck, at, &sure);
        assert_eq!((after(MoveOn, 1), after(MoveOn, 2)), (Some(2), None));
        assert_eq!((after(MakeEasier, 2), after(MakeEasier, 0)), (Some(1), None));
        assert_eq!(after(Repeat, 1), None);
        assert_eq!(rung_after(MakeEasier, Verdict::Stuck, 7, &sure), None, "a ladder that was shortened");
    }

    #[test]
    fn a_relapse_goes_back_to_the_last_sure_rung() {
        let after = |at, sure: &[bool]| rung_after(MakeEasier, Verdict::Relapse, at, sure);
        assert_eq!(after(3, &[true, true, false, false]), Some(1));
        assert_eq!(after(3, &[false; 4]), Some(2), "where none was sure, one down");
        assert_eq!(after(2, &[true, true, true, true]), Some(1), "never the rung itself");
        assert_eq!(after(0, &[true, true]), None);
    }
}
