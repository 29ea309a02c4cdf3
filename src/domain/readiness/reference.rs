//! Limits, chances and intervals against reference libraries (`tests/reference`).

use super::{chance_of_false_move_on, limit, wilson};
use crate::domain::vocabulary::{SkillClass, Word};

/// The rows of a table without its heading, each in its fields.
fn rows(table: &str) -> Vec<Vec<&str>> {
    table.lines().skip(1).map(|row| row.split(',').collect()).collect()
}

fn number(field: &str) -> f64 {
    field.parse().expect("a number")
}

fn class(field: &str) -> SkillClass {
    SkillClass::from_stored(field).expect("a class")
}

fn close(found: f64, expected: f64, within: f64, row: &[&str]) {
    assert!((found - expected).abs() < within, "{row:?}: {found}");
}

#[test]
fn intervals_agree_with_a_reference_library() {
    let rows = rows(include_str!("../../../tests/reference/wilson.csv"));
    assert!(rows.len() > 100);
    for row in rows {
        let found = wilson(row[0].parse().expect("met"), row[1].parse().expect("attempts"));
        let found = found.expect("an interval");
        close(found.low, number(row[2]), 1e-9, &row);
        close(found.high, number(row[3]), 1e-9, &row);
    }
}

#[test]
fn limits_and_weights_agree_with_the_markov_chain() {
    let rows = rows(include_str!("../../../tests/reference/limits.csv"));
    assert_eq!(rows.len(), SkillClass::ALL.len());
    for row in rows {
        let class = class(row[0]);
        let chart = class.parameters();
        close(chart.ready_misses, number(row[1]), 1e-12, &row);
        close(chart.not_ready_misses, number(row[2]), 1e-12, &row);
        close(chart.false_move_on, number(row[4]), 1e-12, &row);
        close(chart.weight_met(), number(row[5]), 1e-11, &row);
        close(chart.weight_missed(), number(row[6]), 1e-11, &row);
        close(limit(class), number(row[7]), 1e-9, &row);
    }
}

#[test]
fn chances_of_a_false_move_on_agree_with_the_markov_chain() {
    let rows = rows(include_str!("../../../tests/reference/chances.csv"));
    let not_ready =
        |row: &Vec<&str>| (number(row[1]) - class(row[0]).parameters().not_ready_misses).abs() < f64::EPSILON;
    let rows: Vec<_> = rows.into_iter().filter(not_ready).collect();
    assert!(rows.len() > 30);
    for row in rows {
        let attempts = row[2].parse().expect("attempts");
        close(chance_of_false_move_on(class(row[0]), attempts), number(row[3]), 1e-8, &row);
    }
}
