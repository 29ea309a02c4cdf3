//! Warnings that a dog gives, or no longer gives: guarding, and a growl that is gone. And plans near what a bite was about.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Rule};
use super::in_plan::{arrangements, in_exercises, is_between, names_barrier};
use super::{EncounterContext, PlanContext};
use crate::domain::vocabulary::{EncounterKind, Looked, Outcome, Severity, Towards};

const REFERRAL: &str = "Aggression needs a treatment plan with a vet: AVSAB 2021, position statement on humane dog \
    training. The list: common practice. Your vet, a qualified behaviourist and local law decide.";

/// Guarding.
pub static GUARDING: Rule = Rule {
    id: "guarding",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Encounter,
    title: "Guarding",
    owner_title: "Give food, toys and beds more room",
    raises: "Guarding of food, a thing or a place was told: caution. Where the dog went stiff or froze, or where it was \
             aimed at a child: stop.",
    why: "Freezing over something may be the last step before teeth. Taking things away teaches a dog to guard \
                sooner.",
    trainer_do: "Ring. Nobody takes things by hand; feed and chew apart; swap for something better from a distance. With \
                 freezing or a child, ask for a vet's check and refer to a qualified behaviourist before any exercise.",
    owner_do: "Leave your dog in peace with food, chews and bed, behind a gate if need be. Take nothing out of mouth or bowl; \
               to get something back, throw something better away from it. If it may be poison or a danger, throw a handful of food \
               well away, shut the door on what is left, and ring your vet now. Keep children well apart.",
    owner_why: "Guarding is often a dog being afraid to lose something. Room and good swaps make it feel safer.",
    source: REFERRAL,
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A dog that used to warn did not.
pub static GROWL_GONE: Rule = Rule {
    id: "growl_gone",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Trend,
    title: "A growl no longer given",
    owner_title: "The growl did not come this time",
    raises: "Teeth without any warning stated, from a dog that has growled, snapped or guarded before: caution.",
    why: "A warning that was punished or went unheard may be left out the next time; the bite then comes without it.",
    trainer_do: "Ask who reacted to the growls, and how. Nobody scolds one again. Plan as if no warning will come, ask for \
                 a vet's check, and refer to a qualified behaviourist.",
    owner_do: "Do not count on a growl any more: use gates, leads and space instead. Never scold a growl. Tell your trainer \
               what happened after the earlier ones, and have your vet look for pain.",
    owner_why: "A growl is your dog asking for space. When it has not helped, some dogs stop asking.",
    source: REFERRAL,
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A plan takes a dog with a bite on record near what it may bite, with nothing between.
pub static BITE_NEAR_TARGET: Rule = Rule {
    id: "bite_near_target",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Plan,
    title: "Bite on record, and no muzzle or barrier",
    owner_title: "A muzzle or a fence between",
    raises: "A bite is on record, an exercise is measured in distance to what sets the dog off or is planned at distraction \
             5, and neither the profile nor the plan names a muzzle or a barrier: caution.",
    why: "A mistake in distance or timing must not be able to cost skin.",
    trainer_do: "Write into the plan what stands between: a trained muzzle, a fence, a second line. Work on it in sight of \
                 a qualified behaviourist.",
    owner_do: "Leave this one until your trainer has said what stands between: a muzzle your dog is happy in, a fence, or \
               much more room.",
    owner_why: "With something solid between, everybody can relax, and that helps your dog to relax.",
    source: REFERRAL,
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

pub(super) fn guarding(context: &EncounterContext<'_>) -> Option<Finding> {
    let EncounterContext { encounter, dog, .. } = *context;
    if encounter.kind != EncounterKind::Guarded {
        return None;
    }
    let (froze, child) =
        (encounter.looked == Some(Looked::Frozen), encounter.towards == Some(Towards::Child));
    let severity = if froze || child { Severity::Stop } else { Severity::Caution };
    let name = &dog.name;
    let how = if froze { ", stiff or frozen" } else { "" };
    let whom = encounter.towards.map_or(String::new(), |whom| format!(", towards {}", whom.in_a_sentence()));
    Some(
        Finding::new(
            &GUARDING,
            severity,
            format!("{name} guarded food, a thing or a place{whom}{how}."),
            format!("{name} did not want to share. Thank you for saying so."),
        )
        .fact("Stiff or frozen", if froze { "Yes" } else { "Not stated" }),
    )
}

pub(super) fn growl_gone(context: &EncounterContext<'_>) -> Option<Finding> {
    let EncounterContext { encounter, dog, .. } = *context;
    let unwarned = encounter.kind == EncounterKind::Bite && encounter.warned == Some(false);
    (unwarned && dog.growl_on_record).then(|| {
        let name = &dog.name;
        let seen = format!("{name} used teeth without a warning, and has warned before.");
        Finding::new(&GROWL_GONE, Severity::Caution, seen.clone(), seen)
    })
}

fn names_muzzle(title: &str) -> bool {
    title.to_lowercase().contains("muzzle")
}

pub(super) fn bite_near_target(context: &PlanContext<'_>) -> Vec<Finding> {
    let dog = context.dog;
    if !dog.bite_on_record
        || dog.has_muzzle()
        || arrangements(context.plan).any(|item| is_between(&item.title) || names_muzzle(&item.title))
    {
        return Vec::new();
    }
    in_exercises(context.plan, |item| {
        let near = item.outcome == Some(Outcome::Distance)
            || item.place_distraction.max(item.distraction).is_some_and(|level| level >= 5);
        (near && !names_barrier(&item.words)).then(|| {
            let (name, title) = (&dog.name, &item.title);
            Finding::new(
                &BITE_NEAR_TARGET,
                Severity::Caution,
                format!("“{title}” takes {name}, with a bite on record, near what it is about; no muzzle or barrier is named."),
                format!("“{title}” brings {name} close, and the plan does not say what stands between."),
            )
        })
    })
}
