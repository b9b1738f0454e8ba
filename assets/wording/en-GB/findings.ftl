# What was found. A message says what is wrong and where ($place: a place in words; $about: what the conductor really is).
# .harm: what it would do to a person or to the installation. .repair: how to put it right, where no exact edit is known.

## Function

finding-control-wrong = { $place } does not follow its switches: in some position a press of a switch changes nothing, or leaves it dim.
    .harm = Whoever needs the light stands in the dark or can't put it out, and whoever opens a box next can't trust what they find there.
    .repair = No one or two moves put it right. Take the ends out at { $places }, follow the line from plate to plate on paper, and join the ends anew.
    .begin = Follow the line from plate to plate on paper, and join the ends by that.
finding-fan-wrong = { $place } lacks its permanent line, does not start with its light, or is not dead with its isolator off.
    .harm = It stops with the light and the room stays damp, or it is live under the hand of whoever cleans it.
    .repair = Follow the permanent line, the switched line and the neutral through the isolator to the fan, one at a time.
finding-work-unfinished = The work is not finished: ends are still in no terminal, and what follows from that is not listed.
    .harm = No end of the new work was energised; but nothing here can be used yet.
    .repair = Go on from where you stopped: land every end, then test, close up and switch on.
finding-rocker-inverted = { $place } is on with the rocker up.
    .harm = Nobody is hurt, but everyone will reach for it the wrong way.
    .repair = Use COM and L1 for a light with one switch.
finding-cores-parallel = { $place } does the same job as another core of its cable.
    .harm = None while both are sound; if one fails, nobody notices until the other is hot or is taken for dead.
    .repair = Let one core do the job, and end the other as a spare.

finding-cores-few = The { $place } has fewer insulated conductors than its switches and its light need between the two places: no way of joining its ends would have worked.
    .harm = The light can't be worked as it should, and what is tempting then is worse: a bare cpc for a third core, or a neutral borrowed from another circuit.
    .repair = Choose a cable with as many insulated conductors as must run there: two for a light or for all its switches, three where there are switches at both ends.

## Polarity

finding-short-line-neutral = With { $place } on, line and neutral meet in some position of the switches.
    .harm = A bang and a flash at a terminal, or at the switch in somebody's hand; the device trips, and what was on it goes dark.
    .repair = With the supply locked off, find by continuity the end that joins the two, and move it.
finding-overload = { $place } carries more than it is rated for, and trips after a while.
    .harm = The circuit drops out, and until it does its cable runs warm.
    .repair = Put no more on one circuit than its device is rated for; see that loads of another circuit have not come onto this one.
finding-residual-trip = { $place } sends current out that does not come back through it, and trips.
    .harm = The circuit drops out whenever the light is used; behind a device that does not feel it the stray current would run in earth or in somebody else's neutral, unseen.
    .repair = See that line and neutral of every lamp belong to one device, and that no neutral touches earth.
finding-circuits-joined = { $place } is joined to another circuit.
    .harm = With one device off and locked, the other still feeds what was proved dead.
    .repair = Part the two: each circuit keeps its own line and its own neutral.
finding-borrowed-neutral = { $place } takes its line from one circuit and its neutral from another.
    .harm = Whoever parts that neutral with their own circuit locked off gets the full voltage through the lamp.
    .repair = Bring the light its own circuit's neutral.
finding-neutral-switched = { $place } opens the neutral and leaves the line connected.
    .harm = The light goes out and its lampholder stays live: whoever changes the lamp with the switch off can touch line.
    .repair = Put the switch in the line; take the neutral straight to the light.
finding-lampholder-live = { $place } is live in its holder while it should be dead.
    .harm = Whoever changes the lamp with the switch off can touch line.
    .repair = See that only the line from the last switch comes to the holder, and that the neutral never leaves it.
finding-loose-end-live = The { $place } is in no terminal, and live.
    .harm = Copper at 230 V that nothing holds: against a metal box, a screw or a finger, it is a shock or a short.
    .repair = End it in its terminal, or in a connector at both ends if nothing needs it.
finding-cores-exchanged = The { $one } and the { $other } are in each other's terminals.
    .harm = Each does the other's job: what should be dead with the switch off is live, or what should be earthed is not.
    .repair = Exchange the two.
finding-socket-reversed = Line and neutral are in each other's terminals at { $place }.
    .harm = Whatever is plugged in stays live with its own switch off: its switch and the fuse in its plug are in the neutral.
    .repair = Put the lines in L and the neutrals in N.
finding-fuse-in-neutral = The fuse of { $place } is in the neutral.
    .harm = When it blows, everything beyond it looks dead and stays live: anyone who works on it can touch line.
    .repair = Exchange line and neutral on both sides of it: the lines belong in the pole with the fuse.
finding-outer-contact-line = The outer contact of { $place } is on the line.
    .harm = Less than it was with older holders: this kind joins its shell only at the last turn of the lamp.
    .repair = Centre contact to line, outer contact to neutral.

## Earthing

finding-short-line-earth = With { $place } on, line meets earth in some position of the switches.
    .harm = Every piece of metal on that earth rises towards line until the device trips.
    .repair = With the supply locked off, find by continuity the end that joins the two, and move it.
finding-neutral-earth-exchanged = Neutral and earth are in each other's terminals at { $place }.
    .harm = Every load beyond it sends its current back through the earth, and the metal that should be safe stands on the neutral.
    .repair = Put the neutrals with the neutrals and the bare conductors, sleeved, in the earth terminal.
finding-load-through-earth = The current that { $place } takes comes back through the earth and not by its neutral.
    .harm = The light works, and nobody notices. A protective conductor that carries current raises the metal on it, and whoever parts it gets the full voltage between its two halves.
    .repair = Put the neutral of the load with the other neutrals.
finding-neutral-earth-joined = The { $place } joins the neutral to the earth.
    .harm = Part of every load's current comes back by the cpcs and the pipework; a residual current device in front trips under load, and without one nothing shows it.
    .repair = Put it with the neutrals: neutral and earth meet at the supply and nowhere else.
finding-metal-energised = { $place } is live to the touch, and nothing trips.
    .harm = The first person to touch it and something earthed completes the circuit.
    .repair = Take the line off the metal, and join the metal to the cpc.
finding-no-disconnection = If a line touched { $place }, nothing would trip in time.
    .harm = The metal would stand at line, quietly, until somebody touched it.
    .repair = Join it to a cpc that runs unbroken to the earth bar.
finding-cpc-misused = The { $place } stands where { $about } belongs.
    .harm = Everybody takes a bare or a green-and-yellow conductor for earth. This one is in the place of a line or a neutral, and metal that relies on it is not earthed, or is live.
    .repair = Bare and green-and-yellow are for protection only: put it with the other cpcs, and give that job to an insulated core.
finding-cpc-open-kept = The { $place } is not terminated here; the metal keeps its earth by another cpc.
    .harm = When the other cpc is parted, the metal has no earth; nothing shows it until a fault.
    .repair = Sleeve it, put it in the earth terminal with the others, and tighten it.
finding-cpc-open-kept-by-other = The { $place } is not terminated here; the box relies on another circuit's cpc.
    .harm = With the other circuit parted or taken out, the box has no earth; nothing shows it until a fault.
    .repair = Sleeve it, put it in the earth terminal with the others, and tighten it.
finding-cpc-open-unterminated = The { $place } is in no terminal.
    .harm = Whatever relies on it has no earth; the lamps work and nobody notices until a fault.
    .repair = Sleeve it, put it in the earth terminal with the others, and tighten it.
finding-cpc-open = The { $place } is not joined through to the earth bar.
    .harm = Whatever relies on it has no earth; the lamps work and nobody notices until a fault.
    .repair = Sleeve it, put it in the earth terminal with the others, and tighten it.
finding-tail-missing-unearthed = The metal at { $place } is not earthed: nothing joins it to the cpc.
    .harm = A fault to it stays: the lamps work, no device trips, and whoever touches it is the way to earth.
    .repair = Fit a green-and-yellow tail from the terminal where the cpc is.
finding-tail-missing = The metal at { $place } relies on screws for its earth.
    .harm = Paint, a plastic washer or a loose screw, and the metal is no longer earthed.
    .repair = Fit a green-and-yellow tail from the terminal where the cpc is.
finding-tail-advised = { $place } is earthed through the plate's screws alone.
    .harm = It holds while the fixed lug does.
    .repair = A green-and-yellow tail from the plate to the box makes it certain.

## Identification

finding-mark-missing = The { $place } is { $about }, and nothing says so.
    .harm = The next person takes it for what its colour says.
    .repair = Sleeve it, tape it or letter it at this end.
finding-mark-false = The { $place } is { $about }, and its mark says it is something else.
    .harm = The next person trusts the mark.
    .repair = Take the mark off and put the right one on.
finding-cpc-unsleeved = The { $place } is bare.
    .harm = When the plate is pushed home, bare copper can lie against a live terminal.
    .repair = Slide green-and-yellow sleeving over it from the sheath to the terminal.

## Terminations

finding-connection-slack = The screw is loose: { $place }.
    .harm = A loose joint warms, sparks and works looser; on a cpc it is an earth that nobody can rely on.
    .repair = Tighten it, and pull each conductor.
finding-loose-end = The { $place } is in no terminal.
    .harm = It can touch what it should not as the plate goes back, and nobody can tell what it was for.
    .repair = End it in its terminal, or in a connector at both ends if nothing needs it.

finding-bare-copper-showing = Bare copper shows outside the terminal: { $place }.
    .harm = A finger, a probe or the next conductor can touch it once the plate is crooked or off.
    .repair = Cut it back so that only bare copper is inside and only insulation outside.
finding-insulation-under-screw = The terminal bites on insulation: { $place }.
    .harm = There is copper under part of the screw alone: it warms, and it pulls out.
    .repair = Strip more, so that copper fills the terminal.
finding-fold-missing = This terminal needs a single thin conductor folded back: { $place }.
    .harm = The screw passes beside a thin conductor in a wide hole, and it works loose.
    .repair = Strip twice the depth and fold it back.
finding-fold-wrong = Folded back where it must not be: { $place }.
    .harm = A cage, a lever or a spring is made for one straight conductor; a fold keeps it from closing.
    .repair = Straighten it, and cut it to the terminal's depth.
finding-nicked = The strippers cut into the copper: { $place }.
    .harm = Sooner or later it breaks there, out of sight behind a plate.
    .repair = Cut the nick off and strip again with the jaw of the core's size.
finding-crushed = The screw was driven through the conductor: { $place }.
    .harm = Less copper carries the load, and it breaks at the next pull.
    .repair = Cut the crushed part off and make the end afresh.
finding-unlike-sizes = The screw rests on a much thicker conductor and misses this one: { $place }.
    .harm = The thin one is held by nothing; it warms and works loose.
    .repair = Fold the thin one back, or give it a terminal of its own.
finding-joint-hot = A joint that gets hot: { $place }.
    .harm = Heat in a closed box chars what is round it. This is how fires begin.
    .repair = Make the joint afresh: bare to the depth, undamaged, tight.

## Boxes and sheath

finding-sheath-outside = The sheath ends outside the enclosure: { $place }.
    .harm = Cores without their sheath lie in the wall, with nothing over their one insulation.
    .repair = Bring the cable in until its sheath ends inside.
finding-grommet-missing = There is no grommet in the metal box: { $place }.
    .harm = The edge of the knock-out cuts the sheath in time, and line meets metal.
    .repair = Fit a grommet in each knock-out that is used.
finding-box-too-shallow = The box is shallower than this accessory needs: { $place }.
    .harm = The plate presses the conductors against the back of the box.
    .repair = Ask for a deeper box.
finding-conductor-trapped = The plate has caught a conductor: { $place }.
    .harm = Its insulation is cut against the lug: sooner or later that is a fault to the metal of the box.
    .repair = Free it, make its insulation good, and lay the conductors clear of the lugs before the plate goes home.

## Choice of cable

finding-cable-unchosen = No cable was chosen: { $place }.
    .harm = Without it nothing is joined there.
    .repair = Say first what must run between the two places, then how thick, and choose the cable that satisfies both.
finding-cable-thin = As it is laid, the { $place } carries less than its device lets through.
    .harm = The device is content with a current that cooks the cable, year after year, where nobody sees it.
    .repair = Compare the rating of the device with what the table gives the cable as it is laid; in insulation that is half.
finding-volt-drop = More than 3 % of the voltage is lost on the way to the light, and a thicker { $place } would win most of it back.
    .harm = A filament lamp burns dull, an electronic one may flicker, and what is lost warms the cable.
    .repair = Millivolts for each ampere and metre, times the current, times the length: add it up along the way, and choose more copper where it is longest.
finding-reason-wrong = The { $place } will do, but not because { $about }.
    .harm = A cable chosen for the wrong reason is wrong on the next job, where the run is longer or the device larger.
    .repair = Look at each lesser cable on offer: has it too few insulated conductors, is it too thin for the device, too thin for the length? What rules it out is the reason; if nothing does, any of them would do, and that is the answer.

## Safe working

finding-cover-off = The cover is off: { $place }.
    .harm = With the power on, terminals can be touched.
    .repair = Fit the plate or cover before the power comes on and before you hand in.
finding-stage-missing = Not done, or not finished: { $place }.
    .harm = What was not checked was only hoped for.
    .repair = Do this stage in its order next time: the steps still open are listed beside the work.
finding-worked-live = You tried to work on something that was on: { $place }.
    .harm = This is how electricians die. It was stopped here; on site nothing would have stopped it.
    .repair = Identify, agree, switch off, lock off and label, and prove it dead before anything is opened or touched.
finding-opened-unlocked = You tried to open a place with its device off but no lock on it: { $place }.
    .harm = Anyone could switch it on again while your hands are in the box.
    .repair = Lock it off, hang your label and keep the key before you open anything.
finding-touched-unproved = You tried to touch this before it was proved dead: { $place }.
    .harm = Off at the board is not dead at the box: another circuit may feed it, or the wrong device was switched off.
    .repair = Prove the indicator, test every conductor there, prove the indicator again.
finding-wrongly-identified = You named the devices that feed this place and missed one: { $place }.
    .harm = The wrong circuit gets locked, and the right one stays on.
    .repair = Follow every cable of the place back to the board, those of a second circuit in the same box too.
finding-power-on-open = You tried to switch on with a cover off: { $place }.
    .harm = Live terminals in reach of whoever stands there.
    .repair = Every plate, cover and lid on first.
finding-power-on-unchecked = You tried to switch on with something still to do: { $place }.
    .harm = Somebody may be working on it, or the wiring was never tested dead.
    .repair = Take every reading, answer every question, see that nobody is at work, tell people: then the power.
finding-reset-untested = You tried to reset without testing why it tripped: { $place }.
    .harm = Each reset onto a fault is another bang, at the place where the fault is.
    .repair = Lock off, prove dead, find the fault by dead tests, and only then switch on.
finding-unearthed = You tried to leave an installation on without its earthing conductor: { $place }.
    .harm = Every piece of metal in the house is then without an earth: one fault makes all of it live, and nothing trips.
    .repair = Off and locked before it comes off; back, tight and read through before the lock does.
finding-bench-unproved = You tried to open this after the supply had been brought, and before it was proved dead: { $place }.
    .harm = A plug that somebody put back feeds everything behind that cover.
    .repair = Plug out and in hand, indicator proved, tested at the training board, indicator proved again: then the cover.
finding-board-unready = You tried to open the board before everything that comes first was seen to: { $place }.
    .harm = A second source feeds the board from behind; and beside live tails nobody is there to switch off or fetch help.
    .repair = Look for second sources; and where the tails stay live behind their shrouds, have a supervisor present.
finding-energised-onto-fault = { $place } was switched on, or was on, with a fault behind it, and tripped.
    .harm = Until the device tripped, the fault drew all the current that its path let through. A dead test would have found it with none.
    .repair = Make every dead test that finds it before power-on, line and neutral to earth among them, and believe what it shows.

finding-wrong-instrument = You offered a voltage stick or a multimeter as proof of dead: { $place }.
    .harm = A stick shows nothing beside earthed metal or through your own charge; a multimeter shows nothing on the wrong range or with its fuse gone.
    .repair = Take the two-pole indicator: prove it, test, prove it again.
finding-link-left-in = A test link is still in: { $place }.
    .harm = Line is joined to the cpc: as the power comes on, it is a short.
    .repair = Take the link out as soon as the last reading through it is taken, and count your links before power-on.
finding-lock-left-on = Your own lock and label are still on { $place }, and what it feeds is off: { $lights }.
    .harm = Somebody comes home to a dead circuit that nobody else may switch on.
    .repair = Take your own lock and label off, switch on, and see that everything on that circuit works.
finding-lamp-left-out = The lamp is not back in its holder: { $place }.
    .harm = The light is off, and the contacts of an empty holder are live at every turn of the switch.
    .repair = Fit the lamps again before you work the switches, and count them before you go.
finding-fault-unreported = Something was wrong here before you came, and nobody was told: { $place }.
    .harm = The next person trusts it, and locks off the wrong circuit.
    .repair = Compare the chart with what the cables say, and report what does not agree.
finding-energised-past-fault = The power came on past something dangerous that was there before you came, and nobody was told: { $place }.
    .harm = Whoever uses or opens it next gets the shock, and you were the last person who could have said so.
    .repair = Look at what is there before you begin, report it in writing, and leave off what is dangerous until it is seen to.
finding-indicator-unreported = The voltage indicator did not work, and nobody was told. It came with the kit.
    .harm = The next person takes it from the same shelf, and a live conductor looks dead.
    .repair = Set it aside with a label on it, and report it; another one for yourself is not enough.

## Test results

finding-test-missing = Not read, or not written down: { $place }.
    .harm = The sheet vouches for the wiring, and here it vouches for nothing.
    .repair = Take every reading that this test asks for, and write its line.
finding-test-incomplete = Read, but not with the circuit as the test asks: { $place }. { $about }
    .harm = What lies behind an open switch is not tested, and what is joined through a lamp reads as if it were a fault.
    .repair = Set the circuit as the test asks, read again, and write the line.
finding-test-order = Begun before a test that comes first: { $place }.
    .harm = Each test relies on the one before: insulation of an open conductor reads well, and a loop with the polarity wrong is measured through the wrong things.
    .repair = Inspect; continuity; insulation resistance; polarity; then the power, supply polarity, loop impedance, residual current device.
finding-test-not-repeated = Work was done after this, and it was not tested again: { $place }.
    .harm = What was touched last is what nobody looked at.
    .repair = After any work at a place, repeat every test of its circuits.
finding-instrument-set-wrong = The instrument was not set for this: { $place }.
    .harm = Leads that were not nulled are in the figure; at too low a voltage weak insulation reads well.
    .repair = Hold the leads together and null them before continuity; 500 V for insulation of a lighting circuit.
finding-figure-wrong = The figure is not what was read: { $place }.
    .harm = The next person compares with it, and looks for a fault that is not there, or misses one.
    .repair = Write what the display shows: the highest of R1+R2 and Zs, the lowest of insulation, > where it is off the scale.
finding-figure-unread = Written down and never read: { $place }.
    .harm = A figure made up is worse than none: it says that somebody looked.
    .repair = Take the reading first, then write it down.
finding-figure-copied = The published limit stands here, not what was read: { $place }.
    .harm = The limit says what a circuit may have, and nothing of what this one has.
    .repair = Write what the display shows.
finding-figure-source = Its source or its name is not the one written: { $place }.
    .harm = Ze is the supply alone, Zdb all that comes before this board, and a figure from a card is not one of yours: whoever tests after you compares the wrong two.
    .repair = Write Ze + (R1+R2) at the origin and Zdb + (R1+R2) at a board fed from another, and say when the figure is from the card.
finding-figure-sign = The display showed the end of its range, and the > was left off: { $place }.
    .harm = None, but the next person takes it for the value itself.
    .repair = Write > before the value: the insulation is better than the instrument can show.
finding-insulation-low = The power came on over insulation that had read below 1 MΩ: { $place }.
    .harm = Current leaks where it should not. It may warm and burn there, or stand on metal that somebody touches.
    .repair = Find what lets it through, put it right, and read again before the power comes on.
finding-judgement-wrong = The result was judged the wrong way round: { $place }.
    .harm = What should be put right is passed, or what is sound is taken apart.
    .repair = Insulation at least 1 MΩ; a cold loop at most 0.8 of the published limit; a residual current device inside 300 ms; polarity sound when every switch is in the line and neutral comes straight to the lamp.

## Functional test

finding-function-untested = Not every switch was worked in every position, last of all and with the power on: { $place }.
    .harm = The tests say that it is safe; only this says that it works.
    .repair = After the last live test work every switch through every combination that matters.

## Prediction

finding-prediction-missing = Not every position was predicted.
    .harm = If nobody says beforehand what should happen, nobody notices when something else does.
    .repair = Answer for every position before the power comes on.
finding-prediction-wrong = Your { $place } is not what this wiring does.
    .harm = A surprise at the switch is harmless here; on site it means that the wiring is not understood.
    .repair = On the drawing, follow the line from the feed through each plate as it is set.

## Diagnosis

finding-diagnosis-missing = What is wrong was not said.
    .harm = Readings that nobody draws a conclusion from leave the fault where it is.
    .repair = Read until a single fault fits all that was read, and name it; that nothing is wrong is an answer too.
finding-diagnosis-wrong = What you named is not what is wrong.
    .harm = The wrong part is changed, and the fault is still there when the power comes back.
    .repair = Look at the readings once more: below, each says which faults still fitted after it.
finding-diagnosis-unproved = What you named is what is wrong, and your readings do not show it: other faults fit them too.
    .harm = The next time the guess is wrong.
    .repair = Ask of each reading what it could tell apart, and read on until only one fault is left.
## Naming

finding-name-missing = { $place }: you did not say which one it is.
    .harm = What is joined without a name is joined by luck, and the next person finds no label.
    .repair = Find out which it is with the low-resistance meter, and say so before you join it.
finding-name-wrong = { $place }: this is not the { $called }, as you called it.
    .harm = What is joined by a wrong name goes where the other belongs: line into a neutral, or a switch that does nothing.
    .repair = Read again from the far end with the long lead, or with its cores linked there, and give it the right name.
finding-name-guessed = { $place }: the name is right, and no reading by then told you so.
    .harm = A guess is right once in a while. On the next job it joins line to neutral.
    .repair = Before you join it, take a reading that can come out one way only: core to core by the long lead, or with two cores linked at the far end.
## Observations

finding-observation-missed = You passed this over: { $about }, { $place }.
    .harm = What an inspector does not name is signed for as sound, and nobody comes to look again.
    .repair = Take every cover off, look at each end from sheath to screw, and pull at it.
finding-observation-misplaced = Right, but at another point of this place: { $about }, { $place }.
    .harm = The person who is sent to mend it opens what is sound and may leave what is not.
    .repair = Name the end or the terminal where you saw it.
finding-observation-invented = This is as it should be: { $about }, { $place }.
    .harm = Good work is taken apart, and after that nobody trusts the list.
    .repair = Say only what you have seen or felt, and know which rule it breaks.

## Right the first time

finding-work-redone = Done again after { $about }: { $place }.
    .harm = On site it costs time, and each opening of a finished joint is a chance to spoil it.
    .repair = Look at each end and pull it before the plate goes on; the tests then only tell you what you know.
finding-reset-onto-fault = Power was put back onto the fault that had tripped { $place }.
    .harm = Each time, the same current flows through the same joint, and the device wears.
    .repair = After a trip find the cause by dead tests before power comes back.
finding-hint-taken = A hint was asked for: { $place }.
    .harm = Nothing by itself: asking is a good way to learn. On site there is nobody to ask.
    .repair = Go over what you did, conductor by conductor, before you ask.
