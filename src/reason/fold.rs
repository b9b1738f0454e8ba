//! The count, place by place from the last to the first.
//!
//! A *part* is the last places together with the conductors that lead on to them. What a part can ever do to the lamp is told by which
//! knots its positions give, each with the parity of the position, and for each of its switches which two knots a toggle goes between. Parts that agree
//! in that are one, with the number of wirings that they stand for; a place more turns the knots into others, all alike. So five places cost five
//! steps, however many wirings there are.
//!
//! Which core is which makes no difference to what can follow: parts that differ in the order of the cores that lead on are one as well.
//!
//! Beside the number of wirings goes the number of those that differ in more than which core is which (W. Burnside's lemma: the mean, over all
//! exchanges of cores, of the wirings that an exchange leaves as they are). An exchange leaves a wiring as it is just when the cores that it sends
//! round in a circle stand in one terminal at either end; they then are as one core. So the same steps are taken with fewer cores between two places,
//! each number of circles weighted by how many exchanges have it: a Stirling number of the first kind.

mod part;

use std::collections::{BTreeMap, HashMap, btree_map::Entry};

use self::part::{ODD, PartCount, PartKey, PartLayer, Reordering, in_any_order, pair, sort};
use super::{
    class::{Facts, WayClass},
    knot::{Knot, WayOutcome},
    place::PlaceAsked,
    question::{Question, Unaskable},
};

/// Orders of `cores` things that send them round in `circles` circles (unsigned Stirling numbers of the first kind, by their recurrence).
fn orders_in_circles(cores: usize, circles: usize) -> u128 {
    match (cores, circles) {
        (0, 0) => 1,
        (0, _) | (_, 0) => 0,
        _ => orders_in_circles(cores - 1, circles - 1) + (cores as u128 - 1) * orders_in_circles(cores - 1, circles),
    }
}

/// Most steps of a count: some ten seconds, and the same answer on every machine.
const STEPS: usize = 10_000_000;

/// What a place does to the knots of the parts after it.
struct Turned {
    /// For each position of its switch and each knot after it, the knot with it.
    knots: [Vec<u16>; 2],
    ways: u128,
    crowd: u32,
    shown: Vec<u8>,
}

/// The count under way.
pub(super) struct PlaceFold<'a> {
    question: &'a Question,
    /// Places still to come.
    left: usize,
    /// For each number of conductors that may lead on to the part, with fewest first; the last is the one that is asked about.
    layers: Vec<PartLayer>,
    /// How often a way of a place was put to a part so far.
    steps: usize,
    /// The counts of that last layer for each place done, for the examples.
    done: Vec<Vec<PartCount>>,
}

/// The wirings of one class.
#[derive(Debug, Clone)]
pub(super) struct Folded {
    pub class: WayClass,
    pub ways: u128,
    pub grouped: u128,
    /// How crowded the terminals are in what is shown.
    pub crowd: u32,
    /// For each place a terminal for each of its ends.
    pub shown: Vec<Vec<u8>>,
}

impl<'a> PlaceFold<'a> {
    /// Nothing counted yet.
    pub fn new(question: &'a Question) -> Self {
        let mut layer = PartLayer::default();
        let knot = layer.number(Knot::nothing(question.lamp_has_neutral()));
        let key = PartKey { reached: vec![u32::from(knot)], toggled: Vec::new() };
        let nothing = PartCount { ways: 1, kept: 1, crowd: 0, shown: Vec::new(), without: 0 };
        // An empty layer takes what it is given.
        let _ = layer.add(key, nothing);
        Self { question, left: question.positions, layers: vec![layer], steps: 0, done: Vec::new() }
    }

    /// Adds the next place, if there is one left; says how many are left.
    pub fn step(&mut self) -> Result<usize, Unaskable> {
        let Some(place) = self.left.checked_sub(1) else { return Ok(0) };
        let bare = usize::from(self.question.cpc_as_core);
        // Insulated cores towards the first place: none from the first, else up to the number asked about.
        let counts = if place == 0 { 0..=0 } else { 1..=self.question.cores };
        let mut layers = Vec::new();
        for cores in counts {
            let left = if place == 0 { 0 } else { cores + bare };
            let weight = if place == 0 { 1 } else { orders_in_circles(self.question.cores, cores) };
            let mut layer = PartLayer::default();
            // Those that are asked about come first, so that the examples are theirs.
            for (right, after) in self.layers.iter().enumerate().rev() {
                let is_last = place + 1 == self.question.positions;
                let right = if is_last { 0 } else { right + 1 + bare };
                let asked = PlaceAsked { question: self.question, place, left, right };
                self.steps += add_place(&mut layer, after, asked, weight, STEPS - self.steps)?;
            }
            let reorderings = layer.reorderings(cores);
            let arriving = self.question.arriving(place).len();
            layers.push(layer.merge_orders(&reorderings, arriving, self.question.positions)?);
        }
        let last = self.layers.last_mut().map(|it| std::mem::take(&mut it.counts)).unwrap_or_default();
        self.done.push(last);
        self.layers = layers;
        self.left = place;
        Ok(place)
    }

    /// The classes, in their order, when no place is left.
    pub fn classes(mut self) -> Vec<Folded> {
        let Some(layer) = self.layers.pop() else { return Vec::new() };
        let outcomes: Vec<WayOutcome> = layer.knots.iter().map(Knot::outcome).collect();
        let outcome = |it: u32| outcomes[(it & !ODD) as usize];
        let mut classes: BTreeMap<WayClass, Folded> = BTreeMap::new();
        for (key, count) in layer.keys.iter().zip(&layer.counts) {
            let reached: Vec<(bool, WayOutcome)> = key.reached.iter().map(|it| (it & ODD != 0, outcome(*it))).collect();
            let changes = |(a, b): &(u16, u16)| outcome(u32::from(*a)).lit != outcome(u32::from(*b)).lit;
            let matters: Vec<bool> = key.toggled.iter().map(|it| it.iter().any(changes)).collect();
            let unearthed = self.question.cpc_as_core;
            let class = Facts { reached: &reached, matters: &matters, unearthed }.class();
            let nothing = || Folded { class, ways: 0, grouped: 0, crowd: u32::MAX, shown: Vec::new() };
            let had = classes.entry(class).or_insert_with(nothing);
            (had.ways, had.grouped) = (had.ways + count.ways, had.grouped + count.kept);
            if count.crowd <= had.crowd {
                let shown = self.shown(count);
                if (count.crowd, &shown) < (had.crowd, &had.shown) {
                    (had.crowd, had.shown) = (count.crowd, shown);
                }
            }
        }
        let exchanges = (1..self.question.positions).fold(1, |all, _| all * self.question.orders());
        classes.into_values().map(|it| Folded { grouped: it.grouped / exchanges, ..it }).collect()
    }

    /// The wiring that is shown for a part with every place in it, its cores in the order of the terminals that they go from and to.
    fn shown(&self, part: &PartCount) -> Vec<Vec<u8>> {
        let mut shown = Vec::new();
        let mut at = part;
        for earlier in self.done.iter().rev() {
            shown.push(at.shown.clone());
            at = &earlier[at.without];
        }
        for place in 1..shown.len() {
            let [before, here] = [place - 1, place].map(|it| self.question.arriving(it).len());
            let before = before + if place > 1 { self.question.conductors() } else { 0 };
            let cores = 0..self.question.cores;
            let mut ends: Vec<(u8, u8)> =
                cores.map(|it| (shown[place - 1][before + it], shown[place][here + it])).collect();
            ends.sort_unstable();
            for (core, (from, to)) in ends.into_iter().enumerate() {
                (shown[place - 1][before + core], shown[place][here + core]) = (from, to);
            }
        }
        shown
    }
}

/// Adds to a layer every way of a place with every part after it, in no more than so many steps; says in how many.
fn add_place(
    layer: &mut PartLayer,
    after: &PartLayer,
    asked: PlaceAsked<'_>,
    weight: u128,
    steps_left: usize,
) -> Result<usize, Unaskable> {
    let question = asked.question;
    let is_asked = [asked.left, asked.right].iter().all(|it| [0, question.conductors()].contains(it));
    let all = turned(layer, after, asked);
    let steps = all.len().saturating_mul(after.keys.len());
    if layer.knots.len() > usize::from(u16::MAX) || steps > steps_left {
        return Err(Unaskable::TooMany);
    }
    for turned in all {
        for (number, (key, count)) in after.keys.iter().zip(&after.counts).enumerate() {
            let ways = if is_asked { turned.ways * count.ways } else { 0 };
            let kept = turned.ways * count.kept * weight;
            let crowd = turned.crowd + count.crowd;
            let count = PartCount { ways, kept, crowd, shown: turned.shown.clone(), without: number };
            layer.add(turned.key(key, question.positions), count)?;
        }
    }
    Ok(steps)
}

/// What each way of a place does to the knots after it, those together that do the same but for the order of the cores that lead on.
fn turned(layer: &mut PartLayer, after: &PartLayer, asked: PlaceAsked<'_>) -> Vec<Turned> {
    let bare = asked.question.cpc_as_core;
    let mut found: HashMap<[Vec<u16>; 2], usize> = HashMap::new();
    let mut all: Vec<Turned> = Vec::new();
    for it in asked.ways() {
        let knots = [0, 1].map(|at: usize| -> Vec<u16> {
            let with = |knot: &Knot| layer.number(knot.and(&it.joined[at], asked.arriving(), asked.left, bare));
            after.knots.iter().map(with).collect()
        });
        if let Some(number) = found.get(&knots) {
            all[*number].or(Turned { knots, ways: it.ways, crowd: it.crowd, shown: it.shown });
        } else {
            found.insert(knots.clone(), all.len());
            all.push(Turned { knots, ways: it.ways, crowd: it.crowd, shown: it.shown });
        }
    }
    let insulated = asked.left.saturating_sub(usize::from(bare));
    let reorderings = layer.reorderings(insulated);
    let mut merged: BTreeMap<[Vec<u16>; 2], Turned> = BTreeMap::new();
    for it in all {
        let renamed = |with: &Reordering| {
            [0, 1].map(|at: usize| it.knots[at].iter().map(|knot| with.knots[usize::from(*knot)]).collect::<Vec<u16>>())
        };
        let Some((knots, order)) = reorderings.iter().map(|with| (renamed(with), with)).min_by(|a, b| a.0.cmp(&b.0))
        else {
            continue;
        };
        let turned = Turned { knots: knots.clone(), shown: order.shown(&it.shown, asked.arriving().len()), ..it };
        match merged.entry(knots) {
            Entry::Vacant(place) => {
                place.insert(turned);
            }
            Entry::Occupied(mut had) => had.get_mut().or(turned),
        }
    }
    merged.into_values().collect()
}

impl Turned {
    /// Takes others that do the same with it.
    fn or(&mut self, other: Self) {
        self.ways += other.ways;
        if (other.crowd, &other.shown) < (self.crowd, &self.shown) {
            (self.crowd, self.shown) = (other.crowd, other.shown);
        }
    }

    /// The part with this place.
    fn key(&self, part: &PartKey, positions: usize) -> PartKey {
        let turn = |at: usize, it: u32| u32::from(self.knots[at][(it & !ODD) as usize]);
        let mut reached: Vec<u32> = Vec::with_capacity(2 * part.reached.len());
        let mut own: Vec<(u16, u16)> = Vec::with_capacity(part.reached.len());
        for it in &part.reached {
            let (a, b) = (turn(0, *it), turn(1, *it));
            reached.extend([a | (it & ODD), b | (!it & ODD)]);
            own.extend(pair(a as u16, b as u16));
        }
        sort(&mut reached);
        sort(&mut own);
        let mut toggled: Vec<Vec<(u16, u16)>> = Vec::with_capacity(part.toggled.len() + 1);
        toggled.push(own);
        for pairs in &part.toggled {
            let both = |(a, b): &(u16, u16)| {
                [0, 1]
                    .into_iter()
                    .filter_map(|at: usize| {
                        let knots = &self.knots[at];
                        pair(knots[usize::from(*a)], knots[usize::from(*b)])
                    })
                    .collect::<Vec<_>>()
            };
            let mut turned: Vec<(u16, u16)> = pairs.iter().flat_map(both).collect();
            sort(&mut turned);
            toggled.push(turned);
        }
        in_any_order(&mut toggled, positions);
        PartKey { reached, toggled }
    }
}
