//! What a tutor types to set work: numbers of learners, times; and what is doubtful about them.

use std::{
    io,
    path::{Path, PathBuf},
};

use jiff::{Timestamp, ZonedDateTime, civil::DateTime, tz::TimeZone};
use switchdrop::{
    exercise::{Limits, Problems},
    register::{Assignment, WallTime},
    wording::{Wording, when},
};

use crate::journal::{JournalError, write_new};

/// Why an assignment is not handed out.
#[derive(Debug)]
pub enum NotSet {
    /// What it says is wrong.
    Wrong(Problems),
    /// It can't be written.
    File(JournalError),
}

/// Its text, and what that says when it is read: there is one place where an assignment is judged.
///
/// # Errors
/// What is wrong with it.
pub fn as_read(of: &Assignment) -> Result<(String, Assignment), NotSet> {
    let failed = |it| NotSet::File(JournalError::Unwritable(PathBuf::new(), io::Error::other(it)));
    let text = of.text().map_err(failed)?;
    let read = Assignment::read(&text).map_err(NotSet::Wrong)?;
    Ok((text, read))
}

/// Writes the file of an assignment, and never over another: one that was handed out must not change.
///
/// # Errors
/// What is wrong with it, or why it can't be written.
pub fn hand_out(path: &Path, of: &Assignment) -> Result<Assignment, NotSet> {
    let (text, read) = as_read(of)?;
    write_new(path, text.as_bytes()).map_err(NotSet::File)?;
    Ok(read)
}

/// Learners' numbers as they are typed: `1-24,30`.
///
/// # Errors
/// Which part of it is not a number or a range, in words.
pub fn numbers(typed: &str) -> Result<Vec<u64>, String> {
    const MOST: u64 = Limits::LEARNERS as u64;
    let mut all = Vec::new();
    for part in typed.split(',') {
        let (first, last) = part.split_once('-').unwrap_or((part, part));
        let number = |it: &str| it.trim().parse::<u64>().map_err(|_| format!("`{it}` is not a number"));
        let (first, last) = (number(first)?, number(last)?);
        if last < first || last - first >= MOST || all.len() as u64 >= MOST {
            return Err(format!("`{part}`: from the lower number to the higher, at most {MOST}"));
        }
        all.extend(first..=last);
    }
    Ok(all)
}

/// A time here unless it has its offset from UTC.
///
/// # Errors
/// How one is written.
pub fn clock_time(typed: &str) -> Result<WallTime, String> {
    let example = format!("`2026-11-06T17:00` or `{}` expected", WallTime::EXAMPLE);
    if let Some(it) = WallTime::of(typed) {
        return Ok(it);
    }
    // A date and a clock and no more: jiff would drop an offset or a time zone that stands behind them.
    let is_civil = typed.split_once('T').is_some_and(|(_, clock)| {
        clock.contains(':') && clock.chars().all(|it| it.is_ascii_digit() || [':', '.'].contains(&it))
    });
    if !is_civil {
        return Err(example);
    }
    let civil: DateTime = typed.parse().map_err(|_| example.clone())?;
    let here: ZonedDateTime = civil.to_zoned_datetime(TimeZone::system()).map_err(|err| err.to_string())?;
    WallTime::of(&here.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()).ok_or(example)
}

/// What is to be said if nobody can hand in in time any more.
pub fn what_is_past(of: &Assignment, wording: &Wording) -> Vec<String> {
    let now = Timestamp::now();
    let times = [("assign-past-due", &of.due), ("assign-past-last", &of.last)];
    let past = times.into_iter().filter_map(|(key, time)| Some((key, time.as_ref().filter(|it| it.at() < now)?)));
    past.map(|(key, time)| wording.say(key, &[("time", &when(wording, &time.to_string()))])).collect()
}
