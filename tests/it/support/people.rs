//! Who is in a test, and how they came to be there: always through the pages that real people use.

use std::collections::BTreeMap;

use settlebrook::ids::{MembershipId, PracticeId};
use uuid::Uuid;

use super::browser::Browser;
use super::world::World;

/// Long enough, and unlike every name that a test uses.
pub const PASSWORD: &str = "wet slate under bracken";

/// A practice that was set up, with its lead trainer's browser.
pub struct Practice {
    /// Its id.
    pub id: PracticeId,
    /// Its lead's place in it.
    pub lead_id: MembershipId,
    /// Its lead trainer, signed in.
    pub lead: Browser,
    /// The address that its lead signs in with; the password is [`PASSWORD`].
    pub lead_email: String,
    /// Ids of its things, by the name they have in routes (`dog`, `household`): builders add what they make, and the
    /// walks put them where a route wants one.
    pub things: BTreeMap<&'static str, Uuid>,
}

impl Practice {
    /// Sets a practice up, as whoever holds the printed link would.
    pub(super) async fn set_up(world: &World, name: &str) -> Self {
        let link = world.set_up_link().await;
        let lead_email = format!("{}@example.org", name.to_lowercase().replace(' ', "."));
        let mut lead = world.visitor();
        let blank = lead.get(&link).await;
        let filled =
            [("practice", name), ("name", "Rowan Airey"), ("email", &lead_email), ("password", PASSWORD)];
        lead.submit(&blank, "main form", &filled).await.redirects_to("/caseload?notice=set-up");
        let (id, lead_id): (Uuid, Uuid) = sqlx::query_as(
            "select m.practice_id, m.id from membership m join account a on a.id = m.account_id where a.email = $1",
        )
        .bind(&lead_email)
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("the lead has a place in the practice");
        Self { id: id.into(), lead_id: lead_id.into(), lead, lead_email, things: BTreeMap::new() }
    }
}
