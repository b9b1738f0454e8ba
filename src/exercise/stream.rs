//! Named streams of random numbers: one for each thing that varies, so that adding one leaves the others as they were.

use rand::{Rng, SeedableRng, rngs::ChaCha8Rng};
use sha2::{Digest, Sha256};

use super::variant::Seed;

/// A stream of numbers fixed by format version, scenario, seed and the name of the thing that varies.
#[derive(Debug)]
pub struct Stream(ChaCha8Rng);

impl Stream {
    /// The stream of that name. Each part is preceded by its length, so no two lists of parts run together alike.
    pub fn new(format: u32, scenario: &str, seed: Seed, name: &str) -> Self {
        let mut digest = Sha256::new();
        digest.update(format.to_le_bytes());
        digest.update((scenario.len() as u64).to_le_bytes());
        digest.update(scenario.as_bytes());
        digest.update(seed.0.to_le_bytes());
        digest.update((name.len() as u64).to_le_bytes());
        digest.update(name.as_bytes());
        Self(ChaCha8Rng::from_seed(digest.finalize().into()))
    }

    /// A whole number below `n`, each equally likely; 0 when `n` is 0. Numbers that would favour the small are drawn
    /// again.
    pub fn below(&mut self, n: u32) -> u32 {
        if n == 0 {
            return 0;
        }
        let fair = u32::MAX - u32::MAX % n;
        loop {
            let drawn = self.0.next_u32();
            if drawn < fair {
                return drawn % n;
            }
        }
    }

    /// Puts `items` in random order (Fisher and Yates, from the last down).
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for last in (1..items.len()).rev() {
            items.swap(last, self.below(last as u32 + 1) as usize);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ChaCha8 with an all-zero key and nonce, keystream block 0: the test vector of the eSTREAM ChaCha specification
    /// as repeated in an IETF draft of test vectors (draft-strombergson-chacha-test-vectors, TC1, 8 rounds, 256 bits):
    /// 3e00ef2f895f40d6 7f5bb8e81f09a5a1...
    #[test]
    fn the_generator_gives_the_published_key_stream() {
        let mut generator = ChaCha8Rng::from_seed([0; 32]);
        let bytes: Vec<u8> = (0..4).flat_map(|_| generator.next_u32().to_le_bytes()).collect();
        let published =
            [0x3e, 0x00, 0xef, 0x2f, 0x89, 0x5f, 0x40, 0xd6, 0x7f, 0x5b, 0xb8, 0xe8, 0x1f, 0x09, 0xa5, 0xa1];
        assert_eq!(bytes, published);
    }

    #[test]
    fn streams_of_different_names_differ_and_of_the_same_name_agree() {
        let draw = |name: &str| {
            let mut stream = Stream::new(1, "rose", Seed(7), name);
            (0..8).map(|_| stream.below(1000)).collect::<Vec<_>>()
        };
        assert_eq!(draw("length of feed"), draw("length of feed"));
        assert_ne!(draw("length of feed"), draw("length of drop"));
    }

    /// Knuth, The Art of Computer Programming, volume 2, 3.3.1: the chi-square statistic of 6,000 throws of a die has
    /// 5 degrees of freedom; 20.5 is passed by chance once in a thousand.
    #[test]
    fn below_is_even_by_the_chi_square_test() {
        let mut stream = Stream::new(1, "die", Seed(1), "throws");
        let mut counts = [0_u32; 6];
        for _ in 0..6000 {
            counts[stream.below(6) as usize] += 1;
        }
        let chi: f64 = counts.iter().map(|it| (f64::from(*it) - 1000.0).powi(2) / 1000.0).sum();
        assert!(chi < 20.5, "{counts:?} {chi}");
    }

    #[test]
    fn a_shuffle_keeps_every_item() {
        let mut items: Vec<u8> = (0..20).collect();
        Stream::new(1, "cards", Seed(3), "deal").shuffle(&mut items);
        assert_ne!(items, (0..20).collect::<Vec<_>>());
        items.sort_unstable();
        assert_eq!(items, (0..20).collect::<Vec<_>>());
    }
}
