//! Everything that a scenario may be written with, in words: for `describe`, and for the guide of those who write exercises.

use super::{STAGE_KEYS, Wording};
use crate::{
    exercise::{WordSort, entries},
    trade::{
        accessory::{Holder, ROSE_TERMINALS},
        cable::CableKind,
        catalogue::{Accessory, Listed, Sort},
        device::DeviceKind,
    },
};

/// Words of one sort, with what each means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Vocabulary {
    /// What they are and where they stand.
    pub heading: String,
    /// How each is written, and what it means; empty where the word says it.
    pub words: Vec<(String, String)>,
}

/// Every entry of a scenario with its fields, then every sort of words.
pub fn vocabulary(wording: &Wording) -> Vec<Vocabulary> {
    let written = |(entry, fields): (&str, Vec<&str>)| (format!("{entry}({})", fields.join(", ")), String::new());
    let heading = wording.say("describe-entries", &[]);
    let sorts = WordSort::ALL.iter().map(|sort| {
        let meant = |word: &&str| (sort.form(word), meaning(wording, *sort, word));
        let heading = wording.say(&format!("describe-{}", sort.word()), &[]);
        Vocabulary { heading, words: sort.words().iter().map(meant).collect() }
    });
    std::iter::once(Vocabulary { heading, words: entries().into_iter().map(written).collect() }).chain(sorts).collect()
}

/// What a word means; empty where it needs no saying.
fn meaning(wording: &Wording, sort: WordSort, word: &str) -> String {
    match sort {
        WordSort::Accessory => Listed::find(word).map(|it| accessory(wording, &it)),
        WordSort::Cable => CableKind::ALL.into_iter().find(|it| format!("{it:?}") == word).map(|it| cable(wording, it)),
        WordSort::Device => DeviceKind::find(word).map(|it| device(wording, it)),
        WordSort::Stage => STAGE_KEYS.iter().find(|it| format!("{:?}", it.0) == word).map(|it| wording.say(it.1, &[])),
        WordSort::Holder => {
            let holder = [Holder::Bayonet, Holder::Screw].into_iter().find(|it| format!("{it:?}") == word);
            holder.map(|it| wording.say("describe-terminals", &[("terminals", &it.terminals().join(", "))]))
        }
        _ => {
            let key = format!("describe-{}-{word}", sort.word());
            wording.has(&key).then(|| wording.say(&key, &[("rose", &ROSE_TERMINALS.join(", "))]))
        }
    }
    .unwrap_or_default()
}

fn accessory(wording: &Wording, it: &Accessory) -> String {
    let place = match it.sort {
        Sort::Plate { gangs: 1, .. } => wording.say("describe-plate-alone", &[]),
        Sort::Plate { gangs, .. } => wording.say("describe-plate", &[("gangs", &gangs.to_string())]),
        Sort::JunctionBox { .. } => wording.say("describe-junction-box", &[]),
        Sort::Connector { .. } => wording.say("describe-connector", &[]),
        Sort::TimerFan => wording.say("describe-fan", &[]),
    };
    let names: Vec<&str> = it.terminals.iter().map(|it| it.name.as_str()).collect();
    let terminals = wording.say("describe-terminals", &[("terminals", &names.join(", "))]);
    let joined = |position: usize| {
        let pairs = it.joins(position).iter().map(|(a, b)| format!("{}–{}", it.name_of(*a), it.name_of(*b)));
        let pairs: Vec<String> = pairs.collect();
        if pairs.is_empty() { wording.say("describe-nothing", &[]) } else { pairs.join(", ") }
    };
    let positions: Vec<String> = (0..it.positions()).map(joined).collect();
    let joins = if it.is_switch() || !it.joins(0).is_empty() {
        wording.say("describe-joins", &[("positions", &positions.join(" / "))])
    } else {
        String::new()
    };
    format!("{place}; {terminals}{joins}")
}

fn cable(wording: &Wording, kind: CableKind) -> String {
    let cores: Vec<&str> = kind.cores().iter().map(|it| it.name).collect();
    let sizes: Vec<String> = kind.sizes().iter().map(|it| it.0.mm2().to_string()).collect();
    wording.say("describe-cores", &[("cores", &cores.join(", ")), ("sizes", &sizes.join(", "))])
}

fn device(wording: &Wording, kind: DeviceKind) -> String {
    let amps = kind.rated_amps().to_string();
    let residual = kind.residual_amps().map(|it| (it * 1000.0).round().to_string());
    let overcurrent =
        kind.curve().map(|it| wording.say("describe-overcurrent", &[("amps", &amps), ("curve", &format!("{it:?}"))]));
    let residual = residual.map(|it| wording.say("describe-residual", &[("milliamps", &it)]));
    let common = kind.is_common().then(|| wording.say("describe-common", &[]));
    [overcurrent, residual, common].into_iter().flatten().collect::<Vec<_>>().join(", ")
}
