//! What can go wrong around the work: a full disk, a folder that is gone or can't be written to, a file that somebody else wrote to, an exercise that is
//! broken. Each is said in the window, nothing is half written, nothing that was done is lost, and the work goes on when it is put right.

use std::{fs, path::PathBuf};

use switchdrop::work::Action;

use super::{super::window_state::Screen, bench::Bench};
use crate::journal::read_attempt;

/// A window at an open plate, with one thing done; and the attempt's file.
fn at_work(name: &str) -> (Bench, PathBuf) {
    let mut bench = Bench::new(name);
    bench.click("begin:wire-a-switch");
    bench.does([Action::RemoveCover { location: "switch".to_owned() }]);
    bench.click("go:switch");
    let path = bench.window.session().unwrap().path.clone();
    (bench, path)
}

fn joins(bench: &mut Bench) {
    bench.drag("drop/brown@switch", "switch.COM");
}

/// What is tried now is not done, and that is said both in the foot and beside what was touched.
#[track_caller]
fn is_refused(bench: &mut Bench, why: &str) {
    joins(bench);
    assert_eq!(bench.log().len(), 1, "{:?}", bench.log());
    let said = bench.words().into_iter().filter(|it| it.contains(why) && it.contains("was not done")).count();
    assert_eq!(said, 2, "{:?}", bench.words());
}

/// What is tried now is done, and the file has all of it.
#[track_caller]
fn goes_on(bench: &mut Bench, path: &std::path::Path) {
    joins(bench);
    assert!(matches!(bench.log().last(), Some(Action::Connect { .. })), "{}", bench.window.said());
    let whole = read_attempt(path).unwrap();
    assert_eq!((whole.opened.replay().unwrap().log(), whole.cut_off), (bench.log().as_slice(), 0));
}

#[test]
fn on_a_full_disk_nothing_is_half_written_and_it_goes_on_when_there_is_room() {
    let (mut bench, path) = at_work("full-disk");
    let before = fs::read(&path).unwrap();
    for room in [0, 7] {
        bench.window.has_room_for(Some(room));
        is_refused(&mut bench, "the disk is full");
        assert_eq!(fs::read(&path).unwrap(), before);
    }
    bench.window.has_room_for(None);
    goes_on(&mut bench, &path);
}

/// The same on a real disk: `SWITCHDROP_FULL` names a folder on a file system of some hundred kilobytes (a tmpfs, say).
#[test]
#[ignore = "needs a small file system"]
fn on_a_disk_that_is_really_full() {
    let small = PathBuf::from(std::env::var_os("SWITCHDROP_FULL").expect("SWITCHDROP_FULL"));
    let mut bench = Bench::beside(small.join("attempts"));
    bench.click("begin:wire-a-switch");
    bench.does([Action::RemoveCover { location: "switch".to_owned() }]);
    bench.click("go:switch");
    let path = bench.window.session().unwrap().path.clone();
    let mut filler = fs::File::create(small.join("filler")).unwrap();
    while std::io::Write::write_all(&mut filler, &[b'x'; 512]).is_ok() {}
    // Open, it would keep its room.
    drop(filler);
    // What is left of the last page of the file takes a few more lines.
    let cover = |on: bool| {
        let location = "switch".to_owned();
        if on { Action::FitCover { location } } else { Action::RemoveCover { location } }
    };
    let mut done = 1;
    while done < 200 {
        bench.does([cover(done % 2 == 1)]);
        if bench.log().len() == done {
            break;
        }
        done += 1;
    }
    assert!(bench.says("the disk is full"), "{done}: {}", bench.window.said());
    let whole = read_attempt(&path).unwrap();
    assert_eq!((whole.opened.replay().unwrap().log(), whole.cut_off), (bench.log().as_slice(), 0));
    fs::remove_file(small.join("filler")).unwrap();
    bench.does([cover(done % 2 == 1)]);
    assert_eq!(bench.log().len(), done + 1, "{}", bench.window.said());
    let whole = read_attempt(&path).unwrap();
    assert_eq!((whole.opened.replay().unwrap().log(), whole.cut_off), (bench.log().as_slice(), 0));
}

#[test]
fn a_folder_that_vanishes_is_said_and_it_goes_on_when_it_is_back() {
    let (mut bench, path) = at_work("vanished");
    let away = bench.folder.with_extension("away");
    let _ = fs::remove_dir_all(&away);
    fs::rename(&bench.folder, &away).unwrap();
    is_refused(&mut bench, "was deleted or replaced");
    is_refused(&mut bench, "there is no such file or folder");
    fs::rename(&away, &bench.folder).unwrap();
    goes_on(&mut bench, &path);
}

/// Nothing of it is written anywhere; when the folder is back it is handed in, with nobody pressing anything.
#[test]
fn a_hand_in_waits_for_its_folder() {
    let (mut bench, path) = at_work("hand-in-waits");
    let away = bench.folder.with_extension("away");
    let _ = fs::remove_dir_all(&away);
    fs::rename(&bench.folder, &away).unwrap();
    // Longer than from one try to the next: 60 frames a second, four a call.
    let a_while = |bench: &mut Bench| (0..90).for_each(|_| bench.frames(Vec::new()));
    bench.does([Action::HandIn]);
    a_while(&mut bench);
    assert!(bench.says("This is not handed in yet") && bench.says("tried again"), "{}", bench.window.said());
    assert!(bench.log().len() == 1 && !path.exists() && bench.window.screen() == Screen::Bench);
    fs::rename(&away, &bench.folder).unwrap();
    a_while(&mut bench);
    assert_eq!((bench.log().last(), bench.window.screen()), (Some(&Action::HandIn), Screen::Sheet));
    let whole = read_attempt(&path).unwrap();
    assert_eq!((whole.opened.replay().unwrap().log(), whole.cut_off), (bench.log().as_slice(), 0));
}

/// A learner who goes on working has not finished.
#[test]
fn work_puts_off_a_hand_in_that_waits() {
    let (mut bench, path) = at_work("hand-in-put-off");
    let away = bench.folder.with_extension("away");
    let _ = fs::remove_dir_all(&away);
    fs::rename(&bench.folder, &away).unwrap();
    bench.does([Action::HandIn]);
    fs::rename(&away, &bench.folder).unwrap();
    goes_on(&mut bench, &path);
    (0..90).for_each(|_| bench.frames(Vec::new()));
    assert!(bench.window.screen() == Screen::Bench && bench.log().len() == 2, "{:?}", bench.log());
}

/// A share that was taken away and put back is another device, and its files are others to the system.
#[test]
fn it_goes_on_in_the_same_file_that_the_system_takes_for_another() {
    let (mut bench, path) = at_work("share");
    let text = fs::read(&path).unwrap();
    fs::remove_dir_all(&bench.folder).unwrap();
    is_refused(&mut bench, "was deleted or replaced");
    fs::create_dir_all(&bench.folder).unwrap();
    fs::write(&path, text).unwrap();
    goes_on(&mut bench, &path);
}

#[test]
fn a_file_that_was_deleted_is_written_anew_with_all_that_was_done() {
    let (mut bench, path) = at_work("deleted");
    fs::remove_dir_all(&bench.folder).unwrap();
    is_refused(&mut bench, "was deleted or replaced");
    fs::create_dir_all(&bench.folder).unwrap();
    goes_on(&mut bench, &path);
}

/// What somebody else wrote in its place is never written over, whether it is longer, shorter or as long.
#[test]
fn what_somebody_else_wrote_stays_as_it_is() {
    for (number, other) in ["mine\n".repeat(4000), "mine\n".to_owned(), String::new()].iter().enumerate() {
        let (mut bench, path) = at_work(&format!("others-{number}"));
        let ours = fs::read_to_string(&path).unwrap();
        let theirs = if other.is_empty() { ours.replace("RemoveCover", "RemoveCoven") } else { other.clone() };
        fs::remove_file(&path).unwrap();
        fs::write(&path, &theirs).unwrap();
        is_refused(&mut bench, "was deleted or replaced");
        is_refused(&mut bench, "was changed by something else");
        assert_eq!(fs::read_to_string(&path).unwrap(), theirs);
    }
}

/// After a write of ours that failed, too: a whole line behind ours is not a torn one. Part of a line is, and is cut off.
#[test]
fn after_a_torn_line_what_somebody_else_added_stays_as_it_is() {
    for (added, is_ours) in [("Did(ms:1,act", true), ("mine\n", false), ("mine\nDid(ms", false)] {
        let (mut bench, path) = at_work("torn");
        bench.window.has_room_for(Some(7));
        is_refused(&mut bench, "the disk is full");
        bench.window.has_room_for(None);
        let mut file = fs::File::options().append(true).open(&path).unwrap();
        std::io::Write::write_all(&mut file, added.as_bytes()).unwrap();
        let theirs = fs::read(&path).unwrap();
        if is_ours {
            goes_on(&mut bench, &path);
        } else {
            is_refused(&mut bench, "was changed by something else");
            assert_eq!(fs::read(&path).unwrap(), theirs);
        }
    }
}

/// Something that is no file in its place is said, and nothing waits for it.
#[test]
fn a_folder_in_its_place_is_said() {
    let (mut bench, path) = at_work("no-file");
    fs::remove_file(&path).unwrap();
    fs::create_dir(&path).unwrap();
    is_refused(&mut bench, "was deleted or replaced");
    is_refused(&mut bench, "is not a file");
    fs::remove_dir(&path).unwrap();
    goes_on(&mut bench, &path);
}

/// Work that is in this window alone is not lost by one press: it is said first.
#[test]
fn who_leaves_work_that_is_not_in_its_file_is_told_first() {
    let (mut bench, path) = at_work("leaves");
    fs::remove_dir_all(&bench.folder).unwrap();
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Bench);
    assert!(bench.says("Your work is only in this window now"), "{:?}", bench.words());
    // Put right, leaving writes it.
    fs::create_dir_all(&bench.folder).unwrap();
    (0..30).for_each(|_| bench.frames(Vec::new()));
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Start);
    assert_eq!(read_attempt(&path).unwrap().opened.replay().unwrap().log().len(), 1);
    // Not put right, the second press leaves all the same.
    bench.click("open:1");
    fs::remove_dir_all(&bench.folder).unwrap();
    bench.click("leave");
    (0..30).for_each(|_| bench.frames(Vec::new()));
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Start);
}

/// Where no file can be made nothing is begun; it is said in sight, and tried again when that is put right.
#[test]
fn where_no_file_can_be_made_that_is_said_and_nothing_is_begun() {
    let mut bench = Bench::new("no-folder");
    let folder = bench.folder.clone();
    fs::write(&folder, "no folder").unwrap();
    bench.click("begin:wire-a-switch");
    assert_eq!(bench.window.screen(), Screen::Start);
    let path = folder.display().to_string();
    assert!(
        bench.words().iter().any(|it| it.contains(&path) && it.contains("can't be written")),
        "{:?}",
        bench.words()
    );
    fs::remove_file(&folder).unwrap();
    // A second press within 0.4 s would be that of a double click.
    (0..30).for_each(|_| bench.frames(Vec::new()));
    bench.click("begin:wire-a-switch");
    assert_eq!(bench.window.screen(), Screen::Bench);
}

/// An exercise of a folder that can't be used is named with its reason; the others are there. Nothing in it turns writing round.
#[test]
fn a_broken_exercise_is_named_with_its_reason_and_the_rest_is_there() {
    let mut bench =
        Bench::with("broken-exercise", "ruin", "Scenario(\n    format: 1,\n    id: \"\u{202e}ruin\u{7}\",\n)\n");
    let said = bench.whole_page();
    let found = said.iter().find(|it| it.0.contains("ruin/scenario.ron")).unwrap_or_else(|| panic!("{said:?}"));
    assert!(found.0.contains("line ") && !found.0.contains(['\u{202e}', '\u{7}']), "{}", found.0);
    bench.click("begin:wire-a-switch");
    assert_eq!(bench.window.screen(), Screen::Bench);
}

/// The attempt is closed properly, what was done is in its file, it is said, and the way back leads to it.
#[test]
fn a_screen_that_breaks_down_keeps_the_attempt_and_says_so() {
    let (mut bench, path) = at_work("breaks");
    bench.window.breaks();
    bench.frames(Vec::new());
    assert_eq!(bench.window.screen(), Screen::Broken);
    assert!(bench.says("Everything you did is kept in") && bench.says("on purpose"), "{:?}", bench.words());
    // Not locked any more: another window may go on with it.
    let mut other = Bench::beside(bench.folder.clone());
    other.click("open:1");
    assert!(other.window.session().unwrap().read_only().is_none() && other.log().len() == 1);
    drop(other);
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Start);
    bench.click("open:1");
    bench.click("go:switch");
    goes_on(&mut bench, &path);
    // With no attempt open there is nothing to lose, and the window goes on too.
    bench.click("leave");
    bench.window.breaks();
    bench.frames(Vec::new());
    assert!(bench.says("nothing is lost"), "{:?}", bench.words());
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Start);
}

/// The last line is in the file, but the disk does not take it for good: it is handed in, there is a sheet, and the sheet says so.
#[test]
fn a_hand_in_that_may_not_have_come_to_the_disk_has_its_sheet_and_says_so() {
    let (mut bench, path) = at_work("unsettled");
    bench.window.has_room_for(Some(4096));
    bench.does([Action::HandIn]);
    assert_eq!(bench.window.screen(), Screen::Sheet);
    assert!(
        bench.says("It is handed in, but may not be on the disk") && bench.says("the disk is full"),
        "{:?}",
        bench.words()
    );
    assert!(bench.window.session().unwrap().receipt.is_none());
    assert!(read_attempt(&path).unwrap().opened.replay().unwrap().tally().handed_in);
    // A hand-in that reached the disk says nothing of this.
    let (mut bench, _) = at_work("settled");
    bench.does([Action::HandIn]);
    assert!(!bench.says("may not be on the disk") && bench.window.session().unwrap().receipt.is_some());
}
