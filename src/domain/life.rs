//! What goes on in a dog's life, and which of it lets the work rest: nothing is expected of a household meanwhile, and its silence is no
//! news.

use time::{Date, Duration};

use super::dates::{days_between, in_short};
use super::vocabulary::LifeKind;

/// Days for which something without an end goes on: a season lasts about three weeks, and who is ill or away for longer says until when.
/// Common practice. Then silence is heard again.
pub const OPEN_ENDED: i64 = 28;

impl LifeKind {
    /// Whether the work rests while it lasts.
    pub fn rests(self) -> bool {
        matches!(self, Self::Season | Self::Illness | Self::Holiday)
    }
}

/// A time in which the work rests.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rest {
    kind: LifeKind,
    from: Date,
    to: Option<Date>,
}

impl Rest {
    /// The rest that something brings; `None` where the work goes on beside it.
    pub fn of(kind: LifeKind, from: Date, to: Option<Date>) -> Option<Self> {
        kind.rests().then_some(Self { kind, from, to })
    }

    /// What it is.
    pub fn kind(&self) -> LifeKind {
        self.kind
    }

    /// Its last day.
    fn last_day(&self) -> Date {
        self.to.unwrap_or_else(|| self.from.saturating_add(Duration::days(OPEN_ENDED - 1)))
    }

    /// Whether it was over before a day.
    pub fn is_over_before(&self, day: Date) -> bool {
        self.last_day() < day
    }

    /// Whether a day lies in it.
    pub fn covers(&self, day: Date) -> bool {
        self.from <= day && day <= self.last_day()
    }

    /// What trainers read of it: "Away until 3 Dec", "Ill or hurt since Monday".
    pub fn words(&self, today: Date) -> String {
        match self.to {
            Some(to) => format!("{} until {}", self.kind, until(to, today)),
            None => format!("{} since {}", self.kind, since(self.from, today)),
        }
    }

    /// What its household reads: "Moss is away until 3 Dec."
    pub fn for_owner(&self, name: &str, today: Date) -> String {
        let state = match self.kind {
            LifeKind::Season => "in season",
            LifeKind::Illness => "unwell",
            _ => "away",
        };
        let vet = match self.kind {
            LifeKind::Illness => {
                " Have you rung your vet? New lameness, pain or anything that gets worse is for them."
            }
            _ => "",
        };
        match self.to {
            Some(to) => format!("{name} is {state} until {}.{vet}", until(to, today)),
            None => format!("{name} has been {state} since {}.{vet}", since(self.from, today)),
        }
    }
}

fn until(day: Date, today: Date) -> String {
    match days_between(today, day) {
        0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        _ => in_short(day, today),
    }
}

fn since(day: Date, today: Date) -> String {
    match days_between(day, today) {
        0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        2..=6 => day.weekday().to_string(),
        _ => in_short(day, today),
    }
}

/// The rest that a day lies in; of several, the one that goes on longest.
pub fn rest_on(rests: &[Rest], day: Date) -> Option<Rest> {
    rests.iter().filter(|rest| rest.covers(day)).max_by_key(|rest| (rest.last_day(), rest.from)).copied()
}

/// The day on which the work went on after the last rest that is over.
pub fn went_on_after(rests: &[Rest], today: Date) -> Option<Date> {
    rests.iter().map(Rest::last_day).filter(|last| *last < today).max().and_then(Date::next_day)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    /// A Thursday.
    const TODAY: Date = date!(2026 - 11 - 26);

    fn rest(kind: LifeKind, from: Date, to: Option<Date>) -> Rest {
        Rest::of(kind, from, to).expect("it rests")
    }

    #[test]
    fn only_season_illness_and_being_away_let_the_work_rest() {
        use super::super::vocabulary::Word;
        let rests: Vec<&LifeKind> = LifeKind::ALL.iter().filter(|kind| kind.rests()).collect();
        assert_eq!(rests, [&LifeKind::Season, &LifeKind::Illness, &LifeKind::Holiday]);
        assert_eq!(Rest::of(LifeKind::Medicine, TODAY, None), None);
    }

    #[test]
    fn a_rest_is_said_with_its_end_or_its_beginning() {
        let words = |kind, from, to| rest(kind, from, to).words(TODAY);
        assert_eq!(words(LifeKind::Holiday, TODAY, Some(date!(2026 - 12 - 03))), "Away until 3 Dec");
        assert_eq!(words(LifeKind::Holiday, TODAY, Some(date!(2027 - 01 - 03))), "Away until 3 Jan 2027");
        assert_eq!(words(LifeKind::Holiday, TODAY, Some(TODAY)), "Away until today");
        assert_eq!(words(LifeKind::Illness, date!(2026 - 11 - 23), None), "Ill or hurt since Monday");
        assert_eq!(words(LifeKind::Season, date!(2026 - 11 - 19), None), "In season since 19 Nov");
        let owner = rest(LifeKind::Illness, date!(2026 - 11 - 25), None).for_owner("Moss", TODAY);
        assert_eq!(
            owner,
            "Moss has been unwell since yesterday. Have you rung your vet? New lameness, pain or anything that gets worse is for them."
        );
    }

    #[test]
    fn both_ends_are_in_it_and_no_end_is_four_weeks() {
        let away = rest(LifeKind::Holiday, date!(2026 - 11 - 24), Some(date!(2026 - 11 - 26)));
        let covered = |day| away.covers(day);
        assert!(covered(date!(2026 - 11 - 24)) && covered(date!(2026 - 11 - 26)));
        assert!(!covered(date!(2026 - 11 - 23)) && !covered(date!(2026 - 11 - 27)));
        let ill = rest(LifeKind::Illness, date!(2026 - 10 - 30), None);
        assert!(ill.covers(TODAY), "the 28th day");
        assert!(!ill.covers(date!(2026 - 11 - 27)), "then silence is heard again");
    }

    #[test]
    fn of_several_the_longest_is_said_and_the_last_that_is_over_counts() {
        let until = |to| rest(LifeKind::Holiday, date!(2026 - 11 - 20), Some(to));
        let rests = [
            until(date!(2026 - 11 - 27)),
            until(date!(2026 - 12 - 01)),
            until(date!(2026 - 11 - 21)),
            until(date!(2026 - 11 - 25)),
        ];
        assert_eq!(rest_on(&rests, TODAY), Some(rests[1]));
        assert_eq!(rest_on(&rests[2..], TODAY), None);
        assert_eq!(went_on_after(&rests, TODAY), Some(TODAY));
        assert_eq!(went_on_after(&rests[..2], TODAY), None);
    }
}
