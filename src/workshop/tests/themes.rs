//! Day, evening, projector: chosen at the foot of every screen, worn by all of it, remembered.

use bevy_egui::egui::{Color32, Shape};
use switchdrop::{
    picture::{Paint, Palette},
    trade::colour::Colour,
};

use super::{super::theme, bench::Bench};

/// Every colour that the last frame filled an area with, a picture's gradients apart.
fn grounds(bench: &Bench) -> Vec<Color32> {
    fn walk(shape: &Shape, into: &mut Vec<Color32>) {
        match shape {
            Shape::Vec(all) => all.iter().for_each(|it| walk(it, into)),
            Shape::Rect(it) => into.push(it.fill),
            Shape::Circle(it) => into.push(it.fill),
            _ => {}
        }
    }
    let mut found = Vec::new();
    bench.painted.shapes.iter().for_each(|it| walk(&it.shape, &mut found));
    found
}

fn strokes(bench: &Bench) -> Vec<Color32> {
    let colour = |it: &Shape| match it {
        Shape::Path(it) => match it.stroke.color {
            bevy_egui::egui::epaint::ColorMode::Solid(it) => Some(it),
            bevy_egui::egui::epaint::ColorMode::UV(_) => None,
        },
        Shape::LineSegment { stroke, .. } => Some(stroke.color),
        _ => None,
    };
    bench.painted.shapes.iter().filter_map(|it| colour(&it.shape)).collect()
}

/// White is a light ground by any count; in the evening no area is filled with the like, and the cores are the same.
#[test]
fn the_theme_is_worn_by_every_screen_and_leaves_the_conductors_their_colours() {
    let mut bench = Bench::new("themes");
    let light = |bench: &Bench| {
        // A lever and the like are in ink.
        let is_light =
            |it: &&Color32| **it != theme::INK.worn() && it.a() == 255 && it.r() > 200 && it.g() > 200 && it.b() > 200;
        grounds(bench).iter().filter(is_light).count()
    };
    assert!(light(&bench) > 3);
    bench.click("theme");
    assert_eq!(light(&bench), 0, "{:?}", grounds(&bench));
    bench.click("begin:one-way-tested");
    assert_eq!(light(&bench), 0);
    bench.click("go:board");
    bench.key(bevy_egui::egui::Key::F1);
    assert_eq!(light(&bench), 0);
    bench.key(bevy_egui::egui::Key::F1);
    bench.click("go:rose");
    let [r, g, b] = Paint::Conductor(Colour::Brown).rgb();
    let brown = Color32::from_rgb(r, g, b);
    bench.click("leave");
    bench.click("begin:wire-a-switch");
    bench.click("todo:open");
    for _ in Palette::ALL {
        assert!(strokes(&bench).contains(&brown), "{:?}", theme::worn());
        bench.click("theme");
    }
}

/// What was chosen is there when the window is opened again, text size too; a window that remembers nothing opens by day.
#[test]
fn theme_and_text_size_are_remembered() {
    let mut bench = Bench::new("remembered");
    let heading = |bench: &Bench| bench.texts().into_iter().find(|it| it.0 == "Switchdrop").unwrap().1;
    let (day, normal) = (theme::PAPER.in_theme(Palette::Day), heading(&bench));
    assert!(grounds(&bench).contains(&day));
    bench.click("theme");
    bench.click("scale");
    let chosen = heading(&bench);
    // From 100 to 120 percent.
    assert!((chosen / normal - 1.2).abs() < 0.01);
    let again = Bench::beside(bench.folder.clone());
    assert!(grounds(&again).contains(&theme::PAPER.in_theme(Palette::Evening)));
    assert!((heading(&again) - chosen).abs() < 0.01);
    std::fs::write(bench.folder.join("settings.ron"), "nonsense").unwrap();
    let fresh = Bench::beside(bench.folder.clone());
    assert!(grounds(&fresh).contains(&day) && (heading(&fresh) - normal).abs() < 0.01);
}

/// A step larger than by day: from 100 to 120 percent (our own rule).
#[test]
fn a_projector_writes_larger() {
    let mut bench = Bench::new("projector");
    let heading = |bench: &Bench| bench.texts().into_iter().find(|it| it.0 == "Switchdrop").unwrap().1;
    let by_day = heading(&bench);
    bench.click("theme");
    assert!((heading(&bench) - by_day).abs() < 0.01);
    bench.click("theme");
    assert!((heading(&bench) / by_day - 1.2).abs() < 0.01);
    bench.click("theme");
    assert!((heading(&bench) - by_day).abs() < 0.01);
}

/// Whoever presses "Text size" or "Theme" has that same button under the pointer still: twelve times through every size and theme.
#[test]
fn text_size_and_theme_stay_under_the_pointer() {
    let mut bench = Bench::new("stays");
    let stays = |bench: &mut Bench, screen: &str| {
        for key in ["scale", "theme"] {
            bench.click(key);
            for press in 0..12 {
                let at = bench.ctx.pointer_latest_pos().unwrap();
                let rect = bench.window.targets().usable(key).unwrap().rect;
                assert!(rect.contains(at), "{screen}: {key} at {rect:?} after {press} presses, the pointer at {at:?}");
                bench.frames(vec![Bench::button(at, true)]);
                bench.frames(vec![Bench::button(at, false)]);
            }
        }
    };
    stays(&mut bench, "start");
    bench.click("begin:two-way-passage");
    bench.click("go:kiln");
    stays(&mut bench, "bench");
    bench.does_model_until(|_| false);
    stays(&mut bench, "sheet");
}
