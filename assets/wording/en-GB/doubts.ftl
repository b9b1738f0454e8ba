# What is doubtful in a scenario that can be read and done. One message for each kind, `doubt-` and its word.
# $found: what was worked out. $limit: what it should not pass. $place: where it is so.

doubt-overloaded = the loads on this circuit take { $found } A together, and its device is made for { $limit } A
doubt-no-overcurrent = nothing on this circuit trips when it carries too much current
doubt-no-additional-protection = there is a light on this circuit, and no residual current device of 30 mA or less protects it, as one in a home must (BS 7671 411.3.4)
doubt-volt-drop = with everything on this lamp loses { $found } V by the shortest way there is; { $limit } V is the guide for lighting (BS 7671 Appendix 4)
doubt-no-disconnection = a fault at “{ $place }” meets { $found } Ω however it is wired; more than { $limit } Ω does not trip this device in time
doubt-too-few-conductors = { $found } insulated conductors come here; a switch that shares its lamp with another elsewhere needs { $limit }
doubt-joins-only = this lamp has several switches, and the one at “{ $place }” can only join and part: it can’t do its share
doubt-too-few-contacts = the switches of this lamp have { $found } contacts between them; that number of switches needs { $limit }
doubt-lamp-too-hot = a lamp of { $found } W is more than its lampholder is made for; the most it takes is { $limit } W
doubt-box-too-shallow = this box is { $found } mm deep, and its accessory asks for { $limit } mm
doubt-lamp-without-cable = no cable comes to this lamp
doubt-control-cut-off = no cables lead from a board to “{ $place }”, and this control needs it
doubt-no-wiring = no way was found to wire these cables, switches and terminals so that they work this lamp
doubt-ends-out-of-reach = { $found } ends of this cable are free at “{ $place }”, where no hand can reach them
doubt-stage-of-nothing = there is nothing in this exercise to do this stage on
doubt-suspects-alike = no reading tells the faults { $found } and { $limit } of `suspects` (counted from 0) apart: to name either is right
doubt-same-name = something else has this name: a learner can’t tell which is meant
# The word before a doubt, and what is added where only some seeds show it.
doubt-title = doubt
doubt-of-seed = { $sentence } (in the exercise of seed { $seed })

# Why the program can't do an exercise by itself. $place: where. $did: what came next. $why: what is against it.
solve-cable = no cable on offer here has enough insulated conductors for the lights that depend on it: { $place }
solve-wiring = no wiring of the cables and terminals that are there works this lamp by its switches: { $place }
solve-wiring-unknown = no wiring was found: the search came to its limit, or it meets a fan or a switch that it can’t wire
solve-earth = a protective conductor is free here, and no earth terminal or empty connector takes it: { $place }
solve-not-shown = nothing shows what this device feeds, since no lamp goes out with it: { $place }
solve-own-board = the learner opens the board in this exercise, and the program can’t do that by itself yet
solve-impossible = this comes next and can’t be done: { $did } ({ $why })
solve-unsafe = this comes next and would be stopped: { $did } ({ $why })
solve-opens = this comes next and trips { $why }: { $did }
solve-stage = this stage can’t be finished: { $stage }
solve-too-long = after { $count } actions, the most that are tried, it was not done
solve-marks = all was done, and the sheet is short of full marks: { $sheet }
