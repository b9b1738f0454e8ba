//! The glossary in the window: one key away on every screen, and the meaning of a trade word beside it when the pointer rests on it.
//!
//! It looks at what was painted, so that no screen has to know of it: [`Words::look`] finds the text under the pointer.

use std::time::Duration;

use bevy_egui::egui::{
    Button, CentralPanel, Frame, Id, LayerId, Margin, Memory, Order, Painter, Panel, Pos2, Rect, RichText, ScrollArea,
    Shape, Stroke, StrokeKind, Ui, epaint::TextShape, layers::PaintList, pos2, text::CCursor, vec2,
};
use switchdrop::wording::{DEPTHS, GlossaryEntry, Wording, glossary, words_in};

use super::{
    panel::{Intent, Pane, PanelContext, Targets},
    theme,
};

/// How long the pointer rests before a meaning is shown, seconds.
const RESTS: f32 = 0.4;
/// How wide a meaning is set, points at the normal text size.
const WIDE: f32 = 320.0;
/// How wide the list is.
const LIST: f32 = 250.0;
/// The headings of the three depths, in their order.
const HEADINGS: [&str; DEPTHS.len()] = ["words-householder", "words-learner", "words-tutor"];

/// What is asked of the glossary.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WordsAct {
    /// Open it, at the word that is pointed at if there is one; or close it.
    Turn,
    /// Read an entry, by its place.
    Read(usize),
    /// Read an entry, by its id.
    Find(&'static str),
}

/// The glossary.
pub struct Words {
    all: Vec<GlossaryEntry>,
    /// Whether it is open.
    pub is_open: bool,
    /// What is read; `None` until a word was chosen.
    at: Option<usize>,
    /// The word that was pointed at in the last frame, or the first in the name of what has the keyboard.
    under: Option<usize>,
}

/// A word on the screen.
struct OnScreen {
    entry: usize,
    /// Beneath each row that it stands on.
    lines: Vec<[Pos2; 2]>,
    rect: Rect,
}

impl Words {
    /// Closed, with nothing read yet.
    pub fn new(wording: &Wording) -> Self {
        Self { all: glossary(wording), is_open: false, at: None, under: None }
    }

    /// Does what was asked for.
    pub fn apply(&mut self, act: WordsAct) {
        match act {
            WordsAct::Turn => {
                self.is_open = !self.is_open;
                self.at = self.under.filter(|_| self.is_open).or(self.at);
            }
            WordsAct::Find(id) => (self.is_open, self.at) = (true, self.place_of(id).or(self.at)),
            WordsAct::Read(it) => (self.is_open, self.at) = (true, Some(it)),
        }
    }

    /// The place of an entry by its id.
    fn place_of(&self, id: &str) -> Option<usize> {
        self.all.iter().position(|it| it.id == id)
    }

    /// Looks for a trade word under the pointer, and shows its meaning once the pointer rests there, unless something there has more to
    /// say of itself.
    pub fn look(&mut self, ui: &Ui, wording: &Wording, targets: &Targets) {
        let has_keyboard = ui.memory(Memory::focused);
        let named = has_keyboard.and_then(|id| targets.0.iter().find(|it| it.id == id));
        self.under = named.and_then(|target| words_in(&self.all, &target.name).first().map(|found| found.1));
        let Some(at) = ui.input(|it| it.pointer.latest_pos()) else { return };
        let found = self.at(ui, at);
        let Some(here) = found.iter().find(|it| it.rect.contains(at)) else { return };
        self.under = Some(here.entry);
        // What can be touched says itself what it is.
        if self.is_open || targets.0.iter().any(|it| it.rect.contains(at)) {
            return;
        }
        let painter = ui.ctx().layer_painter(LayerId::new(Order::Tooltip, Id::new("words")));
        for it in found.iter().flat_map(|it| &it.lines) {
            painter.extend(Shape::dotted_line(it, theme::ACCENT.worn(), 4.0, 1.2));
        }
        let rested = ui.input(|it| it.pointer.time_since_last_movement());
        if rested < RESTS {
            ui.ctx().request_repaint_after(Duration::from_secs_f32(RESTS - rested + 0.02));
            return;
        }
        let entry = &self.all[here.entry];
        plate(ui, &painter, wording, entry, here.rect);
    }

    /// The trade words of the text at a place.
    fn at(&self, ui: &Ui, at: Pos2) -> Vec<OnScreen> {
        let layer = ui.layer_id();
        let mut texts: Vec<TextShape> = Vec::new();
        ui.ctx().graphics(|all| {
            for it in all.get(layer).into_iter().flat_map(PaintList::all_entries) {
                if it.clip_rect.contains(at) {
                    gather(&it.shape, at, &mut texts);
                }
            }
        });
        texts.iter().flat_map(|it| self.of_text(it)).collect()
    }

    fn of_text(&self, shape: &TextShape) -> Vec<OnScreen> {
        let text = shape.galley.text();
        let words = words_in(&self.all, text).into_iter().map(|(range, entry)| {
            let first = text[..range.start].chars().count();
            let count = text[range].chars().count();
            let cursor =
                |it: usize| shape.galley.pos_from_cursor(CCursor::new(first + it)).translate(shape.pos.to_vec2());
            // A form of several words may go on to the next row.
            let mut lines: Vec<[Pos2; 2]> = Vec::new();
            let mut rect = Rect::NOTHING;
            for it in 0..count {
                let (from, to) = (cursor(it), cursor(it + 1));
                let is_one_row = (from.top() - to.top()).abs() < 1.0;
                if is_one_row {
                    rect = rect.union(from.union(to));
                }
                match lines.last_mut().filter(|it| (it[1].y - to.bottom()).abs() < 1.0) {
                    Some(line) => line[1].x = to.right(),
                    None if is_one_row => lines.push([from.left_bottom(), to.left_bottom()]),
                    None => {}
                }
            }
            OnScreen { entry, lines, rect }
        });
        words.collect()
    }

    /// Draws the page of it.
    pub fn show(&self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        let edge = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(12, 12));
        Panel::left("words").frame(edge).resizable(false).exact_size(LIST * theme::scale_of(ui).max(1.0)).show(
            ui,
            |ui| {
                panel.begin(ui, Pane::Places, "words-heading");
                let text = panel.say("words-close", &[]);
                if panel.main_button(ui, "words-close", &text) {
                    panel.intents.push(Intent::Words(WordsAct::Turn));
                }
                ui.add_space(6.0);
                ScrollArea::vertical().id_salt("words").auto_shrink(false).show(ui, |ui| self.list(ui, panel));
            },
        );
        CentralPanel::default()
            .frame(Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::symmetric(24, 20)))
            .show(ui, |ui| {
                panel.begin(ui, Pane::Middle, "words-heading");
                ScrollArea::vertical().id_salt(("word", self.at)).auto_shrink(false).show(ui, |ui| {
                    theme::page(ui, 640.0, |ui| self.entry(ui, panel));
                });
            });
    }

    fn list(&self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        panel.heading(ui, "words-muddles");
        for (place, it) in self.all.iter().enumerate() {
            if place > 0 && !it.is_muddle() && self.all[place - 1].is_muddle() {
                ui.add_space(6.0);
                panel.heading(ui, "words-heading");
            }
            self.choice(ui, panel, place);
        }
    }

    /// An entry to be read, by its place.
    fn choice(&self, ui: &mut Ui, panel: &mut PanelContext<'_>, place: usize) {
        let Some(it) = self.all.get(place) else { return };
        let chosen = Some(place) == self.at;
        let response = ui.add(Button::new(&it.word).selected(chosen).wrap().min_size(vec2(0.0, 26.0)));
        panel.touchable(ui, &response, &format!("word:{}", it.id), &it.word);
        panel.is_on(chosen);
        if response.clicked() {
            panel.intents.push(Intent::Words(WordsAct::Read(place)));
        }
    }

    fn entry(&self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        let Some(entry) = self.at.and_then(|it| self.all.get(it)) else {
            ui.heading(theme::bold(panel.say("words-heading", &[])));
            ui.add_space(10.0);
            ui.label(panel.say("words-choose", &[]));
            return;
        };
        ui.heading(theme::bold(&entry.word));
        for (depth, (heading, text)) in HEADINGS.iter().zip(&entry.means).enumerate() {
            ui.add_space(10.0);
            ui.label(theme::bold(panel.say(heading, &[])).small().color(theme::QUIET));
            ui.label(text);
            if depth == 0 {
                self.muddles_of(ui, panel, entry);
            }
        }
        ui.add_space(14.0);
        panel.heading(ui, "words-see");
        ui.horizontal_wrapped(|ui| {
            for it in &entry.see {
                let Some((place, it)) = self.place_of(it).and_then(|it| Some((it, self.all.get(it)?))) else {
                    continue;
                };
                if panel.button(ui, &format!("see:{}", it.id), &it.word) {
                    panel.intents.push(Intent::Words(WordsAct::Read(place)));
                }
            }
        });
        ui.add_space(14.0);
        theme::quiet(ui, &panel.say("words-sources", &[]));
    }

    /// What beginners take a word for, in the plainest words, beneath its plain meaning.
    fn muddles_of(&self, ui: &mut Ui, panel: &PanelContext<'_>, entry: &GlossaryEntry) {
        let read_next = entry.see.iter().filter_map(|it| self.all.get(self.place_of(it)?));
        for it in read_next.filter(|it| it.is_muddle()) {
            ui.add_space(6.0);
            let edge = Stroke::new(1.0, theme::HAIR);
            let margin = Margin::symmetric(10, 6);
            Frame::new().fill(theme::PANEL.worn()).stroke(edge).corner_radius(4).inner_margin(margin).show(ui, |ui| {
                let heading = panel.say("words-mistaken", &[("muddle", &it.word)]);
                ui.label(theme::bold(heading).small());
                ui.label(RichText::new(&it.means[0]).small());
            });
        }
    }
}

/// Texts at a place.
fn gather(shape: &Shape, at: Pos2, texts: &mut Vec<TextShape>) {
    match shape {
        Shape::Vec(all) => all.iter().for_each(|it| gather(it, at, texts)),
        Shape::Text(it) if it.galley.rect.translate(it.pos.to_vec2()).contains(at) => texts.push(it.clone()),
        _ => {}
    }
}

/// A meaning beside its word, within the window.
fn plate(ui: &Ui, painter: &Painter, wording: &Wording, entry: &GlossaryEntry, word: Rect) {
    let scale = theme::scale_of(ui);
    let font = bevy_egui::egui::TextStyle::Body.resolve(ui.style());
    let text = format!("{}\n{}\n{}", entry.word, entry.means[0], wording.say("words-more", &[]));
    let galley = painter.layout(text, font, theme::INK.worn(), WIDE * scale);
    let size = galley.size() + vec2(20.0, 14.0);
    let room = ui.ctx().viewport_rect().shrink(6.0);
    let beneath = word.bottom() + 8.0;
    let top = if beneath + size.y > room.bottom() { word.top() - 8.0 - size.y } else { beneath };
    let left = word.left().min(room.right() - size.x).max(room.left());
    let rect = Rect::from_min_size(pos2(left, top.max(room.top())), size);
    painter.rect(rect, 6, theme::FIELD, Stroke::new(1.5, theme::ACCENT), StrokeKind::Inside);
    painter.galley(rect.min + vec2(10.0, 7.0), galley, theme::INK.worn());
}

/// A word that leads to the glossary, underlined in a row of others.
pub fn leads(ui: &mut Ui, panel: &mut PanelContext<'_>, id: &'static str, text: &str, more: &str) {
    let link = Button::new(RichText::new(text).small().underline()).frame(false).min_size(vec2(24.0, 24.0));
    let response = ui.add(link);
    panel.touchable(ui, &response, &format!("word:{id}"), text);
    if response.clicked() {
        panel.intents.push(Intent::Words(WordsAct::Find(id)));
    }
    response.on_hover_text(more);
}

#[cfg(test)]
impl Words {
    pub fn read(&self) -> &GlossaryEntry {
        &self.all[self.at.expect("a word was chosen")]
    }
}
