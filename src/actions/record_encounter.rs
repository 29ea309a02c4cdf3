//! Recording what happened in life: a reaction, a bite, running off, or an owner who is not coping.

use sha2::{Digest, Sha256};
use time::OffsetDateTime;

use crate::actions::incidents::beside_encounter;
use crate::actions::raise_flags::{About, raise_flags};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::encounter::EncounterFacts;
use crate::domain::sync::Lived;
use crate::domain::vocabulary::Word;
use crate::domain::welfare::{EncounterContext, Finding, evaluate_encounter};
use crate::ids::EncounterId;
use crate::store::dog::Dog;
use crate::store::encounter::{self, Encounter};
use crate::store::flag::Subject;
use crate::store::revision::told_after_all;
use crate::store::{Tx, dog, dog_facts, house};

/// Keeps an encounter. `stated_at` is when it was said to have happened; `None` for "just now". Sending it again
/// changes nothing; the same id with other content is refused.
pub async fn record_encounter(
    mut tx: Tx,
    actor: &Actor,
    new: &Encounter,
    stated_at: Option<OffsetDateTime>,
    moment: &Moment,
) -> Done<EncounterId> {
    record(&mut tx, actor, new, stated_at, moment).await?;
    tx.commit().await?;
    Ok(new.id)
}

/// The same of one that a phone kept first; gives whether it is new.
pub async fn record_from_phone(
    mut tx: Tx,
    actor: &Actor,
    new: &Encounter,
    stated_at: Option<OffsetDateTime>,
    lived: &Lived,
    moment: &Moment,
) -> Done<bool> {
    let is_new = record(&mut tx, actor, new, stated_at, moment).await?;
    if is_new {
        encounter::note_phone(&mut tx, new.id, lived).await?;
    }
    tx.commit().await?;
    Ok(is_new)
}

/// The same inside a transaction that goes on; gives whether it is new.
pub(super) async fn record(
    tx: &mut Tx,
    actor: &Actor,
    new: &Encounter,
    stated_at: Option<OffsetDateTime>,
    moment: &Moment,
) -> Done<bool> {
    let dog = authorised_dog(tx, actor, Action::RecordEncounter, new.dog).await?;
    dog::lock_summary(tx, dog.id).await?;
    let fingerprint = fingerprint(new, stated_at);
    let told = told_after_all(tx, dog.id, moment.at).await?;
    if !encounter::add(tx, new, actor.membership, &fingerprint, &dog.zone, told).await? {
        let first = encounter::fingerprint(tx, new.id).await?;
        return if first.as_deref() == Some(&fingerprint[..]) { Ok(false) } else { Err(Refusal::Clash) };
    }
    let (findings, about) = look(tx, &dog, new, told).await?;
    raise_flags(tx, &findings, &about, moment).await?;
    Ok(true)
}

/// What the rules find in an encounter that is kept, beside what was told before it: the same whether it has just come or
/// is looked at again, unless something of all that has changed.
pub(super) async fn look(
    tx: &mut Tx,
    dog: &Dog,
    kept: &Encounter,
    told: OffsetDateTime,
) -> Done<(Vec<Finding>, About)> {
    let numbers = house::find().read(tx).await?.numbers;
    let recent =
        beside_encounter(tx, dog.id, told, (kept.facts.kind, kept.facts.local_date), &numbers).await?;
    let facts = dog_facts::told_by(dog.id, Some(told)).read(tx).await?;
    let met = EncounterFacts { happened_at: Some(kept.happened_at), ..kept.facts.clone() };
    let context = EncounterContext { encounter: &met, dog: &facts, recent: &recent, numbers: &numbers };
    let findings = evaluate_encounter(&context);
    let about = About {
        dog: dog.id,
        subject: Subject::Encounter(kept.id.0),
        line: None,
        on: kept.facts.local_date,
        happened_at: kept.happened_at,
    };
    Ok((findings, about))
}

/// A hash of what was stated, with the version of this format in front. "Just now" stays so when a form is sent twice.
fn fingerprint(new: &Encounter, stated_at: Option<OffsetDateTime>) -> [u8; 32] {
    let f = &new.facts;
    let stated_at = stated_at.map(OffsetDateTime::unix_timestamp);
    let mut stated = format!(
        "encounter 1|{}|{}|{:?}|{:?}|{:?}|{:?}|{:?}|{:?}|{:?}|{:?}|{:?}|{:?}|{:?}|{stated_at:?}",
        new.dog,
        f.kind.stored(),
        new.trigger,
        new.what,
        f.distance_m,
        f.reaction,
        f.recovery.map(Word::stored),
        f.towards.map(Word::stored),
        f.broken_skin,
        new.playful,
        f.line.map(Word::stored),
        new.place_name,
        new.note
    );
    if new.froze.is_some() || f.warned.is_some() {
        stated.push_str(&format!("|{:?}|{:?}", new.froze, f.warned));
    }
    Sha256::digest(stated.as_bytes()).into()
}
