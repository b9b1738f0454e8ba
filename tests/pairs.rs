//! Pairs of slips from accepted wirings. For every pair in which both faults still stand, the sheet names both, the outcome is no better
//! than the worse alone, and no fewer marks are lost than for the dearer alone. What the sheet advises, carried out, never makes
//! anything graver and within as many rounds as there were causes leaves nothing to be found, by the oracle of `slips` either.
//!
//! A pair cancels if the oracle finds nothing wrong with it. It changes if what one slip alone was found for is not there
//! any more: a core loose at one end is no live end if its other end stands in the neutral. Such a pair is what it is.

use switchdrop::{
    attempt::{Attempt, Mode},
    exercise::EndId,
    marking::{Code, Finding, Outcome, Root, Seen, Sheet, Weight, mark, to_remake},
    trade::colour::{Colour, Mark},
    work::{Edit, Work},
};

use crate::{
    hand::{Hand, accepted},
    installations::{BATHROOM, BATHROOM_WIRED, GRANARY, GRANARY_WIRED, wired},
    slips::{Oracle, slips},
    wirings::Dice,
};

/// A slip that is wrong, and what the sheet says of it alone.
struct Slip {
    name: String,
    edits: Vec<Edit>,
    sheet: Sheet,
}

/// A line of the table.
#[derive(Default)]
struct Row {
    from: String,
    tried: usize,
    cancelled: usize,
    changed: usize,
    missed: usize,
    accused: usize,
    cheaper: usize,
    /// Mended only by taking out and remaking what the sheet names.
    remade: usize,
    unmended: usize,
    /// What was judged wrong.
    wrong: Vec<String>,
}

impl Row {
    /// Judges the sheet of a pair.
    fn judge(&mut self, hand: &Hand, a: &Slip, b: &Slip) {
        let work = hand.attempt.work();
        let attempt = hand.attempt.supposing(&[a.edits.clone(), b.edits.clone()].concat());
        if !apart(work, a, b) || is_crowded(attempt.work()) {
            return;
        }
        self.tried += 1;
        let sheet = mark(&attempt, Mode::Set);
        let told = causes(attempt.work(), &sheet);
        let mut wrong = |what: &str, more: String| {
            self.wrong.push(format!("{}: {} and {}: {what} {more}: {told:?}", self.from, a.name, b.name));
        };
        if (Oracle { work: attempt.work() }).wrong().is_none() {
            self.cancelled += 1;
            if lost(&sheet) > 0 {
                self.accused += 1;
                wrong("accused", String::new());
            }
            return;
        }
        if told.is_empty() {
            self.missed += 1;
            wrong("missed", String::new());
            return;
        }
        match mended(&attempt, &sheet, work) {
            Ok(Mended::ByMoves) => {}
            Ok(Mended::ByRemaking) => self.remade += 1,
            Err(why) => {
                self.unmended += 1;
                wrong("not mended", why);
            }
        }
        // One move away from a wiring that does the job in another way, it is one slip from there.
        if !stands_in(&a.sheet, &sheet) || !stands_in(&b.sheet, &sheet) || is_one_move(&sheet) {
            self.changed += 1;
            return;
        }
        let worse = grave(&a.sheet).max(grave(&b.sheet));
        let dearer = lost(&a.sheet).max(lost(&b.sheet));
        if grave(&sheet) < worse || lost(&sheet) < dearer {
            self.cheaper += 1;
            let alone = [&a.sheet, &b.sheet].map(|it| causes(attempt.work(), it));
            wrong("cheaper", format!("{} for {dearer}, {alone:?}", lost(&sheet)));
        }
    }
}

/// Whether two slips are with different ends.
fn apart(work: &Work, a: &Slip, b: &Slip) -> bool {
    let ends = |slip: &Slip| -> Vec<EndId> {
        let of = |it: &Edit| match it {
            Edit::Move(end, _) | Edit::Mark(end, _) => vec![*end],
            Edit::Slacken(at) => work.ends_in(*at).collect(),
            _ => Vec::new(),
        };
        slip.edits.iter().flat_map(of).collect()
    };
    let others = ends(b);
    !ends(a).iter().any(|it| others.contains(it))
}

/// Whether more conductors are in a terminal than it takes.
fn is_crowded(work: &Work) -> bool {
    let mut terminals = work.exercise().terminals.with_ids();
    terminals.any(|(id, it)| work.ends_in(id).count() > it.capacity.conductors)
}

/// Whether the causes of a slip alone are found in the pair too, as causes or not; and of what made one as grave as it was, something.
fn stands_in(alone: &Sheet, pair: &Sheet) -> bool {
    let is_there = |it: &Finding| pair.findings.iter().any(|other| (other.code, other.at) == (it.code, it.at));
    let causes = alone.findings.iter().enumerate().filter(|(_, it)| it.root == Root::Itself && is_standing(it));
    causes.into_iter().all(|(index, cause)| {
        let is_lent = matches!(cause.code, Code::CoresExchanged | Code::ControlWrong)
            && cause.weight == Weight::Critical
            || cause.charged != cause.code.criterion();
        let lends = |it: &&Finding| it.root == Root::Of(index) && it.weight == cause.weight && is_standing(it);
        is_there(cause) && (!is_lent || alone.findings.iter().filter(lends).any(is_there))
    })
}

/// Whether something is found in the work as it stands, and costs: no act, no reading, no advice.
fn is_standing(it: &Finding) -> bool {
    let of_work = !matches!(
        it.code,
        Code::StageMissing
            | Code::PredictionMissing
            | Code::FunctionUntested
            | Code::TestMissing
            | Code::TestNotRepeated
    );
    of_work && !matches!(it.seen, Seen::InAction(_)) && it.weight > Weight::Advice && !it.before
}

/// Marks lost at causes. What a dark light is not awarded goes by the lights that are dark: a second slip may light one.
fn lost(sheet: &Sheet) -> u32 {
    let not_awarded: u32 = sheet.criteria.iter().map(|it| it.not_awarded).sum();
    sheet.out_of - sheet.marks - not_awarded
}

/// How grave an outcome is, a pass 0.
pub fn grave(sheet: &Sheet) -> u8 {
    match sheet.outcome {
        Outcome::Pass => 0,
        Outcome::NotYet => 1,
        Outcome::Refer => 2,
    }
}

fn causes(work: &Work, sheet: &Sheet) -> Vec<String> {
    let causes = sheet.findings.iter().filter(|it| it.root == Root::Itself && is_standing(it));
    causes.map(|it| format!("{} at {}: {}", it.code.word(), it.at.address(work.exercise()), it.lost)).collect()
}

/// Whether what stands is put right by moving one end.
fn is_one_move(sheet: &Sheet) -> bool {
    let causes = sheet.findings.iter().filter(|it| it.root == Root::Itself && is_standing(it));
    let repairs: Vec<&Vec<Edit>> = causes.filter_map(|it| it.repair.as_ref()).collect();
    matches!(repairs.as_slice(), [edits] if edits.iter().filter(|it| matches!(it, Edit::Move(..))).count() == 1)
}

/// How what is advised mends.
enum Mended {
    ByMoves,
    ByRemaking,
}

/// The ends at the places that the sheet names taken out and joined anew, as they stood in the wiring that the slips were made in.
fn remake(work: &Work, right: &Work) -> Vec<Edit> {
    let places = to_remake(work);
    let ends = places.iter().flat_map(|it| work.ends_at(*it)).filter(|it| !work.is_undisturbed(*it));
    let anew = |end: EndId| {
        let is_there = right.ends().any(|it| it == end);
        let (to, mark) = if is_there { (right.terminal_of(end), right.mark_of(end)) } else { (None, None) };
        [Some(Edit::Move(end, to)), Some(Edit::Mark(end, mark)), to.map(Edit::Tighten)]
    };
    ends.flat_map(anew).flatten().collect()
}

/// Carries out what the sheet advises and marks again, at most as often as there were causes.
fn mended(attempt: &Attempt, sheet: &Sheet, right: &Work) -> Result<Mended, String> {
    let mut how = Mended::ByMoves;
    let worst = |it: &Sheet| it.findings.iter().filter(|found| is_standing(found)).map(|found| found.weight).max();
    let (mut attempt, mut sheet) = (attempt.clone(), sheet.clone());
    for _ in 0..causes(attempt.work(), &sheet).len() {
        let advised = sheet.findings.iter().filter(|it| it.root == Root::Itself && is_standing(it));
        let repairs = advised.filter_map(|it| it.repair.clone()).flatten();
        let mut edits: Vec<Edit> = repairs.flat_map(|it| with_what_goes_with_it(attempt.work(), it)).collect();
        let is_lost = |it: &Finding| {
            it.code == Code::ControlWrong && it.repair.is_none() && it.root == Root::Itself && is_standing(it)
        };
        if sheet.findings.iter().any(is_lost) {
            how = Mended::ByRemaking;
            edits = remake(attempt.work(), right);
        }
        attempt = attempt.supposing(&edits);
        let after = mark(&attempt, Mode::Set);
        if worst(&after) > worst(&sheet) {
            return Err(format!("graver, {:?}", causes(attempt.work(), &after)));
        }
        sheet = after;
        if causes(attempt.work(), &sheet).is_empty() {
            return (Oracle { work: attempt.work() }).wrong().map_or(Ok(how), |it| Err(it.to_owned()));
        }
    }
    Err(format!("left, {:?}", causes(attempt.work(), &sheet)))
}

/// A repair with the screw and the sleeve that go with it.
pub fn with_what_goes_with_it(work: &Work, edit: Edit) -> Vec<Edit> {
    match edit {
        Edit::Move(end, Some(to)) if work.end_facts(end).colour == Colour::Bare => {
            vec![edit, Edit::Tighten(to), Edit::Mark(end, Some(Mark::Sleeve(Colour::GreenYellow)))]
        }
        Edit::Move(_, Some(to)) => vec![edit, Edit::Tighten(to)],
        _ => vec![edit],
    }
}

/// The slips of a wiring that are wrong.
fn wrong_slips(hand: &Hand) -> Vec<Slip> {
    let all = slips(hand.attempt.work()).into_iter().filter_map(|(name, edits)| {
        let attempt = hand.attempt.supposing(&edits);
        (Oracle { work: attempt.work() }).wrong()?;
        Some(Slip { name, edits, sheet: mark(&attempt, Mode::Set) })
    });
    all.collect()
}

/// Each wiring with how many pairs are drawn from it where not all are tried: 500 for each exercise that has slips of joining.
fn wirings() -> Vec<(String, Hand, usize)> {
    let accepted = accepted().into_iter().map(|(name, hand)| {
        let share = if name == "one-way" { 500 } else { 42 };
        (name, hand, share)
    });
    let installed = [("granary", wired(GRANARY, GRANARY_WIRED)), ("bathroom", wired(BATHROOM, BATHROOM_WIRED))];
    accepted.chain(installed.map(|(name, attempt)| (name.to_owned(), Hand { attempt }, 20))).collect()
}

fn are_judged_right(rows: &[Row]) {
    println!("{:<44} tried cancelled changed missed accused cheaper remade unmended", "from");
    for it in rows {
        let counts = [it.tried, it.cancelled, it.changed, it.missed, it.accused, it.cheaper, it.remade, it.unmended];
        println!("{:<44} {counts:?}", it.from);
    }
    let wrong: Vec<&String> = rows.iter().flat_map(|it| &it.wrong).collect();
    assert!(wrong.is_empty(), "{} pairs judged wrong:\n{wrong:#?}", wrong.len());
    assert!(rows.iter().all(|it| it.tried > 0));
}

/// A seeded share. A pair counts as tried if its slips are with different ends and no terminal is crowded.
#[test]
fn a_share_of_the_pairs_is_judged_right_and_mended() {
    let mut dice = Dice(0x5eed);
    let rows = wirings().into_iter().map(|(from, hand, share)| {
        let slips = wrong_slips(&hand);
        let mut row = Row { from, ..Row::default() };
        while row.tried < share {
            row.judge(&hand, &slips[dice.below(slips.len())], &slips[dice.below(slips.len())]);
        }
        row
    });
    are_judged_right(&rows.collect::<Vec<_>>());
}

/// What every single slip is advised mends it.
#[test]
fn the_repair_of_every_single_slip_mends_it() {
    let mut wrong = Vec::new();
    for (from, hand, _) in wirings() {
        for Slip { name, edits, sheet } in wrong_slips(&hand) {
            match mended(&hand.attempt.supposing(&edits), &sheet, hand.attempt.work()) {
                Ok(Mended::ByMoves) => {}
                Ok(Mended::ByRemaking) => wrong.push(format!("{from}: {name}: only by remaking")),
                Err(why) => wrong.push(format!("{from}: {name}: {why}")),
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The whole table: `cargo test --release --no-default-features --features program --test main pairs -- --ignored --nocapture`.
#[test]
#[ignore = "takes minutes"]
fn every_pair_is_judged_right_and_mended() {
    let rows = wirings().into_iter().filter(|it| it.2 > 20).map(|(from, hand, _)| {
        let slips = wrong_slips(&hand);
        let mut row = Row { from, ..Row::default() };
        for (index, a) in slips.iter().enumerate() {
            slips[index + 1..].iter().for_each(|b| row.judge(&hand, a, b));
        }
        row
    });
    are_judged_right(&rows.collect::<Vec<_>>());
}
