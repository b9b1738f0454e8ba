//! The exercise of an example: a training board with a rose, a lamp and a switch at each place, as a scenario's text.
//!
//! Everything but what the question is about is connected from the start. A core that the question does not have (cable comes with two or with
//! three) is spare, in connectors of its own at both ends.

use std::fmt::Write as _;

use crate::{
    reason::question::{Arrival, CONNECTOR, Question},
    trade::colour::{Colour, Mark},
};

/// A cable of the exercise.
struct FixedRun {
    id: String,
    name: String,
    kind: &'static str,
    between: [String; 2],
    /// Its cores, with the terminals that each end is in from the start; those with none are the question's.
    cores: Vec<(&'static str, Colour, [Option<String>; 2])>,
}

/// The exercise that a question is about.
pub(super) struct PracticeHouse<'a> {
    question: &'a Question,
    runs: Vec<FixedRun>,
    /// Connectors taken by spare cores: at each place, and last at the rose.
    spare: Vec<usize>,
}

/// An end that a way puts somewhere, and how it is marked.
pub(super) struct FreeEnd {
    pub address: String,
    pub mark: Option<Mark>,
}

const ROSE: &str = "rose";

impl<'a> PracticeHouse<'a> {
    pub fn new(question: &'a Question) -> Self {
        let mut house = Self { question, runs: Vec::new(), spare: vec![0; question.positions + 1] };
        house.feed();
        house.drops();
        (0..question.positions - 1).for_each(|it| house.links(it));
        house
    }

    /// The address of a place.
    pub fn id(&self, place: usize) -> String {
        match place {
            0 => "near".to_owned(),
            _ if place == self.last() => "far".to_owned(),
            _ => format!("switch-{}", place + 1),
        }
    }

    /// What people call it.
    fn name(&self, place: usize) -> String {
        match place {
            0 => "near switch".to_owned(),
            _ if place == self.last() => "far switch".to_owned(),
            _ => format!("switch {}", place + 1),
        }
    }

    fn last(&self) -> usize {
        self.question.positions - 1
    }

    /// A connector for a spare core, at a place or (by the number after the last) at the rose.
    fn spare_at(&mut self, place: usize) -> String {
        let asked = if place < self.question.positions { self.question.connectors_at(place) } else { 0 };
        self.spare[place] += 1;
        let id = if place < self.question.positions { self.id(place) } else { ROSE.to_owned() };
        format!("{id}.connector.{}", asked + self.spare[place])
    }

    fn feed(&mut self) {
        let rose = |it: &str| Some(format!("rose.{it}"));
        let board = |it: &str| Some(format!("board.{it}"));
        let both_contacts = self.question.lamp_has_neutral();
        let second = if both_contacts { "rose.neutral".to_owned() } else { self.spare_at(self.question.positions) };
        let lamp = |it: u8| Some(format!("lamp.{it}"));
        self.runs.push(FixedRun {
            id: "feed".to_owned(),
            name: "feed".to_owned(),
            kind: "TwinEarth",
            between: ["board".to_owned(), ROSE.to_owned()],
            cores: vec![
                ("brown", Colour::Brown, [board("1.line"), rose("loop")]),
                ("blue", Colour::Blue, [board("1.neutral"), rose("neutral")]),
                ("cpc", Colour::Bare, [board("earth"), rose("earth")]),
            ],
        });
        self.runs.push(FixedRun {
            id: "flex".to_owned(),
            name: "pendant flex".to_owned(),
            kind: "PendantFlex",
            between: [ROSE.to_owned(), "lamp".to_owned()],
            cores: vec![
                ("brown", Colour::Brown, [rose("switched"), lamp(1)]),
                ("blue", Colour::Blue, [Some(second), lamp(2)]),
            ],
        });
    }

    /// The cables from the rose to the places where something arrives.
    fn drops(&mut self) {
        let rose = |it: &str| Some(format!("rose.{it}"));
        let at_rose = self.question.positions;
        match self.question.arrival {
            Arrival::FirstPlace => self.drop(
                0,
                "TwinEarth",
                vec![("brown", Colour::Brown, [rose("loop"), None]), ("blue", Colour::Blue, [rose("switched"), None])],
            ),
            Arrival::OppositeEnds => {
                for (place, from) in [(0, "loop"), (self.last(), "switched")] {
                    let spare = [self.spare_at(at_rose), self.spare_at(place)].map(Some);
                    let cores = vec![("brown1", Colour::Brown, [rose(from), None]), ("brown2", Colour::Brown, spare)];
                    self.drop(place, "TwinBrownEarth", cores);
                }
            }
            Arrival::NeutralAtBoth => {
                // The lamp's second wire is in the rose's first connector.
                for (place, lamp) in [(0, "switched"), (self.last(), "connector.1")] {
                    let cores = vec![
                        ("brown", Colour::Brown, [rose("loop"), None]),
                        ("grey", Colour::Grey, [rose("neutral"), None]),
                        ("black", Colour::Black, [rose(lamp), None]),
                    ];
                    self.drop(place, "ThreeCoreEarth", cores);
                }
            }
        }
    }

    fn drop(&mut self, place: usize, kind: &'static str, mut cores: Vec<(&'static str, Colour, [Option<String>; 2])>) {
        let id = self.id(place);
        cores.push(("cpc", Colour::Bare, [Some("rose.earth".to_owned()), Some(format!("{id}.box.earth"))]));
        let name = format!("{}'s cable", self.name(place));
        self.runs.push(FixedRun { id: format!("{id}-drop"), name, kind, between: [ROSE.to_owned(), id], cores });
    }

    /// The cables from a place to the next.
    fn links(&mut self, place: usize) {
        let free = || [None, None];
        let between = [self.id(place), self.id(place + 1)];
        let (kind, mut cores) = match self.question.cores {
            1 => {
                let spare = [self.spare_at(place), self.spare_at(place + 1)].map(Some);
                let cores = vec![("brown1", Colour::Brown, free()), ("brown2", Colour::Brown, spare)];
                ("TwinBrownEarth", cores)
            }
            3 => {
                let colours = [("brown", Colour::Brown), ("black", Colour::Black), ("grey", Colour::Grey)];
                ("ThreeCoreEarth", colours.into_iter().map(|it| (it.0, it.1, free())).collect())
            }
            _ => ("TwinEarth", vec![("brown", Colour::Brown, free()), ("blue", Colour::Blue, free())]),
        };
        let earth = || [0, 1].map(|it: usize| Some(format!("{}.box.earth", between[it])));
        let (id, name) = if self.question.positions == 2 {
            ("link".to_owned(), "linking cable".to_owned())
        } else {
            (format!("link-{}", place + 1), format!("linking cable {}", place + 1))
        };
        let mut second = cores.clone();
        cores.push(("cpc", Colour::Bare, if self.question.cpc_as_core { free() } else { earth() }));
        second.push(("cpc", Colour::Bare, earth()));
        let (second_id, second_name) = (format!("{id}-b"), format!("second {name}"));
        self.runs.push(FixedRun { id, name, kind, between: between.clone(), cores });
        if self.question.cores == 4 {
            self.runs.push(FixedRun { id: second_id, name: second_name, kind, between, cores: second });
        }
    }

    /// The ends at a place that a way puts somewhere, in the order of the way.
    pub fn free_ends(&self, place: usize) -> Vec<FreeEnd> {
        let here = self.id(place);
        let of = |run: &FixedRun, core: &str, colour: Colour| {
            // A grey core here is a neutral's, of the cables from the rose.
            let sleeve = if run.between[0] == ROSE && colour == Colour::Grey { Colour::Blue } else { Colour::Brown };
            let is_plain = colour == sleeve || colour.is_protective();
            FreeEnd { address: format!("{}/{core}@{here}", run.id), mark: (!is_plain).then_some(Mark::Sleeve(sleeve)) }
        };
        let free = |run: &FixedRun, side: usize| -> Vec<FreeEnd> {
            let free = run.cores.iter().filter(|it| it.2[side].is_none());
            free.map(|it| of(run, it.0, it.1)).collect()
        };
        // What arrives, by the order of the nets: line, neutral, lamp, which is that of the cores too.
        let arriving = self.runs.iter().filter(|it| it.between[0] == ROSE && it.between[1] == here);
        let mut ends: Vec<FreeEnd> = arriving.flat_map(|it| free(it, 1)).collect();
        for side in [1, 0] {
            let links = || self.runs.iter().filter(|it| it.between[0] != ROSE && it.between[side] == here);
            // The first cable's earth wire, used as a core, comes last.
            let (bare, cores): (Vec<_>, Vec<_>) =
                links().flat_map(|it| free(it, side)).partition(|it| it.address.contains("/cpc@"));
            ends.extend(cores);
            ends.extend(bare);
        }
        ends
    }

    /// The terminals at a place, in the order of the way.
    pub fn terminals(&self, place: usize) -> Vec<String> {
        let here = self.id(place);
        let switch = self.question.switch_at(place);
        let own = switch.terminals.iter().map(|it| format!("{here}.{}", it.name));
        let connectors = (1..=self.question.connectors_at(place)).map(|it| format!("{here}.connector.{it}"));
        own.chain(connectors).collect()
    }

    /// The scenario.
    pub fn scenario(&self) -> String {
        let mut text = String::from(HEAD);
        let rose = self.spare[self.question.positions];
        let rose = if rose > 0 { format!(", connectors: Some({rose})") } else { String::new() };
        let _ = write!(text, "Location(id:\"rose\",name:\"rose\",at:(40,10),has:Rose{rose}),");
        for place in 0..self.question.positions {
            let id = self.id(place);
            let name = self.name(place);
            let connectors = self.question.connectors_at(place) + self.spare[place];
            let connectors = if connectors > 0 {
                format!(",connectors:Some({connectors}),connector:Some({CONNECTOR})")
            } else {
                String::new()
            };
            let (way, x) = (&self.question.switch_at(place).id, 60 + 24 * place);
            let _ = write!(
                text,
                "Location(id:\"{id}\",name:\"{name}\",at:({x},44),has:Box(body:Metal,lugs:Some(OneFixed),plate:Plastic,depth_mm:Some(35.0),ways:[{way}]{connectors})),"
            );
        }
        text.push_str("],cables:[");
        for it in &self.runs {
            let [from, to] = &it.between;
            let (mm2, metres) = match it.kind {
                "PendantFlex" => (0.75, 0.5),
                _ if it.id == "feed" => (1.5, 2.0),
                _ => (1.0, 3.0),
            };
            let _ = write!(
                text,
                "Cable(id:\"{}\",name:\"{}\",kind:{},mm2:{mm2:?},metres:{metres:?},from:\"{from}\",to:\"{to}\"),",
                it.id, it.name, it.kind
            );
        }
        text.push_str("],connected:[");
        for run in &self.runs {
            for (core, colour, ends) in &run.cores {
                for (at, place) in ends.iter().zip(&run.between) {
                    let Some(at) = at else { continue };
                    let mark = match (colour, at.as_str()) {
                        (Colour::Bare, _) => ",mark:Some(Sleeve(GreenYellow))",
                        (Colour::Blue, "rose.switched") | (Colour::Black, _) => ",mark:Some(Sleeve(Brown))",
                        (Colour::Grey, _) => ",mark:Some(Sleeve(Blue))",
                        _ => "",
                    };
                    let _ = write!(text, "Connected(end:\"{}/{core}@{place}\",at:\"{at}\"{mark}),", run.id);
                }
            }
        }
        let switches: Vec<String> = (0..self.question.positions).map(|it| format!("\"{}\"", self.id(it))).collect();
        let _ = write!(text, "],controls:[Control(lamp:\"lamp\",switches:[{}])],stages:[])", switches.join(","));
        text
    }
}

/// What every example has: the board and the lamp.
const HEAD: &str = "Scenario(format:1,id:\"why\",title:\"One light, and every way of joining its wires\",\
place:\"A passage on a practice board\",brief:\"This is a practice board, and its plug is out. The light is to \
work from each of its switches: every press of any of them changes it. Join the wires between them any way you like.\",earthing:TnCS,\
supply:Bench,locations:[Location(id:\"board\",name:\"board\",at:(0,40),has:Board(devices:[Device(id:\"1\",kind:Rcbo6B30,circuit:\"passage light\")])),\
Location(id:\"lamp\",name:\"lamp\",at:(40,30),has:Luminaire(holder:Bayonet,lamp:Filament,watts:60.0)),";
