//! A short code that the tutor hands to one learner alone: extra time, and another seed.
//!
//! Six characters: three for the minutes, one for the seed, two that check. The check is that of ISO/IEC 7064, MOD 1271-36: it
//! catches every single wrong character and every two neighbours that were exchanged. Before the four characters the
//! calculation puts four more that follow from the assignment and the learner's number and are never written: a neighbour's code
//! is caught in 1270 of 1271 cases. It keeps nobody out who has the assignment's file and this program, which makes codes; review says that one was used, and its minutes.

use super::learner::digest_of;

/// The characters, each of which stands for its place here (ISO/IEC 7064, table of MOD 1271-36).
const CHARACTERS: &[u8; 36] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const RADIX: u32 = 36;
/// The modulus of that system.
const MODULUS: u32 = 1271;
/// Characters that follow from assignment and learner.
const HIDDEN: usize = 4;
/// Characters that say something.
const SAYING: usize = 4;
/// Characters of a code.
const LENGTH: usize = SAYING + 2;

/// What one learner gets that the others do not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Adjustment {
    minutes: u32,
    draw: u32,
}

impl Adjustment {
    /// Most minutes of extra time: what three characters hold, a little over 32 days.
    pub const MINUTES: u32 = RADIX * RADIX * RADIX - 1;
    /// The highest number of another draw.
    pub const DRAW: u32 = RADIX - 1;

    /// Extra minutes before the work is late, and which draw the seed comes from: 0 is the first, that of everybody. `None`: more than a
    /// code can say.
    pub fn new(minutes: u32, draw: u32) -> Option<Self> {
        (minutes <= Self::MINUTES && draw <= Self::DRAW).then_some(Self { minutes, draw })
    }

    /// Extra minutes before the work is late.
    pub const fn minutes(self) -> u32 {
        self.minutes
    }

    /// Which draw the seed comes from.
    pub const fn draw(self) -> u32 {
        self.draw
    }

    /// Its code for that learner in that assignment, in two groups of three.
    pub fn code(self, assignment: &str, learner: u64) -> String {
        let Self { minutes, draw } = self;
        let said = [minutes / (RADIX * RADIX), minutes / RADIX % RADIX, minutes % RADIX, draw];
        let hidden = hidden(assignment, learner);
        let (first, second) = check(hidden.into_iter().chain(said));
        let all: String = said.into_iter().chain([first, second]).map(character).collect();
        format!("{}-{}", &all[..LENGTH / 2], &all[LENGTH / 2..])
    }

    /// What a code says to that learner in that assignment; small letters, blanks and hyphens are as good. `None`: it belongs to
    /// somebody else, or was mistyped.
    pub fn of(code: &str, assignment: &str, learner: u64) -> Option<Self> {
        // No more of it is kept than shows that it is too long.
        let typed = code.chars().filter(|it| !matches!(it, ' ' | '-')).take(LENGTH + 1);
        let values: Vec<u32> = typed.map(value).collect::<Option<_>>()?;
        let [a, b, c, draw, _, _] = values[..] else { return None };
        let all = hidden(assignment, learner).into_iter().chain(values.iter().copied());
        let remainder = all.fold(0, |so_far, it| (so_far * RADIX + it) % MODULUS);
        (remainder == 1).then_some(Self { minutes: (a * RADIX + b) * RADIX + c, draw })
    }
}

/// The two characters that ISO/IEC 7064, MOD 1271-36, puts after a text of digits and capitals; `None`: it has something else in it.
pub fn check_characters(text: &str) -> Option<String> {
    let values: Vec<u32> = text.chars().map(value).collect::<Option<_>>()?;
    let (first, second) = check(values.into_iter());
    Some([first, second].map(character).iter().collect())
}

/// With these two after it, the whole number leaves 1 when it is divided by the modulus.
fn check(values: impl Iterator<Item = u32>) -> (u32, u32) {
    let remainder = values.fold(0, |so_far, it| (so_far * RADIX + it) % MODULUS);
    let wanted = (MODULUS + 1 - remainder * RADIX * RADIX % MODULUS) % MODULUS;
    (wanted / RADIX, wanted % RADIX)
}

fn hidden(assignment: &str, learner: u64) -> [u32; HIDDEN] {
    let digest = digest_of("adjustment", assignment, learner, "", 0);
    std::array::from_fn(|it| u32::from(digest[it]) % RADIX)
}

fn character(value: u32) -> char {
    CHARACTERS.get(value as usize).copied().map_or('?', char::from)
}

fn value(character: char) -> Option<u32> {
    character.is_ascii().then(|| character.to_digit(RADIX)).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/IEC 7064:2003, 8.2: the check characters of ISO79 come to 140, which is 3 x 36 + 32.
    #[test]
    fn the_check_is_that_of_the_standards_example() {
        assert_eq!(check_characters("ISO79").as_deref(), Some("3W"));
        assert_eq!(check_characters("ISO 79"), None);
    }

    #[test]
    fn a_code_says_what_was_put_into_it() {
        for minutes in [0, 1, 25, 35, 36, 1440, 10_080, Adjustment::MINUTES] {
            for draw in [0, 1, Adjustment::DRAW] {
                let given = Adjustment::new(minutes, draw).unwrap();
                let code = given.code("autumn", 7);
                assert_eq!(Adjustment::of(&code, "autumn", 7), Some(given), "{code}");
                assert_eq!(Adjustment::of(&code.to_lowercase().replace('-', " "), "autumn", 7), Some(given));
                assert_eq!((given.minutes(), given.draw()), (minutes, draw));
            }
        }
        assert_eq!(Adjustment::new(Adjustment::MINUTES + 1, 0), None);
        assert_eq!(Adjustment::new(0, Adjustment::DRAW + 1), None);
        for none in
            ["", "-", "02S", "02S0K7X", "02S-0K7-", "é2S-0K7", "02S_0K7", "0000000000000000000000000000000000000"]
        {
            assert_eq!(Adjustment::of(none, "autumn", 7), None, "{none}");
        }
    }

    /// Every character of many codes replaced by every other, and every two neighbours exchanged.
    #[test]
    fn no_single_wrong_character_and_no_exchange_of_neighbours_goes_through() {
        let mut tried = 0;
        for number in 0..400 {
            let given = Adjustment::new(number * 116, number % 36).unwrap();
            let plain = given.code("autumn", 7).replace('-', "");
            for at in 0..LENGTH {
                for other in CHARACTERS {
                    let mut wrong = plain.clone().into_bytes();
                    wrong[at] = *other;
                    let wrong = String::from_utf8(wrong).unwrap();
                    if wrong != plain {
                        assert_eq!(Adjustment::of(&wrong, "autumn", 7), None, "{plain} {wrong}");
                        tried += 1;
                    }
                }
                let mut swapped: Vec<char> = plain.chars().collect();
                if at + 1 < LENGTH && swapped[at] != swapped[at + 1] {
                    swapped.swap(at, at + 1);
                    let swapped: String = swapped.into_iter().collect();
                    assert_eq!(Adjustment::of(&swapped, "autumn", 7), None, "{plain} {swapped}");
                    tried += 1;
                }
            }
        }
        assert!(tried > 400 * LENGTH * 35, "{tried}");
    }

    /// One of 1271 goes through by chance: of 2,000 learners no more than a handful may.
    #[test]
    fn a_neighbours_code_is_nobody_elses() {
        let code = Adjustment::new(25, 0).unwrap().code("autumn", 7);
        let theirs = (8..2008).filter(|it| Adjustment::of(&code, "autumn", *it).is_some()).count();
        assert!(theirs <= 8, "{theirs}");
        assert_eq!(Adjustment::of(&code, "spring", 7), None);
    }
}
