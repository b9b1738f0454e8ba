//! The page of the see-through house: the house, beneath it what stands behind its two switches, beside it what to try.

use bevy_egui::egui::{CentralPanel, Frame, Margin, Panel, Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, vec2};
use switchdrop::{
    exercise::{EndId, SwitchId},
    picture::Thing,
    wording::{position, switch},
};

use super::{CuriousAct, CuriousState, CuriousStep, DrawnHouse, House, beside, other_houses, plates, wall};
use crate::workshop::{
    bars,
    drawing::{Fit, paint},
    letters::Apart,
    panel::{Intent, Pane, PanelContext},
    theme,
};

/// Of the room in the middle, how much the house takes; and where wires are joined, which takes room itself.
const HOUSE: f32 = 0.56;
const HOUSE_LEFT: f32 = 0.51;

/// Draws it. Whether something is pointed at that carries a current.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &CuriousState, dragged: &mut Option<EndId>) -> bool {
    let edge = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(12, 6));
    Panel::top("where").frame(edge).show(ui, |ui| {
        panel.begin(ui, Pane::Places, "curious-pane-top");
        ui.horizontal_wrapped(|ui| {
            ui.heading(theme::bold(panel.say("curious-title", &[])));
            ui.add_space(12.0);
            ui.label(where_one_is(panel, state.step));
        });
    });
    Panel::bottom("foot").frame(edge).show(ui, |ui| {
        panel.begin(ui, Pane::Foot, "window-pane-foot");
        ui.horizontal_wrapped(|ui| {
            let text = panel.say("curious-undo", &[]);
            if panel.button_if(ui, state.houses.is_changed(), "undo", &text) {
                panel.intents.push(Intent::Curious(CuriousAct::Undo));
            }
            bars::common(ui, panel);
            let text = panel.say("window-leave", &[]);
            if panel.button(ui, "leave", &text) {
                panel.intents.push(Intent::Leave);
            }
            ui.separator();
            beside::words(ui, panel);
        });
        theme::quiet(ui, &panel.say("curious-standing", &[]));
    });
    let wide = (ui.available_width() * 0.27).clamp(348.0, 460.0) * theme::scale_of(ui).clamp(1.0, 1.3);
    Panel::right("beside").frame(edge).resizable(false).exact_size(wide).show(ui, |ui| {
        panel.begin(ui, Pane::Beside, "curious-pane-beside");
        let margin = Margin { top: 6, bottom: 4, ..Margin::ZERO };
        Panel::bottom("ways").frame(Frame::new().inner_margin(margin)).show(ui, |ui| beside::ways(ui, panel, state));
        ScrollArea::vertical().id_salt("curious").auto_shrink(false).show(ui, |ui| beside::show(ui, panel, state));
    });
    let mut is_pointed_at = false;
    CentralPanel::default().frame(Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::same(8))).show(
        ui,
        |ui| {
            panel.begin(ui, Pane::Middle, "curious-pane-house");
            let (room, _) = ui.allocate_exact_size(ui.available_size() - vec2(1.0, 1.0), Sense::hover());
            let counted = wall::counted(state).filter(|_| state.step == CuriousStep::Try && state.opened.is_none());
            if let Some(it) = counted {
                wall::show(ui, panel, it, room);
                return;
            }
            let (Some(house), Some(drawn)) = (&state.houses.now, &state.drawn) else { return };
            let share = if state.step == CuriousStep::Beat { HOUSE_LEFT } else { HOUSE };
            let (above, beneath) = room.split_top_bottom_at_fraction(share);
            is_pointed_at = place(ui, panel, state, (house, drawn), above);
            is_pointed_at |= plates::show(ui, panel, state, (house, drawn), beneath.shrink2(vec2(4.0, 6.0)), dragged);
        },
    );
    is_pointed_at
}

fn where_one_is(panel: &PanelContext<'_>, step: CuriousStep) -> String {
    let number = CuriousStep::ALL.iter().position(|it| *it == step).unwrap_or(0) + 1;
    let name = panel.say(step.name(), &[]);
    let args = [("number", number.to_string()), ("of", CuriousStep::ALL.len().to_string()), ("name", name)];
    panel.say("curious-step", &args.each_ref().map(|it| (it.0, it.1.as_str())))
}

/// The house in section. Its switches can be pressed where they are. Whether a core of it is pointed at that carries a current.
fn place(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    state: &CuriousState,
    (house, drawn): (&House, &DrawnHouse),
    room: Rect,
) -> bool {
    let scene = &drawn.scene;
    let scale = (room.width() / scene.width.max(1.0)).min(room.height() / scene.height.max(1.0));
    let size = vec2(scene.width, scene.height) * scale;
    let least_text = theme::least_drawn(ui);
    let fit = Fit { origin: room.center() - size / 2.0, scale, least_text };
    let painter = ui.painter().with_clip_rect(room.intersect(ui.clip_rect()));
    paint(&painter, scene, &fit, false);
    let names = Apart::of(&painter, scene, &fit);
    let walked = (state.walk.walked(), &names.rects[..]);
    let is_pointed_at = other_houses::under_names(&painter, (scene, &fit), (house, drawn), walked);
    names.paint(&painter, scene, &fit);
    other_houses::on_house(&painter, (scene, &fit), house, &drawn.flow);
    for spot in &scene.spots {
        let Thing::Switch(at) = spot.thing else { continue };
        // The drawing is smaller here than at the bench; what is pressed is not.
        let rect = fit.rect(spot.rect);
        let rect = Rect::from_center_size(rect.center(), rect.size().max(vec2(32.0, 32.0)));
        pressed(ui, panel, (&format!("switch:{}", spot.address), "curious-press"), at, rect, house);
    }
    is_pointed_at
}

/// Something that works a switch, by its key and that of its name.
pub fn pressed(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    (key, called): (&str, &str),
    at: SwitchId,
    rect: Rect,
    house: &House,
) {
    let exercise = house.passage.work().exercise();
    let stands = house.passage.positions().get(at.index()).copied().unwrap_or(0);
    let how = position(panel.wording, exercise, at, stands);
    let name = panel.say(called, &[("switch", &switch(panel.wording, exercise, at)), ("how", &how)]);
    let response = panel.spot(ui, key, &name, rect);
    let stroke = match (response.has_focus(), response.hovered()) {
        (true, _) => Stroke::new(2.5, theme::ACCENT),
        (false, true) => Stroke::new(1.5, theme::ACCENT),
        (false, false) => Stroke::NONE,
    };
    ui.painter().rect_stroke(rect.expand(1.0), 4, stroke, StrokeKind::Outside);
    if response.clicked() {
        panel.intents.push(Intent::Curious(CuriousAct::Press(at)));
    }
    response.on_hover_text(name);
}
