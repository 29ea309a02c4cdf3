//! What lets the service be opened without a network: the service worker, the manifest, the page for when nothing is kept,
//! and the page of what waits on this phone.

use std::sync::OnceLock;

use askama::Template;
use askama_web::WebTemplate;
use axum::http::header;
use axum::response::{IntoResponse, Response};

use crate::web::{Answer, OwnerOnly, Page, assets, own_dog};

/// Everything that owners' pages load, kept by the service worker when it is installed.
const FILES: [&str; 10] = [
    "settlebrook.css",
    "practise.css",
    "theme.js",
    "comfort.js",
    "kept.js",
    "photo.js",
    "outbox.js",
    "practise.js",
    "favicon.svg",
    "icon-192.png",
];

/// The service worker: our own script, with the addresses of what it keeps before it.
pub async fn worker() -> Response {
    static SCRIPT: OnceLock<String> = OnceLock::new();
    let script = SCRIPT.get_or_init(|| {
        let mut files: Vec<String> = FILES.iter().map(|name| assets::address(name)).collect();
        // the stylesheet asks for it by its plain name
        files.push("/static/atkinson.woff2".to_owned());
        let list = files.iter().map(|file| format!("\"{file}\"")).collect::<Vec<_>>().join(", ");
        format!("const FILES = [{list}];\n{}", include_str!("../../../static/worker.js"))
    });
    let headers = [(header::CONTENT_TYPE, "text/javascript; charset=utf-8")];
    (headers, script.as_str()).into_response()
}

/// What a phone shows that has the service on its home screen.
pub async fn manifest() -> Response {
    let icons = [("icon-192.png", "192x192", "any"), ("icon-512.png", "512x512", "any maskable")];
    let icons: Vec<serde_json::Value> = icons
        .iter()
        .map(|(name, sizes, purpose)| {
            serde_json::json!({ "src": assets::address(name), "sizes": sizes, "type": "image/png", "purpose": purpose })
        })
        .collect();
    let manifest = serde_json::json!({
        "name": "Settlebrook", "short_name": "Settlebrook", "id": "/today", "start_url": "/today", "scope": "/",
        "display": "standalone", "background_color": "#FAF8F3", "theme_color": "#FAF8F3", "icons": icons,
    });
    let headers = [(header::CONTENT_TYPE, "application/manifest+json; charset=utf-8")];
    (headers, manifest.to_string()).into_response()
}

#[derive(Template, WebTemplate)]
#[template(path = "offline/nothing.html")]
struct NothingPage {
    page: Page,
}

/// What is shown without a network where the page was never opened before.
pub async fn nothing() -> Response {
    NothingPage { page: Page::plain("No network") }.into_response()
}

#[derive(Template, WebTemplate)]
#[template(path = "offline/kept.html")]
struct KeptPage {
    page: Page,
}

/// What waits on this phone to be sent. The phone fills it in.
pub async fn kept(OwnerOnly(mut who): OwnerOnly) -> Answer {
    Ok(KeptPage { page: own_dog::page(&mut who, "Kept on this phone", "today").await? }.into_response())
}
