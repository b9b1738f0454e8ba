//! The bars above and beneath: the job, the places to look at, undo, text size, what was said last.

use bevy_egui::egui::{
    Align, Frame, Label, Layout, Margin, Panel, RichText, Stroke, TextStyle, Ui, text::LayoutJob, vec2,
};
use switchdrop::{exercise::Stage, marking::may_hint, picture::Palette, work::Action};

use super::{
    current,
    panel::{Intent, Pane, PanelContext, Scaling},
    session::{ReadOnly, Session},
    start::harmless,
    theme,
    view::{Brief, Said, Sight, Tone, View},
    words::WordsAct,
};

/// Lines that what was said last may take.
const SAID_ROWS: usize = 2;
const SAID_MARGIN: Margin = Margin::symmetric(8, 4);
/// How wide the edge about a stop is, points.
const STOP_EDGE: f32 = 2.0;

/// Whether the job stands open. In a low window it does so where the learner opened it, and not by itself.
pub fn is_open(ui: &Ui, view: &View) -> bool {
    if theme::is_low(ui) { view.brief == Brief::Open } else { view.is_brief_open() }
}

/// The title of the job, which folds the brief away and opens it again.
pub fn title(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let path = panel.say("window-file", &[("path", &harmless(&session.path.display().to_string()))]);
    let title = &session.attempt.work().exercise().title;
    let open = is_open(ui, view);
    let name = panel.say(if open { "window-brief-close" } else { "window-brief-open" }, &[("title", title)]);
    let sign = if open { "⏷" } else { "⏵" };
    if panel.folding(ui, "brief", &format!("{sign} {title}"), &name, &path) {
        view.brief = if open { Brief::Folded } else { Brief::Open };
    }
}

/// The job, whole.
pub fn job(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let exercise = session.attempt.work().exercise();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 0.0);
        title(ui, panel, session, view);
        ui.label(RichText::new(&exercise.brief).small());
        let text = panel.say("window-learner", &[("learner", &session.learner)]);
        ui.label(RichText::new(text).small().color(theme::QUIET));
    });
}

/// The job in one line.
pub fn job_in_a_line(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    ui.horizontal(|ui| {
        title(ui, panel, session, view);
        // What does not fit is there for who points at it, or opens the title.
        let brief = RichText::new(&session.attempt.work().exercise().brief).small();
        ui.add(Label::new(brief).truncate());
    });
}

/// The places to look at, in the row that is begun.
pub fn places(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View) {
    let exercise = session.attempt.work().exercise();
    let text = panel.say("window-place", &[]);
    if panel.choice(ui, view.at == Sight::Place, "go:place", &text) {
        panel.intents.push(Intent::Go(Sight::Place));
    }
    for (id, it) in exercise.locations.with_ids() {
        let sight = Sight::Location(id);
        if panel.choice(ui, view.at == sight, &format!("go:{}", it.id), &it.name) {
            panel.intents.push(Intent::Go(sight));
        }
    }
    if exercise.asks(Stage::Prediction) {
        let text = panel.say("window-prediction", &[]);
        if panel.choice(ui, view.at == Sight::Prediction, "go:prediction", &text) {
            panel.intents.push(Intent::Go(Sight::Prediction));
        }
    }
    if exercise.asks(Stage::Diagnosis) {
        let text = panel.say("window-diagnosis", &[]);
        if panel.choice(ui, view.at == Sight::Diagnosis, "go:diagnosis", &text) {
            panel.intents.push(Intent::Go(Sight::Diagnosis));
        }
    }
    if exercise.has_test_sheet() {
        let text = panel.say("window-tests", &[]);
        if panel.choice(ui, view.at == Sight::Tests, "go:tests", &text) {
            panel.intents.push(Intent::Go(Sight::Tests));
        }
    }
    if current::may_follow(session) {
        let text = panel.say("window-circuit", &[]);
        if panel.choice(ui, view.at == Sight::Circuit, "go:circuit", &text) {
            panel.intents.push(Intent::Go(Sight::Circuit));
        }
    }
    if session.attempt.tally().handed_in {
        let text = panel.say("window-to-sheet", &[]);
        if panel.main_button(ui, "sheet", &text) {
            panel.intents.push(Intent::Sheet);
        }
    }
}

/// How high the foot is, so that whatever is said has its room and moves nothing.
fn foot_high(ui: &Ui) -> f32 {
    SAID_ROWS as f32 * ui.text_style_height(&TextStyle::Body) + 2.0 * (f32::from(SAID_MARGIN.top) + STOP_EDGE)
}

/// The foot of the first screen: text size, help, and the reminder, or what could not be done. It is there whatever was scrolled out of
/// sight, and grows upwards.
pub fn start_foot(ui: &mut Ui, panel: &mut PanelContext<'_>, said: &Said) {
    if said.text.is_empty() {
        ui.horizontal(|ui| {
            common(ui, panel);
            // Cut short where text is large, and whole for who points at it: another line would move the buttons.
            let text = RichText::new(panel.say("window-practice-only", &[])).small().color(theme::QUIET);
            ui.add(Label::new(text).truncate());
        });
    } else {
        let size = vec2(ui.available_width(), foot_high(ui));
        ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Max), |ui| {
            ui.set_min_height(size.y);
            common(ui, panel);
            banner(ui, said);
        });
    }
}

/// Undo, text size, help, the way out; and what was said last.
pub fn foot(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View) {
    let high = foot_high(ui);
    // Along the lower edge, which stays where it is when text grows.
    let line = Layout::left_to_right(Align::Max);
    ui.allocate_ui_with_layout(vec2(ui.available_width(), high), line, |ui| {
        ui.set_min_height(high);
        if !session.is_over() {
            let (undo, redo) = (panel.say("window-undo", &[]), panel.say("window-redo", &[]));
            if panel.button_if(ui, session.attempt.can_undo(), "undo", &undo) {
                panel.act(Action::Undo);
            }
            if panel.button_if(ui, session.attempt.can_redo(), "redo", &redo) {
                panel.act(Action::Redo);
            }
            let text = panel.say("window-hint", &[]);
            if may_hint(session.attempt.work().exercise(), session.mode) && panel.button(ui, "hint", &text) {
                panel.act(Action::Hint);
            }
        }
        // At the right edge too: what changes text stays under the pointer.
        ui.with_layout(Layout::right_to_left(Align::Max), |ui| {
            common(ui, panel);
            let text = panel.say("window-leave", &[]);
            if panel.button(ui, "leave", &text) {
                panel.intents.push(Intent::Leave);
            }
            ui.with_layout(line, |ui| banner(ui, &view.said));
        });
    });
}

/// The foot of a page with nothing beneath it but what every screen has.
pub fn page_foot(ui: &mut Ui, panel: &mut PanelContext<'_>) {
    let foot = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(24, 6));
    Panel::bottom("foot").frame(foot).show(ui, |ui| {
        panel.begin(ui, Pane::Foot, "window-pane-foot");
        ui.horizontal(|ui| common(ui, panel));
    });
}

/// What every screen has: text size, theme and help, in a row that begins at an edge of the window.
pub fn common(ui: &mut Ui, panel: &mut PanelContext<'_>) {
    let text = panel.say("window-scale", &[]);
    if panel.button(ui, "scale", &text) {
        panel.intents.push(Intent::Scale(Scaling::Round));
    }
    // Its face is the same in every theme, so that it stays where it is; its name says which it is.
    let (text, theme) = (panel.say("window-theme", &[]), panel.say(theme_key(theme::worn()), &[]));
    let name = panel.say("window-theme-named", &[("theme", &theme)]);
    if panel.button_called(ui, "theme", &text, &name) {
        panel.intents.push(Intent::Theme);
    }
    let text = panel.say("words-heading", &[]);
    if panel.button(ui, "words", &text) {
        panel.intents.push(Intent::Words(WordsAct::Turn));
    }
    let text = panel.say("window-help", &[]);
    if panel.button(ui, "help", &text) {
        panel.intents.push(Intent::Help);
    }
}

const fn theme_key(theme: Palette) -> &'static str {
    match theme {
        Palette::Day => "window-theme-day",
        Palette::Evening => "window-theme-evening",
        Palette::Projector => "window-theme-projector",
    }
}

/// Why an attempt can only be read.
pub const fn read_only_key(why: ReadOnly) -> &'static str {
    match why {
        ReadOnly::InUse => "window-in-use",
        ReadOnly::NotOurs => "window-not-ours",
    }
}

/// What was said last, in its tone: a word before it says how it is meant, so that colour is not the only sign.
pub fn banner(ui: &mut Ui, said: &Said) {
    if said.text.is_empty() {
        return;
    }
    let (ink, ground, sign) = match said.tone {
        Tone::Plain => (theme::INK, theme::PAPER, ""),
        Tone::No => (theme::WARNING, theme::PAPER, "×  "),
        Tone::Stopped => (theme::WARNING, theme::WARNING_GROUND, "⚠  "),
    };
    let stroke = if said.tone == Tone::Stopped { Stroke::new(STOP_EDGE, theme::WARNING) } else { Stroke::NONE };
    Frame::new().fill(ground.worn()).stroke(stroke).corner_radius(4).inner_margin(SAID_MARGIN).show(ui, |ui| {
        ui.set_width(ui.available_width());
        // Two lines, whatever is said, so that nothing moves; where it is cut short, the label shows all of it to who points at it.
        let font = TextStyle::Body.resolve(ui.style());
        let mut job = LayoutJob::simple(format!("{sign}{}", said.text), font, ink.worn(), ui.available_width());
        job.wrap.max_rows = SAID_ROWS;
        // In a row a label goes on without end unless it is told to wrap.
        ui.add(Label::new(job).wrap());
    });
}
