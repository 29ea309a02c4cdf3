//! Whether somebody else works on the same draft.

use time::Duration;

use crate::clock::Moment;
use crate::domain::dates::counted;
use crate::ids::DogId;
use crate::store::plan_draft;
use crate::store::sign_in::SignedIn;
use crate::web::WebError;

/// How long somebody who changed a draft is taken to be at it still.
const LATELY: Duration = Duration::minutes(30);

/// Who else changed the draft within half an hour, in a sentence; empty for nobody.
pub async fn lately(who: &mut SignedIn, dog: DogId, moment: &Moment) -> Result<String, WebError> {
    let draft = plan_draft::find(&mut who.tx, dog).await?;
    let other = draft.filter(|draft| draft.by_member != who.actor.membership);
    let lately = other.filter(|draft| moment.at - draft.updated_at < LATELY);
    Ok(lately.map_or_else(String::new, |draft| {
        let minutes = (moment.at - draft.updated_at).whole_minutes().max(0);
        let ago = if minutes == 0 { "just now".to_owned() } else { format!("{} ago", counted(minutes, "minute", "minutes")) };
        format!("{} is at this draft as well: last change {ago}. Nobody overwrites anybody: what one saved first is shown to the other.", draft.by)
    }))
}
