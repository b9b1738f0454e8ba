//! A fresh folder and the real program in it.

use std::{
    fs,
    io::Write,
    path::{Path, PathBuf},
    process::{Child, Command, Stdio},
    sync::atomic::{AtomicU32, Ordering},
};

use switchdrop::{
    attempt::{Chain, Format, Header, Mode, action_line, first_lines},
    exercise::Exercise,
    marking::VERSION,
    work::Action,
};

/// A fresh folder, gone afterwards.
pub struct Bench {
    dir: PathBuf,
}

/// What a run of the program said.
pub struct Run {
    pub out: String,
    pub err: String,
    pub code: Option<i32>,
}

impl Drop for Bench {
    fn drop(&mut self) {
        // What can't be removed lies in the target folder, where it harms nobody.
        let _ = fs::remove_dir_all(&self.dir);
    }
}

impl Bench {
    pub fn new() -> Self {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let name = format!("bench-{}-{}", std::process::id(), NEXT.fetch_add(1, Ordering::Relaxed));
        let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        fs::create_dir_all(&dir).expect("a fresh folder");
        Self { dir }
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.dir.join(name)
    }

    /// Writes a file, its folder made if need be.
    pub fn file(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder can be made");
        fs::write(&path, bytes).expect("a file can be written");
        path
    }

    pub fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).expect("a file that can be read")
    }

    /// The names of the files in the folder.
    pub fn names(&self) -> Vec<String> {
        let mut names: Vec<_> = fs::read_dir(&self.dir)
            .expect("a folder")
            .map(|it| it.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    /// The program, in the folder, its streams to be read.
    pub fn program(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_switchdrop"));
        command.args(args).current_dir(&self.dir).env_remove("NO_COLOR");
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    pub fn spawn(&self, args: &[&str]) -> Child {
        self.program(args).spawn().expect("the program starts")
    }

    pub fn run(&self, args: &[&str]) -> Run {
        self.run_with(args, "")
    }

    /// Runs it to its end with this on standard input.
    pub fn run_with(&self, args: &[&str], input: impl AsRef<[u8]>) -> Run {
        let mut child = self.spawn(args);
        let mut stdin = child.stdin.take().expect("standard input");
        let input = input.as_ref().to_vec();
        // From a thread of its own, so that neither side waits for the other. It may end before it has read everything.
        let writer = std::thread::spawn(move || drop(stdin.write_all(&input)));
        let output = child.wait_with_output().expect("the program ends");
        writer.join().expect("the writer ends");
        let text = |it: Vec<u8>| String::from_utf8(it).expect("UTF-8");
        Run { out: text(output.stdout), err: text(output.stderr), code: output.status.code() }
    }
}

impl Run {
    /// All of standard output, nothing on standard error, exit 0.
    #[track_caller]
    pub fn says(&self, out: &str) {
        assert_eq!((self.out.as_str(), self.err.as_str(), self.code), (out, "", Some(0)));
    }

    /// All of standard error, nothing on standard output, exit 1.
    #[track_caller]
    pub fn complains(&self, err: &str) {
        assert_eq!((self.out.as_str(), self.err.as_str(), self.code), ("", err, Some(1)));
    }
}

/// An attempt's text in the newest format: its first lines and these actions.
pub fn attempt_text(exercise: &Exercise, actions: &[Action]) -> String {
    attempt_in(Format::NEWEST, exercise, actions)
}

/// The same in that format.
pub fn attempt_in(format: Format, exercise: &Exercise, actions: &[Action]) -> String {
    sealed(format, &attempt_lines(format, exercise, actions))
}

/// Its lines without sums.
pub fn attempt_lines(format: Format, exercise: &Exercise, actions: &[Action]) -> Vec<String> {
    let (learner, started) = ("Robin Hale".to_owned(), "2026-03-02T09:30:00+00:00".to_owned());
    let header = Header { format, ..Header::new(VERSION, exercise, learner, started, Mode::Set) };
    let mut lines = first_lines(&header, exercise).expect("first lines").to_vec();
    let actions = actions.iter().enumerate();
    lines.extend(actions.map(|(number, it)| action_line(number as u64 * 1000, it).expect("an action line")));
    lines
}

/// Lines as they stand in a file.
pub fn sealed(format: Format, lines: &[String]) -> String {
    let mut chain = Chain::new(format);
    lines.iter().map(|it| chain.seal(it)).collect()
}

/// Actions as `record` reads them.
pub fn script(actions: &[Action]) -> String {
    actions.iter().map(|it| ron::to_string(it).expect("RON") + "\n").collect()
}

/// Every Rust file under a folder of the project, with its text, in order.
pub fn sources(folder: &str) -> Vec<(PathBuf, String)> {
    fn walk(folder: &Path, found: &mut Vec<(PathBuf, String)>) {
        for entry in fs::read_dir(folder).expect("a folder of sources") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                walk(&path, found);
            } else if path.extension().is_some_and(|it| it == "rs") {
                let text = fs::read_to_string(&path).expect("a source file");
                found.push((path, text));
            }
        }
    }
    let mut found = Vec::new();
    walk(&Path::new(env!("CARGO_MANIFEST_DIR")).join(folder), &mut found);
    found.sort();
    found
}
