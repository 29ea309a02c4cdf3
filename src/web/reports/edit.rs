//! The draft of a report: each section's text, what is left out, and throwing it away.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use super::{dog_of, report_of};
use crate::actions::edit_report::{ReportText, discard_report, edit_report};
use crate::app::App;
use crate::domain::report::{MOST_TEXT, REASON, Section};
use crate::domain::vocabulary::{ReportKind, Word};
use crate::ids::{DogId, ReportId};
use crate::store::consent;
use crate::store::dog::Dog;
use crate::store::report::Report;
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

/// A section as the form shows it.
struct Field {
    /// The field of its text: `text-1`.
    text: String,
    /// The field that leaves it out: `out-1`.
    out: String,
    heading: String,
    hint: &'static str,
    rows: usize,
}

#[derive(Template, WebTemplate)]
#[template(path = "reports/edit.html")]
struct EditPage {
    page: Page,
    form: Form,
    dog: Dog,
    report: Report,
    period: String,
    fields: Vec<Field>,
    /// Whether it goes to a vet, and the household has not agreed that it may.
    asks_for_consent: bool,
}
form_pages!(EditPage);

#[derive(Template, WebTemplate)]
#[template(path = "reports/discard.html")]
struct DiscardPage {
    page: Page,
    dog: Dog,
    report: Report,
}

fn text_of(number: usize) -> String {
    format!("text-{number}")
}

fn out_of(number: usize) -> String {
    format!("out-{number}")
}

fn hint(section: &Section) -> &'static str {
    match section.key.as_str() {
        REASON => {
            "In your own words: what you ask of them, and why now. What you saw, never what it is called."
        }
        "else" => "Left out where nothing is written.",
        "notes" => "For trainers alone so far. Take out what its reader need not know.",
        _ => "",
    }
}

/// The form as the draft stands.
fn filled(report: &Report) -> Form {
    let mut form =
        Form::blank().with("saw", report.stamp()).with("addressed_to", report.addressed_to.clone());
    for (number, section) in (1..).zip(&report.sections) {
        form = form.with(&text_of(number), section.body.clone());
        if section.left_out {
            form = form.with(&out_of(number), "yes");
        }
    }
    form
}

/// Whether a report goes to a vet, and the household has not agreed that it may.
pub(super) async fn asks_for_consent(
    who: &mut SignedIn,
    dog: DogId,
    kind: ReportKind,
) -> Result<bool, WebError> {
    if kind != ReportKind::Referral {
        return Ok(false);
    }
    let signed = consent::latest(&mut who.tx, dog).await?;
    Ok(!signed.is_some_and(|signed| signed.ticks.iter().any(|tick| tick.clause == "vet" && tick.agreed)))
}

async fn edit_page(who: &mut SignedIn, dog: Dog, report: Report, form: Form) -> Result<EditPage, WebError> {
    let asks_for_consent = asks_for_consent(who, dog.id, report.kind).await?;
    let fields = (1..).zip(&report.sections).map(|(number, section)| Field {
        text: text_of(number),
        out: out_of(number),
        heading: section.heading.clone(),
        hint: hint(section),
        rows: section.body.lines().map(|line| 1 + line.chars().count() / 80).sum::<usize>().clamp(3, 20),
    });
    Ok(EditPage {
        page: Page::of(who, format!("{}: {}", dog.name, report.kind.label().to_lowercase()), "caseload")
            .with_errors(&form),
        period: format!("{} to {}", zones::day(report.from, report.to), zones::day(report.to, report.to)),
        fields: fields.collect(),
        asks_for_consent,
        form,
        report,
        dog,
    })
}

/// The draft to be edited; what was issued is only read.
pub async fn show(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReportId)>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (dog, _) = dog_of(&app, &mut who, dog).await?;
    let report = report_of(&mut who, dog.id, id).await?;
    if report.is_issued {
        return Ok(Redirect::to(&format!("/dogs/{}/reports/{id}", dog.id)).into_response());
    }
    let form = filled(&report);
    let mut page = edit_page(&mut who, dog, report, form).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Keeps the text, and leads to the report as it would be read.
pub async fn submit(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReportId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (dog, _) = dog_of(&app, &mut who, dog).await?;
    let report = report_of(&mut who, dog.id, id).await?;
    let addressed_to = form.text("addressed_to", 200);
    let mut sections = Vec::new();
    for (number, section) in (1..).zip(&report.sections) {
        let (text, out) = (text_of(number), out_of(number));
        let length = form.value(&text).trim().replace("\r\n", "\n").chars().count();
        if length > MOST_TEXT {
            let heading = &section.heading;
            form.refuse(&text, format!("{heading}: this has {length} characters. Use at most {MOST_TEXT}."));
        }
        // a text that was not sent at all is none that was emptied
        if form.values(&text).is_empty() {
            form.refuse(&text, format!("{}: this did not arrive. Open the page again.", section.heading));
        }
        sections.push((form.text(&text, MOST_TEXT), form.tick(&out)));
    }
    let saw = form.text("saw", 40);
    let (to, dog_id) = (format!("/dogs/{}/reports/{id}?notice=report-saved", dog.id), dog.id);
    let stamp = report.stamp();
    let mut page = edit_page(&mut who, dog, report, form).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let text = ReportText { addressed_to, sections };
    let done = edit_report(who.tx, &who.actor, dog_id, id, &text, &saw, &app.moment()).await;
    if done.is_err() {
        // what is sent again is sent knowing of the other change
        page.form.forget("saw");
        page.form = page.form.with("saw", stamp);
    }
    page.settle(done, &to)
}

/// Asks before a draft is thrown away.
pub async fn ask_to_discard(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReportId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (dog, _) = dog_of(&app, &mut who, dog).await?;
    let report = report_of(&mut who, dog.id, id).await?;
    if report.is_issued {
        return Ok(Redirect::to(&format!("/dogs/{}/reports/{id}", dog.id)).into_response());
    }
    let page = Page::of(&who, format!("{}: throw a draft away", dog.name), "caseload");
    Ok(DiscardPage { page, dog, report }.into_response())
}

/// Throws the draft away.
pub async fn discard(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReportId)>,
    TrainerOnly(who): TrainerOnly,
) -> Answer {
    discard_report(who.tx, &who.actor, dog, id, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/reports?notice=report-discarded")).into_response())
}
