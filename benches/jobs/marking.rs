//! Ten thousand attempts marked by the program itself, start and output included, on two cores.

use std::{
    fs,
    path::PathBuf,
    process::{Command, Stdio},
    time::{Duration, Instant},
};

use switchdrop::attempt::open;

use crate::{
    Table,
    attempts::{Of, write},
};

const ATTEMPTS: usize = 10_000;
const CORES: usize = 2;

pub fn batch(table: &mut Table) {
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    // How many times reading and deserialising: a wrong wiring's causes are searched for besides.
    for (of, slips, exercise, most) in [
        (Of::One, false, "one exercise, all right", 2.0),
        (Of::Variants, false, "an exercise each, all right", 2.0),
        (Of::Variants, true, "an exercise each, most with a slip", 4.0),
    ] {
        let paths = write("aims-attempts", ATTEMPTS, of, slips);
        let reading = (0..3).map(|_| read(&paths)).min().unwrap_or_default();
        let (marking, memory, cpu) = (0..3).map(|_| mark(&paths)).min_by_key(|it| it.0).unwrap_or_default();
        let (_, little, _) = mark(&paths[..ATTEMPTS / 10]);
        let rate = ATTEMPTS as f64 / marking.as_secs_f64();
        let unshared = cpu.map_or(0.0, |it| ATTEMPTS as f64 * CORES as f64 / it);
        let note =
            format!("({cores} cores, {marking:.2?}; by processor time {unshared:.0} on {CORES} cores of its own)");
        let ratio = marking.as_secs_f64() / reading.as_secs_f64();
        // Machines differ by more than a factor of two: the aim is the ratio below.
        println!("10,000 attempts of {exercise}: {rate:.0} marked a second {note}");
        table.most("... against reading and deserialising alone", most, ratio, "times", &format!("({reading:.2?})"));
        if let (Some(memory), Some(little)) = (memory, little) {
            let note = format!("({} MB against {} MB)", memory / 1024, little / 1024);
            table.most("... memory against that for 1,000", 1.25, memory as f64 / little as f64, "times", &note);
        }
        fs::remove_dir_all(paths[0].parent().expect("a folder")).expect("a folder of ours");
    }
}

/// Reads and deserialises every file, on as many cores.
fn read(paths: &[PathBuf]) -> Duration {
    let start = Instant::now();
    std::thread::scope(|scope| {
        for part in paths.chunks(paths.len().div_ceil(CORES)) {
            scope.spawn(move || {
                for path in part {
                    let text = fs::read_to_string(path).expect("a file");
                    assert!(open(&text).is_ok_and(|it| !it.lines.is_empty()), "{}", path.display());
                }
            });
        }
    });
    start.elapsed()
}

/// Seconds of processor that the programs started so far and ended have had, where the system says so (proc(5): fields 16 and
/// 17 of `stat`, in hundredths on every Linux of today).
fn cpu_of_children() -> Option<f64> {
    let stat = fs::read_to_string("/proc/self/stat").ok()?;
    let mut fields = stat.rsplit_once(')')?.1.split_whitespace().skip(13);
    let mut hundredths = || fields.next()?.parse::<f64>().ok();
    Some((hundredths()? + hundredths()?) / 100.0)
}

/// Marks every file; the time, the most memory it had at once, kilobytes, and its seconds of processor, where the system says
/// so.
fn mark(paths: &[PathBuf]) -> (Duration, Option<u64>, Option<f64>) {
    let sheets = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("aims-sheets");
    let out = fs::File::create(&sheets).expect("a file for the sheets");
    let (start, before) = (Instant::now(), cpu_of_children());
    let mut program = Command::new(env!("CARGO_BIN_EXE_switchdrop"));
    program.arg("mark").arg("--json").args(paths).stdin(Stdio::null()).stdout(out).stderr(Stdio::null());
    let mut child = program.spawn().expect("the program");
    let status = format!("/proc/{}/status", child.id());
    let mut most = None;
    let ended = loop {
        let now = fs::read_to_string(&status).ok().and_then(|it| {
            let line = it.lines().find(|it| it.starts_with("VmHWM:"))?.to_owned();
            line.split_whitespace().nth(1)?.parse().ok()
        });
        most = most.max(now);
        if let Some(it) = child.try_wait().expect("the program") {
            break it;
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    let took = start.elapsed();
    assert!(ended.success(), "{ended}");
    let text = fs::read_to_string(&sheets).expect("the sheets");
    assert_eq!(text.lines().count(), paths.len(), "a sheet each");
    assert!(text.contains("\"outcome\":\"pass\""), "some are right");
    let _ = fs::remove_file(&sheets);
    (took, most, cpu_of_children().zip(before).map(|(after, before)| after - before))
}
