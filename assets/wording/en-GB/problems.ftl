# What is wrong with a file. One message for each problem code, `problem-` and the code's word.
# $found: what stood there. $expected: what should have. $nearest: the valid name most like what stood there.

problem-syntax = this is not written as the format asks: { $reason }
problem-other-file = this is { $reason }; { $expected } is expected here
problem-unknown-word = `{ $found }` is not a known { $reason }; expected: { $expected }
problem-unknown-field = `{ $inside }` has no field `{ $found }`; it has { $expected }
problem-missing-field = the field `{ $expected }` is missing from the `{ $inside }` that ends here
problem-too-large = this text has { $found } bytes; at most { $expected } are read
problem-too-many-locations = there are { $found } locations; a scenario has at most { $expected }
problem-too-many-rooms = there are { $found } rooms; a scenario has at most { $expected }
problem-too-many-cables = there are { $found } cables; a scenario has at most { $expected }
problem-too-many-switches = there are { $found } switches; a scenario has at most { $expected }
problem-too-many-devices = { $found } protective devices; at most { $expected } are read
problem-too-many-entries = { $found } entries in this list; at most { $expected } are read
problem-too-many-lines = there are { $found } lines or more; an attempt has at most { $expected }
problem-action-too-long = this action is longer than { $expected } bytes, the most that are read
problem-format = this is format { $found }; this version of the program reads format { $expected }
problem-bad-name = a name or text may not be empty, be longer than { $expected } characters, or hold characters that do not show
problem-bad-id = `{ $found }` can't be an id: 1 to 32 lower-case letters, digits and hyphens, beginning with neither a hyphen nor `made-`, and no name that Windows keeps for a device
problem-duplicate = `{ $found }` is here already
problem-unknown-location = there is no location `{ $found }`
problem-unknown-cable = there is no cable `{ $found }`
problem-unknown-conductor = there is no conductor `{ $found }`{ $cores }
problem-unknown-end = there is no conductor end `{ $found }`{ $cores }
problem-unknown-terminal = there is no terminal `{ $found }`
problem-unknown-switch = there is no switch `{ $found }`
problem-unknown-lamp = there is no lamp `{ $found }`
problem-unknown-device = there is no protective device `{ $found }`
problem-bad-room = a room goes from its top left corner to its bottom right one; { $found } is not above and to the left of { $expected }
problem-rooms-overlap = the room “{ $found }” overlaps the room “{ $expected }”; two rooms may share a wall and no more
problem-outside-rooms = the location `{ $found }` at { $expected } is in none of the rooms
problem-cable-to-itself = both ends of this cable are at `{ $found }`
problem-bad-size = this kind of cable is not made in { $found } mm²; it is made in { $expected } mm²
problem-bad-offer = a run offers two cables or more, each of a kind for fixed wiring with a cpc and none twice; look at `{ $found }`
problem-bad-number = { $found } is out of range; { $expected } expected
problem-lamp-without-control = nothing says which switches work the lamp `{ $found }`
problem-bad-control = a control names at least one switch and none twice; look at `{ $found }`
problem-overfilled = too much in this terminal: { $found } conductors, room for { $expected }
problem-terminal-size = a conductor of { $found } mm² in this terminal, which is made for { $expected } mm²
problem-connected-twice = the end `{ $found }` is connected already
problem-connected-elsewhere = the end `{ $expected }` does not reach `{ $found }`, which is at another location
problem-wrong-accessory = “{ $found }” can't stand here
problem-bad-plate = a plate has { $expected } gangs, not { $found }
problem-not-in-front = “{ $found }” is no residual current device and stands in front of nothing
problem-no-device = there is no protective device: a board needs at least one
problem-bad-weights = `weights` come to { $found } in all, those left out counted as usual; { $expected } expected
problem-bad-pass-mark = `pass_mark` is { $found }; { $expected } expected, per cent of the marks
problem-bad-variation = this can't vary like that: { $found } found, { $expected } expected
problem-bad-suspect = a fault can't be stated like that: { $found } found, { $expected } expected
problem-bad-suspects = the number of faults under `suspects` is { $found }. The stage `Diagnosis` needs at least two, and `fault` says which it is, counted from 0; without that stage leave `suspects` out
problem-bad-course = an exercise of the kind { $found } has the stage `{ $expected }`, and this one has not
problem-not-on-bench = a training board has no supply of its own and nothing to keep or isolate: `{ $found }` does not go with `supply: Bench`
problem-given-on-supply = everything is connected already, so that the learner can only say what it does: that needs `supply: Bench`. On a supply that is on, the lamps give the answers away
problem-bad-unmarked = what has no mark is two cables or more of one kind and size with free ends here, or all the terminals of a switch with three or more that readings can tell apart, each once; look at `{ $found }`
problem-too-many-namings = { $found } ways to give the names; at most { $expected } are tried
problem-naming-of-nothing = the stage `Naming` and the field `unmarked` go together: something has no mark, and the learner finds out which is which
problem-no-reference = `{ $found }` can't be the reference for earth: that must be a socket of a circuit that stays on while the work is done
problem-too-many-combinations = { $found } combinations of switch positions; { $expected } can be tried
problem-other-scenario = the first line says that this is an attempt at `{ $found }`, but the exercise in it is `{ $expected }`: one of the two has been changed
problem-digest = the exercise on this line is not the one the attempt was begun with: the line was changed after it was written. Ask for the original file
problem-no-sum = this file was changed after it was written: this line has no sum at its end. Ask for the original file. (The sum that ends a line is a check figure for it and those before it.)
problem-other-sum = this file was changed after it was written: this line was altered, or a line before it taken out or put in. Ask for the original file. (The sum that ends a line is a check figure for it and those before it; this one does not match.)
problem-cut-short = the file stops before its exercise: its first two lines are not whole. It may have been cut off on the way; ask for it again
problem-bad-time = `{ $found }` is no date and time with its offset from UTC; { $expected } expected
problem-times-out-of-order = { $found } is before { $expected }, which should come first
problem-empty-list = nothing is in this list; at least one entry is expected
problem-scenario-digest = this exercise is not the one that the assignment was made with: it was changed since. Its digest is { $found }, and { $expected } stands beside it
problem-hints-disagree = hints are `{ $found }` here, which does not fit the exercise `{ $expected }`: `Costing` goes with exercises that give marks for doing without a hint, and the other two with those that give none
problem-unknown-action = there is no action `{ $found }`
problem-refused = the work, as it then stood, does not allow this action: { $reason }

# What was expected, in "this is not written as the format asks: …".
syntax-text = a name or text in quotation marks is expected here, such as "west"
syntax-text-end = the text that begins here has no quotation mark at its end
syntax-escape = a backslash in a text is written twice: `\\`
syntax-number = a number is expected here, such as 1.5
syntax-whole-number = a whole number is expected here, such as 2
syntax-range = this number is too large or too small to be read
syntax-yes-no = `true` or `false` is expected here
syntax-list = a list is expected here, in square brackets: `[…, …]`
syntax-list-end = a comma, or the square bracket `]` that ends the list, is expected here
syntax-comma = a comma, or the bracket that ends the entry, is expected here
syntax-colon = a colon is expected here, between the name of a field and its value
syntax-bracket = an opening bracket `(` is expected here
syntax-bracket-end = a comma, or the bracket `)` that ends the entry, is expected here
syntax-word = the name of a field or another word is expected here; a decimal point is `.` and no comma
syntax-end = the file ends before the entry does: a closing bracket is missing
syntax-more = the entry has ended, and nothing more is expected here
syntax-comment-end = the comment that begins here has no end
syntax-depth = brackets stand in brackets too deep to be read
syntax-value = a value of another kind is expected here
syntax-other = it can't be read from here on

# The sort of word that is expected, in "`Halogen` is no …".
word-sort-has = sort of place
word-sort-accessory = accessory
word-sort-cable = kind of cable
word-sort-device = protective device
word-sort-earthing = earthing arrangement
word-sort-stage = stage of the work
word-sort-vary = thing that may vary
word-sort-material = material of a box or plate
word-sort-lugs = kind of lugs
word-sort-holder = lampholder
word-sort-lamp = kind of lamp
word-sort-mark = kind of mark
word-sort-colour = colour
word-sort-letter = letter for a core
word-sort-stands = way for a connection to stand
word-sort-keeper = keeper of the board
word-sort-tails = arrangement of the tails
word-sort-supply = supply
word-sort-fed = way to feed the board
word-sort-reference = reference for earth
word-sort-preparation = way for cables to be prepared
word-sort-indicator = state of the voltage indicator
word-sort-chart = state of the circuit chart
word-sort-fault = kind of fault
word-sort-presence = answer to whether it is there
word-sort-room = kind of room
word-sort-step = step of a course
word-sort-kind = kind of exercise
word-sort-laid = way for a cable to be laid
word-sort-edition = edition of the standard
word-sort-hand-act = act of a hand
word-sort-feel = way to drive a screw
word-sort-criterion = criterion
word-sort-separator = separator of cells
word-sort-entry = entry
word-sort-other = word

# What a file is, and what was expected.
file-kind-pdf = a PDF document
file-kind-zip = a zip file, or a document that is packed as one
file-kind-picture = a picture
file-kind-document = a word processor's document
file-kind-web-page = a web page or a file like one
file-kind-json = a JSON file
file-kind-scenario = a scenario (it begins with `Scenario(`)
file-kind-attempt = an attempt’s file
file-kind-assignment = an assignment (it begins with `Assignment(`)

# In place of an empty $found or $expected.
problem-nothing = nothing
problem-something-valid = what the scenario has

# After a conductor or an end that is not there, where its cable is.
problem-cores = ; the cores of that cable are { $expected }

# Added to a sentence, and by itself under a drawing of the line.
did-you-mean = did you mean `{ $nearest }`?
