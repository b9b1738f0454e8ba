//! The circuit diagram over the place it is of: what is pointed at in one is lit in the other.

use bevy_egui::egui::{Rect, Ui, UiBuilder, vec2};
use switchdrop::picture::{CircuitDiagram, Scene, Thing};

use super::{
    bench::Shown,
    callout,
    current::drawn,
    drawing::{Fit, fitted, paint},
    letters::Apart,
    panel::PanelContext,
    theme, tools, touch,
    trip::{self, Way},
    view::{Pointed, View},
};

/// Of the room, how much the diagram takes.
const DIAGRAM: f32 = 0.54;

/// Draws both.
pub fn show(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    shown: &Shown<'_>,
    view: &mut View,
    (scene, diagram): (&Scene, &CircuitDiagram),
) {
    let was = view.pointed.take();
    let room = ui.available_rect_before_wrap();
    let (above, beneath) = room.split_top_bottom_at_fraction(DIAGRAM);
    part(ui, above, |ui| {
        fitted(ui, "diagram", &diagram.scene, |ui, fit| {
            on_diagram(ui, panel, shown, view, (diagram, fit), was.as_ref());
        });
    });
    ui.painter().hline(room.x_range(), beneath.top(), (1.0, theme::HAIR.worn()));
    part(ui, beneath.with_min_y(beneath.top() + 2.0), |ui| {
        // Whole, however small: the names for which there is no room are said of what is pointed at or has the keyboard.
        let least_text = theme::least_drawn(ui);
        let room = ui.available_rect_before_wrap().shrink(6.0);
        let scale = (room.width() / scene.width.max(1.0)).min(room.height() / scene.height.max(1.0)).min(1.0);
        let origin = room.center() - vec2(scene.width, scene.height) * scale / 2.0;
        let fit = Fit { origin, scale, least_text };
        on_place(ui, panel, shown, view, (scene, &fit), was.as_ref());
    });
    if view.pointed != was {
        ui.ctx().request_repaint();
    }
}

fn part(ui: &mut Ui, rect: Rect, add: impl FnOnce(&mut Ui)) {
    ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
        ui.set_clip_rect(rect.intersect(ui.clip_rect()));
        add(ui);
    });
}

fn on_diagram(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    shown: &Shown<'_>,
    view: &mut View,
    (diagram, fit): (&CircuitDiagram, &Fit),
    was: Option<&Pointed>,
) {
    let work = shown.session.attempt.work();
    let (painter, scene) = (ui.painter(), &diagram.scene);
    if let Some(it) = was {
        drawn::light_diagram(painter, work, (diagram, fit), it);
    }
    paint(painter, scene, fit, false);
    if let Some((current, walked)) = shown.current {
        drawn::on_diagram(painter, work, &current.flow, (diagram, fit), walked);
    }
    paint(painter, scene, fit, true);
    view.pointed = drawn::pointed_net(ui, (diagram, fit));
    for spot in &scene.spots {
        let told = shown.current.and_then(|it| drawn::carries(panel, work, &it.0.flow, spot.thing));
        if touch::spot(ui, panel, shown.session, view, (spot, fit.target(spot.rect)), told) {
            view.pointed = Some(pointed_at(diagram, spot.thing));
        }
    }
    callout::beside(ui, view, scene, fit);
}

/// A thing of the diagram, with the conductors that a terminal is joined to.
fn pointed_at(diagram: &CircuitDiagram, thing: Thing) -> Pointed {
    let nets = diagram.nets.iter().filter(|net| net.leads.iter().any(|lead| Thing::Terminal(lead.0) == thing));
    Pointed { thing: Some(thing), conductors: nets.flat_map(|it| it.conductors.iter().copied()).collect() }
}

/// The place beneath: its switches can be worked there too.
fn on_place(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    shown: &Shown<'_>,
    view: &mut View,
    (scene, fit): (&Scene, &Fit),
    was: Option<&Pointed>,
) {
    let work = shown.session.attempt.work();
    let painter = ui.painter();
    paint(painter, scene, fit, false);
    let way: Option<&Way> = shown.way();
    if let Some(it) = way {
        trip::paint_way(painter, work, scene, fit, it);
    }
    if let Some(it) = was {
        drawn::light_place(painter, work, (scene, fit), it);
    }
    let names = Apart::of(painter, scene, fit);
    let core = shown
        .current
        .and_then(|(it, walked)| drawn::on_place(ui, panel, work, it, (scene, fit), (walked, &names.rects)));
    view.pointed = core.or(view.pointed.take());
    names.paint(painter, scene, fit);
    if let Some(it) = way {
        trip::paint_signs(painter, work, scene, fit, it);
    }
    for spot in &scene.spots {
        if matches!(spot.thing, Thing::Lock(_) | Thing::Conductor(_)) {
            continue;
        }
        let name = tools::name(panel.wording, work, spot.thing);
        let key = format!("place:{}", touch::key(spot.thing, &spot.address));
        let response = panel.spot(ui, &key, &name, fit.target(spot.rect));
        if response.hovered() || response.has_focus() {
            view.pointed = Some(Pointed { thing: Some(spot.thing), conductors: Vec::new() });
        }
        if response.clicked() {
            match spot.thing {
                Thing::Switch(it) if !shown.session.is_over() => panel.act(touch::flip(work, it)),
                it => view.selected = Some(it),
            }
        }
        if response.has_focus() {
            response.show_tooltip_text(name);
        } else {
            response.on_hover_text(name);
        }
    }
}
