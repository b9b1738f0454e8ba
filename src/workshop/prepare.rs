//! Making ends ready by hand: sheath, length, strip and fold; the screw's feel, the pull; grommet and dressing of a box.
//!
//! It offers the tools with what they are set to. Whether a length is right is found out where the end goes in.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{EndId, LocationId, LocationKind, Preparation, TerminalId},
    trade::workmanship::Clamp,
    wording::cable_at,
    work::{Action, Feel, Work},
};

use super::{panel::PanelContext, theme, view::View};

/// The jaws of the strippers, in hundredths of a square millimetre: the sizes of the trade's cables.
const JAWS: [u16; 6] = [75, 100, 150, 250, 400, 600];

/// Whether the ends of the exercise are made ready by the learner.
pub fn by_hand(work: &Work) -> bool {
    work.exercise().preparation == Preparation::ByHand
}

/// What can be done at an open place as a whole.
pub fn of_location(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &mut View, at: LocationId) {
    let exercise = work.exercise();
    let id = exercise.locations[at].id.as_str();
    let mut cables: Vec<usize> = (0..exercise.cables.len()).filter(|it| work.sheath_off(*it, at).is_some()).collect();
    // No order tells which is which of what has no mark.
    cables.sort_by_key(|it| exercise.unmarked_cable(*it, at));
    if cables.is_empty() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        let name = panel.say("window-sheath", &[]);
        ui.label(&name);
        panel.figure(ui, &mut view.lengths.sheath, "mm:sheath", &name);
        let mm = view.lengths.sheath.trim().parse().ok();
        for it in &cables {
            let cable = &exercise.cables[*it];
            let off = work.sheath_off(*it, at).unwrap_or(0).to_string();
            let text =
                panel.say("window-sheath-of", &[("cable", &cable_at(panel.wording, work, *it, at)), ("mm", &off)]);
            if panel.button_if(ui, mm.is_some(), &format!("sheath:{}", cable.id), &text)
                && let Some(mm) = mm
            {
                panel.act(Action::Sheath { cable: cable.id.clone(), location: id.to_owned(), mm });
            }
        }
    });
    for it in cables.iter().filter(|it| !work.is_sheath_inside(**it, at)) {
        theme::quiet(ui, &panel.say("window-sheath-outside", &[("cable", &cable_at(panel.wording, work, *it, at))]));
    }
    if !matches!(exercise.locations[at].kind, LocationKind::Box(_)) {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        if work.wants_grommet(at) {
            let text = panel.say("window-grommet", &[]);
            if panel.button_if(ui, !work.has_grommet(at), "grommet", &text) {
                panel.act(Action::Grommet { location: id.to_owned() });
            }
        }
        let text = panel.say("window-dress", &[]);
        if panel.button_if(ui, !work.is_dressed(at), "dress", &text) {
            panel.act(Action::Dress { location: id.to_owned() });
        }
    });
    let mut said = Vec::new();
    if work.has_grommet(at) {
        said.push(panel.say("window-has-grommet", &[]));
    }
    if work.is_dressed(at) {
        said.push(panel.say("window-is-dressed", &[]));
    } else if work.is_crowded(at) {
        said.push(panel.say("window-is-crowded", &[]));
    }
    if !said.is_empty() {
        theme::quiet(ui, &said.join(" "));
    }
}

/// How an end was made ready, in words.
pub fn end_facts(ui: &mut Ui, panel: &PanelContext<'_>, work: &Work, of: EndId) {
    let Some(prep) = work.prep_of(of) else { return };
    if prep.core_mm == 0 {
        ui.label(panel.say("window-in-sheath", &[]));
        return;
    }
    let (core, strip) = (prep.core_mm.to_string(), prep.strip_mm.to_string());
    let mut said = vec![panel.say("window-prepared", &[("core", &core), ("strip", &strip)])];
    if prep.folded {
        said.push(panel.say("window-folded", &[]));
    }
    // Where it is looked over, it is told as the eye has it: to call it by its name is the work.
    let by_eye = work.exercise().is_inspected();
    let damage = [
        (prep.nicked, "window-nicked", "window-seen-nicked"),
        (prep.crushed, "window-crushed", "window-seen-crushed"),
        (prep.trapped, "window-trapped", "window-seen-trapped"),
    ];
    said.extend(damage.iter().filter(|it| it.0).map(|it| panel.say(if by_eye { it.2 } else { it.1 }, &[])));
    let outside = work.fit_of(of).map_or(0.0, |it| it.outside_mm);
    if outside > 0.0 && !by_eye {
        said.push(panel.say("window-outside", &[("mm", &format!("{outside:.0}"))]));
    }
    ui.label(said.join(" "));
}

/// What can be done to an end.
pub fn of_end(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &mut View, of: EndId) {
    if by_hand(work) && work.terminal_of(of).is_some() {
        let text = panel.say("window-tug", &[]);
        if panel.button(ui, "tug", &text) {
            panel.act(Action::Tug { end: work.end_address(of) });
        }
    }
    let Some(prep) = work.prep_of(of).filter(|it| it.core_mm > 0 && work.terminal_of(of).is_none()) else { return };
    let end = || work.end_address(of);
    ui.horizontal_wrapped(|ui| {
        let name = panel.say("window-cut-to", &[]);
        ui.label(&name);
        panel.figure(ui, &mut view.lengths.cut, "mm:cut", &name);
        let mm = view.lengths.cut.trim().parse().ok();
        let text = panel.say("window-cut", &[]);
        if panel.button_if(ui, mm.is_some(), "cut", &text)
            && let Some(mm) = mm
        {
            panel.act(Action::Cut { end: end(), mm });
        }
    });
    ui.horizontal_wrapped(|ui| {
        let name = panel.say("window-strip-to", &[]);
        ui.label(&name);
        panel.figure(ui, &mut view.lengths.strip, "mm:strip", &name);
        let mm = view.lengths.strip.trim().parse().ok();
        let text = panel.say("window-strip", &[]);
        if panel.button_if(ui, mm.is_some(), "strip", &text)
            && let Some(mm) = mm
        {
            panel.act(Action::Strip { end: end(), mm, jaw: view.lengths.jaw });
        }
        let (key, text, action) = if prep.folded {
            ("unfold", panel.say("window-unfold", &[]), Action::Unfold { end: end() })
        } else {
            ("fold", panel.say("window-fold", &[]), Action::Fold { end: end() })
        };
        if panel.button(ui, key, &text) {
            panel.act(action);
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        ui.spacing_mut().button_padding.x = 6.0;
        ui.label(panel.say("window-jaw", &[]));
        for it in JAWS {
            let text = (f64::from(it) / 100.0).to_string();
            if panel.choice(ui, view.lengths.jaw == it, &format!("jaw:{it}"), &text) {
                view.lengths.jaw = it;
            }
        }
    });
}

/// What a terminal's own data ask of an end that goes in.
pub fn terminal_facts(ui: &mut Ui, panel: &PanelContext<'_>, work: &Work, of: TerminalId) {
    if work.exercise().preparation == Preparation::Prepared {
        return;
    }
    let hold = work.exercise().terminals[of].capacity.hold;
    let (depth, reach) = (format!("{:.0}", hold.depth_mm), work.reach_mm(of).to_string());
    let mut said = vec![panel.say("window-hold", &[("depth", &depth), ("reach", &reach)])];
    if hold.clamp == Clamp::Pillar && hold.fold_mm2 > 0.0 {
        said.push(panel.say("window-hold-fold", &[("mm2", &hold.fold_mm2.to_string())]));
    }
    theme::quiet(ui, &said.join(" "));
}

/// The ways to drive a screw other than rightly.
pub fn feels(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, of: TerminalId) {
    if !by_hand(work) {
        return;
    }
    let feels = [
        (Feel::Slack, "tighten:slack", panel.say("window-tighten-slack", &[])),
        (Feel::Crushed, "tighten:crushed", panel.say("window-tighten-crushed", &[])),
    ];
    for (feel, key, text) in feels {
        if panel.button_if(ui, !work.is_tight(of), key, &text) {
            let terminal = work.exercise().terminals[of].address.clone();
            panel.act(Action::Tighten { terminal, feel });
        }
    }
}
