//! Who is asking: extractors that turn a cookie into a transaction inside a practice.
//!
//! `AnyMember`, `TrainerOnly`, `LeadOnly` and `OwnerOnly` carry the transaction that was opened on the way; a handler
//! reads from it, or hands it to an action. Whoever has another role is refused by `wrong_role`.

use axum::extract::{FromRequestParts, OptionalFromRequestParts};
use axum::http::request::Parts;
use axum::http::{Method, header};
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::{Cookie, SameSite};
use time::{Duration, OffsetDateTime};

use crate::app::App;
use crate::domain::vocabulary::Role;
use crate::store::sign_in::{self, SignedIn};
use crate::store::token::Token;
use crate::web::{WebError, wrong_role};

/// How often the last use of a sign-in is noted.
const TOUCH_EVERY: Duration = Duration::minutes(5);

/// Anybody who is signed in.
pub struct AnyMember(pub SignedIn);
/// A trainer or lead trainer.
pub struct TrainerOnly(pub SignedIn);
/// A lead trainer.
pub struct LeadOnly(pub SignedIn);
/// An owner.
pub struct OwnerOnly(pub SignedIn);

async fn signed_in(parts: &mut Parts, app: &App) -> Result<Option<SignedIn>, WebError> {
    let jar = CookieJar::from_headers(&parts.headers);
    let Some(token) = jar.get(app.cookie_name()).and_then(|c| Token::shown(c.value())) else {
        return Ok(None);
    };
    let now = app.moment().at;
    let Some(mut who) = sign_in::open(&app.db, token.hash(), now).await? else { return Ok(None) };
    if parts.method != Method::GET && parts.method != Method::HEAD && now - who.last_seen_at > TOUCH_EVERY {
        sign_in::touch(&mut who.tx, who.sign_in, now).await?;
    }
    Ok(Some(who))
}

async fn required(parts: &mut Parts, app: &App) -> Result<SignedIn, WebError> {
    if let Some(who) = signed_in(parts, app).await? {
        return Ok(who);
    }
    let next = match parts.uri.path_and_query() {
        Some(path) if matches!(parts.method, Method::GET | Method::HEAD) => path.as_str().to_owned(),
        _ => "/".to_owned(),
    };
    Err(WebError::SignInFirst(next))
}

macro_rules! extractors {
    ($($name:ident => [$($allowed:pat),*],)*) => {$(
        impl FromRequestParts<App> for $name {
            type Rejection = WebError;
            async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, WebError> {
                let mut who = required(parts, app).await?;
                if matches!(who.member.role, $($allowed)|*) {
                    return Ok(Self(who));
                }
                Err(wrong_role::refusal(parts, &mut who).await)
            }
        }
    )*};
}

extractors! {
    AnyMember => [_],
    TrainerOnly => [Role::Lead, Role::Trainer],
    LeadOnly => [Role::Lead],
    OwnerOnly => [Role::Owner],
}

impl OptionalFromRequestParts<App> for AnyMember {
    type Rejection = WebError;
    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Option<Self>, WebError> {
        Ok(signed_in(parts, app).await?.map(Self))
    }
}

/// The cookie that signs a browser in until `expires_at`.
pub fn cookie(app: &App, token: &Token, expires_at: OffsetDateTime) -> Cookie<'static> {
    let mut cookie = Cookie::new(app.cookie_name(), token.text().to_owned());
    cookie.set_path("/");
    cookie.set_http_only(true);
    cookie.set_same_site(SameSite::Lax);
    cookie.set_secure(app.is_https());
    cookie.set_expires(expires_at);
    cookie
}

/// The cookie that signs a browser out.
pub fn no_cookie(app: &App) -> Cookie<'static> {
    let mut cookie = Cookie::new(app.cookie_name(), "");
    cookie.set_path("/");
    cookie.set_http_only(true);
    cookie.set_same_site(SameSite::Lax);
    cookie.set_secure(app.is_https());
    cookie.make_removal();
    cookie
}

/// What a device calls itself, in words that its owner knows: "Firefox on Android".
pub fn device(parts: &axum::http::HeaderMap) -> String {
    let agent = parts.get(header::USER_AGENT).and_then(|v| v.to_str().ok()).unwrap_or_default();
    let pick = |known: &[(&str, &'static str)]| {
        known.iter().find(|(sign, _)| agent.contains(sign)).map(|(_, name)| *name)
    };
    let browser = pick(&[
        ("Edg", "Edge"),
        ("OPR", "Opera"),
        ("Firefox", "Firefox"),
        ("Chrom", "Chrome"),
        ("Safari", "Safari"),
    ]);
    let system = pick(&[
        ("iPhone", "iPhone"),
        ("iPad", "iPad"),
        ("Android", "Android"),
        ("Windows", "Windows"),
        ("Mac OS", "Mac"),
        ("Linux", "Linux"),
    ]);
    match (browser, system) {
        (Some(b), Some(s)) => format!("{b} on {s}"),
        (Some(b), None) => b.to_owned(),
        (None, Some(s)) => s.to_owned(),
        (None, None) => "A browser".to_owned(),
    }
}
