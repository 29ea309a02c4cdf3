//! The scales from one to five, in words. Common practice.

/// How distracting a place is: the level and what it looks like.
pub const DISTRACTION: [(i16, &str); 5] = [
    (1, "home, nothing on"),
    (2, "garden or quiet street"),
    (3, "quiet park"),
    (4, "busy park"),
    (5, "trigger close"),
];

/// How much a dog wants a reinforcer: the rank and what it looks like.
pub const REINFORCER: [(i16, &str); 5] = [
    (5, "leaves anything for it"),
    (4, "works hard for it, even in busy places"),
    (3, "works for it in quiet places outdoors"),
    (2, "works for it at home"),
    (1, "takes it when nothing else is on"),
];

/// What a level of distraction looks like; empty for a level that is none.
pub fn distraction(level: i16) -> &'static str {
    in_words(&DISTRACTION, level)
}

/// What a reinforcer's rank looks like; empty for a rank that is none.
pub fn reinforcer(rank: i16) -> &'static str {
    in_words(&REINFORCER, rank)
}

fn in_words(scale: &[(i16, &'static str)], value: i16) -> &'static str {
    scale.iter().find(|(v, _)| *v == value).map_or("", |(_, words)| words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_level_has_words_and_no_other() {
        for level in 1..=5 {
            assert!(!distraction(level).is_empty() && !reinforcer(level).is_empty());
        }
        assert_eq!((distraction(0), reinforcer(6)), ("", ""));
    }
}
