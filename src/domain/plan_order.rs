//! The order of a plan: what keeps everyone safe comes first, then what to practise, then what the owner learns alone.

use super::vocabulary::ItemKind;
use crate::ids::LineId;

/// Which way a line moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Nearer the start.
    Up,
    /// Nearer the end.
    Down,
}

/// Where a kind stands in a plan, the lowest first.
fn rank(kind: ItemKind) -> u8 {
    match kind {
        ItemKind::StandingArrangement => 0,
        ItemKind::Exercise => 1,
        ItemKind::OwnerSkill => 2,
    }
}

/// The lines by kind; within a kind as they were.
pub fn arranged(lines: &[(LineId, ItemKind)]) -> Vec<LineId> {
    let mut lines = lines.to_vec();
    lines.sort_by_key(|(_, kind)| rank(*kind));
    lines.into_iter().map(|(line, _)| line).collect()
}

/// The lines with one moved past its neighbour of the same kind; `None` where it is first or last of its kind, or is
/// not there.
pub fn moved(lines: &[(LineId, ItemKind)], line: LineId, way: Way) -> Option<Vec<LineId>> {
    let at = lines.iter().position(|(id, _)| *id == line)?;
    let to = match way {
        Way::Up => at.checked_sub(1)?,
        Way::Down => at + 1,
    };
    (lines.get(to)?.1 == lines[at].1).then(|| {
        let mut lines: Vec<LineId> = lines.iter().map(|(id, _)| *id).collect();
        lines.swap(at, to);
        lines
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use ItemKind::{Exercise, OwnerSkill, StandingArrangement};
    use uuid::Uuid;

    fn line(n: u128) -> LineId {
        LineId(Uuid::from_u128(n))
    }

    #[test]
    fn arrangements_come_first_and_skills_last() {
        let lines =
            [(line(1), OwnerSkill), (line(2), Exercise), (line(3), StandingArrangement), (line(4), Exercise)];
        assert_eq!(arranged(&lines), [line(3), line(2), line(4), line(1)]);
    }

    #[test]
    fn a_line_moves_among_its_own_kind_only() {
        let lines = [(line(1), StandingArrangement), (line(2), Exercise), (line(3), Exercise)];
        assert_eq!(moved(&lines, line(3), Way::Up), Some(vec![line(1), line(3), line(2)]));
        assert_eq!(moved(&lines, line(2), Way::Up), None);
        assert_eq!(moved(&lines, line(3), Way::Down), None);
        assert_eq!(moved(&lines, line(9), Way::Down), None);
    }
}
