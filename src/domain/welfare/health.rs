//! Health: signs that a vet must hear of. Nothing here diagnoses.

use super::LogContext;
use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use crate::domain::lists::in_a_sentence;
use crate::domain::vocabulary::{HealthSign, Severity, Word};

/// Age from which a dog counts as old. Common practice.
pub const OLD: Parameter = Parameter {
    key: "old_years",
    name: "Age from which a dog counts as old",
    value: 8.0,
    low: 6.0,
    high: 10.0,
    unit: "years",
};

/// A sign that cannot wait.
pub static VET_NOW: Rule = Rule {
    id: "vet_now",
    version: 1,
    group: Group::Health,
    looks_at: LooksAt::Log,
    title: "Vet now",
    owner_title: "Pause this and ring your vet now",
    raises: "Collapse, a fit, pale or blue gums, laboured breathing, bloat signs, straining without passing \
                anything, or possible poison was ticked: stop.",
    why: "Each of these can turn within minutes or hours. Only a veterinary surgeon can tell what it is.",
    trainer_do: "Ring the owner now and make sure that a vet has been rung. All exercises rest until a vet has cleared \
                 the dog; what keeps everyone safe goes on.",
    owner_do: "Ring your vet now, or the emergency vet if they are closed, and say what you see. Keep your dog quiet, \
                lying as it likes. Take off a muzzle if you can do so safely. Hot, or just worked: water and moving air before you drive. In a fit, clear the \
                space, do not hold it down, and keep hands away from the mouth. If something may have been eaten, take \
                the packet along and do not make your dog sick unless the vet says so.",
    owner_why: "These signs can become serious quickly. Your vet would rather hear from you once too often.",
    source: "General veterinary first-aid lists; common practice. Your veterinary surgeon decides.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// Suspected heat illness.
pub static HEAT_ILLNESS: Rule = Rule {
    id: "heat_illness",
    version: 1,
    group: Group::Health,
    looks_at: LooksAt::Log,
    title: "Suspected heat illness",
    owner_title: "Cool first, and ring your vet now",
    raises: "Overheating was ticked: stop.",
    why: "About one in seven dogs seen for heat illness died. Exertion is as deadly as a hot car, and half of the cases \
          came on days cooler than 17 °C.",
    trainer_do: "Ring the owner now: cooling first, then the vet. All exercises rest until a vet has cleared the dog.",
    owner_do: "Stop and go into the shade. Take off muzzle, coat and tight collar if you can do so safely, and keep your \
                dog on a lead. Cool first: wet it all over with water cooler than the dog, not into nose or mouth, and move \
                air over it. Only a young, healthy, fully awake dog may stand in water, head well above it. Ring your \
                vet, or the emergency vet, while you cool, even if it seems better, and go as they say. Small \
                drinks only for a fully awake dog, never forced.",
    owner_why: "Overheating harms quickly, and cooling before the drive gives the best chance.",
    source: "Hall, Carter & O'Neill 2020, Sci Rep 10:9128 and Animals 10(8):1324; Hall et al. 2022, Vet Sci \
                9(5):231; cool first, transport second: ACVECC Vet-COT prehospital guidelines 2016 (Hanel et al.), \
                second-hand.",
    certainty: Certainty::SecondHand,
    parameters: &[],
};

/// A sign that a vet should see soon.
pub static VET_SOON: Rule = Rule {
    id: "vet_soon",
    version: 2,
    group: Group::Health,
    looks_at: LooksAt::Log,
    title: "Vet soon",
    owner_title: "Please let your vet have a look",
    raises: "Lameness, repeated vomiting or diarrhoea, flinching at touch, reluctance to move, loss of appetite, \
                restless nights or accidents indoors was ticked: caution. Another change: notice; caution from 8 years \
                on.",
    why: "Pain stands behind a good part of behaviour cases, and training through it can make both worse.",
    trainer_do: "Ask for a vet's look before changing the plan. Until then no running, jumping or repeated sits and downs; \
                 write what was seen, and when, for the vet.",
    owner_do: "Ring your vet today and say what you saw; for stiffness alone, tomorrow will do. Ring now if it retches and \
                nothing comes up, the belly is tight or swollen, it cannot keep water down, it is weak, it strains and \
                passes nothing, there is blood, a leg bears no weight, it gets worse, or it is a puppy that will not eat or \
                keeps being sick. Until then only short, slow walks on a lead, if your dog wants them.",
    owner_why: "Dogs hide pain well. A change like this may be nothing, and may be why something has become hard.",
    source: "Mills et al. 2020, Animals 10(2):318: pain in about a third of referred behaviour cases, counted cautiously; \
             signs: WSAVA and \
             AAHA 2022 pain guidelines. Age from 8: common practice.",
    certainty: Certainty::Verified,
    parameters: &[OLD],
};

fn is_urgent(sign: HealthSign) -> bool {
    use HealthSign as H;
    matches!(
        sign,
        H::Collapse | H::Fit | H::PaleGums | H::LabouredBreathing | H::Bloat | H::Poison | H::Straining
    )
}

/// Whether a sign asks for a vet at once.
pub fn cannot_wait(sign: HealthSign) -> bool {
    is_urgent(sign) || sign == HealthSign::Heat
}

fn is_early(sign: HealthSign) -> bool {
    use HealthSign as H;
    matches!(
        sign,
        H::Lame
            | H::Vomiting
            | H::TouchSore
            | H::Reluctant
            | H::OffFood
            | H::Restless
            | H::Toileting
            | H::OtherSign
    )
}

/// A sign as it stands in a sentence after the dog's name.
fn clause(sign: HealthSign) -> &'static str {
    match sign {
        HealthSign::Collapse => "collapsed",
        HealthSign::Fit => "had a fit",
        HealthSign::PaleGums => "had pale or blue gums",
        HealthSign::LabouredBreathing => "was struggling to breathe",
        HealthSign::Bloat => "had a swollen belly or retched with nothing coming up",
        HealthSign::Heat => "overheated and would not stop panting",
        HealthSign::Poison => "may have eaten something poisonous",
        HealthSign::Straining => "strained and passed little or nothing",
        HealthSign::Lame => "was lame or stiff",
        HealthSign::Vomiting => "vomited or had an upset stomach more than once",
        HealthSign::TouchSore => "flinched when touched",
        HealthSign::Reluctant => "did not want to sit, lie down, jump or use stairs",
        HealthSign::OffFood => "was off food",
        HealthSign::Restless => "slept badly or was restless at night",
        HealthSign::Toileting => "had accidents indoors",
        HealthSign::OtherSign => "was unlike the usual in some other way",
    }
}

/// The ticked signs of one kind; `None` when none was ticked.
fn ticked(context: &LogContext<'_>, kind: fn(HealthSign) -> bool) -> Option<Vec<HealthSign>> {
    let signs = HealthSign::ALL.iter().copied();
    let signs: Vec<_> =
        signs.filter(|sign| kind(*sign) && context.sitting.health_signs.contains(sign)).collect();
    (!signs.is_empty()).then_some(signs)
}

fn finding(
    context: &LogContext<'_>,
    rule: &'static Rule,
    severity: Severity,
    signs: &[HealthSign],
) -> Finding {
    let clauses: Vec<&str> = signs.iter().map(|sign| clause(*sign)).collect();
    let seen = format!("{} {}.", context.dog.name, in_a_sentence(&clauses));
    let labels: Vec<String> = signs.iter().map(|sign| sign.label().to_lowercase()).collect();
    Finding::new(rule, severity, seen.clone(), seen).fact("Signs", labels.join(", "))
}

pub(super) fn vet_now(context: &LogContext<'_>) -> Option<Finding> {
    ticked(context, is_urgent).map(|signs| finding(context, &VET_NOW, Severity::Stop, &signs))
}

pub(super) fn heat_illness(context: &LogContext<'_>) -> Option<Finding> {
    ticked(context, |sign| sign == HealthSign::Heat)
        .map(|signs| finding(context, &HEAT_ILLNESS, Severity::Stop, &signs))
}

pub(super) fn vet_soon(context: &LogContext<'_>) -> Option<Finding> {
    let signs = ticked(context, is_early)?;
    let named = ticked(context, |sign| is_early(sign) && sign != HealthSign::OtherSign).is_some();
    let months = context.dog.age_months(context.sitting.local_date);
    let old = months.is_some_and(|months| f64::from(months) >= context.numbers.of(&OLD) * 12.0);
    let severity = if named || old { Severity::Caution } else { Severity::Notice };
    let age = context.dog.age_words(context.sitting.local_date).filter(|_| old);
    Some(finding(context, &VET_SOON, severity, &signs).fact_if("Age", age))
}
