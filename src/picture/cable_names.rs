//! Where the names of cables stand on a plan.

use super::{
    canvas::{Canvas, Type, fill, thin},
    paint::{Fill, Paint},
    shape::{Anchor, Layer, Path, Rect, Xy},
    text::wrapped,
};

/// Writes each name beside its cable, clear of what is `taken` and if it can be of what is `cut`, on the wall that is `behind` it. A name that finds no room is left
/// out: the closer view has it. `wider` is how much further than usual each cable reaches to its sides. Returns where they stand.
pub(super) fn name_cables(
    canvas: &mut Canvas,
    (names, wider): (&[&str], impl Fn(usize) -> f32),
    routes: &[Path],
    [taken, cut]: [&[Rect]; 2],
    behind: impl Fn(Xy) -> Paint,
) -> Vec<Rect> {
    let lines: Vec<Vec<Xy>> = routes.iter().map(Path::close_together).collect();
    let mut written: Vec<Rect> = Vec::new();
    for (index, name) in names.iter().enumerate() {
        let style = Type::plain(14.0, Paint::Wall);
        let words = wrapped(name, style.size, style.weight, 150.0, 1);
        let Some(text) = words.first() else { continue };
        let (w, h) = (style.width(text) + 8.0, 22.0);
        let on = &lines[index];
        // From the middle outwards: half-way along, a name is least taken for that of a card.
        let points = [50, 40, 60, 30, 70, 20, 80].into_iter().filter_map(|it| on.get(on.len() * it / 100));
        let spots = points.flat_map(|it| {
            let (across, up) = (w / 2.0 + 11.0 + wider(index), h / 2.0 + 10.0 + wider(index));
            [
                (across, 0.0),
                (-across, 0.0),
                (0.0, -up),
                (0.0, up),
                (across, up),
                (-across, -up),
                (across, -up),
                (-across, up),
            ]
            .map(|(dx, dy)| Rect::new(it.x + dx - w / 2.0, it.y + dy - h / 2.0, w, h))
        });
        let free = |it: &Rect| !taken.iter().chain(&written).any(|other| other.grown(4.0).overlaps(it));
        let clear = |it: &Rect| !lines.iter().flatten().any(|point| it.grown(4.0).contains(*point));
        let spots: Vec<Rect> = spots.filter(|it| free(it) && clear(it)).collect();
        let plain = |it: &&Rect| !cut.iter().any(|cut| cut.overlaps(it));
        let Some(spot) = spots.iter().find(plain).or(spots.first()).copied() else { continue };
        written.push(spot);
        let at = Xy::new(spot.left + w / 2.0, spot.top + 16.0);
        // No joist or beam runs through the letters.
        if !plain(&&spot) {
            canvas.rect(Layer::Names, None, spot.grown(-2.0), 4.0, fill(Fill::Flat(thin(behind(at), 225))));
        }
        canvas.text(Layer::Names, None, at, Anchor::Middle, Type { on: behind(at), ..style }, text);
    }
    written
}
