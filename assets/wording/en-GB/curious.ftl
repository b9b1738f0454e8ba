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
curious-beat = beat it
curious-try = every way
curious-two = the reason, with two
curious-three = the reason, with three
curious-what-if = what if

# Words with the trade's word behind them.
curious-word-trip = trip switch
curious-word-trip-means = In the trade: a protective device, here an RCBO. It opens by itself on too much current, and on current that leaks away to earth.
curious-word-live = live
curious-word-live-means = In the trade: energised. Here it is the line conductor, brown. The neutral, blue, counts as live too.
curious-word-neutral = neutral
curious-word-neutral-means = In the trade: neutral conductor, blue. It brings the current back to the supply, and counts as live.
curious-word-earth = earth wire
curious-word-earth-means = In the trade: circuit protective conductor, CPC. It is there for safety and never carries the current of the lamp.
curious-word-ways = COM, L1, L2
curious-word-ways-means = The three terminals of a two-way switch. It joins COM to L1 or COM to L2; they are ways of the switch, not phases.

# The switches and the wires. $how: how the rocker stands. $wire: a colour.
curious-press = { $switch }, { $how }: press it
curious-press-plate = behind the glass, { $switch }, { $how }: press it
curious-rocker = { $switch }: { $how }
curious-feed = from the trip switch
curious-to-board = back to the trip switch
curious-to-neighbour = back to the neighbour's trip switch
curious-to-lamp = to the lamp
curious-from-lamp = back from the lamp
curious-earth-screw = earth
curious-connector = joined
curious-bare = bare
curious-lamp = lamp
curious-live = live
curious-not-live = not live
curious-returns = the current comes back
curious-loose = off its screw
curious-glass = The covers are glass: this is what stands behind the switches.

# The table of settings.
curious-grid = The lamp, by how the switches stand
curious-near = near
curious-middle = middle
curious-far = far
curious-grid-up = { $switch } up
curious-grid-down = { $switch } down
curious-lit = ☀ lit
curious-dark = ○ dark
curious-unseen = ? not seen
curious-cell-opens = × opens
curious-here = The frame is where the switches stand now.

# Play.
curious-play-first = Everything works: press a switch, at either end of the passage.
curious-play-lit = The lamp is lit, and the arrows show the current at one instant: it reverses a hundred times a second. Find every way in which the switches can stand.
curious-play-dark = The lamp is out, and the ticks show how far what is live reaches. Find every way in which the switches can stand.
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

# Beat it. $end: of a wire. $told: what came of a try.
curious-beat-first = Now you: join the wires at both switches in any way you like. Drag an end to another screw of its switch; the bare earth wire may be used as well.
curious-beat-open = Supply off: hands are in the boxes. Move as many ends as you like, then close the covers.
curious-beat-held = You hold the { $end }. Press the screw where it is to go, or Esc to let go of it.
curious-beat-full = There is no room for one more under that screw.
curious-beat-close = Close the covers, supply on
curious-wanted = Wanted
curious-wanted-or = or
curious-wanted-means = each press changes the lamp
curious-tries = Your tries
curious-tries-none = None yet: move an end, then close the covers.
curious-again = { $told } Join the wires this way again.

# Every way. $what: what these ways do.
curious-try-first = The ways of joining the wires between two switches can be counted. The program can try them all.
curious-try-two = Let the program try them all
curious-try-three = And with three wires
curious-try-waits = They are being tried.
curious-try-runs = { $done } of { $tried } ways tried.
curious-finish = Show the rest at once
curious-try-lacks = This can't be shown: it is a fault of the program.
curious-try-none = Of { $tried } ways with two wires, supply and lamp at one end and the bare earth wire left alone, not one works the lamp from both switches.
curious-try-some = Of { $tried } ways with three wires { $works } work the lamp from both switches.
curious-try-wires-2 = Two wires
curious-try-wires-3 = Three wires
curious-try-you-yes = Your guess was: two would do.
curious-try-you-no = Your guess was: two would not do.
curious-wall-means = Each speck is one way of joining the wires, heaped by what the lamp does. Press a heap to open one of it.
curious-open = { $what }: open one of these
curious-wall = Back to all the ways

# The reason. Each is told in two sentences.
curious-two-first = With supply and lamp at the near end, the far switch can only join two wires or part them. Joining adds a way for the current, and that never puts out a lamp that is lit.
curious-three-first = With a third wire one press takes a join from one wire and gives it to another. So the far switch can put the lamp out as well as light it.
curious-pick = Which of these is true?
curious-pick-true = The far switch must be able to take one join away as it makes another, and for that it needs three wires.
curious-pick-spare = The third wire is a spare: the lamp would obey without it.
curious-pick-phases = L1 and L2 are both live all the time, and a switch chooses between them.
curious-pick-right = Yes, that is the reason.
curious-pick-spare-shown = Here one wire is off. Press both switches: the lamp does not obey.
curious-pick-phases-shown = Look at the wire on L2: here it is not live. L1 and L2 are two ways out of a switch.

# What if. $volts, $milliamps: of a hand. $seconds: the longest that it takes.
curious-what-if-first = What if it were built another way? Choose a house, and press its switches.
curious-what-if-list = What if
curious-bare-earth = the bare earth wire is the third wire?
curious-bare-earth-is = It works: each press changes the lamp. But look at the bare wire: it has no colour around it, and now it is live.
curious-exchanged = live and neutral are exchanged?
curious-exchanged-is = It works: each press changes the lamp. But now the switches part the neutral, and the live goes straight to the lamp.
curious-both-poles = two wires carry live and neutral?
curious-both-poles-is = Two wires do it: each switch gives its side of the lamp the live or the neutral. But the lamp is out with live on both sides, too.
curious-opposite = supply and lamp are at opposite ends?
curious-opposite-is = Two wires do it for the live here, as the supply comes to one end and the lamp hangs on the other. But the neutral and the earth wire of the same circuit must reach the lamp as well.
curious-neighbour = Take the neighbour's neutral
curious-own = Take its own neutral
curious-neighbour-is = The lamp's neutral is that of the neighbouring circuit now. Press a switch.
curious-neighbour-opens = The lamp's current goes back by the neighbour's circuit: both trip switches notice and open within { $seconds } s. With old ones that do not, the lamp stays on, and a wire of one circuit is live with that circuit off.
curious-third = there is a third switch?
curious-third-is = The third switch crosses two of the wires over, and the third wire comes past it. Press any of the three: each press changes the lamp.
curious-where = where does the current go?
curious-where-lit = From the trip switch to the lamp and back: follow the numbers. Press a switch, and the loop breaks.
curious-where-dark = The loop is broken, and nothing flows. Press a switch, and see which way it goes this time.
curious-hand-bare = Put a hand on the bare wire
curious-hand-holder = Change the lamp: a hand in its holder
curious-hand-away = Take the hand away
curious-hand-met = { $volts } V across the body, and about { $milliamps } mA through it.
curious-hand-opens = The trip switch opens within { $seconds } s: that makes the shock shorter, and does not prevent it.
curious-hand-stays = So small a current opens nothing: it flows for as long as the touch lasts.
curious-hand-not-live = With the switches like this it is not live. One press can change that: a wall switch makes nothing safe.
curious-exercise = Do it as an electrician does
