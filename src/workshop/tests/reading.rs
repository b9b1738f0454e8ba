//! What is written can be read: every letter is in our faces or behind them, and nothing is set too small.

use bevy_egui::egui::{
    FontId, Galley, Key, Modifiers, Rect, Shape,
    epaint::{TextOptions, text::Fonts},
    vec2,
};
use switchdrop::{exercise::SHIPPED, picture::FontWeight, wording::Wording, work::Action};

use super::{
    super::{panel::Pane, theme},
    bench::Bench,
};

/// Every letter of the catalogue, of the shipped exercises and of the window's own signs.
fn letters() -> String {
    let wording = Wording::british();
    let mut all: String = Wording::keys().iter().map(|(_, key)| wording.say(key, &[])).collect();
    all.extend(SHIPPED.iter().map(|it| it.1));
    all.push_str("○✔⚠×…!");
    all.retain(|it| !it.is_control());
    all
}

/// A letter that no face has is painted as one that stands for all such.
#[test]
fn every_letter_that_is_written_has_a_shape_in_both_weights() {
    let mut fonts = Fonts::new(TextOptions::default(), theme::faces());
    for weight in [FontWeight::Normal, FontWeight::Bold] {
        let font = FontId::new(16.0, theme::family(weight));
        let mut shape = |it: char| {
            let galley =
                fonts.with_pixels_per_point(1.0).layout_no_wrap(it.to_string(), font.clone(), theme::INK.worn());
            let painted = galley.rows[0].glyphs[0].uv_rect;
            (painted.min, painted.max)
        };
        let nobodys = shape('\u{10fffd}');
        let missing: String = letters().chars().filter(|it| !it.is_whitespace() && shape(*it) == nobodys).collect();
        assert!(missing.is_empty(), "{weight:?}: {missing}");
    }
}

/// Every stage of an exercise, the sheet with its faults told, and help.
#[test]
fn nor_on_the_screens_of_the_tools_the_tests_the_sheet_and_help() {
    let mut bench = Bench::new("small-tested");
    let mut seen = 0;
    let mut looks = |texts: &[(String, f32)], at: &str| {
        seen += texts.len();
        for (text, size) in texts {
            assert!(*size >= 12.0, "{at}: {text} at {size}");
        }
    };
    bench.tours(|bench, at| looks(&bench.texts(), at));
    bench.key(Key::F1);
    looks(&bench.whole_page(), "help");
    let mut bench = Bench::new("small-sheet");
    let numbers = bench.hands_in_a_faulty_one();
    for it in numbers {
        bench.click(&format!("would:{it}"));
    }
    looks(&bench.whole_page(), "sheet");
    assert!(seen > 800, "only {seen}");
}

/// Half of a low window is the drawing's, with the tray at its foot; two fifths where the text is twice as large (our own rule).
#[test]
fn half_of_a_low_window_is_for_the_drawing() {
    for (size, larger, least) in [(vec2(1024.0, 640.0), 0, 0.5), (vec2(1280.0, 800.0), 6, 0.4)] {
        for id in ["wire-a-switch", "two-way-passage", "one-way-tested"] {
            let mut bench = Bench::new(&format!("low-{id}-{larger}"));
            bench.click(&format!("begin:{id}"));
            bench.size = size;
            (0..larger).for_each(|_| bench.key_with(Modifiers::CTRL, Key::Plus));
            for at in ["go:place", "go:board"] {
                bench.click(at);
                let of = |pane: Pane| {
                    let all = bench.window.targets().0.iter().filter(move |it| it.pane == pane && it.visible);
                    all.map(|it| it.rect).reduce(Rect::union).unwrap()
                };
                let (beside, above, beneath) = (of(Pane::Beside), of(Pane::Places), of(Pane::Foot));
                let drawing = beside.left() * (beneath.top() - above.bottom());
                let share = drawing / (size.x * size.y);
                assert!(share > least, "{id}, {at}, {size}: {share:.2}");
            }
        }
    }
}

/// What is squeezed into the rest of a row breaks within its words. At some width each row ends just before something.
#[test]
fn no_text_is_squeezed_until_it_breaks_within_a_word() {
    let looks = |bench: &mut Bench, at: &str| {
        for width in (1180..=1280).step_by(10) {
            bench.size.x = width as f32;
            bench.frames(Vec::new());
            for it in bench.galleys() {
                let words = it.job.text.split_whitespace().count();
                let rows = words.max(1) + it.job.text.matches('\n').count();
                assert!(it.rows.len() <= rows, "{at}, {width} wide: {:?}", it.job.text);
            }
        }
    };
    for (exercise, places) in [
        ("two-way-to-choose", ["go:place", "go:board", "go:tack"]),
        ("one-way-tested", ["go:place", "go:board", "go:switch"]),
        ("two-way-passage", ["go:place", "go:board", "go:kiln"]),
    ] {
        let mut bench = Bench::new(&format!("squeezed-{exercise}"));
        bench.click(&format!("begin:{exercise}"));
        looks(&mut bench, exercise);
        // The brief folds away with the first act, and the stages stand beside the title.
        bench.does([Action::Agree]);
        for it in places {
            bench.click(it);
            looks(&mut bench, it);
        }
    }
    let mut bench = Bench::new("squeezed-curious");
    bench.click("curious");
    for _ in 0..7 {
        looks(&mut bench, "curious");
        bench.click("curious:next");
    }
    for it in ["what-if:bare-earth", "what-if:opposite", "what-if:third", "what-if:where"] {
        looks(&mut bench, "curious");
        bench.click(it);
    }
    looks(&mut bench, "curious");
}

/// 24 points a side is the smallest target of WCAG 2.2 (2.5.8). What is beside the drawing stays there.
#[test]
fn what_can_be_touched_is_large_enough_and_in_its_part_of_the_screen() {
    let mut bench = Bench::new("targets");
    let mut seen = 0;
    bench.tours(|bench, at| {
        let all = &bench.window.targets().0;
        let beside: Vec<_> = all.iter().filter(|it| it.pane == Pane::Beside).collect();
        for it in all.iter().filter(|it| it.visible) {
            assert!(it.rect.height() >= 23.5 && it.rect.width() >= 23.5, "{at}: {it:?}");
            // A button as tall as this has been squeezed into what was left of a row.
            assert!(it.pane != Pane::Beside || it.rect.height() <= 80.0, "{at}: {it:?}");
        }
        for it in beside {
            seen += 1;
            assert!(it.rect.left() >= 900.0 && it.rect.right() <= 1280.0, "{at}: {it:?}");
        }
    });
    assert!(seen > 200, "only {seen}");
}

/// 12 px is the least at 100 % (our own rule for what is seen); the crowded box at the kiln door comes to it at 1280 by 800.
#[test]
fn nothing_is_written_smaller_than_can_be_read() {
    let mut bench = Bench::new("small");
    let mut seen = 0;
    let mut looks = |bench: &Bench| {
        for it in bench.texts() {
            seen += 1;
            assert!(it.1 >= 12.0, "{} at {}", it.0, it.1);
        }
    };
    looks(&bench);
    bench.click("begin:two-way-passage");
    looks(&bench);
    bench.does_model_until(|it| matches!(it, Action::Tighten { .. }));
    for it in ["go:place", "go:kiln", "go:clay", "go:rose", "go:board", "go:prediction"] {
        bench.click(it);
        looks(&bench);
    }
    assert!(seen > 200, "only {seen}");
}

impl Bench {
    /// Whether that stands somewhere on the screen.
    pub fn says(&self, text: &str) -> bool {
        self.texts().iter().any(|it| it.0.contains(text))
    }

    /// Every text that the last frame painted, with its size in points.
    pub fn texts(&self) -> Vec<(String, f32)> {
        let smallest = |galley: &Galley| {
            let sizes = galley.job.sections.iter().map(|it| it.format.font_id.size);
            (galley.job.text.clone(), sizes.fold(f32::INFINITY, f32::min))
        };
        let found = self.galleys().into_iter().map(smallest);
        found.filter(|it| !it.0.is_empty()).collect()
    }

    /// Pairs of texts of which one lies on the other where both can be seen. Numbers in discs are put over names on purpose.
    pub fn texts_that_lie_on_others(&self) -> Vec<(String, String)> {
        fn walk(shape: &Shape, clip: Rect, into: &mut Vec<(String, Rect)>) {
            match shape {
                Shape::Vec(all) => all.iter().for_each(|it| walk(it, clip, into)),
                Shape::Text(it) => {
                    // Rows are higher than letters; in a row of widgets that wraps, the first begins behind the widget before.
                    for row in it.galley.rows.iter().filter(|it| !it.glyphs.is_empty()) {
                        let first = row.glyphs[0].pos.x + row.pos.x;
                        let rect = row.rect().with_min_x(first).translate(it.pos.to_vec2());
                        into.push((row.text(), rect.shrink2(vec2(1.0, 3.5)).intersect(clip)));
                    }
                }
                _ => {}
            }
        }
        let mut all = Vec::new();
        self.painted.shapes.iter().for_each(|it| walk(&it.shape, it.clip_rect, &mut all));
        all.retain(|it| it.1.is_positive() && !it.0.is_empty() && it.0.parse::<u8>().is_err());
        let pairs =
            all.iter().enumerate().flat_map(|(place, it)| all[place + 1..].iter().map(move |other| (it, other)));
        pairs.filter(|(a, b)| a.1.intersects(b.1)).map(|(a, b)| (a.0.clone(), b.0.clone())).collect()
    }

    /// Every text that was painted, as it was laid out.
    fn galleys(&self) -> Vec<&Galley> {
        fn walk<'a>(shape: &'a Shape, into: &mut Vec<&'a Galley>) {
            match shape {
                Shape::Vec(all) => all.iter().for_each(|it| walk(it, into)),
                Shape::Text(it) => into.push(&it.galley),
                _ => {}
            }
        }
        let mut found = Vec::new();
        for it in &self.painted.shapes {
            walk(&it.shape, &mut found);
        }
        found
    }

    /// The same, the words alone.
    pub fn words(&self) -> Vec<String> {
        self.texts().into_iter().map(|it| it.0).collect()
    }
}
