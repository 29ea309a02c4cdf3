//! A sitting: the facts of one practice log as the rules see them.
//!
//! Every fact is stated or not stated (`None`). Not stated never counts as safe and never raises a stop.
//! Counts are `i16`, as the database keeps them, so that no cast stands between; [`Sitting::check`] refuses
//! what cannot be.

use time::{Date, OffsetDateTime};

use super::place::PlaceFacts;
use super::vocabulary::{
    Basis, Busy, Clip, Energy, Finish, HealthSign, Line, Looked, Outcome, Recovery, SkillClass, TookFood,
};
use super::weather::Weather;
use crate::ids::{LineId, StepId};

/// What the plan asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Planned {
    /// What joins dog and handler.
    pub line: Option<Line>,
    /// Where it is clipped.
    pub clip: Option<Clip>,
    /// Attempts in a sitting.
    pub attempts: Option<i16>,
    /// Minutes in a sitting.
    pub minutes: Option<i16>,
    /// Minutes of cool-down afterwards.
    pub cool_down_minutes: Option<i16>,
    /// Sittings in a week.
    pub times_a_week: Option<i16>,
    /// Distraction of the planned place, 1–5.
    pub distraction: Option<i16>,
    /// Length of the line, metres.
    pub line_metres: Option<i16>,
    /// What the reinforcer is worth to this dog, 1–5.
    pub reinforcer_rank: Option<i16>,
    /// Which rung the step is, from 1.
    pub step_position: Option<i16>,
}

/// One try of a sitting that was counted live.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Try {
    /// Whether it met the criterion.
    pub met: bool,
    /// How long after the beginning it was, ms.
    pub after_ms: i32,
}

/// One go at one item, as stated.
#[derive(Debug, Clone, PartialEq)]
pub struct Sitting {
    /// The day, where the dog was.
    pub local_date: Date,
    /// When it began.
    pub started_at: Option<OffsetDateTime>,
    /// The plan line that was practised.
    pub plan_line: Option<LineId>,
    /// The step as it was then.
    pub step: Option<StepId>,
    /// What the exercise is called.
    pub exercise: Option<String>,
    /// How much the exercise winds a dog up.
    pub energy: Option<Energy>,
    /// Whether it means running, jumping or a sudden stop.
    pub impact: Option<bool>,
    /// How sure to be before moving on.
    pub class: Option<SkillClass>,
    /// What a sitting of it yields.
    pub outcome: Option<Outcome>,
    /// What the plan asked for.
    pub planned: Planned,
    /// What joined dog and handler.
    pub line: Option<Line>,
    /// Where it was clipped.
    pub clip: Option<Clip>,
    /// How line and clip are known.
    pub equipment: Option<Basis>,
    /// Distraction of the place, 1–5.
    pub place_distraction: Option<i16>,
    /// What is known of the place; nothing where it was elsewhere than planned.
    pub place: PlaceFacts,
    /// How busy the place was this time.
    pub busy: Option<Busy>,
    /// The weather.
    pub weather: Weather,
    /// Whether a child held the line.
    pub child_held_line: Option<bool>,
    /// Whether the loop of the line was around a hand or wrist.
    pub loop_round_hand: Option<bool>,
    /// Whether a muzzle was on.
    pub muzzle_worn: Option<bool>,
    /// Whether there was a break in between.
    pub had_break: Option<bool>,
    /// Minutes it lasted.
    pub minutes: Option<i16>,
    /// Attempts.
    pub attempts: Option<i16>,
    /// Attempts that met the criterion.
    pub met: Option<i16>,
    /// Times the marker was paid.
    pub rewarded: Option<i16>,
    /// Arousal before, 1–5.
    pub arousal_before: Option<i16>,
    /// Arousal at the end, 1–5.
    pub arousal_end: Option<i16>,
    /// How the dog took its food.
    pub took_food: Option<TookFood>,
    /// How the dog looked.
    pub looked: Option<Looked>,
    /// How long until the dog was itself again.
    pub recovery: Option<Recovery>,
    /// How the sitting was brought down.
    pub finish: Option<Finish>,
    /// Minutes of cool-down.
    pub cool_down_minutes: Option<i16>,
    /// Signs of illness or pain that were ticked.
    pub health_signs: Vec<HealthSign>,
    /// The dog ran off and could not be called back.
    pub bolted: bool,
    /// Teeth touched a person or animal.
    pub bite: bool,
    /// A trainer saw it.
    pub trainer_seen: bool,
}

/// A field that cannot be right, and what to say beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FieldError {
    /// The field's name, as in [`Sitting`].
    pub field: &'static str,
    /// One plain sentence; about a count, what follows the field's own words and a colon.
    pub says: &'static str,
}

impl Sitting {
    /// A sitting on a day with nothing else stated.
    pub fn on(local_date: Date) -> Self {
        Self {
            local_date,
            started_at: None,
            plan_line: None,
            step: None,
            exercise: None,
            energy: None,
            impact: None,
            class: None,
            outcome: None,
            planned: Planned::default(),
            line: None,
            clip: None,
            equipment: None,
            place_distraction: None,
            place: PlaceFacts::default(),
            busy: None,
            weather: Weather::default(),
            child_held_line: None,
            loop_round_hand: None,
            muzzle_worn: None,
            had_break: None,
            minutes: None,
            attempts: None,
            met: None,
            rewarded: None,
            arousal_before: None,
            arousal_end: None,
            took_food: None,
            looked: None,
            recovery: None,
            finish: None,
            cool_down_minutes: None,
            health_signs: Vec::new(),
            bolted: false,
            bite: false,
            trainer_seen: false,
        }
    }

    /// Everything that cannot be right, all at once; empty when the sitting may be kept.
    pub fn check(&self) -> Vec<FieldError> {
        let mut errors = Vec::new();
        let mut unless = |fine: bool, field, says| {
            if !fine {
                errors.push(FieldError { field, says });
            }
        };
        let within = |value: Option<i16>, low, high| value.is_none_or(|n| (low..=high).contains(&n));
        unless(within(self.attempts, 1, 200), "attempts", "give a number from 1 to 200.");
        unless(within(self.met, 0, 200), "met", "give a number from 0 to 200.");
        unless(within(self.rewarded, 0, 200), "rewarded", "give a number from 0 to 200.");
        unless(within(self.minutes, 0, 600), "minutes", "Give the minutes, from 0 to 600.");
        unless(
            within(self.cool_down_minutes, 0, 600),
            "cool_down_minutes",
            "Give the minutes, from 0 to 600.",
        );
        unless(within(self.arousal_before, 1, 5), "arousal_before", "Choose from 1 to 5.");
        unless(within(self.arousal_end, 1, 5), "arousal_end", "Choose from 1 to 5.");
        unless(within(self.place_distraction, 1, 5), "place_distraction", "Choose from 1 to 5.");
        unless(self.met.is_none() || self.attempts.is_some(), "attempts", "say how many as well.");
        if let Some(attempts) = self.attempts {
            unless(
                self.met.is_none_or(|n| n <= attempts),
                "met",
                "this cannot be more than the pieces you put out.",
            );
            unless(
                self.rewarded.is_none_or(|n| n <= attempts),
                "rewarded",
                "this cannot be more than the pieces you put out.",
            );
        }
        errors.extend(self.weather.check());
        errors
    }

    /// Attempts and how many met the criterion, where both were counted.
    pub fn counted(&self) -> Option<(i16, i16)> {
        self.attempts.zip(self.met)
    }

    /// Line and clip in use. What was only assumed as planned is what the plan says, no more.
    pub fn equipment_in_use(&self) -> (Option<Line>, Option<Clip>) {
        match self.equipment {
            Some(Basis::AsPlanned) => (self.planned.line, self.planned.clip),
            Some(Basis::Stated) | None => (self.line, self.clip),
        }
    }

    /// Whether the exercise winds a dog up or makes it run; not stated is not arousing.
    pub fn is_arousing(&self) -> bool {
        self.energy == Some(Energy::Arousing) || self.impact == Some(true)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn fields(change: impl FnOnce(&mut Sitting)) -> Vec<&'static str> {
        let mut sitting = Sitting::on(date!(2025 - 05 - 01));
        change(&mut sitting);
        sitting.check().iter().map(|error| error.field).collect()
    }

    #[test]
    fn nothing_stated_may_be_kept() {
        assert!(fields(|_| ()).is_empty());
    }

    #[test]
    fn counts_stay_within_the_attempts() {
        assert!(fields(|s| (s.attempts, s.met, s.rewarded) = (Some(10), Some(10), Some(10))).is_empty());
        assert_eq!(fields(|s| (s.attempts, s.met) = (Some(10), Some(11))), ["met"]);
        assert_eq!(fields(|s| (s.attempts, s.rewarded) = (Some(10), Some(11))), ["rewarded"]);
        assert_eq!(fields(|s| s.met = Some(3)), ["attempts"]);
    }

    #[test]
    fn ranges_hold_at_both_ends() {
        assert!(fields(|s| (s.attempts, s.minutes) = (Some(200), Some(600))).is_empty());
        assert_eq!(fields(|s| s.attempts = Some(0)), ["attempts"]);
        assert_eq!(fields(|s| s.attempts = Some(201)), ["attempts"]);
        assert_eq!(fields(|s| s.minutes = Some(-1)), ["minutes"]);
        assert_eq!(fields(|s| s.cool_down_minutes = Some(601)), ["cool_down_minutes"]);
        assert_eq!(fields(|s| s.arousal_before = Some(0)), ["arousal_before"]);
        assert_eq!(fields(|s| s.arousal_end = Some(6)), ["arousal_end"]);
        assert_eq!(fields(|s| s.weather.humidity = Some(101)), ["humidity"]);
    }
}
