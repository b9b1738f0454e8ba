//! Which parts of an exercise are the learner's to do, and which devices may come to feed it.

use std::collections::BTreeSet;

use super::{
    file::Stage,
    joins::Join,
    kit::{Keeper, Stands, Supply},
    rows::{Control, LocationKind},
    sets::Sets,
    suspect::FaultKind,
    table::{DeviceId, EndId, LampId, LocationId, TerminalId},
    tables::Exercise,
};

impl Exercise {
    /// Whether an end was free before the learner came, or in a connector only until then, so that it is the learner's to connect. What was
    /// connected stays somebody else's when a slip has left it hanging.
    pub fn is_learners(&self, end: EndId) -> bool {
        !self.slipped.get(&end).is_some_and(Option::is_some)
            && self.start.get(end).is_none_or(|start| start.is_none_or(|it| it.stands == Stands::ForNow))
    }

    /// Ends that were connected before the learner came and may have to be moved all the same, as in an alteration: they stand in a
    /// switch of a control that the learner wires, which they worked in another way till then.
    pub fn ends_to_alter(&self) -> Vec<EndId> {
        let wired = self.controls.iter().filter(|it| self.has_empty_com(it));
        let switches = wired.flat_map(|control| &control.switches).map(|switch| &self.switches[*switch]);
        let terminals: BTreeSet<TerminalId> = switches.flat_map(|it| it.terminals.iter().copied()).collect();
        let stands = |end: &EndId| self.start[*end].is_some_and(|it| terminals.contains(&it.terminal));
        self.start.ids().filter(stands).collect()
    }

    /// Locations where the learner has ends to connect, or will have once a cable is chosen.
    pub fn learners_places(&self) -> Vec<LocationId> {
        let mine = self.start.ids().filter(|it| self.is_learners(*it));
        let mut places: Vec<LocationId> = mine.filter_map(|it| self.end_facts(it)).map(|it| it.location).collect();
        places.extend(self.runs.iter().flat_map(|it| it.between));
        places.sort_unstable();
        places.dedup();
        places
    }

    /// Whether the learner can reach the terminals of a place: under a cover that comes off, or in their own board.
    pub fn opens(&self, place: LocationId) -> bool {
        let kind = &self.locations[place].kind;
        kind.has_cover() || *kind == LocationKind::Board && self.board == Keeper::Learner
    }

    /// Whether the wiring is given, with nothing to connect or to choose, and the learner says what it does, or what is wrong with it.
    pub fn is_given(&self) -> bool {
        [Stage::Prediction, Stage::Diagnosis, Stage::Observations].into_iter().any(|it| self.asks(it))
            && self.runs.is_empty()
            && !self.start.ids().any(|it| self.is_learners(it))
            && !self.controls.iter().any(|it| self.is_wired_by_learner(it))
    }

    /// Whether the learner looks a job over that somebody else has done, and mends nothing.
    pub fn is_inspected(&self) -> bool {
        self.asks(Stage::Observations) && self.is_given()
    }

    /// The controls that the exercise is about, with their places in its list: those that the learner wires; where the wiring is given,
    /// all of them.
    pub fn asked_controls(&self) -> impl Iterator<Item = (usize, &Control)> {
        let all = self.is_given();
        self.controls.iter().enumerate().filter(move |it| all || self.is_wired_by_learner(it.1))
    }

    /// Lamps of the controls that the exercise is about.
    pub fn learners_lamps(&self) -> Vec<LampId> {
        let mine = self.asked_controls().map(|it| it.1);
        let mut lamps: Vec<LampId> = mine.map(|it| it.lamp).collect();
        lamps.sort_unstable();
        lamps.dedup();
        lamps
    }

    /// Whether a control is the learner's to wire: the COM of one of its switches was empty before. On a training board also where
    /// nothing could feed its lamp before, whichever end of the way hung free; in a house that would ask more of attempts that were
    /// begun when it did not count.
    pub fn is_wired_by_learner(&self, control: &Control) -> bool {
        self.has_empty_com(control) || self.supply == Supply::Bench && !self.was_fed(control.lamp)
    }

    /// Whether a device could feed a lamp before the learner came, its switches in one position or another.
    fn was_fed(&self, lamp: LampId) -> bool {
        let live = |it: usize| !self.conductors[it].colour.is_protective();
        // A slip makes the control no more the learner's than it was.
        let mut nodes = self.intended(live, |it| matches!(it, Join::Contact { .. } | Join::Fixed(_)));
        let [a, b] = self.lamps[lamp].contacts.map(|it| nodes.root(it.index()));
        self.devices.iter().any(|it| {
            let feeds = [nodes.root(it.line.index()), nodes.root(it.neutral.index())];
            feeds == [a, b] || feeds == [b, a]
        })
    }

    fn has_empty_com(&self, control: &Control) -> bool {
        control.switches.iter().any(|switch| {
            let com = self.switches[*switch].terminals.first();
            !self.start.iter().flatten().any(|it| Some(&it.terminal) == com)
        })
    }

    /// Devices that feed a location or could come to feed it in the course of the work: those that reach any location
    /// in the same zone. A zone is what cables with an end still to be connected join, since until such an end is in
    /// its terminal it may be touched to anything. The protective conductors are left out: they join everything.
    pub fn devices_reaching(&self, location: LocationId) -> Vec<DeviceId> {
        let mut zone = Sets::new(self.locations.len());
        let live = |it: usize| !self.conductors[it].colour.is_protective();
        for index in (0..self.conductors.len()).filter(|it| live(*it)) {
            if EndId::of(index).iter().any(|it| self.is_learners(*it)) {
                let between = self.cables[self.conductors[index].cable].between;
                zone.join(between[0].index(), between[1].index());
            }
        }
        for it in &self.runs {
            zone.join(it.between[0].index(), it.between[1].index());
        }
        let mut nodes = self.found(live, |it| matches!(it, Join::Contact { .. } | Join::Fixed(_)) || it.is_load());
        let here = zone.root(location.index());
        let mut found = Vec::new();
        for (id, device) in self.devices.with_ids() {
            let feeds = [nodes.root(device.line.index()), nodes.root(device.neutral.index())];
            let reaches = self.start.ids().any(|end| {
                let node = nodes.root(self.start_node(end));
                let at = self.end_facts(end).map_or(location, |it| it.location);
                feeds.contains(&node) && zone.root(at.index()) == here
            });
            if reaches {
                found.push(id);
            }
        }
        found
    }

    /// Devices on whose circuits the learner works: those that a conductor the learner has an end of was joined to before.
    pub fn learners_circuits(&self) -> Vec<DeviceId> {
        let live = |it: usize| !self.conductors[it].colour.is_protective();
        let mut nodes = self.found(live, |it| matches!(it, Join::Fixed(_)));
        let ends = || self.start.ids().filter(|it| self.is_learners(*it));
        let mut found = Vec::new();
        for (id, device) in self.devices.with_ids() {
            let feeds = [nodes.root(device.line.index()), nodes.root(device.neutral.index())];
            if ends().any(|it| feeds.contains(&nodes.root(self.start_node(it)))) {
                found.push(id);
            }
        }
        if found.is_empty() {
            // Where all that the learner connects is a cable of their own choice: the devices that may come to feed it.
            found = self.runs.iter().flat_map(|it| self.devices_reaching(it.between[0])).collect();
            found.sort_unstable();
            found.dedup();
        }
        found
    }

    /// The circuit that the chart gives a device: its own, or on a wrong chart that of the next device in the row.
    pub fn charted(&self, device: DeviceId) -> &str {
        let here = self.devices[device].location;
        let row: Vec<DeviceId> = self.devices.ids().filter(|it| self.devices[*it].location == here).collect();
        let next = row.iter().cycle().skip_while(|it| **it != device).nth(1).copied();
        let shown = if self.kit.chart.is_right() { None } else { next };
        &self.devices[shown.unwrap_or(device)].circuit
    }

    /// Whether the power is brought on in it: not where work is only looked over; where only a fault is to be found, it need not be.
    pub fn asks_for_power(&self) -> bool {
        let is_about_power = [Stage::EnergisingChecks, Stage::FunctionalTest].into_iter().any(|it| self.asks(it));
        !self.is_inspected() && (!self.asks(Stage::Diagnosis) || is_about_power)
    }

    /// Whether the multifunction tester is handed out: for a test sheet, or because a fault to be found may lie in the insulation.
    pub fn has_tester(&self) -> bool {
        self.has_test_sheet() || self.suspects.iter().any(|it| it.kind == FaultKind::LowInsulation)
    }

    /// Whether the exercise has a test sheet: whether it asks for a figure to be written down.
    pub fn has_test_sheet(&self) -> bool {
        Stage::READ.into_iter().any(|it| it != Stage::Continuity && self.asks(it))
    }
}
