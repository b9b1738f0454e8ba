//! Groups of circuits, linked switches, screws, the supply's bars.
