//! The exercises that come with the program: inside it, so that it works from an empty folder.

/// Id and scenario of each, in the order of their ids.
pub const SHIPPED: &[(&str, &str)] = &[
    ("one-way-rose", include_str!("../../exercises/one-way-rose/scenario.ron")),
    ("one-way-tested", include_str!("../../exercises/one-way-tested/scenario.ron")),
    ("two-way-passage", include_str!("../../exercises/two-way-passage/scenario.ron")),
    ("two-way-to-choose", include_str!("../../exercises/two-way-to-choose/scenario.ron")),
    ("wire-a-switch", include_str!("../../exercises/wire-a-switch/scenario.ron")),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{Seed, read};

    #[test]
    fn each_is_called_as_its_folder_and_they_stand_in_order() {
        for (id, text) in SHIPPED {
            assert_eq!(read(text, Seed(0)).unwrap().id, *id);
        }
        assert!(SHIPPED.is_sorted_by(|a, b| a.0 < b.0));
    }
}
