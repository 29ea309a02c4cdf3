//! On which days an item is practised, and at what time.

use std::collections::BTreeSet;

use time::{Duration, OffsetDateTime};

use super::lessons;
use crate::demo::calendar::Calendar;
use crate::demo::chance::Chance;
use crate::demo::content::{DaysAgo, Dog, Item, Note};
use crate::demo::stage::starter;
use crate::domain::vocabulary::Energy;

/// Times of a hundred that a week has one sitting fewer than usual.
const SHORTER_WEEKS: u8 = 14;
/// An item with so many moments is written by hand from the first of them on.
const BY_HAND: usize = 3;
/// Minutes between the end of one sitting and the next at the least.
const APART: i64 = 12;
/// Minutes around a moment in which nothing else is practised.
const AROUND_MOMENTS: Duration = Duration::minutes(75);
/// Times of a hundred that an item is practised at its own hour.
const ITS_OWN_HOUR: u8 = 90;

/// A sitting that is to be, before its facts are known.
#[derive(Debug, Clone)]
pub struct Slot {
    /// The item.
    pub item: &'static Item,
    /// The day.
    pub days_ago: DaysAgo,
    /// When it begins.
    pub at: OffsetDateTime,
    /// The note that hangs on it.
    pub note: Option<&'static Note>,
}

impl Slot {
    /// When it is over, coming down included.
    fn is_over_at(&self) -> OffsetDateTime {
        let coming_down = self.item.cool_down.map_or(0, |(minutes, _)| i64::from(minutes));
        self.at + Duration::minutes(i64::from(self.item.minutes) + coming_down)
    }
}

/// Every generated sitting of a dog, in the order of time.
///
/// # Errors
/// When the content asks for a time that does not exist.
pub fn slots(calendar: &Calendar, dog: &'static Dog, chance: &mut Chance) -> anyhow::Result<Vec<Slot>> {
    if dog.rhythm.hours.is_empty() {
        return Ok(Vec::new());
    }
    let mut chosen: Vec<(DaysAgo, usize)> = Vec::new();
    let mut arousing: BTreeSet<DaysAgo> = BTreeSet::new();
    for (place, item) in dog.items.iter().enumerate() {
        let is_arousing = starter(item.key)?.energy == Energy::Arousing;
        let days = days_of(dog, item, is_arousing.then_some(&arousing), chance);
        if is_arousing {
            arousing.extend(&days);
        }
        chosen.extend(days.into_iter().map(|day| (day, place)));
    }
    practise_on_the_last_day(dog, &mut chosen);
    chosen.sort_by_key(|(day, place)| (std::cmp::Reverse(*day), *place));
    let mut slots: Vec<Slot> = Vec::new();
    for (days_ago, place) in chosen {
        let hours = dog.rhythm.hours;
        let hour = if chance.percent(ITS_OWN_HOUR) {
            hours[place % hours.len()]
        } else {
            hours[chance.index(hours.len())]
        };
        let minute = u8::try_from(chance.between(2, 38)).unwrap_or(0);
        slots.push(Slot {
            item: &dog.items[place],
            days_ago,
            at: calendar.at(days_ago, hour, minute)?,
            note: None,
        });
    }
    slots.sort_by_key(|slot| slot.at);
    for later in 1..slots.len() {
        let earliest = slots[later - 1].is_over_at() + Duration::minutes(APART);
        if slots[later - 1].days_ago == slots[later].days_ago && slots[later].at < earliest {
            slots[later].at = earliest;
        }
    }
    let mut moments = Vec::new();
    for moment in dog.moments {
        moments.push(calendar.at(moment.days_ago, moment.hour, 25)?);
    }
    let near = |slot: &Slot| moments.iter().any(|at| (*at - slot.at).abs() < AROUND_MOMENTS);
    slots.retain(|slot| calendar.is_over(slot.is_over_at()) && !near(slot));
    Ok(slots)
}

/// The days of one item, week by week; exciting work keeps a day between itself and other exciting work where it can.
fn days_of(
    dog: &'static Dog,
    item: &Item,
    others: Option<&BTreeSet<DaysAgo>>,
    chance: &mut Chance,
) -> BTreeSet<DaysAgo> {
    let moments: Vec<DaysAgo> =
        dog.moments.iter().filter(|moment| moment.item == item.key).map(|moment| moment.days_ago).collect();
    let lessons = lessons::days(dog, item);
    let by_hand_from = moments.iter().max().copied().filter(|_| moments.len() >= BY_HAND);
    let first = dog.rhythm.first.min(item.climb.first().map_or(0, |(day, _)| day.saturating_sub(1)));
    let last = by_hand_from.map_or(dog.rhythm.last, |day| day + 1).max(dog.rhythm.last);
    let mut days = BTreeSet::new();
    let mut end = first + 1;
    while end > last {
        let begin = end.saturating_sub(7).max(last);
        let mut week: Vec<DaysAgo> =
            (begin..end).filter(|day| !moments.contains(day) && !lessons.contains(day)).collect();
        let share = f64::from(end - begin) / 7.0;
        let usual = (f64::from(item.logged_a_week) * share).round();
        let fewer = usual >= 2.0 && chance.percent(SHORTER_WEEKS);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 7")]
        let wanted = usual as usize - usize::from(fewer);
        chance.shuffle(&mut week);
        if let Some(others) = others {
            let near = |day: &DaysAgo| {
                [day.saturating_sub(1), *day, day + 1].iter().filter(|d| others.contains(d)).count()
            };
            week.sort_by_key(near);
        }
        for _ in 0..wanted {
            let spread =
                |day: &DaysAgo| days.iter().map(|other: &DaysAgo| other.abs_diff(*day)).min().unwrap_or(9);
            let Some(best) =
                week.iter().copied().filter(|day| !days.contains(day)).max_by_key(|day| spread(day).min(2))
            else {
                break;
            };
            days.insert(best);
        }
        end = begin;
    }
    days
}

/// The last day of the rhythm has a sitting, of the last item that is practised up to it.
fn practise_on_the_last_day(dog: &Dog, chosen: &mut [(DaysAgo, usize)]) {
    let last = dog.rhythm.last;
    let by_moment = dog.moments.iter().any(|moment| moment.days_ago == last);
    if by_moment || chosen.iter().any(|(day, _)| *day == last) {
        return;
    }
    if let Some(newest) = chosen.iter_mut().min_by_key(|(day, place)| (*day, std::cmp::Reverse(*place))) {
        newest.0 = last;
    }
}
