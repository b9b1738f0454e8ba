//! `why`: every way of joining some cores, counted, and the reason that follows.

use std::io;

use serde::{Serialize, Serializer};
use switchdrop::{
    reason::{Arrival, CoreProof, Question, Unaskable, Unproved, WayCount, why},
    wording::{WhyWords, place, way_class, why_words},
};

use super::{
    mark::answer_json,
    output::{Output, wrapped},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// Insulated cores from each switch to the next, 1 to 4
    #[arg(long, value_name = "K", default_value_t = 2, value_parser = clap::value_parser!(u8).range(1..=4))]
    cores: u8,
    /// Switches that work the light, 2 to 6: two-way at both ends, intermediate between
    #[arg(long, value_name = "N", default_value_t = 2, value_parser = clap::value_parser!(u8).range(2..=6))]
    positions: u8,
    /// One connector more at each of these switches, numbered from 1
    #[arg(long, value_name = "A,B", value_delimiter = ',')]
    connectors: Vec<u8>,
    /// Use the bare earth wire as one more core
    #[arg(long)]
    cpc_as_core: bool,
    #[command(flatten)]
    arrives: Arrives,
    /// One JSON object
    #[arg(long)]
    json: bool,
}

/// What arrives where, if not feed and switched line at the near switch.
#[derive(Debug, clap::Args)]
struct Arrives {
    /// Live and neutral at both ends, and of the lamp's two wires one at each
    #[arg(long, conflicts_with = "opposite_ends")]
    neutral_at_both: bool,
    /// The feed at the near switch, the wire to the lamp at the far one
    #[arg(long)]
    opposite_ends: bool,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let question = Question {
        positions: usize::from(args.positions),
        cores: usize::from(args.cores),
        connectors: args.connectors.iter().map(|it| usize::from(*it)).collect(),
        cpc_as_core: args.cpc_as_core,
        arrival: match (args.arrives.neutral_at_both, args.arrives.opposite_ends) {
            (true, _) => Arrival::NeutralAtBoth,
            (_, true) => Arrival::OppositeEnds,
            _ => Arrival::FirstPlace,
        },
    };
    let proof = why(&question, |left| talk.progress("why-progress", &[("count", &left.to_string())]));
    let proof = match proof {
        Ok(it) => it,
        Err(unproved) => {
            let sentence = refusal(&question, &unproved, talk);
            talk.wrong(&sentence);
            return Ok(());
        }
    };
    if args.json {
        return answer_json(&WhyJson::of(&question, &proof), talk);
    }
    let words = why_words(&talk.wording, &question, &proof);
    let text = [wrapped(&words.asked, "", ""), table(&words, talk), example(&question, &proof, talk)];
    let said = text.into_iter().chain([wrapped(&words.reason, "", "")]).filter(|it| !it.is_empty());
    talk.answer(&said.collect::<Vec<_>>().join("\n\n"))
}

/// What stands in the way of an answer, in a sentence.
fn refusal(question: &Question, unproved: &Unproved, talk: &Output) -> String {
    let say = |key: &str, args: &[(&str, &str)]| talk.wording.say(key, args);
    match unproved {
        Unproved::Unaskable(Unaskable::Place(place)) => {
            say("why-no-place", &[("place", &place.to_string()), ("count", &question.positions.to_string())])
        }
        Unproved::Unaskable(Unaskable::Connectors(_)) => {
            say("why-many-connectors", &[("most", &Question::CONNECTORS.to_string())])
        }
        Unproved::Unaskable(_) => say("why-too-many", &[]),
        Unproved::NoExample(_) | Unproved::Differs(_) => say("why-unproved", &[("what", &unproved.to_string())]),
    }
}

/// What was counted, and how many ways and kinds.
type Line = (String, [String; 2]);

/// The lines with their numbers, in columns.
fn table(words: &WhyWords, talk: &Output) -> String {
    let say = |key: &str| talk.wording.say(key, &[]);
    let shown = |it: &WayCount| [in_threes(it.ways), in_threes(it.grouped)];
    let heads = [say("why-head-ways"), say("why-head-kinds")];
    let blank = || [String::new(), String::new()];
    let mut rows: Vec<Line> = vec![(String::new(), heads)];
    for (number, it) in words.found.iter().enumerate() {
        // The last is a part of the one before.
        rows.push((format!("{}{}", if number == 2 { "  " } else { "" }, it.what), shown(&it.count)));
    }
    rows.push((say("why-rest"), blank()));
    rows.extend(words.rest.iter().map(|it| (format!("  {}", it.what), shown(&it.count))));
    let widest = |of: &dyn Fn(&Line) -> usize| rows.iter().map(of).max().unwrap_or(0);
    let what = widest(&|it| it.0.chars().count());
    let widths = [0, 1].map(|column: usize| widest(&|it| it.1[column].len()));
    let line = |(text, [ways, kinds]): &Line| {
        format!("{text:what$}  {ways:>0$}  {kinds:>1$}", widths[0], widths[1]).trim_end().to_owned()
    };
    let mut lines: Vec<String> = rows.iter().map(line).collect();
    lines.push(say("why-kinds"));
    lines.join("\n")
}

/// A number with its digits in threes.
fn in_threes(number: u128) -> String {
    let digits = number.to_string();
    let comma = |(at, digit): (usize, char)| {
        let is_third = at > 0 && (digits.len() - at).is_multiple_of(3);
        is_third.then_some(',').into_iter().chain([digit])
    };
    digits.chars().enumerate().flat_map(comma).collect()
}

/// One way that works, if there is one.
fn example(question: &Question, proof: &CoreProof, talk: &Output) -> String {
    let mut all = proof.counted.classes.iter().zip(&proof.examples);
    let Some((class, Some(example))) = all.find(|it| it.0.class.works()) else { return String::new() };
    let (wording, work) = (&talk.wording, example.work());
    let class = way_class(wording, class.class, question.positions);
    let mut lines = vec![wording.say("why-example", &[("class", &class)])];
    for (at, into) in example.ends() {
        let [at, into] = [at, into].map(|it| place(wording, work, it));
        lines.push(format!("  {}", wording.say("why-example-end", &[("end", &at), ("terminal", &into)])));
    }
    lines.join("\n")
}

/// The answer for machines. A field may be added, none is renamed or dropped.
#[derive(Serialize)]
struct WhyJson {
    positions: usize,
    cores: usize,
    connectors: Vec<usize>,
    cpc_as_core: bool,
    arrival: &'static str,
    #[serde(flatten)]
    counts: CountsJson,
    /// The same where ways that differ only in which core is which are one.
    grouped: CountsJson,
    classes: Vec<WayClassJson>,
}

#[derive(Serialize)]
struct CountsJson {
    tried: Big,
    works: Big,
    safe: Big,
}

#[derive(Serialize)]
struct WayClassJson {
    name: String,
    count: Big,
    grouped: Big,
    /// Nothing where each way of the class has more ends in some terminal than it takes.
    example: Option<Vec<EndJson>>,
}

#[derive(Serialize)]
struct EndJson {
    end: String,
    terminal: String,
}

/// A number, as text where a double would not hold it.
struct Big(u128);

impl Serialize for Big {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match u64::try_from(self.0) {
            Ok(it) if it <= 1 << 53 => serializer.serialize_u64(it),
            _ => serializer.serialize_str(&self.0.to_string()),
        }
    }
}

impl WhyJson {
    fn of(question: &Question, proof: &CoreProof) -> Self {
        let counted = &proof.counted;
        let counts = |of: fn(&WayCount) -> u128| {
            let [tried, works, safe] = [counted.tried(), counted.works(), counted.safe()].map(|it| Big(of(&it)));
            CountsJson { tried, works, safe }
        };
        let classes = counted.classes.iter().zip(&proof.examples).map(|(class, example)| {
            let end = |(end, terminal): &(String, String)| EndJson { end: end.clone(), terminal: terminal.clone() };
            WayClassJson {
                name: class.class.word(),
                count: Big(class.ways),
                grouped: Big(class.grouped),
                example: example.as_ref().map(|it| it.ends().iter().map(end).collect()),
            }
        });
        Self {
            positions: question.positions,
            cores: question.cores,
            connectors: question.connectors.clone(),
            cpc_as_core: question.cpc_as_core,
            arrival: match question.arrival {
                Arrival::FirstPlace => "first-place",
                Arrival::OppositeEnds => "opposite-ends",
                Arrival::NeutralAtBoth => "neutral-at-both",
            },
            counts: counts(|it| it.ways),
            grouped: counts(|it| it.grouped),
            classes: classes.collect(),
        }
    }
}
