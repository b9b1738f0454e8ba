//! Text from outside, made fit for a terminal or a page.

/// Text as it may go to a terminal: line breaks stay, whatever else would move the cursor, change colours or turn the
/// direction of text becomes a replacement sign.
pub fn clean(text: &str) -> String {
    text.chars().map(|it| if it == '\n' { it } else { cleaned(it) }).collect()
}

/// One character of a line, cleaned. It stays one character, so that columns stay as they were.
pub fn cleaned(it: char) -> char {
    match it {
        '\t' => ' ',
        '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{61c}' | '\u{feff}' => {
            '\u{fffd}'
        }
        it if it.is_control() => '\u{fffd}',
        it => it,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_would_move_the_cursor_does_not_reach_the_terminal() {
        assert_eq!(clean("a\u{1b}[2Jb\u{7}\u{9b}\u{202e}c\r\nd"), "a\u{fffd}[2Jb\u{fffd}\u{fffd}\u{fffd}c\u{fffd}\nd");
    }
}
