//! What the headers of every answer must say, written out here again so that changing one is seen.

use super::answer::Answer;

const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; \
                      manifest-src 'self'; worker-src 'self'; font-src 'self'; object-src 'none'; base-uri 'none'; \
                      form-action 'self'; frame-ancestors 'none'";

const ALWAYS: [(&str, &str); 5] = [
    ("content-security-policy", POLICY),
    ("x-content-type-options", "nosniff"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    (
        "permissions-policy",
        "camera=(), geolocation=(), microphone=(), payment=(), usb=(), screen-wake-lock=(self)",
    ),
];

/// Paths that carry a secret: the address itself must not travel on.
const SECRET_PATHS: [&str; 4] = ["/l/", "/h/", "/r/", "/set-up"];

/// Fails unless the headers are right.
pub fn check(answer: &Answer, secure: bool) {
    for (name, value) in ALWAYS {
        assert_eq!(answer.header(name), Some(value), "{answer:?}: {name}");
        assert_eq!(answer.headers().get_all(name).iter().count(), 1, "{answer:?}: {name} comes once");
    }
    let secret = SECRET_PATHS.iter().any(|path| answer.path().starts_with(path));
    let referrer = if secret { "no-referrer" } else { "same-origin" };
    assert_eq!(answer.header("referrer-policy"), Some(referrer), "{answer:?}: referrer-policy");
    assert_eq!(answer.header("x-robots-tag").is_some(), secret, "{answer:?}: x-robots-tag");
    let transport = secure.then_some("max-age=31536000; includeSubDomains");
    assert_eq!(
        answer.header("strict-transport-security"),
        transport,
        "{answer:?}: strict-transport-security"
    );
    assert!(answer.header("x-request-id").is_some_and(|id| !id.is_empty()), "{answer:?}: x-request-id");
    for name in ["server", "x-powered-by", "access-control-allow-origin"] {
        assert_eq!(answer.header(name), None, "{answer:?}: {name}");
    }
    check_kind(answer);
    if let Some(to) = answer.location() {
        assert!(to.starts_with('/') && !to.starts_with("//") && !to.contains('\\'), "{answer:?} leads away");
    }
}

/// What it is, and who may keep it.
fn check_kind(answer: &Answer) {
    let cache = answer.header("cache-control").unwrap_or_default();
    let is_file = answer.path().starts_with("/static/") && answer.status().is_success();
    if is_file {
        assert!(!cache.is_empty(), "{answer:?}: cache-control");
    } else {
        assert_eq!(cache, "no-store", "{answer:?}: cache-control");
    }
    let Some(kind) = answer.header("content-type") else {
        assert!(answer.body().is_empty(), "{answer:?} does not say what it is");
        return;
    };
    let is_said = kind == "image/jpeg" || kind.ends_with("charset=utf-8");
    assert!(is_file || is_said, "{answer:?}: {kind} without its charset");
}

/// The cookies that came along, each with the attributes that ours have. An empty value takes one away.
pub fn cookies(answer: &Answer, secure: bool) -> Vec<(String, String)> {
    answer.headers().get_all("set-cookie").iter().map(|header| cookie(answer, header, secure)).collect()
}

fn cookie(answer: &Answer, header: &axum::http::HeaderValue, secure: bool) -> (String, String) {
    let header = header.to_str().expect("cookies are plain text");
    let mut parts = header.split("; ");
    let (name, value) = parts.next().and_then(|pair| pair.split_once('=')).expect("a name and a value");
    let attributes: Vec<&str> = parts.collect();
    for wanted in ["HttpOnly", "SameSite=Lax", "Path=/"] {
        assert!(attributes.contains(&wanted), "{answer:?}: the cookie {name} lacks {wanted}");
    }
    assert_eq!(attributes.contains(&"Secure"), secure, "{answer:?}: the cookie {name} and Secure");
    assert_eq!(name.starts_with("__Host-"), secure, "{answer:?}: the cookie {name} and its prefix");
    assert!(
        attributes.iter().all(|a| !a.starts_with("Domain")),
        "{answer:?}: the cookie {name} has a domain"
    );
    let ends = attributes.iter().any(|a| a.starts_with("Expires=") || a.starts_with("Max-Age="));
    assert!(ends, "{answer:?}: the cookie {name} has no end");
    (name.to_owned(), value.to_owned())
}
