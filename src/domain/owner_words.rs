//! The words that owners read, where they differ from the trade's.

use super::vocabulary::{Choice, EncounterKind, FlagState, ItemKind, LifeKind, Severity, Towards, Word};

/// Why a step changed, for the note that goes out with the next plan: "Settle: 14 of 15 went well, so on to “Garden”."
/// `counted` is how many met, of how many.
pub fn step_changed(exercise: &str, choice: Choice, to: &str, counted: Option<(i32, i32)>) -> String {
    match (choice, counted) {
        (Choice::MoveOn, Some((met, attempts))) if attempts > 0 => {
            format!("{exercise}: {met} of {attempts} went well, so on to “{to}”.")
        }
        (Choice::MakeEasier, _) => {
            format!("{exercise}: back to “{to}” for now, so that it is easy again.")
        }
        (Choice::MoveOn | Choice::Repeat, _) => format!("{exercise}: on to “{to}”."),
    }
}

/// A word that owners read differently.
pub trait OwnerWord: Copy {
    /// What owners read.
    fn for_owner(self) -> &'static str;
}

impl OwnerWord for Severity {
    fn for_owner(self) -> &'static str {
        match self {
            Self::Notice => "Something to watch",
            Self::Caution => "Change this next time",
            Self::Stop => "Pause this",
        }
    }
}

impl OwnerWord for FlagState {
    fn for_owner(self) -> &'static str {
        match self {
            Self::Open => "Your trainer is asked to answer",
            Self::Answered => "Your trainer has answered",
            Self::Withdrawn => "No longer applies",
        }
    }
}

impl OwnerWord for Choice {
    fn for_owner(self) -> &'static str {
        match self {
            Self::MoveOn => "On to the next step",
            Self::Repeat => "The same again",
            Self::MakeEasier => "A little easier",
        }
    }
}

impl OwnerWord for ItemKind {
    fn for_owner(self) -> &'static str {
        match self {
            Self::Exercise => "To practise",
            Self::StandingArrangement => "All the time",
            Self::OwnerSkill => "For you, without the dog",
        }
    }
}

impl OwnerWord for EncounterKind {
    fn for_owner(self) -> &'static str {
        match self {
            Self::Reaction => "Met something that sets them off",
            Self::Bolted => "Ran off",
            Self::Bite => "Teeth touched someone",
            Self::NotCoping => "I am not coping",
            Self::EquipmentFailed => "The harness slipped or a clip or line broke",
            Self::GrowlOrSnap | Self::Guarded | Self::Other => self.label(),
        }
    }
}

impl OwnerWord for LifeKind {
    fn for_owner(self) -> &'static str {
        match self {
            Self::Move => "We moved",
            Self::Fireworks => "Fireworks or thunder",
            Self::Holiday => "Away from home",
            Self::Medicine | Self::Season | Self::Neutering | Self::Illness | Self::Other => self.label(),
        }
    }
}

impl OwnerWord for Towards {
    fn for_owner(self) -> &'static str {
        match self {
            Self::Handler => "Me or someone at home",
            Self::Stranger | Self::Child | Self::Dog | Self::Animal => self.label(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said<W: OwnerWord + Word>() -> Vec<&'static str> {
        W::ALL.iter().map(|word| word.for_owner()).collect()
    }

    #[test]
    fn no_two_words_of_a_set_read_the_same() {
        for mut words in [
            said::<Severity>(),
            said::<FlagState>(),
            said::<Choice>(),
            said::<ItemKind>(),
            said::<EncounterKind>(),
            said::<Towards>(),
        ] {
            let count = words.len();
            words.sort_unstable();
            words.dedup();
            assert_eq!(words.len(), count, "{words:?}");
        }
    }
}
