//! Doubts about whole circuits: load, devices, volt drop, the loop of a first fault.
//!
//! A load that several devices could feed counts for the one with the shortest way to it, and for no other.

use super::{Doubt, DoubtKind, routes::Routes};
use crate::{
    exercise::{Cable, DeviceId, Exercise, LampId, LocationId, Named},
    trade::{
        cable::temperature_factor,
        carrying::LIGHTING_DROP_VOLTS,
        device::{DeviceKind, RESIDUAL_TOUCH_VOLTS},
        supply::NOMINAL_VOLTS,
    },
};

/// Conductors at full load, degrees Celsius (70 °C thermoplastic).
const FULL_LOAD_CELSIUS: f64 = 70.0;

/// The largest rated residual current of additional protection, amps (BS 7671 415.1.1; number from memory).
const ADDITIONAL_PROTECTION_AMPS: f64 = 0.030;

/// Something that takes current.
struct LoadAmps {
    location: LocationId,
    amps: f64,
    lamp: Option<LampId>,
}

pub(super) fn doubts(exercise: &Exercise, found: &mut Vec<Doubt>) {
    let devices: Vec<DeviceId> = exercise.devices.ids().collect();
    let routes: Vec<Routes> =
        devices.iter().map(|it| Routes::new(exercise, *it, |cable| Some(exercise.cables[cable].metres))).collect();
    let nearest = |location: LocationId| {
        let far = |it: &&DeviceId| routes[it.index()].far(location);
        let reaching = devices.iter().filter(|it| far(it).is_some());
        reaching.min_by(|a, b| far(a).unwrap_or(f64::INFINITY).total_cmp(&far(b).unwrap_or(f64::INFINITY))).copied()
    };
    let loads = loads(exercise);
    for id in devices.iter().copied() {
        let (device, routes) = (&exercise.devices[id], &routes[id.index()]);
        let ours: Vec<&LoadAmps> = loads.iter().filter(|it| nearest(it.location) == Some(id)).collect();
        let amps: f64 = ours.iter().map(|it| it.amps).sum();
        if amps > device.kind.rated_amps() {
            found.push(Doubt::new(DoubtKind::Overloaded, Named::Device(id), amps, device.kind.rated_amps()));
        }
        let places = || exercise.locations.ids().filter(|it| nearest(*it) == Some(id));
        let feeds = places().any(|it| it != device.location);
        if device.kind.curve().is_none() && feeds {
            found.push(Doubt::new(DoubtKind::NoOvercurrent, Named::Device(id), 0.0, 0.0));
        }
        if ours.iter().any(|it| it.lamp.is_some()) && !has_additional_protection(exercise, id) {
            found.push(Doubt::new(DoubtKind::NoAdditionalProtection, Named::Device(id), 0.0, 0.0));
        }
        volt_drop(exercise, routes, &ours, found);
        first_fault(exercise, id, &places().collect::<Vec<_>>(), found);
    }
}

fn loads(exercise: &Exercise) -> Vec<LoadAmps> {
    let lamps = exercise.lamps.with_ids().map(|(id, it)| LoadAmps {
        location: it.location,
        amps: it.watts / NOMINAL_VOLTS,
        lamp: Some(id),
    });
    let fans =
        exercise.fans.iter().map(|it| LoadAmps { location: it.location, amps: it.watts / NOMINAL_VOLTS, lamp: None });
    lamps.chain(fans).collect()
}

/// One conductor of a cable at full load, ohms.
fn hot_ohms(cable: &Cable) -> f64 {
    cable.live.ohms_per_metre() * cable.metres * temperature_factor(FULL_LOAD_CELSIUS)
}

/// Everything on, each load by the shortest way; a lamp's line goes by way of the farthest of its switches.
fn volt_drop(exercise: &Exercise, routes: &Routes, loads: &[&LoadAmps], found: &mut Vec<Doubt>) {
    // Amps in line and neutral of each cable together: the volts lost are that times the ohms of one conductor.
    let mut amps = vec![0.0; exercise.cables.len()];
    let detour = |load: &LoadAmps, way: &[usize]| -> Vec<usize> {
        let control = exercise.controls.iter().find(|it| Some(it.lamp) == load.lamp);
        let switches = control.map_or(&[][..], |it| &it.switches);
        let off = |switch: &LocationId| -> Vec<usize> {
            routes.way(exercise, *switch).into_iter().filter(|it| !way.contains(it)).collect()
        };
        let places = switches.iter().map(|it| exercise.switches[*it].location);
        let metres = |way: &Vec<usize>| way.iter().map(|it| exercise.cables[*it].metres).sum::<f64>();
        places.map(|it| off(&it)).max_by(|a, b| metres(a).total_cmp(&metres(b))).unwrap_or_default()
    };
    let ways: Vec<(Vec<usize>, Vec<usize>)> = loads
        .iter()
        .map(|it| {
            let way = routes.way(exercise, it.location);
            let detour = detour(it, &way);
            (way, detour)
        })
        .collect();
    for (load, (way, _)) in loads.iter().zip(&ways) {
        for it in way {
            amps[*it] += 2.0 * load.amps;
        }
    }
    for (load, (way, detour)) in loads.iter().zip(&ways) {
        let Some(lamp) = load.lamp else { continue };
        let on_the_way: f64 = way.iter().map(|it| amps[*it] * hot_ohms(&exercise.cables[*it])).sum();
        // There and back, with the lamp's own current alone.
        let aside: f64 = detour.iter().map(|it| 2.0 * load.amps * hot_ohms(&exercise.cables[*it])).sum();
        if on_the_way + aside > LIGHTING_DROP_VOLTS {
            let at = Named::Location(exercise.lamps[lamp].location);
            found.push(Doubt::new(DoubtKind::VoltDrop, at, on_the_way + aside, LIGHTING_DROP_VOLTS));
        }
    }
}

/// Whether a device, or the one in front of it, opens on a residual current of 30 mA, which household circuits with luminaires have
/// to have (BS 7671 411.3.4, since 2018).
fn has_additional_protection(exercise: &Exercise, device: DeviceId) -> bool {
    let its = &exercise.devices[device];
    let both = [Some(its.kind), its.behind.map(|it| exercise.devices[it].kind)].into_iter().flatten();
    both.filter_map(DeviceKind::residual_amps).any(|it| it <= ADDITIONAL_PROTECTION_AMPS)
}

/// The largest loop that opens a device in time, ohms: by its residual current, its own or that of one in front of it
/// (BS 7671 411.5.3), or else at once by overcurrent (Table 41.3).
fn loop_limit(exercise: &Exercise, device: DeviceId) -> Option<f64> {
    let its = &exercise.devices[device];
    let front = its.behind.map(|it| exercise.devices[it].kind);
    let residual = its.kind.residual_amps().or_else(|| front.and_then(DeviceKind::residual_amps));
    residual.map(|it| RESIDUAL_TOUCH_VOLTS / it).or_else(|| its.kind.max_loop_ohms())
}

/// Line out and protective conductor back by the shortest way that has one, at the farthest of these places.
fn first_fault(exercise: &Exercise, device: DeviceId, places: &[LocationId], found: &mut Vec<Doubt>) {
    let Some(limit) = loop_limit(exercise, device) else { return };
    let loops = Routes::new(exercise, device, |cable| {
        let it = &exercise.cables[cable];
        let has_cpc = it.kind.cores().iter().any(|it| it.colour.is_protective());
        let both = it.live.ohms_per_metre() + it.cpc.ohms_per_metre();
        has_cpc.then(|| both * it.metres * temperature_factor(FULL_LOAD_CELSIUS))
    });
    let supply = exercise.outside_ohms();
    let outside = supply.line + supply.earth;
    let far = |it: &LocationId| loops.far(*it).filter(|far| *far > 0.0).map(|far| (*it, outside + far));
    let worst = places.iter().filter_map(far).max_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((place, ohms)) = worst.filter(|it| it.1 > limit) {
        let doubt = Doubt::new(DoubtKind::NoDisconnection, Named::Device(device), ohms, limit);
        found.push(Doubt { place: Some(place), ..doubt });
    }
}
