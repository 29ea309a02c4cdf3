//! Whether somebody else works on the same draft.

use time::Duration;

use crate::clock::Moment;
use crate::domain::dates::counted;
use crate::ids::MembershipId;
use crate::store::plan_draft::PlanDraft;

/// How long somebody who changed a draft is taken to be at it still.
const LATELY: Duration = Duration::minutes(30);

/// Who else than I changed the draft within half an hour, in a sentence; empty for nobody.
pub fn lately(draft: Option<&PlanDraft>, me: MembershipId, moment: &Moment) -> String {
    let other = draft.filter(|draft| draft.by_member != me);
    let lately = other.filter(|draft| moment.at - draft.updated_at < LATELY);
    lately.map_or_else(String::new, |draft| {
        let minutes = (moment.at - draft.updated_at).whole_minutes().max(0);
        let ago = if minutes == 0 { "just now".to_owned() } else { format!("{} ago", counted(minutes, "minute", "minutes")) };
        format!("{} is at this draft as well: last change {ago}. Nobody overwrites anybody: what one saved first is shown to the other.", draft.by)
    })
}
