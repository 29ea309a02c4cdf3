//! Signs that it is getting too much: food that is snatched more, reactions close together, a reaction in fear work.

use time::Duration;

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::cool_down::{PATTERN, WINDOW, pattern_times};
use super::{EncounterContext, LogContext};
use crate::domain::encounter::EncounterFacts;
use crate::domain::lists::in_a_sentence;
use crate::domain::vocabulary::{EncounterKind, Looked, Outcome, Severity, TookFood};

const REACTION: Parameter = Parameter {
    key: "reaction_counts",
    name: "Reaction from which it counts",
    value: 2.0,
    low: 1.0,
    high: 3.0,
    unit: "on 0–4",
};
/// Hours in which a second reaction counts. Common practice.
pub const REACTION_HOURS: Parameter = Parameter {
    key: "reaction_hours",
    name: "Hours in which a second reaction counts",
    value: 24.0,
    low: 24.0,
    high: 72.0,
    unit: "hours",
};

/// Food is snatched more often than before.
pub static SNATCHING_GROWS: Rule = Rule {
    id: "snatching_grows",
    version: 1,
    group: Group::Distress,
    looks_at: LooksAt::Trend,
    title: "Snatching grows",
    owner_title: "Food is snatched more than before",
    raises: "Food was snatched this time, in 3 of the last 5 sittings in which it was stated, and more often than in the 5 \
             before: notice.",
    why: "How food is taken tells arousal early. Teeth that grow harder say that the work stirs the dog up more each time.",
    trainer_do: "Look for what changed: distance, place, length, pay. Make it calmer before it gets harder, and rule out a \
                 sore mouth.",
    owner_do: "Go somewhere quieter or further away, and let your dog sniff between tries. Offer food on a flat hand or the \
               ground. If chewing looks sore, ask your vet.",
    owner_why: "Dogs grab food when they are wound up. It is a sign to make things easier, not bad manners.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[PATTERN, WINDOW],
};

/// Two reactions within a day.
pub static TWO_REACTIONS: Rule = Rule {
    id: "two_reactions",
    version: 1,
    group: Group::Distress,
    looks_at: LooksAt::Trend,
    title: "Two reactions within a day",
    owner_title: "A quiet day tomorrow",
    raises: "Two reactions of 2 or more within 24 hours, those without a strength among them: caution.",
    why: "A dog that was over its limit comes down slowly, and the next thing finds it nearer the edge.",
    trainer_do: "No arousing work tomorrow: sniffing, chewing, rest, quiet routes. Ask what the two had in common, and take \
                 the walks apart from it for some days.",
    owner_do: "Keep today and tomorrow quiet: short sniffing walks where nothing happens, chews, rest. No exciting games and \
               nothing new.",
    owner_why: "After two hard meetings a dog needs time to come down. A quiet day is not a step back.",
    source: "Common practice. More excitement hurt excitable dogs' performance: Bray, MacLean & Hare 2015, Anim Cogn \
             18:1317–1329.",
    certainty: Certainty::CommonPractice,
    parameters: &[REACTION, REACTION_HOURS],
};

/// The dog reacted in work that lives from its staying easy.
pub static REACTION_IN_FEAR_WORK: Rule = Rule {
    id: "reaction_in_fear_work",
    version: 1,
    group: Group::Failure,
    looks_at: LooksAt::Log,
    title: "Reaction in trigger work",
    owner_title: "Further away next time",
    raises: "In an exercise that is measured in comfortable distance: frozen, food refused, or arousal of 5 at the end: \
             caution. It ends the exercise for the day.",
    why: "In this work a reaction is more than a try that went wrong: the dog may learn once more that it is frightening.",
    trainer_do: "End it for the day, and go back to a distance that was easy on two earlier days. Ask what was different.",
    owner_do: "Walk away and let your dog sniff. Leave it for today. Next time stay much further away, where food is eaten \
               gladly.",
    owner_why: "Here only easy meetings teach. One that is too near can undo several good ones, so we give it room.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

pub(super) fn snatching_grows(context: &LogContext<'_>) -> Option<Finding> {
    let numbers = context.numbers;
    if context.sitting.took_food != Some(TookFood::Snatched) {
        return None;
    }
    let stated = std::iter::once(context.sitting).chain(context.recent).filter_map(|past| past.took_food);
    let took: Vec<TookFood> = stated.take(2 * numbers.count(&WINDOW)).collect();
    let (now, before) = took.split_at(took.len().min(numbers.count(&WINDOW)));
    let snatched = |took: &[TookFood]| took.iter().filter(|took| **took == TookFood::Snatched).count();
    let (times, earlier) = (snatched(now), snatched(before));
    let grew = times > earlier && before.len() >= pattern_times(numbers);
    (grew && times >= pattern_times(numbers)).then(|| {
        let (name, of, then) = (&context.dog.name, now.len(), before.len());
        Finding::new(
            &SNATCHING_GROWS,
            Severity::Notice,
            format!("{name} snatched the food in {times} of the last {of} sittings, and in {earlier} of the {then} before."),
            format!("{name} has been snatching the food more often lately."),
        )
        .fact("Snatched", format!("{times} of {of}"))
        .fact("Before that", format!("{earlier} of {then}"))
    })
}

pub(super) fn two_reactions(context: &EncounterContext<'_>) -> Option<Finding> {
    let numbers = context.numbers;
    let counts = |met: &EncounterFacts| {
        let strong = met.reaction.is_none_or(|strength| f64::from(strength) >= numbers.of(&REACTION));
        met.kind == EncounterKind::Reaction && strong
    };
    let at = context.encounter.happened_at.filter(|_| counts(context.encounter))?;
    let window = Duration::seconds_f64(numbers.of(&REACTION_HOURS) * 3600.0);
    let near = |met: &&EncounterFacts| met.happened_at.is_some_and(|other| (other - at).abs() <= window);
    let others = context.recent.iter().filter(|met| counts(met)).filter(near).count();
    (others > 0).then(|| {
        let name = &context.dog.name;
        Finding::new(
            &TWO_REACTIONS,
            Severity::Caution,
            format!("{name} reacted {} times within {} hours.", others + 1, numbers.of(&REACTION_HOURS)),
            format!("{name} had more than one hard meeting within a day."),
        )
        .fact("Reactions", others + 1)
    })
}

pub(super) fn reaction_in_fear_work(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    if sitting.outcome != Some(Outcome::Distance) {
        return None;
    }
    let signs = [
        (sitting.looked == Some(Looked::Frozen), "froze"),
        (sitting.took_food == Some(TookFood::Refused), "would not take food"),
        (sitting.arousal_end.is_some_and(|end| end >= 5), "could not eat or hear at the end"),
    ];
    let seen: Vec<&str> = signs.into_iter().filter(|(is, _)| *is).map(|(_, words)| words).collect();
    (!seen.is_empty()).then(|| {
        let seen = format!("{} {}.", context.dog.name, in_a_sentence(&seen));
        Finding::new(&REACTION_IN_FEAR_WORK, Severity::Caution, seen.clone(), seen)
    })
}
