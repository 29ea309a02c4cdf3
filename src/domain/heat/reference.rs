//! The heat index against MetPy's (`tests/reference`).

use super::{AirTemperature, HeatIndex, Humidity};

#[test]
fn the_index_agrees_with_a_reference_library() {
    let rows: Vec<&str> = include_str!("../../../tests/reference/heat_index.csv").lines().skip(1).collect();
    assert!(rows.len() > 400);
    for row in rows {
        let mut fields = row.split(',');
        let mut next = || fields.next().expect("a field");
        let air = AirTemperature::from_celsius(next().parse().expect("°C")).expect("within range");
        let humidity = Humidity::from_percent(next().parse().expect("percent")).expect("within range");
        let expected: f64 = next().parse().expect("°F");
        let found = HeatIndex::of(air, humidity).fahrenheit();
        assert!((found - expected).abs() < 1e-5, "{row}: {found}");
    }
}
