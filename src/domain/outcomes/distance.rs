//! Distance to a trigger: closer after three easy exposures on two days, and back off after one reaction. Common practice in
//! desensitisation: the dog stays under the distance at which it reacts.

use super::measured::{days, said};
use super::{Ease, Measured, OutcomeAdvice};
use crate::domain::figure::Figure;
use crate::domain::vocabulary::Choice;

/// Easy exposures in a row.
const EXPOSURES: usize = 3;
/// Days that they are on.
const DAYS: usize = 2;
const SOURCE: &str = "Common practice in desensitisation: closer after three easy exposures on two days, and one reaction is one \
    too many. No published rule was found for the numbers.";

pub(super) fn advise(sittings: &[Measured]) -> Option<OutcomeAdvice> {
    let last = sittings.last()?;
    let easy = easy_run(sittings);
    let unsaid = sittings.iter().filter(|sitting| sitting.ease == Ease::NotStated).count();
    let mut figures = vec![
        Figure::new(
            "Easy in a row",
            format!("{} of {EXPOSURES}, on {} of {DAYS} days", easy.len(), days(easy.iter().copied())),
        ),
        Figure::new("Last distance", format!("{} m", said(last.value))),
    ];
    if unsaid > 0 {
        figures
            .push(Figure::new("How the dog was, not stated", format!("{unsaid} times: not counted as easy")));
    }
    let (choice, word, for_trainer, for_owner) = if last.ease == Ease::Reaction {
        backed_off(sittings, last.value)
    } else if easy.len() >= EXPOSURES && days(easy.iter().copied()) >= DAYS {
        closer(&easy)
    } else {
        stay(easy.len(), unsaid)
    };
    Some(OutcomeAdvice { choice, word, for_trainer, for_owner, figures, source: SOURCE })
}

/// After a reaction at a distance that nobody stated.
pub(super) fn reacted_somewhere() -> OutcomeAdvice {
    OutcomeAdvice {
        choice: Choice::MakeEasier,
        word: "Back off",
        for_trainer: "A reaction, distance not stated. Go well beyond the last easy distance, and let the dog rest from it first."
            .to_owned(),
        for_owner: "That was too close. Next time stay much further away, and leave as soon as it gets hard.".to_owned(),
        figures: vec![Figure::new("Last distance", "not stated")],
        source: SOURCE,
    }
}

type Words = (Choice, &'static str, String, String);

/// The easy exposures at the end. One about which nothing was said neither counts nor breaks the run.
fn easy_run(sittings: &[Measured]) -> Vec<&Measured> {
    let stated = sittings.iter().rev().filter(|sitting| sitting.ease != Ease::NotStated);
    let mut run: Vec<&Measured> = stated.take_while(|sitting| sitting.ease == Ease::Easy).collect();
    run.reverse();
    run
}

fn backed_off(sittings: &[Measured], reacted_at: f64) -> Words {
    let easy = sittings.iter().filter(|sitting| sitting.ease == Ease::Easy).map(|sitting| sitting.value);
    let beyond = easy.filter(|metres| *metres > reacted_at).reduce(f64::min);
    let back_to = match beyond {
        Some(metres) => format!("to {} m or more, where it was easy before", said(metres)),
        None => format!("well beyond {} m", said(reacted_at)),
    };
    (
        Choice::MakeEasier,
        "Back off",
        format!(
            "A reaction at {} m. Go back {back_to}, and let the dog rest from it first.",
            said(reacted_at)
        ),
        format!(
            "That was too close. Next time stay further away, {back_to}, and leave as soon as it gets hard."
        ),
    )
}

fn closer(easy: &[&Measured]) -> Words {
    let lately = &easy[easy.len() - EXPOSURES..];
    let metres = said(lately.iter().map(|sitting| sitting.value).fold(0.0, f64::max));
    (
        Choice::MoveOn,
        "A little closer",
        format!(
            "Easy {} times running. A little closer than {metres} m next, and nothing else harder on the same day. Never nearer \
             a child, and never without the line, barrier or muzzle of the plan, on these numbers.",
            easy.len()
        ),
        "This is easy now. Your trainer will look at coming a little closer; until then stay where you are."
            .to_owned(),
    )
}

fn stay(easy: usize, unsaid: usize) -> Words {
    let missing = EXPOSURES.saturating_sub(easy);
    let for_trainer = match missing {
        0 => "Easy, but all on one day. The same distance on another day.".to_owned(),
        1 => {
            "The same distance: one more easy exposure, on two days in all, before coming closer.".to_owned()
        }
        n => format!("The same distance: {n} more easy exposures, on two days in all, before coming closer."),
    };
    let for_owner = if unsaid > 0 {
        "Keep this distance. Say how your dog looked and ate each time: that is what tells us."
    } else {
        "Keep this distance for now. Easy and dull is just right."
    };
    (Choice::Repeat, "Same distance", for_trainer, for_owner.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use Ease::{Easy, NotEasy, NotStated, Reaction};
    use time::Duration;
    use time::macros::date;

    fn advice(sittings: &[(i64, f64, Ease)]) -> OutcomeAdvice {
        let sittings: Vec<Measured> = sittings
            .iter()
            .map(|&(day, value, ease)| Measured {
                on: date!(2025 - 03 - 01) + Duration::days(day),
                value,
                ease,
            })
            .collect();
        advise(&sittings).expect("there are sittings")
    }

    #[test]
    fn three_easy_on_two_days_come_closer_and_fewer_do_not() {
        assert_eq!(advice(&[(0, 20.0, Easy), (0, 20.0, Easy), (1, 18.0, Easy)]).choice, Choice::MoveOn);
        assert_eq!(advice(&[(0, 20.0, Easy), (1, 20.0, Easy)]).choice, Choice::Repeat);
        let one_day = advice(&[(0, 20.0, Easy), (0, 20.0, Easy), (0, 20.0, Easy)]);
        assert_eq!(one_day.choice, Choice::Repeat);
        assert!(one_day.for_trainer.contains("another day"), "{}", one_day.for_trainer);
    }

    #[test]
    fn closer_is_meant_from_the_widest_of_the_three() {
        let found = advice(&[(0, 9.0, Easy), (1, 12.0, Easy), (2, 10.0, Easy), (3, 8.0, Easy)]);
        assert!(found.for_trainer.contains("closer than 12 m"), "{}", found.for_trainer);
        assert!(found.for_trainer.contains("Never nearer a child"), "{}", found.for_trainer);
    }

    #[test]
    fn one_reaction_backs_off_to_where_it_was_easy() {
        let found = advice(&[(0, 20.0, Easy), (1, 15.0, Easy), (2, 12.0, Easy), (3, 10.0, Reaction)]);
        assert_eq!(found.choice, Choice::MakeEasier);
        assert!(found.for_trainer.contains("to 12 m or more"), "{}", found.for_trainer);
        let nearer_before = advice(&[(0, 8.0, Easy), (1, 20.0, Easy), (2, 10.0, Reaction)]);
        assert!(nearer_before.for_trainer.contains("to 20 m or more"), "{}", nearer_before.for_trainer);
        assert!(advice(&[(0, 10.0, Reaction)]).for_owner.contains("well beyond 10 m"));
    }

    #[test]
    fn a_reaction_or_an_uneasy_sitting_begins_the_run_anew() {
        for broken in [Reaction, NotEasy] {
            let run = [(0, 20.0, Easy), (1, 20.0, Easy), (2, 20.0, broken), (3, 20.0, Easy)];
            assert_eq!(advice(&run).choice, Choice::Repeat);
        }
    }

    #[test]
    fn what_was_not_said_neither_counts_nor_breaks() {
        let run = [(0, 20.0, Easy), (1, 20.0, NotStated), (2, 20.0, Easy), (3, 20.0, NotStated)];
        let found = advice(&run);
        assert_eq!(found.choice, Choice::Repeat);
        assert!(found.for_owner.contains("Say how your dog looked"), "{}", found.for_owner);
        let more = [&run[..], &[(4, 20.0, Easy)]].concat();
        assert_eq!(advice(&more).choice, Choice::MoveOn);
    }
}
