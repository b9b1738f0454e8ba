//! The catalogue has a sentence for everything in the tables, and nothing that nobody says.

use std::collections::BTreeSet;

use strum::{IntoEnumIterator as _, VariantNames as _};
use switchdrop::{
    advice::DoubtKind,
    attempt::ProofGap,
    exercise::{ProblemCode, WordSort},
    marking::{Bar, Code, Criterion, Notice, Unmet, Well},
    picture::Label,
    register::{
        AnswersShown, BundlePart, Counts, CsvFault, Flag, HelpNeed, Hints, MarkLayer, OddTime, Standing, WhyChosen,
    },
    trade::{accessory::ROSE_TERMINALS, colour::Colour},
    wording::{
        ACT_KEYS, CABLE_KEYS, CARRIES_KEYS, CHECK_KEYS, EDITION_KEYS, FAULT_KEYS, GLOW_KEYS, HAZARD_KEYS, LAID_KEYS,
        OUTCOME_KEYS, OUTCOME_MEANS_KEYS, POWER_KEYS, REASON_KEYS, REFERENCES_KEYS, STAGE_KEYS, SUSPECT_KEYS,
        TEST_KEYS, WEIGHT_KEYS, Wording,
    },
    work::Refused,
};

use crate::bench::sources;

/// Sorts whose words need no sentence: tables tell what they are, or the word does.
const SAY_THEMSELVES: [WordSort; 9] = [
    WordSort::Accessory,
    WordSort::Cable,
    WordSort::Device,
    WordSort::Stage,
    WordSort::Material,
    WordSort::Holder,
    WordSort::Lamp,
    WordSort::Letter,
    WordSort::Colour,
];

/// Keys put together from the words of a table.
fn from_tables() -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    keys.extend(ProblemCode::ALL.iter().map(|it| format!("problem-{}", it.word())));
    keys.extend(DoubtKind::ALL.iter().map(|it| format!("doubt-{}", it.word())));
    keys.extend(Refused::WORDS.iter().map(|it| format!("refused-{it}")));
    keys.extend(Colour::ALL.iter().map(|it| format!("colour-{}", it.word())));
    keys.extend(ROSE_TERMINALS.iter().map(|it| format!("terminal-rose-{it}")));
    keys.extend(Criterion::ALL.iter().map(|it| format!("criterion-{}", it.word())));
    keys.extend(Well::words().iter().map(|it| format!("well-{it}")));
    keys.extend(
        ["mark", "notice"].iter().flat_map(|of| Notice::ALL.iter().map(move |it| format!("{of}-{}", it.word()))),
    );
    keys.extend(Bar::ALL.iter().map(|it| format!("bar-{}", it.word())));
    keys.extend(Bar::ALL[1..].iter().map(|it| format!("unmet-{}", it.word())));
    keys.extend(["line", "neutral", "protective"].map(|it| format!("unmet-loose-{it}")));
    keys.extend(
        ["assign", "tutor"]
            .iter()
            .flat_map(|of| Counts::ALL.iter().map(move |it| format!("{of}-counts-{}", it.word()))),
    );
    keys.extend(
        ["assign", "tutor"].iter().flat_map(|of| Hints::ALL.iter().map(move |it| format!("{of}-hints-{}", it.word()))),
    );
    keys.extend(
        ["assign", "tutor"]
            .iter()
            .flat_map(|of| AnswersShown::ALL.iter().map(move |it| format!("{of}-answers-{}", it.word()))),
    );
    keys.extend(CsvFault::ALL.iter().map(|it| format!("csv-{}", it.word())));
    keys.extend(Flag::ALL.iter().map(|it| format!("flag-{}", it.word())));
    keys.extend(
        ["machine"].into_iter().chain(MarkLayer::ALL.iter().map(|it| it.word())).map(|it| format!("layer-by-{it}")),
    );
    keys.extend(BundlePart::ALL.iter().map(|it| format!("bundle-{}", it.word())));
    keys.extend(WhyChosen::ALL.iter().map(|it| format!("bundle-why-{}", it.word())));
    keys.extend(MarkLayer::ALL.iter().map(|it| format!("class-as-{}", it.word())));
    keys.extend(Standing::ALL.iter().map(|it| format!("standing-{}", it.word())));
    keys.extend(HelpNeed::ALL.iter().map(|it| format!("need-{}", it.word())));
    keys.extend(["pass", "not-yet", "refer", "critical", "major", "advice"].map(|it| format!("review-{it}")));
    keys.extend(
        ["set", "window-set"].iter().flat_map(|of| OddTime::ALL.iter().map(move |it| format!("{of}-{}", it.word()))),
    );
    keys.extend(["lock", "lamp"].map(|it| format!("unmet-left-{it}")));
    let own = ["bar", "left"];
    keys.extend(Unmet::VARIANTS.iter().filter(|it| !own.contains(it)).map(|it| format!("unmet-{it}")));
    keys.extend(
        ["line", "neutral", "protective", "tripped", "test-failed", "wants-link", "wants-closed", "wants-lamps-out"]
            .map(|it| format!("job-{it}")),
    );
    keys.extend(ProofGap::iter().map(|it| format!("gap-{}", it.word())));
    keys.extend(["critical", "critical-act"].map(|it| format!("unmet-{it}-several")));
    keys.extend(Label::KEYS.iter().map(|it| (*it).to_owned()));
    keys.extend((1..=10).map(|it| format!("caution-{it}")));
    keys.extend(ACT_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(TEST_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(FAULT_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(CABLE_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(LAID_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(REASON_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(SUSPECT_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(CHECK_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(EDITION_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(REFERENCES_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(GLOW_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(HAZARD_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(OUTCOME_MEANS_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(OUTCOME_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(POWER_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(CARRIES_KEYS.iter().map(|it| it.1.to_owned()));
    keys.extend(STAGE_KEYS.iter().map(|it| it.1.to_owned()));
    for sort in WordSort::ALL {
        let (word, own) = (sort.word(), |it: &&str| format!("describe-{}-{it}", sort.word()));
        keys.extend([format!("word-sort-{word}"), format!("describe-{word}")]);
        if !SAY_THEMSELVES.contains(sort) {
            keys.extend(sort.words().iter().map(own));
        }
    }
    keys.extend(["criterion", "separator", "entry", "other"].map(|it| format!("word-sort-{it}")));
    keys.extend(WEIGHT_KEYS.iter().map(|it| it.1.to_owned()));
    keys
}

/// What stands between quotes in the sources.
fn literals() -> BTreeSet<String> {
    let sources = sources("src");
    assert!(sources.len() > 30, "only {} sources found", sources.len());
    sources.iter().flat_map(|(_, text)| text.split('"').map(str::to_owned).collect::<Vec<_>>()).collect()
}

#[test]
fn every_key_of_the_tables_has_a_message() {
    let wording = Wording::british();
    let missing: Vec<_> = from_tables().into_iter().filter(|it| !wording.has(it)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

/// A key that the sources spell out stands as `say("key"`.
#[test]
fn every_key_that_the_sources_spell_out_has_a_message() {
    let wording = Wording::british();
    let mut spelt = 0;
    for (path, text) in sources("src") {
        for after in text.split("say(\"").skip(1) {
            let key = after.split('"').next().unwrap_or("");
            // Tests ask for keys that are missing, in brackets.
            if ["nowhere", "rocker-up.harm"].contains(&key) {
                continue;
            }
            spelt += 1;
            assert!(wording.has(key), "{}: {key}", path.display());
        }
    }
    assert!(spelt > 50, "only {spelt} found");
}

#[test]
fn no_message_is_there_that_nobody_says() {
    let (tables, literals) = (from_tables(), literals());
    let keys = Wording::keys();
    assert!(keys.len() > 150, "only {} keys found", keys.len());
    let unused: Vec<_> = keys
        .iter()
        .filter(|(file, key)| {
            !["findings.ftl", "glossary.ftl"].contains(file) && !tables.contains(key) && !literals.contains(key)
        })
        .collect();
    assert!(unused.is_empty(), "{unused:?}");
}

#[test]
fn every_finding_says_what_is_wrong_and_what_it_would_do_and_no_other_is_there() {
    let wording = Wording::british();
    let args = [
        ("place", "p"),
        ("called", "c"),
        ("about", "a"),
        ("one", "o"),
        ("other", "t"),
        ("lights", "l"),
        ("places", "q"),
    ];
    let mut known = BTreeSet::new();
    for code in Code::ALL {
        let key = format!("finding-{}", code.word());
        for key in [key.clone(), format!("{key}.harm"), format!("{key}.repair")] {
            wording.try_say(&key, &args).unwrap_or_else(|it| panic!("{it}"));
            known.insert(key);
        }
    }
    // Where no end stands yet.
    let begin = "finding-control-wrong.begin";
    wording.try_say(begin, &args).unwrap_or_else(|it| panic!("{it}"));
    known.insert(begin.to_owned());
    // A message of its own for what a finding is about.
    for about in ["cpc-open-kept", "cpc-open-kept-by-other", "cpc-open-unterminated", "tail-missing-unearthed"] {
        let key = format!("finding-{about}");
        for key in [key.clone(), format!("{key}.harm"), format!("{key}.repair")] {
            wording.try_say(&key, &args).unwrap_or_else(|it| panic!("{it}"));
            known.insert(key);
        }
    }
    let unused: Vec<_> =
        Wording::keys().into_iter().filter(|(file, key)| *file == "findings.ftl" && !known.contains(key)).collect();
    assert!(unused.is_empty(), "{unused:?}");
}
