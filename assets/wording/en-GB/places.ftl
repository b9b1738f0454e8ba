# Places in words. $location: what people call the location. A learner never meets an address.

place-unknown = “{ $address }”

# Terminals.
terminal-device-line = { $device }, line
terminal-device-neutral = { $device }, neutral
terminal-earth-bar = earth bar of the { $location }
terminal-rose-loop = { $location }, loop
terminal-rose-neutral = { $location }, neutral
terminal-rose-switched = { $location }, switched line
terminal-rose-earth = { $location }, earth
terminal-contact = { $switch }, { $contact }
terminal-block = { $location }, { $block }
terminal-block-earth = earth terminal of the { $location }
terminal-box-earth = earth terminal of the { $location }
terminal-plate-earth = earth terminal on the plate of the { $location }
terminal-connector = connector { $number } in the { $location }
terminal-only-connector = connector in the { $location }
terminal-lampholder-first = { $location }, first contact
terminal-lampholder-second = { $location }, second contact
terminal-lampholder-centre = { $location }, centre contact
terminal-lampholder-outer = { $location }, outer contact

# What has no mark and no name yet, from the left.
unmarked-cable-1 = first cable
unmarked-cable-2 = second cable
unmarked-cable-3 = third cable
unmarked-cable-4 = fourth cable
unmarked-cable-5 = fifth cable
unmarked-terminal-1 = first terminal
unmarked-terminal-2 = second terminal
unmarked-terminal-3 = third terminal
unmarked-terminal-4 = fourth terminal
unmarked-terminal-5 = fifth terminal
place-unmarked-cable = { $cable }, at the { $location }

# Conductors and their ends.
conductor-core = { $core } of the { $cable }
conductor-made-up = { $colour } link
conductor-made-up-of-several = { $colour } link { $number }
end-of-core = { $conductor }, at the { $location }
end-of-link-first = first end of the { $conductor }, at the { $location }
end-of-link-second = second end of the { $conductor }, at the { $location }
core-of-colour = { $colour } core
core-first-of-colour = first { $colour } core
core-second-of-colour = second { $colour } core
core-cpc = cpc

# Switches and devices.
switch-left = { $location }, left-hand switch
switch-right = { $location }, right-hand switch
switch-of-several = { $location }, switch { $number } from the left
switch-only = { $location }
rocker-up = rocker up
rocker-down = rocker down
cord-pulled = cord pulled
cord-let-go = cord not pulled
knob-on = knob on
knob-off = knob off
push-in = knob pushed in
push-out = knob out
device-at = circuit { $number }
device-at-one-of-several-boards = circuit { $number } of the { $location }
device-only-one-in-front = RCD
device-in-front = RCD { $number }
device-in-front-at-one-of-several-boards = RCD { $number } of the { $location }
device-in-full = { $device }, { $rating }, { $circuit }
# What is printed on them.
rating-rcbo = { $amps } A RCBO type { $type } { $milliamps } mA
rating-mcb = { $amps } A MCB type { $type }
rating-rcd = { $amps } A RCD { $milliamps } mA

# Colours, and what an end is marked with.
colour-brown = brown
colour-blue = blue
colour-black = black
colour-grey = grey
colour-red = red
colour-yellow = yellow
colour-green-yellow = green-and-yellow
colour-bare = bare
mark-sleeve = { $colour } sleeve
mark-tape = { $colour } tape
mark-letter-l = letter L
mark-letter-n = letter N
mark-letter-pe = letters PE
