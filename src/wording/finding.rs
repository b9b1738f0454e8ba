//! A finding in words: the place, what is wrong, what it would do, what shows it, how to put it right, the reference.

use super::{
    Wording,
    case::witness,
    keys::{carries_key, mark, weight_key},
    outcome::{apart, list},
    place::{called, conductor, end, lamp, subject, terminal},
};
use crate::{
    advice::{Guidance, NextJoin},
    circuit::Groups,
    exercise::{DeviceId, Exercise, LocationId, TerminalUse},
    marking::{Citation, Code, Finding, Hint, Root, Seen, reference, to_remake},
    trade::colour::Mark,
    work::{Called, Edit, Point, Prep, Refused, Subject, Work},
};

/// What is said about a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingWords {
    /// What is wrong, and where.
    pub what: String,
    /// What it would do to a person or to the installation, where the catalogue says.
    pub harm: Option<String>,
    /// What shows it.
    pub shown: String,
    /// How to put it right: the edits that clear it, or what the catalogue advises.
    pub repair: Option<String>,
    /// What the rule rests on.
    pub reference: String,
}

/// Puts a finding into words; `work` is that of its attempt.
pub fn finding(wording: &Wording, work: &Work, finding: &Finding) -> FindingWords {
    let about = ["job", "flaw"].map(|it| format!("{it}-{}", finding.about)).into_iter().find(|it| wording.has(it));
    let about = about.map_or_else(String::new, |it| wording.say(&it, &[]));
    let place = subject(wording, work, finding.at);
    let moved = |number: usize| match finding.repair.iter().flatten().nth(number) {
        Some(Edit::Move(it, _)) => end(wording, work, *it),
        _ => String::new(),
    };
    let lights = match (finding.code, finding.at) {
        (Code::LockLeftOn, Subject::Device(it)) => list(wording, &lights_of(work, it)),
        _ => String::new(),
    };
    let places = match finding.code {
        Code::ControlWrong => to_remake(work).into_iter().map(|it| location(wording, work, it)).collect(),
        _ => Vec::new(),
    };
    let name = match finding.at {
        Subject::Unmarked(it) => work.named_as(it).and_then(|it| work.exercise().unmarked_thing(it)),
        _ => None,
    };
    let name = name.map_or(String::new(), |it| called(wording, work.exercise(), Called::By(it)));
    let args = [
        ("place", place.as_str()),
        ("called", &name),
        ("about", &about),
        ("one", &moved(0)),
        ("other", &moved(1)),
        ("lights", &lights),
        ("places", &list(wording, &places)),
    ];
    let key = format!("finding-{}", finding.code.word());
    // A message of its own for what it is about, where the catalogue has one.
    let key = Some(format!("{key}-{}", finding.about)).filter(|it| wording.has(it)).unwrap_or(key);
    let attribute = |name: &str| {
        let key = format!("{key}.{name}");
        wording.has(&key).then(|| wording.say(&key, &args))
    };
    let edits = finding.repair.iter().flatten().map(|it| edit(wording, work, it)).collect::<Vec<_>>();
    let what = wording.say(&key, &args);
    let gap = format!("gap-{}", finding.about);
    FindingWords {
        // Of a touch before the proof, what the proof lacked.
        what: if wording.has(&gap) {
            wording.say("report-lacked", &[("what", &what), ("why", &wording.say(&gap, &[]))])
        } else {
            what
        },
        harm: attribute("harm"),
        shown: shown(wording, work.exercise(), &finding.seen),
        repair: if edits.is_empty() || only_parks(work, finding) {
            // Where no end stands yet there is nothing to take out.
            attribute(if finding.code == Code::ControlWrong && places.is_empty() { "begin" } else { "repair" })
        } else {
            Some(apart(wording, &edits))
        },
        reference: referred(wording, reference(work.exercise(), finding)),
    }
}

/// The lights on the circuit of a device.
fn lights_of(work: &Work, device: DeviceId) -> Vec<String> {
    let (exercise, groups) = (work.exercise(), Groups::new(work));
    let its = |point| groups.of(work, point).is_some_and(|it| groups.all()[it].devices.contains(&device));
    let lamps = exercise.lamps.ids();
    let fed = lamps.filter(|lamp| exercise.lamps[*lamp].contacts.into_iter().any(|it| its(Point::Terminal(it))));
    fed.map(|it| lamp(exercise, it)).collect()
}

/// What is said of a cause besides what it is: that it was so before, that another hides it, or why it costs so little.
pub fn remarks<'a>(wording: &'a Wording, found: &Finding) -> impl Iterator<Item = String> + 'a {
    let of_cause = [(found.before, "report-before"), (found.hidden, "report-hidden"), (found.capped, "report-capped")];
    let of_cause = of_cause.map(|(so, key)| {
        let is_said = so && found.root == Root::Itself;
        is_said.then_some(key)
    });
    of_cause.into_iter().flatten().map(|key| wording.say(key, &[]))
}

/// That a finding follows from another, by that one's place on the sheet; `None` for a cause. What was left undone does not go away with its
/// cause: it can be done then.
pub fn follows(wording: &Wording, found: &Finding) -> Option<String> {
    let Root::Of(cause) = found.root else { return None };
    let key = if found.code.is_left_undone() { "report-follows-undone" } else { "report-follows" };
    Some(wording.say(key, &[("number", &(cause + 1).to_string())]))
}

/// The line that heads a finding: its number, its weight, what it cost, what is wrong.
pub fn title(wording: &Wording, index: usize, found: &Finding, said: &FindingWords) -> String {
    let weight = wording.say(weight_key(found.weight), &[]);
    let (number, lost) = ((index + 1).to_string(), found.lost.to_string());
    let key = match found.lost {
        0 => "report-finding",
        1 => "report-finding-costs-one",
        _ => "report-finding-costs",
    };
    wording.say(key, &[("number", &number), ("weight", &weight), ("lost", &lost), ("what", &said.what)])
}

/// Whether the edits only put a loose end in an empty connector: enough to try the wiring without it, and no advice.
fn only_parks(work: &Work, finding: &Finding) -> bool {
    let is_empty = |to| work.ends_in(to).next().is_none();
    let is_connector = |to| matches!(work.exercise().terminals[to].used_by, TerminalUse::Connector(_));
    let parks = |it: &Edit| matches!(it, Edit::Move(_, Some(to)) if is_connector(*to) && is_empty(*to));
    matches!(finding.code, Code::LooseEnd | Code::LooseEndLive)
        && matches!(finding.repair.as_deref(), Some([edit]) if parks(edit))
}

/// What a hint tells, and what to join next.
pub fn guidance(wording: &Wording, work: &Work, of: &Guidance) -> String {
    if of.names {
        return wording.say("hint-find-out", &[]);
    }
    let Some(next) = of.next else { return hint(wording, work, &of.hint) };
    let [joins, why] = next_join(wording, work, &next);
    wording.say("hint-next", &[("joins", &joins), ("why", &why)])
}

/// What to join next, as the middle of a sentence; and what it is for, as a sentence.
pub fn next_join(wording: &Wording, work: &Work, next: &NextJoin) -> [String; 2] {
    let joins = edit(wording, work, &Edit::Move(next.end, Some(next.terminal)));
    let joins = match next.sleeve {
        Some(it) => wording.say("join-sleeved", &[("sleeve", &mark(wording, Mark::Sleeve(it))), ("joins", &joins)]),
        None => joins,
    };
    [joins, wording.say(next.carries.map_or("carries-cpc", carries_key), &[])]
}

/// What a hint tells.
pub fn hint(wording: &Wording, work: &Work, hint: &Hint) -> String {
    match hint {
        Hint::SoFarRight => wording.say("hint-so-far-right", &[]),
        Hint::Look(it) => {
            let criterion = wording.say(&format!("criterion-{}", it.code.criterion().word()), &[]);
            let place = subject(wording, work, it.at);
            wording.say("hint-look", &[("place", &place), ("criterion", &criterion)])
        }
        Hint::Wrong(it) => wording.say("hint-wrong", &[("what", &finding(wording, work, it).what)]),
    }
}

fn shown(wording: &Wording, exercise: &Exercise, seen: &Seen) -> String {
    match seen {
        Seen::ByEye => wording.say("shown-by-eye", &[]),
        Seen::InAction(number) => wording.say("shown-in-action", &[("number", &(number + 1).to_string())]),
        Seen::InCase(case) => wording.say("shown-in-case", &[("case", &witness(wording, exercise, case))]),
    }
}

/// An edit as an instruction.
fn edit(wording: &Wording, work: &Work, edit: &Edit) -> String {
    let at = |it| terminal(wording, work, it);
    match *edit {
        Edit::Move(of, Some(to)) => {
            let key = match work.can_go_in(of, to) {
                Err(Refused::NothingBare { .. } | Refused::InSheath { .. }) => "repair-move-strip",
                Err(Refused::WontReach { .. }) => "repair-move-reach",
                Err(Refused::CutTooShort { .. }) => "repair-move-short",
                _ => "repair-move",
            };
            wording.say(key, &[("core", &conductor(wording, work, of.conductor())), ("to", &at(to))])
        }
        Edit::Move(of, None) => wording.say("repair-loosen", &[("end", &end(wording, work, of))]),
        Edit::Mark(of, Some(with)) => {
            let key = if work.mark_of(of).is_some_and(|it| it != with) { "repair-mark-instead" } else { "repair-mark" };
            wording.say(key, &[("end", &end(wording, work, of)), ("mark", &mark(wording, with))])
        }
        Edit::Mark(of, None) => wording.say("repair-unmark", &[("end", &end(wording, work, of))]),
        Edit::Tighten(to) => wording.say("repair-tighten", &[("to", &at(to))]),
        Edit::Prepare(of, prep) if work.prep_of(of).is_some_and(|it| Prep { trapped: false, ..it } == prep) => {
            wording.say("repair-free", &[("end", &end(wording, work, of))])
        }
        Edit::Prepare(of, prep) => {
            let key = if prep.folded { "repair-prepare-folded" } else { "repair-prepare" };
            wording.say(key, &[("end", &end(wording, work, of)), ("mm", &prep.strip_mm.to_string())])
        }
        Edit::Sheath(_, at, _) => wording.say("repair-sheath", &[("at", &location(wording, work, at))]),
        Edit::Grommet(at, _) => wording.say("repair-grommet", &[("at", &location(wording, work, at))]),
        Edit::Refit(run, size) => {
            let name = work.exercise().runs.get(run).map_or("", |it| &it.name);
            wording.say("repair-refit", &[("cable", name), ("mm2", &size.mm2().to_string())])
        }
        Edit::TakeLinks => wording.say("repair-take-links", &[]),
        Edit::Slacken(to) => wording.say("repair-slacken", &[("to", &at(to))]),
        Edit::Tail(from, to) => wording.say("repair-tail", &[("from", &at(from)), ("to", &at(to))]),
    }
}

fn location(wording: &Wording, work: &Work, at: LocationId) -> String {
    subject(wording, work, Subject::Location(at))
}

fn referred(wording: &Wording, reference: Citation) -> String {
    let (key, number) = match reference {
        Citation::Regulation(number) => ("reference-regulation", number),
        Citation::Guidance(number) => ("reference-guidance", number),
        Citation::Practice => ("reference-practice", ""),
    };
    wording.say(key, &[("number", number)])
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::{
        circuit::Witness,
        exercise::{Seed, read, shipped},
        marking::{Code, Weight},
        trade::colour::{Colour, Mark},
    };

    #[test]
    fn a_finding_is_said_with_its_place_its_witness_and_its_repair() {
        let work = Work::new(Arc::new(read(shipped("two-way-passage").unwrap(), Seed(0)).unwrap()));
        let grey = work.end("link/grey@clay").unwrap();
        let found = Finding {
            code: Code::MarkMissing,
            at: work.subject_of(grey),
            weight: Weight::Major,
            lost: 3,
            root: Root::Itself,
            before: false,
            capped: false,
            hidden: false,
            charged: Code::MarkMissing.criterion(),
            seen: Seen::InCase(Witness { positions: vec![1], ..Witness::default() }),
            repair: Some(vec![
                Edit::Mark(grey, Some(Mark::Sleeve(Colour::Brown))),
                Edit::Move(grey, Some(work.terminal("clay.L1").unwrap())),
            ]),
            about: "line",
        };
        let said = finding(&Wording::british(), &work, &found);
        assert_eq!(said.shown, "box at the kiln door, left-hand switch rocker up");
        assert_eq!(
            said.repair.unwrap(),
            "mark the grey core of the three-core, at the box at the clay store door with a brown sleeve; put the grey core of \
             the three-core into: box at the clay store door, L1"
        );
        assert_eq!(said.reference, "BS 7671, 514.3.2");
    }
}
