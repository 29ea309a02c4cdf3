//! Readiness for counted skills: is this dog likely ready for a harder step?
//!
//! A learning-curve CUSUM (LC-CUSUM; Biau, Williams, Schlup, Nizard & Porcher 2008, Br J Surg 95:925–929;
//! Biau & Porcher 2010, Stat Med 29:1900–1909) over the attempts at one line and step, in places as hard as the
//! plan asks. The limit is computed from the error rate that we accept, never typed. Once a trainer has moved on, the
//! ordinary CUSUM watches the new step for decline.

mod class;
mod decline;
mod figures;
mod horizon;
mod ladder;
mod limit;
mod place;
mod recursion;
#[cfg(test)]
mod reference;
pub mod reopen;
mod stream;
mod verdict;
mod wilson;

pub use class::Parameters;
pub use decline::{Decline, DeclineFigures, decline_figures};
pub use figures::{CERTAINTY, Figures, SOURCE};
pub use horizon::Horizon;
pub use ladder::rung_after;
pub use limit::{chance_of_false_move_on, chance_of_true_move_on, limit, smallest_limit};
pub use place::PlaceMatch;
pub use stream::{CountedSitting, Readiness};
pub use verdict::{Standing, Verdict};
pub use wilson::{Interval, wilson};

#[cfg(test)]
mod tests;
