//! A review that keeps what it marked: the next one marks only what is new, and one that is killed leaves a register that is whole.

use std::{
    fs,
    path::PathBuf,
    thread,
    time::{Duration, Instant},
};

use rusqlite::{Connection, OpenFlags};
use switchdrop::{
    exercise::{Seed, Stream},
    register::Adjustment,
};

use crate::{
    bench::Bench,
    class::{AFTER, Made, class, done},
};

/// Hand-ins in the folder: enough that a review takes longer than its start.
const FILES: u64 = 240;

/// So many files of the class, each begun at another minute than a learner's others: no two are alike.
fn many(bench: &Bench, files: u64) -> Vec<PathBuf> {
    let all = class(bench, 0);
    let file = |number: u64| {
        let (learner, minute) = (number % 24 + 1, number / 24);
        let slips: &[usize] = if number.is_multiple_of(3) { &[0] } else { &[] };
        let started = format!("2026-11-03T{:02}:{:02}:00+00:00", 9 + minute / 60, minute % 60);
        let made = Made { started: started.leak(), ..Made::of(&all, learner, Adjustment::default(), done(slips)) };
        bench.file(&format!("in/{minute}/{}", made.name().trim_start_matches("in/")), made.text())
    };
    (0..files).map(file).collect()
}

const REVIEW: [&str; 6] = ["review", "week-3.ron", "in", "--json", "--at", AFTER];

fn with_register() -> Vec<&'static str> {
    [&REVIEW[..], &["--register", "kept.db"]].concat()
}

fn register(bench: &Bench) -> Connection {
    Connection::open(bench.path("kept.db")).expect("a register")
}

/// How many hand-ins are kept by now; none while there is no register yet or its writer is at work.
fn kept(bench: &Bench) -> u64 {
    let open = Connection::open_with_flags(bench.path("kept.db"), OpenFlags::SQLITE_OPEN_READ_ONLY);
    open.and_then(|it| it.query_row("SELECT count(*) FROM marked", [], |row| row.get::<_, i64>(0)))
        .map_or(0, i64::cast_unsigned)
}

#[test]
fn a_second_review_says_the_same_and_marks_nothing_again() {
    let bench = Bench::new();
    many(&bench, FILES);
    let plain = bench.run(&REVIEW);
    assert_eq!(plain.code, Some(0), "{}", plain.err);
    let first = bench.run(&with_register());
    assert_eq!((&first.out, first.code), (&plain.out, Some(0)), "{}", first.err);
    assert_eq!(kept(&bench), FILES);
    let second = bench.run(&with_register());
    assert_eq!((&second.out, second.code), (&plain.out, Some(0)), "{}", second.err);
    assert_eq!(kept(&bench), FILES);
    // What is kept is what is said: marks that only the register has come back.
    let forged = "UPDATE marked SET hand_in = replace(hand_in, '\"marks\":100', '\"marks\":77')";
    assert!(register(&bench).execute(forged, []).expect("forged") > 0);
    let third = bench.run(&with_register());
    assert!(third.out.contains("\"marks\":77") && !plain.out.contains("\"marks\":77"), "{}", third.err);
    // A file that was changed is another file, one that lies elsewhere is the same; another version of the marking knows neither.
    register(&bench).execute("UPDATE marked SET marking = marking + 1", []).expect("moved on");
    let fourth = bench.run(&with_register());
    assert_eq!((&fourth.out, fourth.code), (&plain.out, Some(0)), "{}", fourth.err);
    assert_eq!(kept(&bench), 2 * FILES);
    fs::rename(bench.path("in"), bench.path("moved")).expect("moved");
    let moved: Vec<&str> = with_register().iter().map(|it| if *it == "in" { "moved" } else { *it }).collect();
    let moved = bench.run(&moved);
    assert_eq!(moved.out.replace("moved/", "in/"), plain.out, "{}", moved.err);
    assert_eq!(kept(&bench), 2 * FILES);
}

/// Another assignment, even one that differs in its pass mark alone, has a register's rows of its own.
#[test]
fn what_is_no_register_is_said_and_left() {
    let bench = Bench::new();
    class(&bench, 1);
    bench.file("kept.db", "my notes");
    bench
        .run(&with_register())
        .complains("error: kept.db is there already and is no register of this program: it stays as it is\n");
    assert_eq!(bench.read("kept.db"), "my notes");
}

/// Kills reviews at different moments; after each the register is whole, and a review that goes on with it says what one without says.
fn kills(rounds: u32) {
    let bench = Bench::new();
    many(&bench, FILES);
    let plain = bench.run(&REVIEW).out;
    let mut random = Stream::new(1, "kills", Seed(1), "moments");
    let mut midway = 0;
    for round in 0..rounds {
        for it in ["kept.db", "kept.db-journal"] {
            let _ = fs::remove_file(bench.path(it));
        }
        let mut review = bench.spawn(&with_register());
        // A third at any moment from the start on, the others once something is kept.
        let begun = Instant::now();
        while round % 3 != 0 && kept(&bench) == 0 && begun.elapsed() < Duration::from_mins(1) {
            thread::sleep(Duration::from_millis(1));
        }
        thread::sleep(Duration::from_millis(u64::from(random.below(if round % 3 == 0 { 300 } else { 40 }))));
        review.kill().expect("killed, or ended");
        review.wait().expect("an end");
        let left = kept(&bench);
        midway += u32::from(left > 0 && left < FILES);
        if bench.path("kept.db").exists() {
            let whole: String =
                register(&bench).query_row("PRAGMA integrity_check", [], |it| it.get(0)).expect("an answer");
            assert_eq!(whole, "ok", "round {round}");
        }
        let after = bench.run(&with_register());
        assert_eq!((after.out == plain, after.code), (true, Some(0)), "round {round}: {}", after.err);
        assert_eq!(kept(&bench), FILES, "round {round}");
    }
    assert!(midway > 0, "no review of {rounds} was killed midway");
}

#[test]
fn a_review_that_is_killed_leaves_a_register_that_is_whole() {
    kills(5);
}

#[test]
#[ignore = "fifty kills take a minute: cargo test fifty -- --ignored"]
fn fifty_reviews_that_are_killed_leave_a_register_that_is_whole() {
    kills(50);
}

/// `cargo test --release second_review -- --ignored --nocapture` prints what a second review costs beside reading and hashing the files.
#[test]
#[ignore = "a measurement"]
fn a_second_review_of_many_beside_reading_and_hashing() {
    const MANY: u64 = 9600;
    let bench = Bench::new();
    let files = many(&bench, MANY);
    let timed = |what: &dyn Fn()| {
        let begun = Instant::now();
        what();
        begun.elapsed()
    };
    let review = || assert_eq!(bench.run(&with_register()).code, Some(0));
    let first = timed(&review);
    let hash = || {
        for it in &files {
            assert_eq!(switchdrop::attempt::sha256(&fs::read(it).expect("a file")).len(), 64);
        }
    };
    // In turn, the least of five: whatever else the machine does falls on both.
    let both: Vec<_> = (0..5).map(|_| (timed(&review), timed(&hash))).collect();
    let second = both.iter().map(|it| it.0).min().expect("five");
    let hashed = both.iter().map(|it| it.1).min().expect("five");
    println!(
        "{} files: first review {first:?}, second {second:?}; read and hashed on one core {hashed:?}: {:.1} times",
        files.len(),
        second.as_secs_f64() / hashed.as_secs_f64()
    );
}
