use super::*;
use crate::web::chart::{Cell, Column, per_cent};
use time::macros::date;

fn row(day: u8, stage: &str, value: f64) -> Row {
    let on = date!(2026 - 03 - 01).replace_day(day).expect("a day");
    let cells = vec![Cell::value(value, format!("{value}")), Cell::between(value / 2.0, value, "")];
    Row { on, stage: stage.to_owned(), cells }
}

fn subject(rows: Vec<Row>, marks: &[Mark]) -> Subject<'_> {
    Subject {
        id: "one".to_owned(),
        about: "Nose to hand",
        title: "Success",
        reading: String::new(),
        notes: Vec::new(),
        columns: vec![
            Column::drawn("Met", Style::Points(Shape::Dot, Trace::Solid)),
            Column::drawn("Likely", Style::Band),
        ],
        rows,
        scale: per_cent(),
        rules: Vec::new(),
        days: (date!(2026 - 03 - 01), date!(2026 - 03 - 20)),
        marks,
        shapes: Vec::new(),
        today: date!(2026 - 03 - 20),
    }
}

#[test]
fn lines_run_within_a_stage_and_a_change_is_marked() {
    let drawn = Chart::draw(subject(vec![row(1, "1", 0.0), row(2, "1", 100.0), row(3, "2", 50.0)], &[]));
    let (_, path) = &drawn.drawing.traces[0];
    assert_eq!(path.matches('M').count(), 2, "{path}");
    assert_eq!(drawn.drawing.uprights.len(), 1);
    assert_eq!(drawn.drawing.uprights[0].name, "2");
    assert!(drawn.drawing.points[0].transform.ends_with(&format!(" {BOTTOM:.2})")));
    assert!(drawn.drawing.points[1].transform.ends_with(&format!(" {TOP:.2})")));
    assert_eq!(drawn.full_title, "Nose to hand: success");
}

#[test]
fn long_histories_are_cut_and_say_so() {
    let rows = (0..MOST + 5).map(|n| row(1 + u8::try_from(n / 20).expect("few"), "", 50.0)).collect();
    let drawn = Chart::draw(subject(rows, &[]));
    assert_eq!(drawn.drawing.points.len(), MOST);
    assert_eq!(drawn.notes, ["The newest 200 of 205 are shown."]);
}

#[test]
fn what_happened_is_numbered_in_the_drawing_the_list_and_the_table() {
    let mark = |day: u8, words: &str| Mark {
        on: date!(2026 - 03 - 01).replace_day(day).expect("a day"),
        words: words.to_owned(),
    };
    let marks = [mark(2, "Moved house"), mark(9, "Fireworks")];
    let drawn = Chart::draw(subject(vec![row(1, "", 10.0), row(3, "", 20.0)], &marks));
    let names: Vec<&str> = drawn.drawing.uprights.iter().map(|mark| mark.name.as_str()).collect();
    assert_eq!(names, ["1", "2"]);
    assert_eq!(drawn.marks[1].2, "Fireworks");
    let rows: Vec<Option<usize>> = drawn.rows.iter().map(|row| row.row).collect();
    assert_eq!(rows, [Some(0), None, Some(1), None]);
    assert_eq!(drawn.rows[1].cells[0].0, "1: Moved house");
}

#[test]
fn names_of_changes_run_into_no_other() {
    let steps = ["step 1", "step 2", "step 3", "step 4"];
    let close: Vec<Row> = (1u8..).zip(steps).map(|(day, step)| row(day, step, 50.0)).collect();
    let drawn =
        Chart::draw(Subject { days: (date!(2026 - 01 - 01), date!(2026 - 12 - 31)), ..subject(close, &[]) });
    let names: Vec<&str> = drawn.drawing.uprights.iter().map(|change| change.name.as_str()).collect();
    assert_eq!(names, ["step 2", "step 3", ""], "two have room above each other, the third is a line alone");
    let apart: Vec<Row> = steps
        .iter()
        .enumerate()
        .map(|(n, step)| row(1 + 6 * u8::try_from(n).expect("few"), step, 50.0))
        .collect();
    let drawn = Chart::draw(subject(apart, &[]));
    let names: Vec<&str> = drawn.drawing.uprights.iter().map(|change| change.name.as_str()).collect();
    assert_eq!(names, ["step 2", "step 3", "step 4"]);
}

#[test]
fn nothing_to_draw_is_drawn_as_nothing() {
    let drawn = Chart::draw(subject(Vec::new(), &[]));
    assert!(
        drawn.drawing.points.is_empty() && drawn.drawing.traces.is_empty() && drawn.drawing.areas.is_empty()
    );
}
