# What the window says: buttons, headings, hints.

# The first screen.
window-title = Switchdrop
window-purpose = A practice bench for house lighting. Join every conductor, prove it dead first, say what will happen, switch on, and see what your wiring really does.
window-name = Your name
window-nobody = no name given
window-counts = This is
window-practice = practice
window-set = set work
window-practice-means = A dangerous act is stopped, explained and counted.
window-set-means = As practice, but a critical act refers the whole piece of work, as an assessor would.
window-choose = Choose an exercise
window-begin = Begin
window-begin-named = Begin: { $title }
window-practice-only = This is practice, and no leave to work on real wiring: the cautions are under Help, F1.

# The attempts that are there already.
window-kept = Your attempts
window-kept-in = Kept in { $path }
window-kept-none = There are none yet. Choose an exercise on the left and begin: every step is written down as you take it, and what you leave unfinished waits here.
window-kept-by = { $learner }, begun { $started }
window-kept-unfinished = unfinished, { $count } steps so far
window-kept-handed-in = handed in
window-kept-more = and { $count } older ones, not shown here
window-kept-broken = These can't be opened
window-go-on = Go on
window-read-sheet = Read its mark sheet
window-open-named = Open { $title }, begun { $started }
window-opened-again = Opened again, as you left it.
window-in-use = Another window has this attempt open: here it can only be read.
window-not-ours = You may read this attempt's file but not write it: here it can only be read.

# Text size and help, on every screen.
window-help = Help
window-help-close = Close (Escape)
window-keys = Keys
window-key-tab = Tab, Shift+Tab
window-key-tab-does = to the next thing, to the one before
window-key-pane = F6, Shift+F6
window-key-pane-does = to the next part of the screen, to the one before: the places, the drawing, what can be done, the foot
window-key-places = Alt+1, Alt+2 to Alt+9
window-key-places-does = to the whole place, to the places after it in the row
window-key-arrows = Arrow keys
window-key-arrows-does = to the nearest thing that way: on the drawing, from end to end and terminal to terminal
window-key-enter = Enter or Space
window-key-enter-does = what a click does; in a field, Enter goes on to what comes after it
window-key-connect = Enter on an end, then on a terminal
window-key-connect-does = connects it, as dragging it there does
window-key-escape = Escape
window-key-escape-does = lets go of what is selected, closes this page
window-key-undo = Ctrl+Z, Ctrl+Y
window-key-undo-does = takes the last piece of handwork back, does it again
window-key-scale = Ctrl+Plus, Ctrl+Minus, Ctrl+0
window-key-scale-does = larger text, smaller text, the normal size
window-key-help = F1
window-key-help-does = this page
window-tools = Tools
window-tool-main-switch = Main switch
window-tool-main-switch-does = At the board. Off before the dead tests, on again before the power comes on.
window-tool-report = Report
window-tool-report-does = Says what was wrong before you came, at the place where you found it: the circuit chart, the indicator, the wiring.
window-tool-indicator = Voltage indicator
window-tool-indicator-does = Try it on the proving unit, put its probes on every pair of conductors in every position of the switches, then try it on the unit again. If the unit does not light it, get another. A voltage stick and a multimeter prove nothing dead.
window-tool-sheath = Sheath
window-tool-sheath-does = Type how many mm of core are to show and press the cable. Some sheath must stay inside the enclosure.
window-tool-strippers = Strippers
window-tool-strippers-does = Cut the core to length, then strip its tip: to the length chosen, with the jaw of the conductor's own size. Too small a jaw nicks the copper, too wide a one does not cut. Click a terminal to see how deep its hole is, how long a core reaches it and whether a thin one is folded back.
window-tool-grommet = Grommets
window-tool-grommet-does = In the knock-outs of a metal box, whose edge would cut the sheath.
window-tool-screwdriver = Screwdriver
window-tool-screwdriver-does = Tightens a terminal on all that is in it. Only lightly, it comes loose and gets hot; as hard as it goes, it crushes the copper.
window-tool-pull = Pull
window-tool-pull-does = Tries whether an end is held; what is not comes out. Pull every end once its screw is tight.
window-tool-dress = Lay the conductors clear
window-tool-dress-does = Last of all in a box, before its plate goes on. In a crowded box the plate catches a conductor that was not laid clear.
window-tool-inspect = Look at every termination
window-tool-inspect-does = Once at each of your places, with its cover still off.
window-tool-tester = Tester
window-tool-tester-does = Choose a function and its range: continuity; insulation at 500 or 250 V; voltage; loop impedance, no-trip or with a high current that opens a residual current device; and that device's own time at half, once and five times its rated current. Then two probes, then the reading. Continuity and insulation are for dead work only, the other three for live.
window-tool-null = Leads, nulling
window-tool-null-does = Short leads reach across a place, the long one from place to place. Null each pair before you read continuity with it, or its own resistance is in every figure.
window-tool-link = Test link
window-tool-link-does = Joins line and cpc at the board, so that the two together can be read at the far end. It is copper: take it out before anything else is read or switched on.
window-tool-next = Set for the next
window-tool-next-does = Turns the tester and moves its probes to the next reading that is asked for. Taking it, writing it down and judging it stay yours.
window-tool-sheet = Test sheet
window-tool-sheet-does = Each figure as the tester showed it, with its sign, and whether it is acceptable. Handwork at a place takes back every reading and every line of what reaches it.
window-tool-story = Mark sheet
window-tool-story-does = After the hand-in: each fault with the moment it arose, its place, what would have happened and how to put it right; and what was done well.
window-scale = Text size
window-begun = Begun: what comes next stands at the top on the right.

# Where one looks.
window-place = Whole place
window-prediction = Prediction
window-to-sheet = Mark sheet
window-leave = All exercises

# The bar beneath.
window-file = Kept in { $path }
window-undo = Undo
window-redo = Redo
window-hint = Hint
window-hand-in = Hand in
window-hand-in-ask-heading = Hand in unfinished work?
window-hand-in-ask = { $count } of the things to do are not done. Once it is handed in nothing can be changed.
window-hand-in-no = Go on working
window-hand-in-yes = Hand in as it is

# A device that opened by itself.
window-opened-heading = Opened by itself
window-opened-overcurrent = Overcurrent opened { $device }: { $what }, about { $amps } A flowed in its line, and on that it opens within { $seconds } s.
window-opened-residual = Residual current opened { $device }: { $what }, so what went out by its line did not all come back by its neutral, and on that it opens within { $seconds } s.
window-opened-where = Joined in: { $terminals }.
window-opened-way = Of your wiring the current went by: { $conductors }. In the drawing of each place that it goes through, its way is dashed.
window-opened-then = Lock off, prove dead and find it. No reset is offered before a dead test.
window-no-reset = It opened by itself: no way back on before something has been proved dead.
window-todo-opened = Lock off what opened: { $devices }
window-todo-find = Prove dead, then find what made it open

# Beside the drawing.
window-pane-job = The job, its stages and places
window-pane-beside = What comes next and what can be done
window-pane-drawing = The drawing
window-pane-foot = Undo, text size, help and what was said last
window-pane-after = After the hand-in
window-learner = Learner: { $learner }
window-selected = Selected
window-nothing-over = Nothing is selected. Click anything to have it named.
window-not-predicted = Not answered.

# The stages.
window-stage-choose = Choose
window-stage-isolate = Isolate
window-stage-wire = Wire
window-stage-inspect = Inspect and test
window-stage-predict = Predict
window-stage-power-on = Power on
window-stage-work = Work the switches
window-stage-here = Stage { $number }, { $stage }: you are here
window-stage-done = Stage { $number }, { $stage }: done
window-stage-ahead = Stage { $number }, { $stage }: still to come
window-nothing-place = Nothing is selected. Click a place to step up to it, a switch to work it, a device or a lamp to see what can be done. Tab and the arrow keys move about, Enter does what a click does.
window-nothing-location = Nothing is selected. Click an end, then a terminal, or drag the end there. Tab and the arrow keys move about, Enter does what a click does, Escape lets go.
window-nothing-covered = Nothing is selected. The cover is on: take it off to reach what is behind it, once all is isolated.
window-nothing-board = Nothing is selected. Click a device to see what it feeds, to switch it and to lock it off.
window-nothing-prediction = Answer for every position before the power comes on. An answer that is locked can't be changed.
window-switch = { $switch }, { $rocker }
window-lamp = lamp of the { $lamp }
window-nowhere = nowhere yet

# Instruments.
window-hand-tools = Tools
window-hand-indicator = Voltage indicator
window-hand-meter = Meter
window-prove = Try the indicator on the proving unit
window-testing = The indicator has been proved; tests count until it is proved again.
window-not-testing = Prove the indicator first: no test counts until then.
window-refers = In set work this refers the whole of it, whatever else is right.
window-proved-dead = Proved dead. It holds until a device is switched on or the cover comes off again.
window-prove-again = Everything here showed nothing. Prove the indicator once more: only then is this place proved dead.
window-prove-after = Everything here showed nothing. Go on to the next place of this round, or prove the indicator once more.
window-show-first = First of all show that { $place } is an earth: take the meter, and read to it from the reference by the long lead.
window-show-earth = Long lead from { $reference } to { $place }
window-park = Park a probe at { $place }
window-park-how = Click an earth twice to park a probe on it. Then each click on an end or a terminal touches it; a click on the parked probe takes it off.
window-park-here = Park it on what is selected
window-unpark = Take the parked probe off
window-say-whether = The indicator was proved before and after. Say whether what you tested is dead.
window-conclude = What was tested is
window-dead = dead
window-not-dead = not dead
window-tests-left = Tests still to do here in this round: { $count }
window-next-pair = Move the probes to the next pair
window-set-switches = Set: { $case }
window-probe = Probe { $number }: { $place }
window-probe-next = The next terminal or end you click takes probe { $number }.
window-read = Take the reading
window-meter-means = Read the switched line in every position, from the line that comes in to the line that goes to the lamp, with the lamp taken out.
window-readings-left = Readings still to take: { $count }

window-held = In hand:
window-held-indicator = two-pole indicator
window-held-stick = voltage stick
window-held-multimeter = multimeter
window-change-indicator = Get another indicator

# The multifunction tester.
window-hand-tester = Tester
window-fn-continuity = Continuity
window-fn-insulation = Insulation
window-fn-voltage = Voltage
window-fn-loop = Loop
window-fn-rcd = RCD
window-range-500 = 500 V
window-range-250 = 250 V
window-range-no-trip = no-trip
window-range-high = high current
window-range-half = half
window-range-rated = once
window-range-five = five times
window-lead-short = Short leads
window-lead-long = Long lead
window-null = Null the leads
window-nulled = Leads nulled
window-to-read = Next, { $stage }: readings left { $count }
window-nothing-to-read = No reading that is asked for is left.
window-next-reading = Set the tester and its probes for the next
window-set-link = Link line and cpc at the board
window-no-link = The next reading needs no test link: take it out.
window-fit-link = Put a test link between the two probes
window-take-link = Take the test link out: { $a } to { $b }
window-reading-of = { $a } to { $b }: { $reading }

# The test sheet.
window-tests = Test sheet
window-tests-mean = Write down what the tester showed, with > or < where it showed one, and say whether it is acceptable. A line written again replaces the one before.
window-tests-written = Every line that is asked for is written.
window-tests-missing = Still to write: { $tests }
window-from-card = Ze or Zdb from the card
window-test-blank = blank
window-figure = { $test }, { $unit }
window-last-readings = What was read last
window-nothing-tests = The figures are yours to write.

# Ends made ready by hand.
window-sheath = Sheath back, core to show, mm
window-sheath-of = { $cable } (now { $mm })
window-sheath-outside = { $cable }: the sheath ends outside the enclosure.
window-grommet = Fit grommets
window-has-grommet = Grommets are in.
window-dress = Lay the conductors clear
window-is-dressed = The conductors lie clear of the lugs.
window-is-crowded = So much core does not fold away by itself.
window-in-sheath = Still in its sheath.
window-prepared = Core { $core } mm, bare { $strip } mm.
window-folded = Folded back.
window-nicked = The copper is nicked.
window-crushed = The copper is crushed.
window-trapped = A plate has cut into its insulation.
window-outside = Bare copper outside the terminal: { $mm } mm.
window-cut-to = Core, mm
window-cut = Cut to length
window-strip-to = Bare, mm
window-strip = Strip
window-jaw = Jaw, mm²
window-fold = Fold back
window-unfold = Straighten
window-tug = Pull it
window-hold = The hole is { $depth } mm deep; a core of { $reach } mm reaches it.
window-hold-fold = A single conductor up to { $mm2 } mm² is folded back.
window-tighten-slack = Only lightly
window-tighten-crushed = As hard as it goes

# At a place.
window-inspect = Look at every termination
window-main-off = Main switch off
window-main-on = Main switch on
window-isolator-off = Isolator off
window-isolator-on = Isolator on
window-lock-main = Lock the main switch off, hang the label
window-unlock-main = Take your lock off the main switch
window-lock-isolator = Lock the isolator off, hang the label
window-unlock-isolator = Take your lock off the isolator
window-lift-shroud = Lift a shroud off the tails
window-report = Report
window-todo-inspection = Look at every termination: places left { $count }
window-done-inspection = Every termination looked at
window-todo-test = Test { $stage }: readings left { $readings }, lines to write { $lines }
window-done-test = Tested and written down: { $stage }
window-stage-live = Test live

# Places.
window-identify-load = See it first: with a light of the circuit lit, switch its device off at the board and on again. What goes out and comes back, it feeds.
window-card = Supervisor's card: off, locked and labelled for this work: { $devices }. Put your own lock on beside mine. Mine comes off when all that comes before power-on is done and yours is off.
window-card-tied-back = The new cable is tied back beside the board, not connected. I connect it when you have looked over every place of the work.
window-identify = Which devices feed this place, or may come to?
window-device = { $device }: { $circuit }
window-name-devices = These feed it
window-cover-off = Take the cover off
window-cover-on = Fit the cover
window-choose-cable = Cable to choose: { $run }
window-choose-run = { $metres } m, { $laid }.
window-choose-there = { $name }: { $cable }, { $metres } m.
window-choose-lamp = { $lamp }: { $watts } W.
window-choose-device = { $device }, { $circuit }: { $amps } A.
window-choose-why = Why this one of those on offer?
window-choose-because = { $reason }
window-why-cores = conductors
window-why-current = current
window-why-volt-drop = voltage lost
window-why-disconnection = time on a fault
window-why-any = any would do
window-why-usual = always used
window-choose-take = Take this cable
window-choose-another = Another cable: { $run }
window-chosen = { $run }: { $cable }, because { $reason }.
window-make-up = Make up a link:

# An end.
window-end = Letter code { $code }; { $mark }
window-unmarked = no mark
window-is-in = In: { $terminal }
window-loose = In no terminal: click the terminal it goes in, or drag it there.
window-disconnect = Take it out
window-mark-with = Mark it with
window-sleeve = sleeve
window-tape = tape
window-unmark = Take the mark off

# A terminal.
window-empty = Nothing is in it.
window-select = { $end }
window-tight = The screw is tight.
window-slack = The screw is loose.
window-tighten = Tighten the screw

# A lamp, a switch, a device.
window-lamp-out = Take the lamp out
window-lamp-in = Put the lamp in
window-flip = Work the switch
window-chart = By the chart: { $circuit }
window-stands = { $power }, { $lock }
window-has-both-locks = your lock and label on it, and the supervisor's
window-has-supervisors-lock = the supervisor's lock and label on it
window-has-lock = your lock and label on it
window-no-lock = no lock on it
window-off = Switch off
window-on = Switch on
window-reset = Reset
window-lock = Lock off and label
window-unlock = Take your lock and label off

# What was done.
did-mark = { $place }: marked with a { $mark }
did-unmark = { $place }: the mark is off
did-connect = { $place }: now in { $to }, its screw loose
did-disconnect = { $place }: out of its terminal
did-tighten = { $place }: tightened
did-tighten-slack = { $place }: left loose
did-sheath = { $place }: sheath taken back
did-cut = { $place }: cut to length
did-strip = { $place }: stripped
did-fold = { $place }: folded back
did-unfold = { $place }: straightened
did-grommet = { $place }: grommet fitted
did-dress = { $place }: conductors laid clear of the lugs
did-choose = { $place }: { $cable } is chosen and drawn in
did-make-up = { $place }: a { $colour } link is made up and lies ready
did-fit-cover = { $place }: the cover is on
did-remove-cover = { $place }: the cover is off
did-fit-lamp = { $place }: the lamp is in
did-remove-lamp = { $place }: the lamp is out
did-identify = { $place }: fed by { $devices }
did-park = A probe is parked at { $place }.
did-unpark = The parked probe is off again.
did-agree = Switching off is agreed.
did-power-off = { $place }: switched off
did-lock-off = { $place }: your lock and label are on
did-unlock = { $place }: your lock and label are off
did-inspect = { $place }: every termination looked at
did-null = the leads are nulled
did-fit-link = test link fitted, from { $place } to { $to }
did-take-link = test link taken out, from { $place } to { $to }
did-main-on = main switch on
did-main-off = main switch off
did-isolator-on = isolator on
did-isolator-off = isolator off
did-lock-main = main switch locked off, label on
did-lock-isolator = isolator locked off, label on
did-unlock-main = own lock and label off the main switch
did-unlock-isolator = own lock and label off the isolator
did-bring-supply = the supervisor has brought the supply; the plug is in
did-unplug = plug out and in hand
did-earthing-off = earthing conductor off
did-earthing-back = earthing conductor back, its screw loose
did-earthing-tight = earthing conductor tight
did-earthing-read = earthing conductor read through
did-lift-shroud = a shroud lifted; the tails are dead
did-record = written on the test sheet: { $test }, { $place }
did-report = reported: { $fault }, { $place }
did-change-indicator = another voltage indicator, with its leads
did-prove-indicator = The indicator works: it shows the proving unit's voltage.
did-confirm = Confirmed: { $check }
did-predict = Locked in: { $case }
did-power-on = { $place }: on. { $lamps }
did-operate = { $place }: { $rocker }. { $lamps }
did-undo = The last piece of handwork is taken back.
did-redo = It is done again.
did-hand-in = Handed in.

# What is still to do.
window-handed-in = Handed in
window-handed-in-means = Nothing can be changed now. Click anything to have it named; the mark sheet shows each finding in its place.
window-next = Next
window-to-do = Then
window-done = Done
window-todo-isolated = Isolated and proved dead
window-todo-choose = Choose the cable: { $run }
window-done-choose = Chosen: { $run }
window-todo-loads = See which light goes out and comes back with which device
window-todo-identify = Say what feeds the { $location }
window-todo-agree = Get agreement to switch off
window-todo-lock = Switch off, lock off and label
window-todo-prove = Cover off, prove dead: { $location }
window-todo-wire = Connect, mark, tighten: free ends { $loose }, loose screws { $slack }
window-done-wire = Everything is connected and tight
window-done-continuity = Continuity read in every position
window-done-prediction = Every position predicted
window-done-covers = Every cover is on
window-done-work = Every switch worked in every setting
window-todo-continuity = Continuity, lamp out: readings left { $count }
window-todo-prediction = Predict: positions left { $count }
window-todo-covers = Covers on: still off { $count }
window-todo-lamps = Lamps in: still out { $count }
window-todo-check = Confirm: { $check }
window-todo-board = Open the board: second sources looked for, off, locked, its cover off, proved dead
window-todo-supply = Ask the supervisor to bring the supply
window-bring-supply = Ask the supervisor for the supply
window-unplug = Plug out and in hand
window-bench-out = A training board: no supply of its own, its plug out and in your hand. I bring the supply when the covers are on and you have said what will happen.
window-bench-in = The plug is in. Before any cover comes off: plug out and in your hand, indicator proved, tested here, proved again.
window-todo-power = Locks off, switch on
window-todo-work = Work every switch: settings left { $count }

# The prediction.
window-prediction-means = For each position of the switches, with the power on: what will light, and which conductors will be live?
window-will-light = { $lamp } will light
window-will-be-live = { $conductor } will be live
window-lock-answer = Lock this answer
window-lock-answer-named = Lock this answer: { $case }
window-said-yes = you say yes
window-said-no = you say no
window-as-said = {"; "}and so it is
window-not-as-said = {"; "}but it is not so

# The mark sheet.
window-again = Again, another variant
window-look = Look at the work
window-show = Show { $number } in place
window-sheet-of = { $learner }, { $place }
window-story-waiting = Working out when each fault arose and what it would have led to ...
window-would-have-named = What would have happened by { $number }
window-play = Show the way on the drawing
window-play-named = Show the way of { $number } on the drawing
window-in-place-heading = Found here
