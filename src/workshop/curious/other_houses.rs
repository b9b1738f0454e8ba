//! "What if": the list of other houses, what can be done in each, a hand where it may be live, and the numbers along the loop.

use std::collections::BTreeMap;

use bevy_egui::egui::{Align2, Button, FontId, Painter, Pos2, Rect, RichText, Stroke, StrokeKind, Ui, vec2};
use switchdrop::{
    circuit::{Flow, LoopLeg},
    picture::{FontWeight, Scene, Thing},
    reason::{PassageHand, WhatIf},
    trade::colour::Colour,
    wording::loop_leg,
    work::{Subject, Work},
};

use super::{
    CuriousAct, DrawnHouse,
    beat::hand,
    houses::House,
    lanes::Lanes,
    wires::{Drawing, way},
};
use crate::workshop::{
    arrows,
    drawing::Fit,
    panel::{Intent, PanelContext},
    theme,
};

/// Each house of the list, by which keys know it, and what stands on it.
const LIST: [(WhatIf, &str, &str); 6] = [
    (WhatIf::BareEarth, "what-if:bare-earth", "curious-bare-earth"),
    (WhatIf::Exchanged, "what-if:exchanged", "curious-exchanged"),
    (WhatIf::BothPoles, "what-if:both-poles", "curious-both-poles"),
    (WhatIf::OppositeEnds, "what-if:opposite", "curious-opposite"),
    (WhatIf::ThirdSwitch, "what-if:third", "curious-third"),
    (WhatIf::WhereItGoes, "what-if:where", "curious-where"),
];

/// The list, and beneath it what can be done in the house that was chosen.
pub fn beside(ui: &mut Ui, panel: &mut PanelContext<'_>, house: &House, drawn: Option<&DrawnHouse>) {
    let act = |panel: &mut PanelContext<'_>, ui: &mut Ui, key: &str, text: &str, act: CuriousAct| {
        let text = panel.say(text, &[]);
        if panel.button(ui, key, &text) {
            panel.intents.push(Intent::Curious(act));
        }
    };
    match house.variant {
        Some(WhatIf::BareEarth) => {
            let text = if house.has_hand { "curious-hand-away" } else { "curious-hand-bare" };
            act(panel, ui, "curious:hand", text, CuriousAct::Hand);
        }
        Some(WhatIf::Exchanged | WhatIf::BothPoles) => {
            let text = if house.has_hand { "curious-hand-away" } else { "curious-hand-holder" };
            act(panel, ui, "curious:hand", text, CuriousAct::Hand);
        }
        Some(WhatIf::OppositeEnds) => {
            let neighbour = CuriousAct::WhatIf(WhatIf::NeighboursNeutral);
            act(panel, ui, "curious:neighbour", "curious-neighbour", neighbour);
        }
        Some(WhatIf::NeighboursNeutral) => {
            let own = CuriousAct::WhatIf(WhatIf::OppositeEnds);
            act(panel, ui, "curious:own", "curious-own", own);
        }
        Some(WhatIf::WhereItGoes) => {
            for (number, it) in
                drawn.map(|it| legs(house.passage.work(), &it.flow)).unwrap_or_default().iter().enumerate()
            {
                let told = called(panel, house.passage.work(), it);
                theme::fact(ui, 26.0, theme::bold((number + 1).to_string()).small(), &told);
            }
        }
        Some(WhatIf::ThirdSwitch) | None => {}
    }
    ui.add_space(6.0);
    panel.heading(ui, "curious-what-if-list");
    for (it, key, text) in LIST {
        let text = panel.say(text, &[]);
        let chosen = house.variant == Some(it)
            || (it == WhatIf::OppositeEnds && house.variant == Some(WhatIf::NeighboursNeutral));
        let button = Button::new(RichText::new(&text)).selected(chosen).wrap();
        let response = ui.add(button.min_size(vec2(ui.available_width(), 28.0)));
        panel.touchable(ui, &response, key, &text);
        panel.is_on(chosen);
        if response.clicked() {
            panel.intents.push(Intent::Curious(CuriousAct::WhatIf(it)));
        }
    }
}

/// The legs of the lamp's loop, one number each; that it comes back to the trip switch is the last.
fn legs(work: &Work, flow: &Flow) -> Vec<LoopLeg> {
    flow.loops.first().map(|it| it.legs(work)).unwrap_or_default()
}

fn called(panel: &PanelContext<'_>, work: &Work, leg: &LoopLeg) -> String {
    match leg {
        LoopLeg::Device(_) => panel.say("curious-word-trip", &[]),
        LoopLeg::Load(_) => panel.say("curious-lamp", &[]),
        other => loop_leg(panel.wording, work, other),
    }
}

/// Over what stands behind the switches: a hand on the bare wire, the numbers along the loop.
pub fn marks(drawing: &Drawing<'_>, house: &House, lanes: &Lanes) {
    let bare = lanes.wires.iter().find(|it| it.colour == Colour::Bare);
    if let (Some(it), true, Some(PassageHand::BareWire)) = (bare, house.has_hand, house.variant.and_then(WhatIf::hand))
    {
        let [.., a, b] = way(it)[..] else { return };
        let far = it.ends.last().map_or(a, |it| it.handle);
        let at = far + (if far == a { b - a } else { a - b }).normalized() * 34.0;
        let ink = if house.met().is_some() { theme::WARNING } else { theme::INK };
        hand(&drawing.painter, at + vec2(0.0, 26.0), 30.0, ink.worn());
    }
    if house.variant != Some(WhatIf::WhereItGoes) {
        return;
    }
    for (number, leg) in legs(drawing.work, drawing.flow).iter().enumerate() {
        let at = match leg {
            LoopLeg::Wires { conductors, .. } => {
                lanes.wires.iter().find(|it| conductors.contains(&it.conductor)).map(|it| {
                    let middle = it.ends.iter().fold(vec2(0.0, 0.0), |so_far, it| so_far + it.handle.to_vec2());
                    let middle = (middle / it.ends.len() as f32).to_pos2();
                    // Clear of the word in its middle.
                    if it.ends.len() > 1 { middle - vec2(70.0, 0.0) } else { middle }
                })
            }
            LoopLeg::Switch { switch, .. } => lanes
                .plates
                .iter()
                .find(|it| it.switch == *switch)
                .map(|it| it.rect.center() - vec2(it.inwards * it.rect.width() * 0.36, it.rect.height() * 0.36)),
            LoopLeg::Device(_) | LoopLeg::Load(_) => None,
        };
        if let Some(at) = at {
            disc(&drawing.painter, at, number + 1, drawing.text);
        }
    }
}

/// A number in a disc.
fn disc(painter: &Painter, at: Pos2, number: usize, text: f32) {
    painter.circle(at, text * 0.78, theme::PAPER, Stroke::new(2.0, theme::ACCENT));
    let font = FontId::new(text * 0.95, theme::family(FontWeight::Bold));
    painter.text(at, Align2::CENTER_CENTER, number.to_string(), font, theme::ACCENT.worn());
}

/// How far along its wire a leg has its number, one after the other: several run along one cable.
const SHARES: [f32; 4] = [0.55, 0.42, 0.75, 0.7];

/// The cores of the house that carry a current, along which way each.
fn carrying(work: &Work, flow: &Flow, (scene, fit): (&Scene, &Fit)) -> BTreeMap<usize, Vec<Pos2>> {
    let all = (0..work.conductor_count()).filter(|it| flow.amps(*it) != 0.0);
    all.map(|it| (it, crate::workshop::foreseen::along(scene, fit, Thing::Conductor(it)))).collect()
}

/// In the house, beneath its names: arrows along the cores that carry a current, an edge around what has opened. Whether one of those cores is
/// pointed at.
pub fn under_names(
    painter: &Painter,
    (scene, fit): (&Scene, &Fit),
    (house, drawn): (&House, &DrawnHouse),
    (walked, letters): (f32, &[Rect]),
) -> bool {
    let ways = carrying(house.passage.work(), &drawn.flow, (scene, fit));
    for (it, way) in &ways {
        let way: Vec<Pos2> = if drawn.flow.amps(*it) > 0.0 { way.clone() } else { way.iter().rev().copied().collect() };
        arrows::arrows(painter, &way, (7.0 * fit.scale).max(4.5), walked, letters);
    }
    // Its lever says that it has opened; the edge leads the eye to it.
    let opened = drawn.flow.opened().iter().filter_map(|it| scene.spot(Thing::Device(it.device)));
    for it in opened {
        painter.rect_stroke(fit.rect(it.rect).expand(2.0), 5, Stroke::new(3.0, theme::WARNING), StrokeKind::Outside);
    }
    arrows::is_pointed_at(painter, &ways.into_values().collect::<Vec<_>>())
}

/// Over the house: the numbers of the loop, a hand at the lampholder.
pub fn on_house(painter: &Painter, (scene, fit): (&Scene, &Fit), house: &House, flow: &Flow) {
    let work = house.passage.work();
    let spot = |thing| scene.spot(thing).map(|it| fit.rect(it.rect));
    if let (true, Some(PassageHand::Lampholder)) = (house.has_hand, house.variant.and_then(WhatIf::hand)) {
        let ink = if house.met().is_some() { theme::WARNING } else { theme::INK };
        for it in work.exercise().lamps.ids().filter_map(|it| spot(Thing::Lamp(it))) {
            hand(painter, it.right_center() + vec2(14.0, 16.0), 30.0, ink.worn());
        }
    }
    if house.variant != Some(WhatIf::WhereItGoes) {
        return;
    }
    let text = fit.least_text * 1.1;
    let ways = carrying(work, flow, (scene, fit));
    let legs = legs(work, flow);
    for (number, leg) in legs.iter().enumerate() {
        let at = match leg {
            LoopLeg::Wires { conductors, .. } => {
                let length = |it: &&Vec<Pos2>| it.windows(2).map(|it| it[0].distance(it[1])).sum::<f32>();
                let longest =
                    conductors.iter().filter_map(|it| ways.get(it)).max_by(|a, b| length(a).total_cmp(&length(b)));
                longest.map(|it| arrows::part_way(it, SHARES[number % SHARES.len()]))
            }
            LoopLeg::Switch { switch, .. } => spot(Thing::Switch(*switch)).map(|it| it.left_center()),
            LoopLeg::Device(it) if number == 0 => spot(Thing::Device(*it)).map(|it| it.left_top()),
            LoopLeg::Device(it) => spot(Thing::Device(*it)).map(|it| it.right_top()),
            LoopLeg::Load(Subject::Lamp(it)) => spot(Thing::Lamp(*it)).map(|it| it.right_center()),
            LoopLeg::Load(_) => None,
        };
        if let Some(at) = at {
            disc(painter, at, number + 1, text);
        }
    }
}
