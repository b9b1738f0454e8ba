//! SVG from a scene.
//!
//! Well formed and escaped by construction, self-contained, the same bytes for the same scene. The only ids are those of
//! gradients; they hold a digest of the drawing's words, so that several drawings may stand in one page.

use std::fmt::Write as _;

use sha2::{Digest, Sha256};

use xmlwriter::{Indent, Options, XmlWriter};

use super::{
    paint::{Fill, Paint, Tint},
    shape::{Anchor, FontWeight, Outline, Path, Scene, Segment, Shape, Text, Xy},
};

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
    let gradients = Gradients::of(scene, title, description);
    gradients.define(&mut xml);
    let mut layer = None;
    for shape in &scene.shapes {
        if layer != Some(shape.layer) {
            if layer.is_some() {
                xml.end_element();
            }
            xml.start_element("g");
            layer = Some(shape.layer);
        }
        draw(&mut xml, shape, &gradients);
    }
    xml.end_document()
}

fn draw(xml: &mut XmlWriter, shape: &Shape, gradients: &Gradients) {
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
    match shape.fill {
        // The drawing as a whole says that there is no fill.
        None => {}
        Some(Fill::Flat(it)) => {
            xml.write_attribute("fill", &Hex(it.paint));
            opacity(xml, "fill-opacity", it.cover);
        }
        Some(gradient) => xml.write_attribute_fmt("fill", format_args!("url(#{})", gradients.id(gradient))),
    }
    if let Some(stroke) = shape.stroke {
        xml.write_attribute("stroke", &Hex(stroke.paint));
        opacity(xml, "stroke-opacity", stroke.cover);
        xml.write_attribute("stroke-width", &Number(stroke.width));
    }
    xml.end_element();
}

/// Said only of what does not hide everything beneath.
fn opacity(xml: &mut XmlWriter, attribute: &str, cover: u8) {
    if cover < u8::MAX {
        xml.write_attribute(attribute, &format_args!("{:.3}", f32::from(cover) / 255.0));
    }
}

/// The gradients of a drawing, each once.
struct Gradients {
    drawing: String,
    all: Vec<Fill>,
}

impl Gradients {
    fn of(scene: &Scene, title: &str, description: &str) -> Self {
        let mut all: Vec<Fill> = Vec::new();
        for it in scene.shapes.iter().filter_map(|it| it.fill).filter(|it| !matches!(it, Fill::Flat(_))) {
            if !all.contains(&it) {
                all.push(it);
            }
        }
        let digest = Sha256::new().chain_update(title).chain_update([0_u8]).chain_update(description).finalize();
        let drawing = digest.iter().take(4).fold(String::from("g"), |acc, it| format!("{acc}{it:02x}"));
        Self { drawing, all }
    }

    fn id(&self, fill: Fill) -> String {
        let place = self.all.iter().position(|it| *it == fill).unwrap_or(0);
        format!("{}-{place}", self.drawing)
    }

    fn define(&self, xml: &mut XmlWriter) {
        if self.all.is_empty() {
            return;
        }
        xml.start_element("defs");
        for fill in &self.all {
            match *fill {
                Fill::Flat(_) => {}
                Fill::Linear { from, to } => {
                    self.start(xml, "linearGradient", *fill);
                    point(xml, ["x1", "y1"], from.0);
                    point(xml, ["x2", "y2"], to.0);
                    stops(xml, [from.1, to.1]);
                }
                Fill::Radial { centre, radius, rim } => {
                    self.start(xml, "radialGradient", *fill);
                    point(xml, ["cx", "cy"], centre.0);
                    xml.write_attribute("r", &Number(radius));
                    stops(xml, [centre.1, rim]);
                }
            }
        }
        xml.end_element();
    }

    fn start(&self, xml: &mut XmlWriter, element: &str, fill: Fill) {
        xml.start_element(element);
        xml.write_attribute("id", &self.id(fill));
        xml.write_attribute("gradientUnits", "userSpaceOnUse");
    }
}

fn point(xml: &mut XmlWriter, [x, y]: [&str; 2], at: Xy) {
    xml.write_attribute(x, &Number(at.x));
    xml.write_attribute(y, &Number(at.y));
}

/// The two ends of a gradient, and the end of its element.
fn stops(xml: &mut XmlWriter, tints: [Tint; 2]) {
    for (offset, it) in ["0", "1"].into_iter().zip(tints) {
        xml.start_element("stop");
        xml.write_attribute("offset", offset);
        xml.write_attribute("stop-color", &Hex(it.paint));
        opacity(xml, "stop-opacity", it.cover);
        xml.end_element();
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
