//! What a hand did to an end can be seen at the size it has: crushed, nicked, caught by the plate, long, short; and the test
//! links that are in.

use switchdrop::{
    exercise::EndId,
    picture::{Covers, Layer, Outline, Paint, Path, Scene, Shape, Thing, View, Xy, of_location},
    trade::colour::Colour,
    work::Work,
};

use super::works::{English, TESTED, bad_hand, blank, does};

const LIFTED: View<'_> = View { covers: Covers::Lifted, lit: None, evening: false };

fn box_of(work: &Work) -> Scene {
    of_location(work, work.location("switch").unwrap(), &English, &LIFTED)
}

fn paths(scene: &Scene, end: EndId, paint: Paint) -> Vec<(&Path, f32)> {
    let its = scene.shapes.iter().filter(|it| it.about == Some(Thing::End(end)));
    let its = its.filter_map(|it| it.stroke.filter(|it| it.paint == paint).map(|stroke| (it, stroke.width)));
    its.filter_map(|(it, wide)| if let Outline::Path(path) = &it.outline { Some((path, wide)) } else { None }).collect()
}

fn length(path: &Path) -> f32 {
    let apart = |a: Xy, b: Xy| ((a.x - b.x).powi(2) + (a.y - b.y).powi(2)).sqrt();
    path.flattened().windows(2).map(|it| apart(it[0], it[1])).sum()
}

fn lowest(path: &Path) -> f32 {
    path.flattened().iter().map(|it| it.y).fold(0.0, f32::max)
}

/// A box whose feed has so much sheath off and whose brown core is cut, stripped, and perhaps in COM.
fn feed(core_mm: u16, lines: &str) -> Work {
    let mut work = blank(TESTED, 4);
    let mm = core_mm.max(101);
    let first = format!(
        "RemoveCover(location: \"switch\")\nSheath(cable: \"feed\", location: \"switch\", mm: {mm})\n{}",
        if mm > core_mm { format!("Cut(end: \"feed/brown@switch\", mm: {core_mm})") } else { String::new() }
    );
    does(&mut work, &first);
    does(&mut work, lines);
    work
}

const IN_COM: &str = r#"
    Strip(end: "feed/brown@switch", mm: 9, jaw: 150)
    Connect(end: "feed/brown@switch", terminal: "switch.COM")
"#;

fn brown(work: &Work) -> EndId {
    work.end("feed/brown@switch").unwrap()
}

#[test]
fn a_crushed_end_is_flat_with_the_mark_of_the_screw_and_a_sound_one_is_not() {
    let widest = |feel: &str| {
        let work = feed(120, &format!("{IN_COM}Tighten(terminal: \"switch.COM\", feel: {feel})"));
        let scene = box_of(&work);
        let copper =
            paths(&scene, brown(&work), Paint::Conductor(Colour::Bare)).iter().map(|it| it.1).fold(0.0, f32::max);
        (copper, paths(&scene, brown(&work), Paint::Ink).len())
    };
    let ((flat, dents), (sound, none)) = (widest("Crushed"), widest("Right"));
    // A round wire driven flat is at least half as wide again.
    assert!(flat >= 1.5 * 4.5 && flat > sound, "{flat} {sound}");
    assert_eq!((dents, none), (1, 0));
}

#[test]
fn what_a_plate_has_caught_shows_copper_where_it_is_cut_and_stands_out_from_under_the_plate() {
    // Six cores of 190 mm do not fold behind a plate in a box of 35 mm (trade/workmanship.rs); of the longest with insulation
    // the first, the feed's brown, is caught unless they are laid clear.
    let closed = |laid: &str| {
        let lines = "Sheath(cable: \"light\", location: \"switch\", mm: 190)";
        let work = feed(190, &format!("{lines}\n{laid}\nFitCover(location: \"switch\")"));
        let view = View { covers: Covers::AsTheyStand, lit: None, evening: false };
        let front = of_location(&work, work.location("switch").unwrap(), &English, &view);
        let stands_out = front.shapes.into_iter().filter(|it| it.about == Some(Thing::End(brown(&work))));
        let open = box_of(&work);
        let copper = paths(&open, brown(&work), Paint::Conductor(Colour::Bare)).len();
        (copper, paths(&open, brown(&work), Paint::Ink).len(), stands_out.collect::<Vec<Shape>>())
    };
    let (copper, edges, stands_out) = closed("");
    assert_eq!((copper, edges), (1, 2));
    assert!(!stands_out.is_empty() && stands_out.iter().all(|it| it.layer < Layer::Panels));
    assert_eq!(closed("Dress(location: \"switch\")"), (0, 0, Vec::new()));
}

/// Of a core in a terminal what is to spare is drawn, and a free one hangs as much less low as it is cut.
#[test]
fn core_to_spare_bends_and_a_short_end_hangs_high_each_by_its_length() {
    let drawn = |core_mm: u16, lines: &str| {
        let work = feed(core_mm, lines);
        let scene = box_of(&work);
        let its = paths(&scene, brown(&work), Paint::Conductor(Colour::Brown));
        (its.iter().map(|it| length(it.0)).sum::<f32>(), its.iter().map(|it| lowest(it.0)).fold(0.0, f32::max))
    };
    // To a plate of one gang 100 mm are needed (trade/workmanship.rs), of which none is drawn bent.
    let [none, some, more] = [100, 130, 180].map(|it| drawn(it, IN_COM).0);
    let (a_third, the_rest) = (some - none, more - none);
    assert!(a_third > 5.0, "{a_third}");
    assert!((the_rest / a_third - 80.0 / 30.0).abs() < 0.5, "{a_third} {the_rest}");
    let [short, usual, long] = [40, 110, 180].map(|it| drawn(it, "").1);
    assert!(long - usual > 10.0 && (long - usual - (usual - short)).abs() < 0.5, "{short} {usual} {long}");
}

#[test]
fn a_test_link_lies_between_its_two_terminals_until_it_is_taken_out() {
    let ends = |work: &Work, at: &str| {
        let scene = of_location(work, work.location(at).unwrap(), &English, &LIFTED);
        let leads = scene.shapes.iter().filter(|it| it.stroke.is_some_and(|it| it.paint == Paint::Warning));
        let leads =
            leads.filter_map(|it| if let Outline::Path(it) = &it.outline { Some([it.start, it.end()]) } else { None });
        let touched =
            |point: Xy| scene.spots.iter().filter(move |it| it.rect.contains(point)).map(|it| it.address.clone());
        leads.map(|it| it.into_iter().flat_map(touched).collect::<Vec<_>>()).collect::<Vec<_>>()
    };
    let mut work = bad_hand();
    assert_eq!(ends(&work, "board"), [vec!["board.1.line", "board.earth"], vec!["board.earth"]]);
    let mut at_box = ends(&work, "switch");
    for it in &mut at_box {
        it.sort();
    }
    assert_eq!(
        at_box,
        [vec!["switch.COM", "switch.box.earth"], vec!["light/blue@switch", "switch.L1"], vec!["switch.plate.earth"]]
    );
    does(&mut work, r#"TakeLink(a: "board.1.line", b: "board.earth")"#);
    assert_eq!(ends(&work, "board"), [["board.earth"]]);
}
