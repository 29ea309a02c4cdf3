//! What just happened, said once after a redirect: `?notice=key`, from a fixed table, so that a link cannot put words
//! on our pages.

use std::collections::HashMap;

/// The sentence for a key.
pub fn words(key: &str) -> Option<&'static str> {
    TABLE.iter().find(|(k, _)| *k == key).map(|(_, words)| *words)
}

/// The sentence for the `notice` of a query.
pub fn of(query: &HashMap<String, String>) -> Option<String> {
    query.get("notice").and_then(|key| words(key)).map(str::to_owned)
}

const TABLE: &[(&str, &str)] = &[
    ("set-up", "Your practice is set up. Add a household to begin."),
    ("saved", "Saved."),
    ("phase", "The phase is changed."),
    ("answered", "Answered. It stays with the dog’s record."),
    ("decided", "Decided: the same again."),
    ("step-moved", "Decided. The draft stands at the new step; publish it so that the owner sees it."),
    ("no-such-step", "Decided. There is no rung beyond this one in the draft: change the exercise here."),
    ("sent", "Sent."),
    ("looked", "Looked at. The household reads that you did."),
    ("not-looked", "Taken back: it waits to be looked at."),
    ("reviewed", "Looked at. The household reads that you did."),
    ("reviewed-told", "Looked at, and your word is sent."),
    ("phrase-removed", "The phrase is taken away."),
    ("view-kept", "Kept among your views."),
    ("view-removed", "The view is taken away."),
    ("settled", "Noted: no answer needed."),
    // people
    ("phone-signed-in", "This phone is signed in. It stays so for six months."),
    ("welcome", "Welcome. Your place in the team is taken up."),
    ("password-set", "Your new password is set. Sign in with it."),
    ("password-changed", "Your password is set. Every other device was signed out."),
    (
        "passkey-added",
        "Your passkey is added: from now on it signs you in. Give it a name that tells you which device it is on.",
    ),
    (
        "passkey-removed",
        "The passkey is removed: it signs nobody in any more. Delete it on the device as well.",
    ),
    ("device-ended", "That device is signed out."),
    ("others-ended", "Every other device is signed out."),
    ("household-added", "The household is added. Add its owner and its dog next."),
    (
        "owner-added",
        "Added. They see this household’s dogs on the phone that they use already; no new link is needed.",
    ),
    ("owner-removed", "Removed. Their phones are signed out and their links no longer work."),
    ("trainer-removed", "Removed. They are signed out everywhere, and their dogs are now yours."),
    // dogs and library
    ("dog-added", "Added. Fill in the rest as you learn it; what nobody said yet is shown as not stated."),
    ("removed", "Removed."),
    ("off-lead-granted", "Off lead is allowed in that place."),
    ("off-lead-withdrawn", "Off lead is no longer allowed in that place."),
    ("weight-saved", "Weight saved."),
    ("exercise-added", "Added to the library."),
    ("exercises-imported", "Added to the library."),
    ("told", "Kept. Tell of the next time, or go on."),
    ("day-over", "That page was from another day. Here is today."),
    ("fit-approved", "Approved. The household is asked once a month, and after a bolt: like this?"),
    ("fit-changed", "Your trainer is told. Until it sits right again, do as this page says."),
    ("helper-ended", "Ended. The link shows nothing any more."),
    ("helper-kept", "Kept. The household sees it."),
    ("lesson-booked", "Booked. The household reads it on Today."),
    ("lesson-moved", "Changed. The household reads it on Today."),
    ("lesson-called-off", "Called off. It is gone from the household’s Today: tell them as well."),
    ("package-added", "Added. The household reads how many are used and left."),
    ("package-taken-back", "Taken back. It stays on record and counts no more."),
    ("still-good", "Thank you. Your trainer sees it."),
    ("slipping-said", "Sent. Your trainer answers here."),
    ("come-back-asked", "Sent. Your trainer answers here."),
    (
        "works-again",
        "The phase is active again. What opened stands in this draft at its last sure step: look it through, then check and publish.",
    ),
    ("works-again-as-is", "The phase is active again. Nothing in the draft had to go back a step."),
    ("day-off", "A day off. Your trainer sees it, and nobody minds."),
    ("dogs-changed", "Changed, all of them."),
    ("lesson-kept", "Kept. What is for the household went out as a message."),
    (
        "lesson-kept-with-homework",
        "The lesson is kept. What comes next is in this draft, fitted to the dog: look it through, then check and publish.",
    ),
    (
        "intake-asked",
        "Asked. The pages wait on the household’s phones; a new link signs a phone in that has none yet.",
    ),
    ("intake-sent", "Sent. Your trainer sees it with their other messages."),
    ("signed", "Signed. Thank you."),
    ("archived", "Archived. Plans that hold it go on as they are."),
    ("restored", "Offered for plans again."),
    // reports
    ("report-saved", "Saved. Read it as it will be read; then issue it, or go back to the text."),
    ("report-issued", "Issued. It stays as you read it here. Print it, or share it by a link."),
    (
        "report-copied",
        "A new draft, copied from the one that was issued. Put right what was wrong, then issue it.",
    ),
    ("report-discarded", "The draft is thrown away."),
    ("report-link-revoked", "Revoked. The link shows nothing any more."),
    // plans
    ("plan-added", "Added to the draft. Set its details, or go back to the draft."),
    ("plan-added-here", "Added to the draft, fitted to this dog. Edit it where that does not suit."),
    ("plan-started", "Added to the draft, fitted to this dog. Look it through, then check and publish."),
    ("plan-started-none", "The draft holds all of that already."),
    ("template-kept", "Kept. It is offered under “Start from…” for every dog."),
    ("template-removed", "Removed. Plans that were started from it stay as they are."),
    ("plan-full", "The draft holds 40 items already. Take one out first."),
    ("plan-item-saved", "Saved in the draft. The owner sees it when you publish."),
    ("plan-item-removed", "Taken out of the draft. The published plan stays as it is until you publish."),
    ("plan-restarted", "The draft is the published plan again."),
    ("plan-note-kept", "The note is kept with the draft."),
    ("plan-published", "Published. The owner sees this plan from now on."),
    // the dog's life
    ("goal-told", "Kept. Thank you; in a month we ask again."),
    ("goal-kept", "Kept, as told to their trainer."),
    ("life-kept", "Kept."),
    (
        "plan-published-active",
        "Published. The owner sees this plan from now on, and the dog has gone from settling in to active.",
    ),
    // practice
    ("imported", "Imported."),
    // the owner's day
    ("message-sent", "Sent. Your trainer sees it with their other messages."),
    ("messages-read", "Marked as read."),
];
