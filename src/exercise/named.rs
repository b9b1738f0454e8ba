//! Where the things of an exercise stand in its text.

use std::ops::Range;

use super::{
    check::parse,
    file::HasFile,
    table::{DeviceId, LocationId},
    tables::Exercise,
};

/// Something that a scenario names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// The scenario itself, by its id.
    Scenario,
    /// A location, by its id.
    Location(LocationId),
    /// A device, by its id.
    Device(DeviceId),
    /// A cable, or a run once a cable is laid in it, by its id; its place in the exercise's list.
    Cable(usize),
    /// A stage; its place in the exercise's list.
    Stage(usize),
    /// A control, by its lamp; its place in the exercise's list.
    Control(usize),
    /// A switch where a control names it.
    SwitchOf {
        /// The control's place in the exercise's list.
        control: usize,
        /// The switch's place in the control's.
        switch: usize,
    },
}

impl Exercise {
    /// Where something stands in [`Exercise::text`], in bytes; an empty range if it is not there.
    pub fn span_of(&self, named: Named) -> Range<usize> {
        let Ok(file) = parse(&self.text) else { return 0..0 };
        if let Named::Stage(it) = named {
            let stage = self.stages.get(it);
            let found = file.stages.iter().find(|it| Some(&it.value) == stage);
            return found.map_or(0..0, |it| it.span(&self.text));
        }
        let found = match named {
            Named::Stage(_) => None,
            Named::Scenario => Some(&file.id),
            Named::Cable(it) => {
                let mut ids = file.cables.iter().map(|it| &it.id).chain(file.runs.iter().map(|it| &it.id));
                ids.nth(it)
            }
            Named::Location(it) => file.locations.get(it.index()).map(|it| &it.id),
            Named::Device(it) => {
                let boards = file.locations.iter().filter_map(|it| match &it.has {
                    HasFile::Board { devices } => Some(devices),
                    _ => None,
                });
                boards.flatten().nth(it.index()).map(|it| &it.id)
            }
            Named::Control(it) => file.controls.get(it).map(|it| &it.lamp),
            Named::SwitchOf { control, switch } => file.controls.get(control).and_then(|it| it.switches.get(switch)),
        };
        found.map_or(0..0, |it| it.span(&self.text))
    }
}
