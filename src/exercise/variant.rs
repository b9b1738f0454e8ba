//! Drawing an exercise: the variable parts of a scenario, settled from a seed.

use std::ops::Range;

use serde::Serialize;

use super::{
    check::{self, parse},
    file::{EditionFile, HasFile, Presence, ScenarioFile, VaryFile},
    placed::Placed,
    problem::{Problem, ProblemCode, Problems},
    slip::{HandAct, SlipPlace},
    stream::Stream,
    tables::Exercise,
};

/// Values of things that may vary that are tried one by one.
const MOST_VALUES: usize = 1024;
/// Most slips that are chosen among: every choice of them is a value to check.
pub(super) const MOST_SLIPS: usize = 10;

/// What an exercise is drawn from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Seed(pub u64);

/// Draws the exercise that `seed` gives.
///
/// # Errors
/// Everything wrong with the scenario; or, where only some draws are wrong, what is wrong with this one, placed at the
/// start of the text.
pub fn draw(text: &str, seed: Seed) -> Result<Exercise, Problems> {
    check::read(text, seed)?;
    Template(parse(text)?).draw(seed)
}

/// Draws an exercise for each value of each thing that may vary, the others as a seed gives them: of a length the least and the most. Of a
/// scenario with more values than 1,024 the first.
///
/// # Errors
/// Everything wrong with the scenario; or what is wrong with the exercise of the first value that gives one, placed where that may vary.
pub fn draw_each_value(text: &str, seed: Seed) -> Result<Vec<Exercise>, Problems> {
    check::read(text, seed)?;
    let file = parse(text)?;
    let mut drawn = Vec::new();
    for (entry, vary) in file.vary.iter().enumerate() {
        let count = values(&file, vary);
        let step = if matches!(vary, VaryFile::Length { .. }) { count.saturating_sub(1).max(1) } else { 1 };
        for value in (0..count).step_by(step as usize) {
            if drawn.len() >= MOST_VALUES {
                return Ok(drawn);
            }
            let mut file = file.clone();
            settle(&mut file, seed, Some((entry, value)));
            let one = one_line(&file).map_err(|err| Problem::new(ProblemCode::Syntax, 0..0, err, "syntax-other"))?;
            drawn.push(check::read(&one, seed).map_err(|problems| -> Problems {
                let at = named(vary).map_or(0..0, |it| it.span(text));
                let moved = |it| Problem { code: ProblemCode::BadVariation, span: at.clone(), ..it };
                problems.into_iter().map(moved).collect()
            })?);
        }
    }
    Ok(drawn)
}

/// A scenario ready to be drawn from many times: its text is read once.
#[derive(Debug)]
pub struct Template<'a>(ScenarioFile<'a>);

impl<'a> Template<'a> {
    /// The template of a scenario that was read; `None` if its text can't be read again.
    pub fn of(scenario: &'a Exercise) -> Option<Self> {
        parse(scenario.text()).ok().map(Self)
    }

    /// The same with another answer to whether a hint may be asked for in set work, and another pass mark where one is given: what
    /// a tutor may decide while the exercise stays the same.
    #[must_use]
    pub fn set(mut self, hints: bool, pass_mark: Option<u32>) -> Self {
        self.0.hints = hints;
        self.0.pass_mark = pass_mark.unwrap_or(self.0.pass_mark);
        self
    }

    /// Draws the exercise that `seed` gives.
    ///
    /// # Errors
    /// What is wrong with this draw, placed at the start of the text.
    pub fn draw(&self, seed: Seed) -> Result<Exercise, Problems> {
        let drawn = one_line(&self.settled(seed))
            .map_err(|err| Problem::new(ProblemCode::Syntax, 0..0, err, "syntax-other"))?;
        check::read(&drawn, seed).map_err(|problems| {
            problems.into_iter().map(|it| Problem { code: ProblemCode::BadVariation, span: 0..0, ..it }).collect()
        })
    }

    /// The scenario on one line, with whatever may vary as it is written and the edition that it is drawn in today named.
    ///
    /// # Errors
    /// If RON cannot write it, which does not happen with a checked scenario.
    pub fn text(&self) -> Result<String, ron::Error> {
        let mut file = self.0.clone();
        file.edition = EditionFile::naming(file.edition.edition());
        ron::ser::to_string(&file)
    }

    /// The scenario's id.
    pub fn id(&self) -> &str {
        &self.0.id
    }

    /// Whether it is the one that an exercise was drawn from, with nothing changed in either since: the same as to draw it
    /// again with the exercise's seed and compare, but nothing of either need be checked again. Where things are drawn may have
    /// changed: the exercise is the same.
    pub fn draws(&self, exercise: &Exercise) -> bool {
        let mut file = self.settled(exercise.seed);
        if self.0.edition == EditionFile::InForce {
            // Drawn when another edition was in force, it is the same exercise.
            file.edition = EditionFile::naming(exercise.edition);
        }
        if one_line(&file).is_ok_and(|it| it == exercise.text()) {
            return true;
        }
        // An older file may say the same in older words; what it says is what counts.
        let Ok(older) = parse(exercise.text()) else { return false };
        matches!((one_line(&undrawn(file)), one_line(&undrawn(older))), (Ok(a), Ok(b)) if a == b)
    }

    /// The exercise of a seed, if `text` is the very text that it has; then the text need not be read, only checked.
    pub(crate) fn exercise(&self, text: &str, seed: Seed) -> Option<Exercise> {
        let file = self.settled(seed);
        let same = one_line(&file).is_ok_and(|it| it == text);
        same.then(|| check::checked(&file, text, seed).ok()).flatten()
    }

    fn settled(&self, seed: Seed) -> ScenarioFile<'a> {
        let mut file = self.0.clone();
        settle(&mut file, seed, None);
        file
    }
}

/// Without where things are drawn, on which nothing else depends.
fn undrawn(mut file: ScenarioFile<'_>) -> ScenarioFile<'_> {
    file.rooms.clear();
    for it in &mut file.locations {
        it.at = (0, 0);
    }
    file
}

fn one_line(file: &impl Serialize) -> Result<String, String> {
    ron::ser::to_string(file).map_err(|err| err.to_string())
}

/// How many values something that may vary is drawn from; of devices and gangs, which are dealt out, nothing is said.
fn values(file: &ScenarioFile<'_>, vary: &VaryFile<'_>) -> u32 {
    let count = match vary {
        VaryFile::Length { least, most, .. } => {
            #[expect(clippy::cast_sign_loss, reason = "held at nothing or above on the same line")]
            let steps = ((most.value - least.value) * 2.0).max(0.0).round() as u32;
            return steps.saturating_add(1);
        }
        VaryFile::Kind { among, .. } => among.len(),
        VaryFile::Body { among, .. } | VaryFile::Plate { among, .. } => among.len(),
        VaryFile::Watts { among, .. } => among.len(),
        VaryFile::Indicator { among } => among.len(),
        VaryFile::Chart { among } => among.len(),
        VaryFile::Passing { among, .. } => among.len(),
        VaryFile::Fault => file.suspects.len(),
        // In how many orders they can stand.
        VaryFile::Ends { among } => return (1..=among.len() as u32).fold(1, u32::saturating_mul),
        VaryFile::Slips { least, most, among } => return choices(among.len(), least.value, most.value),
        VaryFile::Devices { .. } | VaryFile::Gangs { .. } | VaryFile::Unmarked { .. } => 0,
    };
    count as u32
}

/// What something that may vary names, for a problem to be placed at.
fn named<'v, 'a>(vary: &'v VaryFile<'a>) -> Option<&'v Placed<'a, String>> {
    match vary {
        VaryFile::Length { cable: it, .. }
        | VaryFile::Kind { cable: it, .. }
        | VaryFile::Passing { cable: it, .. }
        | VaryFile::Body { location: it, .. }
        | VaryFile::Plate { location: it, .. }
        | VaryFile::Gangs { location: it, .. }
        | VaryFile::Unmarked { at: it }
        | VaryFile::Watts { lamp: it, .. } => Some(it),
        VaryFile::Devices { among } | VaryFile::Ends { among } => among.first(),
        VaryFile::Slips { among, .. } => among.first().map(|it| &it.name),
        VaryFile::Indicator { .. } | VaryFile::Chart { .. } | VaryFile::Fault => None,
    }
}

/// In how many ways `least` to `most` can be chosen of that number.
fn choices(of: usize, least: usize, most: usize) -> u32 {
    (0..1_u32.wrapping_shl(of.min(MOST_SLIPS) as u32)).filter(|it| is_choice(*it, least, most)).count() as u32
}

/// Whether a choice, written in bits, is of `least` to `most`.
const fn is_choice(bits: u32, least: usize, most: usize) -> bool {
    let count = bits.count_ones() as usize;
    least <= count && count <= most
}

/// The choice of that number among all of them: whether each thing is in it.
fn choice(of: usize, least: usize, most: usize, number: u32) -> impl Fn(usize) -> bool {
    let all = (0..1_u32.wrapping_shl(of.min(MOST_SLIPS) as u32)).filter(move |it| is_choice(*it, least, most));
    let bits = all.into_iter().nth(number as usize).unwrap_or_default();
    move |slip| bits.checked_shr(slip as u32).is_some_and(|rest| rest & 1 == 1)
}

/// Gives each core that is named by its place in its cable, `drop/2`, the name that it has in a cable of that kind.
pub(super) fn name_cores(file: &mut ScenarioFile<'_>) {
    let ScenarioFile { cables, connected, slips, predict, suspects, vary, .. } = file;
    let mut named: Vec<&mut String> = suspects.iter_mut().flat_map(|it| &mut it.at).map(|it| &mut it.value).collect();
    let mut acts: Vec<&mut HandAct> = slips.iter_mut().map(|it| &mut it.value).collect();
    for it in vary {
        match it {
            VaryFile::Ends { among } => named.extend(among.iter_mut().map(|name| &mut name.value)),
            VaryFile::Slips { among, .. } => {
                acts.extend(among.iter_mut().flat_map(|it| &mut it.done).map(|it| &mut it.value));
            }
            _ => {}
        }
    }
    let of_acts = acts.into_iter().flat_map(HandAct::places_mut);
    named.extend(of_acts.filter_map(|it| if let SlipPlace::End(end) = it { Some(end) } else { None }));
    let ends = connected.iter_mut().map(|it| &mut it.end.value).chain(named);
    for core in ends.chain(predict.iter_mut().map(|it| &mut it.value)) {
        let Some((id, rest)) = core.split_once('/').filter(|it| it.1.starts_with(|it: char| it.is_ascii_digit()))
        else {
            continue;
        };
        let (number, place) = rest.split_once('@').map_or((rest, None), |(it, place)| (it, Some(place)));
        let kind = cables.iter().find(|it| it.id.value == id).map(|it| it.kind);
        let number = number.parse::<usize>().ok().and_then(|it| it.checked_sub(1));
        let Some(its) = kind.zip(number).and_then(|(kind, it)| kind.cores().get(it)) else { continue };
        *core = match place {
            Some(place) => format!("{id}/{}@{place}", its.name),
            None => format!("{id}/{}", its.name),
        };
    }
}

/// Gives each gang that is called by its name, `plate.shed.COM`, the number that it has on its plate.
pub(super) fn name_gangs(file: &mut ScenarioFile<'_>) {
    let ScenarioFile { locations, connected, slips, controls, unmarked, vary, .. } = file;
    let mut numbers = Vec::new();
    for it in locations.iter() {
        if let HasFile::Box { gangs: Some(gangs), .. } = &it.has {
            let number = |gang: usize| if gangs.len() == 1 { String::new() } else { format!(".{}", gang + 1) };
            let named = |(gang, name): (usize, &Placed<'_, String>)| {
                (format!("{}.{}", it.id.value, name.value), format!("{}{}", it.id.value, number(gang)))
            };
            numbers.extend(gangs.iter().enumerate().map(named));
        }
    }
    let isolators = locations.iter_mut().filter_map(|it| match &mut it.has {
        HasFile::Fan { isolator: Some(it), .. } => Some(&mut it.value),
        _ => None,
    });
    let switches = controls.iter_mut().flat_map(|control| &mut control.switches).map(|switch| &mut switch.value);
    let of_vary =
        vary.iter_mut().filter_map(|it| if let VaryFile::Slips { among, .. } = it { Some(among) } else { None });
    let acts = slips.iter_mut().chain(of_vary.flatten().flat_map(|it| &mut it.done));
    let of_acts = acts.flat_map(|it| it.value.places_mut());
    let of_acts = of_acts.filter_map(|it| if let SlipPlace::Terminal(terminal) = it { Some(terminal) } else { None });
    let unlettered = unmarked.iter_mut().flat_map(|it| &mut it.terminals).map(|it| &mut it.value);
    let named = connected.iter_mut().map(|it| &mut it.at.value).chain(switches).chain(isolators);
    for address in named.chain(of_acts).chain(unlettered) {
        let rest = |name: &str| address.strip_prefix(name).filter(|it| it.is_empty() || it.starts_with('.'));
        if let Some(new) = numbers.iter().find_map(|(name, number)| Some(format!("{number}{}", rest(name)?))) {
            *address = new;
        }
    }
}

/// Deals the gangs of a plate out afresh, each with its way, and says in the brief where each stands.
fn deal_gangs(file: &mut ScenarioFile<'_>, location: &str, called: &[String], stream: &mut Stream) {
    let Some(HasFile::Box { gangs: Some(gangs), ways, .. }) = place(file, location) else { return };
    let mut dealt: Vec<_> = gangs.iter().cloned().zip(ways.value.iter().copied()).collect();
    stream.shuffle(&mut dealt);
    (*gangs, ways.value) = dealt.into_iter().unzip();
    let names: Vec<String> = gangs.iter().map(|it| it.value.clone()).collect();
    for (name, place) in names.iter().zip(called) {
        file.brief.value = file.brief.value.replace(&format!("{{{name}}}"), place);
    }
}

/// Replaces each variable part by the value its stream gives, or by the one that is set: which entry, and which of its values. References
/// were checked: what is not found is left alone.
fn settle(file: &mut ScenarioFile<'_>, seed: Seed, set: Option<(usize, u32)>) {
    let (format, id) = (file.format.value, file.id.value.clone());
    let mut dealt = Vec::new();
    file.edition = EditionFile::naming(file.edition.edition());
    // For those who choose an exercise; it changes nothing in it.
    file.course = None;
    for (entry, vary) in std::mem::take(&mut file.vary).into_iter().enumerate() {
        let mut stream = Stream::new(format, &id, seed, &stream_name(&vary));
        let count = values(file, &vary);
        let set = set.filter(|it| it.0 == entry).map(|it| it.1);
        let value = set.unwrap_or_else(|| if count > 0 { stream.below(count) } else { 0 });
        let chosen = value as usize;
        match vary {
            VaryFile::Length { cable, least, .. } => {
                let metres = least.value + 0.5 * f64::from(value);
                let cables = file.cables.iter_mut().map(|it| (&it.id, &mut it.metres));
                let runs = file.runs.iter_mut().map(|it| (&it.id, &mut it.metres));
                if let Some((_, it)) = cables.chain(runs).find(|(id, _)| id.value == cable.value) {
                    it.value = metres;
                }
            }
            VaryFile::Kind { cable, among } => {
                if let Some(it) = file.cables.iter_mut().find(|it| it.id.value == cable.value) {
                    it.kind = among.value[chosen];
                }
            }
            VaryFile::Body { location, among } => {
                if let Some(HasFile::Box { body, .. }) = place(file, &location) {
                    *body = among.value[chosen];
                }
            }
            VaryFile::Plate { location, among } => {
                if let Some(HasFile::Box { plate, .. }) = place(file, &location) {
                    *plate = among.value[chosen];
                }
            }
            VaryFile::Watts { lamp, among } => {
                if let Some(HasFile::Luminaire { watts, .. }) = place(file, &lamp) {
                    watts.value = among.value[chosen];
                }
            }
            VaryFile::Devices { among } => {
                let from: Vec<String> = among.into_iter().map(|it| it.value).collect();
                let mut to = from.clone();
                stream.shuffle(&mut to);
                exchange(file, &from, &to);
            }
            VaryFile::Ends { .. } => dealt.push((vary, chosen)),
            VaryFile::Slips { least, most, among } => {
                let is_chosen = choice(among.len(), least.value, most.value, value);
                let chosen = among.into_iter().enumerate().filter(|it| is_chosen(it.0));
                file.slips.extend(chosen.flat_map(|it| it.1.done));
            }
            VaryFile::Gangs { location, called } => deal_gangs(file, &location, &called, &mut stream),
            VaryFile::Unmarked { at } => {
                for it in file.unmarked.iter_mut().filter(|it| it.at.value == at.value) {
                    stream.shuffle(&mut it.cables);
                    stream.shuffle(&mut it.terminals);
                }
            }
            VaryFile::Indicator { among } => file.kit.indicator = among.value[chosen],
            VaryFile::Chart { among } => file.kit.chart = among.value[chosen],
            VaryFile::Fault => file.fault = value,
            VaryFile::Passing { cable, among } => {
                if among.value[chosen] == Presence::Away {
                    file.cables.retain(|it| it.id.value != cable.value);
                    let of_it = |end: &str| end.split_once('/').is_some_and(|it| it.0 == cable.value);
                    file.connected.retain(|it| !of_it(&it.end.value));
                }
            }
        }
    }
    // Once it is settled of what kind each cable is, an end has one name wherever it is spoken of.
    let (dealt, orders): (Vec<_>, Vec<_>) = dealt.into_iter().unzip();
    file.vary = dealt;
    name_cores(file);
    for (vary, order) in std::mem::take(&mut file.vary).into_iter().zip(orders) {
        if let VaryFile::Ends { among } = vary {
            deal(file, among.into_iter().map(|it| it.value).collect(), order);
        }
    }
    name_gangs(file);
    for it in &mut file.locations {
        if let HasFile::Box { gangs, .. } = &mut it.has {
            *gangs = None;
        }
    }
}

/// Puts these ends into each other's places, in the order of that number: 0 leaves each where it is.
fn deal(file: &mut ScenarioFile<'_>, mut ends: Vec<String>, mut order: usize) {
    let places: Vec<Option<usize>> =
        ends.iter().map(|end| file.connected.iter().position(|it| it.end.value == *end)).collect();
    for place in places {
        let left = ends.len();
        let end = ends.remove(order % left);
        order /= left;
        if let Some(it) = place.and_then(|it| file.connected.get_mut(it)) {
            it.end.value = end;
        }
    }
}

/// The name of the thing that varies, from which its random numbers follow: with another text every exercise that was drawn from a seed
/// would come out differently. A file has one indicator and one chart at most.
fn stream_name(vary: &VaryFile<'_>) -> String {
    match vary {
        VaryFile::Length { cable, .. } => format!("length of {}", cable.value),
        VaryFile::Kind { cable, .. } => format!("kind of {}", cable.value),
        VaryFile::Body { location, .. } => format!("body of {}", location.value),
        VaryFile::Plate { location, .. } => format!("plate of {}", location.value),
        VaryFile::Watts { lamp, .. } => format!("watts of {}", lamp.value),
        VaryFile::Gangs { location, .. } => format!("gangs of {}", location.value),
        VaryFile::Devices { among } => {
            let names: Vec<_> = among.iter().map(|it| it.value.as_str()).collect();
            format!("devices {}", names.join(" "))
        }
        VaryFile::Ends { among } => {
            let names: Vec<_> = among.iter().map(|it| it.value.as_str()).collect();
            format!("ends {}", names.join(" "))
        }
        VaryFile::Slips { among, .. } => {
            let names: Vec<_> = among.iter().map(|it| it.name.value.as_str()).collect();
            format!("slips {}", names.join(" "))
        }
        VaryFile::Indicator { .. } => "indicator".to_owned(),
        VaryFile::Chart { .. } => "chart".to_owned(),
        VaryFile::Fault => "fault".to_owned(),
        VaryFile::Passing { cable, .. } => format!("passing of {}", cable.value),
        VaryFile::Unmarked { at } => format!("unmarked at {}", at.value),
    }
}

/// Where the first act of a scenario's text stands that is this act of an exercise drawn from it; the start of the text if no act is.
pub(crate) fn span_of_slip(text: &str, drawn: &Exercise, act: &HandAct) -> Range<usize> {
    let Ok(mut file) = parse(text) else { return 0..0 };
    for it in &mut file.cables {
        it.kind = drawn.cables.iter().find(|cable| cable.id == it.id.value).map_or(it.kind, |cable| cable.kind);
    }
    name_cores(&mut file);
    name_gangs(&mut file);
    let of_vary =
        file.vary.iter().filter_map(|it| if let VaryFile::Slips { among, .. } = it { Some(among) } else { None });
    let mut acts = file.slips.iter().chain(of_vary.flatten().flat_map(|it| &it.done));
    acts.find(|it| it.value == *act).map_or(0..0, |it| it.span(text))
}

fn place<'f, 'a>(file: &'f mut ScenarioFile<'a>, id: &str) -> Option<&'f mut HasFile<'a>> {
    file.locations.iter_mut().find(|it| it.id.value == id).map(|it| &mut it.has)
}

/// Moves what is connected at each device of `from`, and its name on the chart, to the device at the same place in `to`.
fn exchange(file: &mut ScenarioFile<'_>, from: &[String], to: &[String]) {
    let moved = |device: &str| from.iter().position(|it| it == device).map(|it| to[it].clone());
    for connected in &mut file.connected {
        if let Some((device, terminal)) = connected.at.value.rsplit_once('.')
            && let Some(new) = moved(device)
        {
            connected.at.value = format!("{new}.{terminal}");
        }
    }
    for location in &mut file.locations {
        let board = location.id.value.clone();
        if let HasFile::Board { devices } = &mut location.has {
            let before: Vec<(String, String)> =
                devices.iter().map(|it| (format!("{board}.{}", it.id.value), it.circuit.value.clone())).collect();
            for device in devices {
                let here = format!("{board}.{}", device.id.value);
                let source = to.iter().position(|it| *it == here).map(|it| &from[it]);
                if let Some((_, circuit)) = before.iter().find(|(it, _)| Some(it) == source) {
                    device.circuit.value.clone_from(circuit);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{Edition, SHIPPED, read, shipped};

    #[test]
    fn an_exercise_that_was_drawn_under_another_edition_is_the_same_and_one_that_must_have_its_own_is_not() {
        let silent = shipped("one-way-rose").unwrap();
        assert!(!silent.contains("edition:"), "it names one");
        let drawn = draw(silent, Seed(3)).unwrap();
        assert_eq!(drawn.edition, Edition::A4of2026);
        let before = drawn.text().replace("edition:A4of2026", "edition:A2of2022");
        let before = read(&before, Seed(3)).unwrap();
        assert_eq!(before.edition, Edition::A2of2022);
        let scenario = read(silent, Seed(0)).unwrap();
        assert!(Template::of(&scenario).unwrap().draws(&before));
        let naming = silent.replace("earthing:", "edition: A4of2026,\n    earthing:");
        let naming = read(&naming, Seed(0)).unwrap();
        let naming = Template::of(&naming).unwrap();
        assert!(naming.draws(&drawn) && !naming.draws(&before));
    }

    #[test]
    fn every_value_of_everything_that_may_vary_gives_an_exercise() {
        for (id, text) in SHIPPED {
            let drawn = draw_each_value(text, Seed(0)).unwrap_or_else(|it| panic!("{id}: {it:#?}"));
            assert!(drawn.len() > 5, "{id}");
        }
    }

    /// A core by its place in the cable has the name that it has in the kind that is drawn; one by its colour is not in every kind, and that
    /// is said where the kind may vary.
    #[test]
    fn a_core_is_named_by_its_place_where_the_kind_may_vary() {
        let by_colour = shipped("wire-a-switch")
            .unwrap()
            .replace("vary: [", "vary: [Kind(cable: \"drop\", among: [TwinEarth, OldTwinRedEarth, TwinBrownEarth]),");
        let problems = draw_each_value(&by_colour, Seed(0)).unwrap_err();
        let first = problems.into_iter().next().unwrap();
        assert_eq!((first.code, &by_colour[first.span.clone()]), (ProblemCode::BadVariation, "\"drop\""));
        let by_place = by_colour.replace("drop/brown", "drop/1").replace("drop/blue", "drop/2");
        let drawn = draw_each_value(&by_place, Seed(0)).unwrap();
        let has = |number: usize, name: &str| drawn[number].end(&format!("drop/{name}@rose")).is_ok();
        assert!(has(0, "brown") && has(0, "blue"));
        assert!(has(1, "red1") && has(1, "red2"));
        assert!(has(2, "brown1") && has(2, "brown2") && !has(2, "blue"));
        // A place that no core has, and a kind with another number of cores.
        let none = by_place.replace("drop/2@rose", "drop/4@rose");
        assert_eq!(draw(&none, Seed(0)).unwrap_err().into_iter().next().unwrap().code, ProblemCode::UnknownEnd);
        let other = by_place.replace("OldTwinRedEarth", "ThreeCoreEarth");
        assert_eq!(draw(&other, Seed(0)).unwrap_err().into_iter().next().unwrap().code, ProblemCode::BadVariation);
    }

    /// A house that is drawn otherwise today is the same job; a cable of another length is not.
    #[test]
    fn where_things_are_drawn_makes_no_other_exercise() {
        let text = shipped("two-way-passage").unwrap();
        let scenario = read(text, Seed(0)).unwrap();
        let template = Template::of(&scenario).unwrap();
        let drawn = draw(text, Seed(3)).unwrap();
        let (before, rest) = drawn.text().split_once("rooms:[").unwrap();
        let (_, after) = rest.split_once("],cables").unwrap();
        let plain = format!("{before}cables{after}").replace("at:(13,44)", "at:(0,46)");
        assert!(!plain.contains("rooms") && plain.contains("at:(0,46)"));
        assert!(template.draws(&read(&plain, Seed(3)).unwrap()));
        let longer = plain.replacen("metres:0.6", "metres:0.7", 1);
        assert_ne!(longer, plain);
        assert!(!template.draws(&read(&longer, Seed(3)).unwrap()));
    }

    #[test]
    fn what_a_template_gives_is_what_its_text_says() {
        for (id, text) in SHIPPED {
            let scenario = read(text, Seed::default()).unwrap();
            let template = Template::of(&scenario).unwrap();
            for seed in (0..20).map(Seed) {
                let drawn = draw(text, seed).unwrap();
                let given = template.exercise(drawn.text(), seed).unwrap();
                assert_eq!(format!("{given:?}"), format!("{:?}", read(drawn.text(), seed).unwrap()), "{id}, {seed:?}");
                assert!(template.draws(&given));
                // Another seed, or one letter changed, and it must be read.
                let changed = drawn.text().replacen("metres:", "metres: ", 1);
                assert!(template.exercise(&changed, seed).is_none(), "{id}");
            }
            let other = draw(text, Seed(7)).unwrap();
            let differ = (0..20).filter(|it| template.exercise(other.text(), Seed(*it)).is_none()).count();
            assert!(differ >= 15, "{id}: {differ}");
        }
    }
}
