//! The guide of those who write exercises, `exercises/README.md`: its scenario is one that ships, and what is generated is what the program says.

use std::{
    collections::BTreeMap,
    fs,
    path::PathBuf,
    sync::{Mutex, PoisonError},
};

use switchdrop::{
    exercise::{CoursePlace, CourseStep, ExerciseKind, Seed, read},
    wording::{Wording, vocabulary},
};

use crate::hand::{SHIPPED, scenario};

/// What writes the generated parts, for the message that they differ.
const WRITES: &str = "UPDATE_EXPECT=1 cargo test --no-default-features --features program guide";

fn path() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("exercises/README.md")
}

fn guide() -> String {
    fs::read_to_string(path()).unwrap().replace("\r\n", "\n")
}

/// The text before a generated part, that part, and what comes after it.
fn parts(guide: &str, name: &str) -> [String; 3] {
    let begins = format!("<!-- generated: {name} -->\n");
    let (before, rest) = guide.split_once(&begins).unwrap_or_else(|| panic!("no {begins}"));
    let (part, after) = rest.split_once("<!-- end -->").expect("an end");
    [format!("{before}{begins}"), part.to_owned(), format!("<!-- end -->{after}")]
}

/// Holds a generated part to what it should be, or writes it.
fn hold(name: &str, should: &str) {
    // Two tests write the one file.
    static FILE: Mutex<()> = Mutex::new(());
    let _held = FILE.lock().unwrap_or_else(PoisonError::into_inner);
    let [before, part, after] = parts(&guide(), name);
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::write(path(), format!("{before}{should}{after}")).unwrap();
    } else {
        assert!(part == should, "{name} in exercises/README.md is not what it should be; `{WRITES}` writes it");
    }
}

/// Variants of each exercise by the table. An exercise that is not in it yet has 0.
pub fn told_variants() -> BTreeMap<String, usize> {
    let [_, table, _] = parts(&guide(), "library");
    let rows = table.lines().filter_map(|line| {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        let id = cells.get(1)?.strip_prefix('`')?.split('`').next()?;
        Some((id.to_owned(), cells.get(8)?.parse().ok()?))
    });
    rows.collect()
}

fn library(variants: &BTreeMap<String, usize>) -> String {
    let mut table = "| exercise | what it is | step | kind | minutes | conductors | switches | variants |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n".to_owned();
    for (id, text) in SHIPPED {
        let exercise = read(text, Seed(0)).unwrap();
        let CoursePlace { step, kind, minutes } = exercise.course.unwrap_or_else(|| panic!("no `course` in {id}"));
        let (step, kind) = (step.word(), kind.word());
        let (conductors, switches) = (exercise.conductors.len(), exercise.switches.len());
        let variants = variants.get(*id).copied().unwrap_or_default();
        table += &format!(
            "| `{id}` | {} | {step} | {kind} | {minutes} | {conductors} | {switches} | {variants} |\n",
            exercise.title
        );
    }
    table
}

/// Writes the numbers of variants, which take long to count, or holds the table to them.
pub fn hold_variants(counted: &BTreeMap<String, usize>) {
    hold("library", &library(counted));
}

#[test]
fn guide_the_table_of_the_library_is_what_ships() {
    hold("library", &library(&told_variants()));
}

#[test]
fn guide_every_word_is_what_describe_prints() {
    let wording = Wording::british();
    let mut text = String::new();
    for it in vocabulary(&wording) {
        text += &format!("\n### {}\n\n", it.heading);
        for (word, meaning) in it.words {
            let meaning = if meaning.is_empty() { meaning } else { format!(": {meaning}") };
            text += &format!("- `{word}`{meaning}\n");
        }
    }
    hold("vocabulary", &text[1..]);
}

#[test]
fn guide_the_scenario_explained_line_by_line_is_one_that_ships_whole() {
    let guide = guide();
    let blocks: Vec<&str> = guide.split("```ron\n").skip(1).map(|it| it.split("```").next().unwrap()).collect();
    let (_, shipped) = scenario("junction-box").split_once('\n').unwrap();
    assert_eq!(blocks.concat(), shipped, "the guide explains another text than exercises/junction-box/scenario.ron");
}

/// A number that is short of what we want has its reason beside it, and no other has one.
#[test]
fn guide_says_why_variants_are_few() {
    let guide = guide();
    let (_, reasons) = guide.split_once("### Fewer variants than wanted").unwrap();
    for (id, variants) in told_variants() {
        let (_, text) = SHIPPED.iter().find(|it| it.0 == id).unwrap();
        let course = read(text, Seed(0)).unwrap().course.unwrap();
        let does = matches!(
            course.kind,
            ExerciseKind::Wire | ExerciseKind::Complete | ExerciseKind::Alter | ExerciseKind::Find
        );
        let wanted = if does && course.step >= CourseStep::A3 { 100 } else { 24 };
        assert_eq!(reasons.contains(&format!("`{id}`")), variants < wanted, "{id}: {variants} of {wanted}");
    }
}
