//! A device that opened by itself, or would have: why, in words beside the drawing, and on the drawing along the way of
//! the current.
//!
//! What flowed where is the library's to say; here it is told and outlined.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, RichText, ScrollArea, Shape, Stroke, StrokeKind, Ui};
use switchdrop::{
    attempt::Attempt,
    circuit::{Cause, Course, Touch, courses},
    exercise::{DeviceId, EndId, TerminalId},
    picture::{FontWeight, Layer, Outline, Paint, Scene, Thing},
    report::Consequence,
    wording::{Wording, apart, conductor, device, hazard_key, list, terminal},
    work::{Point, Power, Subject, Work},
};

use super::{drawing::Fit, panel::PanelContext, session::Session, theme};

/// Most conductors that are named: nobody follows more.
const NAMED: usize = 8;

/// Where a current went: what is outlined on the drawing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Way {
    devices: Vec<DeviceId>,
    /// The terminals and ends along it, as they were joined then.
    ends: Vec<(EndId, Option<TerminalId>)>,
    /// Where a hand was, or heat.
    point: Option<Point>,
}

impl Way {
    fn of(work: &Work, devices: Vec<DeviceId>, conductors: impl Iterator<Item = usize>) -> Self {
        let ends =
            conductors.filter_map(|it| work.ends_of(it)).flatten().map(|it| (it, work.terminal_of(it))).collect();
        Self { devices, ends, point: None }
    }

    /// The way to a hand.
    pub fn of_touch(work: &Work, point: Point, met: &Touch) -> Self {
        let way = Self::of(work, met.from.into_iter().collect(), met.conductors.iter().copied());
        Self { point: Some(point), ..way }
    }

    /// The conductors along it that are still joined as they were then.
    pub fn conductors(&self, work: &Work) -> Vec<usize> {
        (0..work.conductor_count()).filter(|it| self.meets(work, Thing::Conductor(*it))).collect()
    }

    /// The way of what would have happened.
    pub fn of_consequence(work: &Work, it: &Consequence) -> Self {
        let (way, point) = match it {
            Consequence::Opens { way, .. } => (way.as_slice(), None),
            Consequence::Touch { way, .. } => (way.as_slice(), way.last()),
            Consequence::Heat { at, .. } => (&[][..], Some(at)),
        };
        let device = way.iter().find_map(|it| match it {
            Subject::Device(it) => Some(*it),
            _ => None,
        });
        let conductors = way.iter().filter_map(|it| it.conductor(work));
        Self { point: point.and_then(|it| it.point(work)), ..Self::of(work, device.into_iter().collect(), conductors) }
    }

    /// Whether a thing lies on the way and is still joined as it was then.
    fn meets(&self, work: &Work, thing: Thing) -> bool {
        let still = |(end, to): &&(EndId, Option<TerminalId>)| work.terminal_of(*end) == *to;
        match thing {
            Thing::End(it) => self.ends.iter().filter(still).any(|(end, _)| *end == it),
            Thing::Terminal(it) => self.ends.iter().filter(still).any(|(_, to)| *to == Some(it)),
            Thing::Device(it) => self.devices.contains(&it),
            Thing::Conductor(it) => {
                work.ends_of(it).is_some_and(|ends| ends.into_iter().all(|end| self.meets(work, Thing::End(end))))
            }
            Thing::Location(_) | Thing::Switch(_) | Thing::Lamp(_) | Thing::Lock(_) | Thing::Unmarked(_) => false,
        }
    }

    /// Whether something happens at a thing: a device that opens, a hand, heat.
    fn ends_at(&self, thing: Thing) -> bool {
        match thing {
            Thing::Device(it) => self.devices.contains(&it),
            Thing::Terminal(it) => self.point == Some(Point::Terminal(it)),
            Thing::End(it) => self.point == Some(Point::End(it)),
            Thing::Location(_)
            | Thing::Switch(_)
            | Thing::Lamp(_)
            | Thing::Lock(_)
            | Thing::Conductor(_)
            | Thing::Unmarked(_) => false,
        }
    }
}

/// What opened when power last reached the work, as long as it stands so.
#[derive(Debug, Clone)]
pub struct Trip {
    courses: Vec<Course>,
    /// Where its currents went.
    pub way: Way,
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
        let devices = courses.iter().map(|it| it.opening.device).collect();
        let way = Way::of(&last.work, devices, courses.iter().flat_map(|it| it.conductors.iter().copied()));
        Some(Self { courses, way })
    }
}

/// A finding that is looked at on the drawing: in its place, or what it would have led to.
#[derive(Debug, Clone, PartialEq)]
pub struct Played {
    /// The key of what stands over it.
    pub heading: &'static str,
    /// In words.
    pub told: Vec<String>,
    /// The way of the current, if there is one.
    pub way: Way,
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
        let meets = it.meets.iter().map(|it| terminal(wording, work, *it)).collect::<Vec<_>>();
        if !meets.is_empty() {
            said.push(wording.say("window-opened-where", &[("terminals", &apart(wording, &meets))]));
        }
        let learners = |it: &&usize| work.ends_of(**it).into_iter().flatten().any(|end| exercise.is_learners(end));
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

/// Tells something in sentences under a heading, in no more room than leaves some for what can be done.
pub fn told(ui: &mut Ui, panel: &PanelContext<'_>, heading: &str, sentences: &[String]) {
    let most = ui.ctx().viewport_rect().height() * 0.3;
    theme::warned(ui, |ui| {
        panel.region(ui, heading);
        ui.label(theme::bold(format!("⚠  {}", panel.say(heading, &[]))).color(theme::WARNING));
        ScrollArea::vertical().id_salt("opened").max_height(most).show(ui, |ui| {
            for it in sentences {
                ui.label(RichText::new(it).small());
            }
        });
    });
}

/// Outlines the way of the current on the drawing: a band along each core.
pub fn paint_way(painter: &Painter, work: &Work, scene: &Scene, fit: &Fit, way: &Way) {
    let [r, g, b, _] = theme::WARNING.worn().to_array();
    let band = theme::veiled([r, g, b], 70);
    for shape in scene.shapes.iter().filter(|it| it.layer == Layer::Conductors) {
        // A core is drawn several times over, in its outline and its colour: once is enough here.
        let is_core = shape.stroke.is_some_and(|it| matches!(it.paint, Paint::Conductor(_)));
        if let (Some(thing @ (Thing::End(_) | Thing::Conductor(_))), Outline::Path(path)) =
            (shape.about, &shape.outline)
            && is_core
            && way.meets(work, thing)
        {
            let points: Vec<Pos2> = path.flattened().into_iter().map(|it| fit.point(it)).collect();
            painter.add(Shape::line(points.clone(), Stroke::new(20.0 * fit.scale, band)));
            painter.extend(Shape::dashed_line(&points, Stroke::new(3.0, theme::WARNING), 8.0, 7.0));
        }
    }
}

/// A ring at each terminal of the way; a sign at what opens or is touched, at its corner so that it covers no word.
pub fn paint_signs(painter: &Painter, work: &Work, scene: &Scene, fit: &Fit, way: &Way) {
    for spot in &scene.spots {
        let rect = fit.rect(spot.rect);
        let happens = way.ends_at(spot.thing);
        let is_met = matches!(spot.thing, Thing::Terminal(_)) && way.meets(work, spot.thing);
        if happens || is_met {
            painter.rect_stroke(rect.expand(2.0), 5, Stroke::new(3.0, theme::WARNING), StrokeKind::Outside);
        }
        if happens {
            let at = rect.right_bottom();
            painter.circle(at, 12.0, theme::WARNING_GROUND, Stroke::new(2.0, theme::WARNING));
            let font = FontId::new(18.0, theme::family(FontWeight::Bold));
            painter.text(at, Align2::CENTER_CENTER, "!", font, theme::WARNING.worn());
        }
    }
}
