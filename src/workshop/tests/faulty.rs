//! A wiring with faults from the window to its sheet, and each fault shown where it is.

use bevy_egui::egui::{Context, Event, Shape};
use switchdrop::{
    marking::mark,
    report::{About, Story, report},
    wording::Wording,
    work::Action,
};

use super::{
    super::{theme, window_state::Screen},
    bench::{Bench, model},
    opened::shorted,
};
use crate::journal::read_attempt;

/// The model without one sleeve and with one screw left slack: by the charter of marking a fault each, at these addresses.
const FAULTS: [&str; 2] = ["link/grey@kiln", "clay.COM"];

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
    bench.click("begin:two-way-passage");
    bench.does(faulty());
    assert_eq!(bench.window.screen(), Screen::Sheet, "{}", bench.window.said());
    let whole = read_attempt(&bench.window.session().unwrap().path).unwrap();
    let attempt = whole.opened.replay().unwrap();
    let sheet = mark(&attempt, whole.opened.header.mode);
    assert!(sheet.marks < sheet.out_of);
    assert_eq!(bench.window.marked().unwrap().sheet, sheet);
    bench.window.wait_for_the_story();
    bench.frames(Vec::new());
    // Every line of the command line's report stands on the screen, but for whose it is and the cautions, a key away.
    let mut story = Story::of(&attempt, &sheet, whole.opened.times());
    // What would have happened is told when it is asked for.
    story.would_have.clear();
    let wording = Wording::british();
    let mut lines = report(
        &wording,
        &About { learner: &whole.opened.header.learner, receipt: whole.receipt.as_deref(), notices: &[] },
        &attempt,
        &sheet,
        &story,
    );
    // Where the current goes is shown on the drawing, whose switches can still be worked.
    let table = wording.say("way-table", &[]);
    let from = lines.iter().position(|it| *it == table).expect("the table of positions");
    let rows = lines[from..].iter().take_while(|it| !it.is_empty()).count();
    assert_eq!(rows, 1 + 8, "eight settings of three switches");
    lines.drain(from..from + rows);
    let page = bench.whole_page();
    let cautions = wording.say("cautions-heading", &[]);
    for it in lines.iter().skip(1).map(|it| it.trim().trim_start_matches("- ")).take_while(|it| **it != cautions) {
        let (_, after) = it.split_once(": ").unwrap_or((it, it));
        assert!(page.iter().any(|text| text.0.contains(it) || text.0.contains(after)), "{it} not on {page:?}");
    }
    for wanted in FAULTS {
        let number = sheet.findings.iter().position(|it| it.at.address(attempt.work().exercise()) == wanted);
        let number = number.unwrap_or_else(|| panic!("no finding at {wanted}: {:?}", sheet.findings)) + 1;
        bench.click(&format!("show:{number}"));
        assert_eq!(bench.window.screen(), Screen::Bench);
        let shown = bench.window.targets().0.iter().find(|it| it.key == wanted);
        assert!(shown.is_some_and(|it| it.visible && it.on), "{wanted}: {:?}", bench.keys());
        assert!(bench.says("Found here") && bench.says(&format!("{number}. major")), "{:?}", bench.words());
        bench.click("sheet");
    }
}

/// A screw that nobody tightens is loose from when the first end goes under it.
#[test]
fn a_fault_says_with_which_step_it_arose() {
    let mut bench = Bench::new("moments");
    bench.click("begin:two-way-passage");
    bench.does(faulty());
    bench.window.wait_for_the_story();
    bench.frames(Vec::new());
    let page = bench.whole_page();
    let connects = |it: &Action| matches!(it, Action::Connect { terminal, .. } if terminal == FAULTS[1]);
    let step = bench.log().iter().position(connects).unwrap() + 1;
    let said = page.iter().find(|it| it.0.starts_with(&format!("at step {step} of the work")));
    let what = "now in box at the clay store door, COM, its screw still to be tightened";
    assert!(said.is_some_and(|it| it.0.contains(what)), "{step}: {page:?}");
}

/// Line joined to earth at the clay store door: it opens the device, and the way of its current is outlined.
#[test]
fn what_would_have_happened_is_told_on_demand_and_outlined_on_the_drawing() {
    let mut bench = Bench::new("played");
    let numbers = bench.hands_in_a_faulty_one();
    assert!(!bench.whole_page().iter().any(|it| it.0.contains("A would have flowed this way")));
    bench.click(&format!("would:{}", numbers[0]));
    let page = bench.whole_page();
    let told = page.iter().find(|it| it.0.contains("A would have flowed this way"));
    assert!(told.is_some_and(|it| it.0.contains("circuit 1") && it.0.contains("trips")), "{page:?}");
    bench.click(&format!("play:{}", numbers[0]));
    assert_eq!(bench.window.screen(), Screen::Bench);
    assert!(bench.says("What would have happened") && bench.says("A would have flowed this way"));
    bench.click("go:clay");
    let outlined = |bench: &Bench| {
        bench
            .painted
            .shapes
            .iter()
            .filter(
                |it| matches!(&it.shape, Shape::LineSegment { stroke, .. } if stroke.color == theme::WARNING.worn()),
            )
            .count()
    };
    assert!(outlined(&bench) > 10, "{}", outlined(&bench));
    bench.click("sheet");
    bench.click(&format!("show:{}", numbers[0]));
    bench.click("go:clay");
    assert_eq!(outlined(&bench), 0);
}

/// By its key and by its button: each finding comes into sight in turn with the keyboard on its way to its place, and after the last the
/// first again.
#[test]
fn one_key_walks_from_finding_to_finding() {
    let mut bench = Bench::new("walks");
    bench.click("begin:two-way-passage");
    bench.does(faulty());
    bench.window.wait_for_the_story();
    bench.frames(Vec::new());
    let count = bench.window.marked().unwrap().sheet.findings.len();
    assert!(count >= FAULTS.len());
    for step in 0..=count {
        if step % 2 == 0 {
            bench.key(bevy_egui::egui::Key::F);
        } else {
            bench.click("next-finding");
        }
        let wanted = format!("show:{}", step % count + 1);
        assert_eq!(bench.focused(), Some(wanted.clone()), "step {step}");
        assert!(bench.window.targets().usable(&wanted).is_some_and(|it| it.visible), "{wanted}");
    }
}

impl Bench {
    /// Hands in a wiring in which the tail that should earth the plate is in the line instead. The numbers of the findings of
    /// which it can be told what they would have led to.
    pub fn hands_in_a_faulty_one(&mut self) -> Vec<String> {
        self.click("begin:two-way-passage");
        self.does(shorted());
        self.does([Action::HandIn]);
        assert_eq!(self.window.screen(), Screen::Sheet, "{}", self.window.said());
        self.window.wait_for_the_story();
        self.frames(Vec::new());
        let keys = self.keys();
        let numbers: Vec<_> = keys.iter().filter_map(|it| it.strip_prefix("would:")).map(str::to_owned).collect();
        assert!(!numbers.is_empty(), "{keys:?}");
        numbers
    }
}

/// What is drawn is made of the log and of where the learner looks, and of nothing that was drawn before.
#[test]
fn all_that_is_drawn_can_be_thrown_away_and_comes_back_the_same() {
    let mut bench = Bench::new("rebuilt");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::Tighten { .. }));
    bench.click("go:kiln");
    bench.click("light/brown@kiln");
    bench.frames(vec![Event::PointerGone]);
    let before = bench.painted.shapes.clone();
    let touched = |it: &Bench| it.window.targets().0.iter().map(|it| (it.key.clone(), it.rect)).collect::<Vec<_>>();
    let (keys, words) = (touched(&bench), bench.words());
    assert!(before.len() > 100, "only {}", before.len());

    bench.window.throw_away_what_is_drawn();
    bench.frames(Vec::new());
    assert!(bench.painted.shapes == before, "painted otherwise");

    // Not even what egui remembers is needed, but where letters lie in its texture is another matter.
    bench.ctx = Context::default();
    bench.window.throw_away_what_is_drawn();
    bench.frames(Vec::new());
    assert_eq!(touched(&bench), keys);
    assert_eq!(bench.words(), words);
}
