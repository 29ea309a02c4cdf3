//! What a trainer makes of an intake, and whether a plan may be published after it.

use crate::domain::vocabulary::{VetStatus, Word};

/// An answer to an intake; the latest counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Triage {
    /// Start.
    Take,
    /// A vet looks first.
    VetFirst,
    /// Somebody else should take this dog.
    Refer,
    /// A lead lets a referred dog be worked with after all.
    Released,
}

impl Word for Triage {
    const ALL: &'static [Self] = &[Self::Take, Self::VetFirst, Self::Refer, Self::Released];

    fn stored(self) -> &'static str {
        match self {
            Self::Take => "take",
            Self::VetFirst => "vet_first",
            Self::Refer => "refer",
            Self::Released => "released",
        }
    }

    fn label(self) -> &'static str {
        match self {
            Self::Take => "Take",
            Self::VetFirst => "Vet first",
            Self::Refer => "Refer",
            Self::Released => "Released by a lead",
        }
    }
}

/// What an intake means for publishing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Publishing {
    /// Nothing stands in the way.
    Open,
    /// Somebody must say first what they make of the intake.
    Unanswered,
    /// A vet should look first: whoever publishes says that they have seen it.
    VetFirst,
    /// A lead must release the dog first.
    Referred,
}

/// Whether this answer may follow the latest. A referred dog is released by a lead, and by nothing else.
pub fn may_follow(latest: Option<Triage>, next: Triage, by_lead: bool) -> bool {
    match (latest, next) {
        (Some(Triage::Refer), Triage::Released) => by_lead,
        (Some(Triage::Refer), Triage::Take | Triage::VetFirst) | (_, Triage::Released) => false,
        (_, Triage::Take | Triage::VetFirst | Triage::Refer) => true,
    }
}

/// What stands in the way of publishing. `sent` is when the intake was last sent; `latest` is the latest answer, and when
/// it was given. An answer to an earlier sending does not answer a later one, but a dog that was referred stays so.
pub fn publishing<At: PartialOrd>(
    sent: Option<At>,
    latest: Option<(Triage, At)>,
    vet: VetStatus,
) -> Publishing {
    let Some((answer, at)) = latest else {
        return if sent.is_some() { Publishing::Unanswered } else { Publishing::Open };
    };
    match answer {
        Triage::Refer => Publishing::Referred,
        _ if sent.is_some_and(|sent| sent > at) => Publishing::Unanswered,
        Triage::VetFirst if !matches!(vet, VetStatus::Seen | VetStatus::Cleared) => Publishing::VetFirst,
        Triage::Take | Triage::VetFirst | Triage::Released => Publishing::Open,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_intake_that_was_sent_wants_an_answer() {
        assert_eq!(publishing::<i32>(None, None, VetStatus::None), Publishing::Open);
        assert_eq!(publishing(Some(5), None, VetStatus::Cleared), Publishing::Unanswered);
        assert_eq!(publishing(Some(5), Some((Triage::Take, 5)), VetStatus::None), Publishing::Open);
    }

    #[test]
    fn what_is_sent_again_is_answered_again() {
        for answer in [Triage::Take, Triage::VetFirst, Triage::Released] {
            assert_eq!(publishing(Some(6), Some((answer, 5)), VetStatus::Seen), Publishing::Unanswered);
        }
        assert_eq!(publishing(Some(6), Some((Triage::Refer, 5)), VetStatus::Seen), Publishing::Referred);
    }

    #[test]
    fn a_vet_who_has_seen_the_dog_lifts_the_caution_and_nothing_more() {
        for vet in [VetStatus::Seen, VetStatus::Cleared] {
            assert_eq!(publishing(Some(5), Some((Triage::VetFirst, 5)), vet), Publishing::Open);
            assert_eq!(publishing(Some(5), Some((Triage::Refer, 5)), vet), Publishing::Referred);
        }
        for vet in [VetStatus::None, VetStatus::Asked] {
            assert_eq!(publishing(Some(5), Some((Triage::VetFirst, 5)), vet), Publishing::VetFirst);
        }
    }

    #[test]
    fn a_referred_dog_is_released_by_a_lead_alone() {
        let refer = Some(Triage::Refer);
        assert!(may_follow(refer, Triage::Released, true) && !may_follow(refer, Triage::Released, false));
        assert!(!may_follow(refer, Triage::Take, true) && !may_follow(refer, Triage::VetFirst, true));
        assert!(!may_follow(None, Triage::Released, true));
        assert!(may_follow(Some(Triage::Released), Triage::Refer, false));
        assert_eq!(publishing(Some(5), Some((Triage::Released, 6)), VetStatus::None), Publishing::Open);
    }
}
