//! Changing and removing what was logged: who may, and what is not taken back without a word.

use time::{Duration, OffsetDateTime};

use super::access::{Access, Actor};
use super::encounter::EncounterFacts;
use super::sitting::Sitting;
use super::vocabulary::{EncounterKind, HealthSign, Line, Looked, Role, Towards};
use super::welfare::cannot_wait;
use crate::ids::MembershipId;

/// For how long owners may change or remove what they sent. Common practice: a fortnight later nobody remembers the
/// count, and a lesson has been built on it.
pub const OWNERS_DAYS: i64 = 14;

/// Whether somebody who sees a log or an encounter may change or remove it. Trainers may; owners what they sent
/// themselves, within [`OWNERS_DAYS`] of sending it.
pub fn may_revise(actor: &Actor, by: MembershipId, sent: OffsetDateTime, now: OffsetDateTime) -> Access {
    let own = actor.membership == by && now - sent <= Duration::days(OWNERS_DAYS);
    if actor.role != Role::Owner || own { Access::Allow } else { Access::Refuse }
}

/// Whether teeth, running off or a sign that asks for a vet at once are taken back that a sitting told of. `after` is `None`
/// where the log is removed.
pub fn sitting_takes_back(before: &Sitting, after: Option<&Sitting>) -> bool {
    let is_kept = |sign: &HealthSign| after.is_some_and(|after| after.health_signs.contains(sign));
    let urgent = before.health_signs.iter().filter(|sign| cannot_wait(**sign));
    urgent.into_iter().any(|sign| !is_kept(sign))
        || before.bite && !after.is_some_and(|after| after.bite)
        || before.bolted && !after.is_some_and(|after| after.bolted)
}

/// Whether an encounter is told as less than it was: a bite, a growl or snap, running off, guarding, broken skin,
/// freezing, a dog that was loose, or a child or handler that is no longer said. `after` is `None` where it is removed.
pub fn encounter_takes_back(before: &EncounterFacts, after: Option<&EncounterFacts>) -> bool {
    use EncounterKind::{Bite, Bolted, GrowlOrSnap, Guarded};
    let is_still = |said: &dyn Fn(&EncounterFacts) -> bool| !said(before) || after.is_some_and(said);
    let rank = |facts: &EncounterFacts| match facts.kind {
        Bite => 2,
        GrowlOrSnap | Guarded => 1,
        _ => 0,
    };
    let told = rank(before);
    let as_grave = told == 0 || after.is_some_and(|after| rank(after) >= told);
    !(as_grave
        && is_still(&|facts| facts.kind == Bolted)
        && is_still(&|facts| facts.broken_skin == Some(true))
        && is_still(&|facts| facts.looked == Some(Looked::Frozen))
        && is_still(&|facts| {
            facts.kind == Bolted && matches!(facts.line, Some(Line::None | Line::TrailingLine))
        })
        && is_still(&|facts| matches!(facts.towards, Some(Towards::Handler | Towards::Child)))
        && is_still(&|facts| facts.towards == Some(Towards::Child)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::PracticeId;
    use time::macros::{date, datetime};
    use uuid::Uuid;

    const SENT: OffsetDateTime = datetime!(2026-03-12 09:30 UTC);

    fn may(role: Role, by: u128, days: i64, seconds: i64) -> Access {
        let actor = Actor {
            practice: PracticeId(Uuid::from_u128(1)),
            membership: MembershipId(Uuid::from_u128(9)),
            role,
            households: Vec::new(),
        };
        let now = SENT + Duration::days(days) + Duration::seconds(seconds);
        may_revise(&actor, MembershipId(Uuid::from_u128(by)), SENT, now)
    }

    #[test]
    fn owners_change_what_they_sent_for_a_fortnight() {
        assert_eq!(may(Role::Owner, 9, 14, 0), Access::Allow);
        assert_eq!(may(Role::Owner, 9, 14, 1), Access::Refuse);
        assert_eq!(may(Role::Owner, 8, 0, 0), Access::Refuse, "what another owner sent");
    }

    #[test]
    fn trainers_change_what_anybody_sent_whenever() {
        for role in [Role::Trainer, Role::Lead] {
            assert_eq!(may(role, 8, 400, 0), Access::Allow);
        }
    }

    #[test]
    fn a_sitting_takes_back_teeth_and_running_off() {
        let quiet = Sitting::on(date!(2026 - 03 - 12));
        let bite = Sitting { bite: true, ..quiet.clone() };
        let both = Sitting { bolted: true, ..bite.clone() };
        assert!(!sitting_takes_back(&quiet, None));
        assert!(!sitting_takes_back(&quiet, Some(&both)));
        assert!(!sitting_takes_back(&bite, Some(&both)));
        assert!(sitting_takes_back(&both, Some(&bite)));
        assert!(sitting_takes_back(&bite, Some(&quiet)) && sitting_takes_back(&bite, None));
    }

    #[test]
    fn a_sign_for_the_vet_is_not_taken_back_without_a_word() {
        let day = date!(2026 - 03 - 12);
        let with = |signs: &[HealthSign]| Sitting { health_signs: signs.to_vec(), ..Sitting::on(day) };
        for sign in [HealthSign::Collapse, HealthSign::Straining, HealthSign::Heat] {
            assert!(sitting_takes_back(&with(&[sign]), None), "{sign}");
            assert!(sitting_takes_back(&with(&[sign]), Some(&with(&[HealthSign::Lame]))), "{sign}");
            assert!(!sitting_takes_back(&with(&[sign]), Some(&with(&[sign, HealthSign::Lame]))), "{sign}");
        }
        assert!(!sitting_takes_back(&with(&[HealthSign::Lame]), None), "a sign that can wait");
    }

    #[test]
    fn an_encounter_takes_back_whatever_is_told_as_less() {
        let day = date!(2026 - 03 - 12);
        let of = |kind| EncounterFacts::on(day, kind);
        let hurt = EncounterFacts { broken_skin: Some(true), ..of(EncounterKind::Bite) };
        let child = EncounterFacts { towards: Some(Towards::Child), ..of(EncounterKind::GrowlOrSnap) };
        let handler = EncounterFacts { towards: Some(Towards::Handler), ..of(EncounterKind::Bite) };
        let loose = EncounterFacts { line: Some(Line::None), ..of(EncounterKind::Bolted) };
        let stiff = EncounterFacts { looked: Some(Looked::Frozen), ..of(EncounterKind::Guarded) };
        let less = [
            (of(EncounterKind::Bite), Some(of(EncounterKind::GrowlOrSnap))),
            (of(EncounterKind::GrowlOrSnap), Some(of(EncounterKind::Reaction))),
            (of(EncounterKind::Bolted), Some(of(EncounterKind::Bite))),
            (hurt.clone(), Some(of(EncounterKind::Bite))),
            (child.clone(), Some(of(EncounterKind::GrowlOrSnap))),
            (handler.clone(), Some(EncounterFacts { towards: Some(Towards::Stranger), ..handler.clone() })),
            (loose.clone(), Some(EncounterFacts { line: Some(Line::LongLine), ..loose.clone() })),
            (stiff.clone(), Some(of(EncounterKind::Guarded))),
            (of(EncounterKind::Bite), None),
        ];
        for (before, after) in less {
            assert!(encounter_takes_back(&before, after.as_ref()), "{before:?} as {after:?}");
        }
        let no_less = [
            (of(EncounterKind::Reaction), Some(of(EncounterKind::Other))),
            (of(EncounterKind::Reaction), None),
            (of(EncounterKind::GrowlOrSnap), Some(of(EncounterKind::Bite))),
            (of(EncounterKind::Bite), Some(hurt)),
            (handler.clone(), Some(EncounterFacts { towards: Some(Towards::Child), ..handler })),
            (loose.clone(), Some(EncounterFacts { line: Some(Line::TrailingLine), ..loose })),
            (child.clone(), Some(child)),
        ];
        for (before, after) in no_less {
            assert!(!encounter_takes_back(&before, after.as_ref()), "{before:?} as {after:?}");
        }
    }
}
