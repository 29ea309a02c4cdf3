//! What a household agrees to before the first lesson. The text has a version, and a signed one is kept whole.

/// The version of the text below: raise it with every change of a word.
pub const TEXT_VERSION: i32 = 1;

/// One thing agreed to, with its own tick.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clause {
    /// The form's field, and what is kept.
    pub key: &'static str,
    /// What the person reads beside the tick.
    pub text: &'static str,
}

/// Everything agreed to, in order.
pub const CLAUSES: &[Clause] = &[
    Clause {
        key: "records",
        text: "You may keep what we tell you about our dog and our home, to plan and look back on our lessons.",
    },
    Clause {
        key: "photos",
        text: "You may take photos and films in lessons, for us and for your own notes. They are shown to nobody else without asking us.",
    },
    Clause {
        key: "no_vet",
        text: "We know that a trainer is no vet. For pain, illness or a sudden change we ring our vet.",
    },
    Clause {
        key: "cautions",
        text: "We read the cautions that come with a plan before we practise, and we stop when one says so.",
    },
];

/// The text as it is kept with a signature.
pub fn whole_text() -> String {
    CLAUSES.iter().map(|clause| clause.text).collect::<Vec<_>>().join("\n\n")
}

/// The clauses that were not ticked.
pub fn missing(agreed: &[&str]) -> Vec<Clause> {
    CLAUSES.iter().copied().filter(|clause| !agreed.contains(&clause.key)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_clause_needs_its_own_tick() {
        let all: Vec<&str> = CLAUSES.iter().map(|clause| clause.key).collect();
        assert_eq!(missing(&all), []);
        for (at, clause) in CLAUSES.iter().enumerate() {
            let mut but_one = all.clone();
            but_one.remove(at);
            assert_eq!(missing(&but_one), [*clause]);
        }
    }
}
