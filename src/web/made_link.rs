//! The one page that shows a link with its secret: the answer to the form that made it, never an address of its own.

use askama::Template;
use askama_web::WebTemplate;
use time::OffsetDateTime;

use crate::actions::make_link::MadeLink;
use crate::app::App;
use crate::store::link_token::LinkKind;
use crate::web::{Page, zones};

/// The page.
#[derive(Template, WebTemplate)]
#[template(path = "made_link/show.html")]
pub struct MadeLinkPage {
    page: Page,
    name: String,
    link: String,
    message: String,
    until: String,
    for_phone: bool,
    back: Back,
}

/// Where to go on from the page.
#[derive(Debug, Clone)]
pub struct Back {
    /// The address.
    pub to: String,
    /// The words.
    pub words: String,
}

/// The page that shows a link that was just made; times are in `zone`.
pub fn page(
    app: &App,
    page: Page,
    made: &MadeLink,
    zone: &str,
    now: OffsetDateTime,
    back: Back,
) -> MadeLinkPage {
    let for_phone = made.kind == LinkKind::Device;
    let what = if for_phone {
        "signs your phone in for your homework with"
    } else {
        "is for your place as a trainer at"
    };
    let until = zones::day_and_time(made.expires_at, zone, zones::local_date(now, zone));
    MadeLinkPage {
        message: format!(
            "Hello {}, this link {what} {}. It works once, until {until}:",
            made.member.name, page.practice
        ),
        name: made.member.name.clone(),
        link: format!("{}/l/{}", app.base_url, made.token.text()),
        until,
        for_phone,
        back,
        page,
    }
}
