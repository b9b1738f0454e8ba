//! The exercises that come with the program: inside it, so that it works from an empty folder.

/// Id and scenario of each, in the order in which they should be done. This is the one place that says so: `list` and the
/// window's first screen follow it, and the tests hold README to it.
pub const SHIPPED: &[(&str, &str)] = &[
    ("wire-a-switch", include_str!("../../exercises/wire-a-switch/scenario.ron")),
    ("what-is-live", include_str!("../../exercises/what-is-live/scenario.ron")),
    ("which-terminal", include_str!("../../exercises/which-terminal/scenario.ron")),
    ("make-off-a-box", include_str!("../../exercises/make-off-a-box/scenario.ron")),
    ("last-rose", include_str!("../../exercises/last-rose/scenario.ron")),
    ("rose-with-onward-feed", include_str!("../../exercises/rose-with-onward-feed/scenario.ron")),
    ("loose-crushed-nicked", include_str!("../../exercises/loose-crushed-nicked/scenario.ron")),
    ("sleeve-or-not", include_str!("../../exercises/sleeve-or-not/scenario.ron")),
    ("table-three-core", include_str!("../../exercises/table-three-core/scenario.ron")),
    ("two-way-three-core", include_str!("../../exercises/two-way-three-core/scenario.ron")),
    ("table-strappers", include_str!("../../exercises/table-strappers/scenario.ron")),
    ("two-way-strappers", include_str!("../../exercises/two-way-strappers/scenario.ron")),
    ("dead-lamp", include_str!("../../exercises/dead-lamp/scenario.ron")),
    ("one-setting-wrong", include_str!("../../exercises/one-setting-wrong/scenario.ron")),
    ("too-high-a-reading", include_str!("../../exercises/too-high-a-reading/scenario.ron")),
    ("half-the-settings", include_str!("../../exercises/half-the-settings/scenario.ron")),
    ("isolation-drill", include_str!("../../exercises/isolation-drill/scenario.ron")),
    ("one-way-rose", include_str!("../../exercises/one-way-rose/scenario.ron")),
    ("which-cable", include_str!("../../exercises/which-cable/scenario.ron")),
    ("junction-box", include_str!("../../exercises/junction-box/scenario.ron")),
    ("loop-at-the-switch", include_str!("../../exercises/loop-at-the-switch/scenario.ron")),
    ("two-lamps-one-switch", include_str!("../../exercises/two-lamps-one-switch/scenario.ron")),
    ("two-gang-link", include_str!("../../exercises/two-gang-link/scenario.ron")),
    ("two-way-passage", include_str!("../../exercises/two-way-passage/scenario.ron")),
    ("intermediate-com", include_str!("../../exercises/intermediate-com/scenario.ron")),
    ("intermediate-strappers", include_str!("../../exercises/intermediate-strappers/scenario.ron")),
    ("one-dimmer-two-places", include_str!("../../exercises/one-dimmer-two-places/scenario.ron")),
    ("plate-to-metal", include_str!("../../exercises/plate-to-metal/scenario.ron")),
    ("on-a-cord", include_str!("../../exercises/on-a-cord/scenario.ron")),
    ("new-beside-old", include_str!("../../exercises/new-beside-old/scenario.ron")),
    ("two-way-to-choose", include_str!("../../exercises/two-way-to-choose/scenario.ron")),
    ("one-way-tested", include_str!("../../exercises/one-way-tested/scenario.ron")),
];

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
    }

    /// Whoever begins has nothing to isolate: the practice boards come first.
    #[test]
    fn the_practice_boards_come_before_the_work_on_a_supply() {
        let boards: Vec<bool> = SHIPPED.iter().map(|it| it.1.contains("supply: Bench")).collect();
        assert!(boards[0] && boards.is_sorted_by(|before, after| before >= after), "{boards:?}");
    }

    #[test]
    fn readme_names_them_in_that_order() {
        let readme = include_str!("../../README.md");
        let (_, learning) = readme.split_once("**If you are learning:**").unwrap();
        let places: Vec<usize> = SHIPPED
            .iter()
            .map(|it| {
                learning
                    .find(&format!("`{}`", it.0))
                    .unwrap_or_else(|| panic!("README does not name `{}` under *If you are learning*", it.0))
            })
            .collect();
        assert!(places.is_sorted(), "{places:?}");
    }
}
