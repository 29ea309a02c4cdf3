//! The weather of a sitting, and what it was for this dog at this work.

use crate::domain::dog::DogFacts;
use crate::domain::heat::{Assessment, Band, Circumstances, NOT_CHECKED, assess};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{HealthSign, Word};
use crate::domain::weather::Weather;
use crate::domain::welfare::{HouseNumbers, heat_limits};

/// What a page says of heat.
pub struct Heat {
    /// In a paragraph.
    pub sentence: String,
    /// Whether first aid stands open below it: where it was warm for this dog, or a sign of heat illness was ticked.
    pub first_aid: bool,
}

impl Heat {
    /// As trainers read it, also where heat was not checked.
    pub fn for_trainer(sitting: &Sitting, dog: &DogFacts, numbers: &HouseNumbers) -> Self {
        let found = assessment(sitting, dog, numbers);
        let sentence =
            found.as_ref().map_or_else(|| NOT_CHECKED.to_owned(), |found| found.for_trainer(&dog.name));
        Self { sentence, first_aid: is_warm(found.as_ref(), sitting) }
    }

    /// As owners read it; nothing where nothing was said of the weather and no sign was ticked.
    pub fn for_owner(sitting: &Sitting, dog: &DogFacts, numbers: &HouseNumbers) -> Option<Self> {
        let found = assessment(sitting, dog, numbers);
        let first_aid = is_warm(found.as_ref(), sitting);
        let sentence = found.map(|found| found.for_owner(&dog.name)).unwrap_or_default();
        (first_aid || !sentence.is_empty()).then_some(Self { sentence, first_aid })
    }
}

fn assessment(sitting: &Sitting, dog: &DogFacts, numbers: &HouseNumbers) -> Option<Assessment> {
    assess(sitting.weather.air(), &Circumstances::of(dog, sitting), &heat_limits(numbers))
}

fn is_warm(found: Option<&Assessment>, sitting: &Sitting) -> bool {
    found.is_some_and(|found| found.band > Band::Below) || sitting.health_signs.contains(&HealthSign::Heat)
}

/// The weather as it was stated: "28 °C, 60 % humidity, full sun"; empty where nothing was.
pub fn weather(weather: &Weather) -> String {
    let parts = [
        weather.felt.map(|felt| felt.label().to_owned()),
        weather.air_c.map(|c| format!("{c} °C")),
        weather.humidity.map(|percent| format!("{percent} % humidity")),
        weather.in_sun.filter(|sun| *sun).map(|_| "full sun".to_owned()),
        weather.hot_ground.filter(|hot| *hot).map(|_| "hot ground".to_owned()),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::vocabulary::Felt;
    use time::macros::date;

    #[test]
    fn only_what_was_stated_of_the_weather_is_said() {
        assert_eq!(weather(&Weather::default()), "");
        let stated =
            Weather { air_c: Some(27.5), humidity: Some(60), in_sun: Some(true), ..Weather::default() };
        assert_eq!(weather(&stated), "27.5 °C, 60 % humidity, full sun");
        assert_eq!(
            weather(&Weather { felt: Some(Felt::Hot), in_sun: Some(false), ..Weather::default() }),
            "Hot"
        );
    }

    #[test]
    fn a_sign_of_heat_illness_opens_first_aid_whatever_the_weather() {
        let dog = DogFacts { name: "Moss".to_owned(), ..DogFacts::default() };
        let numbers = HouseNumbers::as_catalogued();
        let mut sitting = Sitting::on(date!(2026 - 03 - 12));
        assert!(Heat::for_owner(&sitting, &dog, numbers).is_none());
        assert_eq!(Heat::for_trainer(&sitting, &dog, numbers).sentence, NOT_CHECKED);
        sitting.weather.felt = Some(Felt::Mild);
        assert!(Heat::for_owner(&sitting, &dog, numbers).is_some_and(|heat| !heat.first_aid));
        sitting.health_signs = vec![HealthSign::Heat];
        assert!(Heat::for_owner(&sitting, &dog, numbers).is_some_and(|heat| heat.first_aid));
        assert!(Heat::for_trainer(&sitting, &dog, numbers).first_aid);
    }
}
