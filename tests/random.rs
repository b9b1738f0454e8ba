//! How random tests are drawn: the same cases on every machine, so that what fails here fails anywhere. `PROPTEST_CASES` asks for more.

use proptest::{collection::vec, prelude::*};

/// This number of cases, unless more are asked for.
pub fn cases(cases: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|it| it.parse().ok());
    ProptestConfig {
        cases: asked.unwrap_or(cases),
        failure_persistence: None,
        max_shrink_iters: 2000,
        ..ProptestConfig::default()
    }
}

/// A text of fewer than `below` of these characters.
pub fn text(of: &'static str, below: usize) -> impl Strategy<Value = String> {
    let characters: Vec<char> = of.chars().collect();
    vec(prop::sample::select(characters), 0..below).prop_map(String::from_iter)
}

/// Any text of fewer than `below` characters.
pub fn any_text(below: usize) -> impl Strategy<Value = String> {
    vec(any::<char>(), 0..below).prop_map(String::from_iter)
}
