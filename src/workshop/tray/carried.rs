//! What was taken from the tray for a thing of the drawing: a sleeve or tape for an end, a lock for a device. It is dragged there, or clicked
//! and then the thing; with the thing selected one click puts it on.

use bevy_egui::egui::{Pos2, Rect, Response, Stroke, StrokeKind, Ui, vec2};
use switchdrop::{
    picture::{Scene, Thing},
    work::Action,
};

use super::{
    super::{
        drawing::Fit,
        panel::{Intent, PanelContext},
        session::Session,
        theme, touch,
        view::{Carried, Piece, View},
    },
    bodies::{self, Body},
    sleeves,
};

/// Whether the lock is on its way.
pub fn is_lock(view: &View) -> bool {
    view.carried.is_some_and(|it| it.piece == Piece::Lock)
}

/// The lock in the tray: on the device that is selected, or into the hand.
pub(super) fn lock_pressed(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    session: &Session,
    view: &mut View,
    response: &Response,
) {
    if response.clicked() {
        match view.selected {
            Some(Thing::Device(_) | Thing::Lock(_)) => hang(panel, session, view),
            _ if is_lock(view) => view.carried = None,
            _ => {
                view.carried = Some(Carried { piece: Piece::Lock, is_dragged: false });
                view.say(super::super::view::Tone::Plain, panel.say("window-lock-where", &[]));
            }
        }
    }
    dragged_from(ui, view, response.rect, Piece::Lock);
}

/// Takes a piece along where a drag began on it.
pub(super) fn dragged_from(ui: &Ui, view: &mut View, rect: Rect, piece: Piece) {
    let (origin, dragging) = ui.input(|it| (it.pointer.press_origin(), it.pointer.is_decidedly_dragging()));
    if dragging && view.dragged.is_none() && origin.is_some_and(|it| rect.contains(it)) {
        view.carried = Some(Carried { piece, is_dragged: true });
    }
}

/// Hangs the lock on what is selected, if that is a device that is off; else it is said why not.
pub fn hang(panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let Some(Thing::Device(of) | Thing::Lock(of)) = view.selected else { return };
    let Some(it) = session.attempt.work().exercise().devices.get(of) else { return };
    let device = it.address.clone();
    view.carried = None;
    touch::click_does(panel, session, view, Action::LockOff { device });
}

/// Draws it at the pointer; where it is let go over a thing that takes it, it goes on.
pub fn follow(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, scene: &Scene, fit: &Fit) {
    let Some(Carried { piece, is_dragged }) = view.carried else { return };
    let (at, down) = ui.input(|it| (it.pointer.latest_pos(), it.pointer.primary_down()));
    let Some(at) = at else { return };
    let work = session.attempt.work();
    let takes = |it: Thing| match piece {
        Piece::Mark(_) => matches!(it, Thing::End(_)),
        Piece::Lock => matches!(it, Thing::Device(_) | Thing::Lock(_)),
    };
    let under = scene.spots.iter().find(|it| takes(it.thing) && fit.rect(it.rect).contains(at));
    let under = under.map(|it| (it.thing, fit.rect(it.rect)));
    if let Some((_, rect)) = under {
        ui.painter().rect_stroke(rect.expand(3.0), 5, Stroke::new(3.0, theme::ACCENT), StrokeKind::Outside);
    }
    // Over the tray too, from which it comes.
    if ui.clip_rect().expand2(vec2(0.0, 120.0)).contains(at) {
        draw(ui, piece, at + vec2(0.0, -4.0));
    }
    if is_dragged && !down {
        view.carried = None;
        if let Some((thing, _)) = under {
            view.selected = Some(thing);
            match (piece, thing) {
                (Piece::Mark(mark), Thing::End(end)) => {
                    panel.intents.push(Intent::Act(sleeves::marks(work, end, mark)));
                }
                _ => hang(panel, session, view),
            }
        }
    }
}

fn draw(ui: &Ui, piece: Piece, at: Pos2) {
    match piece {
        Piece::Mark(mark) => sleeves::tube(ui.painter(), at, mark, 1.0),
        Piece::Lock => bodies::small(ui.painter(), Body::Lock, at, 1.0),
    }
}
