//! Links that sign somebody in: an owner's phone, or a trainer's invitation. Opening one changes nothing, because mail
//! scanners and chat previews open links too; its button uses it up.

pub mod device;
pub mod invitation;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use axum_extra::extract::CookieJar;

use crate::actions::end_sign_ins::end_replaced;
use crate::actions::sign_in::NewlySignedIn;
use crate::app::App;
use crate::ids::{MembershipId, PracticeId, SignInId};
use crate::store::link_token::{self, LinkKind, OpenLink, ShownLink};
use crate::store::membership::Membership;
use crate::store::sign_in::SignedIn;
use crate::store::token::Token;
use crate::store::{Secret, account, dog, membership};
use crate::web::sign_in::start;
use crate::web::{Answer, AnyMember, At, Form, Page, WebError, identity};

#[derive(Template, WebTemplate)]
#[template(path = "link/over.html")]
struct OverPage {
    page: Page,
    known: bool,
    here: Option<Here>,
}

/// Who is signed in on the device that opened the link.
#[derive(Debug, Clone)]
pub struct Here {
    practice: PracticeId,
    member: MembershipId,
    sign_in: SignInId,
    /// Their name.
    pub name: String,
    /// The practice's name.
    pub practice_name: String,
    /// Where they start.
    pub start: &'static str,
}

impl Here {
    /// Their membership: the form that signs them out names it, so that nobody else is signed out by it.
    pub fn member(&self) -> MembershipId {
        self.member
    }
}

impl From<SignedIn> for Here {
    fn from(who: SignedIn) -> Self {
        Self {
            practice: who.practice.id,
            member: who.member.id,
            sign_in: who.sign_in,
            start: start(who.member.role),
            name: who.member.name,
            practice_name: who.practice.name,
        }
    }
}

/// A request about an open link, with what its pages say. No transaction is open any more.
pub struct Asked {
    app: App,
    token: Token,
    purpose: Purpose,
    member: Membership,
    practice: String,
    here: Option<Here>,
}

/// What the link does.
enum Purpose {
    /// Signs an owner's phone in, for the homework with these dogs.
    Phone(Vec<String>),
    /// Takes up a trainer's place.
    Invitation,
    /// Sets a new password for the account with this address.
    Reset(String),
}

impl Asked {
    /// Somebody other than the person whom the link is for.
    fn somebody_else(&self) -> Option<Here> {
        self.here.clone().filter(|here| here.member != self.member.id)
    }

    /// A page of this link, named after its practice.
    fn page(&self, title: &str) -> Page {
        Page { practice: self.practice.clone(), ..Page::plain(title) }
    }

    fn answer(&self, form: Form) -> Response {
        match &self.purpose {
            Purpose::Phone(dogs) => device::page(self, dogs),
            Purpose::Invitation => invitation::page(self, form),
            Purpose::Reset(email) => invitation::reset_page(self, email, form),
        }
    }

    /// The page again, with what is wrong.
    fn refused(&self, form: Form) -> Response {
        (StatusCode::UNPROCESSABLE_ENTITY, self.answer(form)).into_response()
    }
}

/// What the link will do, and the button that does it.
pub async fn show(State(app): State<App>, At(token): At<String>, who: Option<AnyMember>) -> Answer {
    Ok(match asked(app, &token, who).await? {
        Ok(asked) => {
            let form = Form::blank().with("name", &asked.member.name).with("email", &asked.member.email);
            asked.answer(form)
        }
        Err(over) => over,
    })
}

/// Uses the link up.
pub async fn submit(
    State(app): State<App>,
    At(token): At<String>,
    who: Option<AnyMember>,
    jar: CookieJar,
    headers: HeaderMap,
    mut form: Form,
) -> Answer {
    let asked = match asked(app, &token, who).await? {
        Ok(asked) => asked,
        Err(over) => return Ok(over),
    };
    let agreed = |here: &Here| form.value("instead_of") == here.member.to_string();
    if asked.somebody_else().is_some_and(|here| !agreed(&here)) {
        form.forget("password");
        return Ok((StatusCode::CONFLICT, asked.answer(form)).into_response());
    }
    match &asked.purpose {
        Purpose::Phone(_) => device::submit(asked, jar, &headers).await,
        Purpose::Invitation => invitation::submit(asked, jar, &headers, form).await,
        Purpose::Reset(email) => {
            let email = email.clone();
            invitation::reset(asked, &email, jar, form).await
        }
    }
}

/// The open link, or the page that says it is over.
async fn asked(app: App, token: &str, who: Option<AnyMember>) -> Result<Result<Asked, Response>, WebError> {
    let here = who.map(|AnyMember(who)| Here::from(who)); // ends its transaction before the link's begins
    let Some(token) = Token::shown(token) else { return Ok(Err(over(false, here))) };
    let mut link = match link_token::open(&app.db, token.hash(), app.moment().at).await? {
        ShownLink::Open(link) => *link,
        ShownLink::Over => return Ok(Err(over(true, here))),
        ShownLink::Unknown => return Ok(Err(over(false, here))),
    };
    let purpose = purpose(&mut link).await?;
    let (member, practice) = (link.member, link.practice.name);
    Ok(Ok(Asked { app, token, purpose, member, practice, here }))
}

/// A new password may be set only where the account stands in this practice alone: one practice's link must not open
/// another's door. Where it stands elsewhere too, the place is taken up again.
async fn purpose(link: &mut OpenLink) -> Result<Purpose, WebError> {
    let (tx, member) = (&mut link.tx, &link.member);
    if link.kind == LinkKind::Device {
        let dogs = dog::of_owner(member.id).read(tx).await?;
        return Ok(Purpose::Phone(dogs.into_iter().map(|dog| dog.name).collect()));
    }
    let Some(account) = member.account else { return Ok(Purpose::Invitation) };
    tx.show(Secret::Account(account)).await?;
    if membership::stands_elsewhere(tx, account).await? {
        return Ok(Purpose::Invitation);
    }
    Ok(Purpose::Reset(account::email(tx, account).await?.unwrap_or_default()))
}

/// The friendly page of a link that does nothing (any more).
fn over(known: bool, here: Option<Here>) -> Response {
    let status = if known { StatusCode::GONE } else { StatusCode::NOT_FOUND };
    (status, OverPage { page: Page::plain("This link does not work"), known, here }).into_response()
}

/// The cookie of a new sign-in; the one that this browser had before ends.
async fn signed_in(
    app: &App,
    here: Option<Here>,
    done: &NewlySignedIn,
    jar: CookieJar,
) -> Result<CookieJar, WebError> {
    sign_out(app, here).await?;
    Ok(jar.add(identity::cookie(app, &done.token, done.expires_at)))
}

/// Ends the sign-in that this browser had before.
async fn sign_out(app: &App, here: Option<Here>) -> Result<(), WebError> {
    if let Some(here) = here {
        end_replaced(&app.db, here.practice, here.member, here.sign_in, &app.moment()).await?;
    }
    Ok(())
}
