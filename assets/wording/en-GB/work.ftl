# What happens while the work is done.

# What came of an action.
happened-done = done
happened-held = pulled: it holds
happened-came-out = pulled: it came out of its terminal
happened-volts = read { $volts } V
happened-no-earth = nothing shows, and that proves nothing: { $place } has not been shown to be an earth
happened-not-dead = said not to be dead: nobody touches it before it is known what feeds it
happened-nothing-proved = nothing is proved dead by that. { $place }: { $why }
happened-nothing-to-prove = nothing is proved dead by that: every open place is proved already, or none is open
happened-proved-dead = proved dead: { $places }
happened-lamps-out = lamps that went out with it: { $lamps }
happened-lamps-on = lamps that came on with it: { $lamps }
happened-ohms = read { $ohms } Ω
happened-off-scale = read off the scale: nothing joins the two points
happened-read = { $reading }
happened-ghost = { $reading }, and an indicator shows nothing here: a core that nothing is joined to picks that up from a live one beside it. It is no supply, and the meter no proof
happened-stopped = stopped: { $why }
happened-stopped-for = { $stopped }. First of all: { $stage }
happened-tripped = tripped: { $devices }
happened-refused = refused: { $why }

# Acts with a consequence: what the learner went to do.
act-worked-live = this is on, or fed by something that is on (at the board the main switch counts). To touch it can kill: first switch off, lock off and prove dead
# The same, where devices that are on feed the place.
act-worked-live-on = up to { $volts } V here, from { $devices }. To touch it can kill: first switch off, lock off and prove dead
act-opened-unlocked = a device that feeds this place is not both off and locked
act-touched-unproved = this place has not been proved dead since it was made safe
act-lacked = { $act }: { $why }
# What a place lacks of being proved dead.
gap-unidentified = not every device that feeds it has been named and shown to feed it
gap-unagreed = switching off has not been agreed
gap-unlocked = what feeds it is not all off and locked
gap-indicator-failed = the indicator in hand failed its proof
gap-earth-unshown = no earth has been shown there to test against
gap-indicator-unproved = the indicator has not been proved before the tests
gap-untested = dead tests are still to be made there
gap-other-positions = dead tests are still to be made with the switches set another way
gap-not-proved-again = the indicator has not been proved again after the tests
gap-unsaid = you have not said that it is dead
act-wrongly-identified = a device that feeds this place is missing from those you named
act-power-on-open = a plate, cover or lid is still off
act-power-on-unchecked = an inspection, a dead test or its line on the sheet, a prediction, a name or an energising check is still to do
act-unearthed = with the earthing conductor off, or not yet back, tight and read through, everything stays off and locked
act-bench-unproved = the supply was here: with the plug out and in your hand, prove the indicator, test at the training board, prove the indicator again, then the cover
act-board-unready = before this cover comes off, look for second sources; and where the tails stay live behind their shrouds, have a supervisor present
act-wrong-instrument = a voltage stick or a multimeter is no proof of dead: only a two-pole indicator, proved before and after
act-reset-untested = the device tripped, and nothing has been tested dead since

# Stages of the work.
stage-isolation = safe isolation
stage-inspection = inspection
stage-continuity = continuity
stage-insulation = insulation resistance
stage-dead-polarity = polarity by continuity
stage-supply-polarity = polarity of the supply
stage-loop-impedance = loop impedance
stage-residual-device = residual current device
stage-energising-checks = energising checks
stage-prediction = prediction
stage-diagnosis = diagnosis
stage-naming = finding out which is which
stage-observations = observations
stage-functional-test = functional test

# Lines of the test sheet.
test-r1-r2 = R1+R2
test-r2 = R2 by the long lead
test-insulation-line-neutral = insulation, line to neutral
test-insulation-line-earth = insulation, line to earth
test-insulation-neutral-earth = insulation, neutral to earth
test-polarity = polarity by continuity
test-supply-polarity = polarity of the supply
test-zs = Zs, measured
test-zs-sum = Zs, as Ze and R1+R2 together
test-zdb-sum = Zs, as Zdb and R1+R2 together
card-ze = Supervisor's card: Ze { $figure }, measured at the origin. I fit a link for R1+R2 at the board when you ask.
card-zdb = Supervisor's card: Zdb { $figure }, measured at this board, which is fed from another. I fit a link for R1+R2 at the board when you ask.
figure-from-card = { $figure } ({ $outside } from the card)
test-residual-device = operating time at the rated residual current

# What may be reported as wrong before the work began.
fault-chart = the circuit chart is wrong
fault-indicator = the voltage indicator does not work
fault-wiring = something in the wiring was wrong before

# What an inspector says is wrong.
flaw-loose-screw = loose screw
flaw-loose-end = end in no terminal
flaw-bare-copper = bare copper outside
flaw-insulation-caught = insulation under the screw
flaw-fold = fold wrong or missing
flaw-nicked = nicked core
flaw-crushed = crushed core
flaw-unlike-sizes = thin core held by nothing beside a thick one
flaw-sleeve-missing = sleeve missing
flaw-sleeve-wrong = wrong sleeve
flaw-cpc-open = cpc not connected through
flaw-cpc-misused = cpc used as line or neutral
flaw-tail-missing = earth tail missing
flaw-grommet-missing = grommet missing
flaw-sheath-short = sheath stops outside
flaw-box-shallow = box too shallow
flaw-core-trapped = core caught behind the plate
flaw-crossed = two conductors crossed
flaw-wrong-terminal = conductor in the wrong terminal
flaw-neutral-switched = switch or fuse in the neutral
flaw-circuits-joined = two circuits joined

# Energising checks.
check-nobody-at-work = nobody is at work on the circuit
check-people-told = people in the building are told that power is coming on
check-second-sources = second sources that may feed the board were looked for
check-supervisor-present = a supervisor is present at the board

# Cables to choose from, and how they are laid. Why one is chosen stands in the report, `job-` and the word.
cable-twin-earth = twin and earth
cable-twin-brown-earth = twin brown and earth
cable-three-core-earth = three-core and earth
cable-old-twin-earth = twin and earth in red and black
cable-old-twin-red-earth = twin red and earth
cable-old-three-core-earth = three-core and earth in red, yellow and blue
cable-pendant-flex = pendant flex
laid-clipped = clipped to wall and joist
laid-in-insulation = in thermal insulation throughout

# Devices and lamps as they stand.
power-off = off
power-on = on
power-tripped = tripped

# What joins things in a list.
list-and = { $before } and { $last }
list-comma = { $before }, { $next }
list-apart = { $before }; { $next }
list-none = none
