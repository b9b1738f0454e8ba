//! A wiring with faults from the window to its sheet, and each fault shown where it is.

use bevy_egui::egui::{Context, Event};
use switchdrop::{
    circuit::Physics,
    marking::mark,
    wording::{Wording, report},
    work::Action,
};

use super::{
    super::shop::Screen,
    bench::{Bench, model},
};
use crate::journal::read_attempt;

/// The model without one sleeve and with one screw left slack: by the charter of marking a fault each, at these addresses.
const FAULTS: [&str; 2] = ["link/grey@west", "east.2.COM"];

fn faulty() -> impl Iterator<Item = Action> {
    model().into_iter().filter(|it| match it {
        Action::Mark { end, .. } => end != FAULTS[0],
        Action::Tighten { terminal, .. } => terminal != FAULTS[1],
        _ => true,
    })
}

#[test]
fn faults_made_in_the_window_are_on_the_sheet_that_its_file_earns_and_each_is_shown_in_place() {
    let mut bench = Bench::new("faulty");
    bench.click("begin:two-way-stairs");
    bench.does(faulty());
    assert_eq!(bench.shop.screen(), Screen::Sheet, "{}", bench.shop.said());
    let whole = read_attempt(&bench.shop.session().unwrap().path).unwrap();
    let attempt = whole.opened.replay(&Physics).unwrap();
    let sheet = mark(&attempt, whole.opened.header.mode);
    let lines = report(&Wording::british(), &whole.opened.header.learner, &attempt, &sheet);
    assert_eq!(bench.shop.marked().unwrap().lines, lines);
    assert!(sheet.marks < sheet.out_of);
    for wanted in FAULTS {
        let number = sheet.findings.iter().position(|it| it.at == wanted);
        let number = number.unwrap_or_else(|| panic!("no finding at {wanted}: {:?}", sheet.findings)) + 1;
        bench.click(&format!("show:{number}"));
        assert_eq!(bench.shop.screen(), Screen::Bench);
        let shown = bench.shop.targets().0.iter().find(|it| it.key == wanted);
        assert!(shown.is_some_and(|it| it.visible && it.on), "{wanted}: {:?}", bench.keys());
        bench.click("sheet");
    }
}

/// What is drawn is made of the log and of where the learner looks, and of nothing that was drawn before.
#[test]
fn all_that_is_drawn_can_be_thrown_away_and_comes_back_the_same() {
    let mut bench = Bench::new("rebuilt");
    bench.click("begin:two-way-stairs");
    bench.does_model_until(|it| matches!(it, Action::Tighten { .. }));
    bench.click("go:west");
    bench.click("drop/blue@west");
    bench.frames(vec![Event::PointerGone]);
    let before = bench.painted.shapes.clone();
    let touched = |it: &Bench| it.shop.targets().0.iter().map(|it| (it.key.clone(), it.rect)).collect::<Vec<_>>();
    let (keys, words) = (touched(&bench), bench.words());
    assert!(before.len() > 100, "only {}", before.len());

    bench.shop.throw_away_what_is_drawn();
    bench.frames(Vec::new());
    assert!(bench.painted.shapes == before, "painted otherwise");

    // Not even what egui remembers is needed, but where letters lie in its texture is another matter.
    bench.ctx = Context::default();
    bench.shop.throw_away_what_is_drawn();
    bench.frames(Vec::new());
    assert_eq!(touched(&bench), keys);
    assert_eq!(bench.words(), words);
}
