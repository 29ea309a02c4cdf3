//! Stylesheet, scripts, icons and font: packed into the binary, served under names that carry their hash.

use std::sync::OnceLock;

use axum::Router;
use memory_serve::{CacheControl, MemoryServe};

/// Where the files are served.
const ROOT: &str = "/static";

fn files() -> MemoryServe {
    memory_serve::load!()
        .index_file(None)
        .fallback(None)
        .enable_hashed_routes(true)
        .cache_control(CacheControl::NoCache)
}

/// The routes of all files.
pub fn router<S: Clone + Send + Sync + 'static>() -> Router<S> {
    Router::new().nest(ROOT, files().into_router())
}

/// The address of a file, with its hash in the name where there is one.
pub fn address(name: &str) -> String {
    static MANIFEST: OnceLock<std::collections::HashMap<String, String>> = OnceLock::new();
    let manifest = MANIFEST
        .get_or_init(|| files().manifest().iter().map(|(k, v)| (k.to_owned(), v.to_owned())).collect());
    let route = format!("/{name}");
    let served = manifest.get(&route).map_or(route.as_str(), String::as_str);
    format!("{ROOT}{served}")
}
