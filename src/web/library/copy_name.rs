//! What a copy is called.

use std::collections::HashSet;

/// The most characters of a name.
const MOST: usize = 120;

/// "Come (2)": the name with the first number that nobody has, cut where it would be too long. A copy of "Come (2)" is
/// "Come (3)".
pub fn copy_name(name: &str, taken: &HashSet<String>) -> String {
    let base = match name.rsplit_once(" (") {
        Some((base, number)) if number.strip_suffix(')').is_some_and(is_number) => base,
        _ => name,
    };
    let mut number = 2_u32;
    loop {
        let end = format!(" ({number})");
        let kept: String = base.chars().take(MOST - end.chars().count()).collect();
        let copy = format!("{}{end}", kept.trim_end());
        if !taken.contains(&copy) {
            return copy;
        }
        number += 1;
    }
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.len() < 6 && text.bytes().all(|byte| byte.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_has_the_first_free_number() {
        let taken: HashSet<String> = ["Come", "Come (2)", "Come (3)", "Sit (now)"].map(str::to_owned).into();
        assert_eq!(copy_name("Come", &taken), "Come (4)");
        assert_eq!(copy_name("Come (2)", &taken), "Come (4)");
        assert_eq!(copy_name("Sit (now)", &taken), "Sit (now) (2)");
        let long = "ü".repeat(120);
        assert_eq!(copy_name(&long, &taken).chars().count(), 120);
    }
}
