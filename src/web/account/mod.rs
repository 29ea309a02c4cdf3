//! One's own account: who one is here, and the devices that are signed in.

pub mod name;
pub mod password;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};
use axum_extra::extract::CookieJar;

use crate::actions::end_sign_ins::{end_other_sign_ins, end_sign_in};
use crate::app::App;
use crate::domain::vocabulary::{Role, Word};
use crate::ids::SignInId;
use crate::store::{Secret, account, sign_in};
use crate::web::passkeys::{self, Own};
use crate::web::{Answer, AnyMember, At, Page, identity, notice, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "account/show.html")]
struct AccountPage {
    page: Page,
    name: String,
    role: &'static str,
    practice: String,
    email: Option<String>,
    has_password: bool,
    is_owner: bool,
    /// The passkeys, where the service is built with them.
    passkeys: Option<Own>,
    devices: Vec<Device>,
}

struct Device {
    id: SignInId,
    name: String,
    since: String,
    last: String,
    is_this: bool,
}

/// The account.
pub async fn show(
    State(app): State<App>,
    AnyMember(mut who): AnyMember,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let now = app.moment().at;
    let (zone, today) = (who.practice.zone.clone(), zones::local_date(now, &who.practice.zone));
    who.tx.show(Secret::Account(who.account)).await?;
    let email = account::email(&mut who.tx, who.account).await?;
    let has_password = account::password_inside(&mut who.tx, who.account).await?.is_some();
    let passkeys = passkeys::own(&app, &mut who, &zone, today).await?;
    let devices = sign_in::devices(&mut who.tx, who.member.id, now).await?;
    let devices = devices
        .into_iter()
        .map(|device| Device {
            id: device.id,
            since: zones::day(zones::local_date(device.created_at, &zone), today),
            last: zones::day_and_time(device.last_seen_at, &zone, today),
            is_this: device.id == who.sign_in,
            name: device.device,
        })
        .collect();
    let page = own_dog::page(&mut who, "Your account", "account").await?;
    Ok(AccountPage {
        page: page.with_notice(notice::of(&query)),
        name: who.member.name,
        role: who.member.role.label(),
        practice: who.practice.name,
        email,
        has_password,
        is_owner: who.member.role == Role::Owner,
        passkeys,
        devices,
    }
    .into_response())
}

/// Signs one device out; the one in use goes to the sign-in page.
pub async fn end_device(
    State(app): State<App>,
    At(device): At<SignInId>,
    AnyMember(who): AnyMember,
    jar: CookieJar,
) -> Answer {
    let is_this = device == who.sign_in;
    end_sign_in(who.tx, &who.actor, device, &app.moment()).await?;
    if is_this {
        return Ok((jar.add(identity::no_cookie(&app)), Redirect::to("/sign-in")).into_response());
    }
    Ok(Redirect::to("/account?notice=device-ended").into_response())
}

/// Signs every other device out.
pub async fn end_others(State(app): State<App>, AnyMember(who): AnyMember) -> Answer {
    end_other_sign_ins(who.tx, &who.actor, who.sign_in, &app.moment()).await?;
    Ok(Redirect::to("/account?notice=others-ended").into_response())
}
