//! A device that opened by itself: why, in words beside the drawing, and on the drawing along the way of the current.
//!
//! What flowed where is the library's to say; here it is told and outlined.

use bevy_egui::egui::{
    Align2, Color32, FontId, Frame, Margin, Painter, Pos2, RichText, ScrollArea, Shape, Stroke, StrokeKind, Ui, pos2,
};
use switchdrop::{
    circuit::{Cause, Course, courses},
    exercise::{EndId, TerminalId},
    picture::{Layer, Outline, Paint, Scene, Thing, Weight},
    wording::{Wording, apart, conductor, device, hazard_key, list, terminal},
    work::{Attempt, Power, Work},
};

use super::{desk::Desk, drawing::Fit, session::Session, theme};

/// Conductors that are named; more than so many are not followed by anybody.
const NAMED: usize = 8;

/// What opened when power last reached the work, as long as it stands so.
#[derive(Debug, Clone)]
pub struct Trip {
    courses: Vec<Course>,
    /// The terminals and ends along the way, as they were joined then.
    ends: Vec<(EndId, Option<TerminalId>)>,
}

impl Trip {
    /// What opened last, unless the power has come back since.
    pub fn of(attempt: &Attempt) -> Option<Self> {
        let last = attempt.tally().energised.last().filter(|it| !it.tripped.is_empty())?;
        let work = attempt.work();
        if last.tripped.iter().all(|it| work.device_state(*it).power == Power::On) {
            return None;
        }
        let courses = courses(&last.work);
        let ends = courses.iter().flat_map(|it| &it.conductors).flat_map(|it| EndId::of(*it));
        let ends = ends.map(|it| (it, last.work.terminal_of(it))).collect();
        Some(Self { courses, ends })
    }

    /// Whether a thing lies on the way and is still joined as it was then.
    fn meets(&self, work: &Work, thing: Thing) -> bool {
        let still = |(end, to): &&(EndId, Option<TerminalId>)| work.terminal_of(*end) == *to;
        match thing {
            Thing::End(it) => self.ends.iter().filter(still).any(|(end, _)| *end == it),
            Thing::Terminal(it) => self.ends.iter().filter(still).any(|(_, to)| *to == Some(it)),
            Thing::Device(it) => self.courses.iter().any(|course| course.opening.device == it),
            Thing::Location(_) | Thing::Switch(_) | Thing::Lamp(_) => false,
        }
    }
}

/// Why each device opened: what it saw, how fast it opens on that, what met what and where, and by which conductors.
pub fn sentences(wording: &Wording, session: &Session, trip: &Trip) -> Vec<String> {
    let work = session.attempt.work();
    let exercise = work.exercise();
    let mut said = Vec::new();
    for it in &trip.courses {
        let name = device(wording, exercise, it.opening.device);
        let key = match it.opening.cause {
            Cause::Overcurrent => "window-opened-overcurrent",
            Cause::Residual => "window-opened-residual",
        };
        let (amps, seconds) = (rounded(it.amps), it.opening.within.to_string());
        let what = wording.say(hazard_key(it.kind), &[]);
        let args = [("device", name.as_str()), ("amps", &amps), ("seconds", &seconds), ("what", &what)];
        said.push(wording.say(key, &args));
        let meets = it.meets.iter().map(|it| terminal(wording, exercise, *it)).collect::<Vec<_>>();
        if !meets.is_empty() {
            said.push(wording.say("window-opened-where", &[("terminals", &apart(wording, &meets))]));
        }
        let learners = |it: &&usize| EndId::of(**it).into_iter().any(|end| exercise.is_learners(end));
        let way = it.conductors.iter().filter(learners).take(NAMED).map(|it| conductor(wording, work, *it));
        let way: Vec<_> = way.collect();
        if !way.is_empty() {
            said.push(wording.say("window-opened-way", &[("conductors", &list(wording, &way))]));
        }
    }
    if !session.attempt.safety().is_tested_since_trip() {
        said.push(wording.say("window-opened-then", &[]));
    }
    said
}

/// Two digits say enough of a fault's current.
fn rounded(amps: f64) -> String {
    let unit = 10_f64.powf(amps.abs().max(1.0).log10().floor() - 1.0);
    format!("{:.0}", (amps / unit).round() * unit)
}

/// Tells it, in no more room than leaves some for what can be done.
pub fn told(ui: &mut Ui, desk: &Desk<'_>, session: &Session, trip: &Trip) {
    let most = ui.ctx().viewport_rect().height() * 0.3;
    let edge = Stroke::new(2.0, theme::WARNING);
    Frame::new().fill(theme::WARNING_GROUND).stroke(edge).corner_radius(5).inner_margin(Margin::same(8)).show(
        ui,
        |ui| {
            desk.region(ui, "window-opened-heading");
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 3.0;
            ui.label(theme::bold(format!("⚠  {}", desk.say("window-opened-heading", &[]))).color(theme::WARNING));
            ScrollArea::vertical().id_salt("opened").max_height(most).show(ui, |ui| {
                for it in sentences(desk.wording, session, trip) {
                    ui.label(RichText::new(it).small());
                }
            });
        },
    );
}

/// Outlines the way of the current on the drawing: a band along each core.
pub fn paint_way(painter: &Painter, work: &Work, scene: &Scene, fit: &Fit, trip: &Trip) {
    let band = Color32::from_rgba_unmultiplied(200, 40, 10, 70);
    for shape in scene.shapes.iter().filter(|it| it.layer == Layer::Conductors) {
        // A core is drawn several times over, in its outline and its colour: once is enough here.
        let is_core = shape.stroke.is_some_and(|it| matches!(it.paint, Paint::Conductor(_)));
        if let (Some(thing @ Thing::End(_)), Outline::Path(path)) = (shape.about, &shape.outline)
            && is_core
            && trip.meets(work, thing)
        {
            let points: Vec<Pos2> = path.flattened().into_iter().map(|it| fit.point(it)).collect();
            painter.add(Shape::line(points.clone(), Stroke::new(20.0 * fit.scale, band)));
            painter.extend(Shape::dashed_line(&points, Stroke::new(3.0, theme::WARNING), 8.0, 7.0));
        }
    }
}

/// A ring at each terminal of the way, a sign at the device.
pub fn paint_signs(painter: &Painter, work: &Work, scene: &Scene, fit: &Fit, trip: &Trip) {
    for spot in &scene.spots {
        let rect = fit.rect(spot.rect);
        match spot.thing {
            Thing::Terminal(_) if trip.meets(work, spot.thing) => {
                painter.rect_stroke(rect.expand(1.0), 5, Stroke::new(3.0, theme::WARNING), StrokeKind::Outside);
            }
            Thing::Device(_) if trip.meets(work, spot.thing) => {
                painter.rect_stroke(rect.expand(3.0), 6, Stroke::new(3.0, theme::WARNING), StrokeKind::Outside);
                let at = pos2(rect.right() - 12.0, rect.top() + 12.0);
                painter.circle(at, 12.0, theme::WARNING_GROUND, Stroke::new(2.0, theme::WARNING));
                let font = FontId::new(18.0, theme::family(Weight::Bold));
                painter.text(at, Align2::CENTER_CENTER, "!", font, theme::WARNING);
            }
            _ => {}
        }
    }
}
