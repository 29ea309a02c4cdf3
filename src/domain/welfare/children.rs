//! Children near a dog: who holds the line, and who is within reach.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::in_plan::{arrangements, is_between, names_barrier};
use super::{LogContext, PlanContext};
use crate::domain::dates::days_between;
use crate::domain::dog::DogFacts;
use crate::domain::lists::in_a_sentence;
use crate::domain::plan::PlannedItem;
use crate::domain::vocabulary::{Children, Severity};

const NEW_HOME_DAYS: Parameter = Parameter {
    key: "new_home_days",
    name: "Days for which a home is new",
    value: 21.0,
    low: 21.0,
    high: 90.0,
    unit: "days",
};

/// A child held the line.
pub static CHILD_HELD_LINE: Rule = Rule {
    id: "child_held_line",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Log,
    title: "Child held the line",
    owner_title: "A grown-up holds the line",
    raises: "It is stated that a child held the line: stop for that exercise.",
    why: "A child can neither hold a lunging dog nor let go in time, and is hurt first when something goes wrong.",
    trainer_do: "Ring the owner. Find the child another part: throwing the treat, counting, choosing the reward, with a \
                 grown-up on the line.",
    owner_do: "From now on a grown-up holds the line. Your child can count the tries, choose the treats, or scatter them.",
    owner_why: "Even a small dog can pull a child over or into a road. Children can help in many other ways.",
    source: "Common practice. Most people hurt by leads were pulled: US emergency departments 2001–2018, Am J Emerg Med 2020 38(9):1782–1786.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A child within reach of a dog for which that is a risk, and nothing in the plan between them.
pub static CHILD_WITHIN_REACH: Rule = Rule {
    id: "child_within_reach",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Plan,
    title: "Child within reach",
    owner_title: "A gate between child and dog",
    raises: "Children live with the dog, a bite, a growl, a snap or guarding is on record, or the dog has been at home for \
             less than 21 days, and no standing arrangement of the plan keeps them apart: stop. Where children visit: \
             caution.",
    why: "Children move fast, bend over and hug, and read a dog's warnings late. Watching alone is too slow.",
    trainer_do: "Put a standing arrangement first: a gate, a pen or a door between child and dog, and who is in charge \
                 when. With a bite or growl on record, ask for a vet's check and refer to a qualified behaviourist.",
    owner_do: "Keep child and dog apart by a gate, a pen or a closed door; after a growl, snap or bite, also when you \
                are in the room. Let the dog eat and sleep where no child goes.",
    owner_why: "A gate gives both of them peace. It takes the pressure off you, too.",
    source: "Common practice. Aggression needs a treatment plan with a vet: AVSAB 2021, position statement on humane dog \
             training. Your vet, a qualified behaviourist and local law decide.",
    certainty: Certainty::CommonPractice,
    parameters: &[NEW_HOME_DAYS],
};

pub(super) fn child_held_line(context: &LogContext<'_>) -> Option<Finding> {
    (context.sitting.child_held_line == Some(true)).then(|| {
        let seen = format!("A child held {}'s line.", context.dog.name);
        Finding::new(&CHILD_HELD_LINE, Severity::Stop, seen.clone(), seen)
    })
}

/// What makes a child within reach a risk with this dog, in words.
fn risks(dog: &DogFacts, days_at_home: Option<i64>, new_for: f64) -> Vec<&'static str> {
    let is_new = days_at_home.is_some_and(|days| days >= 0 && (days as f64) < new_for);
    let all = [
        (dog.bite_on_record, "a bite is on record"),
        (dog.growl_on_record, "a growl, a snap or guarding is on record"),
        (is_new, "the dog is new at home"),
    ];
    all.into_iter().filter(|(holds, _)| *holds).map(|(_, words)| words).collect()
}

/// Whether an arrangement keeps children and dog apart: it says so, or names something solid. One for visitors alone says
/// nothing of children who live there.
fn keeps_children_apart(arrangement: &PlannedItem, children: Option<Children>) -> bool {
    let text = format!("{} {}", arrangement.title, arrangement.words).to_lowercase();
    let names_child = text.contains("child");
    let is_for_visitors = text.contains("visitor") && !names_child;
    let apart =
        is_between(&arrangement.title) || (names_child && (names_barrier(&text) || text.contains("apart")));
    apart && !(is_for_visitors && children == Some(Children::Living))
}

pub(super) fn child_within_reach(context: &PlanContext<'_>) -> Option<Finding> {
    let PlanContext { dog, today, numbers, .. } = *context;
    let severity = match dog.children? {
        Children::None => return None,
        Children::Visiting => Severity::Caution,
        Children::Living => Severity::Stop,
    };
    let at_home = dog.home_since.map(|since| days_between(since, today));
    let risks = risks(dog, at_home, numbers.of(&NEW_HOME_DAYS));
    if risks.is_empty() || arrangements(context.plan).any(|item| keeps_children_apart(item, dog.children)) {
        return None;
    }
    let (name, why) = (&dog.name, in_a_sentence(&risks));
    let who = if severity == Severity::Stop { "Children live with" } else { "Children visit" };
    Some(
        Finding::new(
            &CHILD_WITHIN_REACH,
            severity,
            format!("{who} {name}, {why}, and no standing arrangement keeps them apart."),
            format!("{who} {name}, and nothing in the plan keeps them apart."),
        )
        .fact("Because", why),
    )
}
