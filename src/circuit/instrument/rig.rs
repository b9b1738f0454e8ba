//! The network as an instrument meets it: that of the work, its lamps and its insulation in the instrument's terms, the
//! links, and the two points the leads are on.

use super::{
    setting::{MainSwitch, Setting},
    spread::{insulation_times, leads_ohms, supply_volts},
};
use crate::{
    circuit::{
        eliminate::{Solution, solve},
        network::{Branch, Conditions, Network, Part, SOURCE, STAR},
    },
    exercise::{DeviceId, EndId},
    trade::{
        accessory::LampKind,
        instrument::{FILAMENT_COLD, LED_UNDER_TEST_OHMS, Neighbours, continuity::LINK_OHMS},
    },
    work::{Point, Work},
};

/// Whether a test is made dead, with the instrument's own source, or live, with the supply's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TestSource {
    /// A few volts of its own: an LED stays open.
    Few,
    /// Hundreds of volts d.c. of its own: an LED's driver conducts.
    Hundreds,
    /// The mains: lamps at work, capacitance between cores.
    Mains,
}

/// No resistance is less than this, ohms: a conductor of no length is still a conductor.
const LEAST_OHMS: f64 = 1.0e-6;

/// The network with two points picked out.
pub(super) struct Rig {
    branches: Vec<Branch>,
    count: usize,
    star: usize,
    source: usize,
    supply_volts: f64,
    /// Resistance of the leads, ohms; infinite when one is broken.
    pub leads_ohms: f64,
    from: usize,
    to: usize,
}

/// What stands between the two points: a voltage behind a resistance.
#[derive(Debug, Clone, Copy)]
pub(super) struct Behind {
    /// Open-circuit voltage, volts, never negative.
    pub volts: f64,
    /// Resistance behind it, ohms; infinite when nothing joins the points.
    pub ohms: f64,
}

impl Rig {
    /// The network for a test, with these devices open beside those that are.
    pub fn new(work: &Work, setting: &Setting, source: TestSource, [from, to]: [Point; 2], open: &[DeviceId]) -> Self {
        let mut conditions = Conditions::present(work);
        for it in open {
            conditions.on[it.index()] = false;
        }
        let network = Network::new(work, &conditions);
        let mut rig = Self {
            branches: Vec::with_capacity(2 * network.branches.len()),
            count: network.node_count(),
            star: STAR,
            source: SOURCE,
            supply_volts: supply_volts(work.exercise()),
            leads_ohms: leads_ohms(work.exercise(), setting),
            from: 0,
            to: 0,
        };
        for branch in &network.branches {
            rig.take(work, setting, source, *branch);
        }
        rig.between_cores(work, &network, source);
        // A point that nothing is joined to has no node yet.
        let mut apart: Vec<(Point, usize)> = Vec::new();
        let mut node = |rig: &mut Self, point: Point| {
            network.find(work, point).or(apart.iter().find(|it| it.0 == point).map(|it| it.1)).unwrap_or_else(|| {
                apart.push((point, rig.count));
                rig.count += 1;
                rig.count - 1
            })
        };
        for [a, b] in &setting.links {
            let (a, b) = (node(&mut rig, *a), node(&mut rig, *b));
            rig.join(a, b, LINK_OHMS, Part::Link);
        }
        (rig.from, rig.to) = (node(&mut rig, from), node(&mut rig, to));
        rig
    }

    fn join(&mut self, a: usize, b: usize, ohms: f64, part: Part) {
        self.branches.push(Branch { a, b, ohms: ohms.max(LEAST_OHMS), part });
    }

    /// Takes over a branch of the network as the instrument sees it.
    fn take(&mut self, work: &Work, setting: &Setting, source: TestSource, branch: Branch) {
        let ohms = match branch.part {
            // A figure for each node: ours is by the metre.
            Part::Insulation => return,
            Part::SupplyLine | Part::SupplyNeutral if setting.main_switch == MainSwitch::Off => return,
            Part::Lamp(lamp) => match (work.exercise().lamps[lamp].kind, source) {
                (_, TestSource::Mains) => branch.ohms,
                (LampKind::Filament, _) => branch.ohms * FILAMENT_COLD,
                (LampKind::Led, TestSource::Few) => return,
                (LampKind::Led, TestSource::Hundreds) => LED_UNDER_TEST_OHMS,
            },
            // A timer's electronics are to an instrument what an LED's driver is (an assumption of ours).
            Part::Timer(_) => match source {
                TestSource::Mains => branch.ohms,
                TestSource::Few => return,
                TestSource::Hundreds => LED_UNDER_TEST_OHMS,
            },
            _ => branch.ohms,
        };
        self.join(branch.a, branch.b, ohms, branch.part);
    }

    /// What lies between the cores of each cable, half of it at either end: insulation on d.c., capacitance on the mains.
    fn between_cores(&mut self, work: &Work, network: &Network, source: TestSource) {
        let exercise = work.exercise();
        for cable in &exercise.cables {
            let cores = cable.kind.cores().len();
            let times = insulation_times(exercise, &cable.id);
            for a in 0..cores {
                for b in a + 1..cores {
                    let Some(lie) = Neighbours::of(cable.kind, a, b) else { continue };
                    let ohm_metres = match source {
                        TestSource::Mains => Some(lie.reactance_ohm_metres()),
                        TestSource::Few | TestSource::Hundreds => lie.insulation_ohm_metres().map(|it| it * times),
                    };
                    let Some(ohm_metres) = ohm_metres else { continue };
                    let [ends_a, ends_b] = [a, b].map(|it| EndId::of(cable.first_conductor + it));
                    for (a, b) in ends_a.into_iter().zip(ends_b) {
                        let [a, b] = [a, b].map(|it| network.find(work, work.point_of(it)));
                        if let (Some(a), Some(b)) = (a, b) {
                            self.join(a, b, 2.0 * ohm_metres / cable.metres, Part::Insulation);
                        }
                    }
                }
            }
        }
    }

    fn siemens(&self) -> impl Iterator<Item = (usize, usize, f64)> + '_ {
        self.branches.iter().map(|it| (it.a, it.b, 1.0 / it.ohms))
    }

    /// Volts between the two points with no instrument there, never negative.
    pub fn open_volts(&self) -> f64 {
        if self.from == self.to {
            return 0.0;
        }
        let open = solve(self.count, [self.star, self.source], self.supply_volts, self.siemens());
        (open.volts(self.from) - open.volts(self.to)).abs()
    }

    /// What the supply makes of the two points with no instrument there.
    pub fn behind(&self) -> Behind {
        if self.from == self.to {
            return Behind { volts: 0.0, ohms: 0.0 };
        }
        // The supply's own impedance is in its branches, so its source is a plain join. Seen from one point with only the
        // other held, the resistance behind it is what lies between them.
        let shorted = self.siemens().chain([(self.source, self.star, 1.0 / LEAST_OHMS)]);
        let ohms = solve(self.count + 1, [self.to, self.count], 0.0, shorted).ohms_behind(self.from);
        Behind { volts: self.open_volts(), ohms }
    }

    /// Ohms that an instrument finds which drives a current from `volts` through `internal` ohms and its leads, the supply
    /// being dead: what stands at its own terminals over what flows. Infinite when nothing flows.
    pub fn driven(&self, volts: f64, internal: f64) -> f64 {
        if self.leads_ohms.is_infinite() {
            return f64::INFINITY;
        }
        let high = self.count;
        let inside = internal + self.leads_ohms;
        let branches =
            self.siemens().chain([(self.source, self.star, 1.0 / LEAST_OHMS), (high, self.from, 1.0 / inside)]);
        let solution = solve(self.count + 1, [self.to, high], volts, branches);
        let amps = solution.across(high, self.from) / inside;
        let ohms = self.leads_ohms + solution.volts(self.from) / amps;
        if ohms.is_finite() { ohms } else { f64::INFINITY }
    }

    /// The network with this resistance, ohms, between the points besides, on the supply.
    pub fn loaded(&self, ohms: f64) -> Loaded<'_> {
        let load = (self.from, self.to, 1.0 / ohms.max(LEAST_OHMS));
        let solution = solve(self.count, [self.star, self.source], self.supply_volts, self.siemens().chain([load]));
        Loaded { rig: self, solution }
    }
}

/// The network with a load between the two points.
pub(super) struct Loaded<'r> {
    rig: &'r Rig,
    solution: Solution,
}

impl Loaded<'_> {
    /// By how much a device's line and neutral currents differ, amps; nothing when it is off.
    pub fn residual(&self, device: DeviceId) -> f64 {
        let amps = |part| {
            let branch = self.rig.branches.iter().find(|it| it.part == part);
            branch.map(|it| it.amps(&self.solution))
        };
        match (amps(Part::LinePole(device)), amps(Part::NeutralPole(device))) {
            (Some(line), neutral) => (line - neutral.unwrap_or(0.0)).abs(),
            (None, _) => 0.0,
        }
    }

    /// How far the test has raised the point that was nearer to earth, volts.
    pub fn raised(&self) -> f64 {
        let before = solve(self.rig.count, [self.rig.star, self.rig.source], self.rig.supply_volts, self.rig.siemens());
        let [from, to] = [self.rig.from, self.rig.to];
        let earthy = if before.volts(from).abs() < before.volts(to).abs() { from } else { to };
        (self.solution.volts(earthy) - before.volts(earthy)).abs()
    }
}
