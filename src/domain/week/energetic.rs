//! Arousing and running work: one sitting a day at most, a day between two where that is possible, and as little moved as will do.

use super::{Asked, DAYS, Layout, Unmet};

/// Days as a set: bit 0 is Monday.
type Mask = u8;

fn has(mask: Mask, day: usize) -> bool {
    mask & (1 << day) != 0
}

fn days(mask: Mask) -> impl Iterator<Item = usize> {
    (0..DAYS).filter(move |day| has(mask, *day))
}

/// How many pairs of neighbouring days are both in it. The week goes round: Monday follows Sunday.
fn neighbours(mask: Mask) -> usize {
    days(mask).filter(|day| has(mask, (day + 1) % DAYS)).count()
}

/// The fewest days from one to the next.
fn least_gap(mask: Mask) -> usize {
    let gap = |day: usize| (1..=DAYS).find(|gap| has(mask, (day + gap) % DAYS)).unwrap_or(DAYS);
    days(mask).map(gap).min().unwrap_or(DAYS)
}

/// The best days for so many sittings: no neighbours where that is possible, then as few new days as will do, then far apart,
/// then early in the week.
fn best(open: [bool; DAYS], wanted: usize, from: Option<Mask>) -> Mask {
    let fits = |mask: &Mask| days(*mask).all(|day| open[day]);
    let count = wanted.min(open.iter().filter(|day| **day).count()).min(DAYS - 1);
    let masks = (0..1 << DAYS).filter(fits).filter(|mask: &Mask| days(*mask).count() == count);
    let cost = |mask: &Mask| {
        let moved = from.map_or(0, |from| days(mask & !from).count());
        (neighbours(*mask), moved, DAYS - least_gap(*mask), *mask)
    };
    masks.min_by_key(cost).unwrap_or(0)
}

/// What is asked for, one after the other, so that a week which is too short drops the last round first.
fn queue(asked: &[Asked]) -> Vec<usize> {
    let energetic = |index: &usize| asked[*index].energetic;
    let rounds = (0..asked.len()).filter(energetic).map(|index| asked[index].times()).max().unwrap_or(0);
    let round =
        |round: usize| (0..asked.len()).filter(energetic).filter(move |index| asked[*index].times() > round);
    (0..rounds.min(DAYS)).flat_map(round).collect()
}

/// Lays the energetic sittings over the open days.
pub(super) fn spread(layout: &mut Layout, asked: &[Asked], open: [bool; DAYS]) {
    let queue = queue(asked);
    for (day, index) in days(best(open, queue.len(), None)).zip(queue) {
        layout[day].push(index);
    }
}

/// Moves the energetic sittings of the whole week to the open days.
pub(super) fn move_to(
    layout: &mut Layout,
    whole: &Layout,
    asked: &[Asked],
    open: [bool; DAYS],
    unmet: &mut Vec<Unmet>,
) {
    let energetic = |day: usize| whole[day].iter().copied().find(|index| asked[*index].energetic);
    let from = (0..DAYS).filter(|day| energetic(*day).is_some()).fold(0, |mask, day| mask | 1 << day);
    let wanted = asked.iter().filter(|asked| asked.energetic).map(Asked::times).sum::<usize>();
    let to = best(open, wanted, Some(from));
    for day in days(to & from) {
        layout[day].extend(energetic(day));
    }
    // Those whose day is gone take the new days in turn, and after them what the whole week had no day for.
    let displaced = days(from & !to).filter_map(energetic);
    let held: Vec<usize> = days(from).filter_map(energetic).collect();
    let left_out = |index: &usize| {
        let times = asked[*index].times();
        times.saturating_sub(held.iter().filter(|one| *one == index).count())
    };
    let late: Vec<usize> = (0..asked.len())
        .filter(|index| asked[*index].energetic)
        .flat_map(|index| std::iter::repeat_n(index, left_out(&index).min(DAYS)))
        .collect();
    for (day, index) in days(to & !from).zip(displaced.chain(late)) {
        layout[day].push(index);
    }
    for index in (0..asked.len()).filter(|index| asked[*index].energetic) {
        let placed = layout.iter().flatten().filter(|one| **one == index).count();
        Unmet::left_over(index, asked[index].times() - placed, unmet);
    }
    if neighbours(to) > 0 {
        unmet.push(Unmet::NoDayBetween);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [bool; DAYS] = [true; DAYS];

    #[test]
    fn days_lie_far_apart_and_round_the_week() {
        let chosen = |wanted| days(best(ALL, wanted, None)).collect::<Vec<_>>();
        assert_eq!(chosen(2), [0, 3]);
        assert_eq!(chosen(3), [0, 2, 4]);
        assert_eq!(neighbours(0b100_0001), 1, "Sunday and Monday");
        assert_eq!(chosen(9).len(), 6, "one day in seven is free of it");
    }

    #[test]
    fn as_few_days_change_as_will_do() {
        let mut open = ALL;
        open[0] = false;
        let moved = best(open, 3, Some(0b001_0101));
        assert_eq!(neighbours(moved), 0);
        assert_eq!(days(moved & !0b001_0101).count(), 1);
    }
}
