//! Recording what happened in life: a reaction, a bite, running off, or an owner who is not coping.

use sha2::{Digest, Sha256};
use time::OffsetDateTime;

use crate::actions::incidents::beside_encounter;
use crate::actions::raise_flags::{About, raise_flags};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::Word;
use crate::domain::welfare::{EncounterContext, evaluate_encounter};
use crate::ids::EncounterId;
use crate::store::encounter::{self, Encounter};
use crate::store::flag::Subject;
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
    let id = record(&mut tx, actor, new, stated_at, moment).await?;
    tx.commit().await?;
    Ok(id)
}

/// The same inside a transaction that goes on.
pub(super) async fn record(
    tx: &mut Tx,
    actor: &Actor,
    new: &Encounter,
    stated_at: Option<OffsetDateTime>,
    moment: &Moment,
) -> Done<EncounterId> {
    let dog = authorised_dog(tx, actor, Action::RecordEncounter, new.dog).await?;
    dog::lock_summary(tx, dog.id).await?;
    let fingerprint = fingerprint(new, stated_at);
    if !encounter::add(tx, new, actor.membership, &fingerprint, &dog.zone, moment.at).await? {
        let first = encounter::fingerprint(tx, new.id).await?;
        return if first.as_deref() == Some(&fingerprint[..]) { Ok(new.id) } else { Err(Refusal::Clash) };
    }
    let house = house::find(tx).await?;
    let recent = beside_encounter(tx, dog.id, new.id, new.facts.local_date, &house.numbers).await?;
    let facts = dog_facts::find(tx, dog.id).await?;
    let met = EncounterFacts { happened_at: Some(new.happened_at), ..new.facts.clone() };
    let findings = evaluate_encounter(&EncounterContext {
        encounter: &met,
        dog: &facts,
        recent: &recent,
        numbers: &house.numbers,
    });
    let about = About {
        dog: dog.id,
        subject: Subject::Encounter(new.id.0),
        line: None,
        on: new.facts.local_date,
        happened_at: new.happened_at,
    };
    raise_flags(tx, &findings, &about, moment).await?;
    Ok(new.id)
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
