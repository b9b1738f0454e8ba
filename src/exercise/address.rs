//! Finding the nearest valid name for one that is wrong.

/// The candidate most like `found`, if it is near enough to be worth offering.
pub fn nearest<'a>(found: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<String> {
    /// Below this likeness a suggestion misleads more often than it helps (tried on our own slips of the pen).
    const NEAR_ENOUGH: f64 = 0.7;
    candidates
        .into_iter()
        .map(|it| (strsim::jaro_winkler(found, it), it))
        .filter(|(likeness, _)| *likeness >= NEAR_ENOUGH)
        .max_by(|a, b| a.0.total_cmp(&b.0).then_with(|| b.1.cmp(a.1)))
        .map(|(_, it)| it.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_pen_finds_its_word_and_nonsense_finds_none() {
        assert_eq!(nearest("wset", ["west", "east", "rose"]), Some("west".to_owned()));
        assert_eq!(nearest("zzz", ["west", "east", "rose"]), None);
    }
}
