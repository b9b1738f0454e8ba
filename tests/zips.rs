//! Zips of hand-ins, good and hostile. They are written here byte by byte after APPNOTE 6.3.10 (local headers, the central directory, its
//! end), by lines that share nothing with what reads them.

use std::io::Write;

use flate2::{Compression, write::DeflateEncoder};
use serde_json::json;
use switchdrop::register::Adjustment;

use crate::{
    bench::Bench,
    class::{AFTER, Made, class, done, reviewed, right, row},
};

/// How a file is packed.
const STORED: u16 = 0;
const DEFLATED: u16 = 8;

/// A file in a zip, each figure as the zip says it.
pub struct Packed {
    pub name: Vec<u8>,
    pub bytes: Vec<u8>,
    pub packing: u16,
    pub flags: u16,
    pub crc: u32,
    pub size: u32,
}

impl Packed {
    pub fn stored(name: &str, text: impl AsRef<[u8]>) -> Self {
        let bytes = text.as_ref().to_vec();
        let (crc, size) = (crc(&bytes), bytes.len() as u32);
        // Bit 11: the name is UTF-8.
        Self { name: name.into(), bytes, packing: STORED, flags: 1 << 11, crc, size }
    }

    pub fn deflated(name: &str, text: impl AsRef<[u8]>) -> Self {
        let mut encoder = DeflateEncoder::new(Vec::new(), Compression::best());
        encoder.write_all(text.as_ref()).expect("into memory");
        Self { bytes: encoder.finish().expect("into memory"), packing: DEFLATED, ..Self::stored(name, text) }
    }

    /// What stands alike in both headers: version, flags, packing, time, date, sum, sizes, lengths.
    fn facts(&self) -> Vec<u8> {
        let mut all = Vec::new();
        for it in [20, self.flags, self.packing, 0, 0x21] {
            all.extend_from_slice(&it.to_le_bytes());
        }
        for it in [self.crc, self.bytes.len() as u32, self.size] {
            all.extend_from_slice(&it.to_le_bytes());
        }
        all.extend_from_slice(&(self.name.len() as u16).to_le_bytes());
        all.extend_from_slice(&0_u16.to_le_bytes());
        all
    }
}

/// CRC-32 bit by bit, as ISO 3309 has it.
fn crc(bytes: &[u8]) -> u32 {
    let step = |crc: u32, byte: &u8| {
        (0..8).fold(crc ^ u32::from(*byte), |it, _| if it & 1 == 1 { it >> 1 ^ 0xEDB8_8320 } else { it >> 1 })
    };
    !bytes.iter().fold(!0, step)
}

pub fn zip(files: &[Packed]) -> Vec<u8> {
    zip_with(files, |_, offset| offset, files.len() as u16)
}

/// A zip whose list gives each file's place as `at` says, and counts `count` files.
fn zip_with(files: &[Packed], at: impl Fn(usize, u32) -> u32, count: u16) -> Vec<u8> {
    let (mut all, mut list) = (Vec::new(), Vec::new());
    for (index, it) in files.iter().enumerate() {
        let offset = all.len() as u32;
        all.extend_from_slice(b"PK\x03\x04");
        all.extend_from_slice(&it.facts());
        all.extend_from_slice(&it.name);
        all.extend_from_slice(&it.bytes);
        list.extend_from_slice(b"PK\x01\x02\x14\x00");
        list.extend_from_slice(&it.facts());
        // Comment, disk, attributes inside and outside.
        list.extend_from_slice(&[0; 10]);
        list.extend_from_slice(&at(index, offset).to_le_bytes());
        list.extend_from_slice(&it.name);
    }
    let (start, length) = (all.len() as u32, list.len() as u32);
    all.extend_from_slice(&list);
    all.extend_from_slice(b"PK\x05\x06\0\0\0\0");
    for it in [count, count] {
        all.extend_from_slice(&it.to_le_bytes());
    }
    for it in [length, start] {
        all.extend_from_slice(&it.to_le_bytes());
    }
    all.extend_from_slice(&[0, 0]);
    all
}

/// `123456789` has this sum in every catalogue of cyclic redundancy checks.
#[test]
fn the_sum_is_that_of_the_catalogues() {
    assert_eq!(crc(b"123456789"), 0xCBF4_3926);
}

/// What a platform's download looks like: a folder for each learner by name, one of them with a photo, one with another's file.
#[test]
fn a_download_is_read_as_it_is_and_each_file_goes_to_its_learner() {
    let bench = Bench::new();
    let all = class(&bench, 0);
    bench.file(
        "who.ron",
        "Paths(part: \"{learner}_*_file\", learners: {\"Robin Hale\": 1, \"Åsa Lee\": 2, \"Sam Okoro\": 3, \"Jo Tan\": 4})",
    );
    let wrong = Made::of(&all, 2, Adjustment::default(), done(&[0]));
    let files = [
        Packed::deflated("Robin Hale_84512_file/work.ron", right(&all, 1).text()),
        Packed::stored("Åsa Lee_84513_file/my work (1).ron", wrong.text()),
        Packed::deflated("__MACOSX/Åsa Lee_84513_file/._my work (1).ron", "\0\x05\x16\x07"),
        Packed::stored("Sam Okoro_84514_file/", ""),
        Packed::stored("Sam Okoro_84514_file/photo.jpg", "\u{ff}"),
        Packed::deflated("Jo Tan_84515_file/work.ron", right(&all, 5).text()),
        Packed::stored("Jo Tan_84515_file/other.ron", "("),
    ];
    bench.file("in/week-3.zip", zip(&files));
    let run = bench.run(&["review", "week-3.ron", "in", "--paths", "who.ron", "--json", "--at", AFTER]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let review = reviewed(&run);
    assert_eq!(row(&review, 1), (json!("handed-in"), vec![json!([])]));
    assert_eq!(row(&review, 2), (json!("handed-in"), vec![json!([])]));
    assert_eq!(review["rows"][1]["files"][0]["earned"]["faults"][0]["code"], "mark-missing");
    assert_eq!(row(&review, 3), (json!("missing"), vec![]));
    // What can't be read is known by where it lies.
    assert_eq!(row(&review, 4), (json!("unclear"), vec![json!(["unreadable"])]));
    assert_eq!(review["rows"][3]["misnamed"][0]["learner"], 5);
    assert_eq!(row(&review, 5), (json!("handed-in"), vec![json!(["other-name"])]));
    let passed_over = review["passed_over"].as_array().expect("a list");
    assert!(
        passed_over.contains(&json!({ "file": "in/week-3.zip/Sam Okoro_84514_file/photo.jpg", "learner": 3 })),
        "{passed_over:?}"
    );
    // The zip is as it was, and nothing lies beside it.
    assert_eq!(std::fs::read_dir(bench.path("in")).expect("a folder").count(), 1);
    // Unpacked by hand it reads the same.
    for it in files.iter().filter(|it| !it.name.ends_with(b"/")) {
        let name = String::from_utf8_lossy(&it.name).into_owned();
        let text = if it.packing == STORED { it.bytes.clone() } else { inflated(&it.bytes) };
        bench.file(&format!("by-hand/{name}"), text);
    }
    let by_hand =
        reviewed(&bench.run(&["review", "week-3.ron", "by-hand", "--paths", "who.ron", "--json", "--at", AFTER]));
    let named = |it: &serde_json::Value| it.to_string().replace("in/week-3.zip/", "by-hand/");
    assert_eq!(named(&review["rows"]), named(&by_hand["rows"]));
}

pub fn inflated(bytes: &[u8]) -> Vec<u8> {
    let mut decoder = flate2::write::DeflateDecoder::new(Vec::new());
    decoder.write_all(bytes).expect("into memory");
    decoder.finish().expect("into memory")
}

/// What the program says of a zip; it must end soon, and with an error.
fn said_of(bytes: Vec<u8>) -> String {
    let bench = Bench::new();
    class(&bench, 0);
    bench.file("bad.zip", bytes);
    let run = bench.run(&["review", "week-3.ron", "bad.zip", "--json", "--at", AFTER]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let review = reviewed(&run);
    let files = review["rows"].as_array().expect("rows").iter().filter_map(|it| it["files"].as_array());
    let why = files.flatten().chain(review["strays"].as_array().expect("strays")).map(|it| it["why"].to_string());
    run.err + &why.collect::<String>()
}

#[test]
fn hostile_zips_are_refused_with_their_reason() {
    let good = || Packed::deflated("a.ron", "(".repeat(1000));
    let nulls = vec![b'('; 1024 * 1024];
    // Each unpacks to a megabyte, the most that one may have; 1025 of them to more than a gigabyte, out of a megabyte.
    let one = Packed::deflated("", &nulls);
    let many: Vec<Packed> =
        (0..1025).map(|it| Packed { name: format!("{it}.ron").into(), bytes: one.bytes.clone(), ..one }).collect();
    let lying = Packed { size: 10, ..Packed::deflated("a.ron", &nulls) };
    let over = |it: &str| Packed { size: 2_000_000_000, ..Packed::deflated(it, &nulls) };
    let two = || [good(), Packed::deflated("b.ron", "(".repeat(1000))];
    for (bytes, said) in [
        (b"PK no zip".to_vec(), "bad.zip can't be read as a zip"),
        (Vec::new(), "bad.zip can't be read as a zip"),
        (zip(&[good(), good()]), "bad.zip/a.ron stands twice in its zip"),
        (zip(&[Packed::stored("../a.ron", "(")]), "has a name that leads out of its zip"),
        (zip(&[Packed::stored("in/../../a.ron", "(")]), "has a name that leads out of its zip"),
        (zip(&[Packed::stored("/etc/a.ron", "(")]), "has a name that leads out of its zip"),
        (zip(&[Packed::stored("C:\\a.ron", "(")]), "has a name that leads out of its zip"),
        (zip(&[Packed::stored("inner.zip", zip(&[good()]))]), "bad.zip/inner.zip is a zip in a zip"),
        (zip(&many), "bad.zip is not read: what is in it comes to more than is unpacked"),
        (zip(&[over("a.ron")]), "bad.zip/a.ron is too large"),
        (zip(&[lying]), "bad.zip/a.ron is not what its zip says of it"),
        (zip(&[Packed { crc: 1, ..good() }]), "bad.zip/a.ron is not what its zip says of it"),
        (zip(&[Packed { flags: 1, ..good() }]), "bad.zip/a.ron is locked by a password"),
        (zip(&[Packed { packing: 99, ..good() }]), "bad.zip/a.ron is packed in a way that this program does not read"),
        (zip_with(&two(), |_, offset| offset, 1), "is not read: its list of files is not as long as it says"),
        (zip_with(&two(), |_, offset| offset, 9), "is not read: its list of files is not as long as it says"),
        // Both names have the one file's bytes: so a small zip unpacks to a great deal.
        (zip_with(&two(), |_, _| 0, 2), "files in it overlap"),
    ] {
        let told = said_of(bytes);
        assert!(told.contains(said), "{said}: {told}");
    }
}

/// Zips with bytes changed, cut off and doubled: every one is answered.
#[test]
fn mutated_zips_are_all_answered() {
    let bench = Bench::new();
    let all = class(&bench, 0);
    let good =
        zip(&[Packed::deflated("a.ron", right(&all, 1).text()), Packed::stored("b/c.ron", right(&all, 2).text())]);
    let mut random = switchdrop::exercise::Stream::new(1, "zips", switchdrop::exercise::Seed(1), "mutations");
    for number in 0..300 {
        let mut bytes = good.clone();
        let at = random.below(bytes.len() as u32) as usize;
        match random.below(3) {
            0 => bytes[at] = random.below(256) as u8,
            1 => bytes.truncate(at),
            _ => bytes.extend_from_within(at..),
        }
        // Where its list is, most changes tell.
        let tail = bytes.len().saturating_sub(1 + random.below(200) as usize);
        if let Some(it) = bytes.get_mut(tail) {
            *it ^= 1 << random.below(8);
        }
        bench.file(&format!("in/{number}.zip"), bytes);
    }
    let run = bench.run(&["review", "week-3.ron", "in", "--json", "--at", AFTER]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    assert_eq!(reviewed(&run)["rows"].as_array().map(Vec::len), Some(24));
    assert!(run.err.lines().count() > 100, "few were refused: {}", run.err);
}
