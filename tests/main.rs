//! The one test target: one link step, shared helpers.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets the unexpected should fail there; clippy's own leave covers test functions only"
)]
#![allow(clippy::format_collect, clippy::format_push_string, reason = "texts of a few lines, built once")]

// A fresh folder and the real program in it.
mod bench;
// Light worked from one door that is to work from two: what was found connected, moved or left.
mod altered;
// Ids for what is known by its number alone.
mod ids;
// A pair of hands that does an exercise step by step, for everything below.
mod hand;
// The real program: whole output, exit codes, one clear message for each kind of broken file.
mod cli;
// Shipped exercises: models, faults, blanks.
mod exercises;
// The assignment file, and what each learner gets by it.
mod assignment;
// A class of invented learners, reviewed.
mod class;
// What a hand has done to the work before the learner comes.
mod left;
// Somebody else's work looked over.
mod observed;
// Zips of hand-ins, good and hostile.
mod zips;
// A review that is kept: used again, and killed.
#[cfg(feature = "register")]
mod kept_reviews;
// What goes out of a class to a tutor's other papers.
#[cfg(feature = "register")]
mod tutors;
// What a moderator is handed.
#[cfg(feature = "register")]
mod bundles;
// What is kept of one learner, written out and erased.
#[cfg(feature = "register")]
mod people;
// What people decide about a mark, and what is released.
#[cfg(feature = "register")]
mod decided;
mod demo;
// What is saved is what is loaded.
mod formats;
// Every view of what is joined to what, with every accessory there is.
mod topology;
// The joined view against brute force and the theorem of n-way lighting.
mod joined;
// What instruments show, against published figures and through faults.
mod instruments;
// Three places, linked poles, a fan, several circuits behind one residual current device.
mod installations;
// The attempt file on disk: killed programs, torn lines, two openers.
mod journal;
// Attempts of earlier formats.
mod kept;
// What comes from elsewhere makes nothing panic.
mod foreign;
// Which room may use which, and what keeps the library pure.
mod layers;
// What is doubtful in a scenario.
mod advice;
mod answers;
// Why three cores: every way of joining, counted.
mod reason;
// Where a current goes, piece by piece.
mod flow;
// Each limit of the table, at it and just over it.
mod limits;
// Every picture of the shipped scenarios: targets, text, ends.
mod picture;
// Ends made off by hand.
mod by_hand;
// Random logs and random wirings: no panic, replay alike, currents that add up.
mod properties;
// What a tutor would not sign.
mod signed;
// Every sentence of where the current goes in the two-way exercise.
mod sentences;
// Hints: what they say and what they cost.
mod hints;
// Rules that no fault file fires, and the proof that every code has a case.
mod rules;
// What has no mark: told by readings, named, settled.
mod naming;
// The rows of every combination against each solved by itself; states past counting.
mod survey;
// Two circuits in one box.
mod pair;
// Lines of the charter on safe working.
mod safe_working;
// What identifies a circuit.
mod identified;
// Pairs of slips.
mod pairs;
// Dead tests against an earth that was shown to be one.
mod parked;
// How exercises begin; what is the supervisor's.
mod starting;
// The board as a place to be opened, locked and proved.
mod board;
// Ze and Zdb: told apart, read, taken from the card.
mod outside;
// The training board.
mod on_bench;
// Wiring that is given, to be predicted.
mod found;
mod given;
// The exercises on training boards, in every variant.
mod practice_boards;
// The charter of marking, line by line.
mod charter;
// Attempts that were once judged wrongly, and what is right.
mod cases;
// What is critical, what is lost whole.
mod weights;
// Wirings that do the job in another way.
mod legitimate;
// Cables to choose: by paper, by brute force, and the exercise in every variant.
mod chosen;
// Every single slip from each accepted wiring, against an independent oracle.
mod slips;
// Contacts without a scenario: n-way lighting, slips, random ones.
mod wirings;
// One light from isolation to the test sheet and the last switch, and every slip of the sequence.
mod tested;
// The exercise that has everything, in every variant.
mod made_off;
// A sentence for everything in the tables, and none that nobody says.
mod wording;
// Outside witnesses: ngspice, independent linear algebra, published tables.
mod witness;
// Laws of networks: Kirchhoff, reciprocity, order, Rayleigh.
mod networks;
// Bad input: an answer or a typed error, never a panic, a hang or a NaN.
mod bad_input;
// What was wrong before the learner came.
mod before;
// When findings arose, and what was done well.
mod moments;
// What would have happened; attempts of earlier versions.
mod consequences;
// The JSON Schema of a mark sheet.
mod schema;
// How random tests are drawn.
mod random;
// Undo over hundreds of steps.
mod undo;
// Answers of set work that is not handed in.
mod withheld;
// The wiring that `check` looks for.
mod looked_for;
// What an author meets: shorter scenarios, `new`, `describe`.
mod authoring;
// The guide of those who write exercises.
mod guide;
// How many variants each exercise has.
mod variants;
// The solver of exercises.
mod solver;
