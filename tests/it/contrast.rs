//! The colours hold outdoors: every text token against every ground it stands on, light and dark.
//!
//! Formula and thresholds: WCAG 2.2, "relative luminance", "contrast ratio", success criteria 1.4.6 (text 7:1) and
//! 1.4.11 (lines 3:1), <https://www.w3.org/TR/WCAG22/>.

use std::collections::BTreeMap;

const CSS: &str = include_str!("../../static/files/settlebrook.css");

/// Light and dark value of each token, read from the style sheet itself.
type Tokens = BTreeMap<String, (String, String)>;

fn tokens() -> Tokens {
    let mut found = Tokens::new();
    for line in CSS.lines() {
        let Some((name, rest)) =
            line.trim().strip_prefix("--").and_then(|line| line.split_once(": light-dark("))
        else {
            continue;
        };
        let (light, dark) =
            rest.trim_end_matches(");").split_once(", ").expect("two colours in light-dark()");
        found.entry(name.to_owned()).or_insert((light.to_owned(), dark.to_owned()));
    }
    found
}

/// Linear value of one 8-bit sRGB channel.
fn linear(channel: u8) -> f64 {
    let c = f64::from(channel) / 255.0;
    if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
}

fn luminance(hex: &str) -> f64 {
    let channel = |at: usize| linear(u8::from_str_radix(&hex[at..at + 2], 16).expect("a #rrggbb colour"));
    0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

fn contrast(one: &str, other: &str) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn assert_holds(tokens: &Tokens, fronts: &[&str], grounds: &[&str], least: f64) {
    let pick = |name: &str| tokens.get(name).unwrap_or_else(|| panic!("--{name} is a token")).clone();
    for front in fronts {
        for ground in grounds {
            let ((front_light, front_dark), (light, dark)) = (pick(front), pick(ground));
            for (theme, ratio) in
                [("light", contrast(&front_light, &light)), ("dark", contrast(&front_dark, &dark))]
            {
                assert!(ratio >= least, "--{front} on --{ground}, {theme}: {ratio:.2}, wants {least}");
            }
        }
    }
}

/// Published or independently computed values, so that the measure itself is measured.
#[test]
fn formula_agrees_with_known_values() {
    for (one, other, ratio) in [
        ("#000000", "#ffffff", 21.0),
        ("#ff8100", "#64003a", 5.235_369_975_583_679),
        ("#e5e5e5", "#aabb00", 1.698_093_107_780_376),
        ("#767676", "#ffffff", 4.5422),
        ("#949494", "#ffffff", 3.0335),
        ("#595959", "#ffffff", 7.0047),
    ] {
        assert!((contrast(one, other) - ratio).abs() < 5e-5, "{one} on {other}: {}", contrast(one, other));
    }
    assert!((luminance("#ff8100") - 0.369_605_138_046_346_35).abs() < 1e-12);
}

#[test]
fn text_holds_outdoors() {
    let text = ["ink", "quiet", "tarn", "heather", "moss", "gorse", "rust"];
    assert_holds(&tokens(), &text, &["paper", "raised"], 7.0);
}

#[test]
fn lines_can_be_seen() {
    assert_holds(&tokens(), &["edge"], &["paper", "raised"], 3.0);
}

#[test]
fn washes_carry_their_words() {
    let tokens = tokens();
    for tint in ["tarn", "heather", "moss", "gorse", "rust"] {
        let wash = format!("wash-{tint}");
        assert_holds(&tokens, &["ink", "quiet", "tarn", tint], &[&wash], 7.0);
        assert_holds(&tokens, &["on-accent"], &[tint], 7.0);
    }
    assert_holds(&tokens, &["ink", "quiet"], &["sunk"], 7.0);
}
