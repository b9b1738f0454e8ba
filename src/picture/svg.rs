//! SVG from a scene.
//!
//! Well formed and escaped by construction, self-contained, the same bytes for the same scene. Ids are left out, so
//! that several drawings may stand in one page.

use std::fmt::Write as _;

use xmlwriter::{Indent, Options, XmlWriter};

use super::shape::{Anchor, FontWeight, Outline, Paint, Path, Scene, Segment, Shape, Text};

/// The scene as SVG, with a title and a description for those who listen to it.
pub fn svg(scene: &Scene, title: &str, description: &str) -> String {
    let mut xml = XmlWriter::new(Options { indent: Indent::Spaces(1), ..Options::default() });
    let (width, height) = (Number(scene.width), Number(scene.height));
    xml.start_element("svg");
    xml.write_attribute("xmlns", "http://www.w3.org/2000/svg");
    xml.write_attribute_fmt("viewBox", format_args!("0 0 {width} {height}"));
    xml.write_attribute("width", &width);
    xml.write_attribute("height", &height);
    xml.write_attribute("role", "img");
    xml.write_attribute("font-family", "'Noto Sans', 'DejaVu Sans', Verdana, Arial, sans-serif");
    xml.write_attribute("fill", "none");
    xml.write_attribute("stroke-linejoin", "round");
    words(&mut xml, "title", title);
    words(&mut xml, "desc", description);
    let mut layer = None;
    for shape in &scene.shapes {
        if layer != Some(shape.layer) {
            if layer.is_some() {
                xml.end_element();
            }
            xml.start_element("g");
            layer = Some(shape.layer);
        }
        draw(&mut xml, shape);
    }
    xml.end_document()
}

fn draw(xml: &mut XmlWriter, shape: &Shape) {
    match &shape.outline {
        Outline::Text(it) => return text(xml, it),
        Outline::Path(it) => {
            xml.start_element("path");
            xml.write_attribute("d", &steps(it));
        }
        Outline::Circle { centre, radius } => {
            xml.start_element("circle");
            xml.write_attribute("cx", &Number(centre.x));
            xml.write_attribute("cy", &Number(centre.y));
            xml.write_attribute("r", &Number(*radius));
        }
        Outline::Rect { rect, radius } => {
            xml.start_element("rect");
            xml.write_attribute("x", &Number(rect.left));
            xml.write_attribute("y", &Number(rect.top));
            xml.write_attribute("width", &Number(rect.width));
            xml.write_attribute("height", &Number(rect.height));
            if *radius > 0.0 {
                xml.write_attribute("rx", &Number(*radius));
            }
        }
    }
    if let Some(paint) = shape.fill {
        xml.write_attribute("fill", &Hex(paint));
    }
    if let Some(stroke) = shape.stroke {
        xml.write_attribute("stroke", &Hex(stroke.paint));
        xml.write_attribute("stroke-width", &Number(stroke.width));
    }
    xml.end_element();
}

fn text(xml: &mut XmlWriter, it: &Text) {
    let anchor = match it.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    xml.start_element("text");
    xml.write_attribute("x", &Number(it.at.x));
    xml.write_attribute("y", &Number(it.at.y));
    xml.write_attribute("font-size", &Number(it.size));
    xml.write_attribute("text-anchor", anchor);
    if it.weight == FontWeight::Bold {
        xml.write_attribute("font-weight", "bold");
    }
    xml.write_attribute("fill", &Hex(it.paint));
    inner(xml, &it.text);
}

fn words(xml: &mut XmlWriter, element: &str, words: &str) {
    xml.start_element(element);
    inner(xml, words);
}

/// The text of the open element, which it closes. No white space is added to it.
fn inner(xml: &mut XmlWriter, words: &str) {
    xml.set_preserve_whitespaces(true);
    xml.write_text(&escaped(words));
    xml.end_element();
    xml.set_preserve_whitespaces(false);
}

/// The writer escapes `<` but leaves `&` and `>` as they are, and knows nothing of what XML 1.0 forbids altogether.
fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for it in words.chars() {
        match it {
            '&' => out.push_str("&amp;"),
            '>' => out.push_str("&gt;"),
            '\n' | '\r' | '\t' => out.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            it => out.push(it),
        }
    }
    out
}

fn steps(path: &Path) -> String {
    let mut out = format!("M{} {}", Number(path.start.x), Number(path.start.y));
    for segment in &path.segments {
        // Writing to a string can't fail.
        let _ = match segment {
            Segment::Line(to) => write!(out, "L{} {}", Number(to.x), Number(to.y)),
            Segment::Cubic(a, b, to) => {
                let [a, b, to] = [a, b, to].map(|it| format!("{} {}", Number(it.x), Number(it.y)));
                write!(out, "C{a} {b} {to}")
            }
        };
    }
    if path.closed {
        out.push('Z');
    }
    out
}

/// A length to a tenth of a unit.
struct Number(f32);

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let tenths = (self.0 * 10.0).round() as i32;
        let sign = if tenths < 0 { "-" } else { "" };
        let (whole, rest) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
        if rest == 0 { write!(f, "{sign}{whole}") } else { write!(f, "{sign}{whole}.{rest}") }
    }
}

/// A paint's colour.
struct Hex(Paint);

impl std::fmt::Display for Hex {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let [r, g, b] = self.0.rgb();
        write!(f, "#{r:02x}{g:02x}{b:02x}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_xml_reserves_is_escaped_and_what_it_forbids_is_replaced() {
        let scene = Scene { width: 10.0, height: 10.0, shapes: Vec::new(), spots: Vec::new() };
        let out = svg(&scene, "Bert & Co <1> \"x\"", "bell \u{7} and ]]>");
        assert!(out.contains("<title>Bert &amp; Co &lt;1&gt; \"x\"</title>"), "{out}");
        assert!(out.contains("<desc>bell \u{fffd} and ]]&gt;</desc>"), "{out}");
    }

    #[test]
    fn numbers_are_written_to_a_tenth() {
        let written = [0.0, -0.04, 12.25, -3.5, 7.0].map(|it| Number(it).to_string());
        assert_eq!(written, ["0", "0", "12.3", "-3.5", "7"]);
    }
}
