//! The team, as the lead trainer keeps it: invited, given links, taken out.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::invite_trainer::invite_trainer;
use crate::actions::make_link::make_link;
use crate::actions::remove_trainer::remove_trainer;
use crate::app::App;
use crate::domain::vocabulary::{Role, Word};
use crate::ids::MembershipId;
use crate::store::membership::{self, Membership, NewMembership};
use crate::store::sign_in::SignedIn;
use crate::web::made_link::{self, Back};
use crate::web::{Answer, At, Form, LeadOnly, Page, WebError};

#[derive(Template, WebTemplate)]
#[template(path = "practice/invite.html")]
struct InvitePage {
    page: Page,
    form: Form,
    roles: [(&'static str, &'static str); 2],
}

#[derive(Template, WebTemplate)]
#[template(path = "practice/link.html")]
struct LinkPage {
    page: Page,
    form: Form,
    trainer: Membership,
}

#[derive(Template, WebTemplate)]
#[template(path = "practice/remove.html")]
struct RemovePage {
    page: Page,
    trainer: Membership,
    dogs: i64,
}

fn invite_page(page: Page, form: Form) -> InvitePage {
    let roles = [Role::Trainer, Role::Lead].map(|role| (role.stored(), role.label()));
    InvitePage { page: page.with_errors(&form), form, roles }
}

fn back() -> Back {
    Back { to: "/practice".to_owned(), words: "Back to the team".to_owned() }
}

/// Somebody else of the standing team, or 404: nobody makes links for themselves or takes themselves out.
async fn colleague(who: &mut SignedIn, id: MembershipId) -> Result<Membership, WebError> {
    let team = membership::team(&mut who.tx).await?;
    team.into_iter().find(|m| m.id == id && m.id != who.member.id).ok_or(WebError::NotFound)
}

/// The form that invites a trainer.
pub async fn invite_form(State(app): State<App>, LeadOnly(who): LeadOnly) -> Answer {
    let id: MembershipId = app.moment().id();
    let form = Form::blank().with("id", id.to_string()).with("role", Role::Trainer.stored());
    Ok(invite_page(Page::of(&who, "Invite a trainer", "practice"), form).into_response())
}

/// Invites the trainer and shows their link, once.
pub async fn invite(State(app): State<App>, LeadOnly(who): LeadOnly, mut form: Form) -> Answer {
    let moment = app.moment();
    let id = form.id("id").unwrap_or_else(|| moment.id());
    let name = form.required("name", 120, "Enter their name.");
    let email = form.email("email", "Enter the address that they will sign in with.");
    let role = form.word::<Role>("role").filter(|role| *role != Role::Owner);
    if role.is_none() {
        form.refuse("role", "Choose trainer or lead trainer.");
    }
    let (Some(role), true) = (role, form.is_fine()) else {
        let page = invite_page(Page::of(&who, "Invite a trainer", "practice"), form);
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    };
    let page = Page::of(&who, "Invitation", "practice");
    let new = NewMembership { id, account: None, role, name, email, phone: String::new() };
    let made = invite_trainer(who.tx, &who.actor, new, &moment).await?;
    Ok(made_link::page(&app, page, &made, &who.practice.zone, moment.at, back()).into_response())
}

/// What a new link does, and the button that makes it.
pub async fn link_form(At(id): At<MembershipId>, LeadOnly(mut who): LeadOnly) -> Answer {
    let trainer = colleague(&mut who, id).await?;
    let page = Page::of(&who, format!("New link for {}", trainer.name), "practice");
    Ok(LinkPage { page, form: Form::blank(), trainer }.into_response())
}

/// Makes the link and shows it, once.
pub async fn link(
    State(app): State<App>,
    At(id): At<MembershipId>,
    LeadOnly(mut who): LeadOnly,
    mut form: Form,
) -> Answer {
    let trainer = colleague(&mut who, id).await?;
    let lost = form.tick("lost");
    if !form.is_fine() {
        let page = Page::of(&who, format!("New link for {}", trainer.name), "practice");
        let page = LinkPage { page: page.with_errors(&form), form, trainer };
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let (moment, page) = (app.moment(), Page::of(&who, "Invitation", "practice"));
    let made = make_link(who.tx, &who.actor, trainer.id, lost, &moment).await?;
    Ok(made_link::page(&app, page, &made, &who.practice.zone, moment.at, back()).into_response())
}

/// What removing means, and the button that does it.
pub async fn remove_form(At(id): At<MembershipId>, LeadOnly(mut who): LeadOnly) -> Answer {
    let trainer = colleague(&mut who, id).await?;
    let dogs = membership::dogs_in_care(&mut who.tx, trainer.id).await?;
    let page = Page::of(&who, format!("Remove {}", trainer.name), "practice");
    Ok(RemovePage { page, trainer, dogs }.into_response())
}

/// Takes the trainer out.
pub async fn remove(State(app): State<App>, At(id): At<MembershipId>, LeadOnly(mut who): LeadOnly) -> Answer {
    let trainer = colleague(&mut who, id).await?;
    remove_trainer(who.tx, &who.actor, trainer.id, &app.moment()).await?;
    Ok(Redirect::to("/practice?notice=trainer-removed").into_response())
}
