//! Type scale, spacing and colour roles of the window, apart from the conductors' own colours.
//!
//! The only module that names a colour or a size of text. Cores, sleeves and plates are painted in
//! [`switchdrop::picture::Paint`]'s colours; the accent here is none of those, so that it never looks like a core.

use bevy_egui::egui::{
    self, Color32, CornerRadius, FontFamily, FontId, Margin, Stroke, TextStyle, Visuals, style::WidgetVisuals, vec2,
};
use switchdrop::picture::Paint;

/// Text that must be read first.
pub const INK: Color32 = of(Paint::Ink);
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

/// Smallest text in the panels.
const SMALL: f32 = 13.5;
const BODY: f32 = 15.5;
const HEADING: f32 = 20.0;

/// The steps of the text scale that the learner can choose, of the normal size.
pub const SCALES: [f32; 4] = [0.9, 1.0, 1.2, 1.45];

/// The colour of a role of the picture.
pub const fn of(paint: Paint) -> Color32 {
    let [r, g, b] = paint.rgb();
    Color32::from_rgb(r, g, b)
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
        // Nothing moves by itself: a still picture costs nothing.
        style.animation_time = 0.0;
        style.visuals = visuals();
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
    let widget = |bg: Color32, edge: Color32, width: f32, ink: Color32| WidgetVisuals {
        bg_fill: bg,
        weak_bg_fill: bg,
        bg_stroke: Stroke::new(width, edge),
        corner_radius: CornerRadius::same(5),
        fg_stroke: Stroke::new(1.5, ink),
        expansion: 0.0,
    };
    let edge = Color32::from_rgb(132, 138, 146);
    it.widgets.noninteractive = widget(PANEL, Color32::from_rgb(206, 206, 200), 1.0, INK);
    it.widgets.inactive = widget(Color32::WHITE, edge, 1.0, INK);
    it.widgets.hovered = widget(ACCENT_GROUND, ACCENT, 1.0, INK);
    it.widgets.active = widget(ACCENT_GROUND, ACCENT, 2.0, INK);
    it.widgets.open = widget(ACCENT_GROUND, ACCENT, 1.0, INK);
    it
}
