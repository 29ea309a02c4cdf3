//! One passkey of one's own: renamed, or removed after a question.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use crate::actions::keep_passkey::{remove_passkey, rename_passkey};
use crate::app::App;
use crate::ids::PasskeyId;
use crate::store::passkey::{self, Passkey};
use crate::store::sign_in::SignedIn;
use crate::store::{Secret, account};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, AnyMember, At, Form, Page, WebError, notice, own_dog};

#[derive(Template, WebTemplate)]
#[template(path = "account/passkey.html")]
struct PasskeyPage {
    page: Page,
    form: Form,
    id: PasskeyId,
}

form_pages!(PasskeyPage);

#[derive(Template, WebTemplate)]
#[template(path = "account/passkey_remove.html")]
struct RemovePage {
    page: Page,
    passkey: Passkey,
    /// Other passkeys of the account.
    others: usize,
    has_password: bool,
}

/// The passkey, if it is this person's, and how many others they have.
async fn own(who: &mut SignedIn, id: PasskeyId) -> Result<(Passkey, usize), WebError> {
    who.tx.show(Secret::Account(who.account)).await?;
    let all = passkey::of_account(&mut who.tx, who.account).await?;
    let others = all.len().saturating_sub(1);
    all.into_iter().find(|kept| kept.id == id).map(|kept| (kept, others)).ok_or(WebError::NotFound)
}

/// The passkey's name, and the way to removing it.
pub async fn show(
    At(id): At<PasskeyId>,
    AnyMember(mut who): AnyMember,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let (kept, _) = own(&mut who, id).await?;
    let page = own_dog::page(&mut who, "Your passkey", "account").await?;
    let form = Form::blank().with("name", &kept.name);
    Ok(PasskeyPage { page: page.with_notice(notice::of(&query)), form, id }.into_response())
}

/// Renames it.
pub async fn rename(
    State(app): State<App>,
    At(id): At<PasskeyId>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    own(&mut who, id).await?;
    let page = own_dog::page(&mut who, "Your passkey", "account").await?;
    let name = form.required("name", 60, "Enter a name that tells you which device it is on.");
    let page = PasskeyPage { page, form, id };
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = rename_passkey(who.tx, &who.actor, who.account, id, &name, &app.moment()).await;
    page.settle(done, "/account?notice=saved")
}

/// What removing means, and the button that does it.
pub async fn ask(At(id): At<PasskeyId>, AnyMember(mut who): AnyMember) -> Answer {
    let (passkey, others) = own(&mut who, id).await?;
    let has_password = account::password_inside(&mut who.tx, who.account).await?.is_some();
    let page = own_dog::page(&mut who, format!("Remove {}", passkey.name), "account").await?;
    Ok(RemovePage { page, passkey, others, has_password }.into_response())
}

/// Removes it.
pub async fn remove(State(app): State<App>, At(id): At<PasskeyId>, AnyMember(who): AnyMember) -> Answer {
    remove_passkey(who.tx, &who.actor, who.account, id, &app.moment()).await?;
    Ok(Redirect::to("/account?notice=passkey-removed").into_response())
}
