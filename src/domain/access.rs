//! Who may do what.
use crate::domain::vocabulary::Role;
use crate::ids::{HouseholdId, MembershipId, PracticeId};
/// Somebody who acts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Actor {
    /// Practice.
    pub practice: PracticeId,
    /// Membership.
    pub membership: MembershipId,
    /// Role.
    pub role: Role,
    /// Households.
    pub households: Vec<HouseholdId>,
}
