//! How large anything from outside may be, in one table. `tests/limits.rs` tries each limit, and one step beyond it.

/// The limits; sizes are in bytes.
#[derive(Debug)]
pub struct Limits;

impl Limits {
    /// A scenario file.
    pub const SCENARIO_BYTES: usize = 256 * 1024;
    /// Locations in a scenario.
    pub const LOCATIONS: usize = 64;
    /// Cables in a scenario, with those to be chosen.
    pub const CABLES: usize = 256;
    /// Cables to choose from for one run.
    pub const OFFERS: usize = 12;
    /// Rooms in a scenario.
    pub const ROOMS: usize = 24;
    /// How far the corner of a room may be from the origin, in each direction, in the units of a location's `at`.
    pub const ROOM_UNITS: i16 = 1000;
    /// Protective devices in a scenario.
    pub const DEVICES: usize = 64;
    /// Ends that a scenario says are connected: more than its cables can have.
    pub const CONNECTED: usize = 4096;
    /// Faults that an exercise may hide: each is tried at every reading.
    pub const SUSPECTS: usize = 32;
    /// Readings of an attempt that are weighed by what they say of a hidden fault: the first.
    pub const READINGS: usize = 256;
    /// Acts of a hand before the learner comes: enough to make off a small job end by end.
    pub const SLIPS: usize = 512;
    /// Entries of any other list in a scenario that has no limit of its own.
    pub const ENTRIES: usize = 256;
    /// Switches in a scenario.
    pub const SWITCHES: usize = 64;
    /// Characters in a name.
    pub const NAME_CHARS: usize = 64;
    /// Characters in a paragraph of a brief.
    pub const PARAGRAPH_CHARS: usize = 2000;
    /// Nesting of a RON value.
    pub const RON_DEPTH: usize = 32;
    /// An attempt file.
    pub const ATTEMPT_BYTES: usize = 1024 * 1024;
    /// Lines in an attempt file.
    pub const ATTEMPT_LINES: usize = 20_000;
    /// An action line, its sum included and its ending not.
    pub const ACTION_BYTES: usize = 512;
    /// Hexadecimal digits of the sum at the end of a line, from format 2 on.
    pub const SUM_DIGITS: usize = 16;
    /// Short conductors made up in one attempt.
    pub const MADE: usize = 256;
    /// An assignment file.
    pub const ASSIGNMENT_BYTES: usize = 4 * 1024 * 1024;
    /// Exercises in an assignment.
    pub const ASSIGNED: usize = 32;
    /// Learners on the roster of an assignment.
    pub const LEARNERS: usize = 2000;
    /// The highest number of a learner: twelve digits.
    pub const LEARNER: u64 = 999_999_999_999;
    /// Tries that an assignment can allow.
    pub const TRIES: u32 = 20;
    /// A file that a tutor writes by hand: phrases, a map of criteria, the columns of a gradebook.
    pub const TUTOR_FILE_BYTES: usize = 1024 * 1024;
    /// Entries of a list in such a file.
    pub const TUTOR_ENTRIES: usize = 500;
    /// Ways in which what has no mark can be named, all groups multiplied: readings are tried on each of them.
    pub const NAMINGS: usize = 120;
    /// Combinations of switch positions that this version tries one by one.
    pub const COMBINATIONS: usize = 4096;
}
