//! Chance that comes out the same every time: SplitMix64 (Steele, Lea & Flood 2014, OOPSLA).

/// A stream of numbers that depends on its name alone.
#[derive(Debug, Clone)]
pub struct Chance(u64);

impl Chance {
    /// The stream of this name.
    pub fn of(name: &str) -> Self {
        // FNV-1a, so that neighbouring names begin far apart
        Self(name.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        }))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A share from 0 to just below 1.
    pub fn share(&mut self) -> f64 {
        f64::from(u32::try_from(self.next() >> 32).unwrap_or(0)) / 4_294_967_296.0
    }

    /// Whether something happens that happens this many times of a hundred.
    pub fn percent(&mut self, times: u8) -> bool {
        self.share() * 100.0 < f64::from(times)
    }

    /// A whole number from `low` to `high`, both among them.
    pub fn between(&mut self, low: i16, high: i16) -> i16 {
        let span = u64::try_from(high - low).unwrap_or(0) + 1;
        low + i16::try_from(self.next() % span).unwrap_or(0)
    }

    /// A place in a list of `length`, which must not be empty.
    pub fn index(&mut self, length: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(length.max(1)).unwrap_or(1)).unwrap_or(0)
    }

    /// Shuffles a list.
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.index(last + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_gives_the_same_stream_and_another_name_another() {
        let draw = |name| {
            let mut chance = Chance::of(name);
            [chance.next(), chance.next()]
        };
        assert_eq!(draw("nettle"), draw("nettle"));
        assert_ne!(draw("nettle"), draw("kettle"));
    }

    #[test]
    fn draws_stay_within_their_ranges() {
        let mut chance = Chance::of("ranges");
        let mut list: Vec<usize> = (0..20).collect();
        for _ in 0..2_000 {
            assert!((0.0..1.0).contains(&chance.share()));
            assert!((-2..=3).contains(&chance.between(-2, 3)));
            assert!(chance.index(7) < 7);
        }
        chance.shuffle(&mut list);
        list.sort_unstable();
        assert!(list.into_iter().eq(0..20));
    }
}
