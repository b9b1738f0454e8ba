//! The keys of what has no word of its own: acts, stages, checks, levers, marks; and the cautions.
//!
//! Each list is made together with its look-up, so that neither can lack what the other has.

use super::Wording;
use crate::{
    advice::Carries,
    attempt::ActKind,
    circuit::{Glow, HazardKind},
    exercise::{Edition, FaultKind, Stage},
    marking::{Outcome, Weight},
    trade::{
        cable::{CableKind, CrossSection},
        carrying::Laid,
        colour::{Colour, Letter, Mark},
    },
    work::{Check, Fault, Flaw, Power, Reason, Test},
};

macro_rules! keys {
    ($(#[doc = $doc:literal] $list:ident $look_up:ident($of:ident) { $($variant:ident = $key:literal,)+ })+) => {$(
        /// Every key of that table, for the tests that walk it.
        pub const $list: &[($of, &str)] = &[$(($of::$variant, $key),)+];

        #[doc = $doc]
        pub const fn $look_up(of: $of) -> &'static str {
            match of { $($of::$variant => $key,)+ }
        }
    )+};
}

keys! {
    /// The key of an unsafe act.
    ACT_KEYS act_key(ActKind) {
        WorkedLive = "act-worked-live",
        OpenedUnlocked = "act-opened-unlocked",
        TouchedUnproved = "act-touched-unproved",
        WronglyIdentified = "act-wrongly-identified",
        PowerOnOpen = "act-power-on-open",
        PowerOnUnchecked = "act-power-on-unchecked",
        ResetUntested = "act-reset-untested",
        Unearthed = "act-unearthed",
        BenchUnproved = "act-bench-unproved",
        BoardUnready = "act-board-unready",
        WrongInstrument = "act-wrong-instrument",
    }
    /// The key of what a conductor is for.
    CARRIES_KEYS carries_key(Carries) {
        PermanentLine = "carries-permanent-line",
        Strapper = "carries-strapper",
        SwitchedLine = "carries-switched-line",
        Neutral = "carries-neutral",
    }
    /// The key of a stage's name.
    STAGE_KEYS stage_key(Stage) {
        Isolation = "stage-isolation",
        Inspection = "stage-inspection",
        Continuity = "stage-continuity",
        Insulation = "stage-insulation",
        Polarity = "stage-dead-polarity",
        SupplyPolarity = "stage-supply-polarity",
        LoopImpedance = "stage-loop-impedance",
        ResidualDevice = "stage-residual-device",
        EnergisingChecks = "stage-energising-checks",
        Prediction = "stage-prediction",
        Diagnosis = "stage-diagnosis",
        Naming = "stage-naming",
        Observations = "stage-observations",
        FunctionalTest = "stage-functional-test",
    }
    /// The key of a line of the test sheet.
    TEST_KEYS test_key(Test) {
        R1R2 = "test-r1-r2",
        R2 = "test-r2",
        InsulationLineNeutral = "test-insulation-line-neutral",
        InsulationLineEarth = "test-insulation-line-earth",
        InsulationNeutralEarth = "test-insulation-neutral-earth",
        Polarity = "test-polarity",
        SupplyPolarity = "test-supply-polarity",
        Zs = "test-zs",
        ZsSum = "test-zs-sum",
        ZdbSum = "test-zdb-sum",
        ResidualDevice = "test-residual-device",
    }
    /// The key of what may be reported.
    FAULT_KEYS fault_key(Fault) {
        Chart = "fault-chart",
        Indicator = "fault-indicator",
        Wiring = "fault-wiring",
    }
    /// The key of what is said to be wrong.
    FLAW_KEYS flaw_key(Flaw) {
        LooseScrew = "flaw-loose-screw",
        LooseEnd = "flaw-loose-end",
        BareCopper = "flaw-bare-copper",
        InsulationCaught = "flaw-insulation-caught",
        Fold = "flaw-fold",
        Nicked = "flaw-nicked",
        Crushed = "flaw-crushed",
        UnlikeSizes = "flaw-unlike-sizes",
        SleeveMissing = "flaw-sleeve-missing",
        SleeveWrong = "flaw-sleeve-wrong",
        CpcOpen = "flaw-cpc-open",
        CpcMisused = "flaw-cpc-misused",
        TailMissing = "flaw-tail-missing",
        GrommetMissing = "flaw-grommet-missing",
        SheathShort = "flaw-sheath-short",
        BoxShallow = "flaw-box-shallow",
        CoreTrapped = "flaw-core-trapped",
        Crossed = "flaw-crossed",
        WrongTerminal = "flaw-wrong-terminal",
        NeutralSwitched = "flaw-neutral-switched",
        CircuitsJoined = "flaw-circuits-joined",
    }
    /// The key of an energising check.
    CHECK_KEYS check_key(Check) {
        NobodyAtWork = "check-nobody-at-work",
        PeopleTold = "check-people-told",
        SecondSources = "check-second-sources",
        SupervisorPresent = "check-supervisor-present",
    }
    /// The key of a fault that may be hidden.
    SUSPECT_KEYS suspect_key(FaultKind) {
        Open = "suspect-open",
        HighResistance = "suspect-high-resistance",
        Short = "suspect-short",
        LowInsulation = "suspect-low-insulation",
        Exchanged = "suspect-exchanged",
        Nothing = "suspect-nothing",
    }
    /// The key of a reason for choosing a cable.
    REASON_KEYS reason_key(Reason) {
        Cores = "job-cores",
        Current = "job-current",
        VoltDrop = "job-volt-drop",
        Disconnection = "job-disconnection",
        Any = "job-any",
        Usual = "job-usual",
    }
    /// The key of a kind of cable.
    CABLE_KEYS cable_key(CableKind) {
        TwinEarth = "cable-twin-earth",
        TwinBrownEarth = "cable-twin-brown-earth",
        ThreeCoreEarth = "cable-three-core-earth",
        OldTwinEarth = "cable-old-twin-earth",
        OldTwinRedEarth = "cable-old-twin-red-earth",
        OldThreeCoreEarth = "cable-old-three-core-earth",
        PendantFlex = "cable-pendant-flex",
    }
    /// The key of a way of laying a cable.
    LAID_KEYS laid_key(Laid) {
        Clipped = "laid-clipped",
        InInsulation = "laid-in-insulation",
    }
    /// The key of how a device's lever stands.
    POWER_KEYS power_key(Power) {
        Off = "power-off",
        On = "power-on",
        Tripped = "power-tripped",
    }
    /// The key of a lamp's glow.
    GLOW_KEYS glow_key(Glow) {
        Lit = "glow-lit",
        Dim = "glow-dim",
        Off = "glow-off",
    }
    /// The key of an electrical hazard. What follows `hazard-` is its code in files.
    HAZARD_KEYS hazard_key(HazardKind) {
        ShortLineNeutral = "hazard-short-line-neutral",
        Overload = "hazard-overload",
        ShortLineEarth = "hazard-short-line-earth",
        ResidualCurrent = "hazard-residual-trip",
        MetalEnergised = "hazard-metal-energised",
        LampholderLive = "hazard-lampholder-live",
        LooseEndLive = "hazard-loose-end-live",
        NoDisconnection = "hazard-no-disconnection",
        Sympathy = "hazard-sympathy",
        DimWhenOff = "hazard-dim-when-off",
        FanLive = "hazard-fan-live",
    }
    /// The key of an outcome.
    OUTCOME_KEYS outcome_key(Outcome) {
        Pass = "outcome-pass",
        NotYet = "outcome-not-yet",
        Refer = "outcome-refer",
    }
    /// The key of what an outcome means.
    OUTCOME_MEANS_KEYS outcome_means_key(Outcome) {
        Pass = "means-pass",
        NotYet = "means-not-yet",
        Refer = "means-refer",
    }
    /// The key of a weight.
    WEIGHT_KEYS weight_key(Weight) {
        Critical = "weight-critical",
        Major = "weight-major",
        Advice = "weight-advice",
    }
    /// The key of an edition of the standard.
    EDITION_KEYS edition_key(Edition) {
        A2of2022 = "edition-a2of2022",
        A4of2026 = "edition-a4of2026",
    }
    /// The key of what the foot of a sheet says about the edition of its references.
    REFERENCES_KEYS references_key(Edition) {
        A2of2022 = "references-a2of2022",
        A4of2026 = "references-a4of2026",
    }
}

/// A colour's name.
pub fn colour(wording: &Wording, colour: Colour) -> String {
    wording.say(&format!("colour-{}", colour.word()), &[])
}

/// A cable's kind and size.
pub fn cable(wording: &Wording, kind: CableKind, live: CrossSection) -> String {
    let kind = wording.say(cable_key(kind), &[]);
    wording.say("cable-of", &[("kind", &kind), ("mm2", &format!("{:?}", live.mm2()))])
}

/// What an end is marked with.
pub fn mark(wording: &Wording, mark: Mark) -> String {
    let of_colour = |key: &str, it: Colour| wording.say(key, &[("colour", &colour(wording, it))]);
    match mark {
        Mark::Sleeve(it) => of_colour("mark-sleeve", it),
        Mark::Tape(it) => of_colour("mark-tape", it),
        Mark::Letter(Letter::L) => wording.say("mark-letter-l", &[]),
        Mark::Letter(Letter::N) => wording.say("mark-letter-n", &[]),
        Mark::Letter(Letter::PE) => wording.say("mark-letter-pe", &[]),
    }
}

/// The cautions in the order they are read: as many as the catalogue has.
pub fn cautions(wording: &Wording) -> Vec<String> {
    (1..=u8::MAX)
        .map(|it| format!("caution-{it}"))
        .take_while(|it| wording.has(it))
        .map(|it| wording.say(&it, &[]))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_said_as_the_trade_says_them() {
        let wording = Wording::british();
        assert_eq!(mark(&wording, Mark::Sleeve(Colour::Brown)), "brown sleeve");
        assert_eq!(mark(&wording, Mark::Tape(Colour::GreenYellow)), "green-and-yellow tape");
        assert_eq!(mark(&wording, Mark::Letter(Letter::N)), "letter N");
    }

    /// trade/facts.md section 10 lists ten.
    #[test]
    fn there_are_ten_cautions() {
        assert_eq!(cautions(&Wording::british()).len(), 10);
    }
}
