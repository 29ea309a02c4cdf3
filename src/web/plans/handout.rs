//! The published plan on paper: to practise from on a kitchen wall, with a table to fill in by pencil.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::app::App;
use crate::domain::vocabulary::{HealthSign, ItemKind, Outcome, Role, Word};
use crate::domain::welfare::cannot_wait;
use crate::store::dog::Dog;
use crate::store::plan::{self, PlanItem};
use crate::web::plans::card::{Card, Cards};
use crate::web::plans::dog_of;
use crate::web::qr::{self, Qr};
use crate::web::{Answer, AnyMember, At, Page, own_dog, zones};

/// The days of a table, a week of them.
const DAYS: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
/// The most sittings a day that a table has a line for.
const MOST_A_DAY: i16 = 3;

/// How the plan is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Layout {
    /// A page for each exercise, with its own table.
    Pages,
    /// As short as it goes, with one table.
    Sheet,
}

/// What it is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Paper {
    A4,
    Letter,
}

/// One of two answers: what it is called in the address, its words, and whether it is chosen.
struct Choice {
    address: String,
    words: &'static str,
    chosen: bool,
}

/// An exercise as it is printed.
struct Leaf {
    number: usize,
    card: Card,
    /// What a sitting yields where that is no count: "Nearest comfortable distance, metres". Empty for counts.
    measured: &'static str,
    table: Vec<Line>,
}

/// A line of a table: the day where it begins one, and which sitting of the day where there is more than one.
struct Line {
    day: &'static str,
    sitting: Option<i16>,
}

/// The plan that is printed.
struct Printed {
    number: i32,
    date: String,
    by: String,
    note: String,
    standing: Vec<Card>,
    skills: Vec<Card>,
    leaves: Vec<Leaf>,
    /// The table of a sheet: one for all exercises.
    table: Vec<Line>,
    /// Whether any exercise is measured rather than counted.
    measures: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "plans/handout.html")]
struct HandoutPage {
    page: Page,
    dog: Dog,
    back: String,
    layouts: Vec<Choice>,
    papers: Vec<Choice>,
    layout: Layout,
    paper: Paper,
    printed: Option<Printed>,
    replies: String,
    vet_now: Vec<&'static str>,
    vet_soon: Vec<&'static str>,
    /// Where the owner's plan is, to be typed.
    address: String,
    /// The same for this dog, to be scanned: it is the owner's phone that is held over the paper.
    qr: Option<Qr>,
}

/// The handout of the plan that is published now; `?layout=pages|sheet`, `?size=a4|letter`.
pub async fn handout(
    State(app): State<App>,
    At(dog): At<String>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let asked = |name: &str| query.get(name).map_or("", String::as_str);
    let layout = if asked("layout") == "sheet" { Layout::Sheet } else { Layout::Pages };
    let paper = if asked("size") == "letter" { Paper::Letter } else { Paper::A4 };
    let version = plan::current(dog.id).read(&mut who.tx).await?;
    let items = match &version {
        Some(version) => plan::items(version.id).read(&mut who.tx).await?,
        None => Vec::new(),
    };
    let printed = version.map(|version| {
        let Cards { standing, skills, .. } = Cards::of(&items);
        let leaves = leaves(&items);
        let on = zones::local_date(version.published_at, &dog.zone);
        Printed {
            number: version.number,
            date: format!("{} {}", zones::long_day(on), on.year()),
            by: version.by,
            note: version.note,
            standing,
            skills,
            measures: leaves.iter().any(|leaf| !leaf.measured.is_empty()),
            leaves,
            table: table(items.iter().filter_map(sittings).sum()),
        }
    });
    let (back, here) = match who.member.role {
        Role::Owner => (format!("/plan?dog={}", dog.id), "plan"),
        Role::Lead | Role::Trainer => (format!("/dogs/{}/plan", dog.id), "caseload"),
    };
    let page = HandoutPage {
        page: own_dog::page(&mut who, format!("{}: the plan on paper", dog.name), here).await?,
        back,
        layouts: [(Layout::Pages, "A page for each exercise"), (Layout::Sheet, "One compact sheet")]
            .map(|(to, words)| Choice { address: at(&dog, to, paper), words, chosen: to == layout })
            .into(),
        papers: [(Paper::A4, "A4"), (Paper::Letter, "US Letter")]
            .map(|(to, words)| Choice { address: at(&dog, layout, to), words, chosen: to == paper })
            .into(),
        layout,
        paper,
        printed,
        replies: who.practice.replies.clone(),
        vet_now: signs(true),
        vet_soon: signs(false),
        qr: qr::of(&format!("{}/plan?dog={}", app.base_url, dog.id)),
        address: format!("{}/plan", app.base_url),
        dog,
    };
    Ok(page.into_response())
}

/// Where the same handout is in another layout or on other paper.
fn at(dog: &Dog, layout: Layout, paper: Paper) -> String {
    let layout = if layout == Layout::Sheet { "sheet" } else { "pages" };
    let size = if paper == Paper::Letter { "letter" } else { "a4" };
    format!("/dogs/{}/plan/handout?layout={layout}&size={size}", dog.id)
}

/// The exercises of a plan, numbered as the owner meets them.
fn leaves(items: &[PlanItem]) -> Vec<Leaf> {
    let exercises = items.iter().filter(|item| item.kind == ItemKind::Exercise);
    let leaf = |(number, item): (usize, &PlanItem)| Leaf {
        number,
        card: Card::from(item),
        measured: measured(item.outcome),
        table: table(sittings(item).unwrap_or(0)),
    };
    (1..).zip(exercises).map(leaf).collect()
}

/// How often in a week an exercise is practised; `None` for what is no exercise or says nothing.
fn sittings(item: &PlanItem) -> Option<i16> {
    item.times_a_week.filter(|_| item.kind == ItemKind::Exercise)
}

/// What to write down of a sitting that is measured.
fn measured(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Count => "",
        Outcome::Distance => "Nearest comfortable distance, metres",
        Outcome::Duration => "Longest calm time, minutes",
        Outcome::Recovery => "Minutes until settled again",
        Outcome::Events => "How many times it happened",
    }
}

/// A week of lines for so many sittings: every day has one, and more where they would not fit.
fn table(sittings: i16) -> Vec<Line> {
    let a_day = sittings.saturating_add(6).div_euclid(7).clamp(1, MOST_A_DAY);
    let line = |day, n| Line { day: if n == 1 { day } else { "" }, sitting: (a_day > 1).then_some(n) };
    DAYS.into_iter().flat_map(|day| (1..=a_day).map(move |n| line(day, n))).collect()
}

/// The signs that a vet hears of at once, or within a day.
fn signs(now: bool) -> Vec<&'static str> {
    let wanted = HealthSign::ALL.iter().filter(|sign| cannot_wait(**sign) == now);
    wanted.filter(|sign| **sign != HealthSign::OtherSign).map(|sign| sign.label()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_has_a_line_for_every_day_and_room_for_every_sitting() {
        assert_eq!([0, 4, 7, 8, 14, 15, 21, 300].map(|n| table(n).len()), [7, 7, 7, 14, 14, 21, 21, 21]);
        let twice = table(8);
        assert_eq!((twice[0].day, twice[0].sitting, twice[1].day), ("Mon", Some(1), ""));
        assert_eq!(table(3)[6].sitting, None);
    }

    #[test]
    fn every_sign_is_said_once_and_the_urgent_ones_come_first() {
        let (now, soon) = (signs(true), signs(false));
        assert_eq!(now.len() + soon.len() + 1, HealthSign::ALL.len());
        assert!(now.contains(&HealthSign::Heat.label()) && soon.contains(&HealthSign::Lame.label()));
    }
}
