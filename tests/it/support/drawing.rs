//! Reading charts back: from the coordinates of what is drawn, by the labels of its own axes, to what the table beside it says.

use scraper::{ElementRef, Html};
use time::{Date, Duration};

use super::answer::{selector, text};
use settlebrook::web::zones;

/// Coordinates are drawn to a hundredth.
const PRECISION: f64 = 0.011;

/// An axis: two of its labels, each with where it stands and what it stands for.
#[derive(Debug, Clone, Copy)]
struct Axis {
    first: (f64, f64),
    last: (f64, f64),
}

impl Axis {
    fn of(labels: &[(f64, f64)]) -> Self {
        let axis = Self { first: labels[0], last: *labels.last().expect("two labels") };
        assert!((axis.first.0 - axis.last.0).abs() > 1.0, "labels stand apart: {labels:?}");
        for (at, value) in labels {
            assert!(
                (axis.value(*at) - value).abs() <= axis.precision(),
                "{value} is not at {at}: {labels:?}"
            );
        }
        axis
    }

    /// What one unit of the drawing comes to.
    fn unit(&self) -> f64 {
        (self.last.1 - self.first.1) / (self.last.0 - self.first.0)
    }

    fn value(&self, at: f64) -> f64 {
        self.first.1 + (at - self.first.0) * self.unit()
    }

    fn precision(&self) -> f64 {
        // a label and a mark may each be rounded
        2.0 * PRECISION * self.unit().abs() + 1e-9
    }
}

/// A chart as it is drawn, with its table.
pub struct Drawn<'a> {
    figure: ElementRef<'a>,
    values: Axis,
    days: Axis,
    labels: Vec<(f64, String)>,
    rows: Vec<Vec<String>>,
    today: Date,
}

fn number(element: ElementRef<'_>, name: &str) -> f64 {
    let said = element.attr(name).unwrap_or_else(|| panic!("{} has no {name}", element.html()));
    said.parse().unwrap_or_else(|_| panic!("{said:?} is no number"))
}

fn found<'a>(figure: ElementRef<'a>, css: &str) -> Vec<ElementRef<'a>> {
    figure.select(&selector(css)).collect()
}

/// The numbers in a text, each with the digits after its point.
fn numbers(words: &str) -> Vec<(f64, usize)> {
    let parts = words.split(|c: char| !(c.is_ascii_digit() || c == '.')).map(|part| part.trim_matches('.'));
    let read =
        |part: &str| Some((part.parse().ok()?, part.split_once('.').map_or(0, |(_, digits)| digits.len())));
    parts.filter_map(read).collect()
}

/// A day as attributes say it: "2026-03-12".
fn day(text: &str) -> Date {
    let format = time::macros::format_description!("[year]-[month]-[day]");
    Date::parse(text, format).unwrap_or_else(|_| panic!("{text} is no day"))
}

/// The pairs of a path: "M1 2L3 4".
fn pairs(path: &str) -> Vec<(f64, f64)> {
    let numbers: Vec<f64> = path
        .split(|c: char| c.is_ascii_alphabetic() || c == ' ')
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().expect("a number"))
        .collect();
    numbers.chunks(2).map(|pair| (pair[0], pair[1])).collect()
}

impl<'a> Drawn<'a> {
    fn of(figure: ElementRef<'a>, today: Date) -> Self {
        let labels: Vec<(f64, f64, String)> = found(figure, "[data-tick]")
            .into_iter()
            .map(|tick| (number(tick, "y"), number(tick, "data-tick"), text(tick)))
            .collect();
        let days: Vec<(f64, f64)> = found(figure, "[data-day]")
            .into_iter()
            .map(|tick| {
                let on = day(tick.attr("data-day").expect("a day"));
                assert_eq!(text(tick), zones::day(on, today));
                (number(tick, "x"), f64::from(on.to_julian_day()))
            })
            .collect();
        let rows = found(figure, "tbody tr[data-row]").into_iter();
        let cells = |row: ElementRef<'a>| found(row, "th, td").into_iter().map(text).collect();
        Self {
            figure,
            values: Axis::of(&labels.iter().map(|(y, value, _)| (*y, *value)).collect::<Vec<_>>()),
            days: Axis::of(&days),
            labels: labels.into_iter().map(|(_, value, words)| (value, words)).collect(),
            rows: rows.map(cells).collect(),
            today,
        }
    }

    /// The cell that a mark says it stands for; fails unless the mark stands over that row's day.
    fn cell(&self, mark: ElementRef<'_>, x: f64) -> &str {
        let (row, column) = (number(mark, "data-row") as usize, number(mark, "data-column") as usize);
        let day = self.days.value(x).round() as i32;
        let on = Date::from_julian_day(day).expect("a day");
        assert_eq!(self.rows[row][0], zones::day(on, self.today), "row {row}, drawn at {x}");
        &self.rows[row][column]
    }

    /// Fails unless a height is what a mark says that it is, and what its cell says: a label's words, or the `nth` number.
    fn holds(&self, y: f64, exact: f64, cell: &str, nth: usize) {
        let drawn = self.values.value(y);
        assert!((drawn - exact).abs() <= self.values.precision(), "{exact} is drawn at {drawn}");
        let told = numbers(cell).get(nth).copied();
        let is_told = told.is_some_and(|(told, digits)| {
            let rounding = 0.5 * 10_f64.powi(-i32::try_from(digits).expect("few")) + 1e-9;
            (told - exact).abs() <= rounding && (told - drawn).abs() <= rounding + self.values.precision()
        });
        let is_label = self.labels.iter().any(|(label, words)| words == cell && (label - exact).abs() < 1e-9);
        assert!(is_told || is_label, "{cell} is drawn as {exact}, at {drawn}");
    }

    /// Fails unless everything drawn is what the table says, and everything that the table has to be drawn is. Gives how much.
    fn check(&self) -> usize {
        let mut marks = 0;
        let mut places = Vec::new();
        for point in found(self.figure, "svg.chart[role=img] path[transform]") {
            let transform = point.attr("transform").expect("a place");
            let inside = transform.trim_start_matches("translate(").split(')').next().expect("a place");
            let place = pairs(inside)[0];
            self.holds(place.1, number(point, "data-value"), self.cell(point, place.0), 0);
            places.push(place);
            marks += 1;
        }
        for bar in found(self.figure, "svg.chart[role=img] rect.bar") {
            let (x, y) = (number(bar, "x"), number(bar, "y"));
            let cell = self.cell(bar, x + number(bar, "width") / 2.0);
            self.holds(y, number(bar, "data-value"), cell, 0);
            let foot = self.values.value(y + number(bar, "height"));
            assert!(foot.abs() <= 2.0 * self.values.precision(), "a bar stands on {foot}");
            marks += 1;
        }
        let mut ends = Vec::new();
        for span in found(self.figure, "svg.chart[role=img] path.span") {
            let path = span.attr("d").expect("a path");
            let (from, to) = path.split_once('V').expect("a line upwards");
            let ((x, low), high) = (pairs(from)[0], to.parse::<f64>().expect("a number"));
            let cell = self.cell(span, x).to_owned();
            self.holds(low, number(span, "data-low"), &cell, 0);
            self.holds(high, number(span, "data-high"), &cell, 1);
            ends.extend([(x, low), (x, high)]);
            marks += 1;
        }
        for trace in found(self.figure, "svg.chart[role=img] path.trace") {
            for place in pairs(trace.attr("d").expect("a path")) {
                assert!(places.contains(&place), "a line runs past {place:?}, where there is no point");
            }
        }
        for area in found(self.figure, "svg.chart[role=img] path.area") {
            for place in pairs(area.attr("d").expect("a path")) {
                assert!(ends.contains(&place), "a band reaches {place:?}, where there is no span");
            }
        }
        for limit in found(self.figure, "svg.chart[role=img] path.limit") {
            let y = limit
                .attr("d")
                .and_then(|d| d.split_once('H'))
                .map(|(from, _)| pairs(from)[0].1)
                .expect("a line");
            let value = number(limit, "data-value");
            assert!(
                (self.values.value(y) - value).abs() <= self.values.precision(),
                "{value} is drawn at {y}"
            );
        }
        assert_eq!(marks, self.wanted(), "as much is drawn as the table has to be drawn");
        marks
    }

    /// How much the table has to be drawn.
    fn wanted(&self) -> usize {
        let heads = found(self.figure, "thead th");
        let drawn: Vec<usize> = heads
            .iter()
            .enumerate()
            .filter(|(_, head)| head.attr("data-drawn").is_some())
            .map(|(n, _)| n)
            .collect();
        let is_number = |cell: &str| cell != "not stated" && cell != "none";
        self.rows.iter().map(|row| drawn.iter().filter(|n| is_number(&row[**n])).count()).sum()
    }
}

/// Reads the calendar back: the boxes by the headings they stand under, against its table. Gives how many days it has.
fn calendar(figure: ElementRef<'_>) -> usize {
    let heads = |name: &str, at: &str| -> Vec<(f64, String)> {
        let css = format!("svg [{name}]");
        found(figure, &css)
            .into_iter()
            .map(|h| (number(h, at), h.attr(name).unwrap_or_default().to_owned()))
            .collect()
    };
    let (weekdays, mondays) = (heads("data-weekday", "x"), heads("data-monday", "y"));
    let under = |heads: &[(f64, String)], at: f64| {
        let nearest =
            heads.iter().min_by(|a, b| (a.0 - at).abs().total_cmp(&(b.0 - at).abs())).expect("a heading");
        assert!((nearest.0 - at).abs() <= PRECISION, "{at} is under no heading: {heads:?}");
        nearest.1.clone()
    };
    let boxes = found(figure, "svg text[data-on]");
    for one in &boxes {
        let weekday: i64 = under(&weekdays, number(*one, "x")).parse().expect("a weekday");
        let monday = under(&mondays, number(*one, "y"));
        let on = day(&monday) + Duration::days(weekday - 1);
        assert_eq!(on, day(one.attr("data-on").expect("a day")));
        let row = found(figure, &format!("tbody tr[data-monday='{monday}']"))[0];
        let cell = text(found(row, "td")[usize::try_from(weekday - 1).expect("a weekday")]);
        assert_eq!(numbers(&text(*one))[0], numbers(&cell)[0], "on {on}");
    }
    let mut practised = 0;
    for row in found(figure, "tbody tr") {
        let cells: Vec<String> = found(row, "td").into_iter().map(text).collect();
        let days: Vec<&String> =
            cells[..7].iter().filter(|cell| !matches!(cell.as_str(), "" | "–")).collect();
        let minutes: i64 = days
            .iter()
            .filter(|cell| !cell.contains("not stated"))
            .map(|cell| numbers(cell)[0].0 as i64)
            .sum();
        assert_eq!([minutes.to_string(), days.len().to_string()], [cells[7].clone(), cells[8].clone()]);
        practised += days.len();
    }
    assert_eq!(practised, boxes.len(), "as many days are drawn as the table has");
    practised
}

/// Reads every chart of a page back, and fails unless each has its words and is drawn as its table says. Gives the titles with
/// how much is drawn.
pub fn check_charts(page: &Html, today: Date) -> Vec<(String, usize)> {
    let mut all = Vec::new();
    for figure in page.select(&selector("main figure.figure")) {
        let one = |css: &str| {
            let found = found(figure, css);
            assert_eq!(found.len(), 1, "{css} in {}", text(figure));
            found[0]
        };
        let svg = one("svg[role=img]");
        let named: Vec<&str> = svg.attr("aria-labelledby").unwrap_or_default().split(' ').collect();
        let (title, desc) = (one("svg > title"), one("svg > desc"));
        assert_eq!(named, [title.attr("id").unwrap_or_default(), desc.attr("id").unwrap_or_default()]);
        let sentence = text(one("figcaption > p"));
        assert!(sentence.len() > 10 && sentence.ends_with('.') && sentence == text(desc), "{sentence:?}");
        let heading = text(one("figcaption > h3"));
        assert!(!heading.is_empty() && text(title).to_lowercase().ends_with(&heading.to_lowercase()));
        one("details > summary");
        one("details table");
        let drawn = match svg.attr("class") {
            Some("chart weeks") => calendar(figure),
            _ => Drawn::of(figure, today).check(),
        };
        assert!(drawn > 0, "{heading} is drawn though there is nothing to draw");
        all.push((text(title), drawn));
    }
    all
}
