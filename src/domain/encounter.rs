//! An encounter: something that happened in life, outside a sitting, as the rules see it.

use time::{Date, OffsetDateTime};

use super::sitting::FieldError;
use super::vocabulary::{EncounterKind, Line, Looked, Recovery, Towards};

/// What was said about an encounter. `None` means not stated.
#[derive(Debug, Clone, PartialEq)]
pub struct EncounterFacts {
    /// The day, where the dog was.
    pub local_date: Date,
    /// When it happened.
    pub happened_at: Option<OffsetDateTime>,
    /// What happened.
    pub kind: EncounterKind,
    /// Whom a bite, growl or snap was directed at.
    pub towards: Option<Towards>,
    /// Teeth broke the skin.
    pub broken_skin: Option<bool>,
    /// How far away the trigger was, metres.
    pub distance_m: Option<i16>,
    /// How strong the reaction was: 0 none – 4 out of reach.
    pub reaction: Option<i16>,
    /// How long until the dog was itself again.
    pub recovery: Option<Recovery>,
    /// How the dog looked: loose where it was playful, frozen where it went stiff.
    pub looked: Option<Looked>,
    /// Whether a growl, a stare or stiffening came first.
    pub warned: Option<bool>,
    /// What joined dog and handler.
    pub line: Option<Line>,
}

impl EncounterFacts {
    /// An encounter of a kind on a day with nothing else stated.
    pub fn on(local_date: Date, kind: EncounterKind) -> Self {
        Self {
            local_date,
            happened_at: None,
            kind,
            towards: None,
            broken_skin: None,
            distance_m: None,
            reaction: None,
            recovery: None,
            looked: None,
            warned: None,
            line: None,
        }
    }

    /// Everything that cannot be right, all at once; empty when the encounter may be kept.
    pub fn check(&self) -> Vec<FieldError> {
        let mut errors = Vec::new();
        if self.distance_m.is_some_and(|m| !(0..=1000).contains(&m)) {
            errors.push(FieldError { field: "distance_m", says: "Give the metres, from 0 to 1,000." });
        }
        if self.reaction.is_some_and(|n| !(0..=4).contains(&n)) {
            errors.push(FieldError { field: "reaction", says: "Choose from 0 to 4." });
        }
        if self.broken_skin == Some(true) && self.kind != EncounterKind::Bite {
            let says = "Broken skin means that teeth touched: choose that for what happened, or “No” here.";
            errors.push(FieldError { field: "skin_broken", says });
        }
        if self.towards == Some(Towards::Child) && !self.is_aimed() {
            let says = "Teeth, a growl, a snap or guarding can be aimed at a child: choose it for what happened, or “Not sure” here.";
            errors.push(FieldError { field: "towards", says });
        }
        errors
    }

    /// Whether it is something that is aimed at somebody: teeth, a growl, a snap or guarding.
    pub fn is_aimed(&self) -> bool {
        matches!(self.kind, EncounterKind::Bite | EncounterKind::GrowlOrSnap | EncounterKind::Guarded)
    }
}

impl Towards {
    /// Whom, as it stands in a sentence of a trainer's.
    pub fn in_a_sentence(self) -> &'static str {
        match self {
            Self::Stranger => "someone outside the household",
            Self::Child => "a child",
            Self::Handler => "the handler or someone at home",
            Self::Dog => "another dog",
            Self::Animal => "another animal",
        }
    }
}

/// The kind that a message seems to tell of, to be looked at by whoever records it: the gravest that one of its words speaks
/// for. `None` where none does. The words are common practice.
pub fn first_guess(message: &str) -> Option<EncounterKind> {
    const SIGNS: [(EncounterKind, &[&str]); 5] = [
        (
            EncounterKind::Bite,
            &[
                "bit me", "bit my", "bit him", "bit his", "bit her", "bit the", "bit a", "bitten", "teeth",
                "nipped", "blood",
            ],
        ),
        (EncounterKind::Bolted, &["bolted", "ran off", "ran away", "took off", "escaped", "chased"]),
        (
            EncounterKind::EquipmentFailed,
            &["slipped out", "backed out", "snapped the", "clip broke", "harness broke"],
        ),
        (EncounterKind::GrowlOrSnap, &["growled", "growls", "growl", "snapped at", "snarled"]),
        (EncounterKind::Reaction, &["barked", "barking", "lunged", "lunging", "reacted", "kicked off"]),
    ];
    let words: Vec<String> = message
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    let spaced = format!(" {} ", words.join(" "));
    let speaks = |sign: &&str| spaced.contains(&format!(" {sign} "));
    SIGNS.iter().find(|(_, signs)| signs.iter().any(&speaks)).map(|(kind, _)| *kind)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn ranges_hold() {
        let mut encounter = EncounterFacts::on(date!(2025 - 05 - 01), EncounterKind::Reaction);
        assert!(encounter.check().is_empty());
        (encounter.reaction, encounter.distance_m) = (Some(4), Some(1000));
        assert!(encounter.check().is_empty());
        (encounter.reaction, encounter.distance_m) = (Some(5), Some(-1));
        let fields: Vec<_> = encounter.check().iter().map(|error| error.field).collect();
        assert_eq!(fields, ["distance_m", "reaction"]);
    }

    #[test]
    fn the_gravest_word_of_a_message_is_the_guess() {
        for (message, kind) in [
            ("He barked at a van and then bit my sleeve", Some(EncounterKind::Bite)),
            ("Ran off after a deer, back in ten minutes", Some(EncounterKind::Bolted)),
            ("GROWLED at the postman.", Some(EncounterKind::GrowlOrSnap)),
            ("A bit tired today, and lunged once", Some(EncounterKind::Reaction)),
            ("Lovely walk, slept all afternoon", None),
        ] {
            assert_eq!(first_guess(message), kind, "{message}");
        }
    }

    #[test]
    fn an_injury_and_a_child_belong_to_what_is_aimed() {
        let refused = |kind| {
            let told = EncounterFacts {
                towards: Some(Towards::Child),
                broken_skin: Some(true),
                ..EncounterFacts::on(date!(2025 - 05 - 01), kind)
            };
            told.check().iter().map(|error| error.field).collect::<Vec<_>>()
        };
        assert!(refused(EncounterKind::Bite).is_empty());
        assert_eq!(refused(EncounterKind::GrowlOrSnap), ["skin_broken"]);
        assert_eq!(refused(EncounterKind::Reaction), ["skin_broken", "towards"]);
        assert_eq!(refused(EncounterKind::Other), ["skin_broken", "towards"]);
    }
}
