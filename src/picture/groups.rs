//! Which terminals of an open location belong together, from left to right as the drawing shows them.
//!
//! Order and names only: no coordinates.

use super::{
    canvas::Type,
    paint::Paint,
    words::{Label, Words},
};
use crate::{
    exercise::{
        DeviceId, Exercise, LampId, LocationId, LocationKind, SwitchId, TerminalId, TerminalUse, UnmarkedThing,
    },
    work::{Called, Work},
};

/// What terminals are on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Panel {
    /// Nothing of their own: the wall of the box, the base of the rose, a bar of the board.
    None,
    /// The back of the plate.
    Plate,
    /// A device.
    Device(DeviceId),
    /// A lampholder.
    Holder(LampId),
}

/// Terminals side by side.
#[derive(Debug, Clone)]
pub(super) struct TerminalGroup {
    pub panel: Panel,
    pub blocks: Vec<Block>,
}

/// One terminal.
#[derive(Debug, Clone)]
pub(super) struct Block {
    pub terminal: TerminalId,
    /// What it is called, in one line or two.
    pub label: Vec<String>,
    /// Whether the earth symbol stands by it.
    pub earth: bool,
    /// The switch it is a contact of.
    pub switch: Option<SwitchId>,
}

impl Block {
    /// How its label looks on a panel: the letters of a plate larger than words.
    pub fn letters(&self) -> Type {
        Type::bold(if self.switch.is_some() { 18.0 } else { 15.0 }, Paint::Plate)
    }
}

/// Breaks a label of several words into two lines of about the same length.
fn broken(label: &str) -> Vec<String> {
    let breaks = label.char_indices().filter(|(_, it)| *it == ' ').map(|(at, _)| at);
    match breaks.min_by_key(|at| label.len().abs_diff(2 * at)) {
        Some(at) => vec![label[..at].trim().to_owned(), label[at..].trim().to_owned()],
        None => vec![label.to_owned()],
    }
}

/// The groups of a location. A plate is seen from behind by a person who has turned it round its upright edge, so its
/// gangs stand in the opposite order to the front.
pub(super) fn groups(work: &Work, location: LocationId, words: &dyn Words) -> Vec<TerminalGroup> {
    let exercise = work.exercise();
    let block = |terminal: TerminalId| block(work, terminal, words);
    let of = |wanted: fn(TerminalUse) -> bool| {
        exercise.terminals_at(location).filter(move |it| wanted(exercise.terminals[*it].used_by))
    };
    let alone = |it: TerminalId| TerminalGroup { panel: Panel::None, blocks: vec![block(it)] };
    match exercise.locations[location].kind {
        LocationKind::Box(_) => {
            let mut switches: Vec<_> = exercise.switches_at(location).collect();
            switches.sort_by_key(|it| std::cmp::Reverse(exercise.switches[*it].gang));
            let contacts = switches.iter().flat_map(|it| seen(exercise, &exercise.switches[*it].terminals));
            let rows = of(|it| matches!(it, TerminalUse::Block(_) | TerminalUse::BlockEarth(_)));
            let blocks = contacts.chain(rows).chain(of(|it| it == TerminalUse::PlateEarth)).map(block).collect();
            of(|it| matches!(it, TerminalUse::Connector(_)))
                .map(alone)
                .chain([TerminalGroup { panel: Panel::Plate, blocks }])
                .chain(of(|it| it == TerminalUse::BoxEarth).map(alone))
                .collect()
        }
        LocationKind::Rose | LocationKind::JunctionBox(_) | LocationKind::Fan(_) => {
            vec![TerminalGroup { panel: Panel::None, blocks: exercise.terminals_at(location).map(block).collect() }]
        }
        LocationKind::Board => {
            let devices = exercise.devices.with_ids().filter(|(_, it)| it.location == location);
            devices
                .map(|(id, it)| TerminalGroup {
                    panel: Panel::Device(id),
                    blocks: vec![block(it.line), block(it.neutral)],
                })
                .chain(of(|it| it == TerminalUse::EarthBar).map(alone))
                .collect()
        }
        LocationKind::Luminaire => exercise
            .lamp_at(location)
            .map(|lamp| TerminalGroup {
                panel: Panel::Holder(lamp),
                blocks: exercise.terminals_at(location).map(block).collect(),
            })
            .into_iter()
            .collect(),
    }
}

/// The contacts of a switch from left to right: those without letters in the order in which they are seen.
fn seen(exercise: &Exercise, contacts: &[TerminalId]) -> Vec<TerminalId> {
    let mut contacts = contacts.to_vec();
    contacts.sort_by_key(|it| exercise.unmarked_terminal(*it));
    contacts
}

/// The letters that stand, or should stand, at a contact; `of`: what they are if it is no contact of a switch.
fn letters(work: &Work, terminal: TerminalId, of: (SwitchId, u8)) -> String {
    let exercise = work.exercise();
    let (switch, place) = match exercise.terminals[terminal].used_by {
        TerminalUse::Contact(switch, place) => (switch, place),
        _ => of,
    };
    exercise.switches[switch].way.name_of(usize::from(place)).to_owned()
}

fn block(work: &Work, terminal: TerminalId, words: &dyn Words) -> Block {
    let exercise = work.exercise();
    let mut earth = false;
    let mut of = None;
    let label = match exercise.terminals[terminal].used_by {
        TerminalUse::Contact(switch, place) => {
            of = Some(switch);
            match exercise.unmarked_terminal(terminal).map(|it| (it, work.called(it))) {
                Some((it, Called::ByPlace(_))) => words.say(Label::UnmarkedTerminal(it.place)),
                Some((_, Called::By(UnmarkedThing::Terminal(it)))) => letters(work, it, (switch, place)),
                _ => letters(work, terminal, (switch, place)),
            }
        }
        TerminalUse::Block(place) | TerminalUse::BlockEarth(place) => {
            earth = exercise.terminals[terminal].used_by.is_earth();
            let location = exercise.terminals[terminal].location;
            let kind = exercise.locations[location].kind.fixed();
            kind.map_or(String::new(), |it| it.name_of(usize::from(place)).to_owned())
        }
        TerminalUse::DeviceLine(_) => words.say(Label::DeviceLine),
        TerminalUse::DeviceNeutral(_) => words.say(Label::DeviceNeutral),
        TerminalUse::Connector(number) => words.say(Label::Connector(number)),
        TerminalUse::Lampholder(lamp, place) => words.say(Label::Contact(exercise.lamps[lamp].holder, place)),
        TerminalUse::Rose(place) => {
            earth = place == 3;
            words.say(Label::Rose(place))
        }
        TerminalUse::EarthBar | TerminalUse::BoxEarth | TerminalUse::PlateEarth => {
            earth = true;
            words.say(match exercise.terminals[terminal].used_by {
                TerminalUse::EarthBar => Label::EarthBar,
                TerminalUse::BoxEarth => Label::BoxEarth,
                _ => Label::PlateEarth,
            })
        }
    };
    Block { terminal, label: broken(&label), earth, switch: of }
}
