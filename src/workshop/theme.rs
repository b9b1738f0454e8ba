//! Type scale, spacing and colour roles of the window, apart from the conductors' own colours.
//!
//! The only module that names a colour or a size of text. Cores, sleeves and plates are painted in
//! [`switchdrop::picture::Paint`]'s colours; the accent here is not one of those, so that it never looks like a core.

use std::sync::Arc;

use bevy_egui::egui::{
    self, Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Label, Margin, RichText, Stroke,
    TextStyle, Visuals,
    ecolor::{gamma_u8_from_linear_f32, linear_f32_from_gamma_u8},
    style::WidgetVisuals,
    vec2,
};
use switchdrop::picture::{FontWeight, Paint, Tint};

/// Text that must be read first.
pub const INK: Color32 = of(Paint::Ink);
/// The ground of a room that a lamp lights.
pub const LAMPLIGHT: Color32 = of(Paint::LampLight);
/// The ground of a room without light.
pub const DUSK: Color32 = of(Paint::WallAtDusk);
/// Text of less weight.
pub const QUIET: Color32 = of(Paint::QuietInk);
/// The ground of the drawing.
pub const PAPER: Color32 = of(Paint::Paper);
/// The ground of the panels.
pub const PANEL: Color32 = Color32::from_rgb(243, 242, 238);
/// What asks for attention.
pub const WARNING: Color32 = of(Paint::Warning);
/// The ground of a warning.
pub const WARNING_GROUND: Color32 = Color32::from_rgb(252, 236, 226);
/// What is selected, and what comes next.
pub const ACCENT: Color32 = Color32::from_rgb(88, 58, 148);
/// The ground of what is selected.
pub const ACCENT_GROUND: Color32 = Color32::from_rgb(234, 228, 246);
/// What is done or right.
pub const GOOD: Color32 = Color32::from_rgb(26, 98, 60);
/// The first probe.
pub const PROBE_ONE: Color32 = Color32::from_rgb(176, 32, 44);
/// The second probe.
pub const PROBE_TWO: Color32 = Color32::from_rgb(20, 22, 26);

/// What can't be pressed now.
pub const FAINT: Color32 = Color32::from_rgb(140, 145, 150);
/// The outline of what can't be pressed now, and lines between parts.
pub const HAIR: Color32 = Color32::from_rgb(206, 206, 200);

/// Smallest text in the panels.
const SMALL: f32 = 14.5;
const BODY: f32 = 16.0;
const HEADING: f32 = 21.0;
/// Nothing on the drawing is smaller than this on the screen at the normal text size, points.
pub const LEAST_DRAWN: f32 = 12.0;

/// The steps of the text scale that the learner can choose, of the normal size.
pub const SCALES: [f32; 5] = [0.9, 1.0, 1.2, 1.45, 1.75];
/// The normal one of them.
pub const NORMAL: usize = 1;

/// Atkinson Hyperlegible Next, drawn so that I, l and 1, O and 0 are never taken for each other. Its licence is beside it.
const REGULAR: &[u8] = include_bytes!("../../assets/fonts/atkinson-hyperlegible-next-regular.ttf");
const BOLD: &[u8] = include_bytes!("../../assets/fonts/atkinson-hyperlegible-next-bold.ttf");

/// The faces: ours first, egui's own behind them for signs and for the letters of other scripts in a learner's name.
pub fn faces() -> FontDefinitions {
    let mut it = FontDefinitions::default();
    for (name, bytes) in [("regular", REGULAR), ("bold", BOLD)] {
        it.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    let behind = it.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    let with = |first: &str| std::iter::once(first.to_owned()).chain(behind.iter().cloned()).collect::<Vec<_>>();
    it.families.insert(FontFamily::Proportional, with("regular"));
    it.families.insert(family(FontWeight::Bold), with("bold"));
    it
}

/// The face of a weight.
pub fn family(weight: FontWeight) -> FontFamily {
    match weight {
        FontWeight::Normal => FontFamily::Proportional,
        FontWeight::Bold => FontFamily::Name("bold".into()),
    }
}

/// Text in the bold face.
pub fn bold(text: impl Into<String>) -> RichText {
    RichText::new(text).family(family(FontWeight::Bold))
}

/// The colour of a role of the picture.
pub const fn of(paint: Paint) -> Color32 {
    let [r, g, b] = paint.rgb();
    Color32::from_rgb(r, g, b)
}

/// The same, through which what lies beneath is seen as far as the tint lets it.
pub fn tinted(tint: Tint) -> Color32 {
    veiled(tint.paint.rgb(), tint.cover)
}

/// A colour through which what lies beneath is seen.
///
/// The engine blends amounts of light, and egui's own way of making a colour thin multiplies codes: with that a thin light colour over a
/// light wall comes out darker than both.
pub fn veiled(rgb: [u8; 3], cover: u8) -> Color32 {
    let part = f32::from(cover) / 255.0;
    let [r, g, b] = rgb.map(|it| gamma_u8_from_linear_f32(part * linear_f32_from_gamma_u8(it)));
    Color32::from_rgba_premultiplied(r, g, b, cover)
}

/// Text in quiet ink.
pub fn quiet(ui: &mut egui::Ui, text: &str) {
    ui.label(RichText::new(text).color(QUIET).small());
}

/// A name and what it is, which goes on beneath itself. `names` is how wide the names are at the normal text size, points.
pub fn fact(ui: &mut egui::Ui, names: f32, name: impl Into<RichText>, text: &str) {
    ui.horizontal_top(|ui| {
        let wide = names * scale_of(ui);
        ui.allocate_ui(vec2(wide, 0.0), |ui| {
            ui.set_width(wide);
            ui.add(Label::new(name.into()).wrap());
        });
        ui.add(Label::new(text).wrap());
    });
}

/// Something that warns, in a frame of its own.
pub fn warned(ui: &mut egui::Ui, add: impl FnOnce(&mut egui::Ui)) {
    let frame = egui::Frame::new().fill(WARNING_GROUND).stroke(Stroke::new(2.0, WARNING)).corner_radius(5);
    frame.inner_margin(Margin::same(8)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 3.0;
        add(ui);
    });
}

/// A page: in the middle of its room, no wider than reads well.
pub fn page(ui: &mut egui::Ui, widest: f32, add: impl FnOnce(&mut egui::Ui)) {
    let room = ui.available_width();
    let wide = (widest * scale_of(ui).max(1.0)).min(room);
    ui.horizontal_top(|ui| {
        ui.add_space((room - wide) / 2.0);
        ui.vertical(|ui| {
            ui.set_width(wide);
            add(ui);
        });
    });
}

/// The text scale that is worn.
pub fn scale_of(ui: &egui::Ui) -> f32 {
    TextStyle::Body.resolve(ui.style()).size / BODY
}

/// Dresses egui. `scale` is the text scale.
pub fn dress(ctx: &egui::Context, scale: f32) {
    ctx.set_theme(egui::Theme::Light);
    ctx.all_styles_mut(|style| {
        let font = |size: f32| FontId::new(size * scale, FontFamily::Proportional);
        style.text_styles = [
            (TextStyle::Small, font(SMALL)),
            (TextStyle::Body, font(BODY)),
            (TextStyle::Button, font(BODY)),
            (TextStyle::Heading, font(HEADING)),
            (TextStyle::Monospace, FontId::new(SMALL * scale, FontFamily::Monospace)),
        ]
        .into();
        style.spacing.item_spacing = vec2(8.0, 6.0);
        style.spacing.button_padding = vec2(10.0, 5.0);
        style.spacing.interact_size = vec2(28.0, 28.0);
        style.spacing.menu_margin = Margin::same(8);
        // A bar beside what scrolls, not on it.
        style.spacing.scroll.floating_allocated_width = 10.0;
        // Nothing moves by itself: a still picture costs nothing.
        style.animation_time = 0.0;
        style.visuals = visuals();
    });
}

/// Puts the faces in, once. They are there from the next frame on.
pub fn set_faces(ctx: &egui::Context) {
    ctx.set_fonts(faces());
    // The text scale is ours: zooming everything would zoom the drawing out of its room.
    // Nothing here is done by a long press: a slow finger, or a slow machine between two frames, clicks all the same.
    ctx.options_mut(|it| {
        it.zoom_with_keyboard = false;
        it.input_options.max_click_duration = f64::INFINITY;
    });
}

fn visuals() -> Visuals {
    let mut it = Visuals::light();
    it.panel_fill = PANEL;
    it.window_fill = PANEL;
    it.extreme_bg_color = Color32::WHITE;
    it.override_text_color = None;
    it.selection.bg_fill = ACCENT_GROUND;
    it.selection.stroke = Stroke::new(2.0, ACCENT);
    it.hyperlink_color = ACCENT;
    it.text_cursor.blink = false;
    // What can't be used is light by its own colours; fading them once more would leave nothing to read.
    it.disabled_alpha = 1.0;
    let widget = |bg: Color32, edge: Color32, width: f32, ink: Color32| WidgetVisuals {
        bg_fill: bg,
        weak_bg_fill: bg,
        bg_stroke: Stroke::new(width, edge),
        corner_radius: CornerRadius::same(5),
        fg_stroke: Stroke::new(1.5, ink),
        expansion: 0.0,
    };
    let edge = Color32::from_rgb(132, 138, 146);
    it.widgets.noninteractive = widget(PANEL, HAIR, 1.0, INK);
    it.widgets.inactive = widget(Color32::WHITE, edge, 1.0, INK);
    it.widgets.hovered = widget(ACCENT_GROUND, ACCENT, 1.0, INK);
    // As wide in every state: what is pressed or has the keyboard must not push its neighbours about.
    it.widgets.active = widget(ACCENT_GROUND, ACCENT, 1.0, INK);
    it.widgets.open = widget(ACCENT_GROUND, ACCENT, 1.0, INK);
    it
}
