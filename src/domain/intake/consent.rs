//! What a household agrees to before the first lesson. The text has a version, and a signed one is kept whole, tick by tick.

/// The version of the text below: raise it with every change of a word.
pub const TEXT_VERSION: i16 = 1;

/// One thing agreed to, with its own tick.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clause {
    /// The form's field, and what is kept.
    pub key: &'static str,
    /// What the person reads beside the tick.
    pub text: &'static str,
    /// Whether lessons need it. The others may be left open and change nothing else.
    pub needed: bool,
}

/// Everything agreed to, in order. A draft of common practice: a practice has its own lawyer look at it.
pub const CLAUSES: &[Clause] = &[
    Clause {
        key: "records",
        text: "You may keep what we tell you about our dog and our home, to plan our lessons and to look back on them.",
        needed: true,
    },
    Clause {
        key: "no_vet",
        text: "We know that a trainer is no vet. For pain, illness or a sudden change we ring our vet.",
        needed: true,
    },
    Clause {
        key: "cautions",
        text: "We read the cautions that come with a plan before we practise, and we stop when our dog is worried or hurt.",
        needed: true,
    },
    Clause {
        key: "vet",
        text: "You may talk with our vet about our dog, and show them what is in these records.",
        needed: false,
    },
    Clause {
        key: "photos",
        text: "You may take photos and films in lessons, for us and for your own notes. Nobody else is shown them without asking us.",
        needed: false,
    },
    Clause {
        key: "others",
        text: "People whom we name to you may practise with our dog and read its plan.",
        needed: false,
    },
    Clause {
        key: "muzzle",
        text: "Where it keeps everybody safe, you may ask for a muzzle in lessons that our dog has learnt to wear happily.",
        needed: false,
    },
];

/// The clauses without which there are no lessons and that were not ticked.
pub fn missing(agreed: &[&str]) -> Vec<Clause> {
    CLAUSES.iter().copied().filter(|clause| clause.needed && !agreed.contains(&clause.key)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_needed_clause_needs_its_own_tick() {
        let all: Vec<&str> = CLAUSES.iter().map(|clause| clause.key).collect();
        assert_eq!(missing(&all), []);
        for (at, clause) in CLAUSES.iter().enumerate() {
            let mut but_one = all.clone();
            but_one.remove(at);
            let wanted: &[Clause] = if clause.needed { &[*clause] } else { &[] };
            assert_eq!(missing(&but_one), wanted);
        }
    }
}
