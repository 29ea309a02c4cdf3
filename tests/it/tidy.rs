//! The shape of the house: who may import whom, where dangerous things live, how long a file may be.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// A file is for one thing.
const LONGEST: usize = 600;
/// Half of the source files are no longer than this.
const MEDIAN: usize = 150;

/// Who may import whom, besides itself. A folder or file of `src` that is not here fails the test; `main`, `app` and
/// `lib` wire everything together.
const MAY_IMPORT: &[(&str, &[&str])] = &[
    ("ids", &[]),
    ("refusal", &[]),
    ("clock", &["ids"]),
    ("config", &["refusal"]),
    ("domain", &["ids"]),
    ("store", &["clock", "domain", "ids"]),
    ("actions", &["clock", "domain", "ids", "store"]),
    ("mail", &["domain", "ids"]),
    ("jobs", &["actions", "clock", "domain", "ids", "mail", "store"]),
    ("web", &["actions", "app", "clock", "domain", "ids", "store"]),
    ("demo", &["actions", "app", "clock", "domain", "ids", "refusal", "store"]),
    ("database", &["config", "refusal"]),
];
const WIRING: [&str; 3] = ["app", "lib", "main"];

/// Crates and modules that may be named in some places only.
const ONLY_IN: &[(&str, &[&str])] = &[
    ("sqlx", &["store", "database", "app", "main"]),
    ("axum", &["web", "app"]),
    ("axum_extra", &["web", "app"]),
    ("tower", &["web", "app"]),
    ("tower_http", &["web", "app"]),
    ("askama", &["web"]),
    ("askama_web", &["web"]),
    ("webauthn_rs", &["actions"]),
    ("clap", &["config"]),
    ("anyhow", &["main", "app", "config", "database", "web", "demo"]),
    ("std::env", &["config", "main"]),
    ("std::process", &["database", "app", "main"]),
    ("std::fs", &["database", "config", "demo", "app"]),
    ("std::net", &["config", "database", "app", "web"]),
    ("tokio", &["actions", "app", "database", "demo", "jobs", "main", "store", "web"]),
    ("SystemTime", &["clock", "database"]),
    ("now_utc", &[]),
];

struct Source {
    path: String,
    place: String,
    /// Without comments, and without the tests at its end.
    code: String,
    lines: usize,
}

fn root() -> PathBuf {
    env!("CARGO_MANIFEST_DIR").into()
}

fn files(folder: &Path, kinds: &[&str], found: &mut Vec<PathBuf>) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            if !path.ends_with("node_modules") && !path.ends_with("vendor") {
                files(&path, kinds, found);
            }
        } else if path.extension().is_some_and(|kind| kinds.iter().any(|k| kind == *k)) {
            found.push(path);
        }
    }
}

fn found(folders: &[&str], kinds: &[&str]) -> Vec<(String, String)> {
    let mut paths = Vec::new();
    for folder in folders {
        files(&root().join(folder), kinds, &mut paths);
    }
    paths.sort();
    let read = |path: PathBuf| {
        let text = fs::read_to_string(&path).expect("a text");
        (path.strip_prefix(root()).expect("inside").display().to_string(), text)
    };
    paths.into_iter().map(read).collect()
}

fn sources() -> Vec<Source> {
    let read = |(path, text): (String, String)| {
        let place = path.trim_start_matches("src/").split(['/', '.']).next().unwrap_or_default().to_owned();
        let before_tests = text.split("\n#[cfg(test)]\nmod ").next().unwrap_or_default();
        let code = before_tests.lines().map(without_comment).collect::<Vec<_>>().join("\n");
        Source { lines: text.lines().count(), path, place, code }
    };
    let all = found(&["src"], &["rs"]).into_iter();
    all.filter(|(path, _)| !is_tests_alone(path)).map(read).collect()
}

/// `tests.rs`, or a folder `tests`, beside the module that is tested.
fn is_tests_alone(path: &str) -> bool {
    path.ends_with("/tests.rs") || path.starts_with("src/") && path.contains("/tests/")
}

fn without_comment(line: &str) -> &str {
    if line.trim_start().starts_with("//") { "" } else { line.split(" // ").next().unwrap_or_default() }
}

/// Every path that begins with `crate::`, its braces opened: `crate::store::{Db, Tx}` is two.
fn imports(code: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        let before = code[..at].chars().next_back();
        if before.is_none_or(|c| !c.is_alphanumeric() && c != '_' && c != '$') {
            open(&code[at + "crate::".len()..], "", &mut found);
        }
    }
    found
}

/// Reads one path at the beginning of `text`, and what stands in its braces; gives what is left.
fn open<'a>(text: &'a str, before: &str, found: &mut Vec<String>) -> &'a str {
    let end = text.find(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')).unwrap_or(text.len());
    let path = format!("{before}{}", &text[..end]);
    let Some(mut rest) = text[end..].strip_prefix('{').filter(|_| path.is_empty() || path.ends_with("::"))
    else {
        found.push(path);
        return &text[end..];
    };
    loop {
        rest = open(rest.trim_start(), &path, found).trim_start();
        match rest.strip_prefix(',') {
            Some(next) if !next.trim_start().starts_with('}') => rest = next,
            _ => return rest.trim_start_matches(',').trim_start().trim_start_matches('}'),
        }
    }
}

#[test]
fn paths_in_braces_are_read() {
    let code = "use crate::store::{self, Db, token::{Token,\n TokenHash},};\nlet x = crate::ids::DogId(y); $crate::no";
    let read = ["store::self", "store::Db", "store::token::Token", "store::token::TokenHash", "ids::DogId"];
    assert_eq!(imports(code), read);
    assert_eq!(imports("use crate::{clock::Clock, ids};"), ["clock::Clock", "ids"]);
}

#[test]
fn everybody_imports_only_whom_they_may() {
    let may: BTreeMap<&str, &[&str]> = MAY_IMPORT.iter().copied().collect();
    let mut wrong = Vec::new();
    for source in sources().iter().filter(|s| !WIRING.contains(&s.place.as_str())) {
        let Some(allowed) = may.get(source.place.as_str()) else {
            wrong.push(format!("{} is in no place that this test knows", source.path));
            continue;
        };
        for import in imports(&source.code) {
            let from = import.split("::").next().unwrap_or_default();
            if from != source.place && !allowed.contains(&from) {
                wrong.push(format!("{} imports crate::{import}", source.path));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Whether `name` stands in the code as a path of its own, not as the end of a longer word.
fn names(code: &str, name: &str) -> bool {
    let part_of_word = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
    code.match_indices(name).any(|(at, _)| {
        let after = &code[at + name.len()..];
        let is_path = after.starts_with("::") || name.contains("::") || name.contains(char::is_uppercase);
        let is_path = is_path || code[..at].ends_with("use ") || after.starts_with('(');
        is_path && !part_of_word(code[..at].chars().next_back()) && !part_of_word(after.chars().next())
    })
}

#[test]
fn dangerous_things_are_named_in_few_places() {
    let mut wrong = Vec::new();
    for source in sources() {
        for (name, places) in ONLY_IN {
            // Two named types of sqlx's are what `store` hands on as its own.
            if names(&source.code, name) && !places.contains(&source.place.as_str()) {
                wrong.push(format!("{} names {name}", source.path));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn the_domain_is_pure() {
    let mut wrong = Vec::new();
    for source in sources().iter().filter(|s| s.place == "domain") {
        for impure in
            ["async ", ".await", "std::io", "std::fs", "std::net", "Instant", "rand::", "tracing::", "unsafe"]
        {
            if source.code.contains(impure) {
                wrong.push(format!("{} has {impure}", source.path));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn nothing_is_left_for_later_or_hidden() {
    let mut wrong = Vec::new();
    for source in sources() {
        for left in [".unwrap()", "todo!", "unimplemented!", "dbg!(", "#[allow("] {
            if source.code.contains(left) {
                wrong.push(format!("{} has {left}", source.path));
            }
        }
    }
    let (to_do, fix_me) = (concat!("TO", "DO"), concat!("FIX", "ME"));
    for (path, text) in found(&["src", "tests", "templates", "static", "migrations"], OWN) {
        if text.contains(to_do) || text.contains(fix_me) {
            wrong.push(format!("{path} has something to do"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The kinds of files that we write.
const OWN: &[&str] = &["rs", "html", "css", "js", "mjs", "sql"];

#[test]
fn no_file_is_long_and_most_are_short() {
    let mut long = Vec::new();
    for (path, text) in found(&["src", "tests", "templates", "static", "migrations"], OWN) {
        let lines = text.lines().count();
        if lines > LONGEST {
            long.push(format!("{path} has {lines} lines"));
        }
    }
    assert!(long.is_empty(), "{long:#?}");
    let mut lengths: Vec<usize> = sources().iter().map(|source| source.lines).collect();
    lengths.sort_unstable();
    let median = lengths[lengths.len() / 2];
    assert!(median <= MEDIAN, "the median of source files is {median} lines");
}

#[test]
fn migrations_are_numbered_and_say_why() {
    let migrations = found(&["migrations"], &["sql"]);
    for (at, (path, text)) in migrations.iter().enumerate() {
        assert!(path.starts_with(&format!("migrations/{:04}_", at + 1)), "{path} is out of order");
        assert!(text.starts_with("-- "), "{path} does not begin by saying why");
    }
    assert!(!migrations.is_empty(), "there are migrations");
}

#[test]
fn sources_and_templates_say_what_they_are_for() {
    let mut wrong = Vec::new();
    for (path, text) in found(&["src", "tests"], &["rs"]) {
        if !text.starts_with("//! ") && !is_tests_alone(&path) && !path.contains("/build.rs") {
            wrong.push(path);
        }
    }
    assert!(wrong.is_empty(), "no module header: {wrong:#?}");
}
