//! The reference behind each finding. Regulation numbers are in the numbering of BS 7671:2018+A2:2022, second-hand: the
//! standard's own text was not held. The source of each, or that it is from memory, stands in `trade/facts.md`, section 12.

use super::{code::Code, finding::Finding};
use crate::{
    attempt::stage_of,
    exercise::{Exercise, Stage},
    trade::carrying::Laid,
    work::Subject,
};

/// Where a rule comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reference {
    /// Regulations of BS 7671.
    Regulation(&'static str),
    /// The Electricity at Work Regulations 1989 and guidance of the Health and Safety Executive.
    Guidance(&'static str),
    /// Common practice, no source.
    Practice,
}

/// The reference behind a finding.
pub fn reference(exercise: &Exercise, finding: &Finding) -> Reference {
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

/// That of a code, where it is about a stage that of the stage, where it is about a cable that of how it is laid.
const fn of(code: Code, stage: Option<Stage>, laid: Laid) -> Reference {
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
        | Code::WorkRedone
        | Code::ResetOntoFault
        | Code::HintTaken => Reference::Practice,
        // Good workmanship, and the test that finds it.
        Code::ShortLineNeutral | Code::ShortLineEarth | Code::ResidualTrip => Reference::Regulation("134.1.1, 643.3"),
        Code::NeutralEarthExchanged | Code::LoadThroughEarth | Code::NeutralEarthJoined => {
            Reference::Regulation("411.3.1.1, 543.4.1")
        }
        Code::SocketReversed | Code::CoresExchanged => Reference::Regulation("643.6"),
        Code::NeutralSwitched | Code::LampholderLive => Reference::Regulation("132.14"),
        Code::CableThin => match laid {
            Laid::Clipped => Reference::Regulation("433.1.1, Table 4D5"),
            Laid::InInsulation => Reference::Regulation("433.1.1, 523.9, Table 4D5"),
        },
        Code::VoltDrop => Reference::Regulation("525, Appendix 4"),
        Code::Overload => Reference::Regulation("433.1"),
        Code::CircuitsJoined | Code::BorrowedNeutral => Reference::Regulation("314.4"),
        Code::LooseEndLive | Code::LooseEnd => Reference::Regulation("526.5, 416"),
        Code::SheathOutside => Reference::Regulation("526.8"),
        Code::OuterContactLine => Reference::Regulation("559.5.1.206"),
        Code::MetalEnergised => Reference::Regulation("411.3.1.1, 416"),
        Code::NoDisconnection => Reference::Regulation("411.3.2"),
        Code::CpcMisused => Reference::Regulation("514.4.2"),
        Code::CpcOpen => Reference::Regulation("411.3.1.1"),
        Code::TailMissing | Code::TailAdvised => Reference::Regulation("411.4.2"),
        Code::MarkMissing => Reference::Regulation("514.3.2"),
        Code::MarkFalse => Reference::Regulation("514.4, Table 51"),
        Code::CpcUnsleeved => Reference::Regulation("543.3.201"),
        Code::FoldMissing | Code::FoldWrong => Reference::Regulation("134.1.1"),
        Code::UnlikeSizes => Reference::Regulation("526.2"),
        Code::ConductorTrapped => Reference::Regulation("522.8.1"),
        Code::GrommetMissing => Reference::Regulation("522.8.11"),
        Code::ConnectionSlack | Code::InsulationUnderScrew | Code::Crushed | Code::JointHot => {
            Reference::Regulation("526.1")
        }
        // Defects found in the existing installation are recorded.
        Code::EnergisedPastFault => Reference::Regulation("644.1.2"),
        Code::CoverOff => Reference::Regulation("416.2"),
        // A failure is put right and what came before it repeated.
        Code::TestOrder | Code::TestNotRepeated => Reference::Regulation("643.1"),
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
            None => Reference::Practice,
        },
        Code::WorkedLive | Code::PowerOnOpen | Code::Unearthed => Reference::Guidance("EAWR 14, HSG85"),
        Code::TouchedUnproved | Code::BenchUnproved => Reference::Guidance("EAWR 12 to 14, HSG85"),
        Code::OpenedUnlocked | Code::WronglyIdentified | Code::BoardUnready => Reference::Guidance("EAWR 13, HSG85"),
        // What an instrument must be to prove anything.
        Code::WrongInstrument | Code::IndicatorUnreported => Reference::Guidance("HSG85, GS38"),
        Code::PowerOnUnchecked | Code::ResetUntested | Code::EnergisedOntoFault => Reference::Guidance("HSG85"),
    }
}

/// What asks for a stage.
const fn of_stage(stage: Stage) -> Reference {
    match stage {
        Stage::Isolation => Reference::Guidance("EAWR 13, HSG85"),
        Stage::Inspection => Reference::Regulation("642"),
        Stage::Continuity => Reference::Regulation("643.2"),
        Stage::Insulation => Reference::Regulation("643.3"),
        Stage::Polarity | Stage::SupplyPolarity => Reference::Regulation("643.6"),
        Stage::EnergisingChecks => Reference::Guidance("HSG85"),
        Stage::Prediction => Reference::Practice,
        Stage::LoopImpedance => Reference::Regulation("643.7.3"),
        Stage::ResidualDevice => Reference::Regulation("643.8"),
        Stage::FunctionalTest => Reference::Regulation("643.10"),
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    const STAGES: [Stage; 11] = [
        Stage::Isolation,
        Stage::Inspection,
        Stage::Continuity,
        Stage::Insulation,
        Stage::Polarity,
        Stage::EnergisingChecks,
        Stage::Prediction,
        Stage::SupplyPolarity,
        Stage::LoopImpedance,
        Stage::ResidualDevice,
        Stage::FunctionalTest,
    ];

    /// What is cited, number by number.
    fn cited() -> BTreeSet<&'static str> {
        let mut found = BTreeSet::new();
        for code in Code::ALL {
            for laid in [Laid::Clipped, Laid::InInsulation] {
                for stage in STAGES.map(Some).into_iter().chain([None]) {
                    if let Reference::Regulation(it) | Reference::Guidance(it) = of(*code, stage, laid) {
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
        assert_eq!(of(Code::TestMissing, Stage::Insulation), Reference::Regulation("643.3"));
        assert_eq!(of(Code::FigureCopied, Stage::LoopImpedance), Reference::Regulation("643.7.3"));
        assert_eq!(of(Code::StageMissing, Stage::Continuity), Reference::Regulation("643.2"));
        assert_eq!(of(Code::StageMissing, Stage::Isolation), Reference::Guidance("EAWR 13, HSG85"));
    }
}
