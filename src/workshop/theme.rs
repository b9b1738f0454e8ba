//! Type scale, spacing and colour roles of the window, apart from the conductors' own colours.
//!
//! The only module that names a colour or a size of text. Cores, sleeves and plates are painted in
//! [`switchdrop::picture::Paint`]'s colours; the accent here is not one of those, so that it never looks like a core.

use std::{cell::Cell, sync::Arc};

use bevy_egui::egui::{
    self, Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Label, Margin, RichText, Stroke,
    TextStyle, Visuals,
    ecolor::{gamma_u8_from_linear_f32, linear_f32_from_gamma_u8},
    style::WidgetVisuals,
    vec2,
};
use switchdrop::picture::{FontWeight, Paint, Palette, Tint};

/// What a colour is for. The theme that is worn says which it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Role([Color32; Palette::ALL.len()]);

impl Role {
    const fn new(day: [u8; 3], evening: [u8; 3], projector: [u8; 3]) -> Self {
        Self([opaque(day), opaque(evening), opaque(projector)])
    }

    /// As the picture has it.
    const fn as_painted(paint: Paint) -> Self {
        Self::new(Palette::Day.rgb(paint), Palette::Evening.rgb(paint), Palette::Projector.rgb(paint))
    }

    /// Its colour in a theme.
    pub const fn in_theme(self, theme: Palette) -> Color32 {
        self.0[theme as usize]
    }

    /// Its colour in the theme that is worn.
    pub fn worn(self) -> Color32 {
        self.in_theme(worn())
    }
}

impl From<Role> for Color32 {
    /// In the theme that is worn.
    fn from(role: Role) -> Self {
        role.worn()
    }
}

const fn opaque([r, g, b]: [u8; 3]) -> Color32 {
    Color32::from_rgb(r, g, b)
}

thread_local! {
    /// The theme of the frame that is being drawn on this thread. A colour is asked for in every corner of every screen, and all of them
    /// in one frame have the same: handing the theme to each would say nothing.
    static WORN: Cell<Palette> = const { Cell::new(Palette::Day) };
}

/// Has everything that is drawn on this thread from now on wear a theme.
pub fn wear(theme: Palette) {
    WORN.set(theme);
}

/// The theme that is worn.
pub fn worn() -> Palette {
    WORN.get()
}

/// Text that must be read first.
pub const INK: Role = Role::as_painted(Paint::Ink);
/// The ground of a room that a lamp lights.
pub const LAMPLIGHT: Role = Role::as_painted(Paint::LampLight);
/// The ground of a room without light.
pub const DUSK: Role = Role::as_painted(Paint::WallAtDusk);
/// Text of less weight.
pub const QUIET: Role = Role::as_painted(Paint::QuietInk);
/// The ground of the drawing.
pub const PAPER: Role = Role::as_painted(Paint::Paper);
/// The ground of the panels.
pub const PANEL: Role = Role::new([243, 242, 238], [24, 27, 32], [255, 255, 255]);
/// The ground of a button, and of a field to write in.
pub const FIELD: Role = Role::new([255, 255, 255], [44, 49, 57], [255, 255, 255]);
/// The outline of those, and of an instrument.
pub const EDGE: Role = Role::new([118, 126, 134], [150, 160, 172], [40, 46, 52]);
/// What asks for attention.
pub const WARNING: Role = Role::as_painted(Paint::Warning);
/// The ground of a warning.
pub const WARNING_GROUND: Role = Role::new([252, 236, 226], [66, 38, 30], [255, 238, 228]);
/// What is selected, and what comes next.
pub const ACCENT: Role = Role::new([88, 58, 148], [200, 178, 255], [66, 20, 140]);
/// The ground of what is selected.
pub const ACCENT_GROUND: Role = Role::new([234, 228, 246], [62, 52, 88], [236, 228, 255]);
/// Text on the accent.
pub const ON_ACCENT: Role = Role::new([255, 255, 255], [26, 16, 48], [255, 255, 255]);
/// What is done or right.
pub const GOOD: Role = Role::new([26, 98, 60], [132, 218, 164], [0, 74, 36]);
/// The first probe.
pub const PROBE_ONE: Role = Role::new([176, 32, 44], [244, 120, 128], [150, 10, 22]);
/// The second probe.
pub const PROBE_TWO: Role = Role::new([20, 22, 26], [206, 212, 220], [0, 0, 0]);
/// The case of an instrument.
pub const CASE: Role = Role::new([224, 228, 232], [64, 71, 80], [226, 232, 238]);
/// A display.
pub const DISPLAY: Role = Role::new([214, 226, 206], [18, 26, 22], [255, 255, 255]);
/// What stands on it.
pub const DIGITS: Role = Role::new([24, 38, 24], [190, 240, 196], [0, 0, 0]);
/// A light of an indicator that is lit.
pub const LIT: Role = Role::new([255, 196, 60], [255, 196, 60], [255, 190, 40]);

/// What can't be pressed now.
pub const FAINT: Role = Role::new([128, 134, 140], [140, 148, 158], [100, 106, 114]);
/// The outline of what can't be pressed now, and lines between parts.
pub const HAIR: Role = Role::new([206, 206, 200], [70, 76, 84], [120, 126, 132]);

/// Smallest text in the panels.
const SMALL: f32 = 14.5;
const BODY: f32 = 16.0;
const HEADING: f32 = 21.0;
/// Nothing on the drawing is smaller than this on the screen at the normal text size, points.
pub const LEAST_DRAWN: f32 = 12.0;

/// The steps of the text scale that the learner can choose, percent of the normal size; how many there are. WCAG 2.2, 1.4.4, asks for twice
/// the normal size.
const PERCENT: [u16; 6] = [90, 100, 120, 145, 175, 200];
pub const STEPS: usize = PERCENT.len();
/// The normal one of them.
pub const NORMAL: usize = 1;

/// A step in percent of the normal size, as the settings have it.
pub fn percent(step: usize) -> u16 {
    PERCENT[step.min(STEPS - 1)]
}

/// The step that is nearest to a percentage.
pub fn nearest(wanted: u16) -> usize {
    (0..STEPS).min_by_key(|it| percent(*it).abs_diff(wanted)).unwrap_or(NORMAL)
}

/// How much larger than normal a step is.
pub fn scale(step: usize) -> f32 {
    f32::from(percent(step)) / 100.0
}

/// Which step is worn, of the one that was chosen: a projector's text is a step larger.
pub fn step(theme: Palette, chosen: usize) -> usize {
    (chosen + usize::from(theme == Palette::Projector)).min(STEPS - 1)
}

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

/// The colour of a role of the picture, in the theme that is worn.
pub fn of(paint: Paint) -> Color32 {
    opaque(worn().rgb(paint))
}

/// The same, through which what lies beneath is seen as far as the tint lets it.
pub fn tinted(tint: Tint) -> Color32 {
    veiled(worn().rgb(tint.paint), tint.cover)
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
    let frame = egui::Frame::new().fill(WARNING_GROUND.worn()).stroke(Stroke::new(2.0, WARNING)).corner_radius(5);
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

/// Beneath this height a window is low, points at the normal text size.
const LOW: f32 = 660.0;

/// Whether the window is so low, or its text so large, that bars have to give way to the drawing.
pub fn is_low(ui: &egui::Ui) -> bool {
    ui.ctx().content_rect().height() < LOW * scale_of(ui)
}

/// The least text of a drawing, points. A projector's drawing is fitted as by day: what is larger there are the panels' words.
pub fn least_drawn(ui: &egui::Ui) -> f32 {
    let chosen = if worn() == Palette::Projector {
        scale_of(ui) / scale(step(Palette::Projector, NORMAL))
    } else {
        scale_of(ui)
    };
    LEAST_DRAWN * chosen.max(1.0)
}

/// A box to tick and the tick in it, points at the normal text size.
const TICK_BOX: f32 = 14.0;
const TICK: f32 = 8.0;

/// Dresses egui in the theme that is worn. `scale` is the text scale.
pub fn dress(ctx: &egui::Context, scale: f32) {
    ctx.set_theme(if worn() == Palette::Evening { egui::Theme::Dark } else { egui::Theme::Light });
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
        // A box to tick is as high as its words, whatever their size.
        style.spacing.icon_width = TICK_BOX * scale;
        style.spacing.icon_width_inner = TICK * scale;
        // A bar beside what scrolls, not on it.
        style.spacing.scroll.floating_allocated_width = 10.0;
        // It says at rest too that there is more: nothing fades where it is cut.
        style.spacing.scroll.floating_width = 4.0;
        style.spacing.scroll.dormant_handle_opacity = 0.6;
        style.spacing.scroll.fade.strength = 0.0;
        // Nothing moves by itself: a still picture costs nothing.
        style.animation_time = 0.0;
        style.visuals = visuals();
    });
}

/// Whether nothing is to move by itself: `SWITCHDROP_STILL=1` asks for that.
pub fn is_still() -> bool {
    static STILL: std::sync::OnceLock<bool> = std::sync::OnceLock::new();
    *STILL.get_or_init(|| std::env::var_os("SWITCHDROP_STILL").is_some_and(|it| it == "1"))
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
    let mut it = if worn() == Palette::Evening { Visuals::dark() } else { Visuals::light() };
    it.panel_fill = PANEL.worn();
    it.window_fill = PANEL.worn();
    it.window_stroke = Stroke::new(1.0, EDGE);
    it.extreme_bg_color = FIELD.worn();
    it.override_text_color = None;
    it.selection.bg_fill = ACCENT_GROUND.worn();
    it.selection.stroke = Stroke::new(2.0, ACCENT);
    it.hyperlink_color = ACCENT.worn();
    it.text_cursor.blink = false;
    it.text_cursor.stroke = Stroke::new(2.0, ACCENT);
    // What can't be used is light by its own colours; fading them once more would leave nothing to read.
    it.disabled_alpha = 1.0;
    let widget = |bg: Role, edge: Role, ink: Role| WidgetVisuals {
        bg_fill: bg.worn(),
        weak_bg_fill: bg.worn(),
        bg_stroke: Stroke::new(1.0, edge),
        corner_radius: CornerRadius::same(5),
        fg_stroke: Stroke::new(1.5, ink),
        expansion: 0.0,
    };
    it.widgets.noninteractive = widget(PANEL, HAIR, INK);
    it.widgets.inactive = widget(FIELD, EDGE, INK);
    it.widgets.hovered = widget(ACCENT_GROUND, ACCENT, INK);
    // As wide in every state: what is pressed or has the keyboard must not push its neighbours about.
    it.widgets.active = widget(ACCENT_GROUND, ACCENT, INK);
    it.widgets.open = widget(ACCENT_GROUND, ACCENT, INK);
    it
}

#[cfg(test)]
mod tests {
    use switchdrop::picture::contrast;

    use super::*;

    fn between(one: Role, other: Role, theme: Palette) -> f64 {
        let rgb = |it: Role| {
            let [r, g, b, _] = it.in_theme(theme).to_array();
            [r, g, b]
        };
        contrast(rgb(one), rgb(other))
    }

    /// WCAG 2.2, 1.4.3: 4.5:1; on a projector 7:1 (1.4.6). What stands on the drawing is held by the picture's own test.
    #[test]
    fn text_stands_out_from_every_ground_in_every_theme() {
        let grounds = [PANEL, FIELD, PAPER, ACCENT_GROUND, WARNING_GROUND, CASE, DISPLAY];
        for theme in Palette::ALL {
            let least = if theme == Palette::Projector { 7.0 } else { 4.5 };
            for text in [INK, QUIET, WARNING, ACCENT, GOOD] {
                for ground in grounds {
                    let found = between(text, ground, theme);
                    assert!(found >= least, "{theme:?}: {text:?} on {ground:?}: {found}");
                }
            }
            let pairs = [(ON_ACCENT, ACCENT), (DIGITS, DISPLAY), (PAPER, PROBE_ONE), (PAPER, PROBE_TWO)];
            for (text, ground) in pairs.into_iter().chain([(INK, LAMPLIGHT), (INK, DUSK)]) {
                assert!(between(text, ground, theme) >= least, "{theme:?}: {text:?} on {ground:?}");
            }
        }
    }

    /// WCAG 2.2, 1.4.11: 3:1 for what shows where a control is and how it stands.
    #[test]
    fn outlines_stand_out_in_every_theme() {
        for theme in Palette::ALL {
            for ground in [PANEL, FIELD, PAPER, CASE] {
                for edge in [EDGE, ACCENT, WARNING] {
                    let found = between(edge, ground, theme);
                    assert!(found >= 3.0, "{theme:?}: {edge:?} on {ground:?}: {found}");
                }
            }
        }
    }

    #[test]
    fn a_projector_has_larger_text() {
        let projected = (0..STEPS).map(|it| percent(step(Palette::Projector, it)));
        assert_eq!(projected.collect::<Vec<_>>(), [100, 120, 145, 175, 200, 200]);
        assert_eq!(step(Palette::Evening, NORMAL), NORMAL);
    }
}
