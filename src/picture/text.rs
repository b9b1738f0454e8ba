//! How wide a line of text is, near enough, and how to break it.
//!
//! No font is read: whoever draws chooses one. The widths are those of a wide sans serif, so that other fonts take
//! less. Nothing here knows what the words mean.

use super::shape::{Anchor, FontWeight, Rect, Text};

/// Height above the base line, of the size.
pub(super) const ASCENT: f32 = 0.80;
/// Depth below it, of the size.
pub(super) const DESCENT: f32 = 0.24;
/// From one base line to the next, of the size.
pub(super) const LEADING: f32 = 1.22;

/// About how wide a text is.
pub fn width(text: &str, size: f32, weight: FontWeight) -> f32 {
    let ems: f32 = text.chars().map(em).sum();
    let bold = if weight == FontWeight::Bold { 1.10 } else { 1.0 };
    ems * size * bold
}

fn em(it: char) -> f32 {
    match it {
        'i' | 'j' | 'l' | '\'' | '|' | 'I' => 0.30,
        ' ' | ',' | '.' | ':' | ';' | '!' | 'f' | 't' | 'r' | '(' | ')' | '-' | '[' | ']' | '/' => 0.41,
        'm' | 'M' | 'W' | '%' | '@' => 0.99,
        'w' => 0.82,
        'A'..='Z' => 0.76,
        '0'..='9' | 'a'..='z' => 0.635,
        it if it.is_ascii() => 0.84,
        it if it.is_alphabetic() && (it as u32) < 0x250 => 0.78,
        _ => 1.05,
    }
}

/// Breaks a text into at most `most` lines no wider than `widest`; what does not fit ends in an ellipsis.
pub(super) fn wrapped(text: &str, size: f32, weight: FontWeight, widest: f32, most: usize) -> Vec<String> {
    let fits = |it: &str| width(it, size, weight) <= widest;
    let mut lines: Vec<String> = Vec::new();
    let mut words = text.split_whitespace().peekable();
    while let Some(word) = words.peek() {
        if lines.len() == most {
            break;
        }
        let mut line = String::new();
        if fits(word) {
            while let Some(word) = words.next_if(|it| line.is_empty() || fits(&format!("{line} {it}"))) {
                if !line.is_empty() {
                    line.push(' ');
                }
                line.push_str(word);
            }
        } else {
            line = shortened(word, size, weight, widest);
            words.next();
        }
        lines.push(line);
    }
    if words.peek().is_some()
        && let Some(last) = lines.last_mut()
    {
        *last = shortened(&format!("{last}\u{2026}"), size, weight, widest);
    }
    lines
}

/// Cut to a width, with an ellipsis where anything was cut.
fn shortened(text: &str, size: f32, weight: FontWeight, widest: f32) -> String {
    if width(text, size, weight) <= widest {
        return text.to_owned();
    }
    let mut kept: String = text.trim_end_matches('\u{2026}').to_owned();
    while !kept.is_empty() && width(&kept, size, weight) + size * 1.05 * 1.1 > widest {
        kept.pop();
    }
    format!("{}\u{2026}", kept.trim_end())
}

impl Text {
    /// The area it takes, near enough.
    pub fn bounds(&self) -> Rect {
        let wide = width(&self.text, self.size, self.weight);
        let left = match self.anchor {
            Anchor::Start => self.at.x,
            Anchor::Middle => self.at.x - wide / 2.0,
            Anchor::End => self.at.x - wide,
        };
        Rect::new(left, self.at.y - ASCENT * self.size, wide, (ASCENT + DESCENT) * self.size)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_breaks_at_spaces_and_a_longer_one_is_cut() {
        let lines = wrapped("box at the door of the clay store", 16.0, FontWeight::Normal, 150.0, 3);
        assert_eq!(lines.join(" "), "box at the door of the clay store");
        assert!(lines.len() > 1 && lines.iter().all(|it| width(it, 16.0, FontWeight::Normal) <= 150.0));
        let lines = wrapped(&"x".repeat(64), 16.0, FontWeight::Bold, 150.0, 2);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].ends_with('\u{2026}') && width(&lines[0], 16.0, FontWeight::Bold) <= 150.0);
        let lines = wrapped(&"word ".repeat(40), 16.0, FontWeight::Normal, 150.0, 2);
        assert_eq!(lines.len(), 2);
        assert!(lines[1].ends_with('\u{2026}') && width(&lines[1], 16.0, FontWeight::Normal) <= 150.0);
        assert!(wrapped("  ", 16.0, FontWeight::Normal, 150.0, 2).is_empty());
    }
}
