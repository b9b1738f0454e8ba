use std::collections::BTreeSet;

use super::{read::read, *};

fn listed(id: &str) -> Listed {
    Listed::find(id).unwrap_or_else(|| panic!("no {id}"))
}

/// The joins of a position by name.
fn joins(id: &str, position: usize) -> BTreeSet<(String, String)> {
    let it = listed(id);
    let name = |place: usize| it.name_of(place).to_owned();
    it.joins(position).iter().map(|(a, b)| (name(*a), name(*b))).collect()
}

fn pairs(of: &[(&str, &str)]) -> BTreeSet<(String, String)> {
    of.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect()
}

#[test]
fn the_shipped_catalogue_is_valid_and_not_empty() {
    assert_eq!(read(SHIPPED).map(|it| it.len()), Ok(Listed::all().count()));
    assert!(Listed::all().count() >= 12);
}

/// COM and L1, open or closed; COM to L1 or COM to L2, never neither ("Multiway switching", encyclopaedia article).
#[test]
fn one_way_and_two_way_switches_do_what_the_trade_says() {
    assert_eq!([joins("OneWay", 0), joins("OneWay", 1)], [pairs(&[]), pairs(&[("COM", "L1")])]);
    assert_eq!([joins("TwoWay", 0), joins("TwoWay", 1)], [pairs(&[("COM", "L1")]), pairs(&[("COM", "L2")])]);
    assert_eq!(joins("TwoWay", 2), pairs(&[]));
    // A cord pulled or a knob pushed changes over as a rocker does.
    for it in ["PullCordTwoWay", "DimmerTwoWay"] {
        assert_eq!([joins(it, 0), joins(it, 1)], [pairs(&[("COM", "L1")]), pairs(&[("COM", "L2")])], "{it}");
    }
    assert_eq!(listed("TwoWay").positions(), 2);
}

/// Habit of the trade here, from memory.
#[test]
fn rocker_down_is_com_to_l1_on_both() {
    assert!(listed("OneWay").is_down(1) && !listed("OneWay").is_down(0));
    assert!(listed("TwoWay").is_down(0) && !listed("TwoWay").is_down(1));
}

/// Straight or crossed, and never anything open (the same article, and two articles of the trade on intermediates).
#[test]
fn an_intermediate_switch_is_straight_or_crossed() {
    assert_eq!(joins("Intermediate", 0), pairs(&[("A1", "B1"), ("A2", "B2")]));
    assert_eq!(joins("Intermediate", 1), pairs(&[("A1", "B2"), ("A2", "B1")]));
    assert!(!listed("Intermediate").is_linked(), "it opens nothing");
}

/// A fan's isolator opens line, switched line and neutral at once (a maker's sheet); a double-pole switch two poles.
#[test]
fn linked_poles_are_known_as_linked() {
    let linked: Vec<_> = Listed::all().filter(|it| it.is_linked()).map(|it| it.id.clone()).collect();
    let known = [("DoublePole", 2), ("FanIsolator", 3), ("FusedUnit", 2)];
    assert_eq!(linked, known.map(|it| it.0), "a new switch of linked poles stands in this list with their number");
    for (id, poles) in known {
        assert_eq!([listed(id).joins(0).len(), listed(id).joins(1).len()], [0, poles], "{id}");
        assert!(listed(id).is_down(1), "{id}");
    }
}

/// Makers' sheets: a 13 A socket-outlet takes 3 x 2.5, 3 x 4 or 2 x 6 mm² in each of line and neutral. A plate switch
/// 4 x 1.0, 4 x 1.5 or 2 x 2.5 (from memory).
#[test]
fn terminals_take_what_the_sheets_say() {
    let takes = |id: &str, count: usize, mm2: f64| {
        let fits = |it: &TerminalKind| {
            count <= it.capacity.conductors && count as f64 * mm2 <= it.capacity.mm2 && it.capacity.is_made_for(mm2)
        };
        listed(id).terminals.iter().all(fits)
    };
    for (count, mm2, fits) in [(3, 2.5, true), (3, 4.0, true), (2, 6.0, true), (3, 6.0, false), (4, 2.5, false)] {
        assert_eq!(takes("Socket", count, mm2), fits, "{count} x {mm2}");
    }
    for (count, mm2, fits) in [(4, 1.0, true), (4, 1.5, true), (2, 2.5, true), (3, 2.5, false), (5, 1.0, false)] {
        assert_eq!(takes("TwoWay", count, mm2), fits, "{count} x {mm2}");
    }
}

/// BS 5733, marked MF: what may be where nobody can come to it. A lever or screw connector on its own may not.
#[test]
fn connectors_say_what_they_may_do() {
    let connectors: Vec<_> = Listed::all()
        .filter_map(|it| match it.sort {
            Sort::Connector { enclosed, maintenance_free } => Some((it.id.clone(), enclosed, maintenance_free)),
            _ => None,
        })
        .collect();
    assert!(connectors.len() >= 3);
    for (id, enclosed, maintenance_free) in connectors {
        assert!(enclosed || !maintenance_free, "{id}");
    }
}

#[test]
fn a_word_in_a_file_is_an_entry_and_is_written_as_it_was_read() {
    let ways: Vec<Listed> = ron::from_str("[OneWay, TwoWay]").unwrap();
    assert_eq!(ways, [listed("OneWay"), listed("TwoWay")]);
    assert_eq!(ron::to_string(&ways).unwrap(), "[OneWay,TwoWay]");
    assert!(ron::from_str::<Listed>("ThreeWay").is_err());
}

/// One entry, valid as it stands, and everything that can be wrong with it.
#[test]
fn what_is_wrong_with_a_catalogue_is_said() {
    let entry = "(id: \"New\", sort: Plate(gangs: 2, earth: false), worked_by: Rocker, terminals: [\
                 (name: \"A\", marks: [\"A\"], conductors: 2, mm2: 5.0, each_mm2: (1.0, 2.5), depth_mm: 9.0, clamp: Cage),\
                 (name: \"B\", marks: [\"B\"], conductors: 2, mm2: 5.0, each_mm2: (1.0, 2.5), depth_mm: 9.0, clamp: Cage)],\
                 joins: [[], [(\"A\", \"B\")]], down: Some(1), source: \"made up\")";
    let one = |text: &str| read(&format!("[{text}]"));
    assert_eq!(one(entry).map(|it| it[0].joins(1).to_vec()), Ok(vec![(0, 1)]));
    let new = || "New".to_owned();
    let figure = |it| CatalogueError::Figure(new(), it);
    for (from, to, wrong) in [
        ("id: \"New\"", "id: \"new\"", CatalogueError::Id("new".to_owned())),
        ("id: \"New\"", "id: \"\"", CatalogueError::Id(String::new())),
        ("source: \"made up\"", "source: \" \"", CatalogueError::Source(new())),
        ("name: \"B\"", "name: \"A\"", CatalogueError::Name(new(), "A".to_owned())),
        ("name: \"B\"", "name: \"2\"", CatalogueError::Name(new(), "2".to_owned())),
        ("name: \"B\"", "name: \"B.x\"", CatalogueError::Name(new(), "B.x".to_owned())),
        ("(\"A\", \"B\")", "(\"A\", \"C\")", CatalogueError::Join(new(), "A".to_owned(), "C".to_owned())),
        ("(\"A\", \"B\")", "(\"A\", \"A\")", CatalogueError::Join(new(), "A".to_owned(), "A".to_owned())),
        (
            "(\"A\", \"B\")",
            "(\"A\", \"B\"), (\"B\", \"A\")",
            CatalogueError::Join(new(), "B".to_owned(), "A".to_owned()),
        ),
        ("gangs: 2", "gangs: 0", figure("number of gangs")),
        ("gangs: 2", "gangs: 5", figure("number of gangs")),
        ("[[], [(\"A\", \"B\")]]", "[]", figure("number of positions")),
        ("[[], [(\"A\", \"B\")]], down: Some(1)", "[[]]", figure("what it is worked by")),
        // A fuse in one pole has another pole beside it.
        (
            "down: Some(1)",
            "down: Some(1), fused: Some((\"A\", \"B\"))",
            CatalogueError::Join(new(), "A".to_owned(), "B".to_owned()),
        ),
        ("down: Some(1)", "down: Some(2)", figure("position that is down")),
        ("conductors: 2", "conductors: 0", figure("number of conductors")),
        ("(1.0, 2.5)", "(2.5, 1.0)", figure("size of a conductor")),
        ("(1.0, 2.5)", "(NaN, 2.5)", figure("size of a conductor")),
        ("mm2: 5.0", "mm2: inf", figure("sizes of conductors together")),
        ("mm2: 5.0", "mm2: 2.0", figure("sizes of conductors together")),
        ("depth_mm: 9.0", "depth_mm: 0.0", figure("depth")),
        ("marks: [\"B\"]", "marks: []", figure("markings")),
        ("Plate(gangs: 2, earth: false)", "JunctionBox(maintenance_free: true)", figure("number of positions")),
    ] {
        assert!(entry.contains(from), "{from}");
        assert_eq!(one(&entry.replacen(from, to, 1)), Err(wrong), "{to}");
    }
    assert_eq!(one(&format!("{entry}, {entry}")), Err(CatalogueError::Twice(new())));
    assert!(matches!(one(&entry.replace("clamp", "clam")), Err(CatalogueError::Syntax(_))));
}
