//! The tidied text as it grows: blank lines, the room before a part, line breaks.

use crate::text::line_break;

/// One line on its way onto the sheet.
pub(super) enum Slip<'t> {
    /// A line that stays to the byte, with its own line break.
    Kept {
        /// Without its line break.
        line: &'t str,
        /// Empty behind a last line without one.
        line_break: &'t str,
        /// Whether it lies outside the range that is tidied.
        outside: bool,
    },
    /// A blank line.
    Blank,
    /// A comment on a line of its own.
    Comment {
        /// The whole line.
        text: String,
        /// Whether it is not indented and may so belong to a part below it.
        at_margin: bool,
    },
    /// Any other line.
    Line {
        /// The whole line.
        text: String,
        /// Whether a part begins with it.
        is_part: bool,
    },
}

/// The tidied text so far.
pub(super) struct Tidied {
    text: String,
    line_break: &'static str,
    /// Whether a blank line waits to be written before the next line.
    blank_waits: bool,
    /// Where a blank line before a part would go: before the comments that stand right above it. `None` where there is
    /// a blank line, or nothing, above.
    room: Option<usize>,
}

impl Tidied {
    /// An empty sheet for what `text` says, with its line breaks: CRLF or CR where every line ends so, else LF.
    pub(super) fn new(text: &str) -> Tidied {
        Tidied {
            text: String::with_capacity(text.len()),
            line_break: line_break::usual(text),
            blank_waits: false,
            room: None,
        }
    }

    /// Adds the next line.
    pub(super) fn put(&mut self, slip: Slip<'_>) {
        match slip {
            Slip::Blank => self.blank_waits = true,
            Slip::Kept { line, line_break, outside } => {
                self.flush_blank();
                if self.text.is_empty() && line.starts_with('\u{FEFF}') {
                    // At the very start the mark would be taken for that of the file, and no longer be seen.
                    self.text.push_str(self.line_break);
                }
                self.text.push_str(line);
                // A carriage return alone would become half of a line break with what may follow it.
                let own = if outside || !matches!(line_break, "" | "\r") { line_break } else { self.line_break };
                self.text.push_str(own);
                // What lies outside the range is not parted from what it stands on.
                let parted = line.trim().is_empty() || outside && line.starts_with('#');
                self.room = (!parted).then_some(self.text.len());
            }
            Slip::Comment { text, at_margin } => {
                self.flush_blank();
                self.push(&text);
                if !at_margin {
                    self.room = Some(self.text.len());
                }
            }
            Slip::Line { text, is_part } => {
                self.flush_blank();
                if let Some(room) = self.room.filter(|_| is_part) {
                    self.break_at(room);
                }
                self.push(&text);
                self.room = Some(self.text.len());
            }
        }
    }

    /// Puts in a blank line. A carriage return outside the range and a line feed behind it would be one line break.
    fn break_at(&mut self, at: usize) {
        let is_half = self.line_break == "\n" && line_break::before(&self.text, at) == "\r";
        self.text.insert_str(at, if is_half { "\n\n" } else { self.line_break });
    }

    fn push(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push_str(self.line_break);
    }

    /// Writes the blank line that waits, unless nothing stands above it.
    fn flush_blank(&mut self) {
        if std::mem::take(&mut self.blank_waits) {
            if !self.text.is_empty() {
                self.break_at(self.text.len());
            }
            self.room = None;
        }
    }

    /// The whole text; blank lines at its end are gone.
    pub(super) fn finish(self) -> String {
        self.text
    }
}
