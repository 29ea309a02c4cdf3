//! The charts of all sittings together: arousal, cool-down, minutes and days, food.

use crate::domain::charts::{Charted, arousal, cool_down, cooled_down, food_days, weeks, weeks_say};
use crate::domain::food::share::percent;
use crate::web::chart::{Calendar, Cell, Chart, Column, Row, Shape, Style, Subject, Trace, upto};
use crate::web::charts::{Frame, Item};

const AROUSAL: &str = "Arousal before and at the end";
const COOL_DOWN: &str = "Cool-down by sitting";
const WEEKS: &str = "Minutes and days practised";
const FOOD: &str = "Extras as a share of the day’s food";

/// The charts, in their order.
pub fn charts(frame: &Frame<'_>) -> Vec<Item> {
    let sittings = frame.sittings();
    vec![
        calendar(frame, &sittings),
        arousal_chart(frame, &sittings),
        cool_down_chart(frame, &sittings),
        food(frame, &sittings),
    ]
}

/// A chart of this dog, to be filled.
pub(super) fn subject<'a>(frame: &'a Frame<'_>, id: &str, title: &'a str) -> Subject<'a> {
    Subject {
        id: id.to_owned(),
        about: "",
        title,
        reading: String::new(),
        notes: Vec::new(),
        columns: Vec::new(),
        rows: Vec::new(),
        scale: Vec::new(),
        rules: Vec::new(),
        days: frame.days,
        marks: &frame.known.marks,
        shapes: Vec::new(),
        today: frame.today(),
    }
}

fn exercise(one: &Charted) -> Cell {
    Cell::words(one.sitting.exercise.clone().unwrap_or_default())
}

fn number(value: Option<i16>, unit: &str) -> Cell {
    value.map_or_else(Cell::unstated, |value| Cell::value(value, format!("{value}{unit}")))
}

fn calendar(frame: &Frame<'_>, sittings: &[&Charted]) -> Item {
    if sittings.is_empty() {
        return frame.nothing(WEEKS, "Nothing was practised");
    }
    let weeks = weeks(sittings, frame.days.0, frame.days.1);
    Item::Calendar(Box::new(Calendar::draw("weeks", WEEKS, weeks_say(&weeks), &weeks, frame.today())))
}

fn arousal_chart(frame: &Frame<'_>, sittings: &[&Charted]) -> Item {
    let reading = arousal(sittings);
    if reading.is_empty() {
        return frame.nothing(AROUSAL, "No sitting states arousal");
    }
    let stated = sittings
        .iter()
        .filter(|one| one.sitting.arousal_before.is_some() || one.sitting.arousal_end.is_some());
    let row = |one: &&Charted| {
        let (before, end) = (one.sitting.arousal_before, one.sitting.arousal_end);
        Row::on(one.sitting.local_date, vec![number(before, ""), number(end, ""), exercise(one)])
    };
    Item::Chart(Box::new(Chart::draw(Subject {
        reading,
        notes: vec!["1 resting, 2 loose, 3 alert, 4 wound up, 5 cannot eat or hear you.".to_owned()],
        columns: vec![
            Column::drawn("Before", Style::Points(Shape::Diamond, Trace::Dashed)),
            Column::drawn("At the end", Style::Points(Shape::Square, Trace::Solid)),
            Column::words("Exercise"),
        ],
        rows: stated.map(row).collect(),
        scale: (1..=5).map(|level| (f64::from(level), level.to_string())).collect(),
        ..subject(frame, "arousal", AROUSAL)
    })))
}

fn cool_down_chart(frame: &Frame<'_>, sittings: &[&Charted]) -> Item {
    let reading = cool_down(sittings);
    if reading.is_empty() {
        return frame.nothing(COOL_DOWN, "No sitting states the minutes of its cool-down");
    }
    let stated: Vec<&&Charted> = sittings.iter().filter(|one| cooled_down(&one.sitting).is_some()).collect();
    let asked = |one: &Charted| one.sitting.planned.cool_down_minutes.filter(|n| *n > 0);
    let highest = stated.iter().flat_map(|one| [cooled_down(&one.sitting), asked(one)]).flatten().max();
    let row = |one: &&&Charted| {
        let planned = match asked(one) {
            Some(minutes) => number(Some(minutes), " min"),
            None => Cell::words("none"),
        };
        let took = number(cooled_down(&one.sitting), " min");
        Row::on(one.sitting.local_date, vec![took, planned, exercise(one)])
    };
    Item::Chart(Box::new(Chart::draw(Subject {
        reading,
        columns: vec![
            Column::drawn("Cool-down", Style::Bars),
            Column::drawn("The plan asked for", Style::Points(Shape::Diamond, Trace::None)),
            Column::words("Exercise"),
        ],
        rows: stated.iter().map(row).collect(),
        scale: upto(highest.unwrap_or(1).max(1).into(), "min"),
        ..subject(frame, "cool-down", COOL_DOWN)
    })))
}

fn food(frame: &Frame<'_>, sittings: &[&Charted]) -> Item {
    let days = food_days(sittings, &frame.known.facts);
    if days.known.is_empty() {
        let why = days.left_out().map(|why| format!(" {why}")).unwrap_or_default();
        return Item::Empty(FOOD, format!("No day is known {}.{why}", frame.range.words()));
    }
    let ceiling = frame.known.ceiling;
    let highest = days.known.iter().map(|day| day.share[2]).fold(ceiling, f64::max);
    let rows = days.known.iter().map(|day| {
        let [low, point, high] = day.share.map(|share| share * 100.0);
        let tenth = |value: f64| format!("{value:.1}");
        Row::on(
            day.on,
            vec![
                Cell::value(point, format!("{} %", tenth(point))),
                Cell::between(low, high, format!("{}–{} %", tenth(low), tenth(high))),
                Cell::words(format!("{:.0} kcal", day.kcal)),
            ],
        )
    });
    Item::Chart(Box::new(Chart::draw(Subject {
        reading: days.says(ceiling),
        notes: days.left_out().into_iter().collect(),
        columns: vec![
            Column::drawn("Share of the need", Style::Points(Shape::Dot, Trace::None)),
            Column::drawn("Range of the need", Style::Band),
            Column::words("Extras"),
        ],
        rows: rows.collect(),
        scale: upto(highest * 100.0, "%"),
        rules: vec![(ceiling * 100.0, format!("Extras may be {}", percent(ceiling, ceiling)))],
        ..subject(frame, "food", FOOD)
    })))
}
