# The see-through house: "Just curious? See why." Its reader is a householder. No more than two sentences stand there at a time.

curious-door = Just curious? See why.
curious-title = One light, two switches: why three wires?
curious-standing = A picture, not instructions. A wall switch does not make a point safe; two circuits can meet in one box; some house wiring must be notified.
curious-step = Step { $number } of { $of }: { $name }
curious-next = Go on
curious-back = Back
curious-undo = Undo
curious-pane-house = The see-through house
curious-pane-beside = What to try
curious-pane-top = Where you are
curious-house-lacks = The house can't be shown.

# The steps.
curious-play = play
curious-guess = guess
curious-pull = take one off
curious-try = every way
curious-two = the reason, with two
curious-three = the reason, with three

# Words with the trade's word behind them.
curious-words = Words
curious-word-trip = trip switch
curious-word-trip-means = In the trade: a protective device, here an RCBO. It opens by itself on too much current, and on current that leaks away to earth.
curious-word-live = live
curious-word-live-means = In the trade: energised. Here it is the line conductor, brown. The neutral, blue, counts as live too.
curious-word-earth = earth wire
curious-word-earth-means = In the trade: circuit protective conductor, CPC. It is there for safety and never carries the current of the lamp.
curious-word-ways = COM, L1, L2
curious-word-ways-means = The three terminals of a two-way switch. It joins COM to L1 or COM to L2; they are ways of the switch, and no phases.

# The switches and the wires. $how: up or down. $wire: a colour.
curious-near = near switch
curious-far = far switch
curious-press = { $switch }, rocker { $how }: press it
curious-press-plate = behind the glass, { $switch }, rocker { $how }: press it
curious-rocker = { $switch }: rocker { $how }
curious-feed = from the trip switch
curious-to-lamp = to the lamp
curious-live = live
curious-not-live = not live
curious-loose = off its screw
curious-glass = The covers are glass: this is what stands behind the two switches.

# The table of settings.
curious-grid = The lamp, for each way the switches can stand
curious-grid-near-up = near up
curious-grid-near-down = near down
curious-grid-far-up = far up
curious-grid-far-down = far down
curious-lit = ☀ lit
curious-dark = ○ dark
curious-unseen = ? not seen
curious-here = The frame is where the switches stand now.

# Play.
curious-play-first = Everything works: press a switch, at either end of the passage.
curious-play-lit = The lamp is lit. Find every way in which the switches can stand.
curious-play-dark = The lamp is out. Find every way in which the switches can stand.
curious-play-all = You have seen all four: each press of either switch changes the lamp.

# Guess.
curious-guess-asks = Three wires go to the far switch. Would two do, with ordinary switches?
curious-guess-yes = Yes
curious-guess-no = No
curious-guess-unsure = I don't know
curious-guess-said = Would two wires do? You have said what you think: nothing is marked here, and you can see for yourself.

# Take one off.
curious-pull-first = Take any one of the three wires off its screw at the far switch.
curious-pull-open = Supply off: a hand is in the box. It comes on again when the cover is back.
curious-pull-off = Take { $wire } off
curious-pull-on = Put { $wire } back
curious-pull-close = Close the cover, supply on
curious-pull-show = Show me
curious-pull-shown = Press either switch here, and see what it does not do.
curious-wire-brown = brown
curious-wire-black = black
curious-wire-grey = grey

# Every way.
curious-try-first = The ways of joining two wires between two switches can be counted. The program can try them all.
curious-try-two = Let me try them all
curious-try-three = And with three wires
curious-try-waits = They are being tried.
curious-try-lacks = The count can't be shown: this is a fault of the program.
curious-try-none = Of { $tried } ways with two wires not one works the lamp from both switches.
curious-try-some = Of { $tried } ways with three wires { $works } work the lamp from both switches.
curious-try-wires-2 = two wires
curious-try-wires-3 = three wires
curious-try-you-yes = Your guess was: two would do.
curious-try-you-no = Your guess was: two would not do.

# The reason. Each is told in two sentences.
curious-two-first = With two wires the far switch can only join them or part them. Joining adds a way for the current, and that never puts out a lamp that is lit.
curious-three-first = With a third wire one press takes a join from one wire and gives it to another. So the far switch can put the lamp out as well as light it.
curious-pick = Which of these is true?
curious-pick-true = The far switch must be able to take one join away as it makes another, and for that it needs three wires.
curious-pick-spare = The third wire is a spare: the lamp would obey without it.
curious-pick-phases = L1 and L2 are both live all the time, and a switch chooses between them.
curious-pick-right = Yes, that is the reason.
curious-pick-spare-shown = Here one wire is off. Press both switches: the lamp does not obey.
curious-pick-phases-shown = Look at the wire on L2: here it is not live. L1 and L2 are two ways out of a switch.
