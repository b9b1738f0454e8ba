//! Causes in layers: what the causes found hide is looked for once they are mended. A short hides no other fault from the sheet.

use std::{
    cell::{Cell, RefCell},
    rc::Rc,
};

use super::{
    code::{Code, Weight},
    context::Context,
    effort::Effort,
    finding::{Draft, Repair, Root, Seen},
    pre_existing::Before,
    repair::after,
    roots::{self, is_structural},
    rules::{ask, ask_wiring},
    sheet::is_half_wired,
};
use crate::{
    attempt::Attempt,
    trade::colour::{Colour, Mark},
    work::{Edit, Work},
};

/// At most this many times the rules look behind what was mended.
const LAYERS: usize = 6;

/// A finding with its place among the others.
pub(super) struct PlacedDraft {
    pub draft: Draft,
    pub root: Root,
    pub repair: Option<Vec<Edit>>,
    /// Whether it shows only once the causes before it are mended.
    pub hidden: bool,
}

/// What is found, hidden or not, each with its root; and whether the search came to a bound, so that one of them may
/// follow from another after all.
pub(super) fn find(attempt: &Attempt, before: &Before, first: &[Draft], effort: &Effort) -> (Vec<PlacedDraft>, bool) {
    let mut all: Vec<PlacedDraft> = Vec::new();
    let mut mended: Vec<Edit> = Vec::new();
    let left = Cell::new(effort.asked);
    let at_bound = Cell::new(false);
    for layer in 0..=LAYERS {
        if layer == LAYERS {
            at_bound.set(true);
            break;
        }
        let work = after(attempt.work(), &mended);
        let asked = RepairsAsked::new(attempt, before, mended.clone(), &left, &at_bound);
        let drafts = match layer {
            0 => asked.known(first),
            _ if left.get() == 0 => {
                at_bound.set(true);
                break;
            }
            _ => asked.again(&[]).iter().filter(|it| is_new(attempt.work(), &mut all, it)).cloned().collect(),
        };
        if drafts.is_empty() {
            break;
        }
        let found = of_layer(&work, before, drafts, &asked, effort);
        let causes = found.iter().filter(|placed| placed.root == Root::Itself);
        let repairs = causes.filter_map(|cause| cause.repair.clone());
        let repairs: Vec<Edit> = repairs.filter(|edits| is_structural(edits)).flatten().collect();
        let base = all.len();
        // A light that was right before the repair needs more of the same repair.
        let whole =
            all.iter().position(|it| it.root == Root::Itself && it.repair.as_deref().is_some_and(is_structural));
        for it in found {
            let root = match (it.root, whole) {
                (Root::Itself, Some(whole)) if matches!(it.draft.code, Code::ControlWrong | Code::FanWrong) => {
                    all[whole].repair.iter_mut().for_each(|all| all.extend(it.repair.iter().flatten().cloned()));
                    Root::Of(whole)
                }
                (Root::Itself, _) => Root::Itself,
                (Root::Of(cause), _) => Root::Of(base + cause),
            };
            all.push(PlacedDraft { root, hidden: layer > 0, ..it });
        }
        // What is not wired yet hides nothing: it is still to do.
        if repairs.is_empty() || is_half_wired(attempt.work()) {
            break;
        }
        mended.extend(repairs.into_iter().flat_map(|it| with_its_sleeve(&work, it)));
    }
    (all, at_bound.get())
}

/// Whether something found behind mended causes was not found before them. What was, and still is, is told as it is now: a mark by the
/// job that its core has once it is where it belongs, so that nothing is dressed up as what it must not be.
///
/// An end that hung free was not there to be marked.
fn is_new(work: &Work, all: &mut [PlacedDraft], draft: &Draft) -> bool {
    let hung_free = draft.at.end(work).is_some_and(|it| work.terminal_of(it).is_none());
    if draft.weight == Weight::Advice || matches!(draft.seen, Seen::InAction(_)) || hung_free {
        return false;
    }
    let Some(known) = all.iter_mut().find(|it| it.draft.key() == draft.key()) else { return true };
    if let Repair::Edits(edits) = &draft.repair
        && known.root == Root::Itself
        && !is_structural(edits)
    {
        known.repair = Some(edits.clone());
        known.draft.about = draft.about;
        known.draft.weight = known.draft.weight.max(draft.weight);
    }
    false
}

/// The findings of one layer, each with its root and repair.
fn of_layer(
    work: &Work,
    before: &Before,
    mut drafts: Vec<Draft>,
    asked: &RepairsAsked<'_>,
    effort: &Effort,
) -> Vec<PlacedDraft> {
    let again = |edits: &[Edit]| asked.again(edits);
    let moves = roots::best_moves(work, &drafts, before.lamps(), &again, asked.at_bound, effort);
    let exchanged = moves.as_ref().map_or_else(Vec::new, |it| roots::exchanges_behind(work, it, &drafts, &again));
    drafts.extend(exchanged.iter().cloned());
    // An exchange stands until it is taken back.
    let again = |edits: &[Edit]| {
        let stands = |draft: &&Draft| !matches!(&draft.repair, Repair::Edits(back) if back.iter().all(|edit| edits.contains(edit)));
        let found = asked.again(edits);
        if exchanged.iter().any(|it| stands(&it)) {
            return found.iter().chain(exchanged.iter().filter(stands)).cloned().collect();
        }
        found
    };
    let roots = roots::find(work, &drafts, moves.as_ref(), &again, asked.at_bound);
    let placed = drafts.into_iter().zip(roots);
    placed.map(|(draft, (root, repair))| PlacedDraft { draft, root, repair, hidden: false }).collect()
}

/// An edit with the sleeve that goes with it: a bare core that is moved is sleeved.
fn with_its_sleeve(work: &Work, edit: Edit) -> Vec<Edit> {
    match edit {
        Edit::Move(end, Some(_)) if work.end_facts(end).colour == Colour::Bare => {
            vec![edit, Edit::Mark(end, Some(Mark::Sleeve(Colour::GreenYellow)))]
        }
        _ => vec![edit],
    }
}

/// A repair, and what the rules find after it.
type Answer = (Vec<Edit>, Rc<[Draft]>);

/// What the rules find after each repair that was asked about, so that none is asked about twice.
struct RepairsAsked<'a> {
    attempt: &'a Attempt,
    before: &'a Before,
    mended: Vec<Edit>,
    /// Whether the rules that look at how it was done are asked too.
    with_doing: bool,
    /// What is left of [`Effort::asked`].
    left: &'a Cell<usize>,
    /// Set where the search comes to a bound.
    at_bound: &'a Cell<bool>,
    /// The answer for no repair comes first.
    answers: RefCell<Vec<Answer>>,
}

impl<'a> RepairsAsked<'a> {
    fn new(
        attempt: &'a Attempt,
        before: &'a Before,
        mended: Vec<Edit>,
        left: &'a Cell<usize>,
        at_bound: &'a Cell<bool>,
    ) -> Self {
        let with_doing = mended.is_empty();
        Self { attempt, before, mended, with_doing, left, at_bound, answers: RefCell::default() }
    }

    /// What the rules found before any repair.
    fn known(&self, drafts: &[Draft]) -> Vec<Draft> {
        self.answers.borrow_mut().push((Vec::new(), drafts.into()));
        drafts.to_vec()
    }

    fn again(&self, edits: &[Edit]) -> Rc<[Draft]> {
        let known = |edits: &[Edit]| {
            let answers = self.answers.borrow();
            answers.iter().find(|it| it.0 == edits).map(|it| Rc::clone(&it.1))
        };
        if let Some(known) = known(edits) {
            return known;
        }
        if self.left.get() == 0 {
            self.at_bound.set(true);
            if let Some(nothing) = known(&[]) {
                return nothing;
            }
        }
        let (work, tally, safety) = (self.attempt.work(), self.attempt.tally(), self.attempt.safety());
        let ctx = Context::new(work, tally, safety, &[self.mended.as_slice(), edits].concat(), self.before);
        let cost = ctx.survey.distinct.len() * ctx.work.point_count();
        self.left.set(self.left.get().saturating_sub(cost));
        let found: Rc<[Draft]> = if self.with_doing { ask(&ctx) } else { ask_wiring(&ctx) }.into();
        self.answers.borrow_mut().push((edits.to_vec(), Rc::clone(&found)));
        found
    }
}
