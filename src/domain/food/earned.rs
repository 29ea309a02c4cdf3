//! Food earned in training over seven days: pieces × grams × kcal a gram.
//!
//! Only *extras* count against the day: food that comes out of the main meals is set aside. What cannot be counted
//! is named, never taken for nothing.

/// Days that are looked at together.
pub const DAYS: u8 = 7;

/// What was paid with in one sitting, or in several with the same reinforcer. `None` means not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Paid {
    /// The reinforcer, in words.
    pub what: Option<String>,
    /// Pieces: times the marker was paid, else attempts that met the criterion.
    pub pieces: Option<i64>,
    /// Grams in one piece.
    pub grams_per_piece: Option<f64>,
    /// Energy, kcal a gram.
    pub kcal_per_g: Option<f64>,
    /// Whether it is a toy or game.
    pub is_toy: bool,
    /// Whether it comes out of the main meals; not stated counts as an extra.
    pub from_meals: Option<bool>,
}

/// One reinforcer and what was earned with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    /// The reinforcer, in words.
    pub what: String,
    /// Pieces over the seven days.
    pub pieces: i64,
    /// Grams in one piece.
    pub grams_per_piece: f64,
    /// Energy, kcal a gram.
    pub kcal_per_g: f64,
}

impl Source {
    /// Energy over the seven days, kcal.
    pub fn kcal(&self) -> f64 {
        self.pieces as f64 * self.kcal_per_piece()
    }

    /// Energy of one piece, kcal.
    pub fn kcal_per_piece(&self) -> f64 {
        self.grams_per_piece * self.kcal_per_g
    }

    /// Weight over the seven days, grams.
    pub fn grams(&self) -> f64 {
        self.pieces as f64 * self.grams_per_piece
    }
}

/// Why food could not be counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum NotCounted {
    /// The log names no reinforcer.
    Unnamed,
    /// Nobody said how many were given.
    Pieces,
    /// The weight of a piece is not stated.
    Grams,
    /// The energy of the food is not stated.
    Energy,
}

impl NotCounted {
    /// What is missing, in words.
    pub fn label(self) -> &'static str {
        match self {
            Self::Unnamed => "the plan does not say what is paid with",
            Self::Pieces => "how many were given is not stated",
            Self::Grams => "the weight of a piece is not stated",
            Self::Energy => "the energy is not stated",
        }
    }
}

/// Food that could not be counted.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Uncounted {
    /// The reinforcer, in words; "something" where none is named.
    pub what: String,
    /// Why.
    pub why: NotCounted,
}

/// What was earned over seven days.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Earned {
    /// The extras, the biggest contributor first.
    pub sources: Vec<Source>,
    /// What came out of the main meals, in words.
    pub from_meals: Vec<String>,
    /// What could not be counted, each once.
    pub not_counted: Vec<Uncounted>,
}

impl Uncounted {
    /// "cheddar: its energy is not stated", or "some of the cheddar: …" where other sittings of it were counted.
    pub fn in_words(&self, counted: &[Source]) -> String {
        let is_counted = counted.iter().any(|source| source.what == self.what);
        let some = if is_counted { "some of the " } else { "" };
        format!("{some}{}: {}", self.what, self.why.label())
    }
}

impl Earned {
    /// Energy of the extras over the seven days, kcal.
    pub fn kcal(&self) -> f64 {
        self.sources.iter().map(Source::kcal).sum()
    }

    /// Energy of the extras on a day of the seven, kcal.
    pub fn kcal_a_day(&self) -> f64 {
        self.kcal() / f64::from(DAYS)
    }

    /// The reinforcer that brought the most.
    pub fn biggest(&self) -> Option<&Source> {
        self.sources.first()
    }

    /// What could not be counted, each in words.
    pub fn not_counted_in_words(&self) -> Vec<String> {
        self.not_counted.iter().map(|one| one.in_words(&self.sources)).collect()
    }

    /// Whether there is nothing to say.
    pub fn is_empty(&self) -> bool {
        self.sources.is_empty() && self.from_meals.is_empty() && self.not_counted.is_empty()
    }
}

/// Adds up what was paid. Toys are no food.
pub fn earned(paid: &[Paid]) -> Earned {
    let mut earned = Earned::default();
    for one in paid.iter().filter(|one| !one.is_toy) {
        let what = one.what.as_deref().map(str::trim).filter(|what| !what.is_empty());
        if let (Some(what), Some(true)) = (what, one.from_meals) {
            earned.from_meals.push(what.to_owned());
            continue;
        }
        match source(what, one) {
            Ok(source) => add(&mut earned.sources, source),
            Err(why) => {
                earned.not_counted.push(Uncounted { what: what.unwrap_or("something").to_owned(), why })
            }
        }
    }
    earned.sources.retain(|source| source.pieces > 0);
    earned.sources.sort_by(|a, b| b.kcal().total_cmp(&a.kcal()).then_with(|| a.what.cmp(&b.what)));
    earned.from_meals.sort();
    earned.from_meals.dedup();
    earned.not_counted.sort();
    earned.not_counted.dedup();
    earned
}

fn source(what: Option<&str>, paid: &Paid) -> Result<Source, NotCounted> {
    let above_zero = |value: Option<f64>| value.filter(|value| value.is_finite() && *value > 0.0);
    Ok(Source {
        what: what.ok_or(NotCounted::Unnamed)?.to_owned(),
        pieces: paid.pieces.filter(|pieces| *pieces >= 0).ok_or(NotCounted::Pieces)?,
        grams_per_piece: above_zero(paid.grams_per_piece).ok_or(NotCounted::Grams)?,
        kcal_per_g: above_zero(paid.kcal_per_g).ok_or(NotCounted::Energy)?,
    })
}

/// Adds a source to those of the same food and size.
fn add(sources: &mut Vec<Source>, new: Source) {
    let same = sources.iter_mut().find(|source| {
        source.what == new.what
            && source.grams_per_piece == new.grams_per_piece
            && source.kcal_per_g == new.kcal_per_g
    });
    match same {
        Some(source) => source.pieces = source.pieces.saturating_add(new.pieces),
        None => sources.push(new),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn cheddar(pieces: i64) -> Paid {
        Paid {
            what: Some("Cheddar".to_owned()),
            pieces: Some(pieces),
            grams_per_piece: Some(0.5),
            kcal_per_g: Some(4.03),
            ..Paid::default()
        }
    }

    /// A 0.5 g cube of cheddar is 2.0 kcal (USDA SR 01009: 403 kcal/100 g).
    #[test]
    fn pieces_times_grams_times_energy() {
        let earned = earned(&[cheddar(31), cheddar(10)]);
        assert_eq!(earned.sources.len(), 1, "one food, one line");
        assert!((earned.sources[0].kcal_per_piece() - 2.015).abs() < 1e-9);
        assert!((earned.kcal() - 41.0 * 2.015).abs() < 1e-9);
        assert!((earned.kcal_a_day() - 41.0 * 2.015 / 7.0).abs() < 1e-9);
        assert!((earned.sources[0].grams() - 20.5).abs() < 1e-9);
    }

    #[test]
    fn main_meals_and_toys_are_no_extras() {
        let kibble = Paid { what: Some("Her dinner".to_owned()), from_meals: Some(true), ..cheddar(90) };
        let tug = Paid { what: Some("Tug".to_owned()), is_toy: true, ..cheddar(5) };
        let counted = earned(&[kibble.clone(), tug]);
        assert_eq!((counted.kcal(), counted.from_meals), (0.0, vec!["Her dinner".to_owned()]));
        let not_stated = earned(&[Paid { from_meals: None, ..kibble }]);
        assert!(not_stated.kcal() > 0.0, "not stated counts as an extra");
    }

    #[test]
    fn what_cannot_be_counted_is_named_and_said_once() {
        let paid = [
            Paid { pieces: None, ..cheddar(1) },
            Paid { grams_per_piece: None, ..cheddar(1) },
            Paid { kcal_per_g: None, ..cheddar(1) },
            Paid { kcal_per_g: Some(f64::NAN), ..cheddar(1) },
            Paid { what: Some("  ".to_owned()), ..cheddar(1) },
        ];
        let earned = earned(&paid);
        assert!(earned.sources.is_empty());
        let why: Vec<NotCounted> = earned.not_counted.iter().map(|one| one.why).collect();
        assert_eq!(why, [NotCounted::Pieces, NotCounted::Grams, NotCounted::Energy, NotCounted::Unnamed]);
        assert_eq!(earned.not_counted[3].what, "something");
    }

    #[test]
    fn the_biggest_contributor_stands_first() {
        let carrot = Paid { what: Some("Carrot".to_owned()), kcal_per_g: Some(0.41), ..cheddar(60) };
        let earned = earned(&[carrot, cheddar(7)]);
        assert_eq!(earned.biggest().map(|source| source.what.as_str()), Some("Cheddar"));
    }

    pub(in crate::domain::food) fn any_paid() -> impl Strategy<Value = Paid> {
        (
            proptest::option::of("[a-c ]{0,3}"),
            proptest::option::of(any::<i64>()),
            proptest::option::of(any::<f64>()),
            proptest::option::of(any::<f64>()),
            any::<bool>(),
            any::<Option<bool>>(),
        )
            .prop_map(|(what, pieces, grams_per_piece, kcal_per_g, is_toy, from_meals)| Paid {
                what,
                pieces,
                grams_per_piece,
                kcal_per_g,
                is_toy,
                from_meals,
            })
    }

    proptest! {
        #[test]
        fn nothing_panics_and_nothing_is_lost(paid in proptest::collection::vec(any_paid(), 0..12)) {
            let earned = earned(&paid);
            prop_assert!(earned.kcal() >= 0.0);
            for one in paid.iter().filter(|one| !one.is_toy && one.pieces != Some(0)) {
                let what = one.what.as_deref().unwrap_or("").trim();
                let said = earned.sources.iter().any(|source| source.what == what)
                    || earned.from_meals.iter().any(|meal| meal == what)
                    || earned.not_counted.iter().any(|un| un.what == what || un.what == "something");
                prop_assert!(said, "{one:?} is nowhere");
            }
        }
    }
}
