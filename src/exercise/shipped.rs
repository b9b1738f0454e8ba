//! The exercises that come with the program: inside it, so that it works from an empty folder.

/// Id and scenario of each, in the order of the curriculum.
pub const SHIPPED: &[(&str, &str)] = &[
    ("make-off-a-box", include_str!("../../exercises/make-off-a-box/scenario.ron")),
    ("wire-a-switch", include_str!("../../exercises/wire-a-switch/scenario.ron")),
    ("rose-with-onward-feed", include_str!("../../exercises/rose-with-onward-feed/scenario.ron")),
    ("one-way-rose", include_str!("../../exercises/one-way-rose/scenario.ron")),
    ("two-way-passage", include_str!("../../exercises/two-way-passage/scenario.ron")),
    ("one-way-tested", include_str!("../../exercises/one-way-tested/scenario.ron")),
    ("two-way-to-choose", include_str!("../../exercises/two-way-to-choose/scenario.ron")),
];

/// The one to begin with: the shortest way to a first light.
pub const FIRST: &str = "wire-a-switch";

/// The scenario of that id.
pub fn shipped(id: &str) -> Option<&'static str> {
    SHIPPED.iter().find(|(shipped, _)| *shipped == id).map(|(_, text)| *text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{Seed, read};

    #[test]
    fn each_is_called_as_its_folder_and_stands_there_once() {
        for (place, (id, text)) in SHIPPED.iter().enumerate() {
            assert_eq!(read(text, Seed(0)).unwrap().id, *id);
            assert!(SHIPPED[..place].iter().all(|it| it.0 != *id), "{id}");
        }
        assert!(shipped(FIRST).is_some_and(|it| it.contains("supply: Bench")));
    }
}
