//! Food: what a dog must not be paid with, by the words of its reinforcers.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Rule};
use super::{LogContext, PlanContext};
use crate::domain::food::allergens::{self, Met};
use crate::domain::food::poisons::{self, Harm, Named};
use crate::domain::lists::in_a_sentence;
use crate::domain::plan::PlannedItem;
use crate::domain::vocabulary::Severity;

const POISON_SOURCE: &str = "Cortinovis & Caloni 2016, Front Vet Sci 3:26: chocolate, onion and its kin, macadamia nuts, grapes and raisins, \
    xylitol, alcohol, raw dough. Caffeine and cooked bones: second-hand; nutmeg, hops, mould and labels to check: from memory. The list is not complete.";
const ALLERGY_SOURCE: &str =
    "Common practice: what is stated as an allergy is not fed. Which words name which food: from memory.";

/// A plan pays with something that harms dogs.
pub static HARMFUL_FOOD_PLANNED: Rule = Rule {
    id: "harmful_food_planned",
    version: 1,
    group: Group::Food,
    looks_at: LooksAt::Plan,
    title: "Harmful food planned",
    owner_title: "Do not give this food",
    raises: "The words of a planned reinforcer name a food that is poisonous to dogs: stop. One that injures, such as cooked bones: \
             caution. One whose label has to be read first: notice. Words such as “garlic-free” do not count.",
    why: "Some foods of people poison dogs in amounts that a treat pouch holds. A food that is not on our list is not thereby harmless.",
    trainer_do: "Choose another reinforcer for this exercise. If any was eaten, the owner rings their vet or a poison line now, before signs \
                 show. For a label to check, read it for xylitol, onion and garlic, and write the checked food into the name.",
    owner_do: "Do not give this. If any was eaten, ring your vet or a poison line now, with the packet at hand, even if all looks well. \
               Do not make your dog sick unless they tell you to.",
    owner_why: "Some foods that are fine for us are not fine for dogs, and help works best before anything shows.",
    source: POISON_SOURCE,
    certainty: Certainty::FromMemory,
    parameters: &[],
};

/// A dog was paid with something that poisons or injures dogs.
pub static HARMFUL_FOOD_PAID: Rule = Rule {
    id: "harmful_food_paid",
    version: 1,
    group: Group::Food,
    looks_at: LooksAt::Log,
    title: "Paid with a harmful food",
    owner_title: "If your dog ate this, ring your vet now",
    raises: "A sitting that says pieces were given, with a reinforcer whose words name a food that is poisonous to dogs: stop. Cooked \
             bones and the like: caution.",
    why: "Some foods of people poison dogs in amounts that a treat pouch holds, and signs may come hours or days later. Only a veterinary \
          surgeon can tell what an amount means.",
    trainer_do: "Ring the owner now: what, how much, when, and the dog's weight go to their vet or a poison line. Take the food out of the \
                 plan before the exercise goes on.",
    owner_do: "Ring your vet or a poison line now, even if all looks well, and say what your dog ate, how much, when, and what your dog \
               weighs. Have the packet at hand. Do not make your dog sick unless they tell you to, and give no more of it.",
    owner_why: "Some foods that are fine for us are not fine for dogs, and help works best before anything shows.",
    source: POISON_SOURCE,
    certainty: Certainty::FromMemory,
    parameters: &[],
};

/// A plan pays with something the dog is allergic to.
pub static ALLERGEN_PLANNED: Rule = Rule {
    id: "allergen_planned",
    version: 1,
    group: Group::Food,
    looks_at: LooksAt::Plan,
    title: "Allergen planned",
    owner_title: "Please use another food",
    raises: "The words of a planned reinforcer name a food that is stated among the dog's allergies, or one of its family: caution. Words \
             that leave the kind open, such as “liver”: notice.",
    why: "A small piece can be enough to keep an allergy going, and to spoil a diet that a vet is testing.",
    trainer_do: "Choose a reinforcer outside the stated allergies. If it is tolerated after all, ask the vet and write that into the \
                 allergies; if it is another animal's, say so in its name.",
    owner_do: "Use another food that your dog can have, and ask your trainer or vet which. If your dog has had some and the face swells or \
               breathing is hard, ring your vet now.",
    owner_why: "Even small pieces can keep an allergy going.",
    source: ALLERGY_SOURCE,
    certainty: Certainty::FromMemory,
    parameters: &[],
};

/// A dog was paid with something it is allergic to.
pub static ALLERGEN_PAID: Rule = Rule {
    id: "allergen_paid",
    version: 1,
    group: Group::Food,
    looks_at: LooksAt::Log,
    title: "Paid with an allergen",
    owner_title: "Please use another food next time",
    raises: "A sitting that says pieces were given, with a reinforcer whose words name a food that is stated among the dog's allergies, or \
             one of its family: caution. Words that leave the kind open: notice.",
    why: "A small piece can be enough to keep an allergy going, and to spoil a diet that a vet is testing.",
    trainer_do: "Change the reinforcer in the plan, and ask how skin, ears and stomach have been. A dog on a vet's test diet: tell the vet, \
                 since the test may have to begin again.",
    owner_do: "Use another food that your dog can have, and ask your trainer or vet which. If the face swells, breathing is hard or your dog \
               is sick again and again, ring your vet now.",
    owner_why: "Even small pieces can keep an allergy going.",
    source: ALLERGY_SOURCE,
    certainty: Certainty::FromMemory,
    parameters: &[],
};

fn severity_of(harm: Harm) -> Severity {
    match harm {
        Harm::Poison => Severity::Stop,
        Harm::Hazard => Severity::Caution,
        Harm::CheckLabel => Severity::Notice,
    }
}

/// What is paid with, of the items that say it, with their positions.
fn paid_with<'a>(context: &'a PlanContext<'_>) -> impl Iterator<Item = (usize, &'a PlannedItem, &'a str)> {
    let items = context.plan.items.iter().enumerate();
    items.filter_map(|(position, item)| item.reinforcer.as_deref().map(|words| (position, item, words)))
}

pub(super) fn harmful_food_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    let found = paid_with(context).flat_map(|(position, item, words)| {
        poisons::named(words).into_iter().map(move |named| (position, item, words, named))
    });
    let finding = |(position, item, words, named): (usize, &PlannedItem, &str, Named)| {
        let finding = Finding::new(
            &HARMFUL_FOOD_PLANNED,
            severity_of(named.food.harm),
            format!("“{}” is paid with “{words}”. {}: {}", item.title, named.food.name, named.food.why),
            format!("The reward for “{}” is “{words}”. {}", item.title, named.food.why),
        );
        let finding = finding.fact("Food", named.food.name).fact("How sure", named.food.certainty.label());
        Finding { item: Some(position), ..finding }
    };
    found.map(finding).collect()
}

pub(super) fn allergen_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    let allergies = context.dog.allergies.as_str();
    let finding = |(position, item, words): (usize, &PlannedItem, &str)| {
        let (severity, holds) = holds(&allergens::named(allergies, words))?;
        let finding = Finding::new(
            &ALLERGEN_PLANNED,
            severity,
            format!("“{}” is paid with “{words}”, which {holds}: stated as an allergy.", item.title),
            format!("The reward for “{}” is “{words}”, which {holds}.", item.title),
        );
        Some(Finding { item: Some(position), ..finding.fact("Allergies", allergies) })
    };
    paid_with(context).filter_map(finding).collect()
}

/// What is known to be in a food, or else what may be, each named once; `None` for nothing.
fn holds(met: &[Met]) -> Option<(Severity, String)> {
    let mut sure: Vec<&str> = met.iter().filter(|met| met.sure).map(|met| met.allergen.as_str()).collect();
    let mut perhaps: Vec<&str> = met.iter().map(|met| met.allergen.as_str()).collect();
    sure.dedup();
    perhaps.dedup();
    match (sure.is_empty(), perhaps.is_empty()) {
        (false, _) => Some((Severity::Caution, format!("is {}", in_a_sentence(&sure)))),
        (true, false) => Some((Severity::Notice, format!("may be {}", in_a_sentence(&perhaps)))),
        (true, true) => None,
    }
}

/// What this sitting was paid with, where it says that pieces were given.
fn given<'a>(context: &LogContext<'a>) -> Option<&'a str> {
    let pieces = context.sitting.rewarded.or(context.sitting.met)?;
    context.paid.with.filter(|_| pieces > 0)
}

pub(super) fn harmful_food_paid(context: &LogContext<'_>) -> Option<Finding> {
    let words = given(context)?;
    let named = poisons::named(words).into_iter().find(|named| named.food.harm != Harm::CheckLabel)?;
    let name = &context.dog.name;
    Some(
        Finding::new(
            &HARMFUL_FOOD_PAID,
            severity_of(named.food.harm),
            format!("{name} was paid with “{words}”. {}: {}", named.food.name, named.food.why),
            format!("{name} was given “{words}”. {}", named.food.why),
        )
        .fact("Food", named.food.name)
        .fact("How sure", named.food.certainty.label()),
    )
}

pub(super) fn allergen_paid(context: &LogContext<'_>) -> Option<Finding> {
    let words = given(context)?;
    let allergies = context.dog.allergies.as_str();
    let (severity, holds) = holds(&allergens::named(allergies, words))?;
    let name = &context.dog.name;
    Some(
        Finding::new(
            &ALLERGEN_PAID,
            severity,
            format!("{name} was paid with “{words}”, which {holds}: stated as an allergy."),
            format!("{name} was given “{words}”, which {holds}."),
        )
        .fact("Allergies", allergies),
    )
}
