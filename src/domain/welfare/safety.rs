//! Safety: teeth, growls at children, running off. Facts are kept; nobody is graded.

use time::Date;

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::{EncounterContext, HouseNumbers, LogContext};
use crate::domain::dates::{counted, days_between};
use crate::domain::dog::DogFacts;
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::{Basis, EncounterKind, Line, Looked, Severity, Towards, Word};

const PUPPY_WEEKS: Parameter = Parameter {
    key: "puppy_weeks",
    name: "Age under which play-biting is a puppy's",
    value: 26.0,
    low: 16.0,
    high: 26.0,
    unit: "weeks",
};
/// Days on either side of an incident in which another one counts.
pub const INCIDENT_DAYS: Parameter = Parameter {
    key: "incident_days",
    name: "Days in which a second incident counts",
    value: 30.0,
    low: 30.0,
    high: 90.0,
    unit: "days",
};

const REFERRAL: &str = "Aggression needs a treatment plan with a vet: AVSAB 2021, position statement on humane dog \
    training. First aid and the list: common practice. Your vet, a qualified behaviourist and local law decide.";

/// Teeth touched a person or animal.
pub static BITE: Rule = Rule {
    id: "bite",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Encounter,
    title: "Bite",
    owner_title: "Pause, and keep everyone safe first",
    raises: "Teeth touched a person or animal: caution. Skin broken, a child bitten, or the handler or someone at home \
             bitten: stop. A loose, playful puppy under 26 weeks that broke no skin has a rule of its own. Skin not \
             stated is not taken as unbroken.",
    why: "Many dogs bite when they are out of other answers. Another one is likelier until what led to it is understood \
          and kept away.",
    trainer_do: "Ring today. First aid and a doctor or vet first, then space: gate, lead, muzzle if it is trained. Take \
                 down what happened before, during and after, skin, punctures, care. Ask for a vet's check, refer to a \
                 qualified behaviourist, and follow local law on reporting. Stop everything near what it was about.",
    owner_do: "First, space: put the dog calmly behind a door or on a lead, with no scolding. If it bleeds hard, \
                press hard with a clean cloth and ring 112, 999 or your emergency number. For a face, a child, a hand or a \
                deep wound go to an emergency department now. Wash a person's wound with \
                soap and running water for several minutes, and see a doctor the same day. For an animal, no soap: \
                ring a vet. Was it a child? Dog and child stay apart by a gate or a closed door, also when you are in the room. \
                Keep away from what it was about until your trainer has rung.",
    owner_why: "Many dogs bite when they are frightened, sore or see no other way; which it was we do not know yet. The next days are about safety and finding out why, \
                with a vet's check for pain, not about blame.",
    source: REFERRAL,
    certainty: Certainty::CommonPractice,
    parameters: &[PUPPY_WEEKS],
};

/// A playful puppy used its teeth.
pub static PUPPY_MOUTHING: Rule = Rule {
    id: "puppy_mouthing",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Encounter,
    title: "Puppy mouthing",
    owner_title: "Puppy teeth",
    raises: "A puppy under 26 weeks, loose and playful, that broke no skin: notice, as advice. Caution towards a child. \
             Anything not stated takes the exception away.",
    why: "Mouthing in play is how puppies explore. It fades when play stops dull and sleep and chews are enough.",
    trainer_do: "Ask about sleep, chews and how play ends. With children in the home, plan who is between them and the \
                 puppy.",
    owner_do: "Stop the game quietly, hand over something to chew, and let your puppy sleep. With children, keep a grown-up \
               between them and those teeth.",
    owner_why: "Puppies find out about the world with their mouths, most of all when they are tired. It usually passes \
                when nobody makes a game of it.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[PUPPY_WEEKS],
};

/// A growl or snap at a child.
pub static GROWL_AT_CHILD: Rule = Rule {
    id: "growl_at_child",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Encounter,
    title: "Growl or snap at a child",
    owner_title: "Keep child and dog apart for now",
    raises: "A growl or snap directed at a child: stop.",
    why: "A growl is a warning that worked. The next one may be shorter, and a child reads it late.",
    trainer_do: "Ring today. Child and dog apart by a gate or a door, never by watching alone. Ask for a vet's check, refer \
                 to a qualified behaviourist, and make sure that nobody punishes the growl.",
    owner_do: "Keep child and dog apart by a gate or a closed door from now on, also when you are in the room. Do not \
               scold the growl: it is a warning you want to keep. Your trainer is asked to ring.",
    owner_why: "A growl says “I need space”. Children cannot be expected to hear that, so grown-ups and gates make the \
                space.",
    source: REFERRAL,
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A second bite, growl or snap within a month.
pub static SECOND_INCIDENT: Rule = Rule {
    id: "second_incident",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Trend,
    title: "Second incident in 30 days",
    owner_title: "It happened again: pause, and get help",
    raises: "A bite, growl or snap with another one within 30 days, whichever was told first: stop. A bite that is told \
             twice on one day, with the sitting and by itself, is one. A puppy's playful mouthing does not count.",
    why: "Two in a month is a pattern, and the arrangements that should have prevented the second one do not hold.",
    trainer_do: "Ring today. Lay both events side by side, tighten the arrangements, ask for a vet's check for pain, and \
                 refer to a qualified behaviourist.",
    owner_do: "Keep everyone apart from what it is about: gate, lead, door. Leave the exercises. Ring your vet for a check, \
               and your trainer today.",
    owner_why: "When something like this happens twice in a short time, there is a reason. Finding it is work for a vet and \
                a qualified behaviourist together with your trainer.",
    source: REFERRAL,
    certainty: Certainty::CommonPractice,
    parameters: &[INCIDENT_DAYS],
};

/// The dog ran off and could not be called back.
pub static BOLTED: Rule = Rule {
    id: "bolted",
    version: 1,
    group: Group::Safety,
    looks_at: LooksAt::Encounter,
    title: "Bolted",
    owner_title: "On the lead for now",
    raises: "Ran off and could not be called back: caution. Off lead or on a trailing line, as stated: stop. Either way \
             every permission to be off lead lapses until the trainer gives it again.",
    why: "A dog that has bolted once knows that running works, and the next road is not known beforehand.",
    trainer_do: "Check that the dog is home and unhurt. Off-lead permissions have lapsed. Find out what it ran from or to, \
                 check the fit of harness and clips, and go back to a held long line well away from roads.",
    owner_do: "Not home yet? Ring your trainer, nearby vets and the dog warden now, and do not chase. Then keep your \
                dog on a lead or a held long line clipped to a harness everywhere that is not fenced. Check harness \
                and clips. If it ran far or looks sore, ring your vet.",
    owner_why: "After running off once, the same again is easy. The lead keeps your dog safe while recall grows strong \
                enough.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A loose, playful puppy that broke no skin. Every part must be stated.
fn is_puppy_play(encounter: &EncounterFacts, dog: &DogFacts, numbers: &HouseNumbers) -> bool {
    let weeks = dog.age_weeks(encounter.local_date);
    encounter.kind == EncounterKind::Bite
        && weeks.is_some_and(|weeks| (weeks as f64) < numbers.of(&PUPPY_WEEKS))
        && encounter.looked == Some(Looked::Loose)
        && encounter.broken_skin == Some(false)
}

/// A bite, growl or snap that counts towards a pattern.
fn is_incident(encounter: &EncounterFacts, dog: &DogFacts, numbers: &HouseNumbers) -> bool {
    matches!(encounter.kind, EncounterKind::Bite | EncounterKind::GrowlOrSnap)
        && !is_puppy_play(encounter, dog, numbers)
}

fn skin(broken: Option<bool>) -> &'static str {
    match broken {
        Some(true) => "the skin was broken",
        Some(false) => "no skin was broken",
        None => "whether skin was broken is not stated",
    }
}

/// Whom, as it stands in a sentence.
fn whom(towards: Option<Towards>) -> &'static str {
    towards.map_or("someone or something not stated", Towards::in_a_sentence)
}

pub(super) fn bite(context: &EncounterContext<'_>) -> Option<Finding> {
    let EncounterContext { encounter, dog, numbers, .. } = *context;
    if encounter.kind != EncounterKind::Bite || is_puppy_play(encounter, dog, numbers) {
        return None;
    }
    let stop = encounter.broken_skin == Some(true)
        || matches!(encounter.towards, Some(Towards::Child | Towards::Handler));
    let severity = if stop { Severity::Stop } else { Severity::Caution };
    let name = &dog.name;
    let (whom, skin) = (whom(encounter.towards), skin(encounter.broken_skin));
    Some(
        Finding::new(
            &BITE,
            severity,
            format!("{name} bit {whom}; {skin}."),
            format!("{name}'s teeth touched someone or another animal. Thank you for saying so at once."),
        )
        .fact("Towards", whom)
        .fact("Skin", skin)
        .fact_if("Looked", encounter.looked),
    )
}

pub(super) fn bite_in_sitting(context: &LogContext<'_>) -> Option<Finding> {
    context.sitting.bite.then(|| {
        let name = &context.dog.name;
        Finding::new(
            &BITE,
            Severity::Caution,
            format!("{name} bit during this sitting; whom and whether skin was broken are not stated here."),
            format!("{name}'s teeth touched someone or another animal. Thank you for saying so at once."),
        )
        .fact("Skin", skin(None))
    })
}

pub(super) fn puppy_mouthing(context: &EncounterContext<'_>) -> Option<Finding> {
    let EncounterContext { encounter, dog, numbers, .. } = *context;
    is_puppy_play(encounter, dog, numbers).then(|| {
        let child = encounter.towards == Some(Towards::Child);
        let name = &dog.name;
        Finding::new(
            &PUPPY_MOUTHING,
            if child { Severity::Caution } else { Severity::Notice },
            format!("{name} mouthed {} in play; no skin was broken.", whom(encounter.towards)),
            format!("{name} used those puppy teeth in play."),
        )
        .fact("Towards", whom(encounter.towards))
        .fact_if("Age", dog.age_words(encounter.local_date))
    })
}

pub(super) fn growl_at_child(context: &EncounterContext<'_>) -> Option<Finding> {
    let EncounterContext { encounter, dog, .. } = *context;
    let at_child = encounter.kind == EncounterKind::GrowlOrSnap && encounter.towards == Some(Towards::Child);
    at_child.then(|| {
        let name = &dog.name;
        let seen = format!("{name} growled or snapped at a child.");
        Finding::new(&GROWL_AT_CHILD, Severity::Stop, seen.clone(), seen)
    })
}

/// The days of other incidents within the window around a day: what is told late counts as well.
fn others(
    encounters: &[EncounterFacts],
    dog: &DogFacts,
    day: Date,
    numbers: &HouseNumbers,
) -> impl Iterator<Item = Date> {
    let window = numbers.of(&INCIDENT_DAYS);
    encounters
        .iter()
        .filter(|other| is_incident(other, dog, numbers))
        .map(|other| other.local_date)
        .filter(move |other| days_between(*other, day).abs() as f64 <= window)
}

/// The nearest to a day; of two as near, the earlier.
fn nearest(days: impl Iterator<Item = Date>, day: Date) -> Option<Date> {
    days.min_by_key(|other| (days_between(*other, day).abs(), *other))
}

fn second(dog: &DogFacts, day: Date, other: Date) -> Finding {
    let name = &dog.name;
    let days = days_between(other, day);
    let count = counted(days.abs(), "day", "days");
    let gap = match days {
        0 => "on the same day".to_owned(),
        1.. => format!("{count} before"),
        _ => format!("{count} after"),
    };
    Finding::new(
        &SECOND_INCIDENT,
        Severity::Stop,
        format!("A bite, growl or snap by {name}, with another one {gap}."),
        format!("This is the second time in a month that {name} bit, growled or snapped."),
    )
    .fact("Other one on", other)
}

pub(super) fn second_incident(context: &EncounterContext<'_>) -> Option<Finding> {
    let EncounterContext { encounter, dog, recent, numbers } = *context;
    if !is_incident(encounter, dog, numbers) {
        return None;
    }
    let day = encounter.local_date;
    nearest(others(recent, dog, day, numbers), day).map(|other| second(dog, day, other))
}

pub(super) fn second_incident_in_sitting(context: &LogContext<'_>) -> Option<Finding> {
    let day = context.sitting.local_date;
    if !context.sitting.bite {
        return None;
    }
    nearest(others(context.encounters, context.dog, day, context.numbers), day)
        .map(|other| second(context.dog, day, other))
}

fn ran_off(dog: &DogFacts, line: Option<Line>) -> Finding {
    let name = &dog.name;
    let loose = matches!(line, Some(Line::None | Line::TrailingLine));
    let how = match line {
        Some(Line::None) => "ran off while off lead",
        Some(Line::TrailingLine) => "ran off with a trailing line on",
        Some(Line::ShortLead) => "got away from a held lead and ran off",
        Some(Line::Retractable) => "got away from a retractable lead and ran off",
        Some(Line::LongLine) => "got away from a held long line and ran off",
        None => "ran off; what was on is not stated",
    };
    Finding::new(
        &BOLTED,
        if loose { Severity::Stop } else { Severity::Caution },
        format!("{name} {how}. Permissions to be off lead lapse."),
        format!("{name} ran off and could not be called back."),
    )
    .fact("Line", line.map_or("Not stated", |line| line.label()))
}

pub(super) fn bolted(context: &EncounterContext<'_>) -> Option<Finding> {
    let encounter = context.encounter;
    (encounter.kind == EncounterKind::Bolted).then(|| ran_off(context.dog, encounter.line))
}

pub(super) fn bolted_in_sitting(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    // what is taken from the plan says nothing of how the dog got away
    let stated = sitting.line.filter(|_| sitting.equipment == Some(Basis::Stated));
    sitting.bolted.then(|| ran_off(context.dog, stated))
}
