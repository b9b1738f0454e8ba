//! A class of 24 invented learners, handed in and reviewed by the real program. Each slips at a stated rate, drawn from a seed; what the review
//! counts is what was put in. Copied, edited, late, missing and wrong files are among them, and each is flagged.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use switchdrop::{
    attempt::{AnswersFrom, Assigned, Chain, Format, Header, Mode, action_line, first_lines, sha256},
    exercise::{Exercise, Seed, Stream, draw, read},
    marking::VERSION,
    register::{Adjustment, Assignment, LearnersWork, SetExercise, hand_in_name},
    work::Action,
};

use crate::{
    assignment::made,
    bench::{Bench, Run},
    hand::{first_model, scenario},
};

/// A slip that a learner makes: the code that the charter gives it, how many in a hundred make it, the action of the model
/// that is done otherwise, and what is done instead.
struct Slip {
    code: &'static str,
    rate: u32,
    of: &'static str,
    act: Option<&'static str>,
}

/// The first three leave out one action each and touch different ends. The last is a whole job done wrongly, and stands alone.
const SLIPS: [Slip; 4] = [
    Slip { code: "mark-missing", rate: 35, of: r#"Mark(end: "drop/blue@switch", mark: Sleeve(Brown))"#, act: None },
    Slip {
        code: "cpc-unsleeved",
        rate: 25,
        of: r#"Mark(end: "drop/cpc@switch", mark: Sleeve(GreenYellow))"#,
        act: None,
    },
    Slip { code: "connection-slack", rate: 30, of: r#"Tighten(terminal: "switch.COM")"#, act: None },
    Slip {
        code: "lampholder-live",
        rate: 12,
        of: r#"Connect(end: "drop/blue@switch", terminal: "switch.L1")"#,
        act: Some(r#"Connect(end: "drop/blue@switch", terminal: "switch.COM")"#),
    },
];

pub const CLASS: u64 = 24;
const ID: &str = "week-3";
/// After the last date.
pub const AFTER: &str = "2026-12-01T09:00:00+00:00";

/// The assignment for a group.
pub fn assignment(group: &str) -> Assignment {
    let first = SetExercise::of(read(scenario("wire-a-switch"), Seed(0)).expect("shipped"));
    let it = Assignment {
        id: ID.to_owned(),
        group: group.to_owned(),
        tries: 2,
        learners: (1..=CLASS).collect(),
        exercises: vec![first],
        ..made()
    };
    Assignment::read(&it.text().expect("RON")).expect("an assignment")
}

/// The slips of a learner, by their place in the list.
pub fn slips(learner: u64) -> Vec<usize> {
    let makes = |it: &usize| {
        let slip = &SLIPS[*it];
        Stream::new(1, "class", Seed(learner), slip.code).below(100) < slip.rate
    };
    let all: Vec<usize> = (0..SLIPS.len()).filter(makes).collect();
    if all.contains(&3) { vec![3] } else { all }
}

fn action(ron: &str) -> Action {
    ron::from_str(ron).expect("an action")
}

/// What a learner with these slips does.
pub fn done(slips: &[usize]) -> Vec<Action> {
    let mut log = first_model().attempt.log().to_vec();
    for it in slips {
        let Slip { of, act, .. } = &SLIPS[*it];
        let at = log.iter().position(|it| *it == action(of)).expect("the model does it");
        log.splice(at..=at, act.map(action));
    }
    // A screw that nothing is under is not turned.
    if slips.contains(&3) {
        log.retain(|it| *it != action(r#"Tighten(terminal: "switch.L1")"#));
    }
    log
}

/// A hand-in, and what may be done otherwise in it.
pub struct Made {
    pub assigned: Assigned,
    pub exercise: Exercise,
    pub started: &'static str,
    pub marking: u32,
    pub log: Vec<Action>,
}

impl Made {
    pub fn of(assignment: &Assignment, learner: u64, adjustment: Adjustment, log: Vec<Action>) -> Self {
        let code = if adjustment == Adjustment::default() { String::new() } else { adjustment.code(ID, learner) };
        let mut work = LearnersWork::of(assignment, learner, adjustment).expect("drawn").exercises;
        let (assignment, sha256) = (ID.to_owned(), assignment.sha256.clone());
        Self {
            assigned: Assigned { assignment, sha256, learner, nth: 1, code, answers: AnswersFrom::Release },
            exercise: work.remove(0),
            started: "2026-11-03T09:00:00+00:00",
            marking: VERSION,
            log,
        }
    }

    pub fn name(&self) -> String {
        format!("in/{}", hand_in_name(&self.assigned, "wire-a-switch"))
    }

    /// Twenty seconds an action.
    pub fn text(&self) -> String {
        let learner = self.assigned.learner.to_string();
        let header = Header::new(self.marking, &self.exercise, learner, self.started.to_owned(), Mode::Set);
        let header = Header { assigned: Some(self.assigned.clone()), ..header };
        let mut chain = Chain::new(Format::NEWEST);
        let first = first_lines(&header, &self.exercise).expect("first lines");
        let actions = (1..).zip(&self.log).map(|(at, it)| action_line(20_000 * at, it).expect("a line"));
        first.into_iter().chain(actions).map(|it| chain.seal(&it)).collect()
    }
}

/// The whole class in a folder; learners up to `plain` hand in what they do, those after them each in a way of their own.
pub fn class(bench: &Bench, plain: u64) -> Assignment {
    // What a spreadsheet program would take for a formula, and a browser for a tag.
    let assignment = assignment("=Group <2>");
    bench.file("week-3.ron", assignment.text().expect("RON"));
    for learner in 1..=plain {
        let made = Made::of(&assignment, learner, Adjustment::default(), done(&slips(learner)));
        bench.file(&made.name(), made.text());
    }
    assignment
}

pub fn right(assignment: &Assignment, learner: u64) -> Made {
    Made::of(assignment, learner, Adjustment::default(), done(&[]))
}

pub fn reviewed(run: &Run) -> Value {
    serde_json::from_str(&run.out).unwrap_or_else(|it| panic!("{it}: {}\n{}", run.out, run.err))
}

/// Each code with the learners who have it.
fn by_cause(review: &Value) -> BTreeMap<String, Vec<u64>> {
    let faults = review["faults"].as_array().expect("faults");
    let learners = |it: &Value| it["learners"].as_array().expect("learners").iter().filter_map(Value::as_u64).collect();
    faults.iter().map(|it| (it["code"].as_str().expect("a code").to_owned(), learners(it))).collect()
}

#[test]
fn what_the_review_counts_is_what_the_learners_slipped_on() {
    let bench = Bench::new();
    class(&bench, CLASS);
    let run = bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--json"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let review = reviewed(&run);
    let mut put_in: BTreeMap<String, Vec<u64>> = BTreeMap::new();
    for learner in 1..=CLASS {
        for it in slips(learner) {
            put_in.entry(SLIPS[it].code.to_owned()).or_default().push(learner);
        }
    }
    assert_eq!(put_in.len(), SLIPS.len(), "a slip that nobody makes shows nothing: {put_in:?}");
    assert_eq!(by_cause(&review), put_in);
    // Everybody finished, so everybody came far enough for each.
    for it in review["faults"].as_array().expect("faults") {
        assert_eq!(it["of"], CLASS, "{it}");
    }
    let standing: Vec<_> = review["rows"].as_array().expect("rows").iter().map(|it| it["standing"].clone()).collect();
    assert_eq!(standing, vec![json!("handed-in"); CLASS as usize]);
    // Those with a lampholder live first.
    let critical = &put_in["lampholder-live"];
    let first: Vec<u64> = review["help_first"]
        .as_array()
        .expect("a list")
        .iter()
        .filter(|it| it["need"] == "critical")
        .filter_map(|it| it["learner"].as_u64())
        .collect();
    assert_eq!(first, *critical);
    assert_eq!(review["help_first"][0]["need"], "critical");
}

/// The row of a learner: how it stands, and each file's flags.
pub fn row(review: &Value, learner: u64) -> (Value, Vec<Value>) {
    let rows = review["rows"].as_array().expect("rows");
    let it = rows.iter().find(|it| it["learner"] == learner).expect("every learner has a row");
    let files = it["files"].as_array().expect("files").iter().map(|it| it["flags"].clone());
    (it["standing"].clone(), files.collect())
}

#[test]
fn what_is_odd_about_a_file_is_flagged() {
    let bench = Bench::new();
    let all = class(&bench, 10);
    let keep = |it: &Made| bench.file(&it.name(), it.text());
    // 11: another seed by a code, and two days more, which it takes.
    let code = Adjustment::new(2 * 24 * 60, 1).expect("a code");
    keep(&Made { started: "2026-11-08T09:00:00+00:00", ..Made::of(&all, 11, code, done(&[])) });
    // 12: after it was due. 13: after the last date. 14: before it opens.
    for (learner, started) in
        [(12, "2026-11-06T16:59:00+00:00"), (13, "2026-11-09T09:00:00+00:00"), (14, "2026-11-02T09:59:59+01:00")]
    {
        keep(&Made { started, ..right(&all, learner) });
    }
    // 15: a slip at the first try, the second right.
    keep(&Made::of(&all, 15, Adjustment::default(), done(&[0])));
    let mut second = right(&all, 15);
    second.assigned.nth = 2;
    keep(&second);
    // 16: the same file twice, in another folder.
    let it = right(&all, 16);
    keep(&it);
    bench.file("in/again/copy.ron", it.text());
    // 17: begun. 18: another version of the marking.
    keep(&Made { log: done(&[])[..5].to_vec(), ..right(&all, 17) });
    keep(&Made { marking: VERSION - 1, ..right(&all, 18) });
    // 19: edited; the sleeve that was forgotten is written in afterwards, on line 5.
    let slipped = Made::of(&all, 19, Adjustment::default(), done(&[0]));
    let line = "Did(ms:60000,action:Mark(end:\"drop/blue@switch\",mark:Sleeve(Brown)),sum:\"0123456789abcdef\")\n";
    let lines: Vec<&str> = slipped.text().leak().split_inclusive('\n').collect();
    bench.file(&slipped.name(), [&lines[..4], &[line], &lines[4..]].concat().concat());
    // 20: the file of 21 with another number, sealed again by a program.
    let mut copied = right(&all, 21);
    keep(&copied);
    copied.assigned.learner = 20;
    keep(&copied);
    // 22: no attempt at all. 23: another exercise. 24: nothing.
    bench.file("in/week-3_22_wire-a-switch_1.attempt.ron", b"\x89PNG\r\n\xff");
    let other = draw(scenario("one-way-rose"), Seed(4)).expect("drawn");
    keep(&Made { exercise: other, log: vec![Action::HandIn], ..right(&all, 23) });
    // Somebody who is on no roster, a file of free practice, and what is no attempt's name.
    let mut stranger = right(&all, 1);
    stranger.assigned.learner = 99;
    keep(&stranger);
    bench.file("in/free.ron", crate::bench::attempt_text(&right(&all, 1).exercise, &done(&[])));
    bench.file("in/readme.txt", "");

    let run = bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--json"]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let review = reviewed(&run);
    for (learner, standing, flags) in [
        (1, "handed-in", vec![json!([])]),
        (11, "handed-in", vec![json!(["adjusted"])]),
        (12, "late", vec![json!(["late"])]),
        (13, "unclear", vec![json!(["after-last"])]),
        (14, "handed-in", vec![json!(["before-opens"])]),
        (15, "handed-in", vec![json!([]), json!([])]),
        (16, "handed-in", vec![json!([]), json!(["duplicate"])]),
        (17, "begun", vec![json!(["not-handed-in"])]),
        (18, "handed-in", vec![json!(["other-version"])]),
        (19, "unclear", vec![json!(["changed"])]),
        (20, "unclear", vec![json!(["wrong-seed"])]),
        (21, "handed-in", vec![json!([])]),
        (22, "unclear", vec![json!(["unreadable"])]),
        (23, "unclear", vec![json!(["wrong-exercise"])]),
        (24, "missing", vec![]),
    ] {
        assert_eq!(row(&review, learner), (json!(standing), flags), "{learner}");
    }
    assert_eq!(review["passed_over"], json!([{ "file": "in/readme.txt", "learner": null }]));
    let of = |learner: u64| review["rows"][learner as usize - 1].clone();
    assert_eq!((&of(15)["counts"], &of(15)["files"][1]["earned"]["outcome"]), (&json!(1), &json!("pass")));
    assert_eq!(of(19)["files"][0]["line"], 5);
    assert_eq!(of(20)["files"][0]["seed_of"], 21);
    assert_eq!((&of(11)["files"][0]["extra_minutes"], &of(11)["files"][0]["draw"]), (&json!(2880), &json!(1)));
    let strays = review["strays"].as_array().expect("strays").iter();
    let strays: Vec<_> = strays.map(|it| (it["file"].clone(), it["flags"].clone())).collect();
    let stranger = "in/week-3_99_wire-a-switch_1.attempt.ron";
    // The file of nobody has learner 1's seed, and what was done in free work names no assignment.
    assert!(strays.contains(&(json!("in/free.ron"), json!(["other-assignment"]))), "{strays:?}");
    assert!(strays.contains(&(json!(stranger), json!(["no-such-learner", "wrong-seed"]))), "{strays:?}");
    assert_eq!(strays.len(), 2);
    let help: Vec<_> = review["help_first"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|it| (it["learner"].as_u64(), it["need"].clone()))
        .collect();
    for (learner, need) in [(17, "stuck"), (24, "nothing"), (13, "nothing")] {
        assert!(help.contains(&(Some(learner), json!(need))), "{learner}: {help:?}");
    }
    let order: Vec<&str> = help.iter().filter_map(|it| it.1.as_str()).collect();
    let rank = |it: &&str| ["critical", "stuck", "nothing", "not-yet"].iter().position(|of| of == it);
    assert!(order.is_sorted_by_key(rank), "{order:?}");
}

/// RFC 4180 read back by lines of our own that share nothing with what wrote it.
pub fn cells(table: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut cell, mut quoted) = (Vec::new(), Vec::new(), String::new(), false);
    let mut all = table.chars().peekable();
    while let Some(it) = all.next() {
        match it {
            '"' if quoted && all.peek() == Some(&'"') => cell.extend(all.next()),
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(std::mem::take(&mut cell)),
            '\r' if !quoted && all.peek() == Some(&'\n') => {
                all.next();
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            other => cell.push(other),
        }
    }
    assert!(row.is_empty() && cell.is_empty(), "the last row has no end");
    rows
}

#[test]
fn tables_and_page_say_what_the_review_says() {
    let bench = Bench::new();
    class(&bench, 20);
    let args = [
        "review",
        "week-3.ron",
        "in",
        "--at",
        AFTER,
        "--csv",
        "wide.csv",
        "--csv-findings",
        "long.csv",
        "--page",
        "class.html",
    ];
    let run = bench.run(&args);
    assert_eq!(run.code, Some(0), "{}", run.err);
    assert!(run.out.ends_with("This is a record of practice, not evidence of competence.\n"), "{}", run.out);
    let review = reviewed(&bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--json"]));
    let record = "This is a record of practice, not evidence of competence.";
    assert_eq!(review["record"], record);
    let wide = bench.read("wide.csv");
    assert!(wide.starts_with("\u{feff}assignment,"));
    let wide = cells(wide.trim_start_matches('\u{feff}'));
    assert_eq!(wide.len(), CLASS as usize + 1);
    let column =
        |name: &str| wide[0].iter().position(|it| it == name).unwrap_or_else(|| panic!("{name}: {:?}", wide[0]));
    for (row, of) in wide[1..].iter().zip(review["rows"].as_array().expect("rows")) {
        assert_eq!(row.len(), wide[0].len());
        assert_eq!((row[1].as_str(), row.last().map(String::as_str)), ("'=Group <2>", Some(record)));
        assert_eq!(row[2], of["learner"].to_string());
        assert_eq!(of["standing"], row[column("standing")].as_str());
        let earned = &of["files"][0]["earned"];
        let said = |it: &Value| if it.is_null() { String::new() } else { it.to_string().trim_matches('"').to_owned() };
        assert_eq!(row[column("marks")], said(&earned["marks"]));
        assert_eq!(row[column("outcome")], said(&earned["outcome"]));
    }
    // Twenty seconds an action, fifteen actions at most, from nine o'clock.
    let times: Vec<&str> = wide[1..=20].iter().map(|it| it[column("handed_in_at")].as_str()).collect();
    assert!(times.iter().all(|it| it.starts_with("2026-11-03T09:0") && it.ends_with('Z')), "{times:?}");
    let long = cells(bench.read("long.csv").trim_start_matches('\u{feff}'));
    let put_in: usize = (1..=20).map(|it| slips(it).len()).sum();
    assert_eq!(long.len(), put_in + 1);
    let page = bench.read("class.html");
    assert!(page.contains(record) && page.contains("=Group &lt;2&gt;") && !page.contains("<2>"), "{page}");
    assert!(!page.contains("http://") && !page.contains("<script") && !page.contains("src="));
    // Written over its own, and over nothing else.
    assert_eq!(bench.run(&args).code, Some(0));
    bench.file("wide.csv", "mine");
    let run = bench.run(&args);
    assert_eq!((bench.read("wide.csv").as_str(), run.code), ("mine", Some(1)));
}

/// Three learners: one right, one with both cores in COM, one who handed in nothing. Of 100 marks that slip costs the 30 of function and the 15 of
/// polarity; the first works fifteen actions, the other fourteen, twenty seconds each.
#[test]
fn a_review_in_words() {
    let bench = Bench::new();
    let all = Assignment { learners: vec![1, 2, 3], ..assignment("Group 2") };
    bench.file("week-3.ron", all.text().expect("RON"));
    let all = Assignment::read(&bench.read("week-3.ron")).expect("an assignment");
    let short = |made: &Made| {
        bench.file(&made.name(), made.text());
        let digest = sha256(made.text().as_bytes());
        format!("{}-{}-{}", &digest[..4], &digest[4..8], &digest[8..12])
    };
    let first = short(&right(&all, 1));
    let second = short(&Made::of(&all, 2, Adjustment::default(), done(&[3])));
    bench.run(&["review", "week-3.ron", "in", "--at", AFTER]).says(&format!(
        "Lights, week 3 (assignment `week-3`), Group 2\n\
         Learners: 3. Pieces of work: 3; handed in 2, late 0, begun 0, unclear 0, not due yet 0, missing 1. Files to look at: 0.\n\
         \n\
         learner  exercise       stands     outcome                  marks    minutes  remarks\n\
         1        wire-a-switch  handed in  pass (try 1, files: 1)   100/100  5        receipt {first}\n\
         2        wire-a-switch  handed in  refer (try 1, files: 1)  55/100   4        receipt {second}\n\
         3        wire-a-switch  missing\n\
         \n\
         By criterion, of the marks to be had in the tries that count\n\
         - function: 50 %\n\
         - polarity: 50 %\n\
         - earthing: 100 %\n\
         - identification: 100 %\n\
         - terminations: 100 %\n\
         - safe working: 100 %\n\
         \n\
         What went wrong, by cause, of those who came far enough to get it wrong\n\
         - 1 of 2: lamp is live in its holder while it should be dead. (critical, `lampholder-live`); learners 2\n\
         \n\
         Who needs help first\n\
         - learner 2: critical (lamp is live in its holder while it should be dead)\n\
         - learner 3: nothing handed in that counts\n\
         \n\
         This is a record of practice, not evidence of competence.\n"
    ));
}

/// Hand-ins with bytes changed, taken out, doubled and cut off: each has its place in the review, and none counts that is not whole.
#[test]
fn mutated_hand_ins_are_all_answered() {
    const FILES: u32 = 300;
    let bench = Bench::new();
    let all = class(&bench, 0);
    let good = right(&all, 1).text().into_bytes();
    let mut random = Stream::new(1, "class", Seed(1), "mutations");
    let (mut whole, length) = (0, good.len() as u32);
    for number in 0..FILES {
        let mut bytes = good.clone();
        let at = random.below(length) as usize;
        match random.below(4) {
            0 => bytes[at] = random.below(256) as u8,
            1 => drop(bytes.drain(at..(at + random.below(200) as usize).min(bytes.len()))),
            2 => bytes.truncate(at),
            _ => bytes.extend_from_within(at..),
        }
        whole += usize::from(bytes == good);
        bench.file(&format!("in/{number}.ron"), bytes);
    }
    let run = bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--json"]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let review = reviewed(&run);
    let of = |it: &Value| it.as_array().expect("files").clone();
    let files: Vec<Value> =
        of(&review["rows"]).iter().flat_map(|it| of(&it["files"])).chain(of(&review["strays"])).collect();
    assert_eq!(files.len(), FILES as usize);
    let counts = files.iter().filter(|it| it["flags"] == json!([])).count();
    // What is doubled or cut off after the hand-in's own line may still be whole up to there.
    assert!(counts <= whole + 1, "{counts} of {FILES} count, {whole} are whole");
}

/// A blank hand-in made no slip and came nowhere: it does not make a fault of the others rarer. Two exercises have columns of their own, and a file that
/// can't be read stands at the exercise that its name says.
#[test]
fn only_those_who_came_so_far_are_counted_and_exercises_stand_apart() {
    let bench = Bench::new();
    let rose = SetExercise::of(read(scenario("one-way-rose"), Seed(0)).expect("shipped"));
    let mut all = Assignment { learners: vec![1, 2, 3], ..assignment("Group 2") };
    all.exercises.push(rose);
    bench.file("week-3.ron", all.text().expect("RON"));
    let all = Assignment::read(&bench.read("week-3.ron")).expect("an assignment");
    let keep = |it: &Made| bench.file(&it.name(), it.text());
    keep(&right(&all, 1));
    keep(&Made::of(&all, 2, Adjustment::default(), done(&[0])));
    keep(&Made { log: vec![Action::HandIn], ..right(&all, 3) });
    bench.file("in/week-3_1_one-way-rose_1.attempt.ron", "(");
    let run = bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--json", "--csv", "wide.csv"]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let review = reviewed(&run);
    let faults = review["faults"].as_array().expect("faults").iter();
    let faults: BTreeMap<_, _> =
        faults.map(|it| (it["code"].as_str().unwrap(), (&it["learners"], &it["of"]))).collect();
    assert_eq!(faults["mark-missing"], (&json!([2]), &json!(2)), "learner 3 joined nothing that wanted a mark");
    // Everybody is asked to finish.
    assert_eq!(faults["work-unfinished"], (&json!([3]), &json!(3)));
    let standing: Vec<_> = review["rows"].as_array().expect("rows").iter().map(|it| it["standing"].clone()).collect();
    assert_eq!(standing, ["handed-in", "unclear", "handed-in", "missing", "handed-in", "missing"].map(|it| json!(it)));
    let table = bench.read("wide.csv");
    let table = cells(table.trim_start_matches('\u{feff}'));
    assert_eq!(table.len(), 4);
    assert!(table.iter().all(|it| it.len() == table[0].len()), "{table:?}");
    let of = |name: &str| table[0].iter().position(|it| it == name).unwrap_or_else(|| panic!("{name}: {:?}", table[0]));
    let (switch, rose) = (of("wire-a-switch standing"), of("one-way-rose standing"));
    let rows: Vec<_> = table[1..].iter().map(|it| [&it[2], &it[switch], &it[rose]].map(String::as_str)).collect();
    assert_eq!(rows, [["1", "handed-in", "unclear"], ["2", "handed-in", "missing"], ["3", "handed-in", "missing"]]);
}

/// At noon of the day before it is due nothing is missing, and who has begun is not stuck; a minute after it is, but for who has two days more.
#[test]
fn what_is_not_due_is_not_missing() {
    let bench = Bench::new();
    let all = class(&bench, 1);
    let begun = |it: Made| bench.file(&it.name(), Made { log: done(&[])[..5].to_vec(), ..it }.text());
    begun(right(&all, 2));
    let two_days = Adjustment::new(2 * 24 * 60, 0).expect("a code");
    begun(Made::of(&all, 3, two_days, vec![]));
    let at = |time: &str| {
        let review = reviewed(&bench.run(&["review", "week-3.ron", "in", "--json", "--at", time]));
        let standing: Vec<_> = (1..=4).map(|it| row(&review, it).0).collect();
        let help = review["help_first"].as_array().expect("a list").iter();
        let help: Vec<_> = help.filter(|it| it["need"] == "stuck").filter_map(|it| it["learner"].as_u64()).collect();
        (standing, help)
    };
    let standing = |last: &str| ["handed-in", "begun", "begun", last].map(|it| json!(it)).to_vec();
    assert_eq!(at("2026-11-05T12:00:00+00:00"), (standing("not-due"), vec![]));
    assert_eq!(at("2026-11-06T17:00:00+00:00"), (standing("not-due"), vec![]));
    assert_eq!(at("2026-11-06T17:01:00+00:00"), (standing("missing"), vec![2]));
    assert_eq!(at("2026-11-08T17:01:00+00:00"), (standing("missing"), vec![2, 3]));
}

/// A file that lost its end on the way is not one that was only begun: the line that is half there is named.
#[test]
fn a_file_that_is_cut_off_is_named_with_its_line() {
    let bench = Bench::new();
    let all = class(&bench, 0);
    let whole = right(&all, 1).text();
    // Half of the fourth line: two first lines, then the second action.
    let lines: Vec<&str> = whole.split_inclusive('\n').collect();
    let cut = lines[..3].concat() + &lines[3][..lines[3].len() / 2];
    bench.file(&right(&all, 1).name(), cut);
    // One that is whole and has something after its hand-in counts.
    bench.file(&right(&all, 2).name(), right(&all, 2).text() + "Did(ms:9");
    let run = bench.run(&["review", "week-3.ron", "in", "--json", "--at", AFTER]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let review = reviewed(&run);
    assert_eq!(row(&review, 1), (json!("unclear"), vec![json!(["cut-off", "not-handed-in"])]));
    assert_eq!(review["rows"][0]["files"][0]["line"], 4);
    assert_eq!(row(&review, 2), (json!("handed-in"), vec![json!([])]));
    let said = bench.run(&["review", "week-3.ron", "in", "--at", AFTER]).out;
    assert!(said.contains("can't be read to its end: cut off at line 4"), "{said}");
}

/// Two tries are allowed. Three that were done in three folders each say that they are the first: they are counted by when they were handed in.
#[test]
fn tries_are_counted_over_all_folders() {
    let bench = Bench::new();
    let all = class(&bench, 0);
    for (folder, slips, started) in [
        ("a", vec![], "2026-11-03T11:00:00+00:00"),
        ("b", vec![0], "2026-11-03T09:00:00+00:00"),
        ("c", vec![2], "2026-11-03T10:00:00+00:00"),
    ] {
        let made = Made { started, ..Made::of(&all, 1, Adjustment::default(), done(&slips)) };
        bench.file(&format!("in/{folder}/{}", hand_in_name(&made.assigned, "wire-a-switch")), made.text());
    }
    let review = reviewed(&bench.run(&["review", "week-3.ron", "in", "--json", "--at", AFTER]));
    let files = review["rows"][0]["files"].as_array().expect("files");
    let flags: BTreeMap<_, _> = files.iter().map(|it| (it["file"].as_str().unwrap(), &it["flags"])).collect();
    let name = |folder: &str| format!("in/{folder}/week-3_1_wire-a-switch_1.attempt.ron");
    assert_eq!(flags[name("b").as_str()], &json!([]));
    assert_eq!(flags[name("c").as_str()], &json!(["same-try"]));
    assert_eq!(flags[name("a").as_str()], &json!(["same-try", "too-many-tries"]));
    // The right one came third, and does not count.
    let counts = review["rows"][0]["counts"].as_u64().expect("one counts") as usize;
    assert_ne!(files[counts]["file"], name("a"));
}

#[test]
fn what_is_named_and_is_not_there_is_told_before_work_begins() {
    let bench = Bench::new();
    let all = class(&bench, 1);
    bench.run(&["review", "week-3.ron", "in", "inn", "--csv", "out/wide.csv"]).complains(
        "error: inn can't be read: there is no such file or folder\n\
             error: out/wide.csv can't be written: there is no such file or folder\n\
             notice: nothing was reviewed\n",
    );
    let attempt = right(&all, 1).name();
    bench.run(&["review", &attempt, "week-3.ron"]).complains(&format!(
        "error: {attempt} is an attempt, and an assignment file belongs in its place: the file that `assign` wrote. `review` takes that \
         first, then what was handed in\n"
    ));
    bench.run(&["review", "in", "week-3.ron"]).complains(
        "error: in is a folder, and an assignment file belongs in its place: the file that `assign` wrote. `review` takes that first, \
         then what was handed in\n",
    );
    bench.run(&["mark", "week-3.ron"]).complains(
        "error: week-3.ron is an assignment file and not an attempt file: give the file in which the program kept a learner's work\n",
    );
}
