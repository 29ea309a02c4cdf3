//! What the air, the dog and its work come to.

use super::air::Air;
use super::band::{Band, MOST_STEPS};
use super::burden::{Burden, Circumstances, Limits};
use super::index::HeatIndex;
use crate::domain::vocabulary::Felt;

/// How warm it is for one dog at one piece of work.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// What is known of the air.
    pub air: Air,
    /// The heat index where the air was measured; the temperature itself where the humidity was not.
    pub index: Option<HeatIndex>,
    /// The band of a person at rest in the shade.
    pub people: Band,
    /// The band of this dog at this work.
    pub band: Band,
    /// What begins the bands earlier.
    pub burdens: Vec<Burden>,
    /// What would have, had it been stated.
    pub not_stated: Vec<Burden>,
}

/// How warm it is for a dog at its work; `None` where nothing is known of the air: heat was not checked.
pub fn assess(air: Option<Air>, circumstances: &Circumstances, limits: &Limits) -> Option<Assessment> {
    let air = air?;
    let index = index(air);
    let burdens = circumstances.burdens(limits);
    Some(Assessment {
        air,
        index: Some(index).filter(|_| !matches!(air, Air::Felt(_))),
        people: Band::for_people(index),
        band: Band::begun_earlier(index, burdens.len() + limits.every_dog.min(MOST_STEPS)),
        burdens,
        not_stated: circumstances.not_stated(),
    })
}

/// The index that the air is judged by.
fn index(air: Air) -> HeatIndex {
    match air {
        Air::Measured(temperature, humidity) => HeatIndex::of(temperature, humidity),
        Air::TemperatureAlone(temperature) => HeatIndex::unadjusted(temperature),
        Air::Felt(felt) => HeatIndex::felt(felt),
    }
}

impl HeatIndex {
    /// Where a word for the weather stands among the edges of the bands. Common practice; a guess is a guess, so mild,
    /// warm and hot are taken for the warmer part of what people call so.
    fn felt(felt: Felt) -> Self {
        Self::at(match felt {
            Felt::Cold => 40.0,
            Felt::Mild => 60.0,
            Felt::Warm => 70.0,
            Felt::Hot => 80.0,
        })
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::super::burden::Effort;
    use super::*;
    use crate::domain::vocabulary::{Coat, Word};
    use proptest::prelude::*;

    /// As the catalogue has it.
    fn assess(air: Option<Air>, circumstances: &Circumstances) -> Option<Assessment> {
        super::assess(air, circumstances, &Limits::default())
    }

    fn band(air_c: f64, percent: i16, change: impl FnOnce(&mut Circumstances)) -> Band {
        let mut circumstances = Circumstances::default();
        change(&mut circumstances);
        let air = Air::stated(Some(air_c), Some(percent), None);
        assess(air, &circumstances).expect("measured").band
    }

    #[test]
    fn nothing_known_of_the_air_is_not_checked() {
        let risky = Circumstances { short_nosed: Some(true), ..Circumstances::default() };
        assert_eq!(assess(None, &risky), None);
    }

    #[test]
    fn a_sound_dog_at_a_walk_has_a_persons_bands() {
        for (air_c, percent, expected) in [
            (20.0, 50, Band::Below),
            (28.0, 50, Band::Caution),
            (32.0, 50, Band::ExtremeCaution),
            (35.0, 60, Band::Danger),
            (45.0, 50, Band::ExtremeDanger),
        ] {
            assert_eq!(band(air_c, percent, |_| ()), expected, "{air_c} °C, {percent} %");
        }
    }

    #[test]
    fn each_burden_begins_the_bands_one_earlier_to_a_limit() {
        let running = |c: &mut Circumstances| c.effort = Some(Effort::Vigorous);
        let pug = |c: &mut Circumstances| {
            running(c);
            c.short_nosed = Some(true);
        };
        assert_eq!(band(22.0, 50, |_| ()), Band::Below);
        assert_eq!(band(22.0, 50, running), Band::Caution);
        assert_eq!(band(22.0, 50, pug), Band::ExtremeCaution);
        assert_eq!(band(17.0, 50, running), Band::Below);
        assert_eq!(band(17.0, 50, pug), Band::Caution);
        let most = |c: &mut Circumstances| {
            pug(c);
            (c.kg, c.in_sun, c.hot_ground) = (Some(60.0), Some(true), Some(true));
        };
        assert_eq!(band(8.0, 50, most), Band::Below);
        assert_eq!(band(13.0, 50, most), Band::Caution);
    }

    #[test]
    fn gentle_work_and_a_fact_that_is_denied_change_nothing() {
        let calm = |c: &mut Circumstances| {
            c.effort = Some(Effort::Gentle);
            (c.short_nosed, c.in_sun) = (Some(false), Some(false));
        };
        assert_eq!(band(22.0, 50, calm), Band::Below);
    }

    #[test]
    fn a_practice_may_begin_every_dogs_bands_earlier() {
        let at = |every_dog| {
            let limits = Limits { every_dog, ..Limits::default() };
            let pug = Circumstances { short_nosed: Some(true), ..Circumstances::default() };
            super::assess(Air::stated(Some(17.0), Some(50), None), &pug, &limits).map(|found| found.band)
        };
        assert_eq!(
            (at(0), at(1), at(2)),
            (Some(Band::Below), Some(Band::Caution), Some(Band::ExtremeCaution))
        );
        assert_eq!(at(usize::MAX), at(3));
    }

    #[test]
    fn without_humidity_the_temperature_stands_in() {
        let air = Air::stated(Some(30.0), None, None);
        let found = assess(air, &Circumstances::default()).expect("measured");
        assert!(found.index.is_some_and(|index| (index.celsius() - 30.0).abs() < 1e-9));
        assert_eq!(found.band, Band::Caution);
    }

    #[test]
    fn a_word_for_the_weather_has_no_index() {
        let felt = |felt, circumstances: &Circumstances| {
            let found = assess(Some(Air::Felt(felt)), circumstances).expect("stated");
            assert_eq!(found.index, None);
            found.band
        };
        let sound = Circumstances::default();
        let running = Circumstances { effort: Some(Effort::Vigorous), ..sound };
        let pug = Circumstances { short_nosed: Some(true), ..running };
        let bands = |c| Felt::ALL.iter().map(|word| felt(*word, c)).collect::<Vec<_>>();
        assert_eq!(bands(&sound), [Band::Below, Band::Below, Band::Below, Band::Caution]);
        assert_eq!(bands(&running), [Band::Below, Band::Below, Band::Caution, Band::ExtremeCaution]);
        assert_eq!(bands(&pug), [Band::Below, Band::Caution, Band::ExtremeCaution, Band::Danger]);
    }

    /// Every tenth of a degree and every percent: the regression falls a little where it takes over in dry air, but
    /// never across an edge.
    #[test]
    fn warmer_or_damper_air_never_lowers_a_band() {
        let band = |tenths: i32, percent: i16, steps| {
            let air = Air::stated(Some(f64::from(tenths) / 10.0), Some(percent), None).expect("within range");
            Band::begun_earlier(index(air), steps)
        };
        for steps in 0..=3 {
            for tenths in -400..600 {
                for percent in 0..100 {
                    let here = band(tenths, percent, steps);
                    assert!(band(tenths + 1, percent, steps) >= here, "{tenths} {percent} {steps}");
                    assert!(band(tenths, percent + 1, steps) >= here, "{tenths} {percent} {steps}");
                }
            }
        }
    }

    #[test]
    fn a_warmer_word_never_lowers_a_band() {
        let bands: Vec<_> =
            Felt::ALL.iter().map(|word| Band::begun_earlier(HeatIndex::felt(*word), 2)).collect();
        assert!(bands.windows(2).all(|pair| pair[0] <= pair[1]));
    }

    fn yes_no() -> impl Strategy<Value = Option<bool>> {
        any::<Option<bool>>()
    }

    prop_compose! {
        pub(in super::super) fn circumstances()(
            (short_nosed, heart_or_breathing, muzzled) in (yes_no(), yes_no(), yes_no()),
            (in_sun, hot_ground) in (yes_no(), yes_no()),
            kg in any::<Option<f64>>(),
            years in any::<Option<i32>>(),
            body_condition in any::<Option<i16>>(),
            coat in prop::option::of(prop::sample::select(Coat::ALL)),
            vigorous in yes_no(),
        ) -> Circumstances {
            let effort = vigorous.map(|hard| if hard { Effort::Vigorous } else { Effort::Gentle });
            Circumstances {
                short_nosed, kg, years, body_condition, heart_or_breathing, coat, muzzled, effort, in_sun, hot_ground,
            }
        }
    }

    pub(in super::super) fn air() -> impl Strategy<Value = Option<Air>> {
        let felt = prop::option::of(prop::sample::select(Felt::ALL));
        (any::<Option<f64>>(), any::<Option<i16>>(), felt, -60.0_f64..=80.0, any::<bool>()).prop_map(
            |(wild, humidity, felt, likely, tame)| {
                let humidity = humidity.map(|n| if tame { n.rem_euclid(110) } else { n });
                Air::stated(wild.map(|wild| if tame { likely } else { wild }), humidity, felt)
            },
        )
    }

    proptest! {
        #[test]
        fn one_more_burden_never_lowers_a_band(air in air(), c in circumstances()) {
            let Some(before) = assess(air, &c) else { return Ok(()) };
            for more in [
                Circumstances { short_nosed: Some(true), ..c },
                Circumstances { kg: Some(80.0), ..c },
                Circumstances { years: Some(14), ..c },
                Circumstances { body_condition: Some(9), ..c },
                Circumstances { heart_or_breathing: Some(true), ..c },
                Circumstances { coat: Some(Coat::Thick), ..c },
                Circumstances { muzzled: Some(true), ..c },
                Circumstances { effort: Some(Effort::Vigorous), ..c },
                Circumstances { in_sun: Some(true), ..c },
                Circumstances { hot_ground: Some(true), ..c },
            ] {
                prop_assert!(assess(air, &more).is_some_and(|after| after.band >= before.band));
            }
        }

        #[test]
        fn a_dogs_band_is_never_below_a_persons(air in air(), c in circumstances()) {
            if let Some(found) = assess(air, &c) {
                prop_assert!(found.band >= found.people);
                prop_assert_eq!(found.index.is_none(), matches!(found.air, Air::Felt(_)));
            }
        }
    }
}
