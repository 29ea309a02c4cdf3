//! Minutes of cool-down by sitting, beside what the plan asked for.

use super::{Charted, said};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Finish;

/// How many minutes a sitting was cooled down after: none where one was planned and it went straight home; `None` where nothing is stated.
pub fn cooled_down(sitting: &Sitting) -> Option<i16> {
    let was_planned = sitting.planned.cool_down_minutes.is_some_and(|minutes| minutes > 0);
    let left_out = was_planned && sitting.finish == Some(Finish::StraightHome);
    sitting.cool_down_minutes.or(left_out.then_some(0))
}

/// What the sittings say of cooling down; empty where none says how long.
pub fn cool_down(sittings: &[&Charted]) -> String {
    let stated: Vec<(i16, Option<i16>)> = sittings
        .iter()
        .filter_map(|one| cooled_down(&one.sitting).map(|took| (took, one.sitting.planned.cool_down_minutes)))
        .collect();
    if stated.is_empty() {
        return String::new();
    }
    let asked: Vec<(i16, i16)> = stated
        .iter()
        .filter_map(|(took, asked)| asked.filter(|n| *n > 0).map(|asked| (*took, asked)))
        .collect();
    let silent = sittings
        .iter()
        .filter(|one| one.sitting.planned.cool_down_minutes.is_some_and(|n| n > 0))
        .filter(|one| cooled_down(&one.sitting).is_none())
        .count();
    let unstated = match silent {
        0 => String::new(),
        n => format!(" Not stated in {n} more that were to have one."),
    };
    if asked.is_empty() {
        let mean = stated.iter().map(|(took, _)| f64::from(*took)).sum::<f64>() / stated.len() as f64;
        return format!(
            "The plan asked for none; {} minutes on average over {} that state it.{unstated}",
            said(mean),
            stated.len()
        );
    }
    let enough = asked.iter().filter(|(took, asked)| took >= asked).count();
    format!("As long as the plan asked for in {enough} of {} that state it.{unstated}", asked.len())
}
