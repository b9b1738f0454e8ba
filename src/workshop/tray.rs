//! The tray along the foot of the drawing: what there is to take in hand, drawn, and beside it what is in the hand, large.
//!
//! It is as high for everything that may be in the hand, and each thing has its own place in it: nothing moves under the pointer. What is
//! in the hand has left its place. What an instrument shows stands on it first ([`display`]).

mod bodies;
pub mod carried;
mod dial;
pub mod display;
mod indicator;
mod meters;
mod sleeves;

use bevy_egui::egui::{
    Align, Color32, FontId, Painter, Pos2, Rect, Sense, Stroke, StrokeKind, Ui, pos2, text::LayoutJob, vec2,
};
use switchdrop::{exercise::Stage, picture::FontWeight, work::Detector};

use self::bodies::Body;
use super::{
    panel::PanelContext,
    probes,
    session::Session,
    theme,
    view::{Hand, Sight, View},
};

pub use sleeves::marks;

/// What the tray is made of, in units of its own: the place of one thing, how high all of it is, what is in the hand, between the two.
const SLOT: f32 = 64.0;
const HIGH: f32 = 86.0;
const HAND: f32 = 388.0;
const GAP: f32 = 6.0;
/// Places in it: five things, and at a board the lock.
const SLOTS: f32 = 6.0;
/// The letters on it, units; never smaller on the screen than anything that is drawn.
const LETTERS: f32 = 12.5;
/// A unit is never less than this, points: a place is large enough for a finger then.
const LEAST_UNIT: f32 = 0.84;

/// One thing in the tray.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kept {
    Tools,
    Indicator,
    Stick,
    Multimeter,
    /// The continuity meter; where there is a test sheet, the multifunction tester.
    Meter,
    Lock,
}

impl Kept {
    /// What is taken in hand with it.
    const fn hand(self) -> Option<(Hand, Option<Detector>)> {
        match self {
            Self::Tools => Some((Hand::Tools, None)),
            Self::Indicator => Some((Hand::Indicator, Some(Detector::Indicator))),
            Self::Stick => Some((Hand::Indicator, Some(Detector::Stick))),
            Self::Multimeter => Some((Hand::Indicator, Some(Detector::Multimeter))),
            Self::Meter => Some((Hand::Meter, None)),
            Self::Lock => None,
        }
    }

    fn is_in_hand(self, view: &View) -> bool {
        self.hand().is_some_and(|(hand, with)| view.hand == hand && with.is_none_or(|it| it == view.detector))
    }
}

/// Whether there is a tray: at a place, as long as something can be done.
pub fn is_out(session: &Session, view: &View) -> bool {
    matches!(view.at, Sight::Location(_)) && !session.is_over()
}

/// How the tray lies on the screen.
struct Lie<'a> {
    painter: &'a Painter,
    /// Where its left upper corner is.
    origin: Pos2,
    /// Points for one unit.
    unit: f32,
}

impl Lie<'_> {
    /// A rectangle, in units from the left upper corner.
    fn rect(&self, left: f32, top: f32, width: f32, height: f32) -> Rect {
        Rect::from_min_size(self.origin + vec2(left, top) * self.unit, vec2(width, height) * self.unit)
    }

    /// The same lie, from another corner.
    fn from(&self, left: f32) -> Self {
        Self { painter: self.painter, origin: self.origin + vec2(left, 0.0) * self.unit, unit: self.unit }
    }

    fn font(&self, weight: FontWeight) -> FontId {
        FontId::new((LETTERS * self.unit).max(theme::LEAST_DRAWN), theme::family(weight))
    }

    /// Words in the middle of a rectangle, in as many lines as they need.
    fn words(&self, text: &str, within: Rect, weight: FontWeight, ink: impl Into<Color32>) {
        self.written(text, within, weight, ink, Align::Center);
    }

    /// The same, from the upper edge, middle or lower edge of the rectangle. A word alone may be wider than that.
    fn written(&self, text: &str, within: Rect, weight: FontWeight, ink: impl Into<Color32>, from: Align) {
        let ink = ink.into();
        let wide = if text.contains(' ') { within.width() } else { f32::INFINITY };
        let mut job = LayoutJob::simple(text.to_owned(), self.font(weight), ink, wide);
        job.halign = Align::Center;
        let galley = self.painter.layout_job(job);
        let top = from.align_size_within_range(galley.size().y, within.y_range()).min;
        self.painter.galley(pos2(within.center().x, top), galley, ink);
    }

    /// Words from the left edge of a rectangle, in its middle line.
    fn words_from_left(&self, text: &str, within: Rect, weight: FontWeight, ink: impl Into<Color32>) {
        let ink = ink.into();
        let galley = self.painter.layout(text.to_owned(), self.font(weight), ink, within.width());
        self.painter.galley(pos2(within.left(), within.center().y - galley.size().y / 2.0), galley, ink);
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let whole = SLOTS * SLOT + GAP + HAND;
    // As large as the text, and in a high window larger.
    let roomy = (ui.ctx().viewport_rect().height() / 860.0).clamp(1.0, 1.3);
    let most = theme::scale_of(ui).clamp(1.0, 1.45).max(roomy);
    let unit = (ui.available_width() / whole).min(most).max(LEAST_UNIT);
    let (room, _) = ui.allocate_exact_size(vec2(whole, HIGH) * unit, Sense::hover());
    let painter = ui.painter().clone();
    let lie = Lie { painter: &painter, origin: room.min, unit };
    for (number, it) in kept(session, view).into_iter().enumerate() {
        slot(ui, panel, session, view, it, lie.rect(number as f32 * SLOT + 1.0, 0.0, SLOT - 2.0, HIGH), &lie);
    }
    let hand = lie.from(SLOTS * SLOT + GAP);
    match (view.hand, view.detector) {
        (Hand::Tools, _) => sleeves::show(ui, panel, session, view, &hand),
        (Hand::Indicator, Detector::Indicator) => indicator::show(ui, panel, session, view, &hand),
        (Hand::Indicator, Detector::Stick) => indicator::stick(ui, panel, session, view, &hand),
        (Hand::Indicator, Detector::Multimeter) => meters::multimeter(ui, panel, session, view, &hand),
        (Hand::Meter, _) if session.attempt.work().exercise().has_tester() => {
            dial::tester(ui, panel, session, view, &hand);
        }
        (Hand::Meter, _) => meters::continuity(ui, panel, session, view, &hand),
    }
}

/// What is in the tray at the place that is looked at, each in its own order.
fn kept(session: &Session, view: &View) -> Vec<Kept> {
    let exercise = session.attempt.work().exercise();
    let mut all = vec![Kept::Tools, Kept::Indicator, Kept::Stick, Kept::Multimeter, Kept::Meter];
    let locks = |at| exercise.asks(Stage::Isolation) && exercise.devices.iter().any(|it| it.location == at);
    if matches!(view.at, Sight::Location(at) if locks(at)) {
        all.push(Kept::Lock);
    }
    all
}

/// The place of one thing: the thing, or where it lay.
fn slot(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    session: &Session,
    view: &mut View,
    kept: Kept,
    rect: Rect,
    lie: &Lie<'_>,
) {
    let tests = session.attempt.work().exercise().has_tester();
    let (key, name, body) = match kept {
        Kept::Tools => ("hand:tools", panel.say("window-hand-tools", &[]), Body::Tools),
        Kept::Indicator => ("hand:indicator", panel.say("window-hand-indicator", &[]), Body::Indicator),
        Kept::Stick => ("held:stick", panel.say("window-held-stick", &[]), Body::Stick),
        Kept::Multimeter => ("held:multimeter", panel.say("window-held-multimeter", &[]), Body::Meter),
        Kept::Meter if tests => ("hand:meter", panel.say("window-hand-tester", &[]), Body::Tester),
        Kept::Meter => ("hand:meter", panel.say("window-hand-meter", &[]), Body::Continuity),
        Kept::Lock => ("tray:lock", panel.say("window-tray-lock", &[]), Body::Lock),
    };
    let is_in_hand = kept.is_in_hand(view) || kept == Kept::Lock && carried::is_lock(view);
    let called = if is_in_hand { panel.say("window-in-hand-named", &[("thing", &name)]) } else { name.clone() };
    let response = panel.spot(ui, key, &called, rect);
    panel.is_on(is_in_hand);
    let (body_room, words) = rect.split_top_bottom_at_y(rect.top() + 0.61 * rect.height());
    let ink = if is_in_hand { theme::ACCENT } else { theme::INK };
    if is_in_hand {
        // It has left its place: a hollow, and a word that says where it is.
        let hollow = body_room.shrink2(vec2(5.0, 3.0) * lie.unit);
        lie.painter.rect(hollow, 9, theme::ACCENT_GROUND, Stroke::new(1.5, theme::ACCENT), StrokeKind::Inside);
        lie.words(&panel.say("window-in-hand", &[]), hollow, FontWeight::Bold, theme::ACCENT);
    } else {
        bodies::small(lie.painter, body, body_room.center(), lie.unit);
    }
    lie.written(&name, words, FontWeight::Normal, ink, Align::Min);
    outlined(lie.painter, rect, response.has_focus(), response.hovered());
    match kept.hand() {
        Some((hand, detector)) if response.clicked() => view.take(hand, detector.unwrap_or(view.detector)),
        Some(_) => {}
        None => carried::lock_pressed(ui, panel, session, view, &response),
    }
}

/// The ring of what has the keyboard or the pointer.
fn outlined(painter: &Painter, rect: Rect, has_focus: bool, hovered: bool) {
    if has_focus {
        painter.rect_stroke(rect, 8, Stroke::new(2.5, theme::ACCENT), StrokeKind::Inside);
    } else if hovered {
        painter.rect_stroke(rect, 8, Stroke::new(1.5, theme::ACCENT), StrokeKind::Inside);
    }
}

/// A key on the body of what is in the hand.
fn body_key(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    lie: &Lie<'_>,
    key: &str,
    (face, name): (&str, &str),
    (rect, on): (Rect, bool),
) -> bool {
    let response = panel.spot(ui, key, name, rect);
    panel.is_on(on);
    let (ground, edge, ink) = if on {
        (theme::ACCENT_GROUND, Stroke::new(2.5, theme::ACCENT), theme::ACCENT)
    } else {
        (theme::FIELD, Stroke::new(1.0, theme::EDGE), theme::INK)
    };
    lie.painter.rect(rect, 6, ground, edge, StrokeKind::Inside);
    lie.words(face, rect.shrink(2.0), if on { FontWeight::Bold } else { FontWeight::Normal }, ink);
    outlined(lie.painter, rect, response.has_focus(), response.hovered());
    response.clicked()
}

/// The key that takes the reading, once both probes are somewhere.
fn read_key(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View, lie: &Lie<'_>, rect: Rect) {
    let text = panel.say("window-read", &[]);
    let Some(action) = probes::reads(session, view) else {
        lie.painter.rect_stroke(rect, 6, Stroke::new(1.0, theme::HAIR), StrokeKind::Inside);
        lie.words(&text, rect.shrink(2.0), FontWeight::Normal, theme::FAINT);
        return;
    };
    if body_key(ui, panel, lie, "read", (&text, &text), (rect, false)) {
        panel.act(action);
    }
}

/// The body of an instrument in the hand.
fn body(lie: &Lie<'_>, rect: Rect, radius: f32) {
    let radius = radius * lie.unit;
    lie.painter.rect_filled(rect.translate(vec2(0.0, 2.0)), radius, theme::HAIR);
    lie.painter.rect(rect, radius, theme::CASE, Stroke::new(1.5, theme::EDGE), StrokeKind::Inside);
}

/// A display with what stands on it; an empty one says so. It has a name for people who cannot see it.
fn show_display(ui: &Ui, panel: &PanelContext<'_>, lie: &Lie<'_>, rect: Rect, text: Option<&str>) {
    lie.painter.rect(rect, 5, theme::DISPLAY, Stroke::new(1.5, theme::EDGE), StrokeKind::Inside);
    let dark = panel.say("window-display-dark", &[]);
    PanelContext::readout(ui, "display", text.unwrap_or(&dark), rect);
    // A figure is written large; a sentence goes on beneath itself.
    let short = text.filter(|it| it.chars().count() <= 9);
    if let Some(it) = short {
        let font = FontId::new(22.0 * lie.unit, theme::family(FontWeight::Bold));
        let galley = lie.painter.layout_no_wrap(it.to_owned(), font, theme::DIGITS.worn());
        lie.painter.galley(rect.center() - galley.size() / 2.0, galley, theme::DIGITS.worn());
    } else {
        lie.words(text.unwrap_or(&dark), rect.shrink(4.0 * lie.unit), FontWeight::Normal, theme::DIGITS);
    }
}
