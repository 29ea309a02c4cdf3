//! Distress: a dog that shuts down, an owner who is not coping.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Rule};
use super::{EncounterContext, LogContext};
use crate::domain::vocabulary::{EncounterKind, Looked, Severity, TookFood, Word};

/// Worried or frozen, and food refused.
pub static SHUT_DOWN: Rule = Rule {
    id: "shut_down",
    version: 1,
    group: Group::Distress,
    looks_at: LooksAt::Log,
    title: "Shut down",
    owner_title: "It was too much today",
    raises: "Looked worried or frozen, and would not take food: caution. Either alone says nothing.",
    why: "A dog that neither eats nor explores is past learning. What looks like calm may be fear.",
    trainer_do: "End this exercise at this level. Ask where, how near and what came before; go back to a distance or \
                 place where food is taken easily. If it is new or without a cause, think of pain and a vet first.",
    owner_do: "Stop for today and go somewhere quiet and familiar. No coaxing. Leave this exercise until your trainer has \
               answered; everything that keeps you safe goes on.",
    owner_why: "A dog that freezes or looks worried and will not eat is often telling us that it is too much. If it will \
                not eat at home either, or this is new, ring your vet today. Stopping there keeps trust.",
    source: "Common practice. Pain is behind many sudden changes: Mills et al. 2020, Animals 10(2):318.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// The owner said "I am not coping".
pub static NOT_COPING: Rule = Rule {
    id: "not_coping",
    version: 1,
    group: Group::Distress,
    looks_at: LooksAt::Encounter,
    title: "Owner is not coping",
    owner_title: "You have told your trainer",
    raises: "“I am not coping” was sent: caution, to be answered the same day.",
    why: "Trust in the advice, and worry about the dog's distress, go with how a case turns out; an answer the \
                same day helps to keep it.",
    trainer_do: "Ring today. Listen first. Take something off the plan, keep what holds everyone safe, and agree on one \
                 small thing. If anyone is at risk, say where help is to be had now.",
    owner_do: "Leave the exercises until your trainer has answered. Keep only what keeps everyone safe: lead, gate, door, \
                muzzle if it is in the plan. They are asked to answer the same day. If nobody has, ring: it is no trouble.",
    owner_why: "Living with a dog that finds life hard is hard. Saying so early is the right thing, and a lighter plan \
                is still a plan.",
    source: "Lamb et al. 2018, Front Vet Sci 5:37: trust in the advice and worry about distress go with how it turns out. \
             The same day: common practice.",
    certainty: Certainty::Verified,
    parameters: &[],
};

pub(super) fn shut_down(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let looked = sitting.looked.filter(|looked| matches!(looked, Looked::Worried | Looked::Frozen))?;
    let refused = sitting.took_food.filter(|took| *took == TookFood::Refused)?;
    let name = &context.dog.name;
    let look = looked.label().to_lowercase();
    Some(
        Finding::new(
            &SHUT_DOWN,
            Severity::Caution,
            format!("{name} looked {look} and would not take food."),
            format!("{name} looked {look} and would not take food."),
        )
        .fact("Looked", looked)
        .fact("Food", refused),
    )
}

pub(super) fn not_coping(context: &EncounterContext<'_>) -> Option<Finding> {
    (context.encounter.kind == EncounterKind::NotCoping).then(|| {
        let name = &context.dog.name;
        Finding::new(
            &NOT_COPING,
            Severity::Caution,
            format!("{name}'s household says that they are not coping."),
            "You said that it is too much at the moment. Thank you for saying so.",
        )
    })
}
