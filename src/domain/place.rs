//! A place as the rules see it: fenced or not, how near a road is, whether the dog may be off lead there.

/// What is known of a place. `None` means not stated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PlaceFacts {
    /// Whether it is fenced all round.
    pub secure: Option<bool>,
    /// Whether a road is near.
    pub near_road: Option<bool>,
    /// How far away the nearest road is, metres.
    pub road_metres: Option<i16>,
    /// Whether a trainer's permission to be off lead there holds; `None` where nobody looked.
    pub off_lead_allowed: Option<bool>,
}
