# What happens while the work is done.

# What came of an action.
happened-done = done
happened-held = pulled: it holds
happened-came-out = pulled: it came out of its terminal
happened-volts = read { $volts } V
happened-ohms = read { $ohms } ohm
happened-off-scale = read off the scale: nothing joins the two points
happened-stopped = stopped: { $why }
happened-tripped = opened: { $devices }
happened-refused = refused: { $why }

# Acts with a consequence: what the learner went to do.
act-worked-live = this is on, or is fed by something that is on; nobody touches or opens it like that
act-opened-unlocked = a device that feeds this place is not both off and locked
act-touched-unproved = this place has not been proved dead since it was made safe
act-wrongly-identified = those are not the devices that feed this place, all of them and no other
act-power-on-open = a plate, cover or lid is still off
act-power-on-unchecked = a reading, a prediction or an energising check is still to do
act-reset-untested = the device opened by itself, and nothing has been tested dead since

# Stages of the work.
stage-isolation = safe isolation
stage-continuity = continuity
stage-energising-checks = energising checks
stage-prediction = prediction
stage-functional-test = functional test

# Energising checks.
check-nobody-at-work = nobody is at work on the circuit
check-people-told = people in the building are told that power is coming on

# Devices and lamps as they stand.
power-off = off
power-on = on
power-tripped = opened by itself

# What joins things in a list.
list-and = { $before } and { $last }
list-comma = { $before }, { $next }
list-apart = { $before }; { $next }
list-none = none
