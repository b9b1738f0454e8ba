//! Tables of cells with something between them: RFC 4180, written and read. What is written can be opened in a spreadsheet program without
//! a cell doing anything there.
//!
//! The reader is our own because it has to be strict. The crate `csv` takes a quote that nothing closes for a cell that goes on to the end of the file
//! (its issues 252 and 289): the rows after it would be gone from the table that is filled in, and nobody told.

/// A table that can't be read: the line, from 1, and what is wrong there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CsvTrouble {
    /// The line.
    pub line: usize,
    /// What is wrong.
    pub what: CsvFault,
}

/// What can be wrong with a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum CsvFault {
    /// A quote that no other closes.
    OpenQuote,
    /// A quote inside a cell that does not begin with one, or something after the one that closes it.
    StrayQuote,
    /// A row of more or fewer cells than the first.
    OtherLength,
    /// No row at all.
    Empty,
}

words!(CsvFault);

/// A row as RFC 4180 has it, each cell made safe.
pub(super) fn line(cells: impl IntoIterator<Item = String>) -> String {
    let cells: Vec<String> = cells.into_iter().map(|it| cell(&it)).collect();
    format!("{}\r\n", cells.join(","))
}

/// A cell: no formula, and in quotes where it must be.
pub(super) fn cell(text: &str) -> String {
    if is_formula(text) { quoted(&format!("'{text}")) } else { quoted(text) }
}

/// Whether a spreadsheet program may take a cell for a formula, wide forms of its first characters included.
pub(super) fn is_formula(text: &str) -> bool {
    text.trim_start().starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠', '|'])
        || text.starts_with(['\t', '\r', '\n'])
}

/// A cell in quotes where it must be.
pub(super) fn quoted(text: &str) -> String {
    let text: String =
        text.chars().map(|it| if it.is_control() && !"\t\r\n".contains(it) { '\u{fffd}' } else { it }).collect();
    // A semicolon or a tab parts cells in some programs.
    if text.contains([',', ';', '\t', '"', '\r', '\n', ' ']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

/// The rows of a table, each with the line on which it begins. A line may end without its carriage return, and the last without any end; empty lines
/// are left out. Every row has as many cells as the first.
///
/// # Errors
/// What is wrong with it, and where.
pub(super) fn rows(table: &str, separator: char) -> Result<Vec<(usize, Vec<String>)>, CsvTrouble> {
    let (mut rows, mut row, mut line, mut begun) = (Vec::new(), Vec::new(), 1, 1);
    let mut rest = table;
    while !rest.is_empty() {
        let (cell, after) = first_cell(rest, separator).map_err(|what| CsvTrouble { line, what })?;
        line += cell.matches('\n').count();
        row.push(cell);
        rest = after;
        if let Some(next) = rest.strip_prefix(separator) {
            rest = next;
            // A separator at the very end has an empty cell after it.
            if rest.is_empty() {
                row.push(String::new());
            } else {
                continue;
            }
        }
        rest = rest.strip_prefix("\r\n").or_else(|| rest.strip_prefix('\n')).unwrap_or(rest);
        line += 1;
        if row != [""] {
            rows.push((begun, std::mem::take(&mut row)));
        }
        row.clear();
        begun = line;
    }
    let cells = rows.first().map(|it| it.1.len()).ok_or(CsvTrouble { line: 1, what: CsvFault::Empty })?;
    match rows.iter().find(|it| it.1.len() != cells) {
        Some((line, _)) => Err(CsvTrouble { line: *line, what: CsvFault::OtherLength }),
        None => Ok(rows),
    }
}

/// The first cell, and what comes after it: a separator, the end of a line or nothing.
fn first_cell(text: &str, separator: char) -> Result<(String, &str), CsvFault> {
    let ends = |text: &str| text.is_empty() || text.starts_with([separator, '\n']) || text.starts_with("\r\n");
    let Some(mut rest) = text.strip_prefix('"') else {
        let end = text.find([separator, '\n']).unwrap_or(text.len());
        let end = if text[end..].starts_with('\n') && text[..end].ends_with('\r') { end - 1 } else { end };
        let cell = &text[..end];
        return if cell.contains('"') { Err(CsvFault::StrayQuote) } else { Ok((cell.to_owned(), &text[end..])) };
    };
    let mut cell = String::new();
    loop {
        let (part, after) = rest.split_once('"').ok_or(CsvFault::OpenQuote)?;
        cell += part;
        let Some(more) = after.strip_prefix('"') else {
            return if ends(after) { Ok((cell, after)) } else { Err(CsvFault::StrayQuote) };
        };
        cell.push('"');
        rest = more;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(table: &str, separator: char) -> Result<Vec<Vec<String>>, CsvTrouble> {
        Ok(rows(table, separator)?.into_iter().map(|it| it.1).collect())
    }

    /// The examples of RFC 4180, section 2, items 1 to 7, as they are printed there; then what programs write besides.
    #[test]
    fn the_examples_of_the_rfc_are_read() {
        for (table, is) in [
            ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", vec![vec!["aaa", "bbb", "ccc"], vec!["zzz", "yyy", "xxx"]]),
            ("aaa,bbb,ccc\r\nzzz,yyy,xxx", vec![vec!["aaa", "bbb", "ccc"], vec!["zzz", "yyy", "xxx"]]),
            ("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", vec![vec!["aaa", "bbb", "ccc"], vec!["zzz", "yyy", "xxx"]]),
            (
                "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx",
                vec![vec!["aaa", "b\r\nbb", "ccc"], vec!["zzz", "yyy", "xxx"]],
            ),
            ("\"aaa\",\"b\"\"bb\",\"ccc\"", vec![vec!["aaa", "b\"bb", "ccc"]]),
            // Lines of another system, an empty cell at an end, an empty line, an empty cell in quotes.
            ("a,b\n1,\n\n,2\n", vec![vec!["a", "b"], vec!["1", ""], vec!["", "2"]]),
            ("a,b\r\n1,", vec![vec!["a", "b"], vec!["1", ""]]),
            ("\"\",é", vec![vec!["", "é"]]),
        ] {
            assert_eq!(
                read(table, ','),
                Ok(is.into_iter().map(|it| it.into_iter().map(str::to_owned).collect()).collect()),
                "{table:?}"
            );
        }
        assert_eq!(read("a;b,c", ';'), Ok(vec![vec!["a".to_owned(), "b,c".to_owned()]]));
    }

    #[test]
    fn what_is_wrong_with_a_table_is_told_with_its_line() {
        for (table, line, what) in [
            ("", 1, CsvFault::Empty),
            ("\r\n\r\n", 1, CsvFault::Empty),
            ("a,b\r\n1,\"2\r\n3,4\r\n", 2, CsvFault::OpenQuote),
            ("a,b\r\n1,2\"3\r\n", 2, CsvFault::StrayQuote),
            ("a,\"b\r\nc\"\r\n1,\"2\"3\r\n", 3, CsvFault::StrayQuote),
            ("a,b\r\n1,2\r\n1,2,3\r\n", 3, CsvFault::OtherLength),
            ("a,b\r\n\r\n1\r\n", 3, CsvFault::OtherLength),
        ] {
            assert_eq!(read(table, ','), Err(CsvTrouble { line, what }), "{table:?}");
        }
    }

    /// Whatever the cells are, they come back.
    #[test]
    fn what_is_quoted_is_read_back() {
        let cells = ["", "a", "a,b", "\"", "\"\"a\"", "x\r\ny", " z ", "é;\t"];
        let written = cells.map(quoted).join(",");
        assert_eq!(read(&written, ','), Ok(vec![cells.map(str::to_owned).to_vec()]));
    }

    /// RFC 4180, 2.5 to 2.7: quotes around a cell with a comma, a quote or a line break in it, and a quote doubled.
    #[test]
    fn cells_are_quoted_by_the_rfc_and_none_is_a_formula() {
        for (text, written) in [
            ("west.L1", "west.L1"),
            ("a,b", "\"a,b\""),
            ("a \"b\"", "\"a \"\"b\"\"\""),
            ("a\r\nb", "\"a\r\nb\""),
            ("=1+1", "'=1+1"),
            ("  @SUM(A1)", "\"'  @SUM(A1)\""),
            ("-2", "'-2"),
            ("+44", "'+44"),
            ("\tx", "\"'\tx\""),
            // Cut at the semicolon, the rest would be a formula in some programs; what moves a terminal's cursor is no text.
            ("a;=HYPERLINK(1)", "\"a;=HYPERLINK(1)\""),
            ("b\u{1b}[31mRED", "b\u{fffd}[31mRED"),
            ("＝1", "'＝1"),
            ("", ""),
        ] {
            assert_eq!(cell(text), written);
        }
        assert_eq!(line(["a".to_owned(), "b c".to_owned()]), "a,\"b c\"\r\n");
    }
}
