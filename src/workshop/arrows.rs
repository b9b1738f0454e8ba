//! Pale arrows along what carries a current, at one instant; ticks outwards from what is live.

use bevy_egui::egui::{Painter, Pos2, Rect, Shape, Stroke, Vec2};

use crate::workshop::{foreseen::nearest, theme};

/// Between two arrows, and between the ticks of what is live, points.
pub const ARROWS: f32 = 46.0;
const TICKS: f32 = 16.0;
/// On which sides of a way ticks stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sides {
    /// On both.
    Both,
    /// Beneath it and to its right, where above it stand words.
    Beneath,
}

/// From where to where ticks reach beside a core of the see-through house, points.
pub const BESIDE_CORE: [f32; 2] = [6.0, 11.0];
/// The colour of the ticks: that of a warning, for what is live can kill.
const LIVE: theme::Role = theme::WARNING;

/// The places at even distances along a way, each with its direction: the first at half that distance from its start, and this much further.
fn along(way: &[Pos2], every: f32, further: f32) -> Vec<(Pos2, Vec2)> {
    let mut found = Vec::new();
    let mut left = (every / 2.0 + further) % every;
    for pair in way.windows(2) {
        let along = pair[1] - pair[0];
        let (length, unit) = (along.length(), along.normalized());
        while left < length {
            found.push((pair[0] + unit * left, unit));
            left += every;
        }
        left -= length;
    }
    found
}

/// The place at a share of a way, from 0 at its start to 1.
pub fn part_way(way: &[Pos2], share: f32) -> Pos2 {
    let length: f32 = way.windows(2).map(|it| it[0].distance(it[1])).sum();
    let found = along(way, (2.0 * share * length).max(1.0), 0.0).first().map(|it| it.0);
    found.or(way.first().copied()).unwrap_or(Pos2::ZERO)
}

/// Arrows along a way, in its direction: at least one where there is room. They have walked on by so much, points. No arrow stands
/// on letters.
pub fn arrows(painter: &Painter, way: &[Pos2], size: f32, walked: f32, letters: &[Rect]) {
    let length: f32 = way.windows(2).map(|it| it[0].distance(it[1])).sum();
    if length < 2.0 * size {
        return;
    }
    for (at, unit) in along(way, ARROWS.min(length), walked) {
        if letters.iter().any(|it| it.distance_to_pos(at) < size) {
            continue;
        }
        let (tip, back, across) = (at + unit * size, at - unit * size * 0.7, unit.rot90() * size * 0.85);
        let arrow = vec![tip, back + across, at - unit * size * 0.2, back - across];
        painter.add(Shape::closed_line(arrow.clone(), Stroke::new(2.0, theme::INK)));
        // Not convex: painted as its two halves.
        for side in [1, 3] {
            painter.add(Shape::convex_polygon(vec![arrow[0], arrow[side], arrow[2]], theme::LAMPLIGHT, Stroke::NONE));
        }
    }
}

/// Whether the pointer is on one of these ways, where they are painted.
pub fn is_pointed_at(painter: &Painter, ways: &[Vec<Pos2>]) -> bool {
    let at = painter.ctx().input(|it| it.pointer.latest_pos()).filter(|it| painter.clip_rect().contains(*it));
    at.is_some_and(|it| nearest(ways, it).is_some())
}

/// Short ticks beside a way, so far away from it and up to so far, points: on both sides, or only beneath it and to its right.
pub fn ticks(painter: &Painter, way: &[Pos2], [near, far]: [f32; 2], sides: Sides) {
    for (at, unit) in along(way, TICKS, 0.0) {
        let both = [unit.rot90(), -unit.rot90()].into_iter();
        for side in both.filter(|it| sides == Sides::Both || it.x + it.y > 0.0) {
            painter.line_segment([at + side * near, at + side * far], Stroke::new(2.0, LIVE));
        }
    }
}
