//! A browser without a screen: it keeps cookies, says where its requests come from, sends the forms it finds, and
//! checks every answer it ever gets.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use axum::Router;
use axum::body::{Body, Bytes};
use axum::http::{Method, Request, header};
use http_body_util::{BodyExt, Full};
use tower::ServiceExt;

use super::answer::Answer;
use super::headers;
use super::html;

/// A browser as one person uses it.
#[derive(Clone)]
pub struct Browser {
    router: Router,
    base_url: String,
    cookies: Vec<(String, String)>,
    failures_expected: bool,
}

/// Where a request says that it came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum From {
    /// One of our own pages.
    OurPage,
    /// A page of another site, in a browser that says so.
    AnotherSite,
    /// A page of another site, in an old browser that only sends `Origin`.
    AnotherOrigin,
    /// It does not say.
    Unsaid,
}

impl Browser {
    pub(super) fn new(router: Router, base_url: &str) -> Self {
        Self { router, base_url: base_url.to_owned(), cookies: Vec::new(), failures_expected: false }
    }

    /// The same browser before another service.
    pub(super) fn over(&self, router: Router) -> Self {
        Self { router, ..self.clone() }
    }

    /// Lets this browser meet answers of 500 and above, for tests about them.
    pub fn expects_failures(&mut self) {
        self.failures_expected = true;
    }

    /// The value of a cookie it holds.
    pub fn cookie(&self, name: &str) -> Option<&str> {
        self.cookies.iter().find(|(n, _)| n == name).map(|(_, value)| value.as_str())
    }

    /// Puts a cookie in, as somebody who stole or forged it would.
    pub fn hold_cookie(&mut self, name: &str, value: &str) {
        self.cookies.retain(|(n, _)| n != name);
        self.cookies.push((name.to_owned(), value.to_owned()));
    }

    /// Asks for a page.
    pub async fn get(&mut self, path: &str) -> Answer {
        self.ask(Method::GET, path, &[], From::OurPage).await
    }

    /// Asks for a page and goes where it leads, through at most five redirects.
    pub async fn visit(&mut self, path: &str) -> Answer {
        let answer = self.get(path).await;
        self.follow(answer).await
    }

    /// Sends a form from one of our pages.
    pub async fn post(&mut self, path: &str, fields: &[(&str, &str)]) -> Answer {
        self.ask(Method::POST, path, fields, From::OurPage).await
    }

    /// Goes where an answer leads, through at most five redirects.
    pub async fn follow(&mut self, mut answer: Answer) -> Answer {
        for _ in 0..5 {
            let Some(to) = answer.location() else { return answer };
            let to = to.to_owned();
            answer = self.get(&to).await;
        }
        panic!("{} leads round in circles", answer.path())
    }

    /// Fills in the one form that `css` finds on a page and sends it where it wants to go: what the page had filled in
    /// stays, unless `fields` say otherwise. Naming a field that the form lacks fails the test.
    pub async fn submit(&mut self, page: &Answer, css: &str, fields: &[(&str, &str)]) -> Answer {
        let form = html::form(page, css);
        let mut sent = form.fields.clone();
        for (name, _) in fields {
            assert!(form.names.contains(*name), "the form at {} has no field {name}: {form:?}", page.path());
            sent.retain(|(n, _)| n != name);
        }
        sent.extend(fields.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned())));
        // a browser sends every break of a line so, in hidden fields as well (HTML: constructing the entry list)
        for (_, value) in &mut sent {
            *value = value.replace("\r\n", "\n").replace('\n', "\r\n");
        }
        let sent: Vec<(&str, &str)> = sent.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
        if form.method == Method::GET {
            let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(&sent).finish();
            return self.get(&format!("{}?{query}", form.action)).await;
        }
        self.post(&form.action, &sent).await
    }

    /// Sends JSON, as a script of one of our pages does.
    pub async fn post_json(&mut self, path: &str, body: &str) -> Answer {
        let request = self.request(&Method::POST, path, Some(("application/json", body)), From::OurPage);
        self.send(Method::POST, path, request).await
    }

    /// Sends a body of any kind from one of our own pages.
    pub async fn send_body(
        &mut self,
        method: Method,
        path: &str,
        kind: Option<&str>,
        body: Vec<u8>,
    ) -> Answer {
        let mut request = self.request(&method, path, None, From::OurPage);
        if let Some(kind) = kind {
            request.headers_mut().insert(header::CONTENT_TYPE, kind.parse().expect("a header"));
        }
        *request.body_mut() = Body::from(body);
        self.send(method, path, request).await
    }

    /// Sends any request, checks its answer, and keeps the cookies that came with it.
    pub async fn ask(&mut self, method: Method, path: &str, fields: &[(&str, &str)], from: From) -> Answer {
        let form = form_urlencoded::Serializer::new(String::new()).extend_pairs(fields).finish();
        let body = (!is_safe(&method)).then_some(("application/x-www-form-urlencoded", form.as_str()));
        let request = self.request(&method, path, body, from);
        self.send(method, path, request).await
    }

    /// Sends a body of this many bytes that is no form; also gives whether anybody began to read it.
    pub async fn ask_with_rubbish(&mut self, path: &str, bytes: usize, from: From) -> (Answer, bool) {
        let was_read = Arc::new(AtomicBool::new(false));
        let seen = Arc::clone(&was_read);
        let body = Full::new(Bytes::from(vec![b'%'; bytes])).map_frame(move |frame| {
            seen.store(true, Ordering::SeqCst);
            frame
        });
        let mut request = self.request(&Method::POST, path, Some(("image/png", "")), from);
        *request.body_mut() = Body::new(body);
        let answer = self.send(Method::POST, path, request).await;
        (answer, was_read.load(Ordering::SeqCst))
    }

    async fn send(&mut self, method: Method, path: &str, request: Request<Body>) -> Answer {
        let Ok(response) = self.router.clone().oneshot(request).await;
        let (parts, body) = response.into_parts();
        let body = body.collect().await.expect("the answer has a whole body").to_bytes();
        let text = String::from_utf8_lossy(&body).into_owned();
        let answer = Answer::new(method, path, parts, text);
        let secure = self.base_url.starts_with("https://");
        headers::check(&answer, secure);
        html::check(&answer);
        assert!(self.failures_expected || !answer.status().is_server_error(), "{answer:?} failed inside");
        for (name, value) in headers::cookies(&answer, secure) {
            self.cookies.retain(|(n, _)| *n != name);
            if !value.is_empty() {
                self.cookies.push((name, value));
            }
        }
        answer
    }

    fn request(&self, method: &Method, path: &str, body: Option<(&str, &str)>, from: From) -> Request<Body> {
        assert!(path.starts_with('/'), "{path:?} is not a path of ours");
        let mut request = Request::builder().method(method).uri(path).header(header::HOST, "localhost:8080");
        if !self.cookies.is_empty() {
            let held: Vec<String> = self.cookies.iter().map(|(n, v)| format!("{n}={v}")).collect();
            request = request.header(header::COOKIE, held.join("; "));
        }
        request = match from {
            From::OurPage if is_safe(method) => request.header("sec-fetch-site", "same-origin"),
            From::OurPage => {
                request.header("sec-fetch-site", "same-origin").header(header::ORIGIN, &self.base_url)
            }
            From::AnotherSite => request
                .header("sec-fetch-site", "cross-site")
                .header(header::ORIGIN, "https://elsewhere.example"),
            From::AnotherOrigin => request.header(header::ORIGIN, "https://elsewhere.example"),
            From::Unsaid => request,
        };
        let body = match body {
            None => Body::empty(),
            Some((kind, text)) => {
                request = request.header(header::CONTENT_TYPE, kind);
                Body::from(text.to_owned())
            }
        };
        request.body(body).expect("a request that can be sent")
    }
}

/// Whether a method only asks.
fn is_safe(method: &Method) -> bool {
    matches!(*method, Method::GET | Method::HEAD | Method::OPTIONS)
}
