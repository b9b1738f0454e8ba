//! The free probe moved along the ends with the button held: where it rests until the indicator has answered, that is touched. One
//! drag does all conductors of a box.

use bevy_egui::egui::Ui;
use switchdrop::picture::{Scene, Thing};

use super::{
    drawing::Fit,
    panel::PanelContext,
    probes,
    session::Session,
    touch,
    view::{Hand, Resting, View},
};

/// How long the probe rests on a conductor before the indicator has answered, seconds (our own rule for the window).
const ANSWERS: f64 = 0.3;

/// Follows the probe, as long as another is parked and the button is held. Called after the clicks of the frame were answered.
pub fn follow(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, scene: &Scene, fit: &Fit) {
    let work = session.attempt.work();
    let parked = session.attempt.safety().parked().map(|it| work.point_address(it));
    let (is_down, at, now) = ui.input(|it| (it.pointer.primary_down(), it.pointer.latest_pos(), it.time));
    let is_point = |it: &Thing| matches!(it, Thing::End(_) | Thing::Terminal(_));
    let at = at.filter(|it| ui.clip_rect().contains(*it));
    let under = scene.spots.iter().filter(|it| at.is_some_and(|at| fit.rect(it.rect).contains(at)));
    let under =
        under.map(|it| it.thing).find(is_point).filter(|it| parked.as_ref() != Some(&probes::address(work, *it)));
    let (Some(_), Some(on), true, Hand::Indicator) = (&parked, under, is_down, view.hand) else {
        view.resting = None;
        return;
    };
    let resting = view.resting.filter(|it| it.on == on).unwrap_or(Resting { on, since: now, is_touched: false });
    let left = resting.since + ANSWERS - now;
    let answers = !resting.is_touched && left <= 0.0;
    if answers {
        touch::touched(panel, session, view, on);
    } else if !resting.is_touched {
        // The engine shows no frame of itself after a while.
        ui.ctx().request_repaint();
    }
    view.resting = Some(Resting { is_touched: resting.is_touched || answers, ..resting });
}
