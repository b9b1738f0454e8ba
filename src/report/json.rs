//! The mark sheet for machines, and its JSON Schema, which is made from the same types.

use super::{marked::Marked, story::Story};
use crate::{
    attempt::{Act, Assigned, Attempt, Mode, sha256},
    circuit::Witness,
    exercise::{AtHand, Edition, Exercise},
    marking::{Bar, Code, Criterion, Finding, Notice, Outcome, Root, Seen, Unmet, Weight, Well, done_well, times},
};
use schemars::{JsonSchema, Schema, SchemaGenerator, generate::SchemaSettings, json_schema};
use serde::Serialize;
use strum::VariantNames;

/// The sheet for machines. A field may be added, none is renamed or dropped.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "Mark sheet")]
pub struct SheetJson<'a> {
    /// Version of this form.
    format: u32,
    /// Version of the marking.
    marking: u32,
    /// Edition of the wiring standard that references are given in.
    #[schemars(schema_with = "editions")]
    edition: &'static str,
    /// The attempt file as it was named.
    attempt: &'a str,
    /// Id of the scenario.
    scenario: &'a str,
    /// The number it was drawn from.
    seed: u64,
    /// Who did it.
    learner: &'a str,
    /// Whether it was handed in.
    handed_in: bool,
    /// SHA-256 of the file as it is, 64 hexadecimal digits.
    sha256: &'a str,
    /// The same of the file up to the end of the line that handed it in, which the learner was shown; null: not handed in.
    receipt: Option<&'a str>,
    /// SHA-256 of the exercise as it was drawn, 64 hexadecimal digits.
    exercise_sha256: String,
    /// Version of the program that marks.
    program: &'static str,
    /// Set work or free practice.
    #[schemars(schema_with = "modes")]
    mode: &'static str,
    /// The assignment that it was set by; absent: none.
    #[serde(skip_serializing_if = "Option::is_none")]
    assigned: Option<AssignedJson<'a>>,
    /// Wall time at the start, as the learner's machine wrote it.
    started: &'a str,
    /// Wall time when it was handed in, by the same machine, in UTC; null: not handed in, or no time can be read in the file.
    handed_in_at: Option<String>,
    /// Milliseconds from the beginning to the last action, in which time with the file shut does not count.
    active_ms: u64,
    /// The exercise is not what the scenario at hand gives for this seed. False too if none is at hand: see `exercise_is`.
    differs: bool,
    /// How the exercise compares with the scenario of its id here: the same, different, or unknown where there is no such scenario.
    #[schemars(schema_with = "at_hand")]
    exercise_is: &'static str,
    /// What is to be told of the file beside its marks.
    #[schemars(schema_with = "notices")]
    notices: Vec<&'static str>,
    /// How it went.
    #[schemars(schema_with = "outcomes")]
    outcome: &'static str,
    /// Every line of the rule of a pass that was not met, the gravest first.
    unmet: Vec<UnmetJson>,
    marks: u32,
    out_of: u32,
    /// How often a hint was asked for.
    hints: usize,
    /// Whether the search for causes came to its bound: what stands as a cause of its own may follow from another.
    sought_no_further: bool,
    /// Marks by criterion.
    criteria: Vec<CriterionJson>,
    /// What was found, causes before what follows from them.
    findings: Vec<FindingJson<'a>>,
    /// What was done well: criteria with nothing lost, then acts that were right.
    #[schemars(schema_with = "wells")]
    well: Vec<&'static str>,
}

/// The schema of a sheet, draft 7.
pub fn schema() -> Schema {
    SchemaSettings::draft07().for_serialize().into_generator().into_root_schema_for::<SheetJson<'_>>()
}

/// A text that is one of these words. The lists of words are open at the end: a later version may add to them.
fn one_of(words: &[&'static str]) -> Schema {
    json_schema!({ "type": "string", "enum": words })
}

fn modes(_: &mut SchemaGenerator) -> Schema {
    one_of(&[Mode::Set, Mode::Practice].map(mode))
}

const fn mode(mode: Mode) -> &'static str {
    match mode {
        Mode::Set => "set",
        Mode::Practice => "practice",
    }
}

fn at_hand(_: &mut SchemaGenerator) -> Schema {
    one_of(AtHand::VARIANTS)
}

fn notices(_: &mut SchemaGenerator) -> Schema {
    json_schema!({ "type": "array", "items": one_of(Notice::VARIANTS) })
}

fn outcomes(_: &mut SchemaGenerator) -> Schema {
    one_of(Outcome::VARIANTS)
}

fn weights(_: &mut SchemaGenerator) -> Schema {
    one_of(&[Weight::Critical, Weight::Major, Weight::Advice].map(Weight::word))
}

fn criteria(_: &mut SchemaGenerator) -> Schema {
    one_of(Criterion::VARIANTS)
}

fn codes(_: &mut SchemaGenerator) -> Schema {
    one_of(&Code::ALL.iter().map(|it| it.word()).collect::<Vec<_>>())
}

fn rules(_: &mut SchemaGenerator) -> Schema {
    one_of(Unmet::VARIANTS)
}

fn bars(_: &mut SchemaGenerator) -> Schema {
    one_of_or_none(Bar::VARIANTS)
}

fn criterion_or_none(_: &mut SchemaGenerator) -> Schema {
    one_of_or_none(Criterion::VARIANTS)
}

/// One of these words, or null.
fn one_of_or_none(words: &[&'static str]) -> Schema {
    let words: Vec<Option<&str>> = words.iter().copied().map(Some).chain([None]).collect();
    json_schema!({ "type": ["string", "null"], "enum": words })
}

fn wells(_: &mut SchemaGenerator) -> Schema {
    json_schema!({ "type": "array", "items": one_of(&Well::words()) })
}

fn editions(_: &mut SchemaGenerator) -> Schema {
    one_of(&[Edition::A2of2022, Edition::A4of2026].map(edition))
}

const fn edition(edition: Edition) -> &'static str {
    match edition {
        Edition::A2of2022 => "BS 7671:2018+A2:2022",
        Edition::A4of2026 => "BS 7671:2018+A4:2026",
    }
}

/// Which piece of set work it is.
#[derive(Serialize, JsonSchema)]
struct AssignedJson<'a> {
    /// Id of the assignment.
    assignment: &'a str,
    /// SHA-256 of its file, 64 hexadecimal digits.
    sha256: &'a str,
    /// The learner's number on its roster.
    learner: u64,
    /// Which try at this exercise it is, from 1.
    #[serde(rename = "try")]
    nth: u32,
    /// The code that the learner was handed for an adjustment; null: none.
    code: Option<&'a str>,
}

impl<'a> AssignedJson<'a> {
    fn of(Assigned { assignment, sha256, learner, nth, code, .. }: &'a Assigned) -> Self {
        let code = Some(code.as_str()).filter(|it| !it.is_empty());
        Self { assignment, sha256, learner: *learner, nth: *nth, code }
    }
}

/// Version of that form.
const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
struct CriterionJson {
    /// The criterion.
    #[schemars(schema_with = "criteria")]
    name: &'static str,
    marks: u32,
    out_of: u32,
    /// Of what is not earned, what was not awarded for a cause under another criterion.
    not_awarded: u32,
}

/// A line of the rule that was not met.
#[derive(Serialize, JsonSchema)]
struct UnmetJson {
    /// The line of the rule of a pass.
    #[schemars(schema_with = "rules")]
    rule: &'static str,
    /// What bars a pass; null: the line is another.
    #[schemars(schema_with = "bars")]
    bar: Option<&'static str>,
    /// The finding that it is about, counted from 0; null: it is about none.
    finding: Option<usize>,
    /// The criterion of which there is less than half; null: the line is another.
    #[schemars(schema_with = "criterion_or_none")]
    criterion: Option<&'static str>,
}

impl UnmetJson {
    fn of(unmet: Unmet) -> Self {
        let (bar, criterion) = match unmet {
            Unmet::Bar(bar, _) => (Some(bar.word()), None),
            Unmet::Half(criterion) => (None, Some(criterion.word())),
            _ => (None, None),
        };
        Self { rule: unmet.word(), bar, finding: unmet.finding(), criterion }
    }
}

#[derive(Serialize, JsonSchema)]
struct FindingJson<'a> {
    /// What is wrong.
    #[schemars(schema_with = "codes")]
    code: &'static str,
    /// Where: an address.
    at: String,
    /// How much it matters.
    #[schemars(schema_with = "weights")]
    weight: &'static str,
    /// Marks lost by it.
    lost: u32,
    /// Whether it is a cause, or which finding is its cause, counted from 0.
    root: RootJson,
    /// Whether it was so before the learner came, or follows from what was: it costs nothing.
    before: bool,
    /// Whether another fault hides it: it shows once that is put right.
    hidden: bool,
    /// What shows it; null: it can be seen by looking.
    witness: Option<WitnessJson<'a>>,
    /// Each time that its act was done; empty for what is no act.
    times: Vec<TimeJson>,
    /// When it arose; null: before anything was done, or longer ago than is looked.
    arose: Option<AroseJson>,
}

/// A time that an act was done.
#[derive(Serialize, JsonSchema)]
struct TimeJson {
    /// Action of the log, from 0.
    action: usize,
    /// Milliseconds since the beginning, in which time with the file shut does not count; null: not looked up.
    ms: Option<u64>,
    /// Where: an address.
    at: String,
    /// Addresses of the devices whose circuits are there.
    circuits: Vec<String>,
}

impl TimeJson {
    fn of(attempt: &Attempt, act: &Act, story: &Story) -> Self {
        let exercise = attempt.work().exercise();
        let reaching = attempt.safety().circuits_of(exercise, act.at);
        Self {
            action: act.action,
            ms: story.times.get(act.action).copied(),
            at: act.at.address(exercise),
            circuits: reaching.iter().map(|it| exercise.devices[*it].address.clone()).collect(),
        }
    }
}

/// The moment after which it was there to the end.
#[derive(Serialize, JsonSchema)]
struct AroseJson {
    /// Action of the log, from 0.
    action: usize,
    /// Milliseconds since the beginning, in which time with the file shut does not count.
    ms: Option<u64>,
}

/// True, or the root's index.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum RootJson {
    Itself(bool),
    Of(usize),
}

#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum WitnessJson<'a> {
    Case { positions: &'a [u8], off: Vec<&'a str>, out: Vec<&'a str> },
    Action { action: usize },
}

impl<'a> SheetJson<'a> {
    pub(super) fn of(name: &'a str, marked: &'a Marked, story: &Story) -> Self {
        let Marked { opened, sha256: file, receipt, attempt, sheet, at_hand, notices } = marked;
        let header = &opened.header;
        let criteria = sheet.criteria.iter();
        Self {
            format: FORMAT,
            marking: sheet.version,
            edition: edition(sheet.edition),
            attempt: name,
            scenario: &header.scenario,
            seed: header.seed,
            learner: &header.learner,
            handed_in: sheet.handed_in,
            sha256: file,
            receipt: receipt.as_deref(),
            exercise_sha256: sha256(attempt.work().exercise().text().as_bytes()),
            program: env!("CARGO_PKG_VERSION"),
            mode: mode(header.mode),
            assigned: header.assigned.as_ref().map(AssignedJson::of),
            started: &header.started,
            handed_in_at: opened.handed_in_at().map(|it| it.to_string()),
            active_ms: opened.times().last().copied().unwrap_or_default(),
            differs: *at_hand == AtHand::Different,
            exercise_is: at_hand.word(),
            notices: notices.iter().map(|it| it.word()).collect(),
            outcome: sheet.outcome.word(),
            unmet: sheet.unmet.iter().map(|it| UnmetJson::of(*it)).collect(),
            marks: sheet.marks,
            out_of: sheet.out_of,
            hints: sheet.hints,
            sought_no_further: sheet.sought_no_further,
            criteria: criteria
                .map(|it| CriterionJson {
                    name: it.criterion.word(),
                    marks: it.marks,
                    out_of: it.out_of,
                    not_awarded: it.not_awarded,
                })
                .collect(),
            findings: (0..)
                .zip(&sheet.findings)
                .map(|(at, it)| FindingJson::of(attempt, it, arose(story, at), story))
                .collect(),
            well: done_well(attempt, sheet).into_iter().map(Well::word).collect(),
        }
    }
}

impl<'a> FindingJson<'a> {
    fn of(attempt: &'a Attempt, finding: &'a Finding, arose: Option<AroseJson>, story: &Story) -> Self {
        let exercise = attempt.work().exercise();
        Self {
            code: finding.code.word(),
            at: finding.at.address(exercise),
            weight: finding.weight.word(),
            lost: finding.lost,
            root: match finding.root {
                Root::Itself => RootJson::Itself(true),
                Root::Of(cause) => RootJson::Of(cause),
            },
            before: finding.before,
            hidden: finding.hidden,
            witness: match &finding.seen {
                Seen::ByEye => None,
                Seen::InAction(action) => Some(WitnessJson::Action { action: *action }),
                Seen::InCase(case) => Some(case_json(exercise, case)),
            },
            times: times(attempt.tally(), finding.code).map(|it| TimeJson::of(attempt, it, story)).collect(),
            arose,
        }
    }
}

fn arose(story: &Story, finding: usize) -> Option<AroseJson> {
    let action = story.moments.get(finding).copied().flatten()?;
    Some(AroseJson { action, ms: story.times.get(action).copied() })
}

fn case_json<'a>(exercise: &'a Exercise, case: &'a Witness) -> WitnessJson<'a> {
    let devices = case.off.iter().filter_map(|it| exercise.devices.get(*it));
    let lamps = case.out.iter().filter_map(|it| exercise.lamps.get(*it));
    WitnessJson::Case {
        positions: &case.positions,
        off: devices.map(|it| it.address.as_str()).collect(),
        out: lamps.map(|it| it.address.as_str()).collect(),
    }
}
