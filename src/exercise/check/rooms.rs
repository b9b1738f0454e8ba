//! The rooms: rectangles that share no more than a wall, with every location in one of them.

use std::collections::BTreeSet;

use super::{Checker, strict::is_invisible};
use crate::exercise::{
    file::{RoomFile, ScenarioFile},
    limits::Limits,
    placed::Placed,
    problem::ProblemCode,
    room::Room,
};

impl Checker<'_> {
    pub(super) fn rooms(&mut self, file: &ScenarioFile<'_>) {
        if let Some(over) = file.rooms.get(Limits::ROOMS) {
            let found = file.rooms.len().to_string();
            self.problem(ProblemCode::TooManyRooms, &over.name, found, Limits::ROOMS.to_string());
            return;
        }
        let mut names = BTreeSet::new();
        for it in &file.rooms {
            if it.name.chars().any(is_invisible) {
                self.problem(ProblemCode::BadName, &it.name, it.name.value.clone(), Limits::NAME_CHARS.to_string());
            } else {
                self.name(&it.name, Limits::NAME_CHARS);
            }
            if !names.insert(it.name.value.as_str()) {
                self.problem(ProblemCode::Duplicate, &it.name, it.name.value.clone(), "");
            }
            if let Some(room) = self.room(it) {
                self.exercise.tables.rooms.push(room);
            }
        }
        // What is wrong with a room would put places out of it: one thing is said at a time.
        if self.exercise.rooms.is_empty() || self.exercise.rooms.len() < file.rooms.len() {
            return;
        }
        for place in &file.locations {
            if !self.exercise.rooms.iter().any(|it| it.holds(place.at)) {
                let at = format!("{:?}", place.at);
                self.problem(ProblemCode::OutsideRooms, &place.id, place.id.value.clone(), at);
            }
        }
    }

    fn room(&mut self, file: &RoomFile<'_>) -> Option<Room> {
        let (from, to) = (self.corner(&file.from), self.corner(&file.to));
        let (from, to) = (from?, to?);
        if from.0 >= to.0 || from.1 >= to.1 {
            self.problem(ProblemCode::BadRoom, &file.from, format!("{from:?}"), format!("{to:?}"));
            return None;
        }
        let room = Room { name: file.name.value.clone(), kind: file.kind, from, to };
        if let Some(other) = self.exercise.rooms.iter().find(|it| it.overlaps(&room)) {
            let other = other.name.clone();
            self.problem(ProblemCode::RoomsOverlap, &file.from, room.name.clone(), other);
        }
        Some(room)
    }

    fn corner(&mut self, at: &Placed<'_, (i16, i16)>) -> Option<(i16, i16)> {
        let (most, (x, y)) = (Limits::ROOM_UNITS, at.value);
        let fits = (-most..=most).contains(&x) && (-most..=most).contains(&y);
        if !fits {
            self.problem(ProblemCode::BadNumber, at, format!("({x}, {y})"), format!("-{most} to {most}"));
        }
        fits.then_some(at.value)
    }
}
