//! The outcome, and which lines of the pass rule were not met.

use super::{
    code::{Code, Criterion, Weight},
    finding::{Finding, Root, Seen},
    sheet::CriterionMarks,
};
use crate::attempt::Mode;
use crate::work::Subject;

/// How the attempt went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, strum::VariantNames, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Outcome {
    /// Everything asked for works, is safe, and was done safely.
    Pass,
    /// Anything short of that.
    #[strum(serialize = "not yet")]
    NotYet,
    /// A critical fault stands, or a critical act was done in set work.
    Refer,
}

impl Outcome {
    /// Every outcome, the best first.
    pub const ALL: [Self; 3] = [Self::Pass, Self::NotYet, Self::Refer];

    /// The words in reports.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// A line of the pass rule that was not met. Those about a finding give its place in the sheet's list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::IntoStaticStr, strum::VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum Unmet {
    /// Something critical stands.
    Critical(usize),
    /// A critical act was done.
    CriticalAct(usize),
    /// Something stands that no assessor passes, whatever the total.
    Bar(Bar, usize),
    /// A control does not do its job, or a fan.
    Function(usize),
    /// The work is not finished: all that is still to be done in it, in one line.
    Unfinished(usize),
    /// A light is off because of what the learner left behind: a lock on, a lamp out.
    Left(usize),
    /// A stage that was asked for is not done.
    Stage(usize),
    /// The test sheet has more wrong figures than one slip of the pen explains.
    Record(usize),
    /// Less than half of a criterion that offers four or more chances to err.
    Half(Criterion),
    /// Fewer marks than the pass mark.
    Marks,
    /// It is not handed in.
    NotHandedIn,
}

impl Unmet {
    /// The word of the line in reports and in the catalogue.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// Whether something stands that can hurt somebody, today or once it has worked loose or worn.
    pub const fn is_hazard(&self) -> bool {
        matches!(self, Self::Bar(it, _) if !matches!(it, Bar::ReadingNotTaken))
    }

    /// The finding that it is about, by its place on the sheet.
    pub const fn finding(self) -> Option<usize> {
        match self {
            Self::Critical(it)
            | Self::CriticalAct(it)
            | Self::Bar(_, it)
            | Self::Function(it)
            | Self::Unfinished(it)
            | Self::Left(it)
            | Self::Stage(it)
            | Self::Record(it) => Some(it),
            Self::Half(_) | Self::Marks | Self::NotHandedIn => None,
        }
    }
}

/// A major finding that no assessor passes, whatever the total (the charter of marking).
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::VariantNames, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum Bar {
    /// A screw is not tight on a line, a neutral or a protective conductor.
    Loose,
    /// A cpc is missing, or stands where it must not.
    Cpc,
    /// A mark says what is not so.
    FalseMark,
    /// Copper shows out of a terminal.
    Copper,
    /// A cover was left off.
    CoverOff,
    /// A reading was asked for and not taken.
    ReadingNotTaken,
    /// The power came on over insulation below its limit.
    InsulationLow,
}

impl Bar {
    /// Every bar.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word in reports and in the catalogue.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The bar that a finding amounts to, if any.
    fn of(finding: &Finding) -> Option<Self> {
        match finding.code {
            // A screw that holds a spare core alone is loose, and holds no line, neutral or protective conductor.
            Code::ConnectionSlack => (!finding.about.is_empty()).then_some(Self::Loose),
            Code::CpcOpen | Code::CpcMisused => Some(Self::Cpc),
            Code::MarkFalse => Some(Self::FalseMark),
            Code::BareCopperShowing => Some(Self::Copper),
            Code::CoverOff => Some(Self::CoverOff),
            Code::InsulationLow => Some(Self::InsulationLow),
            Code::TestMissing | Code::StageMissing => is_read(finding.at).then_some(Self::ReadingNotTaken),
            // A limit copied out is a reading not taken: nobody looked at what the instrument showed.
            Code::TestIncomplete | Code::TestNotRepeated | Code::FigureUnread | Code::FigureCopied => {
                is_read(finding.at).then_some(Self::ReadingNotTaken)
            }
            _ => None,
        }
    }
}

/// Whether something is a stage of readings, or a line of them.
fn is_read(at: Subject) -> bool {
    match at {
        Subject::Test(..) => true,
        Subject::Stage(it) => it.is_read(),
        _ => false,
    }
}

/// What an outcome is judged from, besides the findings.
pub(super) struct OutcomeFacts<'a> {
    pub mode: Mode,
    pub handed_in: bool,
    pub criteria: &'a [CriterionMarks],
    /// Whether it is half-wired work, about which a single line is said.
    pub is_all_to_do: bool,
    pub has_enough: bool,
    /// Whether a finding, though critical, is only work that is not done yet.
    pub is_unfinished: &'a dyn Fn(&Finding) -> bool,
}

/// The outcome, and every line of the rule that was not met, the gravest first. Of what is not handed in only what is critical
/// is told: the rest is still to be done.
pub(super) fn judge(findings: &[Finding], of: &OutcomeFacts<'_>) -> (Outcome, Vec<Unmet>) {
    let is_act = |it: &Finding| matches!(it.seen, Seen::InAction(_));
    let critical = |it: &Finding| it.weight == Weight::Critical;
    let mut unmet = Vec::new();
    // Ends that are still to be landed are nothing critical, as long as nobody says that the work is done.
    let is_to_come = |it: &Finding| !of.handed_in && (of.is_unfinished)(it);
    let stands = |it: &Finding| critical(it) && !is_act(it) && !is_to_come(it);
    unmet.extend(causes(findings, stands).map(Unmet::Critical));
    unmet.extend(causes(findings, |it| critical(it) && is_act(it)).map(Unmet::CriticalAct));
    let refers = |it: &Finding| if is_act(it) { of.mode == Mode::Set } else { !(of.is_unfinished)(it) };
    let is_referred = findings.iter().any(|it| critical(it) && !it.before && refers(it));
    if of.handed_in {
        unmet.extend(unmet_lines(findings, of));
    } else {
        unmet.push(Unmet::NotHandedIn);
    }
    let outcome = match (is_referred, unmet.is_empty()) {
        (true, _) => Outcome::Refer,
        (false, true) => Outcome::Pass,
        (false, false) => Outcome::NotYet,
    };
    (outcome, unmet)
}

/// The lines that have to do with nothing critical.
fn unmet_lines(findings: &[Finding], of: &OutcomeFacts<'_>) -> Vec<Unmet> {
    // Critical findings have been named already, and bar a pass all the more.
    let bar = |it: &Finding| Bar::of(it).filter(|_| it.weight == Weight::Major);
    let is_critical = |of: usize| findings.get(of).is_some_and(|cause| cause.weight == Weight::Critical);
    let is_named = |it: &Finding| matches!(it.root, Root::Of(cause) if is_critical(cause));
    let bars = causes(findings, |it| bar(it).is_some() && !is_named(it));
    let mut unmet: Vec<Unmet> = bars.filter_map(|it| Some(Unmet::Bar(bar(&findings[it])?, it))).collect();
    let works = |it: &Finding| !matches!(it.code, Code::ControlWrong | Code::FanWrong);
    unmet.extend(causes(findings, |it| !works(it)).map(Unmet::Function));
    unmet.extend(causes(findings, |it| it.code == Code::WorkUnfinished).map(Unmet::Unfinished));
    unmet.extend(causes(findings, |it| is_left(it.code)).map(Unmet::Left));
    let is_stage = |it: &Finding| {
        let stage = matches!(
            it.code,
            Code::StageMissing
                | Code::TestMissing
                | Code::PredictionMissing
                | Code::DiagnosisMissing
                | Code::NameMissing
                | Code::FunctionUntested
        ) || matches!(it.code, Code::TestIncomplete | Code::TestNotRepeated);
        stage && bar(it).is_none()
    };
    unmet.extend(causes(findings, is_stage).map(Unmet::Stage));
    // One wrong figure is a slip of the pen; with two the sheet is no record of this job (common practice, no source).
    let wrong = |it: &Finding| it.code == Code::FigureWrong;
    if findings.iter().filter(|it| wrong(it)).count() >= 2 {
        unmet.extend(causes(findings, wrong).next().map(Unmet::Record));
    }
    if of.is_all_to_do {
        return unmet;
    }
    let short = |it: &&CriterionMarks| it.half_needed && 2 * it.marks < it.out_of;
    unmet.extend(of.criteria.iter().filter(short).map(|it| Unmet::Half(it.criterion)));
    if !of.has_enough {
        unmet.push(Unmet::Marks);
    }
    unmet
}

const fn is_left(code: Code) -> bool {
    matches!(code, Code::LockLeftOn | Code::LampLeftOut)
}

/// The learner's findings of one kind, by their places: those that are causes, or if none is, the first.
fn causes(findings: &[Finding], of: impl Fn(&Finding) -> bool) -> impl Iterator<Item = usize> {
    let all: Vec<usize> = (0..findings.len()).filter(|it| !findings[*it].before && of(&findings[*it])).collect();
    let mut causes: Vec<usize> = all.iter().copied().filter(|it| findings[*it].root == Root::Itself).collect();
    if causes.is_empty() {
        causes.extend(all.first());
    }
    causes.into_iter()
}
