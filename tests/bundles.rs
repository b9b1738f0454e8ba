//! A moderator's bundle by the real program: what it holds, that every mark in it is reproduced, and that whatever was done to it since is said.
//! Zips are taken apart and put together here by lines that share nothing with the program's (see `zips`).

use std::{collections::BTreeSet, fs, thread, time::Duration};

use serde_json::{Value, json};
use switchdrop::{attempt::sha256, register::Adjustment};

use crate::{
    bench::{Bench, Run},
    class::{AFTER, Made, class, done, right},
    zips::{Packed, inflated, zip},
};

/// The names and bytes of a zip, by its list at the end (APPNOTE 6.3.10, 4.3.12).
fn unpacked(zip: &[u8]) -> Vec<(String, Vec<u8>)> {
    let number = |at: usize, of: usize| (0..of).rev().fold(0_usize, |sum, it| sum << 8 | usize::from(zip[at + it]));
    let end = zip.windows(4).rposition(|it| it == b"PK\x05\x06").expect("the end of the list");
    let mut at = number(end + 16, 4);
    let entry = |_| {
        let (packing, size, name) = (number(at + 10, 2), number(at + 20, 4), number(at + 28, 2));
        let local = number(at + 42, 4);
        let start = local + 30 + number(local + 26, 2) + number(local + 28, 2);
        let bytes = &zip[start..start + size];
        let called = String::from_utf8(zip[at + 46..at + 46 + name].to_vec()).expect("a name");
        at += 46 + name + number(at + 30, 2) + number(at + 32, 2);
        (called, if packing == 0 { bytes.to_vec() } else { inflated(bytes) })
    };
    (0..number(end + 10, 2)).map(entry).collect()
}

/// Three learners in a register: one right, one without a sleeve, one with the lampholder live, which is a refer; and what people decided.
fn three() -> Bench {
    let bench = Bench::new();
    let all = class(&bench, 0);
    for it in [right(&all, 1), slipped(&all, 2, 0), slipped(&all, 3, 3)] {
        bench.file(&it.name(), it.text());
    }
    let review = bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db", "--json"]);
    let review: Value = serde_json::from_str(&review.out).expect("a review");
    let receipt = review["rows"][1]["files"][0]["receipt"].as_str().expect("a receipt").to_owned();
    for it in [
        ["--as", "tutor", "--by", "A. Reed", "--marks", "96", "--why", "it lay beside the switch"],
        ["--as", "second", "--by", "B. Moss", "--marks", "96", "--why", "the same"],
    ] {
        bench.run(&[&["decide", "kept.db", &receipt][..], &it].concat());
    }
    let release = ["release", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db", "--pages", "out"];
    let run = bench.run(&[&release[..], &["--by", "A. Reed", "--learner", "1", "--learner", "2"]].concat());
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    bench
}

fn slipped(all: &switchdrop::register::Assignment, learner: u64, slip: usize) -> Made {
    Made::of(all, learner, Adjustment::default(), done(&[slip]))
}

fn bundle(bench: &Bench, more: &[&str]) -> Run {
    let all = ["bundle", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db"];
    bench.run(&[&all[..], more].concat())
}

/// What was released, in a bundle, as its files.
fn released(bench: &Bench) -> Vec<(String, Vec<u8>)> {
    let run = bundle(bench, &["-o", "moderator.zip"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    unpacked(&fs::read(bench.path("moderator.zip")).expect("a bundle"))
}

fn text<'f>(files: &'f [(String, Vec<u8>)], name: &str) -> &'f str {
    let it = files.iter().find(|it| it.0 == name).unwrap_or_else(|| panic!("no {name}"));
    std::str::from_utf8(&it.1).expect("text")
}

#[test]
fn all_that_a_mark_follows_from_is_in_it_and_every_mark_is_reproduced() {
    let bench = three();
    let files = released(&bench);
    let held: Vec<&str> = files.iter().map(|it| it.0.as_str()).collect();
    let parts =
        |it: &str| ["attempt.ron", "exercise.ron", "sheet.json", "layers.json"].map(|part| format!("{it}/{part}"));
    let wanted: Vec<String> = parts("0001").into_iter().chain(parts("0002")).collect();
    assert_eq!(held[..2], ["bundle.json", "assignment.ron"]);
    assert_eq!(held[2..], wanted);
    assert_eq!(text(&files, "assignment.ron"), bench.read("week-3.ron"));
    // As it was handed in, and its digests as `sha256sum` would have them.
    assert_eq!(text(&files, "0002/attempt.ron"), bench.read("in/week-3_2_wire-a-switch_1.attempt.ron"));
    let list: Value = serde_json::from_str(text(&files, "bundle.json")).expect("a list");
    for (part, file) in
        [("attempt", "attempt.ron"), ("exercise", "exercise.ron"), ("sheet", "sheet.json"), ("layers", "layers.json")]
    {
        let bytes = text(&files, &format!("0002/{file}")).as_bytes();
        assert_eq!(list["works"][1]["sha256"][part], sha256(bytes), "{part}");
    }
    let sheet: Value = serde_json::from_str(text(&files, "0002/sheet.json")).expect("a sheet");
    assert_eq!(sheet["exercise_sha256"], list["works"][1]["sha256"]["exercise"]);
    assert_eq!(sheet["sha256"], list["works"][1]["sha256"]["attempt"]);
    assert_eq!((&sheet["exercise_is"], &sheet["findings"][0]["code"]), (&json!("same"), &json!("mark-missing")));
    let layers: Value = serde_json::from_str(text(&files, "0002/layers.json")).expect("layers");
    assert_eq!((&layers["machine"]["marks"], &layers["stands"]["marks"]), (&sheet["marks"], &json!(96)));
    assert_eq!(layers["releases"][0]["given"]["marks"], 96);
    // Nobody is named, and one person is one number.
    for (name, bytes) in &files {
        let text = String::from_utf8_lossy(bytes);
        assert!(!text.contains("Reed") && !text.contains("Moss"), "{name}");
    }
    let by = |at: usize| layers["decisions"][at]["by"].clone();
    assert_eq!((by(0), by(1)), (layers["releases"][0]["by"].clone(), json!("person 2")));
    let run = bench.run(&["verify", "moderator.zip"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)), "{}", run.out);
    for it in [
        "1: learner 1, wire-a-switch, try 1: 100 marks, pass, reproduced byte for byte\n",
        "reproduced byte for byte\nReproduced byte for byte: 2 of 2\n",
    ] {
        assert!(run.out.contains(it), "{it}: {}", run.out);
    }
    // Elsewhere, with nothing beside it.
    let other = Bench::new();
    other.file("it.zip", fs::read(bench.path("moderator.zip")).expect("a bundle"));
    assert_eq!(other.run(&["verify", "it.zip"]).out, run.out);
    assert_eq!(other.names(), ["it.zip"]);
    // With names, if that is asked for.
    assert_eq!(bundle(&bench, &["-o", "named.zip", "--names"]).code, Some(0));
    let named = unpacked(&fs::read(bench.path("named.zip")).expect("a bundle"));
    assert!(text(&named, "0002/layers.json").contains("\"by\": \"B. Moss\""));
    assert_eq!(bench.run(&["verify", "named.zip"]).code, Some(0));
}

/// What `verify` says of a bundle in which something was changed. `made_anew`: its list too, by a program.
fn said_of(files: &[(String, Vec<u8>)], made_anew: bool, change: impl Fn(&str, &str) -> Option<String>) -> Run {
    let mut files: Vec<(String, Vec<u8>)> = files.to_vec();
    files.retain_mut(|(name, bytes)| {
        let text = String::from_utf8(bytes.clone()).expect("text");
        let changed = change(name, &text);
        *bytes = changed.clone().unwrap_or(text).into_bytes();
        changed.is_none_or(|it| !it.is_empty())
    });
    if made_anew {
        let mut list: Value = serde_json::from_str(text(&files, "bundle.json")).expect("a list");
        let works = list["works"].as_array_mut().expect("works");
        for (at, work) in works.iter_mut().enumerate() {
            for (part, file) in [
                ("attempt", "attempt.ron"),
                ("exercise", "exercise.ron"),
                ("sheet", "sheet.json"),
                ("layers", "layers.json"),
            ] {
                let name = format!("{:04}/{file}", at + 1);
                work["sha256"][part] = json!(sha256(text(&files, &name).as_bytes()));
            }
        }
        files[0].1 = serde_json::to_vec_pretty(&list).expect("JSON");
    }
    let packed: Vec<Packed> = files.iter().map(|it| Packed::deflated(&it.0, &it.1)).collect();
    let bench = Bench::new();
    bench.file("it.zip", zip(&packed));
    bench.run(&["verify", "it.zip"])
}

/// A file of a bundle by its name, and its text: what it becomes, if that is something else; empty: it is gone.
type Change = Box<dyn Fn(&str, &str) -> Option<String>>;

#[test]
fn what_was_changed_since_is_said_with_the_piece_of_work_it_is_in() {
    let bench = three();
    let files = released(&bench);
    // Put together again as it was.
    let same = said_of(&files, false, |_, _| None);
    assert_eq!((same.err.as_str(), same.code), ("", Some(0)), "{}", same.out);
    let in_file = |wanted: &'static str, from: &'static str, to: &'static str| {
        move |name: &str, text: &str| {
            (name == wanted).then(|| {
                assert!(text.contains(from), "{wanted}: {text}");
                text.replacen(from, to, 1)
            })
        }
    };
    let other = right(&class(&Bench::new(), 0), 3).text();
    let removed = |wanted: &'static str| move |name: &str, _: &str| (name == wanted).then(String::new);
    let cases: [(&str, bool, Change); 13] = [
        // Edited: the sums of its own lines say so too.
        (
            "2: learner 2, wire-a-switch, try 1: not reproduced, and can't be marked: the attempt was changed",
            false,
            Box::new(in_file("0002/attempt.ron", "Sleeve(GreenYellow)", "Sleeve(Brown)")),
        ),
        (
            "can't be marked: the attempt can't be read",
            true,
            Box::new(in_file("0002/attempt.ron", "Sleeve(GreenYellow)", "Sleeve(Brown)")),
        ),
        // Another learner's, whole: every sum is right.
        (
            "2: learner 2, wire-a-switch, try 1: not reproduced; the marking gives 100 marks, pass: the attempt is not the one that the list tells of",
            true,
            Box::new(move |name, _| (name == "0002/attempt.ron").then(|| other.clone())),
        ),
        (
            "the sheet was changed since the bundle was made; marking again gives another sheet, in marks",
            false,
            Box::new(in_file("0002/sheet.json", "\"marks\":97", "\"marks\":99")),
        ),
        (
            "not reproduced; the marking gives 97 marks, pass: marking again gives another sheet, in marks\n",
            true,
            Box::new(in_file("0002/sheet.json", "\"marks\":97", "\"marks\":99")),
        ),
        (
            "the mark is reproduced (97 marks, pass), and not all of the rest: the sheet says the same, written otherwise",
            true,
            Box::new(in_file("0002/sheet.json", "\"outcome\":", "\"outcome\": ")),
        ),
        (
            "and not all of the rest: the record of decisions was changed",
            false,
            Box::new(in_file("0002/layers.json", "\"marks\": 96", "\"marks\": 99")),
        ),
        (
            "what stands does not follow from the decisions and the machine's mark\n",
            true,
            Box::new(in_file("0002/layers.json", "\"marks\": 96", "\"marks\": 99")),
        ),
        (
            "a release names another mark of the machine's than this marking gives\n",
            true,
            Box::new(|name, text| {
                (name == "0001/layers.json").then(|| {
                    let (before, releases) = text.split_once("\"releases\"").expect("releases");
                    format!("{before}\"releases\"{}", releases.replacen("\"marks\": 100", "\"marks\": 90", 1))
                })
            }),
        ),
        (
            "the exercise beside the attempt is not the attempt's own\n",
            true,
            Box::new(in_file("0001/exercise.ron", "title:\"", "title:\"An easier one: ")),
        ),
        ("the sheet is missing\n", false, Box::new(removed("0001/sheet.json"))),
        ("can't be marked: the attempt is missing\n", false, Box::new(removed("0002/attempt.ron"))),
        (
            "the assignment in it.zip is not the one that the list names",
            false,
            Box::new(in_file("assignment.ron", "tries:", "tries: ")),
        ),
    ];
    for (said, made_anew, change) in cases {
        let run = said_of(&files, made_anew, change);
        assert_eq!(run.code, Some(1), "{said}: {}{}", run.out, run.err);
        assert!(run.err.contains(said), "{said}: {}{}", run.out, run.err);
    }
    for (name, said) in [("bundle.json", "it.zip is no bundle"), ("assignment.ron", "it.zip has no assignment in it")] {
        let run = said_of(&files, false, removed(name));
        assert!(run.code == Some(1) && run.err.contains(said), "{said}: {}", run.err);
    }
}

/// Another version says so, and that the mark is the same all the same.
#[test]
fn a_bundle_of_another_version_is_told_from_one_that_was_changed() {
    let bench = three();
    let run = said_of(&released(&bench), true, |name, text| {
        let old = format!("\"program\":\"{}\"", env!("CARGO_PKG_VERSION"));
        match name {
            "bundle.json" => Some(text.replace(&old.replace(':', ": "), "\"program\": \"0.0.9\"")),
            _ if name.ends_with("sheet.json") => Some(text.replace(&old, "\"program\":\"0.0.9\"")),
            _ => None,
        }
    });
    assert_eq!(run.code, Some(1));
    assert!(run.err.contains("what differs may differ for that reason alone"), "{}", run.err);
    assert!(
        run.err.contains("1: learner 1, wire-a-switch, try 1: the mark is reproduced (100 marks, pass), and not all of the rest: marking again gives another sheet, in program\n"),
        "{}",
        run.err
    );
    assert!(run.out.ends_with("Reproduced byte for byte: 0 of 2\n"), "{}", run.out);
}

/// What follows from nothing can be made anew by a program, list and all. The code of the whole file, told by another way, finds it.
#[test]
fn the_code_finds_what_was_made_anew_as_a_whole() {
    let bench = three();
    let files = released(&bench);
    let forged =
        |name: &str, text: &str| (name == "0002/layers.json").then(|| text.replace("\"marks\": 96", "\"marks\": 99"));
    let run = said_of(&files, true, forged);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)), "this is what only the code finds: {}", run.out);
    let told = sha256(&fs::read(bench.path("moderator.zip")).expect("a bundle"));
    let code = format!("{}-{}-{}", &told[..4], &told[4..8], &told[8..12]);
    let run = bench.run(&["verify", "moderator.zip", "--code", &code]);
    assert!(run.code == Some(0) && run.out.contains(&code), "{}", run.out);
    let run = bench.run(&["verify", "moderator.zip", "--code", "0000-0000-0000"]);
    assert_eq!(run.code, Some(1));
    assert!(
        run.err.contains(&format!("the code of this file is {code}, which is not the one that you were told")),
        "{}",
        run.err
    );
}

#[test]
fn hostile_bundles_are_refused_with_their_reason() {
    let bench = three();
    let files = released(&bench);
    let with = |more: Vec<Packed>| {
        let own = files.iter().map(|it| Packed::deflated(&it.0, &it.1));
        let bench = Bench::new();
        bench.file("it.zip", zip(&own.chain(more).collect::<Vec<_>>()));
        let run = bench.run(&["verify", "it.zip"]);
        assert_eq!(run.code, Some(1), "{}", run.out);
        assert_eq!(bench.names(), ["it.zip"], "nothing is unpacked");
        run.err
    };
    let nulls = vec![b' '; 4 * 1024 * 1024];
    // Four megabytes each, 130 of them: out of half a megabyte.
    let one = Packed::deflated("", &nulls);
    let many = |count: u32| {
        (0..count).map(|it| Packed { name: format!("{it}").into(), bytes: one.bytes.clone(), ..one }).collect()
    };
    for (more, said) in [
        (many(130), "comes to more than is unpacked"),
        (vec![Packed { size: 2_000_000_000, ..Packed::deflated("0003/sheet.json", "x") }], "is too large"),
        (vec![Packed::stored("../sheet.json", "x")], "has a name that leads out of its zip"),
        (vec![Packed::stored("0001/sheet.json", "x")], "stands twice in its zip"),
        (vec![Packed::stored("more.zip", "x")], "is a zip in a zip"),
        (
            vec![Packed::stored("0003/sheet.json", "x")],
            "files in the bundle that its list does not name: 1, among them `0003/sheet.json`",
        ),
    ] {
        let told = with(more);
        assert!(told.contains(said), "{said}: {told}");
    }
    for (name, bytes) in [("folder", None), ("none.zip", None), ("text.zip", Some("no zip".repeat(99)))] {
        fs::create_dir_all(bench.path("folder")).expect("a folder");
        if let Some(it) = bytes {
            bench.file(name, it);
        }
        let run = bench.run(&["verify", name]);
        assert!(run.code == Some(1) && run.err.starts_with("error: "), "{name}: {}", run.err);
    }
}

/// A sample has every refer and the asked number of the others; one seed samples the same.
#[test]
fn a_sample_has_every_refer_and_as_many_others_as_were_asked_for() {
    let bench = Bench::new();
    let all = class(&bench, 0);
    for learner in 1..=12 {
        let it = if learner % 4 == 0 { slipped(&all, learner, 3) } else { right(&all, learner) };
        bench.file(&it.name(), it.text());
    }
    let sampled = |seed: &str, out: &str| {
        let run = bundle(&bench, &["-o", out, "--sample", "3", "--seed", seed]);
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
        assert!(run.out.contains("every refer: 3\ndrawn at random: 3\n"), "{}", run.out);
        let files = unpacked(&fs::read(bench.path(out)).expect("a bundle"));
        let list: Value = serde_json::from_str(text(&files, "bundle.json")).expect("a list");
        let works = list["works"].as_array().expect("works").clone();
        let of =
            |why: &str| works.iter().filter(|it| it["why"] == why).filter_map(|it| it["learner"].as_u64()).collect();
        let (refers, drawn): (BTreeSet<u64>, BTreeSet<u64>) = (of("refer"), of("drawn"));
        assert_eq!(refers, BTreeSet::from([4, 8, 12]));
        assert!(drawn.len() == 3 && drawn.is_disjoint(&refers), "{drawn:?}");
        drawn
    };
    let first = sampled("7", "one.zip");
    assert_eq!(sampled("7", "again.zip"), first);
    let others: BTreeSet<BTreeSet<u64>> = ["8", "9", "10"].iter().map(|it| sampled(it, &format!("{it}.zip"))).collect();
    assert!(others.iter().any(|it| *it != first), "every seed draws the same: {others:?}");
    assert_eq!(bench.run(&["verify", "one.zip"]).code, Some(0));
}

#[test]
fn what_is_there_stays_and_what_names_somebody_is_left_out() {
    let bench = three();
    bench.file("moderator.zip", "mine");
    let run = bundle(&bench, &["-o", "moderator.zip"]);
    assert_eq!((run.code, bench.read("moderator.zip").as_str()), (Some(1), "mine"), "{}", run.err);
    let run = bundle(&bench, &["-o", "none/moderator.zip"]);
    assert!(run.code == Some(1) && run.out.is_empty(), "{}", run.err);
    bundle(&bench, &["-o", "x.zip", "--learner", "5"]).complains(
        "error: nothing that was asked for counts, so no bundle is written; without `--learner` or `--sample` a bundle holds what was released\n",
    );
    bench
        .run(&["bundle", "week-3.ron", "in", "-o", "x.zip"])
        .complains("error: say with `--register` in which register the decisions are kept\n");
    // A file in which somebody wrote more than a number.
    let all = class(&Bench::new(), 0);
    let mut named = right(&all, 6).text();
    named = named.replacen("learner:\"6\"", "learner:\"Robin Hale\"", 1);
    let lines: Vec<String> =
        named.lines().map(|it| it.split(",sum:\"").next().expect("a line").to_owned() + ")").collect();
    bench.file(
        "in/week-3_6_wire-a-switch_1.attempt.ron",
        crate::bench::sealed(switchdrop::attempt::Format::NEWEST, &lines),
    );
    let run = bundle(&bench, &["-o", "x.zip", "--learner", "6", "--learner", "3"]);
    assert_eq!(run.code, Some(1));
    assert!(
        run.err.contains("learner 6, wire-a-switch: the file has more in it than the learner's number"),
        "{}",
        run.err
    );
    let files = unpacked(&fs::read(bench.path("x.zip")).expect("a bundle"));
    assert!(files.len() == 6 && files.iter().all(|it| !String::from_utf8_lossy(&it.1).contains("Robin")));
    assert!(!bench.names().iter().any(|it| it.contains(".part")), "{:?}", bench.names());
}

/// Killed whenever: there is no bundle, or a whole one.
#[test]
fn a_bundle_is_never_half_written() {
    let bench = Bench::new();
    class(&bench, 24);
    let mut whole = 0;
    for after in 0..12_u64 {
        let name = format!("{after}.zip");
        let args = [
            "bundle",
            "week-3.ron",
            "in",
            "--at",
            AFTER,
            "--register",
            "kept.db",
            "--sample",
            "24",
            "--seed",
            "1",
            "-o",
            &name,
        ];
        let mut child = bench.spawn(&args);
        thread::sleep(Duration::from_millis(after * after * 12));
        child.kill().expect("killed");
        child.wait().expect("ended");
        if bench.path(&name).exists() {
            whole += 1;
            let run = bench.run(&["verify", &name]);
            assert_eq!((run.err.as_str(), run.code), ("", Some(0)), "{name}");
        }
    }
    assert!(whole > 0 && whole < 12, "{whole} of 12 were done: the pauses show nothing");
}

/// Nothing of the tutor's goes to a second marker: no mark, no reason, no name, no release; and what is sampled does not follow from it either.
#[test]
fn a_bundle_for_a_second_marker_has_nothing_of_the_tutors() {
    let bench = three();
    let texts = |out: &str| -> Vec<String> {
        let files = unpacked(&fs::read(bench.path(out)).expect("a bundle"));
        files.into_iter().map(|it| String::from_utf8_lossy(&it.1).into_owned()).collect()
    };
    let sampled = |out: &str, more: &[&str]| {
        let run = bundle(&bench, &[&["-o", out, "--sample", "1", "--seed", "7"], more].concat());
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
        run.out
    };
    // What is kept from them is there to be kept: an open bundle has it.
    sampled("open.zip", &["--names"]);
    let open = texts("open.zip").concat();
    for it in ["it lay beside the switch", "A. Reed", "\"tutor\""] {
        assert!(open.contains(it), "{it}");
    }
    let said = sampled("blind.zip", &["--blind", "--names"]);
    assert!(said.contains("It is for a second marker"), "{said}");
    let blind = texts("blind.zip");
    for it in ["it lay beside the switch", "A. Reed", "\"tutor\"", "\"agreed\""] {
        assert!(!blind.concat().contains(it), "{it}");
    }
    let layers: Vec<Value> = blind
        .iter()
        .filter_map(|it| serde_json::from_str(it).ok())
        .filter(|it: &Value| it["stands"].is_object())
        .collect();
    assert!(!layers.is_empty());
    for it in &layers {
        assert_eq!((&it["by"], &it["releases"], &it["stands"]), (&json!(null), &json!([]), &it["machine"]), "{it}");
    }
    // Every mark in it is reproduced as in any other.
    let verified = bench.run(&["verify", "blind.zip"]);
    assert_eq!(verified.code, Some(0), "{} {}", verified.out, verified.err);
    // What the tutor decides since changes nothing of it but the time at which it is made.
    let receipt = |row: usize| {
        let review = bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db", "--json"]);
        let review: Value = serde_json::from_str(&review.out).expect("a review");
        review["rows"][row]["files"][0]["receipt"].as_str().expect("a receipt").to_owned()
    };
    let lower = ["--as", "tutor", "--by", "A. Reed", "--marks", "50", "--outcome", "refer", "--why", "seen"];
    assert_eq!(bench.run(&[&["decide", "kept.db", &receipt(0)][..], &lower].concat()).code, Some(0));
    sampled("later.zip", &["--blind", "--names"]);
    let later = texts("later.zip");
    assert_eq!(blind[1..], later[1..]);
    let list = |all: &[String]| {
        let mut list: Value = serde_json::from_str(&all[0]).expect("a list");
        list["made_at"] = json!(null);
        list
    };
    assert_eq!(list(&blind), list(&later));
}

/// A second marker who has said nothing of marks yet is told nothing of the tutor's; after that all of it, to be agreed on.
#[test]
fn a_second_marker_decides_before_the_tutors_mark_is_shown() {
    let bench = three();
    let review = bench.run(&["review", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db", "--json"]);
    let review: Value = serde_json::from_str(&review.out).expect("a review");
    let receipt = review["rows"][1]["files"][0]["receipt"].as_str().expect("a receipt");
    let decide = |more: &[&str]| {
        let all = [&["decide", "kept.db", receipt, "--as", "second", "--by", "C. Ash", "--why", "seen"], more].concat();
        let run = bench.run(&all);
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
        run.out
    };
    let comment = decide(&["--step", "3"]);
    assert!(!comment.contains("A. Reed") && comment.contains("C. Ash"), "{comment}");
    let decided = decide(&["--marks", "95"]);
    assert!(decided.contains("A. Reed"), "{decided}");
}
