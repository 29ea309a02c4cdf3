//! What `tests/run` tells the tests.

use std::path::PathBuf;

/// The folder of the test server's socket.
pub fn server() -> PathBuf {
    told("SETTLEBROOK_TEST_POSTGRES")
        .expect(
            "SETTLEBROOK_TEST_POSTGRES names no test server: run tests/run, or tests/run --server beside what you \
             run yourself",
        )
        .into()
}

/// Whether the long versions of tests were asked for.
pub fn is_long() -> bool {
    told("SETTLEBROOK_TEST_LONG").is_some_and(|text| text == "1")
}

#[expect(clippy::disallowed_methods, reason = "tests are told by tests/run, here and nowhere else")]
fn told(name: &str) -> Option<String> {
    std::env::var(name).ok()
}
