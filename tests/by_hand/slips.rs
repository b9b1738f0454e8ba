//! Single slips of making off, each with the one cause it must have, and near misses that cost nothing.

use switchdrop::{
    trade::colour::Colour,
    work::{Edit, Prep},
};

use crate::hand::marked;

use super::{DOUBLE, DOUBLE_STEPS, SINGLE_STEPS, double, judged, single, single_done, with};
use crate::slips::Row;

/// Line in the steps, what is done instead, the one cause it must have; nothing where it must cost nothing.
pub type Slip = (&'static str, &'static str, Option<(&'static str, &'static str)>);

pub const DOUBLE_SLIPS: &[Slip] = &[
    // Folded in two, 24 mm is 12 in a hole of 10: 2 mm show. 22 is 11, and 1 mm at the mouth can't be told.
    (
        r#"Strip(end: "feed/brown@box", mm: 20,"#,
        r#"Strip(end: "feed/brown@box", mm: 24,"#,
        Some(("bare-copper-showing", "feed/brown@box")),
    ),
    (r#"Strip(end: "feed/brown@box", mm: 20,"#, r#"Strip(end: "feed/brown@box", mm: 22,"#, None),
    // 12 mm is 6: the last 4 of 10 are insulation. 16 is 8, the least of common practice.
    (
        r#"Strip(end: "flex/blue@box", mm: 20,"#,
        r#"Strip(end: "flex/blue@box", mm: 12,"#,
        Some(("insulation-under-screw", "flex/blue@box")),
    ),
    (r#"Strip(end: "flex/blue@box", mm: 20,"#, r#"Strip(end: "flex/blue@box", mm: 16,"#, None),
    // A smaller jaw cuts the copper; a larger one doesn't.
    (
        r#"Strip(end: "feed/blue@box", mm: 20, jaw: 150)"#,
        r#"Strip(end: "feed/blue@box", mm: 20, jaw: 100)"#,
        Some(("nicked", "feed/blue@box")),
    ),
    (r#"Strip(end: "feed/blue@box", mm: 20, jaw: 150)"#, r#"Strip(end: "feed/blue@box", mm: 20, jaw: 250)"#, None),
    (
        r#"Tighten(terminal: "box.N-in")"#,
        r#"Tighten(terminal: "box.N-in", feel: Crushed)"#,
        Some(("crushed", "feed/blue@box")),
    ),
    // At 1.3 A a slack joint is hot; the screw is the one cause.
    (
        r#"Tighten(terminal: "box.N-in")"#,
        r#"Tighten(terminal: "box.N-in", feel: Slack)"#,
        Some(("connection-slack", "box.N-in")),
    ),
    (r#"Tighten(terminal: "box.N-in")"#, "", Some(("connection-slack", "box.N-in"))),
    // Put right before the plate goes on.
    (
        r#"Tighten(terminal: "box.N-in")"#,
        r#"Tighten(terminal: "box.N-in", feel: Slack)
           Tighten(terminal: "box.N-in")
           Tug(end: "feed/blue@box")"#,
        None,
    ),
    (r#"Grommet(location: "box")"#, "", Some(("grommet-missing", "box"))),
    // 195 of the 200 that hang: 5 mm of sheath inside. 190 leaves the 10.
    (
        r#"Sheath(cable: "feed", location: "box", mm: 160)"#,
        r#"Sheath(cable: "feed", location: "box", mm: 195)"#,
        Some(("sheath-outside", "feed/brown@box")),
    ),
    (r#"Sheath(cable: "feed", location: "box", mm: 160)"#, r#"Sheath(cable: "feed", location: "box", mm: 190)"#, None),
    // In two goes.
    (
        r#"Sheath(cable: "flex", location: "box", mm: 160)"#,
        r#"Sheath(cable: "flex", location: "box", mm: 90)
           Sheath(cable: "flex", location: "box", mm: 160)"#,
        None,
    ),
    // Five cores of 120 mm fold away behind a plate by themselves.
    (r#"Dress(location: "box")"#, "", None),
    (r#"Mark(end: "feed/cpc@box", mark: Sleeve(GreenYellow))"#, "", Some(("cpc-unsleeved", "feed/cpc@box"))),
    // Whether the bare cpc is folded is as the hand likes: its hole asks for nothing.
    (r#"Cut(end: "feed/cpc@box", mm: 120)"#, "Cut(end: \"feed/cpc@box\", mm: 120)\nFold(end: \"feed/cpc@box\")", None),
    // Longer than needed, and laid clear.
    (r#"Cut(end: "feed/brown@box", mm: 120)"#, r#"Cut(end: "feed/brown@box", mm: 150)"#, None),
];

/// At the one-way plate and the connector.
pub const SINGLE_SLIPS: &[Slip] = &[
    // Holes of 9 mm ask for no fold, and forbid none.
    ("Grommet", "Fold(end: \"feed/brown@box\")\nUnfold(end: \"feed/brown@box\")\nGrommet", None),
    (
        r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#,
        "Strip(end: \"feed/brown@box\", mm: 18, jaw: 150)\nFold(end: \"feed/brown@box\")",
        None,
    ),
    // Straight, 18 mm is 9 outside.
    (
        r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#,
        r#"Strip(end: "feed/brown@box", mm: 18, jaw: 150)"#,
        Some(("bare-copper-showing", "feed/brown@box")),
    ),
    // Common practice.
    (r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#, r#"Strip(end: "feed/brown@box", mm: 8, jaw: 150)"#, None),
    (r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 150)"#, None),
    // Folded under a lever.
    (
        r#"Strip(end: "feed/blue@box", mm: 11, jaw: 150)"#,
        "Strip(end: \"feed/blue@box\", mm: 22, jaw: 150)\nFold(end: \"feed/blue@box\")",
        Some(("fold-wrong", "feed/blue@box")),
    ),
    // A lever can't be driven through anything.
    (r#"Tighten(terminal: "box.connector.1")"#, r#"Tighten(terminal: "box.connector.1", feel: Crushed)"#, None),
    (
        r#"Strip(end: "flex/brown@box", mm: 9, jaw: 75)"#,
        r#"Strip(end: "flex/brown@box", mm: 2, jaw: 75)"#,
        Some(("insulation-under-screw", "flex/brown@box")),
    ),
];

/// Lines of the table of slips.
pub fn rows() -> Vec<Row> {
    let tables = [
        ("made off at a double-pole plate", DOUBLE.to_owned(), DOUBLE_STEPS, DOUBLE_SLIPS),
        ("made off at a one-way plate", single(), SINGLE_STEPS, SINGLE_SLIPS),
    ];
    let mut rows = Vec::new();
    for (from, text, steps, slips) in tables {
        let mut row = Row::new(from);
        for (line, instead, cause) in slips {
            let sheet = judged(&with(&text, steps, line, instead));
            row.judges(instead, cause.map(|it| it.0), &sheet);
            let (causes, expected) = (sheet.causes(), cause.iter().copied().collect::<Vec<_>>());
            if causes != expected || cause.is_none() && !sheet.findings.is_empty() {
                row.wrong.push(format!("{instead}: {causes:?}, not {expected:?}: {:?}", sheet.findings));
            }
        }
        rows.push(row);
    }
    rows.extend(flaws());
    rows
}

/// Every end, every single flaw put in from outside: one cause, at that end.
fn flaws() -> Vec<Row> {
    let mut rows = Vec::new();
    for (from, hand) in [("a flaw at a double-pole plate", double()), ("a flaw at a one-way plate", single_done())] {
        let mut row = Row::new(from);
        let work = hand.attempt.work();
        for end in work.ends() {
            let Some(prep) = work.prep_of(end) else { continue };
            let bare = work.end_facts(end).colour == Colour::Bare;
            let mut flaws = vec![
                ("nicked", Prep { nicked: true, ..prep }),
                ("crushed", Prep { crushed: true, ..prep }),
                ("conductor-trapped", Prep { trapped: true, ..prep }),
            ];
            if !bare {
                flaws.push(("bare-copper-showing", Prep { strip_mm: prep.strip_mm + 6, ..prep }));
                flaws.push(("insulation-under-screw", Prep { strip_mm: prep.strip_mm / 2, ..prep }));
            }
            for (code, flaw) in flaws {
                let sheet = marked(&hand.attempt.supposing(&[Edit::Prepare(end, flaw)]));
                let at = work.end_address(end);
                row.judges(&format!("{code} at {at}"), Some(code), &sheet);
                if sheet.causes() != [(code, at.as_str())] {
                    row.wrong.push(format!("{code} at {at}: {:#?}", sheet.findings));
                }
            }
        }
        rows.push(row);
    }
    rows
}
