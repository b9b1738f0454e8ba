//! The one test target: one link step, shared helpers.

// A pair of hands that does an exercise step by step, for everything below.
mod hand;
// Shipped exercises: models, faults, blanks.
mod exercises;
// Rules that no fault file fires, and the proof that every code has a case.
mod rules;
// Every single slip from each accepted wiring, against an oracle of another make.
mod slips;
