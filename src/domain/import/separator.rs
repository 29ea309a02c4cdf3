//! How a file separates its fields, and whether its quotation marks close.

/// What may stand between two fields.
const SEPARATORS: [u8; 3] = [b',', b';', b'\t'];

/// The separator of the first row: the one that stands there most often outside quotation marks.
pub fn of(text: &str) -> u8 {
    let mut counts = [0_usize; SEPARATORS.len()];
    let mut quoted = false;
    for byte in text.trim_start_matches('\n').bytes() {
        match byte {
            b'"' => quoted = !quoted,
            b'\n' if !quoted => break,
            _ if quoted => {}
            _ => {
                if let Some(at) = SEPARATORS.iter().position(|separator| *separator == byte) {
                    counts[at] += 1;
                }
            }
        }
    }
    let most = counts.iter().copied().max().unwrap_or_default();
    counts.iter().position(|count| *count == most).map_or(b',', |at| SEPARATORS[at])
}

/// The line on which a field opens a quotation mark that never closes.
pub fn left_open(text: &str, separator: u8) -> Option<u64> {
    let (mut line, mut opened, mut at_start) = (1, None, true);
    let mut bytes = text.bytes().peekable();
    while let Some(byte) = bytes.next() {
        line += u64::from(byte == b'\n');
        if opened.is_some() {
            if byte == b'"' && bytes.next_if_eq(&b'"').is_none() {
                opened = None;
            }
            at_start = false;
        } else if byte == b'"' && at_start {
            opened = Some(line);
        } else {
            at_start = byte == separator || byte == b'\n';
        }
    }
    opened
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_row_says_what_separates() {
        assert_eq!(of("a,b;c,d\n1;2;3;4;5"), b',');
        assert_eq!(of("a;b;\"c,d,e,f\""), b';');
        assert_eq!(of("a\tb"), b'\t');
        assert_eq!(of("household"), b',');
        assert_eq!(of(""), b',');
    }

    #[test]
    fn a_quotation_mark_that_never_closes_is_found_on_its_line() {
        assert_eq!(left_open("a,b\n\"x\n\ny\",\"he said \"\"sit\"\"\"\n5\" tall,z\n", b','), None);
        assert_eq!(left_open("a,b\n\"x\ny\",1\n2,\"z\nq,q\n", b','), Some(4));
    }
}
