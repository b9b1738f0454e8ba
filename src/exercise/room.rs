//! The rooms of a house cut open: what is drawn behind the places of the work. Nothing of the wiring depends on them.

use serde::{Deserialize, Serialize};

use super::{table::LocationId, tables::Exercise};

/// A rectangle of a house cut open, in the units of [`super::Location::at`]: x to the right, y downwards, from
/// -[`super::Limits::ROOM_UNITS`] to that. Two rooms may share a wall but no more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Room {
    /// What people call it.
    pub name: String,
    /// What it looks like.
    pub kind: RoomKind,
    /// Its corner at the top left.
    pub from: (i16, i16),
    /// Its corner at the bottom right.
    pub to: (i16, i16),
}

/// What a room looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum RoomKind {
    /// Plastered; it may have a window.
    Room,
    /// With doors at its ends.
    Passage,
    /// Brick or boards, and shelves.
    Store,
    /// Rafters above, joists below.
    Loft,
    /// Sky and ground.
    Outdoors,
}

impl RoomKind {
    /// The word by which reports and the catalogue know it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

impl Room {
    /// Whether a place is in it, its walls included.
    pub fn holds(&self, (x, y): (i16, i16)) -> bool {
        (self.from.0..=self.to.0).contains(&x) && (self.from.1..=self.to.1).contains(&y)
    }

    /// Whether the two share more than a wall.
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        let share = |a: (i16, i16), b: (i16, i16)| a.0 < b.1 && b.0 < a.1;
        share((self.from.0, self.to.0), (other.from.0, other.to.0))
            && share((self.from.1, self.to.1), (other.from.1, other.to.1))
    }
}

impl Exercise {
    /// The room of a location, the first of two whose wall it stands on; `None` where the scenario gives no rooms.
    pub fn room_of(&self, location: LocationId) -> Option<&Room> {
        let at = self.locations.get(location)?.at;
        self.rooms.iter().find(|it| it.holds(at))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        exercise::{LocationKind, SHIPPED, Seed, Supply, draw},
        trade::catalogue::WorkedBy,
    };

    fn room(from: (i16, i16), to: (i16, i16)) -> Room {
        Room { name: "shed".to_owned(), kind: RoomKind::Store, from, to }
    }

    #[test]
    fn a_wall_belongs_to_both_rooms_and_is_no_overlap() {
        let (left, right) = (room((0, 0), (10, 10)), room((10, 0), (20, 10)));
        assert!(left.holds((10, 5)) && right.holds((10, 5)));
        assert!(!left.holds((11, 5)) && !left.holds((5, 11)) && !left.holds((-1, 5)));
        assert!(!left.overlaps(&right) && !right.overlaps(&left));
        assert!(left.overlaps(&room((9, 9), (20, 20))) && left.overlaps(&room((2, 2), (3, 3))));
        assert!(!left.overlaps(&room((0, 10), (10, 20))));
    }

    /// Of two rooms at a wall the first listed is meant; a place outside is in none.
    #[test]
    fn a_location_is_in_the_first_room_that_holds_it() {
        let text = SHIPPED.iter().find(|it| it.0 == "one-way-rose").unwrap().1;
        let mut exercise = draw(text, Seed(4)).unwrap();
        let switch = exercise.location("switch").unwrap();
        let name = |it: &Exercise| it.room_of(switch).map(|it| it.name.clone());
        assert_eq!(name(&exercise).as_deref(), Some("scullery"));
        exercise.tables.locations.change(switch, |it| it.at = (74, 46));
        assert_eq!(name(&exercise).as_deref(), Some("scullery"));
        exercise.tables.locations.change(switch, |it| it.at = (75, 46));
        assert_eq!(name(&exercise).as_deref(), Some("larder"));
        exercise.tables.locations.change(switch, |it| it.at = (121, 46));
        assert_eq!(name(&exercise), None);
    }

    /// A house is drawn cut open: roses on ceilings, lamps under them, switches at a hand's height above the floor. A training
    /// board has no rooms, and its exercise as drawn says nothing of any.
    #[test]
    fn shipped_houses_have_rooms_and_training_boards_none() {
        for (id, text) in SHIPPED {
            let exercise = draw(text, Seed(4)).unwrap();
            let is_bench = exercise.supply == Supply::Bench;
            assert_eq!(exercise.rooms.is_empty(), is_bench, "{id}");
            assert_eq!(exercise.text().contains("rooms:"), !is_bench, "{id}");
            for (at, place) in exercise.locations.with_ids().filter(|_| !is_bench) {
                let room = exercise.room_of(at).unwrap();
                let (below, above) = (place.at.1 - room.from.1, room.to.1 - place.at.1);
                match &place.kind {
                    LocationKind::Rose => assert!((1..=3).contains(&below), "{id}: {}", place.id),
                    // In a roof space, clear of ceiling and rafters.
                    LocationKind::JunctionBox(_) => assert!(below > 2 && above > 2, "{id}: {}", place.id),
                    // A cord hangs from a ceiling; what nobody works may be lower than a switch.
                    LocationKind::Box(it) if it.plate.ways.iter().any(|it| it.worked_by == WorkedBy::Cord) => {
                        assert!((4..=8).contains(&below), "{id}: {}", place.id);
                    }
                    LocationKind::Box(it) if !it.plate.ways.iter().any(|it| it.is_switch()) => {
                        assert!((8..=22).contains(&above), "{id}: {}", place.id);
                    }
                    LocationKind::Box(_) => assert!((18..=22).contains(&above), "{id}: {}", place.id),
                    _ => assert!(below > 10 && above > 10, "{id}: {}", place.id),
                }
            }
        }
    }
}
