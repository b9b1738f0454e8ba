# The mark sheet in words. The findings' own sentences are in findings.ftl.

# Heading.
report-for = { $learner }: { $title } ({ $place })
report-outcome = { $outcome }: { $marks } of { $out-of } marks
report-outcome-unmet = { $outcome }: { $marks } of { $out-of } marks, and { $unmet }
report-unmet-too = Also not met: { $unmet }.
# The rule of a pass.
report-needs = A pass needs { $needed } of { $out-of } marks, every control working and every stage done. Any of these bars it: { $bars }; anything critical, found or done.
report-needs-halves = A pass needs { $needed } of { $out-of } marks, at least half of each of these ({ $criteria }), every control working and every stage done. Any of these bars it: { $bars }; anything critical, found or done.
bar-loose = a line, neutral or cpc loose
bar-cpc = a cpc missing or misplaced
bar-false-mark = a false mark
bar-copper = copper showing out of a terminal
bar-cover-off = a cover left off
bar-reading-not-taken = a reading not taken
bar-insulation-low = insulation under 1 MΩ energised
# A line of it that was not met. $location: where; $place: what, with where; $number: of the finding.
# What a touch before the proof lacked of it.
report-lacked = { $what } At that moment: { $why }.
unmet-critical = something critical stands (finding { $number })
unmet-critical-act = something critical was done (finding { $number })
unmet-critical-several = something critical stands (findings { $numbers })
unmet-critical-act-several = something critical was done (findings { $numbers })
unmet-loose-line = a line at the { $location } is loose
unmet-loose-neutral = a neutral at the { $location } is loose
unmet-loose-protective = a cpc at the { $location } is loose
unmet-cpc = a cpc at the { $location } is missing or misplaced
unmet-false-mark = a mark at the { $location } is false
unmet-copper = copper shows at the { $location }
unmet-cover-off = the cover is off at the { $location }
unmet-reading-not-taken = a reading was not taken as asked: { $place }
unmet-insulation-low = the power came on over insulation under 1 MΩ: { $place }
unmet-unfinished = the work is not finished
unmet-left-lock = your own lock is still on { $place }
unmet-left-lamp = the lamp is out of its holder: { $place }
unmet-function = { $place } does not do its job
unmet-stage = a stage is not done: { $place }
unmet-record = too many figures are wrong
unmet-half = { $criterion } has less than half: { $marks } of { $out-of }
unmet-marks = a pass needs { $needed }
unmet-not-handed-in = it is not handed in yet
means-pass = What was asked for works, is safe as it stands, and was done safely.
means-pass-after-a-stop = What was asked for works and is safe as it stands; something you were about to do was stopped.
means-pass-inspected = What is wrong in this work was found, and its list can be trusted. What stands in it still has to be put right.
means-not-yet-inspected = The list is not one to be trusted yet: something was passed over, or is not so.
means-not-yet = Something asked for is missing, does not work or is not made well enough.
means-not-yet-hazard = What is named above can become dangerous, even if everything works today. No assessor passes it, whatever the marks.
means-not-yet-after-an-act = Something dangerous was done. In practice it is told and counted; in set work it refers the whole piece of work.
means-refer = Something dangerous is still there, or was done. Talk it over with your tutor before the next attempt.
report-observed = You found: { $observed }.
report-observation = { $flaw }, { $place }
report-half-wired = { $percent } per cent of the ends are in terminals; workmanship is credited for that much.
report-sought-no-further = The search for causes reached its limit and stopped: what stands here as a cause of its own may follow from another.
report-hints = Hints asked for: { $count }.
report-receipt = Receipt of what was handed in (SHA-256 of the file): { $receipt }
report-receipt-code = In short, to be compared: { $code }
report-practice-record = This is a record of practice, not evidence of competence.
report-nothing-found = Nothing found.
report-criterion = { $criterion }: { $marks } of { $out-of }
report-criterion-not-awarded = { $criterion }: { $marks } of { $out-of }; { $number } not awarded separately
outcome-pass = Pass
outcome-not-yet = Not yet
outcome-refer = Refer
criterion-function = function
criterion-polarity = polarity
criterion-earthing = earthing
criterion-identification = identification
criterion-terminations = terminations
criterion-containment = boxes and sheath
criterion-cable-choice = choice of cable
criterion-safe-working = safe working
criterion-test-results = test results
criterion-functional-test = functional test
criterion-prediction = prediction
criterion-diagnosis = diagnosis
criterion-naming = finding out which is which
criterion-observation = observations
criterion-rework = right the first time
criterion-hints = without a hint

# A finding.
report-finding = { $number }. { $weight }: { $what }
report-finding-costs = { $number }. { $weight }, { $lost } marks: { $what }
report-finding-costs-one = { $number }. { $weight }, 1 mark: { $what }
report-harm = What it would do: { $harm }
report-shown = Shown by: { $shown }
report-arose = Arose: { $when }
report-counted = Counted: { $counted }
report-figures = Figures: { $figures }
figures-read-and-written = { $read } read, { $written } written
counted-once = once: { $times }
counted-times = { $count } times: { $times }
counted-time = step { $number }, { $minutes } min { $seconds } s in ({ $place }; { $circuits })
counted-step = step { $number } ({ $place }; { $circuits })
counted-more = { $count } more
report-repair = To put it right: { $repair }
report-reference = Reference: { $reference }
report-follows = It follows from { $number }; put that right and this goes too.
report-follows-undone = It follows from { $number }; put that right, and then this can be done.
report-before = It was so before you came: it costs nothing.
report-capped = It would cost more, but no more marks were left under its heading.
report-hidden = Another fault hides it: it shows once that is put right.
weight-critical = critical
weight-major = major
weight-advice = advice
job-line = a line
job-neutral = a neutral
job-protective = a protective conductor
job-tripped = a device had tripped
job-wants-link = It needs line and cpc linked at the board, a reading at each of your places, and the switch closed where line comes only through it.
job-wants-closed = It needs the lamps out, and from line each switch closed in turn.
job-wants-lamps-out = It needs the lamp out, and a reading in each position of its switches.
job-test-failed = a test had failed
job-cores = one of these with fewer insulated conductors could not do it
job-current = a thinner one of these would not carry what the device lets through
job-volt-drop = a thinner one of these would lose too much voltage on the way to the lamp
job-disconnection = with a thinner one of these a fault would not be cut off in time
job-any = any of these would do
job-usual = it is the one always used

# What would have happened. $case: switches and devices; $way: the way of the current, place by place.
report-would-have = What would have happened: { $what }
would-way = { $before }, then { $next }
would-open = With { $case }, about { $amps } A would have flowed this way: { $way }. Then { $opened }.
would-open-within = { $device } trips within { $within } s
would-open-between = { $device } trips after { $after } s at the soonest and { $within } s at the latest
would-touch = With { $case }, the current comes this way: { $way }, then a hand, then earth. That is { $volts } V across the body, and about { $milliamps } mA through it. To touch it is never safe.
would-touch-first-fault = If, with { $case }, a line came against this metal, the way would be: { $way }, then a hand, then earth. That is { $volts } V across the body, and about { $milliamps } mA through it. To touch it is never safe.
would-touch-opens = Nothing trips until somebody is part of the path: the shock comes first; then { $opened }.
would-touch-stays = Nothing trips on so little current: it goes on for as long as the touch does.
would-heat = With { $case }, this joint makes { $watts } W of heat and loses { $volts } V, behind a closed plate, for as long as the load is on.

# What shows it.
shown-by-eye = looking at it as it stands
shown-in-action = step { $number } of the work
shown-in-case = { $case }
case-switch = { $switch } { $rocker }
case-device-off = { $devices } off
case-lamp-out = the lamp out of { $lamps }
case-everything = everything on

# A prediction and where a stage stands on the sheet.
place-prediction = prediction { $number }
place-hint = hint { $number }
place-test = { $test }, { $device }

# What would put it right. $end, $to: places in words.
repair-move = put the { $core } into: { $to }
repair-move-strip = strip the { $core } and put it into: { $to }
repair-move-reach = take more of the sheath back, so that the { $core } reaches, and put it into: { $to }
repair-move-short = renew the cable, since the { $core } was cut too short and there is not enough sheath left to take back, and put its core into: { $to }
repair-loosen = take out the { $end }
repair-mark = mark the { $end } with a { $mark }
repair-mark-instead = take the mark off the { $end } and mark it with a { $mark } instead
repair-unmark = take the mark off the { $end }
repair-tighten = tighten: { $to }
repair-prepare = make the { $end } off afresh, { $mm } mm bare, straight and whole
repair-prepare-folded = make the { $end } off afresh, { $mm } mm bare and folded back
repair-free = free the { $end } from behind the plate and make good its insulation
repair-sheath = bring the cable further in, so that its sheath ends inside: { $at }
repair-grommet = fit a grommet: { $at }
repair-slacken = loosen the screw: { $to }
repair-refit = take { $mm2 } mm² for the { $cable }
repair-take-links = take every test link out
repair-tail = fit a green-and-yellow tail between: { $from }; and: { $to }

# References.
edition-a2of2022 = BS 7671:2018+A2:2022
edition-a4of2026 = BS 7671:2018+A4:2026
references-a2of2022 = References are to BS 7671:2018+A2:2022.
report-format-one = Begun in format 1, which had no words for it: an earth counts as shown where it really was one, and naming what feeds a place is enough; the board counts as open while the devices of the work are locked.
references-a4of2026 = References are to BS 7671:2018+A4:2026: numbers as in A2:2022; not yet confirmed against A4.
reference-regulation = BS 7671, { $number }
reference-guidance = { $number }
reference-practice = common practice

# What stands in each combination of positions.
states-row = { $case }: { $lamps }
states-class = { $count } combinations, the first of them { $row }
states-lamp = { $lamp } { $glow }
states-tripped = ; trips: { $devices }
states-may-trip = ; may trip: { $devices }
states-hazard = ; { $hazard } ({ $place })
glow-lit = lit
glow-dim = dim
glow-off = off
hazard-short-line-neutral = line and neutral meet
hazard-overload = more load than the device carries
hazard-short-line-earth = line and earth meet
hazard-residual-trip = line and neutral currents differ
hazard-metal-energised = metal that can be touched is energised
hazard-lampholder-live = the lampholder is energised while its lamp is off
hazard-loose-end-live = a loose end is energised
hazard-sympathy = the device trips on another circuit's current, which comes to it through a neutral that touches earth
hazard-dim-when-off = the lamp is fed through another load while its switch is off
hazard-fan-live = a line of the fan is energised with its isolator off
hazard-no-disconnection = no device would trip in time if a line touched this metal

# A hint. $criterion: as in the heading.
hint-so-far-right = Nothing is wrong in the wiring that you have done so far. Go on with what is still to do.
hint-next = Nothing is wrong so far. Next, { $joins }. { $why }
join-sleeved = slide a { $sleeve } on and { $joins }
# What a conductor is for. cpc: none of these, it is a protective conductor.
carries-permanent-line = It brings the line that no switch interrupts.
carries-strapper = It is a strapper: it runs between two switches, and is live in some of their positions.
carries-switched-line = It is the switched line: live while the light is on.
carries-neutral = It is the neutral, by which the current goes back.
carries-cpc = It is the protective conductor: should a live part touch metal, the current goes back by it and the device trips.
hint-find-out = Nothing is wrong so far. Next, find out which is which with the low-resistance meter: from the far end by the long lead, or with two cores linked there. Then say it.
hint-look = Look again at: { $place }. It is a matter of { $criterion }. Ask once more to hear what is wrong.
hint-wrong = { $what }

cable-of = { $kind }, { $mm2 } mm²

# When it arose.
arose-at = at step { $number } of the work
arose-with = { $when }: { $step }
arose-at-time = at step { $number } of the work, { $minutes } min { $seconds } s in

# What was done well.
report-well = Done well
well-function = Every lamp does what its switches ask, in every combination of positions.
well-polarity = Line and neutral are where they belong throughout.
well-earthing = Everything that must be earthed is, and a first fault would be cleared in time.
well-identification = Whoever opens this next can tell every conductor by its colour or mark.
well-terminations = Every end is held as it should be.
well-cable-choice = Every cable was chosen for what it has to do, and for the reason that decides.
well-containment = Sheath, grommets and boxes keep inside what belongs inside.
well-safe-working = Every step was in its safe order, and no unsafe act was stopped.
well-test-results = The test sheet says what was read and judges it rightly.
well-functional-test = Every switch was worked in every position that matters, last of all.
# A hidden fault and the search for it.
suspect-open = broken: { $place }
suspect-high-resistance = a poor joint, too much resistance: { $place }
suspect-short = touching: { $place } and { $other }
suspect-low-insulation = damaged insulation: { $place } and { $other }
suspect-exchanged = exchanged: { $place } and { $other }
suspect-nothing = nothing is wrong
search-heading = What your readings told
search-real = What is wrong: { $fault }.
search-no-reading = No reading was taken.
search-reading = { $number }. From { $place } to { $other } it read { $read }.
search-seen = With the covers off it could be seen which end stands in which terminal: { $before } faults fitted before it, { $after } after.
search-known = By then only one fault was left: there was nothing more to find.
search-nothing-new = This reading could not tell you anything new, whatever it showed.
search-worth = { $before } faults fitted before it, { $after } after. It was worth { $worth } bits (1 bit halves what is possible).
search-best = From { $place } to { $other } would have been worth { $worth }.
search-best-insulation = Insulation from { $place } to { $other } would have been worth { $worth }.

well-diagnosis = What was read and seen led to the fault, and it was named.
well-prediction = The wiring was understood before the power came on.
well-naming = Everything without a mark was found out by readings and named before it was joined.
well-observation = Everything that is wrong was found where it is, and nothing was made up.
well-rework = Nothing had to be done over again.
well-hints = No hint was asked for.
well-proved-dead = Every place was locked off and proved dead before a conductor was touched.
well-fault-reported = Something was wrong before you came, and you reported it.
well-nothing-opened = Power came on and no device tripped.
well-foreseen = Every prediction was made before the power came on, and came true.

# The sheet as a page.
page-title = Mark sheet: { $learner }, { $title }
page-heading = Mark sheet
page-learner = Learner
page-started = Begun
page-edition = References to
page-asked = What was asked
page-criterion = Criterion
page-not-awarded = { $criterion } ({ $number } not awarded separately)
page-marks = Marks
page-out-of = Out of
# The test sheet.
unit-ohm = Ω
unit-megohm = MΩ
unit-millisecond = ms
acceptable = Acceptable
not-acceptable = Not acceptable
page-results = The test sheet
page-test = Test
page-circuit = Circuit
page-written = As written
page-read = As read
page-not-read = not read
page-exercise = Exercise
page-drawn = { $scenario }, drawn from { $seed }, { $mode }
# Told of a file beside its marks.
notice-exercise-different = The exercise in this attempt is not what the scenario at hand gives for its seed: somebody has changed one or the other.
notice-exercise-unknown = No scenario of this exercise is at hand: nobody can tell whether it was changed.
notice-other-version = This attempt was begun under another version of the marking; it is marked by this one.
notice-unfinished = Shown before the hand-in: this is set work that is not finished, and nothing on this sheet counts yet.
notice-unreleased = Shown before its time: this is set work, and its marks and findings are not for the learner yet.
notice-times-backwards = The times in this attempt run backwards: it was not written while the work was done, or it was changed since.
notice-times-alike = The times in this attempt are all alike: it was not written while the work was done, or it was changed since.
notice-times-too-quick = The work in this attempt went quicker than any hand works: a program did it, or it was changed since.
page-findings = What was found
page-harm = What it would do
page-would-have = What would have happened
page-shown = Shown by
page-arose = Arose
page-counted = Counted
page-figures = Figures
page-well = Done well
page-repair = To put it right
page-reference = Reference
page-wiring = The wiring, covers lifted
page-circuit-diagram = The same as a circuit diagram, from line on the left to neutral on the right, each switch as it stands:
page-record = A record of practice
page-signed-tutor = Tutor
page-signed-learner = Learner
page-signed-date = Date

# The form for signing.
form-title = For signing: { $learner }, { $title }
form-heading = Practice record, for signing
form-set = { $assignment }, learner { $learner }, try { $try }
form-assignment = Assignment
form-free-practice = no assignment
form-handed-in = Handed in
form-not-handed-in = not handed in
form-active = { $at }, after { $minutes } min of work
form-versions = Versions
form-version = marked by program { $program }, marking { $marking }
form-digests = Digests, in short
form-digest = file { $file }, exercise { $exercise }
form-unit = Group, unit, outcome
form-to-write = ______________________________ { $record }
form-unit-to-write = { $group }, ______________________________ { $record }
form-unit-tag = { $tag }. { $record }
form-outcomes = Under the marks: the outcome of the unit that the college has for each. { $record }
form-stopped = Unsafe acts that were stopped
form-none-stopped = No act was stopped.
form-counted = { $count } × { $act }
form-resets = Resets of a device that had tripped: { $count }.
form-proved-after = From the first lock to the first place proved dead: { $minutes } min { $seconds } s.
form-not-proved = No place was proved dead after a lock.
form-act-worked-live = touched or opened what was on
form-act-opened-unlocked = opened a place that was off and not locked
form-act-touched-unproved = touched what was not proved dead
form-act-wrongly-identified = missed a device that feeds the place
form-act-power-on-open = switching on with a cover off
form-act-power-on-unchecked = switching on with a check, a reading or a prediction outstanding
form-act-reset-untested = resetting a device that had tripped, with no dead test since
form-act-unearthed = the earthing conductor off beside what could be live
form-act-bench-unproved = opened the training board unproved after its supply
form-act-board-unready = opening the board without looking for other sources, or beside live tails alone
form-act-wrong-instrument = a voltage stick or a multimeter alone as proof of dead
form-causes = What was found, and the assessor’s decision
form-weight = Weight
form-cause = Cause
form-lost = Marks lost
form-agree = Agreed
form-overruled = Overruled, because
form-circuit = { $device }: loop impedance at most { $ohms } Ω
form-cable = { $name }: { $cable }, { $metres } m
form-decision = Decision
form-agrees = ☐ The assessor agrees with the outcome.  ☐ Another outcome, and why:
form-feedback = Feedback:
form-next-step = Next step:
form-own-words = In the learner’s own words:
form-declaration = The learner declares that this work is the learner’s own. The assessor declares that nothing is known against that.
form-learner = Learner
form-assessor = Assessor
form-internal = Internal quality assurer
form-external = External quality assurer
form-name = Name
form-signature = Signature
form-date = Date
