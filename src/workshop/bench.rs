//! The screen of the work: the job and its stages above, the drawing in the middle, what to do beside it, what was said
//! last beneath it.

use bevy_egui::egui::{CentralPanel, Frame, Key, Margin, Panel, ScrollArea, Ui};
use switchdrop::{
    advice::NextJoin,
    attempt::Attempt,
    marking::Sheet,
    picture::{CircuitDiagram, Scene, Thing},
};

use super::{
    along, bars, callout, circuit_page,
    current::{self, Current, drawn},
    diagnosis_page,
    drawing::{fitted, paint},
    guide, letters, next,
    panel::{Pane, PanelContext},
    prediction,
    question::Question,
    report,
    session::Session,
    stages::{self, Stages},
    tests_page, theme, todo, tools, touch, tray,
    trip::{self, Played, Trip, Way},
    view::{Hand, Sight, View},
};

/// What is shown of the work.
pub struct Shown<'a> {
    /// The attempt and its file.
    pub session: &'a Session,
    /// What is looked at.
    pub scene: Option<&'a Scene>,
    /// What is asked, where that is a prediction.
    pub question: Option<&'a Question>,
    /// What opened, if something did and still stands so.
    pub trip: Option<&'a Trip>,
    /// The finding that is looked at, if one is.
    pub played: Option<&'a Played>,
    /// What was earned, once it was handed in.
    pub sheet: Option<&'a Sheet>,
    /// What to join next, where the learner is guided.
    pub guide: Option<&'a NextJoin>,
    /// The circuit diagram, where that is looked at.
    pub diagram: Option<&'a CircuitDiagram>,
    /// Where the current goes, once that may be told, and how far its arrows have walked, points.
    pub current: Option<(&'a Current, f32)>,
}

impl Shown<'_> {
    fn attempt(&self) -> &Attempt {
        &self.session.attempt
    }

    /// The way of a current that is outlined: of the finding that is looked at, of what opened, or to a hand.
    pub fn way(&self) -> Option<&Way> {
        let hand = || self.current.and_then(|it| it.0.hand.as_ref()).map(|it| &it.2);
        self.played.map(|it| &it.way).or(self.trip.map(|it| &it.way)).or_else(hand)
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, shown: &Shown<'_>, view: &mut View) {
    let edge = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(12, 6));
    let lines = todo::lines(panel, shown.attempt(), shown.guide);
    Panel::top("where").frame(edge).show(ui, |ui| {
        panel.begin(ui, Pane::Places, "window-pane-job");
        // The brief stands open at first; then it folds into the title, and the stages stand beside that. In a low window everything
        // folds into as few lines as hold it, for the drawing is what the window is for.
        let (is_low, is_open) = (theme::is_low(ui), bars::is_open(ui, view));
        match (is_open, is_low) {
            (true, _) => bars::job(ui, panel, shown.session, view),
            (false, true) => bars::job_in_a_line(ui, panel, shown.session, view),
            (false, false) => {}
        }
        let stages = if is_low { Stages::Numbered } else { Stages::Named };
        ui.horizontal_wrapped(|ui| {
            if !is_open && !is_low {
                bars::title(ui, panel, shown.session, view);
            }
            stages::row(ui, panel, shown.attempt(), &lines, stages);
            if is_low {
                ui.separator();
                bars::places(ui, panel, shown.session, view);
            }
        });
        if !is_low {
            ui.horizontal_wrapped(|ui| bars::places(ui, panel, shown.session, view));
        }
    });
    Panel::bottom("said").frame(edge).show(ui, |ui| {
        panel.begin(ui, Pane::Foot, "window-pane-foot");
        bars::foot(ui, panel, shown.session, view);
    });
    let least = if theme::is_low(ui) { 316.0 } else { 348.0 };
    let wide = (ui.available_width() * 0.27).clamp(least, 460.0) * theme::scale_of(ui).clamp(1.0, 1.3);
    Panel::right("beside").frame(edge).resizable(false).exact_size(wide).show(ui, |ui| {
        panel.begin(ui, Pane::Beside, "window-pane-beside");
        // What opened and what comes next stay in view; what is beneath them scrolls.
        Panel::top("next").frame(Frame::new().inner_margin(Margin { bottom: 6, ..Margin::ZERO })).show(ui, |ui| {
            if let Some(it) = shown.played {
                trip::told(ui, panel, it.heading, &it.told);
            } else if let Some(it) = shown.trip {
                let said = trip::sentences(panel.wording, shown.session, it);
                trip::told(ui, panel, "window-opened-heading", &said);
            }
            if view.hands_in && !shown.session.is_over() {
                next::ask(ui, panel, &lines);
            }
            next::next(ui, panel, shown, view, &lines);
        });
        // Each place is read from its top.
        ScrollArea::vertical().id_salt(view.at).auto_shrink(false).show(ui, |ui| {
            ui.add_space(4.0);
            match shown.question {
                Some(it) => prediction::beside(ui, panel, shown.session, view, it),
                None => with_current(ui, panel, shown, view),
            }
            report::show(ui, panel, shown.session, view);
            next::rest(ui, panel, shown.session, &lines);
        });
    });
    if tray::is_out(shown.session, view) {
        let edge = edge.inner_margin(Margin::symmetric(12, 4));
        Panel::bottom("tray").frame(edge).resizable(false).show(ui, |ui| {
            panel.begin(ui, Pane::Tray, "window-pane-tray");
            tray::show(ui, panel, shown.session, view);
        });
    }
    CentralPanel::default().frame(Frame::new().fill(theme::PAPER.worn())).show(ui, |ui| {
        panel.begin(ui, Pane::Middle, "window-pane-drawing");
        if let (Some(question), Some(scene)) = (shown.question, shown.scene) {
            prediction::show(ui, panel, shown.session, view, (question, scene));
        } else if view.at == Sight::Diagnosis {
            diagnosis_page::show(ui, panel, shown.session);
        } else if view.at == Sight::Tests {
            tests_page::show(ui, panel, shown.session, view);
        } else if let (Some(scene), Some(diagram)) = (shown.scene, shown.diagram) {
            circuit_page::show(ui, panel, shown, view, (scene, diagram));
        } else if let Some(scene) = shown.scene {
            let points = todo::points_at(&lines, shown.attempt().work(), view.at, shown.guide);
            draw(ui, panel, shown, view, (scene, points));
        }
    });
    if ui.input(|it| it.key_pressed(Key::Escape)) {
        view.selected = None;
        view.carried = None;
    }
}

/// What is selected and can be done; and where the current goes, before it where that is what one looks for.
fn with_current(ui: &mut Ui, panel: &mut PanelContext<'_>, shown: &Shown<'_>, view: &mut View) {
    let current = shown.current.map(|it| it.0).filter(|_| !matches!(view.at, Sight::Tests | Sight::Diagnosis));
    let is_first = !matches!(view.at, Sight::Location(_)) || shown.session.is_over();
    if let Some(it) = current.filter(|_| is_first) {
        current::beside::show(ui, panel, shown.session, view, it);
    }
    tools::show(ui, panel, shown.session, view);
    if let Some(it) = current.filter(|_| !is_first) {
        ui.separator();
        current::beside::show(ui, panel, shown.session, view, it);
    }
    if let Some(it) = current.and_then(|it| it.table.as_ref()).filter(|_| view.at == Sight::Circuit) {
        current::beside::table(ui, panel, shown.session, it);
    }
}

fn draw(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    shown: &Shown<'_>,
    view: &mut View,
    (scene, points): (&Scene, Option<Thing>),
) {
    fitted(ui, ("drawing", view.at), scene, |ui, fit| {
        paint(ui.painter(), scene, fit, false);
        let (work, way) = (shown.attempt().work(), shown.way());
        if let Some(it) = way {
            trip::paint_way(ui.painter(), work, scene, fit, it);
        }
        if let Some((it, walked)) = shown.current {
            let letters = letters::of(ui.painter(), scene, fit);
            view.pointed = drawn::on_place(ui, panel, work, it, (scene, fit), (walked, &letters));
        }
        paint(ui.painter(), scene, fit, true);
        if let Some(it) = way {
            trip::paint_signs(ui.painter(), work, scene, fit, it);
        }
        for spot in &scene.spots {
            let rect = fit.target(spot.rect);
            let told = shown.current.and_then(|it| drawn::carries(panel, work, &it.0.flow, spot.thing));
            touch::spot(ui, panel, shown.session, view, (spot, rect), told);
        }
        if shown.session.is_over() {
            return;
        }
        if let Some(it) = points.and_then(|it| scene.spot(it)) {
            touch::pointed(ui, fit.rect(it.rect));
        }
        let rect = |of: Thing| scene.spot(of).map(|it| fit.rect(it.rect));
        let led = shown.guide.filter(|it| view.dragged.is_none() && points == Some(Thing::End(it.end)));
        if let Some((from, to)) = led.and_then(|it| rect(Thing::End(it.end)).zip(rect(Thing::Terminal(it.terminal)))) {
            guide::led(ui, from, to);
        }
        touch::probes_on(ui, panel, shown.session, view, scene, fit);
        if view.hand == Hand::Tools {
            touch::pick_up(ui, shown.session, view, scene, fit);
        }
        along::follow(ui, panel, shown.session, view, scene, fit);
        touch::drag(ui, panel, shown.session, view, scene, fit);
        tray::carried::follow(ui, panel, shown.session, view, scene, fit);
        callout::beside(ui, view, scene, fit);
    });
}
