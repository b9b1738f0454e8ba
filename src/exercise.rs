//! The scenario format, its syntax and reference checks, and the variant drawn from a seed.
//!
//! Text in, an [`Exercise`] or a list of [`Problem`]s out. This room opens no file and knows nothing of what a learner
//! did, of electricity or of marks.

mod address;
mod at_hand;
mod check;
mod course;
mod file;
mod joins;
mod kit;
mod learner;
mod limits;
mod misread;
mod named;
mod outside;
mod placed;
mod pretty;
mod problem;
mod reference;
mod room;
mod rows;
mod run;
mod sets;
mod settings;
mod shipped;
mod slip;
mod stream;
mod suspect;
mod table;
mod tables;
mod unmarked;
mod variant;
mod weights;
mod words;

pub use address::nearest;
pub use at_hand::AtHand;
pub(crate) use check::MADE;
pub(crate) use check::{is_new_id, read_drawn};
pub use check::{names_are_clean, read, read_for_states};
pub use course::{CoursePlace, CourseStep, ExerciseKind};
pub use file::{Edition, Preparation, Stage};
pub use joins::Join;
pub use kit::{Chart, Indicator, Keeper, Kit, Stands, Supply, Tails};
pub use limits::Limits;
pub use misread::other_file;
pub use named::Named;
pub use outside::{Distribution, Outside};
pub(crate) use placed::{Placed, options};
pub use pretty::pretty;
pub use problem::{Problem, ProblemCode, Problems};
pub use reference::Reference;
pub use room::{Room, RoomKind};
pub use rows::{
    BackBox, Cable, Conductor, Control, Device, End, Fan, Lamp, Location, LocationKind, Plate, Start, Switch, Terminal,
    TerminalUse,
};
pub use run::{Offer, Run};
pub use sets::Sets;
pub(crate) use settings::combinations;
pub use shipped::{SHIPPED, shipped};
pub use slip::{Feel, HandAct};
pub use stream::Stream;
pub use suspect::{FaultKind, HiddenFault, Suspect};
pub use table::{DeviceId, EndId, FanId, Id, LampId, LocationId, SwitchId, Table, TableRow, TerminalId};
pub use tables::{Exercise, Tables};
pub(crate) use unmarked::orders;
pub use unmarked::{Unmarked, UnmarkedId, UnmarkedThing};
pub(crate) use variant::span_of_slip;
pub use variant::{Seed, Template, draw, draw_each_value};
pub use weights::Weights;
pub use words::{WordSort, entries};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shipped_scenarios_draw() {
        for text in [
            include_str!("../exercises/one-way-rose/scenario.ron"),
            include_str!("../exercises/two-way-passage/scenario.ron"),
        ] {
            for seed in 0..50 {
                let exercise = draw(text, Seed(seed)).unwrap_or_else(|it| panic!("{it:#?}"));
                let again = read(exercise.text(), Seed(seed)).unwrap();
                assert_eq!(again.text(), exercise.text());
            }
        }
    }
}
