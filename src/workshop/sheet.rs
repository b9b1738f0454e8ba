//! The mark sheet: the outcome, the criteria, each finding with its moment, its way to its place and what it would have
//! led to, and what was done well.

use bevy_egui::egui::{Align, CentralPanel, Frame, Grid, Key, Margin, Panel, RichText, ScrollArea, Stroke, Ui, vec2};
use switchdrop::{
    attempt::Attempt,
    marking::{Answers, Finding, Outcome, Root, Sheet, Weight},
    picture::Thing,
    report::{Story, criterion_line, of_format, praise, receipt_code, searched},
    wording::{FindingWords, OutcomeWords, Wording, finding, follows, references_key, remarks, title, verdict},
    work::{Subject, Work},
};

use super::{
    bars, handed_in,
    marked::Marked,
    panel::{Intent, Pane, PanelContext, group},
    session::Session,
    start::harmless,
    theme,
    view::Sight,
};

/// How wide the names of a finding's facts are at the normal text size, points.
const NAMES: f32 = 178.0;

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, marked: &Marked) {
    let frame = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(24, 8));
    Panel::top("after").frame(frame).show(ui, |ui| {
        panel.begin(ui, Pane::Places, "window-pane-after");
        ui.horizontal_wrapped(|ui| {
            // After a pass the next exercise is what comes next, else another try at this one.
            let passed = marked.sheet.outcome == Outcome::Pass;
            let main = |panel: &mut PanelContext<'_>, ui: &mut Ui, is_main: bool, key: &str, text: &str| {
                if is_main { panel.main_button(ui, key, text) } else { panel.button(ui, key, text) }
            };
            if session.shelved.is_some() {
                let text = panel.say("window-again", &[]);
                if main(panel, ui, !passed, "again", &text) {
                    panel.intents.push(Intent::Again);
                }
            }
            let text = panel.say("window-look", &[]);
            if panel.button(ui, "look", &text) {
                panel.intents.push(Intent::Go(Sight::Place));
            }
            let text = panel.say("window-next-finding", &[]);
            if !marked.sheet.findings.is_empty()
                && (panel.button(ui, "next-finding", &text) || ui.input(|it| it.key_pressed(Key::F)))
            {
                panel.intents.push(Intent::NextFinding);
            }
            let text = panel.say(if session.is_reviewed { "class-back" } else { "window-leave" }, &[]);
            if main(panel, ui, passed, "leave", &text) {
                panel.intents.push(Intent::Leave);
            }
        });
    });
    bars::page_foot(ui, panel);
    let frame = Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::symmetric(24, 20));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        panel.begin(ui, Pane::Middle, "window-to-sheet");
        // Who was shown a finding in its place comes back to that finding.
        ScrollArea::vertical().id_salt(&session.path).auto_shrink(false).show(ui, |ui| {
            theme::page(ui, 1000.0, |ui| {
                handed_in::unsettled(ui, panel, session);
                handed_in::receipt(ui, panel, session);
                if matches!(session.answers(), Answers::ShownEarly(_)) {
                    ui.label(
                        RichText::new(format!("⚠  {}", panel.say("class-shown-early", &[]))).color(theme::WARNING),
                    );
                }
                heading(ui, panel, session, &marked.sheet);
                criteria(ui, panel, &marked.sheet);
                findings(ui, panel, session, marked);
                searched_for(ui, panel, &session.attempt, marked);
                well(ui, panel, &session.attempt, &marked.sheet);
                ui.add_space(12.0);
                theme::quiet(ui, &panel.say(references_key(marked.sheet.edition), &[]));
                if let Some(it) = of_format(panel.wording, &session.attempt) {
                    theme::quiet(ui, &it);
                }
                ui.label(theme::bold(panel.say("report-practice-record", &[])));
                ui.label(panel.say("window-practice-only", &[]));
                let path = session.path.display().to_string();
                theme::quiet(ui, &panel.say("window-file", &[("path", &harmless(&path))]));
                if let Some(receipt) = &session.receipt {
                    theme::quiet(ui, &panel.say("report-receipt", &[("receipt", receipt)]));
                    theme::quiet(ui, &panel.say("report-receipt-code", &[("code", &receipt_code(receipt))]));
                }
            });
        });
    });
}

/// Whose it is, of what, and how it went.
fn heading(ui: &mut Ui, panel: &PanelContext<'_>, session: &Session, sheet: &Sheet) {
    let exercise = session.attempt.work().exercise();
    ui.label(theme::bold(&exercise.title).size(22.0 * theme::scale_of(ui)));
    let args = [("learner", session.learner.as_str()), ("place", &exercise.place)];
    theme::quiet(ui, &panel.say("window-sheet-of", &args));
    ui.add_space(4.0);
    let OutcomeWords { headline, rule, more } = verdict(panel.wording, &session.attempt, sheet);
    // With a sign, so that the outcome does not hang on colour alone.
    let (ink, sign) = sign_of(sheet.outcome);
    Frame::new().stroke(Stroke::new(2.0, ink)).corner_radius(6).inner_margin(Margin::symmetric(12, 6)).show(ui, |ui| {
        let said = format!("{sign}  {headline}");
        ui.label(theme::bold(said).size(21.0 * theme::scale_of(ui)).color(ink));
    });
    for it in std::iter::once(rule).chain(more) {
        ui.label(it);
    }
}

/// The colour and the sign of an outcome.
pub const fn sign_of(outcome: Outcome) -> (theme::Role, &'static str) {
    match outcome {
        Outcome::Pass => (theme::GOOD, "✔"),
        Outcome::NotYet => (theme::ACCENT, "○"),
        Outcome::Refer => (theme::WARNING, "⚠"),
    }
}

/// The marks under each criterion, in two columns.
fn criteria(ui: &mut Ui, panel: &PanelContext<'_>, sheet: &Sheet) {
    ui.add_space(8.0);
    Grid::new("criteria").num_columns(2).spacing(vec2(48.0, 4.0)).min_row_height(0.0).show(ui, |ui| {
        for pair in sheet.criteria.chunks(2) {
            for it in pair {
                let (sign, ink) = if it.marks == it.out_of { ("✔", theme::GOOD) } else { ("○", theme::WARNING) };
                ui.label(RichText::new(format!("{sign}  {}", criterion_line(panel.wording, it))).color(ink));
            }
            ui.end_row();
        }
    });
}

fn findings(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, marked: &Marked) {
    ui.add_space(10.0);
    ui.heading(theme::bold(panel.say("page-findings", &[])));
    if marked.sheet.findings.is_empty() {
        ui.label(panel.say("report-nothing-found", &[]));
        return;
    }
    if marked.is_waiting() {
        theme::quiet(ui, &panel.say("window-story-waiting", &[]));
    }
    for index in 0..marked.sheet.findings.len() {
        one(ui, panel, session, marked, index);
    }
}

/// A finding, with all there is to say of it.
fn one(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, marked: &Marked, index: usize) {
    let work = session.attempt.work();
    let found = &marked.sheet.findings[index];
    let said = finding(panel.wording, work, found);
    let title = title(panel.wording, index, found, &said);
    let (ink, edge) = match (found.root, found.weight) {
        (Root::Of(_), _) => (theme::QUIET, theme::HAIR),
        (Root::Itself, Weight::Advice) => (theme::INK, theme::HAIR),
        (Root::Itself, _) => (theme::WARNING, theme::WARNING),
    };
    let walked_to = marked.walked_to.filter(|it| it.0 == index);
    let edge = if walked_to.is_some() { Stroke::new(3.0, theme::ACCENT) } else { Stroke::new(1.0, edge) };
    let frame = Frame::group(ui.style()).fill(theme::PANEL.worn()).stroke(edge);
    let shown = frame.inner_margin(13.0 - edge.width).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 4.0;
        group(ui, &title);
        ui.label(theme::bold(&title).color(ink));
        facts(ui, panel, session, marked, index, &said);
        buttons(ui, panel, session, marked, index);
    });
    if walked_to.is_some_and(|it| it.1) {
        shown.response.scroll_to_me(Some(Align::Min));
    }
}

/// A finding in a few sentences: what it is, what it would do, how to put it right.
pub fn in_short(wording: &Wording, work: &Work, index: usize, found: &Finding) -> Vec<String> {
    let said = finding(wording, work, found);
    let title = title(wording, index, found, &said);
    if let Some(follows) = follows(wording, found) {
        return vec![title, follows];
    }
    let harm = said.harm.as_ref().map(|it| wording.say("report-harm", &[("harm", it)]));
    let repair = said.repair.as_ref().map(|it| wording.say("report-repair", &[("repair", it)]));
    std::iter::once(title).chain(harm).chain(repair).collect()
}

fn facts(ui: &mut Ui, panel: &PanelContext<'_>, session: &Session, marked: &Marked, index: usize, said: &FindingWords) {
    for it in remarks(panel.wording, &marked.sheet.findings[index]) {
        ui.label(it);
    }
    let mut row = |key: &str, text: Option<&String>| {
        if let Some(text) = text {
            theme::fact(ui, NAMES, RichText::new(panel.say(key, &[])).color(theme::QUIET), text);
        }
    };
    if let Some(follows) = follows(panel.wording, &marked.sheet.findings[index]) {
        row("page-shown", Some(&said.shown));
        ui.label(follows);
        return;
    }
    row("page-harm", said.harm.as_ref());
    row("page-shown", Some(&said.shown));
    row("page-figures", Story::figures(panel.wording, &session.attempt, &marked.sheet.findings[index]).as_ref());
    row("page-arose", marked.told().and_then(|it| it.arose(panel.wording, index)).as_ref());
    let counted =
        marked.told().and_then(|it| it.counted(panel.wording, &session.attempt, &marked.sheet.findings[index]));
    row("page-counted", counted.as_ref());
    row("page-repair", said.repair.as_ref());
    row("page-reference", Some(&said.reference));
    if marked.opened.contains(&index) {
        let told = marked.told().and_then(|it| it.would_have(panel.wording, &session.attempt, index));
        if let Some(told) = told {
            Frame::new().fill(theme::WARNING_GROUND.worn()).corner_radius(4).inner_margin(8).show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.label(theme::bold(panel.say("page-would-have", &[])));
                ui.label(told);
            });
        }
    }
}

/// Ways to the place of a finding, and to what it would have led to.
fn buttons(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, marked: &Marked, index: usize) {
    let number = (index + 1).to_string();
    let args = [("number", number.as_str())];
    let seen = whereabouts(session.attempt.work(), marked.sheet.findings[index].at).is_some();
    let has_end = marked.told().is_some_and(|it| matches!(it.would_have.get(index), Some(Some(_))));
    if !seen && !has_end {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        if seen {
            let text = panel.say("window-show", &args);
            let pressed = panel.button(ui, &format!("show:{number}"), &text);
            if marked.walked_to == Some((index, true)) {
                panel.keeps_keyboard(ui);
            }
            if pressed {
                panel.intents.push(Intent::Place(index));
            }
        }
        if has_end {
            let is_open = marked.opened.contains(&index);
            let (text, name) = (panel.say("page-would-have", &[]), panel.say("window-would-have-named", &args));
            if panel.button_called(ui, &format!("would:{number}"), &text, &name) {
                panel.intents.push(Intent::Tell(index));
            }
            panel.is_on(is_open);
            if is_open {
                let (text, name) = (panel.say("window-play", &[]), panel.say("window-play-named", &args));
                if panel.button_called(ui, &format!("play:{number}"), &text, &name) {
                    panel.intents.push(Intent::Play(index));
                }
            }
        }
    });
}

/// What the readings told of a hidden fault, once that is worked out.
fn searched_for(ui: &mut Ui, panel: &PanelContext<'_>, attempt: &Attempt, marked: &Marked) {
    let Some(story) = marked.told() else { return };
    let lines = searched(panel.wording, attempt, &marked.sheet, story);
    if lines.is_empty() {
        return;
    }
    ui.add_space(12.0);
    ui.heading(theme::bold(panel.say("search-heading", &[])));
    for it in lines {
        ui.label(it);
    }
}

fn well(ui: &mut Ui, panel: &PanelContext<'_>, attempt: &Attempt, sheet: &Sheet) {
    let praise = praise(panel.wording, attempt, sheet);
    if praise.is_empty() {
        return;
    }
    ui.add_space(12.0);
    ui.heading(theme::bold(panel.say("page-well", &[])));
    for it in praise {
        ui.label(RichText::new(format!("✔  {it}")).color(theme::GOOD));
    }
}

/// Where something is to be seen.
pub fn whereabouts(work: &Work, subject: Subject) -> Option<(Sight, Thing)> {
    let thing = match subject {
        Subject::Location(it) => Thing::Location(it),
        Subject::Terminal(it) => Thing::Terminal(it),
        Subject::End(..) => Thing::End(subject.end(work)?),
        Subject::Switch(it) => Thing::Switch(it),
        Subject::Lamp(it) => Thing::Lamp(it),
        Subject::Device(it) => Thing::Device(it),
        _ => Thing::Location(subject.location(work.exercise())?),
    };
    Some((Sight::Location(subject.location(work.exercise())?), thing))
}
