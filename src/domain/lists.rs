//! Several things in one sentence.

/// "a", "a and b", "a, b and c"; empty for none.
pub fn in_a_sentence<S: AsRef<str>>(parts: &[S]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [earlier @ .., last] => {
            let earlier: Vec<&str> = earlier.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", earlier.join(", "), last.as_ref())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn things_are_joined_as_in_speech() {
        assert_eq!(in_a_sentence::<&str>(&[]), "");
        assert_eq!(in_a_sentence(&["a"]), "a");
        assert_eq!(in_a_sentence(&["a", "b"]), "a and b");
        assert_eq!(in_a_sentence(&["a", "b", "c"]), "a, b and c");
    }
}
