//! A fault played to its end after hand-in: what would have happened, by the same network that found it.
//!
//! A cause that leads to nothing itself is told by the first of what follows from it that does: a slack cpc by the
//! metal that no device would have made dead.

use crate::{
    attempt::Attempt,
    circuit::{
        Conditions, Joined, Opening, Witness, hot_joints, live_points_near, settings_to_try, settle, touch, way,
    },
    exercise::{DeviceId, Exercise},
    marking::{Code, Finding, Root, Seen, Sheet},
    work::{Point, Subject, Work},
};

/// What would have happened.
#[derive(Debug, Clone, PartialEq)]
pub enum Consequence {
    /// Current runs where it must not, and devices open.
    Opens {
        /// The case in which it happens.
        case: Witness,
        /// The way of the current: the device, then the conductors out and back.
        way: Vec<Subject>,
        /// The current before anything opens, amps.
        amps: f64,
        /// What opens, in order, each with the band of its time.
        opened: Vec<Opening>,
    },
    /// Somebody touches what is energised, and something earthed.
    Touch {
        /// The case in which it happens.
        case: Witness,
        /// Whether a line has first to come against the metal.
        first_fault: bool,
        /// The way of the current to the hand: the device, the conductors, and what is touched.
        way: Vec<Subject>,
        /// Volts between what is touched and earth before the touch.
        volts: f64,
        /// Current through the body, amps: an order of magnitude, since bodies differ.
        amps: f64,
        /// What opens for it, with the band of its time; `None`: nothing does.
        opened: Option<Opening>,
    },
    /// A joint makes heat at the load of its circuit.
    Heat {
        /// The case in which it makes most heat.
        case: Witness,
        /// The end in the joint.
        at: Subject,
        /// Watts made there.
        watts: f64,
        /// Volts lost there.
        volts: f64,
    },
}

/// What the finding at a place of the sheet would have led to; `None` where nothing electrical comes of it, or it is no
/// cause, or it hides behind another.
pub fn consequence(attempt: &Attempt, sheet: &Sheet, index: usize) -> Option<Consequence> {
    let finding = sheet.findings.get(index).filter(|it| it.root == Root::Itself && !it.hidden)?;
    let follows = || sheet.findings.iter().filter(|it| it.root == Root::Of(index));
    own(attempt, finding).or_else(|| follows().find_map(|it| own(attempt, it)))
}

fn own(attempt: &Attempt, finding: &Finding) -> Option<Consequence> {
    let work = attempt.work();
    let exercise = work.exercise();
    let case = match &finding.seen {
        Seen::InCase(it) => it.clone(),
        Seen::ByEye | Seen::InAction(_) => Witness::default(),
    };
    let point = || finding.at.point(work);
    let touched_at = |conditions, point, case| touched(work, conditions, point, case, work.subject_at(point));
    let device = || match finding.at {
        Subject::Device(it) => Some(it),
        _ => None,
    };
    match finding.code {
        Code::ShortLineNeutral | Code::ShortLineEarth | Code::ResidualTrip | Code::Overload => {
            opens(work, &conditions(exercise, &case), device()?, case)
        }
        Code::EnergisedOntoFault => {
            let Seen::InAction(action) = finding.seen else { return None };
            let then = &attempt.tally().energised.iter().find(|it| it.action == action)?.work;
            let case = Witness { positions: then.positions().to_vec(), ..Witness::default() };
            opens(then, &Conditions::present(then), device()?, case)
        }
        Code::MetalEnergised | Code::LooseEndLive => touched_at(conditions(exercise, &case), point()?, case),
        // Its copper is bare all along: a hand can meet it wherever it runs.
        Code::CpcMisused => {
            let point = point()?;
            settings_to_try(work).into_iter().find_map(|positions| {
                let case = Witness { positions, ..Witness::default() };
                let conditions = conditions(exercise, &case);
                let is_line = Joined::new(work, &case.positions).reach(work)[work.node(point)].line;
                is_line.then(|| touched(work, conditions, point, case, finding.at)).flatten()
            })
        }
        Code::LampholderLive => {
            let Subject::Lamp(lamp) = finding.at else { return None };
            let lamp = &exercise.lamps[lamp];
            let each = lamp
                .contacts
                .into_iter()
                .filter_map(|it| touched_at(conditions(exercise, &case), Point::Terminal(it), case.clone()));
            each.max_by(|a, b| hand_amps(a).total_cmp(&hand_amps(b)))
        }
        Code::NoDisconnection => {
            let Point::Terminal(metal) = point()? else { return None };
            let sound = conditions(exercise, &case);
            let lines = live_points_near(work, &sound, metal);
            lines.into_iter().find_map(|it| {
                let fault = Conditions { fault: Some((it, Point::Terminal(metal))), ..sound.clone() };
                touched_at(fault, Point::Terminal(metal), case.clone())
            })
        }
        Code::JointHot => {
            let end = finding.at.end(work)?;
            let hot = hot_joints(work, std::slice::from_ref(&case.positions)).into_iter().find(|it| it.end == end)?;
            Some(Consequence::Heat { case, at: finding.at, watts: hot.watts, volts: hot.volts })
        }
        _ => None,
    }
}

fn hand_amps(of: &Consequence) -> f64 {
    match of {
        Consequence::Touch { amps, .. } => *amps,
        Consequence::Opens { .. } | Consequence::Heat { .. } => 0.0,
    }
}

/// A case as conditions.
fn conditions(exercise: &Exercise, case: &Witness) -> Conditions {
    let mut conditions = Conditions::complete(exercise, case.positions.clone());
    for it in &case.off {
        conditions.on.get_mut(it.index()).into_iter().for_each(|on| *on = false);
    }
    for it in &case.out {
        conditions.lamps_in.get_mut(it.index()).into_iter().for_each(|is_in| *is_in = false);
    }
    conditions
}

fn opens(work: &Work, conditions: &Conditions, device: DeviceId, case: Witness) -> Option<Consequence> {
    let opened = settle(work, conditions.clone()).opened;
    let first = opened.iter().find(|it| it.device == device).or(opened.first())?.device;
    let found = way(work, conditions, first);
    let way = named(work, Some(first), &found.conductors);
    Some(Consequence::Opens { case, way, amps: found.amps, opened })
}

fn touched(work: &Work, conditions: Conditions, point: Point, case: Witness, touched: Subject) -> Option<Consequence> {
    let first_fault = conditions.fault.is_some();
    let found = touch(work, conditions, point)?;
    let mut way = named(work, found.from, &found.conductors);
    way.push(touched);
    let (volts, amps, opened) = (found.volts, found.amps, found.opened);
    Some(Consequence::Touch { case, first_fault, way, volts, amps, opened })
}

fn named(work: &Work, device: Option<DeviceId>, conductors: &[usize]) -> Vec<Subject> {
    let conductors = conductors.iter().map(|it| Subject::Conductor(work.wire(*it)));
    device.map(Subject::Device).into_iter().chain(conductors).collect()
}
