//! What stands at a location: its terminals, switches, devices, lamp or fan.

use super::Checker;
use crate::{
    exercise::{
        file::{DeviceFile, HasFile, LocationFile, ScenarioFile},
        limits::Limits,
        placed::Placed,
        problem::ProblemCode,
        rows::{BackBox, Device, Fan, Lamp, LocationKind, Plate, Switch, TerminalUse},
        table::{DeviceId, LocationId, SwitchId, TerminalId},
    },
    trade::{
        accessory::{
            Capacity, DEVICE_TERMINAL, EARTH_BAR, EARTH_TERMINAL, Holder, LAMPHOLDER_CONTACT, LampKind, Lugs, Material,
            ROSE_BLOCK, ROSE_TERMINALS,
        },
        catalogue::{Listed, Sort},
        workmanship::USUAL_BOX_MM,
    },
};

/// Gangs of the widest plate (makers' ranges, from memory).
const MOST_GANGS: u8 = 4;
/// Most connectors in one box (an assumption of ours: no box takes more with its cables).
const MOST_CONNECTORS: u8 = 8;
/// The connector that lies in a box unless its exercise says otherwise.
const USUAL_CONNECTOR: &str = "LeverConnector";

impl Checker<'_> {
    pub(super) fn location_kind(&mut self, location: LocationId, place: &LocationFile<'_>) -> LocationKind {
        let id = place.id.value.as_str();
        // The connectors of a box are given with the box.
        if let Some(it) = place.connectors.as_ref().filter(|_| !matches!(place.has, HasFile::Rose)) {
            self.problem(ProblemCode::BadNumber, it, it.value.to_string(), "0");
        }
        match &place.has {
            HasFile::Board { devices } => {
                self.devices(location, id, devices);
                self.terminal(location, &format!("{id}.earth"), TerminalUse::EarthBar, EARTH_BAR);
                LocationKind::Board
            }
            HasFile::Rose => {
                for (index, name) in ROSE_TERMINALS.iter().enumerate() {
                    self.terminal(location, &format!("{id}.{name}"), TerminalUse::Rose(index as u8), ROSE_BLOCK);
                }
                self.connectors(location, id, place.connectors.as_ref(), None);
                LocationKind::Rose
            }
            HasFile::Box { body, lugs, plate, depth_mm, ways, gangs, connectors, connector } => {
                self.gangs(gangs.as_deref().unwrap_or_default(), ways);
                let ways = self.plate(location, id, ways);
                self.terminal(location, &format!("{id}.box.earth"), TerminalUse::BoxEarth, EARTH_TERMINAL);
                let has_earth = ways.iter().any(|it| matches!(it.sort, Sort::Plate { earth: true, .. }));
                if *plate == Material::Metal || has_earth {
                    self.terminal(location, &format!("{id}.plate.earth"), TerminalUse::PlateEarth, EARTH_TERMINAL);
                }
                let connectors = self.connectors(location, id, connectors.as_ref(), connector.as_ref());
                let (lugs, front) = (lugs.unwrap_or(Lugs::OneFixed), *plate);
                // From the shallowest that is made to the deepest (makers' ranges, from memory).
                let depth_mm = depth_mm.as_ref().map_or(USUAL_BOX_MM, |it| {
                    self.number(it, 10.0, 75.0);
                    it.value
                });
                LocationKind::Box(BackBox { body: *body, lugs, depth_mm, plate: Plate { front, ways }, connectors })
            }
            HasFile::Luminaire { holder, lamp, watts } => {
                self.number(watts, 1.0, 500.0);
                self.lamp(location, id, (*holder, *lamp), watts.value);
                LocationKind::Luminaire
            }
            HasFile::JunctionBox { kind } => {
                self.fits(kind, |it| matches!(it, Sort::JunctionBox { .. }));
                self.blocks(location, id, kind.value);
                LocationKind::JunctionBox(kind.value)
            }
            HasFile::Fan { kind, watts, .. } => {
                self.fits(kind, |it| it == Sort::TimerFan);
                self.number(watts, 1.0, 500.0);
                self.blocks(location, id, kind.value);
                LocationKind::Fan(kind.value)
            }
        }
    }

    /// Names of gangs: one each, none twice, none that something else in the box is called by.
    fn gangs(&mut self, gangs: &[Placed<'_, String>], ways: &Placed<'_, Vec<Listed>>) {
        for (place, it) in gangs.iter().enumerate() {
            let taken = ["box", "plate", "connector"].contains(&it.value.as_str());
            if self.id(it) && (taken || it.starts_with(|it: char| it.is_ascii_digit())) {
                self.problem(ProblemCode::BadId, it, it.value.clone(), "");
            }
            if gangs[..place].iter().any(|other| other.value == it.value) {
                self.problem(ProblemCode::Duplicate, it, it.value.clone(), "");
            }
        }
        if let Some(first) = gangs.first().filter(|_| gangs.len() != ways.len()) {
            self.problem(ProblemCode::BadPlate, first, gangs.len().to_string(), ways.len().to_string());
        }
    }

    fn fits(&mut self, kind: &Placed<'_, Listed>, wanted: impl Fn(Sort) -> bool) {
        if !wanted(kind.sort) {
            self.problem(ProblemCode::WrongAccessory, kind, kind.id.clone(), "");
        }
    }

    fn devices(&mut self, location: LocationId, board: &str, devices: &[DeviceFile<'_>]) {
        for it in devices {
            self.id(&it.id);
            self.name(&it.circuit, Limits::NAME_CHARS);
            let device = self.exercise.devices.next_id();
            let address = format!("{board}.{}", it.id.value);
            if self.exercise.names.devices.insert(address.clone(), device).is_some() {
                self.problem(ProblemCode::Duplicate, &it.id, address.clone(), "");
            }
            let mut terminal =
                |name: &str, used_by| self.terminal(location, &format!("{address}.{name}"), used_by, DEVICE_TERMINAL);
            let line = terminal("line", TerminalUse::DeviceLine(device));
            let neutral = terminal("neutral", TerminalUse::DeviceNeutral(device));
            let (kind, circuit) = (it.kind, it.circuit.value.clone());
            let behind = it.behind.as_ref().and_then(|at| self.behind(board, at, kind.is_common()));
            self.exercise.tables.devices.push(Device { address, location, kind, circuit, line, neutral, behind });
        }
    }

    /// The device in front of another: a common one, on the same board and listed before it. A common device has none
    /// in front.
    fn behind(&mut self, board: &str, at: &Placed<'_, String>, is_common: bool) -> Option<DeviceId> {
        let found = self.exercise.device(&format!("{board}.{}", at.value)).map_err(|nearest| {
            nearest.and_then(|near| near.strip_prefix(board).map(|it| it.trim_start_matches('.').to_owned()))
        });
        let device = self.find(ProblemCode::UnknownDevice, at, found)?;
        if is_common || !self.exercise.devices.get(device).is_some_and(|it| it.kind.is_common()) {
            self.problem(ProblemCode::NotInFront, at, at.value.clone(), "");
            return None;
        }
        Some(device)
    }

    /// A plate's gangs with their terminals: accessories that may stand on one, no more side by side than each allows.
    fn plate(&mut self, location: LocationId, id: &str, ways: &Placed<'_, Vec<Listed>>) -> Vec<Listed> {
        if let Some(it) = ways.iter().find(|it| !matches!(it.sort, Sort::Plate { .. })) {
            self.problem(ProblemCode::WrongAccessory, ways, it.id.clone(), "");
            return Vec::new();
        }
        let most = ways.iter().map(|it| if let Sort::Plate { gangs, .. } = it.sort { gangs } else { 0 });
        let most = usize::from(most.min().unwrap_or(MOST_GANGS));
        if !(1..=most).contains(&ways.len()) {
            let expected = if most == 1 { "1".to_owned() } else { format!("1 to {most}") };
            self.problem(ProblemCode::BadPlate, ways, ways.len().to_string(), expected);
        }
        let ways: Vec<Listed> = ways.iter().copied().take(most).collect();
        for (gang, way) in ways.iter().enumerate() {
            let address = if ways.len() == 1 { id.to_owned() } else { format!("{id}.{}", gang + 1) };
            if !way.is_switch() {
                self.blocks(location, &address, *way);
                continue;
            }
            let switch = self.exercise.switches.next_id();
            let mut terminals = Vec::with_capacity(way.terminals.len());
            for (index, it) in way.terminals.iter().enumerate() {
                let used_by = TerminalUse::Contact(switch, index as u8);
                terminals.push(self.terminal(location, &format!("{address}.{}", it.name), used_by, it.capacity));
            }
            self.exercise.names.switches.insert(address.clone(), switch);
            self.exercise.tables.switches.push(Switch { address, location, gang, way: *way, terminals });
        }
        ways
    }

    /// The terminals of an accessory that has no switch, and what is joined in it.
    fn blocks(&mut self, location: LocationId, address: &str, kind: Listed) {
        let mut terminals: Vec<TerminalId> = Vec::with_capacity(kind.terminals.len());
        for (index, it) in kind.terminals.iter().enumerate() {
            let place = index as u8;
            let used_by = if it.earth { TerminalUse::BlockEarth(place) } else { TerminalUse::Block(place) };
            terminals.push(self.terminal(location, &format!("{address}.{}", it.name), used_by, it.capacity));
        }
        let joins = kind.joins(0).iter().map(|(a, b)| [terminals[*a], terminals[*b]]);
        self.exercise.tables.fixed.extend(joins);
    }

    fn connectors(
        &mut self,
        location: LocationId,
        id: &str,
        count: Option<&Placed<'_, u8>>,
        kind: Option<&Placed<'_, Listed>>,
    ) -> u8 {
        if let Some(it) = count.filter(|it| it.value > MOST_CONNECTORS) {
            self.problem(ProblemCode::BadNumber, it, it.value.to_string(), format!("0 to {MOST_CONNECTORS}"));
        }
        if let Some(it) = kind {
            self.fits(it, |it| matches!(it, Sort::Connector { .. }));
        }
        let kind = kind.map(|it| it.value).or_else(|| Listed::find(USUAL_CONNECTOR));
        let capacity = kind.and_then(|listed| listed.terminals.first().map(|it| it.capacity));
        let capacity = capacity.unwrap_or(Capacity::NONE);
        let count = count.map_or(0, |it| it.value);
        for number in 1..=count.min(MOST_CONNECTORS) {
            self.terminal(location, &format!("{id}.connector.{number}"), TerminalUse::Connector(number), capacity);
        }
        count
    }

    fn lamp(&mut self, location: LocationId, id: &str, (holder, kind): (Holder, LampKind), watts: f64) {
        let number = self.exercise.lamps.next_id();
        let names = holder.terminals();
        let contacts = [0, 1].map(|it| {
            let used_by = TerminalUse::Lampholder(number, it as u8);
            self.terminal(location, &format!("{id}.{}", names[it]), used_by, LAMPHOLDER_CONTACT)
        });
        self.exercise.names.lamps.insert(id.to_owned(), number);
        self.exercise.tables.lamps.push(Lamp { address: id.to_owned(), location, holder, kind, watts, contacts });
    }

    /// The fans, once every lamp is known.
    pub(super) fn fans(&mut self, file: &ScenarioFile<'_>) {
        for (location, place) in self.exercise.locations.ids().zip(&file.locations) {
            let HasFile::Fan { watts, with, isolator, .. } = &place.has else { continue };
            let Some(with) = self.find(ProblemCode::UnknownLamp, with, self.exercise.lamp(with)) else { continue };
            let isolator = isolator.as_ref().and_then(|it| self.isolator(it));
            let block = |it| self.exercise.terminal_used(location, TerminalUse::Block(it));
            let (Some(line), Some(switched), Some(neutral)) = (block(0), block(1), block(2)) else { continue };
            let (address, terminals) = (place.id.value.clone(), [line, switched, neutral]);
            self.exercise.tables.fans.push(Fan { address, location, watts: watts.value, terminals, with, isolator });
        }
    }

    /// The isolator of a fan: a switch of linked poles.
    fn isolator(&mut self, at: &Placed<'_, String>) -> Option<SwitchId> {
        let switch = self.find(ProblemCode::UnknownSwitch, at, self.exercise.switch(at))?;
        let way = self.exercise.switches[switch].way;
        if !way.is_linked() {
            self.problem(ProblemCode::WrongAccessory, at, way.id.clone(), "");
        }
        Some(switch)
    }
}
