//! Calm and moving work: spread evenly, three sittings a day at most; what stands on a day that there is stays there.

use super::{Asked, DAYS, Layout, MOST_A_DAY, Unmet};

/// The days that an exercise may stand on: what is asked for on every day may stand on the rest day as well.
fn days_for(asked: &Asked, days: [bool; DAYS], open: [bool; DAYS]) -> [bool; DAYS] {
    if asked.times() >= DAYS { days } else { open }
}

/// Lays the calm sittings over all days but the rest day, in the plan's order, each evenly.
pub(super) fn spread(layout: &mut Layout, asked: &[Asked], open: [bool; DAYS]) {
    for (index, one) in asked.iter().enumerate().filter(|(_, one)| !one.energetic) {
        let may = days_for(one, [true; DAYS], open);
        let days: Vec<usize> = (0..DAYS).filter(|day| may[*day]).collect();
        let times = one.times().min(DAYS * MOST_A_DAY);
        for _ in 0..times / days.len().max(1) {
            put(layout, index, &days);
        }
        put(layout, index, &even(layout, &days, times % days.len().max(1)));
    }
    find_room(layout, asked, [true; DAYS], open, &mut Vec::new());
}

fn put(layout: &mut Layout, index: usize, days: &[usize]) {
    for day in days {
        if layout[*day].len() < MOST_A_DAY {
            layout[*day].push(index);
        }
    }
}

/// So many of these days, evenly spread, beginning where the fullest day stays emptiest.
fn even(layout: &Layout, days: &[usize], times: usize) -> Vec<usize> {
    let from = |start: usize| -> Vec<usize> {
        (0..times).map(|nth| days[(start + nth * days.len() / times) % days.len()]).collect()
    };
    let cost = |chosen: &Vec<usize>| {
        let loads = || chosen.iter().map(|day| layout[*day].len());
        (loads().max(), loads().map(|load| load * load).sum::<usize>())
    };
    (0..days.len()).map(from).min_by_key(cost).unwrap_or_default()
}

/// Moves the calm sittings of the whole week to the days that there are.
pub(super) fn move_to(
    layout: &mut Layout,
    whole: &Layout,
    asked: &[Asked],
    days: [bool; DAYS],
    open: [bool; DAYS],
    unmet: &mut Vec<Unmet>,
) {
    for (day, sittings) in whole.iter().enumerate() {
        for &index in sittings.iter().filter(|index| !asked[**index].energetic) {
            if days_for(&asked[index], days, open)[day] {
                put(layout, index, &[day]);
            }
        }
    }
    find_room(layout, asked, days, open, unmet);
}

/// Gives what stands nowhere yet the emptiest days, in the plan's order, and names what finds none.
fn find_room(
    layout: &mut Layout,
    asked: &[Asked],
    days: [bool; DAYS],
    open: [bool; DAYS],
    unmet: &mut Vec<Unmet>,
) {
    for (index, one) in asked.iter().enumerate().filter(|(_, one)| !one.energetic) {
        let placed = layout.iter().flatten().filter(|placed| **placed == index).count();
        let may = days_for(one, days, open);
        for left in (1..=one.times().saturating_sub(placed)).rev() {
            let Some(day) = emptiest(layout, index, may) else {
                Unmet::left_over(index, left, unmet);
                break;
            };
            layout[day].push(index);
        }
    }
}

/// The day with room that has this the least often, then the emptiest, then the earliest.
fn emptiest(layout: &Layout, index: usize, days: [bool; DAYS]) -> Option<usize> {
    let room = (0..DAYS).filter(|day| days[*day] && layout[*day].len() < MOST_A_DAY);
    let same = |day: usize| layout[day].iter().filter(|placed| **placed == index).count();
    room.min_by_key(|day| (same(*day), layout[*day].len(), *day))
}
