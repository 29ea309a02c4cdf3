//! What is enough today: the week that the plan asks for, laid over the days that are left of it.
//!
//! What the week, laid out, has today comes first, then what is furthest behind. Weeks begin on Monday. At most three things a day, and calm work after an exciting day: common practice.

/// The most exercises offered for one day.
const MOST: i64 = 3;

/// One exercise of the plan, as the week stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Exercise {
    /// Whether it winds a dog up or makes it run.
    pub arousing: bool,
    /// Whether it rests until a trainer has answered.
    pub paused: bool,
    /// Sittings that the plan asks for in a week, where it says.
    pub times_a_week: Option<i16>,
    /// Sittings since Monday, today's among them.
    pub this_week: i64,
    /// Sittings today.
    pub today: i64,
    /// Whether the week, laid out, has it today.
    pub laid_out: bool,
}

impl Exercise {
    /// Sittings that are left of this week's.
    fn left(&self) -> i64 {
        (i64::from(self.times_a_week.unwrap_or(0)) - self.this_week).max(0)
    }
}

/// Something exciting that a dog needs time to come down from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exciting {
    /// It was yesterday.
    Yesterday,
    /// It was today.
    Today,
}

/// The day, as far as it bears on practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Day {
    /// Days left of the week that the household has, today among them where it has it: 7 on a Monday, 1 on a Sunday.
    pub days_left: i64,
    /// Whether the household has time today, as far as anybody has said.
    pub has_today: bool,
    /// Sittings of any exercise since Monday, today's among them; those of lines that have left the plan count too.
    pub done_this_week: i64,
    /// Sittings of any exercise today.
    pub done_today: i64,
    /// Whether today or yesterday was exciting.
    pub exciting: Option<Exciting>,
    /// Whether "I am not coping" waits for its answer.
    pub not_coping: bool,
    /// Whether the dog's work rests as a whole.
    pub resting: bool,
}

/// What is enough today, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Enough {
    /// In plain words.
    pub heading: String,
    /// Why that is enough.
    pub why: String,
    /// Which exercises, as positions in the plan, in the plan's order.
    pub today: Vec<usize>,
}

impl Enough {
    fn nothing(heading: &str, why: impl Into<String>) -> Self {
        Self { heading: heading.to_owned(), why: why.into(), today: Vec::new() }
    }
}

/// What is enough today.
pub fn enough(exercises: &[Exercise], day: &Day) -> Enough {
    if let Some(rest) = rests(exercises, day) {
        return rest;
    }
    let open = || exercises.iter().filter(|exercise| !exercise.paused);
    let left: i64 = open().map(Exercise::left).sum();
    let done_today = day.done_today;
    if left == 0 && open().any(|exercise| exercise.times_a_week.unwrap_or(0) > 0) {
        return Enough::nothing(
            "A rest day",
            "Everything planned for this week is done. Rest lets it sink in.",
        );
    }
    if !day.has_today && day.done_today == 0 {
        return Enough::nothing(
            "Not a practice day",
            "You keep other days for practice. Enjoy each other; the plan waits for you.",
        );
    }
    let days_left = day.days_left.max(1);
    let wanted = ((left + done_today + days_left - 1) / days_left).clamp(1, MOST) - done_today;
    if wanted <= 0 {
        let why = format!(
            "Practised {} today. Short and often does more than long, so this is enough.",
            times(done_today)
        );
        return Enough::nothing("That is enough for today", why);
    }
    let mut today: Vec<usize> = (0..exercises.len())
        .filter(|index| {
            let exercise = &exercises[*index];
            let too_exciting = exercise.arousing && day.exciting.is_some();
            let asked_for = exercise.left() > 0 || exercise.times_a_week.is_none();
            !exercise.paused && asked_for && exercise.today == 0 && !too_exciting
        })
        .collect();
    today.sort_by_key(|index| (!exercises[*index].laid_out, std::cmp::Reverse(exercises[*index].left())));
    today.truncate(usize::try_from(wanted).unwrap_or(1));
    today.sort_unstable();
    if today.is_empty() {
        return quiet(day);
    }
    let count = i64::try_from(today.len()).unwrap_or(MOST);
    Enough { heading: heading(count, done_today), why: why(exercises, day, left), today }
}

/// The days on which nothing is to be practised.
fn rests(exercises: &[Exercise], day: &Day) -> Option<Enough> {
    if day.not_coping {
        return Some(Enough::nothing(
            "Nothing to practise today",
            "You said that it is too much at the moment. Keep what keeps everyone safe; that is enough until your \
             trainer has answered.",
        ));
    }
    if day.resting {
        return Some(Enough::nothing("A break from practice", "The plan rests for now. Enjoy each other."));
    }
    let all_paused = !exercises.is_empty() && exercises.iter().all(|exercise| exercise.paused);
    all_paused.then(|| {
        Enough::nothing(
            "Leave the exercises for now",
            "They rest for now; below stands until when. What keeps everyone safe goes on.",
        )
    })
}

fn quiet(day: &Day) -> Enough {
    match day.exciting {
        Some(_) => Enough::nothing("A quiet day", calm_after(day)),
        None if day.done_today > 0 => {
            Enough::nothing("That is enough for today", "Rest lets it sink in. Tomorrow is another day.")
        }
        None => Enough::nothing("A rest day", "Nothing is left to practise today. Rest lets it sink in."),
    }
}

fn calm_after(day: &Day) -> &'static str {
    match day.exciting {
        Some(Exciting::Today) => "Today was exciting already. Calm things only now, so that it can sink in.",
        _ => "Yesterday was exciting. A calm day lets it sink in, so this is enough.",
    }
}

fn heading(count: i64, done_today: i64) -> String {
    let number = match count {
        1 => "One",
        2 => "Two",
        _ => "Three",
    };
    let more = if done_today > 0 { "more " } else { "" };
    format!("{number} {more}short {} today", if count == 1 { "exercise" } else { "exercises" })
}

/// How the week stands, in the numbers that the trainer reads in the caseload: of the whole plan, paused or not.
fn why(exercises: &[Exercise], day: &Day, left: i64) -> String {
    if day.exciting.is_some() {
        return calm_after(day).to_owned();
    }
    let planned: i64 = exercises.iter().map(|exercise| i64::from(exercise.times_a_week.unwrap_or(0))).sum();
    if planned == 0 {
        return "A little, often, is enough.".to_owned();
    }
    let (done, days_left) = (day.done_this_week, day.days_left.max(1));
    if left > MOST * days_left {
        return format!("{done} of {planned} this week. No need to catch up: a small start is worth more.");
    }
    let days = match days_left {
        1 => "today is its last day".to_owned(),
        days => format!("{days} days are left"),
    };
    format!("{done} of {planned} this week, and {days}, so this is enough.")
}

fn times(count: i64) -> String {
    match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const MONDAY: Day = Day {
        days_left: 7,
        has_today: true,
        done_this_week: 0,
        done_today: 0,
        exciting: None,
        not_coping: false,
        resting: false,
    };

    fn calm(times: i16, this_week: i64, today: i64) -> Exercise {
        Exercise { times_a_week: Some(times), this_week, today, ..Exercise::default() }
    }

    fn wild(times: i16) -> Exercise {
        Exercise { arousing: true, ..calm(times, 0, 0) }
    }

    #[test]
    fn nothing_is_asked_for_on_a_day_that_is_not_theirs() {
        let day = Day { has_today: false, days_left: 2, ..MONDAY };
        let found = enough(&[calm(5, 0, 0)], &day);
        assert_eq!((found.heading.as_str(), found.today.len()), ("Not a practice day", 0));
        assert!(!enough(&[calm(5, 0, 0)], &Day { done_today: 1, ..day }).heading.contains("Not a"));
    }

    #[test]
    fn the_week_is_spread_over_the_days_that_are_left() {
        let found = enough(&[calm(5, 0, 0), calm(4, 0, 0), calm(3, 0, 0)], &MONDAY);
        assert_eq!((found.heading.as_str(), found.today), ("Two short exercises today", vec![0, 1]));
        let one = enough(&[calm(4, 2, 0)], &Day { days_left: 3, done_this_week: 2, ..MONDAY });
        assert_eq!(one.heading, "One short exercise today");
        assert_eq!(one.why, "2 of 4 this week, and 3 days are left, so this is enough.");
    }

    #[test]
    fn what_the_week_has_today_comes_first() {
        let laid_out = Exercise { laid_out: true, ..calm(2, 0, 0) };
        let day = Day { days_left: 7, ..MONDAY };
        assert_eq!(enough(&[calm(3, 0, 0), laid_out], &day).today, [1]);
        assert_eq!(enough(&[calm(3, 0, 0), calm(2, 0, 0)], &day).today, [0]);
        let done = Exercise { this_week: 2, ..laid_out };
        assert_eq!(enough(&[calm(3, 0, 0), done], &day).today, [0], "but not once more than was asked for");
    }

    #[test]
    fn calm_work_follows_an_exciting_day() {
        let day = Day { exciting: Some(Exciting::Yesterday), ..MONDAY };
        assert_eq!(enough(&[wild(3), calm(3, 0, 0)], &day).today, [1]);
        let only_wild = enough(&[wild(3)], &day);
        assert_eq!((only_wild.heading.as_str(), only_wild.today.len()), ("A quiet day", 0));
    }

    #[test]
    fn a_finished_week_is_a_rest_day_and_nobody_catches_up() {
        assert_eq!(enough(&[calm(3, 3, 0)], &MONDAY).heading, "A rest day");
        let behind = enough(&[calm(7, 0, 0)], &Day { days_left: 1, ..MONDAY });
        assert!(behind.why.contains("No need to catch up"), "{}", behind.why);
        assert_eq!(behind.today, [0]);
    }

    #[test]
    fn what_was_done_today_counts() {
        let day = Day { done_this_week: 1, done_today: 1, ..MONDAY };
        let done = enough(&[calm(7, 1, 1), calm(2, 0, 0)], &day);
        assert_eq!((done.heading.as_str(), done.today), ("One more short exercise today", vec![1]));
        assert_eq!(enough(&[calm(5, 1, 1)], &day).heading, "That is enough for today");
        let gone = enough(&[calm(5, 0, 0)], &day);
        assert_eq!(gone.heading, "That is enough for today", "of a line that has left the plan as well");
    }

    #[test]
    fn stops_and_tired_owners_rest() {
        let paused = Exercise { paused: true, ..calm(3, 0, 0) };
        assert_eq!(enough(&[paused], &MONDAY).heading, "Leave the exercises for now");
        assert_eq!(enough(&[paused, calm(3, 0, 0)], &MONDAY).today, [1]);
        let tired = Day { not_coping: true, ..MONDAY };
        assert_eq!(enough(&[calm(3, 0, 0)], &tired).heading, "Nothing to practise today");
        assert_eq!(
            enough(&[calm(3, 0, 0)], &Day { resting: true, ..MONDAY }).heading,
            "A break from practice"
        );
    }

    #[test]
    fn nothing_planned_says_nothing_of_a_week() {
        let free = Exercise::default();
        assert_eq!(enough(&[free], &MONDAY).why, "A little, often, is enough.");
    }
}
