//! What the history holds.

use super::dog::DaysAgo;
use crate::domain::vocabulary::Towards;
pub use crate::domain::vocabulary::{Activity, BirthPrecision, Coat, Sex};

/// Where the question to the vet stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Vet {
    /// Not asked.
    None,
    /// Asked for a visit, this long ago.
    Asked(DaysAgo),
    /// Seen, this long ago; something is being treated or watched.
    Seen(DaysAgo),
    /// Seen and cleared for the work, this long ago.
    Cleared(DaysAgo),
}

/// What the history holds.
#[derive(Debug, Clone, Copy)]
pub struct Profile {
    /// Breed or best guess.
    pub breed: &'static str,
    /// Sex.
    pub sex: Sex,
    /// Neutered.
    pub neutered: bool,
    /// Age in days at now.
    pub age_days: u16,
    /// How exact that is.
    pub birth_known: BirthPrecision,
    /// Weighings, oldest first: days ago, kilograms.
    pub weights: &'static [(DaysAgo, f32)],
    /// Expected adult weight, kg; the present weight for adults.
    pub adult_kg: f32,
    /// Body condition 1–9.
    pub condition: u8,
    /// Everyday activity.
    pub activity: Activity,
    /// Coat.
    pub coat: Coat,
    /// Short-nosed.
    pub short_nosed: bool,
    /// Heart and breathing; empty is not stated.
    pub heart_breathing: &'static str,
    /// Bones and joints; empty is not stated.
    pub orthopaedic: &'static str,
    /// Anything else a stand-in should know.
    pub other: &'static str,
    /// Name, dose, how often.
    pub medicines: &'static [&'static str],
    /// Foods and others.
    pub allergies: &'static [&'static str],
    /// Main food, described, no brands.
    pub food: &'static str,
    /// Its energy, kcal a gram as fed.
    pub food_kcal_g: f32,
    /// Question to the vet.
    pub vet: Vet,
    /// Facts, oldest first.
    pub incidents: &'static [Incident],
    /// Muzzle, where there is one.
    pub muzzle: Option<Muzzle>,
    /// Who must not meet this dog.
    pub must_not_meet: &'static [&'static str],
    /// Places (by name) where the trainer allows off lead; a bolt ends it.
    pub off_lead: &'static [&'static str],
}

/// A muzzle and how it is borne.
#[derive(Debug, Clone, Copy)]
pub struct Muzzle {
    /// Basket or other.
    pub kind: &'static str,
    /// Can pant and take food in it.
    pub can_pant_and_eat: bool,
    /// Comfortable for this long, minutes.
    pub comfortable_minutes: u8,
    /// Where it is worn.
    pub required: &'static str,
}

/// What an incident was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum IncidentKind {
    /// Teeth on skin.
    Bite,
    /// Snap without touch.
    Snap,
    /// Growl.
    Growl,
    /// Froze over something and guarded it.
    Guarding,
    /// Turned on the handler when held back.
    Redirected,
    /// Ran off.
    Bolted,
    /// Slipped out of the harness or collar.
    Slipped,
}

/// An incident as facts.
#[derive(Debug, Clone, Copy)]
pub struct Incident {
    /// When; the sitting's own day inside a `Moment`.
    pub days_ago: DaysAgo,
    /// What.
    pub kind: IncidentKind,
    /// Skin was broken.
    pub skin_broken: bool,
    /// Towards whom or what.
    pub towards: &'static str,
    /// The same as the forms ask for it.
    pub whom: Option<Towards>,
    /// What was seen.
    pub facts: &'static str,
}
