//! What an author meets: a scenario written more shortly is the same exercise, a new one is made from another, every word is told.

use std::{
    collections::BTreeSet,
    fs,
    io::{BufRead, BufReader},
    path::PathBuf,
    process::{Command, Stdio},
};

use switchdrop::{
    attempt::open,
    exercise::{Exercise, Seed, Template, WordSort, draw, read},
};

use crate::{
    bench::Bench,
    hand::{SHIPPED, scenario},
};

/// The text with `Some(…)` taken off whatever it is around.
fn without_some(text: &str) -> String {
    let Some((before, rest)) = text.split_once("Some(") else { return text.to_owned() };
    let mut depth = 1;
    let end = rest.find(|it| {
        depth += i32::from(it == '(') - i32::from(it == ')');
        depth == 0
    });
    let (inside, after) = rest.split_at(end.expect("it is closed"));
    format!("{before}{}{}", without_some(inside), without_some(&after[1..]))
}

/// The text with `Some(…)` around what stands after each of these fields: as every scenario was written before it could be left out.
fn with_some(text: &str) -> String {
    let fields = ["connectors: ", "lugs: ", "depth_mm: ", "mark: ", "behind: ", "connector: ", "isolator: "];
    let mut written = text.to_owned();
    for field in fields {
        let (first, rest) = written.split_once(field).unwrap_or((&written, ""));
        let mut all = first.to_owned();
        for part in rest.split(field).filter(|it| !it.is_empty()) {
            let mut depth = 0;
            let end = part.find(|it| {
                let ends = depth == 0 && matches!(it, ',' | ')');
                depth += i32::from(it == '(') - i32::from(it == ')');
                ends
            });
            let (value, after) = part.split_at(end.expect("it ends"));
            // The mark that a hand puts on an end is no field to be left out.
            let is_acts = all.rsplit_once("Mark(end: ").is_some_and(|it| !it.1.contains(')'));
            let value = if is_acts { value.to_owned() } else { format!("Some({value})") };
            all.push_str(&format!("{field}{value}{after}"));
        }
        written = all;
    }
    written
}

fn read_file(path: &str) -> String {
    fs::read_to_string(PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap()
}

/// Whether a scenario is one that an exercise was drawn from.
fn draws(text: &str, exercise: &Exercise) -> bool {
    let scenario = read(text, Seed(0)).unwrap_or_else(|it| panic!("{it}"));
    Template::of(&scenario).unwrap().draws(exercise)
}

#[test]
fn some_may_be_written_or_left_out_and_it_is_the_same_exercise() {
    for (id, short) in SHIPPED {
        let long = with_some(short);
        assert!(!short.contains("Some(") && long.contains("Some("), "{id}");
        for seed in (0..8).map(Seed) {
            assert_eq!(draw(&long, seed).unwrap().text(), draw(short, seed).unwrap().text(), "{id}");
        }
        let kept = open(&read_file(&format!("exercises/{id}/model.attempt.ron"))).unwrap();
        assert!(draws(short, &kept.exercise) && draws(&long, &kept.exercise), "{id}");
    }
}

/// Attempts of before: `Some` stands in each. Of those whose scenario was kept or still ships, the one written either way says the same.
#[test]
fn no_attempt_of_before_is_of_another_exercise_for_it() {
    let mut drawn_from_here = 0;
    for name in ["marking-1", "marking-3-one-way-rose", "marking-3-one-way-tested", "marking-3-two-way-stairs"]
        .into_iter()
        .chain(["marking-3-two-way-to-choose"])
    {
        let text = read_file(&format!("tests/old/{name}.attempt.ron"));
        assert!(text.contains("Some("), "{name}");
        let exercise = open(&text).unwrap().exercise;
        let again = read(&without_some(exercise.text()), exercise.seed).unwrap();
        assert!(draws(&without_some(exercise.text()), &exercise) && draws(again.text(), &exercise), "{name}");
        let scenario = match exercise.id.as_str() {
            "two-way-stairs" => read_file("tests/old/scenarios/two-way-stairs.ron"),
            id => scenario(id).to_owned(),
        };
        let here = draws(&scenario, &exercise);
        assert_eq!(
            (draws(&without_some(&scenario), &exercise), draws(&with_some(&without_some(&scenario)), &exercise)),
            (here, here)
        );
        drawn_from_here += usize::from(here);
    }
    assert!(drawn_from_here > 0, "none was drawn from a scenario that is kept: that proves little");
}

#[test]
fn a_new_scenario_is_commented_varies_and_has_nothing_wrong_with_it() {
    let bench = Bench::new();
    for (id, text) in SHIPPED {
        let name = format!("my-{}", &id[..id.len().min(20)].trim_end_matches('-'));
        let run = bench.run(&["new", &name, "--from", id]);
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)), "{id}");
        let path = format!("{name}/scenario.ron");
        let written = bench.read(&path);
        assert!(written.lines().filter(|it| it.trim_start().starts_with("// ")).count() > 8, "{written}");
        assert!(written.starts_with("// Written by `new` from"), "{written}");
        // What varies is what varied: but for its id it is the same scenario.
        let bare =
            |text: &str| text.lines().filter(|it| !it.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
        assert_eq!(bare(&written).replace(&format!("id: {name:?}"), &format!("id: {id:?}")), bare(text), "{id}");
        let run = bench.run(&["check", &name]);
        let fine = ["nothing wrong", "nothing is wrong"];
        assert!(run.code == Some(0) && run.err.is_empty(), "{id}: {}{} {fine:?}", run.out, run.err);
        // Never over one that is there.
        let run = bench.run(&["new", &name, "--from", id]);
        assert_eq!((run.out.as_str(), run.code, bench.read(&path)), ("", Some(1), written), "{id}");
    }
    let run = bench.run(&["new", "../out", "--from", "one-way-rose"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)));
    assert!(run.err.contains("`../out` can't be an id"), "{}", run.err);
    let run = bench.run(&["new", "mine", "--from", "one-way-rsoe"]);
    assert!(run.err.contains("did you mean `one-way-rose`?"), "{}", run.err);
    assert!(!bench.path("mine").exists() && !bench.path("../out").exists());
}

/// Where a gang is called by its name, the drawn exercise has numbers: what the brief says of its place is where the switch is that works the lamp.
#[test]
fn a_gang_called_by_its_name_is_where_the_brief_says() {
    let text = scenario("plate-to-metal");
    let mut left = BTreeSet::new();
    for seed in 0..32 {
        let exercise = draw(text, Seed(seed)).unwrap();
        let switch = exercise.controls[0].switches[0];
        let place = match exercise.switches[switch].address.as_str() {
            "plate.1" => "left",
            "plate.2" => "right",
            other => panic!("{other}"),
        };
        let told = format!("The {place}-hand gang works the dye house light");
        assert!(exercise.brief.contains(&told), "{seed}: {}", exercise.brief);
        assert!(!exercise.text().contains("gangs:") && !exercise.brief.contains('{'), "{seed}: {}", exercise.text());
        left.insert(place);
    }
    assert_eq!(left.len(), 2, "both ways come up");
    // A way goes with its name.
    let mixed = text.replace("ways: [OneWay, OneWay], gangs", "ways: [OneWay, TwoWay], gangs");
    for seed in 0..8 {
        let exercise = draw(&mixed, Seed(seed)).unwrap();
        let way = |control: usize| exercise.switches[exercise.controls[control].switches[0]].way.id.clone();
        assert_eq!((way(0).as_str(), way(1).as_str()), ("OneWay", "TwoWay"), "{seed}");
    }
}

/// A few lines by hand from the standards and makers' figures in `trade/facts.md`; of the rest only that every word is there.
#[test]
fn describe_prints_every_word_with_its_terminals() {
    let run = Bench::new().run(&["describe"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let flat: String = run.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for line in [
        "Cable(id, name, kind, mm2, metres, from, to)",
        "TwoWay: on a plate, at most 4 side by side; terminals COM, L1, L2; joined, position by position: ",
        "ThreeCoreEarth: brown, black, grey, cpc; 1, 1.5 mm²",
        "Rcbo6B30: 6 A, type B, 30 mA residual",
        "Rose: a loop-in ceiling rose: terminals loop, neutral, switched, earth",
        "Length(cable, least, most): a cable’s length",
        "Screw: terminals centre, outer",
    ] {
        assert!(flat.contains(line), "{line:?} expected\n{}", run.out);
    }
    let words: BTreeSet<&str> = flat.split(|it: char| !it.is_ascii_alphanumeric()).collect();
    for sort in WordSort::ALL {
        assert!(sort.words().iter().all(|it| words.contains(it)), "{sort:?}");
    }
}

/// Killed when the test ends, however it ends.
struct Watching(std::process::Child);

impl Drop for Watching {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

#[test]
fn a_watched_scenario_is_checked_again_when_it_is_saved() {
    let bench = Bench::new();
    let path = bench.file("s.ron", scenario("junction-box"));
    let mut child = Command::new(env!("CARGO_BIN_EXE_switchdrop"))
        .args(["check", "--watch"])
        .arg(&path)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map(Watching)
        .unwrap();
    let mut said = BufReader::new(child.0.stdout.take().unwrap()).lines().map(Result::unwrap);
    let mut wrong = BufReader::new(child.0.stderr.take().unwrap()).lines().map(Result::unwrap);
    assert!(said.next().unwrap().ends_with("s.ron: nothing wrong"));
    bench.file("s.ron", scenario("junction-box").replace("lamp: Led", "lamp: Halogen"));
    assert_eq!((said.next().as_deref(), said.next().as_deref()), (Some(""), Some("Saved; checked again:")));
    assert_eq!(wrong.next().unwrap(), "error: `Halogen` is not a known kind of lamp; expected: Filament, Led");
    bench.file("s.ron", scenario("junction-box"));
    assert_eq!((said.next().as_deref(), said.next().as_deref()), (Some(""), Some("Saved; checked again:")));
    assert!(said.next().unwrap().ends_with("s.ron: nothing wrong"));
}
