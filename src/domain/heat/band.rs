//! The bands of the heat index, and how they begin earlier for a dog.

use super::index::HeatIndex;

/// A band of the heat index. The names and edges are the National Weather Service's, for people, not dogs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Band {
    /// Below the first band. Not safe: most dogs with heat illness fall ill on such days.
    Below,
    /// From 80 °F (26.7 °C) for people.
    Caution,
    /// From 90 °F (32.2 °C) for people.
    ExtremeCaution,
    /// From 103 °F (39.4 °C) for people.
    Danger,
    /// From 125 °F (51.7 °C) for people.
    ExtremeDanger,
}

/// Where bands begin, °F. The last four are a person's: 80 and 90 are in the service's charts, 103 and 125 read where its
/// classification is quoted (older charts part at 105 and 130). The first three carry the ten degrees of the first band downwards, so that there
/// is something to begin earlier at: a house rule.
const EDGES: [f64; 7] = [50.0, 60.0, 70.0, 80.0, 90.0, 103.0, 125.0];

/// The most by which a dog's bands begin earlier than a person's.
pub const MOST_STEPS: usize = 3;

impl Band {
    const ALL: [Self; 5] =
        [Self::Below, Self::Caution, Self::ExtremeCaution, Self::Danger, Self::ExtremeDanger];

    /// A person's band. Each begins at its edge and ends before the next.
    pub fn for_people(index: HeatIndex) -> Self {
        Self::begun_earlier(index, 0)
    }

    /// The band, begun this many bands earlier, at most [`MOST_STEPS`].
    pub fn begun_earlier(index: HeatIndex, steps: usize) -> Self {
        let reached = EDGES.iter().filter(|edge| index.fahrenheit() >= **edge).count();
        let level = (reached + steps.min(MOST_STEPS)).saturating_sub(MOST_STEPS);
        Self::ALL[level.min(Self::ALL.len() - 1)]
    }

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Below => "Below the bands",
            Self::Caution => "Caution",
            Self::ExtremeCaution => "Extreme caution",
            Self::Danger => "Danger",
            Self::ExtremeDanger => "Extreme danger",
        }
    }

    /// Where its names and edges come from, and how sure that is.
    pub const SOURCE: &str = "Heat index and bands: National Weather Service (Rothfusz 1990, NWS SR 90-23), made for \
        people, not dogs; the edges at 103 and 125 °F second-hand. Beginning the bands earlier for a dog, ten °F a \
        step and three steps at most, is a house rule: no published air temperature divides go from no-go for every dog.";
}

#[cfg(test)]
mod tests {
    use super::*;

    fn people(fahrenheit: f64) -> Band {
        Band::for_people(HeatIndex::at(fahrenheit))
    }

    /// Half-open bands of the NWS: 80–90, 90–103, 103–125, 125 and over.
    #[test]
    fn a_persons_bands_begin_at_their_edge() {
        for (edge, before, from) in [
            (80.0, Band::Below, Band::Caution),
            (90.0, Band::Caution, Band::ExtremeCaution),
            (103.0, Band::ExtremeCaution, Band::Danger),
            (125.0, Band::Danger, Band::ExtremeDanger),
        ] {
            assert_eq!((people(edge), people(edge - 1e-9)), (from, before), "at {edge}");
        }
    }

    #[test]
    fn each_step_begins_the_bands_ten_degrees_earlier_below_eighty() {
        for (steps, begins) in [(0, 80.0), (1, 70.0), (2, 60.0), (3, 50.0), (4, 50.0), (usize::MAX, 50.0)] {
            assert_eq!(Band::begun_earlier(HeatIndex::at(begins), steps), Band::Caution);
            assert_eq!(Band::begun_earlier(HeatIndex::at(begins - 0.1), steps), Band::Below);
        }
        assert_eq!(Band::begun_earlier(HeatIndex::at(85.0), 1), Band::ExtremeCaution);
        assert_eq!(Band::begun_earlier(HeatIndex::at(85.0), 3), Band::ExtremeDanger);
        assert_eq!(Band::begun_earlier(HeatIndex::at(130.0), 3), Band::ExtremeDanger);
    }
}
