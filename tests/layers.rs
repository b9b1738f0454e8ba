//! Who may know whom: each room uses only those above it, and the library stays pure.

use std::path::Path;

use crate::bench::sources;

/// The ladder, from the top. A room may use any above it.
const ROOMS: [&str; 12] = [
    "trade", "exercise", "work", "circuit", "attempt", "reason", "marking", "advice", "wording", "picture", "report",
    "register",
];

/// The binary's rooms, and which of each other they may use.
const BINARY: [(&str, &[&str]); 5] = [
    ("journal", &[]),
    ("store", &[]),
    ("desk", &["journal", "store"]),
    ("command", &["journal", "store", "desk"]),
    ("workshop", &["journal", "store", "desk"]),
];

/// What a pure library has no business with.
const BANNED: [&str; 14] = [
    "std::fs",
    "std::time",
    "std::env",
    "std::net",
    "std::process",
    "std::thread",
    "println!",
    "print!(",
    "eprint!(",
    "eprintln!",
    "cfg(feature",
    "dbg!(",
    "SysRng",
    "getrandom",
];

/// The room of a file: the first part of its path under `src/`.
fn room(path: &Path) -> String {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let inside = path.strip_prefix(src).expect("a file under src");
    let first = inside.components().next().expect("a name").as_os_str().to_string_lossy().into_owned();
    first.trim_end_matches(".rs").to_owned()
}

/// The rooms named after `crate::` on a line; `crate::{a, b}` is looked at over its lines.
fn used(line: &str) -> Vec<&str> {
    let names = line.split("crate::").skip(1).map(|it| it.trim_start_matches('{'));
    names.map(|it| it.split(|it: char| !it.is_alphanumeric() && it != '_').next().unwrap_or("")).collect()
}

/// Lines that are code, with their numbers, and inside a `use crate::{` block whatever stands first on each.
fn uses(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    // How deep in braces a `use crate::{` stands open.
    let mut depth = 0_usize;
    for (index, line) in text.lines().enumerate() {
        let code = line.split("//").next().unwrap_or("");
        if depth == 1 {
            let name = code.trim().split(|it: char| !it.is_alphanumeric() && it != '_').next().unwrap_or("");
            found.push((index + 1, name.to_owned()));
        }
        let opens = code.trim_start().starts_with("use crate::{") || code.trim_start().starts_with("pub use crate::{");
        if opens || depth > 0 {
            depth = (depth + code.matches('{').count()).saturating_sub(code.matches('}').count());
        }
        found.extend(used(code).into_iter().map(|it| (index + 1, it.to_owned())));
    }
    found
}

#[test]
fn each_room_uses_only_those_above_it() {
    let mut wrong = Vec::new();
    let mut looked_at = 0;
    for (path, text) in sources("src") {
        let here = room(&path);
        let forbidden: Vec<&str> = if let Some(rank) = ROOMS.iter().position(|it| *it == here) {
            ROOMS[rank + 1..].iter().copied().chain(BINARY.iter().map(|it| it.0)).collect()
        } else if let Some((_, may)) = BINARY.iter().find(|it| it.0 == here) {
            BINARY.iter().map(|it| it.0).filter(|it| *it != here && !may.contains(it)).collect()
        } else {
            assert!(["lib", "main"].contains(&here.as_str()), "{} is in no room", path.display());
            continue;
        };
        looked_at += 1;
        for (line, name) in uses(&text) {
            if forbidden.contains(&name.as_str()) {
                wrong.push(format!("{}:{line}: {here} may not use {name}", path.display()));
            }
        }
    }
    assert!(looked_at > 30, "only {looked_at} files found");
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn the_library_opens_nothing_reads_no_clock_and_prints_nothing() {
    let mut wrong = Vec::new();
    let mut looked_at = 0;
    for (path, text) in sources("src") {
        let here = room(&path);
        if here != "lib" && !ROOMS.contains(&here.as_str()) {
            continue;
        }
        looked_at += 1;
        for (index, line) in text.lines().enumerate() {
            let code = line.split("//").next().unwrap_or("");
            // `use std::{fs, ..}` names them without the path.
            let grouped = code.trim_start().starts_with("use std::{")
                && ["fs", "time", "env", "net", "process", "thread"]
                    .iter()
                    .any(|banned| code.split(|it: char| !it.is_alphanumeric()).any(|word| word == *banned));
            if grouped || BANNED.iter().any(|it| code.contains(it)) {
                wrong.push(format!("{}:{}: {}", path.display(), index + 1, line.trim()));
            }
        }
    }
    assert!(looked_at > 30, "only {looked_at} files found");
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// The two tests above are only worth something if they see what they look for.
#[test]
fn a_use_is_seen_however_it_is_written() {
    let text = "use crate::work::Work;\nuse crate::{\n    exercise::{A, B},\n    marking::C,\n};\nlet a = crate::picture::svg();\n// crate::report\n";
    let found: Vec<_> = uses(text).into_iter().filter(|it| ROOMS.contains(&it.1.as_str())).collect();
    let expected = [(1, "work"), (3, "exercise"), (4, "marking"), (6, "picture")].map(|(n, it)| (n, it.to_owned()));
    assert_eq!(found, expected);
}

/// A type has a name of its own: none stands at the top of two files of the library.
#[test]
fn no_two_types_of_the_library_share_a_name() {
    let mut files: std::collections::BTreeMap<String, Vec<String>> = std::collections::BTreeMap::new();
    for (path, text) in sources("src") {
        if !ROOMS.contains(&room(&path).as_str()) {
            continue;
        }
        for line in text.lines() {
            if let Some(name) = type_name(line) {
                files.entry(name.to_owned()).or_default().push(path.display().to_string());
            }
        }
    }
    assert!(files.len() > 200, "only {} types found", files.len());
    let shared: Vec<_> = files.iter().filter(|it| it.1.len() > 1).collect();
    assert!(shared.is_empty(), "{shared:#?}");
}

/// The type that a line at the left edge declares.
fn type_name(line: &str) -> Option<&str> {
    let line = match line.strip_prefix("pub") {
        Some(rest) if rest.starts_with('(') => rest.split_once(") ")?.1,
        Some(rest) => rest.strip_prefix(' ')?,
        None => line,
    };
    let rest = ["struct ", "enum ", "trait ", "type "].iter().find_map(|it| line.strip_prefix(it))?;
    rest.split(|it: char| !it.is_alphanumeric() && it != '_').next()
}

#[test]
fn a_type_is_seen_however_it_is_declared() {
    for line in
        ["struct Name;", "pub enum Name {", "pub(super) trait Name {", "pub(in crate::work) type Name<'a> = u8;"]
    {
        assert_eq!(type_name(line), Some("Name"), "{line}");
    }
    assert_eq!(type_name("    struct Inner;"), None);
}
