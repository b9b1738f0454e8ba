//! Pairs of slips from each accepted wiring: what a sheet says of two faults, and whether what it advises puts them right.

use std::collections::BTreeMap;

use switchdrop::{
    exercise::EndId,
    marking::{Finding, Outcome, Root, Seen, Sheet, Weight, mark},
    trade::colour::{Colour, Mark},
    work::{Attempt, Edit, Mode, Work},
};

use crate::{
    hand::accepted,
    slips::{Oracle, slips},
    wirings::Dice,
};

fn ends(work: &Work, edits: &[Edit]) -> Vec<EndId> {
    edits
        .iter()
        .flat_map(|it| match it {
            Edit::Move(end, _) | Edit::Mark(end, _) | Edit::Prepare(end, _) => vec![*end],
            Edit::Slacken(at) | Edit::Tighten(at) => work.ends_in(*at).collect(),
            _ => Vec::new(),
        })
        .collect()
}

fn grave(it: Outcome) -> u8 {
    match it {
        Outcome::Pass => 0,
        Outcome::NotYet => 1,
        Outcome::Refer => 2,
    }
}

fn stands(it: &Finding) -> bool {
    !matches!(it.seen, Seen::InAction(_))
        && it.weight > Weight::Advice
        && !it.before
        && !matches!(it.code.word(), "stage-missing" | "prediction-missing" | "function-untested")
}

fn with_its_screw(work: &Work, edit: &Edit) -> Vec<Edit> {
    match edit {
        Edit::Move(end, Some(to)) if work.end_facts(*end).colour == Colour::Bare => {
            vec![edit.clone(), Edit::Tighten(*to), Edit::Mark(*end, Some(Mark::Sleeve(Colour::GreenYellow)))]
        }
        Edit::Move(_, Some(to)) => vec![edit.clone(), Edit::Tighten(*to)],
        _ => vec![edit.clone()],
    }
}

fn told(work: &Work, sheet: &Sheet) -> Vec<String> {
    let causes = sheet.findings.iter().filter(|it| it.root == Root::Itself && stands(it));
    causes
        .map(|it| {
            format!(
                "{} at {} ({:?}, {}) {:?}",
                it.code.word(),
                it.at.address(work.exercise()),
                it.weight,
                it.lost,
                it.repair
            )
        })
        .collect()
}

fn mends(attempt: &Attempt, sheet: &Sheet) -> Result<(), String> {
    let causes = |sheet: &Sheet| sheet.findings.iter().filter(|it| it.root == Root::Itself && stands(it)).count();
    let worst = |sheet: &Sheet| sheet.findings.iter().filter(|it| stands(it)).map(|it| it.weight).max();
    let (mut attempt, mut sheet) = (attempt.clone(), sheet.clone());
    let mut said = String::new();
    for round in 0..causes(&sheet) {
        let repairs =
            sheet.findings.iter().filter(|it| it.root == Root::Itself && stands(it)).filter_map(|it| it.repair.clone());
        let edits: Vec<Edit> = repairs.flatten().flat_map(|it| with_its_screw(attempt.work(), &it)).collect();
        let next = attempt.supposing(&edits);
        let after = mark(&next, Mode::Set);
        said += &format!("\n      round {round}: {:?}", told(next.work(), &after));
        if worst(&after) > worst(&sheet) {
            return Err(format!("graver:{said}"));
        }
        (attempt, sheet) = (next, after);
        if causes(&sheet) == 0 {
            return (Oracle { work: attempt.work() }).wrong().map_or(Ok(()), |it| Err(format!("oracle: {it}: {said}")));
        }
    }
    Err(format!("left:{said}"))
}

#[test]
fn pairs() {
    let share: usize = std::env::var("PAIRS").ok().and_then(|it| it.parse().ok()).unwrap_or(50);
    let mut dice = Dice(0x5eed);
    let mut tally: BTreeMap<&str, usize> = BTreeMap::new();
    for (name, hand) in accepted() {
        let work = hand.attempt.work();
        let all: Vec<_> = slips(work)
            .into_iter()
            .filter_map(|(name, edits)| {
                let attempt = hand.attempt.supposing(&edits);
                let wrong = Oracle { work: attempt.work() }.wrong()?;
                Some((name, edits, wrong, mark(&attempt, Mode::Set)))
            })
            .collect();
        for (slip, edits, _, sheet) in &all {
            if let Err(why) = mends(&hand.attempt.supposing(edits), sheet) {
                *tally.entry("single unmended").or_default() += 1;
                println!("SINGLE {name}: {slip}\n   told {:?}\n   {why}", told(work, sheet));
            }
        }
        for _ in 0..share {
            let (a, b) = (&all[dice.below(all.len())], &all[dice.below(all.len())]);
            let (ends_a, ends_b) = (ends(work, &a.1), ends(work, &b.1));
            if ends_a.iter().any(|it| ends_b.contains(it)) {
                continue;
            }
            let attempt = hand.attempt.supposing(&[a.1.clone(), b.1.clone()].concat());
            let exercise = work.exercise();
            if exercise.terminals.iter().enumerate().any(|(it, t)| {
                attempt.work().ends_in(switchdrop::exercise::TerminalId(it as u16)).count() > t.capacity.conductors
            }) {
                continue;
            }
            *tally.entry("tried").or_default() += 1;
            let sheet = mark(&attempt, Mode::Set);
            let mut say = |what: &'static str, more: String| {
                *tally.entry(what).or_default() += 1;
                println!(
                    "{what} {name}:\n   A {} -> {:?}\n   B {} -> {:?}\n   told {:?}\n   {more}",
                    a.0,
                    told(work, &a.3),
                    b.0,
                    told(work, &b.3),
                    told(work, &sheet)
                );
            };
            let lost = |it: &Sheet| it.out_of - it.marks;
            if (Oracle { work: attempt.work() }).wrong().is_none() {
                if lost(&sheet) > 0 {
                    say("ACCUSED", String::new());
                } else {
                    *tally.entry("cancelled").or_default() += 1;
                }
                continue;
            }
            if grave(sheet.outcome) < grave(a.3.outcome).max(grave(b.3.outcome)) {
                say("OUTCOME", format!("{:?} {:?} {:?}", a.3.outcome, b.3.outcome, sheet.outcome));
            }
            if lost(&sheet) < lost(&a.3).max(lost(&b.3)) {
                say("CHEAPER", format!("{} {} {}", lost(&a.3), lost(&b.3), lost(&sheet)));
            }
            if let Err(why) = mends(&attempt, &sheet) {
                say("UNMENDED", why);
            }
        }
    }
    println!("TALLY {tally:?}");
}
