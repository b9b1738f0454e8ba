//! Whatever comes from elsewhere makes no public function of the library panic: ids, places, findings and whole states of another
//! exercise, addresses and files that nobody wrote.
//!
//! That the list is whole is checked by reading the sources: every public function that something can be handed to is called in
//! `foreign/calls.rs`, by its full name, or stands in [`EXCUSED`] with the reason.

mod calls;

use std::{collections::BTreeSet, path::Path, sync::Arc};

use switchdrop::{
    attempt::{Attempt, Mode},
    marking::mark,
};

use self::calls::{Elsewhere, attempts, circuits, exercises, pictures, registers, reports, works};
use crate::{
    bench::sources,
    ids::many,
    installations::{BATHROOM, BATHROOM_WIRED, wired},
};

/// The rooms in which something is known by an id or an address; [`switchdrop::trade`], above them, knows no exercise.
const ROOMS: [&str; 11] = [
    "exercise", "work", "circuit", "attempt", "marking", "reason", "advice", "wording", "picture", "report", "register",
];

/// What carries something from elsewhere into a function: words of its parameters' types.
const CARRIES: [&str; 42] = [
    "Action",
    "AtHand",
    "Attempt",
    "Conditions",
    "Consequence",
    "Contacts",
    "Device",
    "DeviceId",
    "Doubt",
    "Edit",
    "EndId",
    "Exercise",
    "FanId",
    "Finding",
    "Happened",
    "Hint",
    "LampId",
    "LocationId",
    "Meter",
    "Named",
    "Opened",
    "Part",
    "Point",
    "Problem",
    "Reading",
    "Refused",
    "Row",
    "Setting",
    "Sets",
    "Sheet",
    "Solution",
    "Subject",
    "Supplied",
    "SwitchId",
    "Tally",
    "Template",
    "TerminalId",
    "Thing",
    "Witness",
    "Work",
    "str",
    "usize",
];

/// Public functions that take such a thing and are not called, each with the reason.
const EXCUSED: [(&str, &str); 2] = [
    ("picture::width", "called by its public name, text_width"),
    ("exercise::shipped", "takes the id of an exercise, and finds none or its text"),
];

/// A public function of a public name: its name as it is called, and whether it takes anything but itself.
struct Public {
    name: String,
    takes: bool,
}

/// The names after `pub use` and the modules after `pub mod` of a room.
fn exported(text: &str) -> (BTreeSet<&str>, BTreeSet<&str>) {
    let mut names = BTreeSet::new();
    let mut modules = BTreeSet::new();
    for part in text.split("\npub ").skip(1) {
        let until = |end| part.split(end).next().unwrap_or("");
        if part.starts_with("use ") {
            names.extend(until(';').split(|it: char| !it.is_alphanumeric() && it != '_'));
        } else if let Some(it) = part.strip_prefix("mod ") {
            modules.extend(it.split(';').next());
        }
    }
    (names, modules)
}

/// The public functions of a file: whose they are, and their parameters.
fn functions(text: &str) -> Vec<(Option<String>, String, String)> {
    let text = text.split("\n#[cfg(test)]\nmod ").next().unwrap_or("");
    let (mut of, mut found) = (None, Vec::new());
    for (at, line) in text.lines().scan(0, |at, line| {
        let here = *at;
        *at += line.len() + 1;
        Some((here, line))
    }) {
        if let Some(rest) = line.strip_prefix("impl") {
            // Past the generics, and past a trait's name.
            let mut depth = 0_i32;
            let start = rest.find(|it| {
                depth += i32::from(it == '<') - i32::from(it == '>');
                it == ' ' && depth == 0
            });
            let subject = &rest[start.unwrap_or(0)..];
            let subject = subject.split(" for ").last().unwrap_or(subject);
            let name = subject.trim().split(['<', ' ', '{']).next().unwrap_or("");
            of = Some(name.to_owned());
        } else if line.starts_with('}') {
            of = None;
        }
        let head = line.trim_start().trim_start_matches("pub const fn ").trim_start_matches("pub fn ");
        if head.len() == line.trim_start().len() {
            continue;
        }
        let name = head.split(['(', '<']).next().unwrap_or("").to_owned();
        let body = &text[at..];
        let parameters = body.split_once('(').map_or("", |it| it.1);
        let mut depth = 1_i32;
        let end = parameters.find(|it| {
            depth += i32::from(it == '(') - i32::from(it == ')');
            depth == 0
        });
        let own = of.clone().filter(|_| line.starts_with(' '));
        found.push((own, name, parameters[..end.unwrap_or(0)].split_whitespace().collect::<Vec<_>>().join(" ")));
    }
    found
}

fn public() -> Vec<Public> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let all = sources("src");
    let mut found = Vec::new();
    for room in ROOMS {
        let root = all.iter().find(|it| it.0 == src.join(format!("{room}.rs"))).expect("a room");
        let (names, modules) = exported(&root.1);
        for (path, text) in &all {
            let inside = path.strip_prefix(&src).expect("under src").to_string_lossy().replace('\\', "/");
            let is_root = inside == format!("{room}.rs");
            if !is_root && !inside.starts_with(&format!("{room}/")) || inside.ends_with("tests.rs") {
                continue;
            }
            // A file of a public module's own folder is as public as that module says.
            let mut parts = inside.trim_end_matches(".rs").split('/').skip(1);
            let module = parts.next().unwrap_or("");
            let inner = all.iter().find(|it| it.0 == src.join(format!("{room}/{module}.rs"))).map(|it| exported(&it.1));
            let (names, is_open) = match inner.filter(|_| parts.next().is_some() && modules.contains(module)) {
                Some((inner, _)) => (inner, false),
                None => (names.clone(), modules.contains(module)),
            };
            for (of, name, parameters) in functions(text) {
                let known = of.as_deref().unwrap_or(&name);
                if !is_root && !names.contains(known) && !is_open {
                    continue;
                }
                let mut words = parameters.split(|it: char| !it.is_alphanumeric() && it != '_');
                let takes = words.any(|it| CARRIES.contains(&it));
                let name = format!(
                    "{}::{name}",
                    of.as_deref().unwrap_or(if modules.contains(module) { module } else { room })
                );
                found.push(Public { name, takes });
            }
        }
    }
    found
}

#[test]
fn every_public_function_is_tried_or_excused() {
    let calls = include_str!("foreign/calls.rs");
    let public = public();
    assert!(public.len() > 350, "{} public functions", public.len());
    let missing: Vec<&str> = public
        .iter()
        .filter(|it| it.takes)
        .map(|it| it.name.as_str())
        .filter(|it| !calls.contains(&format!("{it}(")) && EXCUSED.iter().all(|(excused, _)| excused != it))
        .collect();
    assert!(missing.is_empty(), "{} neither called nor excused:\n{}", missing.len(), missing.join("\n"));
    for (excused, _) in EXCUSED {
        assert!(public.iter().any(|it| it.name == excused), "{excused} is no public function");
        assert!(!calls.contains(&format!("{excused}(")), "{excused} is called");
    }
}

/// A job with everything in it, a house with a fan, and one with more of everything than either.
fn attempts_of_all_kinds() -> [Attempt; 3] {
    let tested = crate::tested::model().attempt;
    [tested, wired(BATHROOM, BATHROOM_WIRED), Attempt::new(Arc::new(many().clone()))]
}

#[test]
fn what_comes_from_another_exercise_is_answered() {
    let [tested, house, many] = attempts_of_all_kinds();
    let sheets = [mark(&tested, Mode::Set), mark(&house, Mode::Set)];
    for (own, theirs) in [(&tested, &many), (&house, &many), (&tested, &house), (&house, &tested)] {
        let from = Elsewhere::of(theirs);
        exercises(own.work().exercise(), theirs.work().exercise(), &from);
        works(own.work(), &from);
        circuits(own.work(), theirs.work(), &from);
        attempts(own, theirs, &from);
        pictures(own.work(), theirs.work(), &from);
        registers(theirs.work().exercise());
    }
    for (own, theirs) in [(&tested, &house), (&house, &tested)] {
        reports(own, theirs, &[&sheets[0], &sheets[1]], &Elsewhere::of(theirs));
    }
    let panicked: Vec<String> = calls::PANICKED.with_borrow(|it| it.iter().cloned().collect());
    assert!(panicked.is_empty(), "{} panics:\n{}", panicked.len(), panicked.join("\n"));
}
