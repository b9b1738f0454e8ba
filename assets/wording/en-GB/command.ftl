# What the command line says.

# Files. $path: the file. $cause: why.
file-unreadable = { $path } can't be read: { $cause }
file-unwritable = { $path } can't be written: { $cause }
file-not-a-file = { $path } is not a file
file-not-a-folder = { $path } is not a folder
file-not-ours = { $path } is there already, was not written by this program, and stays as it is
file-too-large = { $path } is too large: { $found } bytes, and at most { $most } are read
file-other = { $path } is { $kind }, and not a file of this program
file-not-text = { $path } is not text from line { $line } on: it was damaged, or saved in another encoding than UTF-8
file-not-an-attempt = { $path } is not an attempt file, whatever its name: give the file in which the program kept the learner's work
file-scenario-for-attempt = { $path } is a scenario and not an attempt file: `check` reads scenarios; give the file in which the program kept a learner's work
file-assignment-for-attempt = { $path } is an assignment file and not an attempt file: give the file in which the program kept a learner's work
file-not-an-assignment-folder = { $path } is a folder, and an assignment file belongs in its place: the file that `assign` wrote. `review` takes that first, then what was handed in
file-not-an-assignment-attempt = { $path } is an attempt, and an assignment file belongs in its place: the file that `assign` wrote. `review` takes that first, then what was handed in
file-not-an-assignment-scenario = { $path } is a scenario, and an assignment file belongs in its place: the file that `assign` wrote
file-folder-of-attempts = { $path } is a folder and not an attempt file: to mark all the attempts in it, say `mark { $files }`
file-exists = { $path } is there already and stays as it is; leave `--exercise` out to go on with it
file-wrong = { $path }, line { $line }: { $what }
file-gone = { $path } was deleted or replaced while it was open here: this step is not saved
file-altered = { $path } was changed by something else while it was open here ({ $found } bytes, { $left } expected): nothing more is written to it
file-full = { $path } is full: it can only be handed in
file-long-line = this action is too long to be written down in { $path }
file-withheld = { $path } is set work that is not handed in: findings, marks, lamp tables and drawings are withheld until then; `--unfinished` shows them. If the learner says that it was handed in, its end may have been cut off on the way: ask for it again
file-withheld-cut-off = { $path } is set work that is not handed in: findings, marks, lamp tables and drawings are withheld until then; `--unfinished` shows them. The last line of the file is only half there ({ $count } bytes): it may have been cut off on the way; ask for it again
# $kept: one of the two sentences after it. $code: the receipt code.
file-withheld-receipt = { $kept }; `--unfinished` shows them before that. Its receipt code is { $code }
file-withheld-time = { $path } is set work that is handed in: findings, marks, lamp tables and drawings are withheld until { $time }
file-withheld-release = { $path } is set work that is handed in: findings, marks, lamp tables and drawings are withheld until the tutor releases them
zip-broken = { $path } can't be read as a zip: it is broken, or is something else
zip-miscounted = { $path } is not read: its list of files is not as long as it says
zip-too-much = { $path } is not read: what is in it comes to more than is unpacked at once; hand in fewer files at a time
zip-overlapping = { $path } is not read: files in it overlap, as no ordinary zip has them
zip-same-name = { $path } stands twice in its zip, which is not read
zip-leads-out = { $path } has a name that leads out of its zip, which is not read
zip-locked = { $path } is locked by a password
zip-other-packing = { $path } is packed in a way that this program does not read: pack it as an ordinary zip
zip-nested = { $path } is a zip in a zip, which is not read: unpack the outer one first
zip-damaged = { $path } is not what its zip says of it: it was damaged
file-too-many = { $path } is read no further: more than { $most } files and folders have been looked at
file-too-deep = { $path } is not read: it lies more than { $most } folders deep
file-no-scenario = there is no scenario.ron in { $path }, nor in a folder in it
file-same-id = { $path } is left out: there is an exercise `{ $id }` already
file-misnamed = { $path } is left out: its folder should be called `{ $id }`, as its exercise is
cause-not-found = there is no such file or folder
cause-not-allowed = permission denied
cause-disk-full = the disk is full
cause-quota = there is no more room for you on this disk
cause-read-only = the disk can only be read
cause-share-gone = the share cannot be reached

# Problems drawn.
problems-more = { $count } more problems in { $path }
sentence-error = error: { $sentence }
sentence-notice = notice: { $sentence }

# Exercises.
exercise-listed = { $title } ({ $place })
exercise-unknown = there is no exercise `{ $id }`
check-fine = { $path }: nothing wrong
check-doubtful = { $path }: nothing wrong; doubts: { $count }
check-model = { $path }: the program's own work on seed { $seed } earns { $marks } of { $out-of } and passes, in { $count } actions
check-no-model = { $path }: the program finds no way to full marks with seed { $seed }
check-draw = { $path }: seed { $seed } gives an exercise with something wrong in it

# Recording.
record-cut-off = the last line of { $path } was never finished and is gone ({ $count } bytes)
record-in-use = { $path } is open in another window: it can only be read
record-read-only = you may read { $path } but not write it
record-handed-in = { $answer }; receipt (SHA-256 of { $path }): { $receipt }, in short { $code }
record-no-hints = this exercise gives no hints in set work
record-needs-exercise = to start { $path }, say `--exercise`, `--seed` and `--learner`, or `--assignment` and `--learner`
record-help = Write one action a line, as the exercise's model has it after `action:` (`exercises/{ $id }/model.attempt.ron`), for example `RemoveCover(location: "{ $place }")`.
record-help-places = The places here: { $places }.
record-help-place = `help PLACE` names the terminals at one of them, and the ends of conductors: `help { $place }`.
record-terminals = terminals at `{ $place }`: { $names }
record-ends = ends of conductors at `{ $place }`: { $names }
record-say-help = `help` says how actions are written
record-say-form = this action is written `{ $form }`; `help` says more
input-name = standard input
input-not-text = line { $line } of { $path } is not text (UTF-8)
input-unreadable = standard input can't be read: { $cause }

# With nothing asked.
window-not-yet = This build has no window (it comes with the feature `workshop`); here is the mark sheet of the sample attempt. `switchdrop --help` says what else there is.
window-no-screen = There is no screen to open the window on ({ $why }). Here is the mark sheet of the sample attempt instead; `switchdrop --help` says what else there is.
window-broke-down = the window closed by itself ({ $why }); what was done up to then is in the attempt's file

# Marking.
mark-cut-off = the last line of { $path } is only half there and does not count ({ $count } bytes): the file may have been cut off on the way; ask for it again
mark-exercise-different = { $path }: the exercise in it is not what the scenario at hand gives for its seed; it is marked as it stands
mark-exercise-unknown = { $path }: no scenario of this exercise's id is at hand, so that nobody can tell whether it was changed; it is marked as it stands
mark-unfinished = { $path } is set work that is not handed in: its answers are shown before their time, because you asked
mark-unreleased = { $path } is set work whose answers are not for the learner yet: they are shown before their time, because you asked
mark-times-backwards = { $path }: the times in it run backwards: it was not written while the work was done, or it was changed since
mark-times-alike = { $path }: the times in it are all alike: it was not written while the work was done, or it was changed since
mark-times-too-quick = { $path }: the work in it went quicker than any hand works: a program did it, or it was changed since
mark-other-version = { $path } was begun under another version of the marking; it is marked by this one
states-too-many-joins = there are too many states to tell apart: over 50,000 ways in which conductors can be joined after { $count } switches; ask for one combination with `--at`
states-too-many-nets = there are too many states to tell apart: { $count } conductors that still matter at once; ask for one combination with `--at`
states-too-many-results = there are over { $count } different results; ask for one combination with `--at`
states-too-many-combinations = { $count } switches have more combinations than can be counted; ask for one with `--at`
states-too-many-touching = circuits whose line or neutral touches earth beyond the board act on each other, and here they have over { $count } combinations together; ask for one with `--at`
states-no-such = `--at` asks for { $count } positions, none above { $most }, in this order: { $switches }
states-deck-written = { $path }: a deck for `ngspice -b`, cases: { $count }
states-deck-too-long = a deck of { $count } combinations would be too long: at most { $most } go into one; say which with `--at`

# Mark sheets as pages.
mark-page-of-one = a page holds one attempt; `--html` and `--form` take no more
mark-page-written = { $path }: the mark sheet as a page
mark-form-written = { $path }: the form for signing

# Pictures.
picture-over-attempt = { $path } is the attempt itself and stays as it is
picture-description = The wiring as { $learner } left it, { $place }.
picture-not-svg = a picture is an SVG, and { $path } is called as something else: say `{ $svg }`, or another name without an ending
location-unknown = there is no location `{ $id }`; there are { $places }
location-named = `{ $id }` ({ $name })

# The register.
store-not-ours = { $path } is there already and is no register of this program: it stays as it is
store-later = { $path } is a register of version { $cause }, which a later version of this program made: review with that one
store-busy = { $path } is in use by another program: wait until that has ended
store-failed = { $path } can't be used as a register: { $cause }

# The glossary on the command line. $word: what was asked for. $words: those to read next.
glossary-lacks = `{ $word }` is not in the glossary; `switchdrop glossary` lists every word
glossary-see = Read next: { $words }.
