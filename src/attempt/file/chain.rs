//! The chain of sums: from format 2 on each line ends with a sum over the previous line's sum and itself, so that an edited
//! file is named by its line. It stops editors, not programmers: nothing in it is secret.

use std::borrow::Cow;

use sha2::{Digest, Sha256};

use crate::{attempt::format::Format, exercise::Limits};

/// What stands before the sum of a line, and after the sum.
const BEFORE: &str = ",sum:\"";
const AFTER: &str = "\")";

/// How far the chain of a file has got.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chain {
    format: Format,
    /// The sum of the line before; empty before the first.
    last: String,
}

/// Why a line does not fit the chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Broken {
    /// It has no sum at its end.
    NoSum,
    /// Its sum is not the one that the line and the line before it give.
    OtherSum,
}

impl Chain {
    /// A chain with no line in it yet.
    pub const fn new(format: Format) -> Self {
        Self { format, last: String::new() }
    }

    /// A line as it goes into the file: with its sum, if the format has any, and a newline. `line` is one RON value on one
    /// line, without either.
    pub fn seal(&mut self, line: &str) -> String {
        if !self.format.has_sums() {
            return format!("{line}\n");
        }
        let body = line.strip_suffix(')').unwrap_or(line);
        self.last = sum(&self.last, body);
        format!("{body}{BEFORE}{}{AFTER}\n", self.last)
    }

    /// The line without its sum. The sum is checked against the line, and the next line continues from it.
    pub(super) fn open<'l>(&mut self, line: &'l str) -> Result<Cow<'l, str>, Broken> {
        if !self.format.has_sums() {
            return Ok(Cow::Borrowed(line));
        }
        let (body, stated) = split(line).ok_or(Broken::NoSum)?;
        if sum(&self.last, body) != stated {
            return Err(Broken::OtherSum);
        }
        stated.clone_into(&mut self.last);
        Ok(Cow::Owned(format!("{body})")))
    }
}

/// Splits a line that ends with a sum into the line without its sum and last bracket, and the sum.
pub(super) fn split(line: &str) -> Option<(&str, &str)> {
    let rest = line.strip_suffix(AFTER)?;
    let (body, sum) = rest.split_at_checked(rest.len().checked_sub(Limits::SUM_DIGITS)?)?;
    let is_sum = sum.bytes().all(|it| it.is_ascii_digit() || (b'a'..=b'f').contains(&it));
    Some((body.strip_suffix(BEFORE)?, sum)).filter(|_| is_sum)
}

/// The sum of a line, given without its last bracket, that follows a line with the sum `before`.
fn sum(before: &str, body: &str) -> String {
    let mut digest = Sha256::new();
    digest.update(before.as_bytes());
    digest.update(body.as_bytes());
    digest.update(b")");
    let mut digits = hexadecimal(&digest.finalize());
    digits.truncate(Limits::SUM_DIGITS);
    digits
}

/// SHA-256 of bytes, as 64 lower-case hexadecimal digits: what `sha256sum` prints for a file that holds them.
pub fn sha256(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

fn hexadecimal(bytes: &[u8]) -> String {
    let nibble = |it: u8| char::from_digit(u32::from(it), 16).unwrap_or_default();
    bytes.iter().flat_map(|it| [nibble(it >> 4), nibble(it & 15)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// "abc" is the published example of FIPS 180-4. The two sums were made by hand: `printf '%s' '(abc)' | sha256sum`, and
    /// then the same of the first sum with `(d)` after it.
    #[test]
    fn a_sum_is_what_sha256sum_says() {
        assert!(sha256(b"abc").starts_with("ba7816bf8f01cfea"));
        let mut chain = Chain::new(Format::Two);
        assert_eq!(chain.seal("(abc)"), "(abc,sum:\"553b917e3b4c8455\")\n");
        assert_eq!(chain.seal("(d)"), "(d,sum:\"61e66108a524b119\")\n");
        let mut plain = Chain::new(Format::One);
        assert_eq!(plain.seal("(abc)"), "(abc)\n");
    }

    #[test]
    fn only_a_sum_of_that_many_digits_at_the_very_end_is_one() {
        assert_eq!(split("(a:1,sum:\"0123456789abcdef\")"), Some(("(a:1", "0123456789abcdef")));
        for odd in [
            "(a:1)",
            "",
            "(a:1,sum:\"0123456789abcde\")",
            "(a:1,sum:\"00123456789abcdef\")",
            "(a:1,sum:\"0123456789ABCDEF\")",
            "(a:1,sum:\"0123456789abcdef\") ",
            "(a:1, sum:\"0123456789abcdef\")",
            "éééééééé\")",
        ] {
            assert_eq!(split(odd), None, "{odd}");
        }
    }
}
