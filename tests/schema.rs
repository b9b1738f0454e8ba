//! The JSON Schema of a mark sheet: the committed one is the one made from the types, and sheets are what it says.
//!
//! `UPDATE_EXPECT=1 cargo test` writes it afresh. The judge (crate `valico`) shares nothing with the maker.

use std::{fs, path::Path};

use serde_json::{Value, json};
use switchdrop::work::Action;
use valico::json_schema::Scope;

use crate::{
    bench::{Bench, attempt_text},
    hand::{SHIPPED, exercise},
};

/// What the schema has against a sheet.
fn faults(sheet: &Value) -> Vec<String> {
    let schema: Value = serde_json::from_str(include_str!("../assets/mark-sheet.schema.json")).expect("JSON");
    let mut scope = Scope::new();
    let schema = scope.compile_and_return(schema, false).expect("a schema");
    schema.validate(sheet).errors.iter().map(|it| format!("{it:?}")).collect()
}

fn sheets(bench: &Bench, files: &[&str]) -> Vec<Value> {
    let run = bench.run(&[&["mark", "--json", "--unfinished"], files].concat());
    assert_eq!(run.code, Some(0), "{}", run.err);
    run.out.lines().map(|it| serde_json::from_str(it).expect("JSON")).collect()
}

#[test]
fn the_committed_schema_is_the_one_that_the_types_give() {
    let run = Bench::new().run(&["mark", "--schema"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/mark-sheet.schema.json");
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::write(&path, &run.out).expect("a schema can be kept");
    }
    let kept = fs::read_to_string(&path).expect("the committed schema").replace("\r\n", "\n");
    assert!(kept == run.out, "{} is not the schema of the types: UPDATE_EXPECT=1", path.display());
}

#[test]
fn sheets_of_shipped_exercises_are_what_the_schema_says() {
    let bench = Bench::new();
    let mut files = Vec::new();
    for (id, _) in SHIPPED {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("exercises").join(id);
        bench.file(
            &format!("{id}-model"),
            fs::read(folder.join("model.attempt.ron"))
                .unwrap_or_else(|it| panic!("{id}: no model file ({it}): UPDATE_EXPECT=1 cargo test model_files")),
        );
        bench.file(&format!("{id}-blank"), attempt_text(&exercise(id, 4), &[]));
        // Something done that must not be, so that an action is a witness.
        let acts = [Action::RemoveCover { location: exercise(id, 4).locations.rows()[1].id.clone() }, Action::HandIn];
        bench.file(&format!("{id}-acts"), attempt_text(&exercise(id, 4), &acts));
        files.extend(["model", "blank", "acts"].map(|it| format!("{id}-{it}")));
    }
    bench.file("sample", fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/sample.attempt.ron")).unwrap());
    files.push("sample".to_owned());
    let files: Vec<&str> = files.iter().map(String::as_str).collect();
    let sheets = sheets(&bench, &files);
    assert_eq!(sheets.len(), files.len());
    let mut witnesses = 0;
    for (file, sheet) in files.iter().zip(&sheets) {
        assert_eq!(faults(sheet), Vec::<String>::new(), "{file}");
        witnesses += sheet["findings"].as_array().unwrap().iter().filter(|it| !it["witness"].is_null()).count();
    }
    assert!(witnesses > 0, "no sheet has a witness");
}

/// A schema that allows everything would pass the test above.
#[test]
fn a_sheet_that_is_none_is_refused() {
    let bench = Bench::new();
    bench.file("blank", attempt_text(&exercise("one-way-rose", 4), &[Action::HandIn]));
    let sheet = sheets(&bench, &["blank"]).remove(0);
    assert_eq!(faults(&sheet), Vec::<String>::new());
    for name in sheet.as_object().unwrap().keys() {
        let mut without = sheet.clone();
        without.as_object_mut().unwrap().remove(name);
        assert!(!faults(&without).is_empty(), "without {name}");
    }
    for (place, value) in [
        ("/marks", json!("80")),
        ("/marks", json!(-1)),
        ("/outcome", json!("fail")),
        ("/criteria/0/name", json!("beauty")),
        ("/findings/0/code", json!("no-such-code")),
        ("/findings/0/weight", json!(3)),
        ("/findings/0/witness", json!({ "positions": "0" })),
    ] {
        let mut other = sheet.clone();
        *other.pointer_mut(place).unwrap_or_else(|| panic!("{place} in {sheet}")) = value;
        assert!(!faults(&other).is_empty(), "{place}");
    }
}
