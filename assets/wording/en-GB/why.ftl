# What the search behind "why three cores?" says. Its reader is a householder: plain words, the trade's where there is no other.

# What was asked. $switches, $cores: of those below. $places: places with a connector.
why-asked = { $switches } work one light, and { $cores } from each to the next.
why-switches-2 = Two switches
why-switches-3 = Three switches
why-switches-4 = Four switches
why-switches-5 = Five switches
why-switches-6 = Six switches
why-cores-1 = one core leads
why-cores-2 = two cores lead
why-cores-3 = three cores lead
why-cores-4 = four cores lead
why-arrives-first = The feed and the wire to the lamp both arrive at the near switch, and the lamp has its neutral.
why-arrives-opposite = The feed arrives at the near switch and the wire to the lamp at the far one; the neutral of the same circuit reaches the lamp another way.
why-arrives-both = Live and neutral arrive at the near switch and again at the far one, and each has one of the lamp's two wires.
why-cpc-as-core = The bare earth wire is used as one more core.
why-connectors = There is also a connector at: { $places }.
why-place-near = the near switch
why-place-far = the far switch
why-place-number = switch { $number }

# The table.
why-head-ways = ways
why-head-kinds = kinds
why-tried = tried: every way of joining every end
why-works = the lamp obeys: each press of any switch changes it
why-safe = and there is no danger that this model knows
why-rest = What the others do:
why-kinds = Ways that differ only in which core is which are one kind.
why-class-safe = the lamp obeys, and there is no danger that this model knows
why-class-unsafe = the lamp obeys, and there is a danger
why-class-shock-hazard = something is live that a hand can touch
why-class-trips = live meets neutral, and the trip switch opens
why-class-always-on = the lamp is always on
why-class-always-off = the lamp is always off
why-class-only-first = only the near switch works it
why-class-only-second = only the far switch works it
why-class-lit-in-one = it is on in one of the four positions only
why-class-dark-in-one = it is off in one of the four positions only
why-class-depends-on-one = one of the { $of } switches works it, the others do nothing
why-class-depends-on = { $count } of the { $of } switches have a say, the others none
why-class-other = every switch has a say, but not at every press
why-example = One of them ({ $class }):
why-example-end = { $end }: { $terminal }

# The reason that follows. $others: the switches besides the far one.
why-others-one = the near switch
why-others-several = the other switches
why-reason-one = One wire leads away from the near switch and none leads back, so nothing that is done beyond it reaches the lamp.
why-reason-two = With two wires, all that the far switch can do is join them or part them. Where it joins them, the lamp would have to come on at one setting of { $others } and go out at another. But to join is only to add a connection, and adding one never puts out a lamp that is lit.
why-reason-three = A third wire lets the far switch take a join away from one wire and give it to another in the same press. So at any setting of { $others } it can put the lamp out as well as light it.
why-reason-past = A switch in the middle needs all its four terminals to cross two wires over, and one more wire has to come past it, back to the lamp. Without a connector at each switch in the middle (`--connectors 2`, say) none of these ways works.
why-reason-cpc = As far as the lamp can tell, the bare earth wire is one more core. But in every way that works it is no longer earth: there is bare live copper behind a plate, or a switch whose metal box has no earth.
why-reason-opposite = The current comes in at one end and goes out at the other: it passes each switch once, and two wires between them carry it by turns. That is only right where the neutral and the earth wire of the same circuit reach the lamp as well.
why-reason-opposite-one = One wire is one way for the current: each switch can pass it or stop it, and a lamp that both have to pass is out whenever either stops it.
why-reason-both = Each switch gives its side of the lamp the live or the neutral, and the lamp is on while the two sides differ. It obeys; but with both sides live it is off too, so that switching off does not make its holder safe to touch.
why-reason-some = Some of these ways work; the table says how many.
why-reason-none = None of these ways works.

# What is wrong with the question.
why-no-place = there is no switch { $place }: the places are numbered from 1, and there are { $count } of them
why-many-connectors = at most { $most } connectors go to one place
why-too-many = there are too many ways of joining all that: ask for fewer cores, connectors or positions
why-unproved = the search and the solver do not agree ({ $what }): this is a fault of the program, and it gives no answer
why-progress = places still to be joined: { $count }

# What two switches do now. $works, $idle: how the near switch stands. $glow: what the lamp does meanwhile.
why-now-always-on = Now the lamp is always on.
why-now-always-off = Now the lamp is always off.
why-now-only-near = Now only the near switch works it; the far one does nothing.
why-now-only-far = Now only the far switch works it; the near one does nothing.
why-now-obeys = The lamp obeys: each press of either switch changes it.
why-now-far-while = Now the far switch works it only while the near one is { $works }; with the near one { $idle } the lamp stays { $glow }.
why-rocker-down = down
why-rocker-up = up
why-stays-on = on
why-stays-off = off
why-now-trips = In some setting the trip switch opens: live meets earth.
why-now-bare-live = But in some positions of the switches bare copper is live where a hand can be.
why-now-unearthed = And a metal box has lost its earth.

# The legs of a current's loop. $colour: of the wire. $place: where it leads. $from, $to: terminals of the switch.
loop-wires = { $colour } wire to the { $place }
loop-switch = { $switch }, { $from } to { $to }
# The whole loop of one load, and where what is live stops.
way-loop = { $load } takes { $amps } A. The way of the current: { $way }.
way-stops = What is live stops at: { $places }.
way-stops-switch = { $switch }, { $live } (open to { $dead })

# The same for a table of all positions: short.
way-short-loop = { $load } takes { $amps } A, through: { $switches }.
way-short-straight = { $load } takes { $amps } A, through no switch.
way-short-opened = This opens by itself: { $devices }.
way-nothing = Nothing is live behind the devices.
way-table = Where the current goes, for every way the switches can stand
way-table-more = Ways the switches can stand that are not listed: { $count }

# What a hand would feel. $place: what it touches. $volts, $milliamps: across the body and through it.
hand-felt = { $place }: a hand there would have { $volts } V across the body, and about { $milliamps } mA would go through it to earth.
hand-way = The line comes there by: { $way }.
hand-opens = { $device } would open within { $seconds } s: that makes the shock shorter, and does not prevent it.
hand-stays = No device opens for so small a current: it would flow for as long as the touch lasts.
hand-nothing = { $place }: nothing would be felt there with the switches like this. That is worked out, not proved: one press, or one fault, can change it.
hand-short-felt = { $volts } V, about { $milliamps } mA
hand-short-nothing = nothing felt
