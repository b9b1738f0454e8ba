# The mark sheet in words. The findings' own sentences are in findings.ftl.

# Heading.
report-for = { $learner }: { $title } ({ $place })
report-outcome = { $outcome }: { $marks } of { $out-of } marks
report-needs = A pass needs { $needed } of { $out-of }, every control working, every stage done and nothing critical.
report-not-handed-in = Not handed in yet: this is how it stands.
report-half-wired = { $percent } per cent of the ends are in terminals; workmanship is credited for that much.
report-practice-record = This is a record of practice, not evidence of competence.
report-nothing-found = Nothing found.
report-criterion = { $criterion }: { $marks } of { $out-of }
outcome-pass = Pass
outcome-not-yet = Not yet
outcome-refer = Refer
criterion-function = function
criterion-polarity = polarity
criterion-earthing = earthing
criterion-identification = identification
criterion-terminations = terminations
criterion-containment = boxes and sheath
criterion-safe-working = safe working
criterion-test-results = test results
criterion-functional-test = functional test
criterion-prediction = prediction
criterion-rework = right the first time

# A finding.
report-finding = { $number }. { $weight }: { $what }
report-finding-costs = { $number }. { $weight }, { $lost } marks: { $what }
report-harm = What it would do: { $harm }
report-shown = Shown by: { $shown }
report-repair = To put it right: { $repair }
report-reference = Reference: { $reference }
report-follows = It follows from { $number }; put that right and this goes too.
weight-critical = critical
weight-major = major
weight-advice = advice
job-line = line
job-neutral = neutral
job-protective = protective conductor

# What shows it.
shown-by-eye = looking
shown-in-action = step { $number } of the work
shown-in-case = { $case }
case-switch = { $switch } { $rocker }
case-device-off = { $devices } off
case-lamp-out = the lamp out of { $lamps }
case-everything = everything on

# A prediction and where a stage stands on the sheet.
place-prediction = prediction { $number }
place-test = { $test }, { $device }

# What would put it right. $end, $to: places in words.
repair-move = put the { $end } in: { $to }
repair-loosen = take out the { $end }
repair-mark = mark the { $end } with a { $mark }
repair-unmark = take the mark off the { $end }
repair-tighten = tighten: { $to }
repair-prepare = make the { $end } off afresh, { $mm } mm bare, straight and whole
repair-prepare-folded = make the { $end } off afresh, { $mm } mm bare and folded back
repair-free = free the { $end } from behind the plate and make good its insulation
repair-sheath = bring the cable further in, so that its sheath ends inside: { $at }
repair-grommet = fit a grommet: { $at }
repair-slacken = slacken: { $to }
repair-take-links = take every test link out
repair-tail = fit a green-and-yellow tail between: { $from }; and: { $to }

# References.
edition-a2of2022 = BS 7671:2018+A2:2022
edition-a4of2026 = BS 7671:2018+A4:2026 (numbers as in the edition before)
reference-regulation = { $edition }, { $number }
reference-from-memory = { $edition }, { $number } (number from memory)
reference-guidance = { $number }
reference-practice = common practice

# What stands in each combination of positions.
states-row = { $case }: { $lamps }
states-class = { $count } combinations, the first of them { $row }
states-lamp = { $lamp } { $glow }
states-tripped = ; opens: { $devices }
states-may-trip = ; may open: { $devices }
states-hazard = ; { $hazard } ({ $place })
glow-lit = lit
glow-dim = dim
glow-off = off
hazard-short-line-neutral = line and neutral meet
hazard-short-line-earth = line and earth meet
hazard-residual-trip = line and neutral currents differ
hazard-metal-energised = metal that can be touched is energised
hazard-lampholder-live = the lampholder is energised while its lamp is off
hazard-loose-end-live = a loose end is energised
hazard-no-disconnection = no device would open in time if a line touched this metal
