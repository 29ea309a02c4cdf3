//! What an assessment says, to trainers and to owners.

use super::air::Air;
use super::assessment::Assessment;
use super::band::Band;
use super::burden::Burden;
use crate::domain::lists::in_a_sentence;
use crate::domain::vocabulary::Word;

/// What is said where nothing is known of the air.
pub const NOT_CHECKED: &str = "Heat not checked.";

/// What is said below the first band, instead of reassurance.
pub const BELOW_BANDS: &str = "No band is reached, and that is no promise: most heat illness comes from exertion, and half \
    of the dogs that fell ill did so on days of 16.9 °C or less. Watch the breathing, whatever the thermometer says.";

/// Where that comes from.
pub const BELOW_BANDS_SOURCE: &str = "Exertion set off 74.2 % of 1,259 events: Hall, Carter & O'Neill 2020, Animals \
    10(8):1324. Median temperature on the day, United Kingdom, 16.9 °C: Hall et al. 2022, Vet Sci 9(5):231.";

impl Assessment {
    /// For trainers: the band, the figures, what moved it, what was not stated.
    pub fn for_trainer(&self, dog: &str) -> String {
        let labels = |of: &[Burden], say: fn(Burden) -> &'static str| {
            in_a_sentence(&of.iter().map(|burden| say(*burden)).collect::<Vec<_>>())
        };
        let mut said = vec![self.band_sentence(dog)];
        if !self.burdens.is_empty() {
            said.push(format!("Harder by {}.", labels(&self.burdens, Burden::label)));
        }
        if !self.not_stated.is_empty() {
            said.push(format!("Not stated: {}.", labels(&self.not_stated, Burden::decided_by)));
        }
        if self.band == Band::Below {
            said.push(BELOW_BANDS.to_owned());
        }
        said.join(" ")
    }

    /// The band of this dog, a person's beside it where that is another one, and the figures.
    pub fn band_sentence(&self, dog: &str) -> String {
        let people = match self.people {
            Band::Below => "below the bands".to_owned(),
            other => format!("at “{}”", other.label().to_lowercase()),
        };
        let beside = if self.band == self.people {
            String::new()
        } else {
            format!(", where a person would be {people}")
        };
        format!("{} for {dog}{beside}: {}.", self.band.label(), self.figures())
    }

    /// What is known of the air, in figures.
    pub fn figures(&self) -> String {
        match (self.air, self.index) {
            (Air::Measured(air, humidity), Some(index)) => format!(
                "{} °C and {} % humidity, a heat index of {:.0} °C",
                air.celsius(),
                humidity.percent(),
                index.celsius()
            ),
            (Air::Measured(air, _) | Air::TemperatureAlone(air), _) => {
                format!("{} °C, humidity not stated, and damp air is worse", air.celsius())
            }
            (Air::Felt(felt), _) => format!("it felt {}; nothing was measured", felt.label().to_lowercase()),
        }
    }

    /// For owners: what it means for this dog now.
    pub fn for_owner(&self, dog: &str) -> String {
        match self.band {
            Band::Below => format!(
                "No warning from the weather, and still: most dogs that overheat do so at exercise, and half of them \
                 on mild days, no warmer than 17 °C. Take water, rest {dog} often, and stop when panting does not slow."
            ),
            Band::Caution => format!(
                "It is warm for {dog}. Keep it short and slow, in the shade, with water, and stop when panting does \
                 not slow."
            ),
            Band::ExtremeCaution => format!(
                "It is too warm for {dog} to run or get excited. A slow sniff in the shade is enough; keep the rest \
                 for a cooler hour."
            ),
            Band::Danger => format!(
                "It is hot for {dog}. No practice outside now: early morning, late evening or indoors instead."
            ),
            Band::ExtremeDanger => format!(
                "It is far too hot for {dog}. Stay somewhere cool with water; outside only for a short toilet break \
                 in the shade."
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::assessment::tests::{air, circumstances};
    use super::super::{Circumstances, Effort, Limits, first_aid, ground};
    use super::*;
    use crate::domain::vocabulary::Felt;
    use proptest::prelude::*;

    fn assess(air: Option<Air>, circumstances: &Circumstances) -> Option<Assessment> {
        super::super::assess(air, circumstances, &Limits::default())
    }

    fn pug() -> Circumstances {
        let effort = Some(Effort::Vigorous);
        Circumstances { short_nosed: Some(true), effort, kg: Some(8.0), ..Circumstances::default() }
    }

    #[test]
    fn a_trainer_reads_the_figures_and_what_moved_the_band() {
        let air = Air::stated(Some(24.0), Some(60), None);
        let said = assess(air, &pug()).expect("measured").for_trainer("Pip");
        assert_eq!(
            said,
            "Extreme caution for Pip, where a person would be below the bands: 24 °C and 60 % humidity, a heat \
             index of 24 °C. Harder by short nose and arousing or running work. Not stated: age, body condition, \
             heart and breathing, coat, muzzle or not, sun or shade and the ground."
        );
    }

    #[test]
    fn what_was_not_measured_is_said() {
        let alone = assess(Air::stated(Some(30.5), None, None), &pug()).expect("measured").figures();
        assert_eq!(alone, "30.5 °C, humidity not stated, and damp air is worse");
        let felt = assess(Some(Air::Felt(Felt::Warm)), &pug()).expect("stated").figures();
        assert_eq!(felt, "it felt warm; nothing was measured");
    }

    #[test]
    fn below_the_bands_mild_days_are_named() {
        let found = assess(Air::stated(Some(5.0), Some(60), None), &pug()).expect("measured");
        assert_eq!(found.band, Band::Below);
        assert!(found.for_trainer("Pip").contains("16.9 °C"));
        assert!(found.for_owner("Pip").contains("mild days"));
        assert!(BELOW_BANDS_SOURCE.contains("74.2 %") && BELOW_BANDS_SOURCE.contains("9(5):231"));
    }

    fn promises(text: &str) -> bool {
        let text = text.to_lowercase();
        ["safe", "no risk", "harmless", "all clear"].iter().any(|word| text.contains(word))
    }

    #[test]
    fn no_text_promises_anything_or_diagnoses() {
        let mut texts = vec![
            NOT_CHECKED,
            BELOW_BANDS,
            first_aid::COOL_FIRST,
            first_aid::WHOM_TO_RING,
            first_aid::FIRST_AID_SOURCE,
            ground::HAND_TEST,
            Band::SOURCE,
        ];
        texts.extend(first_aid::SIGNS);
        texts.extend(first_aid::COOLING.iter().flat_map(|(who, how)| [*who, *how]));
        for text in texts {
            assert!(!promises(text), "{text}");
            assert!(!text.contains("  ") && !text.contains('!') && !text.contains("heatstroke"), "{text}");
        }
    }

    /// ACVECC Vet-COT 2016: cool first, transport second; water for the young and healthy, water and air for others.
    #[test]
    fn first_aid_cools_first_and_rings_the_vet() {
        let first = first_aid::COOL_FIRST;
        assert!(first.find("Cool first") < first.find("transport second") && first.contains("vet"));
        assert!(first_aid::COOLING[0].0.contains("young") && first_aid::COOLING[0].1.contains("in water"));
        assert!(first_aid::COOLING[1].0.contains("older") && first_aid::COOLING[1].1.contains("air moving"));
        for source in ["Vet-COT", "10(7):465", "11:6828"] {
            assert!(first_aid::FIRST_AID_SOURCE.contains(source), "{source}");
        }
    }

    proptest! {
        #[test]
        fn every_assessment_has_words_that_promise_nothing(air in air(), c in circumstances()) {
            if let Some(found) = assess(air, &c) {
                for said in [found.for_trainer("Bracken"), found.for_owner("Bracken")] {
                    prop_assert!(said.contains("Bracken") && !promises(&said), "{}", said);
                }
            }
        }
    }
}
