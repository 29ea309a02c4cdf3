//! What trainers write for themselves never reaches an owner. Every column that words are kept in is in one of these lists; a new one
//! that is in none fails. The test puts a mark into each and reads everything that an owner and whoever holds a link can open.

use std::collections::BTreeSet;

use crate::support::every_form;
use crate::support::stage::Setting;

/// Words for trainers alone: no owner's page, paper, card or file has them.
const PRIVATE: &[&str] = &[];

/// Words that the household reads, or wrote.
const SHOWN: &[&str] = &[];

/// No words of people's: names that the service gives, keys and secrets, and what is compared with something else.
const NO_WORDS: &[&str] = &[];

#[tokio::test]
async fn words_for_trainers_alone_reach_no_owner() {
    let setting = Setting::build().await;
    let mut stage = setting.set().await;
    let columns = stage.columns_of_words().await;
    let known: BTreeSet<&str> = [PRIVATE, SHOWN, NO_WORDS].concat().into_iter().collect();
    let new: Vec<&String> = columns.iter().filter(|column| !known.contains(column.as_str())).collect();
    eprintln!("NEW {new:?}");
    let mut seen = BTreeSet::new();
    for (number, column) in columns.iter().enumerate() {
        if NO_WORDS.contains(&column.as_str()) {
            continue;
        }
        let (table, name) = column.split_once('.').expect("a table and a column");
        let statement = format!("update \"{table}\" set \"{name}\" = 'canary{number}y'");
        if let Err(e) = stage.try_say(&statement).await {
            eprintln!("CANNOT {column}: {e}");
        }
    }
    let things = setting.things.clone();
    for who in ["the owner", "the other owner"] {
        let walked = every_form::walk(stage.who(who), &things).await;
        eprintln!("{} pages", walked.pages.len());
        for page in walked.pages {
            for (number, column) in columns.iter().enumerate() {
                if page.body().contains(&format!("canary{number}y")) && seen.insert(column.clone()) {
                    eprintln!("SEEN {column} at {}", page.path());
                }
            }
        }
    }
    panic!("{seen:?}");
}
