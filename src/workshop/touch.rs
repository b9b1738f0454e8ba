//! What the pointer and the keyboard do on the drawing: click, drag an end to a terminal, place a probe.
//!
//! It turns them into intents. Whether a thing is possible or safe is said by the library when it is tried. A click works the thing itself
//! where that is safe; what would be stopped is only selected, so that nobody is referred for pointing.

use bevy_egui::egui::{Align2, FontId, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};
use switchdrop::{
    exercise::{EndId, SwitchId, TerminalId},
    picture::{FontWeight, Paint, Scene, Spot, Thing},
    wording::{place, refused},
    work::{Action, Feel, Power, Work},
};

use super::{
    drawing::Fit,
    panel::{Intent, PanelContext},
    probes,
    session::Session,
    theme, tools, tray,
    view::{Carried, Hand, Piece, Sight, Tone, View},
};

/// Takes up the end where the button was pressed. It goes by the place of the press: when frames are slow, egui sees
/// press and movement at once and takes what the pointer has reached by then for what was pressed.
pub fn pick_up(ui: &Ui, session: &Session, view: &mut View, scene: &Scene, fit: &Fit) {
    let (origin, dragging) = ui.input(|it| (it.pointer.press_origin(), it.pointer.is_decidedly_dragging()));
    let Some(at) = origin.filter(|it| dragging && ui.clip_rect().contains(*it)) else { return };
    if view.dragged.is_some() {
        return;
    }
    let under = scene.spots.iter().find(|it| fit.rect(it.rect).contains(at));
    if let Some(Spot { thing: Thing::End(end), .. }) = under {
        view.selected = Some(Thing::End(*end));
        view.carried = None;
        view.dragged = Some(*end);
        view.targets = targets(session, *end);
    }
}

/// A spot's key: its address, and before it what kind of thing it is where addresses of several kinds are alike.
pub fn key(thing: Thing, address: &str) -> String {
    match thing {
        Thing::Location(_) => format!("location:{address}"),
        Thing::Switch(_) => format!("switch:{address}"),
        Thing::Lamp(_) => format!("lamp:{address}"),
        Thing::Lock(_) => format!("lock:{address}"),
        Thing::Terminal(_) | Thing::End(_) | Thing::Device(_) | Thing::Conductor(_) | Thing::Unmarked(_) => {
            address.to_owned()
        }
    }
}

/// One thing of the drawing: its outline when it is selected, has the keyboard or is under the pointer, and its click. `carries` says of
/// it what it carries, where that may be told. Whether it is pointed at, or has the keyboard.
pub fn spot(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    session: &Session,
    view: &mut View,
    (spot, rect): (&Spot, Rect),
    carries: Option<String>,
) -> bool {
    let work = session.attempt.work();
    let name = tools::name(panel.wording, work, spot.thing);
    let response = panel.spot(ui, &key(spot.thing, &spot.address), &name, rect);
    let can_be_probed = matches!(spot.thing, Thing::Terminal(_) | Thing::End(_));
    let probed = can_be_probed && view.probes.contains(&Some(probes::address(work, spot.thing)));
    panel.is_on(view.selected == Some(spot.thing) || probed);
    let painter = ui.painter();
    if view.selected == Some(spot.thing) {
        painter.rect_stroke(rect.expand(2.0), 4, Stroke::new(3.0, theme::ACCENT), StrokeKind::Outside);
    } else if response.has_focus() {
        painter.rect_stroke(rect.expand(1.0), 4, Stroke::new(2.5, theme::ACCENT), StrokeKind::Outside);
    } else if response.hovered() {
        painter.rect_stroke(rect, 4, Stroke::new(1.5, theme::ACCENT), StrokeKind::Outside);
    }
    let is_pointed_at = response.hovered() || response.has_focus();
    if response.clicked() {
        if view.touches && matches!(spot.thing, Thing::Terminal(_) | Thing::End(_)) && view.hand == Hand::Tools {
            view.selected = Some(spot.thing);
        } else if let (Sight::Circuit, Thing::Terminal(it)) = (view.at, spot.thing) {
            // Of the diagram back to the terminal itself.
            view.go(Sight::Location(session.attempt.work().exercise().terminals[it].location));
            view.selected = Some(spot.thing);
        } else if session.is_over() {
            looked_at(panel, view, spot.thing);
        } else {
            clicked(panel, session, view, spot.thing);
        }
    }
    response.on_hover_text(carries.map_or(name.clone(), |it| format!("{name}\n{it}")));
    is_pointed_at
}

/// What a click on a thing does when nothing can be done any more.
fn looked_at(panel: &mut PanelContext<'_>, view: &mut View, thing: Thing) {
    match thing {
        Thing::Location(it) if view.at != Sight::Location(it) => panel.intents.push(Intent::Go(Sight::Location(it))),
        _ => view.selected = Some(thing),
    }
}

/// What a click on a thing does.
fn clicked(panel: &mut PanelContext<'_>, session: &Session, view: &mut View, thing: Thing) {
    let work = session.attempt.work();
    match thing {
        Thing::Location(it) if view.at != Sight::Location(it) => panel.intents.push(Intent::Go(Sight::Location(it))),
        Thing::Switch(it) => {
            view.selected = Some(thing);
            panel.act(flip(work, it));
        }
        // It was touched already as the probe rested on it.
        Thing::Terminal(_) | Thing::End(_) if view.resting.is_some_and(|it| it.has_touched(thing)) => {}
        Thing::Terminal(_) | Thing::End(_) if view.hand == Hand::Indicator => touched(panel, session, view, thing),
        Thing::Terminal(_) | Thing::End(_) if view.hand == Hand::Meter => {
            view.selected = Some(thing);
            probes::place(panel, session, view, probes::address(work, thing));
        }
        // The first click says which; the second pulls at it.
        Thing::Terminal(_) | Thing::End(_) if work.exercise().is_inspected() => {
            if let (true, Thing::End(it)) = (view.selected == Some(thing), thing)
                && work.terminal_of(it).is_some()
            {
                panel.act(Action::Tug { end: work.end_address(it) });
            }
            view.selected = Some(thing);
        }
        Thing::Terminal(to) => {
            if let Some(end) = view.held(work) {
                panel.act(connect(work, end, to));
            } else if view.selected == Some(thing) && !work.is_tight(to) && work.ends_in(to).next().is_some() {
                // The first click says which; on that the screwdriver is.
                let terminal = work.exercise().terminals[to].address.clone();
                panel.act(Action::Tighten { terminal, feel: Feel::Right });
            }
            view.selected = Some(thing);
        }
        Thing::Location(at) => {
            let off = Action::RemoveCover { location: work.exercise().locations[at].id.clone() };
            view.selected = Some(thing);
            if work.has_cover(at) && work.is_covered(at) {
                click_does(panel, session, view, off);
            }
        }
        Thing::End(it) => {
            // What was taken from the tray goes on it.
            if let Some(Carried { piece: Piece::Mark(mark), .. }) = view.carried.take() {
                panel.intents.push(Intent::Act(tray::marks(work, it, mark)));
            }
            view.selected = Some(thing);
        }
        Thing::Device(_) | Thing::Lock(_) if tray::carried::is_lock(view) => {
            view.selected = Some(thing);
            tray::carried::hang(panel, session, view);
        }
        Thing::Lamp(_) | Thing::Device(_) | Thing::Lock(_) | Thing::Conductor(_) | Thing::Unmarked(_) => {
            view.selected = Some(thing);
            if let Some(action) = by_hand(session, thing) {
                click_does(panel, session, view, action);
            }
        }
    }
}

/// What a hand does to a lever, a lock or a lamp by itself. After a device opened by itself, no lever goes back on before something
/// was proved dead.
fn by_hand(session: &Session, thing: Thing) -> Option<Action> {
    let (work, exercise) = (session.attempt.work(), session.attempt.work().exercise());
    let tested = session.attempt.safety().is_tested_since_trip();
    match thing {
        Thing::Lamp(it) => {
            let lamp = exercise.lamps[it].address.clone();
            Some(if work.is_lamp_in(it) { Action::RemoveLamp { lamp } } else { Action::FitLamp { lamp } })
        }
        Thing::Device(it) => {
            let device = exercise.devices[it].address.clone();
            match work.device_state(it).power {
                Power::On => Some(Action::PowerOff { device }),
                Power::Off => tested.then_some(Action::PowerOn { device }),
                Power::Tripped => tested.then_some(Action::Reset { device }),
            }
        }
        Thing::Lock(it) => {
            let device = exercise.devices[it].address.clone();
            Some(if work.device_state(it).locked { Action::Unlock { device } } else { Action::LockOff { device } })
        }
        Thing::Location(_)
        | Thing::Switch(_)
        | Thing::Terminal(_)
        | Thing::End(_)
        | Thing::Conductor(_)
        | Thing::Unmarked(_) => None,
    }
}

/// Sends an action on its way that a click asks for, if it is possible and would not be stopped. Else it is only said why, so that
/// nobody is referred for pointing.
pub fn click_does(panel: &mut PanelContext<'_>, session: &Session, view: &mut View, action: Action) {
    match session.attempt.clone().act(action.clone()) {
        Ok(it) if it.stopped().is_none() => panel.act(action),
        Ok(_) => view.say(Tone::No, panel.say("window-not-by-click", &[])),
        Err(why) => view.say(Tone::No, refused(panel.wording, session.attempt.work(), &why)),
    }
}

/// The indicator on a thing: with a probe parked elsewhere it is touched there and then, and the parked one comes off where it is
/// clicked; without, a second click parks a probe on what the first has put one on.
pub fn touched(panel: &mut PanelContext<'_>, session: &Session, view: &mut View, thing: Thing) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    let address = probes::address(work, thing);
    let again = view.selected == Some(thing) && view.probes.contains(&Some(address.clone()));
    view.selected = Some(thing);
    match safety.parked().map(|it| work.point_address(it)) {
        Some(parked) if parked == address => panel.act(Action::Unpark),
        Some(parked) => {
            view.probes = [Some(address.clone()), Some(parked.clone())];
            panel.act(Action::TestDead { a: address, b: parked, with: view.detector });
        }
        None if again && safety.reference().is_some() => panel.act(Action::Park { at: address }),
        None => probes::place(panel, session, view, address),
    }
}

/// The next position of a switch.
pub fn flip(work: &Work, switch: SwitchId) -> Action {
    let exercise = work.exercise();
    let it = &exercise.switches[switch];
    let position = (usize::from(work.positions()[switch.index()]) + 1) % it.way.positions();
    Action::Operate { switch: it.address.clone(), position: position as u8 }
}

fn connect(work: &Work, end: EndId, to: TerminalId) -> Action {
    let terminal = work.exercise().terminals[to].address.clone();
    Action::Connect { end: work.end_address(end), terminal }
}

/// The actions that bring an end to a terminal: it comes out of where it is first.
fn brings(work: &Work, end: EndId, to: TerminalId) -> Vec<Action> {
    match work.terminal_of(end) {
        Some(at) if at == to => Vec::new(),
        Some(_) => vec![Action::Disconnect { end: work.end_address(end) }, connect(work, end, to)],
        None => vec![connect(work, end, to)],
    }
}

/// The terminals of its place that would take an end now: not full, and within what a hand may do.
fn targets(session: &Session, end: EndId) -> Vec<TerminalId> {
    let work = session.attempt.work();
    let takes = |to: &TerminalId| {
        let mut trial = session.attempt.clone();
        let actions = brings(work, end, *to);
        !actions.is_empty() && actions.into_iter().all(|it| trial.act(it).is_ok_and(|it| it.stopped().is_none()))
    };
    work.exercise().terminals_at(work.end_location(end)).filter(takes).collect()
}

/// An end on its way, and where it was let go.
pub fn drag(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, scene: &Scene, fit: &Fit) {
    let Some(end) = view.dragged else { return };
    let work = session.attempt.work();
    let from = scene.spot(Thing::End(end)).map(|it| fit.rect(it.rect).center());
    if let (Some(from), Some(to)) = (from, ui.input(|it| it.pointer.latest_pos())) {
        // What would take it is lit; what is full or out of bounds is not.
        for it in &view.targets {
            let Some(rect) = scene.spot(Thing::Terminal(*it)).map(|it| fit.rect(it.rect)) else { continue };
            let is_under = rect.contains(to);
            let width = if is_under { 4.0 } else { 2.0 };
            ui.painter().rect_filled(
                rect.expand(4.0),
                7,
                theme::ACCENT.worn().gamma_multiply(if is_under { 0.3 } else { 0.14 }),
            );
            ui.painter().rect_stroke(rect.expand(4.0), 7, Stroke::new(width, theme::ACCENT), StrokeKind::Outside);
        }
        let colour = theme::of(Paint::Conductor(work.end_facts(end).colour));
        ui.painter().line_segment([from, to], Stroke::new(8.0, theme::PAPER));
        ui.painter().line_segment([from, to], Stroke::new(5.0, colour));
        ui.painter().circle_filled(to, 5.0, theme::ACCENT);
    }
    if ui.input(|it| it.pointer.primary_down()) {
        return;
    }
    view.dragged = None;
    let Some(at) = ui.input(|it| it.pointer.latest_pos()) else { return };
    let under = scene.spots.iter().find(|it| fit.rect(it.rect).contains(at)).map(|it| it.thing);
    if let Some(Thing::Terminal(to)) = under {
        // Its screw comes next.
        view.selected = under;
        panel.intents.push(Intent::Act(brings(work, end, to)));
    }
}

/// An arrow at what Next speaks of.
pub fn pointed(ui: &Ui, rect: Rect) {
    // From the left: above a thing stand its words.
    let tip = pos2(rect.left() - 3.0, rect.center().y);
    let arrow = [tip, tip + vec2(-17.0, 11.0), tip + vec2(-17.0, -11.0)];
    ui.painter().add(Shape::convex_polygon(arrow.to_vec(), theme::ACCENT, Stroke::new(2.0, theme::PAPER)));
}

/// The two probes where they are, and beside the first that can be seen what the instrument shows.
pub fn probes_on(ui: &Ui, panel: &PanelContext<'_>, session: &Session, view: &View, scene: &Scene, fit: &Fit) {
    if view.hand == Hand::Tools {
        return;
    }
    let work = session.attempt.work();
    let mut reading = tray::display::now(session, view).and_then(|it| it.text(panel.wording));
    for (index, address) in view.probes.iter().enumerate() {
        let Some(address) = address else { continue };
        let found = scene.spots.iter().find(|it| {
            matches!(it.thing, Thing::Terminal(_) | Thing::End(_)) && probes::address(work, it.thing) == *address
        });
        let Some(spot) = found else { continue };
        let rect = fit.rect(spot.rect);
        let colour = if index == 0 { theme::PROBE_ONE } else { theme::PROBE_TWO };
        let tip = rect.center() + vec2(if index == 0 { -3.0 } else { 3.0 }, 0.0);
        let back = tip + vec2(if index == 0 { -26.0 } else { 26.0 }, -44.0);
        ui.painter().line_segment([tip, back], Stroke::new(9.0, theme::PAPER));
        ui.painter().line_segment([tip, back], Stroke::new(6.0, colour));
        ui.painter().circle(back, 11.0, colour, Stroke::new(1.5, theme::PAPER));
        ui.painter().text(
            pos2(back.x, back.y),
            Align2::CENTER_CENTER,
            if index == 0 { "1" } else { "2" },
            FontId::new(15.0, theme::family(FontWeight::Bold)),
            theme::PAPER.worn(),
        );
        if let Some(text) = reading.take() {
            read_beside(ui, &text, back, index);
        }
    }
}

/// What was read, on a plate away from the tip of a probe.
fn read_beside(ui: &Ui, text: &str, back: Pos2, index: usize) {
    let painter = ui.painter();
    let font = FontId::new(14.5 * theme::scale_of(ui), theme::family(FontWeight::Bold));
    let galley = painter.layout(text.to_owned(), font, theme::INK.worn(), 220.0);
    let size = galley.size() + vec2(14.0, 8.0);
    let left = if index == 0 { back.x - 14.0 - size.x } else { back.x + 14.0 };
    let room = ui.clip_rect().shrink(4.0);
    let at = pos2(
        left.clamp(room.left(), (room.right() - size.x).max(room.left())),
        (back.y - size.y / 2.0).clamp(room.top(), (room.bottom() - size.y).max(room.top())),
    );
    let plate = Rect::from_min_size(at, size);
    painter.rect(plate, 6, theme::DISPLAY, Stroke::new(1.5, theme::EDGE), StrokeKind::Inside);
    painter.galley(plate.min + vec2(7.0, 4.0), galley, theme::INK.worn());
}

/// A place in words, or nothing where there is no place.
pub fn words(panel: &PanelContext<'_>, work: &Work, address: Option<&String>) -> String {
    address.map_or_else(|| panel.say("window-nowhere", &[]), |it| place(panel.wording, work, it))
}
