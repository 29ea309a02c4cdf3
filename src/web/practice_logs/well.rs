//! What went well: said before anything else, and only what was stated.

use crate::domain::dog::Pronouns;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Clip, Finish, Line, Looked, Recovery, TookFood, Word};

/// The headline of a sitting in an owner's words.
pub fn headline(sitting: &Sitting) -> String {
    match sitting.counted() {
        Some((attempts, met)) if met == attempts => format!("All {attempts} earned the “yes”"),
        Some((_, 0)) => "You tried, and you told us".to_owned(),
        Some((attempts, met)) => format!("{met} of {attempts} earned the “yes”"),
        None => "Thank you for writing it down".to_owned(),
    }
}

/// What went well, one sentence each.
pub fn sentences(sitting: &Sitting, name: &str, pronouns: Pronouns) -> Vec<String> {
    let Pronouns { possessive, reflexive, .. } = pronouns;
    let mut said = Vec::new();
    if sitting.counted().is_some_and(|(_, met)| met == 0) {
        said.push("A try that did not work out yet shows us where to make it easier.".to_owned());
    }
    if sitting.took_food == Some(TookFood::Gently) {
        said.push(format!("{name} took {possessive} food gently."));
    }
    if sitting.looked == Some(Looked::Loose) {
        said.push(format!("{name} looked loose and easy."));
    }
    match sitting.recovery {
        Some(Recovery::Within5) => said.push(format!("{name} was {reflexive} again within five minutes.")),
        Some(Recovery::Within15) => {
            said.push(format!("{name} was {reflexive} again within fifteen minutes."))
        }
        Some(Recovery::Longer | Recovery::NotYet) | None => {}
    }
    if sitting.line == Some(Line::LongLine)
        && matches!(sitting.clip, Some(Clip::HarnessBack | Clip::HarnessFront))
    {
        said.push("The long line was on the harness.".to_owned());
    }
    if let Some(finish) = sitting.finish.filter(|finish| *finish != Finish::StraightHome) {
        let minutes = sitting.cool_down_minutes.filter(|minutes| *minutes > 0);
        let length = minutes.map(|minutes| format!(", {minutes} min")).unwrap_or_default();
        said.push(format!("You finished calmly: {}{length}.", finish.label().to_lowercase()));
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    const SHE: Pronouns = Pronouns { subject: "she", object: "her", possessive: "her", reflexive: "herself" };

    #[test]
    fn only_what_was_stated_is_said() {
        let mut sitting = Sitting::on(date!(2026 - 03 - 12));
        assert!(sentences(&sitting, "Bracken", SHE).is_empty());
        assert_eq!(headline(&sitting), "Thank you for writing it down");
        (sitting.attempts, sitting.met) = (Some(10), Some(7));
        (sitting.finish, sitting.cool_down_minutes) = (Some(Finish::SniffWalk), Some(5));
        assert_eq!(headline(&sitting), "7 of 10 earned the “yes”");
        assert_eq!(sentences(&sitting, "Bracken", SHE), ["You finished calmly: sniffing walk, 5 min."]);
    }

    #[test]
    fn none_of_ten_is_no_reproach() {
        let mut sitting = Sitting::on(date!(2026 - 03 - 12));
        (sitting.attempts, sitting.met) = (Some(10), Some(0));
        assert_eq!(headline(&sitting), "You tried, and you told us");
    }
}
