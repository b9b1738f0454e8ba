//! The reference behind each code. Regulation numbers are in the numbering of BS 7671:2018+A2:2022, second-hand: the standard's
//! own text was not held. The source of each, or that it is from memory, stands in `trade/facts.md`, section 12.

use super::code::Code;

/// Where a rule comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reference {
    /// Regulations of BS 7671.
    Regulation(&'static str),
    /// Guidance of the Health and Safety Executive.
    Guidance(&'static str),
    /// Common practice, no source.
    Practice,
}

/// The reference behind a code.
pub const fn reference(code: Code) -> Reference {
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
        | Code::PredictionMissing
        | Code::PredictionWrong
        | Code::WorkRedone
        | Code::ResetOntoFault
        | Code::HintTaken => Reference::Practice,
        Code::ShortLineNeutral | Code::ResidualTrip | Code::NeutralSwitched | Code::LampholderLive => {
            Reference::Regulation("132.14")
        }
        Code::CableThin => Reference::Regulation("433.1.1, Table 4D5"),
        Code::VoltDrop => Reference::Regulation("525, Appendix 4"),
        Code::Overload => Reference::Regulation("433.1"),
        Code::CircuitsJoined | Code::BorrowedNeutral => Reference::Regulation("314.4"),
        Code::LooseEndLive | Code::LooseEnd | Code::SheathOutside => Reference::Regulation("526.8"),
        Code::OuterContactLine => Reference::Regulation("559.5.1.206"),
        Code::ShortLineEarth | Code::MetalEnergised | Code::NoDisconnection => Reference::Regulation("411.3.2"),
        Code::CpcMisused => Reference::Regulation("514.4.2"),
        Code::CpcOpen => Reference::Regulation("411.3.1.1"),
        Code::TailMissing | Code::TailAdvised => Reference::Regulation("411.4.2"),
        Code::MarkMissing | Code::MarkFalse => Reference::Regulation("514.3.2"),
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
        Code::WorkedLive | Code::PowerOnOpen => Reference::Guidance("EAWR 14, HSG85"),
        // The figures themselves: insulation Table 64, loop impedance Table 41.3, residual current devices 643.8.
        Code::TestMissing
        | Code::TestIncomplete
        | Code::TestOrder
        | Code::TestNotRepeated
        | Code::InstrumentSetWrong
        | Code::FigureWrong
        | Code::FigureUnread
        | Code::FigureCopied
        | Code::JudgementWrong => Reference::Regulation("643.1 to 643.8"),
        Code::FunctionUntested => Reference::Regulation("643.10"),
        Code::StageMissing
        | Code::WrongInstrument
        | Code::IndicatorUnreported
        | Code::LinkLeftIn
        | Code::OpenedUnlocked
        | Code::TouchedUnproved
        | Code::WronglyIdentified
        | Code::PowerOnUnchecked
        | Code::ResetUntested
        | Code::EnergisedOntoFault => Reference::Guidance("HSG85, GS38"),
    }
}
