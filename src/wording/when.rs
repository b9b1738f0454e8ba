//! A time as people write one.

use jiff::{Timestamp, fmt::temporal::Pieces, tz::Offset};

use super::Wording;

/// Days of the week, Monday first.
const WEEKDAYS: [&str; 7] = [
    "weekday-monday",
    "weekday-tuesday",
    "weekday-wednesday",
    "weekday-thursday",
    "weekday-friday",
    "weekday-saturday",
    "weekday-sunday",
];

const MONTHS: [&str; 12] = [
    "month-january",
    "month-february",
    "month-march",
    "month-april",
    "month-may",
    "month-june",
    "month-july",
    "month-august",
    "month-september",
    "month-october",
    "month-november",
    "month-december",
];

/// Longest text that is looked at: no time of ISO 8601 with nanoseconds and an offset is longer.
const LONGEST: usize = 40;

/// A time of ISO 8601 with its offset from UTC, in words: the day of the week, the date, the clock and the zone. What is no such time stays as it
/// is written.
pub fn when(wording: &Wording, written: &str) -> String {
    in_words(wording, written).unwrap_or_else(|| written.to_owned())
}

fn in_words(wording: &Wording, written: &str) -> Option<String> {
    if written.len() > LONGEST {
        return None;
    }
    let at: Timestamp = written.parse().ok()?;
    let offset = Pieces::parse(written).ok()?.to_numeric_offset()?;
    let here = offset.to_datetime(at);
    let weekday = usize::try_from(here.weekday().to_monday_zero_offset()).ok()?;
    let month = usize::try_from(here.month()).ok()?.checked_sub(1)?;
    let seconds = if here.second() == 0 { String::new() } else { format!(":{:02}", here.second()) };
    let args = [
        ("weekday", wording.say(WEEKDAYS.get(weekday)?, &[])),
        ("day", here.day().to_string()),
        ("month", wording.say(MONTHS.get(month)?, &[])),
        ("year", here.year().to_string()),
        ("clock", format!("{:02}:{:02}{seconds}", here.hour(), here.minute())),
        ("zone", zone(offset)),
    ];
    Some(wording.say("when", &args.each_ref().map(|(name, it)| (*name, it.as_str()))))
}

/// `UTC`, or with the hours and minutes that the clock is before or behind it.
fn zone(offset: Offset) -> String {
    let seconds = offset.seconds();
    if seconds == 0 {
        return "UTC".to_owned();
    }
    let (sign, minutes) = (if seconds < 0 { '-' } else { '+' }, seconds.unsigned_abs() / 60);
    format!("UTC{sign}{:02}:{:02}", minutes / 60, minutes % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Days of the week from `date -d` (GNU coreutils), which shares nothing with us.
    #[test]
    fn a_time_is_told_as_people_write_it() {
        let wording = Wording::british();
        for (written, told) in [
            ("2026-12-04T16:00:00+00:00", "Friday 4 December 2026, 16:00 (UTC)"),
            ("2026-12-04T16:00:00Z", "Friday 4 December 2026, 16:00 (UTC)"),
            // The clock there, not ours: in UTC this is the day before.
            ("2026-06-01T00:30:00+01:00", "Monday 1 June 2026, 00:30 (UTC+01:00)"),
            ("2024-02-29T23:59:07-03:30", "Thursday 29 February 2024, 23:59:07 (UTC-03:30)"),
            ("2027-01-31T09:05:00+05:45", "Sunday 31 January 2027, 09:05 (UTC+05:45)"),
            ("next Friday", "next Friday"),
            ("2026-12-04T16:00:00", "2026-12-04T16:00:00"),
            ("", ""),
        ] {
            assert_eq!(when(&wording, written), told);
        }
    }

    #[test]
    fn every_day_and_month_has_its_word() {
        let wording = Wording::british();
        for it in WEEKDAYS.iter().chain(&MONTHS) {
            assert!(wording.has(it), "{it}");
        }
    }
}
