//! The exercises to choose from: the one that comes next, then all the others, step by step of the course.

use bevy_egui::egui::{
    Align, Frame, Label, Layout, Margin, RichText, Sense, Stroke, TextStyle, Ui, Vec2, text::LayoutJob, vec2,
};
use switchdrop::{
    exercise::{CourseStep, Exercise},
    marking::Outcome,
    picture::Scene,
};

use super::{
    drawing::{Fit, paint},
    panel::{Intent, PanelContext},
    sheet,
    start::{Stock, harmless, leaving_room},
    start_state::Came,
    theme,
};

/// How large the picture of a place is, points at the normal text size.
pub const PICTURE: (f32, f32) = (188.0, 106.0);
/// The same on one of many cards.
const SMALL_PICTURE: (f32, f32) = (116.0, 84.0);
/// How wide a card is at the least, points at the normal text size; where two such go side by side, they do.
const CARD: f32 = 330.0;
/// How high it is at the least: room for a title of two lines.
const CARD_HEIGHT: f32 = 107.0;

/// What a learner has come to in an exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Best {
    /// Nothing is handed in.
    Nothing,
    /// Something is, and what it came to is not known, or not to be shown yet.
    HandedIn,
    /// The most marks that one try earned, its outcome, and out of how many.
    Earned(u32, Outcome, u32),
}

impl Best {
    fn of(stock: &Stock<'_>, scenario: &Exercise) -> Self {
        let tries = stock.kept.attempts.iter().filter(|it| it.handed_in && it.title == scenario.title);
        tries.fold(Self::Nothing, |best, it| match (best, stock.came.get(&it.path)) {
            (Self::Earned(most, ..), Some(Came::Earned(_, marks, _))) if most >= *marks => best,
            (_, Some(&Came::Earned(outcome, marks, out_of))) => Self::Earned(marks, outcome, out_of),
            (Self::Nothing, _) => Self::HandedIn,
            _ => best,
        })
    }
}

/// One of the exercises to choose from.
struct Choice<'a> {
    /// Its place in the library.
    place: usize,
    exercise: &'a Exercise,
    best: Best,
}

impl Choice<'_> {
    fn step(&self) -> Option<CourseStep> {
        self.exercise.course.map(|it| it.step)
    }
}

/// Draws them.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, stock: &Stock<'_>) {
    let shelved = stock.library.exercises.iter().enumerate();
    let mut all: Vec<Choice<'_>> = shelved
        .map(|(place, it)| Choice { place, exercise: &it.scenario, best: Best::of(stock, &it.scenario) })
        .collect();
    // Within a step they stay in the order of the library. Those of which nobody says where they stand come last.
    all.sort_by_key(|it| (it.step().is_none(), it.step()));
    let comes_next = all.iter().find(|it| it.best == Best::Nothing);
    if let Some(it) = comes_next {
        ui.heading(theme::bold(panel.say("window-next-for-you", &[])));
        next(ui, panel, stock, it);
        ui.add_space(8.0);
    }
    if !stock.library.left_out.is_empty() {
        ui.heading(theme::bold(panel.say("window-left-out", &[])));
        for it in &stock.library.left_out {
            ui.label(RichText::new(harmless(&it.say(panel.wording))).color(theme::WARNING));
        }
        ui.add_space(8.0);
    }
    ui.heading(theme::bold(panel.say("window-choose", &[])));
    for step in all.chunk_by(|one, other| one.step() == other.step()) {
        one_step(ui, panel, stock, step, comes_next.map(|it| it.place));
    }
}

/// A step of the course: what it is about, how far the learner has come in it, and its exercises but the one that stands above, two in a
/// row where there is room.
fn one_step(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    stock: &Stock<'_>,
    exercises: &[Choice<'_>],
    above: Option<usize>,
) {
    let passed = exercises.iter().filter(|it| matches!(it.best, Best::Earned(_, Outcome::Pass, _))).count();
    let args = [("passed", passed.to_string()), ("count", exercises.len().to_string())];
    let far = panel.say("window-step-passed", &args.each_ref().map(|(name, it)| (*name, it.as_str())));
    let heading = exercises.first().and_then(Choice::step).map_or_else(
        || panel.say("window-step-none", &[]),
        |it| {
            let about = panel.say(&format!("describe-step-{}", it.word()), &[]);
            panel.say("window-step", &[("number", &it.number().to_string()), ("about", &about)])
        },
    );
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        ui.label(theme::bold(heading));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| theme::quiet(ui, &far));
    });
    let in_a_row = if ui.available_width() >= 2.0 * CARD * theme::scale_of(ui) { 2 } else { 1 };
    let below: Vec<_> = exercises.iter().filter(|it| Some(it.place) != above).collect();
    for row in below.chunks(in_a_row) {
        ui.columns(in_a_row, |columns| {
            for (ui, it) in columns.iter_mut().zip(row) {
                card(ui, panel, stock, it);
            }
        });
    }
}

/// The exercise that comes next: its place as a picture, what it is, what is asked, and the way in.
fn next(ui: &mut Ui, panel: &mut PanelContext<'_>, stock: &Stock<'_>, it: &Choice<'_>) {
    framed(ui, Stroke::new(2.0, theme::ACCENT)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.horizontal_top(|ui| {
            small_scene(ui, stock, it.place, vec2(PICTURE.0, PICTURE.1) * 1.1);
            ui.vertical(|ui| {
                ui.spacing_mut().item_spacing.y = 3.0;
                let text = panel.say("window-begin", &[]);
                ui.horizontal_top(|ui| {
                    leaving_room(ui, &text, |ui| {
                        ui.add(Label::new(theme::bold(&it.exercise.title).size(18.0 * theme::scale_of(ui))).wrap());
                        theme::quiet(ui, &it.exercise.place);
                        kind(ui, panel, it.exercise);
                    });
                    begin(ui, panel, it, &text);
                });
                // Beside the larger picture there is room for more of it.
                brief(ui, &it.exercise.brief, 3);
            });
        });
    });
}

/// One of many.
fn card(ui: &mut Ui, panel: &mut PanelContext<'_>, stock: &Stock<'_>, it: &Choice<'_>) {
    let done = it.best != Best::Nothing;
    framed(ui, Stroke::new(1.0, if done { theme::GOOD } else { theme::HAIR })).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.set_min_height(CARD_HEIGHT * theme::scale_of(ui));
        ui.horizontal_top(|ui| {
            small_scene(ui, stock, it.place, vec2(SMALL_PICTURE.0, SMALL_PICTURE.1));
            ui.vertical(|ui| {
                ui.spacing_mut().item_spacing.y = 3.0;
                ui.add(Label::new(theme::bold(&it.exercise.title)).wrap());
                ui.add(Label::new(RichText::new(&it.exercise.place).color(theme::QUIET).small()).truncate());
                ui.horizontal(|ui| {
                    let text = panel.say("window-begin", &[]);
                    begin(ui, panel, it, &text);
                    // Beneath each other, and wrapped: beside a button there is little room.
                    ui.vertical(|ui| {
                        ui.spacing_mut().item_spacing.y = 0.0;
                        kind(ui, panel, it.exercise);
                        best(ui, panel, it.best);
                    });
                });
            });
        });
    });
}

fn framed(ui: &Ui, edge: Stroke) -> Frame {
    Frame::group(ui.style()).fill(theme::PANEL.worn()).stroke(edge).inner_margin(Margin::symmetric(12, 8))
}

fn small_scene(ui: &mut Ui, stock: &Stock<'_>, place: usize, size: Vec2) {
    if let Some(scene) = stock.places.get(place).and_then(Option::as_ref) {
        picture(ui, scene, size * theme::scale_of(ui).min(1.2));
        ui.add_space(6.0);
    }
}

/// What is done in it, and how long it takes.
fn kind(ui: &mut Ui, panel: &PanelContext<'_>, exercise: &Exercise) {
    if let Some(it) = exercise.course {
        let does = panel.say(&format!("describe-kind-{:?}", it.kind), &[]);
        let args = [("does", does.as_str()), ("minutes", &it.minutes.to_string())];
        theme::quiet(ui, &panel.say("window-kind", &args));
    }
}

/// The way in.
fn begin(ui: &mut Ui, panel: &mut PanelContext<'_>, it: &Choice<'_>, text: &str) {
    let name = panel.say("window-begin-named", &[("title", &it.exercise.title)]);
    if panel.main_button_called(ui, &format!("begin:{}", it.exercise.id), text, &name) {
        panel.intents.push(Intent::Begin(it.place));
    }
}

fn best(ui: &mut Ui, panel: &PanelContext<'_>, best: Best) {
    let (ink, text) = match best {
        Best::Nothing => return,
        Best::HandedIn => (theme::GOOD, format!("✔ {}", panel.say("window-handed-in-once", &[]))),
        Best::Earned(marks, outcome, out_of) => {
            let (ink, sign) = sheet::sign_of(outcome);
            let args = [("marks", marks.to_string()), ("out-of", out_of.to_string())];
            let said = panel.say("window-best", &args.each_ref().map(|(name, it)| (*name, it.as_str())));
            (ink, format!("{sign} {said}"))
        }
    };
    ui.label(RichText::new(text).small().color(ink));
}

/// A place without its words, fitted into a frame.
pub fn picture(ui: &mut Ui, scene: &Scene, room: Vec2) {
    let (frame, _) = ui.allocate_exact_size(room, Sense::hover());
    let scale = (room.x / scene.width.max(1.0)).min(room.y / scene.height.max(1.0));
    let size = vec2(scene.width, scene.height) * scale;
    let fit = Fit { origin: frame.center() - size / 2.0, scale, least_text: 0.0 };
    paint(&ui.painter().with_clip_rect(frame.intersect(ui.clip_rect())), scene, &fit, false);
}

/// What is asked, in a few lines: all of it stands over the work once that is begun.
pub fn brief(ui: &mut Ui, text: &str, rows: usize) {
    let font = TextStyle::Small.resolve(ui.style());
    let mut job = LayoutJob::simple(text.to_owned(), font, theme::INK.worn(), ui.available_width());
    job.wrap.max_rows = rows;
    // Where it is cut short, the label shows all of it to who points at it.
    ui.label(job);
}
