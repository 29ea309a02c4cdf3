//! What a library file looks like: every field, what it takes, and what holds where it is left out.

use askama::Template;
use askama_web::WebTemplate;
use axum::response::IntoResponse;

use crate::domain::library_file::{
    FORMAT, Field, MOST_CHARACTERS, MOST_ENTRIES, Takes, VERSION, fields, step_fields,
};
use crate::web::library::ladder_csv::COLUMNS;
use crate::web::{Answer, Page, TrainerOnly};

/// A field as the page shows it.
struct Row {
    name: &'static str,
    meaning: &'static str,
    takes: String,
    otherwise: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "library/format.html")]
struct FormatPage {
    page: Page,
    format: &'static str,
    version: i16,
    most: usize,
    characters: usize,
    fields: Vec<Row>,
    step_fields: Vec<Row>,
    columns: [&'static str; 5],
}

/// The page.
pub async fn show(TrainerOnly(who): TrainerOnly) -> Answer {
    let page = FormatPage {
        page: Page::of(&who, "The library file", "library"),
        format: FORMAT,
        version: VERSION,
        most: MOST_ENTRIES,
        characters: MOST_CHARACTERS,
        fields: fields().into_iter().map(row).collect(),
        step_fields: step_fields().into_iter().map(row).collect(),
        columns: COLUMNS,
    };
    Ok(page.into_response())
}

fn row(field: Field) -> Row {
    Row {
        name: field.name,
        meaning: field.meaning,
        takes: match field.takes {
            Takes::Text(most) => format!("text, at most {most} characters"),
            Takes::Whole(low, high) => format!("whole number, {low} to {high}"),
            Takes::YesNo => "true or false".to_owned(),
            Takes::OneOf(words) => words.join(", "),
            Takes::Steps => "list of steps".to_owned(),
        },
        otherwise: match field.otherwise {
            None => "must be there".to_owned(),
            Some("") => "empty".to_owned(),
            Some(usual) => usual.to_owned(),
        },
    }
}
