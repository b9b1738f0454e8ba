//! The finished work looked over and tested, dead and live, and the sheet filled in.

use super::{Lacks, Solver};
use crate::{
    attempt::{ToRead, readings_to_take},
    exercise::{LampId, Stage},
    trade::{
        colour::Colour,
        instrument::{LeadLength, Shown},
    },
    work::{Action, Point, Power, Source, Work},
};

impl Solver {
    /// Inspection and the dead tests.
    pub(super) fn tests_dead(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        if exercise.asks(Stage::Inspection) {
            for it in self.attempt.safety().testing().inspections_left(&exercise) {
                self.does(Action::Inspect { location: exercise.locations[it].id.clone() })?;
            }
        }
        let dead = [Stage::Continuity, Stage::Insulation, Stage::Polarity];
        let asked: Vec<Stage> = dead.into_iter().filter(|it| exercise.asks(*it)).collect();
        if asked.is_empty() {
            return Ok(());
        }
        let before = self.attempt.work().positions().to_vec();
        let lamps = exercise.learners_lamps();
        for it in &lamps {
            self.does(Action::RemoveLamp { lamp: exercise.lamps[*it].address.clone() })?;
        }
        if exercise.has_test_sheet() {
            if self.attempt.work().is_supplied() {
                self.does(Action::MainSwitch { on: false })?;
            }
            for stage in asked {
                self.tests(stage)?;
            }
        } else {
            self.reads_switches()?;
        }
        for it in &lamps {
            self.does(Action::FitLamp { lamp: exercise.lamps[*it].address.clone() })?;
        }
        self.sets(&before)
    }

    /// The live tests.
    pub(super) fn tests_live(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        for stage in Stage::LIVE_TESTS.into_iter().filter(|it| exercise.asks(*it)) {
            self.tests(stage)?;
        }
        Ok(())
    }

    /// The readings of a stage that are still to be taken, and its lines of the sheet.
    fn tests(&mut self, stage: Stage) -> Result<(), Lacks> {
        let exercise = self.exercise();
        if stage == Stage::Continuity {
            self.does(Action::Null { lead: LeadLength::Short })?;
        }
        loop {
            let mut left = readings_to_take(&self.attempt, stage);
            if stage == Stage::Continuity && !exercise.asks(Stage::Polarity) {
                left.extend(readings_to_take(&self.attempt, Stage::Polarity));
            }
            let Some(next) = left.first() else { break };
            self.reads(next)?;
        }
        self.takes_links()?;
        for (test, at) in self.attempt.safety().testing().lines_left(stage) {
            let source = if test.has_outside() && exercise.card().is_some() { Source::Card } else { Source::Read };
            let shown = self.attempt.safety().testing().shown_for(&exercise, (test, at), source);
            let Some(shown) = shown else { return Err(Lacks::Stage(stage)) };
            let reading = if test.has_figure() { written(&shown).ok_or(Lacks::Stage(stage))? } else { String::new() };
            let at = exercise.devices[at].address.clone();
            self.does(Action::Record { test, at, reading, accepted: true, source })?;
        }
        // A test of a residual current device opens it.
        for (id, it) in exercise.devices.with_ids() {
            if self.attempt.work().device_state(id).power == Power::Tripped {
                self.does(Action::Reset { device: it.address.clone() })?;
            }
        }
        if self.attempt.safety().is_done(&exercise, stage) { Ok(()) } else { Err(Lacks::Stage(stage)) }
    }

    /// Takes one reading. What it shows is on the sheet's account alone; a reading that counts for nothing would be offered again without
    /// end, and the bound of actions ends that.
    fn reads(&mut self, it: &ToRead) -> Result<(), Lacks> {
        let exercise = self.exercise();
        if it.linked && self.attempt.work().links().is_empty() {
            let line = exercise.devices[it.circuit].line;
            let bar = exercise.earth_bars().next();
            let [a, b] = [Some(line), bar].map(|at| at.map(|it| exercise.terminals[it].address.clone()));
            if let (Some(a), Some(b)) = (a, b) {
                self.does(Action::FitLink { a, b })?;
            }
        } else if !it.linked {
            self.takes_links()?;
        }
        self.sets(&it.positions)?;
        let action = it.action(self.attempt.work());
        self.does(action).map(drop)
    }

    fn takes_links(&mut self) -> Result<(), Lacks> {
        let work = self.attempt.work();
        let links: Vec<_> = work.links().iter().map(|link| link.map(|it| work.point_address(it))).collect();
        for [a, b] in links {
            self.does(Action::TakeLink { a, b })?;
        }
        Ok(())
    }

    /// Continuity from the line to each lamp in each setting of its switches.
    fn reads_switches(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        // A reading may count for several lamps, and each takes one off the list at least.
        while let Some((control, setting)) = self.attempt.safety().readings_left(&exercise).into_iter().next() {
            let lamp = exercise.controls[control].lamp;
            let Some([a, b]) = line_and_lamp(self.attempt.work(), lamp) else {
                return Err(Lacks::Stage(Stage::Continuity));
            };
            self.sets(&setting)?;
            let [a, b] = [a, b].map(|it| self.attempt.work().point_address(it));
            self.does(Action::Continuity { a, b })?;
        }
        Ok(())
    }
}

/// A reading as a learner writes it; nothing where no figure was shown.
fn written(shown: &Shown) -> Option<String> {
    let (sign, it) = match shown {
        Shown::Figure(it) => ("", it),
        Shown::Over(it) => (">", it),
        Shown::Under(it) => ("<", it),
        _ => return None,
    };
    Some(format!("{sign}{:.*}", usize::from(it.decimals), it.value()))
}

/// Two points under covers that are off: one that comes straight from a device's line, one that goes straight to the lamp. Both at one
/// place, where there is one that has both.
fn line_and_lamp(work: &Work, lamp: LampId) -> Option<[Point; 2]> {
    let exercise = work.exercise();
    let mut groups = work.joined_by(|it: Colour| !it.is_protective());
    let neutrals: Vec<usize> = exercise.devices.iter().map(|it| groups.root(it.neutral.index())).collect();
    let contacts = exercise.lamps[lamp].contacts.map(|it| groups.root(it.index()));
    let switched = contacts.into_iter().find(|it| !neutrals.contains(it))?;
    let lines: Vec<usize> = exercise.devices.iter().map(|it| groups.root(it.line.index())).collect();
    let open = work.ends().filter(|it| {
        let at = work.end_location(*it);
        work.has_cover(at) && !work.is_covered(at)
    });
    let points: Vec<Point> = open.map(|it| work.point_of(it)).collect();
    let mut of = |wanted: &[usize]| -> Vec<Point> {
        points.iter().copied().filter(|it| wanted.contains(&groups.root(work.node(*it)))).collect()
    };
    let (from, mut to) = (of(&lines), of(&[switched]));
    to.extend(exercise.lamps[lamp].contacts.map(Point::Terminal).into_iter().filter(|it| of_lamp(work, *it, switched)));
    let pairs = || from.iter().flat_map(|a| to.iter().map(|b| [*a, *b]));
    let at_one_place = pairs().find(|it| work.point_location(it[0]) == work.point_location(it[1]));
    at_one_place.or_else(|| pairs().next())
}

/// Whether a contact of a lampholder is on that net.
fn of_lamp(work: &Work, contact: Point, net: usize) -> bool {
    work.joined_by(|it: Colour| !it.is_protective()).root(work.node(contact)) == net
}
