//! The network as a deck for a general-purpose circuit simulator (ngspice), so that another program can be asked.
//!
//! One deck a wiring. Its elements are the branches of every case together; between cases `alter` closes and opens what
//! differs, `op` solves, and the voltage across each branch and the current through it are printed. This module writes
//! text: it opens no file, runs nothing, and knows nothing of what is right.
//!
//! What is open stays in the deck as [`OPEN_OHMS`]; insulation stays where it is even when a case has nothing else at its
//! node, so that no node is left without a path. Neither shows in a reading: 230 V drive less than 10^-18 A through
//! either an open branch or insulation that nothing feeds.
//!
//! Of texts from outside only addresses go in, in comments alone, and every character that has no business in an address
//! is replaced; nodes and elements are numbers.

use std::{collections::BTreeMap, fmt::Write};

use super::{
    network::{Branch, Conditions, Network, Part},
    settle::settle,
};
use crate::{
    exercise::{EndId, Limits, SwitchId, combinations},
    trade::supply::NOMINAL_VOLTS,
    work::{Point, Work},
};

/// The first line of every deck, by which the program knows its own.
pub const DECK_TITLE: &str = "* switchdrop deck, format 1";

/// An open contact, ohms: beside the gigohm of insulation at each node it lets no volt through (an assumption of ours).
const OPEN_OHMS: f64 = 1.0e21;

/// A deck and what its elements are.
#[derive(Debug, Clone)]
pub struct Deck {
    /// The text, for ngspice in batch mode. It answers each case with `case N`, counted from 0, and for each element that is
    /// closed a line with [`Element::volts`] and a line `@NAME[i] = AMPS`, both from the branch's `a` to its `b`.
    pub text: String,
    /// Its resistors, `r1` first.
    pub elements: Vec<Element>,
    /// For each case, the place in [`Self::elements`] of each branch of that case's network, in the network's order.
    pub cases: Vec<Vec<usize>>,
}

/// A resistor of the deck.
#[derive(Debug, Clone, PartialEq)]
pub struct Element {
    /// What it stands for.
    pub part: Part,
    /// Its nodes in the deck, `a` first.
    pub nodes: [String; 2],
    /// Ohms in the first case that has it.
    pub ohms: f64,
}

impl Element {
    /// The expression for the voltage across it, `a` against `b`, by which the answer is known. The simulator subtracts.
    pub fn volts(&self) -> String {
        let [a, b] = &self.nodes;
        // Its ground has no voltage that could be asked for.
        match (a.as_str(), b.as_str()) {
            ("0", b) => format!("0-v({b})"),
            (a, "0") => format!("v({a})"),
            (a, b) => format!("v({a})-v({b})"),
        }
    }
}

/// More combinations of switch positions than go into one deck.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{found} combinations, and at most {most} go into one deck")]
pub struct TooManyCases {
    /// How many there are.
    pub found: u128,
    /// The most.
    pub most: usize,
}

/// The cases of a deck: every combination in counting order, last switch fastest, or only the one of these positions; with
/// everything on, in and fitted, and where devices open then, once more as it has settled.
///
/// # Errors
/// That there are too many combinations.
pub fn deck_cases(work: &Work, at: Option<&[u8]>) -> Result<Vec<Conditions>, TooManyCases> {
    let exercise = work.exercise();
    let settings = if let Some(at) = at {
        vec![at.to_vec()]
    } else {
        let (found, most) =
            (exercise.switches.iter().map(|it| it.way.positions() as u128).product(), Limits::COMBINATIONS);
        if found > most as u128 {
            return Err(TooManyCases { found, most });
        }
        let switches: Vec<SwitchId> = exercise.switches.ids().collect();
        combinations(exercise, &switches, &vec![0; switches.len()])
    };
    let mut cases = Vec::with_capacity(settings.len());
    for positions in settings {
        let conditions = Conditions::complete(exercise, positions);
        let mut settled = conditions.clone();
        for it in settle(work, conditions.clone()).opened {
            if let Some(on) = settled.on.get_mut(it.device.index()) {
                *on = false;
            }
        }
        let opened = settled.on != conditions.on;
        cases.push(conditions);
        if opened {
            cases.push(settled);
        }
    }
    Ok(cases)
}

/// The deck of a work under each of these conditions, in their order.
pub fn deck(work: &Work, cases: &[Conditions]) -> Deck {
    let mut elements = Vec::new();
    let mut known = BTreeMap::new();
    let mut networks = Vec::with_capacity(cases.len());
    let mut by_case = Vec::with_capacity(cases.len());
    for conditions in cases {
        let network = Network::new(work, conditions);
        let names = node_names(work, &network);
        // Two branches of one part between the same nodes are two elements.
        let mut met: BTreeMap<String, usize> = BTreeMap::new();
        let mut places = Vec::with_capacity(network.branches.len());
        for branch in &network.branches {
            let nodes = [names[branch.a].clone(), names[branch.b].clone()];
            let key = format!("{:?} {} {}", branch.part, nodes[0], nodes[1]);
            let again = met.entry(key.clone()).or_default();
            *again += 1;
            places.push(*known.entry((key, *again)).or_insert_with(|| {
                elements.push(Element { part: branch.part, nodes, ohms: branch.ohms });
                elements.len() - 1
            }));
        }
        networks.push(network.branches);
        by_case.push(places);
    }
    let text = text(work, cases, &elements, &networks, &by_case);
    Deck { text, elements, cases: by_case }
}

/// A name for each node that is the same in every case: the point it stands for.
fn node_names(work: &Work, network: &Network) -> Vec<String> {
    // The star point is the simulator's ground; the source's end and the bars are points of no terminal.
    let mut names: Vec<String> =
        (0..network.node_count()).map(|it| if it == 0 { "0".to_owned() } else { format!("s{it}") }).collect();
    let terminals = work.exercise().terminals.ids().map(Point::Terminal);
    let ends = work.ends().map(Point::End);
    for point in terminals.chain(ends) {
        if let Some(node) = network.find(work, point) {
            names[node] = format!("n{}", work.node(point));
        }
    }
    names
}

fn text(
    work: &Work,
    cases: &[Conditions],
    elements: &[Element],
    networks: &[Vec<Branch>],
    by_case: &[Vec<usize>],
) -> String {
    let mut text = format!("{DECK_TITLE}\n* {}\n", cleaned(&work.exercise().id));
    // Writing to a text can't fail.
    let mut line = |it: String| {
        let _ = writeln!(text, "{it}");
    };
    line(format!("v1 s1 0 dc {NOMINAL_VOLTS:e}"));
    for (index, element) in elements.iter().enumerate() {
        let name = name(index);
        line(format!("* {name}: {}", stands_for(work, element.part)));
        line(format!("{name} {} {} {:e}", element.nodes[0], element.nodes[1], element.ohms));
    }
    line(".control\nset numdgt=16".to_owned());
    let mut stand: Vec<f64> = elements.iter().map(|it| it.ohms).collect();
    for (number, conditions) in cases.iter().enumerate() {
        let mut wanted: Vec<f64> = elements.iter().map(open).collect();
        for (branch, place) in networks[number].iter().zip(&by_case[number]) {
            wanted[*place] = branch.ohms;
        }
        line(format!("* case {number}: {}", case_words(work, conditions)));
        for (index, (stands, wants)) in stand.iter_mut().zip(&wanted).enumerate() {
            // Bit for bit: what is the same needs no change.
            if stands.to_bits() != wants.to_bits() {
                line(format!("alter {} = {wants:e}", name(index)));
                *stands = *wants;
            }
        }
        line(format!("op\necho case {number}"));
        for place in &by_case[number] {
            line(format!("print {} @{}[i]", elements[*place].volts(), name(*place)));
        }
    }
    line("quit\n.endc\n.end".to_owned());
    text
}

/// What an element is in a case that does not have it.
fn open(element: &Element) -> f64 {
    if element.part == Part::Insulation { element.ohms } else { OPEN_OHMS }
}

fn name(index: usize) -> String {
    format!("r{}", index + 1)
}

fn case_words(work: &Work, conditions: &Conditions) -> String {
    let exercise = work.exercise();
    let positions: Vec<String> = conditions.positions.iter().map(u8::to_string).collect();
    let mut words = format!("positions {}", positions.join(","));
    for (device, on) in exercise.devices.iter().zip(&conditions.on) {
        if !on {
            let _ = write!(words, ", {} off", cleaned(&device.address));
        }
    }
    for (lamp, is_in) in exercise.lamps.iter().zip(&conditions.lamps_in) {
        if !is_in {
            let _ = write!(words, ", {} out", cleaned(&lamp.address));
        }
    }
    words
}

fn stands_for(work: &Work, part: Part) -> String {
    let exercise = work.exercise();
    let (what, address) = match part {
        Part::SupplyLine => ("supply, line", None),
        Part::SupplyNeutral => ("supply, neutral", None),
        Part::SupplyEarth => ("supply, earth return", None),
        Part::LinePole(it) => ("line pole of", exercise.devices.get(it).map(|it| it.address.clone())),
        Part::NeutralPole(it) => ("neutral of", exercise.devices.get(it).map(|it| it.address.clone())),
        Part::Conductor(it) => ("conductor ending at", Some(work.end_address(EndId::of(it)[0]))),
        Part::Contact(it, _) => ("contact of", exercise.switches.get(it).map(|it| it.address.clone())),
        Part::Fixed(_) => ("join inside an accessory", None),
        Part::Lamp(it) => ("lamp", exercise.lamps.get(it).map(|it| it.address.clone())),
        Part::Motor(it) => ("motor of", exercise.fans.get(it).map(|it| it.address.clone())),
        Part::Timer(it) => ("timer of", exercise.fans.get(it).map(|it| it.address.clone())),
        Part::PlateScrew(it) => ("plate screw of", exercise.locations.get(it).map(|it| it.id.clone())),
        Part::Insulation => ("insulation", None),
        Part::Link => ("test link", None),
        Part::Fault => ("fault", None),
    };
    address.map_or_else(|| what.to_owned(), |it| format!("{what} {}", cleaned(&it)))
}

/// An address as it may stand in a comment: one line, and nothing in it that a simulator could take for a command.
fn cleaned(address: &str) -> String {
    let fits = |it: char| it.is_ascii_alphanumeric() || matches!(it, '/' | '-' | '.' | '@');
    address.chars().map(|it| if fits(it) { it } else { '?' }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_stays_in_its_comment() {
        assert_eq!(cleaned("link/grey@east"), "link/grey@east");
        assert_eq!(cleaned("a\n.include /etc/x\r$;`b`\u{202e}"), "a?.include?/etc/x????b??");
    }
}
