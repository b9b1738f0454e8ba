//! The finding codes, the criterion each belongs to, and what weights mean.

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Weight {
    /// Good practice: said on the sheet, and costs nothing.
    Advice,
    /// Breaks a rule of the edition in force.
    Major,
    /// Could kill, or burn the house down.
    Critical,
}

/// What marks are given for.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    strum::VariantNames,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Criterion {
    /// Each control does its job.
    Function,
    /// Line and neutral are where they belong.
    Polarity,
    /// Everything is earthed that must be.
    Earthing,
    /// Every conductor can be told by its colour or mark.
    Identification,
    /// Every end is well made off and held.
    Terminations,
    /// Boxes, sheath and grommets keep what they should inside.
    Containment,
    /// The cable does what it was chosen for, and the reason is the right one.
    CableChoice,
    /// It was done safely.
    SafeWorking,
    /// The test sheet says what was read, and judges it rightly.
    TestResults,
    /// Every switch was worked last, with the power on.
    FunctionalTest,
    /// The learner knew what would happen.
    Prediction,
    /// What was read and seen led to the fault, and it was named.
    Diagnosis,
    /// What had no mark was found out and named.
    Naming,
    /// Everything that is wrong in the work was found, and nothing else.
    Observation,
    /// It was right the first time.
    Rework,
    /// It was done without a hint.
    Hints,
}

impl Criterion {
    /// Every criterion, in the order of the sheet.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which reports and the catalogue know it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

impl Weight {
    /// The word in reports.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

macro_rules! codes {
    ($($(#[doc = $doc:literal])+ $name:ident = $word:literal in $criterion:ident,)+) => {
        /// What can be found. The word stands in reports, in the names of fault cases and in the catalogue.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code { $($(#[doc = $doc])+ $name,)+ }

        impl Code {
            /// Every code, in the order of reports.
            pub const ALL: &[Self] = &[$(Self::$name,)+];

            /// The word of the code.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$name => $word,)+ }
            }

            /// The criterion it counts against.
            pub const fn criterion(self) -> Criterion {
                match self { $(Self::$name => Criterion::$criterion,)+ }
            }
        }
    };
}

codes! {
    /// A lamp does not do what its switches ask.
    ControlWrong = "control-wrong" in Function,
    /// A fan lacks its permanent line, does not start with its light, or is not dead with its isolator off.
    FanWrong = "fan-wrong" in Function,
    /// Ends are still free, and what follows from that is not listed.
    WorkUnfinished = "work-unfinished" in Function,
    /// A one-way control is on with the rocker up.
    RockerInverted = "rocker-inverted" in Function,
    /// Two cores of one cable do the same job.
    CoresParallel = "cores-parallel" in Function,
    /// A chosen cable has fewer insulated conductors than its lights need, however they are joined.
    CoresFew = "cores-few" in Function,
    /// Two cores of different jobs stand in each other's terminals.
    CoresExchanged = "cores-exchanged" in Polarity,
    /// Line and neutral meet in some position.
    ShortLineNeutral = "short-line-neutral" in Polarity,
    /// More load than its device carries.
    Overload = "overload" in Polarity,
    /// A residual current opens a device in some position.
    ResidualTrip = "residual-trip" in Polarity,
    /// Two circuits are joined.
    CircuitsJoined = "circuits-joined" in Polarity,
    /// A lamp takes its line from one circuit and its neutral from another.
    BorrowedNeutral = "borrowed-neutral" in Polarity,
    /// A switch opens a neutral.
    NeutralSwitched = "neutral-switched" in Polarity,
    /// A lampholder is energised while its lamp is off.
    LampholderLive = "lampholder-live" in Polarity,
    /// An end in no terminal is energised in some position.
    LooseEndLive = "loose-end-live" in Polarity,
    /// Line and neutral stand in each other's terminals of a socket-outlet.
    SocketReversed = "socket-reversed" in Polarity,
    /// A fuse is in a neutral.
    FuseInNeutral = "fuse-in-neutral" in Polarity,
    /// The outer contact of a screw lampholder is on the line.
    OuterContactLine = "outer-contact-line" in Polarity,
    /// Neutral and earth stand in each other's terminals, so that load current comes back by the earth.
    NeutralEarthExchanged = "neutral-earth-exchanged" in Earthing,
    /// What a load takes comes back by the earth and not by its neutral.
    LoadThroughEarth = "load-through-earth" in Earthing,
    /// Neutral and earth are joined beyond the supply.
    NeutralEarthJoined = "neutral-earth-joined" in Earthing,
    /// Line meets earth in some position.
    ShortLineEarth = "short-line-earth" in Earthing,
    /// Metal that can be touched is energised.
    MetalEnergised = "metal-energised" in Earthing,
    /// No device opens in time when line touches metal.
    NoDisconnection = "no-disconnection" in Earthing,
    /// A protective conductor stands where line or neutral is.
    CpcMisused = "cpc-misused" in Earthing,
    /// A protective conductor is not continuous to the earth bar.
    CpcOpen = "cpc-open" in Earthing,
    /// A metal plate or box is earthed through its screws alone, where that is not to be relied on.
    TailMissing = "tail-missing" in Earthing,
    /// A metal box is earthed through its plate's screws alone, where that is allowed.
    TailAdvised = "tail-advised" in Earthing,
    /// An end does not say what it is.
    MarkMissing = "mark-missing" in Identification,
    /// An end says it is what it is not.
    MarkFalse = "mark-false" in Identification,
    /// A bare protective conductor has no green-and-yellow sleeve.
    CpcUnsleeved = "cpc-unsleeved" in Identification,
    /// A screw was not tightened.
    ConnectionSlack = "connection-slack" in Terminations,
    /// An end is in no terminal.
    LooseEnd = "loose-end" in Terminations,
    /// Bare copper shows outside a terminal.
    BareCopperShowing = "bare-copper-showing" in Terminations,
    /// A terminal bites on insulation.
    InsulationUnderScrew = "insulation-under-screw" in Terminations,
    /// An end is not folded back where its terminal asks for it.
    FoldMissing = "fold-missing" in Terminations,
    /// An end is folded back where it must not be.
    FoldWrong = "fold-wrong" in Terminations,
    /// The strippers cut into the copper.
    Nicked = "nicked" in Terminations,
    /// A screw was driven through a conductor.
    Crushed = "crushed" in Terminations,
    /// A screw rests on the thicker of two conductors.
    UnlikeSizes = "unlike-sizes" in Terminations,
    /// A terminal gets hot at its circuit's load.
    JointHot = "joint-hot" in Terminations,
    /// Cores run outside the enclosure without their sheath.
    SheathOutside = "sheath-outside" in Containment,
    /// A cable comes through the bare edge of a metal box.
    GrommetMissing = "grommet-missing" in Containment,
    /// A back box is shallower than its accessory asks.
    BoxTooShallow = "box-too-shallow" in Containment,
    /// A plate has caught a conductor.
    ConductorTrapped = "conductor-trapped" in Containment,
    /// No cable was chosen where one is to be.
    CableUnchosen = "cable-unchosen" in CableChoice,
    /// A chosen cable carries less than its device lets through.
    CableThin = "cable-thin" in CableChoice,
    /// Too much voltage is lost on the way to a lamp, for want of copper in a chosen cable.
    VoltDrop = "volt-drop" in CableChoice,
    /// The reason given for a cable is not what decides.
    ReasonWrong = "reason-wrong" in CableChoice,
    /// A plate or cover is off at hand-in.
    CoverOff = "cover-off" in SafeWorking,
    /// A stage that the exercise asks for was not done.
    StageMissing = "stage-missing" in SafeWorking,
    /// Worked on something that was on.
    WorkedLive = "worked-live" in SafeWorking,
    /// Opened a place whose devices were off but not locked.
    OpenedUnlocked = "opened-unlocked" in SafeWorking,
    /// Touched a conductor before the place was proved dead.
    TouchedUnproved = "touched-unproved" in SafeWorking,
    /// Named the devices of a place, and missed one that feeds it.
    WronglyIdentified = "wrongly-identified" in SafeWorking,
    /// Went to switch on with a cover off.
    PowerOnOpen = "power-on-open" in SafeWorking,
    /// Went to switch on with something outstanding.
    PowerOnUnchecked = "power-on-unchecked" in SafeWorking,
    /// Went to reset a device without a dead test since it opened.
    ResetUntested = "reset-untested" in SafeWorking,
    /// Took the earthing conductor off, or went to switch on without it, with something not off and locked.
    Unearthed = "unearthed" in SafeWorking,
    /// Went to open something on a training board that had its supply, not proved dead with the plug in hand.
    BenchUnproved = "bench-unproved" in SafeWorking,
    /// Went to open the board with second sources not looked for, or beside live tails with no supervisor present.
    BoardUnready = "board-unready" in SafeWorking,
    /// Energised onto a fault.
    EnergisedOntoFault = "energised-onto-fault" in SafeWorking,
    /// Offered a voltage stick or a multimeter as proof of dead.
    WrongInstrument = "wrong-instrument" in SafeWorking,
    /// A test link was still in when the power came on, or at hand-in.
    LinkLeftIn = "link-left-in" in SafeWorking,
    /// The learner's own lock is still on a device at hand-in.
    LockLeftOn = "lock-left-on" in SafeWorking,
    /// A lamp is out of its holder at hand-in.
    LampLeftOut = "lamp-left-out" in SafeWorking,
    /// Something was wrong before the work began, and nobody was told.
    FaultUnreported = "fault-unreported" in SafeWorking,
    /// The power came on past something dangerous that was there before, and nobody was told.
    EnergisedPastFault = "energised-past-fault" in SafeWorking,
    /// The voltage indicator did not work, and nobody was told.
    IndicatorUnreported = "indicator-unreported" in SafeWorking,
    /// A test was read with the circuit not as it asks.
    TestIncomplete = "test-incomplete" in TestResults,
    /// A test that the exercise asks for was not made, or not written down.
    TestMissing = "test-missing" in TestResults,
    /// A test was begun before one that comes first.
    TestOrder = "test-order" in TestResults,
    /// Work was done after a test that it may have touched, and the test not repeated.
    TestNotRepeated = "test-not-repeated" in TestResults,
    /// A test was made with the instrument set wrong for it.
    InstrumentSetWrong = "instrument-set-wrong" in TestResults,
    /// A figure on the sheet is not what was read.
    FigureWrong = "figure-wrong" in TestResults,
    /// A figure on the sheet was never read.
    FigureUnread = "figure-unread" in TestResults,
    /// A figure on the sheet is the published limit and not what was read.
    FigureCopied = "figure-copied" in TestResults,
    /// A figure from the card or from a reading is given another source, or Ze and Zdb are taken for each other.
    FigureSource = "figure-source" in TestResults,
    /// A figure is the end of the range, and lacks the sign that says there is more.
    FigureSign = "figure-sign" in TestResults,
    /// The power came on over insulation that had been read below the limit.
    InsulationLow = "insulation-low" in TestResults,
    /// A result was called acceptable and is not, or the other way round.
    JudgementWrong = "judgement-wrong" in TestResults,
    /// Not every switch was worked in every position with the power on, last of all.
    FunctionUntested = "function-untested" in FunctionalTest,
    /// No prediction was made.
    PredictionMissing = "prediction-missing" in Prediction,
    /// A prediction was wrong.
    PredictionWrong = "prediction-wrong" in Prediction,
    /// Nothing was said to be wrong, nor that nothing is.
    DiagnosisMissing = "diagnosis-missing" in Diagnosis,
    /// What was named is not what is wrong.
    DiagnosisWrong = "diagnosis-wrong" in Diagnosis,
    /// What was named is what is wrong, and the readings do not show it.
    DiagnosisUnproved = "diagnosis-unproved" in Diagnosis,
    /// Something without a mark was given no name.
    NameMissing = "name-missing" in Naming,
    /// Something without a mark is called what it is not.
    NameWrong = "name-wrong" in Naming,
    /// Something was named rightly without a reading that tells it.
    NameGuessed = "name-guessed" in Naming,
    /// Something is wrong in the work as it was found, and it was not said.
    ObservationMissed = "observation-missed" in Observation,
    /// What is wrong was said, at another point of the same place.
    ObservationMisplaced = "observation-misplaced" in Observation,
    /// Something was said to be wrong that is not.
    ObservationInvented = "observation-invented" in Observation,
    /// Work was done over again after a failed test or a trip.
    WorkRedone = "work-redone" in Rework,
    /// Power was put back onto a fault that had opened a device before.
    ResetOntoFault = "reset-onto-fault" in Rework,
    /// A hint was asked for.
    HintTaken = "hint-taken" in Hints,
}

impl Code {
    /// Whether it is something that was not done: it is still to be done when what kept it from being done is put right.
    pub fn is_left_undone(self) -> bool {
        matches!(
            self,
            Self::StageMissing
                | Self::TestMissing
                | Self::FunctionUntested
                | Self::PredictionMissing
                | Self::DiagnosisMissing
                | Self::NameMissing
        )
    }
}
