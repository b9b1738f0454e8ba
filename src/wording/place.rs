//! Places in words: every kind of address becomes what a person on site would say.

use super::{
    Wording,
    keys::{colour, test_key},
};
use crate::{
    exercise::{
        DeviceId, EndId, Exercise, LampId, LocationId, LocationKind, SwitchId, TerminalId, TerminalUse, UnmarkedId,
        UnmarkedThing,
    },
    trade::{
        accessory::{Holder, ROSE_TERMINALS},
        catalogue::WorkedBy,
        colour::Colour,
        device::{Curve, DeviceKind},
    },
    work::{Called, Subject, Work},
};

/// The place of an address: a location (or the one switch or the lamp of that address), a terminal, a conductor end, a
/// conductor, a switch of several gangs, a device or a run. An address that is none of these is said in quotes.
pub fn place(wording: &Wording, work: &Work, address: &str) -> String {
    let exercise = work.exercise();
    if let Ok(it) = exercise.location(address) {
        return location(exercise, it).to_owned();
    }
    if let Ok(it) = exercise.terminal(address) {
        return terminal(wording, work, it);
    }
    if let Some(it) = exercise.unmarked_ids().find(|it| exercise.unmarked_address(*it) == address) {
        return unmarked(wording, work, it);
    }
    if let Ok(it) = work.end(address) {
        return end(wording, work, it);
    }
    if let Ok(it) = exercise.switch(address) {
        return switch(wording, exercise, it);
    }
    if let Ok(it) = exercise.device(address) {
        return device(wording, exercise, it);
    }
    if let Ok(it) = exercise.run(address) {
        return exercise.runs[it].name.clone();
    }
    let found = (0..work.conductor_count()).find(|it| work.conductor_address(*it) == address);
    found.map_or_else(|| wording.say("place-unknown", &[("address", address)]), |it| conductor(wording, work, it))
}

/// What something is about, in words.
pub fn subject(wording: &Wording, work: &Work, subject: Subject) -> String {
    let exercise = work.exercise();
    let numbered = |key: &str, index: usize| wording.say(key, &[("number", &index.saturating_add(1).to_string())]);
    match subject {
        Subject::Whole => String::new(),
        Subject::Location(it) => location(exercise, it).to_owned(),
        Subject::Terminal(it) => terminal(wording, work, it),
        Subject::Unmarked(it) => unmarked(wording, work, it),
        Subject::Switch(it) => switch(wording, exercise, it),
        Subject::Lamp(it) => lamp(exercise, it),
        Subject::Fan(it) => {
            exercise.fans.get(it).map_or(String::new(), |it| location(exercise, it.location).to_owned())
        }
        Subject::Device(it) => device(wording, exercise, it),
        Subject::Cable(it) => exercise.cables.get(it).map_or(String::new(), |it| it.name.clone()),
        Subject::Run(it) => exercise.runs.get(it).map_or(String::new(), |it| it.name.clone()),
        Subject::Stage(it) => wording.say(&format!("stage-{}", it.word()), &[]),
        Subject::Prediction(it) => numbered("place-prediction", it),
        Subject::Hint(it) => numbered("place-hint", it),
        Subject::Test(test, of) => {
            let test = wording.say(test_key(test), &[]);
            wording.say("place-test", &[("test", &test), ("device", &device(wording, exercise, of))])
        }
        Subject::End(..) | Subject::Conductor(_) => match (subject.end(work), subject.conductor(work)) {
            (Some(it), _) => end(wording, work, it),
            (_, Some(it)) => conductor(wording, work, it),
            // It was of a cable in whose place another has been laid.
            _ => wording.say("place-unknown", &[("address", &subject.address(exercise))]),
        },
    }
}

/// What people call the location of something, if it has one.
pub fn place_of(work: &Work, of: Subject) -> String {
    of.location(work.exercise()).map_or(String::new(), |it| location(work.exercise(), it).to_owned())
}

/// What people call a location.
fn location(exercise: &Exercise, location: LocationId) -> &str {
    exercise.locations.get(location).map_or("", |it| &it.name)
}

/// A terminal in words.
pub fn terminal(wording: &Wording, work: &Work, terminal: TerminalId) -> String {
    let exercise = work.exercise();
    let Some(it) = exercise.terminals.get(terminal) else { return String::new() };
    let name = location(exercise, it.location);
    let here = |key: &str| wording.say(key, &[("location", name)]);
    match it.used_by {
        TerminalUse::DeviceLine(of) => {
            wording.say("terminal-device-line", &[("device", &device(wording, exercise, of))])
        }
        TerminalUse::DeviceNeutral(of) => {
            wording.say("terminal-device-neutral", &[("device", &device(wording, exercise, of))])
        }
        TerminalUse::EarthBar => here("terminal-earth-bar"),
        TerminalUse::Rose(block) => {
            here(&format!("terminal-rose-{}", ROSE_TERMINALS.get(usize::from(block)).unwrap_or(&"loop")))
        }
        TerminalUse::Contact(of, _) => {
            let contact = contact(wording, work, terminal);
            wording.say("terminal-contact", &[("switch", &switch(wording, exercise, of)), ("contact", &contact)])
        }
        TerminalUse::Block(block) => {
            let kind = exercise.locations.get(it.location).and_then(|it| it.kind.fixed());
            let block = kind.map_or(String::new(), |it| it.name_of(usize::from(block)).to_owned());
            wording.say("terminal-block", &[("location", name), ("block", &block)])
        }
        TerminalUse::BlockEarth(_) => here("terminal-block-earth"),
        TerminalUse::BoxEarth => here("terminal-box-earth"),
        TerminalUse::PlateEarth => here("terminal-plate-earth"),
        TerminalUse::Connector(number) => {
            if exercise.terminal_used(it.location, TerminalUse::Connector(2)).is_none() {
                here("terminal-only-connector")
            } else {
                wording.say("terminal-connector", &[("number", &number.to_string()), ("location", name)])
            }
        }
        TerminalUse::Lampholder(lamp, contact) => {
            let holder = exercise.lamps.get(lamp).map_or(Holder::Bayonet, |it| it.holder);
            here(match (holder, contact) {
                (Holder::Bayonet, 0) => "terminal-lampholder-first",
                (Holder::Bayonet, _) => "terminal-lampholder-second",
                (Holder::Screw, 0) => "terminal-lampholder-centre",
                (Holder::Screw, _) => "terminal-lampholder-outer",
            })
        }
    }
}

/// The letters at a contact of a switch, or what stands for them while it has none; empty for any other terminal.
pub(super) fn contact(wording: &Wording, work: &Work, terminal: TerminalId) -> String {
    let exercise = work.exercise();
    if let Some(it) = exercise.unmarked_terminal(terminal) {
        return called(wording, exercise, work.called(it));
    }
    letters(exercise, terminal).to_owned()
}

fn letters(exercise: &Exercise, terminal: TerminalId) -> &str {
    match exercise.terminals.get(terminal).map(|it| it.used_by) {
        Some(TerminalUse::Contact(of, contact)) => {
            exercise.switches.get(of).map_or("", |it| it.way.name_of(usize::from(contact)))
        }
        _ => "",
    }
}

/// Something without a mark, by what it is called now and where it is.
fn unmarked(wording: &Wording, work: &Work, id: UnmarkedId) -> String {
    let exercise = work.exercise();
    match exercise.unmarked_thing(id) {
        Some(UnmarkedThing::Terminal(it)) => terminal(wording, work, it),
        Some(UnmarkedThing::Cable(_)) => {
            let at = exercise.unmarked.get(id.group).map_or("", |it| location(exercise, it.location));
            let cable = called(wording, exercise, work.called(id));
            wording.say("place-unmarked-cable", &[("cable", &cable), ("location", at)])
        }
        None => String::new(),
    }
}

/// The keys of cables and of terminals that have no name yet, by their places: of more than five the ways to name them are too many.
const UNMARKED_CABLES: [&str; 5] =
    ["unmarked-cable-1", "unmarked-cable-2", "unmarked-cable-3", "unmarked-cable-4", "unmarked-cable-5"];
const UNMARKED_TERMINALS: [&str; 5] =
    ["unmarked-terminal-1", "unmarked-terminal-2", "unmarked-terminal-3", "unmarked-terminal-4", "unmarked-terminal-5"];

/// A name of something without a mark, or its place where it has none: a cable’s name, the letters of a terminal.
pub fn called(wording: &Wording, exercise: &Exercise, of: Called) -> String {
    match of {
        Called::ByPlace(id) => {
            let keys = match exercise.unmarked_thing(id) {
                Some(UnmarkedThing::Terminal(_)) => &UNMARKED_TERMINALS,
                _ => &UNMARKED_CABLES,
            };
            wording.say(keys.get(id.place).unwrap_or(&keys[keys.len() - 1]), &[])
        }
        Called::By(UnmarkedThing::Cable(it)) => exercise.cables.get(it).map_or(String::new(), |it| it.name.clone()),
        Called::By(UnmarkedThing::Terminal(it)) => letters(exercise, it).to_owned(),
    }
}

/// What people call a cable at one of its places.
pub fn cable_at(wording: &Wording, work: &Work, cable: usize, at: LocationId) -> String {
    let exercise = work.exercise();
    match exercise.unmarked_cable(cable, at) {
        Some(it) => called(wording, exercise, work.called(it)),
        None => exercise.cables.get(cable).map_or(String::new(), |it| it.name.clone()),
    }
}

/// A conductor end in words.
pub fn end(wording: &Wording, work: &Work, end: EndId) -> String {
    let key = match (work.cable_of(end.conductor()), end.index() % 2) {
        (Some(_), _) => "end-of-core",
        (None, 0) => "end-of-link-first",
        (None, _) => "end-of-link-second",
    };
    let (exercise, at) = (work.exercise(), work.end_location(end));
    let its_cable = exercise.conductors.get(end.conductor()).map(|it| it.cable);
    let conductor = match its_cable {
        Some(it) => core(wording, work, end.conductor(), &cable_at(wording, work, it, at)),
        None => conductor(wording, work, end.conductor()),
    };
    wording.say(key, &[("conductor", &conductor), ("location", location(exercise, at))])
}

/// A conductor in words, made-up ones included.
pub fn conductor(wording: &Wording, work: &Work, conductor: usize) -> String {
    let Some(cable) = work.cable_of(conductor) else {
        let number = conductor.saturating_sub(work.exercise().conductors.len()).saturating_add(1);
        let of = work.made().get(number - 1).map_or(Colour::Bare, |it| it.colour);
        let key = if work.made().len() > 1 { "conductor-made-up-of-several" } else { "conductor-made-up" };
        return wording.say(key, &[("colour", &colour(wording, of)), ("number", &number.to_string())]);
    };
    core(wording, work, conductor, &cable.name)
}

/// A core of a cable that is called so.
fn core(wording: &Wording, work: &Work, conductor: usize, name: &str) -> String {
    let Some(cable) = work.cable_of(conductor) else { return String::new() };
    let cores = cable.kind.cores();
    let index = conductor.saturating_sub(cable.first_conductor);
    let core = match cores.get(index) {
        Some(it) if it.colour == Colour::Bare => wording.say("core-cpc", &[]),
        Some(it) => {
            let alike = |part: &[crate::trade::cable::Core]| part.iter().filter(|o| o.colour == it.colour).count();
            let key = match (alike(cores), alike(&cores[..index])) {
                (1, _) => "core-of-colour",
                (_, 0) => "core-first-of-colour",
                _ => "core-second-of-colour",
            };
            wording.say(key, &[("colour", &colour(wording, it.colour))])
        }
        None => String::new(),
    };
    wording.say("conductor-core", &[("core", &core), ("cable", name)])
}

/// A switch in words. The only one on its plate is called after its location.
pub fn switch(wording: &Wording, exercise: &Exercise, switch: SwitchId) -> String {
    let Some(it) = exercise.switches.get(switch) else { return String::new() };
    let gangs = exercise.switches_at(it.location).count();
    let key = match (gangs, it.gang) {
        (1, _) => "switch-only",
        (2, 0) => "switch-left",
        (2, _) => "switch-right",
        _ => "switch-of-several",
    };
    let number = (it.gang + 1).to_string();
    wording.say(key, &[("location", location(exercise, it.location)), ("number", &number)])
}

/// A device in words: the circuit that it protects, or the residual current device in front of several.
pub fn device(wording: &Wording, exercise: &Exercise, device: DeviceId) -> String {
    let Some(it) = exercise.devices.get(device) else { return String::new() };
    let number = it.address.rsplit('.').next().unwrap_or("");
    let boards = exercise.locations.iter().filter(|it| it.kind == LocationKind::Board).count();
    let in_front = exercise.devices.iter().filter(|it| it.kind.is_common()).count();
    let key = match (it.kind.is_common(), boards > 1) {
        (false, false) => "device-at",
        (false, true) => "device-at-one-of-several-boards",
        (true, _) if in_front == 1 => "device-only-one-in-front",
        (true, false) => "device-in-front",
        (true, true) => "device-in-front-at-one-of-several-boards",
    };
    wording.say(key, &[("number", number), ("location", location(exercise, it.location))])
}

/// A device with its rating, and the circuit that the chart gives it.
pub fn device_in_full(wording: &Wording, exercise: &Exercise, id: DeviceId) -> String {
    let Some(it) = exercise.devices.get(id) else { return String::new() };
    let name = device(wording, exercise, id);
    let args = [("device", name.as_str()), ("rating", &rating(wording, it.kind)), ("circuit", exercise.charted(id))];
    wording.say("device-in-full", &args)
}

/// What is printed on a device: what it is and what it is rated for.
fn rating(wording: &Wording, kind: DeviceKind) -> String {
    let amps = format!("{:.0}", kind.rated_amps());
    let milliamps = kind.residual_amps().map(|it| format!("{:.0}", 1000.0 * it)).unwrap_or_default();
    let curve = match kind.curve() {
        Some(Curve::B) => "B",
        Some(Curve::C) => "C",
        Some(Curve::D) => "D",
        None => "",
    };
    let key = match (curve.is_empty(), milliamps.is_empty()) {
        (false, false) => "rating-rcbo",
        (false, true) => "rating-mcb",
        (true, _) => "rating-rcd",
    };
    wording.say(key, &[("amps", &amps), ("type", curve), ("milliamps", &milliamps)])
}

/// A lamp in words: it is called after its location.
pub fn lamp(exercise: &Exercise, lamp: LampId) -> String {
    exercise.lamps.get(lamp).map_or(String::new(), |it| location(exercise, it.location).to_owned())
}

/// A switch's position in words.
pub fn position(wording: &Wording, exercise: &Exercise, switch: SwitchId, position: u8) -> String {
    let way = exercise.switches.get(switch).map(|it| it.way);
    let (by, down) = way.map_or((WorkedBy::Rocker, false), |it| (it.worked_by, it.is_down(usize::from(position))));
    let key = match (by, down) {
        (WorkedBy::Cord, true) => "cord-pulled",
        (WorkedBy::Cord, false) => "cord-let-go",
        (WorkedBy::Knob, true) => "knob-on",
        (WorkedBy::Knob, false) => "knob-off",
        (WorkedBy::Push, true) => "push-in",
        (WorkedBy::Push, false) => "push-out",
        (_, true) => "rocker-down",
        (_, false) => "rocker-up",
    };
    wording.say(key, &[])
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::{
        exercise::{Seed, Stage, read},
        work::Action,
    };

    const PASSAGE: &str = include_str!("../../exercises/two-way-passage/scenario.ron");

    fn work(text: &str) -> Work {
        Work::new(Arc::new(read(text, Seed(0)).unwrap()))
    }

    fn check(text: &str, cases: &[(&str, &str)]) {
        let (wording, work) = (Wording::british(), work(text));
        for (address, words) in cases {
            assert_eq!(place(&wording, &work, address), *words, "{address}");
        }
    }

    #[test]
    fn every_kind_of_address_is_said_as_on_site() {
        check(
            PASSAGE,
            &[
                ("kiln", "box at the kiln door"),
                ("lamp", "passage light"),
                ("board", "board"),
                ("board.1", "circuit 1"),
                ("board.1.line", "circuit 1, line"),
                ("board.2.neutral", "circuit 2, neutral"),
                ("board.earth", "earth bar of the board"),
                ("rose.loop", "passage rose, loop"),
                ("rose.neutral", "passage rose, neutral"),
                ("rose.switched", "passage rose, switched line"),
                ("rose.earth", "passage rose, earth"),
                ("kiln.1.L1", "box at the kiln door, left-hand switch, L1"),
                ("kiln.2.COM", "box at the kiln door, right-hand switch, COM"),
                ("clay.L1", "box at the clay store door, L1"),
                ("kiln.2", "box at the kiln door, right-hand switch"),
                ("kiln.box.earth", "earth terminal of the box at the kiln door"),
                ("kiln.connector.2", "connector 2 in the box at the kiln door"),
                ("lamp.1", "passage light, first contact"),
                ("lamp.2", "passage light, second contact"),
                ("link/grey@clay", "grey core of the three-core, at the box at the clay store door"),
                ("link/cpc@kiln", "cpc of the three-core, at the box at the kiln door"),
                ("link/grey", "grey core of the three-core"),
                ("nowhere.L1", "“nowhere.L1”"),
            ],
        );
    }

    #[test]
    fn a_metal_plate_a_screw_holder_and_alike_cores_have_words_too() {
        let text = PASSAGE
            .replace(
                "body: Metal, lugs: OneFixed, plate: Plastic, ways: [TwoWay],",
                "body: Metal, plate: Metal, ways: [TwoWay],",
            )
            .replace("connectors: 2", "connectors: 1")
            .replace("holder: Bayonet, lamp: Filament", "holder: Screw, lamp: Filament")
            .replace("\"lamp.1\"", "\"lamp.centre\"")
            .replace("\"lamp.2\"", "\"lamp.outer\"")
            .replace("name: \"shed drop\", kind: TwinEarth", "name: \"shed drop\", kind: TwinBrownEarth")
            .replace("shed-drop/brown@", "shed-drop/brown1@")
            .replace("shed-drop/blue@", "shed-drop/brown2@");
        check(
            &text,
            &[
                ("clay.plate.earth", "earth terminal on the plate of the box at the clay store door"),
                ("clay.connector.1", "connector in the box at the clay store door"),
                ("lamp.centre", "passage light, centre contact"),
                ("lamp.outer", "passage light, outer contact"),
                ("shed-drop/brown1@kiln", "first brown core of the shed drop, at the box at the kiln door"),
                ("shed-drop/brown2@kiln", "second brown core of the shed drop, at the box at the kiln door"),
            ],
        );
    }

    #[test]
    fn stages_and_predictions_are_subjects_too() {
        let (wording, work) = (Wording::british(), work(PASSAGE));
        assert_eq!(subject(&wording, &work, Subject::Stage(Stage::FunctionalTest)), "functional test");
        assert_eq!(subject(&wording, &work, Subject::Prediction(1)), "prediction 2");
        assert_eq!(subject(&wording, &work, Subject::Device(DeviceId(0))), "circuit 1");
    }

    #[test]
    fn a_made_up_link_is_said_by_its_colour_and_numbered_when_there_are_more() {
        let (wording, mut work) = (Wording::british(), work(PASSAGE));
        let make_up = |colour| Action::MakeUp { location: "kiln".to_owned(), colour };
        work.apply(&make_up(Colour::GreenYellow)).unwrap();
        let say = |work: &Work, address: &str| place(&wording, work, address);
        assert_eq!(say(&work, "made-1/a@kiln"), "first end of the green-and-yellow link, at the box at the kiln door");
        work.apply(&make_up(Colour::Brown)).unwrap();
        assert_eq!(say(&work, "made-2/b@kiln"), "second end of the brown link 2, at the box at the kiln door");
        assert_eq!(say(&work, "made-2"), "brown link 2");
    }

    #[test]
    fn two_boards_tell_their_devices_apart() {
        let board = "Location(id: \"loft\", name: \"loft board\", at: (0, 0), has: Board(devices: [\
                     Device(id: \"1\", kind: Rcbo6B30, circuit: \"loft\")])),";
        let text = PASSAGE.replacen("locations: [", &format!("locations: [{board}"), 1);
        check(&text, &[("loft.1", "circuit 1 of the loft board"), ("board.1", "circuit 1 of the board")]);
    }

    /// By the trade's habit, COM to L1 is rocker down: position 0 of a two-way switch, 1 of a one-way.
    #[test]
    fn positions_are_said_by_the_rocker() {
        let (wording, passage) = (Wording::british(), work(PASSAGE));
        let exercise = passage.exercise();
        let kiln = exercise.switch("kiln.1").unwrap();
        assert_eq!(position(&wording, exercise, kiln, 0), "rocker down");
        assert_eq!(position(&wording, exercise, kiln, 1), "rocker up");
        let rose = work(include_str!("../../exercises/one-way-rose/scenario.ron"));
        let exercise = rose.exercise();
        let switch = exercise.switch("switch").unwrap();
        assert_eq!(position(&wording, exercise, switch, 0), "rocker up");
        assert_eq!(position(&wording, exercise, switch, 1), "rocker down");
    }
}
