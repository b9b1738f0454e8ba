//! What is still to do, beside the drawing: the first line as a button that leads there or does it, the others beneath.

use bevy_egui::egui::{RichText, Ui, vec2};
use switchdrop::{
    picture::Thing,
    wording::{headline, next_join},
    work::{Action, Detector},
};

use super::{
    bars::read_only_key,
    bench::Shown,
    guide::may_guide,
    panel::{Intent, PanelContext},
    session::Session,
    theme,
    todo::{Leads, Line, Step, points_at},
    touch,
    view::{Guide, Hand, Sight, Tone, View},
};

/// Draws the first line that is not done; when nothing can be done any more, why.
pub fn next(ui: &mut Ui, panel: &mut PanelContext<'_>, shown: &Shown<'_>, view: &mut View, lines: &[Line]) {
    let session = shown.session;
    if let Some(sheet) = shown.sheet {
        panel.heading(ui, "window-handed-in");
        ui.label(headline(panel.wording, session.attempt.work(), sheet));
        theme::quiet(ui, &panel.say("window-handed-in-means", &[]));
        return;
    }
    if let Some(why) = session.read_only() {
        ui.label(theme::bold(panel.say(read_only_key(why), &[])).color(theme::WARNING));
        return;
    }
    let Some(line) = lines.iter().find(|it| !it.done) else { return };
    // What was done needed no looking at: on to where the next step is done.
    let is_next = view.did_next.take().is_some_and(|it| it != line.key);
    if is_next && matches!(line.leads, Leads::To(_) | Leads::With(..)) {
        leads_there(panel, view, &line.leads);
    }
    panel.heading(ui, "window-next");
    match &line.leads {
        Leads::Nowhere => {
            ui.label(theme::bold(&line.text).color(theme::ACCENT));
        }
        leads => {
            if panel.main_button(ui, &line.key, &line.text) {
                // Enter goes on from a click.
                panel.keeps_keyboard(ui);
                view.did_next = matches!(leads, Leads::Does(_)).then(|| line.key.clone());
                if !is_there(panel, shown, view, lines, leads) {
                    leads_there(panel, view, leads);
                }
            }
        }
    }
    if line.step == Step::Wire && may_guide(session) {
        if let Some(it) = shown.guide {
            theme::quiet(ui, &next_join(panel.wording, session.attempt.work(), it)[1]);
        }
        let text = panel.say("window-guide", &[]);
        let mut is_on = view.guide == Guide::On;
        panel.check(ui, &mut is_on, "guide", &text);
        view.guide = if is_on { Guide::On } else { Guide::Off };
    }
}

/// Draws the other lines, what is done last.
pub fn rest(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, lines: &[Line]) {
    ui.spacing_mut().item_spacing.y = 1.0;
    ui.spacing_mut().button_padding = vec2(2.0, 1.0);
    ui.spacing_mut().interact_size.y = 24.0;
    if lines.iter().filter(|it| !it.done).count() > 1 {
        ui.separator();
        panel.heading(ui, "window-to-do");
    }
    for line in lines.iter().filter(|it| !it.done).skip(1) {
        let waits = match line.leads {
            Leads::Nowhere => true,
            // Nobody brings the supply before its time by a slip of the finger.
            Leads::DoesAt(_, ref action) => *action == Action::BringSupply,
            _ => false,
        };
        if waits || session.is_over() {
            ui.label(format!("○ {}", line.text));
        } else if panel.line(ui, &line.key, "○", &line.text) {
            follow(panel, &line.leads);
        }
    }
    if lines.iter().any(|it| it.done) {
        panel.heading(ui, "window-done");
    }
    for line in lines.iter().filter(|it| it.done) {
        ui.label(RichText::new(format!("✔ {}", line.text)).color(theme::GOOD));
    }
}

/// Where a line leads to where the learner is already: what is to be worked at is selected there, what is in the way is taken off, the
/// instrument is taken in hand; else it is said that it is done here. Never nothing.
fn is_there(panel: &mut PanelContext<'_>, shown: &Shown<'_>, view: &mut View, lines: &[Line], leads: &Leads) -> bool {
    let session = shown.session;
    let (sight, hand) = match *leads {
        Leads::To(sight) => (sight, None),
        Leads::With(hand, at) => (Sight::Location(at), Some(hand)),
        _ => return false,
    };
    if sight != view.at {
        return false;
    }
    let work = session.attempt.work();
    let points = points_at(lines, work, view.at, shown.guide).filter(|it| !matches!(it, Thing::Location(_)));
    match (sight, hand, points) {
        (_, _, Some(thing)) if view.selected != Some(thing) || view.hand != Hand::Tools => {
            view.take(Hand::Tools, view.detector);
            panel.intents.push(Intent::Show(sight, Some(thing)));
        }
        (Sight::Location(at), Some(_), _) if work.has_cover(at) && work.is_covered(at) => {
            let location = work.exercise().locations[at].id.clone();
            touch::click_does(panel, session, view, Action::RemoveCover { location });
        }
        (_, Some(hand), _) if view.hand != hand => view.take(hand, Detector::Indicator),
        // A setting that is still to be answered.
        (Sight::Prediction, ..) => view.setting = None,
        _ => view.say(Tone::Plain, panel.say("window-next-here", &[])),
    }
    true
}

/// Follows a line, with the instrument for it in hand.
fn leads_there(panel: &mut PanelContext<'_>, view: &mut View, leads: &Leads) {
    if let Leads::With(hand, _) = *leads {
        view.take(hand, Detector::Indicator);
    }
    follow(panel, leads);
}

fn follow(panel: &mut PanelContext<'_>, leads: &Leads) {
    match leads {
        Leads::Nowhere => {}
        Leads::To(sight) => panel.intents.push(Intent::Go(*sight)),
        Leads::With(_, at) => panel.intents.push(Intent::Go(Sight::Location(*at))),
        Leads::Does(action) => panel.act(action.clone()),
        Leads::DoesAt(sight, action) => {
            panel.intents.push(Intent::Go(*sight));
            panel.act(action.clone());
        }
        Leads::HandsIn { asks: true } => panel.intents.push(Intent::AskHandIn(true)),
        Leads::HandsIn { asks: false } => panel.act(Action::HandIn),
    }
}

/// Asks whether to hand in what is unfinished: it is for good.
pub fn ask(ui: &mut Ui, panel: &mut PanelContext<'_>, lines: &[Line]) {
    // The hand-in is one of the lines, but not work left undone.
    let count = lines.iter().filter(|it| !it.done && it.step != Step::HandIn).count().to_string();
    theme::warned(ui, |ui| {
        panel.region(ui, "window-hand-in-ask-heading");
        ui.label(theme::bold(format!("⚠  {}", panel.say("window-hand-in-ask-heading", &[]))).color(theme::WARNING));
        ui.label(panel.say("window-hand-in-ask", &[("count", &count)]));
        ui.horizontal_wrapped(|ui| {
            let text = panel.say("window-hand-in-no", &[]);
            if panel.button(ui, "hand-in:no", &text) {
                panel.intents.push(Intent::AskHandIn(false));
            }
            let text = panel.say("window-hand-in-yes", &[]);
            if panel.button(ui, "hand-in:yes", &text) {
                panel.act(Action::HandIn);
            }
        });
    });
}
