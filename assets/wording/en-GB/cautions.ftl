# The cautions, in the order they are read. They stand under the program's help and under every report.

cautions-heading = Before you take any of this to real wiring
caution-1 = This is practice. It works out nets and test readings for an invented place, not for your house, and passing here makes nobody competent or certified.
caution-2 = Nothing here gives leave to work on real wiring. Some jobs in dwellings must be notified or certified; the rules differ in England, Wales, Scotland and Northern Ireland, and they change.
caution-3 = Figures follow the edition of BS 7671 that the report names. The standard itself, the maker's sheet and the local rules come before this program.
caution-4 = Never work live. Isolate, lock off, prove the indicator, prove dead, prove the indicator again. What is dead on this screen has not been measured anywhere.
caution-5 = A wall switch isolates nothing. A box with two-way switches or several gangs may hold two circuits, and a neutral can be live.
caution-6 = Old colours, no cpc, rubber or lead sheath, scorching, no RCD: stop, and call a competent person.
caution-7 = Torques and strip lengths are typical ones. Read the sheet in the box.
caution-8 = After real work, dead tests come before power, and live tests need the right instruments and training.
caution-9 = The marking can be wrong: tell us when it is. A tick here is not an inspection.
caution-10 = Learners under supervision: your supervisor decides when real power goes on.
