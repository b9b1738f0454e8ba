//! `why`: what it says to a householder, what to a machine, and to whoever asks for what cannot be.

use crate::bench::Bench;

/// The counts are those of `reason`'s brute force; the sentences were read by a person.
#[test]
fn with_two_cores_none_works_and_it_says_why() {
    Bench::new().run(&["why"]).says(
        "\
         Two switches work one light, and two cores lead from each to the next. The feed and the wire to\n\
         the lamp both arrive at the near switch, and the lamp has its neutral.\n\
         \n\
         \x20                                                    ways  kinds\n\
         tried: every way of joining every end                 729    405\n\
         the lamp obeys: each press of any switch changes it     0      0\n\
         \x20 and there is no danger that this model knows          0      0\n\
         What the others do:\n\
         \x20 the lamp is always on                               303    165\n\
         \x20 the lamp is always off                               78     48\n\
         \x20 only the near switch works it                       236    136\n\
         \x20 only the far switch works it                         16      8\n\
         \x20 it is on in one of the four positions only           32     16\n\
         \x20 it is off in one of the four positions only          64     32\n\
         Ways that differ only in which core is which are one kind.\n\
         \n\
         With two wires, all that the far switch can do is join them or part them. Where it joins them, the\n\
         lamp would have to come on at one setting of the near switch and go out at another. But to join is\n\
         only to add a connection, and adding one never puts out a lamp that is lit.\n\
         ",
    );
}

#[test]
fn with_three_some_work_and_it_shows_one() {
    Bench::new().run(&["why", "--cores", "3"]).says(
        "\
         Two switches work one light, and three cores lead from each to the next. The feed and the wire to\n\
         the lamp both arrive at the near switch, and the lamp has its neutral.\n\
         \n\
         \x20                                                     ways  kinds\n\
         tried: every way of joining every end                6,561  1,485\n\
         the lamp obeys: each press of any switch changes it     24      4\n\
         \x20 and there is no danger that this model knows          24      4\n\
         What the others do:\n\
         \x20 the lamp is always on                              3,723    781\n\
         \x20 the lamp is always off                               234     84\n\
         \x20 only the near switch works it                      1,572    392\n\
         \x20 only the far switch works it                          96     24\n\
         \x20 it is on in one of the four positions only           192     48\n\
         \x20 it is off in one of the four positions only          720    152\n\
         Ways that differ only in which core is which are one kind.\n\
         \n\
         One of them (the lamp obeys, and there is no danger that this model knows):\n\
         \x20 brown core of the near switch's cable, at the near switch: near switch, L1\n\
         \x20 blue core of the near switch's cable, at the near switch: near switch, L2\n\
         \x20 brown core of the linking cable, at the near switch: near switch, COM\n\
         \x20 black core of the linking cable, at the near switch: near switch, L1\n\
         \x20 grey core of the linking cable, at the near switch: near switch, L2\n\
         \x20 brown core of the linking cable, at the far switch: far switch, COM\n\
         \x20 black core of the linking cable, at the far switch: far switch, L1\n\
         \x20 grey core of the linking cable, at the far switch: far switch, L2\n\
         \n\
         A third wire lets the far switch take a join away from one wire and give it to another in the same\n\
         press. So at any setting of the near switch it can put the lamp out as well as light it.\n\
         ",
    );
}

#[test]
fn for_a_machine_every_class_has_its_count_and_an_example() {
    let run = Bench::new().run(&["why", "--cores", "1", "--json"]);
    run.says(concat!(
        r#"{"positions":2,"cores":1,"connectors":[],"cpc_as_core":false,"arrival":"first-place","tried":81,"works":0,"safe":0,"grouped":{"tried":81,"works":0,"safe":0}"#,
        r#","classes":[{"name":"always-on","count":27,"grouped":27,"example":[{"end":"near-drop/brown@near","terminal":"near.COM"},{"end":"near-drop/blue@near","terminal":"near.COM"},{"end":"link/brown1@near","terminal":"near.L1"},{"end":"link/brown1@far","terminal":"far.COM"}]},"#,
        r#"{"name":"always-off","count":18,"grouped":18,"example":[{"end":"near-drop/brown@near","terminal":"near.L1"},{"end":"near-drop/blue@near","terminal":"near.L2"},{"end":"link/brown1@near","terminal":"near.COM"},{"end":"link/brown1@far","terminal":"far.COM"}]},"#,
        r#"{"name":"only-first","count":36,"grouped":36,"example":[{"end":"near-drop/brown@near","terminal":"near.COM"},{"end":"near-drop/blue@near","terminal":"near.L1"},{"end":"link/brown1@near","terminal":"near.L2"},{"end":"link/brown1@far","terminal":"far.COM"}]}]}"#,
        "\n",
    ));
}

/// A double holds every whole number up to 2^53 = 9,007,199,254,740,992.
#[test]
fn numbers_past_what_a_double_holds_are_text() {
    let run = Bench::new().run(&["why", "--cores", "3", "--positions", "5", "--connectors", "2,3,4", "--json"]);
    let said: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(said["tried"], "25028228759765625", "5^18 * 3^8");
    assert!(said["works"].is_u64() && said["works"] == said["safe"]);
    assert_eq!(said["classes"][0]["name"], "works-safe");
}

#[test]
fn each_question_has_the_reason_that_follows() {
    for (asked, works, safe, reason) in [
        ("--cores 1", "0", "0", "One wire leads away"),
        ("--cores 4", "144", "144", "A third wire lets"),
        ("--cpc-as-core", "24", "0", "As far as the lamp can tell"),
        ("--neutral-at-both", "16", "0", "Each switch gives its side"),
        ("--opposite-ends", "4", "4", "The current comes in at one end"),
        ("--opposite-ends --cores 1", "0", "0", "One wire is one way"),
        ("--positions 3", "0", "0", "With two wires"),
        ("--positions 3 --cores 3", "0", "0", "A switch in the middle"),
        ("--positions 3 --neutral-at-both --cores 1", "0", "0", "None of these ways"),
    ] {
        let args: Vec<&str> = std::iter::once("why").chain(asked.split(' ')).collect();
        let run = Bench::new().run(&args);
        let last = |words: &str| {
            let line = run.out.lines().find(|it| it.trim_start().starts_with(words)).unwrap();
            line.split_whitespace().rev().nth(1).unwrap().to_owned()
        };
        assert_eq!((last("the lamp obeys:"), last("and there is no danger")), (works.into(), safe.into()), "{asked}");
        assert!(run.out.contains(&format!("\n\n{reason}")), "{asked}: {}", run.out);
    }
}

#[test]
fn what_cannot_be_asked_is_said_in_one_line() {
    let bench = Bench::new();
    bench
        .run(&["why", "--connectors", "1,3"])
        .complains("error: there is no switch 3: the places are numbered from 1, and there are 2 of them\n");
    bench.run(&["why", "--connectors", "1,1,1,1,1"]).complains("error: at most 4 connectors go to one place\n");
    bench.run(&["why", "--cores", "4", "--positions", "3", "--connectors", "2,2,2,2", "--cpc-as-core"]).complains(
        "error: there are too many ways of joining all that: ask for fewer cores, connectors or positions\n",
    );
    for args in
        [&["why", "--cores", "5"][..], &["why", "--positions", "1"], &["why", "--opposite-ends", "--neutral-at-both"]]
    {
        let run = bench.run(args);
        assert_eq!((run.out.as_str(), run.code), ("", Some(2)), "{args:?}");
    }
}
