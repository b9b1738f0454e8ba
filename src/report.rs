//! A mark sheet told: when each finding arose and what it would have led to, in lines for a terminal, as a page to be printed, as JSON
//! for machines.
//!
//! [`Marked`] is the way in: from the text of an attempt file to its sheet, and from there to any of the three. Text comes out; this room
//! opens no file, judges nothing, and makes up no sentence that is not in the catalogues.

mod consequence;
mod html;
mod isolated;
mod json;
mod marked;
mod moment;
mod positions;
mod search;
mod story;
mod text;
mod would_have;

pub use consequence::{Consequence, consequence};
pub(crate) use html::{Clean, document};
pub use html::{FilledIn, FormPart, TITLE, forms_page};
pub use isolated::Isolated;
pub use json::{SheetJson, schema};
pub use marked::Marked;
pub use moment::moments;
pub use positions::{PositionLine, PositionTable};
pub use search::{ToldReading, searched, told_readings};
pub use story::Story;
pub use text::{About, criterion_line, noticed, of_format, praise, receipt_code, report};
pub use would_have::would_have;
