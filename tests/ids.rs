//! Ids for what is known by its number alone. The first device of any exercise has the id of the first device of every other, so
//! they can be had from one that has more of everything.

use std::sync::LazyLock;

use switchdrop::exercise::{DeviceId, Exercise, FanId, LampId, LocationId, Seed, read_for_states};

/// Places of each kind.
const PLACES: usize = 20;

static MANY: LazyLock<Exercise> =
    LazyLock::new(|| read_for_states(&text(), Seed(0)).unwrap_or_else(|it| panic!("{it:#?}")));

/// An exercise with more of everything than any other in these tests has: its last ids stand for nothing there.
pub fn many() -> &'static Exercise {
    &MANY
}

pub fn device(number: usize) -> DeviceId {
    MANY.devices.id(number).unwrap()
}

pub fn lamp(number: usize) -> LampId {
    MANY.lamps.id(number).unwrap()
}

pub fn fan(number: usize) -> FanId {
    MANY.fans.id(number).unwrap()
}

/// One that the shipped exercises do not have.
pub fn far_location() -> LocationId {
    MANY.locations.ids().next_back().unwrap()
}

fn text() -> String {
    let list = |one: fn(usize) -> String| (0..PLACES).map(one).collect::<String>();
    let devices = list(|it| format!("Device(id: \"{it}\", kind: Mcb6B, circuit: \"c{it}\"),"));
    let boxes = list(|it| {
        format!(
            "Location(id: \"box{it}\", name: \"box {it}\", at: (0, 0), has: Box(body: Metal, lugs: Some(OneFixed), plate: Metal,
             ways: [TwoWay, TwoWay, TwoWay], connectors: Some(4))),"
        )
    });
    let lamps = list(|it| {
        format!(
            "Location(id: \"lamp{it}\", name: \"lamp {it}\", at: (0, 0),
             has: Luminaire(holder: Bayonet, lamp: Led, watts: 8.0)),"
        )
    });
    let fans = list(|it| {
        format!(
            "Location(id: \"fan{it}\", name: \"fan {it}\", at: (0, 0),
             has: Fan(kind: TimerFan, watts: 20.0, with: \"lamp{it}\")),"
        )
    });
    let cable = |id: &str, from: &str, to: &str| {
        format!(
            "Cable(id: \"{id}\", name: \"{id}\", kind: ThreeCoreEarth, mm2: 1.0, metres: 1.0, from: \"{from}\", to: \"{to}\"),"
        )
    };
    let cables: String = (0..PLACES)
        .map(|it| {
            [("a", "board", "box"), ("b", "box", "lamp"), ("c", "box", "fan")]
                .map(|(name, from, to)| {
                    let from = if from == "board" { from.to_owned() } else { format!("{from}{it}") };
                    cable(&format!("{name}{it}"), &from, &format!("{to}{it}"))
                })
                .concat()
        })
        .collect();
    let controls = list(|it| format!("Control(lamp: \"lamp{it}\", switches: [\"box0.1\"]),"));
    format!(
        "Scenario(format: 1, id: \"many\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS,
         locations: [Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [{devices}])),
         {boxes}{lamps}{fans}], cables: [{cables}], controls: [{controls}], stages: [])"
    )
}
