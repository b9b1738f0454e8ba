//! Writing HTML: the only way in for text is cleaned and escaped.

use std::fmt::Write as _;

use crate::wording::clean;

/// A page being written.
pub struct Page(String);

impl Page {
    /// Begins with `first`, which is the program's own, and a head.
    pub fn begin(first: &str, title: &str, style: &str) -> Self {
        let mut page = Self(format!("{first}<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n"));
        // Should anything slip through after all, a browser is to fetch and run nothing.
        page.0.push_str(
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n\
             <meta name=\"viewport\" content=\"width=device-width\">\n",
        );
        page.element("title", "", title);
        page.0.push_str("<style>\n");
        page.0.push_str(style);
        page.0.push_str("</style>\n</head>\n<body>\n");
        page
    }

    /// Opens an element; tag and class are the program's own.
    pub fn open(&mut self, tag: &str, class: &str) {
        self.start(tag, class);
        self.0.push('\n');
    }

    /// Opens an element that takes so many millimetres across.
    pub fn open_across(&mut self, tag: &str, mm: f32) {
        // Writing to a string can't fail.
        let _ = writeln!(self.0, "<{tag} style=\"width:{mm:.0}mm\">");
    }

    /// Closes an element.
    pub fn close(&mut self, tag: &str) {
        let _ = writeln!(self.0, "</{tag}>");
    }

    /// An element with a text in it.
    pub fn element(&mut self, tag: &str, class: &str, text: &str) {
        self.start(tag, class);
        self.0.push_str(&escaped(text));
        self.close(tag);
    }

    /// A name and what it has, in a list of such.
    pub fn pair(&mut self, name: &str, text: &str) {
        self.element("dt", "", name);
        self.element("dd", "", text);
    }

    /// A drawing whose own writer has escaped it.
    pub fn drawing(&mut self, svg: &str) {
        self.0.push_str(&clean(svg));
    }

    /// The whole page.
    pub fn end(mut self) -> String {
        self.0.push_str("</body>\n</html>\n");
        self.0
    }

    fn start(&mut self, tag: &str, class: &str) {
        let _ = if class.is_empty() { write!(self.0, "<{tag}>") } else { write!(self.0, "<{tag} class=\"{class}\">") };
    }
}

/// Text as it may stand in HTML, between tags or in quotes.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for it in clean(text).chars() {
        match it {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            it => out.push(it),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The five characters that HTML gives a meaning (the HTML standard, 13.3, and OWASP's rule 1), and what turns text.
    #[test]
    fn text_stays_text() {
        assert_eq!(
            escaped("<b a=\"1\" c='2'>&amp;\u{202e}"),
            "&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;amp;\u{fffd}"
        );
    }
}
