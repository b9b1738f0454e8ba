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
window-begin = Begin: { $title }
window-kept-in = Your attempts are kept in { $path }
window-scale = Text size
window-begun = Begin with safe isolation: what comes next stands at the top on the right.

# Where one looks.
window-place = Whole place
window-prediction = Prediction
window-to-sheet = Mark sheet
window-leave = All exercises

# The bar beneath.
window-file = Kept in { $path }
window-undo = Undo
window-redo = Redo
window-hand-in = Hand in
window-opened-overcurrent = { $device } opened because too much current flowed in its line: line meets neutral or earth somewhere. Lock off, test dead and find it before you reset.
window-opened-residual = { $device } opened because what went out by line did not come back by neutral: it went to earth, or to another circuit. Lock off, test dead and find it before you reset.

# Beside the drawing.
window-brief = The job
window-learner = Learner: { $learner }. Kept in { $path }
window-nothing-place = Nothing is selected. Click a place to step up to it, a switch to work it, a device or a lamp to see what can be done. Tab and the arrow keys move about, Enter does what a click does.
window-nothing-location = Nothing is selected. Click an end, then a terminal, or drag the end there. Tab and the arrow keys move about, Enter does what a click does, Escape lets go.
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
window-not-testing = Prove the indicator before the first test and after the last.
window-tests-left = Tests still to do here in this round: { $count }
window-next-pair = Move the probes to the next pair
window-set-switches = Set: { $case }
window-probe = Probe { $number }: { $place }
window-probe-next = The next terminal or end you click takes probe { $number }.
window-read = Take the reading
window-meter-means = Read the switched line in every position, from the line that comes in to the line that goes to the lamp, with the lamp taken out.
window-readings-left = Readings still to take: { $count }

# Places.
window-identify = Which devices feed this place, or may come to?
window-device = { $device }: { $circuit }
window-name-devices = These feed it
window-cover-off = Take the cover off
window-cover-on = Fit the cover
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
window-slack = The screw is slack.
window-tighten = Tighten the screw

# A lamp, a switch, a device.
window-lamp-out = Take the lamp out
window-lamp-in = Put the lamp in
window-flip = Work the switch
window-chart = By the chart: { $circuit }
window-stands = { $power }, { $lock }
window-has-lock = your lock and label on it
window-no-lock = no lock on it
window-off = Switch off
window-on = Switch on
window-reset = Reset
window-lock = Lock off and label
window-unlock = Take your lock and label off

# What is still to do.
window-next = Next
window-to-do = Then
window-done = Done
window-todo-isolated = Isolated and proved dead
window-todo-identify = Say what feeds the { $location }
window-todo-agree = Get agreement to switch off
window-todo-lock = Switch off, lock off and label
window-todo-prove = Cover off, prove dead: { $location }
window-todo-wire = Connect, mark, tighten: { $loose } ends loose, { $slack } screws slack
window-done-wire = Everything is connected and tight
window-done-continuity = Continuity read in every position
window-done-prediction = Every position predicted
window-done-covers = Every cover is on
window-done-work = Every switch worked in every setting
window-todo-continuity = Continuity, lamp out: { $count } readings left
window-todo-prediction = Predict: { $count } positions left
window-todo-covers = Covers on: { $count } still off
window-todo-check = Confirm: { $check }
window-todo-power = Locks off, switch on
window-todo-work = Work every switch: { $count } settings left

# The prediction.
window-prediction-means = For each position of the switches, with the power on: what will light, and which conductors will be live?
window-will-light = { $lamp } will light
window-will-be-live = { $conductor } will be live
window-lock-answer = Lock this answer
window-said-yes = you say yes
window-said-no = you say no
window-as-said = {"; "}and so it is
window-not-as-said = {"; "}but it is not so

# The mark sheet.
window-again = Again, another variant
window-look = Look at the work
window-show = Show { $number } in place
