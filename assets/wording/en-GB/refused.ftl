# What is impossible in the hand. One message for each reason, `refused-` and the reason's word.
# $place: the place that the sentence is about, in words.

refused-unknown = there is no { $place } here
refused-cover-on = { $place }: the plate or cover is on
refused-cover-already = { $place }: the plate or cover is that way already, or there is none
refused-too-short = { $place }: the core does not reach that terminal, which is somewhere else
refused-wrong-size = { $place }: the terminal is not made for a conductor of this size
refused-full = { $place }: the terminal takes no more
refused-already-connected = { $place }: this end is in a terminal already
refused-not-connected = { $place }: this end is in no terminal
refused-clamped = { $place }: a sleeve does not go on or off an end that is clamped
refused-mark-already = { $place }: this end is marked already, or has no mark to take off
refused-no-such-material = nothing of the kind is made or fits here
refused-nothing-to-tighten = { $place }: the screw is tight already, or nothing is under it
refused-lamp-already = { $place }: the lamp is that way already
refused-device-already = { $place }: it is that way already, or has opened by itself
refused-locked = { $place }: a lock is on it
refused-not-off = { $place }: a lock does not go on while it is on
refused-not-tripped = { $place }: it has not opened by itself
refused-out-of-reach = { $place }: the probes do not reach from here to the other point
refused-no-such-position = { $place }: the switch is in that position already, or has none such
refused-no-such-question = that was predicted already, or was not asked
refused-link-already = { $place }: a link is there already, there is none there to take out, or both ends are at one point
refused-main-already = the main switch is that way already
refused-bad-figure = write digits with at most one point, and < or > before them where it went off the scale; a tick has no figure
refused-nothing-left = no more links can be made up
refused-nothing-to-undo = there is nothing to take back on this side of the last safety step
refused-nothing-to-redo = there is nothing to do again
refused-handed-in = the work is handed in
