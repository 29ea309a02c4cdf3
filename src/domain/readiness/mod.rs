//! Readiness for counted skills: is this dog likely ready for a harder step?
//!
//! A learning-curve CUSUM (LC-CUSUM; Biau, Williams, Schlup, Nizard & Porcher 2008, Br J Surg 95:925–929;
//! Biau & Porcher 2010, Stat Med 29:1900–1909) over the attempts at one line and step, in places as hard as the
//! plan asks. The limit is computed from the error rate that we accept, never typed.

mod class;
mod figures;
mod limit;
mod place;
#[cfg(test)]
mod reference;
mod stream;
mod verdict;
mod wilson;

pub use class::Parameters;
pub use figures::Figures;
pub use limit::{chance_of_false_move_on, limit};
pub use place::PlaceMatch;
pub use stream::{CountedSitting, Readiness};
pub use verdict::Verdict;
pub use wilson::{Interval, wilson};
