//! Looking again at what is kept: after a log or an encounter was changed or removed, or when a rule got another meaning.
//!
//! A rule looks at a log or encounter beside what was told before it. So whatever changes can matter to what was told
//! later alone: of the sittings those that follow it (as many as a rule looks back over), those of its day, and those with a bite
//! within the days in which incidents stand beside each other, and the encounters of those days. A sitting that looks back further
//! because others came late in between is left as it is. Open flags of the rules that rest on what was ever told are looked at
//! again as well, however old they are; what such a change would add to sittings further off is not looked for.

use std::collections::BTreeSet;

use time::{Date, OffsetDateTime};

use crate::actions::incidents::around_incident;
use crate::actions::submit_practice_log::{LOOK_BACK, Looked};
use crate::actions::{Done, fold_readiness, raise_flags, record_encounter, submit_practice_log};
use crate::clock::Moment;
use crate::domain::vocabulary::{FlagState, LookedAgain};
use crate::domain::welfare::Finding;
use crate::ids::{LineId, StepId};
use crate::store::dog::Dog;
use crate::store::flag::{self, Flag, Subject, Wanted};
use crate::store::{Tx, dog_summary, encounter, house, practice_log};

/// How many encounters are looked at again at most, and how many flags' subjects when rules have changed.
const MOST: i64 = 200;

/// Rules that rest on what was ever told of a dog, so that something long ago can take their ground away.
const ON_RECORD: [&str; 3] = ["growl_gone", "road_near", "off_lead_not_allowed"];

/// What was changed or removed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Revised {
    /// The log or encounter.
    pub subject: Subject,
    /// When it was told.
    pub told: OffsetDateTime,
    /// When it happened: as it was said before, and as it is said now.
    pub at: [OffsetDateTime; 2],
    /// The day of it, likewise.
    pub on: [Date; 2],
    /// Its stream, where it is a sitting of one.
    pub stream: Option<(LineId, StepId)>,
}

/// Looks again at everything that something revised can matter to, and builds anew what is kept of the dog. The revision
/// is kept already, and the dog's summary is locked.
pub(super) async fn revised(
    tx: &mut Tx,
    dog: &Dog,
    revised: &Revised,
    why: LookedAgain,
    moment: &Moment,
) -> Done<()> {
    look_at(tx, dog, revised.subject, why, None, moment).await?;
    flag::move_to(tx, dog.id, revised.subject, revised.on[1]).await?;
    let numbers = house::find().read(tx).await?.numbers;
    let days = revised.on.map(|day| around_incident(day, &numbers));
    let logs =
        practice_log::looking_back_on(tx, dog.id, revised.told, revised.at, revised.on, days, LOOK_BACK)
            .await?;
    let met = encounter::looking_back_on(tx, dog.id, revised.told, days, MOST).await?;
    let logs = logs.into_iter().map(|id| Subject::PracticeLog(id.0));
    let met = met.into_iter().map(|id| Subject::Encounter(id.0));
    let open = flag::of_dog(dog.id, Wanted::Open).read(tx).await?.into_iter();
    let held = open.filter(|flag| ON_RECORD.contains(&flag.rule.id)).map(|flag| flag.subject);
    let subjects: Vec<Subject> = logs.chain(met).chain(held).collect();
    for subject in subjects {
        if subject != revised.subject {
            look_at(tx, dog, subject, why, None, moment).await?;
        }
    }
    if let Some((line, step)) = revised.stream {
        fold_readiness::retold(tx, dog.id, line, step).await?;
    }
    dog_summary::rebuild(tx, dog.id).await?;
    dog_summary::decisions_changed(tx, dog.id).await?;
    Ok(())
}

/// Looks again at what open flags are about whose rules had another meaning when they spoke, with those rules alone; how
/// many logs and encounters that were.
pub(super) async fn with_changed_rules(tx: &mut Tx, dog: &Dog, moment: &Moment) -> Done<usize> {
    let outdated = flag::outdated(tx, dog.id, MOST).await?;
    for subject in &outdated {
        let flags = flag::of_dog(dog.id, Wanted::About(subject.id())).read(tx).await?;
        let changed = flags.iter().filter(|flag| flag.rule_version < flag.rule.stored_version());
        let rules: BTreeSet<&str> = changed.map(|flag| flag.rule.id).collect();
        look_at(tx, dog, *subject, LookedAgain::RuleChanged, Some(&rules), moment).await?;
    }
    Ok(outdated.len())
}

/// Lets the rules look again at one log or encounter; only those named, where some are. In what was removed they find
/// nothing.
async fn look_at(
    tx: &mut Tx,
    dog: &Dog,
    subject: Subject,
    why: LookedAgain,
    rules: Option<&BTreeSet<&str>>,
    moment: &Moment,
) -> Done<()> {
    let looked = match subject {
        Subject::PracticeLog(id) => match practice_log::find(tx, dog.id, id.into()).await? {
            Some(log) if log.removed_at.is_none() => {
                Some(submit_practice_log::look(tx, dog, &Looked::from(&log)).await?)
            }
            _ => None,
        },
        Subject::Encounter(id) => match encounter::find(tx, dog.id, id.into()).await? {
            Some(kept) if kept.removed_at.is_none() => {
                Some(record_encounter::look(tx, dog, &kept.encounter, kept.received_at).await?)
            }
            _ => None,
        },
    };
    let asked = |rule: &str| rules.is_none_or(|rules| rules.contains(rule));
    let mut flags = flag::of_dog(dog.id, Wanted::About(subject.id())).read(tx).await?;
    flags.retain(|flag| asked(flag.rule.id));
    let Some((mut findings, about)) = looked else {
        for flag in flags.iter().filter(|flag| flag.state == FlagState::Open) {
            flag::withdraw(tx, flag.id, why, moment.at).await?;
        }
        return Ok(());
    };
    findings.retain(|finding| asked(finding.rule.id));
    settle(tx, &flags, &findings, &about, why, moment).await
}

/// Brings the flags about one log or encounter to what the rules find in it now.
async fn settle(
    tx: &mut Tx,
    flags: &[Flag],
    findings: &[Finding],
    about: &raise_flags::About,
    why: LookedAgain,
    moment: &Moment,
) -> Done<()> {
    let place = about.place(moment);
    for flag in flags.iter().filter(|flag| flag.state == FlagState::Open) {
        if !findings.iter().any(|finding| finding.rule.id == flag.rule.id) {
            flag::withdraw(tx, flag.id, why, moment.at).await?;
        }
    }
    for finding in findings {
        match flags.iter().find(|flag| flag.rule.id == finding.rule.id) {
            None => flag::raise(tx, moment.id(), finding, &place).await?,
            Some(flag) if says_otherwise(flag, finding) => {
                flag::restate(tx, flag.id, finding, &place, why).await?;
            }
            Some(_) => continue,
        }
        raise_flags::consequences(tx, finding, about, moment).await?;
    }
    Ok(())
}

/// Whether a flag must say something else from now on. One that was answered stays as it was answered, unless it is graver.
fn says_otherwise(flag: &Flag, finding: &Finding) -> bool {
    let is_as_kept = |(kept, found): (&(String, String), &crate::domain::welfare::Fact)| {
        kept.0 == found.label && kept.1 == found.value
    };
    match flag.state {
        FlagState::Answered => finding.severity > flag.severity,
        FlagState::Withdrawn => true,
        FlagState::Open => {
            flag.severity != finding.severity
                || flag.seen != finding.seen
                || flag.owner_seen != finding.owner_seen
                || flag.rule_version != finding.rule.stored_version()
                || flag.facts.len() != finding.facts.len()
                || !flag.facts.iter().zip(&finding.facts).all(is_as_kept)
        }
    }
}
