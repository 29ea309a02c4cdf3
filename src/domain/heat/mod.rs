//! Heat: how warm the air is for this dog at this work.
//!
//! Where temperature and humidity are known, the heat index of the National Weather Service; else one tap on a scale
//! of four words; else nothing is said but that heat was not checked. The index and its bands were made for people. No
//! published air temperature divides go from no-go for every dog, so the bands for a dog are a house rule: a person's
//! bands, begun earlier by what burdens the dog. Nothing here ever says that a day is safe, since most heat illness
//! from exertion happens on mild days.

mod air;
mod assessment;
mod band;
mod burden;
mod first_aid;
mod ground;
mod index;
#[cfg(test)]
mod reference;
mod words;

pub use air::{Air, AirTemperature, Humidity};
pub use assessment::{Assessment, assess};
pub use band::{Band, MOST_STEPS};
pub use burden::{Burden, Circumstances, Effort, Limits};
pub use first_aid::{COOL_FIRST, COOLING, FIRST_AID_SOURCE, SIGNS, WHOM_TO_RING};
pub use ground::{Ground, HAND_TEST, HAND_TEST_SOURCE, PAVEMENT, PAVEMENT_SOURCE};
pub use index::HeatIndex;
pub use words::{BELOW_BANDS, BELOW_BANDS_SOURCE, NOT_CHECKED};
