//! A small algebra: which of the nets that are still open are one, and which of those have bare copper on them.
//!
//! A *knot* is what a part of the house does to the nets that reach out of it, in one position of the part's own switches: the line, the
//! neutral, the two contacts of the lamp, and the conductors that lead to the next place.

use super::question::Net;

/// Nets that reach everywhere.
pub(super) const GLOBAL: usize = Net::ALL.len();
/// Most nets of a knot: four global ones, four cores and a bare one.
const MOST: usize = GLOBAL + 5;

/// Which open nets are one. Two are equal just when they do the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Knot {
    /// For each open net the number of its set, numbered as they first come.
    label: [u8; MOST],
    /// Sets with bare copper on them, a bit each.
    bare: u16,
}

/// What the lamp and the copper do in the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct WayOutcome {
    /// Line and neutral meet.
    pub trips: bool,
    /// The lamp is between line and neutral.
    pub lit: bool,
    /// Something that can be touched is energised: bare copper, or a contact of the lampholder while the lamp is out.
    pub shocks: bool,
    /// Which of the lamp's contacts are on the neutral.
    pub on_neutral: [bool; 2],
}

impl Knot {
    /// What there is before any place: nothing is one, but for the lamp's second contact if that is on the neutral.
    pub fn nothing(lamp_has_neutral: bool) -> Self {
        let mut label = [0; MOST];
        label[..GLOBAL].copy_from_slice(if lamp_has_neutral { &[0, 1, 2, 1] } else { &[0, 1, 2, 3] });
        Self { label, bare: 0 }
    }

    /// This part and the next place together, whose ends stand so in one position of its switch. The ends are what arrives, then `left`
    /// conductors that lead on, then those of the part. `bare`: the last of the `left` ones is bare.
    pub fn and(&self, joined: &[u8], arriving: &[Net], left: usize, bare: bool) -> Self {
        // Sets of this part, then one for each conductor that leads on.
        let before = MOST as u8;
        let mut sets = [0_u8; 2 * MOST];
        (0..).zip(&mut sets).for_each(|(number, it)| *it = number);
        let part = arriving.len() + left;
        let set_of = |end: usize| match arriving.get(end) {
            Some(net) => self.label[*net as usize],
            None if end < part => before + (end - arriving.len()) as u8,
            None => self.label[GLOBAL + end - part],
        };
        // Of all ends that are joined the first stands for them.
        let mut first = [u8::MAX; 2 * MOST];
        for (end, group) in joined.iter().enumerate() {
            let set = set_of(end);
            let first = &mut first[usize::from(*group)];
            if *first == u8::MAX {
                *first = set;
                continue;
            }
            let (a, b) = (sets[usize::from(*first)], sets[usize::from(set)]);
            if a != b {
                sets.iter_mut().filter(|it| **it == b).for_each(|it| *it = a);
            }
        }
        let set = |it: u8| usize::from(sets[usize::from(it)]);
        let mut has_bare = [false; 2 * MOST];
        (0..MOST as u8).filter(|it| self.bare >> it & 1 == 1).for_each(|it| has_bare[set(it)] = true);
        if bare && left > 0 {
            has_bare[set(before + left as u8 - 1)] = true;
        }
        let open = (0..GLOBAL).map(|it| set(self.label[it])).chain((0..left as u8).map(|it| set(before + it)));
        let knot = Self::named(open, |it| has_bare[it]);
        if knot.is_one(Net::Line, Net::Neutral) {
            // Whatever is joined besides, line and neutral stay one, and the rest is dead.
            return Self { label: [0; MOST], bare: 0 };
        }
        knot
    }

    /// Of the set of each open net, its sets numbered as they first come.
    fn named(sets: impl Iterator<Item = usize>, has_bare: impl Fn(usize) -> bool) -> Self {
        let mut knot = Self { label: [0; MOST], bare: 0 };
        let mut name = [u8::MAX; 2 * MOST];
        let mut names = 0;
        for (place, set) in sets.enumerate() {
            if name[set] == u8::MAX {
                name[set] = names;
                knot.bare |= u16::from(has_bare(set)) << names;
                names += 1;
            }
            knot.label[place] = name[set];
        }
        knot
    }

    /// The same with the cores that lead on in another order: each is the one that it names.
    pub fn reordered(&self, order: &[usize]) -> Self {
        let mut label = self.label;
        for (core, was) in order.iter().enumerate() {
            label[GLOBAL + core] = self.label[GLOBAL + was];
        }
        Self::named(label.iter().map(|it| usize::from(*it)), |it| self.bare >> it & 1 == 1)
    }

    fn is_one(&self, a: Net, b: Net) -> bool {
        self.label[a as usize] == self.label[b as usize]
    }

    /// What it comes to with every place in it.
    pub fn outcome(&self) -> WayOutcome {
        let trips = self.is_one(Net::Line, Net::Neutral);
        let at = |net: Net| [Net::Lamp, Net::LampReturn].map(|it| self.is_one(it, net));
        let (line, neutral) = (at(Net::Line), at(Net::Neutral));
        let lit = !trips && (line[0] && neutral[1] || line[1] && neutral[0]);
        // A contact that is on the line energises the other through the lamp, unless that is on the neutral.
        let is_live = |it: Net| {
            self.is_one(it, Net::Line)
                || self.is_one(it, Net::Lamp) && !neutral[0] && line[1]
                || self.is_one(it, Net::LampReturn) && !neutral[1] && line[0]
        };
        let holder = !lit && (line[0] || line[1]);
        let bare = Net::ALL.iter().any(|it| self.bare >> self.label[*it as usize] & 1 == 1 && is_live(*it));
        WayOutcome { trips, lit, shocks: !trips && (holder || bare), on_neutral: neutral }
    }
}
