//! The reference behind each finding. Regulation numbers are in the numbering of BS 7671:2018+A2:2022, second-hand: the
//! standard's own text was not seen. The source of each, or that it is from memory, is in `trade/facts.md`, section 12.

use super::{code::Code, finding::Finding};
use crate::{
    attempt::stage_of,
    exercise::{Exercise, Stage},
    trade::carrying::Laid,
    work::Subject,
};

/// Where a rule comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Citation {
    /// Regulations of BS 7671.
    Regulation(&'static str),
    /// The Electricity at Work Regulations 1989 and guidance of the Health and Safety Executive.
    Guidance(&'static str),
    /// Common practice, no source.
    Practice,
}

/// The reference behind a finding.
pub fn reference(exercise: &Exercise, finding: &Finding) -> Citation {
    let stage = match finding.at {
        Subject::Stage(it) => Some(it),
        Subject::Test(it, _) => Some(stage_of(it)),
        _ => None,
    };
    let laid = match finding.at {
        Subject::Run(it) => exercise.runs.get(it).map(|it| it.laid),
        _ => None,
    };
    of(finding.code, stage, laid.unwrap_or_default())
}

/// The reference for a code: about a stage, that of the stage; about a cable, that of how the cable is laid.
const fn of(code: Code, stage: Option<Stage>, laid: Laid) -> Citation {
    match code {
        Code::ControlWrong
        | Code::FaultUnreported
        | Code::FanWrong
        | Code::RockerInverted
        | Code::CoresParallel
        | Code::CoresFew
        | Code::CableUnchosen
        | Code::ReasonWrong
        | Code::BareCopperShowing
        | Code::Nicked
        | Code::BoxTooShallow
        | Code::LinkLeftIn
        | Code::WorkUnfinished
        | Code::LockLeftOn
        | Code::LampLeftOut
        | Code::PredictionMissing
        | Code::PredictionWrong
        | Code::DiagnosisMissing
        | Code::DiagnosisWrong
        | Code::DiagnosisUnproved
        | Code::NameMissing
        | Code::NameWrong
        | Code::NameGuessed
        | Code::WorkRedone
        | Code::ResetOntoFault
        | Code::HintTaken => Citation::Practice,
        // Good workmanship, and the test that finds it.
        Code::ShortLineNeutral | Code::ShortLineEarth | Code::ResidualTrip => Citation::Regulation("134.1.1, 643.3"),
        Code::NeutralEarthExchanged | Code::LoadThroughEarth | Code::NeutralEarthJoined => {
            Citation::Regulation("411.3.1.1, 543.4.1")
        }
        Code::SocketReversed | Code::CoresExchanged => Citation::Regulation("643.6"),
        Code::NeutralSwitched | Code::FuseInNeutral | Code::LampholderLive => Citation::Regulation("132.14"),
        Code::CableThin => match laid {
            Laid::Clipped => Citation::Regulation("433.1.1, Table 4D5"),
            Laid::InInsulation => Citation::Regulation("433.1.1, 523.9, Table 4D5"),
        },
        Code::VoltDrop => Citation::Regulation("525, Appendix 4"),
        Code::Overload => Citation::Regulation("433.1"),
        Code::CircuitsJoined | Code::BorrowedNeutral => Citation::Regulation("314.4"),
        Code::LooseEndLive | Code::LooseEnd => Citation::Regulation("526.5, 416"),
        Code::SheathOutside => Citation::Regulation("526.8"),
        Code::OuterContactLine => Citation::Regulation("559.5.1.206"),
        Code::MetalEnergised => Citation::Regulation("411.3.1.1, 416"),
        Code::NoDisconnection => Citation::Regulation("411.3.2"),
        Code::CpcMisused => Citation::Regulation("514.4.2"),
        Code::CpcOpen => Citation::Regulation("411.3.1.1"),
        Code::TailMissing | Code::TailAdvised => Citation::Regulation("411.4.2"),
        Code::MarkMissing => Citation::Regulation("514.3.2"),
        Code::MarkFalse => Citation::Regulation("514.4, Table 51"),
        Code::CpcUnsleeved => Citation::Regulation("543.3.201"),
        Code::FoldMissing | Code::FoldWrong => Citation::Regulation("134.1.1"),
        Code::UnlikeSizes => Citation::Regulation("526.2"),
        Code::ConductorTrapped => Citation::Regulation("522.8.1"),
        Code::GrommetMissing => Citation::Regulation("522.8.11"),
        Code::ConnectionSlack | Code::InsulationUnderScrew | Code::Crushed | Code::JointHot => {
            Citation::Regulation("526.1")
        }
        // Defects found in the existing installation are recorded.
        Code::EnergisedPastFault => Citation::Regulation("644.1.2"),
        Code::CoverOff => Citation::Regulation("416.2"),
        // Inspection, and what it is to find.
        Code::ObservationMissed | Code::ObservationMisplaced | Code::ObservationInvented => {
            of_stage(Stage::Observations)
        }
        // A failure is put right and what came before it repeated.
        Code::TestOrder | Code::TestNotRepeated => Citation::Regulation("643.1"),
        // The figures themselves: insulation Table 64, loop impedance Table 41.3, residual current devices 643.8.
        Code::StageMissing
        | Code::TestMissing
        | Code::TestIncomplete
        | Code::InstrumentSetWrong
        | Code::FigureWrong
        | Code::FigureUnread
        | Code::FigureCopied
        | Code::FigureSign
        | Code::FigureSource
        | Code::InsulationLow
        | Code::JudgementWrong
        | Code::FunctionUntested => match stage {
            Some(it) => of_stage(it),
            None => Citation::Practice,
        },
        Code::WorkedLive | Code::PowerOnOpen | Code::Unearthed => Citation::Guidance("EAWR 14, HSG85"),
        Code::TouchedUnproved | Code::BenchUnproved => Citation::Guidance("EAWR 12 to 14, HSG85"),
        Code::OpenedUnlocked | Code::WronglyIdentified | Code::BoardUnready => Citation::Guidance("EAWR 13, HSG85"),
        // What an instrument must be to prove anything.
        Code::WrongInstrument | Code::IndicatorUnreported => Citation::Guidance("HSG85, GS38"),
        Code::PowerOnUnchecked | Code::ResetUntested | Code::EnergisedOntoFault => Citation::Guidance("HSG85"),
    }
}

/// The reference that asks for a stage.
const fn of_stage(stage: Stage) -> Citation {
    match stage {
        Stage::Isolation => Citation::Guidance("EAWR 13, HSG85"),
        Stage::Inspection | Stage::Observations => Citation::Regulation("642"),
        Stage::Continuity => Citation::Regulation("643.2"),
        Stage::Insulation => Citation::Regulation("643.3"),
        Stage::Polarity | Stage::SupplyPolarity => Citation::Regulation("643.6"),
        Stage::EnergisingChecks => Citation::Guidance("HSG85"),
        Stage::Prediction | Stage::Diagnosis | Stage::Naming => Citation::Practice,
        Stage::LoopImpedance => Citation::Regulation("643.7.3"),
        Stage::ResidualDevice => Citation::Regulation("643.8"),
        Stage::FunctionalTest => Citation::Regulation("643.10"),
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// Everything that is cited, number by number.
    fn cited() -> BTreeSet<&'static str> {
        let mut found = BTreeSet::new();
        for code in Code::ALL {
            for laid in [Laid::Clipped, Laid::InInsulation] {
                for stage in Stage::ALL.iter().copied().map(Some).chain([None]) {
                    if let Citation::Regulation(it) | Citation::Guidance(it) = of(*code, stage, laid) {
                        found.extend(it.split(", "));
                    }
                }
            }
        }
        found
    }

    #[test]
    fn every_reference_has_its_source_among_the_facts_and_no_other_is_there() {
        let facts = include_str!("../trade/facts.md");
        let section = facts.split("\n## ").find(|it| it.starts_with("12. References of the marker")).unwrap();
        let rows = section.lines().filter_map(|it| it.strip_prefix("| ")).skip(1);
        let rows: Vec<(&str, &str)> = rows.map(|it| it.split_once(" | ").unwrap()).collect();
        let told: BTreeSet<&str> = rows.iter().flat_map(|it| it.0.split(", ")).collect();
        assert_eq!(told, cited());
        assert!(rows.iter().all(|it| ["SEEN", "MEM"].iter().any(|tag| it.1.contains(tag))), "a row without its source");
    }

    #[test]
    fn what_is_about_a_stage_has_the_reference_of_the_stage() {
        let of = |code, stage| of(code, Some(stage), Laid::Clipped);
        assert_eq!(of(Code::TestMissing, Stage::Insulation), Citation::Regulation("643.3"));
        assert_eq!(of(Code::FigureCopied, Stage::LoopImpedance), Citation::Regulation("643.7.3"));
        assert_eq!(of(Code::StageMissing, Stage::Continuity), Citation::Regulation("643.2"));
        assert_eq!(of(Code::StageMissing, Stage::Isolation), Citation::Guidance("EAWR 13, HSG85"));
    }
}
