//! What a plan makes harder than the one before it, and whether dog and pay can follow.

use super::PlanContext;
use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::in_plan::in_exercises;
use crate::domain::lists::in_a_sentence;
use crate::domain::plan::PlannedItem;
use crate::domain::vocabulary::{Outcome, Severity};

const PROBE: Parameter = Parameter {
    key: "probe_attempts",
    name: "Attempts up to which a harder step is a probe",
    value: 3.0,
    low: 0.0,
    high: 3.0,
    unit: "attempts",
};
const QUIET: Parameter = Parameter {
    key: "quiet_distraction",
    name: "Distraction up to which a marker may be taught",
    value: 1.0,
    low: 1.0,
    high: 2.0,
    unit: "on 1–5",
};

/// Two or more things made harder at once.
pub static TWO_RAISED: Rule = Rule {
    id: "two_raised",
    version: 1,
    group: Group::Progress,
    looks_at: LooksAt::Plan,
    title: "Two things raised at once",
    owner_title: "One thing harder at a time",
    raises: "Against the published plan, at least two of distance, duration and distraction of one exercise go up: notice. \
             In work on distance to what sets the dog off, nearer is harder. Silent where they cannot be compared.",
    why: "When two things go up and it fails, nobody knows which one was too much.",
    trainer_do: "Raise one and let the other two down a little, or choose a step between.",
    owner_do: "Make one thing harder at a time: further, longer, or busier. The other two may be easier meanwhile.",
    owner_why: "Small steps are quicker in the end, because each one works.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// A rung of the ladder is left out.
pub static RUNG_JUMPED: Rule = Rule {
    id: "rung_jumped",
    version: 1,
    group: Group::Progress,
    looks_at: LooksAt::Plan,
    title: "A rung jumped",
    owner_title: "A big step",
    raises: "Against the published plan, an exercise moves up by two rungs or more: notice. A probe of up to 3 attempts is \
             none.",
    why: "What the rungs between would have taught is missing when it gets hard.",
    trainer_do: "Take the next rung, or try this one as a probe of one to three attempts before it goes into the plan.",
    owner_do: "Begin with one or two tries. If they do not work, go back to what went well.",
    owner_why: "Small steps are quicker in the end, because each one works.",
    source: "Common practice. Stepping up only at 80 % right: Meyer & Ladewig 2008, Appl Anim Behav Sci 111:311–320.",
    certainty: Certainty::CommonPractice,
    parameters: &[PROBE],
};

/// A marker is taught where something is on.
pub static MARKER_AMID_DISTRACTIONS: Rule = Rule {
    id: "marker_amid_distractions",
    version: 1,
    group: Group::Progress,
    looks_at: LooksAt::Plan,
    title: "Marker taught amid distractions",
    owner_title: "Teach the “yes” where nothing is on",
    raises: "The first rung of an exercise that is called after the marker, planned in a place of distraction above 1: \
             notice.",
    why: "The first pairings must be the only thing that happens. Amid distractions the sound is paired with whatever else \
          is there.",
    trainer_do: "Begin at home with nothing on, and take it outdoors once the head turns at the sound.",
    owner_do: "Begin indoors, with nothing else going on.",
    owner_why: "Your dog learns what the “yes” means most easily when it is the only thing happening.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[QUIET],
};

/// The pay is too weak for the place.
pub static WEAK_REINFORCER: Rule = Rule {
    id: "weak_reinforcer",
    version: 1,
    group: Group::Progress,
    looks_at: LooksAt::Plan,
    title: "Reinforcer too weak for the place",
    owner_title: "Take something better along",
    raises: "What the reinforcer is worth to this dog, 1–5, is less than how distracting the planned place is, 1–5: notice.",
    why: "What the place offers outbids it, and the exercise looks harder than it is.",
    trainer_do: "Choose a reinforcer of at least that worth, or a quieter place.",
    owner_do: "Take the best your dog knows to busy places, and keep the plain food for home.",
    owner_why: "The more is going on, the better the reward has to be.",
    source: "Common practice. Most dogs chose food over petting: Feuerbacher & Wynne 2014, JEAB 101:385–405.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// Something new in the plan stands among what was tried before.
pub static ASKED_AGAIN: Rule = Rule {
    id: "asked_again",
    version: 1,
    group: Group::Progress,
    looks_at: LooksAt::Plan,
    title: "Tried before",
    owner_title: "This time it will be different",
    raises: "An exercise that is new in the plan shares a word of its name with what was tried before: notice.",
    why: "An owner who has seen it fail does it half-heartedly. What was different then is the key to it now.",
    trainer_do: "Read what came of it, and say in the note what will be different this time.",
    owner_do: "Tell your trainer what went wrong the last time before you begin.",
    owner_why: "What did not work before tells us a lot about what may work now.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// The same exercise as owners read it now. A line that holds another exercise by now has no before: its rungs are others.
fn before<'a>(context: &PlanContext<'a>, item: &PlannedItem) -> Option<&'a PlannedItem> {
    let line = item.line_id?;
    let mut items = context.current?.items.iter();
    items.find(|other| other.line_id == Some(line) && other.title == item.title)
}

/// The number with which a text begins, in its smallest unit: metres, or seconds. `None` where it is not a number of one.
fn measure(text: &str) -> Option<f64> {
    let text = text.trim();
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let number: f64 = number.parse().ok()?;
    let unit = unit.trim().to_lowercase();
    let unit = unit.split_whitespace().next().unwrap_or("");
    let times = match unit {
        "m" | "metre" | "metres" | "meter" | "meters" | "s" | "sec" | "second" | "seconds" => 1.0,
        "min" | "minute" | "minutes" => 60.0,
        "h" | "hour" | "hours" => 3600.0,
        "km" => 1000.0,
        _ => return None,
    };
    Some(number * times)
}

/// What an exercise asks for more of than before, in words.
fn raised(item: &PlannedItem, before: &PlannedItem) -> Vec<&'static str> {
    let nearer_is_harder = item.outcome == Some(Outcome::Distance);
    let distances = measure(&before.distance).zip(measure(&item.distance));
    let durations = measure(&before.duration).zip(measure(&item.duration));
    let further = distances.is_some_and(|(then, now)| if nearer_is_harder { now < then } else { now > then });
    let longer = durations.is_some_and(|(then, now)| now > then);
    let busier = before.distraction.zip(item.distraction).is_some_and(|(then, now)| now > then);
    let all = [(further, "distance"), (longer, "duration"), (busier, "distraction")];
    all.into_iter().filter(|(is, _)| *is).map(|(_, words)| words).collect()
}

pub(super) fn two_raised(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        let raised = raised(item, before(context, item)?);
        (raised.len() > 1).then(|| {
            let (title, what) = (&item.title, in_a_sentence(&raised));
            Finding::new(
                &TWO_RAISED,
                Severity::Notice,
                format!("“{title}” raises {what} at once."),
                format!("“{title}” gets harder in more than one way."),
            )
        })
    })
}

pub(super) fn rung_jumped(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        let (then, now) = before(context, item)?.step_position.zip(item.step_position)?;
        let is_probe = item.attempts.is_some_and(|n| f64::from(n) <= context.numbers.of(&PROBE));
        (now.saturating_sub(then) > 1 && !is_probe).then(|| {
            let title = &item.title;
            Finding::new(
                &RUNG_JUMPED,
                Severity::Notice,
                format!("“{title}” goes from rung {then} to rung {now}."),
                format!("“{title}” takes a big step."),
            )
        })
    })
}

pub(super) fn marker_amid_distractions(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        let title = item.title.to_lowercase();
        let is_marker = ["marker", "clicker", "yes means"].iter().any(|word| title.contains(word));
        let is_first = item.step_position.is_none_or(|rung| rung <= 1);
        let level = item.place_distraction.filter(|level| f64::from(*level) > context.numbers.of(&QUIET))?;
        (is_marker && is_first).then(|| {
            let title = &item.title;
            Finding::new(
                &MARKER_AMID_DISTRACTIONS,
                Severity::Notice,
                format!("“{title}” begins in a place of distraction {level}."),
                format!("“{title}” begins where something else is going on."),
            )
        })
    })
}

pub(super) fn weak_reinforcer(context: &PlanContext<'_>) -> Vec<Finding> {
    in_exercises(context.plan, |item| {
        let (rank, level) = item.reinforcer_rank.zip(item.place_distraction)?;
        (rank < level).then(|| {
            let title = &item.title;
            let what = item.reinforcer.as_deref().unwrap_or("what is paid with");
            Finding::new(
                &WEAK_REINFORCER,
                Severity::Notice,
                format!("“{title}” pays with {what}, worth {rank} of 5, in a place of distraction {level}."),
                format!("“{title}” may need a better reward than {what} where it is practised."),
            )
        })
    })
}

/// Words that name an exercise, long enough to mean something.
fn telling(text: &str) -> impl Iterator<Item = String> + '_ {
    const EMPTY: [&str; 8] = ["about", "going", "things", "other", "where", "something", "while", "there"];
    let words = text.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase);
    words.filter(|word| word.chars().count() >= 5 && !EMPTY.contains(&word.as_str()))
}

pub(super) fn asked_again(context: &PlanContext<'_>) -> Vec<Finding> {
    let tried: Vec<String> = telling(&context.dog.tried_before).collect();
    in_exercises(context.plan, |item| {
        if context.current.is_some() && before(context, item).is_some() {
            return None;
        }
        let word = telling(&item.title).find(|word| tried.contains(word))?;
        let title = &item.title;
        Some(
            Finding::new(
                &ASKED_AGAIN,
                Severity::Notice,
                format!("“{title}”: “{word}” stands among what was tried before."),
                format!("“{title}” is something like what you tried before."),
            )
            .fact("Tried before", &context.dog.tried_before),
        )
    })
}
