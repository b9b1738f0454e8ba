//! Sleeves and tape, in the tray while tools are in the hand: pieces to put on an end.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use switchdrop::{
    exercise::EndId,
    picture::{FontWeight, Paint, Thing},
    trade::colour::{Colour, Mark},
    wording,
    work::{Action, Work},
};

use super::{
    super::{
        panel::{Intent, PanelContext},
        session::Session,
        theme,
        view::{Carried, Piece, Sight, View},
    },
    HAND, HIGH, Lie, carried, outlined,
};

/// Its letters, points.
const LETTERS: f32 = 14.5;
/// Pieces beside one another, and how far apart, units.
const COLUMNS: usize = 4;
const APART: f32 = 6.0;

/// Whether there is an end for them: at a place that is open and has ends of the learner's.
fn are_out(session: &Session, view: &View) -> bool {
    let Sight::Location(at) = view.at else { return false };
    let work = session.attempt.work();
    let open = !work.has_cover(at) || !work.is_covered(at);
    open && work.exercise().learners_places().contains(&at)
}

/// Draws them.
pub(super) fn show(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, lie: &Lie<'_>) {
    if !are_out(session, view) {
        return;
    }
    let work = session.attempt.work();
    let size = vec2((HAND - APART * (COLUMNS as f32 - 1.0)) / COLUMNS as f32, (HIGH - APART) / 2.0);
    let cell = |index: usize| {
        let (column, row) = ((index % COLUMNS) as f32, (index / COLUMNS) as f32);
        lie.rect(column * (size.x + APART), row * (size.y + APART), size.x, size.y)
    };
    // There is no bare sleeve.
    let colours = Colour::ALL.into_iter().filter(|it| *it != Colour::Bare);
    let mut next = 0;
    for colour in colours {
        let mark = if view.tape { Mark::Tape(colour) } else { Mark::Sleeve(colour) };
        let rect = cell(next);
        next += 1;
        let name = wording::mark(panel.wording, mark);
        let response = panel.spot(ui, &format!("tray:{}", colour.word()), &name, rect);
        let in_hand = view.carried.is_some_and(|it| it.piece == Piece::Mark(mark));
        panel.is_on(in_hand);
        let (ground, edge) = if in_hand {
            (theme::ACCENT_GROUND, Stroke::new(2.5, theme::ACCENT))
        } else {
            (theme::PAPER, Stroke::new(1.0, theme::HAIR))
        };
        lie.painter.rect(rect, 6, ground, edge, StrokeKind::Inside);
        outlined(lie.painter, rect, response.has_focus(), response.hovered());
        tube(lie.painter, rect.center(), mark, lie.unit.max(0.95));
        if response.clicked() {
            taken(panel, work, view, mark);
        }
        carried::dragged_from(ui, view, rect, Piece::Mark(mark));
        response.on_hover_text(name);
    }
    lie.words(&panel.say("window-tray", &[]), cell(next).shrink(2.0), FontWeight::Normal, theme::QUIET);
}

/// One click on a piece: on the end that is selected, or into the hand.
fn taken(panel: &mut PanelContext<'_>, work: &Work, view: &mut View, mark: Mark) {
    match view.selected {
        Some(Thing::End(end)) if work.mark_of(end).is_none() => {
            panel.intents.push(Intent::Act(marks(work, end, mark)));
        }
        _ if view.carried.is_some_and(|it| it.piece == Piece::Mark(mark)) => view.carried = None,
        _ => view.carried = Some(Carried { piece: Piece::Mark(mark), is_dragged: false }),
    }
}

/// The actions that put a mark on an end: one that it has comes off first.
pub fn marks(work: &Work, end: EndId, mark: Mark) -> Vec<Action> {
    let end_address = work.end_address(end);
    let off = work.mark_of(end).map(|_| Action::Unmark { end: end_address.clone() });
    off.into_iter().chain([Action::Mark { end: end_address, mark }]).collect()
}

/// A piece of sleeving or two turns of tape, with the letters of its colour.
pub(super) fn tube(painter: &Painter, at: Pos2, mark: Mark, scale: f32) {
    let (colour, halves) = match mark {
        Mark::Sleeve(it) => (it, [(-33.0, 33.0)].as_slice()),
        Mark::Tape(it) => (it, [(-33.0, -14.0), (14.0, 33.0)].as_slice()),
        Mark::Letter(_) => return,
    };
    for (from, to) in halves {
        let area = Rect::from_min_max(at + vec2(*from, -7.0) * scale, at + vec2(*to, 7.0) * scale);
        painter.rect(
            area,
            3,
            theme::of(Paint::Conductor(colour)),
            Stroke::new(1.5, theme::of(Paint::ConductorEdge(colour))),
            StrokeKind::Middle,
        );
        if colour == Colour::GreenYellow {
            let step = 10.0 * scale;
            let mut x = area.left() + step * 0.5;
            while x + step / 2.0 <= area.right() {
                let band = Rect::from_min_max(pos2(x, area.top() + 1.0), pos2(x + step / 2.0, area.bottom() - 1.0));
                painter.rect_filled(band, 0, theme::of(Paint::Stripe));
                x += step;
            }
        }
    }
    let wide = if colour.code().len() > 2 { 46.0 } else { 32.0 };
    let tag = Rect::from_center_size(at, vec2(wide, 18.0) * scale);
    painter.rect(
        tag,
        4,
        theme::of(Paint::Plate),
        Stroke::new(1.0, theme::of(Paint::ConductorEdge(colour))),
        StrokeKind::Middle,
    );
    let font = FontId::new(LETTERS * scale, theme::family(FontWeight::Bold));
    painter.text(at, Align2::CENTER_CENTER, colour.code(), font, theme::INK.worn());
}
