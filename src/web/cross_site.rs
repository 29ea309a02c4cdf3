//! Unsafe requests are taken only from our own pages.
//!
//! The order of checks is that of Go's `net/http` CrossOriginProtection (Sec-Fetch-Site first, then Origin), with two
//! differences: `Origin` is compared with the configured address rather than with `Host`, and a request that carries
//! a cookie but neither header is refused.

use axum::extract::{Request, State};
use axum::http::{Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::Response;

use crate::app::App;
use crate::web::error::error_page;

/// Refuses unsafe requests that other sites caused.
pub async fn guard(State(app): State<App>, request: Request, next: Next) -> Response {
    let headers = request.headers();
    let text = |name| headers.get(name).map(|v| v.to_str().unwrap_or("unreadable"));
    let asked = Asked {
        safe: matches!(*request.method(), Method::GET | Method::HEAD | Method::OPTIONS),
        fetch_site: text("sec-fetch-site"),
        origin: text("origin"),
        has_cookie: headers.contains_key(header::COOKIE),
    };
    if asked.is_ours(&app.base_url) {
        next.run(request).await
    } else {
        // the method alone: a path may carry a secret
        tracing::warn!(method = %request.method(), "refused a request from another site");
        error_page(StatusCode::FORBIDDEN)
    }
}

/// What a request tells of where it came from.
struct Asked<'a> {
    safe: bool,
    fetch_site: Option<&'a str>,
    origin: Option<&'a str>,
    has_cookie: bool,
}

impl Asked<'_> {
    fn is_ours(&self, base_url: &str) -> bool {
        if self.safe {
            return true;
        }
        match (self.fetch_site, self.origin) {
            (Some("same-origin" | "none"), _) => true,
            (Some(_), _) => false,
            (None, Some(origin)) => same_origin(origin, base_url),
            (None, None) => !self.has_cookie,
        }
    }
}

/// Whether two origins are the same; `localhost` and `127.0.0.1` count as one.
fn same_origin(a: &str, b: &str) -> bool {
    let plain = |text: &str| text.trim_end_matches('/').replace("//127.0.0.1", "//localhost");
    plain(a) == plain(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The table of Go's csrf_test.go (net/http, BSD licence), then our own rows.
    #[test]
    fn the_table() {
        let base = "https://example.com";
        let rows = [
            // safe, Sec-Fetch-Site, Origin, cookie, allowed
            (false, Some("same-origin"), None, true, true),
            (false, Some("none"), None, true, true),
            (false, Some("cross-site"), None, true, false),
            (false, Some("same-site"), None, true, false),
            (false, None, None, false, true),
            (false, None, Some("https://example.com"), true, true),
            (false, None, Some("https://attacker.example"), true, false),
            (false, None, Some("null"), true, false),
            (true, Some("cross-site"), None, true, true),
            (true, None, Some("https://attacker.example"), true, true),
            // ours
            (false, None, None, true, false),
            (false, None, Some("http://example.com"), true, false),
            (false, Some("same-origin"), Some("https://attacker.example"), true, true),
            (false, Some("cross-site"), Some("https://example.com"), true, false),
            (false, None, Some("unreadable"), true, false),
        ];
        for (i, (safe, fetch_site, origin, has_cookie, allowed)) in rows.into_iter().enumerate() {
            let asked = Asked { safe, fetch_site, origin, has_cookie };
            assert_eq!(asked.is_ours(base), allowed, "row {i}");
        }
    }

    #[test]
    fn the_two_names_of_this_machine_are_one_origin() {
        assert!(same_origin("http://127.0.0.1:8080", "http://localhost:8080"));
        assert!(!same_origin("http://127.0.0.1:8081", "http://localhost:8080"));
    }
}
