//! General words, said in turn so that a trainer does not repeat themselves over one dog.

use std::collections::HashMap;

/// How often each list was drawn from, by its first words.
#[derive(Debug)]
pub(super) struct Told {
    begin: usize,
    said: HashMap<&'static str, usize>,
}

impl Told {
    /// Nothing said yet; lists are begun at a place of this dog's own.
    pub(super) fn of(dog: &str) -> Self {
        Self { begin: dog.bytes().map(usize::from).sum(), said: HashMap::new() }
    }

    /// The next words of a list; from the beginning again when all were said.
    pub(super) fn next(&mut self, list: &'static [&'static str]) -> &'static str {
        let Some(first) = list.first() else { return "" };
        let said = self.said.entry(first).or_default();
        *said += 1;
        list[(self.begin + *said) % list.len()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_go_round_each_on_its_own() {
        let mut told = Told::of("a");
        let (two, one): (&'static [&'static str], &'static [&'static str]) = (&["a", "b"], &["c"]);
        assert_eq!([told.next(two), told.next(one), told.next(two), told.next(two)], ["a", "c", "b", "a"]);
        assert_eq!(told.next(&[]), "");
    }
}
