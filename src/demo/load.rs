//! Loading: first the people, then the dogs, a few at a time.

use std::io::Write;
use std::sync::Arc;

use anyhow::Context;
use tokio::sync::Semaphore;
use tokio::task::JoinSet;

use super::calendar::Calendar;
use super::content::{PRACTICE, dogs};
use super::marker::Loaded;
use super::passwords::Passwords;
use super::stage::Scene;
use super::{people, play};
use crate::app::App;

/// Dogs that are played at once: each waits for the disk most of the time.
const AT_ONCE: usize = 4;

/// Loads the whole practice as it is at the service's present moment.
///
/// # Errors
/// When an action refuses, which is a mistake in the content, or the database fails.
pub async fn load(app: &App, passwords: &Passwords) -> anyhow::Result<Loaded> {
    let calendar = Calendar::ending_at(app.clock.now(), PRACTICE.zone)?;
    let stage = Arc::new(people::gather(&app.db, &app.hasher, passwords, calendar).await?);
    let places = Arc::new(Semaphore::new(AT_ONCE));
    let mut playing = JoinSet::new();
    for (number, (household, dog)) in (1..).zip(dogs()) {
        let (scene, places) = (Scene::new(&stage, number), places.clone());
        playing.spawn(async move {
            let _place = places.acquire().await.context("taking a turn")?;
            play::play(scene, household, dog).await
        });
    }
    let (all, mut done) = (playing.len(), 0);
    progress(done, all);
    while let Some(played) = playing.join_next().await {
        played.context("playing a dog")??;
        done += 1;
        progress(done, all);
    }
    println!();
    Loaded::of(&stage, PRACTICE.trainers.first().map_or("", |lead| lead.key))
}

/// One line that counts the dogs.
fn progress(done: usize, all: usize) {
    print!("\rLoading the invented practice: {done} of {all} dogs");
    // where nobody reads, nothing is lost
    let _ = std::io::stdout().flush();
}
