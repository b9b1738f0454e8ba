//! What can be asked of the work: addresses to ids and back, where ends are. Nothing is changed here. What is joined to what
//! is asked in `topology`.

use super::{DeviceState, Made, Point, Power, Work};
use crate::{
    exercise::{Cable, DeviceId, End, EndId, LampId, LocationId, MADE, Stands, SwitchId, TerminalId},
    trade::{
        cable::CrossSection,
        colour::{Colour, Era, Mark},
    },
    work::Refused,
};

/// Cross-section of links and tails: 1.5 mm² (common practice, no source).
const MADE_MM2: f64 = 1.5;

impl Work {
    /// The location of that address.
    ///
    /// # Errors
    /// [`Refused::Unknown`], as for all the look-ups here.
    pub fn location(&self, address: &str) -> Result<LocationId, Refused> {
        self.exercise.location(address).map_err(|nearest| Refused::Unknown { address: address.to_owned(), nearest })
    }

    /// The terminal of that address.
    ///
    /// # Errors
    /// [`Refused::Unknown`].
    pub fn terminal(&self, address: &str) -> Result<TerminalId, Refused> {
        self.exercise.terminal(address).map_err(|nearest| Refused::Unknown { address: address.to_owned(), nearest })
    }

    /// The switch of that address.
    ///
    /// # Errors
    /// [`Refused::Unknown`].
    pub fn switch(&self, address: &str) -> Result<SwitchId, Refused> {
        self.exercise.switch(address).map_err(|nearest| Refused::Unknown { address: address.to_owned(), nearest })
    }

    /// The device of that address.
    ///
    /// # Errors
    /// [`Refused::Unknown`].
    pub fn device(&self, address: &str) -> Result<DeviceId, Refused> {
        self.exercise.device(address).map_err(|nearest| Refused::Unknown { address: address.to_owned(), nearest })
    }

    /// The lamp of that address.
    ///
    /// # Errors
    /// [`Refused::Unknown`].
    pub fn lamp(&self, address: &str) -> Result<LampId, Refused> {
        self.exercise.lamp(address).map_err(|nearest| Refused::Unknown { address: address.to_owned(), nearest })
    }

    /// The conductor end of that address, made-up ones included.
    ///
    /// # Errors
    /// [`Refused::Unknown`].
    pub fn end(&self, address: &str) -> Result<EndId, Refused> {
        let found = if address.starts_with(MADE) {
            (self.exercise.conductors.len()..self.conductor_count())
                .flat_map(EndId::of)
                .find(|it| self.end_address(*it) == address)
                .ok_or(None)
        } else {
            self.exercise.end(address)
        };
        found.map_err(|nearest| self.no_such(address, nearest))
    }

    /// There is no such end or cable: because it is still to be chosen, or at all.
    pub(super) fn no_such(&self, address: &str, nearest: Option<String>) -> Refused {
        match self.exercise.unchosen(address) {
            Some(it) => Refused::NotChosen { cable: it.id.clone() },
            None => Refused::Unknown { address: address.to_owned(), nearest },
        }
    }

    /// The terminal of that address, or the free end of that address.
    ///
    /// # Errors
    /// [`Refused::Unknown`].
    pub fn point(&self, address: &str) -> Result<Point, Refused> {
        if address.contains('@') {
            self.end(address).map(|it| self.point_of(it))
        } else {
            self.terminal(address).map(Point::Terminal)
        }
    }

    /// Number of conductors, made-up ones included.
    pub fn conductor_count(&self) -> usize {
        self.exercise.conductors.len() + self.made.len()
    }

    /// Every end.
    pub fn ends(&self) -> impl ExactSizeIterator<Item = EndId> + use<> {
        self.ends.ids()
    }

    /// The two ends of a conductor, by its index; `None` if there is no such conductor.
    pub fn ends_of(&self, conductor: usize) -> Option<[EndId; 2]> {
        (conductor < self.conductor_count()).then(|| EndId::of(conductor))
    }

    /// The ends in a terminal.
    pub fn ends_in(&self, terminal: TerminalId) -> impl Iterator<Item = EndId> + '_ {
        self.ends.with_ids().filter(move |it| it.1.terminal == Some(terminal)).map(|it| it.0)
    }

    /// The ends that come out at a location.
    pub fn ends_at(&self, location: LocationId) -> impl Iterator<Item = EndId> + '_ {
        self.ends().filter(move |it| self.end_location(*it) == location)
    }

    /// What is fixed about an end: where it comes out, its colour, size and date.
    pub fn end_facts(&self, end: EndId) -> End {
        self.exercise.end_facts(end).unwrap_or_else(|| {
            let made = self.made_up(end.conductor());
            End {
                location: made.location,
                colour: made.colour,
                size: CrossSection::from_mm2(MADE_MM2).unwrap_or(crate::trade::cable::LIGHTING),
                era: Era::Harmonised,
            }
        })
    }

    pub(in crate::work) fn made_up(&self, conductor: usize) -> Made {
        let index = conductor.saturating_sub(self.exercise.conductors.len());
        self.made.get(index).copied().unwrap_or(Made { location: LocationId::NONE, colour: Colour::Bare })
    }

    /// Conductors made up in this attempt, in order.
    pub fn made(&self) -> &[Made] {
        &self.made
    }

    /// How many conductors more a terminal takes, by their number; their sizes may leave less.
    pub fn room_in(&self, terminal: TerminalId) -> usize {
        let most = self.exercise.terminals[terminal].capacity.conductors;
        most.saturating_sub(self.ends_in(terminal).count())
    }

    /// Whether a conductor was made up by hand and is in nothing: a scrap in the box, neither here nor there.
    pub fn is_scrap(&self, conductor: usize) -> bool {
        self.cable_of(conductor).is_none() && EndId::of(conductor).iter().all(|it| self.terminal_of(*it).is_none())
    }

    /// The cable a conductor is a core of; `None` for one made up.
    pub fn cable_of(&self, conductor: usize) -> Option<&Cable> {
        self.exercise.conductors.get(conductor).map(|it| &self.exercise.cables[it.cable])
    }

    /// Where an end comes out of its sheath.
    pub fn end_location(&self, end: EndId) -> LocationId {
        self.end_facts(end).location
    }

    /// The address of an end.
    pub fn end_address(&self, end: EndId) -> String {
        self.exercise.end_address(end).unwrap_or_else(|| {
            let conductor = end.conductor();
            let number = conductor - self.exercise.conductors.len() + 1;
            let letter = if end.index().is_multiple_of(2) { 'a' } else { 'b' };
            let location = &self.exercise.locations[self.made_up(conductor).location].id;
            format!("{MADE}{number}/{letter}@{location}")
        })
    }

    /// The address of a conductor.
    pub fn conductor_address(&self, conductor: usize) -> String {
        self.exercise.conductors.get(conductor).map_or_else(
            || format!("{MADE}{}", conductor - self.exercise.conductors.len() + 1),
            |it| it.address.clone(),
        )
    }

    /// The address of a point.
    pub fn point_address(&self, point: Point) -> String {
        match point {
            Point::Terminal(it) => self.exercise.terminals[it].address.clone(),
            Point::End(it) => self.end_address(it),
        }
    }

    /// Where a point is.
    pub fn point_location(&self, point: Point) -> LocationId {
        match point {
            Point::Terminal(it) => self.exercise.terminals[it].location,
            Point::End(it) => self.end_location(it),
        }
    }

    /// Where an end's copper is: its terminal, or loose.
    pub fn point_of(&self, end: EndId) -> Point {
        self.terminal_of(end).map_or(Point::End(end), Point::Terminal)
    }

    /// The terminal an end is in.
    pub fn terminal_of(&self, end: EndId) -> Option<TerminalId> {
        self.ends[end].terminal
    }

    /// How an end is marked.
    pub fn mark_of(&self, end: EndId) -> Option<Mark> {
        self.ends[end].mark
    }

    /// Whether an end is in a terminal that is to be its own: not in the connector that it was found in for now.
    pub fn is_landed(&self, end: EndId) -> bool {
        let start = self.exercise.start[end].filter(|it| it.stands == Stands::ForNow);
        self.terminal_of(end).is_some_and(|it| start.is_none_or(|start| start.terminal != it))
    }

    /// Whether an end is as it was found, in a terminal and never taken out of it.
    pub fn is_undisturbed(&self, end: EndId) -> bool {
        self.ends[end].undisturbed
    }

    /// Whether a terminal's screw is tight on all that is in it.
    pub fn is_tight(&self, terminal: TerminalId) -> bool {
        self.tight[terminal]
    }

    /// Whether the plate or cover of a location is on; a location without one counts as covered.
    pub fn is_covered(&self, location: LocationId) -> bool {
        self.covered[location]
    }

    /// A device as it stands.
    pub fn device_state(&self, device: DeviceId) -> DeviceState {
        self.devices[device]
    }

    /// Whether power can come through a device: its lever is on, and all that is in front of it.
    pub fn is_on(&self, device: DeviceId) -> bool {
        self.is_supplied() && self.device_state(device).power == Power::On
    }

    /// Test links, each between two points.
    pub fn links(&self) -> &[[Point; 2]] {
        &self.links
    }

    /// A position for each switch.
    pub fn positions(&self) -> &[u8] {
        self.positions.rows()
    }

    /// Whether a lamp is in its holder.
    pub fn is_lamp_in(&self, lamp: LampId) -> bool {
        self.lamps_in[lamp]
    }
}
