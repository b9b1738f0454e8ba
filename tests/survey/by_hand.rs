//! Single cases worked out on paper, for the survey and for the brute force that it is compared with. Each stands beside its near
//! miss.

use switchdrop::{
    circuit::{HazardKind, survey},
    work::Work,
};

use super::cases::compare;
use crate::installations::{BATHROOM, BATHROOM_WIRED, with};

/// Whether the survey finds this in the bathroom wired right but for some lines; brute force finds what the survey does.
fn has(scenario: &str, further: &str, kind: HazardKind, at: &str) -> bool {
    let work: Work = with(scenario, BATHROOM_WIRED, further).work().clone();
    compare(std::iter::once((further.to_owned(), work.clone())));
    survey(&work).hazards.iter().any(|it| it.kind == kind && it.at.address(work.exercise()) == at)
}

/// The store's cpc is at the bathroom's light. With the cord off nothing else is in the earth terminal of the store's plate, or joined
/// to it: a line that comes against it puts it at 230 V, no current flows and nothing opens. That matters where the plate is metal. A plastic
/// plate joins its terminal to nothing that can be touched, and the charter exempts it.
#[test]
fn a_plate_with_no_earth_stays_live_only_where_it_is_metal() {
    let front = "has: Box(body: Plastic, plate: Plastic, ways: [DoublePole])";
    let metal = BATHROOM.replace(front, "has: Box(body: Plastic, plate: Metal, ways: [DoublePole])");
    assert_ne!(metal, BATHROOM);
    let astray = "store-feed/cpc@store lamp.1";
    assert!(has(&metal, astray, HazardKind::NoDisconnection, "store.plate.earth"));
    assert!(!has(BATHROOM, astray, HazardKind::NoDisconnection, "store.plate.earth"));
    assert!(!has(&metal, "", HazardKind::NoDisconnection, "store.plate.earth"));
}

/// Device 1 opens on its line against earth. From the store's line, with the isolator on, a current goes through the fan's timer (220,000 ohm)
/// to the fan's neutral, where the light's second contact is, and on through the motor (230 V squared by 20 W, 2,645 ohm) to the line that is
/// earthed. So the contact is at 230 x 2,645 / 222,645 = 2.7 V: a body there would take 2.7 V / (2,000 + 2,614) ohm = 0.59 mA, more than
/// the touch current, but at less than 25 V, so nobody feels it. Without the motor's line there is no way on: the contact is at 230 V,
/// and a body takes 230 V / 222,000 ohm = 1.04 mA.
#[test]
fn a_holder_at_less_than_a_hand_feels_is_not_live() {
    let lines = "feed/cpc@joint board.1.line\nfan-tail/grey@isolator lamp.2\nto-fan/black@joint store.L-in\nflex/blue@lamp board.earth";
    assert!(!has(BATHROOM, lines, HazardKind::LampholderLive, "lamp"));
    assert!(has(BATHROOM, &format!("{lines}\nto-fan/brown@joint loose"), HazardKind::LampholderLive, "lamp"));
}
