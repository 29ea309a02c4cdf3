//! A QR code as our own SVG: one path of dark modules, black on white whatever the colours of the page.

use std::fmt::Write;

use qrcodegen::{QrCode, QrCodeEcc};

/// Light modules around a code, without which phones do not find it (ISO/IEC 18004).
const MARGIN: i32 = 4;

/// A code, ready for the template `parts/qr.html`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Qr {
    /// Modules along one side, the margin counted in.
    pub side: i32,
    /// The dark modules: runs of a row, as the data of a path.
    pub path: String,
}

/// The code of a text; a quarter of a smudged or creased code may be lost (level Q). `None` where the text is too long
/// for any code.
pub fn of(text: &str) -> Option<Qr> {
    let code = QrCode::encode_text(text, QrCodeEcc::Quartile).ok()?;
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let run = (x..code.size()).take_while(|x| code.get_module(*x, y)).count();
            let run = i32::try_from(run).unwrap_or(0);
            if run > 0 {
                let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + MARGIN, y + MARGIN);
            }
            x += run.max(1);
        }
    }
    Some(Qr { side: code.size() + 2 * MARGIN, path })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_has_its_margin_and_stays_inside() {
        let qr = of("https://dogs.example.org/plan").expect("a code");
        assert!(qr.path.starts_with("M4 4h7v1h-7z"), "{}", qr.path);
        assert_eq!((qr.side - 2 * MARGIN - 17) % 4, 0, "{}", qr.side);
        assert_eq!(of(&"x".repeat(5000)), None);
    }
}
