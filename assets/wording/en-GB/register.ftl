# Set work: assignments, hand-ins, review.

# A time as people write it.
when = { $weekday } { $day } { $month } { $year }, { $clock } ({ $zone })
weekday-monday = Monday
weekday-tuesday = Tuesday
weekday-wednesday = Wednesday
weekday-thursday = Thursday
weekday-friday = Friday
weekday-saturday = Saturday
weekday-sunday = Sunday
month-january = January
month-february = February
month-march = March
month-april = April
month-may = May
month-june = June
month-july = July
month-august = August
month-september = September
month-october = October
month-november = November
month-december = December

# Making one. $about: the file, or a learner's number.
assign-written = { $about }: the assignment `{ $id }` (“{ $title }”) for { $group }; learners: { $learners }, exercises: { $exercises }. Hand this file out; it holds no names
assign-exists = { $path } is there already and stays as it is: an assignment that was handed out must not change. Give another name, and another `--id` for another assignment
assign-preview = Learner { $about }: the assignment `{ $id }` (“{ $title }”), { $group }
assign-preview-exercise = { $id }: { $title } ({ $place }), drawn from { $seed } (`variant { $id } --seed { $seed } --assignment { $assignment }` gives it whole); the first try is handed in as { $file }
assign-code = { $code } is the code of learner { $learner }: { $minutes } minutes of extra time, draw { $draw }. Hand it to that learner alone
assign-opens = It opens on { $time }.
assign-due = It is due on { $time }.
assign-last = Nothing counts after { $time }.
assign-counts-best = Tries at each exercise: { $count }; the best counts.
assign-counts-first = Tries at each exercise: { $count }; the first counts.
assign-counts-last = Tries at each exercise: { $count }; the last counts.
assign-hints-without = There are no hints.
assign-hints-counted = Hints may be asked for; they are counted and cost nothing.
assign-hints-costing = Hints may be asked for; there are marks for doing without.
assign-answers-at-once = Marks and findings may be shown once the work is handed in.
assign-answers-after-due = Marks and findings are for after the due date.
assign-answers-released = Marks and findings are for when the tutor releases them.
assign-pass-mark = A pass needs { $marks } % of the marks.

assign-past-due = it was due on { $time }, which is past: everything handed in from now on is late
assign-past-last = the last date was { $time }, which is past: nothing handed in from now on counts

# Doing it. $id: the assignment; in set-no-more-tries the exercise.
set-no-such-learner = the assignment `{ $id }` has no learner { $learner }
set-bad-code = this is no code of learner { $learner } in the assignment `{ $id }`: look at it again, character by character
set-which-exercise = say which exercise of the assignment `{ $id }` is meant: { $exercises }
set-no-more-tries = all tries at `{ $id }` have been begun here: the assignment allows { $count }
set-try-open = { $path } is not handed in: go on with it (`record` and its name) before another try
set-begun = { $path }: try { $try }
set-other-version = the assignment `{ $id }` was made for version { $version } of the marking, which is not this program's: ask the tutor which program to use
set-before-opens = the assignment `{ $id }` opens on { $time }: what is begun now will be flagged
set-after-due = the assignment `{ $id }` was due on { $time }: what is handed in now will be flagged as late
set-after-last = the last date of the assignment `{ $id }` was { $time }: what is handed in now will not count

# Review. $id: the assignment.
review-heading = { $title } (assignment `{ $id }`), { $group }
review-summary = Learners: { $learners }. Pieces of work: { $rows }; handed in { $in }, late { $late }, begun { $begun }, unclear { $unclear }, not due yet { $not-due }, missing { $missing }. Files to look at: { $look }.
review-progress = { $done } of { $of } files
review-passed-over-notice = files passed over, as they do not end in `.ron` or are links: { $count }; the review names them
review-passed-over = Files passed over, as they do not end in `.ron` or are links
review-passed-over-of = { $file } (learner { $learner })
review-more = and { $count } more
review-nothing-done = nothing was reviewed
review-written = { $path } is written
review-wrong-input = some of the files were changed, can't be read, or do not belong to this assignment: look at the remarks beside them
review-learners = Learners
review-learner = learner
review-exercise = exercise
review-standing = stands
review-outcome = outcome
review-marks = marks
review-minutes = minutes
review-remarks = remarks
review-receipt = receipt { $code }
review-of-try = { $outcome } (try { $try }, files: { $count })
review-pass = pass
review-not-yet = not yet
review-refer = refer
review-strays = Files of nobody on the roster, or of no exercise of the assignment
review-criteria = By criterion, of the marks to be had in the tries that count
review-criterion = { $criterion }: { $share } %
review-faults = What went wrong, by cause, of those who came far enough to get it wrong
review-fault = { $count } of { $of }: { $what } ({ $weight }, `{ $code }`); learners { $learners }
review-critical = critical
review-major = major
review-advice = advice
review-help = Who needs help first
review-needs = learner { $learner }: { $why }
need-critical = critical ({ $what })
need-stuck = begun and not handed in
need-nothing = nothing handed in that counts
need-not-yet = not yet ({ $what })

# How things stand with a learner at an exercise.
standing-handed-in = handed in
standing-late = late
standing-begun = begun
standing-unclear = unclear
standing-not-due = not due yet
standing-missing = missing

# What is said of a file. $line: the line that is wrong.
flag-unreadable = can't be read ({ $why })
flag-cut-off = can't be read to its end: cut off at line { $line }
flag-changed = changed after it was written, at line { $line }
flag-other-assignment = not of this assignment
flag-no-such-learner = its number is not on the roster
flag-wrong-exercise = another exercise
flag-wrong-seed = not drawn for this learner
flag-wrong-seed-of = not drawn for this learner but for learner { $learner }
flag-exercise-changed = its exercise is not the one that was set
flag-bad-code = its code is not this learner's
flag-practice = free practice
flag-not-handed-in = not handed in
flag-duplicate = a copy of another file
flag-same-try = another file, handed in before it, says that it is the same try
review-misnamed = { $file } has this number in its path, and is the work of learner { $learner }
flag-too-many-tries = a try too many
flag-after-last = after the last date
flag-late = late
flag-before-opens = begun before it opens
flag-no-time = without a time
flag-other-file = begun with another version of the assignment file
flag-other-version = begun under another version of the marking
flag-other-name = lies where another learner's file should, or is named as one
flag-adjusted = by a code: { $minutes } minutes of extra time, draw { $draw }
flag-times-backwards = its times run backwards
flag-times-alike = its times are all alike, as if it was put in all at once
flag-times-too-quick = quicker than any hand works

# Layers of a mark: the machine's, the tutor's, a second marker's, what both agreed on. Nothing is overwritten.
layer-machine = the machine gave { $given }
layer-given = { $marks } marks, { $outcome }
layer-marks = { $marks } marks
layer-by-machine = by the machine
layer-by-tutor = by the tutor
layer-by-second = by the second marker
layer-by-agreed = by agreement
layer-decided = { $by } ({ $name }), { $time }: { $what }
layer-decided-why = { $by } ({ $name }), { $time }: { $what }; { $why }
layer-step = step { $step } of the work, { $by } ({ $name }), { $time }: { $why }
layer-stands = { $given } stands, { $by }
layer-second-first = What the tutor gave is shown once the second marker has given marks or an outcome.
layer-to-agree = the second marker gave something else: agree on it
decide-unknown = the register has no hand-in with the receipt { $receipt }: review it with `--register` first
decide-does-not-count = the hand-in with the receipt { $receipt } counts for nothing: there is no mark to decide about
decide-no-name = say with `--by` who decides, by a name without a slash
decide-nothing = say what is decided: `--marks`, `--outcome`, or `--finding` or `--step` for a comment
decide-too-many-marks = there are { $most } marks to be had
decide-no-such-finding = there is no such finding; those of this hand-in: { $findings }
decide-no-such-step = there is no such step; this hand-in has steps 1 to { $steps }
decide-no-reason = say with `--why` what the reason is
decide-own-phrases = the bank that comes with the program
decide-no-phrase = there is no phrase `{ $key }` in { $bank }; its keys are: { $keys }
decide-refer-needs-two = a refer is lifted by two people: first a second marker (`--as second`), then what both agreed on (`--as agreed`)
decide-nobody-to-agree-with = no second marker of another name has decided yet
release-needs-register = say with `--register` in which register the release is to be kept
release-nothing = learner { $learner }, { $exercise }: nothing counts, so nothing is released
release-to-agree = learner { $learner }, { $exercise }: the second marker gave something else; agree on it before it is released
release-told = released by { $name }, { $time }: { $given }
release-told-again = released again by { $name }, { $time }: { $given }; { $why }
release-marking-changed = the machine gave { $before } when it was released, and gives { $now } now
release-differs = today it would be { $now }: what was released stands until it is released again (`release --again` with the reason)
release-heading = { $title }: learner { $learner }, { $exercise }
release-outcome = { $given }, out of { $of }
release-findings = What went wrong
release-steps = Said of single steps

# Which outcome of a unit a criterion speaks to.
unit-tag = { $unit }: { $outcome } (practice record, not evidence of competence)

# Forms of a class, for signing.
forms-title = For signing: { $title }, { $group }
forms-written = { $path }: forms for signing: { $count }
forms-nothing = nothing that was asked for counts, so there is no form to sign

# A learning platform's table, filled in. csv-: what is wrong with a table.
gradebook-needs-register = say with `--register` in which register the releases are kept: only what was released is filled in
gradebook-written = { $path }: marks filled in: { $count }
gradebook-refers = no marks are filled in for a refer, so that none is taken for a result; learners: { $learners }
gradebook-left = nothing is released yet, and the row is as it was; learners: { $learners }
gradebook-without-row = on the roster, with no row in the table; learners: { $learners }
gradebook-strangers = rows of nobody on the roster, left as they were: { $count }
gradebook-made-safe = cells that a spreadsheet program would take for a formula begin with an apostrophe now: { $count }
gradebook-table = line { $line } of { $path } can't be read as a table: { $what }
gradebook-no-column = { $path } has no column `{ $name }`; it has: { $there }
gradebook-two-columns = `{ $name }` is not one column of { $path } for itself: two columns are called so, or two things go into it
gradebook-which-exercise = say with `exercise` which one the column is for; this assignment sets: { $exercises }
gradebook-twice = learner { $learner } has a second row in { $path }, on line { $line }
csv-open-quote = a cell begins with a quotation mark and none ends it
csv-stray-quote = a quotation mark stands inside a cell that does not begin with one, or is not doubled
csv-other-length = this row has more or fewer cells than the first
csv-empty = there is nothing in it

# Statements for a record store.
statements-need-register = say with `--register` in which register the releases are kept: only what was released is told
statements-none = nothing is released yet, so there is no statement
statement-passed = passed
statement-completed = completed

# A moderator's bundle. $why: released, asked, refer, borderline, drawn.
bundle-needs-register = say with `--register` in which register the decisions are kept
bundle-nothing = nothing that was asked for counts, so no bundle is written; without `--learner` or `--sample` a bundle holds what was released
bundle-too-many = a bundle holds at most { $count } pieces of work: choose by `--exercise`, `--learner` or `--sample`
bundle-named = learner { $learner }, { $exercise }: the file has more in it than the learner's number, such as a name, and is left out; `--names` takes it
bundle-written = { $path } is written; pieces of work in it: { $count }
bundle-why-released = released: { $count }
bundle-why-asked = asked for by number: { $count }
bundle-why-refer = every refer: { $count }
bundle-why-borderline = borderline, or decided otherwise than the machine: { $count }
bundle-why-drawn = drawn at random: { $count }
bundle-with-names = Those who decided are named in it.
bundle-without-names = It names nobody: learners and those who decided have numbers. Reasons and comments are in it as they were written; read them before you send it.
bundle-blind = It is for a second marker: nothing of what the tutor gave, said or released is in it.
bundle-code = The code of the file is { $code }. Tell it to the moderator by another way than the file: `verify { $path } --code { $code }`
bundle-person = person { $number }
bundle-attempt = the attempt
bundle-exercise = the exercise
bundle-sheet = the sheet
bundle-layers = the record of decisions

# Verifying one. $what: what differs.
verify-heading = A bundle of the assignment `{ $assignment }`, made { $time } by version { $program } of the program with version { $marking } of the marking. Its code is { $code }
verify-no-list = { $path } is no bundle that this program reads: it has no list, or one that was damaged or is of a later program
verify-no-assignment = { $path } has no assignment in it that can be read, and without it no mark can be worked out again
verify-other-assignment = the assignment in { $path } is not the one that the list names
verify-other-code = the code of this file is { $code }, which is not the one that you were told: it is another file, or was changed
verify-other-program = this is version { $program } of the program with version { $marking } of the marking: what differs may differ for that reason alone. To reproduce it byte for byte, verify with the version that made it
verify-strange = files in the bundle that its list does not name: { $count }, among them `{ $name }`
verify-reproduced = { $number }: learner { $learner }, { $exercise }, try { $try }: { $given }, reproduced byte for byte
verify-mark-reproduced = { $number }: learner { $learner }, { $exercise }, try { $try }: the mark is reproduced ({ $given }), and not all of the rest: { $what }
verify-differs = { $number }: learner { $learner }, { $exercise }, try { $try }: not reproduced; the marking gives { $given }: { $what }
verify-not-marked = { $number }: learner { $learner }, { $exercise }, try { $try }: not reproduced, and can't be marked: { $what }
verify-missing = { $part } is missing
verify-changed = { $part } was changed since the bundle was made
verify-unreadable = { $part } can't be read ({ $why })
verify-other-work = the attempt is not the one that the list tells of
verify-other-exercise = the exercise beside the attempt is not the attempt's own
verify-other-sheet = marking again gives another sheet, in { $fields }
verify-other-letters = the sheet says the same, written otherwise
verify-other-layers = what stands does not follow from the decisions and the machine's mark
verify-other-release = a release names another mark of the machine's than this marking gives
verify-summary = Reproduced byte for byte: { $count } of { $of }

# What is kept of learners. Counts: files, pages, marked, decisions, releases.
people-would-erase = Nothing is erased yet. With `--for-good` this goes: files { $files }, pages { $pages }, marked { $marked }, decisions { $decisions }, releases { $releases }
people-erased = Erased: files { $files }, pages { $pages }, marked { $marked }, decisions { $decisions }, releases { $releases }
people-zipped = { $path } lies in a zip and can't go alone: erase the zip, or unpack it and pack the others again
people-elsewhere = What was copied elsewhere is not reached: bundles, tables, pages that were handed out, backups, and the learner's own files.
